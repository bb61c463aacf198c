"""What-if: the same case with supposed facts. Nothing here is ever kept; faces head such answers as suppositions."""

import copy
import re
from dataclasses import dataclass, replace

from registry.clearance.model import COPY, NEW, Permission
from registry.errors import BadFacts, RegistryError
from registry.facts import edtf
from registry.facts.json_values import DEPTH, deep
from registry.facts.json_values import read as read_json
from registry.facts.work import UNKNOWN, read_work

OWNERS = {"creator": "creators", "publication": "publications"}
PERMISSION_DAYS = {"from": "first", "to": "last"}
YES_NO = ("exclusive", "commercial", "changes_allowed")
BLANK = Permission("", "")
ORIGINALITY = (COPY, NEW, UNKNOWN)
PLACE = re.compile(r"[0-9]{1,3}\Z")
NUMBER = re.compile(r"[0-9]{1,15}\Z")
SHOWN = 60   # letters of a value that an error repeats


@dataclass(frozen=True, slots=True)
class Supposition:
    """One what-if: about which work or permission (None: the only one there is), which fact, which value."""

    about: str | None
    path: str
    value: object


def read(text):
    """The Supposition in a text such as us_renewed=false, w1:died=1950, w1:creators.0.died=1950; RegistryError else."""
    name, sign, value = text.partition("=")
    about, colon, path = name.strip().rpartition(":")
    if not sign or not path.strip():
        raise RegistryError(f"'{text}' is no supposition; write for instance us_renewed=false, creators.0.died=1950 or w1:died=1950.")
    return Supposition(about.strip() if colon else None, path.strip(), _value(value.strip()))


def _value(text):
    if text.lower() in ("true", "yes"):
        return True
    if text.lower() in ("false", "no"):
        return False
    if text[:1] in "[{\"":
        try:
            found = read_json(text)
        except BadFacts:
            raise RegistryError(f"'{text[:SHOWN]}' is not readable as JSON.") from None
        if deep(found):
            raise RegistryError(f"'{text[:SHOWN]}' has lists in lists; no fact needs more than {DEPTH} within each other.")
        return found
    return text


def facts(object_, path, value, vocabulary):
    """A copy of a facts object with one fact supposed. A fact of creators or publications named alone is set on each
    of them (on a new one when there is none); BadFacts when the path leads nowhere.
    """
    found = copy.deepcopy(object_)
    steps = path.replace("[", ".").replace("]", "").split(".")
    if len(steps) == 1:
        return _alone(found, steps[0], value, vocabulary)
    holder = found
    for step in steps[:-1]:
        holder = _inside(holder, step, path)
    if not isinstance(holder, dict):
        raise BadFacts(f"{path} is no path to a fact; write a name such as us_renewed, or creators.0.died.")
    holder[steps[-1]] = _fitting(steps[-1], value, vocabulary)
    return found


def _inside(holder, step, path):
    if isinstance(holder, list):
        place = int(step) if PLACE.match(step) else None
        if place == len(holder):
            holder.append({})
        if place is None or place >= len(holder):
            raise BadFacts(f"{path}: there are {len(holder)} entries, counted from 0.")
        return holder[place]
    if step not in OWNERS.values() or not isinstance(holder, dict):
        raise BadFacts(f"{path} is no path to a fact; write a name such as us_renewed, or creators.0.died.")
    return holder.setdefault(step, [])


def _alone(found, name, value, vocabulary):
    if name in vocabulary.of["work"]:
        found[name] = _fitting(name, value, vocabulary)
        return found
    for owner, place in OWNERS.items():
        if name in vocabulary.of[owner]:
            entries = found.get(place) or [{}]
            if not isinstance(entries, list) or not all(isinstance(one, dict) for one in entries):
                raise BadFacts(f"{name} cannot be supposed: {place} holds no list of entries.")
            found[place] = entries
            for one in entries:
                one[name] = _fitting(name, value, vocabulary)
            return found
    known = ", ".join(sorted({*vocabulary.of["work"], *vocabulary.of["creator"]}))
    raise BadFacts(f"{name} is not a fact; allowed are {known}.")


