"""What costs time and stays the same until the catalogue changes: remembered while nothing new was committed.

What was committed last is told by the index of the write-ahead log (SQLite, "WAL-mode file format", section 2.1): its
header is changed in the moment in which a commit can be seen. Times of files are not: they change before that.
"""

import os
from collections import OrderedDict
from threading import Lock

from registry.catalogue.store import NAME

MOST = 256      # values
HEADER = 48     # bytes; the header is there twice, and both are alike but while it is being written
READY = 12      # the byte that is 1 when the index can be used

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
    """What was committed last, as something that can be compared; None when that cannot be told.

    To be asked before a transaction begins: what is read then is as new or newer, never older.
    """
    try:
        with open(folder / (NAME + "-shm"), "rb") as index:
            head, number = index.read(2 * HEADER), os.fstat(index.fileno()).st_ino
        base = os.stat(folder / NAME)
    except OSError:
        return None
    first, second = head[:HEADER], head[HEADER:]
    if len(second) < HEADER or first != second or first[READY] != 1:
        return None
    return number, first, base.st_mtime_ns, base.st_size
