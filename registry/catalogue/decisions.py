"""Decisions: what a person decided about a job, on what, and against what. Added to the ledger, never rewritten."""

from registry.catalogue import answers, clear, jobs, ledger
from registry.catalogue.beside import marks_sha256
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
    if look_again is not None:
        edtf.day(look_again)
    with transaction(catalogue):
        at, job = clear.desk(catalogue, day), jobs.get(catalogue, key)
        found = clear.answer(at, job, markets, want=0)
        held = [one for one in found.markets if one.decision == HOLD]
        if held and not (although or "").strip():
            names = ", ".join(one.market for one in held)
            raise RegistryError(f"The job {key} is on hold in {names}: {held[0].sentence} To decide against a hold, give the reason with --although.")
        rows = answers.record(catalogue, clear.relied_on(at, job, found))
        return ledger.append(catalogue, "decision", key, _body(at, job, found, rows, by, note, although, look_again))


def _body(at, job, found, rows, by, note, although, look_again):
    facts = {row.body["work"]: row.body["facts_sha256"] for row in rows}
    given = clear.case(at, job, [one.market for one in found.markets]).permissions
    return {
        "job": job.key, "job_version": job.version, "by": by.strip(), "note": note.strip(), "although": (although or "").strip() or None,
        "as_of": edtf.iso(at.ground.day), "clear": found.clear, "look_again": look_again,
        "against": [one.market for one in found.markets if one.decision == HOLD], "unsettled": [one.market for one in found.markets if one.decision == OPEN],
        "markets": [{"market": one.market, "decision": one.decision, "free_from": edtf.iso(one.free_from), "held_by": list(one.held_by), "sentence": one.sentence} for one in found.markets],
        "relied_on": [{"work": row.body["work"], "place": row.body["place"], "status": row.body["status"], "seq": row.seq} for row in rows],
        "facts": facts, "permissions": [one.key for one in given], "limited": any(one.quantity is not None for one in given),
        "rules_sha256": answers.rules_sha256(), "marks_sha256": marks_sha256(at.catalogue), "changes_on": _changes_on(found, given, at.ground.day),
    }


def _changes_on(found, given, day):
    """Days to come on which the answer may change by the calendar alone: terms that end, permissions that begin or end."""
    days = {bound for market in found.markets for place in market.places for layer in place.layers for bound in (layer.earliest, layer.latest)}
    days |= {one.first for one in given if one.first is not None} | {one.last + 1 for one in given if one.last is not None}
    return [edtf.iso(one) for one in sorted(days) if day < one and SOON < one < NEVER]


def of_job(catalogue, key):
    """The Rows of the decisions on a job, the oldest first."""
    return ledger.rows(catalogue, "decision", key)


