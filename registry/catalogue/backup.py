"""Backups of a catalogue in use: the database by SQLite's own way, every kept file, and a list with the digest of each.

A backup is a folder with catalogue.db, files/ and backup.json. The digest of backup.json stands for all of it.
"""

import hashlib
import json
import os
import re
import sqlite3
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path

from registry.catalogue import schema, whole
from registry.catalogue.whole import COPIES, DATABASE, FILES
from registry.errors import RegistryError

LIST = "backup.json"
BLOCK = 2**18


@dataclass(frozen=True, slots=True)
class Backup:
    """What was kept or brought back: the folder, rows and head of the ledger, files and their bytes, digest of backup.json."""

    folder: Path
    rows: int
    head: str
    files: int
    bytes: int
    seal: str


def backup(catalogue, folder, moment):
    """The Backup of a catalogue in a new folder, whoever writes meanwhile; `moment` is when it is made.

    RegistryError when the folder is there already and not empty, when a kept file is missing or was changed, or when
    it cannot be written; nothing half-written stays.
    """
    with whole.folder(folder, "The backup") as beside:
        found = _keep(catalogue, beside, moment)
    return Backup(Path(folder), *found)


def _keep(catalogue, beside, moment):
    (beside / FILES).mkdir()
    copy_database(catalogue.db, beside / DATABASE)
    with closing(sqlite3.connect(f"{(beside / DATABASE).absolute().as_uri()}?mode=ro&immutable=1", uri=True)) as db:
        kept = dict(db.execute("SELECT sha256, bytes FROM files ORDER BY sha256"))
        rows, head = _end(db)
        steps = schema.applied(db)
    for sha256 in kept:
        _copied(catalogue.folder / FILES / sha256[:2] / sha256, beside / FILES / sha256[:2] / sha256, sha256,
                f"The kept file {sha256}", "'registry verify' names all that were")
    told = {"made_at": moment, "rows": rows, "head": head, "steps": steps, "database": _digest(beside / DATABASE), "files": kept}
    text = json.dumps(told, indent=1, sort_keys=True) + "\n"
    (beside / LIST).write_text(text, encoding="utf-8")
    return rows, head, len(kept), sum(kept.values()), hashlib.sha256(text.encode("utf-8")).hexdigest()


def copy_database(db, path):
    """Nothing; copies an open database to a file by SQLite's backup, one state of it, also while others write."""
    with closing(sqlite3.connect(path)) as target:
        db.backup(target)
        target.execute("PRAGMA journal_mode = delete")  # one file, also while it is looked at
    with open(path, "rb") as file:
        os.fsync(file.fileno())


def _end(db):
    return db.execute("SELECT count(*), coalesce((SELECT digest FROM ledger ORDER BY seq DESC LIMIT 1), '') FROM ledger").fetchone()


def _copied(source, target, sha256, name, advice):
    """Copies a file and reckons its digest on the way; RegistryError, which ends with the advice, when it is missing or
    another one."""
    target.parent.mkdir(exist_ok=True)
    found = hashlib.sha256()
    try:
        with open(source, "rb") as file, open(target, "wb") as out:
            while block := file.read(BLOCK):
                found.update(block)
                out.write(block)
    except FileNotFoundError:
        raise RegistryError(f"{name} is missing; {advice}.") from None
    if found.hexdigest() != sha256:
        raise RegistryError(f"{name} was changed; {advice}.")


def _digest(path):
    with open(path, "rb") as file:
        return hashlib.file_digest(file, "sha256").hexdigest()


# --- bringing back ---------------------------------------------------------------------------------------

def restore(source, folder):
    """The Backup that was brought back from a folder into a new one; every byte is compared with its digest.

    RegistryError when it is no backup, when anything in it was changed or is missing, when a newer program made it,
    or when the folder is there already.
    """
    source = Path(source)
    told, seal = _list(source)
    newer = [name for name in told["steps"] if name not in schema.STEPS]
    if newer:
        raise RegistryError(f"The backup in {source} was made by a newer version of this program (it has the step {newer[0]}).")
    with whole.folder(folder, "The catalogue") as beside:
        found = _bring(source, beside, told, seal)
    return Backup(Path(folder), *found)


def _list(source):
    """(what the list of a backup tells, the digest of the list); RegistryError when it is none."""
    path = source / LIST
    try:
        content = path.read_bytes()
        told = json.loads(content)
        if any(type(told[name]) is not kind for name, kind in TOLD.items()) or not _plain(told["steps"], told["files"]):
            raise ValueError
    except FileNotFoundError:
        raise RegistryError(f"There is no backup in {source}: {LIST} is missing.") from None
    except (OSError, ValueError, LookupError, TypeError, RecursionError):
        raise RegistryError(f"{path} is no list of a backup.") from None
    return told, hashlib.sha256(content).hexdigest()


def _plain(steps, kept):
    """True when steps are names, and files digests with their sizes, so that none leads out of the folder."""
    return (all(isinstance(name, str) for name in steps)
            and all(_DIGEST.match(name) and type(size) is int for name, size in kept.items()))


TOLD = {"rows": int, "head": str, "steps": list, "database": str, "files": dict}  # what is read of a list
_DIGEST = re.compile(r"[0-9a-f]{64}\Z")


def _bring(source, beside, told, seal):
    (beside / FILES).mkdir()
    advice = f"the backup in {source} is no longer what was kept, so nothing was brought back; use another backup"
    _copied(source / DATABASE, beside / DATABASE, told["database"], f"{DATABASE} in the backup", advice)
    for sha256 in told["files"]:
        _copied(source / FILES / sha256[:2] / sha256, beside / FILES / sha256[:2] / sha256, sha256,
                f"The file {sha256} in the backup", advice)
    with closing(sqlite3.connect(beside / DATABASE)) as db:
        rows, head = _end(db)
        kept = dict(db.execute("SELECT sha256, bytes FROM files"))
        if (rows, head, kept) != (told["rows"], told["head"], told["files"]):
            raise RegistryError(f"The backup in {source} does not hold what its list says.")
        db.execute("PRAGMA journal_mode = wal")
    return rows, head, len(kept), sum(kept.values()), seal


# --- before the tables change ------------------------------------------------------------------------------

def before_steps(folder, db, pending, moment):
    """The path of a dated copy of the database, made before it gets new tables or columns; the files stay as they are."""
    copies = Path(folder) / COPIES
    copies.mkdir(exist_ok=True)
    stamp = moment.replace(":", "").replace("-", "")
    path = copies / f"{stamp}-before-{pending}.db"
    number = 1
    while path.exists():
        number += 1
        path = copies / f"{stamp}-before-{pending}-{number}.db"
    beside = path.with_name(path.name + ".new")
    copy_database(db, beside)
    beside.rename(path)
    return path
