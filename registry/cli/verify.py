"""registry verify: is the catalogue as it was recorded? Names the first entry that is not."""

from dataclasses import asdict

from registry.catalogue import store, verify
from registry.cli import shown


def arguments(parser):
    """Adds the option of the command."""
    parser.add_argument("--head", metavar="HEX",
                        help="A head of the ledger that was noted elsewhere, as 'registry head' prints it:"
                             " proves that nothing before it was changed.")


def run(args):
    """0 when all is as it was recorded, 1 when something is not."""
    report = verify.verify(store.open_catalogue(args.catalogue), args.head)
    if args.json:
        shown.show_json({"whole": report.whole, **asdict(report), "covered": verify.COVERED, "not_covered": verify.BARE})
    elif report.whole:
        _whole(report)
    else:
        _faults(report)
    return 0 if report.whole else 1


def _whole(report):
    print(shown.paragraph(f"Ledger: {report.rows:,} rows, each with its right digest, in one chain. Head: {report.head or 'none yet'}"))
    if report.noted is not None:
        print(shown.paragraph(f"The digest that was noted is that of row {report.noted}: no row up to it was changed,"
                              f" and {report.rows - report.noted} were added since."))
    print(shown.paragraph(f"Files: {report.files:,} with {report.file_bytes:,} bytes, each as its digest says."))
    print(shown.paragraph(f"Records: the facts of {report.works:,} works and {report.evidence:,} pieces of evidence"
                          " are those that the ledger noted."))
    if report.strays:
        print(shown.paragraph(f"Files that belong to no record, which does no harm: {', '.join(report.strays)}."))
    print(shown.paragraph("Database: SQLite finds every page whole, and no row that names one that is not there."))
    print("\n" + shown.paragraph(f"As they were recorded: {', '.join(verify.COVERED[:-1])}, and {verify.COVERED[-1]}."))
    print(shown.paragraph(f"Not covered by the ledger, so that a change of it shows nowhere: {'; '.join(verify.BARE)}."
                          " A backup whose digest was noted covers all."))


def _faults(report):
    print(shown.paragraph(f"NOT as it was recorded: {report.faults:,} fault{'s' * (report.faults > 1)}, the first of them:"))
    for fault in report.first:
        print(shown.paragraph(fault.says, 4, "  - "))
    print(shown.paragraph("A backup made before tells what it was: 'registry restore' puts one into a folder of its own."))
