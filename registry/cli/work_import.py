"""registry work import: records works from a table, or from lines of facts."""

from registry.catalogue import store
from registry.cli import shown
from registry.exchange import works_in

SHOWN = 12  # works of a preview


def arguments(parser):
    """Adds the arguments of the command."""
    parser.add_argument("table", metavar="TABLE",
                        help="A CSV table whose first line names the columns, such as title, kind, creator1.name,"
                             " creator1.died, publication1.date, publication1.country; or a file of facts, one JSON"
                             " object a line, whose name ends in .jsonl.")
    parser.add_argument("--preview", action="store_true",
                        help="Shows what would be recorded and every cell that cannot be; records nothing.")
    parser.add_argument("--rest", action="store_true", help="Records the rows in which nothing is wrong; without it all or none.")
    parser.add_argument("--without", action="store_true",
                        help="Leaves out the columns that are not understood; without it such a table is refused.")


def run(args):
    """0 when works were recorded, or could be; 1 when a cell cannot be used."""
    catalogue = store.open_catalogue(args.catalogue)
    table = works_in.read(catalogue, args.table)
    if args.preview:
        return _preview(args, table)
    added = works_in.add(catalogue, table, args.rest, args.without)
    if args.json:
        shown.show_json({"recorded": [record.key for record in added], "left_out": list(table.lost),
                         "wrong": [_cell(cell) for cell in table.wrong]})
        return 1 if table.wrong else 0
    if table.lost:
        print(shown.paragraph(f"Columns that were left out: {', '.join(table.lost)}."))
    print(f"Recorded {len(added)} work{'s' * (len(added) != 1)}{_span(added)}.")
    _wrong(table)
    return 1 if table.wrong else 0


def _span(added):
    if not added:
        return ""
    first, last = added[0].key, added[-1].key
    return f": {first} to {last}" if len(added) > 1 else f": {first}"


def _preview(args, table):
    good = [row for row in table.rows if not row.wrong]
    if args.json:
        shown.show_json({"columns": [{"name": name, "taken_for": meant} for name, meant in table.columns],
                         "works": [{"line": row.line, "facts": row.facts, **row.beside} for row in good],
                         "not_understood": list(table.lost), "wrong": [_cell(cell) for cell in table.wrong]})
        return 1 if table.wrong else 0
    if table.lost:
        print(shown.paragraph(f"Columns that are not understood, so that the table is refused unless --without leaves"
                              f" them out: {', '.join(table.lost)}."))
    print(f"{len(good)} of {len(table.rows)} works could be recorded; nothing was.")
    if good:
        print(shown.table([(str(row.line), row.beside.get("key", ""), _named(row.facts)) for row in good[:SHOWN]]))
    if len(good) > SHOWN:
        print(f"  ... and {len(good) - SHOWN} more")
    _wrong(table)
    return 1 if table.wrong else 0


def _named(facts):
    makers = ", ".join(one["name"] for one in facts.get("creators") or () if one.get("name"))
    return "; ".join(part for part in (facts.get("title"), shown.kind(facts.get("kind")), makers) if part) or "without title"


def _wrong(table):
    if table.wrong:
        print("\nWhat cannot be used")
    for cell in table.wrong:
        print(shown.paragraph(works_in.said(cell), 4, "  - "))


def _cell(cell):
    return {"line": cell.line, "column": cell.column, "typed": cell.typed, "says": cell.says}
