"""Traits: which version first shows a feature, which layers a product therefore shows, what must be left off."""

from dataclasses import dataclass

from registry.clearance.ground import day_words, listed
from registry.clearance.layers import chain, family, shown_year
from registry.clearance.model import HOLD, NEVER, NO_BAR, OPEN, SOON, WORST, TraitAnswer
from registry.clearance.redrawn import drawn_from, told
from registry.law.known import bounds as span_bounds

PHOTOGRAPH = "photograph"


@dataclass(frozen=True, slots=True)
class Walk:
    """A use taken apart: `line` its chain of Layers, `shown` the Layers the product shows, `aside` those of the
    chain it does not, `redrawn` True when the changes say so and False when only the named traits do, `doubt` those of
    `shown` of which no trait is named and the changes leave it open, `first` each named trait with the Layers that may
    have shown it first (none: not on record).
    """

    line: tuple
    shown: tuple
    aside: tuple
    redrawn: bool
    doubt: tuple
    first: dict


def plain(name):
    """A trait's name as compared: letter case and spaces do not count."""
    return " ".join(name.casefold().split())


def walk(layers, use):
    """The Walk of a use: the work used shows its own drawing and all beneath it. A version of which no trait is named is
    set aside where the changes say that the picture was drawn anew from another one (`redrawn`), or say no more than
    "none" or "redrawn": then every answer says that it does not cover its drawing. With silence or another text it is
    in doubt, and used unchanged it is shown.
    """
    line, kin = chain(layers, use.work), family(layers, use.work)
    wanted = {plain(name): name for name in use.traits}
    first = {name: introducers(key, kin, layers) for key, name in wanted.items()}
    if not wanted:
        return Walk(line, line, (), False, (), first)
    left = tuple(layer for layer in line[1:] if _may_be_left(layer, wanted, kin, layers))
    sources = [layer for layer in line if layer not in left]
    for layer in (one for holders in first.values() for one in holders):
        if layer not in sources:
            sources.append(layer)
    clean = [one for one in sources if not any(layer in left for layer in chain(layers, one.key))]
    redrawn = drawn_from(use.changes, clean, left)
    aside = left if redrawn or told(use.changes) and clean == sources else ()
    shown = [layer for layer in line if layer not in aside]
    shown += [layer for layer in sources if layer not in shown]
    return Walk(line, tuple(shown), aside, redrawn, () if aside else left, first)


def _may_be_left(layer, wanted, kin, layers):
    """True when a Layer brought traits and none of them is named. Where nothing is on record of what it brought, it
    counts; so does a photograph: its angle and light cannot be left off.
    """
    new = introduced(layer, kin, layers)
    return bool(new) and not new & wanted.keys() and layer.work.kind != PHOTOGRAPH


def introduced(layer, kin, layers):
    """Compared names of the traits that a Layer may have shown first."""
    return {plain(name) for name in layer.traits if layer in introducers(plain(name), kin, layers)}


def introducers(name, kin, layers):
    """The Layers of a family that may have shown a trait first: no version beneath shows it, none is surely older."""
    holders = [layer for layer in kin if name in map(plain, layer.traits)]
    tops = [layer for layer in holders if not any(other in chain(layers, layer.key)[:-1] for other in holders)]
    return tuple(layer for layer in tops if not any(_older(other, layer) for other in tops))


def _older(one, other):
    return when_shown(one)[1] < when_shown(other)[0]


def when_shown(layer):
    """(first, last) day on which a version can have been shown first: its publication, else its making."""
    spans = [span_bounds(p.date) for p in layer.work.publications if p.date is not None]
    if spans:
        return min(s[0] for s in spans), min(s[1] for s in spans)
    return span_bounds(layer.work.created)


def answers(found, decided):
    """(TraitAnswers of the named traits, TraitAnswers of those to leave off); `decided`: LayerAnswer by work key."""
    named = tuple(_answer(name, holders, decided) for name, holders in found.first.items())
    root = found.line[0].key
    barred = [one for one in named if one.decision != NO_BAR and one.work != root]
    if not found.first:  # no trait was named, so what a later version added is all of it
        kept = [layer for layer in found.shown if layer.key != root and decided[layer.key].decision != NO_BAR]
        barred = [_answer(name, (layer,), decided) for layer in kept for name in layer.traits]
    return named, tuple(barred)


def _answer(name, holders, decided):
    if not holders:
        return TraitAnswer(name, None, "", OPEN)
    worst = max((decided[layer.key] for layer in holders), key=lambda answer: (WORST[answer.decision], answer.latest))
    layer = next(layer for layer in holders if layer.key == worst.work)
    day = worst.latest if worst.earliest == worst.latest and SOON < worst.latest < NEVER else None
    return TraitAnswer(name, layer.key, shown_year(layer), worst.decision, day)


def leave_off(barred, named, ground):
    """The sentence that says what to leave off and from when, and what may be used now; "" when nothing is to be."""
    known = [one for one in barred if one.work is not None]
    if not known:
        return ""
    says = ground.rules.says
    ones = [says("leave_off_one", trait=one.trait, year=one.shown or "undated", until=_until(one, says)) for one in known]
    fine = [f"'{one.trait}'" for one in named if one.decision == NO_BAR]
    more = f"; {says('may_use', traits=listed(fine))}" if fine else ""
    return says("leave_off", traits=listed(ones)) + more + "." + (f" {says('draw_from')}" if fine else "")


def _until(one, says):
    if one.decision == HOLD:
        return says("leave_off_from", day=day_words(one.free_from)) if one.free_from else says("leave_off_open")
    return says("leave_off_unsettled")
