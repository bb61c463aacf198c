"""A date that is refused says what to type instead: the exact EDTF form, and what it would mean."""

import csv
from pathlib import Path

import pytest

from registry.errors import BadDate
from registry.facts.date_hints import ALLOWED, instead
from registry.facts.edtf import describe, parse

CASES = Path(__file__).parent / "cases"


def reads(text: str) -> bool:
    try:
        return bool(parse(text))
    except BadDate:
        return False


def refusal(text: str) -> str:
    with pytest.raises(BadDate) as refused:
        parse(text)
    return str(refused.value)


WRITTEN = """
circa 1928 | 1928~
Circa 1928 | 1928~
c. 1928 | 1928~
ca 1928 | 1928~
about 1928 | 1928~
ca. May 1928 | 1928-05~
1928 approx. | 1928~
c1928 | 1928~ 1928
c. 1925-1930 | [1925~..1930~] 1925~/1930~
c. 1925-30 | [1925~..1930~] 1925~/1930~
probably 1928 | 1928?
1928 (?) | 1928?
possibly c. 1928 | 1928%
1920s | 192X
the 1920's | 192X
1920s? | 192X?
late 1920s | 192X
1900s | 190X 19XX
1920s-1930s | [192X..193X] 192X/193X
19th century | [1801..1900] 18XX
17 May 1928 | 1928-05-17
17th of May 1928 | 1928-05-17
May 17, 1928 | 1928-05-17
1928 May 17 | 1928-05-17
8 May 1945? | 1945-05-08?
May 1928 | 1928-05
Sept. 1928 | 1928-09
spring 1928 | 1928-21
Winter 1928 | 1928-24
28/05/1928 | 1928-05-28
05-28-1928 | 1928-05-28
17.5.1928 | 1928-05-17
05/06/1928 | 1928-06-05 1928-05-06
1928/05/17 | 1928-05-17
1928.05.17 | 1928-05-17
1928-5-7 | 1928-05-07
19280517 | 1928-05-17
5/1928 | 1928-05
1928-5 | 1928-05
1928-05-17 12:00 | 1928-05-17
1928-05-17T12:00 | 1928-05-17
1985-04-12t23:20:30z | 1985-04-12T23:20:30Z
1928-05-17T10:00:00Z/1928-05-20T10:00:00Z | 1928-05-17/1928-05-20
before 1930 | [..1929] [..1930]
pre-1930 | [..1929] [..1930]
<1930 | [..1929] [..1930]
before May 1930 | [..1930-04] [..1930-05]
before January 1930 | [..1929-12] [..1930-01]
before 1 March 1928 | [..1928-02-29] [..1928-03-01]
before c. 1930 | [..1929~] [..1930~]
before the 1920s | [..192X]
not after 1930 | [..1930]
by 1930 | [..1930]
1930 or earlier | [..1930]
..1930 | [..1930]
after 1930 | [1931..] [1930..]
after 31 December 1930 | [1931-01-01..] [1930-12-31..]
1930 or later | [1930..]
since 1930 | [1930..] 1930/..
1930- | 1930/..
1930-present | 1930/..
1928-1930 | [1928..1930] 1928/1930
1928 \N{EN DASH} 1930 | [1928..1930] 1928/1930
from 1928 to 1930 | [1928..1930] 1928/1930
1928..1930 | [1928..1930]
between 1928 and 1930 | [1928..1930]
1928-30 | [1928..1930] 1928/1930 [1928-12..1929-02]
1928/30 | [1928..1930] 1928/1930
1911/12 | [1911..1912] 1911/1912 1911-12
1920 - 21 | [1920..1921] 1920/1921 1920-21
1928\\1930 | 1928/1930
1928 or 1929 | [1928,1929]
1928, 1929 or c. 1931 | [1928,1929,1931~]
1928 and 1929 | {1928,1929}
1928, 1929 | [1928,1929] {1928,1929}
[1667, 1760-12] | [1667,1760-12]
1863- 03-29 | 1863-03-29
? | XXXX
unknown | XXXX
n.d. | XXXX
193? | 193X
193- | 193X
19?? | 19XX
18--? | 18XX?
[192-?] | 192X?
[ca. 1928] | 1928~
\N{COPYRIGHT SIGN}1928 | 1928
44 BC | -0043
1 BC | 0000
"""
DRAFT_2012 = """
192u | 192X
19uu | 19XX
1928-uu | 1928-XX
1928-05-uu | 1928-05-XX
156u-12-25 | 156X-12-25
199x | 199X
19xx | 19XX
1928?~ | 1928%
1928~? | 1928%
2004-06?~-11 | 2004-06%-11
1984-06?~/2004 | 1984-06%/2004
2004-06-(01)~ | 2004-06-~01
2004-(06)?-11 | 2004-?06-11
2011-(06-04)~ | 2011-~06-~04
(2011)-06-04~ | 2011-~06-~04
(2004)?-06-04~ | ?2004-~06-~04
(2004-(06)~)? | ?2004-%06
2004/open | 2004/..
2004-06-01/unknown | 2004-06-01/
unknown/2006 | /2006
unknown/open | /..
1950p2 | 19XX
"""
UNSUPPORTED = """
Y2006 | 2006
+2006 | 2006
1950S2 | 19XX
1950S3 | 195X
2001-34 | [2001-04..2001-06]
2001-28 | [2001-12..2002-02]
2001-41 | [2001-07..2001-12]
"""


