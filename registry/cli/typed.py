"""Facts as typed: options made from the vocabulary, and the facts object that they amount to."""

from registry import data
from registry.catalogue.facts_text import value_of
from registry.cli import inputs
from registry.errors import BadFacts
from registry.facts.vocabulary import read_vocabulary

EARLIER = {"id", "creators", "publications"}  # have an option of their own form
SHAPES = {"bool": "yes|no|unknown", "edtf": "DATE", "year": "YEAR", "country": "CC", "countries": "CC,CC", "text": "TEXT", "choice": "WORD"}


def facts_options(parser):
    """Adds an option for every fact, and --facts, --creator and --publication."""
    vocabulary = read_vocabulary(data.read_text("facts.toml"))
    parser.add_argument("--facts", metavar="FILE", help="A JSON file with one facts object ('-' is standard input); options add to it.")
    parser.add_argument("--creator", action="append", default=[], metavar="NAME;FACT=VALUE;...",
                        help="A maker, such as \"Ann Roe;role=artist;born=1890;died=1950;nationality=GB\"; repeat for several.")
    parser.add_argument("--publication", action="append", default=[], metavar="DATE:CC;FACT=VALUE;...",
                        help="A publication, such as 1928-05-17:US or 192X or :GB; repeat for several.")
    groups = {"work": parser.add_argument_group("facts of the work"),
              "creator": parser.add_argument_group("facts of the only maker, or of all")}
    for owner, group in groups.items():
        for fact in vocabulary.of[owner].values():
            if fact.name not in EARLIER and fact.name != "name":
                words = fact.question.replace("%", "%%")
                allowed = f" Allowed: {', '.join(fact.choices)}." if fact.choices else ""
                group.add_argument(option(fact.name), dest=f"fact_{fact.name}", metavar=SHAPES[fact.type], help=words + allowed)


def option(name):
    """The option of a fact: --us-notice for us_notice."""
    return "--" + name.replace("_", "-")


def facts_of(args):
    """The facts object that the options amount to; BadFacts for a maker or publication that cannot be read."""
    vocabulary = read_vocabulary(data.read_text("facts.toml"))
    facts = inputs.facts_object(args.facts) if args.facts else {}
    for name, text in vars(args).items():
        if name.startswith("fact_") and text is not None:
            fact = name.removeprefix("fact_")
            facts[fact] = value_of(vocabulary.facts[fact], text)
    makers = [_creator(text, vocabulary) for text in args.creator]
    publications = [_publication(text, vocabulary) for text in args.publication]
    for name, typed in (("creators", makers), ("publications", publications)):
        if typed and isinstance(facts.get(name) or [], list):  # anything else the validator refuses
            facts[name] = [*(facts.get(name) or ()), *typed]
    return facts


def _creator(text, vocabulary):
    name, pairs = _parts(text)
    found = {"name": name} if name else {}
    return found | _named(pairs, vocabulary.of["creator"], f"--creator {text}")


def _publication(text, vocabulary):
    first, pairs = _parts(text)
    date, colon, country = first.rpartition(":")
    if not colon or len(country) != 2 or not country.isalpha():
        date, country = first, ""
    found = {name: value for name, value in (("date", date.strip()), ("country", country.upper())) if value}
    return found | _named(pairs, vocabulary.of["publication"], f"--publication {text}")


def _parts(text):
    """What stands first, and the rest as pieces NAME=VALUE."""
    pieces = [piece.strip() for piece in text.split(";")]
    first = "" if "=" in pieces[0] else pieces.pop(0)
    return first, [piece for piece in pieces if piece]


def _named(pairs, facts, at):
    found = {}
    for pair in pairs:
        name, equals, value = pair.partition("=")
        name = name.strip().replace("-", "_")
        if not equals or name not in facts:
            raise BadFacts(f"{at}: '{pair}' is not understood; allowed are {', '.join(sorted(facts))}, each with = and a value.")
        found[name] = value_of(facts[name], value)
    return found
