"""What costs time and stays the same until the catalogue changes: remembered while its files are as they were.

A commit of any program changes the time or size of the database or of its log. A file written within the last
moments is not trusted, since a second write in the same tick of the clock would leave no trace.
"""

import os
import time
from collections import OrderedDict
from threading import Lock

from registry.catalogue.store import NAME

MOST = 256      # values
DOUBT = 0.05    # seconds

_values: OrderedDict = OrderedDict()
_lock = Lock()


def value(catalogue, name, make):
    """What `make()` gives, or gave before for this name while the catalogue has not changed since.

    Where a Catalogue does not say how its files were when reading began, nothing is remembered.
    """
    state = catalogue.state
    if state is None:
        return make()
    key = (str(catalogue.folder), name)
    with _lock:
        found = _values.get(key)
    if found and found[0] == state:
        return found[1]
    made = make()
    with _lock:
        _values[key] = (state, made)
        _values.move_to_end(key)
        while len(_values) > MOST:
            _values.popitem(last=False)
    return made


def state_of(folder):
    """Times and sizes of the database and its log; None when they changed a moment ago.

    To be asked before a transaction begins, or what was read before a change would be kept as if read after it.
    """
    state, newest = [], 0
    for name in (NAME, NAME + "-wal"):
        try:
            found = os.stat(folder / name)
        except FileNotFoundError:
            state.append(None)
            continue
        state.append((found.st_mtime_ns, found.st_size, found.st_ino))
        newest = max(newest, found.st_mtime)
    return None if abs(time.time() - newest) < DOUBT else tuple(state)
