"""registry evidence add: records a document or a word that supports facts of a work."""

from registry.catalogue import evidence, files, store
from registry.cli import evidence_list, shown

TEXTS = {  # option: (name in the catalogue, metavar, help)
    "--kind": ("kind", "WORDS", "What it is, such as \"title page\", \"register search\" or \"letter\"."),
    "--title": ("title", "TEXT", "What it is called or says, such as the heading of the page."),
    "--where": ("place", "TEXT", "Where it lies: archive and shelf mark, book and page, own copy."),
    "--url": ("url", "ADDRESS", "The address of a web page."),
    "--by": ("seen_by", "NAME", "Who saw it or was told."),
    "--note": ("note", "TEXT", "Anything else worth knowing."),
}


def arguments(parser):
    """Adds the arguments of the command."""
    parser.add_argument("work", help="The key of the work.")
    parser.add_argument("--for", dest="facts", action="append", required=True, metavar="FACT",
                        help="The fact it supports, by its name or label, such as us_renewed, \"Renewed (US)\", died or"
                             " publications, or creators.1.died for one of several makers; repeat for several.")
    parser.add_argument("--basis", choices=evidence.BASES, default="seen",
                        help="How the fact is known: seen in a document, told by somebody, or only assumed;"
                             " without it seen.")
    for option, (name, metavar, says) in TEXTS.items():
        parser.add_argument(option, dest=name, default="", metavar=metavar, help=says)
    parser.add_argument("--seen", dest="seen_on", metavar="DAY", help="The day it was seen or told, such as 2026-05-02; not a day to come.")
    parser.add_argument("--file", metavar="FILE",
                        help=f"A scan or copy, kept unchanged under its SHA-256: {files.ALLOWED},"
                             f" of {files.LARGEST // 2**20} MiB at most.")


def run(args):
    """0 when it was recorded for every fact named; nothing is kept when anything is wrong."""
    catalogue = store.open_catalogue(args.catalogue)
    with store.transaction(catalogue):
        file = files.add_path(catalogue, args.file).sha256 if args.file else None
        texts = {name: getattr(args, name) for name, _metavar, _says in TEXTS.values()}
        kept = [evidence.add(catalogue, args.work, fact, args.basis, seen_on=args.seen_on, file=file, **texts)
                for fact in dict.fromkeys(args.facts)]
    if args.json:
        shown.show_json([evidence_list.as_object(one) for one in kept])
        return 0
    for one in kept:
        print(shown.paragraph(f"Recorded e{one.id} for {one.fact} of {one.work}{f', with the file {one.file}' if one.file else ''}."))
        if one.value == "null":
            print(shown.paragraph(f"Nothing is on record as {one.fact} yet. Record the fact, then add the evidence"
                                  " again: evidence counts for what was on record when it was added."))
    return 0
