"""Goods: which Nice classes a product falls in, read from the words that describe it and the table of products."""

import csv
import re
from dataclasses import dataclass

from registry.clearance.wording import folded, stem
from registry.errors import BadLaw

HOW = ("read", "memory")
SHOP = (35, 40)  # retail and work done to order: looked at beside the class of any product
_GIVEN = re.compile(r"\b(?:nice|class|classes|cl)\.?\s*((?:\d{1,2}\b[\s,;&]*(?:and\s+)?)+)", re.IGNORECASE)
_HEAD = re.compile(r"\b(?:for|of|with|from|in|showing|featuring)\b|\(", re.IGNORECASE)
_BUNDLE = re.compile(r"^\s*(?:an?\s+|\d+\s+)?(?:set|pair|pack|packet|range|series|bundle|lot)s?\s+of\s+(?:\w+\s+(?=\d))?", re.IGNORECASE)
_APART = re.compile(r",|;|/|\+|&|\band\b|\bor\b", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Product:
    """One row of the table: a product, of a material or of any, its classes, the classes to look at beside them."""

    name: str
    words: tuple
    material: str
    classes: frozenset
    also: frozenset
    how: str
    source: str


@dataclass(frozen=True, slots=True)
class Products:
    """The table of products, its rows by their words of which the longest name has `longest`, the words that tell a
    material; `headings` by class."""

    rows: tuple
    materials: dict
    headings: dict
    named: dict
    longest: int


@dataclass(frozen=True, slots=True)
class Goods:
    """What is made, as classes. `settled` is False when the material that decides the class is not told.

    `known` is False when nothing in the table fits; `also` are neighbouring classes; `says` is one sentence.
    """

    classes: frozenset
    also: frozenset
    settled: bool
    known: bool
    says: str
    how: str


def read_products(products, materials, nice):
    """The Products in three CSV texts; BadLaw names the row and what is wrong with it."""
    headings = {int(row["class"]): row["heading"] for row in csv.DictReader(nice.splitlines())}
    words = {}
    for row in csv.DictReader(materials.splitlines()):
        for word in row["words"].split():
            words[stem(folded(word)[0])] = row["material"]
    rows = tuple(_row(row, number, headings, set(words.values())) for number, row in enumerate(csv.DictReader(products.splitlines()), 2))
    named = {}
    for row in rows:
        named.setdefault(row.words, []).append(row)
    return Products(rows, words, headings, named, max(map(len, named), default=0))


def _row(row, number, headings, materials):
    at = f"products.csv, line {number}"
    if row["how"] not in HOW:
        raise BadLaw(f"{at}: how is '{row['how']}'; allowed are {', '.join(HOW)}.")
    if row["material"] and row["material"] not in materials:
        raise BadLaw(f"{at}: '{row['material']}' is no material; allowed are {', '.join(sorted(materials))}.")
    classes, also = (frozenset(map(int, row[name].split())) for name in ("classes", "also"))
    for one in classes | also:
        if one not in headings:
            raise BadLaw(f"{at}: {one} is no Nice class; allowed are 1 to 45.")
    if not classes or not row["product"]:
        raise BadLaw(f"{at}: a product and its class are needed.")
    return Product(row["product"], _words(row["product"]), row["material"], classes, also, row["how"], row["source"])


def _words(text):
    return tuple(map(stem, folded(text)))


def goods(text, products):
    """The Goods that a description tells of, such as "carved wooden sign (Nice 20)"."""
    given = {int(number) for found in _GIVEN.findall(text) for number in re.findall(r"\d+", found)} & products.headings.keys()
    named = _named(text, products)
    if given:
        beside = [row.also | row.classes for row in named] or [_beside(one, products) for one in given]
        also = frozenset().union(*beside, SHOP) - given
        return Goods(frozenset(given), also, True, True, f"{_listed(given)}, as said in the description.", "given")
    if not named:
        unknown = "What is made is not in the table of products, so its Nice class is not known."
        return Goods(frozenset(), frozenset(), False, False, unknown, "memory")
    classes = frozenset().union(*(row.classes for row in named))
    also = frozenset().union(*(row.also for row in named), SHOP) - classes
    settled = not _open(named, text, products)
    how = "memory" if any(row.how == "memory" for row in named) else "read"
    return Goods(classes, also, settled, True, _says(named, classes, settled), how)


def _named(text, products):
    """The rows that fit a description: its head before the rows for the whole, the longest names, the material told."""
    head = _HEAD.split(_BUNDLE.sub("", text), 1)[0]
    found = []
    for part in _APART.split(head):
        found += _fitting(part, text, products)
    return tuple(dict.fromkeys(found)) or tuple(_fitting(text, text, products))


def _fitting(part, text, products):
    words, named = _words(part), products.named
    spans = ((start, end) for end in range(len(words), 0, -1) for start in range(max(0, end - products.longest), end))
    # The longest name first, from the end: in English the thing itself stands last.
    rows = next((named[words[start:end]] for start, end in spans if words[start:end] in named), None)
    if rows is None:
        return []
    told = _materials(part, products) or _materials(text, products)
    return [row for row in rows if row.material in told] or [row for row in rows if not row.material] or rows


def _materials(text, products):
    return {products.materials[word] for word in _words(text) if word in products.materials}


def _open(rows, text, products):
    """True when one product stands in several classes by its material and none is told."""
    told = _materials(text, products)
    names = {row.name for row in rows if row.material and row.material not in told}
    return any(len({row.classes for row in rows if row.name == name}) > 1 for name in names)


def _beside(one, products):
    return frozenset().union(*(row.also for row in products.rows if one in row.classes and len(row.classes) == 1))


def _listed(classes):
    many = sorted(classes)
    return f"Nice class{'es' if len(many) > 1 else ''} {', '.join(map(str, many))}"


def _says(rows, classes, settled):
    name = ", ".join(dict.fromkeys(row.name for row in rows))
    if not settled:
        return f"A {name} is in {_listed(classes)} by its material, which the description does not tell; all are looked at."
    kinds = ", ".join(dict.fromkeys(f"{row.name}{f' of {row.material}' if row.material else ''}" for row in rows))
    return f"{_listed(classes)}: {kinds}."
