"""One loosely written date ('circa 1928', '17 May 1928', 'the 1920s') turned into EDTF forms.

Every form is a suggestion for a person to choose from and type; nothing is stored from here. Where two
readings are usual (28/05 and 05/28) both come back, the more usual first.
"""

import re
from collections.abc import Callable, Iterable, Iterator

from registry.facts.date_words import MONTHS

_DEEPEST = 4  # 'perhaps c. (May 1928)' needs three rounds; without a limit 'c c c c' would need many
_SEASONS = {"spring": "21", "summer": "22", "autumn": "23", "fall": "23", "winter": "24"}
_DASHES = str.maketrans(dict.fromkeys("‐‑‒–—―−", "-") | {"’": "'", "‘": "'"})


def tidy(text: str) -> str:
    """The text in small letters, with one kind of dash and single spaces."""
    return " ".join(text.translate(_DASHES).lower().split())


def forms(low: str, valid: Callable[[str], bool], deep: int = _DEEPEST) -> list[str]:
    """EDTF forms that one tidied loose date may stand for, all accepted by `valid`; empty if none."""
    low = low.strip(" ,;.")
    for form in _retyped(low):
        if valid(form):
            return [form]
    if not deep:
        return []
    for pattern, build in _SHAPES:
        found = pattern.fullmatch(low)
        if found:
            good = [form for form in build(found, lambda inner: forms(inner, valid, deep - 1)) if valid(form)]
            if good:
                return list(dict.fromkeys(good))
    return []


def _retyped(low: str) -> Iterator[str]:
    """The same signs without spaces, in capitals, and with those of the 2012 draft replaced."""
    plain = low.replace(" ", "").upper()
    yield plain
    plain = plain.replace("(?)", "?")
    plain = plain.replace("?~", "%").replace("~?", "%")
    yield plain
    yield plain.replace("U", "X")
    if "(" in plain:
        yield _ungrouped(plain)


def _ungrouped(plain: str) -> str:
    """Parentheses of the 2012 draft turned into marks before each part: (2004-(06)~)? -> ?2004-%06.

    A mark after a parenthesis belongs to all parts inside it, another mark to all parts on its left
    that stand in no closed parenthesis (reading of the 2012 draft: memory).
    """
    parts, marks, opened, closed = [], [], [], set()
    inside: Iterable[int] = ()  # the parts that a mark read next belongs to
    for token in re.findall(r"[0-9X]+|[()?~%]", plain):
        if token == "(":
            opened.append(len(parts))
        elif token == ")":
            inside = range(opened.pop() if opened else 0, len(parts))
            closed.update(inside)
        elif token in "?~%":
            for part in inside:
                marks[part].update("?~" if token == "%" else token)
        else:
            parts.append(token)
            marks.append(set())
            inside = [part for part in range(len(parts)) if part not in closed]
    signs = ("%" if len(found) == 2 else "".join(found) for found in marks)
    return "-".join(sign + part for sign, part in zip(signs, parts, strict=True))


def _marked(found, inner, mark: str) -> Iterator[str]:
    for form in inner(found[1]):
        if form[0] not in "[{":
            bare, old = (form[:-1], form[-1]) if form[-1] in "?~%" else (form, mark)
            yield bare + (mark if old == mark else "%")


def _about(found, inner) -> Iterator[str]:
    return _marked(found, inner, "~")


def _perhaps(found, inner) -> Iterator[str]:
    return _marked(found, inner, "?")


def _same_mark(found, inner) -> Iterator[str]:
    return _marked(found, inner, found[2])


def _circa_or_copyright(found, inner) -> Iterator[str]:
    yield found[1] + "~"
    yield found[1]


def _inside(found, inner) -> list[str]:
    return inner(found[1])


def _decade(found, inner) -> Iterator[str]:
    yield f"{found[1]}X{found[2]}"
    if found[1].endswith("0"):
        yield f"{found[1][:2]}XX{found[2]}"


def _century(found, inner) -> Iterator[str]:
    """The hundred years as counted (1801 to 1900) and as written (1800 to 1899)."""
    count = int(found[1])
    yield f"[{count - 1:02d}01..{count:02d}00]"
    yield f"{count - 1:02d}XX"


def _blanks(found, inner) -> Iterator[str]:
    yield found[1].ljust(4, "X") + found[2]


def _rounded(found, inner) -> Iterator[str]:
    year, kept = found[2], int(found[3])
    yield found[1] + year[:kept].ljust(4, "X")


def _code(found, inner) -> Iterator[str]:
    """Codes 25 to 41 as the months they stand for: seasons by hemisphere, quarters, thirds, halves."""
    year, code = int(found[1]), int(found[2])
    first, last = _CODES[code]
    yield f"[{year:04d}-{first:02d}..{year + (last < first):04d}-{last:02d}]"


