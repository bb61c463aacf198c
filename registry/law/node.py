"""The end of protection as a span that remembers the fact it hangs on, so that it can be cut."""

from datetime import date

from registry.law.world import EVER, NEVER, Split, year_end, year_of


class Unsettled(Exception):
    """This branch has no answer: the cause, the rule that says so, the fact that would help."""

    def __init__(self, cause, rule=None, fact=None):
        self.cause = cause
        self.rule = rule
        self.fact = fact


class Node:
    """Last protected day, between `lo` and `hi`; `op` is const, point, min, max, range or open."""

    __slots__ = ("lo", "hi", "op", "of", "shift")

    def __init__(self, lo, hi, op, of=None, shift=None):
        self.lo = lo
        self.hi = hi
        self.op = op
        self.of = of
        self.shift = shift


ENDLESS = Node(NEVER, NEVER, "const")
NOTHING = Node(EVER, EVER, "const")


def point(event, shift):
    """The end that lies `shift` after an event (variable, first, last); endless when it has not come."""
    if event is None:
        return ENDLESS
    return Node(shift(event[1]), shift(event[2]), "point", event, shift)


def least(nodes):
    """The earliest of several ends."""
    nodes = list(nodes)
    if len(nodes) == 1:
        return nodes[0]
    return Node(min(n.lo for n in nodes), min(n.hi for n in nodes), "min", nodes)


def most(nodes):
    """The latest of several ends."""
    nodes = list(nodes)
    if len(nodes) == 1:
        return nodes[0]
    return Node(max(n.lo for n in nodes), max(n.hi for n in nodes), "max", nodes)


def between(shortest, longest, cause, rule):
    """An end the law leaves open between two others."""
    return Node(shortest.lo, longest.hi, "range", (shortest, longest), (cause, rule, None))


def unknown(cause, rule=None, fact=None):
    """An end of which nothing can be said here."""
    return Node(EVER, NEVER, "open", None, (cause, rule, fact))


def before(node, day):
    """True when protection ended before that day; raises Split or Unsettled when it may or may not."""
    if node.hi < day:
        return True
    if node.lo >= day:
        return False
    _cut(node, day)
    raise AssertionError("a cut must raise")


def _cut(node, day):
    if node.op == "point":
        _cut_point(node, day)
    if node.op in ("min", "max"):
        loose = [n for n in node.of if n.lo < day <= n.hi]
        loose.sort(key=lambda n: n.op == "open")
        _cut(loose[0], day)
    if node.op == "range":
        for side in reversed(node.of):
            if side.lo < day <= side.hi:
                _cut(side, day)
    raise Unsettled(*node.shift)


def _cut_point(node, day):
    var, first, last = node.of
    at = threshold(node.shift, first, last, day)
    raise Split(var, ((first, at - 1), (at, last)))


def threshold(shift, first, last, day):
    """The first day in first..last whose shifted day is not before `day` (shift never runs backwards)."""
    while first < last:
        middle = (first + last) // 2
        if shift(middle) >= day:
            last = middle
        else:
            first = middle + 1
    return first


def to_year_end(years, days=0):
    """A shift to the end of the year `years` later, and `days` more."""

    def shift(day):
        if day >= NEVER or day <= EVER:
            return day
        return year_end(year_of(day) + years) + days

    return shift


def to_anniversary(years, days=0, last=0):
    """A shift to the same day `years` later and `days` more, less `last` days."""

    def shift(day):
        if day >= NEVER or day <= EVER:
            return day
        if not 1 <= day <= 3652059:
            return day + years * 365
        at = date.fromordinal(day)
        if at.year + years > 9999:
            return NEVER
        try:
            moved = at.replace(year=at.year + years).toordinal()
        except ValueError:
            moved = date(at.year + years, 3, 1).toordinal()
        return moved + days - last

    return shift
