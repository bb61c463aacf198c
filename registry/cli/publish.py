"""registry publish: a copy of the catalogue for everybody, without anything private."""

from registry.catalogue import store
from registry.cli import inputs, shown


def arguments(parser):
    """Adds the arguments of the command."""
    parser.add_argument("out", metavar="OUT.db", help="The database to write: works, answers, and the cards of products"
                                                      " that are for sale and were decided about.")
    inputs.places_option(parser)
    inputs.day_option(parser)
    parser.add_argument("--replace", action="store_true", help="Replaces a file that is there already.")


def run(args):
    """0 when the copy was written."""
    from registry.exchange import public_copy

    catalogue, places = store.open_catalogue(args.catalogue), inputs.split(args.places) or None
    made = public_copy.publish(catalogue, args.out, places, inputs.day_of(args.on), args.replace)
    if args.json:
        shown.show_json({"file": str(made.path), "works": made.works, "answers": made.answers, "products": made.products})
        return 0
    print(shown.paragraph(f"Wrote {made.works} works, {made.answers} answers and {made.products} products to {made.path},"
                          " without customers, prices, notes, evidence, permissions, marks and complaints."))
    print(shown.paragraph(f"Any host that runs Datasette can serve it: datasette serve --immutable {made.path}"))
    print(shown.advice())
    return 0
