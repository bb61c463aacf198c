"""Days as an iCalendar file (RFC 5545): all-day events, text escaped, lines folded at 75 octets."""

import hashlib
from dataclasses import dataclass

from registry.facts import edtf

PRODUCT = "-//Artwork rights registry//Calendar//EN"
WIDTH = 75  # octets of a line without its end
_ESCAPES = str.maketrans({"\\": "\\\\", ";": "\\;", ",": "\\,", "\n": "\\n", "\r": None})


@dataclass(frozen=True, slots=True)
class Event:
    """One all-day event: `name` identifies it for ever, whatever day it moves to; `day` is a day number."""

    name: str
    day: int
    summary: str
    description: str = ""


def calendar_text(title, events, stamp):
    """The text of an iCalendar file; `stamp` is the moment of writing, such as 20260701T093000Z."""
    lines = ["BEGIN:VCALENDAR", "VERSION:2.0", f"PRODID:{PRODUCT}", "CALSCALE:GREGORIAN", "METHOD:PUBLISH",
             f"X-WR-CALNAME:{escaped(title)}"]
    for event in events:
        lines += _event(event, stamp)
    return "".join(folded(line) for line in [*lines, "END:VCALENDAR"])


def _event(event, stamp):
    yield "BEGIN:VEVENT"
    yield f"UID:{hashlib.sha256(event.name.encode('utf-8')).hexdigest()[:32]}@registry.invalid"
    yield f"DTSTAMP:{stamp}"
    yield f"DTSTART;VALUE=DATE:{edtf.iso(event.day).replace('-', '')}"
    yield f"SUMMARY:{escaped(event.summary)}"
    if event.description:
        yield f"DESCRIPTION:{escaped(event.description)}"
    yield "TRANSP:TRANSPARENT"
    yield "END:VEVENT"


def escaped(text):
    """A text value with backslash, semicolon, comma and line end escaped; other control characters are left out."""
    return "".join(letter for letter in text if letter == "\n" or letter.isprintable()).translate(_ESCAPES)


def folded(line):
    """The line with its end CR LF, cut into pieces of 75 octets at most; a letter is never cut in two."""
    pieces, piece, size = [], "", 0
    for letter in line:
        width = len(letter.encode("utf-8"))
        if size + width > WIDTH:
            pieces.append(piece)
            piece, size = " ", 1  # a continuation begins with a space, which counts
        piece, size = piece + letter, size + width
    return "\r\n".join([*pieces, piece]) + "\r\n"
