"""Facts objects as they are kept: one plain form, and single facts altered by a path such as creators.0.died."""

import copy
import re

from registry.errors import BadFacts

_STEP = re.compile(r"\[(\d+)\]")
_LISTS = {"creators": "died", "publications": "date"}  # with a fact that serves as an example


def plain(facts, vocabulary):
    """The facts in the form that is kept: no nulls, and facts of the creator moved from the work to its creators.

    It means the same to `read_work`, which must have accepted the facts before.
    """
    kept = {name: copy.deepcopy(value) for name, value in facts.items() if value is not None}
    for name in ("creators", "publications"):
        if name in kept:
            kept[name] = [{k: v for k, v in one.items() if v is not None} for one in kept[name]]
    of_creator = vocabulary.of["creator"]
    loose = {name: kept.pop(name) for name in list(kept) if name in of_creator and name not in vocabulary.of["work"]}
    if loose:
        kept["creators"] = [{**loose, **one} for one in kept.get("creators") or [{}]]
    return kept


def altered(facts, path, value, vocabulary):
    """A copy of the facts with one fact set, or removed when the value is None.

    The path is a name (`us_renewed`), or a list with a place counted from 0 and a name (`creators.0.died`,
    `creators[0].died`); the place just after the last adds an entry. BadFacts when there is no such place.
    """
    steps = _STEP.sub(r".\1", path.strip()).split(".")
    if len(steps) == 1:
        steps = _whose(facts, steps[0], vocabulary)
    facts = copy.deepcopy(facts)
    if len(steps) == 1:
        return _put(facts, steps[0], value)
    entries = facts.setdefault(steps[0], [])
    _alter_entry(entries, _place(entries, steps, path), steps, value, path)
    return facts


def _alter_entry(entries, number, steps, value, path):
    if number == len(entries):
        if value is None:
            raise BadFacts(f"{path}: there is no {steps[0]}.{number} to take anything from.")
        entries.append({})
    if len(steps) == 3:
        _put(entries[number], steps[2], value)
    elif value is None:
        del entries[number]
    else:
        raise BadFacts(f"{path} is a whole entry; name the fact in it, such as {path}.{_LISTS[steps[0]]}.")


def _put(owner, name, value):
    if value is None:
        owner.pop(name, None)
    else:
        owner[name] = value
    return owner


def _whose(facts, name, vocabulary):
    """The steps to a fact named alone: of the work, or of the only creator or publication there is."""
    if name in vocabulary.of["work"]:
        return [name]
    for owner, entries in (("creator", "creators"), ("publication", "publications")):
        if name in vocabulary.of[owner]:
            if len(facts.get(entries, ())) > 1:
                raise BadFacts(f"{name} is a fact of each {owner} and there are {len(facts[entries])};"
                               f" name one, such as {entries}.0.{name}.")
            return [entries, "0", name]
    return [name]


def _place(entries, steps, path):
    if steps[0] not in _LISTS or len(steps) > 3 or not (steps[1].isascii() and steps[1].isdigit() and len(steps[1]) < 10):
        raise BadFacts(f"{path} is no path to a fact; write a name such as us_renewed, or creators.0.died, or publications.0.date.")
    number = int(steps[1])
    if number > len(entries):
        raise BadFacts(f"{path}: there are {len(entries)} {steps[0]}, counted from 0; the next one is {steps[0]}.{len(entries)}.")
    return number


def value_of(fact, text):
    """The JSON value that a typed text stands for in a fact of this type; the validator judges it later."""
    word = text.strip()
    if fact is None or fact.type in ("text", "edtf", "year", "choice"):
        return word
    if fact.type == "bool":
        return {"yes": True, "true": True, "no": False, "false": False}.get(word.lower(), word)
    if fact.type == "country":
        return word if word == "unknown" else word.upper()
    if fact.type == "countries":
        return word if word == "unknown" else [one.strip().upper() for one in word.replace(" ", ",").split(",") if one.strip()]
    raise BadFacts(f"{fact.name} is a list; name a fact in it, such as creators.0.died or publications.0.date.")
