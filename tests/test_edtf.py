"""Dates with doubt: every row of the published examples, the decisions taken, and sweeps over the calendar."""

import csv
import random
import re
from calendar import monthrange
from datetime import date, timedelta
from pathlib import Path

import pytest

from registry.errors import BadDate
from registry.facts.days import civil, ordinal
from registry.facts.edtf import Span, day, describe, iso, padded, parse

CASES = Path(__file__).parent / "cases"


def rows(name: str) -> list[dict[str, str]]:
    with (CASES / name).open(encoding="utf-8", newline="") as handle:
        return list(csv.DictReader(handle))


EXAMPLES = [(row["expression"], row["valid(yes/no)"], row) for row in rows("edtf_examples.csv")]
STRINGS = [(row["edtf"], row["valid"], row) for row in rows("edtf_strings.csv")]
DISPUTED = {(row["file"], row["id"]): row["reason"] for row in rows("disputed.csv") if row["file"].startswith("edtf_")}
TABLES = {"edtf_examples.csv": EXAMPLES, "edtf_strings.csv": STRINGS}


def reads(text: str) -> bool:
    try:
        return isinstance(parse(text), Span)
    except BadDate:
        return False


def bounds(text: str) -> tuple[str | None, str | None]:
    span = parse(text)
    return iso(span.earliest), iso(span.latest)


# the published tables


@pytest.mark.parametrize("name", TABLES)
def test_every_row_is_read_or_refused_as_published(name):
    for text, valid, _ in TABLES[name]:
        if (name, text) not in DISPUTED:
            assert reads(text) == (valid == "yes"), text


def test_published_bounds():
    checked = 0
    for text, valid, row in EXAMPLES:
        if valid == "yes" and ("edtf_examples.csv", text) not in DISPUTED:
            span = parse(text)
            early = "open" if span.open_start else "unknown" if span.unknown_start else iso(span.earliest)
            late = "open" if span.open_end else "unknown" if span.unknown_end else iso(span.latest)
            assert (early, late) == (row["earliest_date"], row["latest_date"]), text
            checked += 1
    assert checked >= 50


def test_published_sets_keep_their_kind():
    for text, valid, _ in EXAMPLES + STRINGS:
        if valid == "yes" and text[0] in "[{":
            assert parse(text).kind == ("one_of" if text[0] == "[" else "all_of"), text


def test_disputed_rows_exist_and_are_decided_against_the_table():
    for (name, text), reason in DISPUTED.items():
        published = {valid for each, valid, _ in TABLES[name] if each == text}
        assert published == {"no" if reads(text) else "yes"}, (name, text)
        assert reason.startswith("accepted: " if reads(text) else "not supported: "), (name, text)


# decisions where sources differ


@pytest.mark.parametrize(
    ("text", "early", "late"),
    [
        ("2001-24", "2001-12-01", "2002-02-28"),  # winter runs into the next year: the safe end
        ("2003-24", "2003-12-01", "2004-02-29"),
        ("192X-21", "1920-03-01", "1929-05-31"),
        ("1XXX", "1000-01-01", "1999-12-31"),
        ("XXXX", "0000-01-01", "9999-12-31"),
        ("XXXX-XX-XX", "0000-01-01", "9999-12-31"),
        ("1985-0X-31", "1985-01-31", "1985-08-31"),
        ("-20XX", "-2099-01-01", "-2000-12-31"),
        ("-XXXX", "-9999-01-01", "-0001-12-31"),
        ("-000X-02-29", "-0008-02-29", "-0004-02-29"),
        ("../..", None, None),
        ("/..", None, None),
        ("2004-06/2004", "2004-06-01", "2004-12-31"),
        ("..1930/1920", None, "1920-12-31"),
        ("1928-05-17/1928-05-17", "1928-05-17", "1928-05-17"),
        ("[2004-06..2004]", "2004-01-01", "2004-12-31"),
        (" 1928 ", "1928-01-01", "1928-12-31"),
        ("1985-04-12T23:59:59-12:00", "1985-04-12", "1985-04-12"),  # the day as written
    ],
)
def test_decided(text, early, late):
    assert bounds(text) == (early, late)


