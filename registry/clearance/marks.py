"""Marks: which of those on record a product comes near, where, and how near.

An exact live mark in the same class and market holds; anything weaker is a caution that says why. A dead mark is
shown as dead. Finding nothing is never a clearance: the sentence NOTHING says so and belongs beside every empty list.
"""

from dataclasses import dataclass
from datetime import date

from registry.clearance.likeness import LOOSE, SAME, likeness
from registry.clearance.mark_keys import mark_keys
from registry.clearance.offices import ECHO, ELSEWHERE, HERE, UNKNOWN, reach
from registry.clearance.wording import wording

EXACT, STRONG, WEAK, DEAD = "exact-same-goods-live", "strong", "weak", "dead"
STRENGTHS = (EXACT, STRONG, WEAK, DEAD)
NOTHING = (
    "An empty list is no clearance: only the marks that were recorded here are compared, registers hold others, rights"
    " in some places come from use alone, and a mark can be alike in meaning, in translation or in picture. Not legal advice."
)
FIELDS = {"wording": "The wording", "lettering": "The lettering", "listing": "The listing text", "title": "The title of the job",
          "work": "The title of the work {work}", "trait": "The trait of {work}"}


@dataclass(frozen=True, slots=True)
class Mark:
    """One mark as recorded; `classes` are Nice classes, days ISO text or None, `works` keys of linked works."""

    key: str
    words: str
    kind: str = ""
    owner: str = ""
    office: str = ""
    number: str = ""
    filed: str | None = None
    registered: str | None = None
    expires: str | None = None
    classes: tuple = ()
    status_words: str = ""
    state: str = "unknown"
    goods: str = ""
    avoid: str = ""
    works: tuple = ()


@dataclass(frozen=True, slots=True)
class Text:
    """One text of a job: which field it is (a key of FIELDS), the Prepared text, the work it belongs to."""

    field: str
    prepared: object
    work: str = ""


@dataclass(frozen=True, slots=True)
class Found:
    """One mark that a product comes near in one place; `says` is the reason, `ask` what to find out, or None.

    `likeness` is the kind of likeness (same, contains, close ... or linked), `standing` live, pending, dead, unknown.
    """

    mark: Mark
    place: str
    field: str
    found: str
    likeness: str
    standing: str
    goods: str
    reach: str
    strength: str
    says: str
    ask: str | None = None
    question: str = ""
    where: str = ""


def matches(texts, marks, place, goods, day, rules, works=()):
    """The Founds of a job's Texts among the Marks in one place, the strongest first.

    `goods` are its Goods, `works` keys of the works it uses and of those beneath them, `day` a day number.
    """
    found = []
    for mark in marks:
        near = nearest(texts, mark, works)
        if near:
            one = judged(near, mark, place, goods, day, rules)
            if one:
                found.append(one)
    return ranked(found)


def ranked(found):
    """Founds, the strongest first, exact words before others."""
    return tuple(sorted(found, key=lambda one: (STRENGTHS.index(one.strength), one.likeness != "same", one.mark.key)))


def nearest(texts, mark, works=()):
    """(field, work, Likeness) of the text that comes nearest to a mark; None when none does and no work is linked."""
    form = wording(mark.words)
    keys = mark_keys(form)
    best = None
    for text in texts:
        found = likeness(text.prepared, form, keys)
        if found and (best is None or _RANK[found.degree] < _RANK[best[2].degree]):
            best = (text.field, text.work, found)
    linked = next((key for key in works if key in mark.works), None)
    if best is None and linked is not None:
        return ("linked", linked, None)
    return best


_RANK = {SAME: 0, "firm": 1, LOOSE: 2}


def judged(near, mark, place, goods, day, rules):
    """The Found for a mark that comes near, in a place on a day; None when it tells nothing there."""
    field, work, like = near
    standing, state = stands(mark, day, rules)
    held, why_held = reach(mark.office, place, _day(mark.registered) or _day(mark.filed), rules)
    same, why_same = _compared_goods(mark, goods)
    strength = _strength(like, standing, held, same)
    if strength is None:
        return None
    says = _sentence(field, work, like, mark, state, why_held, why_same, strength)
    ask = _ask(strength, like, standing, held, same, mark, goods.settled, rules)
    question, where = _asked(ask, mark, rules)
    found, kind = (like.found, like.kind) if like else ("", "linked")
    return Found(mark, place, field, found, kind, standing, same, held, strength, says, ask, question, where)


