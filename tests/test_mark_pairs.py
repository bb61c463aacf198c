"""The labelled pairs: no exact match missed, no hold on an unrelated pair, and figures that must not fall."""

import pytest

from mark_pairs import outcome, pairs, tally
from registry.clearance.likeness import prepared
from registry.clearance.mark_keys import mark_keys
from registry.clearance.wording import wording


def of(label):
    return [pytest.param(pair, id=pair.id) for pair in pairs() if pair.label == label]


def test_the_set_is_large_and_mixed():
    assert len(pairs()) >= 300
    assert {pair.half for pair in pairs()} == {"a", "b"}
    assert len({pair.language for pair in pairs()}) >= 12
    assert len({pair.id for pair in pairs()}) == len(pairs())
    for half in "ab":
        labels = [pair.label for pair in pairs() if pair.half == half]
        assert all(labels.count(label) >= 40 for label in ("same", "near", "unrelated"))


@pytest.mark.parametrize("pair", of("same"))
def test_no_exact_match_is_missed(pair):
    got, found = outcome(pair)
    assert got == "hold", (pair.mark, pair.wording, found)


@pytest.mark.parametrize("pair", of("unrelated"))
def test_no_hold_on_an_unrelated_pair(pair):
    assert outcome(pair)[0] != "hold"


@pytest.mark.parametrize("pair", of("near"))
def test_no_hold_on_what_is_only_near(pair):
    assert outcome(pair)[0] != "hold"


@pytest.mark.parametrize("half", ["a", "b"])
def test_cautions_are_mostly_right_and_mostly_found(half):
    right, said, wanted = tally([pair for pair in pairs() if pair.half == half])["caution"]
    assert right / said >= 0.95 and right / wanted >= 0.9


def test_whatever_is_found_shares_a_key_with_the_mark():
    for pair in pairs():
        if outcome(pair)[1]:
            assert prepared(pair.wording).keys & mark_keys(wording(pair.mark)), pair.id


def test_every_reason_names_the_mark_and_the_text():
    for pair in pairs():
        _got, found = outcome(pair)
        if found:
            assert pair.mark in found.says and found.found and found.says.startswith("The wording"), found.says
