"""The data of clearance as read from text: copies, lettering, phrases, notes, licences, words, sentences."""

import tomllib
from dataclasses import dataclass, field

from registry.clearance.model import Caution
from registry.errors import BadLaw
from registry.law.act import Rule

HOW = ("read", "secondary", "memory")
EFFECTS = ("none", "composed", "rare", "law")
TABLES = {"checked", "source", "copy", "flat", "lettering", "wording", "phrase", "note", "purpose", "reading",
          "confirm", "ask", "shortfall", "say"}
LICENCE = {"ids", "name", "grants", "commercial", "changes", "credit", "share_alike", "notice", "says", "how"}


@dataclass(frozen=True, slots=True)
class Local:
    """A rule for some places: its Rule, the codes (none: everywhere), the id of the caution it shows, its effect."""

    rule: Rule
    places: frozenset
    caution: str
    effect: str = ""
    original_free: bool = False
    design_years: int = 0


@dataclass(frozen=True, slots=True)
class Licence:
    """An open licence: what it allows and what it asks for."""

    name: str
    says: str
    how: str
    grants: bool = True
    commercial: bool = False
    changes: bool = False
    credit: bool = False
    share_alike: bool = False
    notice: bool = False


@dataclass(frozen=True, slots=True)
class Rules:
    """Everything in clearance.toml and licences.toml, ready for use."""

    copies: tuple
    lettering: tuple
    phrases: tuple
    notes: dict
    asks: dict
    shortfalls: dict
    licences: dict
    say: dict
    flat: frozenset
    solid: frozenset
    short: int
    purposes: dict
    reading: dict
    confirm: tuple = ()
    raw: dict = field(default_factory=dict)
    actions: dict = field(default_factory=dict)  # of the notes that ask for something before selling

    def note(self, name, **values):
        """The Caution of a note, with its values filled in."""
        found = self.notes[name]
        return Caution(name, found.says.format(**values), found.cite, found.how, action=self.actions.get(name, "also"))

    def says(self, name, **values):
        """A sentence of the data with its values filled in."""
        return self.say[name].format(**values)


def local(rules, code):
    """The first Local that names a place, or is for all; None when there is none."""
    return next((r for r in rules if code in r.places or not r.places), None)


def read_rules(text, licences, groups):
    """The Rules in two TOML texts; BadLaw names the entry and what is wrong. `groups`: name to codes."""
    raw = _parsed(text, "clearance.toml")
    for key in raw:
        if key not in TABLES:
            raise BadLaw(f"clearance.toml: unknown key '{key}'; allowed are {', '.join(sorted(TABLES))}.")
    sources = {s["id"]: s for s in raw.get("source", ())}
    return Rules(
        *(tuple(_local(e, kind, sources, groups) for e in raw.get(kind, ())) for kind in ("copy", "lettering", "phrase")),
        {e["id"]: _rule(e, "note", sources) for e in raw.get("note", ())},
        {e["fact"]: e for e in raw.get("ask", ())}, {e["fact"]: e for e in raw.get("shortfall", ())},
        _licences(licences), raw["say"], frozenset(raw["flat"]["flat"]), frozenset(raw["flat"]["solid"]),
        raw["wording"]["short"], raw["purpose"], raw["reading"], tuple(raw.get("confirm", ())), raw,
        {e["id"]: e["action"] for e in raw.get("note", ()) if "action" in e})


def _parsed(text, name):
    try:
        return tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise BadLaw(f"{name}: not readable as TOML: {error}.") from None


def _local(entry, kind, sources, groups):
    at = f"clearance.toml, {kind} {entry.get('id')}"
    effect = entry.get("effect", "")
    if kind == "lettering" and effect not in EFFECTS:
        raise BadLaw(f"{at}: effect is '{effect}'; allowed are {', '.join(EFFECTS)}.")
    codes = []
    for place in entry.get("places", ()):
        codes += groups.get(place, [place])
    bad = [code for code in codes if not (len(code) == 2 and code.isupper())]
    if bad:
        raise BadLaw(f"{at}: '{bad[0]}' is neither a two-letter code nor a group.")
    return Local(_rule(entry, kind, sources), frozenset(codes), entry.get("caution", ""), effect,
                 entry.get("original_free", False), entry.get("design_years", 0))


def _rule(entry, kind, sources):
    at = f"clearance.toml, {kind} {entry.get('id')}"
    for key in ("id", "says", "cite"):
        if not entry.get(key):
            raise BadLaw(f"{at}: '{key}' is missing.")
    cites, hows = [], []
    for one in entry["cite"]:
        name, _, section = one.partition(" ")
        source = sources.get(name)
        if source is None or source.get("how") not in HOW:
            raise BadLaw(f"{at}: cites '{name}', which is no source with how = {', '.join(HOW)}.")
        cites.append(f"{source['title']}, {section}" if section else source["title"])
        hows.append(source["how"])
    return Rule(entry["id"], entry["says"], "; ".join(cites), entry.get("how", max(hows, key=HOW.index)))


def _licences(text):
    found = {}
    for entry in _parsed(text, "licences.toml").get("licence", ()):
        at = f"licences.toml, licence {entry.get('name')}"
        for key in entry:
            if key not in LICENCE:
                raise BadLaw(f"{at}: unknown key '{key}'; allowed are {', '.join(sorted(LICENCE))}.")
        if entry.get("how") not in HOW:
            raise BadLaw(f"{at}: how is '{entry.get('how')}'; allowed are {', '.join(HOW)}.")
        for ident in entry["ids"]:
            if ident in found:
                raise BadLaw(f"{at}: '{ident}' stands there twice.")
            found[ident] = Licence(**{k: v for k, v in entry.items() if k != "ids"})
    return found
