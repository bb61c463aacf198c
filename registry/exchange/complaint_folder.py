"""A complaint as one folder for a licensed practitioner: what is on record as JSON, the files, and a plain index.

It writes no legal text: it lists what is on record and what is missing. Customers, prices and private notes stay out.
"""

import json
from dataclasses import asdict, dataclass

from registry.catalogue import (
    clear, complaints, decisions, evidence, files, jobs, ledger, marks, permissions, settings, support, whole, words, works,
)
from registry.clearance.shown import as_json
from registry.errors import RegistryError
from registry.exchange import complaint_index, sheet
from registry.facts import edtf

PRIVATE = ("customer", "price", "notes")


@dataclass(frozen=True, slots=True)
class About:
    """What is on record about one job of a complaint; `answer` is None when the job can no longer be judged, `since` says
    what of the job was changed after the last decision."""

    job: object
    decisions: tuple
    since: str
    answer: object
    why_not: str
    supports: tuple
    permissions: tuple
    searches: tuple
    complaints: tuple


@dataclass(frozen=True, slots=True)
class Dossier:
    """All that goes into the folder of a complaint on a day (number)."""

    complaint: object
    day: int
    shop: str
    jobs: tuple
    works: tuple
    evidence: dict
    marks: tuple
    head: str
    files: tuple


def collect(catalogue, key, day):
    """The Dossier of a complaint on a day number."""
    complaint = complaints.get(catalogue, key)
    at = clear.desk(catalogue, day)
    about = tuple(_about(at, one) for one in complaint.jobs)
    records = _works(catalogue, complaint, about)
    proofs = {record.key: tuple(evidence.of_work(catalogue, record.key)) for record in records}
    found = tuple(marks.get(catalogue, one) for one in _mark_keys(catalogue, complaint, about, records))
    return Dossier(complaint, day, settings.get(catalogue, "name"), about, records, proofs, found, _head(catalogue),
                   _digests(complaint, records, proofs, about))


def _about(at, key):
    job = jobs.get(at.catalogue, key)
    decided = tuple(ledger.rows(at.catalogue, "decision", key))
    answer, why_not, supports = None, "", ()
    try:
        answer = clear.answer(at, job, want=0)
        supports = support.of_job(at, answer)
    except RegistryError as error:  # no market on record, say: the folder is made all the same
        why_not = str(error)
    used = _used(at.catalogue, job)
    given = tuple(one for record in used for one in permissions.of_work(at.catalogue, record.key))
    places = [place.place for market in answer.markets for place in market.places] if answer else []
    looked = tuple(marks.searches(at.catalogue, places, filter(None, (job.wording, job.title)))) if job.wording else ()
    last = decisions.last(at.catalogue, job, at.shop)
    others = tuple(one.key for one in complaints.of_job(at.catalogue, key))
    return About(job, decided, last.says if last else "", answer, why_not, supports, given, looked, others)


def _used(catalogue, job):
    found = {}
    for use in job.uses:
        record = works.get(catalogue, use.work)
        found |= {one.key: one for one in [record, *works.beneath(catalogue, record)]}
    return tuple(found.values())


def _works(catalogue, complaint, about):
    found = {record.key: record for one in about for record in _used(catalogue, one.job)}
    for key in complaint.works:
        record = works.get(catalogue, key)
        found |= {one.key: one for one in [record, *works.beneath(catalogue, record)]}
    return tuple(found.values())


def _mark_keys(catalogue, complaint, about, records):
    keys = dict.fromkeys(complaint.marks)
    for one in about:
        markets = one.answer.markets if one.answer else ()
        keys |= dict.fromkeys(match.mark for market in markets for place in market.places for match in place.matches)
    return keys | dict.fromkeys(mark.key for record in records for mark in marks.of_work(catalogue, record.key))


def _head(catalogue):
    found = catalogue.db.execute("SELECT digest FROM ledger ORDER BY seq DESC LIMIT 1").fetchone()
    return found[0] if found else ""


def _digests(complaint, records, proofs, about):
    """(SHA-256, what it is) of every kept file that belongs to the complaint, each once."""
    kept = [(complaint.file, "the complaint as received"),
            *((one.file, f"answer of {one.answered}") for one in complaint.answers),
            *((record.picture, f"picture of {record.key}") for record in records),
            *((one.file, f"evidence for {one.fact} of {key}") for key, many in proofs.items() for one in many),
            *((one.document, f"permission p{one.id} for {one.work}") for part in about for one in part.permissions)]
    found = {}
    for digest, what in kept:
        if digest:
            found.setdefault(digest, what)
    return tuple(found.items())


