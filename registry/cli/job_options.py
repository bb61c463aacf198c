"""What `job add` and `job change` have in common, and a job as JSON."""

from dataclasses import asdict

from registry.catalogue import jobs
from registry.cli import inputs

TEXTS = {
    "title": "What the job is called.",
    "product": "What is made, such as \"printed tea towel\".",
    "wording": "The words on the product.",
    "lettering": "The style of letters on it.",
    "listing_text": "The text under which it is offered.",
    "customer": "For whom it is made.",
    "price": "The price, with its currency.",
    "notes": "Notes of the shop.",
    "due": "The day it is due, such as 2027-02-12.",
    "sold_on": "The day it was sold.",
}


def columns_options(parser):
    """Adds the options for what is recorded of a job."""
    for name, says in TEXTS.items():
        parser.add_argument("--" + name.replace("_", "-"), metavar="DAY" if name in ("due", "sold_on") else "TEXT", help=says)
    parser.add_argument("--purpose", choices=jobs.PURPOSES, help="What it is made for; without it sale.")
    parser.add_argument("--markets", "--in", metavar="PLACES", help="The places it goes to, such as US,CA,EU.")
    parser.add_argument("--quantity", type=int, metavar="N", help="How many are made.")


def columns_of(args):
    """The columns that were typed."""
    found = {name: getattr(args, name) for name in [*TEXTS, "purpose", "quantity"] if getattr(args, name) is not None}
    for name in ("due", "sold_on"):
        if found.get(name) == "":
            found[name] = None
    if args.markets is not None:
        found["markets"] = inputs.split([args.markets])
    return found


def as_object(job):
    """A job as a JSON object."""
    return {name: value for name, value in asdict(job).items() if name != "id"}


def decided(last):
    """The Standing of the last decision on a job in words; "" when nobody decided."""
    if not last:
        return ""
    told = f"decided on {last.row.at[:10]} by {last.row.body['by']}"
    if last.says:
        return f"{told}; {last.says}"
    return f"{told} although on hold in {', '.join(last.against)}" if last.against else told
