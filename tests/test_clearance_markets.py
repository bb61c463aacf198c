"""Markets as written: places, groups, groups without some members."""

import pytest

from registry.clearance.markets import market, written
from registry.errors import RegistryError

GROUPS = {"EU": ["DE", "ES", "MT"], "FAIRS": ["GB", "IE"]}


@pytest.mark.parametrize("text, name, codes, group", [
    ("US", "US", ("US",), False), (" us ", "US", ("US",), False), ("eu", "EU", ("DE", "ES", "MT"), True), ("Fairs", "FAIRS", ("GB", "IE"), True),
    ("EU minus ES", "EU minus ES", ("DE", "MT"), True), ("eu MINUS es", "EU minus ES", ("DE", "MT"), True), ("EU minus ES minus MT", "EU minus ES minus MT", ("DE",), True),
    ("EU minus ES, MT", "EU minus ES, MT", ("DE",), True), ("EU minus ES MT", "EU minus ES MT", ("DE",), True)])
def test_a_market_opens_to_its_places(text, name, codes, group):
    found = market(text, GROUPS)
    assert (found.name, found.codes, found.group) == (name, codes, group)


@pytest.mark.parametrize("text, word", [("EUROPE", "not a market"), ("U", "not a market"), ("1A", "not a market"), ("", "not a market"), ("EU minus US", "not in EU"),
                                        ("EU minus", "not a market"), ("EU minus DE ES MT", "no place"), ("US minus US", "no place"), ("EU minus EUROPE", "not a market")])
def test_what_is_no_market_is_refused(text, word):
    with pytest.raises(RegistryError, match=word):
        market(text, GROUPS)


WORDS = {"germany": "DE", "spain": "ES", "united kingdom": "GB"}


@pytest.mark.parametrize("text, name, codes", [
    ("Germany", "DE", ("DE",)), ("united  kingdom", "GB", ("GB",)), ("EU minus Spain", "EU minus ES", ("DE", "MT")), ("eu Minus SPAIN minus mt", "EU minus ES minus MT", ("DE",))])
def test_places_may_be_named(text, name, codes):
    found = market(text, GROUPS, None, WORDS)
    assert (found.name, found.codes) == (name, codes) and written(text, WORDS) == name and written(name, WORDS) == name


def test_known_places_bound_the_codes():
    with pytest.raises(RegistryError, match="not a market"):
        market("QQ", GROUPS, {"US": "United States"})
