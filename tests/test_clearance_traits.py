"""Traits: which version first shows a feature, which layers a product shows, what is to be left off."""

import clearing

from registry.clearance.model import HOLD, NO_BAR, LayerAnswer, Layer, Use
from registry.clearance.traits import answers, introducers, leave_off, walk
from registry.facts import edtf
from registry.facts.work import read_work
from registry.rulebook import rulebook


def layer(key, year, based_on=None, traits=(), kind="drawing"):
    facts = {"kind": kind, **({"publications": [{"date": year, "country": "US"}]} if year else {})}
    return Layer(key, key, read_work(facts, rulebook().vocabulary), based_on, "new_expression", tuple(traits))


TREE = {one.key: one for one in (
    layer("first", "1926", traits=["hat"]), layer("second", "1930", "first", ["lantern"]), layer("third", "1936", "first", ["Lantern", "flag"]),
    layer("vague", "1929/1931", "first", ["rope"]), layer("other vague", "1930", "first", ["rope"]), layer("late", "1940", "second", ["hat", "pipe"]))}
KIN = tuple(TREE.values())


def _keys(layers):
    return [one.key for one in layers]


def test_the_version_beneath_comes_first_whatever_its_date():
    assert _keys(introducers("hat", KIN, TREE)) == ["first"]


def test_of_sisters_the_surely_older_one_comes_first():
    assert _keys(introducers("lantern", KIN, TREE)) == ["second"]


def test_when_neither_is_surely_older_both_count():
    assert _keys(introducers("rope", KIN, TREE)) == ["vague", "other vague"]


def test_without_named_traits_everything_is_shown():
    found = walk(TREE, Use("late"))
    assert (_keys(found.shown), found.aside) == (["first", "second", "late"], ())


def test_a_version_of_which_no_trait_is_named_is_set_aside():
    found = walk(TREE, Use("late", traits=("hat", " PIPE ")))
    assert (_keys(found.shown), _keys(found.aside)) == (["first", "late"], ["second"])


def test_a_trait_of_a_sister_brings_the_sister_in():
    assert _keys(walk(TREE, Use("first", traits=("flag",))).shown) == ["first", "third"]


def test_a_version_that_lists_nothing_of_its_own_always_counts():
    tree = {**TREE, "bare": layer("bare", "1950", "first")}
    assert _keys(walk(tree, Use("bare", traits=("hat",))).shown) == ["first", "bare"]


def test_a_photograph_always_counts():
    tree = {"figure": layer("figure", "1880", traits=["horns"], kind="sculpture"), "photo": layer("photo", "2011", "figure", ["evening light"], "photograph")}
    assert _keys(walk(tree, Use("photo", "photograph", ("horns",))).shown) == ["figure", "photo"]


def test_a_trait_on_no_version_has_no_holder():
    assert walk(TREE, Use("first", traits=("monocle",))).first == {"monocle": ()}


def _decided(**days):
    return {key: LayerAnswer(key, key, "picture", "version", "", HOLD if day else NO_BAR, "", earliest=day or 0, latest=day or 0) for key, day in days.items()}


def test_the_sentence_names_what_to_leave_off_and_what_may_be_used():
    found = walk(TREE, Use("late", traits=("hat", "pipe")))
    named, barred = answers(found, _decided(first=None, late=edtf.day("2036-01-01")), clearing.ground("2026-11-25"))
    assert leave_off(barred, named, clearing.ground("2026-11-25")) == "Leave off 'pipe' (first shown 1940) until 1 January 2036; 'hat' may be used now."


def test_a_trait_of_the_original_is_not_left_off_but_held_with_it():
    found = walk(TREE, Use("first", traits=("hat",)))
    named, barred = answers(found, _decided(first=edtf.day("2036-01-01")), clearing.ground("2026-11-25"))
    assert [one.decision for one in named] == [HOLD] and barred == ()


def test_nothing_barred_says_nothing():
    assert leave_off((), (), clearing.ground("2026-11-25")) == ""
