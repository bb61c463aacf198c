"""registry mark list: the marks on record, and the searches that were made."""

from registry.catalogue import marks, store
from registry.catalogue.mark_tables import STATES
from registry.cli import inputs, mark_options, shown


def arguments(parser):
    """Adds the options of the command."""
    parser.add_argument("--find", default="", metavar="TEXT", help="Only marks whose words or owner hold this text.")
    parser.add_argument("--state", choices=STATES, default="", help="Only marks in this state.")
    parser.add_argument("--limit", type=inputs.whole("--limit"), default=-1, metavar="N", help="At most so many.")
    parser.add_argument("--searches", action="store_true", help="Lists the searches on record instead, the newest first.")


def run(args):
    """0, also when there is none."""
    catalogue = store.open_catalogue(args.catalogue)
    if args.searches:
        return _searches(catalogue, args)
    found = marks.listed(catalogue, args.find, args.state, args.limit)
    if args.json:
        shown.show_json([mark_options.as_object(mark) for mark in found])
    elif found:
        print(shown.table([mark_options.line(mark) for mark in found]))
    else:
        print("No mark is on record." if not (args.find or args.state) else "No mark on record fits.")
    return 0


def _searches(catalogue, args):
    found = marks.searches(catalogue)
    if args.json:
        from dataclasses import asdict

        shown.show_json([asdict(one) for one in found])
        return 0
    for one in found:
        mark_options.show_search(one)
    if not found:
        print("No search is on record; 'registry mark searched' keeps one.")
    return 0
