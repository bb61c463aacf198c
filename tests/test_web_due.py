"""What is due, as a page: each kind of thing leads to the page where it is looked after."""

import pytest
import webbed
from kept import CRAB, GULL, SCRAP

from registry.catalogue import complaints, decisions, evidence, jobs, marks, permissions, settings, store, works
from registry.facts import edtf

TODAY = edtf.day("2026-11-25")


@pytest.fixture
def catalogue(site, monkeypatch):
    monkeypatch.setattr(store, "today", lambda: TODAY)
    found = store.open_catalogue(site.folder)
    settings.put(found, markets=["US"])
    works.add(found, GULL, key="gull")
    works.add(found, CRAB, key="crab")
    jobs.add(found, key="signs", title="Gull signs", markets=["US"])
    jobs.use(found, "signs", "gull", "picture")
    yield found
    found.db.close()


def test_nothing_is_due(site):
    page = site.get("/due").page
    for words in ("No answer that a decision relied on has changed.", "Nothing within 60 days.", "No job was.", "No work waits for a fact."):
        assert words in page.text


def test_a_changed_answer_is_shown_with_what_moved(site, catalogue):
    decisions.decide(catalogue, "signs", "Isbet", "Free in our market.", TODAY)
    record = works.get(catalogue, "gull")
    works.change(catalogue, "gull", record.version, facts={**GULL, "created": "1949", "publications": [{"date": "1949-01-01", "country": "US"}]})
    section = site.get("/due").page.one("section", aria_labelledby="changed")
    assert [one.text for one in section.all("span", class_="stamp")] == ["no bar found", "hold"]
    assert section.one("a")["href"] == "/job/signs" and "by Isbet; what moved: facts" in section.text


def test_what_runs_out_leads_to_where_it_is_looked_after(site, catalogue):
    permissions.add(catalogue, "crab", "licence", licensor="M. Orlop", valid_to="2026-12-01")
    marks.add(catalogue, words="WREN", look_again="2026-11-20")
    marks.add(catalogue, words="HERON", expires="2026-12-24", state="live")
    complaints.add(catalogue, received="2026-11-01", sender="Wren & Daughters", claim="x", jobs=["signs"], deadline="2026-11-25")
    decisions.decide(catalogue, "signs", "Isbet", "Free.", TODAY, look_again="2026-11-26")
    rows = [(row.one("th").text, row.all("a")[0]["href"]) for row in site.get("/due").page.one("tbody").all("tr")]
    assert rows == [("20 November 2026passed 5 days ago", "/mark/m1"), ("25 November 2026today", "/complaint/c1"), ("26 November 2026in 1 day", "/job/signs"),
                    ("1 December 2026in 6 days", "/permission/1"), ("24 December 2026in 29 days", "/mark/m2")]
    for _head, href in rows:
        assert site.get(href).status == 200


@pytest.mark.parametrize("within, seen", [("", False), ("59", False), ("365", True), ("99999", True), ("-1", False), ("x", False), ("1" * 50, False)])
def test_how_far_ahead_is_looked(site, catalogue, within, seen):
    permissions.add(catalogue, "crab", "licence", licensor="M. Orlop", valid_to="2027-06-01")
    assert ("1 June 2027" in site.get(f"/due?within={within}").page.text) is seen


def test_a_sale_without_a_decision(site, catalogue):
    jobs.change(catalogue, "signs", jobs.get(catalogue, "signs").version, sold_on="2026-10-01")
    section = site.get("/due").page.one("section", aria_labelledby="undecided")
    assert section.one("a")["href"] == "/job/signs" and "sold on 1 October 2026" in section.text


def test_facts_worth_finding_out(site, catalogue):
    works.add(catalogue, SCRAP, key="scrap")
    section = site.get("/due").page.one("section", aria_labelledby="asks")
    links = [one["href"] for one in section.all("a")]
    assert any(link.startswith("/?missing=") for link in links) and links[-1] == "/due/proof" and "1 work waits for it" in section.text


def test_proof_that_is_missing_goes_away_when_it_is_there(site, catalogue):
    page = site.get("/due/proof").page
    facts = [link["href"] for link in page.all("a") if "/evidence?fact=" in (link["href"] or "")]
    assert facts and "signs" in page.one("tbody").text and all(link.startswith("/work/gull/evidence") for link in facts)
    for link in facts:
        assert dict(webbed.values(site.get(link).page.one("form", method="post")))["fact"] == link.partition("=")[2]
        evidence.add(catalogue, "gull", link.partition("=")[2], "seen", title="title page")
    assert "Every fact that counts for a job rests on evidence." in site.get("/due/proof").page.text
