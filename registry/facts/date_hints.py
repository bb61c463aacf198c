"""What to type instead: why a text is no EDTF date, and the EDTF forms it may have been meant for.

Only suggestions: nothing here is ever read silently, since nearly every loose form has a second
reading. The reader is passed in as `valid`, so that no form is suggested which would be refused in
turn. Which loose forms are common: common practice of catalogues and dealers, no source. Forms of the
2012 draft: the list of differences in the EDTF specification of 4 February 2019.
"""

import re
from collections.abc import Callable, Iterator

from registry.facts import loose_dates
from registry.facts.days import iso, ordinal

ALLOWED = (
    "a date like 1928, 1928-05 or 1928-05-17, 1928~ for about 1928, 192X for the 1920s, "
    "[..1930] for not after 1930, or 1925/1930 for a span of years"
)
_LONGEST = 60  # longer text is no mistyped date, and the patterns look at it many times
_MOST = 3
_SHORT_SPAN = 20  # years; 1928-30 is read as a span of years, 2001-34 is not
_NO_DATE = "it names no date (leave the field empty when nothing is known)"


def reason(text: str) -> str | None:
    """Why a text of a well-known wrong kind is refused; None for the kinds not known here."""
    if len(text) > _LONGEST:
        return None
    return next((why for pattern, why in _REASONS if pattern.fullmatch(text)), None)


def instead(text: str, valid: Callable[[str], bool]) -> tuple[str, ...]:
    """Up to three EDTF forms that the text may have been meant for, best first; all accepted by `valid`."""
    if len(text) > _LONGEST:
        return ()
    low = loose_dates.tidy(text)
    if reason(text) == _NO_DATE:
        return ("XXXX",)

    def single(part: str) -> list[str]:
        return loose_dates.forms(part, valid)

    for pattern, build in _SHAPES:
        found = pattern.fullmatch(low)
        good = [form for form in build(found, single) if valid(form)] if found else []
        if good:
            return tuple(dict.fromkeys(good))[:_MOST]
    return tuple(single(low))[:_MOST]


def _years(found, single) -> Iterator[str]:
    """Two years joined by a dash; two digits borrow the century of the first."""
    first, last = found[1], found[2]
    if len(last) <= 2:
        last = first[: 4 - len(last)] + last
        if int(last) - int(first) > _SHORT_SPAN:
            last = ""
    if last:
        yield from (f"[{first}..{last}]", f"{first}/{last}")
    yield from single(found[0])


def _about_years(found, single) -> Iterator[str]:
    first, last = found[1], found[2]
    last = first[: 4 - len(last)] + last
    yield from (f"[{first}~..{last}~]", f"{first}~/{last}~")


def _stretch(found, single) -> Iterator[str]:
    starts, ends = ([form.partition("T")[0] for form in single(part)] for part in found.groups())
    pairs = [(first, last) for first in starts for last in ends]
    yield from (f"[{first}..{last}]" for first, last in pairs)
    yield from (f"{first}/{last}" for first, last in pairs)


def _between(found, single) -> Iterator[str]:
    yield from (form for form in _stretch(found, single) if form[0] == "[")


def _interval(found, single) -> Iterator[str]:
    yield from (form for form in _stretch(found, single) if form[0] != "[")


def _started(found, single) -> Iterator[str]:
    yield from (f"{form}/.." for form in single(found[1]))


def _worded(found, single) -> Iterator[str]:
    """An interval with a word of the 2012 draft on one side or on both."""
    ends = {"open": [".."], "unknown": [""]}
    for first in ends.get(found[1]) or single(found[1]):
        yield from (f"{first}/{last}" for last in ends.get(found[2]) or single(found[2]))


def _before(found, single) -> Iterator[str]:
    """Without the date named, as the word says, then with it, as it is often meant."""
    dates = single(found[1])
    yield from (f"[..{_beside(form, -1)}]" for form in dates)
    yield from (f"[..{form}]" for form in dates)


def _after(found, single) -> Iterator[str]:
    dates = single(found[1])
    yield from (f"[{_beside(form, 1)}..]" for form in dates)
    yield from (f"[{form}..]" for form in dates)


def _not_after(found, single) -> Iterator[str]:
    yield from (f"[..{form}]" for form in single(found[1] or found[found.lastindex]))


def _not_before(found, single) -> Iterator[str]:
    yield from (f"[{form}..]" for form in single(found[1] or found[found.lastindex]))


def _from(found, single) -> Iterator[str]:
    yield from _not_before(found, single)
    yield from _started(found, single)


def _beside(form: str, step: int) -> str:
    """The year, month or day just before (-1) or after (1) a plain date; nothing for other forms."""
    mark = form[-1] if form[-1] in "?~%" else ""
    parts = form.rstrip("?~%").split("-")
    if not all(part.isdigit() and part.isascii() for part in parts):
        return ""
    numbers = [int(part) for part in parts]
    if len(numbers) == 3:
        return (iso(ordinal(*numbers) + step) or "") + mark
    if len(numbers) == 2:
        year, month = divmod(numbers[0] * 12 + numbers[1] - 1 + step, 12)
        return f"{year:04d}-{month + 1:02d}{mark}"
    return f"{numbers[0] + step:04d}{mark}"


def _any_of(found, single) -> Iterator[str]:
    yield from _listed(found[0].removeprefix("either "), " or ", "[]", single)


