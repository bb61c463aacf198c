"""Cautions: what to beware of beside copyright, shown only where it applies, the things to do first on top.

They change no status. What a caution looks at is a Scene: one job in one place, with its layers and the marks found.
"""

from dataclasses import dataclass
from datetime import date

from registry.clearance.model import Caution
from registry.clearance.offices import ELSEWHERE
from registry.clearance.wording import wording
from registry.facts.work import UNKNOWN
from registry.law.world import Split, World, bounds

_YEAR = 365.2425  # days


@dataclass(frozen=True, slots=True)
class Seen:
    """One layer of a job as cautions see it: the Layer, its parts in the job, its copyright status in the place,
    the kinds of the versions beneath, the law's Base of its facts (None: facts cannot be tested), and whether a
    permission for it is on record."""

    layer: object
    parts: tuple
    status: str
    beneath: tuple = ()
    base: object = None
    permission: bool = False


@dataclass(frozen=True, slots=True)
class Scene:
    """One job in one place on one day; `runs` are all runs of words in its texts, as stems."""

    place: str
    day: int
    product: str
    purpose: str
    classes: frozenset
    wording: int
    listing: bool
    runs: frozenset
    seen: tuple
    found: tuple = ()
    elsewhere: bool = False


def runs_of(texts):
    """The runs of words in Texts, as stems joined by spaces: what `words` of a rule are looked for in."""
    return frozenset(" ".join(piece.stems) for text in texts for piece in text.prepared.pieces)


def words_in(text):
    """The number of words in a wording."""
    return len([word for word in wording(text).words if word != "&"])


def cautions(scene, rules):
    """The Cautions that apply to a Scene, those that ask for something first on top, else in the order of the rules."""
    found = []
    for rule in rules:
        if (rule.places is None or scene.place in rule.places) and scene.place not in rule.without:
            hit = next((one for one in (_holds(when, scene) for when in rule.whens) if one is not None), None)
            if hit is not None:
                found.append((rule, hit))
    found.sort(key=lambda pair: pair[0].action != "first")
    return tuple(_caution(rule, works, scene.place) for rule, works in found)


def _caution(rule, works, place):
    return Caution(rule.id, rule.says, rule.source, rule.how, (place,), works[0] if works else None, rule.title, rule.action)


def _holds(when, scene):
    """Keys of the layers for which a When holds (() when it looks at none); None when it does not hold."""
    for key, value in when.job.items():
        if not _JOB[key](value, scene):
            return None
    if not when.layer:
        return ()
    works = tuple(seen.layer.key for seen in scene.seen if all(_LAYER[key](value, seen, scene) for key, value in when.layer.items()))
    return works or None


# --- about the job ------------------------------------------------------------------------------------

def _words(phrases, scene):
    return not phrases.isdisjoint(scene.runs)


def _product(phrases, scene):
    return not phrases.isdisjoint(runs_in(scene.product))


def runs_in(text):
    """The runs of words in a short text, as stems joined by spaces."""
    stems = wording(text).stems
    return {" ".join(stems[start:end]) for start in range(len(stems)) for end in range(start + 1, len(stems) + 1)}


def _here(scene):
    """The marks found that reach the place, or may."""
    return [one for one in scene.found if one.reach != ELSEWHERE]


def _marks(wanted, scene):
    standings = {one.standing for one in _here(scene)}
    return not wanted.isdisjoint(standings or {"elsewhere" if scene.elsewhere else "none"})


def _marks_goods(wanted, scene):
    return any(one.goods in wanted for one in _here(scene) if one.standing in ("live", "pending"))


def _marks_years(years, scene):
    return any(one.standing == "live" and _age(one.mark.registered, scene.day) > years for one in _here(scene))


def _age(day, today):
    try:
        return (today - date.fromisoformat(day).toordinal()) / _YEAR if day else -1.0
    except ValueError:
        return -1.0


_JOB = {
    "purposes": lambda wanted, scene: scene.purpose in wanted,
    "product": _product,
    "classes": lambda wanted, scene: not wanted.isdisjoint(scene.classes),
    "words": _words,
    "wording_at_least": lambda least, scene: scene.wording >= least,
    "wording_at_most": lambda most, scene: scene.wording <= most,
    "listing": lambda wanted, scene: scene.listing is wanted,
    "places_here": lambda codes, scene: scene.place in codes,
    "marks": _marks,
    "marks_goods": _marks_goods,
    "marks_years": _marks_years,
}


# --- about one layer ----------------------------------------------------------------------------------

def _terms(wanted, seen, _scene):
    terms = seen.layer.terms
    if terms is None or not terms.text.strip():
        return False
    return wanted is True or not wanted.isdisjoint(runs_in(f"{terms.supplier} {terms.text}"))


def _has(wanted, seen, _scene):
    """True when every named fact is recorded with one of the values; silence is not having."""
    work = seen.layer.work
    for name, values in wanted.items():
        value = getattr(work, name) if name in ("kind", "authorship", "published") else work.facts.get(name)
        if value in (None, UNKNOWN) or value not in values:
            return False
    return True


def _shown_within(years, seen, scene):
    """True when the version was surely first shown, or made, fewer than so many years ago."""
    work = seen.layer.work
    spans = [bounds(p.date) for p in work.publications if p.date is not None] or ([bounds(work.created)] if work.created else [])
    return bool(spans) and min(first for first, _last in spans) > scene.day - years * _YEAR


def _facts(test, seen, scene):
    """True when a condition of the law holds for every reading of the facts; what cannot be told does not hold."""
    base = seen.base
    if base is None or base.start is None:
        return False
    try:
        return test(World(dict(base.start.dom), base, scene.day))
    except Split:
        return False


_LAYER = {
    "parts": lambda wanted, seen, scene: not wanted.isdisjoint(seen.parts),
    "kinds": lambda wanted, seen, scene: seen.layer.work.kind in wanted,
    "status": lambda wanted, seen, scene: seen.status in wanted,
    "originality": lambda wanted, seen, scene: seen.layer.originality in wanted,
    "based_on": lambda wanted, seen, scene: (seen.layer.based_on is not None) is wanted,
    "beneath": lambda wanted, seen, scene: not wanted.isdisjoint(seen.beneath),
    "adds": lambda wanted, seen, scene: bool(seen.layer.traits) is wanted,
    "own": lambda wanted, seen, scene: seen.layer.own is wanted,
    "terms": _terms,
    "permission": lambda wanted, seen, scene: seen.permission is wanted,
    "has": _has,
    "shown_within": _shown_within,
    "facts": _facts,
}
