"""Is the catalogue as it was recorded? The ledger's chain, every kept file, and the tables that must agree with it.

Whether the database is whole in itself, SQLite tells; what no row of the ledger stands for, nothing here can tell (BARE).
All is read in a stream. The first fault of each part names the entry; what was cut off at the end of the ledger is
found only with a digest that was noted elsewhere.
"""

import hashlib
import json
import os
import re
from contextlib import contextmanager
from dataclasses import dataclass

from registry.catalogue import chain, evidence, files, tables
from registry.catalogue.store import FILES, UNREADABLE, reason
from registry.errors import RegistryError

MANY = 20  # faults that are listed; all are counted
LARGE = 2**25  # bytes of a database of which the indexes are not compared with their tables too
COVERED = ("the ledger with its assessments, decisions and complaints", "the facts of the works", "the evidence", "the kept files")
BARE = ("what a work is based on, its originality, whether it is the shop's own, its traits, picture, access terms and notes",
        "permissions", "jobs and what they use", "marks and searches", "settings")  # what the ledger does not cover
BLOCK = 2**18
_DIGEST = re.compile(r"[0-9a-f]{64}\Z")


@dataclass(frozen=True, slots=True)
class Fault:
    """Something that is not as it was recorded: `part` is ledger, file, work, evidence, guard or database; `entry` says
    which."""

    part: str
    entry: str
    says: str


@dataclass(frozen=True, slots=True)
class Report:
    """What was looked at, and what was found: `first` faults in order (MANY at most), `faults` how many there are.

    `head` is the digest of the last row ("" when there is none), `noted` the row of the digest given, None when none
    was; `strays` are names of files that belong to no record.
    """

    rows: int
    head: str
    noted: int | None
    ledger_bytes: int
    files: int
    file_bytes: int
    works: int
    evidence: int
    faults: int
    first: tuple
    strays: tuple

    @property
    def whole(self):
        """True when nothing is at fault."""
        return not self.faults


class _Tally:
    """Counts faults and keeps the first ones."""

    def __init__(self):
        self.count, self.first = 0, []

    def add(self, part, entry, says):
        self.count += 1
        if len(self.first) < MANY:
            self.first.append(Fault(part, str(entry), says))


def head(catalogue):
    """(row, digest, moment) of the end of the ledger; (0, "", "") when it is empty."""
    found = catalogue.db.execute("SELECT seq, digest, at FROM ledger ORDER BY seq DESC LIMIT 1").fetchone()
    return tuple(found) if found else (0, "", "")


def verify(catalogue, noted=None):
    """The Report on a whole catalogue; `noted` is a head of the chain (64 hex digits) that was kept elsewhere.

    RegistryError when `noted` is no such digest.
    """
    noted = noted if noted is None else noted.strip().lower()
    if noted is not None and not _DIGEST.match(noted):
        raise RegistryError(f"'{noted}' is no head of a ledger; 64 hexadecimal digits are needed, as 'registry head' prints them.")
    with _still(catalogue.db):
        tally, db = _Tally(), catalogue.db
        found = _read(tally, "ledger", lambda: _ledger(db, noted, tally), chain.Walk(0, "", 0, None))
        number, total = _read(tally, "files", lambda: _files(catalogue, tally), (0, 0))
        works = _read(tally, "works", lambda: _works(db, tally), 0)
        proofs = _read(tally, "evidence", lambda: _evidence(catalogue, tally), 0)
        _read(tally, "guards", lambda: _guards(db, tally), None)
        _read(tally, "database", lambda: _database(db, tally), None)
        strays = _read(tally, "names of files", lambda: _strays(catalogue), ())
        return Report(found.rows, found.head, found.noted, found.size, number, total, works, proofs,
                      tally.count, tuple(tally.first), tuple(strays))


def _read(tally, what, function, otherwise):
    """What a function returns; `otherwise` where the pages of the database that it reads are damaged, which is a fault."""
    try:
        return function()
    except UNREADABLE as error:
        tally.add("database", what, f"The {what} cannot be read to the end: {reason(error)}.")
        return otherwise


@contextmanager
def _still(db):
    """One state of the database for all that is read, whoever writes meanwhile; text that is none is read all the same."""
    begun, before = not db.in_transaction, db.text_factory
    db.text_factory = lambda content: content.decode("utf-8", "replace")
    if begun:
        db.execute("BEGIN")
    try:
        yield
    finally:
        db.text_factory = before
        if begun:
            db.execute("ROLLBACK")


def _ledger(db, noted, tally):
    found = chain.walk(db, lambda entry, says: tally.add("ledger", entry, says), noted)
    if noted is not None and found.noted is None:
        tally.add("ledger", "head", "The ledger does not hold the digest that was noted; rows were removed or replaced.")
    return found


