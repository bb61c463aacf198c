"""From a Work to the starting World: bounds, derived facts, presumptions and contradictions."""

from registry.facts.work import UNKNOWN
from registry.law.world import (
    ANY, BOTH, EVER, HAZY, LIFESPAN, NEVER, NO, YES, Having, Split, World, _link, _shifted, bounds, outlived, recorded,
)

SIMULTANEOUS = 30  # days
OF_PUBLICATION = {"publications": "date", "country": "country", "by_owner": "by_owner"}  # the field that is looked at
NO_AUTHORS = frozenset(("actor", "animator", "artist", "camera", "cinematographer", "designer", "editor", "narrator", "performer",
                        "photographer", "producer"))  # parts in a film that do not count where certain others do


class Base:
    """What all branches of one work on one day share: the work, defaults, presumptions used."""

    __slots__ = ("work", "laws", "as_of", "presumed", "touched", "disclosure", "people", "natural",
                 "asking", "fixed", "start", "conflict")

    def __init__(self, work, laws, as_of):
        self.work = work
        self.laws = laws
        self.as_of = as_of
        self.presumed = {}
        self.touched = set()
        self.fixed = {}  # domains that follow from the record alone, the same in every branch and place
        self.asking = []  # (code, day) of the home laws being replayed
        self.people = work.creators
        self.natural = tuple(c for c in work.creators if c.facts.get("legal_person") is not True)
        self.conflict = contradiction(work, self.natural)
        self.start = None if self.conflict else self._start()

    def _start(self):
        work = self.work
        dom = {"creation": bounds(work.created, EVER, self.as_of), "death": self._death(self.natural, not self._others())}
        dom["published"] = _flag(work.published, bool(work.publications))
        first = (EVER, NEVER if work.publications else self.as_of)
        if work.publications:
            spans = [bounds(p.date) for p in work.publications]
            first = (min(s[0] for s in spans), min(s[1] for s in spans))
        shown_unpublished = work.facts.get("unpublished_on")
        if recorded(shown_unpublished) and shown_unpublished.earliest is not None:
            first = (max(first[0], shown_unpublished.earliest + 1), first[1])
        if dom["published"] is not NO:
            dom["publication"] = first
        self._disclose(dom)
        open_end = dom["death"][1] >= NEVER
        if not _link(dom):
            self.conflict = ("created", "publications.date")
            return None
        if open_end and self.natural and dom["death"][1] < self.as_of:
            self.presumed["lifespan"] = f"nobody lives longer than {LIFESPAN} years"
        return World(dom, self, self.as_of)

    def _others(self):
        """True when the work is credited to several but only one of them is on record."""
        return self.work.authorship == "joint" and len(self.people) < 2

    def forget(self):
        """Nothing: drops the presumptions noted for an earlier answer; that about the length of a life is of all of them."""
        self.touched.clear()
        self.presumed = {k: v for k, v in self.presumed.items() if k == "lifespan"}

    def first(self):
        """The World with nothing worked out yet; each answer starts from one of its own, so that none colours the next."""
        return World({**self.fixed, **self.start.dom}, self, self.as_of)

    def _disclose(self, dom):
        self.disclosure = "publication"
        shown = self.work.facts.get("made_available_on")
        if recorded(shown):
            self.disclosure = "disclosure"
            first, last = bounds(shown)
            if self.work.publications:
                first, last = min(first, dom["publication"][0]), min(last, dom["publication"][1])
            dom["disclosure"] = (first, last)
            dom["made_available"] = YES
        elif self.work.facts.get("made_available") is True and not self.work.publications:
            self.disclosure = "disclosure"
            dom["disclosure"] = (dom["creation"][0], self.as_of)
            dom["made_available"] = YES
        elif self.work.published is False:  # should it have been shown after all, then on a day of its own
            self.disclosure = "disclosure"
            dom["disclosure"] = (dom["creation"][0], self.as_of)

    def _death(self, people, all_named=True):
        first, last = EVER, EVER if people and all_named else NEVER
        for person in people:
            low, high = self._one_death(person)
            first, last = max(first, low), max(last, high)
        return (first, last)

    def _one_death(self, person):
        if person.died is not None:
            return bounds(person.died)
        if person.alive is True:
            return (self.as_of, NEVER)
        low, high = bounds(person.born)
        if high < NEVER:
            self.presumed["lifespan"] = f"nobody lives longer than {LIFESPAN} years"
            return (low, _shifted(high, LIFESPAN))
        return (low, NEVER)

    def default_span(self, var):
        """The span of a date variable that is not in the starting world."""
        if var.startswith("death:"):
            complete = self._complete(var)
            first, last = self._death(self.people_of(var), complete)
            earliest, made = self.start.dom["creation"] if self.start else (EVER, NEVER)
            first = first if complete else max(first, earliest)
            return (first, max(first, min(last, outlived(made))))
        found = self._given(var.removeprefix("@"))
        if recorded(found):
            return bounds(found)
        return (self.start.dom["creation"][0] if self.start else EVER, NEVER)

    def _complete(self, var):
        """False when a work credited to more than one leaves a part empty whose maker counts."""
        parts = var.removeprefix("death:").split("+")
        return len(parts) < 2 or self.work.authorship == "individual" or {c.role for c in self.natural}.issuperset(parts)

    def people_of(self, var):
        """The natural creators an event such as death:known or death:director+screenplay speaks of."""
        wanted = var.split(":", 1)[1]
        if wanted == "known":
            found = [c for c in self.natural if c.facts.get("author_untraceable") is not True]
        else:
            roles = wanted.split("+")
            found = [c for c in self.natural if c.role in roles]
            if found:  # a person whose part is not recorded, or is called otherwise, may be one of them
                found += [c for c in self.natural if c.role not in roles and _may_be(c.role, roles)]
        return tuple(found) or self.natural

    def on_record(self, name):
        """True when a fact is recorded: a date, a yes or no, a country; for publications, one with a date;
        for legal_person, a maker that is one."""
        if name in OF_PUBLICATION:
            return any(getattr(p, OF_PUBLICATION[name]) is not None for p in self.work.publications)
        if name == "legal_person":
            return any(c.facts.get(name) is True for c in self.people)
        if name == "nationality":
            return any(c.nationality not in (None, (UNKNOWN,)) for c in self.people)
        value = self._given(name)
        return recorded(value) or value is True or value is False or (isinstance(value, str) and value != UNKNOWN)

    def published_there(self, country):
        """(first, last) day of the first dated publication in a country; None when none is dated."""
        state = self.laws.state
        spans = [bounds(p.date) for p in self.work.publications if p.date and state(p.country) == country]
        return (min(s[0] for s in spans), min(s[1] for s in spans)) if spans else None

    def dated(self, name, world):
        """(variable, first, last) of a dated fact in a world, or None when it has not happened."""
        if name.startswith("death:"):
            everyone = len(self.people_of(name)) == len(self.natural) and (name == "death:known" or not self._others()) and self._complete(name)
            var = "death" if everyone else name
            return (var, *world.span(var))
        fact, var = self.laws.vocabulary.facts[name], "@" + name  # the day; the bare name is whether it happened
        if not recorded(self._given(name)):
            if fact.absent == "publications.date":
                return world.event("publication")
            flag = name.removesuffix("_on")
            if not world.decided(flag if flag != name and flag in self.laws.vocabulary.facts else name):
                return None
            return (var, *world.span(var))
        first, last = world.span(var)
        if last <= world.as_of:
            return (var, first, last)
        if first > world.as_of:
            return None
        raise Split(var, ((first, world.as_of), (world.as_of + 1, last)))

    def _given(self, name):
        if name == "identity_disclosed":
            found = [c.identity_disclosed for c in self.people if c.identity_disclosed is not None]
            return found[0] if found else None
        fact = self.laws.vocabulary.facts[name]
        if fact.of == "creator":
            found = [c.facts[name] for c in self.people if name in c.facts]
            return max(found, key=lambda s: s.latest or NEVER, default=None) if all(map(recorded, found)) else UNKNOWN
        return self.work.facts.get(name)

    def default(self, name, world):
        """The domain of a discrete fact: as recorded, derived, presumed, or everything possible."""
        derive = _DERIVED.get(name)
        if derive:
            found = derive(self, world)
            if self._steady(name):
                self.fixed[name] = found
            return found
        fact = self.laws.vocabulary.facts[name]
        if fact.of == "creator" and fact.type == "bool":
            value = self._among(fact)
        else:
            value = self._given(name)
        if fact.type in ("country", "countries"):
            return self._countries(fact, value, world)
        if fact.type in ("edtf", "year"):
            value = True if recorded(value) else value
        if value is None:
            return self._absent(fact, world)
        found = self.fixed[name] = BOTH if value == UNKNOWN else YES if value else NO
        return found

    def _steady(self, name):
        """True for a derived domain that follows from the record alone: no presumption, no other branch, in it."""
        if name in ("origin", "made_available"):
            return self.start.dom["published"] is YES
        if name == "author_nationality":
            return name not in self.presumed
        return name in ("kind", "by_owner") or (name == "authorship" and bool(self.work.authorship))

    def _among(self, fact):
        if fact.name == "legal_person":  # who was born or died is a human being
            values = [c.facts.get(fact.name, False if c.born or c.died or c.alive else None) for c in self.people]
        else:
            values = [c.facts.get(fact.name) for c in self.natural]
        stop = fact.several != "all"
        if stop in values:
            return stop
        if not values or None in values:
            return None if UNKNOWN not in values else UNKNOWN
        return UNKNOWN if UNKNOWN in values or (not stop and self._others()) else not stop

    def _absent(self, fact, world):
        if fact.settled_by and self.on_record(fact.settled_by):
            self.fixed[fact.name] = NO
            return NO
        if fact.absent == "no" and not self._doubted(fact, world):
            self.presumed[fact.name] = "no"
            return NO
        if fact.absent != "no":
            self.fixed[fact.name] = BOTH
        return BOTH

    def _doubted(self, fact, world):
        test = self.laws.doubted.get(fact.name)
        if test is None:
            return False
        try:
            return test(world)
        except Split as cut:  # silence about how a work is credited is no hint of a government or a hidden maker
            world.memo[HAZY] = True
            return cut.var != "authorship"

    def _countries(self, fact, value, world):
        if value is None and fact.absent == "no" and not self._doubted(fact, world):
            self.presumed[fact.name] = "no"
            return frozenset(("none",))
        return frozenset((self.laws.state(value),)) if value and value != UNKNOWN else ANY


