"""Short words of the pages: names of facts as labels, days as people write them."""

from datetime import date, timedelta

from registry.catalogue import support, words
from registry.clearance.model import NEVER, SOON
from registry.facts import edtf

OWN = "own"  # shown instead of "likely public domain" where the shop made the work itself
KINDS = {"original": "original", "faithful_copy": "faithful copy", "new_expression": "adds something", "unknown": "copy or new: not known"}


def label(name):
    """A fact's name as a label for people; also of what is asked about beside the facts, such as originality."""
    return support.label(name)


def iso(text):
    """An ISO day as 1 January 2027; "" for none; what is not one stays as it is."""
    if not text:
        return ""
    try:
        return words.day(date.fromisoformat(text[:10]).toordinal())
    except ValueError:
        return text


def last_day(text):
    """The day before an ISO day, as people write it: the last day of protection when the day is the first free one."""
    try:
        before = date.fromisoformat(text) - timedelta(days=1)
    except (ValueError, OverflowError, TypeError):
        return ""
    return str(before.year) if (before.month, before.day) == (12, 31) else words.day(before.toordinal())


def value(fact):
    """The value of a fact as shown: yes, no, a list with commas, a date as written."""
    if fact is True or fact is False:
        return "yes" if fact else "no"
    if fact == "unknown":
        return "looked for, not found"
    if isinstance(fact, (list, tuple)):
        return ", ".join(map(str, fact))
    return str(fact).replace("_", " ") if fact is not None else ""


def held(earliest, latest):
    """Until when something is held, by the bounds of the day on which it clears: " to 2031"; "" when no day is known."""
    if SOON < latest < NEVER:
        end = last_day(edtf.iso(latest))
        return f" to {end}" if earliest == latest else f" to {end} at most"
    return f" to {last_day(edtf.iso(earliest))} or later" if SOON < earliest < NEVER else ""


def short_day(number):
    """A day number as a year when it is a 1 January, else as ISO text."""
    text = edtf.iso(number)
    return text[:4] if text.endswith("-01-01") else text
