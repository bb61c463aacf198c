"""registry date: how a date is understood, or why it is not."""

from registry.cli import shown
from registry.errors import BadDate
from registry.facts import edtf
from registry.law.world import APPROXIMATE_YEARS, UNCERTAIN_YEARS

FLAGS = (
    ("uncertain", "uncertain (?)"),
    ("approximate", "approximate (~)"),
    ("open_start", "open start"),
    ("open_end", "open end"),
    ("unknown_start", "unknown start"),
    ("unknown_end", "unknown end"),
)


def arguments(parser):
    """Adds the argument of the command."""
    parser.add_argument("date", help="A date in EDTF, such as 1928, 192X, 1928~, 1928-05-17, [..1930] or 1925/1930.")


def tidy(words):
    """The words with dates before year 0, which begin with a hyphen as options do, at the end."""
    early = [word for word in words if len(word) > 1 and word[0] == "-" and word[1] in "0123456789X"]
    return [word for word in words if word not in early] + (["--", *early] if early else [])


def run(args):
    """0 when the date is understood, 1 when it is refused."""
    try:
        span = edtf.parse(args.date)
    except BadDate:
        if args.json:
            shown.show_json({"earliest": None, "latest": None, "valid": False, "reckoned_earliest": None, "reckoned_latest": None})
        raise
    earliest, latest = edtf.iso(span.earliest), edtf.iso(span.latest)
    if args.json:
        low, high = map(edtf.iso, edtf.padded(span, UNCERTAIN_YEARS, APPROXIMATE_YEARS))
        shown.show_json({"earliest": earliest, "latest": latest, "valid": True, "reckoned_earliest": low, "reckoned_latest": high})
        return 0
    print(shown.plain(span.text))
    print(shown.table(list(_rows(span, earliest, latest))))
    return 0


def _rows(span, earliest, latest):
    yield "meaning", edtf.describe(span)
    yield "earliest", earliest or ("open" if span.open_start else "unknown")
    yield "latest", latest or ("open" if span.open_end else "unknown")
    yield "flags", ", ".join(says for name, says in FLAGS if getattr(span, name)) or "none"
    if span.uncertain or span.approximate:
        low, high = edtf.padded(span, UNCERTAIN_YEARS, APPROXIMATE_YEARS)
        years = UNCERTAIN_YEARS * span.uncertain + APPROXIMATE_YEARS * span.approximate
        yield "reckoned", f"{edtf.iso(low) or '..'} to {edtf.iso(high) or '..'}: a doubtful date is given {years} years on either side"
