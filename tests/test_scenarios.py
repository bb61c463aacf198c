"""Worked jobs from the practice material and our own: decision, day, what to leave off, cautions, next question."""

import clearing
import pytest

from registry.facts import edtf

FILES = ("scenarios.jsonl", "own_scenarios.jsonl")
ROWS = [row for name in FILES if (clearing.CASES / name).is_file() for row in clearing.rows(name)]


def _asked(row, wanted=None):
    given = clearing.case(row, (wanted or {}).get("job", {}).get("markets"))
    given = clearing.supposed(row, given, wanted) if wanted else given
    on = clearing.ground((wanted or {}).get("as_of", row["as_of"]))
    return clearing.answer(clearing.beside(row, given, on), on)


@pytest.mark.parametrize("row", ROWS, ids=[row["id"] for row in ROWS])
def test_scenario(row):
    found = _asked(row)
    for market in found.markets:
        _compare(market, row["expected"][market.market])
    assert clearing.next_question(found) == row["next_question"]
    if "first_to_confirm" in row:
        assert found.confirm[0].fact == row["first_to_confirm"]
    for part in row.get("says", ()):
        assert part in " ".join([*(m.sentence for m in found.markets), *found.notes]), part
    for line in row.get("credits", ()):
        assert line in [credit for _title, credit in found.credits]


def _compare(market, wanted):
    assert market.decision == wanted["decision"], (market.market, market.sentence)
    if wanted.get("free_from"):
        assert edtf.iso(market.free_from) == wanted["free_from"], (market.market, market.sentence)
    if "held_by" in wanted:
        assert list(market.held_by) == wanted["held_by"]
    if "leave_off" in wanted:
        assert list(market.leave_off) == wanted["leave_off"]
    ids = {caution.id for caution in market.cautions}
    assert {*wanted.get("cautions", ()), *wanted.get("own_cautions", ())} <= ids, (market.market, ids)
    if "mark" in wanted:
        assert wanted["mark"] in [one.mark for one in market.places[0].matches]
    if wanted.get("action_first"):
        assert any(ask.kind == "first" for ask in market.asks)
    for work, day in wanted.get("by_work", {}).items():
        layer = next(one for one in market.places[0].layers if one.work == work)
        assert edtf.iso(layer.earliest if layer.earliest == layer.latest else None) == day, work
    for part in wanted.get("says", ()):
        assert part in market.sentence, (market.market, market.sentence)


WHATIFS = [(row, wanted) for row in ROWS for wanted in row.get("suppose", ())]


@pytest.mark.parametrize("row, wanted", WHATIFS, ids=[f"{row['id']}-{row['suppose'].index(wanted)}" for row, wanted in WHATIFS])
def test_what_if(row, wanted):
    found = _asked(row, wanted)
    got = {market.market: market for market in found.markets}
    for name, decision in wanted["expected"].items():
        assert got[name].decision == decision, got[name].sentence
        day = wanted.get("free_from")
        day = day.get(name) if isinstance(day, dict) else day
        if day:
            assert edtf.iso(got[name].free_from) == day
    if "next_question" in wanted:
        assert clearing.next_question(found) == wanted["next_question"]
