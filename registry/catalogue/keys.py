"""Keys: the short handles by which people call works and jobs. A key, once given, stays."""

import difflib
import re

from registry.errors import Conflict, RegistryError, UnknownRecord

FORM = re.compile(r"[A-Za-z0-9][A-Za-z0-9._-]{0,79}\Z")
# Keys are names of files in packages, which Windows must unpack.
DEVICE = re.compile(r"(con|prn|aux|nul|com[0-9]|lpt[0-9])(\.|\Z)", re.IGNORECASE)
MANY = 5000  # keys looked through for one that is close


def new(db, thing, key=None):
    """A key for a new work or job: the wanted one, else w1, w2 ... or j1, j2 ...

    RegistryError when it has the wrong form or could not be reached or unpacked: /work/new is the address of the form.
    Conflict when it is taken.
    """
    if key is None:
        number = db.execute(f"SELECT coalesce(max(id), 0) + 1 FROM {thing}s").fetchone()[0]
        while _taken(db, thing, f"{thing[0]}{number}"):
            number += 1
        return f"{thing[0]}{number}"
    check(thing, key)
    if _taken(db, thing, key):
        raise Conflict(f"There is a {thing} '{key}' already; choose another key, or alter it with 'registry {thing} change {key}'.")
    return key


def check(thing, key):
    """Nothing; RegistryError when this cannot be the key of a work or job."""
    if not isinstance(key, str) or not FORM.match(key):
        raise RegistryError(f"'{key}' cannot be the key of a {thing}; up to 80 letters, digits, points, hyphens and"
                            " underscores are allowed, beginning with a letter or digit.")
    if key == "new" or key.endswith(".") or DEVICE.match(key):
        raise RegistryError(f"'{key}' cannot be the key of a {thing}; 'new', a point at the end and the names that"
                            " Windows keeps for devices (con, prn, aux, nul, com1, lpt1 and the like, also with an"
                            " ending) are not allowed.")


def unknown(db, thing, key):
    """The UnknownRecord to raise for a key that is not there; it names the closest one that is."""
    rows = db.execute(f"SELECT key FROM {thing}s WHERE abs(length(key) - ?) < 4 LIMIT ?", (len(key), MANY))
    close = difflib.get_close_matches(key, [row[0] for row in rows], 1, 0.6)
    return UnknownRecord(f"There is no {thing} '{key}' in this catalogue{f'; did you mean {close[0]}' if close else ''}.")


def _taken(db, thing, key):
    return db.execute(f"SELECT 1 FROM {thing}s WHERE key = ?", (key,)).fetchone() is not None
