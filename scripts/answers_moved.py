#!/usr/bin/env python3
"""Which answers a change of the rules moved: the data of an older commit against the data here.

Usage: scripts/answers_moved.py COMMIT [--works 2000] [--on DAY]
Asks every worked case and a fixed random sample of works under both sets of rules (with the engine as it
is here) and prints, per market, how many answers moved and from what to what. Exit 1 when any moved.
"""

import argparse
import random
import subprocess
import sys
from collections import Counter
from datetime import date
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
sys.path[:0] = [str(ROOT), str(ROOT / "tests")]

from randoms import PLACES, some_facts  # noqa: E402
from rows import SHARED, own_files, rows  # noqa: E402

from registry.facts import edtf  # noqa: E402
from registry.facts.work import read_work  # noqa: E402
from registry.law.verdict import judge  # noqa: E402
from registry.rulebook import build, rulebook  # noqa: E402


def older(commit):
    """A reader of data files as they stood in a commit."""

    def read(*parts):
        done = subprocess.run(["git", "-C", str(ROOT), "show", f"{commit}:metadata/{'/'.join(parts)}"],
                              capture_output=True, text=True, check=False)
        if done.returncode:
            raise FileNotFoundError(parts[-1])
        return done.stdout

    return read


def questions(works, on):
    """(label, facts, place, day) of all cases and of the random sample."""
    for name in (*SHARED, *own_files()):
        for row in rows(name):
            yield row["facts"]["id"], row["facts"], row["jurisdiction"], edtf.day(row["as_of"])
    dice = random.Random(20261125)
    for number in range(works):
        facts = some_facts(dice, number)
        for place in PLACES:
            yield f"random {number}", facts, place, on


def main():
    """0 when nothing moved."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("commit")
    parser.add_argument("--works", type=int, default=2000)
    parser.add_argument("--on", default=date.today().isoformat())
    args = parser.parse_args()
    old, new = build(older(args.commit)), rulebook()
    moved, asked, examples = Counter(), Counter(), {}
    for label, facts, place, day in questions(args.works, edtf.day(args.on)):
        before, after = (_short(book, facts, place, day) for book in (old, new))
        asked[place] += 1
        if before != after:
            moved[place, before[0], after[0]] += 1
            examples.setdefault((place, before[0], after[0]), label)
    for (place, was, now), count in sorted(moved.items()):
        print(f"{place}: {count} of {asked[place]} from {was} to {now}, for example {examples[place, was, now]}")
    print(f"{sum(moved.values())} of {sum(asked.values())} answers moved.")
    return 1 if moved else 0


def _short(book, facts, place, day):
    verdict = judge(read_work(facts, book.vocabulary), place, book.laws, day)
    return verdict.status, verdict.free_from


if __name__ == "__main__":
    sys.exit(main())
