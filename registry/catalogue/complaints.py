"""Complaints: a marketplace or owner objects to jobs. Kept in the ledger, with every answer, and never rewritten."""

from dataclasses import dataclass

from registry.catalogue import days, files, jobs, ledger, marks, works
from registry.catalogue.store import transaction
from registry.errors import RegistryError, UnknownRecord

OUTCOMES = ("sent", "withdrawn", "settled", "upheld", "rejected")
OPEN, ANSWERED, CLOSED = "open", "answered", "closed"
CLOSING = ("withdrawn", "settled", "upheld", "rejected")


@dataclass(frozen=True, slots=True)
class Answer:
    """One answer to a complaint, or what became of it; `file` a SHA-256 or None."""

    seq: int
    answered: str
    by: str
    says: str
    outcome: str
    file: str | None


@dataclass(frozen=True, slots=True)
class Complaint:
    """One complaint: days ISO text, `jobs`, `works` and `marks` keys, `state` open, answered or closed."""

    key: str
    seq: int
    received: str
    sender: str
    where: str
    claim: str
    deadline: str | None
    jobs: tuple
    works: tuple
    marks: tuple
    reference: str
    file: str | None
    note: str
    answers: tuple = ()

    @property
    def state(self):
        """open, answered (something was sent), or closed."""
        if any(one.outcome in CLOSING for one in self.answers):
            return CLOSED
        return ANSWERED if self.answers else OPEN


def add(catalogue, *, received, sender, claim, jobs, works=(), marks=(), deadline=None, where="", reference="", file=None, note=""):
    """The new Complaint, called c1, c2 and so on; RegistryError names what is missing or is not on record."""
    for name, value in (("from whom it comes", sender), ("what it claims", claim)):
        if not value.strip():
            raise RegistryError(f"A complaint needs {name}.")
    if not (jobs or works):
        raise RegistryError("A complaint needs the jobs, or at least the works, that it is about.")
    came = days.past("received", received)
    if deadline is not None and days.read("deadline", deadline) < came:
        raise RegistryError(f"The deadline is {deadline}, before the day on which the complaint came in ({received});"
                            " a deadline on that day or later is allowed, or none.")
    with transaction(catalogue):
        _known(catalogue, jobs, works, marks, file)
        key = f"c{len(ledger.rows(catalogue, 'complaint')) + 1}"
        ledger.append(catalogue, "complaint", key, {
            "complaint": key, "received": received, "sender": sender.strip(), "where": where.strip(),
            "claim": claim.strip(), "deadline": deadline,
            "jobs": list(dict.fromkeys(jobs)), "works": list(dict.fromkeys(works)), "marks": list(dict.fromkeys(marks)),
            "reference": reference.strip(), "file": file, "note": note.strip(),
        })
    return get(catalogue, key)


def answer(catalogue, key, *, answered, by, says, outcome="sent", file=None):
    """The Complaint with one more answer; `outcome` says what was sent or what became of it."""
    if not by.strip() or not says.strip():
        raise RegistryError("An answer needs the name of who gave it and a note of what was said or what became of it.")
    if outcome not in OUTCOMES:
        raise RegistryError(f"The outcome is '{outcome}'; allowed are {', '.join(OUTCOMES)}.")
    days.past("answered", answered)
    with transaction(catalogue):
        found = get(catalogue, key)
        if answered < found.received:
            raise RegistryError(f"The answer is of {answered}, before the complaint {key} came in ({found.received}).")
        if file is not None:
            files.get(catalogue, file)
        ledger.append(catalogue, "complaint_answer", key, {
            "complaint": key, "answered": answered, "by": by.strip(), "says": says.strip(), "outcome": outcome, "file": file})
    return get(catalogue, key)


def get(catalogue, key):
    """The Complaint of a key; UnknownRecord when there is none."""
    found = ledger.rows(catalogue, "complaint", key)
    if not found:
        raise UnknownRecord(f"There is no complaint '{key}' in this catalogue.")
    return _complaint(found[0], ledger.rows(catalogue, "complaint_answer", key))


def listed(catalogue, state=""):
    """Complaints, the earliest deadline first, those without one last; in some state only, when it is given."""
    answers = {}
    for row in ledger.rows(catalogue, "complaint_answer"):
        answers.setdefault(row.subject, []).append(row)
    found = [_complaint(row, answers.get(row.subject, ())) for row in ledger.rows(catalogue, "complaint")]
    found.sort(key=lambda one: (one.state == CLOSED, one.deadline is None, one.deadline or "", one.seq))
    return [one for one in found if not state or one.state == state]


def waiting(catalogue, until):
    """Complaints that were not answered yet and whose deadline is no later than a day (ISO text)."""
    return [one for one in listed(catalogue, OPEN) if one.deadline and one.deadline <= until]


def of_job(catalogue, job):
    """Complaints about a job, given by its key."""
    return [one for one in listed(catalogue) if job in one.jobs]


def _complaint(row, answers):
    body = row.body
    given = {name: body[name] for name in ("received", "sender", "where", "claim", "deadline", "reference", "file", "note")}
    about = {name: tuple(body[name]) for name in ("jobs", "works", "marks")}
    return Complaint(row.subject, row.seq, **given, **about, answers=tuple(map(_answer, answers)))


def _answer(row):
    return Answer(row.seq, *(row.body[name] for name in ("answered", "by", "says", "outcome", "file")))


def _known(catalogue, job_keys, work_keys, mark_keys, file):
    """Nothing; UnknownRecord when one of the things named is not on record."""
    for key in job_keys:
        jobs.get(catalogue, key)
    for key in work_keys:
        works.get(catalogue, key)
    for key in mark_keys:
        marks.get(catalogue, key)
    if file is not None:
        files.get(catalogue, file)
