"""Five hundred real US renewal records: a renewed registration runs to the end of its 95th year (1922: its 75th)."""

import csv
import importlib.util
from datetime import date
from pathlib import Path

import pytest
from rows import CASES, answer

SCRIPT = Path(__file__).parent.parent / "scripts" / "trial_renewals.py"
SPEC = importlib.util.spec_from_file_location("trial_renewals", SCRIPT)
TRIAL = importlib.util.module_from_spec(SPEC)
SPEC.loader.exec_module(TRIAL)
ON = "2026-07-01"


def sample():
    with open(CASES / "us_renewals_sample.csv", encoding="utf-8", newline="") as table:
        return list(csv.DictReader(table))


def test_sample_is_whole():
    assert len(sample()) == 500 and len({row["reg_class"] for row in sample()}) > 8


@pytest.mark.parametrize("row", sample(), ids=lambda row: f"{row['reg_number']}-{row['reg_date']}")
def test_renewed_registration_runs_its_term(row):
    assert TRIAL.fits(row, answer(TRIAL.facts(row), "US", ON), ON)


def in_time(row):
    """By the statute: to 1949 from the 27th to the 28th anniversary, from 1951 on from 31 December of the 27th year."""
    first, renewed = date.fromisoformat(row["reg_date"]), date.fromisoformat(row["renewal_date"])
    opens = date(first.year + 27, 12, 31) if first.year >= 1951 else first.replace(year=first.year + 27)
    closes = date(first.year + 28, 12, 31) if first.year >= 1950 else first.replace(year=first.year + 28)
    return opens <= renewed <= closes


def test_day_of_renewal_outside_its_window_is_void():
    void = 0
    for row in sample():
        got = answer(TRIAL.facts(row, True), "US", ON)
        if in_time(row):
            assert TRIAL.fits(row, got, ON), row
        else:
            void += 1
            assert got["status"] == "public_domain", row
    assert void > 0
