"""One layer of a use in one place, whole: the law, the rule for letters, permissions, terms, what is asked."""

from dataclasses import replace

from registry.clearance import lettering
from registry.clearance.layers import asked, judged
from registry.clearance.model import COPY, NO_BAR, OPEN, SOON
from registry.clearance.permissions import SILENT, Need, ask, cover


def piece(line, use, top, case, code, ground):
    """The LayerAnswer of the last Layer of `line`; `top` is the chain of the use, to know what was made of it."""
    layer = line[-1]
    found = judged(line, use.part, code, ground)
    if lettering.is_lettering(layer, use) and not layer.own:
        found = lettering.of_letters(found, layer, case.job, code, ground)
    found = _permitted(found, layer, use, top, case, code, ground)
    return _noted(found, layer, line, ground)


def days(job, day):
    """The days on which a permission must hold: the day asked about, and the due day when that is later."""
    return (day, job.due) if job.due is not None and job.due > day else (day,)


def change(layer, use, top, rules):
    """What was changed of a layer, in words; "" when it is recorded as used just as it is, or was only copied; None when
    nothing is recorded: silence is not "unchanged".
    """
    said = use.changes.strip().rstrip(" .!")
    if said.casefold() not in (*rules.reading["unchanged"], *rules.reading["silent"]):
        return said
    if layer not in top:
        return f"a part of it was taken into '{top[-1].title or top[-1].key}'"
    made = [one for one in top[top.index(layer) + 1:] if one.originality != COPY]
    if made:
        return f"'{made[0].title or made[0].key}' was made of it"
    return "" if unchanged(use, rules) else None


def unchanged(use, rules):
    """True when a use is recorded as of the work just as it is."""
    return use.changes.strip().rstrip(" .!").casefold() in rules.reading["unchanged"]


def doubted(answer, layer, found, use, ground):
    """The LayerAnswer of a version in doubt (see `traits.walk`): what would hold is not settled, and it is asked
    whether its drawing is shown; it holds when the work is used just as it is, since then it surely is.
    """
    if answer.decision == NO_BAR or unchanged(use, ground.rules):
        return answer
    base = next(one for one in reversed(found.line[:found.line.index(layer)]) if one not in found.doubt)
    named = dict(title=layer.title or layer.key, base=base.title or base.key, key=base.key)
    wanted = asked("redrawn", use.work, ground, extra=base.key, **named)
    says = f"{ground.rules.says('doubt', **named)} {answer.says}"
    asks = (wanted, *(one for one in answer.asks if one.kind != "lift"))
    return replace(answer, decision=OPEN, says=says, earliest=SOON, asks=asks)


def _permitted(found, layer, use, top, case, code, ground):
    job = case.job
    need = Need(code, days(job, ground.day), job.purpose, job.product, job.quantity,
                change(layer, use, top, ground.rules), job.key)
    given = cover(layer.key, need, case, ground)
    if given.by:
        return _covered(found, given.by, layer, need, ground)
    if given.nearest is None:
        return found
    sentence = "maybe_permitted" if given.possible else "not_permitted"
    licensor, lacks = given.nearest.licensor or "the licensor", "; ".join(one.says for one in given.lacks)
    says = f"{found.says} {ground.rules.says(sentence, licensor=licensor, lacks=lacks)}"
    if found.decision == NO_BAR:
        if not lettering.is_lettering(layer, use):  # nothing is needed of the licensor; what was agreed with them is a caution
            return replace(found, says=says, lacks=given.lacks, cautions=(*found.cautions, ground.rules.note("LICENCE-TERMS")))
        return replace(found, says=says, lacks=given.lacks,
                       asks=(*found.asks, *_wanted(given, layer, use, need, ground, "first")))
    wanted = _wanted(given, layer, use, need, ground, "settle" if given.possible else "lift")
    found = replace(found, says=says, lacks=given.lacks, asks=(*wanted, *found.asks))
    return replace(found, decision=OPEN, earliest=SOON) if given.possible else found


def _wanted(given, layer, use, need, ground, kind):
    """The Asks for what the nearest permission lacks: one to the licensor, one to the workshop where it says nothing of
    changes and they might count.
    """
    missing = sorted(given.lacks, key=lambda one: not one.known)  # what is refused stands before what is not said
    theirs = [one for one in missing if one.fact != SILENT]
    found = [ask(given.nearest, theirs, need, ground, kind)] if theirs else []
    if len(theirs) < len(missing) and kind != "lift":
        found.append(asked(SILENT, use.work, ground, kind, title=layer.title or layer.key))
    return found


