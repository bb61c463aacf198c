"""Pages of permissions: the list with pieces used, one permission, the form with its document."""

import pytest
import webbed
from kept import GULL, everything, files_of

from registry.catalogue import files, jobs, permissions, store, works
from registry.facts import edtf

TODAY = "2026-11-25"
FULL = {"work": "gull", "kind": "licence", "spdx": "", "licensor": "P. Quill", "uses": "goods", "places": "US, Canada", "media": "Wood, cloth", "quantity": "1,200", "valid_from": "2026-01-01",
        "valid_to": "2027-12-31", "commercial": "yes", "changes_allowed": "no", "exclusive": "", "credit_line": "Gull: P. Quill", "note": "blue box"}


@pytest.fixture
def catalogue(site, monkeypatch):
    monkeypatch.setattr(store, "today", lambda: edtf.day(TODAY))
    found = store.open_catalogue(site.folder)
    works.add(found, GULL, key="gull")
    yield found
    found.db.close()


def wrongs(answer):
    return {one["id"].removesuffix("-wrong"): one.text for one in answer.page.all("p", class_="wrong")}


def only(catalogue):
    one, = permissions.of_work(catalogue, "gull")
    return one


def test_a_new_permission_holds_what_was_typed(site, catalogue):
    sent = dict(webbed.values(site.get("/permission/new?work=gull").page.one("form", method="post")))
    assert sent["work"] == "gull" and set(FULL) <= set(sent)
    answer = site.post("/permission/new", sent | FULL, [("document", "letter.txt", b"You may.")])
    assert (answer.status, answer.headers["location"]) == (303, "/permission/1?done=permission")
    one = only(catalogue)
    assert (one.uses, one.places, one.media, one.quantity) == (("goods",), ("US", "CA"), ("wood", "cloth"), 1200)
    assert (one.commercial, one.changes_allowed, one.exclusive, one.spdx) == (True, False, None, None)
    assert files.read(catalogue, one.document) == b"You may."
    page = site.get("/permission/1?done=permission").page
    assert "0 of 1,200" in page.text and "letter.txt" in page.text and "The permission is on record." in page.text


def test_silence_stays_silence(site, catalogue):
    assert site.post("/permission/new", {"work": "gull", "places": "World"}).status == 303
    one = only(catalogue)
    assert (one.uses, one.media, one.quantity, one.commercial, one.changes_allowed, one.valid_from, one.document) == ((), (), None, None, None, None, None)
    assert one.places == ("world",) and site.get("/permission/1").page.text.count("not said") >= 6


@pytest.mark.parametrize("typed, field, word", [
    ({"work": ""}, "work", "which work"), ({"work": "nobody"}, "work", "nobody"), ({"places": "US, XY"}, "places", "XY"), ({"quantity": "-3"}, "quantity", "-3"), ({"quantity": "0"}, "quantity", "0"),
    ({"valid_from": "May"}, "valid_from", "May"), ({"valid_to": "2025-12-31"}, "valid_to", "before the first"), ({"spdx": "CC-EVERYTHING"}, "spdx", "CC-EVERYTHING"), ({"kind": "hope"}, "kind", "hope")])
def test_what_cannot_be_stands_beside_its_field_and_nothing_is_lost(site, catalogue, typed, field, word):
    before, kept = everything(catalogue), files_of(catalogue)
    full = FULL | typed
    answer = site.post("/permission/new", full, [("document", "letter.txt", b"You may.")])
    assert answer.status == 400 and list(wrongs(answer)) == [field] and word in wrongs(answer)[field]
    shown = dict(webbed.values(answer.page.one("form", method="post")))
    assert {name: shown[name] for name in full if name != "kind"} == {name: text for name, text in full.items() if name != "kind"}
    assert everything(catalogue) == before and files_of(catalogue) == kept
    assert site.post("/permission/new", shown | FULL).status == 303  # the document need not be chosen again
    assert files.get(catalogue, only(catalogue).document).name == "letter.txt"


def test_a_document_of_a_kind_that_is_not_kept(site, catalogue):
    answer = site.post("/permission/new", FULL, [("document", "letter.bin", b"\x00\x01\x02")])
    assert answer.status == 400 and list(wrongs(answer)) == ["document"] and permissions.of_work(catalogue, "gull") == []


def test_terms_are_filled_in_from_another_one(site, catalogue):
    permissions.add(catalogue, "gull", "purchase", licensor="P. Quill", uses=["goods"], places=["US"], quantity=5, commercial=None, changes_allowed=True, valid_to="2027-01-01")
    sent = dict(webbed.values(site.get("/permission/new?like=1").page.one("form", method="post")))
    assert site.post("/permission/new", sent | {"commercial": "yes"}).status == 303
    first, second = permissions.of_work(catalogue, "gull")
    same = set(permissions.COLUMNS) - {"commercial"}
    assert {name: getattr(first, name) for name in same} == {name: getattr(second, name) for name in same} and second.kind == "purchase" and second.commercial is True


