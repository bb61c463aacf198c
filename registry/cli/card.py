"""registry card: the buyer's card of a job, without customer, price, notes or what the shop keeps to itself."""

from registry.cli import papers
from registry.exchange import sheet


def arguments(parser):
    """Adds the arguments of the command."""
    papers.arguments(parser)


def run(args):
    """0 when the card was written."""
    return papers.write(args, sheet.card, "card", sheet.for_buyer)
