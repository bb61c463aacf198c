"""registry mark search: which of the marks on record a wording comes near, place by place."""

from registry.catalogue import mark_search, store, words
from registry.catalogue.mark_rules import products
from registry.clearance.goods import goods
from registry.clearance.marks import EXACT, as_json
from registry.cli import inputs, mark_options, shown
from registry.facts import edtf


def arguments(parser):
    """Adds the arguments of the command."""
    parser.epilog = "Ends with 3 when an exact live mark stands in the same class and place, else with 0, which is no clearance."
    parser.add_argument("words", help="The words as they would stand on the product.")
    inputs.places_option(parser)
    inputs.day_option(parser)
    parser.add_argument("--product", default="", metavar="TEXT",
                        help="What is made, such as \"carved wooden sign\"; its Nice class is looked up.")
    parser.add_argument("--classes", metavar="N,N", help="Nice classes, instead of a product.")


def run(args):
    """3 when an exact live mark stands in the same class and place, else 0; which is no clearance."""
    catalogue = store.open_catalogue(args.catalogue)
    places, day = inputs.chosen(catalogue, args.places), inputs.day_of(args.on)
    classes = mark_options.classes_of(args.classes) if args.classes else ()
    found = mark_search.search(catalogue, args.words, places, day, args.product, classes)
    told = mark_search.told(catalogue, places, [args.words])
    made = goods(args.product, products()) if args.product else None
    if args.json:
        shown.show_json({
            "words": args.words, "as_of": edtf.iso(day),
            "classes": sorted(classes or (made.classes if made else ())), "goods": made.says if made else None,
            "places": [{"place": one.place, "count": one.count, "matches": [as_json(match) for match in one.found]} for one in found],
            "told": told, "not_legal_advice": words.ADVICE,
        })
    else:
        _show(found, told, made)
    return 3 if any(match.strength == EXACT for one in found for match in one.found) else 0


def _show(found, told, made):
    if made:
        print(shown.paragraph(f"Goods: {made.says}") + "\n")
    for places, one in _alike(found):
        near = f"{one.count} mark{'' if one.count == 1 else 's'} near" if one.count else "no mark on record comes near"
        print(shown.paragraph(f"{', '.join(places)}: {near}", 2, ""))
        for match in one.found:
            print(shown.paragraph(f"{mark_options.STRENGTH[match.strength]}: [{match.mark.key}] {match.says}", 4, "  - "))
            if match.question:
                print(shown.paragraph(f"Find out: {match.question} Look in: {match.where}.", 4))
        if one.count > len(one.found):
            print(f"    ... and {one.count - len(one.found)} more.")
    print()
    for line in told:
        print(shown.paragraph(line))
    print(shown.advice())


def _alike(found):
    """(codes, Searched) with places of the same answer together; the Searched is that of the first."""
    groups = {}
    for one in found:
        groups.setdefault(tuple((match.mark.key, match.strength, match.reach) for match in one.found), ([], one))[0].append(one.place)
    return groups.values()
