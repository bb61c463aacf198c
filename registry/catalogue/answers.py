"""Answers about kept works and jobs: reckoned by the law, recorded in the ledger.

The answer for a whole job is made in `clear`; `answer_job` is a short form of it.
"""

import hashlib
from dataclasses import dataclass
from functools import lru_cache

from registry import data
from registry.catalogue import ledger, works
from registry.catalogue.store import transaction
from registry.facts import edtf
from registry.law.known import Base
from registry.law.verdict import Verdict, judge
from registry.rulebook import rulebook


@dataclass(frozen=True, slots=True)
class Answer:
    """What the law of one place says of one work on one day (a day number)."""

    work: works.WorkRecord
    place: str
    day: int
    verdict: Verdict


@dataclass(frozen=True, slots=True)
class MarketAnswer:
    """The answer for a job in one market: `reason` is one sentence, `parts` the Answer for each work."""

    market: str
    answer: str
    reason: str
    parts: tuple


@dataclass(frozen=True, slots=True)
class JobAnswer:
    """The answers for a job (its key) on one day, market by market."""

    job: str
    day: int
    markets: tuple


def answer_work(record, places, day):
    """One Answer for each place, for this version alone; `places` are codes, `day` a day number."""
    laws, work = rulebook().laws, works.facts_of(record)
    base = Base(work, laws, day)
    return [Answer(record, place, day, judge(work, place, laws, day, base)) for place in places]


def answer_layers(catalogue, record, places, day):
    """Answers for a version and for all that it is based on, work by work: each layer has rights of its own."""
    return [answer for layer in [record, *works.beneath(catalogue, record)] for answer in answer_work(layer, places, day)]


def answer_job(catalogue, job, markets, day):
    """The JobAnswer of a JobRecord in markets (codes of places), each with the law's Answers for all layers.

    The decisions are those of `clear`, which also tells what to leave off, what to find out and what is owed.
    """
    from registry.catalogue import clear  # which is built on this module

    at = clear.desk(catalogue, day)
    found = clear.answer(at, job, markets, want=0)
    parts = clear.relied_on(at, job, found)
    return JobAnswer(job.key, day, tuple(
        MarketAnswer(one.market, one.decision, one.sentence, tuple(part for part in parts if part.place == one.market))
        for one in found.markets))


def record(catalogue, answers):
    """The ledger rows of these Answers, all written or none; an answer like the newest on record is not repeated."""
    with transaction(catalogue):
        return [_record(catalogue, answer) for answer in answers]


def _record(catalogue, answer):
    body = assessment(answer)
    last = ledger.newest(catalogue, "assessment", answer.work.key, place=answer.place)
    if last and last.body == body:
        return last
    return ledger.append(catalogue, "assessment", answer.work.key, body)


def assessment(answer):
    """The body of an assessment in the ledger: the answer, its rules by id, and digests of what it rests on."""
    verdict = answer.verdict
    return {
        "work": answer.work.key, "place": answer.place, "as_of": edtf.iso(answer.day), "status": verdict.status,
        "free_from": edtf.iso(verdict.free_from),
        "free_from_earliest": edtf.iso(verdict.earliest), "free_from_latest": edtf.iso(verdict.latest),
        "because": verdict.because, "why": [rule.id for rule in verdict.why],
        "open": [question.fact for question in verdict.questions],
        "facts_sha256": answer.work.facts_sha256, "rules_sha256": rules_sha256(),
    }


@lru_cache(maxsize=1)
def rules_sha256():
    """The SHA-256 over all files that the law is read from, by name: a change in any makes answers stale."""
    whole = hashlib.sha256()
    for folder in ("", "terms"):
        for name in data.names(folder):
            if name.endswith(".toml"):
                text = data.read_text(*filter(None, (folder, name)))
                whole.update(f"{folder}/{name}\0{text}\0".encode("utf-8"))
    return whole.hexdigest()
