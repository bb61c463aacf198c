"""How a text is like the words of a mark: the same, a variant, contained, close, or not at all."""

import re
from dataclasses import dataclass, replace

from registry.clearance.mark_keys import LONG, inside_keys, mark_keys, part_key, whole_keys
from registry.clearance.ordinary import telling
from registry.clearance.spelling import WIDE, distance
from registry.clearance.wording import UNSPACED, folded, hasty, of_words, wording

SAME, FIRM, LOOSE = "same", "firm", "loose"
MANY = 60     # words of a text above which only shorter runs of it are compared letter by letter
WIDEST = 8    # words of the longest run compared with a mark
_LINES = re.compile(r"[\n\r|/•·;!?…\"“”„«»()\[\]{}「」『』]+|\s[-–—]+\s|[–—]|(?<=\w)[.:](?:\s|$)")


@dataclass(frozen=True, slots=True)
class Likeness:
    """One finding: what kind, how firm (same, firm, loose), the words of the text it rests on.

    `says` follows after the name of the text, such as: The wording "HARE AND LANTERN" is the mark word for word.
    """

    kind: str
    degree: str
    found: str
    says: str


@dataclass(frozen=True, slots=True)
class Prepared:
    """A text ready to be compared with many marks: runs of its words, and by key the runs filed under it.

    `index` gives for a key pairs of how (whole, part, inside) and number of the run; `whole` holds the numbers of
    the runs that are the text or one line of it; `keys` are all keys; `parts` those of texts that may be part of a mark.
    """

    pieces: tuple
    whole: frozenset
    index: dict
    keys: frozenset
    parts: frozenset


def prepared(text):
    """The Prepared form of a text of one or many lines."""
    words, spans, typed = _lines(text)
    many = len(words) > MANY
    pieces, whole, index, parts = [], set(), {}, set()
    for start, end in _runs(len(words), 5 if many else WIDEST, spans):
        number = len(pieces)
        piece = of_words(" ".join(word for _place, word in dict.fromkeys(typed[start:end])), words[start:end])
        if not piece.squashed:
            continue
        pieces.append(piece)
        for key in whole_keys(piece, end - start <= (3 if many else 4) or (start, end) in spans):
            index.setdefault(key, []).append((_WHOLE, number))
        if (start, end) in spans:
            whole.add(number)
            parts.add(part_key(piece))
            index.setdefault(part_key(piece), []).append((_PART, number))
        if end - start == 1:
            for key in inside_keys(piece.squashed):
                index.setdefault(key, []).append((_INSIDE, number))
    return Prepared(tuple(pieces), frozenset(whole), index, frozenset(index), frozenset(parts))


_WHOLE, _PART, _INSIDE = "whole", "part", "inside"


def without(text, keys):
    """The Prepared text without some of its keys: what they stand for is then not looked for."""
    index = {key: found for key, found in text.index.items() if key not in keys}
    return replace(text, index=index, keys=frozenset(index), parts=text.parts - keys)


def _lines(text):
    """All folded words of a text in order, the spans of its lines and of the whole, and each word as typed."""
    words, spans, typed = [], set(), []
    for line in _LINES.split(text):
        found = folded(line)
        spans.add((len(words), len(words) + len(found)))
        typed += _typed(line, found, len(words))
        words += found
    spans.add((0, len(words)))
    return tuple(words), {span for span in spans if span[0] < span[1]}, typed


def _typed(line, found, start):
    """(place, word as typed) for each folded word; one typed word may stand for several, and is then the same pair."""
    pairs = [(start + place, word) for place, word in enumerate(line.split()) for _ in folded(word)]
    return pairs if len(pairs) == len(found) else list(enumerate(found, start))


def _runs(count, widest, spans):
    """(start, end) of every run of words up to `widest` long, and of every line, each once."""
    short = {(start, end) for start in range(count) for end in range(start + 1, min(count, start + widest) + 1)}
    return sorted(short | spans)


def likeness(text, mark, keys=None):
    """The strongest Likeness of a Prepared text to the Wording of a mark, or None. `keys` are those of the mark."""
    keys = mark_keys(mark) if keys is None else keys
    if text.keys.isdisjoint(keys):
        return None
    found = [one for one in _findings(text, mark, keys) if one]
    return min(found, key=lambda one: (_RANK[one.degree], _ORDER.index(one.kind), len(one.found)), default=None)


_BUT = "is the mark, but for accents, punctuation, joining words, short words for a firm or letters that look the same"
_RANK = {SAME: 0, FIRM: 1, LOOSE: 2}
_ORDER = ("same", "spacing", "plural", "lookalike", "sound", "order", "contains", "ending", "close", "nearly_contains",
          "part", "inside", "shares")


def _findings(text, mark, keys):
    places = {place for key in keys & text.keys for place in text.index[key]}
    for how, number in sorted(places):
        piece = text.pieces[number]
        if how == _PART:
            yield _part(piece, mark)
        elif how == _INSIDE:
            yield _inside(piece, mark)
        elif number in text.whole:
            yield _whole(piece, mark) or _shares(piece, mark)
        else:
            yield _contains(piece, mark)


