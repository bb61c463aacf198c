"""Backups: whole while others write, proven by digests when they come back; a dated copy before the tables change."""

import json
import shutil
import sqlite3
import threading

import kept
import pytest
import test_sheet
from registry.catalogue import backup, files, ledger, schema, store, verify, works
from registry.errors import RegistryError

MOMENT = "2026-07-01T09:30:00Z"


@pytest.fixture(scope="module")
def catalogue(tmp_path_factory):
    return test_sheet.filled(tmp_path_factory.mktemp("backup"))


@pytest.fixture
def made(catalogue, tmp_path):
    return backup.backup(catalogue, tmp_path / "kept", MOMENT)


def tree(folder):
    """Bytes of every file beneath a folder, by path."""
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in sorted(folder.rglob("*")) if path.is_file()}


def test_what_comes_back_is_what_was_kept(made, catalogue, tmp_path):
    back = backup.restore(made.folder, tmp_path / "back")
    assert (back.rows, back.head, back.files, back.bytes, back.seal) == (made.rows, made.head, made.files, made.bytes, made.seal)
    again = store.open_catalogue(tmp_path / "back")
    assert kept.everything(again) == kept.everything(catalogue) and kept.files_of(again) == kept.files_of(catalogue)
    assert verify.verify(again, made.head).whole and again.db.execute("PRAGMA journal_mode").fetchone()[0] == "wal"
    works.add(again, kept.CRAB, key="crab")
    assert verify.verify(again, made.head).noted == made.rows


def test_the_list_tells_all(made, catalogue):
    told = json.loads((made.folder / "backup.json").read_text())
    row, head, _moment = verify.head(catalogue)
    assert (told["rows"], told["head"], told["made_at"]) == (row, head, MOMENT) and set(told["steps"]) == set(schema.STEPS)
    assert set(told["files"]) == {name.rpartition("/")[2] for name in kept.files_of(catalogue)}
    assert set(tree(made.folder)) == {"catalogue.db", "backup.json", *kept.files_of(catalogue)}


def test_every_change_in_a_backup_is_found(made, tmp_path):
    for number, (path, content) in enumerate(tree(made.folder).items()):
        for way in ("byte", "gone", "cut"):
            shutil.rmtree(tmp_path / "other", ignore_errors=True)
            shutil.copytree(made.folder, tmp_path / "other")
            target = tmp_path / "other" / path
            if way == "gone":
                target.unlink()
            else:
                middle = content.index(b'"database"') + 16 if path == "backup.json" else len(content) // 2
                target.write_bytes(content[:-1] if way == "cut" and path != "backup.json" else content[:middle] + bytes([content[middle] ^ 1]) + content[middle + 1:])
            with pytest.raises(RegistryError):
                backup.restore(tmp_path / "other", tmp_path / "back")
            assert {one.name for one in tmp_path.iterdir()} == {"kept", "other"}, (number, path, way)


def test_a_backup_of_another_catalogue_s_list(made, tmp_path):
    other = kept.new(tmp_path / "second")
    works.add(other, kept.GULL)
    second = backup.backup(other, tmp_path / "second-kept", MOMENT)
    shutil.copy(second.folder / "backup.json", made.folder / "backup.json")
    with pytest.raises(RegistryError, match="^catalogue.db in the backup was changed"):
        backup.restore(made.folder, tmp_path / "back")


@pytest.mark.parametrize("name, value", [("rows", 99), ("rows", 0), ("head", "0" * 64), ("head", ""), ("files", {})])
def test_a_list_that_tells_another_ledger_or_other_files_is_refused(made, tmp_path, name, value):
    told = json.loads((made.folder / "backup.json").read_text())
    assert told[name] != value
    (made.folder / "backup.json").write_text(json.dumps({**told, name: value}))
    with pytest.raises(RegistryError, match="does not hold what its list says"):
        backup.restore(made.folder, tmp_path / "back")
    assert not (tmp_path / "back").exists()


@pytest.mark.parametrize("prepare, says", [
    (lambda folder: shutil.rmtree(folder), "There is no backup in"), (lambda folder: (folder / "backup.json").write_text("[]"), "is no list of a backup"),
    (lambda folder: (folder / "backup.json").write_text("{"), "is no list of a backup"),
])
def test_what_is_no_backup(made, tmp_path, prepare, says):
    prepare(made.folder)
    with pytest.raises(RegistryError, match=says):
        backup.restore(made.folder, tmp_path / "back")


def test_a_backup_of_a_newer_program(made, tmp_path):
    told = json.loads((made.folder / "backup.json").read_text())
    (made.folder / "backup.json").write_text(json.dumps({**told, "steps": [*told["steps"], "99-from-the-future"]}))
    with pytest.raises(RegistryError, match=r"newer version of this program \(it has the step 99-from-the-future\)"):
        backup.restore(made.folder, tmp_path / "back")


def test_folders_in_use_are_left_alone(made, catalogue, tmp_path):
    before = tree(made.folder)
    for call in (lambda: backup.backup(catalogue, made.folder, MOMENT), lambda: backup.restore(made.folder, catalogue.folder)):
        with pytest.raises(RegistryError, match="is there already and not empty"):
            call()
    assert tree(made.folder) == before


