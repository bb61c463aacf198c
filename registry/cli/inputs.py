"""Arguments that several commands take: places, days, facts objects."""

import sys
from pathlib import Path

from registry.catalogue import settings, store
from registry.errors import BadDate, BadFacts, RegistryError
from registry.facts import edtf, json_values


NOWHERE = "Say where: --in US,CA names places, and 'registry settings --markets US,CA' keeps those of the shop."


def places_option(parser):
    """Adds --in to a parser."""
    parser.add_argument("--in", dest="places", action="append", metavar="PLACES",
                        help="Places and groups, joined by commas, such as US,CA,EU; a group without some, such as"
                             " 'EU minus ES'; 'all' is every place whose law is on file.")


def day_option(parser):
    """Adds --on to a parser."""
    parser.add_argument("--on", metavar="DAY", help="The day asked about, such as 2026-07-01; without it today.")


def split(values):
    """The names in a list of texts joined by commas."""
    return [name.strip() for value in values or () for name in value.split(",") if name.strip()]


def chosen(catalogue, typed, otherwise=()):
    """Codes of the places typed, else of `otherwise`, else of the shop's own markets; RegistryError when none are."""
    names = named(typed) or list(otherwise) or settings.get(catalogue, "markets")
    if not names:
        raise RegistryError(NOWHERE)
    return settings.opened(catalogue, names)


def named(typed):
    """The names typed after --in, none where it was not typed; RegistryError where it was and names no place."""
    names = split(typed)
    if typed and not names:
        raise RegistryError(NOWHERE)
    return names


def whole(option, least=1, most=10**9):
    """A reader of the whole numbers that an option takes; RegistryError for anything else."""
    def read(text):
        if text.isascii() and text.isdigit() and len(text) < 16 and least <= int(text) <= most:
            return int(text)
        raise RegistryError(f"{option} {text[:40]}: a whole number from {least} to {most} is allowed.")
    return read


def day_of(typed):
    """The day number of a typed day, today's when none is."""
    if typed is None:
        return store.today()
    try:
        return edtf.day(typed)
    except BadDate as error:
        raise BadDate(f"--on: {error}") from None


def facts_object(source):
    """The JSON object in a file, or on standard input for '-'; RegistryError with the place where it is wrong."""
    name = "standard input" if source == "-" else source
    try:
        found = json_values.read(_standard_input() if source == "-" else Path(source).read_bytes())
    except OSError as error:
        raise RegistryError(f"The file {source} cannot be read: {error.strerror}.") from None
    except BadFacts as error:
        raise BadFacts(f"{name}: {error}") from None
    if not isinstance(found, dict):
        raise RegistryError(f"{name} holds no JSON object; one object of facts is needed.")
    return found


def _standard_input():
    return getattr(sys.stdin, "buffer", sys.stdin).read()
