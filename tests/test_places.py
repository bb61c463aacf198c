"""Every place of the list has a law or an honest gap; general files say what they cover and set nothing free too early."""

import csv
import tomllib
from datetime import date

import pytest
from rows import answer

from registry import data
from registry.law.load import read_law
from registry.rulebook import covered, place_names, place_phrases, rulebook

PLACES = {row["code"]: row["name"] for row in csv.DictReader(data.read_text("places.csv").splitlines())}
FILES = [name for name in data.names("terms") if not name.startswith("_") and name.endswith(".toml")]
TERRITORIES = tomllib.loads(data.read_text("terms", "_territories.toml"))["place"]
DAY = "2026-07-01"


def read(name):
    return read_law(data.read_text("terms", name), name, rulebook().laws)


def test_the_list_has_every_code_once():
    lines = data.read_text("places.csv").splitlines()
    assert len(lines) == 250 and len(PLACES) == 249
    assert all(len(code) == 2 and code.isascii() and code.isupper() and name.strip() for code, name in PLACES.items())


@pytest.mark.parametrize("code", PLACES)
def test_every_place_resolves_to_a_law_or_to_a_gap_with_a_reason(code):
    laws = rulebook().laws
    if laws.law(code) is None:
        assert TERRITORIES.get(code, {}).get("gap"), f"{code} ({PLACES[code]}) has neither a law nor a gap."
        assert laws.gap(code).says == TERRITORIES[code]["gap"]


@pytest.mark.parametrize("name", FILES)
def test_every_file_loads_and_says_what_it_is(name):
    law = read(name)
    assert f"{law.code.lower()}.toml" == name
    assert law.code in PLACES and law.name.strip()
    assert law.covers and law.acts
    assert date.fromisoformat(law.checked)


def test_a_place_is_called_the_same_everywhere():
    """China is the one exception: its file says that it is the law of the mainland."""
    laws = rulebook().laws
    named = {code: laws.law(code).name for code in PLACES if laws.law(code) and laws.law(code).code == code} | {code: place["name"] for code, place in TERRITORIES.items()}
    assert {code for code, name in named.items() if name != PLACES[code]} == {"CN"}


@pytest.mark.parametrize("code", TERRITORIES)
def test_a_territory_has_either_a_law_or_a_gap(code):
    place = TERRITORIES[code]
    assert set(place) <= {"name", "law", "says", "gap", "cite", "how"}
    assert code in PLACES and place["name"] and place["cite"]
    assert place["how"] in ("read", "secondary", "memory")
    assert ("law" in place) != ("gap" in place)
    assert f"{code.lower()}.toml" not in FILES
    assert place.get("says", place.get("gap", "")).endswith(".")
    if "law" in place:
        assert "says" in place and f"{place['law'].lower()}.toml" in FILES


def test_all_covered_places_are_in_the_list():
    assert set(covered()) <= set(PLACES)


def test_a_gap_is_undetermined_and_shows_its_reason():
    got = answer({"id": "gap", "kind": "drawing", "creators": [{"died": "1800"}]}, "AQ", DAY)
    assert (got["status"], got["undetermined_because"]) == ("undetermined", "not_covered")
    assert [rule["says"] for rule in got["why"]] == [TERRITORIES["AQ"]["gap"]]


def test_a_territory_answers_with_the_law_of_its_state():
    facts = {"id": "t", "kind": "drawing", "created": "1931", "creators": [{"died": "1985", "nationality": ["US"]}],
             "published": True, "publications": [{"date": "1931", "country": "US"}], "us_notice": True, "us_renewed": True}
    here, there = answer(facts, "PR", DAY), answer(facts, "US", DAY)
    assert {**here, "jurisdiction": "US"} == there


# --- nothing is free too early, anywhere -----------------------------------------------------------

NEW = {"kind": "drawing", "authorship": "individual", "created": "2019", "published": True, "creators": [{"died": "2025", "nationality": ["NO"]}],
       "publications": [{"date": "2020", "country": "NO"}]}


@pytest.mark.parametrize("code", PLACES)
@pytest.mark.parametrize("kind", ["drawing", "photograph", "text", "film", "applied_art"])
def test_a_work_of_2020_by_an_artist_who_just_died_is_free_nowhere(code, kind):
    assert answer({**NEW, "id": "new", "kind": kind}, code, DAY)["status"] != "public_domain"


