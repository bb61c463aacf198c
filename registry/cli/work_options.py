"""What `work add` and `work change` have in common besides facts."""

from registry.catalogue import files, works


def columns_options(parser):
    """Adds the options for what is recorded of a work beside its facts."""
    parser.add_argument("--based-on", metavar="KEY",
                        help="The work that this version adapts, copies or restores; an empty one takes it away.")
    parser.add_argument("--originality", choices=works.ORIGINALITY,
                        help="Whether this version adds something of its own to what it is based on.")
    parser.add_argument("--own", choices=("yes", "no"), help="Whether the shop made this version itself.")
    parser.add_argument("--picture", metavar="FILE",
                        help="A picture of it: PNG, JPEG, GIF, WebP, TIFF or SVG; an empty name takes it away.")
    parser.add_argument("--terms", metavar="TEXT", help="The terms under which the copy at hand was obtained.")
    parser.add_argument("--notes", metavar="TEXT", help="Notes of the shop.")
    parser.add_argument("--trait", action="append", default=[], metavar="NAME=NOTE",
                        help="Something recognisable that this version introduced, such as hat=\"tall and grey\";"
                             " the note may be left out.")


def columns_of(catalogue, args):
    """The columns that were typed; a picture is kept in the catalogue's files within the caller's transaction."""
    typed = {"based_on": args.based_on, "originality": args.originality, "access_terms": args.terms, "notes": args.notes}
    columns = {name: value for name, value in typed.items() if value is not None}
    if args.based_on == "":
        columns["based_on"] = None
    if args.own:
        columns["own"] = args.own == "yes"
    if args.picture is not None:
        columns["picture"] = files.add_path(catalogue, args.picture, files.PICTURES).sha256 if args.picture else None
    return columns


def traits_of(args):
    """Pairs of name and note, as typed."""
    return [(name.strip(), note.strip()) for name, _equals, note in (text.partition("=") for text in args.trait)]


def as_object(record):
    """A work as a JSON object."""
    return {
        "key": record.key, "title": record.title, "kind": record.kind, "version": record.version, "facts": record.facts,
        "based_on": record.based_on, "originality": record.originality, "own": record.own,
        "access_terms": record.access_terms, "notes": record.notes,
        "picture": record.picture, "traits": [{"name": name, "note": note} for name, note in record.traits],
        "added_at": record.added_at, "changed_at": record.changed_at,
    }
