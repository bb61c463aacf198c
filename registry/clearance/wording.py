"""Wording made comparable: one text in the forms in which it may be the same as, or close to, another.

Nothing here knows what a mark is; `likeness` compares the forms.
"""

import re
import unicodedata
from dataclasses import dataclass

from registry.clearance.letters import (
    ALIKE, APOSTROPHES, ARTICLES, CONJUNCTIONS, DROPPED, ENDINGS, FIRMS, HEARD, KANA, NUMBERS, PAIRS, POINTS, SOUNDS,
    SPELT, STAND_INS, UNEVEN,
)

_NAND = re.compile(rf"(?<=\w)?\s*[{APOSTROPHES}]n[{APOSTROPHES}]?\s+|(?<=\w)[{APOSTROPHES}]n[{APOSTROPHES}](?=\w)", re.IGNORECASE)
_ELISION = re.compile(rf"(?<!\w)([ldjmnstc]|qu)[{APOSTROPHES}](?=\w)", re.IGNORECASE)
_INITIALS = re.compile(r"(?<!\w)([^\W\d_])\.(?=[^\W\d_](?:\.|\b))")
_QUOTES = dict.fromkeys(map(ord, APOSTROPHES))
_ASCII_GAPS = re.compile(r"[^a-z0-9&$]+")
_DOUBLE = re.compile(r"(.)\1+")
_SILENT = re.compile(r"(?<=[bcdfgklmnprt])h")
UNSPACED = re.compile("[\u0e00-\u0eff\u1000-\u109f\u1780-\u17ff\u3040-\u30ff\u3400-\u4dbf\u4e00-\u9fff\uf900-\ufaff]")


@dataclass(frozen=True, slots=True)
class Wording:
    """One wording in its forms; `words` are the words as they look in capitals without accents, "&" for and.

    `squashed`: without gaps. `stems`: without article, joining word and plural. `core`: stems as heard, without
    gaps; `sound`: the same of what another script spells, or "". `roots`: stems without endings of case, or ().
    """

    text: str
    words: tuple
    squashed: str
    stems: tuple
    core: str
    sound: str
    roots: tuple


def wording(text):
    """The Wording of a text; all forms are empty when it holds no letter, figure or sign."""
    return of_words(text, folded(text))


def of_words(text, plain):
    """The Wording of folded words, such as a run of words cut out of a longer text."""
    plain = joined(_written_out(plain))
    words = tuple(word.translate(ALIKE) if not word.isascii() else word for word in plain)
    kept = stems_of(words)
    core = "".join(heard(one) for one in kept)
    sound = "" if all(word.isascii() for word in plain) else "".join(heard(one) for one in stems_of(tuple(map(spoken, plain))))
    squashed = "".join(word for word in words if word != "&")
    return Wording(text, words, squashed, kept, core, "" if sound == core else sound, _roots(plain))


def folded(text):
    """The words of a text in lower case, without accents, signs of trade and punctuation; joining words as they are."""
    text = text.translate(DROPPED)
    if any(mark in text for mark in APOSTROPHES):
        text = _ELISION.sub(r"\1 ", _NAND.sub(" & ", text)).translate(_QUOTES)
    text = unicodedata.normalize("NFKC", text).casefold()
    if "." in text:
        text = _INITIALS.sub(r"\1", text)
    text = text.replace("&", " & ").replace("+", " & ")
    if text.isascii():
        return tuple(_ASCII_GAPS.sub(" ", text).split())
    text = unicodedata.normalize("NFC", unicodedata.normalize("NFD", text).translate(POINTS)).translate(SPELT)
    return tuple("".join(letter if _stays(letter) else " " for letter in text).split())


def _stays(letter):
    """True for letters, figures, vowel signs, and pictures used as a word (a heart, a star)."""
    return letter.isalnum() or letter in "&$" or unicodedata.category(letter) in ("Mn", "Mc", "So", "Sc")


def _written_out(words):
    """The words with what is short for a kind of firm written out where it ends a name: heron & co as heron & company."""
    end = len(words)
    while end > 1 and words[end - 1] in _OF_FIRMS:
        end -= 1
    return (*words[:end], *(FIRMS.get(word, word) for word in words[end:])) if end < len(words) else words


_OF_FIRMS = frozenset((*FIRMS, *FIRMS.values(), "&", "and"))


def joined(words):
    """The words with "&" for a joining word that stands between two others."""
    if len(words) < 3:
        return words
    middle = tuple("&" if word in CONJUNCTIONS else word for word in words[1:-1])
    return (words[0], *middle, words[-1])


def stems_of(words):
    """The words without joining words and without an article at the head, each without its plural."""
    kept = [word for word in words if word != "&"]
    if len(kept) > 1 and kept[0] in ARTICLES:
        kept = kept[1:]
    return tuple(map(stem, kept))


def stem(word):
    """A word without the ending of a plural (English, and the French -x); others are left to close spelling."""
    if len(word) < 4 or not word.isascii():
        return NUMBERS.get(word, word)
    if word in UNEVEN:
        return UNEVEN[word]
    if word.endswith("ies"):
        return word[:-3] + "y"
    if word.endswith(("ves", "fe", "ve")):
        return word[: -3 if word.endswith("ves") else -2] + "f"
    if word.endswith(("sses", "xes", "ches", "shes", "zes")):
        return word[:-2]
    if word.endswith("s") and word[-2] not in "sui":
        return word[:-1]
    return word[:-1] if word.endswith(("aux", "eux", "oux")) else word


def _roots(plain):
    """The words without endings of plural and case; () when what is left would tell too little."""
    kept = [word for word in plain if word != "&"]
    if len(kept) > 1 and kept[0] in ARTICLES:
        kept = kept[1:]
    found = tuple(map(_root, kept))
    return found if sum(map(len, found)) >= (8 if len(found) > 1 else 6) else ()


def _root(word):
    if len(word) < 5:
        return word
    script = _script(word)
    for ending in ENDINGS.get(script, ()):
        if word.endswith(ending) and len(word) - len(ending) >= 4:
            return word[: -len(ending)]
    return word


def _script(word):
    if word.isascii():
        return "latin"
    if "\u0400" <= word[0] <= "\u04ff":
        return "cyrillic"
    return "greek" if "\u0370" <= word[0] <= "\u03ff" else None


def hasty(words):
    """Words as read hastily and without gaps; two texts with the same hasty form may be taken for one another."""
    return "".join(_paired(word.translate(STAND_INS)) if any(map(str.isalpha, word)) else word for word in words if word != "&")


def _paired(word):
    for pair, letter in PAIRS:
        word = word.replace(pair, letter)
    return word


def heard(word):
    """A word as heard: spellings that sound alike made one; figures inside a word taken for letters."""
    word = word.translate(KANA)
    if not word.isalpha() and any(map(str.isalpha, word)):
        word = word.translate(_FIGURES)
    if not word.isascii():
        return word
    for spelling, sound in HEARD:
        if spelling in word:
            word = word.replace(spelling, sound)
    word = _SILENT.sub("", _DOUBLE.sub(r"\1", word))
    return word[:-1] if len(word) > 3 and word.endswith("e") else word


_FIGURES = {code: letter for code, letter in STAND_INS.items() if not chr(code).isalpha()}


def spoken(word):
    """A Cyrillic or Greek word in Latin letters, as it sounds; any other word unchanged."""
    return word if word.isascii() else word.translate(SOUNDS)
