"""What is written appears whole or not at all; nothing of anybody else is removed, and no catalogue written over."""

import json
import os
import shutil
import sqlite3

import kept
import pytest
import test_sheet
from registry.catalogue import backup, complaints, store, verify, whole, works
from registry.errors import RegistryError
from registry.exchange import bagit

MOMENT = "2026-07-01T09:30:00Z"


@pytest.fixture(scope="module")
def shared(tmp_path_factory):
    folder = tmp_path_factory.mktemp("whole")
    catalogue = test_sheet.filled(folder)
    complaints.add(catalogue, received="2026-10-02", sender="Corvane & Thole", claim="The gull is ours.", jobs=["sign"])
    backup.backup(catalogue, folder / "backup", MOMENT)
    catalogue.db.close()
    return folder


@pytest.fixture
def command(shared, tmp_path, capsys):
    """The command on a catalogue of its own, with a backup beside it; paths are relative to that folder."""
    shutil.copytree(shared, tmp_path, dirs_exist_ok=True)
    (tmp_path / "home").mkdir()
    before = os.getcwd()
    os.chdir(tmp_path / "home")
    yield kept.Command(tmp_path / "catalogue", capsys)
    os.chdir(before)


WRITING = [  # words of a command that writes OUT, and the ending of its name
    (("backup", "OUT"), ""), (("restore", "../backup", "OUT"), ""), (("bag", "sign", "OUT"), ""),
    (("complaint", "folder", "c1", "OUT"), ""), (("publish", "OUT", "--in", "US", "--replace"), ".db"),
    (("sheet", "sign", "OUT"), ".html"), (("card", "sign", "OUT"), ".html"), (("work", "export", "OUT"), ".csv"),
    (("work", "export", "OUT"), ".jsonl"), (("calendar", "--until", "2060", "--in", "US", "--ics", "OUT"), ".ics"),
]
NAMES = [" ".join(words[:2]) + ending for words, ending in WRITING]


def called(words, out):
    return [out if word == "OUT" else word for word in words]


def left(folder):
    """Paths of all that lies in a folder, but for what SQLite keeps beside an open database."""
    found = (str(path.relative_to(folder)) for path in folder.rglob("*"))
    return sorted(name for name in found if not name.endswith((".db-wal", ".db-shm")))


@pytest.mark.parametrize("words, ending", WRITING, ids=NAMES)
def test_what_lies_beside_stays(command, tmp_path, words, ending):
    theirs = tmp_path / "home" / f"out{ending}.new"
    theirs.mkdir()
    (theirs / "mine.txt").write_text("mine")
    assert command(*called(words, f"out{ending}"))[0] == 0
    assert (theirs / "mine.txt").read_text() == "mine" and sorted(os.listdir()) == sorted([f"out{ending}", theirs.name])


@pytest.mark.parametrize("words, ending", WRITING, ids=NAMES)
def test_what_fails_half_way_leaves_what_was_there(command, tmp_path, monkeypatch, words, ending):
    if ending and words[0] != "work":
        (tmp_path / "home" / f"out{ending}").write_text("as it was")
    before = {name: (tmp_path / "home" / name).read_text() for name in os.listdir()}

    def full(*_args):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(whole.os, "replace", full)
    monkeypatch.setattr(whole.Path, "replace", full)
    said = command.refused(*called(words, f"out{ending}"))
    assert said.endswith("No space left on device.")
    assert {name: (tmp_path / "home" / name).read_text() for name in os.listdir()} == before


@pytest.mark.parametrize("words, ending", WRITING, ids=NAMES)
def test_no_command_writes_over_a_catalogue(command, tmp_path, words, ending):
    for name in ("catalogue.db", "catalogue.db-wal", f"files/aa{ending}", f"backups/old{ending}"):
        before = left(tmp_path)
        said = command.refused(*called(words, f"../catalogue/{name}"))
        assert left(tmp_path) == before and ("catalogue" in said or "ends in" in said or "name tells no kind" in said), said
    store.open_catalogue(tmp_path / "catalogue").db.execute("SELECT count(*) FROM works").fetchone()


