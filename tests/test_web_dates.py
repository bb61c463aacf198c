"""Dates by plain choices become EDTF and come back as the same choice."""

import pytest
from registry.errors import BadDate
from registry.facts import edtf
from registry.web import dates

ROWS = [  # choice, first, second, written form, meaning
    ("exact", "1928", "", "1928", "1928"),
    ("exact", "1928-05-17", "", "1928-05-17", "17 May 1928"),
    ("about", "1928", "", "1928~", "about 1928"),
    ("before", "1930", "", "[..1930]", "not after 1930"),
    ("after", "1930", "", "[1930..]", "not before 1930"),
    ("between", "1920", "1930-06", "[1920..1930-06]", "one date from 1920 to June 1930"),
    ("unknown", "", "", "unknown", "looked for, not found"),
    ("written", "192X", "", "192X", "some day in 1920-1929"),
]


@pytest.mark.parametrize("how, first, second, text, meaning", ROWS)
def test_there_and_back(how, first, second, text, meaning):
    assert dates.written(how, first, second) == text
    assert dates.reading(text) == meaning
    assert dates.choice(text) == (how, text if how == "written" else first, second)
    if text != "unknown":
        assert edtf.parse(text)


def test_nothing_is_not_looked_for():
    assert dates.written("", "", "") is None
    assert dates.choice(None) == dates.choice("") == ("", "", "")
    assert dates.reading(None) == "not looked for yet"


def test_a_date_without_a_choice_is_taken_as_written():
    assert dates.written("", " 1928~ ", "") == "1928~"


@pytest.mark.parametrize("how, first, second", [("exact", "", ""), ("between", "1920", ""), ("between", "", "1930"), ("written", "", ""), ("about", " ", "")])
def test_a_missing_date_is_named(how, first, second):
    with pytest.raises(BadDate, match="A date is missing"):
        dates.written(how, first, second)


@pytest.mark.parametrize("text", ["1928?", "1920/1930", "[1920,1925]", "1928-05~", "156X-12-25", "-0044", "[1920..1930,1940]"])
def test_every_other_form_stays_as_it_is_written(text):
    how, first, second = dates.choice(text)
    assert dates.written(how, first, second) == text


def test_the_choices_have_a_word_each():
    assert len({value for value, _label in dates.CHOICES}) == len({label for _value, label in dates.CHOICES}) == len(dates.CHOICES)
