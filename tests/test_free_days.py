"""Published lists of authors becoming free: a painting by a national, asked on the day and on the eve.

The lists are one-sided (what becomes free) and name no works; names are left out here. A list for a group of
countries is tried in several of them.
"""

import csv
from datetime import date, timedelta

import pytest
from rows import CASES, answer

GROUPS = {"life+70": ("DE", "FR", "IT", "NL", "SE", "PL", "AT"), "GB life+70": ("GB",), "AU life+70": ("AU",),
          "ES life+80": ("ES",), "JP life+50": ("JP",), "life+60": ("IN",), "life+50": ("CN", "NZ", "ZA", "HK", "TW")}


def lists():
    with open(CASES / "free_days.csv", encoding="utf-8", newline="") as table:
        return list(csv.DictReader(table))


def painting(row, place):
    died = row["death_date"] or row["death_year"]
    return {"kind": "painting", "authorship": "individual", "created": str(int(row["death_year"]) - 20), "published": True,
            "creators": [{"died": died, "nationality": [place], "died_for_france": False}],
            "publications": [{"date": str(int(row["death_year"]) - 19), "country": place}]}


def status(row, place, day):
    return answer(painting(row, place), place, day.isoformat())["status"]


@pytest.mark.parametrize("place, row", [(p, r) for r in lists() for p in GROUPS[r["term_group"]]],
                         ids=lambda one: one if isinstance(one, str) else f"{one['status_year']}-{one['death_year']}")
def test_listed_author(place, row):
    day = date(int(row["status_year"]), 1, 1)
    if row["listed_status"] == "still in copyright":
        assert status(row, place, day) == "in_copyright"
        return
    assert status(row, place, day) == "public_domain"
    if row["listed_status"].startswith("enters"):
        assert status(row, place, day - timedelta(days=1)) == "in_copyright"
