"""Uploads shown before they are kept: held in memory, a few at a time, under a number nobody can guess."""

import secrets
from collections import OrderedDict
from threading import Lock

from registry.web.body import Upload

MOST = 12            # files
ROOM = 128 * 2**20   # bytes, over all

_held: OrderedDict[str, Upload] = OrderedDict()
_lock = Lock()


def hold(upload):
    """The token under which an upload can be had again, until others have pushed it out."""
    token = secrets.token_urlsafe(18)
    with _lock:
        _held[token] = upload
        while len(_held) > MOST or (len(_held) > 1 and sum(len(one.content) for one in _held.values()) > ROOM):
            _held.popitem(last=False)
    return token


def get(token):
    """The Upload of a token; None when it is gone or never was."""
    with _lock:
        return _held.get(token)


def drop(token):
    """Forgets an upload that was kept or is not wanted."""
    with _lock:
        _held.pop(token, None)
