"""registry complaint folder: everything on record about a complaint, in one folder for a licensed practitioner."""

from registry.catalogue import store, words
from registry.cli import inputs, shown
from registry.exchange import complaint_folder, complaint_index


def arguments(parser):
    """Adds the arguments of the command."""
    parser.add_argument("complaint", help="The key of the complaint, such as c1.")
    parser.add_argument("out", metavar="FOLDER", help="The folder to make; it must not be there, or be empty.")
    inputs.day_option(parser)


def run(args):
    """0 when the folder was written."""
    catalogue = store.open_catalogue(args.catalogue)
    dossier = complaint_folder.write(catalogue, args.complaint, args.out, inputs.day_of(args.on))
    missing = complaint_index.missing(dossier)
    if args.json:
        shown.show_json({"complaint": dossier.complaint.key, "folder": args.out, "files": len(dossier.files),
                         "missing": missing, "not_legal_advice": words.ADVICE})
        return 0
    print(f"Written to {shown.plain(args.out)}; begin with index.txt.")
    print("Missing" if missing else "Nothing that this program looks for is missing.")
    for line in missing:
        print(shown.paragraph(line, 4, "  - "))
    print("\n" + shown.paragraph("The folder gives no opinion: it lists what is on record. " + words.ADVICE))
    return 0
