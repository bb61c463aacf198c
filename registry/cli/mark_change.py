"""registry mark change: alters what is on record about a mark."""

from registry.catalogue import marks, store
from registry.cli import mark_options, shown
from registry.errors import RegistryError


def arguments(parser):
    """Adds the arguments of the command."""
    parser.add_argument("mark", help="The key of the mark, such as m3.")
    mark_options.columns_options(parser)


def run(args):
    """0 when the mark was altered."""
    catalogue = store.open_catalogue(args.catalogue)
    columns = mark_options.columns_of(args)
    if not columns and args.work is None:
        raise RegistryError("Say what is to be altered; 'registry mark change --help' lists the options.")
    mark = marks.change(catalogue, args.mark, mark_options.works_of(args), **columns)
    if args.json:
        shown.show_json(mark_options.as_object(mark))
    else:
        print(f"Altered {mark.key}.")
    return 0
