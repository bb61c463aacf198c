"""Presumptions behind an answer of "free" are asked about first, each only where its opposite would protect."""

import pytest
from rows import answer

DAY = "2026-07-01"
PRINT = {"kind": "print", "created": "1930"}
CASES = [
    ("credit not recorded: taken as one person", "AR", {"kind": "drawing", "created": "1930", "creators": [{"died": "1930", "nationality": ["AR"]}],
                                                        "publications": [{"date": "1931", "country": "AR"}]}, "authorship"),
    ("company print, no maker on record", "CN", {**PRINT, "authorship": "corporate", "publications": [{"date": "1930", "country": "CN"}]}, "creators"),
    ("company print, no maker on record", "FR", {**PRINT, "authorship": "corporate", "publications": [{"date": "1930", "country": "FR"}]}, "maker_named_on_copies"),
    ("nationality taken from the first publication", "FR", {**PRINT, "authorship": "individual", "creators": [{"died": "1970"}],
                                                           "publications": [{"date": "1930", "country": "US"}]}, "nationality"),
    ("whether it came out late is not recorded", "DE", {"kind": "drawing", "authorship": "individual", "created": "1840",
                                                        "creators": [{"died": "1850", "nationality": ["DE"]}]}, "first_published_late"),
    ("disclosure of the name not recorded", "IT", {**PRINT, "authorship": "anonymous", "creators": [{"author_untraceable": True, "nationality": ["IT"]}],
                                                   "publications": [{"date": "1930", "country": "IT"}]}, "identity_disclosed"),
]


@pytest.mark.parametrize("what, place, facts, asked", CASES, ids=[f"{row[1]}-{row[3]}" for row in CASES])
def test_the_presumption_is_asked_about(what, place, facts, asked):
    got = answer(facts, place, DAY)
    assert got["status"] == "public_domain", what
    assert asked in [one["fact"] for one in got["open"]], what
    assert all(one["question"].startswith("Please confirm:") for one in got["open"])


def test_nothing_is_asked_when_all_is_on_record():
    facts = {**PRINT, "authorship": "individual", "creators": [{"died": "1940", "nationality": ["IT"]}], "publications": [{"date": "1930", "country": "IT"}]}
    assert answer(facts, "IT", DAY)["open"] == []
