"""What is written for readers keeps up with the program: every command is explained somewhere."""

import re
from pathlib import Path

from registry.cli import COMMANDS

ROOT = Path(__file__).resolve().parent.parent
PAGES = ("README.md", "DEVELOPERS.md")


def written():
    """The text of the pages that are there, white space made one blank."""
    return " ".join(" ".join((ROOT / name).read_text(encoding="utf-8").split()) for name in PAGES if (ROOT / name).is_file())


def missing(commands, text):
    """Commands that are not mentioned as `registry NAME`, with white space or code marks around."""
    return [name for name in commands if not re.search(rf"\bregistry {re.escape(name)}(?![\w-])", text)]


def test_every_command_is_mentioned():
    assert missing(COMMANDS, written()) == []


def test_no_other_command_is_mentioned():
    firsts = {name.split()[0] for name in COMMANDS}
    told = re.findall(r"(?:`|\$ )registry ([a-z][a-z-]*)", written())
    assert sorted(set(told) - firsts) == []


def test_a_forgotten_command_is_found():
    text = "Use `registry work add` and registry date, not registry work list-all or the registry check-up."
    assert missing(["work add", "date", "work list", "check", "use"], text) == ["work list", "check", "use"]
