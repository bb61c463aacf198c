#!/usr/bin/env python3
"""Run US renewal records through `registry assess` and print the tally.

Usage: scripts/trial_renewals.py FILE.csv [--on DAY]
FILE has the columns reg_number, reg_class, reg_date, renewal_date, window. Every renewed registration
is taken as published with notice in the US in its registration year; classes ending in U as registered
unpublished on that day. Expected: protected to the end of the 95th year after it (the 75th for 1922:
those terms were over before they were lengthened in October 1998). A second tally uses
the day of renewal: a renewal wholly outside its window is void.
"""

import argparse
import csv
import json
import subprocess
import sys
from collections import Counter

KINDS = {"F": "map", "G": "sculpture", "H": "print", "I": "drawing", "J": "photograph", "K": "print"}


def facts(row, dated=False):
    """The facts object of one renewal record; `dated` adds the day of renewal and the exact first day."""
    day, unpublished = row["reg_date"], row["reg_class"].endswith("U")
    found = {"id": row["reg_number"], "kind": KINDS[row["reg_class"][0]], "us_notice": True,
             "us_registered": True, "us_renewed": True, "published": not unpublished}
    if unpublished:
        found["us_registered_on"] = day
    else:
        found["publications"] = [{"date": day if dated else day[:4], "country": "US"}]
    if dated and row["renewal_date"]:
        found["us_renewed_on"] = row["renewal_date"]
    return found


def expected(row):
    """The first free day: 1 January after the 95th year; after the 75th for years before 1923, over before 1998."""
    year = int(row["reg_date"][:4])
    return f"{year + (96 if year >= 1923 else 76)}-01-01"


def assess(objects, on):
    """One answer a line from the command, in order."""
    lines = "\n".join(json.dumps(o) for o in objects) + "\n"
    code = "import sys; from registry.cli import main; sys.exit(main(sys.argv[1:]))"
    done = subprocess.run([sys.executable, "-c", code, "assess", "-", "--in", "US", "--on", on],
                          input=lines, capture_output=True, text=True, check=False)
    sys.stderr.write(done.stderr)
    return [json.loads(line) for line in done.stdout.splitlines()]


def main():
    """0 when every record answers as expected."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("file")
    parser.add_argument("--on", default="2026-07-01")
    args = parser.parse_args()
    with open(args.file, encoding="utf-8", newline="") as table:
        rows = list(csv.DictReader(table))
    answers = assess([facts(row) for row in rows], args.on)
    wrong = [(row, got) for row, got in zip(rows, answers, strict=True) if not fits(row, got, args.on)]
    print(f"{len(rows)} records; by class:", dict(sorted(Counter(r["reg_class"] for r in rows).items())))
    print("answers:", dict(Counter(got["status"] for got in answers)))
    print(f"protected to the end of the 95th year, 1922 of the 75th: {len(rows) - len(wrong)}; otherwise: {len(wrong)}")
    for row, got in wrong[:20]:
        print("  ", row["reg_number"], row["reg_date"], got["status"], got["free_from"], "expected", expected(row))
    dated = assess([facts(row, True) for row in rows], args.on)
    print("with the day of renewal, by window of the record:")
    for (window, status), count in sorted(Counter((r["window"], a["status"]) for r, a in zip(rows, dated, strict=True)).items()):
        print(f"   {window:30} {status:15} {count}")
    return 1 if wrong else 0


def fits(row, got, on):
    """True when the answer is protection to the end of the 95th year, free from the day after."""
    day = expected(row)
    return got["free_from"] == day and got["status"] == ("public_domain" if day <= on else "in_copyright")


if __name__ == "__main__":
    sys.exit(main())
