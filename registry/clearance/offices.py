"""Offices that register marks: which places a registration reaches, and what the state of a mark means."""

import tomllib
from dataclasses import dataclass, field

from registry.errors import BadLaw

STANDINGS = ("live", "pending", "dead", "unknown")
HERE, ECHO, ELSEWHERE, UNKNOWN = "here", "echo", "elsewhere", "unknown"
_OFFICE = {"code", "aliases", "name", "places", "designated", "says", "source", "how", "echo"}
_ECHO = {"place", "registered_before", "says", "source", "how"}


@dataclass(frozen=True, slots=True)
class Office:
    """One office: the codes of the places it reaches; `designated`: only those named in each registration."""

    code: str
    name: str
    places: frozenset
    designated: bool
    says: str
    echoes: tuple = ()


@dataclass(frozen=True, slots=True)
class MarkRules:
    """Offices by code and alias, codes of countries, meanings of states, months of grace, questions by fact."""

    offices: dict
    countries: frozenset
    states: dict
    grace: int
    asks: dict = field(default_factory=dict)


def read_rules(offices, states, groups, countries):
    """The MarkRules in two TOML texts; BadLaw names the entry. `groups`: name to codes; `countries`: all codes."""
    found = {}
    for entry in tomllib.loads(offices)["office"]:
        office = _office(entry, groups, countries)
        for code in (office.code, *entry.get("aliases", ())):
            if code in found:
                raise BadLaw(f"offices.toml: the code {code} stands there twice.")
            found[code] = office
    raw = tomllib.loads(states)
    for entry in raw["state"]:
        if entry["standing"] not in STANDINGS:
            raise BadLaw(f"mark_states.toml, state {entry['word']}: standing is '{entry['standing']}'; allowed are {', '.join(STANDINGS)}.")
    meanings = {entry["word"]: (entry["standing"], entry["says"]) for entry in raw["state"]}
    return MarkRules(found, frozenset(countries), meanings, raw["grace"]["months"], {e["fact"]: e for e in raw["ask"]})


def _office(entry, groups, countries):
    at = f"offices.toml, office {entry.get('code')}"
    for key in entry:
        if key not in _OFFICE:
            raise BadLaw(f"{at}: unknown key '{key}'; allowed are {', '.join(sorted(_OFFICE))}.")
    for key in ("code", "name", "places", "says", "source", "how"):
        if key not in entry or entry[key] == "":
            raise BadLaw(f"{at}: '{key}' is missing.")
    places = set()
    for place in entry["places"]:
        places.update(groups[place[1:]] if place.startswith("@") else [place])
    if places - set(countries):
        raise BadLaw(f"{at}: {', '.join(sorted(places - set(countries)))} is no code of a place.")
    echoes = entry.get("echo", [])
    for echo in echoes:
        if set(echo) != _ECHO:
            raise BadLaw(f"{at}: an echo needs {', '.join(sorted(_ECHO))}.")
    return Office(entry["code"], entry["name"], frozenset(places), entry.get("designated", False), entry["says"], tuple(echoes))


def reach(code, place, registered, rules):
    """(HERE, ECHO, ELSEWHERE or UNKNOWN, half a sentence): how a registration at an office bears on a place.

    `registered` is the day number of registration or filing, None when not on record.
    """
    office = rules.offices.get(code)
    if office is None:
        if code not in rules.countries:
            return UNKNOWN, f"the office '{code}' is not known here" if code else "no office is on record"
        return (HERE, f"it reaches {place}") if code == place else (ELSEWHERE, f"it is on the register of {code}, not of {place}")
    if office.designated:
        if office.places and place not in office.places:
            return ELSEWHERE, f"the office {code} does not reach {place}"
        return UNKNOWN, f"a registration at the office {code} covers only the places named in it, and these are not on record"
    if place in office.places:
        return HERE, f"the register of {code} reaches {place}"
    for echo in office.echoes:
        if echo["place"] == place and (registered is None or registered < echo["registered_before"].toordinal()):
            return ECHO, echo["says"]
    return ELSEWHERE, f"the register of {code} does not reach {place}"
