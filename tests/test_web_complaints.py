"""Pages of complaints: list, form, answers, what is on record and missing, the folder to hand over."""

import io
import zipfile

import pytest
import webbed
from kept import GULL, everything, files_of

from registry.catalogue import complaints, files, jobs, marks, store, works
from registry.facts import edtf

TODAY = "2026-11-25"
FULL = {"sender": "Wren & Daughters", "claim": "Your gull is ours.\nStop it.", "received": "2026-11-20", "deadline": "2026-12-05", "where": "Harbour market", "reference": "X-12",
        "jobs": "signs", "more_jobs": "", "works": "gull", "marks": "m1", "note": "came by post"}


@pytest.fixture
def catalogue(site, monkeypatch):
    monkeypatch.setattr(store, "today", lambda: edtf.day(TODAY))
    found = store.open_catalogue(site.folder)
    works.add(found, GULL, key="gull")
    marks.add(found, words="GULLCRAFT")
    jobs.add(found, key="signs", title="Gull signs", markets=["US"], quantity=30, wording="GULL & CO", sold_on="2026-10-01", customer="a secret customer")
    jobs.use(found, "signs", "gull", "picture")
    yield found
    found.db.close()


def wrongs(answer):
    return {one["id"].removesuffix("-wrong"): one.text for one in answer.page.all("p", class_="wrong")}


def add(catalogue, **more):
    return complaints.add(catalogue, **{"received": "2026-11-20", "sender": "Wren & Daughters", "claim": "Your gull is ours.", "jobs": ["signs"], **more})


def test_a_new_complaint_goes_into_the_ledger(site, catalogue):
    page = site.get("/complaint/new?job=signs&mark=m1").page
    sent = dict(webbed.values(page.one("form", method="post")))
    assert (sent["jobs"], sent["marks"]) == ("signs", "m1") and "Gull signs" in page.text
    answer = site.post("/complaint/new", sent | FULL, [("file", "letter.txt", b"Stop it.")])
    assert (answer.status, answer.headers["location"]) == (303, "/complaint/c1?done=complaint")
    one = complaints.get(catalogue, "c1")
    assert {name: getattr(one, name) for name in ("sender", "claim", "received", "deadline", "where", "reference", "note")} == {
        name: FULL[name] for name in ("sender", "claim", "received", "deadline", "where", "reference", "note")}
    assert (one.jobs, one.works, one.marks) == (("signs",), ("gull",), ("m1",)) and files.read(catalogue, one.file) == b"Stop it."


def test_without_a_day_it_came_today(site, catalogue):
    assert site.post("/complaint/new", {"sender": "x", "claim": "y", "more_jobs": "signs"}).status == 303
    assert complaints.get(catalogue, "c1").received == TODAY and complaints.get(catalogue, "c1").jobs == ("signs",)


@pytest.mark.parametrize("typed, field, word", [
    ({"sender": ""}, "sender", "from whom"), ({"claim": ""}, "claim", "claims"), ({"deadline": "Friday"}, "deadline", "Friday"), ({"received": "2026-02-30"}, "received", "2026-02-30"),
    ({"jobs": "", "works": ""}, "jobs", "jobs"), ({"more_jobs": "nobody"}, "more_jobs", "nobody"), ({"works": "nobody"}, "works", "nobody"), ({"marks": "m77"}, "marks", "m77")])
def test_what_cannot_be_stands_beside_its_field_and_nothing_is_lost(site, catalogue, typed, field, word):
    before, kept, full = everything(catalogue), files_of(catalogue), FULL | typed
    answer = site.post("/complaint/new", full, [("file", "letter.txt", b"Stop it.")])
    assert answer.status == 400 and list(wrongs(answer)) == [field] and word in wrongs(answer)[field]
    shown = dict(webbed.values(answer.page.one("form", method="post")))
    assert {name: shown.get(name, "") for name in full} == full
    assert everything(catalogue) == before and files_of(catalogue) == kept
    assert site.post("/complaint/new", shown | FULL).status == 303
    assert files.get(catalogue, complaints.get(catalogue, "c1").file).name == "letter.txt"


def test_jobs_beyond_the_ticks_are_named_by_their_keys(site, catalogue, monkeypatch):
    monkeypatch.setattr("registry.web.complaint_new.MOST", 1)
    jobs.add(catalogue, key="later", title="Later signs", sold_on="2026-11-01")
    page = site.get("/complaint/new?job=signs").page
    assert [one["value"] for one in page.all("input", type="checkbox")] == ["later"]
    assert dict(webbed.values(page.one("form", method="post")))["more_jobs"] == "signs"


# --- one complaint ------------------------------------------------------------------------------------

def test_the_page_says_what_is_on_record_and_what_is_missing(site, catalogue):
    add(catalogue, marks=["m1"], deadline="2026-12-05")
    page = site.get("/complaint/c1").page
    assert "10 days left" in page.text and page.one("blockquote").text == "Your gull is ours."
    missing = [one.text for one in page.one("ul", class_="questions").all("li")]
    assert "Job signs: no decision is on record." in missing and "Mark m1: its office is not on record." in missing
    assert "The complaint as received (letter, message, screen) is not kept as a file." in missing
    assert "No decision is on record." in page.text and "US today:" in page.text and "secret" not in page.text
    assert "registry complaint folder c1 FOLDER" in page.text


