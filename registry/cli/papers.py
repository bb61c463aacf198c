"""What the commands for printed papers have in common."""

from pathlib import Path

from registry.catalogue import store, whole
from registry.cli import inputs, shown
from registry.errors import RegistryError
from registry.exchange import sheet


def arguments(parser):
    """Adds the arguments that every paper takes."""
    parser.add_argument("job", help="The key of the job.")
    parser.add_argument("out", nargs="?", metavar="OUT.html",
                        help="The file to write, one page that needs nothing else; one that is there is replaced."
                             " May be left out with --json.")
    inputs.day_option(parser)


def write(args, page, what, part=None, private=False):
    """0 after `page(found, pictures)` was written; with --json what it shows is printed, `part` of it when given."""
    if args.out is None and not args.json:
        raise RegistryError(f"Name the file to write, such as {args.job}-{what}.html.")
    catalogue = store.open_catalogue(args.catalogue)
    found = sheet.collect(catalogue, args.job, inputs.day_of(args.on), private)
    size = save(args.out, page(found, sheet.embedded(catalogue, found))) if args.out is not None else 0
    if args.json:
        shown.show_json(part(found) if part else found)
    else:
        print(f"Wrote the {what} of {shown.plain(found['job']['title'])} to {shown.plain(args.out)} ({size:,} bytes).")
        print(shown.advice())
    return 0


def save(name, text):
    """The size of the file that was written; RegistryError when its name does not end in .html, or it cannot be."""
    if Path(name).suffix.lower() not in (".html", ".htm"):
        raise RegistryError(f"{name}: a page is written to a file whose name ends in .html.")
    content = text.encode("utf-8")
    whole.write(name, content, "The page")
    return len(content)
