"""registry job add, change, show, list; registry use."""

import json

import kept
import pytest


@pytest.fixture
def command(tmp_path, capsys):
    found = kept.Command(tmp_path / "shop", capsys)
    found("init")
    found("work", "add", "--key", "gull", "--title", "Gull", "--trait", "hat")
    return found


def test_a_job_goes_in_and_comes_out(command):
    code, out, err = command("job", "add", "--title", "Inn sign", "--product", "carved sign", "--purpose", "commission", "--markets", "us, EU",
                             "--quantity", "2", "--wording", "THE GULL", "--lettering", "slab", "--listing-text", "A sign", "--due", "2027-02-12",
                             "--customer", "The Gull", "--price", "GBP 90", "--notes", "oak")
    assert (code, out, err) == (0, "Recorded Inn sign as j1.\nNext: registry use j1 WORK --part picture\n", "")
    found = json.loads(command("job", "show", "j1", "--json")[1])
    assert found["markets"] == ["US", "EU"] and found["quantity"] == 2 and found["lettering"] == "slab" and found["uses"] == []
    text = command("job", "show", "j1")[1]
    for line in ("product       carved sign", "purpose       commission", "markets       US, EU", "wording       THE GULL", "price         GBP 90"):
        assert line in text
    assert "No work is used in it yet: registry use j1 WORK --part picture" in text


def test_uses_go_in_and_out(command):
    command("job", "add", "--key", "towel", "--title", "Towel")
    assert command("use", "towel", "gull", "--part", "picture", "--trait", "hat", "--changes", "two colours")[1] == (
        "towel uses gull as picture.\nNext: registry check --job towel\n")
    assert "gull  picture  uses hat; changes: two colours" in command("job", "show", "towel")[1]
    assert "towel  Towel" in command("work", "show", "gull")[1]
    assert command("use", "towel", "gull", "--remove")[1].startswith("towel no longer uses gull.\n")
    assert json.loads(command("job", "show", "towel", "--json")[1])["uses"] == []
    assert command.refused("use", "towel", "gull", "--remove") == "The job towel does not use the work gull."
    assert command.refused("use", "towel", "gull") == "Say which part the work plays: --part takes picture, lettering, text, photograph, other."
    assert command("use", "towel", "gull", "--part", "frame")[0] == 2


def test_a_job_is_changed(command):
    command("job", "add", "--key", "towel", "--title", "Towel", "--due", "2027-02-12")
    assert command("job", "change", "towel", "--sold-on", "2026-11-25", "--due", "")[1] == "Changed towel; it is now in version 2.\n"
    found = json.loads(command("job", "show", "towel", "--json")[1])
    assert (found["sold_on"], found["due"], found["title"]) == ("2026-11-25", None, "Towel")
    assert command.refused("job", "change", "towel", "--version", "1", "--notes", "x").startswith("The job towel was changed since it was read")
    assert command.refused("job", "change", "towel").startswith("Say what to change")


@pytest.mark.parametrize(
    "words, says",
    [
        ((), "A job needs a title; give it with --title."),
        (("--title", "x", "--due", "soon"), "due: A day must be a real calendar day written YYYY-MM-DD"),
        (("--title", "x", "--markets", "Atlantis"), "'Atlantis' is not a place"),
        (("--title", "x", "--quantity", "0"), "The quantity is 0; a whole number from 1 up is allowed."),
    ],
)
def test_refusals(command, words, says):
    assert command.refused("job", "add", *words).startswith(says)
    assert command("job", "list")[1] == "0 jobs.\n"


def test_a_market_or_trait_given_twice_counts_once(command):
    command("job", "add", "--title", "x", "--markets", "us,US,EU")
    command("settings", "--markets", "US,us,CA")
    command("work", "change", "gull", "--trait", "hat")
    command("use", "j1", "gull", "--part", "picture", "--trait", "hat", "--trait", "hat")
    found = json.loads(command("job", "show", "j1", "--json")[1])
    assert found["markets"] == ["US", "EU"] and found["uses"][0]["traits"] == ["hat"]
    assert json.loads(command("settings", "--json")[1])["markets"] == ["US", "CA"]


def test_some_of_the_jobs_are_never_told_as_all(command):
    for title in ("a", "b"):
        command("job", "add", "--title", title)
    assert command("job", "list", "--limit", "1")[1].endswith("1 of 2 jobs.\n") and command("job", "list")[1].endswith("\n2 jobs.\n")
    assert command.refused("job", "list", "--limit", "0") == "--limit 0: a whole number from 1 to 1000000000 is allowed."
    assert command.refused("job", "add", "--title", "x", "--quantity", "99999999999999999999").startswith("The quantity is 9")


def test_jobs_are_listed(command):
    command("job", "add", "--title", "Later")
    command("job", "add", "--title", "Sooner", "--due", "2026-12-01", "--markets", "US,GB")
    assert command("job", "list")[1] == "2026-12-01  j2  Sooner (US, GB)\nno day      j1  Later (no markets)\n2 jobs.\n"
    assert [job["key"] for job in json.loads(command("job", "list", "--json")[1])] == ["j2", "j1"]
    assert command.refused("job", "show", "j3") == "There is no job 'j3' in this catalogue."
