"""The form for evidence: everything wrong is said at once beside its field, and the document survives a refusal."""

import kept
import pytest
import webbed

from registry.catalogue import evidence, files, store, works
from registry.facts import edtf
from registry.web import held

TODAY = "2026-11-25"
ADDRESS = "/work/gull/evidence"
TEXTS = {"title": "title page <2>", "kind": "imprint", "place": "box 3", "url": "https://archive.example/1", "seen_by": "I. Corrow", "note": "leaf 2\nleaf 3"}
GOOD = {"fact": "us_renewed", "basis": "seen", "seen_on": "2026-02-03", **TEXTS}
ENTRY, OTHER = ("document", "entry.txt", b"R 1234"), ("document", "other.txt", b"R 5678")


@pytest.fixture
def catalogue(site, monkeypatch):
    monkeypatch.setattr(store, "today", lambda: edtf.day(TODAY))
    found = store.open_catalogue(site.folder)
    works.add(found, kept.GULL, key="gull")
    yield found
    found.db.close()


def wrong(answer):
    return {one["id"].removesuffix("-wrong"): one.text for one in answer.page.all("p", class_="wrong")}


def shown(answer, **more):
    """What a browser would send for the form as it stands, with some fields typed anew."""
    return dict(webbed.values(answer.page.one("form", method="post"))) | more


def only(catalogue):
    one, = evidence.of_work(catalogue, "gull")
    return one


def test_everything_wrong_is_said_at_once_and_nothing_typed_is_lost(site, catalogue):
    before = kept.everything(catalogue)
    answer = site.post(ADDRESS, {**GOOD, "fact": "", "basis": "", "seen_on": "yesterday"}, [("document", "entry.bin", b"\x00\x01")])
    said = wrong(answer)
    assert answer.status == 400 and list(said) == ["fact", "basis", "seen_on", "document"]
    assert said["fact"].startswith("Choose the fact") and "seen in a document, told by somebody" in said["basis"]
    assert "“yesterday” cannot be read" in said["seen_on"] and "a day such as 2026-11-25" in said["seen_on"] and "entry.bin is of no kind" in said["document"]
    form = shown(answer)
    assert {name: form[name] for name in TEXTS} == TEXTS and form["seen_on"] == "yesterday"
    assert "The basis is" not in answer.page.text and "YYYY" not in answer.page.text
    assert (kept.everything(catalogue), kept.files_of(catalogue)) == (before, [])


@pytest.mark.parametrize("typed, field, word", [
    ({"fact": ""}, "fact", "Choose the fact"), ({"fact": "birthday"}, "fact", "“birthday”"), ({"fact": "creators.1.died"}, "fact", "on record no longer"),
    ({"fact": "creators.².died"}, "fact", "no fact of this work"), ({"basis": ""}, "basis", "Choose the basis"), ({"basis": "guessed"}, "basis", "Choose the basis"),
    ({"seen_on": "2026-02-30"}, "seen_on", "“2026-02-30” cannot be read"), ({"seen_on": "3/5/2026"}, "seen_on", "“3/5/2026” cannot be read"),
    ({"seen_on": "2026-11-27"}, "seen_on", "today is 25 November 2026"), ({"seen_on": "2027-01-01"}, "seen_on", "still to come")])
def test_what_is_wrong_stands_beside_its_field_alone(site, catalogue, typed, field, word):
    answer = site.post(ADDRESS, GOOD | typed)
    assert answer.status == 400 and list(wrong(answer)) == [field] and word in wrong(answer)[field]
    assert evidence.of_work(catalogue, "gull") == []
    assert site.post(ADDRESS, shown(answer, **{field: GOOD[field]})).status == 303
    one = only(catalogue)
    assert {name: getattr(one, name) for name in GOOD} == GOOD


@pytest.mark.parametrize("day", ["", "1999-12-31", TODAY, "2026-11-26"])
def test_days_up_to_today_and_tomorrow_elsewhere(site, catalogue, day):
    assert site.post(ADDRESS, GOOD | {"seen_on": day}).status == 303
    assert only(catalogue).seen_on == (day or None)


