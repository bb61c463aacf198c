"""registry clear: records that a person cleared a job, with the answers it relied on; against a hold only with a reason."""

from registry.catalogue import decisions, store, words
from registry.cli import inputs, shown


def arguments(parser):
    """Adds the arguments of the command."""
    parser.add_argument("job", help="The key of the job.")
    parser.add_argument("--by", required=True, metavar="NAME", help="Who decides.")
    parser.add_argument("--note", required=True, metavar="TEXT", help="What is decided, and on what.")
    parser.add_argument("--although", metavar="REASON", help="Why it goes ahead although a market is on hold;"
                                                             " the decision is marked as such for ever.")
    parser.add_argument("--look-again", metavar="DAY", help="A day on which to look at it again.")
    inputs.places_option(parser)


def run(args):
    """0 when the decision was recorded; it is never changed afterwards, only followed by another."""
    catalogue = store.open_catalogue(args.catalogue)
    places = inputs.named(args.places) or None
    row = decisions.decide(
        catalogue, args.job, args.by, args.note, store.today(), args.although, args.look_again, places)
    if args.json:
        shown.show_json({"seq": row.seq, "at": row.at, "digest": row.digest, "decision": row.body})
        return 0
    body = row.body
    print(f"Recorded as row {row.seq} of the ledger: {shown.plain(body['by'])} cleared {args.job}.")
    print(shown.table([(one["market"], words.MARKET[one["decision"]]) for one in body["markets"]]))
    if body["against"]:
        print(shown.paragraph(f"Against a hold in {', '.join(body['against'])}, with the reason: {body['although']}."))
    if body["unsettled"]:
        print(shown.paragraph(f"Not settled in {', '.join(body['unsettled'])}: the question stays open."))
    print("\n" + shown.advice())
    return 0
