"""Keys by which a large table of marks is narrowed to the few that a text may be like.

A mark and a text that `likeness` finds alike share a key; sharing one proves nothing. A key is eight hexadecimal
digits. The same code must make both sides: VERSION changes with every change of what a key is.
"""

from zlib import crc32

from registry.clearance.ordinary import telling
from registry.clearance.spelling import VOWELS
from registry.clearance.wording import UNSPACED, hasty

VERSION = 2
LONG = 5  # letters from which a mark is looked for inside longer words
_CLASSES = str.maketrans({"g": "k", "q": "k", "c": "k", "z": "s", "p": "b", "t": "d", "n": "m", "w": "f", "v": "f"})


def mark_keys(mark):
    """The set of keys under which a mark with this Wording is filed."""
    if not mark.squashed:
        return set()
    found = whole_keys(mark, True)
    found.update(_key("m", part) for part in _parts(mark))
    if len(mark.squashed) >= LONG or UNSPACED.search(mark.squashed):
        found.add(_key("i", mark.squashed))
    return found


def whole_keys(piece, spelling=True):
    """Keys that a Wording shares with a mark that it is, or is close to, as a whole; without `spelling`, fewer."""
    forms = {form for form in (piece.core, piece.sound) if form}
    found = {_key("w", form) for form in forms | {piece.squashed, hasty(piece.words)}}
    if len(piece.stems) > 1:
        found.add(_key("o", " ".join(sorted(piece.stems))))
    if piece.roots:
        found.add(_key("r", " ".join(piece.roots)))
    if len(piece.stems) > 1 and telling(piece.stems[0]):
        found.add(_key("1", piece.stems[0]))
    if spelling:
        found.update(_key("d", one) for one in _shorter(piece.squashed) if 5 < len(piece.squashed) <= 20)
        for form in forms:
            found.update(_spelling(form))
    return found


def part_key(piece):
    """The key of a text that may be one part of a longer mark."""
    return _key("m", piece.squashed if UNSPACED.search(piece.squashed) else " ".join(piece.stems))


def inside_keys(word):
    """Keys of all that stands inside one long word, or inside a text written without spaces."""
    unspaced = UNSPACED.search(word)
    least = 2 if unspaced else LONG
    if len(word) > 40 or len(word) < least:
        return set()
    return {_key("i", word[start:end]) for start in range(len(word)) for end in range(start + least, len(word) + 1)}


def _parts(mark):
    letters = mark.squashed
    if UNSPACED.search(letters):
        size = min(len(letters), 12)
        return {letters[start:end] for start in range(size) for end in range(start + 2, size + 1)}
    stems = mark.stems[:8]
    return {" ".join(stems[start:end]) for start in range(len(stems)) for end in range(start + 1, len(stems) + 1)}


def _spelling(form):
    """Keys that two forms share when their distance is within what `likeness` allows for their length."""
    size = len(form)
    if not form.isascii():
        return {_key("d", one) for one in _shorter(form)} if size > 5 else set()
    if size < 5:
        return set()
    bones = _bones(form)
    found = {_key("k", bones if size >= 10 else f"{form[0]}{bones}{sum(letter in VOWELS for letter in form)}")}
    if 5 < size <= 20:
        found.update(_key("d", one) for one in _shorter(form))
    if size >= 10 and len(bones) >= 5:
        found.update(_key("h", one) for one in _shorter(bones))
    return found


def _bones(form):
    """The consonants of a form, those of kindred sound made one, each run of one letter made single."""
    found = []
    for letter in form.translate(_CLASSES).rstrip("es"):
        if letter not in VOWELS and letter != "h" and found[-1:] != [letter]:
            found.append(letter)
    return "".join(found)


def _shorter(form):
    """The form, and the form with any one letter left out."""
    return {form, *(form[:at] + form[at + 1:] for at in range(len(form)))}


def _key(family, form):
    return f"{crc32((family + form).encode('utf-8', 'replace')):08x}"
