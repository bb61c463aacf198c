"""The ledger: what was computed, changed and decided, added to and never altered, in one chain of digests.

The digest of a row is the SHA-256 of the canonical JSON of {seq, at, kind, subject, body, previous}, where
`previous` is the digest of the row before ("" for the first). A change of any row breaks the chain behind it.
"""

import json
from dataclasses import dataclass

from registry.catalogue import chain
from registry.catalogue.canonical import canonical, digest
from registry.catalogue.store import now, transaction


@dataclass(frozen=True, slots=True)
class Row:
    """One row of the ledger; `body` is the object that was recorded."""

    seq: int
    at: str
    kind: str
    subject: str
    body: dict
    previous: str
    digest: str


@dataclass(frozen=True, slots=True)
class Chain:
    """What a check of the whole ledger found: how many rows, the last digest, one sentence for each fault."""

    rows: int
    head: str
    faults: tuple


def append(catalogue, kind, subject, body):
    """The new last Row; it is written in the caller's transaction or in one of its own."""
    with transaction(catalogue) as db:
        last = db.execute("SELECT seq, digest FROM ledger ORDER BY seq DESC LIMIT 1").fetchone()
        seq, previous = (last[0] + 1, last[1]) if last else (1, "")
        at = now()
        row = Row(seq, at, kind, subject, body, previous, _digest(seq, at, kind, subject, body, previous))
        db.execute(
            "INSERT INTO ledger (seq, at, kind, subject, body, previous, digest) VALUES (?, ?, ?, ?, ?, ?, ?)",
            (seq, at, kind, subject, canonical(body), previous, row.digest),
        )
    return row


def _digest(seq, at, kind, subject, body, previous):
    return digest({"seq": seq, "at": at, "kind": kind, "subject": subject, "body": body, "previous": previous})


def rows(catalogue, kind=None, subject=None):
    """The Rows of a kind and a subject (None: of any), oldest first."""
    wanted = [(name, value) for name, value in (("kind", kind), ("subject", subject)) if value is not None]
    tests = " AND ".join(f"{name} = ?" for name, _value in wanted)  # so that the index over kind and subject is used
    where = f" WHERE {tests}" if tests else ""
    found = catalogue.db.execute(f"SELECT * FROM ledger{where} ORDER BY seq", [value for _name, value in wanted])
    return [_row(each) for each in found]


def newest(catalogue, kind, subject, **body):
    """The newest Row of a kind and a subject whose body has these values; None when there is none."""
    tests = "".join(f" AND json_extract(body, '$.{name}') IS ?" for name in body)
    found = catalogue.db.execute(
        f"SELECT * FROM ledger WHERE kind = ? AND subject = ?{tests} ORDER BY seq DESC LIMIT 1",
        (kind, subject, *body.values()),
    ).fetchone()
    return _row(found) if found else None


def latest(catalogue, kind):
    """The newest Row of that kind of each subject, in the order of the ledger."""
    found = catalogue.db.execute(
        "SELECT ledger.* FROM ledger"
        " JOIN (SELECT max(seq) AS seq FROM ledger WHERE kind = ? GROUP BY subject) AS last ON last.seq = ledger.seq"
        " ORDER BY ledger.seq", (kind,))
    return [_row(one) for one in found.fetchall()]


def _row(found):
    seq, at, kind, subject, body, previous, digest_ = found
    return Row(seq, at, kind, subject, json.loads(body), previous, digest_)


def verify(catalogue, head=None):
    """The Chain as it stands: each row is reckoned anew and compared with what is stored (all else: `verify.verify`).

    Rows cut off at the end leave a chain that is whole in itself; they are found only when the last digest,
    noted elsewhere, is given as `head`.
    """
    faults = []
    found = chain.walk(catalogue.db, lambda _entry, says: faults.append(says), head)
    if head is not None and found.noted is None and head != found.head:
        faults.append("The ledger does not hold the digest that was noted; rows were removed or replaced.")
    return Chain(found.rows, found.head, tuple(faults))
