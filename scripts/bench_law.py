#!/usr/bin/env python3
"""Speed of the law engine and of the batch command, on ordinary works from a fixed seed.

Usage: scripts/bench_law.py [--works 10000] [--places US,CA,...]
Prints verdicts a second on one core (no memo, with trail), and seconds and peak memory of
`registry assess` over the works in ten places, for the whole number and for a tenth of it.
"""

import argparse
import json
import random
import resource
import subprocess
import sys
import tempfile
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
sys.path.insert(0, str(ROOT))

from registry.facts.work import read_work  # noqa: E402
from registry.facts import edtf  # noqa: E402
from registry.law.verdict import judge  # noqa: E402
from registry.rulebook import places, rulebook  # noqa: E402

TEN = "US,CA,GB,DE,FR,ES,IT,NL,AU,JP"
KINDS = ("drawing", "painting", "print", "photograph")


def ordinary(dice, number):
    """The facts of a work as a shop records it: one maker with a year of death, one publication, few gaps."""
    home, year = dice.choice(("US", "GB", "FR", "DE", "CA")), dice.randint(1890, 1985)
    facts = {"id": f"B{number}", "title": f"Work {number}", "kind": dice.choice(KINDS), "authorship": "individual",
             "creators": [{"name": f"Maker {number % 977}", "died": str(year + dice.randint(1, 40)), "nationality": [home]}],
             "created": str(year), "published": True, "publications": [{"date": str(year), "country": home}],
             "simple_photograph": False}
    if home == "US":
        facts |= {"us_notice": True, "us_renewed": dice.random() < 0.5}
    else:
        facts |= {"us_published_within_30_days": False, "us_notice": dice.random() < 0.5, "us_renewed": False}
    return facts


def main():
    """Print the figures."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--works", type=int, default=10_000)
    parser.add_argument("--places", default=TEN)
    args = parser.parse_args()
    dice = random.Random(7)
    works = [ordinary(dice, number) for number in range(args.works)]
    verdicts(works[:1000], places(args.places.split(",")))
    for count in (args.works // 10, args.works):
        batch(works[:count], args.places)


def verdicts(facts, codes):
    """Print verdicts a second for each place and for all."""
    book, day = rulebook(), edtf.day("2026-07-01")
    works = [read_work(one, book.vocabulary) for one in facts]
    total = 0.0
    for code in codes:
        judge(works[0], code, book.laws, day)
        start = time.perf_counter()
        for work in works:
            judge(work, code, book.laws, day)
        spent = time.perf_counter() - start
        total += spent
        print(f"{code}: {len(works) / spent:8.0f} verdicts a second")
    print(f"all: {len(works) * len(codes) / total:8.0f} verdicts a second")


def batch(facts, codes):
    """Print seconds and peak memory of the batch command over these works."""
    with tempfile.TemporaryDirectory() as folder:
        path, out = Path(folder) / "works.jsonl", Path(folder) / "answers.jsonl"
        path.write_text("".join(json.dumps(one) + "\n" for one in facts), encoding="utf-8")
        command = [sys.executable, "-c", "import sys; from registry.cli import main; sys.exit(main(sys.argv[1:]))",
                   "assess", str(path), "--in", codes, "--on", "2026-07-01"]
        start = time.perf_counter()
        with open(out, "w", encoding="utf-8") as sink:
            subprocess.run(command, stdout=sink, check=True, cwd=ROOT)
        spent = time.perf_counter() - start
        peak = resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss / 1024
        answers = sum(1 for _ in open(out, encoding="utf-8"))
    print(f"assess: {len(facts)} works, {answers} answers, {spent:.1f} s, peak so far {peak:.0f} MB")


if __name__ == "__main__":
    main()
