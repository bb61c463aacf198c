"""A catalogue is made whole, opened only when it is one, and written all or nothing."""

import sqlite3
import threading

import kept
import pytest
from registry.catalogue import schema, store, tables, works
from registry.errors import RegistryError


def test_a_new_catalogue(tmp_path):
    catalogue = store.create(tmp_path / "shop" / "here")
    assert sorted(path.name for path in catalogue.folder.iterdir() if "-" not in path.name) == ["catalogue.db", "files"]
    assert catalogue.db.execute("PRAGMA journal_mode").fetchone()[0] == "wal"
    assert catalogue.db.execute("PRAGMA foreign_keys").fetchone()[0] == 1
    assert schema.applied(catalogue.db) == list(schema.STEPS)


def test_every_table_is_strict(tmp_path):
    catalogue = kept.new(tmp_path)
    found = catalogue.db.execute("SELECT name, strict FROM pragma_table_list WHERE type = 'table' AND schema = 'main'").fetchall()
    ours = {name: strict for name, strict in found if not name.startswith(("sqlite_", "_sqlite", "works_search", "mark_keys"))}
    assert {"settings", "files", "works", "creators", "publications", "traits", "evidence", "permissions", "marks",
            "mark_works", "mark_searches", "jobs", "uses", "ledger"} <= set(ours)
    assert set(ours.values()) == {1}


def test_every_view_can_be_read(tmp_path):
    catalogue = kept.new(tmp_path)
    views = [row[0] for row in catalogue.db.execute("SELECT name FROM sqlite_master WHERE type = 'view'")]
    assert {"assessments", "decisions", "complaints", "works_now", "open_questions", "stale"} <= set(views)
    for name in views:
        assert catalogue.db.execute(f"SELECT * FROM {name}").fetchall() == []


def test_a_second_catalogue_in_the_same_folder_is_refused(tmp_path):
    catalogue = kept.new(tmp_path)
    works.add(catalogue, kept.GULL)
    with pytest.raises(RegistryError, match="^There is a catalogue in .* already.$"):
        store.create(catalogue.folder)
    assert works.count(catalogue) == 1


def test_a_failing_step_leaves_no_catalogue(tmp_path, monkeypatch):
    monkeypatch.setitem(schema.STEPS, "05-wrong", ("CREATE TABLE half (a TEXT) STRICT", "CREATE TABLE half (a TEXT) STRICT"))
    with pytest.raises(RegistryError, match="^No catalogue could be made in .*: table half already exists.$"):
        store.create(tmp_path / "shop")
    assert [path.name for path in (tmp_path / "shop").iterdir()] == ["files"]
    monkeypatch.undo()
    assert store.create(tmp_path / "shop").folder.is_dir()


def test_a_folder_that_cannot_be_made(tmp_path):
    (tmp_path / "file").write_text("x")
    with pytest.raises(RegistryError, match="^No catalogue could be made in .*: Not a directory.$"):
        store.create(tmp_path / "file" / "shop")


def test_an_older_catalogue_is_brought_up(tmp_path, monkeypatch):
    catalogue = kept.new(tmp_path)
    works.add(catalogue, kept.GULL)
    catalogue.db.close()
    monkeypatch.setitem(schema.STEPS, "05-more", ("CREATE TABLE more (a TEXT) STRICT",))
    again = store.open_catalogue(catalogue.folder)
    assert again.db.execute("SELECT count(*) FROM more").fetchone()[0] == 0
    assert works.count(again) == 1


def test_a_step_that_fails_on_an_older_catalogue_leaves_it_as_it_was(tmp_path, monkeypatch):
    catalogue = kept.new(tmp_path)
    before = kept.everything(catalogue)
    catalogue.db.close()
    monkeypatch.setitem(schema.STEPS, "05-wrong", ("CREATE TABLE more (a TEXT) STRICT", "INSERT INTO nowhere VALUES (1)"))
    with pytest.raises(RegistryError, match="cannot be opened: no such table: nowhere.$"):
        store.open_catalogue(catalogue.folder)
    monkeypatch.undo()
    assert kept.everything(store.open_catalogue(catalogue.folder)) == before


def test_a_newer_catalogue_is_refused(tmp_path):
    catalogue = kept.new(tmp_path)
    catalogue.db.execute("INSERT INTO _sqlite_migrations (migration_set, name, applied_at) VALUES ('catalogue', '99-later', 'x')")
    catalogue.db.close()
    with pytest.raises(RegistryError, match="made by a newer version of this program .it has the step 99-later..$"):
        store.open_catalogue(catalogue.folder)


@pytest.mark.parametrize(
    "content, says",
    [
        (None, "^There is no catalogue in .*; make one with 'registry init', or name its folder with --catalogue.$"),
        (b"this is no database at all, only text", "cannot be opened: file is not a database.$"),
        (b"", "is a database, but no catalogue of this program.$"),
    ],
)
def test_what_is_no_catalogue(tmp_path, content, says):
    if content is not None:
        (tmp_path / "catalogue.db").write_bytes(content)
    with pytest.raises(RegistryError, match=says):
        store.open_catalogue(tmp_path)


def test_nothing_half_written_stays(tmp_path):
    catalogue = kept.new(tmp_path)
    before = kept.everything(catalogue)
    with pytest.raises(ZeroDivisionError):
        with store.transaction(catalogue):
            works.add(catalogue, kept.GULL)
            1 / 0
    assert kept.everything(catalogue) == before
    assert not catalogue.db.in_transaction


def test_a_part_that_fails_alone(tmp_path):
    catalogue = kept.new(tmp_path)
    with store.transaction(catalogue):
        works.add(catalogue, kept.GULL, key="gull")
        with pytest.raises(RegistryError):
            works.add(catalogue, kept.CRAB, key="gull")
        works.add(catalogue, kept.CRAB, key="crab")
    assert [record.key for record in works.listed(catalogue)] == ["gull", "crab"]


def test_another_program_that_writes_for_long(tmp_path, monkeypatch):
    catalogue = kept.new(tmp_path)
    monkeypatch.setattr(store, "PATIENCE", 0.05)
    other = store.open_catalogue(catalogue.folder)
    with store.transaction(catalogue):
        with pytest.raises(RegistryError, match="^The catalogue is being written by another program; try again in a moment.$"):
            works.add(other, kept.GULL)
    assert works.add(other, kept.GULL).key == "w1"


def test_writers_wait_for_each_other(tmp_path):
    folder = kept.new(tmp_path).folder

    def write(count):
        catalogue = store.open_catalogue(folder)
        for _ in range(count):
            works.add(catalogue, kept.GULL)
        catalogue.db.close()

    threads = [threading.Thread(target=write, args=(10,)) for _ in range(4)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    catalogue = store.open_catalogue(folder)
    assert {record.key for record in works.listed(catalogue)} == {f"w{number}" for number in range(1, 41)}


def test_a_connection_of_somebody_else(tmp_path):
    folder = kept.new(tmp_path).folder
    connection = sqlite3.connect(folder / store.NAME)
    catalogue = store.wrap(folder, connection)
    assert works.add(catalogue, kept.GULL).key == "w1"
    assert not connection.in_transaction
    assert works.count(store.open_catalogue(folder)) == 1


def test_all_tables_are_made_in_the_first_steps():
    whole = " ".join(tables.TABLES)
    assert all(f"CREATE TABLE {name} (" in whole for name in ("works", "jobs", "uses", "marks", "mark_searches", "permissions"))
