"""Works out of the catalogue: a CSV table that can be read in again, or one facts object a line.

The table has the columns that table_in.py knows, those alone that some work fills; the lines have the same beside the
facts (fact_lines.py), and 'registry assess' reads them. In both a version stands below the one it is based on. Pictures
stay out of both, notes on traits out of the table: `left_out` says so.
"""

import csv
import json

from registry.catalogue import works
from registry.exchange.fact_lines import BESIDE, joined
from registry.exchange.parted import escaped
from registry.facts.work import UNKNOWN

OWNERS = {"creators": "creator", "publications": "publication"}
SILENT = {"creators": "name", "publications": "date"}  # what says that there is one of whom nothing is known
MANY = 10  # works that are named in one sentence
PAGE = 500  # works read at a time


def lines(catalogue):
    """Yields one JSON text for each work: its facts object, with its key as id, and beside it what else is on record."""
    for record in _in_order(catalogue):
        yield json.dumps(joined(record), ensure_ascii=False, sort_keys=True)


def left_out(catalogue, table):
    """Sentences about what is on record of the works and stands neither in a table (when `table` is true) nor in lines."""
    pictures = [record.key for record in _records(catalogue) if record.picture]
    notes = [record.key for record in _records(catalogue) if any(note for _name, note in record.traits)] if table else []
    return [f"{what} {', '.join(keys[:MANY])}{f' and {len(keys) - MANY} more' if keys[MANY:] else ''} did not go with it."
            for what, keys in (("The pictures of", pictures), ("The notes on traits of", notes)) if keys]


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
    traits = [escaped(name, ";") for name, _note in record.traits]
    cells = {"key": record.key, "based_on": record.based_on,
             "originality": record.originality if record.originality != "unknown" else None,
             "own": "yes" if record.own else None, "traits": "; ".join(traits),
             "access_terms": record.access_terms, "notes": record.notes}
    for name, value in record.facts.items():
        if name in OWNERS:
            for number, one in enumerate(value, 1):
                told = {inner: text for inner, given in one.items() if (text := _text(given))} or {SILENT[name]: UNKNOWN}
                cells |= {f"{OWNERS[name]}{number}.{inner}": text for inner, text in told.items()}
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
