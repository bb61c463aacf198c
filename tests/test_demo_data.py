"""The records of the demo shop: complete, resolvable, of the vocabulary, and every branch is there."""

import json
import re
import tomllib
from pathlib import Path

import pytest

from demo_modules import DEMO, shop

VOCABULARY = Path(__file__).resolve().parent.parent / "metadata" / "facts.toml"
KINDS = ("drawing", "painting", "print", "photograph", "sculpture", "map", "text", "lettering")
DATA = shop.load(DEMO)
WORKS = {work["key"]: work for work in DATA["works"]}
USES = [(job["key"], use) for job in DATA["jobs"] for use in job["uses"]]


def _chain(key):
    """The work and all it is based on; fails on a circle."""
    seen = []
    while key:
        assert key not in seen, f"{key} is based on itself"
        seen.append(key)
        key = WORKS[key]["based_on"]
    return seen


# --- records ---------------------------------------------------------------------------------


@pytest.mark.parametrize("kind", ["works", "jobs", "permissions", "marks"])
def test_every_key_is_unique(kind):
    keys = [record["key"] for record in DATA[kind]]
    assert len(keys) == len(set(keys))
    assert all(re.fullmatch(r"[a-z0-9][a-z0-9-]*", key) for key in keys)


@pytest.mark.parametrize("kind, least", [("works", 28), ("jobs", 8), ("permissions", 5), ("marks", 5), ("evidence", 15)])
def test_there_is_enough_to_look_at(kind, least):
    assert len(DATA[kind]) >= least


def test_every_reference_leads_to_a_work():
    named = [work["based_on"] for work in DATA["works"] if work["based_on"]]
    named += [use["work"] for _, use in USES]
    named += [record["work"] for kind in ("permissions", "evidence") for record in DATA[kind]]
    named += [key for mark in DATA["marks"] for key in mark["works"]]
    assert set(named) <= set(WORKS)


def test_no_work_is_based_on_itself():
    assert max(len(_chain(key)) for key in WORKS) >= 2


@pytest.mark.parametrize("kind, fields", [
    ("works", {"key", "facts", "based_on", "originality", "traits", "terms_of_access", "note", "picture"}),
    ("jobs", {"key", "title", "product", "purpose", "markets", "quantity", "wording", "due", "customer", "uses"}),
    ("permissions", {"key", "work", "grantor", "kind", "spdx", "commercial", "changes_allowed", "uses", "places", "media",
                     "quantity", "from", "to", "exclusive", "credit_line", "document"}),
    ("marks", {"key", "words", "kind", "owner", "office", "number", "filed", "registered", "expires", "status_words",
               "state", "classes", "goods", "avoid", "works"}),
    ("evidence", {"work", "for", "kind", "title", "where", "seen", "by", "basis"}),
])
def test_every_record_has_the_same_fields(kind, fields):
    assert [record for record in DATA[kind] if set(record) != fields] == []


def test_values_with_a_fixed_choice():
    assert {work["originality"] for work in DATA["works"]} == {"faithful_copy", "new_expression", "unknown"}
    assert {job["purpose"] for job in DATA["jobs"]} == {"sale", "commission", "gift", "display"}
    assert {use["part"] for _, use in USES} == {"picture", "lettering", "text", "photograph"}
    assert {mark["state"] for mark in DATA["marks"]} == {"live", "dead", "pending"}
    for mark in DATA["marks"]:
        assert re.fullmatch(r"[A-Z]{2}", mark["office"]) and all(1 <= n <= 45 for n in mark["classes"])
        assert mark["number"].startswith("invented-"), "a mark of the demo must be seen to be invented"


def test_a_use_names_only_traits_of_its_work_or_of_what_that_is_based_on():
    for job, use in USES:
        shown = {trait for key in _chain(use["work"]) for trait in WORKS[key]["traits"]}
        assert set(use["traits"]) <= shown, f"{job}: {use['work']} does not show {set(use['traits']) - shown}"


def test_days_are_days_and_stand_in_order():
    days = [job["due"] for job in DATA["jobs"]] + [record["seen"] for record in DATA["evidence"]]
    days += [record[end] for record in DATA["permissions"] for end in ("from", "to") if record[end]]
    days += [mark[end] for mark in DATA["marks"] for end in ("filed", "registered", "expires") if mark[end]]
    assert [day for day in days if not re.fullmatch(r"\d{4}-(0[1-9]|1[0-2])-(0[1-9]|[12]\d|3[01])", day)] == []
    assert all(record["from"] <= record["to"] for record in DATA["permissions"] if record["to"])
    assert all(mark["filed"] <= mark["registered"] < mark["expires"] for mark in DATA["marks"] if mark["registered"])


# --- facts -----------------------------------------------------------------------------------


def _allowed():
    if not VOCABULARY.is_file():
        pytest.skip("metadata/facts.toml is not there: the names cannot be checked")
    facts = tomllib.loads(VOCABULARY.read_text(encoding="utf-8"))["fact"]
    return {owner: {fact["name"] for fact in facts if fact["of"] == owner} for owner in ("work", "creator", "publication")}


