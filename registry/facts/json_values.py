"""What JSON from outside may hold: lists within limits, and texts that can be shown."""

import json

DEPTH = 4  # of lists and objects in one value: a list of makers, each with its nationalities, has 3


def deep(value, room=DEPTH):
    """True when lists and objects lie in each other deeper than `room`."""
    parts = value.values() if isinstance(value, dict) else value if isinstance(value, list) else ()
    return room < 0 or any(deep(part, room - 1) for part in parts)


def sendable(value):
    """False for half of a pair of surrogates, which JSON can hold and nothing can show."""
    try:
        return bool(json.dumps(value, ensure_ascii=False).encode("utf-8"))
    except UnicodeEncodeError:
        return False
