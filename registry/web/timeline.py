"""The timeline of a work as numbers for a drawing: lives, making, publications, protection in each place, today.

Only where things stand and how long they are; shapes and words are in the template. Lengths are in units of the
drawing, which is WIDTH wide; days are day numbers.
"""

from dataclasses import dataclass
from datetime import date

from registry.clearance.model import HOLD, NEVER, NO_BAR, SOON
from registry.web import said

WIDTH, LEFT, RIGHT, ROW, TOP = 760, 118, 160, 30, 28
LIVES = 3     # makers that are drawn
AHEAD = 12    # years after today that are always shown
FARTHEST = 160  # years after today that are shown at most
YEAR = 365.2425


@dataclass(frozen=True, slots=True)
class Bar:
    """One row: its label, pieces (class, x, width), points (x), and words with where they stand."""

    label: str
    y: int
    pieces: tuple
    points: tuple
    words: str
    words_x: float
    anchor: str = "start"


@dataclass(frozen=True, slots=True)
class Drawing:
    """All rows, ticks (x, year), the x of today, and the height."""

    bars: tuple
    ticks: tuple
    today: float
    height: int


def draw(work, places, day):
    """The Drawing of a Work; `places` are (label, decision, earliest, latest) with bounds as clearance has them."""
    ends = [bound for _label, _decision, first, last in places for bound in (first, last) if SOON < bound < NEVER]
    spans = [span for c in work.creators[:LIVES] for span in (c.born, c.died)] + [work.created] + [p.date for p in work.publications]
    days = [bound for span in spans if span is not None for bound in (span.earliest, span.latest) if bound is not None and bound > 0]
    low = min([*days, day - int(30 * YEAR)])
    high = min(max([*ends, *days, day + int(AHEAD * YEAR)]), day + int(FARTHEST * YEAR))
    low, high = low - int(4 * YEAR), high + int(4 * YEAR)

    scale = (WIDTH - LEFT - RIGHT) / (high - low)

    def at(number):
        inside = low if number < low else high if number > high else number
        return round(LEFT + (inside - low) * scale, 1)

    dates = [work.created, *(p.date for p in work.publications)]
    start = min([d.earliest for d in dates if d is not None and d.earliest is not None], default=low)
    rows = [*_lives(work, at, high), *_made(work, at), *_places(places, at, start, day, high)]
    bars = tuple(_bar(number, *row) for number, row in enumerate(rows))
    return Drawing(bars, tuple(_ticks(low, high, at)), at(day), TOP + len(rows) * ROW + 8)


def _bar(number, label, pieces, points, words, x, anchor):
    return Bar(label, TOP + number * ROW, pieces, points, words, *_beside(x, anchor))


def _beside(x, anchor):
    """Where words stand: to the right of x, or before it when there is no room left."""
    return (round(x - 6, 1), "end") if anchor == "end" or x > WIDTH - RIGHT + 20 else (round(x + 6, 1), "start")


def _lives(work, at, high):
    for person in work.creators[:LIVES]:
        born, died = _bounds(person.born), _bounds(person.died)
        if not born and not died:
            continue
        pieces = []
        if born and died:
            pieces.append(_piece("life", at(born[1]), at(died[0])))
        if died and died[0] != died[1]:
            pieces.append(_piece("unsure", at(died[0]), at(died[1])))
        if born and not died:
            pieces.append(_piece("unsure", at(born[1]), at(born[1] + int(90 * YEAR))))
        words = f"{person.born.text if born else '?'} – {person.died.text if died else '?'}"
        points = (at(died[1]),) if died and not born else ()
        yield person.name or "Maker", tuple(pieces), points, words, at((died or born)[1]), "start"


def _made(work, at):
    made = _bounds(work.created)
    if made:
        yield "Made", (_piece("unsure", at(made[0]), at(made[1])),), (at(made[1]),), work.created.text, at(made[1]), "start"
    for number, one in enumerate(work.publications[:2]):
        found = _bounds(one.date)
        if found:
            words = f"{one.date.text}{', ' + one.country if one.country else ''}"
            label, last = "and again" if number else "Published", at(found[1])
            yield label, (_piece("unsure", at(found[0]), last),), (last,), words, last, "start"


def _places(places, at, start, day, high):
    for label, decision, first, last in places:
        kind = "held" if decision == HOLD else "unsure"
        if decision == said.OWN:
            yield label, (_piece("own", at(start), at(high)),), (), "the shop’s own", at(start), "start"
        elif decision == NO_BAR:
            end = last if SOON < last else start
            words = f"free since {said.short_day(end)}" if SOON < last else "free"
            pieces = (_piece("over", at(start), at(end)), _piece("free", at(end), at(high)))
            yield label, pieces, (), words, at(end), "start"
        elif last < NEVER:
            sure = first if SOON < first else start
            words = f"free from {said.short_day(last)}{' at the latest' if first != last else ''}"
            pieces = (_piece(kind, at(start), at(sure)), _piece("unsure", at(sure), at(last)),
                      _piece("free", at(last), at(high)))
            yield label, pieces, (), words, at(last), "start"
        else:
            sure = first if SOON < first < NEVER else day if decision == HOLD else start
            pieces = (_piece(kind, at(start), at(sure)), _piece("unsure", at(sure), at(high)))
            yield label, pieces, (), "no day known", at(high), "end"


def _piece(kind, left, right):
    return kind, left, round(max(right - left, 0), 1)


def _bounds(span):
    if span is None or (span.earliest is None and span.latest is None):
        return None
    first = span.earliest if span.earliest is not None else span.latest
    last = span.latest if span.latest is not None else span.earliest
    return (first, last) if last > 0 else None


def _ticks(low, high, at):
    first, last = date.fromordinal(max(low, 1)).year, date.fromordinal(high).year
    step = next(step for step in (10, 20, 25, 50, 100, 200, 500) if (last - first) / step <= 10)
    for year in range(first - first % step + step, last + 1, step):
        yield at(date(year, 1, 1).toordinal()), year
