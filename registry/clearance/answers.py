"""Possible answers to a question, each as the case that it would make: what-ifs, made by program and never kept."""

from dataclasses import replace
from datetime import date

from registry.clearance.layers import family
from registry.clearance.model import COPY, NEW, Permission, Use
from registry.clearance.traits import introducers, plain
from registry.facts import edtf
from registry.facts.work import Creator, Publication
from registry.law.world import bounds

STEPS = 6          # years tried between the first and the last possible one
AFTER_MAKING = 90  # years that a maker may outlive the work (common practice, no source)
OLDEST = 1700      # first year tried when nothing at all is known


def answered(ask, case, ground):
    """Pairs of (answer in words, Case with that answer) for an Ask; none when no answer can be tried."""
    if ask.fact in _OWN:
        return list(_OWN[ask.fact](ask, case, ground))
    if ask.fact.startswith("permission_"):
        return list(_permission(ask, case, ground))
    if ask.about in case.layers:
        work = case.layers[ask.about].work
        tried = ground.supposed(work, (ask.fact, case.job.markets), lambda: works(ask.fact, work, case, ground))
        return [(words, _with_work(case, ask.about, other)) for words, other in tried]
    return []


def works(name, work, case, ground):
    """Pairs of (answer in words, Work with that answer) for a fact of a work."""
    fact = ground.laws.vocabulary.facts.get(name)
    if fact is None:
        return []
    if fact.of == "creator":
        return _of_people(fact, work, case, ground)
    if fact.of == "publication":
        return _of_publications(fact, work, case, ground)
    return _of_work(fact, work, case, ground)


def _with_work(case, key, work):
    return replace(case, layers={**case.layers, key: replace(case.layers[key], work=work)})


# --- facts of a work, its makers, its publications ---------------------------------------------------

def _of_work(fact, work, case, ground):
    if fact.name == "creators":
        return [(f"a maker who died in {words}", replace(work, creators=(Creator(name="?", died=span),)))
                for words, span in _years(*_life(work, ground))]
    if fact.name == "publications":
        return [(f"{words} in {code}", replace(work, publications=(Publication(span, code),), published=True))
                for words, span in _years(*_shown(work, ground)) for code in _countries(work, case)]
    core = fact.name in ("kind", "authorship", "created", "published")
    return [(words, replace(work, **{fact.name: value}) if core else replace(work, facts={**work.facts, fact.name: value}))
            for words, value in _values(fact, work, case, ground)]


def _values(fact, work, case, ground):
    if fact.type == "bool":
        return [("yes", True), ("no", False)]
    if fact.type == "choice":
        return [(choice, choice) for choice in fact.choices]
    if fact.type in ("edtf", "year"):
        first, last = _making(work, ground) if fact.name == "created" else _shown(work, ground)
        return _years(first, last)
    if fact.type == "country":
        return [(code, code) for code in _countries(work, case)]
    if fact.type == "countries":
        return [(code, (code,)) for code in _countries(work, case)]
    return []


def _of_people(fact, work, case, ground):
    people = work.creators or (Creator(),)
    if fact.name == "died":
        return [(words, replace(work, creators=tuple(_dead(one, span) for one in people))) for words, span in _years(*_life(work, ground))]
    values = _years(*_life(work, ground, -60)) if fact.name == "born" else _values(fact, work, case, ground)
    core = fact.name in Creator.__dataclass_fields__ and fact.name != "facts"
    return [(words, replace(work, creators=tuple(_person(one, fact.name, value, core) for one in people))) for words, value in values]


def _person(one, name, value, core):
    return replace(one, **{name: value}) if core else replace(one, facts={**one.facts, name: value})


def _dead(one, span):
    exact = one.died is not None and one.died.latest is not None and one.died.latest - (one.died.earliest or 0) < 367
    return one if exact and not (one.died.uncertain or one.died.approximate) else replace(one, died=span, alive=None)


def _of_publications(fact, work, case, ground):
    printed = work.publications or (Publication(),)
    values = _years(*_shown(work, ground)) if fact.type == "edtf" else _values(fact, work, case, ground)
    return [(words, replace(work, publications=tuple(_print(one, fact.name, value) for one in printed))) for words, value in values]


def _print(one, name, value):
    known = getattr(one, name)
    if name == "date" and known is not None:
        sure = not (known.uncertain or known.approximate)
        if sure and (known.latest or 0) - (known.earliest or 0) < 367:
            return one
    return one if name == "country" and known is not None else replace(one, **{name: value})


# --- which years and countries are tried --------------------------------------------------------------

