"""The decision: for each market no_bar_found, hold or not_settled; the worst layer and the worst member win."""

from dataclasses import dataclass, replace

from registry.clearance import lettering, traits
from registry.clearance.ground import day_words, listed
from registry.clearance.layers import asked, chain
from registry.clearance.markets import market
from registry.clearance.marks import EXACT, STRONG
from registry.clearance.model import (
    HOLD, NEVER, NO_BAR, OPEN, SOON, WORST, Caution, Ask, JobAnswer, MarketAnswer, PlaceAnswer,
)
from registry.clearance.pieces import doubted, piece, source, stray


@dataclass(frozen=True, slots=True)
class Part:
    """One reason that counts toward a decision: a layer, a trait not on record, the wording, a mark."""

    decision: str
    says: str
    earliest: int = SOON
    latest: int = SOON


def decide(case, ground):
    """The JobAnswer of a Case, its questions not ranked yet; RegistryError for a market or work that is not there."""
    places, found = {}, []
    for name in case.job.markets:
        where = market(name, ground.groups, ground.names or None)
        for code in where.codes:
            if code not in places:
                places[code] = decide_place(case, code, ground)
        found.append(_market(where, [places[code] for code in where.codes], ground))
    asks = _unique(ask for one in found for ask in one.asks)
    clear = _unique(ask for one in places.values() if one.decision == NO_BAR for ask in one.asks)
    credits = dict.fromkeys((layer.title, layer.credit) for one in places.values() for layer in one.layers if layer.credit)
    return JobAnswer(case.job.key, ground.day, tuple(found), first=tuple(a for a in asks if a.kind == "first"),
                     confirm=tuple(a for a in clear if a.kind == "confirm"), credits=tuple(credits), notes=_notes(case, found, ground))


def _unique(asks):
    """The asks, each once, the first of its kind kept, in order."""
    found = {}
    for ask in asks:
        found.setdefault((ask.fact, ask.about, ask.extra, ask.kind), ask)
    return tuple(found.values())


def _told(cautions):
    """The cautions, each once: the first word on a thing stands, what asks for something first is on top."""
    found = {}
    for caution in cautions:
        known = found.get(caution.id, caution)
        action = "first" if "first" in (known.action, caution.action) else "also"
        found[caution.id] = replace(known, title=known.title or caution.title, action=action)
    return tuple(sorted(found.values(), key=lambda one: one.action != "first"))


def _notes(case, found, ground):
    notes = []
    says = ground.rules.purposes[case.job.purpose].get("says")
    if says and any(one.decision != NO_BAR for one in found):
        notes.append(says)
    used = {layer.key for use in case.job.uses for layer in chain(case.layers, use.work)}
    for permission in case.permissions:
        if permission.work in used and permission.kind == "release":
            notes.append(ground.rules.note("RELEASE").says)
        licence = ground.rules.licences.get(permission.spdx)
        if permission.work in used and licence and not licence.grants:
            notes.append(ground.rules.note("LABEL-ONLY", licence=permission.spdx).says)
    return tuple(dict.fromkeys(notes))


def clear_day(decision, earliest, latest):
    """The day from which it clears: since when at the latest, or the one day on which a hold ends; None when not known."""
    if decision == OPEN or not SOON < latest < NEVER:
        return None
    return latest if decision == NO_BAR or earliest == latest else None


# --- one place --------------------------------------------------------------------------------------

def decide_place(case, code, ground):
    """The PlaceAnswer of a Case in the place of that code."""
    uses = [_use(use, case, code, ground) for use in case.job.uses]
    layers = tuple(layer for one in uses for layer in one.layers)
    parts = [Part(a.decision, a.says, a.earliest, a.latest) for a in layers] + [part for one in uses for part in one.strays]
    cautions, asks = [c for a in layers for c in a.cautions], [ask for one in uses for ask in one.asks]
    _words(case, code, ground, parts, cautions, asks)
    matches = _marks(case, code, parts, cautions, asks)
    cautions += [c for c in case.cautions if not c.places or code in c.places]
    if parts and not case.job.uses:
        asks.append(asked("uses", case.job.key, ground, "confirm"))
    if not parts:
        parts.append(Part(OPEN, ground.rules.says("nothing"), SOON, NEVER))
        asks.append(asked("uses", case.job.key, ground))
    decision = max((part.decision for part in parts), key=WORST.get)
    earliest, latest = max(part.earliest for part in parts), max(part.latest for part in parts)
    free = clear_day(decision, earliest, latest)
    reasons = tuple(dict.fromkeys(part.says for part in parts if part.decision == decision))
    off = " ".join(one.leave_off for one in uses if one.leave_off)
    sentence = _sentence(decision, code, reasons, off, free, earliest, case.job, ground)
    assumed = tuple(dict.fromkeys(says for one in uses for says in one.assumed))
    sentence = " ".join((sentence + _near(decision, matches, ground), *assumed))
    return PlaceAnswer(code, decision, sentence, reasons, layers,
                       tuple(t for one in uses for t in one.traits),
                       tuple(dict.fromkeys(t.trait for one in uses for t in one.barred)),
                       _told(cautions), _unique(asks), free, earliest, latest, matches, off, assumed)


@dataclass(frozen=True, slots=True)
class UseAnswer:
    """What one use means in a place."""

    layers: tuple
    traits: tuple
    barred: tuple
    strays: tuple
    asks: tuple
    leave_off: str
    assumed: tuple


