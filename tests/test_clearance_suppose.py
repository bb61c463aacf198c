"""What-ifs: how they are written, where they go, and that the record stays as it was."""

import copy

import clearing
import pytest

from registry.clearance import suppose
from registry.errors import BadFacts, RegistryError
from registry.facts import edtf
from registry.rulebook import rulebook

WORDS = rulebook().vocabulary
FACTS = {"id": "w1", "title": "Plate", "creators": [{"name": "A", "died": "unknown"}, {"name": "B"}], "publications": [{"date": "1930", "country": "US"}]}


@pytest.mark.parametrize("text, expected", [
    ("us_renewed=false", (None, "us_renewed", False)), (" us_renewed = Yes ", (None, "us_renewed", True)), ("died=1950", (None, "died", "1950")),
    ("w1:creators.0.died=195X", ("w1", "creators.0.died", "195X")), ('nationality=["GB"]', (None, "nationality", ["GB"])), ("died=unknown", (None, "died", "unknown"))])
def test_a_supposition_is_read(text, expected):
    found = suppose.read(text)
    assert (found.about, found.path, found.value) == expected


@pytest.mark.parametrize("text", ["us_renewed", "=false", "", "x=[1", "x=" + "[" * 5000, "x=" + "[" * 100_000, "x=" + "[" * 900 + "]" * 900, 'x="\\ud800"', "x=[" + "1" * 5000 + "]"])
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


@pytest.mark.parametrize("path, value", [("renewed", False), ("creators.5.died", "1950"), ("creators.x.died", "1950"), ("died", True), ("created", False), ("us_renewed.0.x", False),
    ("creators.\u00b2.died", "1990"), ("creators.\u0662.died", "1990"), ("creators." + "1" * 5000 + ".died", "1990"), ("creators.0.creators.0.died.x", "1990")])
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


@pytest.mark.parametrize("value", ["zzz", "Faithful_Copy", ["faithful_copy"], True])
def test_only_what_a_version_can_be_is_supposed_of_it(value):
    objects = {work["key"]: work["facts"] for work in ROW["works"]}
    with pytest.raises(BadFacts, match="allowed are faithful_copy, new_expression, unknown.$"):
        suppose.case(clearing.case(ROW), [suppose.Supposition("w1", "originality", value)], objects, WORDS)


@pytest.mark.parametrize("first", ["creators=abc", "creators=[1]"])
@pytest.mark.parametrize("second", ["died=1950", "creators.0.died=1950", "creators.0.publications.0.date=1950"])
def test_a_supposition_upon_one_that_cannot_be_is_refused(first, second):
    with pytest.raises(BadFacts):
        _case(f"w1:{first}", f"w1:{second}")


TERMS = [  # as typed, the term, its value in the Permission (None: refused)
    ("p1:commercial=yes", "commercial", True), ("p1:commercial=unknown", "commercial", None), ("p1:changes_allowed=1", "changes_allowed", None),
    ("p1:quantity=30", "quantity", 30), ("p1:quantity=many", "quantity", None), ("p1:quantity=\u00b2", "quantity", None), ('p1:quantity=["30"]', "quantity", None),
    ("p1:places=US,GB", "places", ("US", "GB")), ('p1:places=["US"]', "places", ("US",)), ("p1:places=[1]", "places", None), ("p1:places=yes", "places", None),
    ("p1:first=2027-01-01", "first", edtf.day("2027-01-01")), ("p1:to=[1]", "last", None), ("p1:to=soon", "last", None), ("p1:licensor=yes", "licensor", None)]


@pytest.mark.parametrize("text, name, expected", TERMS)
def test_a_term_of_a_permission_is_supposed_in_its_own_form(text, name, expected):
    row = {row["id"]: row for row in clearing.rows("scenarios.jsonl")}["P15"]
    objects = {work["key"]: work["facts"] for work in row["works"]}
    told = [suppose.read(text)]
    if expected is None:
        with pytest.raises(RegistryError):
            suppose.case(clearing.case(row), told, objects, WORDS)
    else:
        found = suppose.case(clearing.case(row), told, objects, WORDS)
        assert [getattr(one, name) for one in found.permissions if one.key == "p1"] == [expected]
