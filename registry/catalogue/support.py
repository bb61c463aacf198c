"""Which facts the answers hang on, and which of them rest on evidence. Used by the commands, the sheet and the pages alike.

A fact is decisive when the answer would not be the same without it. It rests on evidence when a document was seen
for it, or somebody who knows told of it, and the fact is still recorded as it was then. What was only assumed, or
was recorded otherwise when the evidence was added, does not rest on it.
"""

import json
from dataclasses import dataclass

from registry.catalogue import clear, evidence, jobs, words, works
from registry.catalogue.answers import rules_sha256
from registry.catalogue.canonical import canonical
from registry.clearance.model import NEVER
from registry.errors import RegistryError
from registry.facts import edtf
from registry.facts.work import UNKNOWN
from registry.law.decisive import hanging, hanging_until, order
from registry.law.verdict import FREE, PROTECTED
from registry.rulebook import rulebook

OWN, OWN_WORK = "own", "own_work"  # that the shop made a work; the status of its LayerAnswer
SEEN, TOLD, ASSUMED, OUTDATED, NONE = "seen", "told", "assumed", "outdated", "none"
ORDER = (NONE, OUTDATED, ASSUMED, TOLD, SEEN)  # the weakest first
WORDS = {
    SEEN: "seen in a document", TOLD: "told by somebody", ASSUMED: "assumed, no evidence",
    OUTDATED: "the fact was altered after its evidence was added", NONE: "no evidence",
}


@dataclass(frozen=True, slots=True)
class Support:
    """A fact that answers hang on: `work` is a key, `value` as recorded, `places` codes of the answers that would not
    be the same without it, `basis` one of ORDER, `evidence` what is on record for it."""

    work: str
    title: str
    fact: str
    value: object
    places: tuple
    basis: str
    evidence: tuple = ()

    @property
    def rests(self):
        """True when the fact rests on evidence."""
        return self.basis in (SEEN, TOLD)


@dataclass(frozen=True, slots=True)
class Gap:
    """A decisive fact without evidence: the jobs whose answer hangs on it, how many pieces they make, where to look."""

    support: Support
    jobs: tuple
    sold: tuple
    pieces: int
    question: str
    where: str


@dataclass(frozen=True, slots=True)
class Missing:
    """What proof is missing: the Gaps in order, and by its key each job that cannot be judged, with the sentence why."""

    gaps: tuple
    unjudged: dict


def of_answers(catalogue, found):
    """Supports for Answers of the law (as from answers.answer_work), work by work in their order."""
    groups, days = {}, {answer.day for answer in found}
    made = {}
    for answer in found:
        if answer.work.own:
            made.setdefault(answer.work.key, (answer.work, []))[1].append(answer.place)
            continue
        groups.setdefault(answer.work.key, (answer.work, {}))[1][answer.place] = answer.verdict.status
    own = tuple(_support(record, OWN, tuple(dict.fromkeys(codes)), evidence.of_work(catalogue, record.key)) for record, codes in made.values())
    return own + tuple(one for record, statuses in groups.values() for day in days
                       for one in of_work(catalogue, record, works.facts_of(record), statuses, day))


def of_job(at, answer):
    """Supports for a JobAnswer made at a Desk: of the layers whose answer is that of the law, in all its places."""
    groups = {}
    for place in dict.fromkeys(place for market in answer.markets for place in market.places):
        for layer in place.layers:
            if layer.permission is None:
                groups.setdefault(layer.work, {})[place.place] = layer.status
    return tuple(one for key, statuses in groups.items() for one in of_layer(at, key, statuses))


def of_layer(at, key, statuses):
    """Supports for one version known at a Desk; `statuses` are those of its LayerAnswers by code of place.

    Where the answer is not that of the law on these facts (a copy that adds nothing, letters that are free as such),
    it hangs on none of them; that of the shop's own work hangs on just that.
    """
    record, made = at.records[key], tuple(code for code, status in statuses.items() if status == OWN_WORK)
    found = _stored(at.catalogue, record, statuses, at.ground.day)
    if found is None:
        found, _until = hangs(at, key, statuses)
    found = {OWN: made, **found} if made else found
    proofs = clear.once(at, evidence.of_work, key) if found else ()
    return tuple(_support(record, fact, codes, proofs) for fact, codes in found.items())


def hangs(at, key, statuses):
    """({fact: codes of places} that the law's own answers on a version known at a Desk hang on, the first day on which
    that may be otherwise)."""
    work = at.ground.plain(at.layers[key].work)
    lawful = {code: status for code, status in statuses.items()
              if status in (FREE, PROTECTED) and at.ground.verdict(work, code).status == status}
    return hanging_until(work, lawful, rulebook().laws, at.ground.day) if lawful else ({}, NEVER)


def _stored(catalogue, record, codes, day):
    """What `hangs` gave when the answers of the work were stored; None when that does not hold for the day and places."""
    row = catalogue.db.execute(_HANGS, (record.id, edtf.iso(day), rules_sha256())).fetchone()
    if row is None or not set(codes).issubset((row[1] or "").split(",")):
        return None
    kept = json.loads(row[0])
    found = {fact: tuple(code for code in codes if code in kept[fact]) for fact in order(rulebook().laws) if fact in kept}
    return {fact: where for fact, where in found.items() if where}


_HANGS = """SELECT hangs, (SELECT group_concat(place) FROM answer_places WHERE rules_sha256 = ?3) AS places
FROM work_answers WHERE work = ?1 AND reckoned_on <= ?2 AND until > ?2 AND hangs <> ''"""