@pytest.mark.parametrize(
    "text",
    [
        "/", "[..]", "{..}", "[]", "[1667, 1760-12]", "[1670,..1672]", "[1670..,1672]", "[1925/1930]", "[1672..1670]",
        "2001-2X", "2001-21-05", "-0000", "?2004~", "2004??", "-?2004", "2004../2005", "2004/..2005",
        "1985-04-12T24:00:00", "1985-04-12T23:20:60", "1985-04-1XT10:00:00",
        "1985-02-30T10:00:00", "XXX1-02-29", "XXXX-02-3X",
        "1928\n1929", "１９２８",
    ],
)  # fmt: skip
def test_refused(text):
    assert not reads(text)


# fields


@pytest.mark.parametrize(
    ("text", "flags"),
    [
        ("1928", ""), ("1928?", "u"), ("1928~", "a"), ("1928%", "ua"), ("?1928", "u"), ("1928-~05", "a"),
        ("?2004-06-~11", "ua"), ("2004-%06-11", "ua"), ("1984~/2004-06?", "ua"), ("1984/2004~", "a"),
        ("[1923?,1925]", "u"), ("{1923,1925~..1930}", "a"), ("16XX~", "a"), ("2011-23~", "a"), ("?-2004-06-04~", "ua"),
    ],
)  # fmt: skip
def test_marks_are_flags_of_the_whole_and_never_move_bounds(text, flags):
    span = parse(text)
    assert (span.uncertain, span.approximate) == ("u" in flags, "a" in flags)
    bare = parse(re.sub("[?~%]", "", text))
    assert (span.earliest, span.latest) == (bare.earliest, bare.latest)
    assert not (bare.uncertain or bare.approximate)


@pytest.mark.parametrize(
    ("text", "kind", "sides"),
    [
        ("1925/1930", "interval", ""), ("1985/..", "interval", "open_end"), ("../1985", "interval", "open_start"),
        ("1985/", "interval", "unknown_end"), ("/1985", "interval", "unknown_start"),
        ("../", "interval", "open_start unknown_end"), ("/..", "interval", "unknown_start open_end"),
        ("../..", "interval", "open_start open_end"), ("..2004-06-01/2004-06-20..", "interval", "open_start open_end"),
        ("[..1930]", "one_of", "open_start"), ("[1925..]", "one_of", "open_end"), ("{..1984}", "all_of", "open_start"),
        ("{1760-12..}", "all_of", "open_end"), ("[1923,1925]", "one_of", ""), ("1928", "date", ""),
    ],
)  # fmt: skip
def test_kind_and_sides(text, kind, sides):
    span = parse(text)
    names = ("open_start", "open_end", "unknown_start", "unknown_end")
    assert (span.kind, span.text) == (kind, text)
    assert {name for name in names if getattr(span, name)} == set(sides.split())
    assert (span.earliest is None) == (span.open_start or span.unknown_start)
    assert (span.latest is None) == (span.open_end or span.unknown_end)


@pytest.mark.parametrize(
    ("text", "precision"),
    [
        ("1928-05-17", "day"), ("1928-05-17T10:00:00Z", "day"), ("1928-05", "month"), ("1928-05-XX", "month"),
        ("1928-05-1X", "month"), ("1930-X0-10", "day"), ("1930-X0", "month"), ("1928", "year"), ("1928-XX", "year"),
        ("1928-XX-XX", "year"), ("1985-0X-31", "year"), ("192X", "decade"), ("156X-12-25", "decade"),
        ("-198X", "decade"), ("18XX", "century"), ("18X5", "century"), ("1XXX", "span"), ("XXXX", "span"),
        ("1928-21", "span"), ("1928/1928", "span"), ("[1928]", "span"), ("{1923,1925}", "span"),
    ],
)  # fmt: skip
def test_precision(text, precision):
    assert parse(text).precision == precision


def test_a_span_cannot_be_changed_and_has_no_room_for_more():
    span = parse("1928")
    with pytest.raises(AttributeError):
        span.latest = 0
    assert not hasattr(span, "__dict__")


def test_only_text_is_a_date():
    for wrong in (None, 1928, 1928.0, True, ["1928"], b"1928", 10**5000):
        with pytest.raises(BadDate, match="must be text"):
            parse(wrong)


# sweeps


def test_every_year():
    for year in range(1, 10000):
        span = parse(f"{year:04d}")
        assert (span.earliest, span.latest) == (date(year, 1, 1).toordinal(), date(year, 12, 31).toordinal())