def _use(use, case, code, ground):
    found = traits.walk(case.layers, use)
    decided = {}
    for layer in found.shown:
        answer = piece(chain(case.layers, layer.key), use, found.line, case, code, ground)
        decided[layer.key] = doubted(answer, layer, found, use, ground) if layer in found.doubt else answer
    named, barred = traits.answers(found, decided)
    barred = tuple(one for one in barred if one.work is not None)
    unknown = stray(found, use, ground)
    strays = tuple(Part(OPEN, ground.rules.says("stray", trait=ask.extra), SOON, NEVER) for ask in unknown)
    better, aside = source(use, found, decided, ground), _aside(found, use, ground)
    asks = (*(ask for one in decided.values() for ask in one.asks), *unknown, *((better,) if better else ()), *aside)
    return UseAnswer(tuple(decided.values()), named, barred, strays, asks, traits.leave_off(barred, named, ground),
                     tuple(one.question for one in aside))


def _aside(found, use, ground):
    """What was taken as not shown, as things to confirm."""
    base = next(one for one in reversed(found.line) if one not in found.aside)
    says = "aside" if found.redrawn else "aside_by_traits"
    named = dict(base=base.title or base.key)
    return tuple(
        Ask("source", use.work, ground.rules.says(says, title=layer.title or layer.key, traits=listed(layer.traits), **named),
            ground.rules.asks["source"]["where"], "confirm", layer.key)
        for layer in found.aside if not layer.own)


def _words(case, code, ground, parts, cautions, asks):
    words = lettering.of_words(case.job, case.layers, code, ground)
    if words:
        parts.append(Part(words.decision, words.says, SOON, SOON if words.decision == NO_BAR else NEVER))
        cautions += words.cautions
        asks += words.asks
        letters = (use for use in case.job.uses if case.layers[use.work].work.kind == lettering.KIND)
        if not case.job.lettering.strip() and next(letters, None) is None:
            asks.append(asked("lettering", case.job.key, ground, "confirm"))
    if lettering.brand_like(case.job, ground.rules):
        cautions.append(ground.rules.note("LETTERING-MARK"))
        asks.append(asked("mark_lettering", case.job.key, ground, "first"))


def _marks(case, code, parts, cautions, asks):
    found = tuple(match for match in case.matches if code in match.places)
    for match in found:
        if match.strength == EXACT:
            parts.append(Part(HOLD, match.says, NEVER, NEVER))
        if match.caution:
            cautions.append(Caution(match.caution, match.says))
        if match.ask:
            asks.append(Ask(match.ask, match.mark, match.question, match.where, "first"))
    return found


def _near(decision, matches, ground):
    """A last sentence that names the marks that are near and do not hold, where nothing else would."""
    near = dict.fromkeys(f"'{match.words or match.mark}'" for match in matches if match.strength == STRONG)
    return " " + ground.rules.says("marks_near", marks=listed(near)) if decision == NO_BAR and near else ""


def _sentence(decision, code, reasons, off, free, earliest, job, ground):
    says = ground.rules.says
    words = [says({NO_BAR: "no_bar", HOLD: "hold", OPEN: "not_settled"}[decision], place=ground.name(code))]
    if off:
        words.append(off)
    words.append(reasons[0] if len(reasons) == 1 else " ".join(reasons[:3]))
    if decision == HOLD and free is not None:
        if off or len(reasons) > 1:
            words.append(says("clears", day=day_words(free)))
        if job.due is not None and free <= job.due:
            words.append(says("clears_before_due", day=day_words(job.due)))
    elif decision == HOLD and SOON < earliest < NEVER:
        words.append(says("clears_after", day=day_words(earliest)))
    return " ".join(words)


# --- one market -------------------------------------------------------------------------------------

def _market(where, places, ground):
    if not where.group:
        one = places[0]
        return MarketAnswer(where.name, one.decision, one.sentence, (one,), (), _gaps(places, ground), one.leave_off,
                            one.cautions, one.asks, one.free_from, one.assumed)
    decision = max((one.decision for one in places), key=WORST.get)
    held = tuple(one.place for one in places if one.decision == decision) if decision != NO_BAR else ()
    earliest, latest = max(one.earliest for one in places), max(one.latest for one in places)
    free = clear_day(decision, earliest, latest)
    gaps, assumed = _gaps(places, ground), tuple(dict.fromkeys(says for one in places for says in one.assumed))
    sentence = _group_sentence(where, places, decision, held, gaps, assumed, ground)
    return MarketAnswer(where.name, decision, sentence, tuple(places), held, gaps,
                        tuple(dict.fromkeys(t for one in places for t in one.leave_off)),
                        _told(c for one in places for c in one.cautions),
                        _unique(a for one in places for a in one.asks), free, assumed)


def _gaps(places, ground):
    return tuple(one.place for one in places if ground.laws.law(one.place) is None)


def _group_sentence(where, places, decision, held, gaps, assumed, ground):
    says, count = ground.rules.says, len(places)
    if decision == NO_BAR:
        words = says("group_free", group=where.name, count=count)
    elif len(held) == count:
        word = "hold" if decision == HOLD else "not settled"
        words = f"{says('group_all', group=where.name, count=count, decision=word)} {places[0].sentence}"
    else:
        rest = [one for one in places if one.place not in held]
        unclear = [one.place for one in rest if one.decision == OPEN]
        clear = len(rest) - len(unclear)
        text = says("group_mixed", open=listed(map(ground.name, unclear)), count=clear) if unclear else says("group_rest", count=clear)
        names = listed(map(ground.name, held))
        words = says("group_hold" if decision == HOLD else "group_open", group=where.name, held=names, rest=text)
        worst = next(one for one in places if one.place == held[0])
        words = f"{words} {worst.sentence}"
    told = [one for one in assumed if one not in words]
    missing = [says("group_not_on_file", places=listed(map(ground.name, gaps)))] if gaps else []
    return " ".join((words, *missing, *told))


def with_next(answer, ranked):
    """The JobAnswer with its Ranked questions in place."""
    return replace(answer, next=tuple(ranked))
