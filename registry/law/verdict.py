"""The answer of one law about one work on one day: status, day it is free, reasons, questions."""

from dataclasses import dataclass

from registry.facts import edtf
from registry.law.act import Rule
from registry.law.engine import notes, replay
from registry.law.known import Base
from registry.law.node import Unsettled, before
from registry.law.world import EVER, NEVER, Others, Split

FREE, PROTECTED, OPEN = "public_domain", "in_copyright", "undetermined"
LIMIT = 200   # branches; beyond them too little is known
SAMPLE = 60   # branches compared pair by pair to find what to ask


@dataclass(frozen=True, slots=True)
class Question:
    """A fact that would settle more: its name, the question in plain words, where to look."""

    fact: str
    question: str
    where_to_look: str


@dataclass(frozen=True, slots=True)
class Verdict:
    """One answer; days are ordinals or None; `because` is set only when undetermined."""

    status: str
    free_from: int | None
    earliest: int | None
    latest: int | None
    why: tuple
    questions: tuple
    because: str | None
    branches: int = 1


@dataclass(frozen=True, slots=True)
class Leaf:
    """One branch with its result; lo and hi are the bounds of the last protected day."""

    result: str
    lo: int
    hi: int
    trail: tuple
    dom: dict
    fact: str | None = None


def judge(work, code, laws, as_of, base=None):
    """The Verdict of the law of `code` on a Work on a day (ordinal); pure, same input same answer."""
    law = laws.law(code)
    if law is None:
        return Verdict(OPEN, None, None, None, (laws.gap(code),), (), "not_covered")
    base = base or Base(work, laws, as_of)
    if base.conflict:
        return _contradiction(base, laws)
    base.forget()
    leaves, cuts, widest = _branches(law, base)
    if leaves is None:
        return _too_many(widest, laws)
    return _merge(law, base, leaves, cuts)


def _branches(law, base):
    todo, leaves, cuts, seen = [base.first()], [], {}, 0
    while todo:
        world = todo.pop()
        seen += 1
        if seen > LIMIT * 2 or len(leaves) > LIMIT:
            return None, cuts, cuts
        try:
            leaves.append(leaf_of(law, world))
        except Split as cut:
            cuts[cut.var] = cuts.get(cut.var, 0) + 1
            for part in reversed(cut.parts):
                branch = world.narrow(cut.var, part)
                if branch is not None:
                    todo.append(branch)
    return leaves, cuts, cuts


def leaf_of(law, world):
    """The Leaf of one branch; Split when a fact must be cut first."""
    try:
        end, trail = replay(law, world)
        result = FREE if before(end, world.as_of) else PROTECTED
        # over before the first act on file: the historic day is not known here
        first = EVER if end.hi < law.first_day else end.lo
        return Leaf(result, first, end.hi, trail, world.dom)
    except Unsettled as gap:
        trail = (gap.rule,) if gap.rule else ()
        return Leaf(gap.cause, EVER, NEVER, trail, world.dom, gap.fact)


def _merge(law, base, leaves, cuts):
    results = {leaf.result for leaf in leaves}
    if not leaves:
        return _contradiction(base, base.laws)
    status = next(iter(results)) if results in ({FREE}, {PROTECTED}) else OPEN
    lo, hi = min(leaf.lo for leaf in leaves), max(leaf.hi for leaf in leaves)
    earliest = None if lo <= EVER + 1 or lo >= NEVER - 1 else lo + 1
    latest = None if hi >= NEVER - 1 or hi <= EVER + 1 else hi + 1
    settled = earliest if status != OPEN and earliest == latest else None
    why = _reasons(law, leaves)
    if status == FREE:
        why += tuple(notes(law, base.first()))
    why += _policies(base)
    because = _because(results) if status == OPEN else None
    return Verdict(status, settled, earliest, latest, why, _questions(base, law, leaves, cuts, status), because, len(leaves))


def _policies(base):
    """The program's own rules that bear on the dates of this work."""
    work, program = base.work, base.laws.program
    spans = [work.created, *(c.died for c in work.creators), *(p.date for p in work.publications)]
    found = ("facts.doubtful-dates",) if any(s is not None and (s.uncertain or s.approximate) for s in spans) else ()
    found += ("facts.lifespan",) if "lifespan" in base.presumed else ()
    return tuple(program[name] for name in found)


def _because(results):
    if len(results) == 1:
        return next(iter(results))
    if results <= {"contested_law", "not_covered"}:
        return "contested_law"
    return "missing_fact"


def _reasons(law, leaves):
    seen = {}
    for leaf in leaves:
        for rule in leaf.trail:
            if rule is not None:
                seen[rule.id] = rule
        if leaf.result == "not_covered" and not leaf.trail:
            gap = Rule(f"{law.code.lower()}.edge", law.edge or "This kind of work is not covered by the rules on file.", f"{law.name}: limits of the file", "read")
            seen[gap.id] = gap
    return tuple(seen.values())


def _questions(base, law, leaves, cuts, status):
    weights = {}
    if status == OPEN:
        for var, weight in _turning(leaves, cuts).items():
            _count(weights, _fact_of(var, base), weight)
        for leaf in leaves:
            if leaf.fact:
                _count(weights, _shown(base, leaf.fact), 1)
        if not weights and len({leaf.result for leaf in leaves}) > 1:
            for var, count in cuts.items():
                _count(weights, _fact_of(var, base), count)
    ranked = sorted(weights, key=lambda name: (-weights[name], name))
    asked = [_ask(base, name) for name in ranked]
    return tuple(_confirmations(base, law, status) + asked)


