"""registry label: what may be said of a work in published vocabularies, place by place."""

from registry.catalogue import store, words
from registry.cli import inputs, shown
from registry.exchange import json_ld, labels


def arguments(parser):
    """Adds the arguments of the command."""
    parser.add_argument("work", help="The key of the work.")
    inputs.places_option(parser)
    inputs.day_option(parser)


def run(args):
    """0; UnknownRecord when there is no such work."""
    catalogue = store.open_catalogue(args.catalogue)
    found = labels.label(catalogue, args.work, inputs.chosen(catalogue, args.places), inputs.day_of(args.on))
    if args.json:
        shown.show_json({**found, "spdx": labels.spdx(found), "json_ld": json_ld.of_work(found)})
        return 0
    print(shown.heading(found["title"], found["work"]))
    print(shown.table([_row(one) for one in found["places"]]))
    whole = found["whole"]
    print("\n" + shown.paragraph(f"All together: {_said(whole['statement'])}. {whole['says']}"))
    if whole["statement"]:
        print(shown.paragraph(f"Address: {whole['statement']['uri']}"))
    print(shown.paragraph(f"SPDX: {labels.spdx(found) or 'none'}"))
    print(shown.paragraph("'--json' adds Dublin Core, schema.org and PREMIS."))
    print("\n" + shown.paragraph(words.ADVICE))
    return 0


def _row(one):
    status = one["premis"]["copyrightInformation"]["copyrightStatus"]
    return one["place"], _said(one["statement"]), status, one["says"]


def _said(statement):
    return f"{statement['id']} ({statement['label']})" if statement else "no statement"
