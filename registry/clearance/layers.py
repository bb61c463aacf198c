"""The chain of versions beneath a used work, and what each layer means in a place.

original -> restored or coloured version -> photograph or scan -> tracing -> the shop's own drawing. A faithful
copy of a flat work adds no layer where a rule of that place says so; a new version is judged by its own facts,
for what it added only; what nobody knows to be a copy or new stays open unless it is free in any case.
"""

from dataclasses import replace

from registry.clearance.ground import day_words
from registry.clearance.model import COPY, HOLD, NEVER, NEW, NO_BAR, OPEN, SOON, UNKNOWN, Ask, Caution, LayerAnswer
from registry.clearance.rules import local
from registry.errors import RegistryError
from registry.facts.work import UNKNOWN as LOOKED_FOR
from registry.law.verdict import FREE, PROTECTED

DECISION = {FREE: NO_BAR, PROTECTED: HOLD}


def chain(layers, key):
    """The Layers from the original up to the work of that key; RegistryError when one is missing or goes in a circle."""
    found = []
    while key is not None:
        if key not in layers:
            raise RegistryError(f"The work {key} is used or built on, and is not among the works of this job.")
        if any(layer.key == key for layer in found):
            raise RegistryError(f"The work {key} is based on itself.")
        found.append(layers[key])
        key = layers[key].based_on
    return tuple(reversed(found))


def family(layers, key):
    """All Layers that share their original with the work of that key, that work's own chain first."""
    line = chain(layers, key)
    kin = [layer for layer in layers.values() if layer not in line and chain(layers, layer.key)[0] is line[0]]
    return (*line, *kin)


def role(layer, part):
    """How a layer is called in an answer."""
    if layer.own:
        return "own work"
    if layer.based_on is None:
        return "original" if part == "picture" else part
    return {COPY: "faithful copy", NEW: "version", UNKNOWN: "version or copy"}[layer.originality]


def judged(line, part, code, ground):
    """The LayerAnswer of the last Layer of a chain in a place, before permissions and terms are looked at."""
    layer, base = line[-1], _copied_from(line)
    is_copy = _is_copy(layer)
    if base is None:
        if is_copy:
            return _copy_of_nothing(layer, part, code, ground)
        return _own(layer, part, code, ground) if layer.own else by_law(layer, part, code, ground)
    if layer.own:
        return _own(layer, part, code, ground)
    if is_copy and layer.originality != NEW:
        return _copied(layer, base, part, code, ground)
    if layer.originality == NEW and not is_copy:
        return by_law(layer, part, code, ground)
    return _perhaps(layer, base, part, code, ground)


def _is_copy(layer):
    return layer.originality == COPY or layer.work.facts.get("faithful_reproduction") is True


def _copied_from(line):
    """The nearest Layer beneath that is more than a faithful copy itself; None beneath the original."""
    beneath = line[:-1]
    return next((layer for layer in reversed(beneath) if not _is_copy(layer)), beneath[0] if beneath else None)


def by_law(layer, part, code, ground):
    """The LayerAnswer that the law of a place gives on the layer's own facts."""
    verdict = ground.verdict(ground.plain(layer.work), code)
    earliest, latest = bounds(verdict)
    decision = DECISION.get(verdict.status, OPEN)
    rules, notes = _reasons(verdict, code, ground)
    return LayerAnswer(layer.key, layer.title, part, role(layer, part), verdict.status, decision,
                       _sentence(layer, verdict, rules, code, ground), rules, earliest, latest, cautions=notes,
                       asks=_asks(layer, verdict, code, ground))


def _reasons(verdict, code, ground):
    """(rules that decided, notes as Cautions): what is free but to be used with care is no reason."""
    law = ground.laws.law(code)
    beside = law.beside if law else ()
    return (tuple(rule for rule in verdict.why if rule.id not in beside),
            tuple(Caution(rule.id, rule.says, rule.cite, rule.how) for rule in verdict.why if rule.id in beside))


def bounds(verdict):
    """(first, last) day from which the verdict may let the work go: SOON when it is clear, NEVER when no day is known."""
    if verdict.status == FREE:
        return (verdict.earliest if verdict.earliest is not None else SOON,
                verdict.latest if verdict.latest is not None else SOON)
    first = verdict.earliest if verdict.earliest is not None else (NEVER if verdict.status == PROTECTED else SOON)
    return first, verdict.latest if verdict.latest is not None else NEVER


def _sentence(layer, verdict, rules, code, ground):
    named = dict(title=titled(layer), place=ground.name(code), rule=_telling(rules, code, ground))
    readings = " " + ground.rules.says("readings") if verdict.branches > 1 else ""  # the rule named is then that of one of them
    if verdict.status == FREE:
        return ground.rules.says("free", when=_since(verdict), **named).strip() + readings
    if verdict.status == PROTECTED:
        return ground.rules.says("protected", when=_until(verdict), **named).strip() + readings
    return ground.rules.says("open", cause=_cause(verdict, ground), **named).strip()


def titled(layer):
    """The title in quotation marks with the year it was first shown, where known."""
    year = shown_year(layer)
    return f"'{layer.title or layer.key}'" + (f" ({year})" if year else "")


def shown_year(layer):
    """The date of first publication as recorded, else of making; "" when there is neither."""
    dates = [p.date for p in layer.work.publications if p.date is not None]
    span = min(dates, key=lambda s: s.latest or NEVER) if dates else layer.work.created
    if span is None:
        return ""
    return span.text[:4] if span.text[:4].isdigit() and len(span.text) in (7, 10) else span.text