def _turning(leaves, cuts):
    """How many pairs of branches each cut fact alone sets apart; reckoned on a sample when there are many."""
    sample = leaves[:: 1 + len(leaves) // SAMPLE]
    weights = {}
    for number, first in enumerate(sample):
        for second in sample[number + 1:]:
            if first.result != second.result:
                apart = [var for var in cuts if not _meet(first.dom.get(var), second.dom.get(var))]
                if len(apart) == 1:
                    _count(weights, apart[0], 1)
    return weights


def _meet(x, y):
    if x is None or y is None:
        return True
    if x.__class__ is tuple:
        return x[0] <= y[1] and y[0] <= x[1]
    if x.__class__ is Others or y.__class__ is Others:
        if x.__class__ is y.__class__:
            return True
        some, other = (y, x) if x.__class__ is Others else (x, y)
        return bool(some - other.out)
    return not x.isdisjoint(y)


def _count(weights, name, weight):
    weights[name] = weights.get(name, 0) + weight


_NAMES = {"creation": "created", "death": "died", "disclosure": "made_available_on", "publication": "publications.date",
          "author_nationality": "nationality", "natural_author": "creators"}


def _fact_of(var, base):
    name = _bare(var)
    if name == "origin":
        return "publications.country" if base.work.publications or base.work.published is not False else "nationality"
    return _shown(base, _NAMES.get(name, name))


def _bare(var):
    """The fact behind a variable such as death:director, @us_renewed_on or publication<death."""
    return var.split("<")[0].split(":")[0].removeprefix("@")


def _shown(base, name):
    fact = base.laws.vocabulary.facts[name]
    return fact.shown or fact.name


def _ask(base, name):
    fact = base.laws.vocabulary.facts[name]
    doubt = _doubtful(base.work, name)
    return Question(name, fact.question + doubt, fact.where)


def _doubtful(work, name):
    spans = {"created": [work.created], "died": [c.died for c in work.creators],
             "publications.date": [p.date for p in work.publications]}.get(name, ())
    if any(s is not None and (s.uncertain or s.approximate) for s in spans):
        return (" (The date on record is marked doubtful or approximate and was reckoned with five years either side,"
                " ten when marked as both.)")
    return ""


def _confirmations(base, law, status):
    """The presumptions an answer rests on, as things to confirm: each is flipped and tried."""
    if status != FREE:
        return []
    found = []
    for name in sorted(base.touched):
        fact = base.laws.vocabulary.facts[_NAMES.get(name, name)]
        if not fact.frees and _flips(base, law, name):
            taken = base.presumed.get(name) or base.presumed.get(fact.name)
            found.append(Question(fact.shown or fact.name, f"Please confirm: {fact.question} (Nothing is recorded; taken as: {taken}.)", fact.where))
    return found


def _flips(base, law, name):
    """True when the opposite of a presumption would end the answer "free"."""
    world = base.first()
    world.dom[name] = _opposite(base, name)
    todo, seen = [world], 0
    while todo and seen < LIMIT:
        branch = todo.pop()
        seen += 1
        try:
            if leaf_of(law, branch).result != FREE:
                return True
        except Split as cut:
            todo += [b for b in (branch.narrow(cut.var, part) for part in cut.parts) if b is not None]
    return bool(todo)


def _opposite(base, name):
    if name == "authorship":
        return frozenset(base.laws.vocabulary.facts[name].choices) - {base.presumed[name]}
    return Others(("none",)) if name in ("government_of", "author_nationality", "domicile") else frozenset((True,))


def _contradiction(base, laws):
    first, second = base.conflict or ("created", "died")
    one, two = (laws.vocabulary.facts[n] if n in laws.vocabulary.facts else None for n in (first, second))
    rule = laws.program["facts.contradiction"]
    asked = tuple(Question(f.shown or f.name, f"{f.question} (It contradicts {other}.)", f.where)
                  for f, other in ((one, second), (two, first)) if f)
    return Verdict(OPEN, None, None, None, (rule,), asked, "missing_fact")


def _too_many(cuts, laws):
    rule = laws.program["facts.too-little"]
    names = sorted(cuts, key=lambda var: (-cuts[var], var))[:3]
    known = ["country" if _bare(n) == "origin" else _NAMES.get(_bare(n), _bare(n)) for n in names]
    asked = tuple(Question(laws.vocabulary.facts[n].shown or n, laws.vocabulary.facts[n].question, laws.vocabulary.facts[n].where)
                  for n in dict.fromkeys(known) if n in laws.vocabulary.facts)
    return Verdict(OPEN, None, None, None, (rule,), asked, "missing_fact")


def as_json(identity, code, as_of, verdict):
    """The batch contract's object for one work and place; days as ISO text."""
    return {
        "id": identity, "jurisdiction": code, "as_of": edtf.iso(as_of), "status": verdict.status,
        "free_from": edtf.iso(verdict.free_from),
        "free_from_earliest": edtf.iso(verdict.earliest), "free_from_latest": edtf.iso(verdict.latest),
        "why": [{"id": r.id, "says": r.says, "cite": r.cite, "how": r.how} for r in verdict.why],
        "open": [{"fact": q.fact, "question": q.question, "where_to_look": q.where_to_look} for q in verdict.questions],
        "undetermined_because": verdict.because,
    }
