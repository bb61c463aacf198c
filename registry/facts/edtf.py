"""Dates with doubt: EDTF text read into the earliest and the latest day that it can mean.

Supported: level 0, level 1 except long years, and these level 2 features: one-of and all-of sets,
qualifiers on parts of a date, X in place of any digit, and `..` before the start or after the end of
an interval. Not supported, and refused with the form to type instead: years of more than four digits,
exponents, significant digits, and the codes 25 to 41 (quarters and the like).

Source: Extended Date/Time Format (EDTF) Specification, Library of Congress, 4 February 2019, and its
published examples. Where it is silent or readings differ, this module decides:

* `?`, `~` and `%` never move the bounds; `padded` widens them by a policy that the caller names.
* Seasons are read as in the north, spring being March to May. Winter (24) runs from December of its
  year to the end of February of the next: the later end is the safe one when a term is counted.
* `../..`, `../` and `/..` are read (an interval without bounds); `/` is refused, as it says nothing.
* X may stand in a negative year; year -0000 does not exist, so `-XXXX` ends with -0001.
* A set reaches from the earliest day of any of its dates to the latest day of any.
* An end may overlap its start (`2004-06/2004`); it may not lie wholly before it.
* A time of day is checked and then ignored: the day stays as written, whatever the shift from UTC.
* White space around the text is trimmed; inside it is refused.
"""

import re
from dataclasses import dataclass
from datetime import date
from functools import lru_cache

from registry.errors import BadDate
from registry.facts import date_hints, date_masks, date_words
from registry.facts.days import day, iso, leap, ordinal, shifted, shown

__all__ = ["Span", "day", "describe", "iso", "padded", "parse"]

LONGEST = 1000  # characters; the longest list of dates that anybody types is far shorter
_DATE = re.compile(
    r"([?~%])?(-?)([0-9X]{4})([?~%])?"
    r"(?:-([?~%])?([0-9X]{2})([?~%])?(?:-([?~%])?([0-9X]{2})([?~%])?)?)?"
)
_MOMENT = re.compile(
    r"(-?[0-9]{4}-[0-9]{2}-[0-9]{2})T(?:[01][0-9]|2[0-3]):[0-5][0-9]:[0-5][0-9]"
    r"(?:Z|[+-](?:[01][0-9]|2[0-3])(?::[0-5][0-9])?)?"
)
_NOT_EDTF = "it is not written as an EDTF date"
_EMPTY = "it is empty"


@dataclass(frozen=True, slots=True)
class Span:
    """What a date says: `earliest` and `latest` are day numbers as `datetime.date.toordinal` counts.

    Days before 0001-01-01 are 0 and less. A bound is None when that side is open or unknown; the
    four flags tell which. `kind` is date, interval, one_of or all_of. `precision` is the coarsest of
    day, month, year, decade, century needed to explain a date, and span for everything else.
    """

    text: str
    kind: str
    earliest: int | None
    latest: int | None
    uncertain: bool
    approximate: bool
    open_start: bool
    open_end: bool
    unknown_start: bool
    unknown_end: bool
    precision: str


def parse(text: str) -> Span:
    """The span that an EDTF text stands for; BadDate says what was got and what to write instead."""
    if not isinstance(text, str):
        raise BadDate(f"A date must be text, such as 1928 in quotes, not {shown(text)}.")
    return _remembered(text.strip())


def padded(span: Span, years_uncertain: int, years_approximate: int) -> tuple[int | None, int | None]:
    """Earliest and latest, widened on both sides by years for `?` and for `~` (for `%` by their sum).

    This is a policy of the caller, not part of EDTF. Open and unknown sides stay None.
    Raises BadDate for a negative number of years, which would narrow.
    """
    if years_uncertain < 0 or years_approximate < 0:
        got = f"{years_uncertain} and {years_approximate}"
        raise BadDate(f"The years by which doubtful dates are widened must be 0 or more, not {got}.")
    years = years_uncertain * span.uncertain + years_approximate * span.approximate
    if not years:
        return span.earliest, span.latest
    return (
        None if span.earliest is None else shifted(span.earliest, -years),
        None if span.latest is None else shifted(span.latest, years),
    )


def describe(span: Span) -> str:
    """The span in plain English: 'about 1928', 'some day in 1920-1929', 'not after 1930'."""
    return date_words.words(span, _read)


@lru_cache(maxsize=65536)
def _remembered(text: str) -> Span:
    try:
        return _plain(text) or _read(text)
    except BadDate as refused:
        raise BadDate(_sentence(text, str(refused))) from None


def _plain(text: str) -> Span | None:
    """A bare year or full date, which nearly all dates are, without the cost of a full reading."""
    if not text.isascii():
        return None
    if len(text) == 4 and text.isdigit():
        first, precision = ordinal(int(text), 1, 1), "year"
        last = first + 364 + leap(int(text))
    elif len(text) == 10 and text[4] == text[7] == "-":
        try:
            first = last = date.fromisoformat(text).toordinal()
        except ValueError:
            return None
        precision = "day"
    else:
        return None
    return Span(text, "date", first, last, False, False, False, False, False, False, precision)


