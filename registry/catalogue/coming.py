"""What becomes free when: the works of the catalogue by day, in chosen places, with the jobs that wait for them."""

from dataclasses import dataclass

from registry.catalogue import clear, jobs, settings, works
from registry.clearance.model import COPY
from registry.clearance.rules import local
from registry.errors import RegistryError
from registry.law.known import Base
from registry.law.verdict import FREE, PROTECTED, judge

SURE, LATEST, EARLIEST = "free from that day", "free from that day at the latest", "may be free from that day"


@dataclass(frozen=True, slots=True)
class Coming:
    """One work that becomes free in one place on a day number; `how` is SURE, LATEST or EARLIEST.

    `adds` are the traits that a version beneath others introduced: what is free then, and no more. `jobs` are keys
    of jobs not sold yet that show the work and go to that place.
    """

    day: int
    place: str
    work: str
    title: str
    how: str
    adds: tuple = ()
    jobs: tuple = ()


def coming(catalogue, codes, day, until):
    """Comings after `day` and up to `until` (day numbers) in the places of these codes, the earliest first."""
    at = clear.desk(catalogue, day)
    waiting = _waiting(catalogue)
    found = [one for record in works.listed(catalogue) if not record.own for one in _of_work(at, record, codes, until, waiting)]
    return sorted(found, key=lambda one: (one.day, one.place, one.title, one.work))


def _of_work(at, record, codes, until, waiting):
    work = at.ground.plain(works.facts_of(record))
    base = Base(work, at.ground.laws, at.ground.day)
    for code in codes:
        if record.originality == COPY and record.based_on and local(at.ground.rules.copies, code):
            continue  # it adds no layer there; the original is listed
        day, how = _next(judge(work, code, at.ground.laws, at.ground.day, base), at.ground.day, until)
        if day is not None:
            adds = tuple(name for name, _note in record.traits) if record.based_on else ()
            jobs = tuple(key for key, places in waiting.get(record.key, ()) if code in places)
            yield Coming(day, code, record.key, record.title or record.key, how, adds, jobs)


def _next(verdict, day, until):
    """(day, how) of the next day on which a work becomes free; (None, "") when none is known in time."""
    first, last = verdict.earliest, verdict.latest
    if verdict.status == FREE:
        return None, ""
    if last is not None and day < last <= until:
        return last, SURE if first == last else LATEST
    if verdict.status == PROTECTED and first is not None and day < first <= until:
        return first, EARLIEST
    return None, ""


def _waiting(catalogue):
    """(job key, codes) of the jobs not sold yet, by the key of every work beneath their uses; not of the `unplaced` ones."""
    beneath = dict(catalogue.db.execute("SELECT works.key, origin.key FROM works LEFT JOIN works AS origin ON origin.id = works.based_on"))
    found = {}
    for job, codes, _why in _unsold(catalogue):
        for key in {key for use in job.uses for key in _line(use.work, beneath)} if codes else ():
            found.setdefault(key, []).append((job.key, codes))
    return found


def unplaced(catalogue):
    """By its key each job not sold yet whose markets are no places, with the sentence why: it is not among those that wait."""
    return {job.key: why for job, _codes, why in _unsold(catalogue) if why}


def _unsold(catalogue):
    """Yields (JobRecord, codes of its markets, why these are no places or "") for each job not sold yet."""
    own = settings.get(catalogue, "groups")
    for job in jobs.listed(catalogue):
        if job.sold_on is None:
            try:
                yield job, frozenset(settings.opened(catalogue, job.markets, own)), ""
            except RegistryError as error:
                yield job, frozenset(), str(error)


def _line(key, beneath):
    while key is not None:
        yield key
        key = beneath[key]
