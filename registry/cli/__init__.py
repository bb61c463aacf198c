"""The command `registry`: finds the module of a command, hands it the arguments, turns errors into one sentence.

A module is imported only when its command is called. Each has `arguments(parser)` and `run(args) -> int`; a
module may have `tidy(words)`, which puts words in order before they are parsed. `args.catalogue` is always a path.
"""

import importlib
import os
import sys
from argparse import REMAINDER, ArgumentParser, RawDescriptionHelpFormatter
from pathlib import Path

from registry.errors import RegistryError

OK, FAILED, USAGE, NOT_CLEAR = 0, 1, 2, 3
COMMANDS = {  # command: (module, what it does)
    "init": ("init", "Makes a new, empty catalogue."),
    "settings": ("settings", "Shows or alters the name, markets and groups of the shop."),
    "work add": ("work_add", "Records a work and what is known of it."),
    "work change": ("work_change", "Alters single facts of a work, its traits, notes or picture."),
    "work show": ("work_show", "Shows everything on record about a work."),
    "work list": ("work_list", "Lists the works of the catalogue."),
    "work find": ("work_find", "Finds works by words in title, makers, traits and notes."),
    "work import": ("work_import", "Records works from a table, or shows what it would."),
    "work export": ("work_export", "Writes the works as a table, or as facts for 'assess'."),
    "job add": ("job_add", "Records a job: what is made, for whom, for which markets."),
    "job change": ("job_change", "Alters a job."),
    "job show": ("job_show", "Shows a job and the works used in it."),
    "job list": ("job_list", "Lists the jobs, the earliest due first."),
    "use": ("use", "Says which work plays which part in a job."),
    "check": ("check", "Says whether a work or job may be sold in places, and why."),
    "permission add": ("permission_add", "Records a licence, purchase or release that covers a work."),
    "permission list": ("permission_list", "Lists the permissions, with the pieces used so far."),
    "evidence add": ("evidence_add", "Records a document or a word that supports a fact."),
    "evidence list": ("evidence_list", "Lists the evidence, of one work or of all."),
    "gaps": ("gaps", "Lists decisive facts that rest on no evidence."),
    "verify": ("verify", "Says whether anything recorded was changed, and what."),
    "head": ("head", "Prints the head of the ledger, to be kept elsewhere."),
    "sheet": ("sheet", "Writes the provenance sheet of a job, to print or keep."),
    "card": ("card", "Writes the card that goes to the buyer of a job."),
    "label": ("label", "Says what may be said of a work in open vocabularies."),
    "bag": ("bag", "Writes the hand-over package of a job, or checks one."),
    "publish": ("publish", "Writes a copy for everybody, without anything private."),
    "backup": ("backup", "Keeps a copy of the whole catalogue, also while in use."),
    "restore": ("restore", "Brings a backup back into a new folder."),
    "clear": ("clear", "Records that a person cleared a job, and on what answers."),
    "due": ("due", "Lists changes since decisions, and what runs out soon."),
    "calendar": ("calendar", "Lists what becomes free when; also as an iCalendar file."),
    "mark add": ("mark_add", "Records a mark to beware of: words, owner, office, classes."),
    "mark change": ("mark_change", "Alters what is on record about a mark."),
    "mark list": ("mark_list", "Lists the marks, or the searches that were made."),
    "mark show": ("mark_show", "Shows everything on record about a mark."),
    "mark search": ("mark_search", "Finds marks that a wording comes near, and says why."),
    "mark searched": ("mark_searched", "Keeps a search of a register, also one that found nothing."),
    "mark import": ("mark_import", "Records marks from a table."),
    "complaint add": ("complaint_add", "Keeps a complaint of an owner or marketplace."),
    "complaint list": ("complaint_list", "Lists the complaints, the earliest deadline first."),
    "complaint show": ("complaint_show", "Shows a complaint with its answers."),
    "complaint answer": ("complaint_answer", "Keeps an answer to a complaint, or its outcome."),
    "complaint folder": ("complaint_folder", "Collects what is on record about one, in a folder."),
    "assess": ("assess", "Answers for works in a file of facts, one object a line."),
    "law list": ("law_list", "Lists the places whose law is on file."),
    "law show": ("law_show", "Shows the law of a place as it is on file, with sources."),
    "date": ("date", "Says how a date is understood."),
    "serve": ("serve", "Serves the catalogue as pages, on this machine only."),
}


