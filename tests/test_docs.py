"""What is written for readers keeps up with the program: every command is explained somewhere."""

import re
from pathlib import Path

import kept
from registry.cli import COMMANDS
from registry.web.routes import ROUTES
from stocked import plain

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


def sample():
    """(words of the command, what it printed) of the check that README shows."""
    block = re.search(r"```\n\$ registry (check --job [^\n]*)\n(.*?)```", (ROOT / "README.md").read_text(encoding="utf-8"), re.S)
    return block[1].split(), block[2]


def test_the_check_that_is_shown_is_what_the_command_prints(demo_folder, capsys):
    words, shown = sample()
    assert kept.Command(demo_folder, capsys)(*words, "--dry") == (3, shown, "")
    assert "Not legal advice." in shown and "Marks\n" in shown


def told_code():
    """Names such as clear.once that DEVELOPERS tells of functions and values in the code."""
    text = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    return [name for name in re.findall(r"`(?:\w+/)?([a-z_]+\.[A-Za-z_]+)`", text) if not name.endswith((".py", ".toml", ".csv", ".md", ".db", ".json", ".yaml"))]


def test_functions_that_are_told_of_are_there():
    modules = {path.stem: path.read_text(encoding="utf-8") for path in (ROOT / "registry").rglob("*.py")}
    named = [name.split(".") for name in told_code() if name.split(".")[0] in modules]
    assert ["clear", "_glance"] in named
    assert [name for module, name in named if not re.search(rf"^(?:async )?def {name}\b|^{name} =|^class {name}\b|^    {name}: ", modules[module], re.M)] == []


def addresses():
    """Addresses of the pages as they are written for readers, such as /work/KEY/edit."""
    names = [plain(pattern).strip("^$").replace("\\", "") for pattern, _view in ROUTES]
    return [name.replace("/CODE", "/XX").replace("/SHA", "/SHA256") for name in names]


def untold(names, text):
    """Addresses that a text does not mention by themselves, in code marks."""
    return [name for name in names if not re.search(rf"`{re.escape(name)}[`?]", text)]


def test_every_page_is_mentioned():
    assert untold(addresses(), written()) == []


def test_a_forgotten_page_is_found():
    assert untold(["/", "/work/KEY", "/work/KEY/edit"], "The grid `/` and `/work/KEY/edit`, not /work/KEY") == ["/work/KEY"]
    assert "/work/KEY/edit" in addresses() and "/calendar.ics" in addresses() and "/law/XX" in addresses() and "/permission/NUMBER" in addresses()
