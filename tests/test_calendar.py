"""What becomes free when, and the same as an iCalendar file by the letter of RFC 5545."""

import re

import kept
import pytest

from registry.catalogue import coming, jobs, works
from registry.exchange.calendar import Event, calendar_text, escaped, folded
from registry.facts import edtf

DAY, UNTIL = edtf.day("2026-07-01"), edtf.day("2040-12-31")


def _printed(year, **more):
    return {**kept.GULL, "title": f"Gull of {year}", "created": year, "publications": [{"date": year, "country": "US"}], **more}


@pytest.fixture
def catalogue(tmp_path):
    found = kept.new(tmp_path)
    works.add(found, kept.GULL, key="free")
    works.add(found, _printed("1931"), key="next")
    works.add(found, _printed("1936"), key="later", based_on="next", originality="new_expression", traits=["oilskin"])
    works.add(found, _printed("1930/1932"), key="vague")
    works.add(found, _printed("1960"), key="beyond")
    works.add(found, _printed("1931"), key="copy", based_on="next", originality="faithful_copy")
    works.add(found, _printed("1931"), key="mine", based_on="next", originality="new_expression", own=True)
    jobs.add(found, key="waits", title="x", markets=["US", "CA"])
    jobs.use(found, "waits", "mine", "picture")
    jobs.add(found, key="sold", title="x", markets=["US"], sold_on="2026-01-01")
    jobs.use(found, "sold", "next", "picture")
    jobs.add(found, key="elsewhere", title="x", markets=["GB"])
    jobs.use(found, "elsewhere", "next", "picture")
    return found


def test_what_is_coming(catalogue):
    found = coming.coming(catalogue, ["US"], DAY, UNTIL)
    assert [(edtf.iso(one.day), one.work, one.how) for one in found] == [
        ("2027-01-01", "next", coming.SURE), ("2028-01-01", "vague", coming.LATEST), ("2032-01-01", "later", coming.SURE)]
    assert [one.jobs for one in found] == [("waits",), (), ()] and [one.adds for one in found] == [(), (), ("oilskin",)]


def test_a_day_is_outside_before_and_inside_on_the_last(catalogue):
    last = edtf.day("2027-01-01")
    assert [one.work for one in coming.coming(catalogue, ["US"], DAY, last)] == ["next"]
    assert coming.coming(catalogue, ["US"], DAY, last - 1) == []
    assert coming.coming(catalogue, ["US"], last, last) == []


EVENTS = [Event("next US", edtf.day("2027-01-01"), "Gull, free; at last", "Line one\nLine two \\ done"),
          Event("later US", edtf.day("2032-01-01"), "Möwe im Sturm — " + "ü" * 60)]


def _unfolded(text):
    return text.replace("\r\n ", "").split("\r\n")


def test_the_file_is_made_of_folded_lines_with_cr_lf():
    text = calendar_text("Free", EVENTS, "20260701T093000Z")
    assert text.endswith("END:VCALENDAR\r\n") and "\n" not in text.replace("\r\n", "")
    assert all(len(line.encode("utf-8")) <= 75 for line in text.split("\r\n"))
    lines = _unfolded(text)
    assert lines[:3] == ["BEGIN:VCALENDAR", "VERSION:2.0", "PRODID:-//Artwork rights registry//Calendar//EN"]
    assert "SUMMARY:Gull\\, free\\; at last" in lines and "DESCRIPTION:Line one\\nLine two \\\\ done" in lines
    assert "SUMMARY:Möwe im Sturm — " + "ü" * 60 in lines


def test_every_event_has_what_it_must_have():
    lines = _unfolded(calendar_text("Free", EVENTS, "20260701T093000Z"))
    assert lines.count("BEGIN:VEVENT") == lines.count("END:VEVENT") == 2
    assert [line for line in lines if line.startswith("DTSTART")] == ["DTSTART;VALUE=DATE:20270101", "DTSTART;VALUE=DATE:20320101"]
    assert lines.count("DTSTAMP:20260701T093000Z") == 2
    names = [line for line in lines if line.startswith("UID:")]
    assert len(set(names)) == 2 and all(re.fullmatch(r"UID:[0-9a-f]{32}@registry\.invalid", name) for name in names)


def test_an_event_keeps_its_name_when_its_day_moves():
    one, two = (calendar_text("x", [Event("next US", day, "x")], "20260701T093000Z") for day in (DAY, DAY + 1))
    assert re.search("UID:.*", one).group() == re.search("UID:.*", two).group()


@pytest.mark.parametrize("text, expected", [("a,b;c\\d", "a\\,b\\;c\\\\d"), ("a\r\nb", "a\\nb"), ("a\x07b", "ab"), ("plain", "plain")])
def test_text_is_escaped(text, expected):
    assert escaped(text) == expected


@pytest.mark.parametrize("length", [74, 75, 76, 149, 150, 500])
def test_folding_loses_nothing(length):
    for line in ("x" * length, "é" * length, "🙂" * length):
        text = folded(line)
        assert text.replace("\r\n ", "").removesuffix("\r\n") == line
        assert all(len(part.encode("utf-8")) <= 75 for part in text.split("\r\n"))