def test_every_month_end_and_leap_day():
    for year in [*range(1, 9999, 37), *range(1580, 2101), 9999]:
        for month in range(1, 13):
            last = date(year, month, monthrange(year, month)[1])
            span = parse(f"{year:04d}-{month:02d}")
            assert (span.earliest, span.latest) == (date(year, month, 1).toordinal(), last.toordinal())
            assert parse(last.isoformat()).latest == last.toordinal()
            assert not reads(f"{year:04d}-{month:02d}-{last.day + 1}")


def test_bounds_are_those_of_every_real_completion():
    century = [(date(1900, 1, 1) + timedelta(days=number)) for number in range(36525)]
    texts = [each.isoformat() for each in century]
    chance = random.Random(1928)
    for _ in range(60):
        mask = "19" + "".join(chance.choice("XX0123456789") for _ in range(2))
        mask += "-" + chance.choice(["XX", "0X", "1X", "X0", "X1", "X2", "02", "06"])
        mask += "-" + chance.choice(["XX", "0X", "1X", "2X", "3X", "X0", "X1", "X9", "29", "31"])
        fits = re.compile(mask.replace("X", "[0-9]")).fullmatch
        hits = [each for each, text in zip(century, texts, strict=True) if fits(text)]
        if hits:
            span = parse(mask)
            assert (span.earliest, span.latest) == (hits[0].toordinal(), hits[-1].toordinal()), mask
        else:
            assert not reads(mask), mask


def test_a_digit_in_place_of_an_x_never_widens():
    """Except where the digit makes a season code of a month (1928-X1 to 1928-21), which is another date."""
    chance = random.Random(1930)
    narrowed = 0
    for _ in range(600):
        real = date.fromordinal(chance.randint(1, 3_000_000)).isoformat()[: chance.choice([4, 7, 10])]
        mask = chance.choice(["", "-"]) + "".join(sign if sign == "-" else chance.choice(sign + "X") for sign in real)
        wide = parse(mask)
        for place in (place for place, sign in enumerate(mask) if sign == "X"):
            for digit in "0123456789":
                text = mask[:place] + digit + mask[place + 1 :]
                if reads(text) and not re.fullmatch(r"-?[0-9X]{4}-2[1-4]", text):
                    narrow = parse(text)
                    assert wide.earliest <= narrow.earliest <= narrow.latest <= wide.latest, (mask, text)
                    narrowed += 1
    assert narrowed > 2000


def junk(seed: int, count: int) -> list[str]:
    chance = random.Random(seed)
    letters = "0123456789" * 3 + "X?~%-./,[]{}()T:+ YESux" + "cirabefo" + "\t\n\0éß١９–\ud800\U0001f5bc"
    real = [text for text, _, _ in EXAMPLES + STRINGS if text]
    made = ["".join(chance.choice(letters) for _ in range(chance.randint(0, 24))) for _ in range(count)]
    for _ in range(count):  # nearly right: one sign of a real example changed, added or dropped
        text = chance.choice(real)
        place = chance.randrange(len(text))
        made.append(text[:place] + chance.choice(["", chance.choice(letters)]) + text[place + chance.randint(0, 1) :])
    return made


def test_junk_raises_nothing_but_bad_date():
    read = 0
    for text in [*junk(2019, 4000), "9" * 5000, "[" + "1928," * 5000 + "1928]", "(" * 60, "c " * 30]:
        try:
            span = parse(text)
        except BadDate as refused:
            sentence = str(refused)
            assert sentence.startswith("The date ") and sentence.endswith(".")
            assert "\n" not in sentence and len(sentence) < 700
            continue
        read += 1
        assert span.earliest is None or span.latest is None or span.earliest <= span.latest, text
        assert describe(span) and parse(span.text) == span
    assert read > 100


# day numbers


def test_day_numbers_agree_with_datetime():
    for number in range(1, date.max.toordinal(), 997):
        real = date.fromordinal(number)
        assert ordinal(real.year, real.month, real.day) == number == day(iso(number))
        assert iso(number) == real.isoformat()


def test_day_numbers_before_year_1_and_after_9999():
    assert ordinal(0, 12, 31) == 0 and iso(0) == "0000-12-31"
    assert ordinal(-4713, 11, 24) == -1721425  # day 0 of the Julian day count (memory)
    assert iso(parse("-0044-03-15").earliest) == "-0044-03-15"
    assert iso(date.max.toordinal() + 1) == "10000-01-01"
    assert iso(None) is None
    for number in range(-4_000_000, 4_000_000, 9973):
        assert ordinal(*civil(number)) == number


