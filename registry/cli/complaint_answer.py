"""registry complaint answer: keeps an answer to a complaint, or what became of it."""

from registry.catalogue import complaints, files, store
from registry.cli import complaint_shown, inputs, shown
from registry.errors import RegistryError
from registry.facts import edtf


def arguments(parser):
    """Adds the arguments of the command."""
    parser.add_argument("complaint", help="The key of the complaint, such as c1.")
    parser.add_argument("--by", metavar="NAME", help="Who answered, or who told what became of it.")
    parser.add_argument("--note", metavar="TEXT", help="What was said, or what became of it.")
    parser.add_argument("--outcome", choices=complaints.OUTCOMES, default="sent",
                        help="sent: an answer went out; the others close the complaint.")
    parser.add_argument("--on", metavar="DAY", help="The day; without it today.")
    parser.add_argument("--file", metavar="FILE", help="The answer as sent or the letter received, kept with the catalogue.")


def run(args):
    """0 when the answer was kept."""
    if not args.by or not args.note:
        raise RegistryError("Say who and what: --by NAME --note TEXT.")
    catalogue = store.open_catalogue(args.catalogue)
    with store.transaction(catalogue):
        file = files.add_path(catalogue, args.file).sha256 if args.file else None
        found = complaints.answer(
            catalogue, args.complaint, answered=edtf.iso(inputs.day_of(args.on)), by=args.by, says=args.note,
            outcome=args.outcome, file=file)
    if args.json:
        shown.show_json(complaint_shown.as_object(found))
    else:
        print(f"Kept; {found.key} is {found.state}.")
    return 0