def test_a_changed_file_stops_a_backup(tmp_path):
    catalogue = test_sheet.filled(tmp_path / "own")
    sha = next(row[0] for row in catalogue.db.execute("SELECT sha256 FROM files"))
    files.path_of(catalogue, sha).write_bytes(b"other")
    with pytest.raises(RegistryError, match=f"The kept file {sha} was changed"):
        backup.backup(catalogue, tmp_path / "kept", MOMENT)
    files.path_of(catalogue, sha).unlink()
    with pytest.raises(RegistryError, match=f"The kept file {sha} is missing"):
        backup.backup(catalogue, tmp_path / "kept", MOMENT)
    assert not (tmp_path / "kept").exists() and not (tmp_path / "kept.new").exists()


def test_others_may_write_meanwhile(tmp_path):
    """Backups made while works with pictures are added are each whole in themselves."""
    catalogue = kept.new(tmp_path)
    stop, failed = threading.Event(), []

    def write():
        other, number = store.open_catalogue(catalogue.folder), 0
        try:
            while not stop.is_set() and number < 400:
                number += 1
                with store.transaction(other):
                    file = files.add(other, b"%PDF-1.4 " + str(number).encode() * 50, f"{number}.pdf")
                    works.add(other, {**kept.SCRAP, "title": f"Scrap {number}"}, key=f"s{number}")
                    ledger.append(other, "decision", "j", {"file": file.sha256})
        except Exception as error:  # shown by the main thread
            failed.append(error)

    writer = threading.Thread(target=write)
    writer.start()
    try:
        sizes = []
        for number in range(6):
            made = backup.backup(catalogue, tmp_path / f"kept{number}", MOMENT)
            backup.restore(made.folder, tmp_path / f"back{number}")
            report = verify.verify(store.open_catalogue(tmp_path / f"back{number}"), made.head or None)
            assert report.whole and report.rows == 2 * report.files
            sizes.append(report.rows)
    finally:
        stop.set()
        writer.join()
    assert not failed and sizes == sorted(sizes) and verify.verify(catalogue).whole


# --- before the tables change ------------------------------------------------------------------------------

def old(folder, without):
    """A catalogue as an older program made it: the last steps are lacking."""
    folder.mkdir()
    db = sqlite3.connect(folder / "catalogue.db")
    steps = dict(schema.STEPS)
    try:
        for name in list(schema.STEPS)[-without:]:
            del schema.STEPS[name]
        schema.migrate(db)
    finally:
        schema.STEPS.clear()
        schema.STEPS.update(steps)
    db.execute("INSERT INTO settings (key, value) VALUES ('name', '\"Ninepin\"')")
    db.commit()
    db.close()


@pytest.mark.parametrize("without", [1, 2])
def test_a_dated_copy_is_made_before_the_tables_change(tmp_path, without):
    old(tmp_path / "shop", without)
    first = list(schema.STEPS)[-without]
    catalogue = store.open_catalogue(tmp_path / "shop")
    (path,) = (tmp_path / "shop" / "backups").iterdir()
    assert path.name.endswith(f"Z-before-{first}.db") and path.name[:4].isdigit()
    with sqlite3.connect(path) as db:
        assert schema.applied(db) == list(schema.STEPS)[:-without] and db.execute("SELECT value FROM settings").fetchone() == ('"Ninepin"',)
        assert db.execute("PRAGMA integrity_check").fetchone() == ("ok",)
    assert set(schema.applied(catalogue.db)) == set(schema.STEPS)
    store.open_catalogue(tmp_path / "shop")
    assert len(list((tmp_path / "shop" / "backups").iterdir())) == 1


def test_a_new_catalogue_makes_none(tmp_path):
    assert not (kept.new(tmp_path).folder / "backups").exists()


def test_tables_are_not_changed_when_no_copy_can_be_made(tmp_path):
    old(tmp_path / "shop", 1)
    (tmp_path / "shop" / "backups").write_text("in the way")
    with pytest.raises(RegistryError, match="cannot be opened"):
        store.open_catalogue(tmp_path / "shop")
    with sqlite3.connect(tmp_path / "shop" / "catalogue.db") as db:
        assert schema.applied(db) == list(schema.STEPS)[:-1]


def test_two_copies_of_one_moment(tmp_path, catalogue):
    paths = {backup.before_steps(tmp_path, catalogue.db, "07-x", MOMENT).name for _ in range(3)}
    assert paths == {"20260701T093000Z-before-07-x.db", "20260701T093000Z-before-07-x-2.db", "20260701T093000Z-before-07-x-3.db"}


# --- the commands -----------------------------------------------------------------------------------------

def test_the_commands(catalogue, tmp_path, capsys):
    command = kept.Command(catalogue.folder, capsys)
    code, out, _ = command("backup", str(tmp_path / "kept"))
    assert code == 0 and verify.head(catalogue)[1] in " ".join(out.split())
    code, out, _ = command("restore", str(tmp_path / "kept"), str(tmp_path / "back"))
    assert code == 0 and "byte for byte" in " ".join(out.split()) and "The ledger, the files and the records agree." in out
    found = json.loads(command("restore", str(tmp_path / "kept"), str(tmp_path / "again"), "--json")[1])
    assert (found["head"], found["verified"]) == (verify.head(catalogue)[1], True)
    assert json.loads(command("backup", str(tmp_path / "kept2"), "--json")[1])["files"] == found["files"]
    assert "There is no backup in" in command.refused("restore", str(tmp_path / "nothing"), str(tmp_path / "x"))
