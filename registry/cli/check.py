"""registry check: may this work, or this job, be sold in these places on that day, and why."""

import sqlite3
import sys
from dataclasses import replace

from registry.catalogue import answers, clear, jobs, mark_search, store, support, words, works
from registry.clearance import suppose
from registry.clearance.model import NO_BAR, WORST
from registry.cli import check_support, check_text, inputs, shown
from registry.errors import RegistryError
from registry.law.verdict import as_json
from registry.rulebook import rulebook


def arguments(parser):
    """Adds the arguments of the command."""
    parser.epilog = "Ends with 0 when no bar was found anywhere, else with 3."
    parser.add_argument("work", nargs="?", help="The key of a work.")
    parser.add_argument("--job", metavar="KEY", help="The key of a job, instead of a work.")
    inputs.places_option(parser)
    inputs.day_option(parser)
    parser.add_argument("--suppose", action="append", default=[], metavar="FACT=VALUE",
                        help="Answers as if a fact were so, such as us_renewed=false, died=1950 or creators.0.died=1950;"
                             " for one work of a job w1:died=1950, for one permission p1:to=2027-12-31."
                             " Repeat for several. Nothing of it is kept.")
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
    record = _supposed(works.get(catalogue, args.work), args.suppose)
    found = answers.answer_layers(catalogue, record, inputs.chosen(catalogue, args.places), day)
    lost = "" if args.dry or args.suppose else _not_recorded(catalogue, found)
    chains = clear.chains(clear.desk(catalogue, day), record, dict.fromkeys(answer.place for answer in found))
    hang = () if args.suppose else support.of_answers(catalogue, found)
    if args.json:
        shown.show_json([_object(answer, hang, chains[answer.place]) | _told(args, lost) | {"not_legal_advice": words.ADVICE}
                         for answer in found])
    else:
        check_text.show_work(record, found, day, args.brief, args.suppose, chains, hang)
    _warn(lost)
    return 0 if all(layer.decision == NO_BAR for line in chains.values() for layer in line) else 3


def _supposed(record, texts):
    """The WorkRecord with supposed facts, which are kept nowhere."""
    facts, vocabulary = record.facts, rulebook().vocabulary
    for text in texts:
        told = suppose.read(text)
        if told.about not in (None, record.key):
            raise RegistryError(f"'{text}' is about {told.about}; this check is about {record.key}.")
        facts = suppose.facts(facts, told.path, told.value, vocabulary)
    return replace(record, facts=facts)


def _told(args, lost):
    return ({"supposed": args.suppose} if args.suppose else {}) | ({"not_recorded": lost} if lost else {})


def _not_recorded(catalogue, found):
    """Why the answers could not be put into the ledger, "" when they were: whoever asks gets the answer all the same."""
    try:
        answers.record(catalogue, found)
    except RegistryError as error:
        return str(error)
    except sqlite3.Error as error:
        return f"The catalogue cannot be written: {error}."
    return ""


def _warn(lost):
    if lost:
        print(f"NOT RECORDED: the ledger does not hold this answer. {lost}", file=sys.stderr)


def _job(catalogue, args, day):
    from registry.clearance.shown import as_json as job_json
    from registry.cli import check_job

    job, told = jobs.get(catalogue, args.job), [suppose.read(text) for text in args.suppose]
    at = clear.desk(catalogue, day)
    found = clear.answer(at, job, inputs.named(args.places), told)
    lost = "" if args.dry or told else _not_recorded(catalogue, clear.relied_on(at, job, found))
    hang = () if told else support.of_job(at, found)
    looked = mark_search.told(catalogue, [place.place for market in found.markets for place in market.places], filter(None, [job.wording]))
    if args.json:
        answer = job_json(found) | {"decisive": support.as_objects(hang), "marks": looked}
        shown.show_json(answer | _told(args, lost) | {"not_legal_advice": words.ADVICE})
    else:
        check_job.show(job, found, args.brief, args.suppose, hang, looked)
    _warn(lost)
    return 0 if found.clear else 3


def _object(answer, hang, line):
    """The answer of the law for one version, with what it comes to in its chain, and what the whole chain comes to."""
    layer = next(one for one in line if one.work == answer.work.key)
    whole = max((one.decision for one in line), key=WORST.get)
    return as_json(answer.work.key, answer.place, answer.day, answer.verdict) | {
        "decision": layer.decision, "decision_says": layer.says, "decision_of_all_versions": whole,
        "decisive": check_support.of_place(hang, answer.work.key, answer.place)}