# --- writing ----------------------------------------------------------------------------------------

def write(catalogue, key, out, day):
    """The Dossier of a complaint, after it was written into a new or empty folder; nothing half-written stays."""
    with whole.folder(out, "The folder") as beside:
        dossier = collect(catalogue, key, day)
        _fill(catalogue, dossier, beside)
    return dossier


def _fill(catalogue, dossier, folder):
    lost = []
    names = {digest: _copy(catalogue, digest, folder / "files", lost) for digest, _what in dossier.files}
    for name, value in objects(catalogue, dossier).items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(json.dumps(value, ensure_ascii=False, indent=2) + "\n", encoding="utf-8")
    sheets = [name for one in dossier.jobs if (name := _sheet(catalogue, one, dossier.day, folder, lost))]
    text = complaint_index.text(dossier, [(names[digest], what, digest) for digest, what in dossier.files if names[digest]], sheets, lost)
    (folder / "index.txt").write_text(text, encoding="utf-8")


def _sheet(catalogue, about, day, folder, lost):
    """The name of the provenance sheet of a job, written as a page; None for a job that cannot be judged."""
    if about.answer is None:
        return None
    found = sheet.collect(catalogue, about.job.key, day)
    name = f"jobs/{about.job.key}.html"
    try:
        pictures = sheet.embedded(catalogue, found)
    except RegistryError as error:  # a picture that is not what it was: the sheet goes without
        lost += [str(error)] if str(error) not in lost else []
        pictures = {}
    (folder / name).write_text(sheet.html(found, pictures), encoding="utf-8")
    return name


def _copy(catalogue, digest, folder, lost):
    """The name under which a kept file was copied, None when it is not what it was; its digest is compared."""
    try:
        kept = files.get(catalogue, digest)
        content = files.read(catalogue, digest)
    except RegistryError as error:
        lost.append(str(error))
        return None
    folder.mkdir(exist_ok=True)
    name = digest[:16] + files.ENDINGS.get(kept.media_type, ".bin")
    (folder / name).write_bytes(content)
    return f"files/{name}"


def objects(catalogue, dossier):
    """{path in the folder: object} of all records, ready for JSON."""
    complaint = asdict(dossier.complaint) | {"state": dossier.complaint.state, "as_of": edtf.iso(dossier.day)}
    lacks = {"missing": complaint_index.missing(dossier), "not_legal_advice": words.ADVICE}
    found = {"complaint.json": complaint | lacks}
    for one in dossier.jobs:
        found[f"jobs/{one.job.key}.json"] = _job(one)
    for record in dossier.works:
        found[f"works/{record.key}.json"] = {
            "work": {name: value for name, value in asdict(record).items() if name not in PRIVATE},
            "left_out": ["notes"], "evidence": [asdict(one) for one in dossier.evidence[record.key]],
            "assessments": [_row(row) for row in ledger.rows(catalogue, "assessment", record.key)],
        }
    found["marks.json"] = [{"key": mark.key, **asdict(mark)} for mark in dossier.marks]
    kinds = ("complaint", "complaint_answer")
    rows = [row for kind in kinds for row in ledger.rows(catalogue, kind, dossier.complaint.key)]
    found["ledger.json"] = {"head": dossier.head, "complaint": [_row(row) for row in rows]}
    return found


def _job(one):
    return {
        "job": {name: value for name, value in asdict(one.job).items() if name not in PRIVATE},
        "left_out": list(PRIVATE), "decisions": [_row(row) for row in one.decisions],
        "answer_today": as_json(one.answer) if one.answer else None, "no_answer": one.why_not or None,
        "rests_on": [_support(each) for each in one.supports], "permissions": [asdict(each) for each in one.permissions],
        "searches": [asdict(each) for each in one.searches], "complaints": list(one.complaints),
    }


def _row(row):
    return {"seq": row.seq, "at": row.at, "kind": row.kind, "subject": row.subject, "body": row.body,
            "previous": row.previous, "digest": row.digest}


def _support(one):
    return {"work": one.work, "fact": one.fact, "value": one.value, "places": list(one.places), "basis": one.basis,
            "evidence": [each.id for each in one.evidence]}
