"""One work a line, as JSON: its facts, and beside them what else is on record of it.

What stands beside the facts has the names that a table's columns have (BESIDE without key, which is the id of the facts).
It says what the work is worth together with others, so nobody may answer from the facts of such a line and pass it by.
"""

from registry.errors import BadFacts

BESIDE = ("key", "based_on", "originality", "own", "traits", "access_terms", "notes")
ORIGINALITY = ("faithful_copy", "new_expression", "unknown")
_TYPES = {"based_on": str, "originality": str, "own": bool, "traits": list, "access_terms": str, "notes": str}
_NEEDED = {str: "a text", bool: "true or false", list: "a list"}


def joined(record):
    """The object of a WorkRecord: its facts with its key as id, and what is on record beside them, without what is not."""
    beside = {"based_on": record.based_on, "originality": record.originality if record.originality != "unknown" else None,
              "own": record.own, "traits": [{"name": name, "note": note} if note else name for name, note in record.traits],
              "access_terms": record.access_terms, "notes": record.notes}
    return {**record.facts, **{name: value for name, value in beside.items() if value}}


def parted(found):
    """(facts, what stands beside them) of the object in a line; BadFacts when what stands beside cannot be.

    Anything that is no object is given back as it is, for the validator of facts to refuse.
    """
    if not isinstance(found, dict) or found.keys().isdisjoint(_TYPES):
        return found, {}
    facts = {name: value for name, value in found.items() if name not in _TYPES}
    beside = {name: _value(name, found[name]) for name in _TYPES if found.get(name) is not None}
    return facts, beside


def _value(name, value):
    kind = _TYPES[name]
    if type(value) is not kind:
        raise BadFacts(f"field {name} is {str(value)[:60]!r}; {_NEEDED[kind]} is needed.")
    if name == "originality" and value not in ORIGINALITY:
        raise BadFacts(f"field originality is {value[:60]!r}; allowed are {', '.join(ORIGINALITY)}.")
    if name == "based_on" and not value.strip():
        raise BadFacts("field based_on is empty; the key of a work is needed, or leave it out.")
    return _traits(value) if name == "traits" else value


def _traits(values):
    found = tuple(map(_trait, values))
    twice = repeated([name for name, _note in found])
    if twice:
        raise BadFacts(f"field traits names {twice[:60]!r} twice; name each trait once.")
    return found


def repeated(names):
    """The first of these names that stands among them twice, "" for none."""
    return next((name for place, name in enumerate(names) if name in names[:place]), "")


def _trait(value):
    """(name, note) of a trait, which is a name or an object of both."""
    pair = (value, "") if isinstance(value, str) else ()
    if isinstance(value, dict) and value.keys() <= {"name", "note"}:
        pair = (value.get("name"), value.get("note", ""))
    if not pair or not all(isinstance(part, str) for part in pair) or not pair[0].strip():
        raise BadFacts(f"field traits holds {str(value)[:60]!r}; the name of a trait is needed, or {{\"name\": ..., \"note\": ...}}.")
    return pair


def alone(beside):
    """Nothing; BadFacts when the facts of a line say less than is asked, since the work hangs on others or copies one."""
    base = beside.get("based_on")
    if base:
        raise BadFacts(f"this work is based on {base} (based_on), whose rights count too, so its own facts do not give the answer;"
                       " 'registry check' answers for all versions of a kept work. To ask about this version alone, leave"
                       " based_on and originality out.")
    if beside.get("originality") == "faithful_copy":
        raise BadFacts("this work is a faithful copy of one that is not named (originality), whose rights count, so its own facts do"
                       " not give the answer; give the facts of the original.")
