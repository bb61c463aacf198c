"""`registry assess`: facts, one JSON object a line, in; one JSON object per work and place out."""

import json
import sys
from datetime import date

from registry.catalogue import words
from registry.catalogue.places import opened
from registry.errors import BadDate, RegistryError
from registry.exchange.fact_lines import alone, parted
from registry.facts import edtf, json_values
from registry.facts.work import read_work
from registry.law.known import Base
from registry.law.verdict import as_json, judge
from registry.rulebook import rulebook


def arguments(parser):
    """Add the options of the command to its parser."""
    parser.add_argument("file", help="a file with one facts object a line, in UTF-8; - is standard input")
    parser.add_argument("--in", dest="places", required=True, metavar="PLACES",
                        help="places, such as US,GB or the group EU, a group without some such as 'EU minus ES', or all")
    parser.add_argument("--on", metavar="DAY", help="the day asked about, such as 2026-07-01 (without it: today)")
    parser.add_argument("--jsonl", "--json", action="store_true", help="one JSON object a line (this is always so)")


def run(args):
    """0 when every line was answered, 1 when a line was refused; the others are answered all the same."""
    book = rulebook()
    codes = opened(args.places.split(","))
    as_of = _day(args.on)
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


def _day(typed):
    try:
        return edtf.day(typed) if typed else date.today().toordinal()
    except BadDate as error:
        raise BadDate(f"--on: {error}") from None


def _answer(line, number, codes, as_of, book):
    facts, beside = parted(json_values.read(line, "column {column}"))
    work = read_work(facts, book.vocabulary)
    alone(beside)
    base = Base(work, book.laws, as_of)
    for code in codes:
        verdict = judge(work, code, book.laws, as_of, base)
        answer = as_json(work.id or str(number), code, as_of, verdict)
        answer["not_legal_advice"] = words.ADVICE
        sys.stdout.write(_ENCODE(answer) + "\n")


_ENCODE = json.JSONEncoder(ensure_ascii=False, separators=(", ", ": ")).encode


def _lines(name):
    """The lines of a file, or of standard input, as bytes: a line that is no text is refused, not the file."""
    if name == "-":
        return _Kept(getattr(sys.stdin, "buffer", sys.stdin))
    try:
        return open(name, "rb")
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
