"""Works of the shop, each one artwork in one version. The facts object is the source; other columns follow from it."""

import json
import sqlite3
from dataclasses import dataclass

from registry.catalogue import files, keys, ledger
from registry.catalogue.canonical import canonical, digest
from registry.catalogue.facts_text import plain
from registry.catalogue.store import now, transaction
from registry.errors import BadFacts, Conflict, RegistryError
from registry.facts import edtf
from registry.facts.work import read_work
from registry.rulebook import rulebook

ORIGINALITY = ("faithful_copy", "new_expression", "unknown")
COLUMNS = {"based_on", "originality", "access_terms", "notes", "picture", "own"}  # those that a person sets


@dataclass(frozen=True, slots=True)
class WorkRecord:
    """One work as kept: `facts` is the facts object, `based_on` the key of the version beneath or None,
    `traits` pairs of name and note, `picture` the SHA-256 of a kept file or None, `own` true when the shop made it."""

    id: int
    key: str
    title: str
    kind: str | None
    facts: dict
    facts_sha256: str
    based_on: str | None
    originality: str
    access_terms: str
    notes: str
    picture: str | None
    version: int
    added_at: str
    changed_at: str
    makers: str
    first_published: str | None
    own: bool = False
    traits: tuple = ()


_FIELDS = tuple(WorkRecord.__dataclass_fields__)
_READ = {  # how a field is read where it is not a column
    "based_on": "(SELECT key FROM works AS origin WHERE origin.id = works.based_on)",
    "traits": """CASE WHEN EXISTS (SELECT 1 FROM traits WHERE work = works.id) THEN
        (SELECT json_group_array(json_array(name, note)) FROM (SELECT name, note FROM traits WHERE work = works.id ORDER BY id)) END""",
}
_SELECT = f"SELECT {', '.join(_READ.get(name, f'works.{name}') for name in _FIELDS)} FROM works "


def add(catalogue, facts, *, key=None, traits=(), **columns):
    """The new WorkRecord; `columns` are based_on, originality, access_terms, notes, picture, own.

    Without a key the facts' id is taken, else w1, w2 and so on. BadFacts as from `read_work`; Conflict when the
    key is taken.
    """
    check(facts, columns or traits)
    read_work(facts, rulebook().vocabulary)
    with transaction(catalogue) as db:
        key = keys.new(db, "work", key or facts.get("id") or None)
        kept = plain({**facts, "id": key}, rulebook().vocabulary)
        moment = now()
        row = {"key": key, "originality": "unknown", "added_at": moment, "changed_at": moment,
               **_columns(catalogue, None, columns), **_derived(kept)}
        names = ", ".join(row)
        number = db.execute(f"INSERT INTO works ({names}) VALUES ({', '.join('?' * len(row))})", tuple(row.values())).lastrowid
        _rewrite(db, number, kept)
        _set_traits(db, number, traits)
        _note_facts(catalogue, key, None, kept)
    return get(catalogue, key)


def check(facts, beside):
    """Nothing; BadFacts when facts say nothing of a work; `beside` is true when something is said of it beside them."""
    if not isinstance(facts, dict) or not (any(map(_says, facts.values())) or beside):
        raise BadFacts("Nothing is said of the work; give at least a title.")


def _says(value):
    return value is not None and value != [] and (not isinstance(value, str) or bool(value.strip()))


def change(catalogue, key, version, *, facts=None, traits=None, **columns):
    """The WorkRecord after a change; what is not given stays. A change of nothing keeps the version.

    Conflict when the work is no longer in `version`: somebody else changed it since it was read.
    """
    if facts is not None:
        read_work(facts, rulebook().vocabulary)
    with transaction(catalogue) as db:
        old = get(catalogue, key)
        if old.version != version:
            raise Conflict(f"The work {key} was changed since it was read (version {old.version}, not {version});"
                           " look at it again and repeat the change.")
        kept = old.facts if facts is None else plain({**facts, "id": key}, rulebook().vocabulary)
        row = _columns(catalogue, old, columns)
        if kept != old.facts:
            row |= _derived(kept)
            _rewrite(db, old.id, kept)
            _note_facts(catalogue, key, old.facts_sha256, kept)
        new_traits = _set_traits(db, old.id, traits) if traits is not None else False
        if row or new_traits:
            row |= {"version": version + 1, "changed_at": now()}
            db.execute(f"UPDATE works SET {', '.join(f'{name} = ?' for name in row)} WHERE id = ?", (*row.values(), old.id))
    return get(catalogue, key)


def get(catalogue, key):
    """The WorkRecord of a key; UnknownRecord, with the nearest keys, when there is none."""
    found = catalogue.db.execute(_SELECT + "WHERE works.key = ?", (key,)).fetchone()
    if not found:
        raise keys.unknown(catalogue.db, "work", key)
    return _record(found)


def some(catalogue, ids):
    """The WorkRecords of these row numbers, in the same order."""
    found = (catalogue.db.execute(_SELECT + "WHERE works.id = ?", (number,)).fetchone() for number in ids)
    return [_record(row) for row in found if row]


