"""Lettering and wording: typefaces by country, short phrases, long texts, lettering like a brand's."""

from dataclasses import replace

import clearing
import pytest

from registry.clearance.layers import by_law
from registry.clearance.lettering import brand_like, making_of, of_letters, of_words
from registry.clearance.model import HOLD, NO_BAR, OPEN, JobFacts, Layer, Use
from registry.facts.work import read_work
from registry.rulebook import rulebook

ON = clearing.ground("2026-11-25")


def font(year, alive=True):
    maker = {"name": "M", "nationality": ["FR"], **({"alive": True} if alive else {"died": "1952", "died_for_france": False})}
    return Layer("f", "Face", read_work({"kind": "lettering", "authorship": "individual", "creators": [maker], "created": year, "published": True,
                                         "publications": [{"date": year, "country": "FR"}]}, rulebook().vocabulary))


def _answer(layer, code, product="printed metal sign"):
    return of_letters(by_law(layer, "lettering", code, ON), layer, JobFacts("j", product), code, ON)


@pytest.mark.parametrize("code, product, decision, caution", [
    ("US", "carved wooden sign", NO_BAR, "TYPE-US"), ("GB", "printed metal sign", NO_BAR, "TYPE-GB"), ("GB", "carved wooden sign", OPEN, "TYPE-GB"),
    ("GB", "printed and carved sign", OPEN, "TYPE-GB"), ("GB", "metal sign", OPEN, "TYPE-GB"), ("FR", "printed metal sign", HOLD, "TYPE-FR"), ("DE", "printed metal sign", OPEN, "TYPE-DE")])
def test_a_modern_typeface_place_by_place(code, product, decision, caution):
    found = _answer(font("2021"), code, product)
    assert (found.decision, [one.id for one in found.cautions]) == (decision, [caution])


def test_only_an_untold_making_is_asked_for():
    assert "making" in [ask.fact for ask in _answer(font("2021"), "GB", "metal sign").asks]
    assert "making" not in [ask.fact for ask in _answer(font("2021"), "GB", "carved sign").asks]


def test_a_place_without_a_rule_follows_its_term():
    found = _answer(font("2021"), "MX")
    assert found.cautions == () and found.decision != NO_BAR


@pytest.mark.parametrize("year, code, decision", [("1930", "DE", NO_BAR), ("1930", "FR", NO_BAR)])
def test_an_old_typeface_is_free_where_its_term_is_over(year, code, decision):
    assert _answer(font(year, alive=False), code).decision == decision


@pytest.mark.parametrize("product, made", [("Printed card", {"composed"}), ("carved sign", {"cut"}), ("printed, then cut", {"composed", "cut"}), ("sign", set())])
def test_making_is_read_from_the_product(product, made):
    assert making_of(product, ON.rules) == made


# --- wording -------------------------------------------------------------------------------------------

LONG = "when the tide is out we count the boats and are glad"
POEM = Layer("t", "Poem", read_work({"kind": "text"}, rulebook().vocabulary))


def _words(wording, code="US", uses=(), layers=None):
    return of_words(JobFacts("j", wording=wording, uses=uses), layers or {}, code, ON)


@pytest.mark.parametrize("code, caution", [("US", "WORDS-US"), ("GB", "WORDS-EU"), ("DE", "WORDS-EU"), ("JP", "WORDS-OTHER")])
def test_a_short_phrase_is_no_bar_with_the_caution_of_the_place(code, caution):
    found = _words("HARE AND LANTERN", code)
    assert found.decision == NO_BAR and found.cautions[0].id == caution


def test_eight_words_are_short_and_nine_are_not():
    assert _words("one two three four five six seven eight").decision == NO_BAR
    assert _words("one two three four five six seven eight nine").decision == OPEN


def test_a_long_text_asks_for_its_source_unless_it_is_a_recorded_text():
    assert [ask.fact for ask in _words(LONG).asks] == ["wording_source"]
    assert _words(LONG, uses=(Use("t", "text"),), layers={"t": POEM}).decision == NO_BAR
    assert _words(LONG, uses=(Use("t", "other"),), layers={"t": POEM}).decision == NO_BAR


def test_no_words_no_answer():
    assert _words("  ") is None


@pytest.mark.parametrize("text, like", [("slab, carved", False), ("looks like the old oil company's", True), ("in the style of a soda label", True), ("", False)])
def test_lettering_like_a_brand_s(text, like):
    assert brand_like(replace(JobFacts("j"), lettering=text), ON.rules) is like
