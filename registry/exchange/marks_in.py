"""Marks from a table: every row is checked first, and all are recorded or none."""

import csv

from registry.catalogue import marks, mark_index
from registry.catalogue.store import transaction
from registry.errors import RegistryError
from registry.exchange import table_in

ALSO = ("works",)
LISTS = "the columns are " + ", ".join((*marks.COLUMNS, *ALSO))
MOST = 64 * 2**20  # bytes


def read(path):
    """Rows of a CSV file (a header line; comma, semicolon or tab): pairs of line number and columns as text.

    RegistryError names the line and the column that cannot be.
    """
    try:
        with open(path, "rb") as file:
            content = file.read(MOST + 1)
    except OSError as error:
        raise RegistryError(f"The file {path} cannot be read: {error.strerror}.") from None
    return rows(content, path)


def rows(content, name):
    """As `read`, of the bytes of a table; `name` is what the sentences call it."""
    try:
        text = table_in.text_of(content, MOST)
    except RegistryError as error:
        raise RegistryError(f"{name}: {error}") from None
    return _rows(text, name)


def _rows(text, path):
    first = text.partition("\n")[0]
    reader = csv.DictReader(text.splitlines(keepends=True), delimiter=max(",;\t", key=first.count), strict=True)
    names = [(name or "").strip().lower().replace(" ", "_") for name in reader.fieldnames or ()]
    if not names or not any(names):
        raise RegistryError(f"The file {path} has no header line; {LISTS}.")
    for name in names:
        if name not in marks.COLUMNS and name not in ALSO:
            raise RegistryError(f"{path}, line 1: there is no column '{name}' in a table of marks; {LISTS}.")
    if len(set(names)) < len(names):
        raise RegistryError(f"{path}, line 1: a column stands there twice.")
    reader.fieldnames = names
    found = []
    try:
        for row in reader:
            if None in row:
                raise RegistryError(f"{path}, line {reader.line_num}: there are more cells than columns.")
            if any((value or "").strip() for value in row.values()):
                found.append((reader.line_num, row))
    except csv.Error as error:
        raise RegistryError(f"{path}, line {reader.line_num}: the table cannot be read ({error}).") from None
    return found


def record(catalogue, path, dry=False):
    """How many marks were recorded from a table; none when a row cannot be, whose line is then named. `dry` keeps none."""
    return record_rows(catalogue, read(path), path, dry)


def record_rows(catalogue, found, name, dry=False):
    """As `record`, of rows from `read` or `rows`; `name` is what the sentences call the table."""
    for line, error in problems(catalogue, found, keep=not dry):
        raise type(error)(f"{name}, line {line}: {error}") from None
    return len(found)


def problems(catalogue, found, keep=False):
    """(line, RegistryError) of every row that cannot be recorded; `keep` records all rows when there is no such row."""
    wrong = []
    try:
        with transaction(catalogue):
            for line, row in found:
                try:
                    with transaction(catalogue):  # a part that can fail alone
                        columns, works = _columns(row)
                        marks.insert(catalogue, works, **columns)
                except RegistryError as error:
                    wrong.append((line, error))
            if wrong or not keep:
                raise _Dry
            mark_index.file_all(catalogue)
    except _Dry:
        pass
    return wrong


class _Dry(Exception):
    """Undoes a trial run."""


def _columns(row):
    """(columns of a mark, keys of works) of one row; empty cells are left out."""
    given = {name: value.strip() for name, value in row.items() if value and value.strip()}
    works = given.pop("works", "").replace(",", " ").replace(";", " ").split()
    if "classes" in given:
        parts = given["classes"].replace(",", " ").replace(";", " ").split()
        bad = [part for part in parts if not (part.isascii() and part.isdigit())]
        if bad:
            raise RegistryError(f"column classes: '{bad[0]}' is no Nice class; whole numbers from 1 to 45 are allowed.")
        given["classes"] = [int(part) for part in parts]
    for name in ("office",):
        if name in given:
            given[name] = given[name].upper()
    if "state" in given:
        given["state"] = given["state"].lower()
    return given, works
