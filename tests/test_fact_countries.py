"""Countries among the facts: only codes of ISO 3166-1, so that a slip is never taken for a place without treaties."""

import json
import tomllib

import pytest
from rows import answer

from registry import data
from registry.errors import BadFacts
from registry.facts.work import read_work
from registry.rulebook import place_names, rulebook

DAY = "2026-07-01"
UNTIED = {"ER", "ET", "IQ", "IR"}   # no copyright relations with the US, says the Copyright Office
AMERICAN = {"US", "PR", "GU", "VI", "MP"}


@pytest.mark.parametrize("code", ["UK", "SU", "YU", "DD", "EU", "ZZ"])
@pytest.mark.parametrize("facts", [{"publications": [{"country": "?"}]}, {"creators": [{"nationality": ["?"]}]},
                                   {"creators": [{"domicile": "?"}]}, {"government_of": "?"}])
def test_codes_of_no_country_are_refused(code, facts):
    filled = json.loads(json.dumps(facts).replace("?", code))
    with pytest.raises(BadFacts, match=f'"{code}"'):
        read_work(filled, rulebook().vocabulary)


@pytest.mark.parametrize("code", sorted(place_names()))
def test_only_states_without_relations_lose_us_protection_for_formalities(code):
    work = {"kind": "print", "authorship": "individual", "created": "1950", "creators": [{"died": "1960", "nationality": [code]}],
            "publications": [{"date": "1950", "country": code}], "us_notice": False, "us_renewed": False,
            "us_published_within_30_days": False, "home_protected_on_restoration": True}
    assert (answer(work, "US", DAY)["status"] == "public_domain") == (code in UNTIED | AMERICAN)


def test_every_restored_place_is_a_place():
    assert set(tomllib.loads(data.read_text("treaties.toml"))["us-restoration"]) <= set(place_names())
