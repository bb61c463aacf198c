#!/usr/bin/env python3
"""What wants a look in the law files: sources nobody cites, sources without an address, files not compared for two years.

Usage: scripts/law_lint.py [--on DAY] [--years 2]
What the loader refuses (a rule without id, sentence or citation, acts out of order, unknown words) is printed too.
Exit 1 when a file is refused, cites nothing of a source, or was last compared too long ago.
"""

import argparse
import sys
import tomllib
from collections import Counter
from datetime import date
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
sys.path.insert(0, str(ROOT))

from registry import data  # noqa: E402
from registry.errors import BadLaw  # noqa: E402
from registry.law.coverage import entries  # noqa: E402
from registry.rulebook import rulebook  # noqa: E402


def main():
    """0 when nothing wants a look."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--on", type=date.fromisoformat, default=date.today())
    parser.add_argument("--years", type=int, default=2)
    args = parser.parse_args()
    names = [name for name in data.names("terms") if not name.startswith("_")]
    faults, bare, how = [], 0, Counter()
    for name in names:
        raw = tomllib.loads(data.read_text("terms", name))
        faults += [f"{name}: {fault}" for fault in (*refusal(raw["code"]), *unused(raw), *old(raw, args.on, args.years))]
        bare += sum(1 for source in raw["source"] if not source.get("url"))
        how[best(raw)] += 1
    for fault in faults:
        print(fault)
    print(f"{len(names)} files; best source of a file: {', '.join(f'{n} {h}' for h, n in sorted(how.items()))}; "
          f"{bare} sources without an address; {len(faults)} faults.")
    return 1 if faults else 0


def refusal(code):
    """The loader's sentence when it refuses the file of a place."""
    try:
        rulebook().laws.law(code)
    except BadLaw as error:
        return [str(error)]
    return []


def unused(raw):
    """Sources that no entry cites."""
    cited = {one.partition(" ")[0] for _kind, entry in entries(raw) for one in cites(entry)}
    return [f"source {source['id']} is cited nowhere" for source in raw["source"] if source["id"] not in cited]


def cites(entry):
    """The citations of an entry as a list."""
    found = entry.get("cite", [])
    return found if isinstance(found, list) else [found]


def old(raw, today, years):
    """A sentence when the file was last compared with the law too long ago, or in the future."""
    checked = raw["checked"]
    if checked > today:
        return [f"compared with the law on {checked}, which is still to come"]
    if (today - checked).days > years * 365:
        return [f"last compared with the law on {checked}, more than {years} years ago"]
    return []


def best(raw):
    """How the best known source of a file is known."""
    known = {source["how"] for source in raw["source"]}
    return next(how for how in ("read", "secondary", "memory") if how in known)


if __name__ == "__main__":
    sys.exit(main())
