"""registry work add: records a work and what is known of it."""

from registry.catalogue import store, works
from registry.cli import shown, typed, work_options


def arguments(parser):
    """Adds the options of the command."""
    parser.add_argument("--key", help="A short handle, such as gull-1928; without it w1, w2 and so on.")
    work_options.columns_options(parser)
    typed.facts_options(parser)


def run(args):
    """0 when the work was recorded; nothing is kept when anything is wrong."""
    catalogue = store.open_catalogue(args.catalogue)
    facts = typed.facts_of(args)
    with store.transaction(catalogue):
        columns = work_options.columns_of(catalogue, args)
        record = works.add(catalogue, facts, key=args.key, traits=work_options.traits_of(args), **columns)
    if args.json:
        shown.show_json(work_options.as_object(record))
        return 0
    print(f"Recorded {shown.plain(record.title or 'a work without title')} as {record.key}.")
    print(f"Next: registry check {record.key} --in US,CA")
    return 0
