"""What-ifs: how they are written, where they go, and that the record stays as it was."""

import copy

import clearing
import pytest

from registry.clearance import suppose
from registry.errors import RegistryError
from registry.rulebook import rulebook

WORDS = rulebook().vocabulary
FACTS = {"id": "w1", "title": "Plate", "creators": [{"name": "A", "died": "unknown"}, {"name": "B"}], "publications": [{"date": "1930", "country": "US"}]}


@pytest.mark.parametrize("text, expected", [
    ("us_renewed=false", (None, "us_renewed", False)), (" us_renewed = Yes ", (None, "us_renewed", True)), ("died=1950", (None, "died", "1950")),
    ("w1:creators.0.died=195X", ("w1", "creators.0.died", "195X")), ('nationality=["GB"]', (None, "nationality", ["GB"])), ("died=unknown", (None, "died", "unknown"))])
def test_a_supposition_is_read(text, expected):
    found = suppose.read(text)
    assert (found.about, found.path, found.value) == expected


@pytest.mark.parametrize("text", ["us_renewed", "=false", "", "x=[1"])
def test_what_is_no_supposition_is_refused(text):
    with pytest.raises(RegistryError):
        suppose.read(text)


@pytest.mark.parametrize("path, value, where, expected", [
    ("us_renewed", False, lambda f: f["us_renewed"], False), ("creators.0.died", "1950", lambda f: [c.get("died") for c in f["creators"]], ["1950", None]),
    ("died", "1950", lambda f: [c["died"] for c in f["creators"]], ["1950", "1950"]), ("creators[1].died", "1950", lambda f: f["creators"][1]["died"], "1950"),
    ("publications.1.country", "gb", lambda f: f["publications"][1]["country"], "GB"), ("nationality", "gb,us", lambda f: f["creators"][0]["nationality"], ["GB", "US"]),
    ("date", "1931", lambda f: f["publications"][0]["date"], "1931")])
def test_a_path_leads_to_its_fact(path, value, where, expected):
    before = copy.deepcopy(FACTS)
    assert where(suppose.facts(FACTS, path, value, WORDS)) == expected
    assert FACTS == before


def test_a_fact_of_the_maker_makes_a_maker():
    assert suppose.facts({"title": "x"}, "died", "1950", WORDS)["creators"] == [{"died": "1950"}]


@pytest.mark.parametrize("path, value", [("renewed", False), ("creators.5.died", "1950"), ("creators.x.died", "1950"), ("died", True), ("created", False), ("us_renewed.0.x", False)])
def test_what_leads_nowhere_is_refused(path, value):
    with pytest.raises(RegistryError):
        suppose.facts(FACTS, path, value, WORDS)


ROW = {row["id"]: row for row in clearing.rows("scenarios.jsonl")}["P28"]


def _case(*texts):
    objects = {work["key"]: work["facts"] for work in ROW["works"]}
    return suppose.case(clearing.case(ROW), [suppose.read(text) for text in texts], objects, WORDS)


def test_a_case_takes_suppositions_about_its_works():
    found = _case("w2:died=1941", "w1:originality=unknown")
    assert found.layers["w2"].work.creators[0].died.text == "1941" and found.layers["w1"].originality == "unknown"
    assert clearing.case(ROW).layers["w2"].work.creators[0].died is None


@pytest.mark.parametrize("text, words", [("died=1941", "w1:died"), ("w9:died=1941", "Nothing in this job is called 'w9'")])
def test_a_supposition_must_say_what_it_is_about(text, words):
    with pytest.raises(RegistryError, match=words):
        _case(text)


def test_a_permission_can_be_supposed():
    row = {row["id"]: row for row in clearing.rows("scenarios.jsonl")}["P15"]
    objects = {work["key"]: work["facts"] for work in row["works"]}
    found = suppose.case(clearing.case(row), [suppose.read("p1:to=2027-12-31")], objects, WORDS)
    assert clearing.answer(found, clearing.ground(row["as_of"])).clear
    with pytest.raises(RegistryError, match="no 'colour'"):
        suppose.case(clearing.case(row), [suppose.read("p1:colour=red")], objects, WORDS)
