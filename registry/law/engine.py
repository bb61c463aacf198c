"""The replay: one branch of facts through the chain of acts of one jurisdiction on one day."""

from registry.law.node import ENDLESS, NOTHING, Unsettled, before, between, least, most, unknown
from registry.law.world import EVER, HAZY, NEVER, Others, Split, World


PERHAPS = "perhaps"  # names what is noted of doubts that may apply
FEW = 4  # countries of origin worth trying one by one


def replay(law, world, compare=True):
    """(end Node, trail of Rules) of one branch; raises Split or Unsettled. Never asks twice."""
    doubted, perhaps = None, world.memo.get((law.code, compare, PERHAPS), ())
    if (law.code, compare) not in world.memo:  # a branch that was cut within the chain has passed these
        _covered(law, world)
        for entry in law.never:
            if entry.when(world):
                return NOTHING, (entry.rule,)
        doubted, perhaps = _doubted(law, world)
        world.memo[(law.code, compare, PERHAPS)] = perhaps
    end, trail = doubted or _chain(law, world, compare)
    for entry, gap in perhaps:
        end, trail = _perhaps(entry, gap, world, end, trail)
    if end is None:
        raise Unsettled("not_covered")
    for entry in law.related:
        # a right that follows the main term comes on top of a doubt; longer readings of the main term are its own matter
        if doubted is None or entry.after_expiry is not None:
            end, trail = _related(entry, world, end, trail)
    return end, trail


def _doubted(law, world):
    """(end, trail) of the first doubt that applies, None when none does; and pairs of the doubts before it of which that is
    open at home, with the Unsettled that says so."""
    perhaps = []
    for entry in law.doubts:
        if entry.start > world.as_of:
            continue
        try:
            if entry.when(world):
                return (entry.term(world), (entry.rule,)), tuple(perhaps)
        except Unsettled as gap:
            perhaps.append((entry, gap))
    return None, tuple(perhaps)


def _perhaps(entry, gap, world, end, trail):
    """(end, trail) where a doubt may apply or not: both readings count."""
    if end is None:
        raise gap
    both = (end, entry.term(world))
    return between(least(both), most(both), gap.cause, gap.rule or entry.rule), (*trail, entry.rule)


def _covered(law, world):
    kinds = world.get("kind")
    if kinds <= law.covers:
        return
    inside = kinds & law.covers
    if inside:
        raise Split("kind", (inside, kinds - inside))
    raise Unsettled("not_covered")


def _chain(law, world, compare):
    """(end, trail) of the acts in force, taken up where the branch stood when it was cut."""
    acts, name = _in_force(law, world), (law.code, compare)
    reached, end, trail = world.memo.get(name, (0, None, ()))
    number = reached
    try:
        for number in range(reached, len(acts)):
            end, trail = _passed(law, world, compare, acts[number], end, trail)
    except Split:
        world.memo[name] = (number, end, trail)
        raise
    return end, trail


def _passed(law, world, compare, entry, end, trail):
    """(end, trail) after one act (act, day of its start)."""
    act, start = entry
    if act.applies is not None and not act.applies(world):
        return end, trail
    alive = end is None or not before(end, start)
    if not alive and (act.existing == "if_protected" or _spent(act, world, start) or not _revives(act, world)):
        return end, (*trail, act.rule)
    if alive and end is not None and act.existing == "revive_only":
        return end, trail
    term = _choose(act, world)
    return (end, trail) if term is None else _enter(law, act, term, world, end if alive else None, trail, compare)


def _in_force(law, world):
    as_of, found = world.as_of, world.memo.get(law.code)
    if found is not None:
        return found
    found = []
    for act in law.acts:
        start = act.start if act.start.__class__ is int else act.start(world)
        if start is not None and start <= as_of:
            found.append((act, start))
    if law.movable:
        found.sort(key=_start)  # stable: acts of one day keep the order of the file
    world.memo[law.code] = found
    return found


def _start(item):
    return item[1]


