"""A catalogue that cannot be written can be read; a check that cannot be recorded answers all the same, and says so."""

import json
import os
import shutil
import sqlite3
import tempfile
from pathlib import Path

import kept
import pytest
from registry.catalogue import jobs, settings, store, works

NOBODY = 65534
READING = (("work", "list"), ("work", "show", "gull"), ("work", "find", "gull"), ("check", "gull", "--dry"), ("head",), ("verify",),
           ("job", "list"), ("due",), ("gaps",), ("settings",), ("check", "--job", "sign", "--dry"), ("mark", "list"))


def filled(folder):
    catalogue = store.create(folder / "catalogue")
    settings.put(catalogue, markets=["US"])
    for key, facts in (("gull", kept.GULL), ("crab", kept.CRAB)):
        works.add(catalogue, facts, key=key)
    jobs.add(catalogue, key="sign", title="Gull sign", markets=["US"])
    jobs.use(catalogue, "sign", "gull", "picture")
    catalogue.db.close()
    return catalogue.folder


@pytest.fixture
def locked():
    """The folder of a catalogue in which this process can write nothing; root goes by another name meanwhile."""
    place = Path(tempfile.mkdtemp())
    place.chmod(0o755)
    folder = filled(place)
    kept.Command(folder, _Silent())(*READING[0])  # all that is imported late is, by one who may
    for path in (*folder.rglob("*"), folder):
        path.chmod(0o555 if path.is_dir() else 0o444)
    me = os.geteuid()
    if me == 0:
        os.seteuid(NOBODY)
    yield folder
    if me == 0:
        os.seteuid(me)
    for path in (folder, *folder.rglob("*")):
        path.chmod(0o755)
    shutil.rmtree(place)


class _Silent:
    def readouterr(self):
        return "", ""


def test_every_reading_command_reads(locked, capsys):
    command, before = kept.Command(locked, capsys), sorted(locked.rglob("*"))
    for words in READING:
        code, out, err = command(*words)
        assert code == 0 and out and "readonly" not in err, (words, out, err)
    assert sorted(locked.rglob("*")) == before


def test_what_writes_is_refused_in_one_sentence(locked, capsys):
    said = kept.Command(locked, capsys).refused("work", "add", "--title", "Crab")
    assert said.endswith("attempt to write a readonly database.")


def test_what_came_last_is_not_left_out(capsys):
    place = Path(tempfile.mkdtemp())
    place.chmod(0o755)
    folder, me = filled(place), os.geteuid()
    writer = store.open_catalogue(folder)
    works.add(writer, kept.SCRAP, key="scrap")
    (place / "copy").mkdir()
    for name in (store.NAME, store.NAME + "-wal"):  # as a machine that stopped leaves them
        shutil.copy(folder / name, place / "copy" / name)
    (place / "copy").chmod(0o555)
    try:
        if me == 0:
            os.seteuid(NOBODY)
        said = kept.Command(place / "copy", capsys).refused("work", "list")
    finally:
        os.seteuid(me)
    assert "The last changes of the catalogue" in said and "copy the whole folder" in said
    (place / "copy").chmod(0o755)
    assert "Torn scrap" in kept.Command(place / "copy", capsys)("work", "list")[1]
    shutil.rmtree(place)


# --- a check that cannot be recorded -----------------------------------------------------------------------

CHECKS = [(("check", "gull"), 0), (("check", "--job", "sign"), 0), (("check", "crab"), 3)]


def answered(command, words, code):
    """Runs a check as text and as JSON: the answer is given, and loudly that it was not recorded; what was said of that."""
    plain = command(*words, "--dry")
    assert plain[0] == code
    found = command(*words)
    assert found[:2] == plain[:2] and found[2].startswith("NOT RECORDED: "), found
    code_, out, err = command(*words, "--json")
    told = json.loads(out)
    assert code_ == code and err.startswith("NOT RECORDED: ")
    assert all(one["not_recorded"] in err for one in (told if isinstance(told, list) else [told]))
    return found[2]


@pytest.mark.parametrize("words, code", CHECKS)
def test_a_check_answers_where_nothing_can_be_written(locked, capsys, words, code):
    assert "cannot be written" in answered(kept.Command(locked, capsys), words, code)


@pytest.mark.parametrize("words, code", CHECKS)
def test_a_check_answers_while_another_program_writes(tmp_path, capsys, monkeypatch, words, code):
    folder = filled(tmp_path)
    monkeypatch.setattr(store, "PATIENCE", 0.05)
    other = sqlite3.connect(folder / store.NAME, isolation_level=None)
    other.execute("BEGIN IMMEDIATE")
    assert "another program" in answered(kept.Command(folder, capsys), words, code)
    other.execute("ROLLBACK")
    code_, _out, err = kept.Command(folder, capsys)(*words)
    assert (code_, err) == (code, "")
