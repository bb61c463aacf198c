"""registry mark show: everything on record about a mark."""

from registry.catalogue import marks, store
from registry.cli import mark_options, shown


def arguments(parser):
    """Adds the argument of the command."""
    parser.add_argument("mark", help="The key of the mark, such as m3.")


def run(args):
    """0; UnknownRecord when there is no such mark."""
    catalogue = store.open_catalogue(args.catalogue)
    mark = marks.get(catalogue, args.mark)
    looked = marks.searches(catalogue, words=[mark.words]) if mark.words else []
    if args.json:
        from dataclasses import asdict

        shown.show_json({**mark_options.as_object(mark), "searches": [asdict(one) for one in looked]})
        return 0
    print(shown.heading(mark.words or "(no words)", mark.key))
    print(shown.table([row for row in mark_options.rows(mark) if row[1]]))
    if looked:
        print("\nSearches for these words")
    for one in looked:
        mark_options.show_search(one)
    print("\n" + shown.advice())
    return 0
