"""A protected redrawing is not dropped by naming an older trait, nor freed by silence about changes: every face says so."""

import json
import re

import kept
import pytest
from registry.catalogue import jobs, permissions, store, works
from registry.exchange import sheet
from registry.facts import edtf

DAY = edtf.day("2026-11-25")
OLD = {"title": "The watchman", "kind": "drawing", "authorship": "individual", "created": "1890", "published": True,
       "creators": [{"name": "Ludo Farrant", "died": "1899", "nationality": ["GB"]}],
       "publications": [{"date": "1890", "country": "GB"}]}
NEW = {**OLD, "title": "The watchman with a monocle", "created": "1951",
       "creators": [{"name": "Ines Tolland", "died": "1985", "nationality": ["GB"]}],
       "publications": [{"date": "1951", "country": "GB"}]}
ASSUMED = "Taken as not shown, since an older version is recorded as the one it was drawn from: 'The watchman with a monocle'"
BY_TRAITS = ("Taken as not shown, since only traits of other versions are named: 'The watchman with a monocle', its drawing and what it"
             " added (monocle). Draw it from 'The watchman'")
REDRAWN = "redrawn from k"


def fill(folder):
    """The figure in two versions, a picture under a licence without changes, and a job for each."""
    catalogue = store.open_catalogue(folder)
    works.add(catalogue, OLD, key="k", traits=["red cap"])
    works.add(catalogue, NEW, key="k2", based_on="k", originality="new_expression", traits=["monocle"])
    works.add(catalogue, {**NEW, "title": "Heron"}, key="heron")
    permissions.add(catalogue, "heron", "licence", licensor="Ines Tolland", spdx="CC-BY-ND-4.0", credit_line="I. Tolland")
    jobs.add(catalogue, key="b", title="Watchman's box", product="carved wooden box", purpose="sale", markets=["GB", "US"], quantity=1)
    jobs.add(catalogue, key="h", title="Heron box", product="carved wooden box", purpose="sale", markets=["GB"], quantity=1,
             wording="GREETINGS")
    jobs.use(catalogue, "h", "heron", "picture")
    return catalogue


@pytest.fixture
def command(tmp_path, capsys):
    kept.new(tmp_path).db.close()
    fill(tmp_path / "catalogue").db.close()
    return kept.Command(tmp_path / "catalogue", capsys)


@pytest.fixture
def catalogue(site):
    found = fill(site.folder)
    yield found
    found.db.close()


def checked(command, job, *words):
    """(exit code, answer as JSON, brief text in one line) of a check."""
    code, out, err = command("check", "--job", job, "--on", "2026-11-25", "--dry", "--json", *words)
    assert err == ""
    return code, json.loads(out), " ".join(command("check", "--job", job, "--on", "2026-11-25", "--dry", "--brief")[1].split())


def decided(found):
    return {one["market"]: one["decision"] for one in found["markets"]}


@pytest.mark.parametrize("traits, changes, decision", [
    (["monocle"], "", "hold"), ([], "", "hold"), (["red cap"], "", "not_settled"), (["red cap"], "unchanged", "hold"),
    (["red cap"], "none", "no_bar_found"), (["red cap"], "recut", "not_settled"), (["red cap"], "as it is", "hold"), (["red cap"], REDRAWN, "no_bar_found"),
    ([], REDRAWN, "hold"), (["monocle"], REDRAWN, "hold")])
def test_the_drawing_that_is_used_is_shown_whatever_is_named(command, traits, changes, decision):
    assert command("use", "b", "k2", "--part", "picture", "--changes", changes, *(f"--trait={one}" for one in traits))[0] == 0
    code, found, brief = checked(command, "b")
    assert decided(found)["GB"] == decision and (code == 0) == (decision == "no_bar_found")
    assert ((ASSUMED if changes == REDRAWN else BY_TRAITS) in brief) == (decision == "no_bar_found") == bool(found["markets"][0]["taken_as_not_shown"])


def test_the_question_names_the_way_out_and_the_way_out_works(command):
    command("use", "b", "k2", "--part", "picture", "--trait", "red cap")
    _code, found, brief = checked(command, "b")
    asked = found["next"][0]
    assert asked["fact"] == "redrawn" and "Is anything of the drawing of 'The watchman with a monocle' itself shown" in asked["question"]
    assert {one["answer"]: one["markets"]["GB"] for one in asked["outcomes"]} == {"yes": "hold", "no": "no_bar_found"}
    assert re.search(r"write 'redrawn from k' under", brief)


@pytest.mark.parametrize("changes, code, asked", [
    ("", 3, "changes"), ("unknown", 3, "changes"), ("recut", 3, "permission_changes"), ("unchanged", 0, "recut"), ("None.", 0, "recut")])
def test_a_licence_without_changes_clears_only_what_is_recorded_as_unchanged(command, changes, code, asked):
    command("use", "h", "heron", "--part", "picture", "--changes", changes)
    got, found, brief = checked(command, "h")
    assert got == code and [one["fact"] for one in (*found["next"], *found["do_first"])][0] == asked
    assert "material" in brief or "cut or carved" in brief or asked == "permission_changes"


def test_the_answers_to_the_question_about_changes_are_tried(command):
    _code, found, _brief = checked(command, "h")
    outcomes = {one["answer"]: one["markets"]["GB"] for one in found["next"][0]["outcomes"]}
    assert outcomes == {"unchanged": "no_bar_found", "changed": "hold"}


def test_sheet_and_card_say_what_was_taken_as_not_shown(catalogue):
    jobs.use(catalogue, "b", "k2", "picture", ["red cap"], REDRAWN)
    found = sheet.collect(catalogue, "b", DAY)
    assert any(ASSUMED in one for one in sheet.for_buyer(found)["assumed"])
    for page in (sheet.html(found, {}), sheet.card(found, {})):
        assert "Taken as not shown, since an older version" in page and "(monocle)" in page


def test_a_card_without_it_says_nothing_of_it(catalogue):
    jobs.use(catalogue, "b", "k", "picture", ["red cap"], "")
    assert "Taken as not shown" not in sheet.card(sheet.collect(catalogue, "b", DAY), {})


def test_the_pages_say_it_too(site, catalogue):
    jobs.use(catalogue, "b", "k2", "picture", ["red cap"], REDRAWN)
    assert "Taken as not shown" in site.get("/job/b").page.text
    page = site.get("/check?job=b&work.0=k2&part.0=picture&traits.0=red+cap&markets=GB").page
    assert "not settled" in page.one("table", class_="summary").text and "Is anything of the drawing" in page.text
    page = site.get("/check?work.0=k2&part.0=picture&traits.0=red+cap&changes.0=redrawn+from+k&markets=GB").page
    assert "no bar found" in page.one("table", class_="summary").text and page.text.count("Taken as not shown") >= 1
    page = site.get("/job/b/edit").page
    assert page.one("input", id="changes.0")["aria-describedby"] == "changes.0-hint" and "unchanged" in page.one("p", id="changes.0-hint").text


def test_the_help_of_the_command_tells_the_words(command):
    text = " ".join(command("use", "--help")[1].split())
    assert "'unchanged'" in text and "'redrawn from KEY'" in text