def main(argv: list[str] | None = None) -> int:
    """Exit code of one run: 0 done, 1 refused, 2 wrong usage, 3 not clear everywhere."""
    if sys.stdout is None:
        return _refused("There is no standard output to print to; send it to a file or to /dev/null.")
    if hasattr(sys.stdout, "reconfigure"):
        sys.stdout.reconfigure(errors="replace")  # a terminal that lacks a letter still gets the rest
    try:
        code = _run(sys.argv[1:] if argv is None else argv)
        sys.stdout.flush()
        return code
    except BrokenPipeError:
        _silence()
        return FAILED
    except KeyboardInterrupt:
        return 130
    except SystemExit as end:  # how argparse ends after --help and wrong usage
        return end.code if isinstance(end.code, int) else OK if end.code is None else FAILED
    except RegistryError as error:
        return _refused(error)
    except OSError as error:
        return _not_written(error)
    except Exception as error:
        if not _is_of_storage(error):
            raise
        return _refused(f"The catalogue could not be read or written: {error}.")


def _run(argv):
    args = _top().parse_args(argv)
    words = [args.command, *args.rest] if args.command else []
    name = next((" ".join(words[:n]) for n in (2, 1) if " ".join(words[:n]) in COMMANDS), None)
    if name is None:
        return _no_command(words)
    module = importlib.import_module("registry.cli." + COMMANDS[name][0])
    parser = ArgumentParser(prog=f"registry {name}", description=COMMANDS[name][1], allow_abbrev=False, conflict_handler="resolve")
    _catalogue_option(parser)
    parser.add_argument("--json", action="store_true", help="Prints JSON for programs instead of text for people.")
    module.arguments(parser)
    rest = words[len(name.split()):]
    known = parser.parse_args(module.tidy(rest) if hasattr(module, "tidy") else rest)
    known.catalogue = Path(known.catalogue or args.catalogue or os.environ.get("REGISTRY_CATALOGUE") or "catalogue")
    return module.run(known)


def _catalogue_option(parser):
    parser.add_argument("--catalogue", metavar="FOLDER",
                        help="The folder of the catalogue; without it $REGISTRY_CATALOGUE, else ./catalogue.")


def _top():
    lines = [f"  {name:<12}  {says}" for name, (_module, says) in COMMANDS.items()]
    parser = ArgumentParser(
        prog="registry", usage="registry [--catalogue FOLDER] COMMAND ...", formatter_class=RawDescriptionHelpFormatter, allow_abbrev=False,
        description="Says whether an artwork may be sold in a place on a day, and why.\nNot legal advice.",
        epilog="\n".join(["commands:", *lines, "", "'registry COMMAND --help' says more about one of them."]),
    )
    _catalogue_option(parser)
    parser.add_argument("command", nargs="?", help="One of the commands below.")
    parser.add_argument("rest", nargs=REMAINDER, help="What the command takes.")
    return parser


def _no_command(words):
    family = [name for name in COMMANDS if words and name.split()[0] == words[0]]
    if family:
        print(f"'registry {words[0]}' is followed by one of: {', '.join(name.split()[1] for name in family)}.", file=sys.stderr)
    elif words:
        print(f"There is no command '{words[0]}'; 'registry --help' lists all.", file=sys.stderr)
    else:
        _top().print_help(sys.stderr)
    return USAGE


def _refused(error):
    print("".join(letter if letter.isprintable() else " " for letter in str(error)), file=sys.stderr)
    return FAILED


def _not_written(error):
    """A disk that is full or a file that fails; without the name of a file it was what is printed."""
    reason = error.strerror or error
    if error.filename is not None:
        return _refused(f"The file {error.filename} cannot be read or written: {reason}.")
    _silence()
    return _refused(f"What was to be printed cannot be written: {reason}.")


def _is_of_storage(error):
    """True for an error of SQLite; looked up late, since a command without a catalogue never imports it."""
    sqlite3 = sys.modules.get("sqlite3")
    return sqlite3 is not None and isinstance(error, sqlite3.Error)


def _silence():
    """Whoever read the output left; nothing more is said, also not by Python when it ends."""
    try:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
    except (OSError, ValueError):
        pass
