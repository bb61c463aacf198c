"""The grid: what may be sold where, search and filters with stable addresses, page by page, and what needs somebody."""

import os
from dataclasses import replace
from urllib.parse import parse_qs, urlparse

import kept
import pytest
from registry.catalogue import jobs, settings, standing, store, works
from registry.web import home, reckoner, remembered


@pytest.fixture
def catalogue(site):
    found = store.open_catalogue(site.folder)
    settings.put(found, name="Ninepin Slip", markets=["US"])
    yield found
    found.db.close()


def fill(catalogue):
    works.add(catalogue, kept.GULL, key="gull", traits=["bollard"])
    works.add(catalogue, kept.CRAB, key="crab", notes="from the blue box")
    works.add(catalogue, kept.SCRAP, key="scrap")


def keys(page):
    return [card.all("a")[0]["href"].rpartition("/")[2] for card in page.all("li", class_="card")]


def test_an_empty_catalogue_says_how_to_begin(site, catalogue):
    page = site.get("/").page
    assert {link["href"] for link in page.one("div", class_="empty").all("a")} == {"/work/new", "/works/table", "/settings"}
    assert page.all("section", class_="needs") == []


def test_each_card_says_how_the_work_stands(site, catalogue):
    fill(catalogue)
    page = site.get("/").page
    assert keys(page) == ["scrap", "crab", "gull"]
    assert [card.one("ul", class_="chips").text for card in page.all("li", class_="card")] == ["US undetermined", "US likely in copyright to 2044", "US likely public domain"]
    assert "3 works." in page.text


def test_the_answer_is_that_of_the_whole_chain(site, catalogue):
    fill(catalogue)
    works.add(catalogue, kept.GULL, key="tint", based_on="crab", originality="new_expression")
    assert site.get("/?q=tint").page.one("ul", class_="chips").text == "US likely in copyright to 2044"


@pytest.mark.parametrize("query, found", [
    ("q=quill", {"gull", "crab"}), ("q=bollard", {"gull"}), ("q=blue", {"crab"}), ("q=zebra", set()), ("q=%22+*+-", set()), ("q=%E2%98%85", set()), ("q=+", {"scrap", "crab", "gull"}), ("q=gull+OR+crab", set()), ("q=crab", {"crab"}),
    ("show=free", {"gull"}), ("show=held", {"crab"}), ("show=open", {"scrap"}), ("show=free&by=2045-01-01", {"gull", "crab"}), ("show=nonsense", {"scrap", "crab", "gull"}),
    ("kind=drawing", {"scrap", "crab", "gull"}), ("kind=print", set()), ("missing=any", {"scrap"}), ("missing=us_renewed", set()), ("used=yes", {"gull"}), ("used=no", {"crab", "scrap"}),
    ("show=free&q=gull&kind=drawing&used=yes", {"gull"}), ("order=title", {"scrap", "crab", "gull"}), ("order=nonsense", {"scrap", "crab", "gull"}),
])
def test_search_and_filters(site, catalogue, query, found):
    fill(catalogue)
    jobs.add(catalogue, key="towel", title="Towel")
    jobs.use(catalogue, "towel", "gull", "picture")
    answer = site.get(f"/?{query}")
    assert answer.status == 200 and set(keys(answer.page)) == found


def test_a_wrong_market_or_day_is_said_and_the_rest_still_shown(site, catalogue):
    fill(catalogue)
    page = site.get("/?in=Narnia").page
    assert "'Narnia' is not a place" in page.one("p", class_="problem").text and len(keys(page)) == 3
    assert "80 places at most" in site.get("/?in=all").page.one("p", class_="problem").text and standing.kept(catalogue) == ["US"]
    assert "soon" in site.get("/?by=soon").page.one("p", class_="problem").text


def test_other_markets_are_reckoned_when_asked_for(site, catalogue):
    fill(catalogue)
    page = site.get("/?in=FR,US").page
    assert all("being reckoned" not in card.text for card in page.all("li", class_="card"))
    assert site.get("/?in=EU").page.all("ul", class_="chips")[0].text.startswith("AT, BE, BG and 2")  # many places are summed up


