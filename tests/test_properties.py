"""Laws of the engine over random works from fixed seeds: narrowing only settles, trails are real, answers repeat."""

import random

import pytest
from randoms import PLACES, narrowed, some_facts
from rows import answer

from registry import data
from registry.facts import edtf
from registry.law.world import World
from registry.rulebook import rulebook

DAY = "2026-07-01"
WRITTEN = [p for p in PLACES if f"{p.lower()}.toml" in data.names("terms")]


def settled(got):
    return got["status"] != "undetermined"


@pytest.mark.parametrize("seed", range(10))
def test_narrowing_never_overturns(seed):
    dice = random.Random(1000 + seed)
    for number in range(1000):
        facts = some_facts(dice, number)
        place = dice.choice(WRITTEN)
        before = answer(facts, place, DAY)
        more = narrowed(dice, facts, edtf)
        if more is None:
            continue
        after = answer(more, place, DAY)
        if after["why"] and after["why"][0]["id"] == "facts.contradiction":
            continue
        if settled(before):
            assert after["status"] == before["status"], (place, facts, more)


@pytest.mark.parametrize("seed", range(10))
def test_answers_are_well_formed_and_repeat(seed):
    dice = random.Random(2000 + seed)
    known = {}
    for number in range(1000):
        facts, place = some_facts(dice, number), dice.choice(WRITTEN)
        got = answer(facts, place, DAY)
        assert got == answer(facts, place, DAY)
        check_form(got)
        for rule in got["why"]:
            assert known.setdefault(rule["id"], rule) == rule
    assert len(known) > 20


@pytest.mark.parametrize("place", ["US", "FR", "DE", "CO"])
def test_what_a_branch_inherits_changes_nothing(place, monkeypatch):
    """Answers are the same when every branch is replayed from the start, knowing nothing of the one it was cut from."""
    dice = random.Random(f"branches {place}")
    works = [some_facts(dice, number) for number in range(400)]
    told = [answer(facts, place, DAY) for facts in works]
    cut, inherited = World.narrow, []

    def forgetful(world, var, part):
        branch = cut(world, var, part)
        if branch is not None:
            inherited.append(len(branch.memo))
            branch.memo.clear()
        return branch

    monkeypatch.setattr(World, "narrow", forgetful)
    assert [answer(facts, place, DAY) for facts in works] == told
    assert any(inherited)


def check_form(got):
    assert got["status"] in ("public_domain", "in_copyright", "undetermined")
    assert (got["undetermined_because"] is not None) == (got["status"] == "undetermined")
    assert got["why"], got
    first, last = got["free_from_earliest"], got["free_from_latest"]
    if got["free_from"]:
        assert got["free_from"] == first == last
        assert (got["free_from"] <= DAY) == (got["status"] == "public_domain")
    if got["status"] == "public_domain":
        assert last is None or last <= DAY
    if got["undetermined_because"] == "missing_fact":
        assert got["open"], got


def test_every_question_is_in_the_vocabulary():
    dice = random.Random(3)
    names = {f.shown or f.name for f in rulebook().vocabulary.facts.values()}
    asked = set()
    for number in range(1500):
        asked |= {q["fact"] for q in answer(some_facts(dice, number), dice.choice(WRITTEN), DAY)["open"]}
    assert asked <= names and "died" in asked and "us_renewed" in asked