def stands(mark, day, rules):
    """(standing, half a sentence) of a mark on a day: a registration whose expiry is long past is no longer live."""
    standing, says = rules.states.get(mark.state, rules.states["unknown"])
    words = f" (the office: \"{mark.status_words}\")" if mark.status_words and mark.status_words.casefold() != says else ""
    expires = _day(mark.expires)
    if standing == "live" and expires is not None and expires < day:
        if _months_on(expires, rules.grace) < day:
            return "dead", f"recorded as {says}{words}, but it expired on {mark.expires} and no renewal is on record"
        return "live", f"{says}{words}; it expired on {mark.expires} and can still be renewed"
    return standing, says + words


def _months_on(day, months):
    at = date.fromordinal(day)
    month = at.month - 1 + months
    return date(at.year + month // 12, month % 12 + 1, min(at.day, 28)).toordinal()


def _day(text):
    try:
        return date.fromisoformat(text).toordinal() if text else None
    except ValueError:
        return None


def _compared_goods(mark, goods):
    """(same, related, other or unknown; half a sentence)."""
    classes = frozenset(mark.classes)
    listed = ", ".join(map(str, sorted(classes)))
    if not classes:
        return UNKNOWN, "the classes of the mark are not on record"
    if not goods.known:
        return UNKNOWN, f"it is for class {listed}, and the class of this product is not known"
    if classes & goods.classes:
        same = ", ".join(map(str, sorted(classes & goods.classes)))
        return "same", f"the class is the same ({same})" + ("" if goods.settled else " if the product is of the material of that class")
    if classes & goods.also:
        return "related", f"it is for class {listed}, which lies close to this product"
    return "other", f"it is for class {listed}, not for this product; well-known marks reach further"


def _strength(like, standing, held, same):
    """How strong a match is; None when it tells nothing in that place."""
    degree = like.degree if like else "firm"
    near_goods = same != "other"
    if standing == "dead":
        return DEAD if held in (HERE, ECHO) and degree != LOOSE else None
    if degree == SAME and standing == "live" and held == HERE and same == "same":
        return EXACT
    if degree == LOOSE:
        return WEAK if held != ELSEWHERE and near_goods else None
    if held == ELSEWHERE:
        return WEAK if degree == SAME and near_goods else None
    return STRONG if near_goods else WEAK


def _sentence(field, work, like, mark, state, why_held, why_same, strength):
    owner = "; ".join(filter(None, (mark.owner, " ".join(filter(None, (mark.office, mark.number))))))
    name = (f"'{mark.words}'" if mark.words else mark.key) + (f" ({owner})" if owner else "")
    if like is None:
        head = f"The mark {name} is linked on record to the work {work}, which this job uses"
    else:
        what = FIELDS[field].format(work=work)
        head = f"{what} {like.says}: {name}"
    parts = [head, f"it is {state}", why_same, why_held]
    text = "; ".join(parts) + "."
    if strength == DEAD:
        text += " Use-based rights may remain."
    if strength == EXACT:
        text += " Hold."
        if field not in ("wording", "listing"):
            text += " If these words stand neither on the product nor on its label or listing, a person may decide so, with that reason."
    if mark.avoid:
        text += f" To avoid: {mark.avoid}."
    return text


def _ask(strength, like, standing, held, same, mark, settled, rules):
    if strength == EXACT:
        return "mark_consent" if settled else "product"
    if strength == DEAD:
        expired = rules.states.get(mark.state, ("", ""))[0] == "live"
        return "mark_renewed" if expired else "mark_in_use"
    if like is None or like.degree != SAME:
        return None
    if held in (UNKNOWN, ECHO):
        return "mark_office"
    if standing == "unknown":
        return "mark_state"
    if same == UNKNOWN:
        return "product" if mark.classes else "mark_classes"
    return "mark_goods" if same != "same" and held == HERE else None


def _asked(ask, mark, rules):
    if ask is None:
        return "", ""
    entry = rules.asks[ask]
    named = {"mark": f"'{mark.words}'" if mark.words else f"the mark {mark.key}",
             "office": mark.office or "(not on record)", "number": mark.number or "(not on record)",
             "expires": mark.expires or "", "owner": mark.owner or "the owner named in the register"}
    return entry["question"].format(**named), entry["where"].format(**named)


def as_json(found):
    """One Found as an object for JSON."""
    mark = found.mark
    return {"mark": mark.key, "words": mark.words, "owner": mark.owner, "office": mark.office, "number": mark.number,
            "state": mark.state, "status_words": mark.status_words, "classes": list(mark.classes), "place": found.place,
            "field": found.field, "found": found.found, "likeness": found.likeness, "standing": found.standing,
            "goods": found.goods, "reach": found.reach, "strength": found.strength, "says": found.says,
            "ask": found.ask, "question": found.question, "where_to_look": found.where}
