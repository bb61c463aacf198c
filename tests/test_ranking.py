"""The first-ranked question settles at least as many pairs of market and job as any other: brute force on random shops."""

import random

import clearing
import pytest

from registry.clearance import suppose
from registry.clearance.answers import answered
from registry.clearance.decision import decide
from registry.clearance.model import Case, JobFacts, Layer, OtherJob, Permission, Use
from registry.clearance.questions import ranked, settles
from registry.facts.work import read_work
from registry.rulebook import rulebook

PLACES = ("US", "CA", "GB", "DE", "MX")
DAY = "2026-11-25"
MANY = 500


def _facts(dice, number):
    made = dice.randint(1900, 1975)
    home = dice.choice(PLACES)
    facts = {"id": f"w{number}", "title": f"Picture {number}", "kind": dice.choice(("drawing", "print", "painting")), "authorship": "individual",
             "creators": [{"name": "Somebody", "nationality": [home]}], "created": str(made), "published": True,
             "publications": [{"date": str(made), "country": home}]}
    if dice.random() < 0.6:
        facts["creators"][0]["died"] = str(made + dice.randint(1, 50))
    if home == "US":
        facts["us_notice"] = True
        if dice.random() < 0.5:
            facts["us_renewed"] = dice.random() < 0.5
    else:
        facts.update({"us_published_within_30_days": False, "home_protected_on_restoration": dice.random() < 0.8, "us_notice": False})
    return facts


def _shop(seed):
    """(Cases, facts objects by key) of a small random shop: versions, silent licences, jobs that share works."""
    dice = random.Random(seed)
    objects = {f"w{n}": _facts(dice, n) for n in range(dice.randint(2, 3))}
    layers, keys = {}, list(objects)
    for n, key in enumerate(keys):
        base = dice.choice(keys[:n]) if n and dice.random() < 0.4 else None
        layers[key] = Layer(key, objects[key]["title"], read_work(objects[key], rulebook().vocabulary), base,
                            dice.choice(("new_expression", "unknown")) if base else "new_expression", (f"trait {n}",))
    permissions = tuple(Permission(f"p{n}", key, "licence", "the heirs", uses=dice.choice((("goods",), ())), places=dice.choice((("world",), ())),
                                   media=("any",), commercial=dice.choice((True, None)), changes_allowed=True, quantity=dice.choice((None, 50)))
                        for n, key in enumerate(keys) if dice.random() < 0.25)
    cases = []
    for n in range(dice.randint(1, 3)):
        work = dice.choice(keys)
        job = JobFacts(f"j{n}", "carved wooden sign", "sale", tuple(dice.sample(PLACES, 2)), 40, uses=(Use(work),))
        others = (OtherJob("old", 30, (work,)),) if dice.random() < 0.3 else ()
        cases.append(Case(job, layers, permissions, others))
    return cases, objects


def _decisions(cases, on):
    return {(case.job.key, market.market): market for case in cases for market in decide(case, on).markets}


def _settled(before, cases, on):
    after = _decisions(cases, on)
    return sum(settles(old.decision, after[pair].decision) for pair, old in before.items())


@pytest.mark.parametrize("part", range(10))
def test_no_other_question_settles_more(part):
    for seed in range(part * MANY // 10, (part + 1) * MANY // 10):
        cases, objects = _shop(seed)
        on = clearing.ground(DAY)
        first = next(iter(ranked(cases, on)), None)
        before = _decisions(cases, on)
        best = max([0, *_asked(cases, before, on), *_unasked(cases, objects, before, on)])
        assert (first.settles if first else 0) >= best, seed
        if first:  # and what the ranking says of its first question is true
            assert first.settles == max([0, *_worth(first.ask, cases, before, on)]), seed


def _asked(cases, before, on):
    """What each answer to each question that any waiting market names would settle, over all pairs."""
    asks = {(ask.fact, ask.about, ask.extra): ask for market in before.values() if market.decision != "no_bar_found"
            for ask in market.asks if ask.kind in ("settle", "lift")}
    return [count for ask in asks.values() for count in _worth(ask, cases, before, on)]


def _worth(ask, cases, before, on):
    tried = [answered(ask, case, on) for case in cases]
    return [_settled(before, [one[number][1] for one in tried], on) for number in range(min(map(len, tried)))]


def _unasked(cases, objects, before, on):
    """What facts on which nothing is recorded would settle, whether anybody asks for them or not."""
    vocabulary = rulebook().vocabulary
    for key, facts in objects.items():
        names = [fact.name for fact in vocabulary.of["work"].values() if fact.type == "bool" and fact.absent == "unknown" and fact.name not in facts]
        wanted = [(name, value) for name in names for value in (True, False)]
        if "died" not in facts["creators"][0]:
            wanted += [("died", str(year)) for year in (1940, 1956, 1970, 1990)]
        for name, value in wanted:
            told = [suppose.Supposition(key, name, value)]
            yield _settled(before, [suppose.case(case, told, objects, vocabulary) for case in cases], on)


def test_the_shops_ask_something():
    found = [ranked(_shop(seed)[0], clearing.ground(DAY)) for seed in range(100)]
    assert sum(bool(one) for one in found) > 50
    assert {ask.ask.fact for one in found for ask in one} >= {"died", "us_renewed", "originality", "source", "permission_places"}


def test_stopping_early_changes_nothing():
    for seed in range(60):
        cases, _objects = _shop(seed)
        whole, short = ranked(cases, clearing.ground(DAY)), ranked(cases, clearing.ground(DAY), want=1)
        assert [one.ask for one in short] == [one.ask for one in whole][:1] or short[0].settles == whole[0].settles, seed
