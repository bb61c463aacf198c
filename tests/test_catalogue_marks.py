"""Marks in the catalogue: the index finds what a plain scan finds, searches are kept, older catalogues are brought up."""

import random
import sqlite3

import kept
import pytest

from registry.catalogue import mark_index, mark_search, marks, schema, store, works
from registry.clearance.likeness import prepared
from registry.clearance.marks import EXACT, Text, nearest
from registry.errors import BadDate, Conflict, RegistryError, UnknownRecord
from registry.facts import edtf

DAY = edtf.day("2026-11-25")


@pytest.fixture
def catalogue(tmp_path):
    found = kept.new(tmp_path)
    works.add(found, kept.GULL, key="gull")
    return found


def keys(catalogue, text):
    return [mark.key for mark in mark_search.near(catalogue, (Text("wording", prepared(text)),))[1]]


def test_a_mark_goes_in_and_comes_out(catalogue):
    mark = marks.add(catalogue, ["gull", "gull"], words="HARE & LANTERN", kind="word", owner="Lantern Inns", office="US", number="i-7", filed="2010-02-01", registered="2011-03-01",
                     expires="2031-03-01", look_again="2027-01-01", classes=[20, 35, 20], nice_edition="12", status_words="registered and renewed", state="registered",
                     goods="signs of wood", avoid="the words on boards", note="seen on a fair")
    assert mark == marks.get(catalogue, "m1") == marks.get(catalogue, 1) == marks.listed(catalogue)[0]
    assert (mark.key, mark.classes, mark.works, mark.state, mark.status_words) == ("m1", (20, 35), ("gull",), "registered", "registered and renewed")
    assert marks.of_work(catalogue, "gull") == [mark] and marks.count(catalogue) == 1


def test_a_change_is_filed_anew(catalogue):
    marks.add(catalogue, words="BRINDLEWICK")
    assert keys(catalogue, "Brindlewik") == ["m1"]
    changed = marks.change(catalogue, "m1", ["gull"], words="OSTREL", state="cancelled")
    assert (changed.words, changed.state, changed.works) == ("OSTREL", "cancelled", ("gull",))
    assert keys(catalogue, "Brindlewik") == [] and keys(catalogue, "OSTREL") == ["m1"]
    assert marks.change(catalogue, "m1", []).works == ()


def test_marks_that_were_not_filed_are_compared_all_the_same(catalogue):
    marks.add(catalogue, words="OSTREL")
    catalogue.db.execute("UPDATE marks SET words = 'BRINDLEWICK'")  # by another program, past our functions
    assert keys(catalogue, "brindlewick") == ["m1"]
    catalogue.db.execute("INSERT INTO marks (words, added_at) VALUES ('KEDGE', 'now')")
    assert keys(catalogue, "kedge") == ["m1", "m2"]
    with store.transaction(catalogue):
        assert mark_index.file_all(catalogue) == 2
    assert keys(catalogue, "kedge") == ["m2"]
    catalogue.db.execute("DELETE FROM marks WHERE id = 2")
    assert catalogue.db.execute("SELECT count(*) FROM mark_keys").fetchone()[0] == 1


def test_keys_of_an_older_kind_are_made_anew(catalogue, monkeypatch):
    marks.add(catalogue, words="OSTREL")
    catalogue.db.execute("UPDATE mark_keys SET keys = 'old'")
    assert keys(catalogue, "ostrel") == []
    monkeypatch.setattr(mark_index, "VERSION", mark_index.VERSION + 1)
    assert keys(catalogue, "ostrel") == ["m1"]  # compared one by one until it is filed
    marks.add(catalogue, words="KEDGE")
    assert keys(catalogue, "ostrel") == ["m1"] and keys(catalogue, "kedge") == ["m2"]


