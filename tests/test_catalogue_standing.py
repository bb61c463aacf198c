"""Stored answers: they say what clearance says, vanish with what they rest on, and filters over them miss nothing."""

from datetime import date

import kept
import pytest
from registry.catalogue import clear, permissions, shelf, standing, support, works
from registry.clearance.model import HOLD, NO_BAR, OPEN, WORST
from registry.errors import RegistryError

DAY = date(2026, 11, 25).toordinal()
PLACES = ("CA", "GB", "US")


@pytest.fixture
def catalogue(tmp_path):
    return kept.new(tmp_path)


def wanted(**more):
    return shelf.Wanted(**{"places": PLACES, "day": "2026-11-25", **more})


def keys(catalogue, **more):
    return [card.key for card in shelf.cards(catalogue, shelf.find(catalogue, wanted(**more)).ids, PLACES)]


def reckoned(catalogue, day=DAY, places=PLACES):
    while standing.reckon(catalogue, day, places):
        pass


def stored(catalogue, key):
    return {row["place"]: row["status"] for row in catalogue.db.execute("SELECT place, status FROM answers_now WHERE work = ?", (key,))}


def three(catalogue):
    """A free drawing, a protected one, one of which nothing is known."""
    for key, facts in (("gull", kept.GULL), ("crab", kept.CRAB), ("scrap", kept.SCRAP)):
        works.add(catalogue, facts, key=key)
    reckoned(catalogue)


def test_what_is_stored_is_what_clearance_says(catalogue):
    three(catalogue)
    works.add(catalogue, kept.SCRAP, key="copy", based_on="crab", originality="faithful_copy")
    works.add(catalogue, kept.GULL, key="coloured", based_on="crab", originality="new_expression")
    works.add(catalogue, kept.SCRAP, key="ours", based_on="crab", own=True)
    reckoned(catalogue)
    at = clear.desk(catalogue, DAY)
    words = {NO_BAR: "public_domain", HOLD: "in_copyright", OPEN: "undetermined"}
    for record in works.listed(catalogue):
        expected = {place: words[max((one.decision for one in line), key=WORST.get)] for place, line in clear.chains(at, record, PLACES).items()}
        assert stored(catalogue, record.key) == expected, record.key
    assert stored(catalogue, "gull") == dict.fromkeys(PLACES, "public_domain") | {"GB": stored(catalogue, "gull")["GB"]}
    assert stored(catalogue, "coloured")["US"] == "in_copyright"  # free by its own facts, held by what it colours
    assert stored(catalogue, "ours")["US"] == "in_copyright"


def test_a_change_of_facts_takes_the_answer_away_at_once(catalogue):
    three(catalogue)
    assert "gull" in keys(catalogue, show="free", places=("US",))
    record = works.get(catalogue, "gull")
    works.change(catalogue, "gull", record.version, facts={**record.facts, "publications": [{"date": "1949", "country": "US"}], "created": "1949"})
    assert stored(catalogue, "gull") == {}
    assert keys(catalogue, show="free", places=("US",)) == []
    assert standing.behind(catalogue, DAY, PLACES) == 1
    reckoned(catalogue)
    assert stored(catalogue, "gull")["US"] == "in_copyright"


def test_a_change_beneath_takes_away_what_is_built_on_it(catalogue):
    three(catalogue)
    works.add(catalogue, kept.GULL, key="tinted", based_on="gull", originality="new_expression")
    works.add(catalogue, kept.GULL, key="traced", based_on="tinted", originality="new_expression")
    reckoned(catalogue)
    assert stored(catalogue, "traced")["US"] == "public_domain"
    record = works.get(catalogue, "gull")
    works.change(catalogue, "gull", record.version, facts={**record.facts, "publications": [{"date": "1949", "country": "US"}], "created": "1949"})
    assert stored(catalogue, "traced") == stored(catalogue, "tinted") == {}
    reckoned(catalogue)
    assert stored(catalogue, "traced")["US"] == "in_copyright"


def test_a_version_put_beneath_later_counts(catalogue):
    three(catalogue)
    works.change(catalogue, "gull", 1, based_on="crab", originality="new_expression")
    assert stored(catalogue, "gull") == {}
    reckoned(catalogue)
    assert stored(catalogue, "gull")["US"] == "in_copyright"


