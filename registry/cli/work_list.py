"""registry work list: the works of the catalogue."""

from registry.catalogue import store, works
from registry.cli import inputs, shown, work_options


def arguments(parser):
    """Adds the options of the command."""
    parser.add_argument("--limit", type=inputs.whole("--limit"), default=-1, metavar="N", help="Lists N works at most.")
    parser.add_argument("--from", dest="start", type=inputs.whole("--from", 0), default=0, metavar="N",
                        help="Begins after the first N works.")


def run(args):
    """0; works stand in the order in which they were added."""
    catalogue = store.open_catalogue(args.catalogue)
    found = works.listed(catalogue, args.limit, args.start)
    if args.json:
        shown.show_json([work_options.as_object(record) for record in found])
        return 0
    show(found)
    whole = works.count(catalogue)
    print(f"{len(found)} of {whole} works." if len(found) != whole else f"{whole} work{'' if whole == 1 else 's'}.")
    return 0


def show(found):
    """Prints works, one a row."""
    if found:
        print(shown.table([(record.key, _line(record)) for record in found], 0))


def _line(record):
    parts = [shown.kind(record.kind), record.makers, record.first_published]
    return f"{record.title or '(untitled)'} ({', '.join(part for part in parts if part) or 'nothing is known of it'})"
