"""registry complaint list: the complaints, the earliest deadline first."""

from registry.catalogue import complaints, store
from registry.cli import complaint_shown, shown


def arguments(parser):
    """Adds the options of the command."""
    parser.add_argument("--state", choices=(complaints.OPEN, complaints.ANSWERED, complaints.CLOSED), default="",
                        help="Only those in this state.")


def run(args):
    """0, also when there is none."""
    catalogue = store.open_catalogue(args.catalogue)
    found = complaints.listed(catalogue, args.state)
    if args.json:
        shown.show_json([complaint_shown.as_object(one) for one in found])
    elif found:
        print(shown.table([complaint_shown.line(one, store.today()) for one in found]))
    else:
        print(f"No {f'{args.state} ' if args.state else ''}complaint is on record.")
    return 0
