"""What the commands about marks share: options for the columns, a mark as an object and as text."""

from dataclasses import asdict

from registry.catalogue import marks
from registry.catalogue.mark_tables import STATES
from registry.clearance.marks import DEAD, EXACT, STRONG, WEAK
from registry.cli import inputs, shown
from registry.errors import RegistryError

STRENGTH = {EXACT: "HOLD", STRONG: "caution", WEAK: "mild caution", DEAD: "dead mark"}

TEXTS = {
    "words": "The words of the mark, as registered.",
    "owner": "Who owns it.",
    "office": "The office: WIPO ST.3 code such as US, GB, EM (European Union), BX (Benelux), WO (international).",
    "number": "The registration number, else that of the application.",
    "filed": "The day it was filed.",
    "registered": "The day it was registered.",
    "expires": "The day on which the registration runs out.",
    "look_again": "The day on which to look it up again.",
    "nice_edition": "The edition of the Nice classes, such as 12.",
    "status_words": "What the office says of its state, word for word.",
    "goods": "The goods and services, in the words of the register.",
    "avoid": "What to avoid, such as the name as a badge on labels.",
    "note": "Notes; for a picture or shape, what it shows.",
}


def columns_options(parser):
    """Adds an option for every column of a mark, and --work."""
    for name, says in TEXTS.items():
        parser.add_argument("--" + name.replace("_", "-"), metavar="DAY" if name in marks.DAYS else "TEXT", help=says)
    parser.add_argument("--kind", choices=marks.KINDS, help="What the mark is.")
    parser.add_argument("--state", choices=STATES, help="Our short word for its state.")
    parser.add_argument("--classes", metavar="N,N", help="Nice classes, joined by commas, such as 20,35.")
    parser.add_argument("--work", action="append", default=None, metavar="KEY",
                        help="The key of a work that the mark belongs to; repeat for several. An empty one takes all away.")


def columns_of(args):
    """The columns that were typed."""
    names = [*TEXTS, "kind", "state"]
    found = {name: getattr(args, name).strip() for name in names if getattr(args, name) is not None}
    if "office" in found:
        found["office"] = found["office"].upper()
    if args.classes is not None:
        found["classes"] = classes_of(args.classes)
    return {name: (value or None) if name in marks.DAYS else value for name, value in found.items()}


def works_of(args):
    """Keys of the works that were typed, none for an empty one; None when --work was not typed."""
    return None if args.work is None else [key for key in args.work if key.strip()]


def classes_of(text):
    """Nice classes in a text such as 20,35; RegistryError for what is no number."""
    found = inputs.split([text.replace(" ", ",")])
    bad = [one for one in found if not (one.isascii() and one.isdigit())]
    if bad:
        raise RegistryError(f"--classes: '{bad[0]}' is no class; whole numbers from 1 to 45, joined by commas, are allowed.")
    wrong = next((one for one in found if not 1 <= int(one[:9]) <= 45), None)
    if wrong:
        raise RegistryError(f"--classes: there is no class {wrong[:9]}; Nice classes are whole numbers from 1 to 45.")
    return [int(one) for one in found]


def as_object(mark):
    """A mark as an object for JSON."""
    return {"key": mark.key, **asdict(mark)}


def rows(mark):
    """Rows of what is on record about a mark."""
    yield "kind", mark.kind
    yield "owner", mark.owner
    yield "office, number", ", ".join(filter(None, (mark.office, mark.number)))
    yield "state", mark.state + (f" (the office: \"{mark.status_words}\")" if mark.status_words else "")
    for name in marks.DAYS:
        yield name.replace("_", " "), getattr(mark, name) or ""
    edition = f" (Nice, edition {mark.nice_edition})" if mark.classes and mark.nice_edition else ""
    yield "classes", ", ".join(map(str, mark.classes)) + edition
    yield "goods", mark.goods
    yield "to avoid", mark.avoid
    yield "works", ", ".join(mark.works)
    yield "note", mark.note


def line(mark):
    """A mark as a row of a list."""
    classes = f"class {', '.join(map(str, mark.classes))}" if mark.classes else "no class on record"
    entry = " ".join(filter(None, (mark.office, mark.number)))
    return mark.key, mark.words or "(no words)", ", ".join(filter(None, (mark.state, entry, classes, mark.owner)))


def show_search(one):
    """One recorded search as a line."""
    classes = f", class {', '.join(map(str, one.classes))}" if one.classes else ""
    says = f"{one.at}  {one.by} searched {one.place} for '{one.words}'{classes}: {one.result}. {one.note}"
    print(shown.paragraph(says.rstrip(), 4, "  "))
