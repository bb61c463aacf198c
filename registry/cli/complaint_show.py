"""registry complaint show: a complaint with all its answers."""

from registry.catalogue import complaints, store
from registry.cli import complaint_shown, shown


def arguments(parser):
    """Adds the argument of the command."""
    parser.add_argument("complaint", help="The key of the complaint, such as c1.")


def run(args):
    """0; UnknownRecord when there is no such complaint."""
    catalogue = store.open_catalogue(args.catalogue)
    one = complaints.get(catalogue, args.complaint)
    if args.json:
        shown.show_json(complaint_shown.as_object(one))
        return 0
    print(shown.heading(f"Complaint of {one.sender}", one.key))
    print(shown.table([row for row in complaint_shown.rows(one, store.today()) if row[1]]))
    for each in one.answers:
        print(shown.paragraph(f"{each.answered}  {each.by}, {each.outcome}: {each.says}", 4, "  "))
    print("\n" + shown.advice())
    return 0
