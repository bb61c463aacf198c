"""Laws of the engine over random works from fixed seeds: narrowing only settles, trails are real, answers repeat."""

import random
from dataclasses import replace

import pytest
from randoms import PLACES, narrowed, some_facts
from rows import answer

from registry import data
from registry.errors import BadLaw
from registry.facts import edtf
from registry.facts.work import read_work
from registry.law.load import read_law
from registry.law.verdict import judge
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


def with_us_days(dice, facts):
    """The facts, often with a registration, a renewal and a year in the notice, near the publication or far from it."""
    year = dice.randint(1905, 1990)
    more = {"us_renewed_on": f"{year + dice.choice((26, 27, 28, 29))}-{dice.randint(1, 12):02d}-10", "us_registered_on": f"{year}-06-{dice.randint(1, 28):02d}", "us_notice_year": year + dice.randint(-3, 3)}
    return facts | {name: value for name, value in more.items() if dice.random() < 0.4 and not (facts.get(name.removesuffix("_on")) is False)}


@pytest.mark.parametrize("place", ["US", "FR", "DE", "CO"])
def test_what_a_branch_inherits_changes_nothing(place, monkeypatch):
    """Answers are the same when every branch is replayed from the start, knowing nothing of the one it was cut from."""
    dice = random.Random(f"branches {place}")
    works = [with_us_days(dice, some_facts(dice, number)) for number in range(400)]
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


HIDDEN = """
code = "ZZ"
name = "A law made up"
checked = 2026-11-25
covers = ["drawing"]
[[source]]
id = "s"
title = "none"
how = "memory"
[[event]]
id = "told"
first = [{ when = { author_untraceable = true }, is = "creation" }, { is = "publication" }]
[[define]]
id = "early"
when = { surely_before = { event = "told", after = "publication" } }
[[act]]
id = "a"
says = "a"
cite = ["s"]
from = 1900-01-01
[[act.term]]
id = "early"
says = "e"
cite = ["s"]
when = { early = true, authorship = ["anonymous", "individual"] }
after = "creation"
years = 200
[[act.term]]
id = "early-anonymous"
says = "b"
cite = ["s"]
when = { authorship = ["anonymous"], early = true }
after = "creation"
years = 200
[[act.term]]
id = "rest"
says = "r"
cite = ["s"]
when = { authorship = ["anonymous"], early = false }
after = "publication"
years = 50
[[act.term]]
id = "life"
says = "l"
cite = ["s"]
after = "publication"
years = 50
"""


def test_a_branch_inherits_no_presumption_that_the_cut_takes_away():
    """Whether a maker is untraceable is presumed while it is open how the work is credited; after the cut it is asked."""
    book = rulebook()
    laws = replace(book.laws, _loaded={})
    laws._loaded["ZZ"] = read_law(HIDDEN, "zz.toml", laws)
    work = read_work({"kind": "drawing", "created": "1900", "publications": [{"date": "1910", "country": "FR"}]}, book.vocabulary)
    found = judge(work, "ZZ", laws, edtf.day(DAY))
    assert found.status == "undetermined" and {one.fact for one in found.questions} == {"author_untraceable", "authorship"}


def test_a_word_of_a_law_is_true_or_false():
    with pytest.raises(BadLaw, match="'early' is compared with 0; allowed are true and false"):
        read_law(HIDDEN.replace("early = false", "early = 0"), "zz.toml", rulebook().laws)


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
