"""registry restore: brings a backup back into a new folder, every byte compared with its digest."""

from pathlib import Path

from registry.catalogue import backup, store, verify
from registry.cli import shown
from registry.cli.backup import as_object


def arguments(parser):
    """Adds the arguments of the command."""
    parser.add_argument("backup", metavar="BACKUP", help="The folder of the backup, which is left as it is.")
    parser.add_argument("folder", metavar="FOLDER", help="A new folder for the catalogue.")


def run(args):
    """0 when the catalogue was brought back as it was kept; RegistryError when it cannot be."""
    made = backup.restore(args.backup, Path(args.folder))
    report = verify.verify(store.open_catalogue(args.folder), made.head or None)
    if args.json:
        shown.show_json({**as_object(made), "verified": report.whole})
        return 0
    print(shown.paragraph(f"Brought back {made.rows:,} rows of the ledger and {made.files:,} files with {made.bytes:,}"
                          f" bytes into {made.folder}, byte for byte as they were kept."))
    print(shown.paragraph(f"Head of the ledger: {made.head or 'none yet'}"))
    print(shown.paragraph("The ledger, the files and the records agree." if report.whole
                          else f"What was kept was not whole even then: {report.first[0].says}"))
    return 0
