"""Precision and recall of the matching of wording with marks, on the labelled pairs, half by half.

Thresholds were tuned on half a only; half b shows what that is worth on pairs it has not seen. Usage:

    python scripts/marks_report.py            figures
    python scripts/marks_report.py --wrong    also every pair that came out otherwise than labelled
"""

import argparse
import sys
from pathlib import Path

sys.path[:0] = [str(Path(__file__).resolve().parent.parent), str(Path(__file__).resolve().parent.parent / "tests")]

from mark_pairs import outcome, pairs, tally  # noqa: E402


def share(part, whole):
    """A share with its counts, such as 0.959 (93/97)."""
    return f"{part / whole:.3f} ({part}/{whole})" if whole else "none"


def report(rows, name):
    """Print precision and recall of both outcomes for some pairs."""
    print(f"{name}: {len(rows)} pairs, of {len({pair.language for pair in rows})} languages")
    for kind, (right, said, wanted) in tally(rows).items():
        print(f"  {kind:8} precision {share(right, said)}, recall {share(right, wanted)}")


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--wrong", action="store_true", help="list the pairs that came out otherwise than labelled")
    args = parser.parse_args()
    for half in ("a", "b"):
        report([pair for pair in pairs() if pair.half == half], f"half {half}" + (" (tuned on)" if half == "a" else " (not tuned on)"))
    report(pairs(), "both")
    for pair in pairs() if args.wrong else ():
        got, found = outcome(pair)
        if got != pair.expected:
            print(f"  {pair.id} {pair.expected} -> {got} ({found.likeness if found else '-'}): {pair.mark} | {pair.wording} | {pair.note}")


if __name__ == "__main__":
    main()
