"""registry mark add: records a mark to beware of."""

from registry.catalogue import marks, store
from registry.cli import mark_options, shown


def arguments(parser):
    """Adds the options of the command."""
    mark_options.columns_options(parser)


def run(args):
    """0 when the mark was recorded."""
    catalogue = store.open_catalogue(args.catalogue)
    mark = marks.add(catalogue, mark_options.works_of(args) or (), **mark_options.columns_of(args))
    if args.json:
        shown.show_json(mark_options.as_object(mark))
        return 0
    print(f"Recorded {shown.plain(mark.words or 'a mark without words')} as {mark.key}.")
    missing = [name for name in ("office", "classes") if not getattr(mark, name)]
    missing += ["state"] if mark.state == "unknown" else []
    if missing:
        print(shown.paragraph(f"Not on record yet: {', '.join(missing)}."
                              " Without office, classes and state a match is a caution, never a hold."))
    return 0
