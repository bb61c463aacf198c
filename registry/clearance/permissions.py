"""Permissions: what a licence or purchase covers, and not a thing more.

A permission lifts what it covers: uses, places, media, days, quantity over all jobs, commercial use, changes.
What its document does not say is not taken as allowed; it is asked.
"""

from dataclasses import dataclass, replace

from registry.clearance.ground import day_words, listed
from registry.clearance.model import Ask, Permission

WORLD = ("world",)
SILENT = "changes"  # the lack of a permission without changes when the job does not say whether something is changed
ORDER = ("permission_to", "permission_from", "permission_commercial", "permission_advantage", "permission_uses",
         "permission_places", "permission_media", "permission_quantity", "permission_changes")


@dataclass(frozen=True, slots=True)
class Need:
    """What a job asks of a permission in one place; `changes` is "" when the work is recorded as used just as it is,
    None when nothing is recorded of changes.
    """

    place: str
    days: tuple
    purpose: str
    product: str
    quantity: int | None
    changes: str | None
    job: str


@dataclass(frozen=True, slots=True)
class Lack:
    """One thing a permission lacks: the fact to ask for, the sentence, whether the document says so (else: is silent)."""

    fact: str
    says: str
    known: bool


@dataclass(frozen=True, slots=True)
class Cover:
    """What the permissions of one work come to: those that cover, and the nearest one that does not, with its lacks."""

    by: tuple = ()
    nearest: Permission | None = None
    lacks: tuple = ()

    @property
    def possible(self):
        """True when the nearest permission may cover: it is silent on a thing, and refuses nothing."""
        return self.nearest is not None and not any(lack.known for lack in self.lacks)


def cover(work, need, case, ground):
    """The Cover that the permissions of a work give a need."""
    tried = []
    for permission in case.permissions:
        if permission.work == work and permission.kind != "release":
            whole = effective(permission, ground.rules)
            if whole is not None:
                tried.append((whole, lacks(whole, need, case, ground)))
    full = tuple(one for one, missing in tried if not missing)
    if full:
        return Cover(full[:1])
    pool = _pooled(tried, need, case, ground)
    if pool:
        return Cover(pool)
    if not tried:
        return Cover()
    nearest, missing = min(tried, key=lambda t: (any(lack.known for lack in t[1]), len(t[1])))
    return Cover((), nearest, missing)


def effective(permission, rules):
    """The Permission with the terms of its open licence filled in; None when its licence permits nothing by itself."""
    licence = rules.licences.get(permission.spdx)
    if licence is None:
        return permission
    if not licence.grants:
        return None
    return replace(permission, uses=("any",), places=WORLD, media=("any",), commercial=licence.commercial, changes_allowed=licence.changes)


def lacks(permission, need, case, ground):
    """The Lacks of a permission for a need, in the order in which they are asked for."""
    found = []
    for fact in ORDER:
        state, values = _TESTS[fact](permission, need, case, ground)
        entry = ground.rules.shortfalls[fact]
        if fact == "permission_changes" and state is None and need.changes is None:
            found.append(Lack(SILENT, entry["silent"], False))
        elif state is not True:
            text = entry["unknown"] if state is None else entry[_known(fact, permission, need)]
            found.append(Lack(fact, text.format(**values), state is False))
    return tuple(found)


def _known(fact, permission, need):
    """Which sentence tells what is refused: a last day that is still to come is not told as past."""
    return "ahead" if fact == "permission_to" and permission.last >= min(need.days) else "known"


def ask(permission, missing, need, ground, kind):
    """The Ask for what a permission lacks, named after the first thing; whoever asks the licensor asks for all."""
    values = _shown(permission, need, ground)
    questions = [ground.rules.shortfalls[lack.fact]["question"].format(**values) for lack in missing]
    return Ask(missing[0].fact, permission.key, " ".join(dict.fromkeys(questions)), permission.document, kind, permission.work)


# --- tests: True covered, False not covered, None not said; with the values for the sentence --------

def _to(permission, need, _case, ground):
    return permission.last is None or max(need.days) <= permission.last, _shown(permission, need, ground)


def _from(permission, need, _case, ground):
    return permission.first is None or min(need.days) >= permission.first, _shown(permission, need, ground)


