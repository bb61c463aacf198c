"""registry permission list: the permissions on record, of one work or of all, with the pieces used so far."""

from registry.catalogue import clear, permissions, store, works
from registry.cli import shown
from registry.cli.permission_add import as_object


def arguments(parser):
    """Adds the argument of the command."""
    parser.add_argument("work", nargs="?", help="The key of a work; without it all works.")


def run(args):
    """0."""
    catalogue = store.open_catalogue(args.catalogue)
    keys = [args.work] if args.work else clear.permitted_works(catalogue)
    if args.work:
        works.get(catalogue, args.work)
    found = [one for key in keys for one in permissions.of_work(catalogue, key)]
    drawn = {one.id: clear.drawn(catalogue, one) for one in found}
    if args.json:
        shown.show_json([as_object(one) | {"used": drawn[one.id]} for one in found])
        return 0
    if not found:
        print("No permission is on record.")
        return 0
    print(shown.table([(f"p{one.id}", one.work, one.kind, line(one, drawn[one.id])) for one in found]))
    print("\n" + shown.advice())
    return 0


def line(one, used):
    """A permission in one line, without its number, work and kind; `used` pieces were drawn on it."""
    parts = [one.licensor, one.spdx or "", f"for {', '.join(one.uses)}" if one.uses else "",
             f"in {', '.join(one.places)}" if one.places else "",
             f"on {', '.join(one.media)}" if one.media else "", f"{used} of {one.quantity} pieces used" if one.quantity else "",
             {True: "goods may be sold", False: "not for sale", None: "sale not mentioned"}[one.commercial] if not one.spdx else "",
             f"from {one.valid_from}" if one.valid_from else "", f"to {one.valid_to}" if one.valid_to else "",
             {True: "", False: "no changes", None: "changes not mentioned"}[one.changes_allowed] if not one.spdx else "",
             f"credit: {one.credit_line}" if one.credit_line else "", one.note]
    return "; ".join(part for part in parts if part)