def _years(first, last):
    last = max(first, last)
    steps = sorted({first + (last - first) * n // (STEPS - 1) for n in range(STEPS)})
    return [(str(year), edtf.parse(f"{year:04d}")) for year in steps]


def _year(day):
    return date.fromordinal(min(max(day, 1), date.max.toordinal())).year


def _making(work, ground):
    first, last = bounds(work.created, 0, ground.day)
    shown = [bounds(p.date)[1] for p in work.publications if p.date is not None]
    last = min([last, *shown])
    return _year(first) if first > 0 else max(OLDEST, _year(last) - AFTER_MAKING), _year(last)


def _shown(work, ground):
    spans = [bounds(p.date, 0, ground.day) for p in work.publications if p.date is not None]
    first = max([_making(work, ground)[0], *(_year(s[0]) for s in spans if s[0] > 0)])
    return first, min([_year(ground.day), *(_year(s[1]) for s in spans)])


def _life(work, ground, shift=0):
    made = _making(work, ground)[0]
    spans = [bounds(one.died, 0, ground.day) for one in work.creators if one.died is not None]
    first = max([made, *(_year(s[0]) for s in spans if s[0] > 0)]) if not shift else made + shift
    last = min([_year(ground.day), made + AFTER_MAKING, *(_year(s[1]) for s in spans)]) if not shift else made
    return first, last


def _countries(work, case):
    named = [n for one in work.creators for n in one.nationality or () if len(n) == 2] + [p.country for p in work.publications if p.country]
    places = [code for code in case.job.markets if len(code) == 2]
    return list(dict.fromkeys([*named, *places]))[:STEPS]


# --- questions of clearance itself --------------------------------------------------------------------

def _originality(ask, case, _ground):
    for words, value in (("a faithful copy", COPY), ("something new", NEW)):
        layer = replace(case.layers[ask.about], originality=value)
        yield words, replace(case, layers={**case.layers, ask.about: layer})


def _source(ask, case, _ground):
    kin = family(case.layers, ask.extra)
    beneath = {layer.key for layer in family(case.layers, ask.extra)[:1]} | {ask.extra}
    uses = tuple(_from(use, ask, kin, beneath, case.layers) for use in case.job.uses)
    yield "yes", replace(case, job=replace(case.job, uses=uses))
    yield "no", case


def _from(use, ask, kin, beneath, layers):
    if use.work != ask.about:
        return use
    kept = tuple(name for name in use.traits if any(one.key in beneath for one in introducers(plain(name), kin, layers)))
    return Use(ask.extra, "picture" if use.part == "photograph" else use.part, kept, use.changes)


def _redrawn(ask, case, ground):
    yield "yes", _with_changes(ask, case, ground.rules.reading["unchanged"][0])
    yield "no", next(_source(ask, case, ground))[1]  # then the older version may be used itself


def _changes(ask, case, ground):
    yield "unchanged", _with_changes(ask, case, ground.rules.reading["unchanged"][0])
    yield "changed", _with_changes(ask, case, "changed")


def _with_changes(ask, case, words):
    uses = tuple(replace(use, changes=words) if use.work == ask.about else use for use in case.job.uses)
    return replace(case, job=replace(case.job, uses=uses))


def _trait_version(ask, case, _ground):
    for layer in family(case.layers, ask.about):
        one = replace(layer, traits=(*layer.traits, ask.extra))
        yield layer.title or layer.key, replace(case, layers={**case.layers, layer.key: one})


def _wording_source(_ask, case, _ground):
    yield "the shop's own words", replace(case, job=replace(case.job, wording=""))


def _making_of(_ask, case, ground):
    for words, signs in ground.rules.reading["making"].items():
        yield words, replace(case, job=replace(case.job, product=f"{signs[0]} {case.job.product}"))


def _quantity(_ask, case, _ground):
    yield "1", replace(case, job=replace(case.job, quantity=1))


def _licence(ask, case, _ground):
    yield "yes", _permitted(case, Permission("supposed", ask.about))


def _permission(ask, case, _ground):
    found = next((one for one in case.permissions if one.key == ask.about), None)
    if found is not None:
        yield "yes", _permitted(case, found)
        yield "no", case


def _permitted(case, permission):
    """The Case with a permission that covers all; the others stay as they are."""
    wide = replace(permission, uses=("any",), places=("world",), media=("any",), quantity=None, first=None, last=None,
                   commercial=True, changes_allowed=True, spdx=None, kind="licence")
    return replace(case, permissions=(*(one for one in case.permissions if one.key != permission.key), wide))


_OWN = {"originality": _originality, "source": _source, "redrawn": _redrawn, "changes": _changes,
        "trait_version": _trait_version, "wording_source": _wording_source,
        "making": _making_of, "quantity": _quantity, "permission": _licence}
