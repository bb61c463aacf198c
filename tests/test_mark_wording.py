"""Folding of wording, keys, spelling distance: each variant a text may take, and what must stay apart."""

import random

import pytest

from registry.clearance.likeness import LOOSE, SAME, compared, likeness, prepared
from registry.clearance.mark_keys import mark_keys
from registry.clearance.spelling import WIDE, distance
from registry.clearance.wording import folded, stem, wording


@pytest.mark.parametrize("typed, words", [
    ("HARE & LANTERN", ("hare", "&", "lantern")),
    ("Hare+Lantern", ("hare", "&", "lantern")),
    ("HARE 'N' LANTERN", ("hare", "&", "lantern")),
    ("Brindlewick™, est.", ("brindlewick", "est")),
    ("ST. ORRIN'S", ("st", "orrins")),
    ("O.K.L. Oakum", ("okl", "oakum")),
    ("L’Étoile", ("l", "etoile")),
    ("GROẞE MÜHLE", ("grosse", "muhle")),
    ("Łódka", ("lodka",)),
    ("Ёлка и йод", ("елка", "и", "иод")),
    ("ΛΟΞΌΣ", ("λοξοσ",)),
    ("ｶﾀﾑｷ帆", ("カタムキ帆",)),
    ("がき", ("がき",)),  # the two strokes are part of the letter
    ("टेढ़ा", ("टेढ़ा",)),  # the vowel signs too
    ("מִגְדָּל", ("מגדל",)),
    ("مَنَارَة", ("منارة",)),
    ("V\u200banthorne\u00ad", ("vanthorne",)),
    ("I ♥ Orrin", ("i", "♥", "orrin")),
    (" ...!? ", ()),
    ("", ()),
])
def test_folding(typed, words):
    assert folded(typed) == tuple(word if word.isascii() else folded(word)[0] for word in words)


def test_vowel_signs_and_strokes_are_kept():
    assert compared("かき", "がき") is None or compared("かき", "がき").degree != SAME
    assert folded("कि") != folded("की")


@pytest.mark.parametrize("word, plain", [
    ("oars", "oar"), ("pantries", "pantry"), ("leaves", "leaf"), ("leaf", "leaf"), ("knife", "knif"), ("knives", "knif"), ("glasses", "glass"),
    ("glass", "glass"), ("foxes", "fox"), ("geese", "goose"), ("oiseaux", "oiseau"), ("bus", "bus"), ("iris", "iris"), ("4", "four"), ("1921", "1921"),
])
def test_plurals(word, plain):
    assert stem(word) == plain


@pytest.mark.parametrize("first, second, apart", [
    ("kedge", "kedge", 0.0), ("skeldrake", "skelldrake", 0.5), ("ostrel", "ostral", 0.5), ("kanto", "ganto", 0.5), ("abcd", "abdc", 0.5),
    ("fox", "box", 1.0), ("oar", "oark", 1.0), ("tern", "turnip", WIDE),
])
def test_distance(first, second, apart):
    assert distance(first, second, 2.0) == distance(second, first, 2.0) == apart


@pytest.mark.parametrize("text, mark, kind", [
    ("HARE AND LANTERN", "HARE & LANTERN", "same"),
    ("Est. 1821 | Hare & Lantern | Fine ales", "HARE & LANTERN", "same"),
    ("HARE\n& LANTERN", "HARE & LANTERN", "same"),
    ("HARELANTERN", "HARE & LANTERN", "spacing"),
    ("HARES LANTERNS", "HARE & LANTERN", "plural"),
    ("LANTERN & HARE", "HARE & LANTERN", "order"),
    ("V4NTH0RNE", "VANTHORNE", "lookalike"),
    ("FANTOM FERRI", "PHANTOM FERRY", "sound"),
    ("ПАРУСИНКА", "PARUSINKA", "sound"),
    ("КРИВЫЕ ЯКОРЯ", "КРИВОЙ ЯКОРЬ", "ending"),
    ("VANTOHRNE", "VANTHORNE", "close"),
    ("Ales at the Hare and Lantern since 1880", "HARE & LANTERN", "contains"),
    ("Ales at the Hair and Lanterne since 1880", "HARE & LANTERN", "nearly_contains"),
    ("HARE", "HARE & LANTERN", "part"),
    ("VANTHORNEHOUSE", "VANTHORNE", "inside"),
    ("VANTHORNE TEAS", "VANTHORNE MILLS", "shares"),
    ("喫茶斜め灯籠", "斜め灯籠", "contains"),
])
def test_kinds_of_likeness(text, mark, kind):
    assert compared(text, mark).kind == kind