def listed(catalogue, limit=-1, start=0):
    """WorkRecords in the order in which they were added, `limit` at most (-1: all), from number `start` on."""
    found = catalogue.db.execute(_SELECT + "ORDER BY works.id LIMIT ? OFFSET ?", (limit, start)).fetchall()
    return [_record(row) for row in found]


def count(catalogue):
    """How many works are kept."""
    return catalogue.db.execute("SELECT count(*) FROM works").fetchone()[0]


def beneath(catalogue, record):
    """The WorkRecords that a version is based on, the nearest first."""
    found = []
    while record.based_on:
        record = get(catalogue, record.based_on)
        found.append(record)
    return found


def facts_of(record):
    """The Work in a record, as the law reads it."""
    return read_work(record.facts, rulebook().vocabulary)


def _record(row):
    kept = dict(zip(_FIELDS, row))
    traits = tuple(map(tuple, json.loads(kept["traits"]))) if kept["traits"] else ()
    return WorkRecord(**{**kept, "facts": json.loads(kept["facts"]), "own": bool(kept["own"]), "traits": traits})


def _columns(catalogue, old, given):
    """The columns that a person sets, checked; only those that differ from the old record."""
    if given.keys() - COLUMNS:
        raise TypeError(f"A work has no columns {given.keys() - COLUMNS}.")
    row = dict(given)
    if "originality" in row and row["originality"] not in ORIGINALITY:
        raise RegistryError(f"originality is '{row['originality']}'; allowed are {', '.join(ORIGINALITY)}.")
    if row.get("picture"):
        files.get(catalogue, row["picture"])
    if old:
        row = {name: value for name, value in row.items() if value != getattr(old, name)}
    if "based_on" in row and row["based_on"] is not None:
        row["based_on"] = _origin(catalogue, old, row["based_on"])
    return row


def _origin(catalogue, old, key):
    """The row number of the version beneath; a work may not stand beneath itself."""
    origin = get(catalogue, key)
    if old and old.key in [origin.key, *(work.key for work in beneath(catalogue, origin))]:
        raise RegistryError(f"The work {old.key} cannot be based on {key}, which is itself based on {old.key}.")
    return origin.id


def _derived(kept):
    """The columns that follow from the facts."""
    work = read_work(kept, rulebook().vocabulary)
    first = min((p.date for p in work.publications if p.date), key=_order, default=None)
    dated = [p.date for p in work.publications if p.date]
    return {
        "title": work.title, "kind": work.kind, "facts": canonical(kept), "facts_sha256": digest(kept),
        "makers": "; ".join(c.name for c in work.creators if c.name),
        "first_published": first.text if first else None,
        "published_earliest": _bound(min, [span.earliest for span in dated]),
        "published_latest": _bound(min, [span.latest for span in dated if span.latest is not None]),
    }


def _order(span):
    """Earliest first; an open start stands before all, an open end after all."""
    return (span.earliest is not None, span.earliest or 0, span.latest is None, span.latest or 0)


def _bound(pick, days):
    return edtf.iso(pick(days)) if days and None not in days else None


def _rewrite(db, number, kept):
    """The rows for browsing, made anew from the facts."""
    work = read_work(kept, rulebook().vocabulary)
    db.execute("DELETE FROM creators WHERE work = ?", (number,))
    db.execute("DELETE FROM publications WHERE work = ?", (number,))
    db.executemany(
        "INSERT INTO creators (work, position, name, role, born, died, nationality) VALUES (?, ?, ?, ?, ?, ?, ?)",
        [(number, place, c.name, c.role, _text(c.born), _text(c.died), ", ".join(c.nationality or ()) or None)
         for place, c in enumerate(work.creators)],
    )
    db.executemany(
        "INSERT INTO publications (work, position, date, earliest, latest, country) VALUES (?, ?, ?, ?, ?, ?)",
        [(number, place, _text(p.date), p.date and edtf.iso(p.date.earliest), p.date and edtf.iso(p.date.latest), p.country)
         for place, p in enumerate(work.publications)],
    )


def _text(span):
    return span.text if span else None


def _set_traits(db, number, traits):
    """True when the traits of a work were not these already; each is a name or a pair of name and note."""
    pairs = [(one, "") if isinstance(one, str) else tuple(one) for one in traits]
    known = [tuple(row) for row in db.execute("SELECT name, note FROM traits WHERE work = ? ORDER BY id", (number,))]
    if pairs == known:
        return False
    db.execute("DELETE FROM traits WHERE work = ?", (number,))
    try:
        db.executemany("INSERT INTO traits (work, name, note) VALUES (?, ?, ?)", [(number, *pair) for pair in pairs])
    except sqlite3.IntegrityError:
        raise RegistryError("A trait has no name, or the same trait is given twice.") from None
    return True


def _note_facts(catalogue, key, before, kept):
    ledger.append(catalogue, "facts", key, {"work": key, "before": before, "after": digest(kept), "facts": kept})
