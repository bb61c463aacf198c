"""The decision: worst layer, worst member, marks, cautions, notes, and the same in JSON."""

import json
from dataclasses import replace

import clearing
import pytest

from registry.clearance.decision import EXACT, decide
from registry.clearance.model import HOLD, NO_BAR, OPEN, Caution, Match
from registry.clearance.shown import as_json
from registry.errors import RegistryError
from registry.facts import edtf

ROWS = {row["id"]: row for name in ("scenarios.jsonl", "own_scenarios.jsonl") for row in clearing.rows(name)}
ON = clearing.ground("2026-11-25", {"FAIRS": ["US", "MX"], "HOME": ["US", "CA"], "SOUTH": ["US", "AQ"]})


def _decided(ident, *markets, **more):
    case = clearing.case(ROWS[ident], markets or None)
    return decide(replace(case, **more), ON)


def test_the_worst_layer_wins_over_what_is_open():
    found = _decided("P28")
    assert found.markets[0].decision == OPEN
    case = clearing.case(ROWS["P28"])
    held = replace(case, layers={**case.layers, "w1": clearing.case(ROWS["P26"]).layers["w1"]})
    assert decide(held, ON).markets[0].decision == HOLD


@pytest.mark.parametrize("ident, market, decision, held", [("P01", "FAIRS", HOLD, ("MX",)), ("P01", "HOME", NO_BAR, ()), ("P01", "SOUTH", OPEN, ("AQ",)), ("P01", "FAIRS minus MX", NO_BAR, ())])
def test_the_worst_member_of_a_group_counts_and_is_named(ident, market, decision, held):
    found = _decided(ident, market).markets[0]
    assert (found.decision, found.held_by) == (decision, held)


def test_a_hold_has_a_day_only_when_it_is_one_day():
    days = {one.market: one.free_from for one in _decided("P10", "ES", "US", "GB").markets}
    assert days["ES"] is None and days["US"] == edtf.day("2030-01-01") and days["GB"] == edtf.day("2028-01-01")
    assert _decided("P30", "DE").markets[0].free_from is None


def test_the_day_of_a_group_is_that_of_its_last_member():
    assert _decided("P01", "HOME").markets[0].free_from == _decided("P01", "US").markets[0].free_from
    assert "No rules are on file for Antarctica." in _decided("P01", "SOUTH").markets[0].sentence


def test_an_unknown_market_is_refused():
    with pytest.raises(RegistryError, match="not a market"):
        _decided("P01", "ATLANTIS")


MARK = Match("m1", "GOOSE", ("US",), EXACT, "The same words for the same goods.", "TM-X", "mark_consent", "Who owns it?", "the register")


def test_an_exact_mark_holds_only_where_it_stands():
    found = {one.market: one for one in _decided("P01", "US", "CA", matches=(MARK,)).markets}
    assert (found["US"].decision, found["CA"].decision) == (HOLD, NO_BAR)
    assert found["US"].free_from is None and MARK.says in found["US"].sentence


def test_a_weaker_mark_is_listed_and_asked_about():
    found = _decided("P01", "US", "CA", matches=(replace(MARK, strength="weaker"),))
    us, ca = found.markets
    assert us.decision == NO_BAR and "TM-X" in [c.id for c in us.cautions] and "TM-X" not in [c.id for c in ca.cautions]
    assert [ask.fact for ask in found.first] == ["mark_consent"] and us.places[0].matches[0].mark == "m1"


def test_cautions_are_folded_in_by_place_and_change_nothing():
    cautions = (Caution("HER-1", "Ask the museum.", places=("CA",)), Caution("ALL-1", "Everywhere."))
    us, ca = _decided("P01", "US", "CA", cautions=cautions).markets
    assert [c.id for c in us.cautions] == ["ALL-1"] and {c.id for c in ca.cautions} == {"HER-1", "ALL-1"}
    assert us.decision == ca.decision == NO_BAR


def test_clear_needs_a_market_and_no_bar_in_all():
    assert _decided("P01", "US").clear and not _decided("P01", "US", "MX").clear
    assert not replace(_decided("P01", "US"), markets=()).clear


def test_a_gift_says_that_it_changes_nothing_only_where_something_holds():
    assert _decided("P26").notes and not replace_purpose("P01", "gift").notes


def replace_purpose(ident, purpose):
    case = clearing.case(ROWS[ident], ["US"])
    return decide(replace(case, job=replace(case.job, purpose=purpose)), ON)


@pytest.mark.parametrize("ident", sorted(ROWS))
def test_every_answer_is_json_with_sources(ident):
    row = ROWS[ident]
    found = json.loads(json.dumps(as_json(clearing.answer(clearing.case(row), clearing.ground(row["as_of"])))))
    assert [one["market"] for one in found["markets"]] == row["job"]["markets"]
    for market in found["markets"]:
        assert market["sentence"] and "{" not in market["sentence"] and "None" not in market["sentence"]
        for layer in (layer for place in market["places"] for layer in place["layers"]):
            assert all(rule["cite"] and rule["how"] in ("read", "secondary", "memory") for rule in layer["why"])
            assert layer["why"] or layer["status"] in ("own_work", "undetermined")
    assert all(ask["question"] and ask["where_to_look"] is not None for ask in found["next"] + found["do_first"] + found["confirm"])


# --- what is taken for granted is told --------------------------------------------------------------------------------

def _confirms(row):
    given = clearing.case(row)
    return [one.fact for one in decide(given, clearing.ground(row["as_of"])).confirm]


def test_words_without_a_picture_or_a_lettering_on_record_are_to_confirm():
    row = {**ROWS["S61"], "works": [], "permissions": [], "job": {**ROWS["S61"]["job"], "uses": []}}
    assert [name for name in _confirms(row) if name in ("uses", "lettering")] == ["lettering", "uses"]
    row["job"] = {**row["job"], "lettering": "hand cut"}
    assert "lettering" not in _confirms(row)


def test_a_text_on_record_is_to_confirm_and_a_picture_called_a_text_is_none():
    row = ROWS["S27"]
    assert "words_of" in _confirms(row)
    drawn = [{**one, "facts": {**one["facts"], "kind": "drawing"}} for one in row["works"]]
    found = decide(clearing.case({**row, "works": drawn}), clearing.ground(row["as_of"]))
    assert {one.decision for one in found.markets} == {OPEN}


@pytest.mark.parametrize("change, expected", [
    ({}, []), ({"grantor": "Sallow & Sons"}, ["licensor"]), ({"quantity": None}, ["limits"]), ({"to": None}, ["limits"]),
    ({"grantor": ""}, [])])
def test_who_gave_a_permission_and_what_it_does_not_limit_are_to_confirm(change, expected):
    row = ROWS["S04"]
    row = {**row, "permissions": [{**row["permissions"][0], **change}]}
    found = decide(clearing.case(row), clearing.ground(row["as_of"]))
    assert found.clear and [one.fact for one in found.confirm if one.fact in ("licensor", "limits")] == expected
    assert [one.fact for one in found.first] == (["licensor"] if change.get("grantor") == "" else [])


def test_a_part_taken_from_a_sister_is_a_change_of_it():
    row = {**ROWS["S41"], "permissions": [{**ROWS["S08"]["permissions"][0], "work": "w1"}], "as_of": "2025-06-01"}
    row["job"] = {**row["job"], "markets": ["US"]}
    (market,) = decide(clearing.case(row), clearing.ground("2025-06-01")).markets
    assert market.decision == HOLD and "it does not allow changes" in market.sentence