def _telling(rules, code, ground):
    """The sentence of the last rule; when that is an act that came too late, also of the term that had run out.

    Where the term at home was compared, the sentence that says so comes first: a rule of another place would puzzle.
    """
    law = ground.laws.law(code)
    compared = [rule.says for rule in rules if law and rule is law.compare_rule]
    acts = law.act_ids if law else ()
    terms = [rule for rule in rules if rule.id not in acts]
    telling = dict.fromkeys([*compared, *(rule.says for rule in terms[-1:]), *(rule.says for rule in rules[-1:])])
    return " ".join(telling)


def _since(verdict):
    if verdict.free_from is not None:
        return f"free since {day_words(verdict.free_from)}"
    return f"free since {day_words(verdict.latest)} at the latest" if verdict.latest is not None else "on these facts"


def _until(verdict):
    if verdict.free_from is not None:
        return f"until {day_words(verdict.free_from)}"
    if verdict.earliest is None:
        return "with no end in sight"
    if verdict.latest is None:
        return f"until {day_words(verdict.earliest)} or later"
    return f"until some day between {day_words(verdict.earliest)} and {day_words(verdict.latest)}"


_CAUSES = {"missing_fact": "a fact is missing or too vague", "contested_law": "the law itself is contested",
           "not_covered": "no rule on file covers it"}


def _cause(verdict, ground):
    asked = [f"“{ground.laws.vocabulary.facts[question.fact].label}”" for question in verdict.questions]
    return _CAUSES[verdict.because] + (f" ({', '.join(asked[:3])})" if asked and verdict.because == "missing_fact" else "")


def _asks(layer, verdict, code, ground):
    kind = "confirm" if verdict.status == FREE else "settle"
    if verdict.because in ("contested_law", "not_covered"):
        return ()
    asks = tuple(Ask(q.fact, layer.key, q.question, q.where_to_look, kind) for q in verdict.questions)
    return (*_unseen(layer, code, ground), *asks) if kind == "confirm" else asks


def _unseen(layer, code, ground):
    """Recorded facts that a "free" turns on and that a person should look at once more."""
    found = []
    for entry in ground.rules.confirm:
        other = _doubting(layer.work, entry["fact"], entry["value"])
        if other is not None and ground.verdict(other, code).status != FREE:
            where = ground.laws.vocabulary.facts[entry["fact"]].where
            found.append(Ask(entry["fact"], layer.key, entry["says"], where, "confirm"))
    return tuple(found)


def _doubting(work, name, value):
    """The Work with a creator's fact looked for and not found; None when it is not recorded with that value."""
    if not any(one.facts.get(name) is value for one in work.creators):
        return None
    people = tuple(replace(one, facts={**one.facts, name: LOOKED_FOR}) for one in work.creators)
    return replace(work, creators=people)


# --- layers above the original ---------------------------------------------------------------------

def _clear(layer, part, status, says, **more):
    return LayerAnswer(layer.key, layer.title, part, role(layer, part), status, NO_BAR, says, **more)


def _own(layer, part, _code, ground):
    ask = asked("own", layer.key, ground, "confirm", title=layer.title or layer.key)
    return _clear(layer, part, "own_work", ground.rules.says("own", title=titled(layer)), asks=(ask,))


def _copy_of_nothing(layer, part, _code, ground):
    ask = asked("based_on", layer.key, ground, title=layer.title or layer.key)
    says = ground.rules.says("copy_of_nothing", title=titled(layer))
    return LayerAnswer(layer.key, layer.title, part, "faithful copy", "undetermined", OPEN, says, earliest=SOON, latest=NEVER, asks=(ask,))


def _copied(layer, base, part, code, ground):
    rules, place = ground.rules, ground.name(code)
    if not _is_flat(layer, base, rules):
        return _perhaps(layer, base, part, code, ground, rules.says("copy_of_solid", title=titled(layer), base=base.title))
    rule = local(rules.copies, code)
    if rule is None:
        return _perhaps(layer, base, part, code, ground, rules.says("copy_no_rule", title=titled(layer), place=place))
    original = ground.verdict(ground.plain(base.work), code)
    if rule.original_free and original.status != FREE and not base.own:
        first, last = bounds(original)
        says = rules.says("copy_of_protected", title=titled(layer), place=place)
        return LayerAnswer(layer.key, layer.title, part, role(layer, part), "undetermined", OPEN, says, (rule.rule,), first, last)
    says = rules.says("copy", title=titled(layer), rule=rule.rule.says)
    return _clear(layer, part, "no_layer", says, rules=(rule.rule,), cautions=(caution(rule),))


def _is_flat(layer, base, rules):
    return base.work.kind in rules.flat and layer.work.facts.get("subject_three_dimensional") is not True


def _perhaps(layer, base, part, code, ground, why=None):
    """The answer for a layer of which it is open whether it added anything: clear only when free in any case."""
    found = by_law(layer, part, code, ground)
    if found.decision == NO_BAR:
        return found
    ask = asked("originality", layer.key, ground, title=layer.title or layer.key, base=base.title or base.key)
    says = why or ground.rules.says("maybe_new", title=titled(layer), base=base.title or base.key, found=found.says)
    asks = (ask, *found.asks) if why is None else found.asks
    return replace(found, status="undetermined", decision=OPEN, says=says, earliest=SOON, asks=asks)


def caution(rule):
    """The Caution that a Local shows."""
    return Caution(rule.caution, rule.rule.says, rule.rule.cite, rule.rule.how)


def asked(fact, about, ground, kind="settle", extra="", **values):
    """An Ask of clearance.toml with its values filled in."""
    entry = ground.rules.asks[fact]
    return Ask(fact, about, entry["question"].format(**values), entry["where"], kind, extra)
