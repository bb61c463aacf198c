"""Decisions: what a person decided about a job, on what, and against what. Added to the ledger, never rewritten.

A decision is about the job as it was then. The row keeps that (`of`), so that it can be told whether it covers the job now.
"""

from dataclasses import dataclass

from registry.catalogue import answers, clear, days, jobs, ledger, settings, words
from registry.catalogue.beside import marks_sha256
from registry.catalogue.canonical import digest
from registry.catalogue.store import transaction
from registry.clearance.model import HOLD, NEVER, OPEN, SOON
from registry.errors import RegistryError
from registry.facts import edtf


def decide(catalogue, key, by, note, day, although=None, look_again=None, markets=None):
    """The ledger Row of the decision of a person on a job (its key) on a day number.

    It keeps the assessments it relied on. RegistryError when nobody is named, when there is no note, or when a
    market is on hold and no reason is given why it is sold although.
    """
    if not (by or "").strip() or not (note or "").strip():
        raise RegistryError("A decision needs the name of who decided and a note of what was decided.")
    if look_again is not None and days.read("look_again", look_again) < day:
        raise RegistryError(f"The day to look at it again is {look_again}, which is over;"
                            " the day of the decision or a later one is allowed.")
    with transaction(catalogue):
        at, job = clear.desk(catalogue, day), jobs.get(catalogue, key)
        found = clear.answer(at, job, markets, want=0)
        held = [one for one in found.markets if one.decision == HOLD]
        if held and not (although or "").strip():
            names = ", ".join(one.market for one in held)
            raise RegistryError(f"The job {key} is on hold in {names}: {held[0].sentence}"
                                " To decide against a hold, give the reason with --although.")
        rows = answers.record(catalogue, clear.relied_on(at, job, found))
        return ledger.append(catalogue, "decision", key, _body(at, job, found, rows, by, note, although, look_again))


def _body(at, job, found, rows, by, note, although, look_again):
    facts = {row.body["work"]: row.body["facts_sha256"] for row in rows}
    case = clear.case(at, job, [one.market for one in found.markets])
    was = terms(at.catalogue, job, at.shop)
    return {
        "job": job.key, "job_version": job.version, "of": was, "of_sha256": digest(was),
        "by": by.strip(), "note": note.strip(), "although": (although or "").strip() or None,
        "as_of": edtf.iso(at.ground.day), "clear": found.clear, "look_again": look_again,
        "against": [one.market for one in found.markets if one.decision == HOLD],
        "unsettled": [one.market for one in found.markets if one.decision == OPEN],
        "markets": [_market(one) for one in found.markets], "relied_on": [_answer(row) for row in rows],
        "facts": facts, "works": {key: at.records[key].version for key in sorted(case.layers)},
        "permissions": [one.key for one in case.permissions],
        "limited": any(one.quantity is not None for one in case.permissions),
        "rules_sha256": answers.rules_sha256(), "marks_sha256": marks_sha256(at.catalogue),
        "changes_on": _changes_on(found, case.permissions, at.ground.day),
    }


def _market(one):
    return {"market": one.market, "decision": one.decision, "free_from": edtf.iso(one.free_from),
            "held_by": list(one.held_by), "sentence": one.sentence}


def _answer(row):
    body = row.body
    return {"work": body["work"], "place": body["place"], "status": body["status"], "seq": row.seq}


def _changes_on(found, given, day):
    """Days to come on which the answer may change by the calendar alone: terms that end, permissions that begin or end."""
    layers = [layer for market in found.markets for place in market.places for layer in place.layers]
    days = {bound for layer in layers for bound in (layer.earliest, layer.latest)}
    days |= {one.first for one in given if one.first is not None} | {one.last + 1 for one in given if one.last is not None}
    return [edtf.iso(one) for one in sorted(days) if day < one and SOON < one < NEVER]


def of_job(catalogue, key):
    """The Rows of the decisions on a job, the oldest first."""
    return ledger.rows(catalogue, "decision", key)


def last(catalogue, job, shop=None):
    """The Standing of the last decision on a JobRecord; None when nobody decided. `shop` are all settings where they were read already."""
    row = ledger.newest(catalogue, "decision", job.key)
    return row and standing(catalogue, job, row, shop)


# --- is it still the job that was decided? --------------------------------------------------------------