def _may_be(role, roles):
    return role is None or (len(roles) > 1 and role.lower() not in NO_AUTHORS)


def _flag(value, implied):
    if value is True or implied:
        return YES
    return NO if value is False else BOTH


def _kind(base, _world):
    return frozenset((base.work.kind,) if base.work.kind else base.laws.vocabulary.facts["kind"].choices)


def _authorship(base, _world):
    if base.work.authorship:
        return frozenset((base.work.authorship,))
    if len(base.natural) > 1 or (base.natural and (base.natural[0].name or base.natural[0].died)):
        base.presumed["authorship"] = "joint" if len(base.natural) > 1 else "individual"
        return frozenset((base.presumed["authorship"],))
    return frozenset(base.laws.vocabulary.facts["authorship"].choices)


def _origin(base, world):
    published = world.get("published")
    if len(published) > 1:
        raise Split("published", (YES, NO))
    if False in published:
        named = {base.laws.state(n) for c in base.people for n in c.nationality or (UNKNOWN,)}
        return frozenset(named) if named and UNKNOWN not in named else ANY
    return first_countries(base.work, base.laws) or ANY


def first_countries(work, laws):
    """The states of which one is that of first publication; None when it may be any.

    A territory where the law of a state applies counts as that state. Publication within thirty days is
    first publication too (Berne Convention, Article 3(4)), so each such place may be the country of origin.
    """
    spans = [bounds(p.date) for p in work.publications]
    if not spans:
        return None
    last = min(s[1] for s in spans) + SIMULTANEOUS
    found = {laws.state(p.country) for p, s in zip(work.publications, spans) if s[0] <= last}
    return None if None in found else frozenset(found)