def test_facts_use_only_names_of_the_vocabulary():
    allowed = _allowed()
    assert "us_renewed" in allowed["work"] and "died_for_france" in allowed["creator"]
    for key, work in WORKS.items():
        facts = work["facts"]
        assert set(facts) - {"creators"} <= allowed["work"], key
        assert all(set(one) <= allowed["creator"] for one in facts.get("creators", ())), key
        assert all(set(one) <= allowed["publication"] for one in facts.get("publications", ())), key


def test_evidence_supports_a_fact_of_the_vocabulary_that_the_work_records():
    allowed = _allowed()
    for record in DATA["evidence"]:
        facts = WORKS[record["work"]]["facts"]
        recorded = set(facts).union(*facts.get("creators", ()))
        assert record["for"] in set.union(*allowed.values()), record
        assert record["for"] in recorded, record


def test_the_id_of_the_facts_is_the_key():
    assert [key for key, work in WORKS.items() if work["facts"]["id"] != key or not work["facts"]["title"]] == []


def _first(key):
    publications = WORKS[key]["facts"].get("publications") or [{"date": None, "country": None}]
    return publications[0]["country"], publications[0]["date"]


@pytest.mark.parametrize("country, year, facts", [
    ("US", "1928", {"us_notice": True, "us_renewed": True}),
    ("US", "1930", {"us_notice": True, "us_renewed": True}),
    ("US", "1931", {"us_notice": True, "us_renewed": True}),
    ("US", "1945", {"us_renewed": False}),
    ("US", "1950", {"us_notice": False}),
    ("US", "1955", {"us_renewed": "unknown"}),
    ("US", "1963", {"us_renewed": False}),
    ("US", "1964", {"us_renewed": False}),
    ("US", "1977", {"us_notice": True}),
    ("US", "1985", {"us_notice": False, "us_notice_cured": False}),
    ("US", "1926", {"authorship": "corporate"}),
    ("US", "192X", {}),
    ("US", "1928~", {}),
    ("US", "[..1930]", {}),
    ("US", "1952", {"us_government_work": True}),
    ("GB", "1911", {"authorship": "anonymous"}),
    ("GB", "1927", {"authorship": "pseudonymous"}),
    ("GB", "1934", {"us_published_within_30_days": False}),
    ("DE", "2014", {"faithful_reproduction": True}),
    ("GB", "2011", {"subject_three_dimensional": True}),
    ("NL", "1932", {"authorship": "corporate", "maker_named_on_copies": False}),
    (None, None, {"published": False, "created": "1903"}),
])
def test_this_branch_is_exercised_by_a_work(country, year, facts):
    fits = [key for key, work in WORKS.items()
            if (country is None or _first(key)[0] == country and str(_first(key)[1]).startswith(year))
            and all(work["facts"].get(name) == value for name, value in facts.items())]
    assert fits


@pytest.mark.parametrize("nationality, facts", [
    ("FR", {"died_for_france": True}),
    ("FR", {"died_for_france": "unknown"}),
    ("DE", {"died": "1950"}),
    ("ES", {"died": "1950"}),
    ("MX", {"died": "1947"}),
    ("CA", {"died": "1971"}),
    ("CA", {"died": "1972"}),
    ("GB", {"role": "engraver"}),
    ("JP", {}), ("AU", {"role": "photographer"}), ("NZ", {}), ("IT", {}), ("IE", {}),
    ("NL", {"legal_person": True}),
    ("GB", {"alive": True}),
    ("GB", {"author_untraceable": True}),
])
def test_this_kind_of_artist_is_there(nationality, facts):
    artists = [one for work in WORKS.values() for one in work["facts"].get("creators", ())]
    assert [one for one in artists if one.get("nationality") == [nationality]
            and all(one.get(name) == value for name, value in facts.items())]


def test_one_work_has_nothing_known_and_every_kind_is_shown():
    assert any(set(work["facts"]) == {"id", "title", "kind"} for work in WORKS.values())
    assert {work["facts"]["kind"] for work in WORKS.values()} == set(KINDS)


# --- reading ---------------------------------------------------------------------------------


@pytest.mark.parametrize("line, complaint", [
    ('{"key": "a",}', r"works\.jsonl, line 2, column \d+: .*one JSON object a line"),
    ("[1]", r"works\.jsonl, line 2: this is list, and one JSON object"),
])
def test_a_bad_line_is_named(tmp_path, line, complaint):
    for kind in shop.KINDS:
        (tmp_path / f"{kind}.jsonl").write_text("{}\n", encoding="utf-8")
    (tmp_path / "works.jsonl").write_text("{}\n" + line + "\n", encoding="utf-8")
    with pytest.raises(ValueError, match=complaint):
        shop.load(tmp_path)


def test_load_gives_the_lines_in_order():
    lines = (DEMO / "works.jsonl").read_text(encoding="utf-8").splitlines()
    assert DATA["works"] == [json.loads(line) for line in lines]
    assert set(DATA) == {"works", "jobs", "permissions", "marks", "evidence"}