def _spent(act, world, start):
    """True when even the new term was over before the act began, so that nobody needs to ask whether it revives."""
    try:
        term = _choose(act, world)
        return term is not None and term.end(world).hi < start
    except Split:
        world.memo[HAZY] = True
        return False


def _revives(act, world):
    return act.revive_when is None or act.revive_when(world)


def _choose(act, world):
    for term in act.terms:
        if term.when is None or term.when(world):
            return term
    return None


def _enter(law, act, term, world, old, trail, compare):
    new, rules = term.end(world), (act.rule, term.rule)
    if act.keep_longer == "before" and old is not None:
        new, rules = most((old, new)), (*trail, *rules)
    if act.compare and compare:
        new, rules = _compared(law, world, new, rules)
    if act.keep_longer == "after" and old is not None:
        new, rules = most((old, new)), (*trail, *(r for r in rules if r not in trail))
    return new, rules


def _compared(law, world, new, rules):
    if law.exempt is not None and law.exempt(world):
        return new, rules
    home, trail = home_end(law, world, law.compare_rule)
    if home is ENDLESS:
        return new, rules
    return least((new, home)), (*rules, law.compare_rule, *trail)


def home_end(law, world, rule):
    """(end Node, trail) under the law of the country of origin, without comparison; ENDLESS at home."""
    origin = world.get("origin")
    if origin.__class__ is Others or len(origin) > FEW:
        published = True in world.get("published")
        return unknown("missing_fact", rule, "country" if published else "nationality"), ()
    if len(origin) > 1:
        first = sorted(origin)[0]
        raise Split("origin", (frozenset((first,)), origin - {first}))
    code = next(iter(origin))
    if law is not None and code == law.code:
        return ENDLESS, ()
    home = world.base.laws.law(code)
    if home is None or home is law:
        return (ENDLESS, ()) if home else (unknown("not_covered", rule), ())
    return _at_home(home, world, rule)


def _at_home(home, world, rule):
    asked = (home.code, world.as_of)
    if asked in world.base.asking:  # a home law that itself asks whether it protects the work
        return unknown("contested_law", rule), ()
    world.base.asking.append(asked)
    try:
        end, trail = replay(home, world, compare=False)
    except Unsettled as gap:
        return unknown(gap.cause, gap.rule or rule, gap.fact), ()
    finally:
        world.base.asking.pop()
    if end is NOTHING:
        return unknown("contested_law", rule), trail
    return end, trail


def home_protected(world, day, fact):
    """True when the home law protected the work on that day; Unsettled names `fact` as what to ask."""
    then = World(world.dom, world.base, day)
    try:
        end, _trail = home_end(None, then, world.base.laws.program["facts.home-law"])
    finally:
        if HAZY in then.memo:
            world.memo[HAZY] = True
    try:
        return not before(end, day)
    except Unsettled:
        if fact is None:
            raise
        world.memo[HAZY] = True
        return world.decided(fact)


def _related(entry, world, end, trail):
    if entry.start > world.as_of or not entry.when(world):
        return end, trail
    right = entry.term(world)
    if right.hi <= end.lo:
        return end, trail
    later = most((end, right))
    if entry.after_expiry is not None:
        try:
            if not _came_after(entry.after_expiry(world), end):
                return end, trail
        except Unsettled as gap:  # it is open whether the main term was over by then
            later = between(end, later, gap.cause, gap.rule)
    return later, (*trail, entry.rule)


def _came_after(event, end):
    """True when an event came only after protection had ended; cuts the event where that differs."""
    if event is None:
        return False
    var, first, last = event
    for day in (end.lo, end.hi):
        if first <= day < last:
            raise Split(var, ((first, day), (day + 1, last)))
    return before(end, first)


def notes(law, world):
    """The "free but beware" rules of a law that may concern this branch."""
    found = []
    for entry in law.also:
        try:
            if entry.when is None or entry.when(world):
                found.append(entry.rule)
        except Split:
            found.append(entry.rule)
    return found


__all__ = ["EVER", "NEVER", "home_end", "home_protected", "notes", "replay"]
