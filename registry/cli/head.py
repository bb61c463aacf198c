"""registry head: the digest at the end of the ledger, to be kept elsewhere."""

import sys

from registry.catalogue import store, verify
from registry.cli import shown
from registry.errors import RegistryError


def arguments(parser):
    """The command has no arguments of its own."""


def run(args):
    """0 when the head was printed; RegistryError when the ledger is empty."""
    row, digest, moment = verify.head(store.open_catalogue(args.catalogue))
    if not row:
        raise RegistryError("The ledger is empty; it begins with the first work that is recorded.")
    if args.json:
        shown.show_json({"head": digest, "row": row, "at": moment})
        return 0
    print(digest)
    says = (f"Row {row} of the ledger, written {moment}. Print it, send it or have it signed:"
            f" 'registry verify --head {digest[:8]}...' then proves that nothing up to this row was changed.")
    print(shown.paragraph(says), file=sys.stderr)  # the digest alone is what another program reads
    return 0