TEXTS = ("product", "wording", "lettering", "listing_text")
NAMES = {"product": "product", "purpose": "purpose", "quantity": "pieces", "wording": "wording",
         "lettering": "lettering", "listing_text": "listing text", "places": "markets", "works": "works used",
         "traits": "what is shown of the works", "changes": "changes by hand", "due": "due day"}
UNKNOWN = "it is not known whether the job was the same when it was decided"


@dataclass(frozen=True, slots=True)
class Standing:
    """A decision (its ledger Row) beside the job as it is now.

    `changed` are words for what of the job changed since, None when the row is an older one that does not tell; `then` are
    texts of what that was when it was decided; `left` are markets of the job that nobody decided about.
    """

    row: ledger.Row
    changed: tuple | None
    then: tuple
    left: tuple = ()

    @property
    def covers(self):
        """Whether the job is known to be the one that was decided."""
        return self.changed == () and not self.left

    @property
    def against(self):
        """The markets that were on hold when it was decided."""
        return tuple(self.row.body["against"])

    @property
    def says(self):
        """What is to be minded, as the end of a sentence; "" when the job is the one that was decided."""
        if self.changed is None:
            return UNKNOWN
        if self.changed:
            return f"changed since it was decided: {', '.join(self.changed)}"
        return f"not decided for {', '.join(self.left)}" if self.left else ""


def standing(catalogue, job, row, shop=None):
    """The Standing of a decision (its ledger Row) on a JobRecord as it is now."""
    shop = shop or settings.everything(catalogue)
    was, now, groups = row.body.get("of"), terms(catalogue, job, shop), shop["groups"]
    decided = set(_places(catalogue, [one["market"] for one in row.body["markets"]], groups))
    left = tuple(name for name in now["markets"] if not decided.issuperset(_places(catalogue, [name], groups)))
    if was is None:
        return Standing(row, () if row.body.get("job_version") == job.version else None, (), left)
    names = () if digest(now) == row.body["of_sha256"] else tuple(_differing(was, now))
    return Standing(row, tuple(NAMES[name] for name in names), tuple(f"{NAMES[name]}: {_shown(was, name)}" for name in names), left)


def terms(catalogue, job, shop=None):
    """What a decision on a JobRecord is about, as plain values; its title, customer, price, notes and day of sale are not.

    Places are those that its markets, or without any those of the shop, stand for. White space does not count.
    """
    shop = shop or settings.everything(catalogue)
    uses = [{"work": use.work, "part": use.part, "traits": sorted(use.traits), "changes": _plain(use.changes)} for use in job.uses]
    markets = list(job.markets or shop["markets"])
    return {**{name: _plain(getattr(job, name)) for name in TEXTS}, "purpose": job.purpose, "quantity": job.quantity, "due": job.due,
            "markets": markets, "places": _places(catalogue, markets, shop["groups"]), "uses": sorted(uses, key=_use)}


def _plain(text):
    return " ".join((text or "").split())


def _places(catalogue, markets, groups):
    try:
        return sorted(settings.opened(catalogue, markets, groups))
    except RegistryError:  # a group that the shop no longer has
        return []


def _use(one):
    return one["work"], one["part"]


def _differing(was, now):
    """Names of what differs, in the order of NAMES; of the works only those count that are used in the same part both times."""
    before, after = ({_use(one): one for one in found["uses"]} for found in (was, now))
    both = before.keys() & after.keys()
    for name in NAMES:
        if name == "works":
            differs = before.keys() != after.keys()
        elif name in ("traits", "changes"):
            differs = any(before[use][name] != after[use][name] for use in both)
        else:
            differs = name in was and was[name] != now[name]
        if differs:
            yield name


def _shown(was, name):
    if name == "works":
        return ", ".join(f"{one['work']} as {one['part']}" for one in was["uses"]) or "none"
    if name in ("traits", "changes"):
        told = [(one["work"], ", ".join(one[name]) if name == "traits" else one[name]) for one in was["uses"]]
        return "; ".join(f"{text} ({work})" for work, text in told if text) or "none recorded"
    if name == "places":
        return ", ".join(was["markets"]) or "none"
    value = was[name]
    return words.day(edtf.day(value)) if name == "due" and value else str(value or "none")
