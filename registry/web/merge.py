"""Two people changed the same record: what each did, and what a merge would keep. Nothing typed is lost."""

import json
from dataclasses import dataclass

DEPTH = 4  # of lists in the value of one field; traits, the deepest, have 2


@dataclass(frozen=True, slots=True)
class Difference:
    """A value that somebody else changed meanwhile: as it was, as it is now, as it was typed here, what is proposed."""

    path: str
    before: object
    now: object
    mine: object
    both: bool


def merged(before, now, mine):
    """(values proposed, Differences): mine where I changed something, the stored value elsewhere.

    All three are {path: value}; a missing path means that nothing is recorded.
    """
    values, differences = {}, []
    for path in dict.fromkeys([*now, *mine, *before]):
        old, stored, typed = before.get(path), now.get(path), mine.get(path)
        kept = stored if typed == old else typed
        if kept is not None:
            values[path] = kept
        if stored != old:
            differences.append(Difference(path, old, stored, typed, typed != old and typed != stored))
    return values, differences


def packed(values):
    """Values as the text of a hidden field, so that a later merge knows what the form showed at first."""
    return json.dumps(values, ensure_ascii=False, sort_keys=True)


def unpacked(text):
    """The values of a hidden field; nothing when it was damaged, and without what no form of ours can have put there."""
    try:
        found = json.loads(text)
    except (ValueError, RecursionError):  # the second: brackets within brackets by the thousand
        return {}
    if not isinstance(found, dict):
        return {}
    return {path: value for path, value in found.items() if not _deep(value, DEPTH) and _sendable([path, value])}


def _deep(value, room):
    """True when lists lie in each other deeper than `room`."""
    parts = value.values() if isinstance(value, dict) else value if isinstance(value, list) else ()
    return room < 0 or any(_deep(part, room - 1) for part in parts)


def _sendable(value):
    """False for half of a pair of surrogates, which JSON can hold and no page can show."""
    try:
        return bool(json.dumps(value, ensure_ascii=False).encode("utf-8"))
    except UnicodeEncodeError:
        return False
