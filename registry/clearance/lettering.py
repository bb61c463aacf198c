"""Lettering and wording: what the shapes of a typeface and the words on a product are worth, place by place."""

from dataclasses import dataclass, replace

from registry.clearance.layers import asked, caution, titled
from registry.clearance.model import NEVER, NO_BAR, OPEN, SOON
from registry.clearance.rules import local
from registry.clearance.traits import when_shown

KIND = "lettering"


@dataclass(frozen=True, slots=True)
class Wording:
    """What the words on a product mean in one place."""

    decision: str
    says: str
    cautions: tuple = ()
    asks: tuple = ()


def is_lettering(layer, use):
    """True when a typeface is used as lettering."""
    return layer.work.kind == KIND and use.part == KIND


def of_letters(found, layer, job, code, ground):
    """The LayerAnswer of a typeface after the rule of the place for letters; what the law frees stays free."""
    rule = local(ground.rules.lettering, code)
    if rule is None:
        return found
    found = replace(found, cautions=(*found.cautions, caution(rule)))
    return _EFFECTS[rule.effect](found, layer, rule, job, code, ground)


def _none(found, layer, rule, _job, _code, ground):
    says = ground.rules.says("lettering_free", title=titled(layer), rule=rule.rule.says)
    return replace(found, decision=NO_BAR, says=says, rules=(*found.rules, rule.rule), earliest=SOON, latest=SOON,
                   cautions=(caution(rule),), asks=())


def _composed(found, layer, rule, job, code, ground):
    if found.decision == NO_BAR:
        return found
    making = making_of(job.product, ground.rules)
    if making == {"composed"}:
        return _none(found, layer, rule, job, code, ground)
    ask = () if making else (asked("making", job.key, ground),)
    return _open(found, layer, rule, code, ground, (*ask, _licence(layer, ground)))


def _rare(found, layer, rule, _job, code, ground):
    made = when_shown(layer)[1]
    running = made >= NEVER or made + 366 * (rule.design_years + 1) > ground.day
    if found.decision == NO_BAR and not running:
        return found
    return _open(found, layer, rule, code, ground, (_licence(layer, ground),))


def _law(found, _layer, rule, _job, _code, _ground):
    return replace(found, rules=(*found.rules, rule.rule))


_EFFECTS = {"none": _none, "composed": _composed, "rare": _rare, "law": _law}


def _open(found, layer, rule, code, ground, asks):
    says = ground.rules.says("lettering_open", title=titled(layer), place=ground.name(code), rule=rule.rule.says)
    return replace(found, decision=OPEN, says=says, rules=(*found.rules, rule.rule), earliest=SOON, asks=asks)


def _licence(layer, ground):
    return asked("permission", layer.key, ground, title=layer.title or layer.key)


def making_of(product, rules):
    """The ways of making that the words of a product tell of: composed, cut; empty when none is told."""
    words = set("".join(c if c.isalnum() else " " for c in product.casefold()).split())
    return {name for name, signs in rules.reading["making"].items() if words & set(signs)}


def brand_like(job, rules):
    """True when the lettering of a job is described as like that of somebody else."""
    text = job.lettering.casefold()
    return any(sign in text for sign in rules.reading["brand_like"])


def of_words(job, layers, code, ground):
    """The Wording of a job in a place; None when it has none. Words on a text work are judged there."""
    if not job.wording.strip():
        return None
    rules = ground.rules
    rule = local(rules.phrases, code)
    if len(job.wording.split()) <= rules.short:
        return Wording(NO_BAR, rules.says("words_short", rule=rule.rule.says), (caution(rule),))
    text = next((layers[use.work] for use in job.uses if layers[use.work].work.kind == "text"), None)
    if text is not None:
        ask = asked("words_of", job.key, ground, "confirm", title=text.title or text.key)
        return Wording(NO_BAR, rules.says("words_text"), (), (ask,))
    return Wording(OPEN, rules.says("words_long"), (caution(rule),), (asked("wording_source", job.key, ground),))


