"""Dates with doubt in plain English."""

from collections.abc import Callable

from registry.facts.days import civil, length

MONTHS = (
    "", "January", "February", "March", "April", "May", "June",
    "July", "August", "September", "October", "November", "December",
)  # fmt: skip
_SEASONS = {"21": "spring", "22": "summer", "23": "autumn", "24": "winter"}


def words(span, read: Callable) -> str:
    """Plain English for a span; `read` turns the text of one date inside it into a span of its own."""

    def part(text: str) -> str:
        return words(read(text), read)

    if span.kind == "interval":
        return _interval(span.text, part)
    if span.kind == "date":
        return _date(span)
    return _set(span.text, part, span.kind == "one_of")


def _date(span) -> str:
    perhaps = "perhaps " if span.uncertain else ""
    about = "about " if span.approximate else ""
    code = span.text.strip("?~%")[-2:]
    if span.precision == "span" and code in _SEASONS and "-" in span.text[1:]:
        return f"{perhaps}{about}{_season(span, _SEASONS[code])}"
    if "X" not in span.text or span.earliest == span.latest:
        return f"{perhaps}{about}{_unit(span.earliest, span.precision)}"
    return f"{perhaps}some day {_stretch(span, about)}"


def _unit(first: int, precision: str) -> str:
    year, month, day = civil(first)
    if precision == "year":
        return _year(year)
    return f"{MONTHS[month]} {_year(year)}" if precision == "month" else f"{day} {MONTHS[month]} {_year(year)}"


def _stretch(span, about: str) -> str:
    """From the first to the last day of a date with X digits, as whole years or a month where it is that."""
    low, high = civil(span.earliest), civil(span.latest)
    if low[1:] == (1, 1) and high[1:] == (12, 31):
        everything = (low[0], high[0]) == (0, 9999)
        return "in any year" if everything else f"in {about}{_years(low[0], high[0])}"
    if span.precision == "month" and low[2] == 1 and high[2] == length(*high[:2]):
        return f"in {about}{_unit(span.earliest, 'month')}"
    return f"from {about}{_unit(span.earliest, 'day')} to {_unit(span.latest, 'day')}"


def _season(span, name: str) -> str:
    (first, low, _), (last, high, _) = civil(span.earliest), civil(span.latest)
    wraps = high < low
    when = _years(first, last - wraps)
    return f"{name} {when}, taken as {MONTHS[low]} to {MONTHS[high]}{' of the next year' if wraps else ''}"


def _years(low: int, high: int) -> str:
    if low == high:
        return _year(low)
    return f"{low}-{high}" if low > 0 else f"{_year(low)} to {_year(high)}"


def _year(year: int) -> str:
    return str(year) if year > 0 else f"{1 - year} BCE"


def _interval(text: str, part: Callable) -> str:
    left, _, right = text.partition("/")
    start = {"": "an unknown beginning", "..": "an open beginning"}.get(left)
    end = {"": "an unknown end", "..": "an open end"}.get(right)
    if not start:
        start = part(left.removeprefix("..")) + (" or earlier" if left.startswith("..") else "")
    if not end:
        end = part(right.removesuffix("..")) + (" or later" if right.endswith("..") else "")
    return f"from {start} to {end}"


def _set(text: str, part: Callable, one: bool) -> str:
    items = [_item(item, part, one) for item in text[1:-1].split(",")]
    if len(items) == 1:
        return items[0]
    return f"{', '.join(items[:-1])} {'or' if one else 'and'} {items[-1]}"


def _item(item: str, part: Callable, one: bool) -> str:
    low, dots, high = item.partition("..")
    if not dots:
        return part(item)
    if low and high:
        return f"{'one date' if one else 'all dates'} from {part(low)} to {part(high)}"
    if low:
        return f"not before {part(low)}" if one else f"all dates from {part(low)} on"
    return f"not after {part(high)}" if one else f"all dates up to {part(high)}"
