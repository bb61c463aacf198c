"""Lint of every law file: whole entries, plain sentences, sources that are used and dated, acts in order."""

import re
import tomllib
from datetime import date

import pytest

from registry import data
from registry.law.load import HOW, read_law
from registry.rulebook import rulebook

FILES = [name for name in data.names("terms") if name.endswith(".toml") and name != "_territories.toml"]
LAWS = [name for name in FILES if not name.startswith("_")]
KINDS = ("never", "act", "doubt", "related", "also", "compare")
SHORT = re.compile(r"\b(s|ss|Art|Arts|No|Nos|St|c|p|pp|para|e\.g|i\.e)\. ")
MARKUP = re.compile(r"[<>*_`#|{}\[\]]")
TODAY = date.today()


def raw(name):
    return tomllib.loads(data.read_text("terms", name))


def entries(table):
    """(kind, entry) of every entry of a file, terms after their act."""
    for kind in KINDS:
        found = table.get(kind, [])
        for entry in [found] if isinstance(found, dict) else found:
            yield kind, entry
            if kind == "act":
                yield from (("term", term) for term in entry.get("term", ()))


def own(table):
    """Entries written in the file itself, not taken whole from a shared one."""
    return [(kind, entry) for kind, entry in entries(table) if "use" not in entry]


def sentences(text):
    """How many sentences a text has, abbreviations of lawyers aside."""
    return len(re.findall(r"[.!?](?=\s|$)", SHORT.sub(r"\1 ", text)))


def cites(entry):
    """Ids of the sources an entry cites."""
    cite = entry.get("cite", [])
    return {one.split(" ")[0] for one in ([cite] if isinstance(cite, str) else cite)}


@pytest.mark.parametrize("name", FILES)
def test_every_entry_is_whole(name):
    for kind, entry in own(raw(name)):
        for key in ("id", "says", "cite"):
            assert entry.get(key), f"{name}, {kind} {entry.get('id')}: '{key}' is missing."
        assert re.fullmatch(r"[a-z0-9][a-z0-9-]*", entry["id"]), f"{name}: {entry['id']}"


@pytest.mark.parametrize("name", FILES)
def test_every_entry_speaks_in_one_or_two_plain_sentences(name):
    for kind, entry in entries(raw(name)):
        says = entry.get("says")
        if says is None:
            continue
        at = f"{name}, {kind} {entry.get('id')}: {says}"
        assert says.endswith(".") and says == " ".join(says.split()), at
        assert says[0].isupper() or says[0].isdigit(), at
        assert not MARKUP.search(says), at
        assert 1 <= sentences(says) <= 2, at
        assert len(says) <= 300, at


@pytest.mark.parametrize("name", FILES)
def test_every_source_is_cited_and_dated(name):
    table = raw(name)
    sources = table["source"]
    used = set().union(*(cites(entry) for _kind, entry in entries(table)))
    for source in sources:
        at = f"{name}, source {source.get('id')}"
        assert source["id"] in used, f"{at} is never cited."
        assert source["title"].strip() and source["how"] in HOW, at
        assert isinstance(source.get("seen"), date), f"{at}: 'seen' is missing or no day."
        assert date(2020, 1, 1) <= source["seen"] <= TODAY, at
        assert source.get("url", "https://").startswith(("https://", "http://")), at
    assert len({source["id"] for source in sources}) == len(sources), name


@pytest.mark.parametrize("name", FILES)
def test_every_way_of_knowing_is_one_of_three(name):
    for kind, entry in entries(raw(name)):
        assert entry.get("how", "read") in HOW, f"{name}, {kind} {entry.get('id')}"


@pytest.mark.parametrize("name", FILES)
def test_no_file_was_checked_in_the_future(name):
    checked = raw(name)["checked"]
    assert isinstance(checked, date) and date(2020, 1, 1) <= checked <= TODAY


@pytest.mark.parametrize("name", LAWS)
def test_every_file_opens_with_what_it_rests_on(name):
    opening = data.read_text("terms", name).split("\ncode =")[0]
    lines = [line for line in opening.splitlines() if line.startswith("#") and line.strip("# ")]
    assert len(lines) >= 2, f"{name}: the comment on top says nothing of its sources."
    assert "Not legal advice." in opening, name


@pytest.mark.parametrize("name", LAWS)
def test_acts_stand_in_the_order_of_their_first_day(name):
    days = [entry["from"] for entry in raw(name)["act"] if isinstance(entry.get("from"), date)]
    assert days == sorted(days), name


@pytest.mark.parametrize("name", LAWS)
def test_the_compiled_law_keeps_every_rule_apart(name):
    law = read_law(data.read_text("terms", name), name, rulebook().laws)
    rules = [r.rule for group in (law.never, law.doubts, law.related, law.also, law.acts) for r in group]
    rules += [term.rule for act in law.acts for term in act.terms]
    texts = {}
    for rule in rules:
        assert rule.says and rule.cite and rule.how in HOW, rule
        assert texts.setdefault(rule.id, rule) == rule, f"{name}: two rules are called {rule.id}."


# --- the lint itself fails where it should -----------------------------------------------------------

@pytest.mark.parametrize(
    ("says", "count"),
    [("One sentence.", 1), ("Two of them. Here.", 2), ("By s. 27 of the Act.", 1), ("Arts. 3 and 4 apply. Others do not. Never.", 3), ("No. 3 of 2001.", 1)],
)
def test_sentences_are_counted(says, count):
    assert sentences(says) == count


@pytest.mark.parametrize("says", ["a <b>tag</b>.", "a *star*.", "an under_score.", "a [link]."])
def test_markup_is_seen(says):
    assert MARKUP.search(says)