@pytest.mark.parametrize("text, mark", [
    ("", "KEDGE"), ("KEDGE", ""), ("BOARD", "OAR"), ("A KEDGE", "A"), ("FOX INN", "BOX INN"), ("SHIP", "SHOP"), ("1921", "1912"), ("OLD FORGE", "OLD PILOT"),
    ("...", "KEDGE"), ("斜", "斜月堂"),
])
def test_no_likeness(text, mark):
    assert compared(text, mark) is None


@pytest.mark.parametrize("latin, other", [("KEDGE", "КЕDGЕ"), ("VANTHORNE", "VΑΝTHORNE"), ("OAR", "ОАR")])
def test_letters_of_another_script_that_look_the_same_are_the_same(latin, other):
    found = compared(other, latin)
    assert found.degree == SAME and "look the same" in found.says


def test_a_long_text_is_searched_whole():
    text = " ".join(["carved oak board with gulls painted by hand"] * 60 + ["from the Slanted Rudder"] + ["sent by post in a box"] * 60)
    assert compared(text, "SLANTED RUDDER").kind == "contains"


def test_the_words_are_shown_as_typed():
    assert compared("Gaffer  Plümb’s yard", "GAFFER PLUMB").found == "Gaffer Plümb’s"


def slipped(word, chance):
    """A word with one letter left out, doubled, put in or swapped with the next; the first letter stays."""
    at = chance.randrange(1, len(word) - 1)
    return chance.choice((word[:at] + word[at + 1:], word[:at] + word[at] + word[at:], word[:at] + "z" + word[at:],
                          word[:at] + word[at + 1] + word[at] + word[at + 2:]))


def test_one_slip_in_a_long_word_is_found_by_its_keys():
    chance = random.Random(5)
    letters, missed = "abcdefghiklmnoprstuvw", 0
    for _ in range(400):
        word = "".join(chance.choice(letters) for _ in range(chance.randrange(8, 14)))
        missed += likeness(prepared(slipped(word, chance)), wording(word)) is None
    assert missed == 0


def test_what_is_alike_shares_a_key():
    assert prepared("VANTOHRNE").keys & mark_keys(wording("VANTHORNE"))
    assert compared("VANTOHRNE", "VANTHORNE").degree == LOOSE


@pytest.mark.parametrize("text, mark, kind", [
    ("Heron & Company", "HERON & CO", "same"), ("Heron and Co.", "HERON & COMPANY", "same"), ("Heron Company", "HERON & CO", "spacing"),
    ("Heron Ltd.", "HERON LIMITED", "same"), ("Heron Brothers", "HERON BROS", "same"), ("Heron Inc", "HERON INCORPORATED", "same"),
    ("Heron Corporation", "HERON CORP.", "same"), ("Heron Bros. & Co. Ltd", "HERON BROTHERS AND COMPANY LIMITED", "same"),
    ("the Heron Company of Orlop", "HERON & CO", "contains"), ("Heron Co-operative", "HERON COOPERATIVE", "spacing")])
def test_short_words_for_a_firm_are_the_long_ones(text, mark, kind):
    found = compared(text, mark)
    assert found is not None and found.kind == kind


def test_a_short_word_for_a_firm_alone_is_not_written_out():
    assert wording("Co").words == ("co",) and compared("Company", "CO") is None