def _nationality(base, _world):
    named = [c.nationality for c in base.people]
    if (UNKNOWN,) in named:  # looked for and not found: no presumption
        return ANY
    found = {base.laws.state(n) for names in named for n in names or ()}
    if not named or None in named:
        first = first_countries(base.work, base.laws)
        if first is None or len(first) > 1:
            return ANY
        base.presumed["author_nationality"] = "the country of first publication"
        found |= first
    return Having(found)


def _domicile(base, world):
    found = [c.facts.get("domicile") for c in base.people]
    known = Having(base.laws.state(d) for d in found if d and d != UNKNOWN)
    if known or UNKNOWN in found or base._doubted(base.laws.vocabulary.facts["domicile"], world):
        return known or ANY
    base.presumed["domicile"] = "the country of nationality"
    return world.get("author_nationality")


def _natural_author(base, _world):
    if base.natural:
        return YES
    if base.people:
        return NO
    if base.work.authorship in ("corporate", "government"):
        base.presumed["natural_author"] = "nobody named"
        return NO
    return BOTH


def _made_available(base, world):
    value = base.work.facts.get("made_available")
    if value is False and not base.work.publications:
        return NO
    if value == UNKNOWN:
        return BOTH
    published = world.get("published")
    if len(published) > 1:
        raise Split("published", (YES, NO))
    if value is None and base.start.dom["published"] is NO:
        base.presumed["made_available"] = "never shown"
    return published


