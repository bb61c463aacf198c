"""Marks to beware of: trademarks and other badges, in the office's own words, and the works they belong to."""

import json
from dataclasses import dataclass

from registry.catalogue import works
from registry.catalogue.canonical import canonical
from registry.catalogue.store import now, transaction
from registry.errors import BadDate, RegistryError, UnknownRecord
from registry.facts import edtf

STATES = ("live", "pending", "dead", "unknown")
DAYS = ("filed", "registered", "expires", "look_again")


@dataclass(frozen=True, slots=True)
class Mark:
    """One mark: `classes` are Nice classes, `status_words` the office's own, `works` keys of linked works."""

    id: int
    words: str
    kind: str
    owner: str
    office: str
    number: str
    filed: str | None
    registered: str | None
    expires: str | None
    look_again: str | None
    classes: tuple
    nice_edition: str
    status_words: str
    state: str
    goods: str
    avoid: str
    note: str
    added_at: str
    works: tuple = ()


COLUMNS = tuple(name for name in Mark.__dataclass_fields__ if name not in ("id", "added_at", "works"))


def add(catalogue, linked=(), **columns):
    """The new Mark, linked to the works of these keys; `columns` are those of COLUMNS."""
    _check(columns)
    row = {name: canonical(list(value)) if name == "classes" else value for name, value in columns.items()}
    with transaction(catalogue) as db:
        row["added_at"] = now()
        number = db.execute(f"INSERT INTO marks ({', '.join(row)}) VALUES ({', '.join('?' * len(row))})", tuple(row.values())).lastrowid
        db.executemany("INSERT INTO mark_works (mark, work) VALUES (?, ?)", [(number, works.get(catalogue, key).id) for key in linked])
    return get(catalogue, number)


def get(catalogue, number):
    """The Mark of that number; UnknownRecord when there is none."""
    found = catalogue.db.execute("SELECT * FROM marks WHERE id = ?", (number,)).fetchone()
    if not found:
        raise UnknownRecord(f"There is no mark {number} in this catalogue.")
    return _record(catalogue.db, found)


def listed(catalogue):
    """All Marks, in the order in which they were added."""
    return [_record(catalogue.db, row) for row in catalogue.db.execute("SELECT * FROM marks ORDER BY id").fetchall()]


def _record(db, row):
    linked = db.execute("SELECT works.key FROM mark_works JOIN works ON works.id = mark_works.work WHERE mark = ? ORDER BY works.id", (row["id"],))
    values = {name: row[name] for name in row.keys() if name != "classes"}
    return Mark(**values, classes=tuple(json.loads(row["classes"])), works=tuple(one[0] for one in linked))


def _check(columns):
    if columns.keys() - set(COLUMNS):
        raise TypeError(f"A mark has no {columns.keys() - set(COLUMNS)}.")
    if columns.get("state", "unknown") not in STATES:
        raise RegistryError(f"The state of the mark is '{columns['state']}'; allowed are {', '.join(STATES)}.")
    for number in columns.get("classes", ()):
        if type(number) is not int or not 1 <= number <= 45:
            raise RegistryError(f"The class is {number!r}; Nice classes are whole numbers from 1 to 45.")
    for name in DAYS:
        if columns.get(name) is not None:
            try:
                edtf.day(columns[name])
            except BadDate as error:
                raise BadDate(f"{name}: {error}") from None
