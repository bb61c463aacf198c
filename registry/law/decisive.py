"""Which recorded facts an answer hangs on: those without which another answer would be possible."""

from dataclasses import replace

from registry.facts.edtf import Span
from registry.facts.work import UNKNOWN
from registry.law.known import Base
from registry.law.verdict import LIMIT, OPEN, judge, leaf_of
from registry.law.world import NEVER, Split


def decisive(work, code, laws, as_of):
    """Names of the recorded facts that the answer hangs on, in the order of the vocabulary.

    Each fact on record is taken away in turn and the answer made again; where it is no longer the same,
    another value could have changed it. `as_of` is a day number.
    """
    return tuple(hanging(work, {code: judge(work, code, laws, as_of).status}, laws, as_of))


def hanging(work, statuses, laws, as_of):
    """Codes of the places whose answer hangs on a fact, by the name of the fact, in the order of the vocabulary.

    `statuses` are the answers as they are, by code of place; several places at once are quicker than one by one.
    """
    return hanging_until(work, statuses, laws, as_of)[0]


def hanging_until(work, statuses, laws, as_of):
    """(what `hanging` gives, the first day number on which that may be otherwise by the calendar alone)."""
    found, until = {}, NEVER
    for name, other in without(work):
        base, codes = Base(other, laws, as_of), []
        for code, status in statuses.items():
            differs, day = _differs(other, code, status, base)
            codes += [code] if differs else []
            until = min(until, day)
        if codes:
            found[name] = tuple(codes)
    return {name: found[name] for name in order(laws) if name in found}, until


def _differs(work, code, status, base):
    """(True when the answer is not that status, first later day on which it may be otherwise); stops at the first branch that tells."""
    law, as_of = base.laws.law(code), base.as_of
    if status == OPEN or law is None:
        found = judge(work, code, base.laws, as_of, base)
        return found.status != status, _after(as_of, (found.earliest, found.latest))
    if base.conflict:
        return True, NEVER
    todo, seen, leaves, until = [base.first()], 0, 0, NEVER
    while todo:
        world = todo.pop()
        seen += 1
        if seen > LIMIT * 2 or leaves > LIMIT:
            return True, NEVER
        try:
            leaves += 1
            leaf = leaf_of(law, world)
            until = min(until, _after(as_of, (leaf.lo + 1, leaf.hi + 1)))
            if leaf.result != status:
                return True, until
        except Split as cut:
            leaves -= 1
            todo += [branch for branch in (world.narrow(cut.var, part) for part in reversed(cut.parts)) if branch is not None]
    return leaves == 0, until


def _after(as_of, days):
    return min((day for day in days if day is not None and day > as_of), default=NEVER)


def order(laws):
    """The names of facts as shown, in the order of the vocabulary."""
    return dict.fromkeys(fact.shown or fact.name for fact in laws.vocabulary.facts.values())


def without(work):
    """(fact name, Work without that fact) for every fact on record; creators' facts are taken away from all of them."""
    for name in ("kind", "authorship", "created"):
        if getattr(work, name) is not None:
            yield name, replace(work, **{name: None})
    if work.publications:
        yield "publications.date", replace(work, publications=tuple(replace(p, date=None) for p in work.publications))
        yield "publications.country", replace(work, publications=tuple(replace(p, country=None) for p in work.publications))
        if any(p.by_owner is not None for p in work.publications):
            yield "by_owner", replace(work, publications=tuple(replace(p, by_owner=UNKNOWN) for p in work.publications))
    elif work.published is not None:
        yield "published", replace(work, published=None)
    for name, value in work.facts.items():
        yield name, replace(work, facts=_less(work.facts, name, value))
    yield from _of_creators(work)


def _less(facts, name, value):
    """Facts with a date gone and anything else not known: silence could be taken for a no."""
    rest = {key: other for key, other in facts.items() if key != name}
    return rest if isinstance(value, Span) else {**rest, name: UNKNOWN}


def _of_creators(work):
    for name in ("died", "born", "alive", "nationality", "identity_disclosed"):
        if any(getattr(c, name) is not None for c in work.creators):
            blank = (UNKNOWN,) if name == "nationality" else None
            yield name, replace(work, creators=tuple(replace(c, **{name: blank}) for c in work.creators))
    for name in dict.fromkeys(key for c in work.creators for key in c.facts):
        yield name, replace(work, creators=tuple(
            replace(c, facts=_less(c.facts, name, c.facts[name])) if name in c.facts else c for c in work.creators))