def _all_of(found, single) -> Iterator[str]:
    yield from _listed(found[0].removeprefix("both "), r" and | & |&| \+ |;", "{}", single)


def _list(found, single) -> Iterator[str]:
    yield from _any_of(found, single)
    yield from _all_of(found, single)


def _listed(low: str, joint: str, brackets: str, single) -> Iterator[str]:
    parts = [single(part)[:1] for part in re.split(f",? ?(?:{joint})|,", low)]
    if len(parts) > 1 and all(parts):
        yield brackets[0] + ",".join(part[0] for part in parts) + brackets[1]


_REASONS = tuple(
    (re.compile(pattern, re.IGNORECASE), why)
    for pattern, why in (
        (r"[?\-–—_x]+|n/?a|n\.? ?d\.?|s\.? ?d\.?", _NO_DATE),
        (r"unknown|undated|none|null|open|no date|not known|date unknown", _NO_DATE),
        (r"[+-]?y-?[0-9]{1,4}|\+.*", "a year of four digits is written without Y and without plus"),
        (r"-?y-?[0-9].*|-?[0-9]{5,7}[?~%]?|-?[0-9]{9,}[?~%]?", "years have four digits here, from -9999 to 9999"),
        (r"-?[0-9]{4}[sp][0-9]+", "significant digits (S) are not supported"),
        (
            r"-?[0-9]{4}-(?:2[5-9]|3[0-9]|4[01])[?~%]?",
            "codes 25 to 41 (quarters and the like) are not supported, and a span of years needs both years in full",
        ),
        (r".*(?:\?~|~\?).*", "the two marks ?~ of the 2012 draft are now the one mark %"),
        (r".*[0-9]u+|u{4}.*|.*-uu.*", "the u of the 2012 draft is now a capital X"),
        (r"[0-9X-]*(?-i:x)[0-9X?~%-]*", "an open digit is a capital X"),
        (
            r".*\([0-9(].*\).*",
            "parentheses are gone since the 2012 draft: a mark stands right before the part that it belongs to",
        ),
        (
            r".*/ ?(?:open|unknown)|(?:open|unknown) ?/.*",
            "words are gone since the 2012 draft: an open end is written .. and an unknown end is left empty",
        ),
        (r"-?[0-9]{4}-?w[0-9].*", "weeks are not part of EDTF"),
        (r"-?[0-9]{4}-[0-9]{3}", "days of the year are not part of EDTF"),
        (r"p[0-9].*", "durations are not part of EDTF"),
        (r"[0-9].*\^.*", "notes after ^ are not part of EDTF"),
        (r"[0-9]{2}", "a year needs four digits"),
        (r"[0-9]{1,4}/[0-9]{1,2}/[0-9]{1,4}", "the parts of a date are joined by hyphens and the year stands first"),
        (r"[0-9]{8}", "the parts of a date are joined by hyphens"),
        (r"[0-9?~%X,.\-/\[\]{}]+ [0-9?~%X,.\-/\[\]{} ]+", "EDTF has no spaces inside a date"),
    )
)

_YEAR = r"([0-9]{4}[?~%]?)"
_SHAPES = tuple(
    (re.compile(pattern), build)
    for pattern, build in (
        (_YEAR + r" ?--? ?" + _YEAR, _years),
        (r"([0-9]{4}) ?[-/] ?([0-9]{1,2})", _years),
        (r"(?:circa|ca|c)\.? ?([0-9]{4}) ?--? ?([0-9]{2}|[0-9]{4})", _about_years),
        (r"(?:not after|no later than|not later than|on or before|by|until|till|up to|to|<=|≤) ?(.+)", _not_after),
        (r"(.+?) (?:or|and) (?:earlier|before)|(.+?),? at (?:the )?latest", _not_after),
        (r"(?:not before|no earlier than|not earlier than|on or after|>=|≥) ?(.+)", _not_before),
        (r"(.+?) (?:or|and) (?:later|after)|(.+?),? at (?:the )?earliest", _not_before),
        (r"(?:before|prior to|earlier than|pre|ante|<)[ -]?(.+)", _before),
        (r"(?:after|later than|post|>)[ -]?(.+)", _after),
        (r"between (.+?) (?:and|to|-) (.+)", _between),
        (r"(?:from |since )?(.+?)(?: ?- ?| ?/ ?| to | until )(?:the )?(?:present|now|today|date)", _started),
        (r"([0-9]{4}) ?-", _started),
        (r"(.+?) ?/ ?(open|unknown)", _worded),
        (r"(open|unknown) ?/ ?(.+)", _worded),
        (r"(?:from )?(.+?) (?:to|until|till|thru|through|--?) (.+)", _stretch),
        (r"(.+s) ?- ?(.+s)", _stretch),
        (r"(?:since|from) (.+?)(?: on| onwards?)?", _from),
        (r"(.+?) ?(?:\+|onwards?|on|and on)", _from),
        (r"\.\. ?(.+)", _not_after),
        (r"(.+?) ?\.\.", _not_before),
        (r"([^/]+?) ?\.\. ?([^/]+)", _between),
        (r"(.+?) ?(?:\\|//+) ?(.+)", _interval),
        (r"([^/]+?) ?/ ?([^/]+)", _interval),
        (r".+ or .+", _any_of),
        (r".+(?: and |&| \+ |;).+", _all_of),
        (r".+,.+", _list),
    )
)
