"""One possible state of the facts: every fact a span or a set of values, narrowed branch by branch.

A test that cannot be answered raises Split with the parts into which one fact must be cut; the
engine then replays each part. Nothing here knows a country, a clock or a file.
"""

from datetime import date

from registry.facts.edtf import Span

NEVER = 10**7          # a day beyond every calendar: has not begun, or has no end
EVER = -(10**7)        # a day before every calendar
LIFESPAN = 125         # years; nobody is taken to have lived longer (shown as a presumption)
UNCERTAIN_YEARS = 5    # padding of "?" dates, years either side (common practice, no source)
APPROXIMATE_YEARS = 5  # padding of "~" dates, years either side (common practice, no source)
HAZY = "hazy"          # noted in a branch where something was taken as it is because it could not be told
BOTH = frozenset((True, False))
YES = frozenset((True,))
NO = frozenset((False,))


class Split(Exception):
    """A fact must be cut: the variable and the domains of the branches."""

    def __init__(self, var, parts):
        self.var = var
        self.parts = parts


class Others:
    """A country (or other value) that is none of those in `out`."""

    __slots__ = ("out",)

    def __init__(self, out):
        self.out = frozenset(out)

    def __repr__(self):
        return f"Others({sorted(self.out)})"


class Having(frozenset):
    """A settled set of values of which any may satisfy a test (several nationalities)."""

    __slots__ = ()


ANY = Others(())


def year_end(year):
    """The ordinal of 31 December of a year (proleptic Gregorian, any year)."""
    return year * 365 + year // 4 - year // 100 + year // 400


def year_of(day):
    """The year of an ordinal day; days beyond the calendar come out far away on the same side."""
    if 1 <= day <= 3652059:
        return date.fromordinal(day).year
    return 10**5 if day > 0 else -(10**5)


class World:
    """Facts as domains for one replay; `dom` is this branch's own, `base` what all branches share."""

    __slots__ = ("dom", "base", "as_of", "memo")

    def __init__(self, dom, base, as_of):
        self.dom = dom
        self.base = base
        self.as_of = as_of
        self.memo = {}  # words, events and home ends worked out once in this branch

    def get(self, name):
        """The domain of a discrete fact, its presumption or default where nothing is recorded."""
        found = self.dom.get(name)
        if found is None:
            found = self.base.default(name, self)
            self.dom[name] = found
        if name in self.base.presumed:
            self.base.touched.add(name)
        return found

    def decided(self, name):
        """True or False of a yes/no fact; raises Split while both are possible."""
        found = self.get(name)
        if len(found) == 1:
            return True in found
        raise Split(name, (YES, NO))

    def event(self, name):
        """(variable, first day, last day) of an event, or None when it has not happened by as_of."""
        memo = self.memo
        if name in memo:
            return memo[name]
        reader = _EVENTS.get(name)
        found = memo[name] = reader(self) if reader else self.base.dated(name, self)
        return found

    def span(self, var):
        """The span of a date variable in this branch."""
        found = self.dom.get(var)
        if found is None:
            found = self.base.default_span(var)
            self.dom[var] = found
        return found

    def uncut(self):
        """This branch with its dates as recorded, before any cut, those to come left out."""
        found = self.memo.get(World)
        if found is None:
            start = self.base.start.dom
            dom = {k: v for k, v in self.dom.items() if v.__class__ is not tuple}
            for name in _LINKED:
                if name in start:
                    first, last = start[name]
                    dom[name] = (first, min(last, max(first, self.as_of)))
            dom["death"] = start["death"]
            found = self.memo[World] = World(dom, self.base, self.as_of)
        return found

    def narrow(self, var, part):
        """The branch with one fact narrowed and what follows from it, or None when impossible.

        What could be told of every value can be told of some, and comes out alike; so a branch inherits what was worked
        out before the cut. Not after a cut of a date, which narrows ends, nor of origin, where few countries are tried
        one by one, nor when something was taken as it is because it could not be told.
        """
        dom = dict(self.dom)
        dom[var] = part
        if var in _LINKED and not _link(dom):
            return None
        branch = World(dom, self.base, self.as_of)
        if part.__class__ is not tuple and var != "origin" and HAZY not in self.memo:
            branch.memo.update(self.memo)
            branch.memo.pop(World, None)  # its facts are those before the cut
        return branch


_LINKED = frozenset(("creation", "publication", "death", "disclosure"))


def _link(dom):
    """Carry order through: made before published, made before the last author died."""
    created, death = dom["creation"], dom["death"]
    published = dom.get("publication")
    first, last = created
    if published is not None:
        if last > published[1]:
            last = published[1]
        if published[0] < first:
            published = dom["publication"] = (first, published[1])
        if published[0] > published[1]:
            return False
    if death[1] > outlived(last):
        death = dom["death"] = (death[0], outlived(last))
    if last > death[1]:
        last = death[1]
    if death[0] < first:
        death = dom["death"] = (first, death[1])
    if first > last or death[0] > death[1]:
        return False
    dom["creation"] = (first, last)
    return True


def outlived(made):
    """The last day on which somebody who made a work by that day can have been alive."""
    return _shifted(made, LIFESPAN) if EVER < made < NEVER else NEVER


def _creation(world):
    span = world.dom["creation"]
    return ("creation", span[0], span[1])


def _happened(world, flag, var):
    if not world.decided(flag):
        return None
    first, last = world.span(var)
    as_of = world.as_of
    if last <= as_of:
        return (var, first, last)
    if first > as_of:
        return None
    raise Split(var, ((first, as_of), (as_of + 1, last)))


def _publication(world):
    return _happened(world, "published", "publication")


def _disclosure(world):
    return _happened(world, "made_available", world.base.disclosure)


def _death(world):
    span = world.dom["death"]
    return ("death", span[0], span[1])


_EVENTS = {"creation": _creation, "publication": _publication, "disclosure": _disclosure,
           "death": _death}


def bounds(span, floor=EVER, ceiling=NEVER):
    """(first, last) day of a recorded span, padded for doubt; open or unknown ends take the limits."""
    if span is None:
        return (floor, ceiling)
    first, last = span.earliest, span.latest
    if span.precision == "span" and span.kind == "date":
        # a season such as 1921-22 may be meant as two years, and the south has it half a year later
        first, last = _shifted(first, -1), _shifted(last, 1)
    if span.uncertain or span.approximate:
        pad = UNCERTAIN_YEARS * span.uncertain + APPROXIMATE_YEARS * span.approximate
        first = None if first is None else _shifted(first, -pad)
        last = None if last is None else _shifted(last, pad)
    return (floor if first is None else first, ceiling if last is None else last)


def _shifted(day, years):
    if not 1 <= day <= 3652059:
        return day
    at = date.fromordinal(day)
    year = min(9999, max(1, at.year + years))
    return date(year, at.month, min(at.day, 28) if at.month == 2 else at.day).toordinal()


def recorded(value):
    """True when a fact holds a real span, not "unknown" or nothing."""
    return isinstance(value, Span)
