"""One text for one value."""

import json
import random

import pytest
from registry.catalogue.canonical import LARGEST, canonical, digest
from registry.errors import RegistryError


@pytest.mark.parametrize(
    "value, text",
    [
        (None, "null"),
        (True, "true"),
        (0, "0"),
        (-LARGEST, "-9007199254740991"),
        ("", '""'),
        ("é€😀", '"é€😀"'),
        ('a"b\\c/d', '"a\\"b\\\\c/d"'),
        ("\b\t\n\f\r\x00\x1f\x7f", '"\\b\\t\\n\\f\\r\\u0000\\u001f\x7f"'),
        ([], "[]"),
        ((1, 2), "[1,2]"),
        ({"b": 1, "a": [{"d": None, "c": False}]}, '{"a":[{"c":false,"d":null}],"b":1}'),
        ({"a": 1, "A": 2, "_": 3, "1": 4, "a1": 5}, '{"1":4,"A":2,"_":3,"a":1,"a1":5}'),
    ],
)
def test_the_text_of_a_value(value, text):
    assert canonical(value) == text


@pytest.mark.parametrize(
    "value, says",
    [
        (1.0, "the value is of type float"),
        ({"a": [1, {"b": float("nan")}]}, r"the value.a\[1\].b is of type float"),
        (LARGEST + 1, "whole numbers up to 9007199254740991"),
        ({"é": 1}, "names must be text in ASCII"),
        ({1: 1}, "names must be text in ASCII"),
        ("\ud800", "half of a surrogate pair"),
        ({"a": {1, 2}}, "the value.a is of type set"),
        (b"x", "the value is of type bytes"),
    ],
)
def test_what_has_no_canonical_text(value, says):
    with pytest.raises(RegistryError, match=says):
        canonical(value)


def test_a_digest_is_known():
    # reckoned with the command sha256sum over the 7 bytes {"a":1}
    assert digest({"a": 1}) == "015abd7f5cc57a2dd94b7590f04ad8084273905ee33ec5cebeae62276a97f862"


def test_order_does_not_matter_and_content_does():
    chance = random.Random(7)
    for _ in range(300):
        pairs = [(chance.choice("abcdefgh") * chance.randint(1, 3), chance.choice([None, True, 5, "x", ["y"]])) for _ in range(6)]
        one = dict(pairs)
        other = dict(sorted(one.items(), key=lambda _pair: chance.random()))
        assert canonical(one) == canonical(other)
        assert json.loads(canonical(one)) == one
        assert canonical({**one, "z": 1}) != canonical(one)
