"""Layers: the chain beneath a work, and what copies, new versions and unknowns mean in a place."""

import clearing
import pytest

from registry.clearance.layers import bounds, chain, family, judged, shown_year, titled
from registry.clearance.model import COPY, NEVER, NEW, NO_BAR, OPEN, SOON, UNKNOWN, Layer
from registry.errors import RegistryError
from registry.facts.work import read_work
from registry.law.verdict import Verdict
from registry.rulebook import rulebook

DAY = "2026-11-25"


def work(**facts):
    return read_work({"kind": "print", "authorship": "individual", **facts}, rulebook().vocabulary)


OLD = work(creators=[{"name": "A", "nationality": ["DE"], "died": "1890"}], created="1870", publications=[{"date": "1870", "country": "DE"}])
SCAN = work(kind="photograph", authorship="corporate", created="2015", publications=[{"date": "2015", "country": "DE"}], faithful_reproduction=True)
LATER = work(creators=[{"name": "B", "nationality": ["US"], "alive": True}], created="2001", publications=[{"date": "2001", "country": "US"}], us_notice=True)


def _answer(*line, code="DE"):
    return judged(line, "picture", code, clearing.ground(DAY))


def test_a_chain_runs_from_the_original_up():
    layers = {"a": Layer("a", "", OLD), "b": Layer("b", "", OLD, "a"), "c": Layer("c", "", OLD, "b"), "d": Layer("d", "", OLD, "a")}
    assert [one.key for one in chain(layers, "c")] == ["a", "b", "c"]
    assert {one.key for one in family(layers, "d")} == {"a", "b", "c", "d"}


@pytest.mark.parametrize("layers, key", [({"a": Layer("a", "", OLD, "gone")}, "a"), ({"a": Layer("a", "", OLD, "b"), "b": Layer("b", "", OLD, "a")}, "a"), ({}, "a")])
def test_a_broken_chain_is_refused(layers, key):
    with pytest.raises(RegistryError, match="gone|itself|among"):
        chain(layers, key)


@pytest.mark.parametrize("code, caution", [("US", "SCAN-US"), ("DE", "SCAN-DE"), ("FR", "SCAN-EU"), ("GB", "SCAN-GB")])
def test_a_faithful_copy_of_a_free_flat_work_adds_nothing(code, caution):
    found = _answer(Layer("a", "Plate", OLD), Layer("b", "Scan", SCAN, "a", COPY), code=code)
    assert (found.decision, found.status, [one.id for one in found.cautions]) == (NO_BAR, "no_layer", [caution])


def test_without_a_rule_a_copy_is_judged_by_its_own_facts_and_stays_open():
    assert _answer(Layer("a", "Plate", OLD), Layer("b", "Scan", SCAN, "a", COPY), code="MX").decision == OPEN


def test_the_fact_alone_makes_a_copy_and_a_copy_of_a_copy_looks_at_the_original():
    line = Layer("a", "Plate", OLD), Layer("b", "Scan", SCAN, "a", COPY), Layer("c", "Scan again", SCAN, "b")
    assert _answer(*line).decision == NO_BAR


def test_a_copy_of_a_protected_work_clears_when_the_original_does():
    line = Layer("a", "Poster", LATER), Layer("b", "Scan", SCAN, "a", COPY)
    found, original = _answer(*line), _answer(line[0])
    assert found.decision == OPEN and (found.earliest, found.latest) == (original.earliest, original.latest)
    assert _answer(*line, code="US").decision == NO_BAR  # there the rule does not ask whether the original is free


@pytest.mark.parametrize("marked", [Layer("b", "Scan", SCAN), Layer("b", "Tracing", OLD, None, COPY), Layer("b", "Our tracing", OLD, None, COPY, own=True)])
def test_a_copy_without_its_original_is_never_free(marked):
    found = _answer(marked)
    assert found.decision == OPEN and [ask.fact for ask in found.asks] == ["based_on"]


def test_marked_new_and_recorded_as_a_copy_is_open():
    assert _answer(Layer("a", "Plate", OLD), Layer("b", "Scan", SCAN, "a", NEW), code="US").decision == OPEN


def test_an_unknown_that_is_free_in_any_case_is_free():
    assert _answer(Layer("a", "Plate", OLD), Layer("b", "Old colouring", OLD, "a", UNKNOWN)).decision == NO_BAR


def test_an_unknown_asks_whether_it_added_something():
    found = _answer(Layer("a", "Plate", OLD), Layer("b", "Colouring", LATER, "a", UNKNOWN), code="US")
    assert found.decision == OPEN and found.asks[0].fact == "originality" and found.earliest == SOON


def test_own_work_is_no_bar():
    assert _answer(Layer("a", "Plate", LATER), Layer("b", "Ours", LATER, "a", NEW, own=True)).decision == NO_BAR
    assert _answer(Layer("b", "Ours", LATER, own=True)).status == "own_work"


@pytest.mark.parametrize("status, first, last, expected", [
    ("public_domain", None, None, (SOON, SOON)), ("public_domain", None, 700000, (SOON, 700000)), ("public_domain", 5, 5, (5, 5)),
    ("in_copyright", None, None, (NEVER, NEVER)), ("in_copyright", 740000, None, (740000, NEVER)), ("undetermined", None, None, (SOON, NEVER))])
def test_bounds_are_open_on_the_safe_side(status, first, last, expected):
    assert bounds(Verdict(status, None, first, last, (), (), None)) == expected


def test_a_title_carries_its_year():
    assert titled(Layer("a", "Plate", OLD)) == "'Plate' (1870)"
    assert shown_year(Layer("a", "", work(created="[..1930]"))) == "[..1930]"
    assert shown_year(Layer("a", "", work(publications=[{"date": "1928-05-17", "country": "US"}]))) == "1928"
    assert titled(Layer("a", "", work())) == "'a'"
