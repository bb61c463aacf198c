"""What becomes free as lines of text and as events of a calendar, the same for the command and the pages."""

from registry.catalogue import words
from registry.exchange.calendar import Event
from registry.rulebook import place_phrases

TITLE = "What becomes free"


def line(one):
    """A Coming as one line: place, work, what a version added, how sure the day is, jobs that wait."""
    adds = f" (what this version added: {', '.join(one.adds)})" if one.adds else ""
    waiting = f" Jobs that wait: {', '.join(one.jobs)}." if one.jobs else ""
    return f"{one.place}: {one.title} [{one.work}]{adds}, {one.how}.{waiting}"


def events(found):
    """An Event for each Coming; it keeps its name when the day moves, so that a calendar program follows."""
    return [Event(f"{one.work} {one.place}", one.day, _summary(one), f"{line(one)}\n{words.ADVICE}") for one in found]


def _summary(one):
    return f"{one.title}: likely {one.how.replace('that day', 'today')} in {place_phrases().get(one.place, one.place)}"
