"""registry check: may this work, or this job, be sold in these places on that day, and why."""

from registry.catalogue import answers, jobs, store, words, works
from registry.cli import check_text, inputs, shown
from registry.errors import RegistryError
from registry.facts import edtf
from registry.law.verdict import FREE, as_json


def arguments(parser):
    """Adds the arguments of the command."""
    parser.add_argument("work", nargs="?", help="The key of a work.")
    parser.add_argument("--job", metavar="KEY", help="The key of a job, instead of a work.")
    inputs.places_option(parser)
    inputs.day_option(parser)
    parser.add_argument("--brief", action="store_true", help="Shows the table of answers without reasons.")
    parser.add_argument("--dry", action="store_true", help="Records nothing in the ledger.")


def run(args):
    """0 when all is clear everywhere, 3 when it is not."""
    if (args.work is None) == (args.job is None):
        raise RegistryError("Name one thing to check: the key of a work, or --job and the key of a job.")
    catalogue = store.open_catalogue(args.catalogue)
    day = inputs.day_of(args.on)
    return (_job if args.job else _work)(catalogue, args, day)


def _work(catalogue, args, day):
    record = works.get(catalogue, args.work)
    found = answers.answer_layers(catalogue, record, inputs.chosen(catalogue, args.places), day)
    if not args.dry:
        answers.record(catalogue, found)
    if args.json:
        shown.show_json([_object(answer) for answer in found])
    else:
        check_text.show_work(record, found, day, args.brief)
    return 0 if all(answer.verdict.status == FREE for answer in found) else 3


def _job(catalogue, args, day):
    job = jobs.get(catalogue, args.job)
    found = answers.answer_job(catalogue, job, inputs.chosen(catalogue, args.places, job.markets), day)
    if not args.dry:
        answers.record(catalogue, [part for market in found.markets for part in market.parts])
    if args.json:
        shown.show_json({"job": job.key, "as_of": edtf.iso(day), "markets": [_market(market) for market in found.markets], "not_legal_advice": words.ADVICE})
    else:
        check_text.show_job(job, found, args.brief)
    return 0 if all(market.answer == answers.NO_BAR for market in found.markets) else 3


def _object(answer):
    return as_json(answer.work.key, answer.place, answer.day, answer.verdict)


def _market(market):
    return {"market": market.market, "answer": market.answer, "reason": market.reason, "works": [_object(part) for part in market.parts]}
