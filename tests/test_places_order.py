"""What is asked about one place never colours the answer about another: any order, alone or together."""

import random

import pytest
from randoms import PLACES, some_facts
from rows import answer, rows

from registry.facts import edtf
from registry.facts.work import read_work
from registry.law.known import Base
from registry.law.verdict import as_json, judge
from registry.rulebook import rulebook

DAY = "2026-07-01"


def together(facts, places):
    """Answers about several places out of one common Base, by place."""
    book, as_of = rulebook(), edtf.day(DAY)
    work = read_work(facts, book.vocabulary)
    base = Base(work, book.laws, as_of)
    return {place: as_json(facts.get("id", ""), place, as_of, judge(work, place, book.laws, as_of, base)) for place in places}


@pytest.mark.parametrize("seed", range(4))
def test_random_works(seed):
    dice = random.Random(4000 + seed)
    for number in range(60):
        facts = some_facts(dice, number)
        order = dice.sample(PLACES, len(PLACES))
        assert together(facts, order) == {place: answer(facts, place, DAY) for place in order}, facts


def test_unsigned_works():
    for row in rows("own/sibling.jsonl"):
        if row["facts"].get("authorship") in ("anonymous", "government"):
            facts = row["facts"]
            assert together(facts, PLACES) == {place: answer(facts, place, DAY) for place in PLACES}, facts
