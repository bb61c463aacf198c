"""Settings as a page: name, markets, own groups."""

import pytest
import webbed

from registry.catalogue import settings, store


@pytest.fixture
def catalogue(site):
    found = store.open_catalogue(site.folder)
    settings.put(found, name="Ninepin Slip", markets=["US", "NEAR"], groups={"NEAR": ["GB", "IE"]})
    yield found
    found.db.close()


def form_of(site):
    return dict(webbed.values(site.get("/settings").page.one("form", method="post")))


def wrongs(answer):
    return {one["id"].removesuffix("-wrong"): one.text for one in answer.page.all("p", class_="wrong")}


def test_unchanged_changes_nothing(site, catalogue):
    before = settings.everything(catalogue)
    sent = form_of(site)
    assert (sent["name"], sent["markets"], sent["group.0.name"], sent["group.0.members"]) == ("Ninepin Slip", "US, NEAR", "NEAR", "GB, IE")
    assert site.post("/settings", sent).status == 303 and settings.everything(catalogue) == before


def test_names_of_countries_and_new_groups(site, catalogue):
    sent = form_of(site) | {"name": "Ninepin", "markets": "Canada, eu minus es; fairs".replace(";", ","), "group.1.name": "fairs", "group.1.members": "France, gb"}
    answer = site.post("/settings", sent)
    assert (answer.status, answer.headers["location"]) == (303, "/settings?done=settings")
    assert settings.everything(catalogue) == {"name": "Ninepin", "markets": ["CA", "EU minus ES", "FAIRS"], "groups": {"NEAR": ["GB", "IE"], "FAIRS": ["FR", "GB"]}}
    assert "Ninepin" in site.get("/").page.one("p", class_="shop").text


def test_a_group_is_taken_away(site, catalogue):
    sent = form_of(site) | {"markets": "US", "group.0.name": "", "group.0.members": ""}
    assert site.post("/settings", sent).status == 303 and settings.get(catalogue, "groups") == {}


@pytest.mark.parametrize("typed, field, word", [
    ({"markets": "US, Nowhere"}, "markets", "NOWHERE"), ({"group.0.name": "", "group.0.members": ""}, "markets", "NEAR"), ({"group.1.name": "EU", "group.1.members": "GB"}, "group.1.name", "EU"),
    ({"group.1.name": "xy", "group.1.members": "GB"}, "group.1.name", "XY"), ({"group.1.name": "", "group.1.members": "GB"}, "group.1.name", "no name"),
    ({"group.1.name": "FAIRS", "group.1.members": ""}, "group.1.name", "no places"), ({"group.1.name": "FAIRS", "group.1.members": "GB, ZZ"}, "group.1.name", "ZZ"),
    ({"group.1.name": "near", "group.1.members": "FR"}, "group.1.name", "twice")])
def test_what_cannot_be_stands_beside_its_field_and_nothing_is_lost(site, catalogue, typed, field, word):
    before, sent = settings.everything(catalogue), form_of(site) | {"name": "Other"} | typed
    answer = site.post("/settings", sent)
    assert answer.status == 400 and list(wrongs(answer)) == [field] and word in wrongs(answer)[field]
    shown = dict(webbed.values(answer.page.one("form", method="post")))
    kept = {text for name, text in sent.items() if text and name != "base"}
    assert kept <= set(shown.values()) and settings.everything(catalogue) == before


def test_two_people_who_change_different_things(site, catalogue):
    mine = form_of(site)
    settings.put(catalogue, name="Renamed", groups={"NEAR": ["GB", "IE"], "FAIRS": ["FR"]})
    assert site.post("/settings", mine | {"markets": "US"}).status == 303
    assert settings.everything(catalogue) == {"name": "Renamed", "markets": ["US"], "groups": {"NEAR": ["GB", "IE"], "FAIRS": ["FR"]}}


def test_two_people_who_change_the_same(site, catalogue):
    mine = form_of(site)
    settings.put(catalogue, markets=["GB"])
    answer = site.post("/settings", mine | {"markets": "US, CA"})
    assert answer.status == 409 and settings.get(catalogue, "markets") == ["GB"]
    assert "stored now GB, typed by you US, CA" in answer.page.one(role="alert").text
    again = dict(webbed.values(answer.page.one("form", method="post")))
    assert again["markets"] == "US, CA" and site.post("/settings", again).status == 303
    assert settings.get(catalogue, "markets") == ["US", "CA"]


def test_an_empty_catalogue_and_another_site(site):
    assert site.post("/settings", form_of(site) | {"name": "Ninepin"}).status == 303
    assert site.post("/settings", form_of(site) | {"name": "x"}, headers={"origin": "http://example.org"}).status == 403
    assert "Ninepin" in site.get("/settings").text