def test_day_is_strict():
    assert day("1928-05-17") == date(1928, 5, 17).toordinal()
    wrongs = ("1928", "1928-5-17", "1928-02-30", "1900-02-29", "19280517", " 1928-05-17", "1928-05-17\n", "-1928-05-17",
              "1928-05-XX", "1928-05-17?", "１928-05-17", "", None, 19280517)  # fmt: skip
    for wrong in wrongs:
        with pytest.raises(BadDate, match="YYYY-MM-DD"):
            day(wrong)


# widening by policy


@pytest.mark.parametrize(
    ("text", "uncertain", "approximate", "early", "late"),
    [
        ("1928", 2, 5, "1928-01-01", "1928-12-31"),
        ("1928?", 2, 5, "1926-01-01", "1930-12-31"),
        ("1928~", 2, 5, "1923-01-01", "1933-12-31"),
        ("1928%", 2, 5, "1921-01-01", "1935-12-31"),
        ("1928%", 0, 0, "1928-01-01", "1928-12-31"),
        ("1928-02~", 0, 1, "1927-02-01", "1929-02-28"),
        ("1927-02~", 0, 1, "1926-02-01", "1928-02-29"),  # the end of a month stays its end
        ("1928-02-29~", 0, 1, "1927-02-28", "1929-02-28"),
        ("1929-02-28~", 0, 1, "1928-02-28", "1930-02-28"),
        ("[..1930~]", 0, 1, None, "1931-12-31"),
        ("1984~/", 0, 1, "1983-01-01", None),
        ("0000~", 0, 1, "-0001-01-01", "0001-12-31"),
    ],
)
def test_padded(text, uncertain, approximate, early, late):
    low, high = padded(parse(text), uncertain, approximate)
    assert (iso(low), iso(high)) == (early, late)


def test_padding_never_narrows():
    chance = random.Random(7)
    for _ in range(2000):
        span = parse(f"{date.fromordinal(chance.randint(400000, 900000))}{chance.choice('?~%')}")
        low, high = padded(span, chance.randint(0, 9), chance.randint(0, 9))
        assert low <= span.earliest and high >= span.latest
    with pytest.raises(BadDate, match="0 or more"):
        padded(span, -1, 0)


# plain English


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("1928", "1928"), ("1928-05", "May 1928"), ("1928-05-17", "17 May 1928"), ("0800", "800"),
        ("1928-05-17T10:00:00Z", "17 May 1928"), ("-0044-03-15", "15 March 45 BCE"), ("0000", "1 BCE"),
        ("1928~", "about 1928"), ("1928?", "perhaps 1928"), ("1928%", "perhaps about 1928"),
        ("192X", "some day in 1920-1929"), ("192X~", "some day in about 1920-1929"), ("XXXX", "some day in any year"),
        ("1928-XX", "some day in 1928"), ("1985-04-XX", "some day in April 1985"), ("1930-X0-10", "10 October 1930"),
        ("1985-0X-31", "some day from 31 January 1985 to 31 August 1985"),
        ("[..1930]", "not after 1930"), ("[1925..]", "not before 1925"), ("[1928]", "1928"),
        ("[1925..1930]", "one date from 1925 to 1930"), ("[1928,1929]", "1928 or 1929"),
        ("{1923,1925}", "1923 and 1925"), ("{..1984}", "all dates up to 1984"), ("{1984..}", "all dates from 1984 on"),
        ("[1667,1668,1670..1672]", "1667, 1668 or one date from 1670 to 1672"),
        ("1925/1930", "from 1925 to 1930"), ("1984~/2004-06", "from about 1984 to June 2004"),
        ("1985/..", "from 1985 to an open end"), ("1985/", "from 1985 to an unknown end"),
        ("../1985", "from an open beginning to 1985"), ("/1985", "from an unknown beginning to 1985"),
        ("..2004-06-01/2004-06-20..", "from 1 June 2004 or earlier to 20 June 2004 or later"),
        ("1928-22", "summer 1928, taken as June to August"),
        ("1928-24?", "perhaps winter 1928, taken as December to February of the next year"),
        ("192X-21", "spring 1920-1929, taken as March to May"),
    ],
)  # fmt: skip
def test_described(text, said):
    assert describe(parse(text)) == said


def test_every_published_date_can_be_described():
    for text, _, _ in EXAMPLES + STRINGS:
        if reads(text):
            assert describe(parse(text)).strip()
