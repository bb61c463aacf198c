"""registry due: what changed since it was decided, what runs out soon, and what was sold without a decision."""

from dataclasses import asdict

from registry.catalogue import store, watch, words
from registry.cli import inputs, shown
from registry.facts import edtf


def arguments(parser):
    """Adds the options of the command."""
    inputs.day_option(parser)
    parser.add_argument("--within", type=inputs.whole("--within", 0, 36525), default=watch.WITHIN, metavar="DAYS",
                        help=f"How many days ahead count as soon; without it {watch.WITHIN}.")


def run(args):
    """0; it only reports."""
    catalogue = store.open_catalogue(args.catalogue)
    found = watch.due(catalogue, inputs.day_of(args.on), args.within)
    if args.json:
        sold = [{"job": key, "title": title, "sold_on": day} for key, title, day in found.undecided]
        shown.show_json({"as_of": edtf.iso(found.day), "changed": [asdict(one) for one in found.changed],
                         "ending": [asdict(one) for one in found.ending], "sold_without_decision": sold,
                         "not_legal_advice": words.ADVICE})
        return 0
    _block("Changed since it was decided", [_changed(one) for one in found.changed])
    _block("Running out, or to look at again", [f"{one.day}  {one.says}{_jobs(one)}" for one in found.ending])
    _block("Sold without a decision", [f"{title} [{key}], sold on {day}" for key, title, day in found.undecided])
    if not (found.changed or found.ending or found.undecided):
        print("Nothing is due.")
    print("\n" + shown.advice())
    return 0


def _changed(one):
    was = f"{one.market} was {words.MARKET[one.then]}, is now {words.MARKET[one.now]}" if one.market else "can no longer be answered"
    return f"{one.title} [{one.job}]: {was} (decided {one.decided} by {one.by}; moved: {one.because}). {one.sentence}"


def _block(title, lines):
    if lines:
        print(f"{title}")
        for line in lines:
            print(shown.paragraph(line, 4, "  - "))
        print()


def _jobs(one):
    return f" Jobs: {', '.join(one.jobs)}." if one.jobs else ""