@pytest.mark.parametrize("words, ending", WRITING, ids=NAMES)
@pytest.mark.parametrize("name", ["", ".", "..", "/", "../home/.."])
def test_a_name_that_is_none_is_refused_in_one_sentence(command, tmp_path, words, ending, name):
    before = left(tmp_path)
    command.refused(*called(words, name))
    assert left(tmp_path) == before


def test_a_catalogue_is_known_by_its_tables_and_through_links(command, tmp_path):
    shutil.copy(tmp_path / "catalogue" / "catalogue.db", "kept.db")
    os.symlink("../catalogue/catalogue.db", "link.db")
    os.symlink("../catalogue", "linked")
    for name in ("kept.db", "link.db", "linked/catalogue.db"):
        assert "belongs to a catalogue" in command.refused("publish", name, "--in", "US", "--replace")
    os.symlink("../catalogue/catalogue.db", "link.ics")
    assert "belongs to a catalogue" in command.refused("calendar", "--until", "2060", "--in", "US", "--ics", "link.ics")
    assert "ends in .ics" in command.refused("calendar", "--until", "2060", "--in", "US", "--ics", "../catalogue/catalogue.db")
    assert verify.verify(store.open_catalogue(tmp_path / "catalogue")).whole


def test_a_public_copy_is_replaced_and_a_link_to_a_file_stays_one(command):
    for _again in range(2):
        assert command("publish", "p.db", "--in", "US", "--replace")[0] == 0
    os.symlink("p.html", "link.html")
    assert command("sheet", "sign", "link.html")[0] == 0
    assert os.path.islink("link.html") and os.path.getsize("p.html") > 1000


def test_a_new_folder_has_the_rights_of_any_new_folder(tmp_path):
    (tmp_path / "plain").mkdir()
    bagit.write(tmp_path / "bag", {"a.txt": b"a"}, [])
    assert (tmp_path / "bag").stat().st_mode == (tmp_path / "plain").stat().st_mode


def test_a_catalogue_that_cannot_be_made_leaves_nothing_but_its_folder(tmp_path, monkeypatch):
    def full(connection):
        connection.execute("CREATE TABLE half (a)")
        raise sqlite3.OperationalError("database or disk is full")

    monkeypatch.setattr(store.schema, "migrate", full)
    (tmp_path / "c").mkdir()
    (tmp_path / "c" / "catalogue.db.new").write_text("mine")
    with pytest.raises(RegistryError, match="No catalogue could be made in .*: database or disk is full.$"):
        store.create(tmp_path / "c")
    assert left(tmp_path / "c") == ["catalogue.db.new", "files"]


# --- backups ---------------------------------------------------------------------------------------------

@pytest.mark.parametrize("name, value", [
    ("steps", 5), ("steps", [["a"]]), ("steps", [{}]), ("steps", None), ("files", []), ("files", {"../../x": 1}),
    ("files", {"a" * 64: "1"}), ("rows", "1"), ("head", None), ("database", {})])
def test_a_list_of_other_types_is_no_list(command, tmp_path, name, value):
    told = json.loads((tmp_path / "backup" / "backup.json").read_text())
    (tmp_path / "backup" / "backup.json").write_text(json.dumps({**told, name: value}))
    assert command.refused("restore", "../backup", "back").endswith("is no list of a backup.")
    (tmp_path / "backup" / "backup.json").write_text("[" * 100000)
    assert command.refused("restore", "../backup", "back").endswith("is no list of a backup.")


def test_a_changed_backup_sends_nobody_to_another_catalogue(command, tmp_path):
    path = tmp_path / "backup" / "catalogue.db"
    path.write_bytes(path.read_bytes()[:-1] + b"x")
    said = command.refused("restore", "../backup", "back")
    assert "registry verify" not in said and "catalogue.db in the backup was changed" in said and "use another backup" in said


def test_a_changed_file_of_a_catalogue_is_named_by_verify(command, tmp_path):
    name = next(name for name in left(tmp_path / "catalogue" / "files") if "/" in name)
    (tmp_path / "catalogue" / "files" / name).write_bytes(b"another")
    assert "'registry verify' names all that were" in command.refused("backup", "b")