def _covered(found, by, layer, need, ground):
    first = by[0]
    licence = ground.rules.licences.get(first.spdx)
    cautions, asks = list(found.cautions), [one for one in found.asks if one.kind == "confirm" and found.decision == NO_BAR]
    if licence and licence.share_alike:
        cautions.append(ground.rules.note("SHARE-ALIKE", licence=first.spdx))
    if licence and licence.credit and not first.credit_line:
        cautions.append(ground.rules.note("CREDIT-OWED", licence=first.spdx))
        asks.append(asked("credit_line", first.key, ground, "first", title=found.title))
    if found.decision != NO_BAR:
        asks += _holder(first, licence, layer, ground)
        if licence is None and (first.last is None or first.quantity is None):
            asks.append(asked("limits", first.key, ground, "confirm", title=found.title))
        if _recut(first, need, ground):
            cautions.append(ground.rules.note("RECUT"))
            asks.append(asked("recut", first.key, ground, "first", title=found.title))
        if licence and not licence.commercial and need.purpose == "gift":
            cautions.append(ground.rules.note("NC-GIFT", licence=first.spdx))
    keys, credits = " ".join(one.key for one in by), "; ".join(dict.fromkeys(one.credit_line for one in by if one.credit_line))
    more = dict(permission=keys, credit=credits, cautions=tuple(cautions), asks=tuple(asks))
    if found.decision == NO_BAR:
        return replace(found, **more)
    licensor = first.licensor or licence.name if licence else first.licensor or "the licensor"
    says = ground.rules.says("permitted", title=f"'{found.title}'", licensor=licensor, found=found.says)
    return replace(found, decision=NO_BAR, says=says, earliest=SOON, latest=SOON, **more)


def _holder(permission, licence, layer, ground):
    """The Ask whether whoever gave a permission holds the rights; none where the maker gave it."""
    given = permission.licensor.strip().casefold()
    if given and given in {one.name.strip().casefold() for one in layer.work.creators}:
        return []
    named = permission.licensor or (licence.name if licence else "nobody who is named")
    kind = "confirm" if given or licence else "first"
    return [asked("licensor", permission.key, ground, kind, title=layer.title or layer.key, licensor=named)]


def _recut(permission, need, ground):
    """True when a permission without changes, and without a word on this material, is to cover a thing that is cut."""
    anything = {medium.casefold() for medium in permission.media} & set(ground.rules.reading["anything"])
    return not permission.changes_allowed and bool(anything) and "cut" in lettering.making_of(need.product, ground.rules)


def _noted(found, layer, line, ground):
    rules, cautions, asks = ground.rules, list(found.cautions), list(found.asks)
    title = layer.title or layer.key
    if layer.terms is not None:
        text = ", ".join(filter(None, (layer.terms.supplier, layer.terms.text)))
        cautions.append(rules.note("SCAN-TERMS", terms=text))
        if found.decision == NO_BAR:
            asks.append(asked("terms_of_access", layer.key, ground, "first", title=title, terms=text))
    if layer.own:
        return replace(found, cautions=tuple(cautions), asks=tuple(asks))
    if _of_solid(layer, line, rules):
        cautions.append(rules.note("SCAN-3D"))
    elif layer.based_on and layer.originality != COPY and found.decision != NO_BAR:
        cautions.append(rules.note("RESTORE"))
    if layer.work.kind == lettering.KIND and not (found.permission and not found.lacks):
        cautions.append(rules.note("FONT-LICENCE"))
        if found.decision == NO_BAR and not found.lacks and found.earliest == SOON:
            asks.append(asked("permission", layer.key, ground, "first", title=title))
    return replace(found, cautions=tuple(cautions), asks=tuple(asks))


def _of_solid(layer, line, rules):
    if layer.work.kind != "photograph":
        return False
    return layer.work.facts.get("subject_three_dimensional") is True or any(one.work.kind in rules.solid for one in line[:-1])


def source(use, found, decided, ground):
    """The Ask whether an earlier, clear version is to hand; None when that would not help, or a trait of it was named
    beside those of the later version (then leaving off is the answer).
    """
    line = found.line
    barred = next((n for n, one in enumerate(line) if one.key in decided and decided[one.key].decision != NO_BAR and not one.own), 0)
    if barred == 0 or any(one.fact == "redrawn" for one in decided[line[barred].key].asks):
        return None
    beneath = line[:barred]
    named = [one for holders in found.first.values() for one in holders]
    if any(one in named for one in beneath) and any(one in named for one in line[barred:]):
        return None
    base, title = beneath[-1], line[barred].title or line[barred].key
    return asked("source", use.work, ground, "lift", base.key, base=base.title or base.key, title=title)


def stray(found, use, ground):
    """Asks for named traits that no version on record shows."""
    return tuple(asked("trait_version", use.work, ground, extra=name, trait=name) for name, holders in found.first.items() if not holders)


