"""Conditions of the rule format, turned once into functions of a World.

A function answers True or False or raises Split. Which words are allowed is listed in `_SPECIAL`
and in the vocabulary; anything else is refused by name with what is allowed.
"""

from dataclasses import dataclass, field
from datetime import date

from registry.errors import BadLaw
from registry.law.node import threshold, to_anniversary, to_year_end
from registry.law.world import BOTH, HAZY, NO, YES, Having, Others, Split, year_end, year_of

EVENTS = ("creation", "publication", "disclosure", "death")
CHOICES = ("kind", "authorship", "origin", "author_nationality", "domicile", "government_of")
FAR = 150  # years beyond which two events of one work are not expected to lie apart
DERIVED = ("natural_author", "published", "made_available", "by_owner")


@dataclass(frozen=True, slots=True)
class Scope:
    """What a condition may refer to: vocabulary, groups of countries, dated tables, events, home law."""

    vocabulary: object
    groups: dict = field(default_factory=dict)
    tables: dict = field(default_factory=dict)
    events: dict = field(default_factory=dict)
    home: object = None
    at: str = ""
    defined: dict = field(default_factory=dict)

    def refuse(self, what):
        """Raise BadLaw for this place."""
        raise BadLaw(f"{self.at}: {what}")


def condition(table, scope):
    """The test in a `when` table; BadLaw with the place when a word or value is not allowed."""
    if not isinstance(table, dict):
        scope.refuse(f"a condition is {table!r}; a table of facts is needed.")
    tests = [_one(key, value, scope) for key, value in table.items()]
    return _joined(tests)


def _joined(tests):
    """One test for several that must all hold; written out for two because it is by far the most used."""
    if len(tests) == 1:
        return tests[0]
    if len(tests) == 2:
        first, second = tests
        return lambda world: first(world) and second(world)

    def joined(world):
        for test in tests:
            if not test(world):
                return False
        return True

    return joined


def _one(key, value, scope):
    if key in _SPECIAL:
        return _SPECIAL[key](value, scope)
    if key in scope.defined:
        return _named(key, scope.defined[key], value, scope)
    for ending, after in (("_before", False), ("_from", True)):
        if key.endswith(ending) and _is_event(key.removesuffix(ending), scope):
            return _dated(key.removesuffix(ending), value, after, scope)
    if key in CHOICES:
        return _among(key, value, scope)
    fact = scope.vocabulary.facts.get(key)
    if key in DERIVED or (fact and fact.type in ("bool", "edtf", "year")):
        return _yes(key, value, scope)
    scope.refuse(f"unknown condition '{key}'; allowed are fact names, EVENT_before, EVENT_from, {', '.join(_SPECIAL)}.")


def _named(name, test, wanted, scope):
    """The test of a word of the file, which is worked out once in a branch."""
    if not isinstance(wanted, bool):
        scope.refuse(f"'{name}' is compared with {wanted!r}; allowed are true and false.")

    def told(world):
        found = world.memo.get(test)
        return (test(world) if found is None else found) is wanted

    return told


def _is_event(name, scope):
    fact = scope.vocabulary.facts.get(name)
    return name in EVENTS or name in scope.events or name.startswith("death:") or bool(fact and fact.type in ("edtf", "year"))


def event(name, scope):
    """A function World -> event of that name; BadLaw when there is none."""
    if name in scope.events:
        return scope.events[name]
    if not _is_event(name, scope):
        scope.refuse(f"unknown event '{name}'; allowed are {', '.join(EVENTS)}, death:known, death:ROLE, dated facts and the file's own events.")
    return lambda world: world.event(name)


def _yes(name, wanted, scope):
    if not isinstance(wanted, bool):
        scope.refuse(f"'{name}' is compared with {wanted!r}; allowed are true and false.")

    def test(world):
        found = world.get(name)
        if len(found) == 1:
            return (True in found) is wanted
        raise Split(name, (YES, NO))

    return test


def _among(name, value, scope):
    wanted = frozenset(values(value, scope))
    fact = scope.vocabulary.facts.get(name)
    for one in wanted:
        if fact and fact.choices and one not in fact.choices:
            scope.refuse(f"'{name}' is compared with '{one}'; allowed are {', '.join(fact.choices)}.")

    def test(world):
        found = world.get(name)
        if found.__class__ is frozenset:
            inside = found & wanted
            if not inside or len(inside) == len(found):
                return bool(inside)
            raise Split(name, (inside, found - wanted))
        if found.__class__ is Having:
            return not wanted.isdisjoint(found)
        inside = wanted - found.out
        if not inside:
            return False
        raise Split(name, (inside, Others(found.out | wanted)))

    return test


