"""registry check: answers with reasons, recorded, and an exit code for scripts."""

import json

import kept
import pytest
from registry.catalogue import ledger, store, words, works
from registry.cli import shown
from registry.facts import edtf
from registry.law.verdict import as_json, judge
from registry.rulebook import rulebook


@pytest.fixture
def command(tmp_path, capsys):
    found = kept.Command(tmp_path / "shop", capsys)
    found("init")
    catalogue = store.open_catalogue(found.folder)
    for key, facts in (("gull", kept.GULL), ("crab", kept.CRAB), ("scrap", kept.SCRAP)):
        works.add(catalogue, facts, key=key)
    works.add(catalogue, kept.GULL, key="tinted", based_on="crab")
    catalogue.db.close()
    return found


def rows(command):
    return ledger.rows(store.open_catalogue(command.folder), "assessment")


@pytest.mark.parametrize("key, places, code", [("gull", "US", 0), ("gull", "US,AQ", 3), ("crab", "US", 3), ("scrap", "US", 3), ("tinted", "US", 3)])
def test_exit_codes(command, key, places, code):
    assert command("check", key, "--in", places, "--on", "2026-07-01")[0] == code
    assert command("check", key, "--in", places, "--on", "2026-07-01", "--json")[0] == code
    assert command("check", key, "--in", places, "--on", "2026-07-01", "--brief")[0] == code


def test_the_objects_are_those_of_the_batch_contract(command):
    out = command("check", "gull", "--in", "US,AQ", "--on", "2026-07-01", "--json")[1]
    found, laws, day = json.loads(out), rulebook().laws, edtf.day("2026-07-01")
    work = works.facts_of(works.get(store.open_catalogue(command.folder), "gull"))
    decisive = {one["jurisdiction"]: one.pop("decisive") for one in found}
    assert [one["fact"] for one in decisive["US"]] and decisive["AQ"] == []
    assert [one.pop("decision") for one in found] == ["no_bar_found", "not_settled"] == [one.pop("decision_of_all_versions") for one in found]
    assert all(one.pop("decision_says") and one.pop("not_legal_advice") == words.ADVICE for one in found)
    assert found == [as_json("gull", place, day, judge(work, place, laws, day)) for place in ("US", "AQ")]
    assert [set(one) for one in found] == [{"id", "jurisdiction", "as_of", "status", "free_from", "free_from_earliest", "free_from_latest", "why", "open", "undetermined_because"}] * 2
    assert (found[0]["status"], found[0]["free_from"], found[1]["undetermined_because"]) == ("public_domain", "2024-01-01", "not_covered")


def test_the_day_decides(command):
    for day, status in (("2023-12-31", "in_copyright"), ("2024-01-01", "public_domain")):
        (found,) = json.loads(command("check", "gull", "--in", "US", "--on", day, "--json")[1])
        assert (found["as_of"], found["status"]) == (day, status)


def test_without_a_day_it_is_today(command, monkeypatch):
    monkeypatch.setattr(store, "today", lambda: edtf.day("2023-06-01"))
    (found,) = json.loads(command("check", "gull", "--in", "US", "--json")[1])
    assert (found["as_of"], found["status"]) == ("2023-06-01", "in_copyright")


def test_the_text_shows_answer_reasons_sources_and_advice(command):
    text = command("check", "gull", "--in", "US,AQ", "--on", "2026-07-01")[1]
    assert text.startswith("Gull on a Bollard  [gull]\ndrawing, Perpetua Quill, first published 1928-05-17; asked about 1 July 2026.\n\n")
    assert "  US  United States  likely public domain  since 1 January 2024\n" in text
    assert "  AQ  Antarctica     undetermined          not covered by the rules on file\n" in text
    for rule in json.loads(command("check", "gull", "--in", "US", "--on", "2026-07-01", "--json")[1])[0]["why"]:
        assert rule["says"] in " ".join(text.split())
        assert f"[{rule['cite']}; {words.HOW[rule['how']]}]" in " ".join(text.split())
    assert " ".join(text.split()).endswith(words.ADVICE)
    assert max(map(len, text.splitlines())) <= 80


def test_the_text_asks_what_would_settle_it(command):
    text = command("check", "scrap", "--in", "US", "--on", "2026-07-01")[1]
    asked = json.loads(command("check", "scrap", "--in", "US", "--on", "2026-07-01", "--json")[1])[0]["open"]
    assert asked and "  US  United States  undetermined  find out: " in text
    flat = " ".join(text.split())
    for question in asked:
        assert f"{question['question']} Look in: {question['where_to_look']}. Record it as {shown.fact(question['fact'])};" in flat


def test_the_brief_text_has_no_reasons_but_the_advice(command):
    text = command("check", "gull", "--in", "US", "--brief")[1]
    assert "since 1 January 2024" in text and "[17 U.S.C." not in text
    assert "Not legal advice." in text


def test_the_versions_beneath_are_shown_and_count(command):
    text = command("check", "tinted", "--in", "US", "--on", "2026-07-01")[1]
    assert "likely public domain  since 1 January 2024" in text
    assert "Based on Crab in a Kettle  [crab]\n  US  United States  likely in copyright  to 31 December 2044\n" in text
    found = json.loads(command("check", "tinted", "--in", "US", "--on", "2026-07-01", "--json")[1])
    assert [(one["id"], one["status"]) for one in found] == [("tinted", "public_domain"), ("crab", "in_copyright")]
    assert [(one["decision"], one["decision_of_all_versions"]) for one in found] == [("no_bar_found", "hold"), ("hold", "hold")]


