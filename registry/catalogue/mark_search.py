"""Which of the kept marks a product or a wording comes near: the index narrows them down, clearance judges.

Nothing found is never a clearance: `told` gives the sentence that stands beside every answer, with the searches on record.
"""

from dataclasses import dataclass, replace

from registry.catalogue import mark_index, marks, settings
from registry.catalogue.mark_rules import mark_rules, products
from registry.clearance.goods import Goods, goods
from registry.clearance.likeness import prepared, without
from registry.clearance.marks import NOTHING, Text, judged, nearest, ranked
from registry.errors import RegistryError

COMMON = 300  # marks that hold a word as one of several; beyond that the word by itself tells nothing
LISTED = 50   # marks shown for one place; the strongest first


@dataclass(frozen=True, slots=True)
class Searched:
    """What a search of the kept marks found in one place: Founds, how many there are in all."""

    place: str
    found: tuple
    count: int


def near(catalogue, texts, works=()):
    """(Texts, Marks): the kept marks that may be like some Texts or are linked to these works.

    A text that is one of several words of more than COMMON marks is not compared with parts of marks any more.
    """
    kept = marks.count(catalogue, COMMON + 1)
    if not kept:
        return texts, []
    parts = frozenset().union(*(text.prepared.parts for text in texts)) if texts and kept > COMMON else frozenset()
    common = frozenset(key for key in parts if mark_index.counted(catalogue, key, COMMON + 1) > COMMON)
    if common:
        texts = tuple(replace(text, prepared=without(text.prepared, common)) for text in texts)
    keys = frozenset().union(*(text.prepared.keys for text in texts)) if texts else frozenset()
    numbers = {*mark_index.candidates(catalogue, keys), *(mark_index.linked(catalogue, works) if works else ())}
    return texts, marks.some(catalogue, sorted(numbers))


def search(catalogue, words, places, day, product="", classes=()):
    """A Searched for each place: the kept marks that a wording comes near, for a product or for Nice classes."""
    if not words.strip():
        raise RegistryError("Say what to search for: the words as they would stand on the product.")
    made = _goods(product, classes)
    texts, candidates = near(catalogue, (Text("wording", prepared(words)),))
    alike = [(mark, like) for mark in candidates if (like := nearest(texts, mark))]
    found = []
    for place in places:
        here = ranked(one for mark, like in alike if (one := judged(like, mark, place, made, day, mark_rules())))
        found.append(Searched(place, here[:LISTED], len(here)))
    return found


def _goods(product, classes):
    if classes:
        wanted = frozenset(classes)
        return replace(goods(f"class {', '.join(map(str, sorted(wanted)))}", products()), classes=wanted)
    return goods(product, products()) if product.strip() else _EVERYTHING


_EVERYTHING = Goods(frozenset(), frozenset(), False, False, "No product was named, so classes are not compared.", "memory")


def told(catalogue, places, words=()):
    """Sentences for an answer about marks: what was compared, that it is no clearance, which searches are on record."""
    count = marks.count(catalogue)
    lines = [f"{count} mark{'' if count == 1 else 's'} on record {'was' if count == 1 else 'were'} compared. {NOTHING}"]
    for one in marks.searches(catalogue, settings.opened(catalogue, places) if places else (), words)[:5]:
        classes = f", class {', '.join(map(str, one.classes))}" if one.classes else ""
        lines.append(f"On {one.at} {one.by} searched {one.place} for '{one.words}'{classes}: {one.result}.")
    return lines
