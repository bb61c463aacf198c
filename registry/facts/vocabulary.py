"""The vocabulary of facts: names, types, questions. Read from text, never from a file here."""

import tomllib
from dataclasses import dataclass, field

from registry.errors import BadLaw

TYPES = ("text", "choice", "bool", "edtf", "year", "country", "countries", "list")
OWNERS = ("work", "creator", "publication")
KEYS = {"name", "label", "type", "of", "question", "where", "choices", "absent", "unknown_when",
        "used_by", "frees", "shown", "several", "settled_by"}


@dataclass(frozen=True, slots=True)
class Fact:
    """One named fact: what it means, how it is asked, what is taken when nothing is recorded; `label` is its name for people."""

    name: str
    type: str
    of: str
    question: str
    where: str
    choices: tuple = ()
    absent: str = "unknown"
    unknown_when: dict | None = None
    used_by: tuple = ()
    frees: bool = False
    shown: str = ""
    several: str = "any"
    settled_by: str = ""
    label: str = ""
    places: frozenset = frozenset()  # for countries: the codes allowed, or none to allow any two capitals


@dataclass(frozen=True, slots=True)
class Vocabulary:
    """All facts by name, and the names allowed on a work, a creator and a publication."""

    facts: dict
    of: dict = field(default_factory=dict)

    def fact(self, name):
        """The fact of that name or shown name; KeyError when there is none."""
        return self.facts[name]


def read_vocabulary(text, places=()):
    """The vocabulary in a TOML text; BadLaw with the entry when a key or type is not allowed.

    `places` are the country codes that facts may hold; without them any two capitals are allowed.
    """
    facts = {}
    for entry in tomllib.loads(text).get("fact", ()):
        facts[entry.get("name", "?")] = _fact(entry, frozenset(places))
    of = {owner: {f.name: f for f in facts.values() if f.of == owner} for owner in OWNERS}
    for fact in list(facts.values()):
        if fact.shown:
            facts[fact.shown] = fact
    return Vocabulary(facts, of)


def _fact(entry, places):
    name = entry.get("name", "?")
    for key in entry:
        if key not in KEYS:
            raise BadLaw(f"facts.toml, fact {name}: unknown key '{key}'; allowed are {', '.join(sorted(KEYS))}.")
    for key, allowed in (("type", TYPES), ("of", OWNERS)):
        if entry.get(key) not in allowed:
            raise BadLaw(f"facts.toml, fact {name}: {key} is '{entry.get(key)}'; allowed are {', '.join(allowed)}.")
    values = {k: tuple(v) if isinstance(v, list) else v for k, v in entry.items()}
    values.setdefault("label", name[:1].upper() + name[1:].replace("_", " "))
    return Fact(**values, places=places if entry["type"] in ("country", "countries") else frozenset())
