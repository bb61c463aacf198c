"""The demo catalogue: filled whole, and a job in it that has something to say."""

import re
import sys
from pathlib import Path

import kept
import pytest
from registry.catalogue import evidence, files, jobs, ledger, marks, permissions, settings, store, works

DEMO = Path(__file__).resolve().parent.parent / "scripts/demo"


@pytest.fixture(scope="module")
def fill():
    """The module scripts/demo/fill.py."""
    sys.path.insert(0, str(DEMO))
    try:
        import fill

        yield fill
    finally:
        sys.path.remove(str(DEMO))


@pytest.fixture(scope="module")
def catalogue(fill, tmp_path_factory):
    folder = tmp_path_factory.mktemp("demo") / "catalogue"
    assert fill.main(["--catalogue", str(folder)]) == 0
    return store.open_catalogue(folder)


def test_all_records_of_the_shop_are_in_it(fill, catalogue):
    records = fill.shop.load(DEMO)
    assert [record.key for record in works.listed(catalogue)] == [record["key"] for record in records["works"]]
    assert {job.key for job in jobs.listed(catalogue)} == {record["key"] for record in records["jobs"]}
    assert len(marks.listed(catalogue)) == len(records["marks"])
    for module, kind in ((evidence, "evidence"), (permissions, "permissions")):
        kept = [record for record in records[kind] if record.get("kind") != "own work"]
        assert sum(len(module.of_work(catalogue, record.key)) for record in works.listed(catalogue)) == len(kept)
    assert {record.key for record in works.listed(catalogue) if record.own} == {record["work"] for record in records["permissions"] if record["kind"] == "own work"}
    assert settings.get(catalogue, "markets") == ["US", "CA", "GB"]


def test_facts_stand_as_they_were_written(fill, catalogue):
    for record in fill.shop.load(DEMO)["works"]:
        assert works.get(catalogue, record["key"]).facts == record["facts"]


def test_every_work_has_its_picture(catalogue):
    for record in works.listed(catalogue):
        assert files.get(catalogue, record.picture).media_type in files.PICTURES
        assert files.read(catalogue, record.picture)


def test_every_work_was_assessed_and_the_ledger_is_whole(catalogue):
    assert catalogue.db.execute("SELECT count(*) FROM works_now").fetchone()[0] == 3 * works.count(catalogue)
    assert ledger.verify(catalogue).faults == ()


def test_a_full_folder_is_refused(fill, catalogue, capsys):
    assert fill.main(["--catalogue", str(catalogue.folder)]) == 1
    assert capsys.readouterr().err.endswith(" already.\n")


def test_the_start_script_checks_a_job_of_the_demo(catalogue, capsys):
    text = (DEMO.parent / "start").read_text(encoding="utf-8")
    job, places = (re.search(rf"^{name}=([\w,-]+)", text, re.MULTILINE)[1] for name in ("DEMO_JOB", "DEMO_PLACES"))
    code, out, err = kept.Command(catalogue.folder, capsys)("check", "--job", job, "--in", places, "--dry")
    assert (code, err) == (3, "")
    assert "likely public domain" in out and "likely in copyright" in out and "hold" in out
