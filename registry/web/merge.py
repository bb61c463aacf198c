"""Two people changed the same record: what each did, and what a merge would keep. Nothing typed is lost."""

import json
from dataclasses import dataclass

from registry.facts.json_values import deep, sendable


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
    return {path: value for path, value in found.items() if not deep(value) and sendable([path, value])}
