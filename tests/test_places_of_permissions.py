"""Places of a permission: what every command takes as a place holds there too, and means for ever what it meant when recorded."""

import pytest

import kept
from registry.catalogue import clear, jobs, permissions, settings, works
from registry.errors import RegistryError
from registry.facts import edtf
from registry.rulebook import covered

DAY = edtf.day("2026-11-25")
TERMS = {"licensor": "Quillfeather", "uses": ["goods"], "media": ["cloth"], "commercial": True, "changes_allowed": True}


@pytest.fixture
def catalogue(tmp_path):
    found = kept.new(tmp_path)
    works.add(found, {**kept.CRAB, "creators": [{**kept.CRAB["creators"][0], "died": "1980"}]}, key="crab")  # protected everywhere
    return found


def permit(catalogue, *places, **terms):
    return permissions.add(catalogue, "crab", "licence", places=list(places), **TERMS, **terms)


def job(catalogue, key, market, **columns):
    jobs.add(catalogue, key=key, title=key, product="cotton cloth", markets=[market], **columns)
    jobs.use(catalogue, key, "crab", "picture")


def decision(catalogue, key):
    return clear.answer(clear.desk(catalogue, DAY), jobs.get(catalogue, key)).markets[0].decision


@pytest.mark.parametrize("place, market, wanted", [
    ("EU minus ES", "DE", "no_bar_found"), ("EU minus ES", "ES", "hold"), ("all", "DE", "no_bar_found"), ("All", "US", "no_bar_found"),
    ("NEAR minus IE", "GB", "no_bar_found"), ("NEAR minus IE", "IE", "hold"), ("EU", "DE", "no_bar_found")])
def test_it_covers_the_places_it_names(catalogue, place, market, wanted):
    settings.put(catalogue, groups={"NEAR": ["GB", "IE"]})
    permit(catalogue, place)
    job(catalogue, "towel", market)
    assert decision(catalogue, "towel") == wanted


@pytest.mark.parametrize("places", [["EU", "GB"], ["EU minus ES", "GB"], ["all"]])
def test_pieces_sold_in_its_places_are_counted(catalogue, places):
    one = permit(catalogue, *places, quantity=10)
    job(catalogue, "sold", "DE", quantity=10, sold_on="2026-05-01")
    job(catalogue, "next", "GB", quantity=10)
    assert clear.drawn(catalogue, one) == 10 and decision(catalogue, "next") == "hold"


def test_all_is_kept_as_the_places_it_stood_for(catalogue):
    assert permit(catalogue, "all").places == tuple(covered()) and permit(catalogue, "world").places == ("world",)


@pytest.mark.parametrize("place", ["NEAR", "NEAR minus IE"])
@pytest.mark.parametrize("groups", [{"NEAR": ["GB", "IE", "US"]}, {"NEAR": ["GB"]}, {}])
def test_a_group_that_a_permission_names_stays_as_it_is(catalogue, place, groups):
    settings.put(catalogue, groups={"NEAR": ["GB", "IE"], "FAR": ["JP"]})
    permit(catalogue, place)
    with pytest.raises(RegistryError, match="^The group NEAR tells the places of the permission p1, and must go on"):
        settings.put(catalogue, groups={"FAR": ["JP"], **groups})
    settings.put(catalogue, groups={"NEAR": ["IE", "GB"], "FAR": ["AU"]})
    assert settings.opened(catalogue, ["NEAR", "FAR"]) == ["IE", "GB", "AU"]
