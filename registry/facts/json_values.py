"""JSON from outside: the one reader, and what its values may hold: lists within limits, texts that can be shown."""

import json

from registry.errors import BadFacts

DEPTH = 4  # of lists and objects in one value: a list of makers, each with its nationalities, has 3


def read(content, at="line {line}, column {column}"):
    """The value in a JSON text, or in its bytes in UTF-8 with or without a byte order mark.

    BadFacts says in one sentence what it cannot be, also that a field is given twice in one object; `at` is how the
    place of a fault is told.
    """
    try:
        text = content.decode("utf-8") if isinstance(content, bytes) else content
        found = json.loads(text.removeprefix("\ufeff"), object_pairs_hook=_once, parse_constant=_no_number)
    except UnicodeDecodeError:
        raise BadFacts("this is not text in UTF-8.") from None
    except json.JSONDecodeError as error:
        where = at.format(line=error.lineno, column=error.colno)
        raise BadFacts(f"this is no JSON ({error.msg} at {where}); one object of facts is needed.") from None
    except RecursionError:
        raise BadFacts("lists and objects lie in each other too deep; one object of facts is needed.") from None
    except ValueError:  # what Python says of a number with thousands of digits
        raise BadFacts("a number has too many digits to be read.") from None
    if "\\u" in text and not sendable(found):
        raise BadFacts("a text holds half of a pair of surrogates (\\ud800 to \\udfff), which no letter is.")
    return found


def _once(pairs):
    found = dict(pairs)
    if len(found) < len(pairs):
        names = [name for name, _value in pairs]
        twice = next(name for name in names if names.count(name) > 1)
        raise BadFacts(f"field {twice} is given twice in one object; give it once.")
    return found


def _no_number(name):
    raise BadFacts(f"{name} is no JSON; a value is a text, true, false, a number, a list or an object.")


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
