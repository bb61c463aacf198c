"""registry date: how a date is understood."""

import json

import kept
import pytest


@pytest.fixture
def command(tmp_path, capsys):
    return kept.Command(tmp_path / "nowhere", capsys)


@pytest.mark.parametrize(
    "text, earliest, latest",
    [
        ("1928", "1928-01-01", "1928-12-31"),
        ("192X", "1920-01-01", "1929-12-31"),
        ("1928~", "1928-01-01", "1928-12-31"),
        ("1928-02", "1928-02-01", "1928-02-29"),
        ("[..1930]", None, "1930-12-31"),
        ("1925/", "1925-01-01", None),
        ("../1925", None, "1925-12-31"),
        ("-0044-03-15", "-0044-03-15", "-0044-03-15"),
        ("-XXXX", "-9999-01-01", "-0001-12-31"),
        (" 1928 ", "1928-01-01", "1928-12-31"),
    ],
)
def test_as_json(command, text, earliest, latest):
    code, out, err = command("date", text, "--json")
    found = json.loads(out)
    reckoned = found.pop("reckoned_earliest"), found.pop("reckoned_latest")
    assert (code, found, err) == (0, {"earliest": earliest, "latest": latest, "valid": True}, "")
    assert reckoned == (("1923-01-01", "1933-12-31") if text == "1928~" else (earliest, latest))
    assert command("date", "--json", text)[1] == out


@pytest.mark.parametrize("text, low, high", [("1928?", "1923-01-01", "1933-12-31"), ("1928%", "1918-01-01", "1938-12-31"), ("[..1930~]", None, "1935-12-31")])
def test_the_days_that_are_reckoned_with_stand_in_the_json_too(command, text, low, high):
    found = json.loads(command("date", text, "--json")[1])
    assert (found["reckoned_earliest"], found["reckoned_latest"]) == (low, high)


@pytest.mark.parametrize("text", ["circa 1928", "1928-13", "", "28", "1930/1920"])
def test_a_refusal_as_json(command, text):
    code, out, err = command("date", text, "--json")
    assert (code, json.loads(out)) == (1, {"earliest": None, "latest": None, "valid": False, "reckoned_earliest": None, "reckoned_latest": None})
    assert err.startswith("The date ") and err.count("\n") == 1


def test_a_refusal_says_what_to_write(command):
    assert command.refused("date", "circa 1928").endswith("; write 1928~ (about 1928).")


@pytest.mark.parametrize(
    "text, lines",
    [
        ("192X", ["meaning   some day in 1920-1929", "earliest  1920-01-01", "latest    1929-12-31", "flags     none"]),
        ("1928~", ["flags     approximate (~)", "reckoned  1923-01-01 to 1933-12-31: a doubtful date is given 5 years on either"]),
        ("1928%", ["flags     uncertain (?), approximate (~)", "reckoned  1918-01-01 to 1938-12-31: a doubtful date is given 10 years on"]),
        ("[..1930]", ["earliest  open", "flags     open start"]),
        ("/1930", ["earliest  unknown", "flags     unknown start"]),
        ("1925/..", ["latest    open", "flags     open end"]),
        ("1925/", ["latest    unknown", "flags     unknown end"]),
    ],
)
def test_as_text(command, text, lines):
    code, out, err = command("date", text)
    assert (code, err) == (0, "")
    assert out.splitlines()[0] == text
    for line in lines:
        assert f"  {line}\n" in out
    assert max(map(len, out.splitlines())) <= 80


def test_no_catalogue_is_needed_or_made(command):
    assert command("date", "1928")[0] == 0
    assert not command.folder.exists()
