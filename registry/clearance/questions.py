"""What to find out next: questions in the order of how many waiting pairs of market and job an answer would settle.

A pair waits while it is not no_bar_found. An answer settles a pair that was not settled when it makes it
no_bar_found or hold, and a pair on hold when it makes it no_bar_found. A question is worth what its best answer
settles; among equals, what every answer tried settles; then how many pairs name it, most telling first.
"""

from registry.clearance.answers import answered
from registry.clearance.decision import decide, decide_place
from registry.clearance.markets import market
from registry.clearance.model import HOLD, NO_BAR, OPEN, WORST, Ranked

ASKED = ("settle", "lift")


def ranked(cases, ground, want=None, only=None):
    """Ranked questions of the Cases, the most useful first; ways out of a hold that lead nowhere are left out.

    `want` ends the search when that many are surely the best; `only` keeps the questions of one job, by its key.
    """
    answers = [(case, decide(case, ground)) for case in cases]
    waiting = _waiting(answers, only)
    order = sorted(waiting, key=lambda ask: -len(waiting[ask]))  # stable: ties stay in the order in which they came up
    found = []
    for number, ask in enumerate(order):
        if want and len(found) >= want and sorted(one.settles for one in found)[-want] >= len(waiting[ask]):
            break
        one = worth(ask, waiting[ask], ground)
        if one.settles or ask.kind == "settle":
            found.append(one)
    found.sort(key=lambda one: (-one.settles, -one.surely, -one.waiting))
    return found[:want] if want else found


def _waiting(answers, only):
    """For each Ask the (case, MarketAnswer) pairs that name it while they wait."""
    found, kept = {}, {}
    for case, answer in answers:
        for one in answer.markets:
            if one.decision == NO_BAR:
                continue
            for ask in one.asks:
                if ask.kind in ASKED:
                    known = kept.setdefault(_same(ask), ask)
                    found.setdefault(known, {})[(case.job.key, one.market)] = (case, one)
    found = {ask: list(pairs.values()) for ask, pairs in found.items()}
    if only is None:
        return found
    return {ask: pairs for ask, pairs in found.items() if any(case.job.key == only for case, _one in pairs)}


def _same(ask):
    """What makes two Asks one question: all that is asked of one licensor about one permission is."""
    return ("permission", ask.about, "") if ask.fact.startswith("permission_") else (ask.fact, ask.about, ask.extra)


def worth(ask, pairs, ground):
    """The Ranked of an Ask over the pairs (case, MarketAnswer) that wait for it."""
    settled = {}
    for case in {id(case): case for case, _one in pairs}.values():
        mine = [one for other, one in pairs if other is case]
        for words, supposed in answered(ask, case, ground):
            row = settled.setdefault(words, {})
            for one in mine:
                row[(case.job.key, one.market)] = (one.decision, _decided(supposed, one.market, ground))
    good = {words: {pair for pair, (old, new) in row.items() if settles(old, new)} for words, row in settled.items()}
    best = max((len(pairs_) for pairs_ in good.values()), default=0)
    sure = len(set.intersection(*good.values())) if good else 0
    outcomes = tuple((words, tuple((market_, new) for (_job, market_), (_old, new) in row.items())) for words, row in settled.items())
    return Ranked(ask, best, sure, len(pairs), outcomes)


def settles(old, new):
    """True when a decision that waited is settled by becoming another."""
    return new == NO_BAR if old == HOLD else old == OPEN and new != OPEN


def _decided(case, name, ground):
    where = market(name, ground.groups, ground.names or None)
    return max((decide_place(case, code, ground).decision for code in where.codes), key=WORST.get)
