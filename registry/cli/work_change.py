"""registry work change: alters single facts of a work, its traits, notes or picture."""

import re

from registry.catalogue import store, works
from registry.catalogue.facts_text import altered, value_of
from registry.cli import inputs, shown, work_options
from registry.errors import BadFacts, RegistryError
from registry.rulebook import rulebook


def arguments(parser):
    """Adds the options of the command."""
    parser.add_argument("work", help="The key of the work.")
    parser.add_argument("--set", dest="sets", action="append", default=[], metavar="FACT=VALUE",
                        help="Sets one fact, such as us_renewed=no, creators.0.died=1950 or publications.1.country=GB.")
    parser.add_argument("--unset", action="append", default=[], metavar="FACT",
                        help="Takes one fact away, or a whole entry such as creators.1; it is then not known.")
    parser.add_argument("--facts", metavar="FILE", help="A JSON file with the facts object that takes the place of the"
                                                        " old one ('-' is standard input).")
    parser.add_argument("--version", type=int, metavar="N", help="Refuses the change when the work is no longer in this version.")
    work_options.columns_options(parser)
    parser.add_argument("--no-trait", action="append", default=[], metavar="NAME", help="Takes a trait away.")


def run(args):
    """0 when the work was changed, or when nothing in it had to be."""
    catalogue = store.open_catalogue(args.catalogue)
    if not _says_something(args):
        raise RegistryError("Say what to change, such as --set us_renewed=no; 'registry work change --help' lists all.")
    with store.transaction(catalogue):
        old = works.get(catalogue, args.work)
        columns = work_options.columns_of(catalogue, args)
        version = old.version if args.version is None else args.version
        new = works.change(catalogue, args.work, version, facts=_facts(old, args), traits=_traits(old, args), **columns)
    if args.json:
        shown.show_json(work_options.as_object(new))
    elif new.version == old.version:
        print(f"Nothing in {new.key} had to be changed.")
    else:
        print(f"Changed {new.key}; it is now in version {new.version}.")
    return 0


def _says_something(args):
    beside = ("based_on", "originality", "own", "picture", "terms", "notes")
    lists = ("sets", "unset", "facts", "trait", "no_trait")
    return any(getattr(args, name) for name in lists) or any(getattr(args, name) is not None for name in beside)


def _facts(old, args):
    if not (args.sets or args.unset or args.facts):
        return None
    vocabulary = rulebook().vocabulary
    facts = inputs.facts_object(args.facts) if args.facts else old.facts
    for text in args.sets:
        path, equals, value = text.partition("=")
        if not equals:
            raise BadFacts(f"--set {text}: a fact, = and its value are needed, such as us_renewed=no.")
        name = path.rpartition(".")[2].strip()
        facts = altered(facts, path, value_of(vocabulary.facts.get(name), value), vocabulary)
    for path in args.unset:
        name = re.split(r"[.\[]", path.strip().rstrip("]"))[-1]
        if not name.isdigit() and name not in vocabulary.facts:
            raise BadFacts(f"--unset {path}: there is no fact '{name}'; 'registry work show {old.key}' lists those on record.")
        facts = altered(facts, path, None, vocabulary)
    return facts


def _traits(old, args):
    if not (args.trait or args.no_trait):
        return None
    traits = dict(old.traits)
    for name in args.no_trait:
        if traits.pop(name, None) is None:
            raise RegistryError(f"'{name}' is no trait of {old.key}; on record are {', '.join(traits) or 'none'}.")
    return list((traits | dict(work_options.traits_of(args))).items())
