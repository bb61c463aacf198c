"""registry work find: works by words."""

from registry.catalogue import search, store
from registry.cli import inputs, shown, work_list, work_options


def arguments(parser):
    """Adds the arguments of the command."""
    parser.add_argument("words", nargs="+", help="Words, or beginnings of words, that must all be found.")
    parser.add_argument("--limit", type=inputs.whole("--limit"), default=50, metavar="N", help="Shows N works at most; without it 50.")


def run(args):
    """0, also when nothing is found; the best match comes first."""
    catalogue = store.open_catalogue(args.catalogue)
    found = search.find(catalogue, " ".join(args.words), args.limit)
    if args.json:
        shown.show_json([work_options.as_object(record) for record in found])
        return 0
    work_list.show(found)
    print(f"{len(found)} found." if found else "No work holds all of these words.")
    return 0