@pytest.mark.parametrize("columns, stands", [
    ({}, "in force"), ({"valid_to": TODAY}, "in force"), ({"valid_to": "2026-11-24"}, "ended"), ({"valid_from": TODAY}, "in force"), ({"valid_from": "2026-11-26"}, "not begun yet"),
    ({"quantity": 31}, "in force"), ({"quantity": 30}, "used up")])
def test_how_a_permission_stands_today(site, catalogue, columns, stands):
    permissions.add(catalogue, "gull", "licence", licensor="P. Quill", **columns)
    jobs.add(catalogue, key="signs", title="Signs", quantity=30, markets=["US"], sold_on="2026-10-01")
    jobs.use(catalogue, "signs", "gull", "picture")
    for path in ("/permissions", "/permission/1"):
        assert site.get(path).page.one("span", class_="stamp").text == stands
    assert ("30 of" in site.get("/permissions").page.text) is ("quantity" in columns)


def test_an_unknown_number_of_pieces_is_said(site, catalogue):
    permissions.add(catalogue, "gull", "licence", quantity=30)
    jobs.add(catalogue, key="signs", title="Signs", markets=["US"], sold_on="2026-10-01")
    jobs.use(catalogue, "signs", "gull", "picture")
    assert "not known: a job on record has no quantity; 30 allowed" in site.get("/permissions").page.text


def test_the_list_is_narrowed_and_open_licences_explained(site, catalogue):
    works.add(catalogue, {"title": "Crab"}, key="crab")
    permissions.add(catalogue, "gull", "licence", licensor="P. Quill")
    permissions.add(catalogue, "crab", "licence", licensor="M. Orlop", spdx="CC-BY-NC-4.0", commercial=False)
    rows = [row.text for row in site.get("/permissions?q=orlop").page.one("tbody").all("tr")]
    assert len(rows) == 1 and "not for goods that are sold" in rows[0]
    assert "No permission fits" in site.get("/permissions?q=heron").page.text
    assert "not for goods that are sold" in site.get("/permission/2").page.one("p", class_="note").text


def test_pages_of_nothing(site):
    assert "No permission is on record yet" in site.get("/permissions").page.text
    assert site.get("/permission/1").status == 404 and site.get("/permission/new?like=7").status == 404


def test_another_site_may_not_write(site, catalogue):
    assert site.post("/permission/new", FULL, headers={"origin": "http://example.org"}).status == 403
    assert permissions.of_work(catalogue, "gull") == []


@pytest.mark.parametrize("made, says", [(10, "10 of 10"), (25, "25 of 10: 15 too many")])
def test_pieces_beyond_a_permission_are_called_too_many(site, catalogue, made, says):
    permissions.add(catalogue, "gull", "licence", quantity=10)
    jobs.add(catalogue, key="signs", title="Signs", quantity=made, markets=["US"], sold_on=TODAY)
    jobs.use(catalogue, "signs", "gull", "picture")
    for path in ("/permission/1", "/permissions"):
        cell = next(one.text for one in site.get(path).page.all("td") if f"{made} of 10" in one.text)
        assert cell == says, path


def test_words_that_count_for_nothing_are_named_on_the_page(site, catalogue):
    permissions.add(catalogue, "gull", "licence", uses=["desktop", "goods"], media=["wood"])
    notes = [one.text for one in site.get("/permission/1").page.all("p", class_="note")]
    assert notes == ["'desktop' is kept as the document says it, but no answer counts it as a use; those that count are display, gift, goods, any, all."]


@pytest.mark.parametrize("columns, says", [
    ({}, "10 of 50"), ({"sold_on": "2026-12-20"}, "0 of 50"), ({"markets": ["FR"]}, "0 of 50"), ({"markets": []}, "10 of 50")])
def test_a_job_outside_its_places_or_days_draws_no_pieces_on_it(site, catalogue, columns, says):
    permissions.add(catalogue, "gull", "licence", quantity=50, places=["US"], valid_to="2026-12-10")
    jobs.add(catalogue, **{"key": "towel", "title": "Towel", "quantity": 10, "markets": ["US"], "sold_on": "2026-11-20", **columns})
    jobs.use(catalogue, "towel", "gull", "picture")
    assert says in site.get("/permission/1").page.text and says in site.get("/permissions").page.text


@pytest.mark.parametrize("places", ["EU minus EU", "EU minus US", "EU minus ,", "Atlantis"])
def test_places_that_cannot_be_are_told_at_their_field(site, catalogue, places):
    answer = site.post("/permission/new", {**FULL, "places": places})
    assert answer.status == 400 and list(wrongs(answer)) == ["places"]
