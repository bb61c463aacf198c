"""The rules as shipped: vocabulary, laws, groups of places. Reads metadata/ once per process."""

import csv
import tomllib
from dataclasses import dataclass, field
from functools import lru_cache

from registry import data
from registry.errors import RegistryError
from registry.facts.vocabulary import read_vocabulary
from registry.law.load import make_laws


@dataclass(frozen=True, slots=True)
class Rulebook:
    """Vocabulary, laws (loaded when asked for) and groups of markets (name to list of codes)."""

    vocabulary: object
    laws: object
    groups: dict = field(default_factory=dict)


@lru_cache(maxsize=1)
def rulebook():
    """The Rulebook of this installation; BadLaw when a data file is wrong."""
    return build(data.read_text)


def build(read):
    """A Rulebook from a function like data.read_text; BadLaw when a data file is wrong."""
    vocabulary = read_vocabulary(read("facts.toml"), _codes(read("places.csv")))
    groups = {name: g["members"] for name, g in tomllib.loads(read("markets.toml"))["group"].items()}
    tables = tomllib.loads(read("treaties.toml"))

    def terms(name):
        try:
            return read("terms", f"{name}.toml")
        except FileNotFoundError:
            return None

    territories = tomllib.loads(terms("_territories") or "").get("place", {})
    laws = make_laws(vocabulary, terms, {**groups, **_derived(tables)}, tables, territories, read("program.toml"))
    return Rulebook(vocabulary, laws, groups)


def _derived(tables):
    """Groups that follow from a table: all in it, those from its first day on, those since November 1998."""
    found = {}
    for name, days in tables.items():
        first = min(days.values())
        found[name] = sorted(days)
        found[f"{name}-first"] = sorted(c for c, d in days.items() if d == first)
        found[f"{name}-after-1998"] = sorted(c for c, d in days.items() if d.year > 1998 or (d.year, d.month) > (1998, 10))
    return found


def places(names, book=None, own=None):
    """Codes for a list such as ["US", "EU"]: groups opened, order kept, each once; RegistryError else.

    `own` are the shop's own groups, name to list of codes.
    """
    book = book or rulebook()
    groups = {**book.groups, **(own or {})}
    found = []
    for name in names:
        plain = name.strip()
        if plain.lower() == "all":
            found += covered(book)
        elif plain.isascii() and plain.upper() in groups:  # the capital of ß is SS, a code
            found += groups[plain.upper()]
        elif plain.isascii() and plain.upper() in place_names():
            found.append(plain.upper())
        else:
            raise RegistryError(f"'{name}' is not a place; allowed are two-letter codes of ISO 3166-1 such as US, the groups {', '.join(sorted(groups))}, and all.")
    return list(dict.fromkeys(found))


@lru_cache(maxsize=1)
def place_names():
    """Plain English names of the countries and territories of ISO 3166-1, by code."""
    return _codes(data.read_text("places.csv"))


@lru_cache(maxsize=1)
def place_words():
    """Codes by the names of places and by other words for them and their people, all in small letters: britain, french."""
    lines = data.read_text("place_words.csv").splitlines()[1:]
    words = dict(line.rsplit(",", 1) for line in lines if line)
    return words | {name.casefold(): code for code, name in place_names().items()}


@lru_cache(maxsize=1)
def place_phrases():
    """The same names as they stand within a sentence, by code: "the United States", "France"."""
    return {row["code"]: f"{row['article']} {row['name']}".strip() for row in csv.DictReader(data.read_text("places.csv").splitlines())}


def _codes(text):
    return {row[0]: row[1] for row in list(csv.reader(text.splitlines()))[1:] if row}


def covered(book=None):
    """Codes of every place that has rules on file, its own or those of the state whose law applies."""
    laws = (book or rulebook()).laws
    own = [n.removesuffix(".toml").upper() for n in data.names("terms") if not n.startswith("_")]
    return sorted({*own, *(code for code, place in laws.territories.items() if place.get("law"))})
