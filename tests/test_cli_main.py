"""The command as a whole: finding commands, exit codes, one plain sentence for an error, quiet ends."""

import importlib
import os
import sqlite3
import subprocess
import sys
from pathlib import Path

import kept
import pytest
from registry.catalogue import works
from registry.cli import COMMANDS, main

ROOT = Path(__file__).resolve().parent.parent
CALL = [sys.executable, "-m", "registry.cli"]


@pytest.fixture
def command(tmp_path, capsys):
    return kept.Command(tmp_path / "shop", capsys)


def call(*words, env=None, **options):
    """A finished process of the command, run from the top of the checkout."""
    return subprocess.run([*CALL, *words], cwd=ROOT, env={**os.environ, **(env or {})}, capture_output=True, text=True, timeout=60, **options)


@pytest.mark.parametrize("name", COMMANDS)
def test_every_command_explains_itself(name, capsys):
    assert main([*name.split(), "--help"]) == 0
    out = capsys.readouterr().out
    assert COMMANDS[name][1] in " ".join(out.split())
    assert "--json" in out and f"usage: registry {name}" in out


@pytest.mark.parametrize("name", COMMANDS)
def test_help_is_in_sentences(name):
    module = importlib.import_module("registry.cli." + COMMANDS[name][0])
    assert COMMANDS[name][1].endswith(".") and len(COMMANDS[name][1]) <= 62
    assert module.__doc__ and callable(module.arguments) and callable(module.run)


@pytest.mark.parametrize(
    "words, says",
    [
        ([], "usage: registry [--catalogue FOLDER] COMMAND ..."),
        (["chekc"], "There is no command 'chekc'; 'registry --help' lists all.\n"),
        (["work"], "'registry work' is followed by one of: add, change, show, list, find, import, export.\n"),
        (["work", "remove"], "'registry work' is followed by one of: add, change, show, list, find, import, export.\n"),
        (["work", "add", "--colour", "red"], "usage: registry work add"),
        (["check", "--on"], "usage: registry check"),
        (["--colour"], "usage: registry"),
    ],
)
def test_wrong_usage(words, says, capsys):
    assert main(words) == 2
    out, err = capsys.readouterr()
    assert out == "" and err.startswith(says)


def test_the_whole_help_fits_80_columns(capsys):
    assert main(["--help"]) == 0
    out = capsys.readouterr().out
    assert max(map(len, out.splitlines())) <= 80
    assert all(f"  {name} " in out for name in COMMANDS)
    assert "Not legal advice." in out


def test_the_folder_of_the_catalogue(tmp_path, monkeypatch, capsys):
    monkeypatch.chdir(tmp_path)
    monkeypatch.delenv("REGISTRY_CATALOGUE", raising=False)
    assert main(["init"]) == 0
    monkeypatch.setenv("REGISTRY_CATALOGUE", str(tmp_path / "two"))
    assert main(["init"]) == 0
    assert main(["--catalogue", "three", "init"]) == 0
    assert main(["init", "--catalogue", "four"]) == 0
    assert main(["--catalogue", "three", "init", "--catalogue", "five"]) == 0
    assert sorted(path.name for path in tmp_path.iterdir()) == ["catalogue", "five", "four", "three", "two"]
    assert capsys.readouterr().out.startswith("Made an empty catalogue in catalogue.\n")


def test_a_catalogue_is_needed(command):
    for words in (["work", "list"], ["work", "add", "--title", "x"], ["check", "x"], ["job", "list"], ["serve"], ["settings"]):
        assert command.refused(*words).startswith("There is no catalogue in ")
        assert not command.folder.exists()


def test_a_catalogue_is_made_once(command):
    assert command.refused("init", "--markets", "Atlantis").startswith("'Atlantis' is not a place")
    assert not command.folder.exists()
    assert command("init", "--name", "Ninepin", "--markets", "us,NEAR", "--group", "near=gb,ie")[0] == 0
    assert command.refused("init").endswith(" already.")
    code, out, _ = command("settings", "--json")
    assert code == 0 and '"markets": [\n    "US",\n    "NEAR"\n  ]' in out and '"name": "Ninepin"' in out
    assert command("settings", "--group", "NEAR=", "--markets", "GB")[0] == 0
    assert "NEAR" not in command("settings")[1]
    assert command.refused("settings", "--markets", "Atlantis").startswith("'Atlantis' is not a place")
    assert command.refused("settings", "--group", "NEAR").startswith("--group NEAR: a name, = and places are needed")