@pytest.mark.parametrize("code", PLACES)
def test_a_work_of_which_nothing_is_known_is_free_nowhere(code):
    assert answer({"id": "blank", "kind": "drawing"}, code, DAY)["status"] == "undetermined"


@pytest.mark.parametrize("code", PLACES)
def test_an_unnamed_maker_who_may_still_be_found_is_free_nowhere(code):
    facts = {"id": "unnamed", "kind": "drawing", "authorship": "anonymous", "created": "1960", "published": True,
             "publications": [{"date": "1960", "country": "NO"}]}
    assert answer(facts, code, DAY)["status"] != "public_domain"


# --- a sample of the general files, both sides of the edge ------------------------------------------------

def drawing(died, published="1940", **more):
    return {"id": "edge", "kind": "drawing", "authorship": "individual", "created": "1930", "published": True,
            "creators": [{"died": str(died)}], "publications": [{"date": published, "country": "KE"}], **more}


@pytest.mark.parametrize(
    ("code", "last_free"),
    [("KE", 1975), ("BD", 1965), ("BH", 1955), ("SN", 1955), ("WS", 1950), ("MA", 1955), ("PH", 1975), ("FJ", 1975), ("KZ", 1955), ("GH", 1955)],
)
def test_the_year_of_death_decides(code, last_free):
    assert answer(drawing(last_free), code, DAY)["status"] == "public_domain"
    assert answer(drawing(last_free + 5), code, DAY)["status"] == "in_copyright"


@pytest.mark.parametrize(
    ("code", "died", "rule"),
    [("CM", 1970, "oapi.annex"), ("UZ", 1965, "uz.brought-back"), ("ID", 1960, "id.brought-back"), ("MV", 1970, "mv.brought-back"),
     ("MU", 1970, "mu.term"), ("GQ", 1970, "gq.term"), ("CI", 1940, "ci.term"), ("SX", 1970, "sx.term")],
)
def test_where_the_sources_disagree_the_band_between_is_open(code, died, rule):
    got = answer(drawing(died), code, DAY)
    assert (got["status"], got["undetermined_because"]) == ("undetermined", "contested_law")
    assert rule in [r["id"] for r in got["why"]]
    assert answer(drawing(1920, "1915", created="1910"), code, DAY)["status"] == "public_domain"
    assert answer(drawing(2010), code, DAY)["status"] == "in_copyright"


def test_a_photograph_in_thailand_left_its_own_term_in_2022():
    photo = {"id": "th", "kind": "photograph", "authorship": "individual", "creators": [{"died": "1990"}], "published": True}
    late = {**photo, "created": "1980", "publications": [{"date": "1980", "country": "TH"}]}
    early = {**photo, "created": "1960", "publications": [{"date": "1960", "country": "TH"}]}
    assert answer(late, "TH", DAY)["free_from"] == "2041-01-01"
    assert answer(late, "TH", "2022-01-01")["free_from"] == "2031-01-01"
    assert answer(early, "TH", DAY)["undetermined_because"] == "contested_law"


def test_a_foreign_work_in_iran_may_never_have_been_protected():
    assert answer(drawing(2000), "IR", DAY)["undetermined_because"] == "contested_law"
    home = {**drawing(2000), "publications": [{"date": "1940", "country": "IR"}]}
    assert answer(home, "IR", DAY)["free_from"] == "2051-01-01"


def test_the_end_of_the_afghan_year_is_waited_for():
    assert answer(drawing(1975), "AF", "2026-01-01")["status"] == "in_copyright"
    assert answer(drawing(1975), "AF", "2026-03-22")["status"] == "public_domain"


def test_names_have_an_article_within_a_sentence_where_english_asks_for_one():
    phrases, names = place_phrases(), place_names()
    assert phrases.keys() == names.keys()
    assert [phrases[code] for code in ("US", "GB", "NL", "FR", "AE", "BS", "DE")] == \
        ["the United States", "the United Kingdom", "the Netherlands", "France", "the United Arab Emirates", "the Bahamas", "Germany"]
    assert all(phrase in (names[code], f"the {names[code]}") for code, phrase in phrases.items())
    assert {code for code in names if names[code].endswith((" Islands", " Territory", " Territories")) and phrases[code] == names[code]} == {"GS", "HM"}
