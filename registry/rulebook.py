"""The rules as shipped: vocabulary, laws, groups of places. Reads metadata/ once per process."""

import tomllib
from dataclasses import dataclass, field
from functools import lru_cache

from registry import data
from registry.errors import RegistryError
from registry.facts.vocabulary import read_vocabulary
from registry.law.load import make_laws


@dataclass(frozen=True, slots=True)
class Rulebook:
    """Vocabulary, laws (loaded when asked for), groups of markets and the list of places."""

    vocabulary: object
    laws: object
    groups: dict = field(default_factory=dict)


@lru_cache(maxsize=1)
def rulebook():
    """The Rulebook of this installation; BadLaw when a data file is wrong."""
    vocabulary = read_vocabulary(data.read_text("facts.toml"))
    groups = {name: g["members"] for name, g in tomllib.loads(data.read_text("markets.toml"))["group"].items()}
    tables = tomllib.loads(data.read_text("treaties.toml"))
    laws = make_laws(vocabulary, _terms, {**groups, **_derived(tables)}, tables, _territories(), data.read_text("program.toml"))
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


def _terms(name):
    try:
        return data.read_text("terms", f"{name}.toml")
    except FileNotFoundError:
        return None


def _territories():
    text = _terms("_territories")
    return tomllib.loads(text).get("place", {}) if text else {}


def places(names, book=None, own=None):
    """Codes for a list such as ["US", "EU"]: groups opened, order kept, each once; RegistryError else."""
    book = book or rulebook()
    groups = {**book.groups, **(own or {})}
    found = []
    for name in names:
        plain = name.strip()
        if plain.lower() == "all":
            found += covered()
        elif plain.upper() in groups:
            found += groups[plain.upper()]
        elif len(plain) == 2 and plain.isalpha():
            found.append(plain.upper())
        else:
            raise RegistryError(f"'{name}' is not a place; allowed are two-letter codes such as US, the groups {', '.join(sorted(groups))}, and all.")
    return list(dict.fromkeys(found))


def covered():
    """Codes of every place that has rules on file, its own or those of the state whose law applies."""
    own = [n.removesuffix(".toml").upper() for n in data.names("terms") if not n.startswith("_")]
    shared = [code for code, place in _territories().items() if place.get("law")]
    return sorted({*own, *shared})