_CODES = {
    25: (3, 5), 26: (6, 8), 27: (9, 11), 28: (12, 2), 29: (9, 11), 30: (12, 2), 31: (3, 5), 32: (6, 8),
    33: (1, 3), 34: (4, 6), 35: (7, 9), 36: (10, 12), 37: (1, 4), 38: (5, 8), 39: (9, 12), 40: (1, 6), 41: (7, 12),
}  # fmt: skip


def _named(year: str, name: str, day: str | None = None) -> Iterator[str]:
    """A month or season by its name, whole or cut to three letters and more."""
    if name in _SEASONS and not day:
        yield f"{year}-{_SEASONS[name]}"
    for number, month in enumerate(MONTHS):
        if len(name) >= 3 and (month.lower().startswith(name) or (name, number) == ("sept", 9)):
            yield f"{year}-{number:02d}" + (f"-{int(day):02d}" if day else "")


def _numbers(found, inner) -> Iterator[str]:
    first, second, year = int(found[1]), int(found[2]), found[3]
    yield f"{year}-{second:02d}-{first:02d}"
    yield f"{year}-{first:02d}-{second:02d}"


def _before_christ(found, inner) -> Iterator[str]:
    year = int(found[1]) - 1
    yield f"{'-' if year > 0 else ''}{year:04d}"


_D = r"([0-9]{1,2})(?:st|nd|rd|th)?\.?"
_Y = r"([0-9]{4})"
_N = r"([a-z]{3,9})\.?"
_SHAPES = tuple(
    (re.compile(pattern), build)
    for pattern, build in (
        (r"c([0-9]{4})", _circa_or_copyright),
        (r"(?:circa|approximately|approx|about|abt|around|roughly|estimated|est|ca|c)(?:\. ?| |(?=[0-9]))(.+)", _about),
        (r"(.+?),? \(?(?:circa|approx|approximately|ca|c|or so|about)\.?\)?", _about),
        (r"(?:possibly|probably|perhaps|maybe|likely|prob|poss)\.? (.+)", _perhaps),
        (r"(.+?) ?\(\?\)", _perhaps),
        (r"(?:©|\(c\)|copyright|dated|signed|printed|published|issued|made|born|died|b\.|d\.|†) ?(.+)", _inside),
        (r"(?:the|ad|a\.d\.) ?(.+)", _inside),
        (r"(?:in the year|in|the year|year|on) (.+)", _inside),
        (r"(.+?) (?:ad|a\.d\.?|ce|c\.e\.?)", _inside),
        (r"[(\[](.+)[)\]]", _inside),
        (r"(?:very )?(?:early|mid|middle|late|beginning|end|start)(?: of)?(?: the)?[ -]+(?:in )?(.+)", _inside),
        (r"(?:the )?([0-9]{3})0 ?'?s ?([?~%]?)", _decade),
        (r"([0-9]{1,2})(?:st|nd|rd|th)?[ -]?(?:century|cent|c)", _century),
        (r"([0-9]{2})(?:--|\?\?|__|xx|\.\.) ?([?~%]?)", _blanks),
        (r"([0-9]{3})[-?_.x] ?([?~%]?)", _blanks),
        (r"(-?)([0-9]{4})[sp]([1-4])", _rounded),
        (r"(-?[0-9]{4})-(2[5-9]|3[0-9]|4[01])[?~%]?", _code),
        (r"y(-?[0-9]{4})", _inside),
        (r"\+(.+)", _inside),
        (_D + r"[ -]*(?:of )?" + _N + r",?[ -]*" + _Y, lambda m, _: _named(m[3], m[2], m[1])),
        (_N + r"[ -]*" + _D + r",?[ -]+" + _Y, lambda m, _: _named(m[3], m[1], m[2])),
        (_N + r",?[ -]*(?:of )?" + _Y, lambda m, _: _named(m[2], m[1])),
        (_Y + r",?[ -]*" + _N + r"(?:[ -]*" + _D + ")?", lambda m, _: _named(m[1], m[2], m[3])),
        (r"([0-9]{1,2})[ ./-]+([0-9]{1,2})[ ./-]+" + _Y, _numbers),
        (_Y + r"[ ./-]+([0-9]{1,2})[ ./-]+([0-9]{1,2})", lambda m, _: [f"{m[1]}-{int(m[2]):02d}-{int(m[3]):02d}"]),
        (_Y + r"([0-9]{2})([0-9]{2})", lambda m, _: [f"{m[1]}-{m[2]}-{m[3]}"]),
        (r"([0-9]{1,2})[ ./-]" + _Y, lambda m, _: [f"{m[2]}-{int(m[1]):02d}"]),
        (_Y + r"[ ./-]([0-9]{1,2})", lambda m, _: [f"{m[1]}-{int(m[2]):02d}"]),
        (r"(-?[0-9]{4}-[0-9]{2}-[0-9]{2})(?:t| )[^/]*", _inside),
        (r"([0-9]{1,4}) ?b\.?c\.?(?:e\.?)?", _before_christ),
        (r"(.+?) ?([?~%])", _same_mark),
    )
)
