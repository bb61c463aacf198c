#!/usr/bin/env python3
"""Which rules no worked case reaches, and which conditions turn no case's answer when taken away.

Usage: scripts/rule_coverage.py [CODE ...]   (without a code: every law file); exit 1 when a rule is not reached.
"""

import sys
import tomllib
from functools import lru_cache
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
sys.path[:0] = [str(ROOT), str(ROOT / "tests")]

from rows import SHARED, disputed, own_files, rows  # noqa: E402

from registry import data  # noqa: E402
from registry.facts import edtf  # noqa: E402
from registry.facts.work import read_work  # noqa: E402
from registry.law.coverage import conditions, mutants  # noqa: E402
from registry.law.load import compile_law  # noqa: E402
from registry.law.verdict import judge  # noqa: E402
from registry.rulebook import covered, rulebook  # noqa: E402


def main(codes):
    """0 when every rule of the asked files is reached by a case."""
    cases, missing, idle, total = _cases(), 0, 0, 0
    reached = _reached(cases)
    for code in codes or sorted(n[:2].upper() for n in data.names("terms") if not n.startswith("_")):
        own = [case for case in cases if case[1] == code]
        lost = sorted(_ids(code) - reached)
        dead, count = _idle(code, own)
        missing, idle, total = missing + len(lost), idle + len(dead), total + count
        print(f"{code}: {len(own)} cases, {len(_ids(code))} rules, {len(lost)} not reached, {count} conditions, {len(dead)} turn nothing")
        for name in lost:
            print(f"   not reached: {name}")
        for label in dead:
            print(f"   turns nothing: {label}")
    print(f"{missing} rules not reached; {idle} of {total} conditions turn no answer.")
    return 1 if missing else 0


def _cases():
    book, off = rulebook(), disputed()
    return [(read_work(row["facts"], book.vocabulary), row["jurisdiction"], edtf.day(row["as_of"]))
            for name in (*SHARED, *own_files()) for row in rows(name) if (name, row["facts"]["id"]) not in off]


def _ids(code):
    law = rulebook().laws.law(code)
    found = {term.rule.id for act in law.acts for term in act.terms} | {act.rule.id for act in law.acts}
    for kind in (law.never, law.doubts, law.related, law.also):
        found |= {entry.rule.id for entry in kind}
    return found | ({law.compare_rule.id} if law.compare_rule else set())


def _reached(cases):
    laws = rulebook().laws
    return {rule.id for work, code, day in cases if laws.law(code) for rule in judge(work, code, laws, day).why}


def _idle(code, cases):
    laws = rulebook().laws
    raw, law = tomllib.loads(data.read_text("terms", f"{code.lower()}.toml")), laws.law(code)
    before = [_short(judge(work, code, laws, day)) for work, _code, day in cases]
    turned = set()
    try:
        for label, _value, other in mutants(raw):
            if label not in turned:
                laws._loaded[code] = compile_law(other, f"{code.lower()}.toml", laws)
                if any(_tried(work, code, laws, day) != old for (work, _c, day), old in zip(cases, before)):
                    turned.add(label)
    finally:
        laws._loaded[code] = law
    labels = conditions(raw)
    return [label for label in dict.fromkeys(labels) if label not in turned], len(set(labels))


def _tried(work, code, laws, day):
    """The answer of a changed file; None when the change makes a law ask itself what it says at home, without end."""
    try:
        return _short(judge(work, code, laws, day))
    except RecursionError:
        return None


def _short(verdict):
    """What a condition may turn: the answer, or the notes shown with it."""
    notes = tuple(rule.id for rule in verdict.why if rule.id in _notes())
    return verdict.status, verdict.free_from, verdict.earliest, verdict.latest, verdict.because, notes


@lru_cache(maxsize=1)
def _notes():
    laws = rulebook().laws
    return frozenset(entry.rule.id for code in covered() for entry in laws.law(code).also)


if __name__ == "__main__":
    sys.exit(main([code.upper() for code in sys.argv[1:]]))