def values(value, scope):
    """The list a value stands for, groups such as "@EEA" opened."""
    out = []
    for one in value if isinstance(value, list) else [value]:
        if isinstance(one, str) and one.startswith("@"):
            if one[1:] not in scope.groups:
                scope.refuse(f"unknown group '{one}'; allowed are {', '.join('@' + g for g in sorted(scope.groups))}.")
            out += scope.groups[one[1:]]
        else:
            out.append(one)
    return out


def _dated(name, value, after, scope):
    if not isinstance(value, date):
        scope.refuse(f"'{name}' is compared with {value!r}; a day such as 1978-01-01 is needed.")
    day, find = value.toordinal(), event(name, scope)

    def test(world):
        found = find(world)
        if found is None:
            return False
        var, first, last = found
        if last < day:
            return not after
        if first >= day:
            return after
        raise Split(var, ((first, day - 1), (day, last)))

    return test


def _any(tables, scope):
    tests = [condition(table, scope) for table in tables]

    def either(world):
        for test in tests:
            if test(world):
                return True
        return False

    return either


def _all(tables, scope):
    return _joined([condition(table, scope) for table in tables])


def _not(table, scope):
    test = condition(table, scope)
    return lambda world: not test(world)


def shift(table, scope, last=0):
    """The function day -> day of `years`, `days`, `exact` in a table."""
    years, days = table.get("years", 0), table.get("days", 0)
    if table.get("exact") or ("days" in table and "years" not in table):
        return to_anniversary(years, days, last)
    return to_year_end(years, days)


def _pair(table, scope, extra=()):
    for key in table:
        if key not in ("event", "after", "years", "days", "exact", *extra):
            scope.refuse(f"unknown key '{key}'; allowed are event, after, years, days, exact.")
    return event(table["event"], scope), event(table["after"], scope), shift(table, scope)


def _within(table, scope):
    """True when `event` came no later than so many years or days after the other."""
    find, since, move = _pair(table, scope)
    return lambda world: _no_later(world, find(world), since(world), move)


def _beyond(table, scope):
    """True when `event` came, and later than so many years or days after the other."""
    find, since, move = _pair(table, scope)

    def test(world):
        found = find(world)
        return found is not None and not _no_later(world, found, since(world), move)

    return test


def _no_later(world, found, since, move):
    if found is None:
        return False
    if since is None:
        return True
    var, first, last = found
    other, low, high = since
    if var == other and move(first) >= first:
        return True
    near, far = move(low), move(high)
    if last <= near:
        return True
    if first > far:
        return False
    if first < near < last:
        raise Split(var, ((first, near), (near + 1, last)))
    if first <= far < last:
        raise Split(var, ((first, far), (far + 1, last)))
    for day in (first, last):
        at = threshold(move, low, high, day)
        if low < at < high:
            raise Split(other, ((low, at - 1), (at, high)))
    # the two spans cover each other: cutting on would go day by day, so the order itself is the question
    return _guess(world, f"{var}<{other}")


def _guess(world, name):
    found = world.dom.get(name, BOTH)
    if len(found) == 1:
        return True in found
    raise Split(name, (YES, NO))


def _surely_before(table, scope):
    """True only when every recorded reading of `event` lies before the shifted other; never asks.

    It looks at the dates as recorded, not at the part of them a branch has been cut to: otherwise the
    cut of another rule would decide what the record does not.
    """
    find, since, move = _pair(table, scope)

    def test(world):
        found, other = _as_recorded(find, world), _as_recorded(since, world)
        return found is not None and other is not None and found[2] < move(other[1])

    return test


def _as_recorded(find, world):
    """The event with its dates as recorded; as cut in this branch where the record alone would ask for that cut again."""
    before = world.uncut()
    try:
        return find(before)
    except Split as cut:
        if world.dom.get(cut.var).__class__ is tuple:
            world.memo[HAZY] = True
            return find(world)
        raise
    finally:
        if HAZY in before.memo:
            world.memo[HAZY] = True


def _surely_beyond(table, scope):
    """True only when every recorded reading of `event` lies after the shifted other; never asks."""
    find, since, move = _pair(table, scope)

    def test(world):
        found, other = _as_recorded(find, world), _as_recorded(since, world)
        return found is not None and other is not None and found[1] > move(other[2])

    return test


