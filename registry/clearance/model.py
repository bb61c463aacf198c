"""What a clearance is asked about, and what it answers: plain frozen records, no behaviour.

Days are day numbers (ordinals). Keys are the shop's own handles of works, permissions, marks and jobs.
"""

from dataclasses import dataclass, field

from registry.facts.work import Work

NO_BAR, OPEN, HOLD = "no_bar_found", "not_settled", "hold"
WORST = {NO_BAR: 0, OPEN: 1, HOLD: 2}
COPY, NEW, UNKNOWN = "faithful_copy", "new_expression", "unknown"
SOON, NEVER = -(10**8), 10**8   # bounds of the day on which something clears: it is clear; no day is known


# --- what is given ---------------------------------------------------------------------------------

@dataclass(frozen=True, slots=True)
class Terms:
    """Terms under which a copy was taken from its supplier: their text, who set them, when accepted."""

    text: str
    supplier: str = ""
    accepted: str = ""


@dataclass(frozen=True, slots=True)
class Layer:
    """One work in one version: what is known of it, the version beneath, what it introduced."""

    key: str
    title: str
    work: Work
    based_on: str | None = None
    originality: str = UNKNOWN
    traits: tuple = ()
    terms: Terms | None = None
    own: bool = False


@dataclass(frozen=True, slots=True)
class Permission:
    """A licence, purchase or release for one work. None and () mean that the document says nothing.

    `places` are codes and groups or ("world",); `first` and `last` days are inside; quantity None: no limit.
    """

    key: str
    work: str
    kind: str = "licence"
    licensor: str = ""
    spdx: str | None = None
    uses: tuple = ()
    places: tuple = ()
    media: tuple = ()
    quantity: int | None = None
    first: int | None = None
    last: int | None = None
    exclusive: bool | None = None
    commercial: bool | None = None
    changes_allowed: bool | None = None
    credit_line: str = ""
    document: str = ""


@dataclass(frozen=True, slots=True)
class Use:
    """One work in a job: its part, the traits the product shows (none named: all), what was changed by hand ("": not
    recorded, which is not "unchanged").
    """

    work: str
    part: str = "picture"
    traits: tuple = ()
    changes: str = ""


@dataclass(frozen=True, slots=True)
class JobFacts:
    """One order or product run; `markets` are places, groups, or "EU minus ES"; `due` a day or None."""

    key: str
    product: str = ""
    purpose: str = "sale"
    markets: tuple = ()
    quantity: int | None = None
    wording: str = ""
    lettering: str = ""
    due: int | None = None
    uses: tuple = ()


@dataclass(frozen=True, slots=True)
class OtherJob:
    """Another job that draws on the same permissions: how many pieces, of which works, where, when.

    `works` are the works it uses and all beneath them; `places` codes (none: everywhere).
    """

    key: str
    quantity: int | None
    works: tuple
    places: tuple = ()
    day: int | None = None


@dataclass(frozen=True, slots=True)
class Match:
    """A mark that was found to match: `strength` is exact-same-goods-live (holds) or weaker (is listed).

    `places` are codes; `ask` names what to find out about the mark, if anything.
    """

    mark: str
    words: str
    places: tuple
    strength: str
    says: str
    caution: str = ""
    ask: str | None = None
    question: str = ""
    where: str = ""


@dataclass(frozen=True, slots=True)
class Caution:
    """Something to beware of beside copyright; `places` are codes (none: everywhere). It changes no status.

    `action`: first (do or look up something before selling) or also (to be kept in mind).
    """

    id: str
    says: str
    cite: str = ""
    how: str = "memory"
    places: tuple = ()
    work: str | None = None
    title: str = ""
    action: str = "also"


@dataclass(frozen=True, slots=True)
class Case:
    """All that one job is judged on: the job, every version of its works by key, permissions, other jobs, marks."""

    job: JobFacts
    layers: dict = field(default_factory=dict)
    permissions: tuple = ()
    others: tuple = ()
    matches: tuple = ()
    cautions: tuple = ()


# --- what is answered ------------------------------------------------------------------------------

@dataclass(frozen=True, slots=True)
class Ask:
    """Something to find out. `kind`: settle (a fact), lift (a way out of a hold), first (do it before selling),
    confirm (a silent presumption). `about` is a key of a work, permission, mark or job; `extra` what an answer needs.
    """

    fact: str
    about: str
    question: str
    where: str = ""
    kind: str = "settle"
    extra: str = ""


@dataclass(frozen=True, slots=True)
class Ranked:
    """An Ask with what it is worth: pairs of market and job that its best answer settles, and pairs that wait for it."""

    ask: Ask
    settles: int = 0
    surely: int = 0
    waiting: int = 0
    outcomes: tuple = ()


@dataclass(frozen=True, slots=True)
class LayerAnswer:
    """What one layer means in one place. `status` is that of copyright; `earliest` and `latest` bound the day it clears."""

    work: str
    title: str
    part: str
    role: str
    status: str
    decision: str
    says: str
    rules: tuple = ()
    earliest: int = SOON
    latest: int = SOON
    permission: str | None = None
    lacks: tuple = ()
    cautions: tuple = ()
    asks: tuple = ()
    credit: str = ""


@dataclass(frozen=True, slots=True)
class TraitAnswer:
    """One trait in one place: the version that first shows it, the year, and from which day it may be used."""

    trait: str
    work: str | None
    shown: str
    decision: str
    free_from: int | None = None


@dataclass(frozen=True, slots=True)
class PlaceAnswer:
    """The answer for a job in one place; `advice` is the sentence of what to leave off, "" when nothing is to be;
    `assumed` are sentences of what was taken as not shown.
    """

    place: str
    decision: str
    sentence: str
    reasons: tuple
    layers: tuple
    traits: tuple
    leave_off: tuple
    cautions: tuple
    asks: tuple
    free_from: int | None
    earliest: int
    latest: int
    matches: tuple = ()
    advice: str = ""
    assumed: tuple = ()


@dataclass(frozen=True, slots=True)
class MarketAnswer:
    """The answer for a job in one market: a place, or a group, where the worst member counts and is named."""

    market: str
    decision: str
    sentence: str
    places: tuple
    held_by: tuple = ()
    not_on_file: tuple = ()
    leave_off: tuple = ()
    cautions: tuple = ()
    asks: tuple = ()
    free_from: int | None = None
    assumed: tuple = ()


@dataclass(frozen=True, slots=True)
class JobAnswer:
    """The answer for a job on one day: market by market, what to find out next, credits owed, what to keep in mind."""

    job: str
    day: int
    markets: tuple
    next: tuple = ()
    first: tuple = ()
    confirm: tuple = ()
    credits: tuple = ()
    notes: tuple = ()

    @property
    def clear(self):
        """True when no bar was found in any market, and there is a market."""
        return bool(self.markets) and all(m.decision == NO_BAR for m in self.markets)
