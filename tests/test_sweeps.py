"""Every year on both sides of the boundaries of tests/cases/sweeps.csv, and every day around the first day of six acts.

A line of the table names a place, a kind of work (tests/cases/sweep_works.json), the event that starts the
term and the first year (or day) of that event whose works are protected on 1 July 2026, as reckoned from the
law. Works of earlier years are free; between `last_free` and `first_protected`, where both are given, the
law is contested. `how` says how the law is known: read, from secondary sources, or from memory.
"""

import csv
import json
import re
from datetime import date, timedelta

import pytest
from rows import CASES, answer

DAY = "2026-07-01"
WORKS = json.loads((CASES / "sweep_works.json").read_text(encoding="utf-8"))
FREE, PROTECTED, OPEN = "public_domain", "in_copyright", "undetermined"


def table(name):
    with open(CASES / name, encoding="utf-8", newline="") as lines:
        return list(csv.DictReader(lines))


SWEEPS = table("sweeps.csv")
ACTS = table("sweep_acts.csv")
FIRSTS = [row for number, row in enumerate(SWEEPS) if row["place"] not in [r["place"] for r in SWEEPS[:number]]]
DEEP = """US CA MX GB IE FR DE AT CH ES PT IT NL BE LU PL CZ SE DK FI NO IS GR HU RO AU NZ JP KR CN TW HK SG IN IL ZA
BR AR CL CO RU UA TR""".split()


def name(row):
    return f"{row['place']}-{row['work']}"


def work(row, event):
    """The facts of a work of that kind whose event fell in a year or on a day (ISO text)."""
    year = int(event[:4])

    def fill(found):
        return {"home": row["place"], "event": event}.get(found[1]) or str(year + int(found[2]))

    text = re.sub(r"\{(home|event)(?:([+-]\d+))?\}", lambda m: str(year + int(m[2])) if m[2] else fill(m), json.dumps(WORKS[row["work"]]))
    return {"id": name(row), **json.loads(text)}


def edges(row):
    """(last free, first protected) as ISO days."""
    first = row["first_protected"]
    first = date.fromisoformat(first if "-" in first else f"{first}-01-01")
    last = date(int(row["last_free"]), 12, 31) if row["last_free"] else first - timedelta(1)
    return last.isoformat(), first.isoformat()


def expected(row, event):
    """The status the table gives a work of a year or day; None for a year the boundary day cuts in two."""
    last, first = edges(row)
    begin, end = (event, event) if len(event) == 10 else (f"{event}-01-01", f"{event}-12-31")
    if end <= last:
        return FREE
    if begin >= first:
        return PROTECTED
    return OPEN if last < begin and end < first else None


def test_every_place_of_the_deep_list_is_swept():
    assert {row["place"] for row in SWEEPS} == set(DEEP)
    assert len({name(row) for row in SWEEPS}) == len(SWEEPS)


def test_every_kind_of_work_is_used():
    assert {row["work"] for row in SWEEPS} | {row["work"] for row in ACTS} == set(WORKS)


@pytest.mark.parametrize("row", SWEEPS, ids=name)
def test_every_year(row):
    years = range(int(row["from_year"]), int(row["to_year"]) + 1)
    assert len(years) >= 30
    wanted = {str(year): expected(row, str(year)) for year in years}
    assert {FREE, PROTECTED} <= set(wanted.values())
    got = {year: answer(work(row, year), row["place"], DAY)["status"] for year, status in wanted.items() if status}
    assert got == {year: status for year, status in wanted.items() if status}


@pytest.mark.parametrize("row", FIRSTS, ids=name)
def test_every_day_around_the_boundary(row):
    for edge in edges(row):
        days = [(date.fromisoformat(edge) + timedelta(n)).isoformat() for n in range(-16, 17)]
        got = {day: answer(work(row, day), row["place"], DAY)["status"] for day in days}
        assert got == {day: expected(row, day) for day in days}


@pytest.mark.parametrize("row", ACTS, ids=lambda row: f"{name(row)}-{row['event_year']}-{row['first_day']}")
def test_every_day_around_the_first_day_of_an_act(row):
    first = date.fromisoformat(row["first_day"])
    for n in range(-20, 21):
        side = "before" if n < 0 else "after"
        got = answer(work(row, row["event_year"]), row["place"], (first + timedelta(n)).isoformat())
        assert (got["status"], got["free_from"] or "") == (row[f"status_{side}"], row[f"free_from_{side}"]), (side, n, got)
