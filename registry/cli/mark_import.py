"""registry mark import: records marks from a table."""

from registry.catalogue import store
from registry.cli import shown
from registry.exchange import marks_in


def arguments(parser):
    """Adds the arguments of the command."""
    parser.add_argument("table", help="A CSV file with a header line; " + marks_in.LISTS + ". Classes and works are joined by spaces.")
    parser.add_argument("--dry", action="store_true", help="Checks every row and records nothing.")


def run(args):
    """0 when all rows were recorded; none is when one cannot be."""
    catalogue = store.open_catalogue(args.catalogue)
    count = marks_in.record(catalogue, args.table, args.dry)
    if args.json:
        shown.show_json({"marks": count, "recorded": 0 if args.dry else count})
    else:
        done = "could be recorded" if args.dry else "recorded"
        print(f"{count} mark{'' if count == 1 else 's'} {done} from {args.table}.")
    return 0
