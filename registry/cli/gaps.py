"""registry gaps: facts that answers for jobs hang on and that rest on no evidence, those that hold up most first."""

from registry.catalogue import store, support, words
from registry.cli import inputs, shown
from registry.facts import edtf

MANY = 10


def arguments(parser):
    """Adds the options of the command."""
    inputs.day_option(parser)
    parser.add_argument("--all", action="store_true", help=f"Lists all gaps; without it the first {MANY}.")


def run(args):
    """0; it only reports."""
    catalogue = store.open_catalogue(args.catalogue)
    day = inputs.day_of(args.on)
    missing = support.missing(catalogue, day)
    found = missing.gaps
    if args.json:
        shown.show_json({"as_of": edtf.iso(day), "gaps": [_object(gap) for gap in found], "unjudged": missing.unjudged,
                         "not_legal_advice": words.ADVICE})
        return 0
    for key, says in missing.unjudged.items():
        print(shown.paragraph(f"The job {key} cannot be judged and is not counted below: {says}") + "\n")
    if not found and not missing.unjudged:
        print("Every fact that an answer for a job hangs on rests on evidence, or no job uses a work yet.")
    for number, gap in enumerate(found if args.all else found[:MANY], 1):
        _show(number, gap)
    if len(found) > MANY and not args.all:
        print(f"\n... and {len(found) - MANY} more: registry gaps --all")
    print("\n" + shown.advice())
    return 0


def _show(number, gap):
    one = gap.support
    print(shown.paragraph(f"{shown.fact(one.fact)} of {one.work} ({one.title}): {support.WORDS[one.basis]}.", 5, f"{number:>3}. "))
    sold = f", {len(gap.sold)} of them sold" if gap.sold else ""
    jobs, places = f"{len(gap.jobs)} job{'s' * (len(gap.jobs) > 1)}{sold}", ", ".join(one.places)
    print(shown.paragraph(f"{jobs}, {gap.pieces} pieces: {', '.join(gap.jobs)}; in {places}.", 5))
    print(shown.paragraph(f"{gap.question} Look in: {gap.where}.", 5))


def _object(gap):
    return {**support.as_objects([gap.support])[0], "jobs": list(gap.jobs), "sold": list(gap.sold), "pieces": gap.pieces,
            "question": gap.question, "where_to_look": gap.where}
