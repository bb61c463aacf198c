"""One catalogue: a folder with catalogue.db and files/. Opens, makes, and writes all or nothing.

The clock of the package is here (`now`, `today`); the law and the facts never ask it.
"""

import sqlite3
from contextlib import contextmanager
from dataclasses import dataclass, field
from datetime import date, datetime, timezone
from pathlib import Path

from registry.catalogue import schema, whole
from registry.errors import RegistryError

NAME, FILES = whole.DATABASE, whole.FILES
PATIENCE = 10  # seconds to wait for another program that is writing
UNREADABLE = sqlite3.Error, UnicodeDecodeError  # the second: SQLite's own sentence quotes bytes of a damaged database


@dataclass(frozen=True, slots=True)
class Catalogue:
    """An open catalogue: its folder, its connection, and what to do when a transaction fails.

    `state` says how its files were before the first thing was read, for those who remember what they read; None for others.
    """

    folder: Path
    db: sqlite3.Connection
    undo: list = field(default_factory=list)
    state: tuple | None = None


def now() -> str:
    """This moment in UTC as text, such as 2026-07-01T09:30:00Z."""
    return datetime.now(timezone.utc).strftime("%Y-%m-%dT%H:%M:%SZ")


def today() -> int:
    """The day number of today by the clock of this machine."""
    return date.today().toordinal()


def create(folder):
    """The new Catalogue in a folder (made when missing); RegistryError when there is one already.

    The database is made under another name and takes its own when whole, so that a stop halfway leaves none.
    """
    folder = Path(folder)
    target = folder / NAME
    if target.exists():
        raise RegistryError(f"There is a catalogue in {folder} already.")
    try:
        folder.mkdir(parents=True, exist_ok=True)
        (folder / FILES).mkdir(exist_ok=True)
        with whole.room(target) as beside:
            _make(beside)
    except (OSError, sqlite3.Error) as error:
        raise RegistryError(f"No catalogue could be made in {folder}: {reason(error)}.") from None
    return open_catalogue(folder)


def _make(path):
    connection = sqlite3.connect(path)
    try:
        connection.execute("PRAGMA journal_mode = wal")  # kept in the file; closing leaves one file
        schema.migrate(connection)
    finally:
        connection.close()


def open_catalogue(folder):
    """The Catalogue in a folder, brought up to the tables of this program; one that cannot be written can still be read.

    RegistryError when there is none, when it is no catalogue, or when a newer program made it.
    """
    folder = Path(folder)
    path = folder / NAME
    if not path.is_file():
        raise RegistryError(f"There is no catalogue in {folder}; make one with 'registry init', or name its folder with --catalogue.")
    try:
        try:
            catalogue = _opened(path, "mode=rw")
        except sqlite3.OperationalError as error:
            if error.sqlite_errorcode & 0xFF not in (sqlite3.SQLITE_READONLY, sqlite3.SQLITE_CANTOPEN):
                raise
            catalogue = _opened(path, _reading(path))
        _bring_up(catalogue)
    except (OSError, *UNREADABLE) as error:
        raise RegistryError(f"The catalogue {path} cannot be opened: {reason(error)}.") from None
    return catalogue


def _opened(path, how):
    connection = sqlite3.connect(f"{path.absolute().as_uri()}?{how}", uri=True, timeout=PATIENCE, isolation_level=None)
    try:
        connection.execute("SELECT 1 FROM sqlite_master").fetchone()
    except UNREADABLE:
        connection.close()
        raise
    return wrap(path.parent, connection)


def _reading(path):
    """How SQLite opens a database where nothing can be written; RegistryError when that would leave out what came last."""
    last = path.with_name(f"{path.name}-wal")
    if last.exists() and last.stat().st_size:
        raise RegistryError(f"The last changes of the catalogue in {path.parent} are still in {last.name}, which cannot be read"
                            " where nothing can be written; copy the whole folder to where you can write, and use that.")
    return "mode=ro&immutable=1"


def wrap(folder, connection):
    """A Catalogue over a connection that somebody else opened and will close."""
    connection.row_factory = sqlite3.Row
    connection.execute("PRAGMA foreign_keys = on")
    return Catalogue(Path(folder), connection)


def _bring_up(catalogue):
    done = schema.applied(catalogue.db)
    if done is None:
        raise RegistryError(f"{catalogue.folder / NAME} is a database, but no catalogue of this program.")
    newer = [name for name in done if name not in schema.STEPS]
    if newer:
        raise RegistryError(f"The catalogue in {catalogue.folder} was made by a newer version of this program"
                            f" (it has the step {newer[0]}).")
    pending = [name for name in schema.STEPS if name not in done]
    if pending:
        from registry.catalogue import backup  # rarely needed

        backup.before_steps(catalogue.folder, catalogue.db, pending[0], now())
        schema.migrate(catalogue.db)


def reason(error):
    """Why something could not be read or written, as the end of a sentence without its point."""
    if isinstance(error, UnicodeDecodeError):
        return "it is damaged"
    return getattr(error, "strerror", None) or str(error)


@contextmanager
def transaction(catalogue):
    """All or nothing: what is written inside is kept together, or not at all when anything is raised.

    Inside another transaction it is a part that can fail alone. RegistryError when another program holds the
    catalogue for longer than PATIENCE seconds, or when it cannot be written.
    """
    inner = catalogue.db.in_transaction
    start, keep, drop = _INNER if inner else _OUTER
    level = len(catalogue.undo)
    _command(catalogue, start)
    try:
        yield catalogue.db
        _command(catalogue, keep)
    except BaseException:
        _roll_back(catalogue, drop)
        while len(catalogue.undo) > level:
            catalogue.undo.pop()()
        raise
    if not inner:
        catalogue.undo.clear()


_OUTER = "BEGIN IMMEDIATE", "COMMIT", ("ROLLBACK",)
_INNER = "SAVEPOINT part", "RELEASE part", ("ROLLBACK TO part", "RELEASE part")


def _roll_back(catalogue, commands):
    if not catalogue.db.in_transaction:  # SQLite rolls back by itself when the disk is full
        return
    for command in commands:
        catalogue.db.execute(command)


def _command(catalogue, text):
    try:
        catalogue.db.execute(text)
    except sqlite3.OperationalError as error:
        if "locked" in str(error):
            raise RegistryError("The catalogue is being written by another program; try again in a moment.") from None
        raise RegistryError(f"The catalogue in {catalogue.folder} cannot be written: {error}.") from None
