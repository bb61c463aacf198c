"""The labelled pairs of wording and mark: reading them, and what the matching makes of each."""

import csv
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

from registry.clearance.likeness import Likeness, prepared
from registry.clearance.marks import EXACT, Mark, Text, matches
from registry.catalogue.mark_rules import mark_rules, products
from registry.clearance.goods import goods
from registry.facts import edtf

FILE = Path(__file__).resolve().parent / "cases" / "mark_pairs.csv"
LABELS = {"same": "hold", "near": "caution", "unrelated": "nothing"}
DAY = edtf.day("2026-11-25")


@dataclass(frozen=True, slots=True)
class Pair:
    """One row: a mark, a wording, and by hand whether they are the same, near or unrelated."""

    id: str
    half: str
    label: str
    language: str
    mark: str
    wording: str
    note: str

    @property
    def expected(self):
        """hold, caution or nothing, for a live mark of the same class in the same market."""
        return LABELS[self.label]


@lru_cache(maxsize=1)
def pairs():
    """All Pairs of the file."""
    with open(FILE, encoding="utf-8", newline="") as file:
        return tuple(Pair(**row) for row in csv.DictReader(file))


def outcome(pair, **changed):
    """hold, caution or nothing, and the Found it rests on, for a live mark in class 20 at the office of the market."""
    mark = Mark("m1", pair.mark, owner="An invented owner", office="GB", number="invented", classes=(20,), state="live")
    made = goods("carved wooden sign", products())
    found = matches((Text("wording", prepared(pair.wording)),), (mark,), "GB", made, DAY, mark_rules())
    if not found:
        return "nothing", None
    return ("hold" if found[0].strength == EXACT else "caution"), found[0]


def tally(rows):
    """Counts for `hold` and for `caution`: right, wrongly said, missed; as {name: (right, said, wanted)}."""
    found = [(pair.expected, outcome(pair)[0]) for pair in rows]
    return {name: (sum(a == b == name for a, b in found), sum(b == name for _, b in found), sum(a == name for a, _ in found))
            for name in ("hold", "caution")}