def _fitting(name, value, vocabulary):
    """The value in the form its type asks for: a list of countries, a text for a date."""
    fact = vocabulary.facts.get(name)
    if fact is not None and fact.type == "countries" and isinstance(value, str) and value != UNKNOWN:
        return [part.strip().upper() for part in value.split(",")]
    if fact is not None and fact.type == "country" and isinstance(value, str) and value != UNKNOWN:
        return value.upper()
    if fact is not None and fact.type in ("edtf", "year", "text") and value in (True, False):
        raise BadFacts(f"{name} is not a yes or no; it needs {'a date' if fact.type != 'text' else 'a text'}.")
    return value


def layer(found, suppositions, objects, vocabulary):
    """A Layer with the suppositions about it; `objects` are the facts objects by key."""
    mine = [one for one in suppositions if one.about == found.key]
    if not mine:
        return found
    plain, rest = objects[found.key], {}
    for one in mine:
        if one.path == "originality":
            if one.value not in ORIGINALITY:
                raise BadFacts(f"originality is '{str(one.value)[:SHOWN]}'; allowed are {', '.join(ORIGINALITY)}.")
            rest["originality"] = one.value
        else:
            plain = facts(plain, one.path, one.value, vocabulary)
    return replace(found, work=read_work(plain, vocabulary), **rest)


def permission(found, suppositions):
    """A Permission with the suppositions about it, such as p1:commercial=true or p1:to=2027-12-31."""
    for one in suppositions:
        if one.about != found.key:
            continue
        name = PERMISSION_DAYS.get(one.path, one.path)
        if name not in found.__dataclass_fields__ or name in ("key", "work"):
            raise RegistryError(f"A permission has no '{one.path}'.")
        found = replace(found, **{name: _term(one, name) if one.value is not None else None})
    return found


def _term(one, name):
    """The supposed value of a term of a permission in the form in which a Permission holds it; BadFacts when it cannot be."""
    if name in YES_NO:
        fits, value, wanted = isinstance(one.value, bool), one.value, "yes or no"
    elif name == "quantity":
        fits = isinstance(one.value, str) and NUMBER.match(one.value)
        value, wanted = int(one.value) if fits else None, "a whole number"
    elif isinstance(getattr(BLANK, name), tuple):
        parts = one.value.split(",") if isinstance(one.value, str) else one.value
        fits = isinstance(parts, list) and all(isinstance(part, str) for part in parts)
        value, wanted = tuple(part.strip() for part in parts) if fits else (), "a list of words, with commas between"
    else:
        fits, value, wanted = isinstance(one.value, str), one.value, "a text"
    if not fits:
        raise BadFacts(f"{one.path} of a permission is '{str(one.value)[:SHOWN]}'; it needs {wanted}.")
    return edtf.day(value) if name in PERMISSION_DAYS.values() else value


def case(given, suppositions, objects, vocabulary):
    """The Case with all suppositions in place; RegistryError when one is about nothing in it."""
    keys = {*given.layers, *(one.key for one in given.permissions)}
    used = list(dict.fromkeys(use.work for use in given.job.uses))
    told = []
    for one in suppositions:
        if one.about is None and len(used) != 1:
            first = used[0] if used else "w1"
            raise RegistryError(f"'{one.path}' may be about any of {', '.join(used) or 'no work'};"
                                f" write for instance {first}:{one.path}=...")
        told.append(replace(one, about=used[0]) if one.about is None else one)
        if told[-1].about not in keys:
            raise RegistryError(f"Nothing in this job is called '{told[-1].about}'; it has {', '.join(sorted(keys))}.")
    layers = {key: layer(one, told, objects, vocabulary) for key, one in given.layers.items()}
    return replace(given, layers=layers, permissions=tuple(permission(one, told) for one in given.permissions))
