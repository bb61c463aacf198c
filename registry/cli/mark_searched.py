"""registry mark searched: keeps that somebody searched a register, also when nothing was found."""

from dataclasses import asdict

from registry.catalogue import marks, store
from registry.cli import inputs, mark_options, shown
from registry.errors import RegistryError
from registry.facts import edtf


def arguments(parser):
    """Adds the arguments of the command."""
    parser.add_argument("words", help="The words that were searched for, as typed.")
    parser.add_argument("--in", dest="place", metavar="PLACE", help="The place, group or register that was searched, such as US, EU or BX.")
    parser.add_argument("--by", metavar="NAME", help="Who searched.")
    parser.add_argument("--on", metavar="DAY", help="The day of the search; without it today.")
    parser.add_argument("--classes", metavar="N,N", help="The Nice classes that were searched; none means all.")
    parser.add_argument("--result", default=marks.NIL, metavar="TEXT", help=f"What came of it; without it \"{marks.NIL}\".")
    parser.add_argument("--note", default="", metavar="TEXT", help="Notes, such as the address of the register.")


def run(args):
    """0 when the search was kept."""
    if not args.place or not args.by:
        raise RegistryError("Say where and who: --in US --by NAME.")
    catalogue = store.open_catalogue(args.catalogue)
    kept = marks.add_search(
        catalogue, args.place, args.words, by=args.by, at=edtf.iso(inputs.day_of(args.on)), result=args.result, note=args.note,
        classes=mark_options.classes_of(args.classes) if args.classes else ())
    if args.json:
        shown.show_json(asdict(kept))
        return 0
    print(f"Kept as search {kept.id}.")
    print(shown.paragraph("A search that found nothing is evidence of care, not a clearance: rights also come from use,"
                          " and registers change. Not legal advice."))
    return 0
