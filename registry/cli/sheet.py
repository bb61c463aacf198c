"""registry sheet: the provenance sheet of a job as one page to print, or to keep beside the product."""

from registry.cli import papers
from registry.exchange import sheet


def arguments(parser):
    """Adds the arguments of the command."""
    papers.arguments(parser)
    parser.add_argument("--for-others", action="store_true", help="Leaves off the customer, the price and the notes.")


def run(args):
    """0 when the sheet was written."""
    return papers.write(args, sheet.html, "sheet", private=not args.for_others)