def _by_owner(base, _world):
    values = {p.by_owner for p in base.work.publications}
    return YES if values == {True} else NO if values == {False} else BOTH


def _published(base, _world):
    return base.start.dom["published"]


_DERIVED = {"kind": _kind, "authorship": _authorship, "origin": _origin, "domicile": _domicile,
            "author_nationality": _nationality, "natural_author": _natural_author,
            "made_available": _made_available, "by_owner": _by_owner, "published": _published}


def contradiction(work, natural):
    """The names of two recorded facts that cannot both be true, or None."""
    made, shown = work.created, _first_last(work.publications)
    deaths = [c.died.latest if recorded(c.died) else None for c in natural]
    if _after(made, max(deaths) if deaths and None not in deaths else None):
        return ("created", "died")
    if _after(made, shown):
        return ("created", "publications.date")
    if work.published is False and work.publications:
        return ("published", "publications")
    if _after(work.facts.get("unpublished_on"), shown):
        return ("unpublished_on", "publications.date")
    return _of_person(work, natural) or _of_record(work)


def _after(span, day):
    return recorded(span) and span.earliest is not None and day is not None and span.earliest > day


def _first_last(publications):
    ends = [p.date.latest for p in publications if recorded(p.date) and p.date.latest is not None]
    return min(ends) if ends else None


def _of_person(work, natural):
    for person in natural:
        if recorded(person.died) and person.alive is True:
            return ("alive", "died")
        if recorded(person.born) and _after(person.born, person.died.latest if recorded(person.died) else None):
            return ("born", "died")
        if _untraceable_and_known(person, len(natural) == 1 and work.authorship in (None, "individual")):
            return ("author_untraceable", "alive" if person.alive is True else "died")
    if len(natural) == 1 and recorded(work.created) and _after(natural[0].born, work.created.latest):
        return ("born", "created")
    return None


def _untraceable_and_known(person, alone):
    """True when a maker of whom a life date is on record is also said to be unknown, and the term would turn on that."""
    if alone or person.facts.get("author_untraceable") is not True:
        return False
    known = person.alive is True or (recorded(person.died) and person.died.earliest is not None)
    return known and person.identity_disclosed is None


def _of_record(work):
    for flag, day in (("us_registered", "us_registered_on"), ("us_renewed", "us_renewed_on"),
                      ("made_available", "made_available_on")):
        if work.facts.get(flag) is False and recorded(work.facts.get(day)):
            return (flag, day)
    return None
