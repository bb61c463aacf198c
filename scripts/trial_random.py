#!/usr/bin/env python3
"""Random facts in random places from a fixed seed: no crash, no answer overturned, no "free" that hangs on an early date.

Usage: scripts/trial_random.py [--works 1000000] [--seed 1] [--on 2026-07-01]
For every work: the answer is made; the facts are narrowed once and a settled answer must stay; a "free"
must stay free when every date is read at its latest. Prints the tally; exit 1 when anything failed.
"""

import argparse
import copy
import json
import random
import sys
from collections import Counter
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
sys.path[:0] = [str(ROOT), str(ROOT / "tests")]

from randoms import narrowed, some_facts  # noqa: E402

from registry.facts import edtf  # noqa: E402
from registry.facts.work import read_work  # noqa: E402
from registry.law.verdict import judge  # noqa: E402
from registry.rulebook import covered, rulebook  # noqa: E402


def latest(facts):
    """The same facts with every date at its latest day, doubt marks dropped; None when an end is open."""
    late = copy.deepcopy(facts)
    holders = [(late, "created")] + [(c, "died") for c in late["creators"]] + [(p, "date") for p in late.get("publications", ())]
    for holder, key in holders:
        if key in holder:
            day = edtf.parse(holder[key]).latest
            if day is None:
                return None
            holder[key] = edtf.iso(day)
    deaths = [c["died"] for c in late["creators"] if "died" in c]
    if deaths and late.get("created", "") > min(deaths):
        return None  # the latest readings of two dates need not be possible together
    return late


def main():
    """0 when nothing failed."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--works", type=int, default=1_000_000)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--on", default="2026-07-01")
    args = parser.parse_args()
    dice, day, codes = random.Random(args.seed), edtf.day(args.on), covered()
    tally, because, failures = Counter(), Counter(), []
    for number in range(args.works):
        facts, place = some_facts(dice, number), dice.choice(codes)
        verdict = ask(facts, place, day)
        tally[verdict.status] += 1
        because[verdict.because] += 1
        for name, other in (("narrowed", narrowed(dice, facts, edtf)), ("latest", latest(facts))):
            failures += check(name, verdict, other, place, day, facts)
    print(f"{args.works} works in {len(codes)} places, seed {args.seed}:", dict(tally))
    print("undetermined because:", {k: v for k, v in because.items() if k})
    print(f"failures: {len(failures)}")
    for line in failures[:20]:
        print("  ", line)
    return 1 if failures else 0


def ask(facts, place, day):
    """The verdict about a facts object."""
    book = rulebook()
    return judge(read_work(facts, book.vocabulary), place, book.laws, day)


def check(name, verdict, other, place, day, facts):
    """A list of one line when the other reading of the facts overturns the answer."""
    if other is None or verdict.status == "undetermined" or (name == "latest" and verdict.status != "public_domain"):
        return []
    after = ask(other, place, day)
    if after.status == verdict.status or any(rule.id == "facts.contradiction" for rule in after.why):
        return []
    return [f"{place} {name}: {verdict.status} became {after.status}: {json.dumps(facts)} -> {json.dumps(other)}"]


if __name__ == "__main__":
    sys.exit(main())
