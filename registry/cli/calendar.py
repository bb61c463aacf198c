"""registry calendar: what becomes free when, as a list, as JSON, or as a file for a calendar program (RFC 5545)."""

import sys
from dataclasses import asdict
from pathlib import Path

from registry.catalogue import coming, store, whole, words
from registry.cli import inputs, shown
from registry.errors import RegistryError
from registry.exchange.calendar import calendar_text
from registry.exchange.coming_events import TITLE, events, line
from registry.facts import edtf


def arguments(parser):
    """Adds the options of the command."""
    inputs.places_option(parser)
    inputs.day_option(parser)
    parser.add_argument("--until", required=True, metavar="DAY", help="The last day or year looked at, such as 2040 or 2040-06-30.")
    parser.add_argument("--ics", metavar="FILE", help="Writes an iCalendar file, whose name ends in .ics; one that is there is replaced.")


def run(args):
    """0, also when nothing becomes free."""
    if args.ics is not None and Path(args.ics).suffix.lower() != ".ics":
        raise RegistryError(f"--ics {args.ics}: an iCalendar file has a name that ends in .ics.")
    catalogue = store.open_catalogue(args.catalogue)
    day, until = inputs.day_of(args.on), _until(args.until)
    if until <= day:
        raise RegistryError(f"--until {args.until} lies not after the day asked about, {edtf.iso(day)}.")
    found = coming.coming(catalogue, inputs.chosen(catalogue, args.places), day, until)
    for key, says in coming.unplaced(catalogue).items():
        print(shown.paragraph(f"The job {key} is not told of among those that wait: {says}"), file=sys.stderr)
    if args.ics:
        _write(args.ics, found)
    if args.json:
        shown.show_json([asdict(one) | {"day": edtf.iso(one.day), "not_legal_advice": words.ADVICE} for one in found])
    elif args.ics:
        print(f"Wrote {len(found)} days to {args.ics}.\n\n{shown.advice()}")
    else:
        _show(found, args.until)
    return 0


def _until(text):
    """The day number of a typed day, or the last day of a typed year."""
    try:
        return edtf.day(f"{text}-12-31" if len(text) == 4 and text.isdigit() else text)
    except RegistryError as error:
        raise RegistryError(f"--until: {error}") from None


def _show(found, until):
    if not found:
        print(f"Nothing on record is known to become free by {until}.")
    last = None
    for one in found:
        if one.day != last:
            print(("\n" if last else "") + words.day(one.day))
            last = one.day
        print(shown.paragraph(line(one), 4, "  - "))
    print("\n" + shown.advice())


def _write(path, found):
    stamp = store.now().replace("-", "").replace(":", "")
    text = calendar_text(TITLE, events(found), stamp)
    whole.write(path, text.encode("utf-8"), "The calendar")