@pytest.mark.parametrize("deadline, words", [(None, "No deadline is on record"), ("2026-11-25", "today"), ("2026-11-26", "1 day left"), ("2026-11-24", "passed 1 day ago"), ("2026-11-20", "passed 5 days ago")])
def test_how_long_it_may_still_wait(site, catalogue, deadline, words):
    add(catalogue, deadline=deadline)
    assert words in site.get("/complaint/c1").page.text
    assert (words if deadline else "no day on record") in site.get("/complaints").page.text


def test_an_answer_is_added_and_closes_when_it_says_so(site, catalogue):
    add(catalogue, deadline="2026-11-24")
    sent = dict(webbed.values(site.get("/complaint/c1").page.one("form", method="post")))
    assert sent["outcome"] == "sent"
    answer = site.post("/complaint/c1/answer", sent | {"by": "Isbet", "says": "We asked for time.", "answered": "2026-11-21"}, [("file", "reply.txt", b"Please wait.")])
    assert (answer.status, answer.headers["location"]) == (303, "/complaint/c1?done=answered")
    assert complaints.get(catalogue, "c1").state == "answered" and "ago" not in site.get("/complaint/c1").page.text
    assert site.post("/complaint/c1/answer", {"by": "Isbet", "says": "They gave in.", "outcome": "withdrawn"}).status == 303
    one = complaints.get(catalogue, "c1")
    assert one.state == "closed" and [a.answered for a in one.answers] == ["2026-11-21", TODAY] and files.read(catalogue, one.answers[0].file) == b"Please wait."
    page = site.get("/complaint/c1").page
    assert "they withdrew it" in page.text and "reply.txt" in page.text


@pytest.mark.parametrize("typed, field, word", [
    ({"by": ""}, "by", "who answered"), ({"says": ""}, "says", "what was said"), ({"answered": "Monday"}, "answered", "Monday"), ({"answered": "2026-11-01"}, "answered", "before the complaint"),
    ({"outcome": "forgotten"}, "outcome", "forgotten")])
def test_a_faulty_answer_comes_back_with_what_was_typed(site, catalogue, typed, field, word):
    add(catalogue)
    full = {"by": "Isbet", "says": "We asked\nfor time.", "answered": "2026-11-21", "outcome": "settled", **typed}
    answer = site.post("/complaint/c1/answer", full)
    assert answer.status == 400 and list(wrongs(answer)) == [field] and word in wrongs(answer)[field]
    shown = dict(webbed.values(answer.page.one("form", method="post")))
    assert {name: shown[name] for name in full if name != "outcome"} == {name: text for name, text in full.items() if name != "outcome"}
    assert complaints.get(catalogue, "c1").answers == ()


def test_the_folder_can_be_taken_along(site, catalogue):
    add(catalogue, marks=["m1"])
    answer = site.get("/complaint/c1/folder.zip")
    assert answer.status == 200 and answer.headers["content-type"] == "application/zip" and "c1.zip" in answer.headers["content-disposition"]
    with zipfile.ZipFile(io.BytesIO(answer.body)) as pack:
        assert pack.testzip() is None
        names = pack.namelist()
        assert {"c1/index.txt", "c1/complaint.json", "c1/jobs/signs.json", "c1/works/gull.json", "c1/marks.json", "c1/ledger.json"} <= set(names)
        assert all(name.startswith("c1/") and ".." not in name for name in names)
        assert "Your gull is ours." in pack.read("c1/index.txt").decode()
        assert not any("secret customer" in pack.read(name).decode("utf-8", "replace") for name in names)


# --- list ---------------------------------------------------------------------------------------------

def test_the_list_begins_with_the_earliest_deadline(site, catalogue):
    add(catalogue, sender="Last")
    add(catalogue, sender="Second", deadline="2027-01-01")
    add(catalogue, sender="First", deadline="2026-12-01")
    complaints.answer(catalogue, "c1", answered=TODAY, by="Isbet", says="Done.", outcome="settled")
    links = [one.text for row in site.get("/complaints").page.one("tbody").all("tr") for one in row.one("th").all("a")]
    assert links == ["First", "Second", "Last"]
    assert [row.one("th").all("a")[0].text for row in site.get("/complaints?state=closed").page.one("tbody").all("tr")] == ["Last"]
    assert "No complaint is answered." in site.get("/complaints?state=answered").page.text


def test_pages_of_nothing(site):
    assert "No complaint is on record." in site.get("/complaints").page.text
    for path in ("/complaint/c1", "/complaint/c1/folder.zip", "/complaint/..%2f..%2fetc/folder.zip"):
        assert site.get(path).status == 404, path
    assert site.get("/complaint/c1/answer").status == 303
    assert site.post("/complaint/c1/answer", {"by": "x", "says": "y"}).status == 404


def test_another_site_may_not_write(site, catalogue):
    assert site.post("/complaint/new", FULL, headers={"origin": "http://example.org"}).status == 403
    assert complaints.listed(catalogue) == []
