"""Works from a table or from lines of facts into the catalogue: all of them, or none."""

from pathlib import Path

from registry.catalogue import keys, works
from registry.catalogue.store import transaction
from registry.errors import RegistryError
from registry.exchange import fact_lines, table_in
from registry.facts import json_values
from registry.facts.work import read_work
from registry.rulebook import rulebook

LINES = (".jsonl", ".ndjson")
MANY = 10  # bad cells that are named in one sentence


def read(catalogue, path):
    """The table_in.Table in a file: a CSV table, or one facts object a line when its name ends in .jsonl.

    RegistryError when the file cannot be read as that at all; bad cells are in the Table.
    """
    path = Path(path)
    try:
        content = path.read_bytes()
    except OSError as error:
        raise RegistryError(f"The file {path} cannot be read: {error.strerror}.") from None
    known = {row[0] for row in catalogue.db.execute("SELECT key FROM works")}
    if path.suffix.lower() in LINES:
        return _lines(content, known)
    return table_in.read_table(content, rulebook().vocabulary, known)


def add(catalogue, table, rest=False, without=False):
    """The WorkRecords that were added: of all rows, or none; with `rest` of those in which nothing is wrong.

    A table with columns that are not understood is refused, unless it is to be kept `without` them.

    RegistryError names the line, column and value of what cannot be.
    """
    if table.lost and not without:
        raise RegistryError(f"Columns that are not understood: {', '.join(table.lost)}. Rename them, take them out, or say"
                            " that the table is to be kept without them (--without). Nothing was added.")
    if table.wrong and not rest:
        raise RegistryError(f"{_told(table.wrong)} Nothing was added.")
    with transaction(catalogue):
        return [_add(catalogue, row) for row in table.rows if not row.wrong]


def _add(catalogue, row):
    columns = {name: value for name, value in row.beside.items() if name not in ("key", "traits")}
    try:
        return works.add(catalogue, row.facts, key=row.beside.get("key"), traits=row.beside.get("traits", ()), **columns)
    except RegistryError as error:
        raise RegistryError(f"Line {row.line} of the table: {error} Nothing was added.") from None


def said(cell):
    """One sentence on a bad cell: line, column, what was typed, what is allowed."""
    where = f"line {cell.line}" + (f", column {cell.column}" if cell.column else "")
    return f"{where[:1].upper()}{where[1:]}{f', “{cell.typed}”' if cell.typed else ''}: {cell.says}"


def _told(cells):
    return " ".join(map(said, cells[:MANY])) + (f" And {len(cells) - MANY} more." if len(cells) > MANY else "")


# --- one facts object a line, with what stands beside it ----------------------------------------------

def _lines(content, known):
    rows, taken = [], set(known)
    for number, line in enumerate(content.split(b"\n"), 1):
        if line.strip():
            rows.append(_row(number, line, taken))
    if not rows:
        raise RegistryError("The file holds no facts; one JSON object a line is needed.")
    return table_in.Table((), table_in.based(rows, known))


def _row(number, line, taken):
    """The row of one line; its id becomes the key."""
    try:
        facts, beside = fact_lines.parted(json_values.read(line, "column {column}"))
        read_work(facts, rulebook().vocabulary)
        works.check(facts, any(name != "traits" or value for name, value in beside.items()))
        key = facts.get("id")
        if key:
            keys.check("work", key)
        if key in taken:
            raise RegistryError(f"There is a work '{key}' already; give another id, or none.")
    except RegistryError as error:
        return table_in.Row(number, {}, {}, (table_in.Cell(number, "", "", str(error)),))
    if key:
        taken.add(key)
    return table_in.Row(number, facts, {"key": key, **beside} if key else beside)
