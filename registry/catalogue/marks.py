"""Marks to beware of: trademarks and other badges, in the office's own words, and the works they belong to.

People call a mark by m and its number. Searches that found nothing are kept too: that somebody looked is evidence.
"""

import json
from dataclasses import dataclass

from registry.catalogue import days, mark_index, settings, works
from registry.catalogue.canonical import canonical
from registry.catalogue.mark_rules import mark_rules
from registry.catalogue.mark_tables import STATES
from registry.catalogue.store import now, transaction
from registry.errors import Conflict, RegistryError, UnknownRecord
from registry.facts import edtf

KINDS = ("word", "figurative", "combined", "shape", "colour", "sound", "official", "other")
DAYS = ("filed", "registered", "expires", "look_again")
LIST = "classes"


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

    @property
    def key(self):
        """What people call it, such as m12."""
        return f"m{self.id}"


COLUMNS = tuple(name for name in Mark.__dataclass_fields__ if name not in ("id", "added_at", "works"))
_SELECT = "SELECT " + ", ".join(f"marks.{name}" for name in Mark.__dataclass_fields__ if name != "works") + " FROM marks "


def add(catalogue, linked=(), **columns):
    """The new Mark, linked to the works of these keys; `columns` are those of COLUMNS."""
    with transaction(catalogue):
        number = insert(catalogue, linked, **columns)
        mark_index.file_all(catalogue)
    return get(catalogue, number)


def insert(catalogue, linked=(), **columns):
    """The number of a new mark that is not filed in the index yet; to be called inside a transaction."""
    _check(columns)
    _in_order(columns)
    _not_twice(catalogue, columns, None)
    row = {**_row(columns), "added_at": now()}
    blanks = ", ".join("?" * len(row))
    added = catalogue.db.execute(f"INSERT INTO marks ({', '.join(row)}) VALUES ({blanks})", tuple(row.values()))
    number = added.lastrowid
    _link(catalogue, number, linked)
    return number


def change(catalogue, number, /, linked=None, **columns):
    """The Mark after a change; what is not given stays, `linked` replaces the works it is linked to."""
    _check(columns, new=False)
    with transaction(catalogue) as db:
        old = get(catalogue, number)
        if columns.keys() & set(DAYS):
            _in_order({**{name: getattr(old, name) for name in DAYS}, **columns})
        _not_twice(catalogue, {"office": old.office, "number": old.number, **columns}, old.id)
        if columns:
            row = _row(columns)
            db.execute(f"UPDATE marks SET {', '.join(f'{name} = ?' for name in row)} WHERE id = ?", (*row.values(), old.id))
        if linked is not None:
            db.execute("DELETE FROM mark_works WHERE mark = ?", (old.id,))
            _link(catalogue, old.id, linked)
        mark_index.file_all(catalogue)
    return get(catalogue, old.id)


def _not_twice(catalogue, columns, number):
    """RegistryError when another mark stands under the same number of the same office."""
    office, entry = columns.get("office", ""), columns.get("number", "")
    if not (office and entry):
        return
    other = catalogue.db.execute("SELECT id FROM marks WHERE office = ? AND number = ? AND id IS NOT ?", (office, entry, number)).fetchone()
    if other:
        raise Conflict(f"The number {entry} of the office {office} is recorded already, as m{other[0]}; alter that mark instead.")


def _link(catalogue, number, linked):
    pairs = [(number, works.get(catalogue, key).id) for key in dict.fromkeys(linked)]
    catalogue.db.executemany("INSERT INTO mark_works (mark, work) VALUES (?, ?)", pairs)


def get(catalogue, number):
    """The Mark of that number, or of a key such as m12; UnknownRecord when there is none."""
    found = catalogue.db.execute(_SELECT + "WHERE id = ?", (number_of(number),)).fetchone()
    if not found:
        raise UnknownRecord(f"There is no mark {number} in this catalogue.")
    return _records(catalogue.db, [found])[0]


def number_of(key):
    """The number in a key such as m12 or 12; UnknownRecord when it is no such key."""
    text = str(key).removeprefix("m")
    if not (text.isascii() and text.isdigit() and len(text) < 19):
        raise UnknownRecord(f"'{key}' is no mark; a mark is called m and its number, such as m12.")
    return int(text)


def listed(catalogue, words="", state="", limit=-1):
    """Marks in the order in which they were added, those whose words or owner hold some text, or in some state."""
    found = catalogue.db.execute(
        _SELECT + "WHERE (?1 = '' OR instr(lower(words || ' ' || owner), lower(?1))) AND (?2 = '' OR state = ?2)"
        " ORDER BY id LIMIT ?3", (words, state, limit))
    return _records(catalogue.db, found.fetchall())


def some(catalogue, numbers):
    """The Marks of these row numbers, in order."""
    found = []
    for start in range(0, len(numbers), 500):
        part = numbers[start:start + 500]
        found += catalogue.db.execute(_SELECT + f"WHERE id IN ({', '.join('?' * len(part))}) ORDER BY id", part).fetchall()
    return _records(catalogue.db, found)


