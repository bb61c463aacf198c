"""registry complaint add: keeps a complaint of a marketplace or an owner, with its deadline."""

from registry.catalogue import complaints, files, store
from registry.cli import complaint_shown, inputs, shown
from registry.errors import RegistryError
from registry.facts import edtf


def arguments(parser):
    """Adds the arguments of the command."""
    parser.add_argument("--from", dest="sender", metavar="NAME", help="Who complains: an owner, an agent, a marketplace.")
    parser.add_argument("--on", metavar="DAY", help="The day it came in; without it today.")
    parser.add_argument("--job", action="append", default=[], metavar="KEY", help="A job it is about; repeat for several.")
    parser.add_argument("--work", action="append", default=[], metavar="KEY", help="A work it is about; repeat for several.")
    parser.add_argument("--mark", action="append", default=[], metavar="KEY", help="A mark that it names, such as m3; repeat for several.")
    parser.add_argument("--claim", metavar="TEXT", help="What is claimed, as near to their words as possible.")
    parser.add_argument("--deadline", metavar="DAY", help="The last day for an answer.")
    parser.add_argument("--where", default="", metavar="TEXT", help="The marketplace, shop or fair.")
    parser.add_argument("--reference", default="", metavar="TEXT", help="Their reference number.")
    parser.add_argument("--file", metavar="FILE", help="The complaint as received, kept with the catalogue.")
    parser.add_argument("--note", default="", metavar="TEXT", help="Notes.")


def run(args):
    """0 when the complaint was kept."""
    if not args.sender or not args.claim:
        raise RegistryError("Say from whom and what: --from NAME --claim TEXT.")
    catalogue = store.open_catalogue(args.catalogue)
    with store.transaction(catalogue):
        file = files.add_path(catalogue, args.file).sha256 if args.file else None
        kept = complaints.add(
            catalogue, received=edtf.iso(inputs.day_of(args.on)), sender=args.sender, claim=args.claim, jobs=args.job, works=args.work,
            marks=args.mark, deadline=args.deadline, where=args.where, reference=args.reference, file=file, note=args.note)
    if args.json:
        shown.show_json(complaint_shown.as_object(kept))
        return 0
    print(f"Kept as {kept.key}" + (f"; an answer is due by {kept.deadline}." if kept.deadline else "; no deadline is on record."))
    print(f"Next: registry complaint folder {kept.key} FOLDER")
    print(shown.advice())
    return 0
