"""Which facts an answer hangs on, by hand-made works whose law is simple."""

import json
from pathlib import Path

import pytest

from registry.facts import edtf
from registry.facts.work import read_work
from registry.law.decisive import decisive, hanging, without
from registry.law.verdict import OPEN, judge
from registry.rulebook import rulebook

PUBLISHED = {"kind": "print", "authorship": "individual", "published": True}
ROWS = [
    ("old US print: nothing but its date of publication", "US",
     {**PUBLISHED, "publications": [{"date": "1920", "country": "US"}], "us_notice": True, "us_renewed": True,
      "creators": [{"died": "1960", "nationality": ["US"]}]}, ("publications.date",)),
    ("US print of 1950: renewal, and that it was the US", "US",
     {**PUBLISHED, "publications": [{"date": "1950", "country": "US"}], "us_notice": True, "us_renewed": True,
      "creators": [{"died": "1990", "nationality": ["US"]}]}, ("us_renewed",)),
    ("British painting: the death of its maker", "GB",
     {"kind": "painting", "authorship": "individual", "published": True, "creators": [{"died": "1940", "nationality": ["GB"]}],
      "publications": [{"date": "1930", "country": "GB"}]}, ("died",)),
]


@pytest.mark.parametrize("_what, place, facts, needed", ROWS, ids=[row[0] for row in ROWS])
def test_decisive_facts(_what, place, facts, needed):
    book = rulebook()
    found = decisive(read_work(facts, book.vocabulary), place, book.laws, edtf.day("2026-07-01"))
    assert set(needed) <= set(found)


def test_what_does_not_matter_is_left_out():
    book = rulebook()
    facts = {**PUBLISHED, "publications": [{"date": "1920", "country": "US"}], "us_notice": True, "us_renewed": True,
             "creators": [{"died": "1960", "nationality": ["US"]}], "created": "1919"}
    found = decisive(read_work(facts, book.vocabulary), "US", book.laws, edtf.day("2026-07-01"))
    assert "died" not in found and "us_renewed" not in found and "us_notice" not in found and "created" not in found


def test_a_work_never_published_may_have_been_shown():
    book, day = rulebook(), edtf.day("2026-07-01")
    facts = {"kind": "drawing", "authorship": "anonymous", "created": "1900", "published": False, "made_available": "unknown",
             "creators": [{"nationality": ["GB"], "author_untraceable": True}]}
    for place in ("GB", "DE", "CH", "AU", "BR", "US"):
        found = {value: judge(read_work({**facts, "made_available": value}, book.vocabulary), place, book.laws, day).status
                 for value in (True, False, "unknown")}
        assert found["unknown"] in (OPEN, found[True]) and (found["unknown"] == OPEN or found[True] == found[False]), place


CASES = Path(__file__).parent / "cases"


@pytest.mark.parametrize("file", ["us.jsonl", "europe_americas.jsonl", "rest_of_world.jsonl"])
def test_the_short_way_finds_the_same(file):
    book, day = rulebook(), edtf.day("2026-07-01")
    for line in (CASES / file).read_text(encoding="utf-8").splitlines()[::8]:
        case = json.loads(line)
        work, place = read_work(case["facts"], book.vocabulary), case["jurisdiction"]
        status = judge(work, place, book.laws, day).status
        changed = {name for name, other in without(work) if judge(other, place, book.laws, day).status != status}
        assert set(hanging(work, {place: status}, book.laws, day)) == changed, case
