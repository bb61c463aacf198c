"""The rules of cautions as read from text: each with its condition turned once into tests; a bad entry is refused."""

import tomllib
from dataclasses import dataclass

from registry.clearance.model import COPY, NEW, UNKNOWN
from registry.clearance.wording import wording
from registry.errors import BadLaw
from registry.law.condition import Scope, condition

HOW = ("read", "secondary", "memory")
ACTIONS = ("first", "also")
ENTRY = {"id", "title", "looks", "says", "source", "how", "action", "places", "without", "when", "comment"}
NEEDED = ("id", "title", "looks", "says", "source", "how", "action", "when")
JOB = {"purposes", "product", "classes", "words", "wording_at_least", "wording_at_most", "listing", "places_here",
       "marks", "marks_goods", "marks_years"}
LAYER = {"parts", "kinds", "status", "originality", "based_on", "beneath", "adds", "own", "terms", "permission", "has",
         "shown_within", "facts"}
CHOICES = {
    "purposes": ("sale", "commission", "gift", "display"),
    "marks": ("live", "pending", "dead", "unknown", "none", "elsewhere"),
    "marks_goods": ("same", "related", "other", "unknown"),
    "parts": ("picture", "lettering", "text", "photograph", "other"),
    "status": ("public_domain", "in_copyright", "undetermined"),
    "originality": (COPY, NEW, UNKNOWN),
}
YES_NO = ("listing", "based_on", "adds", "own", "permission")
NUMBERS = ("wording_at_least", "wording_at_most", "marks_years", "shown_within")
PHRASES = ("words", "product")


@dataclass(frozen=True, slots=True)
class When:
    """One table of a condition, ready for use: `job` and `layer` by key; phrases as runs of stems."""

    job: dict
    layer: dict


@dataclass(frozen=True, slots=True)
class CautionRule:
    """One caution: where it can apply (`places` None: everywhere), when, and what it says."""

    id: str
    title: str
    looks: str
    says: str
    source: str
    how: str
    action: str
    places: frozenset | None
    without: frozenset
    whens: tuple


def read_cautions(text, vocabulary, groups):
    """The CautionRules in a TOML text; BadLaw names the entry, the key and what is allowed."""
    try:
        raw = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise BadLaw(f"cautions.toml: not readable as TOML: {error}.") from None
    found = tuple(_rule(entry, vocabulary, groups) for entry in raw.get("caution", ()))
    ids = [rule.id for rule in found]
    for one in ids:
        if ids.count(one) > 1:
            raise BadLaw(f"cautions.toml: the id {one} stands there twice.")
    return found


def _rule(entry, vocabulary, groups):
    at = f"cautions.toml, caution {entry.get('id')}"
    for key in entry:
        if key not in ENTRY:
            raise BadLaw(f"{at}: unknown key '{key}'; allowed are {', '.join(sorted(ENTRY))}.")
    for key in NEEDED:
        if not entry.get(key):
            raise BadLaw(f"{at}: '{key}' is missing.")
    for key, allowed in (("how", HOW), ("action", ACTIONS)):
        if entry[key] not in allowed:
            raise BadLaw(f"{at}: {key} is '{entry[key]}'; allowed are {', '.join(allowed)}.")
    tables = entry["when"] if isinstance(entry["when"], list) else [entry["when"]]
    places = _codes(entry["places"], groups, at) if "places" in entry else None
    return CautionRule(*(entry[key] for key in NEEDED[:-1]), places, _codes(entry.get("without", ()), groups, at),
                       tuple(_when(table, vocabulary, groups, at) for table in tables))


def _codes(names, groups, at):
    found = set()
    for name in names:
        if name.startswith("@") and name[1:] in groups:
            found.update(groups[name[1:]])
        elif len(name) == 2 and name.isupper():
            found.add(name)
        else:
            raise BadLaw(f"{at}: '{name}' is neither a two-letter code nor a group such as @EU.")
    return frozenset(found)


def _when(table, vocabulary, groups, at):
    if not table:
        raise BadLaw(f"{at}: a table of 'when' is empty; a caution that always applies is no caution.")
    job, layer = {}, {}
    for key, value in table.items():
        if key not in JOB | LAYER:
            raise BadLaw(f"{at}: unknown condition '{key}'; allowed are {', '.join(sorted(JOB | LAYER))}.")
        (job if key in JOB else layer)[key] = _value(key, value, vocabulary, groups, at)
    return When(job, layer)


def _value(key, value, vocabulary, groups, at):
    if key == "facts":
        return condition(value, Scope(vocabulary, groups, at=at))
    if key == "has":
        return _has(value, vocabulary, at)
    if key in YES_NO or (key == "terms" and value is True):
        return _typed(value, bool, "true or false", key, at)
    if key in NUMBERS:
        return _typed(value, int, "a whole number", key, at)
    values = _typed(value, list, "a list", key, at)
    if key in PHRASES or key == "terms":
        return frozenset(" ".join(wording(phrase).stems) for phrase in values)
    if key == "places_here":
        return _codes(values, groups, at)
    allowed = CHOICES.get(key) or (vocabulary.facts["kind"].choices if key in ("kinds", "beneath") else range(1, 46))
    for one in values:
        if one not in allowed:
            raise BadLaw(f"{at}: {key} has '{one}'; allowed are {', '.join(map(str, allowed))}.")
    return frozenset(values)


def _typed(value, kind, wanted, key, at):
    if not isinstance(value, kind) or (kind is int and isinstance(value, bool)):
        raise BadLaw(f"{at}: {key} is {value!r}; {wanted} is needed.")
    return value


def _has(value, vocabulary, at):
    for name, wanted in _typed(value, dict, "a table of facts", "has", at).items():
        if name not in vocabulary.of["work"]:
            raise BadLaw(f"{at}: has names '{name}', which is no fact of a work.")
        _typed(wanted, list, "a list of values", f"has.{name}", at)
    return value
