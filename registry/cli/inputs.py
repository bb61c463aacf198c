"""Arguments that several commands take: places, days, facts objects."""

import json
import sys
from pathlib import Path

from registry.catalogue import settings, store
from registry.errors import BadDate, RegistryError
from registry.facts import edtf


def places_option(parser):
    """Adds --in to a parser."""
    parser.add_argument("--in", dest="places", action="append", metavar="PLACES",
                        help="Places and groups, joined by commas, such as US,CA,EU; 'all' is every place whose law is on file.")


def day_option(parser):
    """Adds --on to a parser."""
    parser.add_argument("--on", metavar="DAY", help="The day asked about, such as 2026-07-01; without it today.")


def split(values):
    """The names in a list of texts joined by commas."""
    return [name.strip() for value in values or () for name in value.split(",") if name.strip()]


def chosen(catalogue, typed, otherwise=()):
    """Codes of the places typed, else of `otherwise`, else of the shop's own markets; RegistryError when none are."""
    names = split(typed) or list(otherwise) or settings.get(catalogue, "markets")
    if not names:
        raise RegistryError("Say where: --in US,CA names places, and 'registry settings --markets US,CA' keeps those of the shop.")
    return settings.opened(catalogue, names)


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
        text = sys.stdin.read() if source == "-" else Path(source).read_text(encoding="utf-8")
        found = json.loads(text)
    except OSError as error:
        raise RegistryError(f"The file {source} cannot be read: {error.strerror}.") from None
    except UnicodeDecodeError:
        raise RegistryError(f"{name} is not text in UTF-8.") from None
    except json.JSONDecodeError as error:
        raise RegistryError(f"{name}, line {error.lineno}, column {error.colno}: this is no JSON ({error.msg});"
                            " one object of facts is needed.") from None
    if not isinstance(found, dict):
        raise RegistryError(f"{name} holds no JSON object; one object of facts is needed.")
    return found