def test_titles_and_notes_change_no_answer(catalogue):
    three(catalogue)
    works.change(catalogue, "gull", 1, notes="hangs over the bench")
    assert standing.behind(catalogue, DAY, PLACES) == 0
    assert stored(catalogue, "gull") != {}


def test_an_answer_holds_until_the_calendar_may_change_it(catalogue):
    sooner = {**kept.GULL, "publications": [{"date": "1931-03-01", "country": "US"}], "created": "1931"}
    works.add(catalogue, sooner, key="soon")
    reckoned(catalogue)
    assert stored(catalogue, "soon")["US"] == "in_copyright"
    turn = date(2027, 1, 1).toordinal()
    assert standing.behind(catalogue, turn - 1, PLACES) == 0
    assert standing.behind(catalogue, turn, PLACES) == 1
    assert keys(catalogue, show="free", places=("US",)) == []
    assert keys(catalogue, show="free", places=("US",), day="2027-01-01") == ["soon"]  # foretold before it happens
    reckoned(catalogue, turn)
    assert stored(catalogue, "soon")["US"] == "public_domain"


def test_a_new_place_has_every_work_reckoned(catalogue):
    three(catalogue)
    assert standing.behind(catalogue, DAY, [*PLACES, "FR"]) == 3
    reckoned(catalogue, places=[*PLACES, "FR"])
    assert set(stored(catalogue, "gull")) == {*PLACES, "FR"}


def test_new_rules_make_every_answer_old(catalogue, monkeypatch):
    three(catalogue)
    monkeypatch.setattr(standing, "rules_sha256", lambda: "0" * 64)
    assert standing.behind(catalogue, DAY, PLACES) == 3
    reckoned(catalogue)
    assert standing.behind(catalogue, DAY, PLACES) == 0
    assert stored(catalogue, "gull")["US"] == "public_domain"


def test_filters(catalogue):
    three(catalogue)
    works.change(catalogue, "crab", 1, notes="blue")
    permissions.add(catalogue, "crab", "licence", licensor="Quill")
    assert keys(catalogue) == ["scrap", "crab", "gull"]
    assert keys(catalogue, order="title") == ["crab", "gull", "scrap"]
    assert keys(catalogue, order="published") == ["gull", "crab"]
    assert keys(catalogue, show="free", places=("US",)) == ["gull"]
    assert keys(catalogue, show="held", places=("US",)) == ["crab"]
    assert keys(catalogue, show="open", places=("US",)) == ["scrap"]
    assert keys(catalogue, missing="any", places=("US",)) == ["scrap"]
    assert keys(catalogue, missing="us_renewed", places=("US",)) == []
    assert keys(catalogue, kind="print") == []
    assert keys(catalogue, kind="drawing", show="held", places=("US",)) == ["crab"]
    assert keys(catalogue, words="quill") == ["crab", "gull"] or keys(catalogue, words="quill") == ["gull", "crab"]
    assert keys(catalogue, words="blue") == ["crab"]
    assert keys(catalogue, words="quill", show="free", places=("US",)) == ["gull"]
    assert keys(catalogue, words="gull") == ["gull"]
    assert keys(catalogue, used="yes") == [] and len(keys(catalogue, used="no")) == 3
    assert [card.licensed for card in shelf.cards(catalogue, (2, 3), PLACES)] == [True, False]


@pytest.mark.parametrize("more, sentence", [({"order": "size"}, "order 'size'"), ({"show": "blue"}, "show 'blue'"), ({"day": "soon"}, "soon")])
def test_a_filter_that_there_is_not_is_refused(catalogue, more, sentence):
    with pytest.raises(RegistryError, match=sentence):
        shelf.find(catalogue, wanted(**more))


