#!/usr/bin/env python3
"""How the worked cases come out: per place, answers as expected or not, and the share of "undetermined" with its reasons.

Usage: scripts/case_report.py     Exit 1 when a protected case is called free.
"""

import sys
from collections import Counter
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
sys.path[:0] = [str(ROOT), str(ROOT / "tests")]

from rows import SHARED, answer, disputed, own_files, rows  # noqa: E402


def main():
    """0 when no protected case is called free."""
    off, tally, because, wrong = disputed(), Counter(), Counter(), []
    for name in (*SHARED, *own_files()):
        for row in rows(name):
            got, expected = answer(row["facts"], row["jurisdiction"], row["as_of"]), row["expected"]
            fits = got["status"] == expected["status"] and expected["free_from"] in (None, got["free_from"])
            set_ = "published" if name in SHARED else "own"
            tally[set_, "disputed" if (name, row["facts"]["id"]) in off else "as expected" if fits else "differs"] += 1
            tally[set_, got["status"]] += 1
            because[got["undetermined_because"]] += 1
            if got["status"] == "public_domain" and expected["status"] == "in_copyright":
                wrong.append(row["facts"]["id"])
    for set_ in ("published", "own"):
        total = sum(tally[set_, what] for what in ("as expected", "differs", "disputed"))
        print(f"{set_} cases: {total};", ", ".join(f"{what} {tally[set_, what]}" for what in ("as expected", "differs", "disputed")),
              f"; undetermined {tally[set_, 'undetermined']} ({100 * tally[set_, 'undetermined'] / total:.1f} %)")
    print("undetermined because:", {reason: count for reason, count in because.items() if reason})
    print("protected but called free:", wrong or "none")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
