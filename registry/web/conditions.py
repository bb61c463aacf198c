"""Conditions of the rule format as plain half sentences, made from the data itself, for pages that show the law."""

from datetime import date

from registry.catalogue import words
from registry.rulebook import place_phrases, rulebook
from registry.web import said

EVENTS = {"creation": "the making", "publication": "first publication", "disclosure": "the first making available",
          "death": "the death of the last maker", "death:known": "the death of the last maker who can be traced"}
PLAIN = {  # yes and no of what is derived from the facts
    "published": ("it was published", "it was never published"),
    "made_available": ("it was made available to the public", "it was never made available to the public"),
    "natural_author": ("a person is on record as maker", "only bodies are on record as makers"),
    "by_owner": ("it was published with the owner’s leave", "it was published without the owner’s leave"),
}
CHOSEN = {"kind": "the kind is {}", "authorship": "the credit is {}", "origin": "the country of origin is {}",
          "author_nationality": "a maker is a national of {}", "domicile": "a maker lives in {}",
          "government_of": "it was made for the government of {}"}


def phrase(table, own=()):
    """One half sentence for a table of conditions that must all hold; `own` are the words that the file defines itself."""
    return _and([_one(key, value, own) for key, value in table.items()])


def _and(parts):
    return parts[0] if len(parts) == 1 else " and ".join(f"({one})" if one.startswith("either ") else one for one in parts)


def _one(key, value, own):
    if key in _SPECIAL:
        return _SPECIAL[key](value, own)
    if key in own:
        return f"it is “{word(key)}”" if value else f"it is not “{word(key)}”"
    for ending, text in (("_before", "came before"), ("_from", "came on or after")):
        if key.endswith(ending) and isinstance(value, date):
            return f"{event(key.removesuffix(ending))} {text} {words.day(value.toordinal())}"
    if key in CHOSEN:
        return _chosen(key, value)
    if key in PLAIN:
        return PLAIN[key][0 if value else 1]
    return _fact(key, value)


def word(name):
    """A word that a file defines itself, as people read it."""
    return name.replace("_", " ")


def event(name):
    """An event as people read it: a known one, a role's death, a dated fact, or one that the file defines."""
    if name in EVENTS:
        return EVENTS[name]
    if name.startswith("death:"):
        return f"the death of the last of {', '.join(map(word, name[6:].split('+')))}"
    return f"“{said.label(name) if name in rulebook().vocabulary.facts else word(name)}”"


def _chosen(key, value):
    many = value if isinstance(value, list) else [value]
    if key == "government_of" and many == ["none"]:
        return "no government made it"
    return CHOSEN[key].format(_either([_value(one) for one in many]))


def _value(one):
    if one.startswith("@"):
        return f"a country of the {'table' if one[1:].islower() else 'group'} {one[1:]}"
    return place_phrases().get(one, one) if one.isupper() else word(one)


def _fact(name, value):
    fact = rulebook().vocabulary.facts.get(name)
    if fact and fact.type in ("edtf", "year"):
        return f"{event(name)} {'has come' if value else 'has not come'}"
    return f"“{said.label(name)}” is {'yes' if value else 'no'}"


def _either(texts):
    return texts[0] if len(texts) == 1 else f"{', '.join(texts[:-1])} or {texts[-1]}"


def _any(tables, own):
    parts = [phrase(one, own) for one in tables]
    return f"either {', or '.join(f'({one})' if one.startswith('either ') else one for one in parts)}"


def _all(tables, own):
    return _and([phrase(one, own) for one in tables])


def _not(table, own):
    return f"not ({phrase(table, own)})"


def _span(table):
    """How long after another event, in words; "" for the same year."""
    years, days = table.get("years", 0), table.get("days", 0)
    parts = [f"{years} year{'' if years == 1 else 's'}"] if years else []
    return " and ".join([*parts, *([f"{days} day{'' if days == 1 else 's'}"] if days else [])])


def _within(table, _own):
    span, other = _span(table), event(table["after"])
    return f"{event(table['event'])} came {f'no later than {span} after {other}' if span else f'no later than the year of {other}'}"


def _beyond(table, _own):
    span, other = _span(table), event(table["after"])
    return f"{event(table['event'])} came {f'more than {span} after {other}' if span else f'after the year of {other}'}"


def _surely(text):
    return lambda table, own: f"{text(table, own)} by every reading of the dates"


def _surely_before(table, _own):
    span, other = _span(table), event(table["after"])
    return f"{event(table['event'])} came {f'before {span} after {other} were over' if span else f'before the end of the year of {other}'}"


def _between(table, _own):
    start, end, least, most = event(table["from"]), event(table["to"]), table.get("at_least"), table.get("at_most")
    parts = [f"{end} lies at least {least} calendar years after {start}" if least is not None else ""]
    if most is not None:
        span = f"at least {-most} calendar years before" if most < 0 else f"at most {most} calendar years after"
        parts.append(f"{end} lies {span} {start}")
    return " and ".join(filter(None, parts)).replace(" 1 calendar years", " 1 calendar year")


def _published_in(table, _own):
    place = place_phrases().get(table["country"], table["country"])
    return f"it was first published in {place}, or there within {table['days']} days"


def _home(table, _own):
    if "day" in table:
        day = words.day(table["day"].toordinal())
    else:
        day = f"the day that the table “{table['table']}” gives its country of origin"
    return f"the law of its country of origin protected it on {day}"


def _since(table, _own):
    return f"{event(table['event'])} came on or after the day that the table “{table['table']}” gives its country of origin"


_SPECIAL = {
    "any": _any, "all": _all, "not": _not, "within": _within, "beyond": _beyond,
    "surely_before": _surely(_surely_before), "surely_beyond": _surely(_beyond),
    "years_between": _between, "published_in": _published_in, "home_protected": _home, "since_table": _since,
    "recorded": lambda name, _own: f"{event(name)} is on record", "always": lambda value, _own: "in any case" if value else "never",
}


# --- one file -----------------------------------------------------------------------------------------

def of_law(law, laws):
    """The conditions of a Law in the order of its entries: acts as (applies, revive, [terms]), lists by name, its own words and events."""
    own = {entry["id"] for entry in law.raw.get("define", ())}

    def when(table, key="when"):
        return phrase(table[key], own) if table.get(key) else ""

    acts = [merged(entry, "act", laws) for entry in law.raw.get("act", ())]
    kinds = (("never", "never"), ("doubts", "doubt"), ("related", "related"), ("also", "also"))
    lists = {name: [when(merged(entry, key, laws)) for entry in law.raw.get(key, ())] for name, key in kinds}
    return {
        "acts": [(when(act, "applies"), when(act, "revive_when"), [when(term) for term in act.get("term", ())]) for act in acts], **lists,
        "exempt": when(merged(law.raw["compare"], "compare", laws), "exempt") if law.raw.get("compare") else "",
        "words": [(word(entry["id"]), phrase(entry["when"], own)) for entry in law.raw.get("define", ())],
        "events": [(word(entry["id"]), [(when(one), event(one["is"])) for one in entry["first"]]) for entry in law.raw.get("event", ())],
    }


def merged(entry, kind, laws):
    """An entry of a file with what it takes over from a shared one; own terms stand first."""
    if not entry.get("use"):
        return entry
    file, _, wanted = entry["use"].partition(".")
    pool = laws.shared(file).get(kind, [])
    shared = next(one for one in ([pool] if isinstance(pool, dict) else pool) if one.get("id") == wanted)
    both = {**shared, **entry}
    return {**both, "term": [*entry.get("term", ()), *shared.get("term", ())]} if kind == "act" else both
