"""The calendar as a page and as a file."""

import pytest
from kept import GULL

from registry.catalogue import jobs, settings, standing, store, works
from registry.facts import edtf

TODAY = edtf.day("2026-07-01")


def _printed(year, **more):
    return {**GULL, "title": f"Gull of {year}", "created": year, "publications": [{"date": year, "country": "US"}], **more}


@pytest.fixture
def catalogue(site, monkeypatch):
    monkeypatch.setattr(store, "today", lambda: TODAY)
    found = store.open_catalogue(site.folder)
    settings.put(found, markets=["US"])
    works.add(found, _printed("1931"), key="next")
    works.add(found, _printed("1936"), key="later", based_on="next", originality="new_expression", traits=["oilskin"])
    works.add(found, _printed("1930/1932"), key="vague")
    jobs.add(found, key="waits", title="x", markets=["US"])
    jobs.use(found, "waits", "next", "picture")
    yield found
    found.db.close()


def days(page):
    """[(heading, lines)] of the days shown."""
    return [(one.one("h2").text, [line.text for line in one.all("li")]) for one in page.all("section")]


def test_works_stand_under_their_day(site, catalogue):
    page = site.get("/calendar").page
    found = days(page)
    assert [head for head, _lines in found] == ["1 January 2027 1 work", "1 January 2028 1 work", "1 January 2032 1 work"]
    assert found[0][1] == ["Gull of 1931: US, free from that day. Waiting for it: waits"]
    assert found[1][1] == ["Gull of 1930/1932: US, free from that day at the latest"]
    assert found[2][1] == ["Gull of 1936 what this version added: oilskin: US, free from that day"]


def test_places_of_the_same_day_stand_together_with_the_jobs_that_wait_there(site, catalogue):
    works.add(catalogue, {**GULL, "title": "Crab", "creators": [{"name": "M. Orlop", "died": "1960", "nationality": ["GB"]}], "publications": [{"date": "1931", "country": "GB"}]}, key="crab")
    jobs.add(catalogue, key="both", title="x", markets=["GB", "FR"])
    jobs.use(catalogue, "both", "crab", "picture")
    lines = dict(days(site.get("/calendar?in=GB,FR,IE&until=2035").page))["1 January 2031 1 work"]
    assert lines == ["Crab: GB, FR, IE, free from that day. Waiting for it: both for GB, FR"] or lines == ["Crab: FR, GB, IE, free from that day. Waiting for it: both for FR, GB"]


@pytest.mark.parametrize("until, number", [("2027", 1), ("2027-01-01", 1), ("2026-12-31", 0), ("2028", 2)])
def test_until(site, catalogue, until, number):
    page = site.get(f"/calendar?until={until}").page
    assert len(days(page)) == number and bool(page.all("p", class_="empty")) is (number == 0)


@pytest.mark.parametrize("query, words", [("until=1999", "lies not ahead"), ("until=soon", "soon"), ("in=XX", "is not a place"), ("until=0000", "lies not ahead")])
def test_what_cannot_be_is_said_and_the_page_still_answers(site, catalogue, query, words):
    answer = site.get(f"/calendar?{query}")
    assert answer.status == 200 and words in answer.page.one("p", class_="problem").text and len(days(answer.page)) == 3


def test_the_file_holds_the_same_days(site, catalogue):
    link = next(one["href"] for one in site.get("/calendar?until=2030").page.all("a") if (one["href"] or "").startswith("/calendar.ics"))
    answer = site.get(link)
    assert answer.status == 200 and answer.headers["content-type"] == "text/calendar; charset=utf-8"
    lines = answer.text.replace("\r\n ", "").split("\r\n")
    assert [one for one in lines if one.startswith("DTSTART")] == ["DTSTART;VALUE=DATE:20270101", "DTSTART;VALUE=DATE:20280101"]
    assert "SUMMARY:Gull of 1931: likely free from today in the United States" in lines
    assert all("Not legal advice" in one for one in lines if one.startswith("DESCRIPTION")) and lines[-2:] == ["END:VCALENDAR", ""]
    assert site.get("/calendar.ics?until=1999").status == 400


def test_with_very_many_works_days_are_counted_from_the_stored_answers(site, catalogue, monkeypatch):
    monkeypatch.setattr("registry.web.calendar.MANY", 0)
    assert "3 works are still being reckoned" in site.get("/calendar").page.text
    while standing.reckon(catalogue, TODAY, ("US",)):
        pass
    page = site.get("/calendar").page
    links = [(one.text, one["href"]) for one in page.one("main").all("a") if "show=free" in (one["href"] or "")]
    assert links[0] == ("1 work in the United States", "/?show=free&in=US&by=2027-01-01&order=new") and "being reckoned" not in page.text
    assert "SUMMARY:1 work likely free from today at the latest in the United States" in site.get("/calendar.ics").text.replace("\r\n ", "")


def test_an_empty_catalogue(site):
    assert "Nothing on record is known to become free" in site.get("/calendar").page.text
    assert site.get("/calendar.ics").text.count("BEGIN:VEVENT") == 0