def _commercial(permission, need, _case, ground):
    if not ground.rules.purposes[need.purpose]["commercial"] or permission.commercial:
        return True, {}
    return permission.commercial, {}


def _advantage(permission, need, _case, ground):
    """An open licence that bars commercial use bars commercial advantage: a thing that hangs in a shop may be one."""
    barred = permission.spdx in ground.rules.licences and not permission.commercial
    asked = barred and ground.rules.purposes[need.purpose].get("advantage", False)
    return None if asked else True, _shown(permission, need, ground)


def _uses(permission, need, _case, ground):
    allowed, wanted = {use.casefold() for use in permission.uses}, ground.rules.purposes[need.purpose]["uses"]
    fits = bool(allowed & {*wanted, *ground.rules.reading["anything"]})
    return None if not allowed else fits, _shown(permission, need, ground)


def _places(permission, need, _case, ground):
    if not permission.places:
        return None, _shown(permission, need, ground)
    return holds_in(permission, need.place, ground), _shown(permission, need, ground)


def _media(permission, need, _case, ground):
    values, allowed = _shown(permission, need, ground), {medium.casefold() for medium in permission.media}
    if not allowed:
        return None, values
    if allowed & set(ground.rules.reading["anything"]):
        return True, values
    found = media_of(need.product, ground.rules)
    if not found:
        return None, values
    return found <= allowed, values


def _quantity(permission, need, case, ground):
    if permission.quantity is None:
        return True, {}
    drawn = drawing(permission, case, ground)
    values = {**_shown(permission, need, ground), "limit": permission.quantity}
    missing = [other.key for other in drawn if other.quantity is None] + ([need.job] if need.quantity is None else [])
    used = sum(other.quantity or 0 for other in drawn)
    over = used + (need.quantity or 0) - permission.quantity
    if missing and over <= 0:
        return None, {**values, "missing": listed(missing)}
    return over <= 0, {**values, "used": used, "wanted": need.quantity or "an unknown number", "over": over}


def _changes(permission, need, _case, _ground):
    if need.changes == "" or permission.changes_allowed:
        return True, {}
    return (None, {}) if need.changes is None else (permission.changes_allowed, {"changes": need.changes})


_TESTS = dict(zip(ORDER, (_to, _from, _commercial, _advantage, _uses, _places, _media, _quantity, _changes)))


def _shown(permission, need, ground):
    return {"licensor": permission.licensor or "the licensor", "place": ground.name(need.place),
            "product": need.product or "no product recorded",
            "to": day_words(permission.last) if permission.last is not None else "its end",
            "first": day_words(permission.first) if permission.first is not None else "its beginning",
            "uses": listed(permission.uses), "media": listed(permission.media), "limit": permission.quantity,
            "wanted": " or ".join(ground.rules.purposes[need.purpose]["uses"]), "changes": need.changes or ""}


def holds_in(permission, code, ground):
    """True when the places of a permission name a code, a group with it, or the world."""
    if permission.places == WORLD:
        return True
    return any(code == place or code in ground.groups.get(place, ()) for place in permission.places)


def media_of(product, rules):
    """Names of the media that the words of a product tell of; empty when none is told."""
    words = set("".join(c if c.isalnum() else " " for c in product.casefold()).split())
    return {name for name, signs in rules.reading["medium"].items() if words & {name, *signs}}


def drawing(permission, case, ground):
    """The OtherJobs that draw on a permission: its work, a place it holds in, a day inside its term."""
    return tuple(other for other in case.others if permission.work in other.works and _inside(permission, other.day)
                 and (not other.places or not permission.places or any(holds_in(permission, code, ground) for code in other.places)))


def _inside(permission, day):
    return day is None or ((permission.first is None or day >= permission.first) and (permission.last is None or day <= permission.last))


def _pooled(tried, need, case, ground):
    """Permissions that cover together what each is too small for; none when they do not."""
    small = [one for one, missing in tried
             if len(missing) == 1 and missing[0].known and missing[0].fact == "permission_quantity"]
    drawn = {other.key: other for one in small for other in drawing(one, case, ground)}
    if len(small) < 2 or need.quantity is None or any(other.quantity is None for other in drawn.values()):
        return ()
    used = sum(other.quantity for other in drawn.values())
    return tuple(small) if used + need.quantity <= sum(one.quantity for one in small) else ()
