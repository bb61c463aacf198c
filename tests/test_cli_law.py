"""registry law list, law show: the law as it is on file."""

import json

import pytest
from registry.catalogue import words
from registry.cli import main
from registry.rulebook import covered, rulebook


def command(capsys, *words_):
    code = main(list(words_))
    out, err = capsys.readouterr()
    return code, out, err


def test_all_places_are_listed(capsys):
    code, out, err = command(capsys, "law", "list")
    assert (code, err) == (0, "")
    assert [line.split()[0] for line in out.splitlines()[: len(covered())]] == covered()
    assert "Not legal advice." in out and max(map(len, out.splitlines())) <= 80
    found = json.loads(command(capsys, "law", "list", "--json")[1])
    assert [one["place"] for one in found] == covered()


@pytest.mark.parametrize("code", covered())
def test_every_law_is_shown_whole(capsys, code):
    exit_code, out, err = command(capsys, "law", "show", code)
    assert (exit_code, err) == (0, "")
    flat, law = " ".join(out.split()), rulebook().laws.law(code)
    terms = [term.rule for act in law.acts for term in act.terms]
    entries = [entry.rule for name in ("never", "doubts", "related", "also") for entry in getattr(law, name)]
    for rule in [act.rule for act in law.acts] + terms + entries + ([law.compare_rule] if law.compare_rule else []):
        assert " ".join(rule.says.split()) in flat
        assert " ".join(f"[{rule.id}: {rule.cite}; {words.HOW[rule.how]}]".split()) in flat
    for source in law.sources.values():
        assert " ".join(source["title"].split()) in flat
    assert law.edge in flat and flat.endswith(words.ADVICE)


def test_acts_stand_in_order_with_their_days(capsys):
    out = command(capsys, "law", "show", "us")[1]
    law = rulebook().laws.law("US")
    days = [words.day(act.start) if isinstance(act.start, int) else "From a day that depends on the country of origin" for act in law.acts]
    assert [line[4:].split(", ")[0] for line in out.splitlines() if line[:3].strip().rstrip(".").isdigit() and line[2] == "."] == days
    found = json.loads(command(capsys, "law", "show", "US", "--json")[1])
    assert [act["id"] for act in found["acts"]] == [act.rule.id for act in law.acts]
    assert found["acts"][0]["from"] == "1909-07-01" and found["not_legal_advice"] == words.ADVICE


@pytest.mark.parametrize(
    "place, says",
    [
        ("AQ", "No law is on file for AQ; 'registry law list' names the places that have one."),
        ("Atlantis", "'Atlantis' is not a place"),
        ("EU", "EU stands for 27 places; name one of them: AT, BE,"),
    ],
)
def test_refusals(capsys, place, says):
    code, out, err = command(capsys, "law", "show", place)
    assert (code, out) == (1, "") and err.startswith(says) and err.count("\n") == 1