def test_a_database_that_fails_says_so_in_one_sentence(command, monkeypatch):
    command("init")

    def fails(*_args, **_kwargs):
        raise sqlite3.OperationalError("disk I/O error")

    monkeypatch.setattr(works, "listed", fails)
    assert command.refused("work", "list") == "The catalogue could not be read or written: disk I/O error."


def test_a_fault_of_the_program_is_not_hidden(command, monkeypatch):
    command("init")
    monkeypatch.setattr(works, "listed", lambda *_: 1 / 0)
    with pytest.raises(ZeroDivisionError):
        command("work", "list")


def test_an_interrupt_is_quiet(command, monkeypatch):
    command("init")

    def stop(*_args):
        raise KeyboardInterrupt

    monkeypatch.setattr(works, "listed", stop)
    assert command("work", "list") == (130, "", "")


def test_words_that_would_steer_a_terminal_are_not_printed(command):
    command("init")
    command("work", "add", "--title", "red \x1b[31m\x07hat\nsecond line", "--notes", "\x1b]0;x\x07")
    for words in (["work", "list"], ["work", "show", "w1"], ["check", "w1", "--in", "US"], ["work", "find", "hat"]):
        out = command(*words)[1]
        assert "hat" in out and "\x1b" not in out and "\x07" not in out
    assert "\x1b" not in command.refused("work", "show", "\x1b[31m")


def test_a_process_of_its_own(tmp_path):
    env = {"REGISTRY_CATALOGUE": str(tmp_path / "shop")}
    assert call("init", env=env).returncode == 0
    done = call("work", "add", "--title", "Möwe", "--kind", "drawing", "--created", "192X", env=env)
    assert (done.returncode, done.stderr) == (0, "")
    done = call("check", "w1", "--in", "US", env=env)
    assert done.returncode == 3 and "Möwe" in done.stdout and done.stderr == ""
    done = call("check", "w9", "--in", "US", env=env)
    assert (done.returncode, done.stdout, done.stderr) == (1, "", "There is no work 'w9' in this catalogue.\n")


def test_a_reader_that_leaves_is_no_error(tmp_path):
    done = subprocess.run(["bash", "-c", f"'{sys.executable}' -m registry.cli law show US | head -1; echo ${{PIPESTATUS[0]}}"],
                          cwd=ROOT, capture_output=True, text=True, timeout=60)
    assert done.stderr == ""
    assert done.stdout.splitlines()[0] == "United States  [US]"


@pytest.mark.skipif(not os.path.exists("/dev/full"), reason="there is no disk that is always full here")
@pytest.mark.parametrize("words", ["law show US", "date 1928", "date 1928 --json", "law list --json"])
def test_output_that_cannot_be_written_is_told_in_one_sentence(words):
    for to, says in ((">/dev/full", "What was to be printed cannot be written: No space left on device.\n"), (">&-", "There is no standard output to print to; send it to a file or to /dev/null.\n")):
        done = subprocess.run(["bash", "-c", f"'{sys.executable}' -m registry.cli {words} {to}"], cwd=ROOT, capture_output=True, text=True, timeout=60)
        assert (done.returncode, done.stdout, done.stderr) == (1, "", says)


@pytest.mark.parametrize("encoding", ["ascii", "latin-1"])
def test_a_terminal_without_all_letters(tmp_path, encoding):
    env = {"REGISTRY_CATALOGUE": str(tmp_path / "shop"), "PYTHONIOENCODING": encoding}
    call("init", env=env)
    call("work", "add", "--title", "Café 漁", env=env, encoding=encoding)
    done = call("work", "list", env=env, encoding=encoding, errors="replace")
    assert done.returncode == 0 and "Caf" in done.stdout


def test_nothing_slow_is_imported_for_a_check(tmp_path):
    env = {"REGISTRY_CATALOGUE": str(tmp_path / "shop")}
    call("init", env=env)
    call("work", "add", "--title", "x", env=env)
    code = ("import sys; from registry.cli import main; main(['check', 'w1', '--in', 'US'])\n"
            "print([name for name in ('datasette', 'sqlite_utils', 'click', 'uvicorn', 'jinja2') if name in sys.modules])")
    done = subprocess.run([sys.executable, "-c", code], cwd=ROOT, env={**os.environ, **env}, capture_output=True, text=True, timeout=60)
    assert done.stdout.splitlines()[-1] == "[]", done.stderr
