"""Canonical JSON: one text for one value, so that a digest of it can be checked by anybody.

A profile of RFC 8785: strings, booleans, null, lists, objects with ASCII names, and whole numbers within
+/-(2^53 - 1). Numbers with a fraction are refused, since their text differs between writers.
"""

import hashlib
import json

from registry.errors import RegistryError

LARGEST = 2**53 - 1


def canonical(value) -> str:
    """The one JSON text of a value: names sorted, no white space; RegistryError for what is not allowed."""
    _check(value, "the value")
    return json.dumps(value, ensure_ascii=False, sort_keys=True, separators=(",", ":"), allow_nan=False)


def digest(value) -> str:
    """The SHA-256 (64 hex digits) of the canonical JSON of a value, in UTF-8."""
    return hashlib.sha256(canonical(value).encode("utf-8")).hexdigest()


def _check(value, at):
    if value is None or isinstance(value, bool):
        return
    if isinstance(value, str):
        _check_text(value, at)
    elif isinstance(value, int):
        if abs(value) > LARGEST:
            raise RegistryError(f"{at} is {value}; whole numbers up to {LARGEST} are allowed.")
    elif isinstance(value, (list, tuple)):
        for number, item in enumerate(value):
            _check(item, f"{at}[{number}]")
    elif isinstance(value, dict):
        for key, item in value.items():
            if not isinstance(key, str) or not key.isascii():
                raise RegistryError(f"{at} has the name {key!r}; names must be text in ASCII.")
            _check(item, f"{at}.{key}")
    else:
        raise RegistryError(f"{at} is of type {type(value).__name__}; text, true, false, null, whole numbers,"
                            " lists and objects are allowed.")


def _check_text(text, at):
    try:
        text.encode("utf-8")
    except UnicodeEncodeError:
        raise RegistryError(f"{at} holds half of a surrogate pair, which is no character.") from None