def of_work(catalogue, record, work, statuses, day):
    """Supports for a WorkRecord, read as that Work, on a day number; `statuses` are the answers of the law on it by code
    of place. An open answer hangs on what is missing instead."""
    settled = {code: status for code, status in statuses.items() if status in (FREE, PROTECTED)}
    if not settled:
        return ()
    proofs = evidence.of_work(catalogue, record.key)
    return tuple(_support(record, fact, codes, proofs) for fact, codes in hanging(work, settled, rulebook().laws, day).items())


def _support(record, fact, codes, proofs):
    basis, found = grounds(record, fact, proofs)
    return Support(record.key, record.title, fact, evidence.on_record(record, fact), codes, basis, found)


def grounds(record, fact, proofs):
    """(basis, Evidence that speaks for it) of a fact of a WorkRecord, given all Evidence of that work."""
    if not proofs:
        return NONE, ()
    own = [(one, _graded(record, fact, one)) for one in proofs if one.fact == fact or one.fact == _whole(fact)]
    parts = _of_entries(record, fact, proofs)
    bases = [basis for _one, basis in own] + ([parts[0]] if parts else [])
    found = [one for one, _basis in own] + (parts[1] if parts else [])
    return max(bases, key=ORDER.index, default=NONE), tuple(found)


def _graded(record, fact, one):
    """The basis of one piece of evidence for a fact, OUTDATED when that was recorded otherwise then."""
    return one.basis if holds(record, one, fact) else OUTDATED


def holds(record, one, fact=None):
    """True when what a piece of evidence was added for is still on record in a WorkRecord; `fact` is one fact of a whole list."""
    then, name = evidence.decoded(one), fact or one.fact
    if one.fact != name:
        then = evidence.recorded({one.fact: then}, name)
    return one.value is None or canonical(then) == canonical(evidence.on_record(record, name))


def _whole(fact):
    """The list that a fact is part of, such as publications for publications.date; "" for a fact of the work."""
    known = rulebook().vocabulary.facts.get(fact)
    return evidence.LISTS.get(known.of, "") if known else ""


def _of_entries(record, fact, proofs):
    """(basis, Evidence) from evidence for single entries; None when there is none. The weakest entry counts."""
    entries, known = _whole(fact), rulebook().vocabulary.facts.get(fact)
    paths = [f"{entries}.{number}.{known.name}" for number, one in enumerate(record.facts.get(entries) or ())
             if one.get(known.name) not in (None, UNKNOWN)] if entries else []
    found = [[one for one in proofs if one.fact == path] for path in paths]
    if not any(found):
        return None
    bases = [max((_graded(record, None, one) for one in held), key=ORDER.index, default=NONE) for path, held in zip(paths, found)]
    return min(bases, key=ORDER.index), [one for held in found for one in held]


def label(fact):
    """What a fact is called on pages and papers; one that the vocabulary does not have goes by its name in plain letters."""
    known = rulebook().vocabulary.facts.get(fact)
    return known.label if known else words.BESIDE.get(fact) or fact[:1].upper() + fact[1:].replace("_", " ").replace(".", ": ")


def told(supports, name=label):
    """Two lists of facts in words, (resting on evidence, not resting on it), such as 'Renewed (US) of gull (seen in a document)'.

    `name` gives what a fact is called.
    """
    several = len({one.work for one in supports}) > 1
    lines = [(one.rests, f"{name(one.fact)}{f' of {one.work}' if several else ''} ({WORDS[one.basis]})") for one in supports]
    return [text for rests, text in lines if rests], [text for rests, text in lines if not rests]


def as_objects(supports):
    """Supports as plain objects for JSON."""
    return [{"work": one.work, "fact": one.fact, "value": one.value, "places": list(one.places), "basis": one.basis,
             "rests_on_evidence": one.rests, "evidence": [f"e{proof.id}" for proof in one.evidence]} for one in supports]


def missing(catalogue, day):
    """The Missing over all jobs on a day number: Gaps that hold up the most jobs first, then the most pieces and places."""
    at, held, unjudged = clear.desk(catalogue, day), {}, {}
    for job in jobs.listed(catalogue):
        if job.uses and _markets(at, job):
            try:
                _collect(at, job, held)
            except RegistryError as error:  # a group of the shop that is gone, say: the others are looked at all the same
                unjudged[job.key] = str(error)
    found = [gap for key, uses in held.items() for gap in _gaps(at, key, uses)]
    return Missing(tuple(sorted(found, key=_rank)), unjudged)


def _rank(gap):
    """Jobs first, then sales made, pieces, places; what one sees on the picture itself stands behind what must be looked up."""
    return (-len(gap.jobs), -len(gap.sold), -gap.pieces, gap.support.fact == "kind", -len(gap.support.places),
            gap.support.work, gap.support.fact)


def _markets(at, job):
    return job.markets or at.shop["markets"]


def _collect(at, job, held):
    """Adds to `held`, by work and place, the status of each layer and the jobs that it counts in."""
    for market in clear.answer(at, job, want=0).markets:
        for place in market.places:
            for layer in place.layers:
                if layer.permission is None:
                    status, counted = held.setdefault(layer.work, {}).setdefault(place.place, (layer.status, {}))
                    counted[job.key] = job


def _gaps(at, key, uses):
    for one in of_layer(at, key, {code: status for code, (status, _jobs) in uses.items()}):
        if not one.rests:
            counted = {name: job for code in one.places for name, job in uses[code][1].items()}
            yield Gap(one, tuple(counted), tuple(name for name, job in counted.items() if job.sold_on),
                      sum(job.quantity or 1 for job in counted.values()), *_asked(one))


def _asked(one):
    """(question, where to look) for what a Support is about."""
    if one.fact == OWN:
        entry = clear.rules().asks[OWN]
        return entry["question"].format(title=one.title or one.work), entry["where"]
    fact = rulebook().vocabulary.facts[one.fact]
    return fact.question, fact.where