def count(catalogue, most=-1):
    """How many marks are on record; counting stops at `most` (-1: never)."""
    return catalogue.db.execute("SELECT count(*) FROM (SELECT 1 FROM marks LIMIT ?)", (most,)).fetchone()[0]


def of_work(catalogue, work):
    """The Marks that are linked to a work, given by its key."""
    return some(catalogue, mark_index.linked(catalogue, [work]))


def _records(db, rows):
    """Marks from rows, with their works."""
    linked = {}
    numbers = [row["id"] for row in rows]
    for start in range(0, len(numbers), 500):
        part = numbers[start:start + 500]
        found = db.execute(
            "SELECT mark, works.key FROM mark_works JOIN works ON works.id = mark_works.work"
            f" WHERE mark IN ({', '.join('?' * len(part))}) ORDER BY works.id", part)
        for mark, key in found:
            linked.setdefault(mark, []).append(key)
    return [Mark(**_columns(row), works=tuple(linked.get(row["id"], ()))) for row in rows]


def _columns(row):
    """The columns of a mark or a search, with the classes as numbers."""
    return {name: tuple(json.loads(row[name])) if name == LIST else row[name] for name in row.keys()}


def _row(columns):
    return {name: canonical(sorted(set(value))) if name == LIST else value for name, value in columns.items()}


def _check(columns, new=True):
    if columns.keys() - set(COLUMNS):
        raise TypeError(f"A mark has no {columns.keys() - set(COLUMNS)}.")
    if new and not (columns.get("words", "").strip() or columns.get("note", "").strip() or columns.get("avoid", "").strip()):
        raise RegistryError("A mark needs its words, or for a picture or shape a note of what it shows.")
    if columns.get("state", "unknown") not in STATES:
        raise RegistryError(f"The state of the mark is '{columns['state']}'; allowed are {', '.join(STATES)}.")
    if columns.get("kind") and columns["kind"] not in KINDS:
        raise RegistryError(f"The kind of the mark is '{columns['kind']}'; allowed are {', '.join(KINDS)}.")
    office = columns.get("office")
    if office and office not in mark_rules().offices and office not in mark_rules().countries:
        raise RegistryError(f"The office is '{office}'; allowed are the codes of countries such as US, and"
                            f" {', '.join(sorted(set(mark_rules().offices) - mark_rules().countries))}.")
    for number in columns.get("classes", ()):
        if type(number) is not int or not 1 <= number <= 45:
            raise RegistryError(f"The class is {number!r}; Nice classes are whole numbers from 1 to 45.")
    for name in DAYS:
        if columns.get(name) is not None:
            days.read(name, columns[name])


def _in_order(columns):
    """Nothing; RegistryError when a mark would run out before it was filed or registered."""
    known = [(name, columns[name]) for name in ("filed", "registered", "expires") if columns.get(name)]
    for (early, first), (late, last) in zip(known, known[1:]):
        if edtf.day(last) < edtf.day(first):
            raise RegistryError(f"The mark is {early} {first} and {late} {last};"
                                " the days must stand in the order filed, registered, expires.")


# --- searches ---------------------------------------------------------------------------------------

@dataclass(frozen=True, slots=True)
class Search:
    """One search of a register: who looked, on what day, where, for which words and classes, and what came of it."""

    id: int
    at: str
    by: str
    place: str
    words: str
    classes: tuple
    result: str
    note: str


NIL = "nothing found"


def add_search(catalogue, place, words, *, by, at, classes=(), result=NIL, note=""):
    """The new Search; `place` is a code, a group or the name of a register. RegistryError names what is missing."""
    for name, value in (("where it was searched", place), ("the words searched for", words), ("who searched", by),
                        ("what was found", result)):
        if not value.strip():
            raise RegistryError(f"A search needs {name}.")
    if "," in place:
        raise RegistryError(f"'{place}' names several places; keep the search of each register by itself.")
    _check({"classes": tuple(classes)}, new=False)
    days.past("the day of the search", at)
    with transaction(catalogue) as db:
        number = db.execute('INSERT INTO mark_searches (at, "by", place, words, classes, result, note) VALUES (?, ?, ?, ?, ?, ?, ?)',
                            (at, by.strip(), place.strip(), words.strip(), canonical(sorted(set(classes))), result.strip(), note)).lastrowid
    return next(one for one in searches(catalogue) if one.id == number)


def searches(catalogue, places=(), words=()):
    """Searches, the newest first: those in some of these places (groups opened), and for some of these words."""
    rows = catalogue.db.execute(
        'SELECT id, at, "by", place, words, classes, result, note FROM mark_searches ORDER BY at DESC, id DESC')
    found = [Search(**_columns(row)) for row in rows.fetchall()]
    if places:
        found = [one for one in found if set(places) & set(_opened(catalogue, one.place))]
    wanted = {one.casefold() for one in words}
    return [one for one in found if not wanted or one.words.casefold() in wanted]


def _opened(catalogue, place):
    """Codes that the place of a search stands for; its own name when it is none."""
    try:
        return [place, *settings.opened(catalogue, [place])]
    except RegistryError:
        return [place]