def _read(text: str) -> Span:
    """Any supported form; the BadDate it raises holds only the reason."""
    if not text:
        raise BadDate(_EMPTY)
    if len(text) > LONGEST:
        raise BadDate(f"it is longer than {LONGEST} characters")
    if text[0] in "[{":
        return _set(text)
    if "/" in text:
        return _interval(text)
    if "T" in text:
        return _moment(text)
    return _date(text)


def _sentence(text: str, reason: str) -> str:
    """The full refusal: what was got, what is wrong with it, what to write."""
    forms = date_hints.instead(text, _readable)
    known = date_hints.reason(text)
    advice = " or ".join(map(_explained, forms))
    if not advice and (known or reason in (_NOT_EDTF, _EMPTY)):
        advice = date_hints.ALLOWED  # every other reason says itself what is allowed
    return f"The date {shown(text)} cannot be read because {known or reason}{'; write ' if advice else ''}{advice}."


def _readable(text: str) -> bool:
    try:
        return bool(_read(text))
    except BadDate:
        return False


def _explained(form: str) -> str:
    meaning = describe(_read(form))
    return form if meaning == form else f"{form} ({meaning})"


def _date(text: str) -> Span:
    found = _DATE.fullmatch(text)
    if not found:
        raise BadDate(_NOT_EDTF)
    y_left, sign, year, y_right, m_left, month, m_right, d_left, day_, d_right = found.groups()
    if (y_left and y_right) or (m_left and m_right) or (d_left and d_right):
        raise BadDate("one part carries two of the marks ? ~ % where one is allowed (% means both ? and ~)")
    if month in date_masks.SEASONS:
        earliest, latest = date_masks.season(sign, year, month, day_)
    else:
        earliest, latest = date_masks.bounds(sign, year, month, day_)
    marks = {y_left, y_right, m_left, m_right, d_left, d_right}
    precision = "span" if month in date_masks.SEASONS else date_masks.precision(earliest, latest)
    uncertain, approximate = not marks.isdisjoint("?%"), not marks.isdisjoint("~%")
    return Span(text, "date", earliest, latest, uncertain, approximate, False, False, False, False, precision)


def _moment(text: str) -> Span:
    found = _MOMENT.fullmatch(text)
    if not found:
        raise BadDate("a time of day is written like 1985-04-12T23:20:30, with Z or a shift like +04:30 after it")
    whole = _date(found[1])
    return Span(text, "date", whole.earliest, whole.latest, False, False, False, False, False, False, "day")


def _interval(text: str) -> Span:
    left, _, right = text.partition("/")
    if "/" in right:
        raise BadDate("an interval has one slash, as in 1925/1930")
    if "T" in text:
        raise BadDate("an interval joins days without a time, as in 1928-05-17/1928-05-20")
    if text == "/":
        raise BadDate("an interval of two unknown ends says nothing (leave the field empty when nothing is known)")
    open_start, open_end = left.startswith(".."), right.endswith("..")
    start, end = _end(left.removeprefix("..")), _end(right.removesuffix(".."))
    earliest = None if open_start or not start else start.earliest
    latest = None if open_end or not end else end.latest
    if earliest is not None and latest is not None and latest < earliest:
        raise BadDate("it ends before it starts, and the earlier date stands first")
    parts = [part for part in (start, end) if part]
    return _joined(text, "interval", parts, (earliest, latest), (open_start, open_end, not left, not right))


def _end(text: str) -> Span | None:
    return _date(text) if text else None


def _set(text: str) -> Span:
    kind, close = ("one_of", "]") if text[0] == "[" else ("all_of", "}")
    if text[-1] != close or len(text) < 3:
        raise BadDate(f"a set opened by {text[0]} must hold dates and be closed by {close}")
    items = text[1:-1].split(",")
    parts = [part for place, item in enumerate(items) for part in _item(item, place == 0, place == len(items) - 1)]
    open_start, open_end = items[0].startswith(".."), items[-1].endswith("..")
    earliest = None if open_start else min(part.earliest for part in parts)
    latest = None if open_end else max(part.latest for part in parts)
    return _joined(text, kind, parts, (earliest, latest), (open_start, open_end, False, False))


def _item(item: str, first: bool, last: bool) -> list[Span]:
    """The one or two dates that an item of a set names."""
    low, dots, high = item.partition("..")
    if not dots:
        return [_date(item)]
    if not (low or high) or not (low or first) or not (high or last):
        raise BadDate("'..' without a date on one side may only open or close a set")
    pair = [_date(each) for each in (low, high) if each]
    if len(pair) == 2 and pair[1].latest < pair[0].earliest:
        raise BadDate(f"{item} runs backwards, and the earlier date stands first")
    return pair


def _joined(text: str, kind: str, parts: list[Span], bounds: tuple, sides: tuple) -> Span:
    uncertain, approximate = any(part.uncertain for part in parts), any(part.approximate for part in parts)
    return Span(text, kind, *bounds, uncertain, approximate, *sides, "span")
