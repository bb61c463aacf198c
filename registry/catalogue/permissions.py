"""Permissions: licences, releases and purchases that cover a work, as they were given."""

import json
from dataclasses import dataclass

from registry.catalogue import days, files, places, settings, works
from registry.catalogue.canonical import canonical
from registry.catalogue.store import now, transaction
from registry.errors import RegistryError
from registry.rulebook import covered

KINDS = ("licence", "release", "purchase")


@dataclass(frozen=True, slots=True)
class Permission:
    """One permission: `places` are codes and groups, or ("world",); None where the document says nothing.

    `uses` and `media` are words such as goods, display, wood, cloth, any; the days are ISO text, both included.
    """

    id: int
    work: str
    kind: str
    licensor: str
    spdx: str | None
    uses: tuple
    places: tuple
    media: tuple
    quantity: int | None
    valid_from: str | None
    valid_to: str | None
    exclusive: bool | None
    commercial: bool | None
    changes_allowed: bool | None
    credit_line: str
    document: str | None
    note: str
    added_at: str


LISTS = ("uses", "places", "media")
YES_NO = ("exclusive", "commercial", "changes_allowed")
COLUMNS = tuple(name for name in Permission.__dataclass_fields__ if name not in ("id", "work", "kind", "added_at"))


def add(catalogue, work, kind, **columns):
    """The new Permission; `columns` are those of COLUMNS. RegistryError names what cannot be."""
    with transaction(catalogue) as db:
        _check(catalogue, kind, columns)
        if list(columns.get("places", ())) != ["world"]:
            columns["places"] = [code for name in columns.get("places", ()) for code in _kept(name)]
        row = {name: canonical(list(dict.fromkeys(value))) if name in LISTS else value for name, value in columns.items()}
        row = {"work": works.get(catalogue, work).id, "kind": kind, **row, "added_at": now()}
        blanks = ", ".join("?" * len(row))
        added = db.execute(f"INSERT INTO permissions ({', '.join(row)}) VALUES ({blanks})", tuple(row.values()))
        number = added.lastrowid
    return next(one for one in of_work(catalogue, work) if one.id == number)


def _kept(name):
    """A place as it is kept; "all" as the places that it stands for now, since those whose law is on file become more."""
    return covered() if name.strip().lower() == "all" else [places.written(name)]


def of_work(catalogue, work):
    """The Permissions that cover a work, in the order in which they were added."""
    names = ", ".join(f"permissions.{name}" for name in Permission.__dataclass_fields__ if name != "work")
    found = catalogue.db.execute(
        f"SELECT {names}, works.key AS work FROM permissions JOIN works ON works.id = permissions.work"
        " WHERE works.key = ? ORDER BY permissions.id",
        (work,),
    )
    return [Permission(**{name: _value(name, row[name]) for name in row.keys()}) for row in found]


def _value(name, stored):
    if name in LISTS:
        return tuple(json.loads(stored))
    return bool(stored) if name in YES_NO and stored is not None else stored


def _check(catalogue, kind, columns):
    if columns.keys() - set(COLUMNS):
        raise TypeError(f"A permission has no {columns.keys() - set(COLUMNS)}.")
    if kind not in KINDS:
        raise RegistryError(f"The kind of permission is '{kind}'; allowed are {', '.join(KINDS)}.")
    named = columns.get("places", ())
    if list(named) != ["world"]:
        settings.opened(catalogue, named)
    _check_term(columns)
    quantity = columns.get("quantity")
    if quantity is not None and not (type(quantity) is int and 0 < quantity < 2**53):
        raise RegistryError(f"The quantity is {quantity!r}; a whole number from 1 up is allowed, or none at all for no limit.")
    if columns.get("document"):
        files.get(catalogue, columns["document"])


def _check_term(columns):
    first, last = (days.read(name, columns[name]) if columns.get(name) is not None else None for name in ("valid_from", "valid_to"))
    if first is not None and last is not None and last < first:
        raise RegistryError(f"The last day is {columns['valid_to']}, before the first ({columns['valid_from']});"
                            " a permission that holds on no day permits nothing.")


def strange(one, rules):
    """Sentences on uses and media of a Permission that answers do not understand; they are kept, and cover nothing."""
    uses = {use for purpose in rules.purposes.values() for use in purpose["uses"]}
    for words, known, says in ((one.uses, uses, "use"), (one.media, rules.reading["medium"], "medium")):
        allowed = (*sorted(known), *rules.reading["anything"])
        for word in words:
            if word.casefold() not in allowed:
                yield (f"'{word}' is kept as the document says it, but no answer counts it as a {says};"
                       f" those that count are {', '.join(allowed)}.")
