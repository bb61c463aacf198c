"""Which rules and conditions of a law file matter: the same file with one condition taken away, again and again.

Works on the tables of a file as parsed; runs nothing and reads nothing.
"""

import copy

PLACES = ("define", "event", "never", "act", "compare", "doubt", "related", "also")
WHEN = ("when", "applies", "revive_when", "exempt")
NESTED = ("any", "all")


def entries(raw):
    """(kind, entry) of every entry of a parsed file that holds conditions, terms of acts included."""
    for kind in PLACES:
        found = raw.get(kind, ())
        for entry in (found,) if isinstance(found, dict) else found:
            yield kind, entry
            for term in entry.get("term", ()) if kind == "act" else ():
                yield "term", term


def conditions(raw):
    """Label of every single condition: entry id, where it stands, its key and value."""
    return [label for label, _table, _key in _all(raw)]


def mutants(raw):
    """(label, forced value, file as tables) for every condition forced to true and to false."""
    for number, (label, _table, _key) in enumerate(list(_all(raw))):
        for value in (True, False):
            other = copy.deepcopy(raw)
            _label, table, key = list(_all(other))[number]
            del table[key]
            if not value:
                table["always"] = False
            elif not table:
                table["always"] = True
            yield label, value, other


def _all(raw):
    for kind, entry in entries(raw):
        for where, table in _tables(entry):
            yield from _keys(f"{entry.get('id') or entry.get('use', kind)}", where, table)


def _tables(entry):
    for key in WHEN:
        if key in entry:
            yield key, entry[key]
    for number, choice in enumerate(entry.get("first", ())):
        if "when" in choice:
            yield f"first[{number}]", choice["when"]
    yield from _adds(entry)


def _adds(table):
    for number, add in enumerate(table.get("add", ())):
        if "when" in add:
            yield f"add[{number}]", add["when"]
    for key in ("first_of", "last_of"):
        for one in table.get(key, ()):
            yield from _adds(one)


def _keys(name, where, table):
    for key in list(table):
        yield f"{name} {where} {key} = {table[key]!r}"[:160], table, key
        if key in NESTED:
            for one in table[key]:
                yield from _keys(name, where, one)
        elif key == "not":
            yield from _keys(name, where, table[key])
