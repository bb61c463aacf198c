"""Worked jobs with marks and cautions, decided as a whole: what holds, what is only listed, what is to be found out."""

from dataclasses import replace

import clearing
import pytest

from registry.catalogue.mark_rules import caution_rules, mark_rules, products
from registry.clearance.decision import decide
from registry.clearance.markets import market
from registry.clearance.marks import Mark
from registry.clearance.scene import founds, setting, with_marks

SIGN = {"product": "carved wooden sign (Nice 20)", "purpose": "sale", "quantity": 40, "wording": "HARE AND LANTERN",
        "uses": [{"work": "w1", "part": "picture", "traits": [], "changes": "none"}]}
OLD = {"key": "w1", "based_on": None, "new_expression": True, "traits": [], "facts": {
    "id": "x", "title": "Hare by lamplight", "kind": "print", "authorship": "individual", "created": "1890", "published": True,
    "creators": [{"name": "Ida Thole", "died": "1901", "nationality": ["US"]}], "publications": [{"date": "1890", "country": "US"}]}}
HARE = {"id": "m1", "words": "HARE & LANTERN", "owner": "Lantern Inns", "office": "US", "number": "invented-7", "state": "live", "classes": [20]}


def answer(row):
    """The JobAnswer of a scenario row, its marks matched by the program itself."""
    case, ground = replace(clearing.case(row), matches=()), clearing.ground(row["as_of"])
    kept = [Mark(m["id"], m["words"], m.get("kind", ""), m["owner"], m["office"], m["number"], expires=m.get("expires"), classes=tuple(m["classes"]),
                 status_words=m.get("status_text", ""), state=m["state"], works=tuple(m.get("works", ()))) for m in row.get("marks", ())]
    places = dict.fromkeys(code for name in case.job.markets for code in market(name, ground.groups, ground.names or None).codes)
    where = setting(case, products(), ground.laws, ground.day)
    by_place, near = founds(where, kept, places, ground.day, mark_rules())
    return decide(with_marks(where, by_place, near, caution_rules(), ground), ground)


def row(markets, marks, **job):
    return {"job": {**SIGN, "markets": markets, **job}, "works": [OLD], "permissions": [], "marks": marks, "as_of": "2026-11-25"}


def told(row):
    """{market: (decision, ids of cautions, strengths of marks)}."""
    return {one.market: (one.decision, {c.id for c in one.cautions}, {m.strength for place in one.places for m in place.matches}) for one in answer(row).markets}


def test_the_same_words_in_the_same_class_hold_in_their_market_and_are_listed_in_another():
    found = told(row(["US", "GB"], [HARE]))
    assert found["US"][0] == "hold" and found["US"][2] == {"exact-same-goods-live"}
    assert found["GB"][0] == "no_bar_found" and found["GB"][2] == {"weak"}


def test_an_exact_live_mark_in_another_class_is_a_caution():
    found = told(row(["US", "GB"], [{**HARE, "classes": [33]}]))
    assert found["US"][0] == "no_bar_found" and found["US"][2] == {"weak"} and "TM-CLASS" in found["US"][1]
    assert found["GB"][2] == set()


def test_a_dead_mark_is_shown_with_what_may_remain():
    scenario = next(one for one in clearing.rows("scenarios.jsonl") if one["id"] == "P18")
    found = answer(scenario)
    for one in found.markets:
        expected = scenario["expected"][one.market]
        assert one.decision == expected["decision"] and set(expected["cautions"]) <= {c.id for c in one.cautions}
    match, = found.markets[0].places[0].matches
    assert (match.mark, match.strength, match.ask) == ("m1", "dead", "mark_in_use") and "Use-based rights may remain" in match.says
    assert found.markets[1].places[0].matches == ()


def test_a_mark_of_the_union_holds_in_every_member():
    found = answer(row(["EU", "GB"], [{**HARE, "office": "EM"}])).markets
    assert found[0].decision == "hold" and len(found[0].held_by) == 27
    assert found[1].decision == "no_bar_found" and "UK009" in found[1].places[0].matches[0].says


@pytest.mark.parametrize("changed", [{"state": "pending"}, {"office": "ZZ"}, {"classes": []}, {"words": "HARES & LANTERNS"}, {"expires": "2020-01-01"}])
def test_anything_weaker_is_listed_and_does_not_hold(changed):
    found = told(row(["US"], [{**HARE, **changed}]))
    assert found["US"][0] == "no_bar_found" and found["US"][2]


def test_no_words_no_mark_no_hold():
    found = told(row(["US"], [HARE], wording=""))
    assert found["US"] == ("no_bar_found", set(), set())


def test_a_linked_mark_is_listed_though_no_word_is_used():
    found = answer(row(["US"], [{**HARE, "works": ["w1"]}], wording="")).markets[0]
    assert found.decision == "no_bar_found" and "is linked on record to the work w1" in found.places[0].matches[0].says
    assert {"TM-CHAR-PD", "TM-SC2003"} <= {c.id for c in found.cautions} and found.cautions[0].action == "first"


def test_the_title_of_a_work_that_is_a_mark_holds_and_says_how_a_person_may_decide():
    found = answer(row(["US"], [{**HARE, "words": "HARE BY LAMPLIGHT"}], wording="")).markets[0]
    assert found.decision == "hold" and "If these words stand neither on the product" in found.sentence


def test_a_mark_changes_no_status_of_copyright():
    with_mark, without = answer(row(["US"], [HARE])), answer(row(["US"], []))
    assert [layer.status for layer in with_mark.markets[0].places[0].layers] == [layer.status for layer in without.markets[0].places[0].layers]
