"""Worked cases from published sources and our own: status, and the free day where the row states one."""

import pytest
from rows import SHARED, answer, disputed, own_files, rows

DISPUTED = disputed()
ALL = [(name, row) for name in (*SHARED, *own_files()) for row in rows(name)
       if (name, row["facts"]["id"]) not in DISPUTED]


@pytest.mark.parametrize("name, row", ALL, ids=[row["facts"]["id"] for _name, row in ALL])
def test_row(name, row):
    expected, got = row["expected"], answer(row["facts"], row["jurisdiction"], row["as_of"])
    assert got["status"] == expected["status"], (row.get("note"), got)
    if expected["free_from"]:
        assert got["free_from"] == expected["free_from"], (row.get("note"), got)


def test_no_protected_row_is_called_free():
    wrong = [row["facts"]["id"] for name in (*SHARED, *own_files()) for row in rows(name)
             if row["expected"]["status"] == "in_copyright"
             and answer(row["facts"], row["jurisdiction"], row["as_of"])["status"] == "public_domain"]
    assert wrong == []


def test_ids_are_used_once():
    ids = [row["facts"]["id"] for name in (*SHARED, *own_files()) for row in rows(name)]
    assert len(ids) == len(set(ids))


def test_disputed_rows_exist():
    known = {(name, row["facts"]["id"]) for name in (*SHARED, *own_files()) for row in rows(name)}
    unknown = {(name, ident) for name, ident in DISPUTED if name.endswith(".jsonl")} - known
    assert unknown == set()
