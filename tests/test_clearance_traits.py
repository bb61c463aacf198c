"""Traits: which version first shows a feature, which layers a product shows, what is to be left off."""

from dataclasses import replace

import clearing
import pytest

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


def test_a_version_of_which_no_trait_is_named_stays_in_doubt():
    found = walk(TREE, Use("late", traits=("hat", " PIPE ")))
    assert (_keys(found.shown), _keys(found.aside), _keys(found.doubt)) == (["first", "second", "late"], [], ["second"])


def test_naming_an_old_trait_drops_not_even_the_version_that_is_used():
    found = walk(TREE, Use("second", traits=("hat",)))
    assert (_keys(found.shown), _keys(found.aside), _keys(found.doubt)) == (["first", "second"], [], ["second"])


HARES = {one.key: one for one in (
    replace(layer("hare", "1926", traits=["hat"]), title="Hare, first strip"), layer("hare-2", "1930", "hare", ["lantern"]))}
SAID = [  # what is changed by hand, whether it says that the picture was drawn anew from the first version
    ("redrawn from hare", True), ("Redrawn from 'hare', without the lantern", True), ("tail longer, redrawn from hare", True),
    ("drawn anew by hand from the page of 1926", True), ("traced from the print of 1926", True),
    ("redrawn from the page of 1926 (hat taller)", True), ("redrawn by hand from the 1926 strip", True),
    ("redrawn from “Hare, first strip”", True), ("redrawn from the oldest version (1926)", True),
    ("", False), ("unchanged", False), ("as it is", False), ("recut", False), ("mostly redrawn by hand", False), ("redrawn, but only in part", False),
    ("redrawn from hare-2", False), ("redrawn from hare and hare-2", False), ("redrawn from the page of 1930", False),
    ("redrawn from hare with the pose of the later one", False), ("mostly redrawn from hare", False),
    ("not redrawn from hare", False), ("the hat redrawn from hare", False), ("only the hat, redrawn from hare", False),
    ("redrawn from a photograph of hare", False), ("redrawn from hares in the field", False),
    ("redrawn from hare-like prints", False), ("redrawn from life", False), ("redrawn from the page of 1926 and 1930", False),
    ("hare", False), ("made in 1926", False), ("lantern of hare-2 left out, redrawn from hare", False),
    ("redrawn from hare but keeping the line", False), ("withdrawn from hare", False), ("redrawn from the first page", False),
    ("redrawn from our archive, see 1926", False), ("redrawn after hare-2", False), ("redrawn, tracing hare-2", False),
    ("redrawn slightly", False), ("redrawn? unknown", False), ("redrawn from hare; the lantern kept", False),
    ("redrawn from 1926 film still", False), ("redrawn from hare, using the outline of the second version", False),
    ("redrawn from hare in the style of the 1930s page", False)]


@pytest.mark.parametrize("changes, aside", SAID)
def test_only_what_says_that_it_was_drawn_anew_from_another_version_sets_one_aside(changes, aside):
    found = walk(HARES, Use("hare-2", traits=("hat",), changes=changes))
    assert (_keys(found.aside), found.redrawn) == ((["hare-2"], True) if aside else ([], False))
    assert _keys(found.doubt) == ([] if aside else ["hare-2"])


@pytest.mark.parametrize("changes", ["none", "None.", "no changes", "redrawn", "redrawn by hand as a flat relief"])
def test_where_nobody_says_from_what_it_was_drawn_the_named_traits_tell_what_is_shown(changes):
    found = walk(HARES, Use("hare-2", traits=("hat",), changes=changes))
    assert (_keys(found.aside), found.redrawn, _keys(found.doubt)) == (["hare-2"], False, [])
    assert _keys(walk(HARES, Use("hare-2", traits=(), changes=changes)).shown) == ["hare", "hare-2"]


@pytest.mark.parametrize("key", ["a", "print", "first"])
def test_a_key_that_is_a_word_of_the_sentence_is_found_nowhere(key):
    tree = {key: layer(key, None, traits=["hat"]), "b": layer("b", "1930", key, ["lantern"])}
    assert walk(tree, Use("b", traits=("hat",), changes=f"redrawn from {key} page")).aside == ()


@pytest.mark.parametrize("changes", ["none", "redrawn", "redrawn from hare-3"])
def test_a_version_is_not_set_aside_where_one_made_of_it_is_shown(changes):
    tree = {**HARES, "hare-3": layer("hare-3", "1940", "hare-2", ["flag"])}
    found = walk(tree, Use("hare-3", traits=("flag",), changes=changes))
    assert (_keys(found.aside), _keys(found.doubt)) == ([], ["hare-2"])


def test_a_version_that_was_made_of_the_one_in_doubt_is_no_source_to_draw_from():
    tree = {**HARES, "hare-3": layer("hare-3", "1940", "hare-2", ["flag"])}
    assert _keys(walk(tree, Use("hare-3", traits=("flag",), changes="redrawn from hare-3")).doubt) == ["hare-2"]
    assert _keys(walk(tree, Use("hare-3", traits=("flag",), changes="redrawn from hare")).aside) == ["hare-2"]


def test_without_named_traits_nothing_is_set_aside_whatever_is_said():
    assert walk(TREE, Use("second", changes="redrawn from first")).aside == ()


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
    named, barred = answers(found, _decided(first=None, late=edtf.day("2036-01-01")))
    assert leave_off(barred, named, clearing.ground("2026-11-25")) == "Leave off 'pipe' (first shown 1940) until 1 January 2036; 'hat' may be used now."\
        " Draw the rest from the version that first shows it, since a later one shows its own drawing."


def test_a_trait_of_the_original_is_not_left_off_but_held_with_it():
    found = walk(TREE, Use("first", traits=("hat",)))
    named, barred = answers(found, _decided(first=edtf.day("2036-01-01")))
    assert [one.decision for one in named] == [HOLD] and barred == ()


def test_nothing_barred_says_nothing():
    assert leave_off((), (), clearing.ground("2026-11-25")) == ""