def invented(chance, count):
    """Marks of one to three invented words."""
    parts = "bra den fel gor hal kes lin mor nel ost per quil ros sel tar thorn ul van wick wold".split()
    vocabulary = ["".join(chance.choice(parts) for _ in range(chance.randrange(2, 4))) for _ in range(count // 2)]
    return [" ".join(chance.choice(vocabulary) for _ in range(chance.choice((1, 2, 2, 3)))).upper() for _ in range(count)]


def test_the_index_finds_what_a_plain_scan_finds(catalogue):
    chance = random.Random(11)
    with store.transaction(catalogue):
        for words in invented(chance, 1500):
            marks.insert(catalogue, words=words)
        mark_index.file_all(catalogue)
    everything = marks.listed(catalogue)
    for _ in range(25):
        words = chance.choice(everything).words.split()
        text = chance.choice((" ".join(words), f"the {words[0]} inn", f"Board with {' '.join(words)}s, painted", words[0][:-1] + "x", "".join(words)))
        texts = (Text("wording", prepared(text)),)
        _texts, near = mark_search.near(catalogue, texts)
        assert [m.key for m in near if nearest(texts, m)] == [m.key for m in everything if nearest(texts, m)], text


def test_a_word_of_very_many_marks_tells_nothing_by_itself(catalogue, monkeypatch):
    monkeypatch.setattr(mark_search, "COMMON", 3)
    for words in ("HARBOUR LANTERN", "OLD LANTERN", "LANTERN & SON", "RED LANTERN", "LANTERN"):
        marks.add(catalogue, words=words)
    texts, near = mark_search.near(catalogue, (Text("wording", prepared("Lantern")),))
    assert [mark.words for mark in near if nearest(texts, mark)] == ["LANTERN"]


def test_linked_marks_come_along(catalogue):
    marks.add(catalogue, ["gull"], note="a gull in a ring", kind="figurative")
    assert [mark.key for mark in mark_search.near(catalogue, (), ["gull"])[1]] == ["m1"]
    assert mark_search.near(catalogue, (), ["tern"])[1] == []


def test_a_search_place_by_place(catalogue):
    marks.add(catalogue, words="HARE & LANTERN", office="US", classes=[20], state="registered")
    us, ca = mark_search.search(catalogue, "Hare and Lantern", ["US", "CA"], DAY, "carved wooden sign")
    assert [one.strength for one in us.found] == [EXACT] and us.count == 1 and ca.count == 1 and ca.found[0].strength == "weak"
    assert mark_search.search(catalogue, "Hare and Lantern", ["US"], DAY)[0].found[0].strength == "strong"  # no product was named
    assert mark_search.search(catalogue, "Hare and Lantern", ["US"], DAY, classes=[33])[0].found[0].goods == "other"
    with pytest.raises(RegistryError, match="^Say what to search for"):
        mark_search.search(catalogue, "  ", ["US"], DAY)


def test_searches_are_kept_also_when_nothing_was_found(catalogue):
    one = marks.add_search(catalogue, "EU", "HARE & LANTERN", by="Ann Roe", at="2026-05-02", classes=[20, 6])
    two = marks.add_search(catalogue, "US", "GULL", by="Ann Roe", at="2026-05-03", result="two dead marks", note="register of the office")
    assert (one.result, one.classes, two.result) == ("nothing found", (6, 20), "two dead marks")
    assert marks.searches(catalogue) == [two, one]
    assert marks.searches(catalogue, ["DE"]) == [one] and marks.searches(catalogue, ["CH"]) == []
    assert marks.searches(catalogue, words=["gull"]) == [two]
    told = mark_search.told(catalogue, ["DE"], ["hare & lantern"])
    assert "no clearance" in told[0] and "0 marks on record were compared" in told[0]
    assert told[1] == "On 2026-05-02 Ann Roe searched EU for 'HARE & LANTERN', class 6, 20: nothing found."


@pytest.mark.parametrize("given, says", [
    ({"by": " "}, "who searched"), ({"words": ""}, "the words searched for"), ({"place": ""}, "where it was searched"), ({"result": ""}, "what was found"),
    ({"classes": [0]}, "The class is 0"), ({"at": "May"}, "A day must be"),
])
def test_searches_that_cannot_be(catalogue, given, says):
    with pytest.raises(RegistryError, match=says):
        marks.add_search(catalogue, **{"place": "US", "words": "GULL", "by": "Ann", "at": "2026-05-02", **given})
    assert marks.searches(catalogue) == []


@pytest.mark.parametrize("columns, error, says", [
    ({"words": ""}, RegistryError, "^A mark needs its words, or for a picture or shape a note of what it shows.$"),
    ({"state": "asleep"}, RegistryError, "allowed are applied, published, opposed, registered, expired, cancelled"),
    ({"kind": "smell"}, RegistryError, "allowed are word, figurative, combined, shape"),
    ({"classes": [46]}, RegistryError, "The class is 46"),
    ({"expires": "2031"}, BadDate, "^expires: "),
    ({"office": "US", "number": "i-1"}, Conflict, "^The number i-1 of the office US is recorded already, as m1"),
])
def test_marks_that_cannot_be(catalogue, columns, error, says):
    marks.add(catalogue, words="FIRST", office="US", number="i-1")
    with pytest.raises(error, match=says):
        marks.add(catalogue, **{"words": "GULL", **columns})
    assert marks.count(catalogue) == 1


@pytest.mark.parametrize("key", ["m9", "9", "x1", "m", "m-1", "m1 or 1", "m" + "9" * 30])
def test_there_is_no_such_mark(catalogue, key):
    with pytest.raises(UnknownRecord, match="mark"):
        marks.get(catalogue, key)


def test_an_older_catalogue_keeps_its_marks(tmp_path):
    connection = sqlite3.connect(tmp_path / "old.db", isolation_level=None)
    for name, statements in schema.STEPS.items():
        if name == "08-marks":
            break
        for statement in statements:
            connection.execute(statement)
    catalogue = store.wrap(tmp_path, connection)
    connection.execute("INSERT INTO works (id, key, title, facts, facts_sha256, originality, added_at, changed_at, makers) VALUES (1, 'gull', '', '{}', '', 'unknown', '', '', '')")
    connection.execute("INSERT INTO marks (id, words, office, number, classes, state, avoid, added_at) VALUES (7, 'OSTREL', 'US', 'i-7', '[20]', 'live', 'all', 'then')")
    connection.execute("INSERT INTO mark_works (mark, work) VALUES (7, 1)")
    for statement in schema.STEPS["08-marks"]:
        connection.execute(statement)
    mark = marks.get(catalogue, 7)
    assert (mark.words, mark.number, mark.classes, mark.state, mark.avoid, mark.added_at, mark.works) == ("OSTREL", "i-7", (20,), "live", "all", "then", ("gull",))
    assert connection.execute("PRAGMA foreign_key_check").fetchall() == []
    assert keys(catalogue, "ostrel") == ["m7"]