@pytest.mark.parametrize("order", shelf.ORDERS)
@pytest.mark.parametrize("more", [{}, {"words": "drawing"}, {"show": "free", "places": ("US",)}])
def test_page_by_page_every_work_comes_once(catalogue, order, more):
    for number in range(23):
        works.add(catalogue, {**kept.GULL, "title": f"Drawing {number % 7}"})
    reckoned(catalogue)
    seen, after = [], ""
    for _ in range(10):
        found = shelf.find(catalogue, wanted(order=order, after=after, size=5, **more))
        assert found.count == 23
        cards = shelf.cards(catalogue, found.ids, PLACES)
        seen += [card.key for card in cards]
        if not found.more:
            break
        after = cards[-1].key
    assert len(seen) == len(set(seen)) == 23


def test_many_found_works_come_page_by_page_too(catalogue, monkeypatch):
    monkeypatch.setattr(shelf, "RANKED", 5)
    for number in range(13):
        works.add(catalogue, {**kept.GULL, "title": f"Drawing {number}"})
    first = shelf.find(catalogue, wanted(words="draw", size=8))
    assert (first.count, first.more, len(first.ids)) == (None, True, 8)
    rest = shelf.find(catalogue, wanted(words="draw", size=8, after="w8"))
    assert (rest.more, first.ids + rest.ids) == (False, tuple(range(1, 14)))


def test_what_is_asked_for_and_what_clears(catalogue):
    three(catalogue)
    works.add(catalogue, {**kept.GULL, "publications": [{"date": "1931-03-01", "country": "US"}], "created": "1931"}, key="soon")
    reckoned(catalogue)
    facts = dict(shelf.asked_for(catalogue, ("US",)))
    assert facts and set(facts.values()) == {1}  # the scrap
    assert shelf.clearing(catalogue, ("US",), "2026-11-25", "2027-01-01") == [("2027-01-01", "US", 1, 4)]
    assert shelf.clearing(catalogue, ("US",), "2027-01-01", "2027-06-01") == []


TO_COME = [
    {"publications": [{"date": "2026-12-05", "country": "DE"}]},
    {"publications": [{"date": "2026-12", "country": "DE"}]},
    {"made_available_on": "2026-12-05"},
]


@pytest.mark.parametrize("dated", TO_COME)
def test_a_date_to_come_ends_the_stored_answer(catalogue, dated):
    works.add(catalogue, {"kind": "drawing", "authorship": "individual", "created": "1890", "creators": [{"name": "A", "died": "1900", "nationality": ["DE"]}], **dated}, key="late")
    reckoned(catalogue, places=("DE", "FR"))
    later = date(2026, 12, 31).toordinal()
    assert standing.behind(catalogue, later, ("DE", "FR")) == 1
    reckoned(catalogue, later, ("DE", "FR"))
    fresh = {place: line[-1].status for place, line in clear.chains(clear.desk(catalogue, later), works.get(catalogue, "late"), ("DE", "FR")).items()}
    assert stored(catalogue, "late") == fresh


def test_what_was_reckoned_on_a_later_day_does_not_hold(catalogue):
    """The clock of the machine was ahead."""
    works.add(catalogue, kept.CRAB | {"us_renewed": True}, key="crab")
    ahead = date(2060, 3, 1).toordinal()
    reckoned(catalogue, ahead)
    assert stored(catalogue, "crab")["US"] == "public_domain"
    assert standing.behind(catalogue, DAY, PLACES) == 1
    reckoned(catalogue)
    assert stored(catalogue, "crab")["US"] == "in_copyright" and standing.behind(catalogue, DAY, PLACES) == 0


def test_what_an_answer_hangs_on_is_stored_no_longer_than_it_holds(catalogue):
    works.add(catalogue, {"kind": "photograph", "authorship": "individual", "created": "2006-12-05", "creators": [{"name": "A", "died": "2016", "nationality": ["AR"]}],
                          "publications": [{"date": "2015-03-01", "country": "AR"}]}, key="photo")
    reckoned(catalogue, places=("AR",))
    for day in (DAY, date(2026, 12, 4).toordinal(), date(2026, 12, 10).toordinal(), date(2027, 1, 5).toordinal()):
        at = clear.desk(catalogue, day)
        statuses = {place: line[-1].status for place, line in clear.chains(at, works.get(catalogue, "photo"), ("AR",)).items()}
        told = [(one.fact, one.places) for one in support.of_layer(at, "photo", statuses)]
        assert told == list(support.hangs(at, "photo", statuses)[0].items()), day
