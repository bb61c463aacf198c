"""Works out of the catalogue: a CSV table that can be read in again, or one facts object a line.

The lines are what `registry assess` reads. The table has the columns that table_in.py knows, those alone that some
work fills; a version stands below the one it is based on. Notes on traits and pictures stay out of the table.
"""

import csv
import json

from registry.catalogue import works
from registry.exchange.table_in import BESIDE

OWNERS = {"creators": "creator", "publications": "publication"}
PAGE = 500  # works read at a time


def lines(catalogue):
    """Yields one JSON text for each work: its facts object, with its key as id."""
    for record in _records(catalogue):
        yield json.dumps(record.facts, ensure_ascii=False, sort_keys=True)


def table(catalogue, out):
    """How many works were written to a text stream as CSV (RFC 4180)."""
    columns, count = _columns(catalogue), 0
    writer = csv.DictWriter(out, columns, restval="")
    writer.writeheader()
    for record in _in_order(catalogue):
        writer.writerow(flat(record))
        count += 1
    return count


def flat(record):
    """The cells of a work by column, without empty ones."""
    cells = {"key": record.key, "based_on": record.based_on,
             "originality": record.originality if record.originality != "unknown" else None,
             "own": "yes" if record.own else None, "traits": "; ".join(name for name, _note in record.traits),
             "access_terms": record.access_terms, "notes": record.notes}
    for name, value in record.facts.items():
        if name in OWNERS:
            for number, one in enumerate(value, 1):
                cells |= {f"{OWNERS[name]}{number}.{inner}": _text(given) for inner, given in one.items()}
        elif name != "id":
            cells[name] = _text(value)
    return {name: text for name, text in cells.items() if text}


def _text(value):
    if isinstance(value, bool):
        return "yes" if value else "no"
    return "; ".join(map(str, value)) if isinstance(value, list) else str(value)


def _columns(catalogue):
    """The columns that some work fills: what stands beside the facts, facts of the work, makers, publications."""
    found = {name for record in _records(catalogue) for name in flat(record)}
    return sorted(found, key=lambda name: (name not in BESIDE, "." in name, *_numbered(name)))


def _numbered(name):
    owner, _, fact = name.partition(".")
    number = owner.lstrip("abcdefghijklmnopqrstuvwxyz_")
    if fact and number.isdigit():
        return owner.rstrip("0123456789"), int(number), fact
    return "", 0, name if name not in BESIDE else str(BESIDE.index(name))


def _records(catalogue):
    start = 0
    while page := works.listed(catalogue, PAGE, start):
        yield from page
        start += len(page)


def _in_order(catalogue):
    """WorkRecords, every version below the one it is based on."""
    done = set()
    for record in _records(catalogue):
        line = [record, *works.beneath(catalogue, record)] if record.based_on else [record]
        for one in reversed(line):
            if one.key not in done:
                done.add(one.key)
                yield one
