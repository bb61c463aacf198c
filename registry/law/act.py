"""The model of a jurisdiction: a chain of acts, and the entries around it. Data only."""

from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True)
class Rule:
    """One rule of law as shown to people: id, plain sentence, citation, how it is known."""

    id: str
    says: str
    cite: str
    how: str


@dataclass(frozen=True, slots=True)
class Term:
    """One term of an act: taken when `when` holds (None: always); `end(world)` is its Node."""

    rule: Rule
    when: object
    end: object


@dataclass(frozen=True, slots=True)
class Act:
    """One regime: from which day, for which works, what it does to works that already existed."""

    rule: Rule
    start: object
    existing: str
    applies: object
    revive_when: object
    compare: bool
    keep_longer: str | None
    terms: tuple
    carry: bool


@dataclass(frozen=True, slots=True)
class Entry:
    """A never, doubt, also or related entry; unused fields are None."""

    rule: Rule
    when: object
    start: int = 0
    term: object = None
    shortest: object = None
    longest: object = None
    after_expiry: object = None


@dataclass(frozen=True, slots=True)
class Law:
    """One jurisdiction's law; `raw` is the file as read, for pages that show it.

    `movable` is true when an act begins on a day that depends on the country of origin; `act_ids` are ids of the rules
    that are acts, `beside` of those that go with what is free.
    """

    code: str
    name: str
    checked: str
    covers: frozenset
    edge: str
    sources: dict
    never: tuple = ()
    acts: tuple = ()
    doubts: tuple = ()
    related: tuple = ()
    also: tuple = ()
    exempt: object = None
    compare_rule: Rule | None = None
    first_day: int = 0
    movable: bool = False
    act_ids: frozenset = frozenset()
    beside: frozenset = frozenset()
    raw: dict = field(default_factory=dict)
