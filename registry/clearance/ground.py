"""What every answer of one day stands on: laws, rules, groups, names of places; verdicts are worked out once."""

from dataclasses import replace
from datetime import date

from registry.facts import edtf
from registry.law.known import Base
from registry.law.verdict import judge


class Ground:
    """Laws, rules and the day; remembers verdicts by work and place, so that asking again costs nothing."""

    __slots__ = ("laws", "rules", "groups", "names", "day", "_bases", "_verdicts", "_plain", "_supposed")

    def __init__(self, laws, rules, groups, day, names=None):
        self.laws, self.rules, self.groups, self.day = laws, rules, groups, day
        self.names = names or {}
        self._bases, self._verdicts, self._plain, self._supposed = {}, {}, {}, {}

    def verdict(self, work, code):
        """The Verdict of a place on a Work; the Work itself is kept, so its identity can serve as a key."""
        key = (id(work), code)
        if key not in self._verdicts:
            held = self._bases.get(id(work))
            if held is None:
                held = self._bases[id(work)] = (work, Base(work, self.laws, self.day))
            self._verdicts[key] = judge(work, code, self.laws, self.day, held[1])
        return self._verdicts[key]

    def plain(self, work):
        """The Work without the fact that it is a faithful reproduction: what it would be as a work of its own."""
        if work.facts.get("faithful_reproduction") is not True:
            return work
        if id(work) not in self._plain:
            facts = {k: v for k, v in work.facts.items() if k != "faithful_reproduction"}
            self._plain[id(work)] = (work, replace(work, facts={**facts, "faithful_reproduction": False}))
        return self._plain[id(work)][1]

    def supposed(self, work, name, make):
        """What `make()` gives for a Work and a name, made once, so that the same what-if is judged once."""
        key = (id(work), name)
        if key not in self._supposed:
            self._supposed[key] = (work, make())
        return self._supposed[key][1]

    def name(self, code):
        """The name of a place as it stands within a sentence; its code when it has none."""
        return self.names.get(code, code)


def day_words(day):
    """A day number as 1 January 2031; ISO text outside the years 1 to 9999."""
    if not 1 <= day <= date.max.toordinal():
        return edtf.iso(day) or "no known day"
    found = date.fromordinal(day)
    return f"{found.day} {found:%B} {found.year}"


def listed(names):
    """Names as 'a', 'a and b', 'a, b and c'."""
    names = [str(name) for name in names]
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}" if names else ""
