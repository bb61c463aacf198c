"""Case rows for tests: facts, a place, a day, and the answer the law gives; disputed rows are named apart."""

import csv
import json
from pathlib import Path

from registry.facts import edtf
from registry.facts.work import read_work
from registry.law.verdict import as_json, judge
from registry.rulebook import rulebook

CASES = Path(__file__).parent / "cases"
SHARED = ("us.jsonl", "europe_americas.jsonl", "rest_of_world.jsonl")


def rows(name):
    """The case objects of a file under tests/cases, in order."""
    with open(CASES / name, encoding="utf-8") as lines:
        return [json.loads(line) for line in lines if line.strip()]


def disputed():
    """(file, id) of every row we hold to be wrong or that may be decided either way."""
    with open(CASES / "disputed.csv", encoding="utf-8", newline="") as table:
        return {(row["file"], row["id"]) for row in csv.DictReader(table)}


def own_files():
    """Names of our own case files, relative to tests/cases."""
    return sorted(f"own/{path.name}" for path in (CASES / "own").glob("*.jsonl"))


def answer(facts, place, day):
    """The batch contract's object for one facts object, place and day (ISO text)."""
    book = rulebook()
    as_of = edtf.day(day)
    verdict = judge(read_work(facts, book.vocabulary), place, book.laws, as_of)
    return as_json(facts.get("id", ""), place, as_of, verdict)
