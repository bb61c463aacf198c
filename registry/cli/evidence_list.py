"""registry evidence list: the evidence for the facts of one work, or of all."""

from registry.catalogue import evidence, store, support, works
from registry.cli import shown


def arguments(parser):
    """Adds the argument of the command."""
    parser.add_argument("work", nargs="?", help="The key of a work; without it the evidence for all works.")


def run(args):
    """0; UnknownRecord when there is no such work."""
    catalogue = store.open_catalogue(args.catalogue)
    found = evidence.of_work(catalogue, works.get(catalogue, args.work).key) if args.work else list(evidence.listed(catalogue))
    if args.json:
        shown.show_json([as_object(one) | {"still_as_then": _current(catalogue, one)} for one in found])
        return 0
    rows = [(f"e{one.id}", one.work, shown.fact(one.fact), told(catalogue, one)) for one in found]
    print(shown.table(rows) if rows else "No evidence is recorded yet: registry evidence add WORK --for FACT --file SCAN")
    return 0


def told(catalogue, one):
    """As `line`, and whether the fact was altered since."""
    return line(one) if _current(catalogue, one) else f"{line(one)} [{support.WORDS['outdated']}]"


def line(one):
    """A piece of evidence in one line, without its work and fact."""
    parts = [support.WORDS[one.basis], one.kind, one.title, one.place, one.url, f"seen on {one.seen_on}" if one.seen_on else "",
             one.seen_by and f"by {one.seen_by}", one.file and f"file {one.file[:12]}", one.note]
    return "; ".join(part for part in parts if part)


def as_object(one):
    """A piece of evidence as a JSON object."""
    return {**evidence.body(one), "id": f"e{one.id}"}


def _current(catalogue, one):
    return support.holds(works.get(catalogue, one.work), one)
