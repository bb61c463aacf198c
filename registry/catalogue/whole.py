"""Files and folders that appear whole or not at all, and never in the place of a catalogue.

What is being written stands in a folder that this run makes beside its target, under a name that nobody else has. It
takes its own name when all of it is there; nothing but that folder is ever removed.
"""

import os
import shutil
import sqlite3
import tempfile
from contextlib import closing, contextmanager
from pathlib import Path

from registry.catalogue import schema
from registry.errors import RegistryError

DATABASE, FILES, COPIES = "catalogue.db", "files", "backups"  # what a catalogue keeps in its folder
NAMES = {DATABASE + ending for ending in ("", "-wal", "-shm", "-journal")}  # with what SQLite keeps beside it


@contextmanager
def made(target, what):
    """The path of nothing yet: what the block puts there, a file or a folder, is named `target` when the block is through.

    A file that is there is replaced. RegistryError when `target` names nothing that can be written or belongs to a
    catalogue, and when it could not be written; `what` begins that sentence, such as "The backup".
    """
    path = named(target)
    try:
        with room(path) as beside:
            yield beside
    except (OSError, sqlite3.Error) as error:
        reason = getattr(error, "strerror", None) or error
        raise RegistryError(f"{what} could not be written to {str(target)[:200]}: {reason}.") from None


@contextmanager
def room(path):
    """As `made`, for a path that was looked at: the errors are those of the system and of SQLite."""
    held = Path(tempfile.mkdtemp(prefix=f".{path.name[:40]}-", suffix=".new", dir=path.parent))
    ready = held / path.name
    try:
        yield ready
        if ready.is_dir() and path.is_dir():
            path.rmdir()  # which fails when it is not empty
        ready.replace(path)
    finally:
        shutil.rmtree(held, ignore_errors=True)


@contextmanager
def folder(target, what):
    """The path of a new, empty folder, which is named `target` when the block is through; that must be new, or empty.

    RegistryError as from `made`, and when there is something at `target` already.
    """
    path = named(target)
    try:
        if path.exists() and (not path.is_dir() or any(path.iterdir())):
            raise RegistryError(f"{target} is there already and not empty; name a new folder.")
        path.parent.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise RegistryError(f"{what} could not be written to {str(target)[:200]}: {error.strerror}.") from None
    with made(path, what) as beside:
        beside.mkdir()
        yield beside


def write(target, content, what):
    """Nothing; puts bytes into a file, whole or not at all, in place of one that is there. RegistryError as from `made`."""
    with made(target, what) as path, open(path, "wb") as file:
        file.write(content)
        file.flush()
        os.fsync(file.fileno())


# --- where nothing may be written -----------------------------------------------------------------------

def named(target):
    """The real path of a file or folder that may be written; RegistryError when its name says none, or it belongs to a
    catalogue."""
    if Path(target).name in ("", ".."):
        raise RegistryError(f"'{target}' is not the name of something new; name a file or folder to write.")
    path = Path(os.path.realpath(target))
    if _of_catalogue(path):
        raise RegistryError(f"{target} belongs to a catalogue and is not written over; name another.")
    return path


def _of_catalogue(path):
    """True for the database of a catalogue, wherever it lies, and for all that is kept beside it."""
    beside = path.name in NAMES and (path.parent / DATABASE).is_file()
    return beside or _is_catalogue(path) or any(
        _within(path, place) and (place / DATABASE).is_file() for place in path.parents)


def _within(path, place):
    return path.relative_to(place).parts[0] in (FILES, COPIES)


def _is_catalogue(path):
    """True for a database with the tables of a catalogue, whatever its name."""
    try:
        if not path.is_file() or path.stat().st_size == 0:
            return False
        with closing(sqlite3.connect(f"{path.as_uri()}?mode=ro&immutable=1", uri=True)) as db:
            return schema.applied(db) is not None
    except (OSError, sqlite3.Error, ValueError):
        return False