def test_what_is_wrong_is_tied_to_its_field(site, catalogue):
    first = site.post(ADDRESS, GOOD | {"fact": "", "basis": "", "seen_on": "x"}, [ENTRY])
    answer = site.post(ADDRESS, shown(first), [("document", "e.bin", b"\x00")])
    page = answer.page
    ids = [one["id"] for one in page if one["id"]]
    assert len(ids) == len(set(ids)) and list(wrong(answer)) == ["fact", "basis", "seen_on", "document"]
    for name in wrong(answer):
        control, = [one for one in page.all("input", "select") if one["id"] == name]
        assert control["aria-invalid"] == "true" and f"{name}-wrong" in control["aria-describedby"].split()
        assert set(control["aria-describedby"].split()) <= set(ids)
    alert = page.one("div", class_="problem")
    assert alert["role"] == "alert" and [link["href"] for link in alert.all("a")] == ["#fact", "#basis", "#seen_on", "#document"]
    tick = page.one("input", type="checkbox")
    assert page.one("label", for_=tick["id"]).text == "Leave entry.txt off"


# --- the document -------------------------------------------------------------------------------------

def refused(site, *documents, **typed):
    return site.post(ADDRESS, {**GOOD, "basis": "", **typed}, documents)


def test_a_document_need_not_be_chosen_again(site, catalogue):
    answer = refused(site, ENTRY)
    assert "Chosen already: entry.txt." in answer.page.text and "chosen again;" in answer.page.text and kept.files_of(catalogue) == []
    again = site.post(ADDRESS, shown(answer))  # still wrong, still there
    assert shown(again)["document_token"] == shown(answer)["document_token"]
    assert site.post(ADDRESS, shown(again, basis="told")).status == 303
    one = only(catalogue)
    assert one.basis == "told" and files.read(catalogue, one.file) == b"R 1234" and files.get(catalogue, one.file).name == "entry.txt"
    assert held.get(shown(answer)["document_token"]) is None


def test_a_document_can_be_left_off(site, catalogue):
    again = site.post(ADDRESS, shown(refused(site, ENTRY), document_drop="yes"))
    assert again.page.one("input", type="checkbox")["checked"] is not None and "entry.txt" in again.page.text
    assert site.post(ADDRESS, shown(again, basis="seen")).status == 303
    assert only(catalogue).file is None and kept.files_of(catalogue) == []


@pytest.mark.parametrize("drop", [{}, {"document_drop": "yes"}])
def test_another_document_takes_its_place(site, catalogue, drop):
    again = site.post(ADDRESS, shown(refused(site, ENTRY), **drop), [OTHER])
    assert "Chosen already: other.txt." in again.page.text and again.page.one("input", type="checkbox")["checked"] is None
    assert site.post(ADDRESS, shown(again, basis="seen")).status == 303
    assert files.get(catalogue, only(catalogue).file).name == "other.txt" and len(kept.files_of(catalogue)) == 1


def test_a_document_of_no_use_does_not_push_out_a_good_one(site, catalogue):
    again = site.post(ADDRESS, shown(refused(site, ENTRY), basis="seen"), [("document", "empty.txt", b"")])
    assert again.status == 400 and wrong(again) == {"document": "The file empty.txt is empty."} and "Chosen already: entry.txt." in again.page.text
    assert site.post(ADDRESS, shown(again)).status == 303 and files.get(catalogue, only(catalogue).file).name == "entry.txt"


def test_a_document_held_no_longer_is_told_once(site, catalogue):
    form = shown(refused(site, ENTRY), basis="seen")
    held.drop(form["document_token"])
    again = site.post(ADDRESS, form)
    assert again.status == 400 and list(wrong(again)) == ["document"] and "“entry.txt” is held no longer" in wrong(again)["document"]
    assert evidence.of_work(catalogue, "gull") == [] and "document_token" not in shown(again) and shown(again)["title"] == TEXTS["title"]
    assert site.post(ADDRESS, shown(again)).status == 303 and only(catalogue).file is None


@pytest.mark.parametrize("typed, documents, file", [({"document_drop": "yes"}, (), False), ({}, (OTHER,), True)])
def test_a_document_held_no_longer_that_nobody_wants(site, catalogue, typed, documents, file):
    form = shown(refused(site, ENTRY), basis="seen", **typed)
    held.drop(form["document_token"])
    assert site.post(ADDRESS, form, documents).status == 303
    assert (only(catalogue).file is not None) is file


def test_sent_twice_it_is_not_kept_twice_without_its_document(site, catalogue):
    form = shown(refused(site, ENTRY), basis="seen")
    assert site.post(ADDRESS, form).status == 303
    assert site.post(ADDRESS, form).status == 400 and only(catalogue).file
