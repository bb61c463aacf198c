"""Jobs of the shop: one order or product run, and which work plays which part in it."""

import json
from dataclasses import dataclass

from registry.catalogue import days, keys, places, settings, works
from registry.catalogue.canonical import canonical
from registry.catalogue.store import now, transaction
from registry.errors import Conflict, RegistryError, UnknownRecord

PURPOSES = ("sale", "commission", "gift", "display")
PARTS = ("picture", "lettering", "text", "photograph", "other")


@dataclass(frozen=True, slots=True)
class Use:
    """One work in a job: `work` is its key, `part` one of PARTS, `changes` what was changed by hand."""

    work: str
    part: str
    traits: tuple = ()
    changes: str = ""


@dataclass(frozen=True, slots=True)
class JobRecord:
    """One job as kept; `markets` are the places and groups as typed, `due` and `sold_on` ISO days or None."""

    id: int
    key: str
    title: str
    product: str
    purpose: str
    markets: tuple
    quantity: int | None
    wording: str
    lettering: str
    listing_text: str
    due: str | None
    sold_on: str | None
    customer: str
    price: str
    notes: str
    version: int
    added_at: str
    changed_at: str
    uses: tuple = ()


COLUMNS = tuple(JobRecord.__dataclass_fields__)[2:15]  # those that a person sets


def add(catalogue, *, key=None, title, purpose="sale", **columns):
    """The new JobRecord; without a key it is called j1, j2 and so on. Conflict when the key is taken."""
    row = _checked(catalogue, {"title": title, "purpose": purpose, **columns})
    with transaction(catalogue) as db:
        moment = now()
        row = {"key": keys.new(db, "job", key), **row, "added_at": moment, "changed_at": moment}
        db.execute(f"INSERT INTO jobs ({', '.join(row)}) VALUES ({', '.join('?' * len(row))})", tuple(row.values()))
    return get(catalogue, row["key"])


def change(catalogue, key, version, **columns):
    """The JobRecord after a change; what is not given stays. Conflict when it is no longer in `version`."""
    row = _checked(catalogue, columns)
    with transaction(catalogue) as db:
        old = get(catalogue, key)
        if old.version != version:
            raise Conflict(f"The job {key} was changed since it was read (version {old.version}, not {version});"
                           " look at it again and repeat the change.")
        row |= {"version": version + 1, "changed_at": now()}
        db.execute(f"UPDATE jobs SET {', '.join(f'{name} = ?' for name in row)} WHERE id = ?", (*row.values(), old.id))
    return get(catalogue, key)


def use(catalogue, key, work, part, traits=(), changes=""):
    """The JobRecord after a work was given a part in it; the same work in the same part is overwritten."""
    if part not in PARTS:
        raise RegistryError(f"The part is '{part}'; allowed are {', '.join(PARTS)}.")
    with transaction(catalogue) as db:
        job, record = get(catalogue, key), works.get(catalogue, work)
        db.execute(
            "INSERT INTO uses (job, work, part, traits, changes) VALUES (?, ?, ?, ?, ?)"
            " ON CONFLICT (job, work, part) DO UPDATE SET traits = excluded.traits, changes = excluded.changes",
            (job.id, record.id, part, canonical(_known_traits(catalogue, record, traits)), changes),
        )
        _touch(db, job)
    return get(catalogue, key)


def stop_using(catalogue, key, work, part=None):
    """The JobRecord after a work was taken out of it (out of one part, or of all); UnknownRecord when it was not in."""
    with transaction(catalogue) as db:
        job, record = get(catalogue, key), works.get(catalogue, work)
        gone = db.execute("DELETE FROM uses WHERE job = ? AND work = ? AND (?3 IS NULL OR part = ?3)", (job.id, record.id, part))
        if not gone.rowcount:
            raise UnknownRecord(f"The job {key} does not use the work {work}{f' as {part}' if part else ''}.")
        _touch(db, job)
    return get(catalogue, key)


def get(catalogue, key):
    """The JobRecord of a key; UnknownRecord, with the nearest key, when there is none."""
    found = catalogue.db.execute("SELECT * FROM jobs WHERE key = ?", (key,)).fetchone()
    if not found:
        raise keys.unknown(catalogue.db, "job", key)
    return _record(catalogue.db, found)


def listed(catalogue, limit=-1):
    """JobRecords, the earliest due first, those without a day last."""
    found = catalogue.db.execute("SELECT * FROM jobs ORDER BY due IS NULL, due, id LIMIT ?", (limit,)).fetchall()
    return [_record(catalogue.db, row) for row in found]


def count(catalogue):
    """How many jobs are on record."""
    return catalogue.db.execute("SELECT count(*) FROM jobs").fetchone()[0]


def of_work(catalogue, work):
    """Keys of the jobs that use a work, given by its key."""
    found = catalogue.db.execute(
        "SELECT DISTINCT jobs.key FROM jobs JOIN uses ON uses.job = jobs.id JOIN works ON works.id = uses.work"
        " WHERE works.key = ? ORDER BY jobs.id",
        (work,),
    )
    return [row[0] for row in found]


def _record(db, row):
    uses = db.execute(
        "SELECT works.key, uses.part, uses.traits, uses.changes FROM uses JOIN works ON works.id = uses.work"
        " WHERE job = ? ORDER BY uses.id",
        (row["id"],),
    )
    values = {name: row[name] for name in row.keys() if name != "markets"}
    return JobRecord(**values, markets=tuple(json.loads(row["markets"])),
                     uses=tuple(Use(work, part, tuple(json.loads(traits)), changes) for work, part, traits, changes in uses))


def _checked(catalogue, columns):
    """The columns as stored; RegistryError names the one that cannot be, and what is allowed."""
    for name in columns:
        if name not in COLUMNS:
            raise RegistryError(f"A job has no '{name}'; allowed are {', '.join(COLUMNS)}.")
    if not columns.get("title", "x").strip():
        raise RegistryError("A job needs a title.")
    if columns.get("purpose", "sale") not in PURPOSES:
        raise RegistryError(f"The purpose is '{columns['purpose']}'; allowed are {', '.join(PURPOSES)}.")
    quantity = columns.get("quantity")
    if quantity is not None and not (type(quantity) is int and 0 < quantity < 2**53):
        raise RegistryError(f"The quantity is {quantity!r}; a whole number from 1 up is allowed.")
    for name in ("due", "sold_on"):
        if columns.get(name) is not None:
            days.read(name, columns[name])
    row = dict(columns)
    if "markets" in row:
        settings.opened(catalogue, row["markets"])
        row["markets"] = canonical(list(dict.fromkeys(map(places.written, row["markets"]))))
    return row


def _known_traits(catalogue, record, traits):
    """The traits, each introduced by the work or by a version beneath it."""
    layers = [record, *works.beneath(catalogue, record)]
    known = {name for layer in layers for name, _note in layer.traits}
    for trait in traits:
        if trait not in known:
            listed_ = ", ".join(sorted(known)) or "none yet"
            raise RegistryError(f"'{trait}' is no trait of {record.key} or of what it is based on; on record are {listed_}.")
    return list(dict.fromkeys(traits))


def _touch(db, job):
    db.execute("UPDATE jobs SET version = version + 1, changed_at = ? WHERE id = ?", (now(), job.id))
