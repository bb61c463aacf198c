"""Which facts an answer hangs on, by hand-made works whose law is simple."""

import pytest

from registry.facts import edtf
from registry.facts.work import read_work
from registry.law.decisive import decisive
from registry.rulebook import rulebook

PUBLISHED = {"kind": "print", "authorship": "individual", "published": True}
ROWS = [
    ("old US print: nothing but its date of publication", "US",
     {**PUBLISHED, "publications": [{"date": "1920", "country": "US"}], "us_notice": True, "us_renewed": True,
      "creators": [{"died": "1960", "nationality": ["US"]}]}, ("publications.date",)),
    ("US print of 1950: renewal, and that it was the US", "US",
     {**PUBLISHED, "publications": [{"date": "1950", "country": "US"}], "us_notice": True, "us_renewed": True,
      "creators": [{"died": "1990", "nationality": ["US"]}]}, ("us_renewed",)),
    ("British painting: the death of its maker", "GB",
     {"kind": "painting", "authorship": "individual", "published": True, "creators": [{"died": "1940", "nationality": ["GB"]}],
      "publications": [{"date": "1930", "country": "GB"}]}, ("died",)),
]


@pytest.mark.parametrize("_what, place, facts, needed", ROWS, ids=[row[0] for row in ROWS])
def test_decisive_facts(_what, place, facts, needed):
    book = rulebook()
    found = decisive(read_work(facts, book.vocabulary), place, book.laws, edtf.day("2026-07-01"))
    assert set(needed) <= set(found)


def test_what_does_not_matter_is_left_out():
    book = rulebook()
    facts = {**PUBLISHED, "publications": [{"date": "1920", "country": "US"}], "us_notice": True, "us_renewed": True,
             "creators": [{"died": "1960", "nationality": ["US"]}], "created": "1919"}
    found = decisive(read_work(facts, book.vocabulary), "US", book.laws, edtf.day("2026-07-01"))
    assert "died" not in found and "us_renewed" not in found and "us_notice" not in found and "created" not in found