def compared(text, mark):
    """The Likeness of one text to the words of a mark, both as typed; None when they are not alike."""
    return likeness(prepared(text), wording(mark))


def _whole(text, mark):
    """How a text, as a whole, is like a mark."""
    if text.words == mark.words:
        plainly = text.text.casefold() == mark.text.casefold()
        return _one("same", SAME, text, "is the mark word for word" if plainly else _BUT)
    if text.squashed == mark.squashed:
        return _one("spacing", FIRM, text, "is the mark but for spaces and joining words")
    if text.stems == mark.stems:
        return _one("plural", FIRM, text, "differs from the mark only by a plural, an article or a joining word")
    if hasty(text.words) == hasty(mark.words):
        degree = LOOSE if text.squashed.isalpha() and mark.squashed.isalpha() else FIRM
        return _one("lookalike", degree, text, "looks like the mark at a glance: letters or figures stand in for others")
    if _sounds(text, mark):
        return _one("sound", FIRM, text, "is spelt otherwise but sounds like the mark")
    if len(mark.stems) > 1 and sorted(text.stems) == sorted(mark.stems):
        return _one("order", FIRM, text, "has the words of the mark in another order")
    if mark.roots and text.roots == mark.roots:
        return _one("ending", LOOSE, text, "differs from the mark only in the endings of words")
    if _close(text, mark):
        return _one("close", LOOSE, text, "is spelt much like the mark")
    return None


def _one(kind, degree, text, says):
    return Likeness(kind, degree, text.text, f"\"{text.text}\" {says}")


def _sounds(text, mark):
    ours, theirs = {text.core, text.sound} - {""}, {mark.core, mark.sound} - {""}
    return len(mark.core) > 2 and not ours.isdisjoint(theirs)


def _shares(text, mark):
    """A line that begins with the same telling word as a mark of several words."""
    if len(text.stems) > 1 and len(mark.stems) > 1 and text.stems[0] == mark.stems[0] and telling(mark.stems[0]):
        return _one("shares", LOOSE, text, f"begins with the same word as the mark, \"{mark.stems[0]}\", which is no everyday word")
    return None


def allowed(length):
    """The distance up to which spellings of this many letters are close."""
    if length < 5:
        return 0.0
    return 0.5 if length < 6 else 1.0 if length < 10 else 1.5


def _close(text, mark):
    if bool(UNSPACED.search(text.squashed)) != bool(UNSPACED.search(mark.squashed)):
        return False
    pairs = {(text.squashed, mark.squashed), (text.core, mark.core), (text.sound or text.core, mark.sound or mark.core)}
    return any(_near(one, other) for one, other in pairs if one and other)


def _near(one, other):
    limit = allowed(min(len(one), len(other)))
    if limit and one[0] != other[0]:  # a first letter is seldom misread, and most short words differ by it
        limit -= 1.0
    return limit > 0 and distance(one, other, limit) < WIDE


def _contains(piece, mark):
    """How a run of words inside a longer text is like a mark."""
    short = len(mark.squashed) < 3 and not UNSPACED.search(mark.squashed)
    found = None if short else _whole(piece, mark)
    if not found or (found.kind == "sound" and len(mark.core) < 5):
        return None
    says = "holds " + found.says.replace("\" ", "\", which ", 1) if found.kind != "same" else f"holds \"{piece.text}\", the mark itself"
    if found.kind in ("same", "spacing", "plural") or (found.kind == "lookalike" and found.degree == FIRM):
        firm = len(mark.stems) > 1 or len(mark.squashed) > 4 or UNSPACED.search(mark.squashed)
        return Likeness("contains", FIRM if firm else LOOSE, piece.text, says)
    return Likeness("nearly_contains", LOOSE, piece.text, says)


def _inside(piece, mark):
    """The mark as part of a longer word, such as a compound; in scripts without spaces, anywhere in a run."""
    if mark.squashed not in piece.squashed or mark.squashed == piece.squashed:
        return None
    if UNSPACED.search(mark.squashed):
        return Likeness("contains", FIRM, mark.text, f"holds \"{mark.text}\", the mark itself")
    if len(mark.squashed) < LONG or (len(mark.squashed) == LONG and not piece.squashed.startswith(mark.squashed)):
        return None
    return Likeness("inside", LOOSE, piece.text, f"holds \"{piece.text}\", a longer word with the letters of the mark in it")


def _part(text, mark):
    """A text that is a whole part of a longer mark."""
    if UNSPACED.search(text.squashed):
        inside = 1 < len(text.squashed) < len(mark.squashed) and text.squashed in mark.squashed
        return _one("part", LOOSE, text, "is part of the mark") if inside else None
    size = len(text.stems)
    if len(text.squashed) < 4 or size >= len(mark.stems):
        return None
    for start in range(len(mark.stems) - size + 1):
        if mark.stems[start:start + size] == text.stems:
            return _one("part", LOOSE, text, "is part of the mark")
    return None