def _files(catalogue, tally):
    """(files, bytes) that were read; each is compared with the digest that is its name."""
    number, total, block = 0, 0, bytearray(BLOCK)
    cursor = catalogue.db.cursor()
    cursor.row_factory = None
    for sha256, size in cursor.execute("SELECT sha256, bytes FROM files ORDER BY sha256"):
        number += 1
        try:
            found, length = _digest(files.path_of(catalogue, sha256), block)
        except (OSError, RegistryError) as error:
            tally.add("file", sha256, f"The kept file {sha256} cannot be read: {getattr(error, 'strerror', error)}.")
            continue
        total += length
        if found != sha256 or length != size:
            tally.add("file", sha256, f"The kept file {sha256} was changed on disk.")
    return number, total


def _digest(path, block):
    whole, length, view = hashlib.sha256(), 0, memoryview(block)
    with open(path, "rb", buffering=0) as file:
        while read := file.readinto(block):
            whole.update(view[:read])
            length += read
    return whole.hexdigest(), length


_FACTS = """SELECT key, CAST(facts AS BLOB), facts_sha256,
    (SELECT CASE WHEN json_valid(body) THEN json_extract(body, '$.after') END FROM ledger
     WHERE kind = 'facts' AND subject = works.key ORDER BY seq DESC LIMIT 1)
FROM works ORDER BY id"""
_GONE = "SELECT DISTINCT subject FROM ledger WHERE kind = 'facts' AND subject NOT IN (SELECT key FROM works)"


def _works(db, tally):
    """How many works there are; their facts must be those that the ledger noted last."""
    number = 0
    for key, facts, sha256, noted in db.execute(_FACTS):
        number += 1
        if facts is None or not hashlib.sha256(facts).hexdigest() == sha256 == noted:
            tally.add("work", key, f"The facts of the work {key} are not those that the ledger noted last.")
    for (key,) in db.execute(_GONE):
        tally.add("work", key, f"The work {key} is in the ledger and no longer among the works.")
    return number


def _evidence(catalogue, tally):
    """How many pieces of evidence there are; each must be as the ledger noted it."""
    number, noted = 0, catalogue.db.execute("SELECT count(*) FROM ledger WHERE kind = 'evidence'").fetchone()[0]
    for seq, text in catalogue.db.execute("SELECT seq, body FROM ledger WHERE kind = 'evidence' ORDER BY seq"):
        number += 1
        try:
            kept = json.loads(text)
            now = evidence.body(evidence.get(catalogue, kept["id"]))
        except (ValueError, TypeError, LookupError, OverflowError, RegistryError):
            tally.add("evidence", f"row {seq}", f"The evidence in row {seq} of the ledger is not in its table.")
            continue
        if any(now.get(name) != value for name, value in kept.items()):
            tally.add("evidence", f"e{kept['id']}", f"The evidence e{kept['id']} is not as the ledger noted it in row {seq}.")
    if catalogue.db.execute("SELECT count(*) FROM evidence").fetchone()[0] > noted:
        tally.add("evidence", "table", "There is evidence in its table that the ledger never noted.")
    return number


def _guards(db, tally):
    """The triggers that refuse changes of the ledger must be there as they were made."""
    there = {row[0]: row[1] for row in db.execute("SELECT name, sql FROM sqlite_master WHERE type = 'trigger'")}
    for text in tables.LEDGER:
        if text.startswith("CREATE TRIGGER "):
            name = text.split()[2]
            if there.get(name) != text:
                tally.add("guard", name, f"The trigger {name}, which keeps the ledger from being changed, is missing or was altered.")


def _database(db, tally):
    """SQLite's own check that each page is whole, and that no row names another that is not there."""
    (size,) = db.execute("SELECT page_count * page_size FROM pragma_page_count, pragma_page_size").fetchone()
    for (says,) in db.execute("PRAGMA quick_check" if size > LARGE else "PRAGMA integrity_check"):
        if says != "ok":
            tally.add("database", "pages", f"The database is damaged: {' '.join(says.split())}.")
    for table, row, other, _key in db.execute("PRAGMA foreign_key_check"):
        tally.add("database", f"{table} {row}", f"Row {row} of the table {table} names a row of {other} that is not there.")


def _strays(catalogue):
    """Names of files that are kept under no record, MANY at most; they do no harm."""
    found = []
    for folder in sorted(os.scandir(catalogue.folder / FILES), key=lambda one: one.name) if (catalogue.folder / FILES).is_dir() else ():
        names = [f"{folder.name}/{one.name}" for one in os.scandir(folder)] if folder.is_dir() else [folder.name]
        found += [name for name in names if not _known(catalogue, name)]
        if len(found) >= MANY:
            break
    return sorted(found)[:MANY]


def _known(catalogue, name):
    return catalogue.db.execute("SELECT 1 FROM files WHERE sha256 = ?", (name.rpartition("/")[2],)).fetchone() is not None
