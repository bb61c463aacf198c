"""registry permission add: records a licence, purchase or release that covers a work, as its document says."""

from registry.catalogue import clear, files, permissions, store
from registry.cli import inputs, shown
from registry.errors import RegistryError

LISTS = {"uses": "For what it may be used: goods, display, any.", "places": "Where it holds, such as US,EU, or world.",
         "media": "On what: wood, cloth, paper, metal, any."}
DAYS = {"valid_from": ("--from", "The first day on which it holds."), "valid_to": ("--to", "The last day on which it holds.")}
YES_NO = {"commercial": "Whether goods may be sold.", "changes_allowed": "Whether the work may be changed.",
          "exclusive": "Whether nobody else was given it."}
OWN = "LicenseRef-"


def arguments(parser):
    """Adds the arguments of the command. What the document does not say is left out; it is then asked, not assumed."""
    parser.add_argument("work", help="The key of the work.")
    parser.add_argument("--kind", choices=permissions.KINDS, default="licence",
                        help="What it is; without it a licence. A release is the consent of a person shown, and gives"
                             " no copyright permission.")
    parser.add_argument("--licensor", default="", metavar="NAME", help="Who gave it.")
    parser.add_argument("--spdx", metavar="ID", help="The SPDX identifier of an open licence, such as CC-BY-4.0 or"
                                                     " OFL-1.1; its terms are then filled in.")
    for name, says in LISTS.items():
        parser.add_argument(f"--{name}", action="append", metavar="WORDS", help=says)
    parser.add_argument("--quantity", type=int, metavar="N", help="How many pieces it covers, over all jobs; without it no limit.")
    for name, (option, says) in DAYS.items():
        parser.add_argument(option, dest=name, metavar="DAY", help=says)
    for name, says in YES_NO.items():
        parser.add_argument("--" + name.replace("_", "-"), choices=("yes", "no"), help=says)
    parser.add_argument("--credit-line", default="", metavar="TEXT", help="The credit that is owed.")
    parser.add_argument("--document", metavar="FILE", help="The letter, licence or invoice, kept with the catalogue.")
    parser.add_argument("--note", default="", metavar="TEXT", help="Notes, such as where the document lies.")


def run(args):
    """0 when the permission was recorded."""
    catalogue = store.open_catalogue(args.catalogue)
    with store.transaction(catalogue):
        kept = permissions.add(catalogue, args.work, args.kind, **_columns(catalogue, args))
    strange = list(permissions.strange(kept, clear.rules()))
    if args.json:
        shown.show_json(as_object(kept) | {"not_understood": strange})
        return 0
    print(f"Recorded p{kept.id} for {args.work}.")
    for sentence in strange:
        print(shown.paragraph(sentence))
    licence = clear.rules().licences.get(kept.spdx)
    if licence:
        print(shown.paragraph(f"{licence.name}: {licence.says}"))
    print(shown.advice())
    return 0


def _columns(catalogue, args):
    known = clear.rules().licences
    if args.spdx and args.spdx not in known and not args.spdx.startswith(OWN):
        raise RegistryError(f"'{args.spdx}' is not among the open licences on file; allowed are"
                            f" {', '.join(sorted(known))}, and {OWN}... for a licence of one's own.")
    columns = {name: getattr(args, name) for name in ("licensor", "spdx", "quantity", "valid_from", "valid_to", "credit_line", "note")}
    columns |= {name: _words(name, getattr(args, name)) for name in LISTS}
    columns |= {name: {"yes": True, "no": False, None: None}[getattr(args, name)] for name in YES_NO}
    if args.document:
        columns["document"] = files.add_path(catalogue, args.document).sha256
    return columns


def _words(name, typed):
    found = inputs.split(typed)
    if name != "places":
        return [word.lower() for word in found]
    return ["world"] if [word.lower() for word in found] == ["world"] else found


def as_object(kept):
    """A permission as a JSON object."""
    from dataclasses import asdict

    return {**asdict(kept), "id": f"p{kept.id}"}
