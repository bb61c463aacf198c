"""Markets as people write them: a place, a group of places, a group without some members ("EU minus ES")."""

import re
from dataclasses import dataclass

from registry.errors import RegistryError

_MINUS = re.compile(" minus ", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Market:
    """A market: its name as typed, the codes it opens to, True when it was written as a group."""

    name: str
    codes: tuple
    group: bool


def written(text, words):
    """A market in its one way of writing: germany as DE, "eu Minus spain" as "EU minus ES"; what is no place stays, in capitals.

    `words`: codes by names of places, in small letters.
    """
    parts = _MINUS.split(" ".join(text.split()))
    return " minus ".join(words.get(part.strip().casefold(), capital(part.strip())) for part in parts)


def capital(text):
    """A text with the letters a to z in capitals; other letters stay, since the capital of ß is SS, the code of a place."""
    return "".join(sign.upper() if sign.isascii() else sign for sign in text)


def market(text, groups, known=None, words=None):
    """The Market that a text names; RegistryError when it is none. `known`: codes of places, all two-letter codes when None;
    `words` as in `written`."""
    name = written(text, words or {})
    first, *less = _split(name)
    codes, is_group = _opened(first, text, groups, known)
    for part in less:
        gone, _ = _opened(part, text, groups, known)
        missing = [code for code in gone if code not in codes]
        if missing:
            raise RegistryError(f"'{text}': {missing[0]} is not in {first}, so it cannot be taken out.")
        codes = tuple(code for code in codes if code not in gone)
    if not codes:
        raise RegistryError(f"'{text}' leaves no place to sell in.")
    return Market(name, codes, is_group)


def _split(name):
    """EU minus ES minus MT, or EU minus ES MT, as [EU, ES, MT]."""
    head, *tail = name.split(" minus ")
    parts = [one for part in tail for one in part.replace(",", " ").split()]
    if tail and not parts:
        raise RegistryError(f"'{name}' does not say what is left out; write for instance EU minus ES.")
    return [head.strip(), *parts]


def _opened(name, text, groups, known):
    if name in groups:
        return tuple(groups[name]), True
    if len(name) == 2 and name.isalpha() and name.isascii() and (known is None or name in known):
        return (name,), False
    raise RegistryError(f"'{text}' is not a market; allowed are two-letter codes such as US,"
                        f" the groups {', '.join(sorted(groups))}, and a group without members, such as EU minus ES.")
