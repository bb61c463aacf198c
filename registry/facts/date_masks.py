"""First and last day of a date of which digits are left open by X, over all real calendar days."""

import re
from collections.abc import Iterable
from itertools import product

from registry.errors import BadDate
from registry.facts.date_words import MONTHS
from registry.facts.days import civil, length, ordinal

SEASONS = {"21": (3, 5), "22": (6, 8), "23": (9, 11), "24": (12, 2)}  # first and last month


def bounds(sign: str, year: str, month: str | None, day_: str | None) -> tuple[int, int]:
    """First and last day over every completion of the X digits that is a real calendar day."""
    months = _fitting(month, 12)
    days = _fitting(day_, 31)
    if not months:
        raise BadDate("a month is 01 to 12 (or a season: 21 spring, 22 summer, 23 autumn, 24 winter)")
    if not days or all(days[0] > length(2000, each) for each in months):
        raise BadDate(_no_such_day(sign + year, months, day_))
    earliest = _edge(_years(sign, year, rising=True), months, days)
    latest = _edge(_years(sign, year, rising=False), months[::-1], days[::-1])
    if earliest is None or latest is None:
        raise BadDate(_no_such_day(sign + year, months, day_))
    return earliest, latest


def _no_such_day(year: str, months: list[int], day_: str | None) -> str:
    if day_ is None or year == "-0000":
        return "there is no year -0000 (the year before 0001 is 0000)"
    if len(months) == 1 and "X" not in year:
        last = length(int(year), months[0])
        return f"{MONTHS[months[0]]} {year} has days 01 to {last}"
    return "no day of the calendar fits it"


def _fitting(mask: str | None, last: int) -> list[int]:
    """The numbers from 1 to `last` that fit two digits or X; all of them when nothing is said."""
    if mask is None or mask == "XX":
        return list(range(1, last + 1))
    if "X" not in mask:
        return [int(mask)] if 1 <= int(mask) <= last else []
    fits = re.compile(mask.replace("X", "[0-9]")).fullmatch
    return [number for number in range(1, last + 1) if fits(f"{number:02d}")]


def _years(sign: str, mask: str, rising: bool) -> Iterable[int]:
    """The years that fit four digits or X, in order and one at a time, as the first nearly always does."""
    digits = "0123456789" if rising != bool(sign) else "9876543210"
    for chosen in product(*(digits if place == "X" else place for place in mask)):
        year = int("".join(chosen))
        if not sign:
            yield year
        elif year:
            yield -year


def _edge(years: Iterable[int], months: list[int], days: list[int]) -> int | None:
    """The day number of the first real day met, years being outermost; None when there is none."""
    for year in years:
        for month in months:
            last = length(year, month)
            for day_ in days:
                if day_ <= last:
                    return ordinal(year, month, day_)
    return None


def season(sign: str, year: str, code: str, day_: str | None) -> tuple[int, int]:
    if day_:
        raise BadDate(f"{code} is a season, and a season has no day")
    first, last = SEASONS[code]
    earliest_year, latest_year = (next(iter(_years(sign, year, up)), None) for up in (True, False))
    if earliest_year is None or latest_year is None:
        raise BadDate(_no_such_day(sign + year, [first], None))
    end = latest_year + (last < first)
    return ordinal(earliest_year, first, 1), ordinal(end, last, length(end, last))


def precision(earliest: int, latest: int) -> str:
    if earliest == latest:
        return "day"
    (low, low_month, _), (high, high_month, _) = civil(earliest), civil(latest)
    if low == high:
        return "month" if low_month == high_month else "year"
    low, high = abs(low), abs(high)  # both years have the same sign, and the digits of -198X count away from zero
    if low // 10 == high // 10:
        return "decade"
    return "century" if low // 100 == high // 100 else "span"
