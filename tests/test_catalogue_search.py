"""Search finds words in titles, makers, traits and notes, and is always up to date."""

import random

import kept
import pytest
from registry.catalogue import search, works


@pytest.fixture
def catalogue(tmp_path):
    found = kept.new(tmp_path)
    works.add(found, kept.GULL, key="gull", traits=[("patched hat", "grey felt")], notes="from the flat file")
    works.add(found, kept.CRAB, key="crab")
    works.add(found, {"title": "Café de la Gare, gull-wing “Möwe”"}, key="cafe", notes="hat shop across the street")
    return found


@pytest.mark.parametrize(
    "words, keys",
    [
        ("bollard", ["gull"]),
        ("BOLL", ["gull"]),
        ("quill", ["gull", "crab"]),
        ("perpetua kettle", ["crab"]),
        ("hat", ["gull", "cafe"]),
        ("felt", ["gull"]),
        ("flat", ["gull"]),
        ("cafe mowe", ["cafe"]),
        ("MÖWE", ["cafe"]),
        ("gull-wing", ["cafe"]),
        ("crab", ["crab"]),
        ("bollard kettle", []),
        ("nothing of it", []),
        ('"', []),
        ('" OR title:*', []),
        ("gull OR crab", []),
        ("NOT gull", []),
        ("gull*", ["gull", "cafe"]),
        ("title:gull", []),
        ("(", []),
        ("", []),
        ("   ", []),
        ("^ - + ~", []),
        ("'; DROP TABLE works; --", []),
    ],
)
def test_found(catalogue, words, keys):
    assert sorted(record.key for record in search.find(catalogue, words)) == sorted(keys)


def test_a_key_comes_first(catalogue):
    works.add(catalogue, {"title": "hat hat hat"}, key="x9")
    works.add(catalogue, {"title": "X9 in a hat"}, key="other")
    assert [record.key for record in search.find(catalogue, "x9")] == ["x9", "other"]


def test_the_best_match_comes_first(catalogue):
    works.add(catalogue, {"title": "Nothing"}, key="late", notes="bollard " + "word " * 50)
    assert [record.key for record in search.find(catalogue, "bollard")] == ["gull", "late"]


def test_the_limit(catalogue):
    assert len(search.find(catalogue, "quill")) == 2
    assert len(search.find(catalogue, "quill", 1)) == 1


def test_changes_are_found_at_once(catalogue):
    record = works.get(catalogue, "gull")
    works.change(catalogue, "gull", 1, facts={**record.facts, "title": "Tern", "creators": []}, traits=["scarf"], notes="moved")
    for words, keys in (("bollard", []), ("tern", ["gull"]), ("scarf", ["gull"]), ("felt", []), ("flat", []), ("moved", ["gull"]), ("quill", ["crab"])):
        assert [record.key for record in search.find(catalogue, words)] == keys


def test_the_index_agrees_with_the_tables_after_many_changes(catalogue):
    chance, words = random.Random(3), ["tern", "boat", "rope", "lamp", "fish", "hat"]
    for number in range(60):
        if number % 3 == 0:
            works.add(catalogue, {"title": " ".join(chance.sample(words, 2))}, key=f"r{number}", traits=chance.sample(words, 1))
        else:
            record = chance.choice(works.listed(catalogue))
            works.change(catalogue, record.key, record.version, traits=chance.sample(words, 2), notes=chance.choice(words))
    for word in words:
        held = {record.key for record in works.listed(catalogue)
                if word in " ".join([record.title, record.makers, record.notes, *(f"{n} {t}" for n, t in record.traits)]).lower().split()}
        assert {record.key for record in search.find(catalogue, word, 1000)} == held
        assert held
    catalogue.db.execute("INSERT INTO works_search (works_search) VALUES ('integrity-check')")
