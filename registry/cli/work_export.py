"""registry work export: the works as a table, or as facts, one JSON object a line."""

import io
import os
import sys
from pathlib import Path

from registry.catalogue import store, whole
from registry.cli import shown
from registry.errors import RegistryError
from registry.exchange import works_out

CSV, LINES = "csv", "jsonl"


def arguments(parser):
    """Adds the arguments of the command."""
    parser.add_argument("out", metavar="OUT", help="The file to write, of the kind that its name ends in:"
                                                   " .csv or .jsonl; '-' is standard output.")
    parser.add_argument("--as", dest="kind", choices=(CSV, LINES),
                        help="What to write where the name does not tell: a table, or facts for 'registry assess';"
                             " on standard output a table, with --json facts.")


def run(args):
    """0 when the works were written."""
    kind = args.kind or {".csv": CSV, ".jsonl": LINES}.get(Path(args.out).suffix.lower()) or _standard(args)
    if kind is None:
        raise RegistryError(f"{args.out}: the name tells no kind of file; end it in .csv or .jsonl, or say --as {CSV} or --as {LINES}.")
    if args.out == "-" and args.json and kind == CSV:
        raise RegistryError("A table is no JSON; leave out --json, or say --as jsonl.")
    catalogue = store.open_catalogue(args.catalogue)
    if args.out == "-":
        _write(catalogue, kind, sys.stdout)
        for says in works_out.left_out(catalogue, kind == CSV):
            print(says, file=sys.stderr)
        return 0
    if os.path.lexists(args.out):
        raise RegistryError(f"{args.out} is there already; name a new file.")
    with whole.made(args.out, "The works") as path, open(path, "x", encoding="utf-8", newline="") as out:
        count = _write(catalogue, kind, out)
    left = works_out.left_out(catalogue, kind == CSV)
    if args.json:
        shown.show_json({"file": args.out, "works": count, "left_out": left})
        return 0
    print(f"Wrote {count} work{'s' * (count != 1)} to {shown.plain(args.out)}.")
    for says in left:
        print(shown.paragraph(says))
    return 0


def _standard(args):
    """What goes to standard output where nothing says so; None for a file."""
    return (LINES if args.json else CSV) if args.out == "-" else None


def _write(catalogue, kind, out):
    if kind == CSV:
        text = io.StringIO(newline="")
        count = works_out.table(catalogue, text)
        out.write(text.getvalue())
        return count
    count = 0
    for line in works_out.lines(catalogue):
        out.write(line + "\n")
        count += 1
    return count