def test_the_decision_of_a_copy_without_its_original_stands_in_the_json(command):
    catalogue = store.open_catalogue(command.folder)
    scan = {**kept.GULL, "kind": "photograph", "authorship": "corporate", "creators": [], "created": "2015", "publications": [{"date": "2015", "country": "US"}], "faithful_reproduction": True}
    works.add(catalogue, scan, key="stray")
    code, out, _ = command("check", "stray", "--in", "US,AQ", "--on", "2026-07-01", "--json")
    found = json.loads(out)
    assert code == 3 and [one["decision_of_all_versions"] for one in found] == ["not_settled", "not_settled"]
    assert "the original is not on record" in found[0]["decision_says"] and found[0]["not_legal_advice"] == words.ADVICE


def test_a_check_is_recorded_unless_dry(command):
    command("check", "gull", "--in", "US,AQ", "--on", "2026-07-01", "--dry")
    assert rows(command) == []
    command("check", "gull", "--in", "US,AQ", "--on", "2026-07-01")
    assert [(row.subject, row.body["place"], row.body["status"]) for row in rows(command)] == [("gull", "US", "public_domain"), ("gull", "AQ", "undetermined")]
    command("check", "gull", "--in", "US,AQ", "--on", "2026-07-01", "--json")
    assert len(rows(command)) == 2
    assert ledger.verify(store.open_catalogue(command.folder)).faults == ()


def test_places_of_the_shop_and_of_the_job(command):
    assert command.refused("check", "gull").startswith("Say where: --in US,CA names places")
    command("settings", "--markets", "US,NEAR", "--group", "NEAR=AQ,BV")
    assert [one["jurisdiction"] for one in json.loads(command("check", "gull", "--json")[1])] == ["US", "AQ", "BV"]
    assert [one["jurisdiction"] for one in json.loads(command("check", "gull", "--in", "near", "--in", "us,aq", "--json")[1])] == ["AQ", "BV", "US"]
    command("job", "add", "--key", "job", "--title", "x", "--markets", "BV")
    command("use", "job", "gull", "--part", "picture")
    assert [one["market"] for one in json.loads(command("check", "--job", "job", "--json")[1])["markets"]] == ["BV"]


def test_a_job(command):
    command("job", "add", "--key", "job", "--title", "Tea towel", "--product", "towel", "--quantity", "20", "--markets", "US")
    assert command("check", "--job", "job")[0] == 3
    command("use", "job", "gull", "--part", "picture")
    code, text, err = command("check", "--job", "job", "--on", "2026-07-01")
    assert (code, err) == (0, "")
    assert text.startswith("Tea towel  [job]\nsale of towel, 20 made; asked about 1 July 2026.\n\n")
    assert "  US  no bar found  since 1 January 2024\n" in text and "\nUS United States: no bar found\n" in text
    assert "Not legal advice." in text and max(map(len, text.splitlines())) <= 80
    command("use", "job", "crab", "--part", "picture")
    code, out, _ = command("check", "--job", "job", "--on", "2026-07-01", "--json")
    found = json.loads(out)
    assert code == 3 and found["job"] == "job" and found["as_of"] == "2026-07-01" and found["not_legal_advice"] == words.ADVICE
    assert [(market["market"], market["decision"]) for market in found["markets"]] == [("US", "hold")]
    assert [(one["work"], one["status"]) for one in found["markets"][0]["places"][0]["layers"]] == [("gull", "public_domain"), ("crab", "in_copyright")]


@pytest.mark.parametrize(
    "words_, says",
    [
        ((), "Name one thing to check: the key of a work, or --job and the key of a job."),
        (("gull", "--job", "job"), "Name one thing to check"),
        (("gul", "--in", "US"), "There is no work 'gul' in this catalogue; did you mean gull."),
        (("--job", "none", "--in", "US"), "There is no job 'none' in this catalogue."),
        (("gull", "--in", "Atlantis"), "'Atlantis' is not a place"),
        (("gull", "--in", ","), "Say where: --in US,CA names places"),
        (("gull", "--in", "US", "--on", "today"), "--on: A day must be a real calendar day written YYYY-MM-DD"),
        (("gull", "--in", "US", "--on", "2026-02-29"), "--on: A day must be a real calendar day"),
    ],
)
def test_refusals(command, words_, says):
    assert command.refused("check", *words_).startswith(says)
    assert rows(command) == []


def test_what_the_shop_made_itself_is_told_first(command):
    catalogue = store.open_catalogue(command.folder)
    works.add(catalogue, {"title": "Our weir", "kind": "drawing", "created": "2026"}, key="ours", own=True)
    catalogue.db.close()
    code, out, _ = command("check", "ours", "--in", "US,GB", "--on", "2026-07-01", "--dry")
    lines = [line for line in out.splitlines() if line.startswith("  US") or line.startswith("  GB")]
    assert code == 0 and all(words.STATUS["own"] in line and "confirm: made by the shop itself" in line for line in lines) and len(lines) == 2
    assert "undetermined" not in out