def _years_between(table, scope):
    """True when the calendar years from one event to another lie between two bounds."""
    start, end = event(table["from"], scope), event(table["to"], scope)
    least, most = table.get("at_least", -10**6), table.get("at_most", 10**6)

    def test(world):
        a, b = start(world), end(world)
        if a is None or b is None:
            return False
        if a[0] == b[0]:
            return least <= 0 <= most
        low, high = year_of(b[1]) - year_of(a[2]), year_of(b[2]) - year_of(a[1])
        if least <= low and high <= most:
            return True
        if high < least or low > most:
            return False
        wide, other = (a, b) if year_of(a[2]) - year_of(a[1]) >= year_of(b[2]) - year_of(b[1]) else (b, a)
        middle = year_end(_middle(wide, other))
        raise Split(wide[0], ((wide[1], middle), (middle + 1, wide[2])))

    return test


def _middle(wide, other):
    """The year after which to cut a span: far from the other event first, in the middle then."""
    first, last = year_of(wide[1]), year_of(wide[2])
    for edge in (year_of(other[1]) - FAR, year_of(other[2]) + FAR):
        if first <= edge < last and 0 < edge < 10_000:
            return edge
    return (max(first, 0) + min(last, 9_999)) // 2


def _published_in(table, scope):
    """True when first published in a country, or there within so many days of publication abroad."""
    country, days, fact = table["country"], table["days"], table["fact"]
    first_there = _among("origin", country, scope)
    since, move = event("publication", scope), to_anniversary(0, days)

    def test(world):
        if since(world) is None:
            return False
        if first_there(world):
            return True
        found = world.base.published_there(country)
        if found is None:
            return world.decided(fact)
        var = f"publication:{country}"
        return _no_later(world, (var, *world.dom.get(var, found)), since(world), move)

    return test


def _home_protected(table, scope):
    """True when the home law still protected the work on a day; a recorded fact overrides the replay."""
    fact, home, find = table.get("fact"), scope.home, _day(table, scope)

    def test(world):
        if fact and world.base.start.get(fact) != BOTH:
            return world.decided(fact)
        day = find(world)
        return day is not None and home(world, day, fact)

    return test


def _day(table, scope):
    if "day" in table:
        day = table["day"].toordinal()
        return lambda world: day
    return lookup(table["table"], scope)


def lookup(name, scope):
    """A function World -> day in a table by country of origin; None when the country has no entry.

    Of a quite unknown origin the earliest day of the table is taken: that reading protects longest.
    """
    if name not in scope.tables:
        scope.refuse(f"unknown table '{name}'; allowed are {', '.join(sorted(scope.tables))}.")
    days = {code: day.toordinal() for code, day in scope.tables[name].items()}
    earliest, alike = min(days.values()), {}

    def find(world):
        found = world.get("origin")
        if found.__class__ is Others:
            return earliest
        if len(found) == 1:
            return days.get(next(iter(found)))
        if found not in alike:
            alike[found] = {days.get(code) for code in found}
        options = alike[found]
        if len(options) == 1:
            return next(iter(options))
        if len(options) > 4:  # too many to try one by one
            return earliest
        first = sorted(found)[0]
        same = frozenset(code for code in found if days.get(code) == days.get(first))
        raise Split("origin", (same, found - same))

    return find


def _always(value, _scope):
    """True or False whatever the facts: for trials that take a condition away."""
    return lambda world: value


def _recorded(name, scope):
    """True when a dated fact is on record at all; silence counts as no and is never asked about."""
    if name not in scope.vocabulary.facts:
        scope.refuse(f"recorded = '{name}' is not a fact name.")
    return lambda world: world.base.on_record(name)


def _since_table(table, scope):
    """True when an event came on or after the day the table gives the country of origin."""
    find, day = event(table["event"], scope), lookup(table["table"], scope)

    def test(world):
        found, start = find(world), day(world)
        if found is None or start is None:
            return False
        var, first, last = found
        if last < start or first >= start:
            return first >= start
        raise Split(var, ((first, start - 1), (start, last)))

    return test


_SPECIAL = {"any": _any, "all": _all, "not": _not, "within": _within, "beyond": _beyond,
            "surely_before": _surely_before, "surely_beyond": _surely_beyond,
            "years_between": _years_between, "published_in": _published_in,
            "home_protected": _home_protected, "recorded": _recorded, "always": _always, "since_table": _since_table}
