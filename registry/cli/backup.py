"""registry backup: a copy of the whole catalogue, proven by digests, also while it is in use."""

from registry.catalogue import backup, store
from registry.cli import shown


def arguments(parser):
    """Adds the argument of the command."""
    parser.add_argument("out", metavar="OUT", help="A new folder for the backup.")


def run(args):
    """0 when the backup was written."""
    made = backup.backup(store.open_catalogue(args.catalogue), args.out, store.now())
    if args.json:
        shown.show_json(as_object(made))
        return 0
    print(shown.paragraph(f"Kept {made.rows:,} rows of the ledger and {made.files:,} files with {made.bytes:,} bytes in {made.folder}."))
    print(shown.paragraph(f"Head of the ledger: {made.head or 'none yet'}"))
    print(shown.paragraph(f"SHA-256 of its backup.json, which stands for all of it: {made.seal}"))
    print(shown.paragraph(f"To bring it back: registry restore {made.folder} NEW-FOLDER"))
    return 0


def as_object(made):
    """A backup as a JSON object."""
    return {"folder": str(made.folder), "rows": made.rows, "head": made.head, "files": made.files,
            "bytes": made.bytes, "backup_sha256": made.seal}