def table(text: str) -> list[tuple[str, list[str]]]:
    return [(left, right.split()) for left, right in (line.split(" | ") for line in text.strip().splitlines())]


@pytest.mark.parametrize(("text", "forms"), table(WRITTEN) + table(DRAFT_2012) + table(UNSUPPORTED))
def test_the_form_to_type(text, forms):
    assert list(instead(text, reads)) == forms
    sentence = refusal(text)
    assert f"; write {forms[0]}" in sentence
    for form in forms:
        meaning = describe(parse(form))
        assert (form if meaning == form else f"{form} ({meaning})") in sentence


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("", "it is empty"),
        ("?", "leave the field empty"),
        ("85", "four digits"),
        ("12345", "from -9999 to 9999"),
        ("Y170000002", "from -9999 to 9999"),
        ("y17e7", "from -9999 to 9999"),
        ("1950S2", "significant digits"),
        ("2001-34", "codes 25 to 41 (quarters and the like) are not supported"),
        ("192u", "2012 draft"),
        ("1928?~", "now the one mark %"),
        ("(2004-(06)~)?", "parentheses"),
        ("2004/open", "an open end is written .."),
        ("1928-13", "a month is 01 to 12"),
        ("1928-02-30", "February 1928 has days 01 to 29"),
        ("1900-02-29", "February 1900 has days 01 to 28"),
        ("156X-09-31", "no day of the calendar fits it"),
        ("2001-21-05", "a season has no day"),
        ("-0000", "the year before 0001 is 0000"),
        ("?2004~", "% means both"),
        ("1930/1928", "it ends before it starts"),
        ("[1930..1928]", "runs backwards"),
        ("[1928", "closed by ]"),
        ("[..]", "may only open or close a set"),
        ("1928/1929/1930", "one slash"),
        ("/", "says nothing"),
        ("1985-W15", "weeks"),
        ("P10Y", "durations"),
        ("1928-142", "days of the year"),
        ("31/02/1928", "the year stands first"),
        ("1928-05-17T25:00:00", "a time of day is written like"),
    ],
)
def test_the_reason(text, words):
    assert words in refusal(text)


@pytest.mark.parametrize("text", ["", "hello", "85", "MCMXXVIII", "1920-1910", "x" * 500, "1985-W15", "17/5/28"])
def test_without_a_guess_the_allowed_forms_are_named(text):
    assert instead(text, reads) == () and refusal(text).endswith(f"; write {ALLOWED}.")


def test_a_refused_text_is_quoted_in_short():
    assert len(refusal("hello " * 100)) < 400
    assert "'hello hello" in refusal("hello " * 100)
    assert "\n" not in refusal("19\n28")


def test_nothing_is_suggested_that_would_be_refused_in_turn():
    suggested = 0
    for name, column in (("edtf_examples.csv", "expression"), ("edtf_strings.csv", "edtf")):
        with (CASES / name).open(encoding="utf-8", newline="") as handle:
            texts = [row[column] for row in csv.DictReader(handle)]
        for text in texts:
            if not reads(text):
                forms = instead(text, reads)
                assert all(map(reads, forms)) and len(forms) <= 3
                suggested += len(forms)
    assert suggested > 40


def test_unsupported_published_forms_are_refused_politely():
    with (CASES / "disputed.csv").open(encoding="utf-8", newline="") as handle:
        rows = [row for row in csv.DictReader(handle) if row["reason"].startswith("not supported: ")]
    rows = [row for row in rows if row["file"].startswith("edtf_")]
    assert len(rows) >= 25
    for row in rows:
        named = ("years have four digits here", "significant digits (S)", "codes 25 to 41")
        assert any(words in refusal(row["id"]) for words in named), row["id"]