def test_page_by_page_with_a_stable_address(site, catalogue):
    for number in range(home.SIZE + 5):
        works.add(catalogue, {**kept.GULL, "title": f"Gull {number:02}"})
    first = site.get("/?order=title&q=gull&in=US").page
    link = first.one("nav", class_="pages").one("a", rel="next")["href"]
    assert parse_qs(urlparse(link).query) == {"order": ["title"], "q": ["gull"], "in": ["US"], "after": [keys(first)[-1]]}
    works.add(catalogue, {**kept.GULL, "title": "Gull 99"})
    second = site.get(link).page
    assert len(keys(first)) == home.SIZE and not set(keys(first)) & set(keys(second))
    assert "Back to the first works" in second.one("nav", class_="pages").text


def test_the_grid_alone(site, catalogue):
    fill(catalogue)
    page = site.get("/?q=gull&part=grid").page
    assert page.all("html") == [] and keys(page) == ["gull"] and page.one("div", id="results")


def test_many_works_are_reckoned_in_the_background(site, catalogue, monkeypatch):
    monkeypatch.setattr(reckoner, "AT_ONCE", 1)
    fill(catalogue)
    page = site.get("/").page
    assert "3 works are still being reckoned" in page.text and "being reckoned" in page.all("li", class_="card")[0].text
    assert keys(site.get("/?show=free").page) in ([], ["gull"])
    import asyncio

    site.loop.run_until_complete(asyncio.wait_for(asyncio.gather(*reckoner._running), 20))
    assert standing.behind(catalogue, store.today(), ["US"]) == 0
    assert keys(site.get("/?show=free").page) == ["gull"]


def test_what_needs_somebody(site, catalogue):
    fill(catalogue)
    jobs.add(catalogue, key="sign", title="Sold sign", sold_on="2026-10-01")
    works.add(catalogue, {**kept.GULL, "publications": [{"date": "1931", "country": "US"}], "created": "1931"}, key="soon")
    needs = site.get("/").page.one("section", class_="needs")
    assert "Sold sign: sold on 1 October 2026 without a decision" in needs.text
    assert any(link["href"].startswith("/?missing=") for link in needs.all("a"))
    year = int(store.now()[:4])
    if year == 2026:
        assert "1 January 2027: 1 work in the United States" in needs.text


def test_what_is_remembered_is_forgotten_after_any_change(catalogue):
    made = []

    def make():
        made.append(1)
        return len(made)

    def begun():
        return replace(catalogue, state=remembered.state_of(catalogue.folder))

    assert [remembered.value(begun(), "x", make) for _ in range(3)] == [1, 1, 1]
    reading = begun()
    works.add(catalogue, kept.GULL)
    assert remembered.value(begun(), "x", make) == 2
    assert remembered.value(begun(), "y", make) == 3
    assert [remembered.value(reading, "x", make), remembered.value(begun(), "x", make)] == [4, 5]  # one that began before the change
    assert remembered.value(catalogue, "x", make) == 6  # nobody said how the files were


def test_a_commit_shows_whatever_the_times_of_the_files_say(catalogue):
    files = [catalogue.folder / name for name in (store.NAME, store.NAME + "-wal")]
    works.add(catalogue, kept.GULL)
    before, times = remembered.state_of(catalogue.folder), [path.stat() for path in files]
    assert before is not None and remembered.state_of(catalogue.folder) == before
    works.add(catalogue, kept.CRAB)
    for path, was in zip(files, times):
        os.utime(path, ns=(was.st_atime_ns, was.st_mtime_ns))
    assert remembered.state_of(catalogue.folder) not in (before, None)


def test_nothing_is_remembered_where_it_cannot_be_told(tmp_path):
    assert remembered.state_of(tmp_path) is None
    (tmp_path / store.NAME).write_bytes(b"")
    for head in (b"", bytes(96), b"a" * 96, b"a" * 12 + b"\1" + b"a" * 35 + b"b" * 48):
        (tmp_path / (store.NAME + "-shm")).write_bytes(head)
        assert remembered.state_of(tmp_path) is None
