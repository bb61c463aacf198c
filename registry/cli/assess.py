"""`registry assess`: facts, one JSON object a line, in; one JSON object per work and place out."""

import json
import sys
from datetime import date

from registry.errors import BadFacts, RegistryError
from registry.facts import edtf
from registry.facts.work import read_work
from registry.law.known import Base
from registry.law.verdict import as_json, judge
from registry.rulebook import places, rulebook

HELP = "Reckon the likely status of works given as facts, one JSON object a line (not legal advice)."


def arguments(parser):
    """Add the options of the command to its parser."""
    parser.add_argument("file", help="a file with one facts object a line; - is standard input")
    parser.add_argument("--in", dest="places", required=True, metavar="PLACES",
                        help="places, such as US,GB or the group EU, or all")
    parser.add_argument("--on", metavar="DAY", help="the day asked about, such as 2026-07-01 (without it: today)")
    parser.add_argument("--jsonl", "--json", action="store_true", help="one JSON object a line (this is always so)")


def run(args):
    """0 when every line was answered, 1 when a line was refused; the others are answered all the same."""
    book = rulebook()
    codes = places(args.places.split(","), book)
    as_of = edtf.day(args.on) if args.on else date.today().toordinal()
    refused = 0
    with _lines(args.file) as lines:
        for number, line in enumerate(lines, 1):
            if not line.strip():
                continue
            try:
                _answer(line, number, codes, as_of, book)
            except RegistryError as error:
                refused = 1
                sys.stdout.flush()
                print(f"{args.file}, line {number}: {error}", file=sys.stderr)
    return refused


def _answer(line, number, codes, as_of, book):
    work = read_work(_object(line), book.vocabulary)
    base = Base(work, book.laws, as_of)
    for code in codes:
        verdict = judge(work, code, book.laws, as_of, base)
        answer = as_json(work.id or str(number), code, as_of, verdict)
        sys.stdout.write(_ENCODE(answer) + "\n")


_ENCODE = json.JSONEncoder(ensure_ascii=False, separators=(", ", ": ")).encode


def _object(line):
    try:
        return json.loads(line, object_pairs_hook=_once)
    except ValueError as error:
        raise BadFacts(f"the line is not JSON: {error}.") from None


def _once(pairs):
    found = dict(pairs)
    if len(found) < len(pairs):
        names = [name for name, _value in pairs]
        twice = next(name for name in names if names.count(name) > 1)
        raise BadFacts(f"field {twice} is given twice in one object; give it once.")
    return found


def _lines(name):
    if name == "-":
        return _Kept(sys.stdin)
    try:
        return open(name, encoding="utf-8")
    except OSError as error:
        raise RegistryError(f"The file {name} cannot be read: {error.strerror}.") from None


class _Kept:
    """Standard input as a context that leaves it open."""

    def __init__(self, stream):
        self.stream = stream

    def __enter__(self):
        return self.stream

    def __exit__(self, *_):
        return False
