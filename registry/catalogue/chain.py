"""A check of the ledger's chain, row by row in a stream: memory stays flat, and speed near that of the digest itself.

The text that a row's digest was made over is put together from the stored bytes, without reading the JSON in it: the
body stands in it as it is stored. No other columns give the same text, since the quotation marks in them are escaped.
A row whose digest differs is looked at once more from its decoded columns, and only then called changed.
"""

import hashlib
import json
from dataclasses import dataclass

from registry.catalogue.canonical import canonical, digest
from registry.errors import RegistryError

COLUMNS = ("at", "body", "kind", "previous", "subject", "digest")
_ROWS = "SELECT seq, " + ", ".join(f"ifnull(CAST({name} AS BLOB), x'00')" for name in COLUMNS) + " FROM ledger"  # NULL: damaged
_TEXT = b'{"at":%b,"body":%b,"kind":%b,"previous":"%b","seq":%d,"subject":%b}'
KEPT = 5000  # quoted fields that are remembered


@dataclass(frozen=True, slots=True)
class Walk:
    """What was walked: how many rows, the last digest ("" when there is none), the bytes that were digested, and the
    number of the row with the digest that was looked for (None when there is none)."""

    rows: int
    head: str
    size: int
    noted: int | None


def walk(db, fault, noted=None):
    """The Walk through the ledger; calls `fault(entry, sentence)` for each fault, with the number of the row at fault."""
    rows, size, expected, last, at = 0, 0, 1, b"", None
    wanted, sha256 = (noted or "").encode(), hashlib.sha256
    for seq, previous, stored, text in texts(db):
        rows += 1
        size += len(text)
        if sha256(text).hexdigest().encode() != stored or seq != expected or previous != last:
            for entry, says in _faults(db, seq, expected, last):
                fault(entry, says)
        if stored == wanted:
            at = seq
        if seq >= expected:  # a row moved to the front is a fault of its own; the others are counted on
            expected, last = seq + 1, stored
    return Walk(rows, last.decode("ascii", "replace"), size, at)


def texts(db):
    """Yields (number, previous, digest, text that this should be the digest of) for every row in order, as stored bytes."""
    cursor, known = db.cursor(), {}
    cursor.row_factory = None
    for seq, at, body, kind, previous, subject, stored in cursor.execute(_ROWS + " ORDER BY seq"):
        if len(known) > KEPT:
            known.clear()
        yield seq, previous, stored, _TEXT % (known.get(at) or _quoted(at, known), body, known.get(kind) or _quoted(kind, known),
                                              previous, seq, known.get(subject) or _quoted(subject, known))


def _quoted(field, known):
    """The field as a JSON text; as it is when it is no UTF-8, which no digest fits."""
    try:
        found = known[field] = json.dumps(field.decode("utf-8"), ensure_ascii=False).encode("utf-8")
    except UnicodeDecodeError:
        return b'"%b"' % field
    return found


def _faults(db, seq, expected, last):
    cursor = db.cursor()
    cursor.row_factory = None
    _seq, *parts = cursor.execute(_ROWS + " WHERE seq = ?", (seq,)).fetchone()
    if seq > expected:
        yield expected, f"Row {seq} of the ledger stands where row {expected} should; rows are missing."
    elif seq < expected:
        yield seq, f"Row {seq} of the ledger stands where row {expected} should; it was moved."
    if not _right(seq, parts):
        yield seq, f"Row {seq} of the ledger was changed after it was written."
    if parts[3] != last and seq >= expected:
        yield seq, f"Row {seq} of the ledger does not name the digest of the row before it."


def _right(seq, parts):
    """True when a row, read whole, has the digest that it names and is written in the one form allowed."""
    try:
        at, body, kind, previous, subject, stored = (part.decode("utf-8") for part in parts)
        value = json.loads(body)
        return canonical(value) == body and stored == digest(
            {"seq": seq, "at": at, "kind": kind, "subject": subject, "body": value, "previous": previous})
    except (ValueError, RegistryError):
        return False
