"""Which recorded facts an answer hangs on: those without which another answer would be possible."""

from dataclasses import replace

from registry.facts.edtf import Span
from registry.facts.work import UNKNOWN
from registry.law.verdict import judge


def decisive(work, code, laws, as_of):
    """Names of the recorded facts that the answer hangs on, in the order of the vocabulary.

    Each fact on record is taken away in turn and the answer made again; where it is no longer the same,
    another value could have changed it. `as_of` is a day number.
    """
    before = judge(work, code, laws, as_of).status
    found = {name for name, other in without(work) if judge(other, code, laws, as_of).status != before}
    return tuple(name for name in _order(laws) if name in found)


def _order(laws):
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
