"""Day numbers: calendar days as plain integers, also before year 1 and past year 9999.

A day number counts as `datetime.date.toordinal` does (1 is 0001-01-01). Earlier days are 0 and less,
in the Gregorian calendar carried backwards with a year 0000, as ISO 8601 does.
"""

import re
from datetime import date

from registry.errors import BadDate

_LENGTHS = (0, 31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)
_BEFORE = tuple(sum(_LENGTHS[:month]) for month in range(13))  # days before a month in a common year
_FOUR_CENTURIES = 146_097  # days after which the Gregorian calendar repeats
_LAST = date.max.toordinal()
_STRICT = re.compile(r"([0-9]{4})-([0-9]{2})-([0-9]{2})")


def leap(year: int) -> bool:
    """Whether the year has 29 February."""
    return year % 4 == 0 and (year % 100 != 0 or year % 400 == 0)


def length(year: int, month: int) -> int:
    """The number of days in a month (1-12)."""
    return 29 if month == 2 and leap(year) else _LENGTHS[month]


def ordinal(year: int, month: int, day_: int) -> int:
    """The day number of a real calendar day; the parts are not checked."""
    past = year - 1
    leaps = past // 4 - past // 100 + past // 400
    return past * 365 + leaps + _BEFORE[month] + (month > 2 and leap(year)) + day_


def civil(number: int) -> tuple[int, int, int]:
    """The year, month and day of a day number."""
    cycles, rest = (0, number - 1) if 1 <= number <= _LAST else divmod(number - 1, _FOUR_CENTURIES)
    found = date.fromordinal(rest + 1)
    return found.year + 400 * cycles, found.month, found.day


def shifted(number: int, years: int) -> int:
    """The same day of another year; `years` is negative for earlier ones.

    The end of February never narrows a period: 29 February moved back to a common year becomes the
    28th, and the last day of February moved forward stays the last.
    """
    year, month, day_ = civil(number)
    if month == 2 and day_ == length(year, 2) and years > 0:
        day_ = 29
    return ordinal(year + years, month, min(day_, length(year + years, month)))


def iso(day: int | None) -> str | None:
    """'1928-05-17' for a day number, '-0044-03-15' before year 0000; None for None.

    A year past 9999 is written with as many digits as it needs.
    """
    if day is None:
        return None
    if 1 <= day <= _LAST:
        return date.fromordinal(day).isoformat()
    year, month, day_ = civil(day)
    return f"{'-' if year < 0 else ''}{abs(year):04d}-{month:02d}-{day_:02d}"


def day(text_iso: str) -> int:
    """The day number of a strict YYYY-MM-DD (years 0000 to 9999); BadDate for anything else."""
    found = _STRICT.fullmatch(text_iso) if isinstance(text_iso, str) else None
    if found:
        year, month, day_ = (int(part) for part in found.groups())
        if 1 <= month <= 12 and 1 <= day_ <= length(year, month):
            return ordinal(year, month, day_)
    raise BadDate(f"A day must be a real calendar day written YYYY-MM-DD, such as 1928-05-17, not {shown(text_iso)}.")


def shown(text: object) -> str:
    """What was got, quoted and short enough for one sentence; a value that is not text is named as such."""
    if isinstance(text, str):
        return repr(text if len(text) <= 60 else text[:57] + "...")
    if text is None:
        return "nothing"
    small = isinstance(text, float) or isinstance(text, int) and abs(text) < 10**12
    return f"{type(text).__name__} {text}" if small else type(text).__name__
