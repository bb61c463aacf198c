"""The ledger is only added to, and a change of any row is found."""

import json
import sqlite3

import kept
import pytest
from registry.catalogue import ledger, store
from registry.catalogue.canonical import canonical, digest
from registry.errors import RegistryError


@pytest.fixture
def catalogue(tmp_path):
    found = kept.new(tmp_path)
    for number in range(1, 6):
        ledger.append(found, "decision", f"job-{number}", {"number": number, "note": "Grüße"})
    return found


def unlocked(catalogue):
    """The same ledger without the triggers that guard it, as an intruder would make it."""
    for (name,) in catalogue.db.execute("SELECT name FROM sqlite_master WHERE type = 'trigger' AND name LIKE 'ledger%'").fetchall():
        catalogue.db.execute(f"DROP TRIGGER {name}")
    return catalogue.db


def test_the_digest_is_that_of_the_published_form(catalogue):
    previous = ""
    for row in catalogue.db.execute("SELECT * FROM ledger ORDER BY seq").fetchall():
        whole = {name: row[name] for name in ("seq", "at", "kind", "subject")} | {"body": json.loads(row["body"]), "previous": previous}
        assert row["previous"] == previous
        assert row["digest"] == digest(whole)
        assert row["body"] == canonical(json.loads(row["body"]))
        previous = row["digest"]


def test_a_whole_chain(catalogue):
    chain = ledger.verify(catalogue)
    assert (chain.rows, chain.faults) == (5, ())
    assert chain.head == ledger.rows(catalogue)[-1].digest


def test_an_empty_chain(tmp_path):
    assert ledger.verify(kept.new(tmp_path)) == ledger.Chain(0, "", ())


@pytest.mark.parametrize(
    "command",
    [
        "UPDATE ledger SET subject = 'other' WHERE seq = 2",
        "UPDATE ledger SET seq = 9 WHERE seq = 5",
        "UPDATE OR REPLACE ledger SET seq = 1 WHERE seq = 5",
        "DELETE FROM ledger WHERE seq = 5",
        "DELETE FROM ledger",
        "INSERT OR REPLACE INTO ledger SELECT seq, at, kind, 'other', body, previous, digest FROM ledger WHERE seq = 3",
        "REPLACE INTO ledger SELECT seq, at, kind, 'other', body, previous, digest FROM ledger WHERE seq = 5",
        "INSERT INTO ledger SELECT 7, at, kind, subject, body, digest, digest FROM ledger WHERE seq = 5",
        "INSERT INTO ledger SELECT 6, at, kind, subject, body, 'made up', digest FROM ledger WHERE seq = 5",
        "INSERT INTO ledger SELECT NULL, at, kind, subject, body, digest, digest FROM ledger WHERE seq = 5",
    ],
)
def test_rows_are_not_altered(catalogue, command):
    before = kept.everything(catalogue)["ledger"]
    with pytest.raises(sqlite3.IntegrityError, match="^The ledger is only added to"):
        catalogue.db.execute(command)
    assert kept.everything(catalogue)["ledger"] == before


@pytest.mark.parametrize("column", ["at", "kind", "subject", "body", "previous", "digest"])
def test_a_changed_row_is_found(catalogue, column):
    other = {"body": '{"number":4}', "previous": "0" * 64, "digest": "0" * 64}.get(column, "other")
    unlocked(catalogue).execute(f"UPDATE ledger SET {column} = ? WHERE seq = 3", (other,))
    faults = ledger.verify(catalogue).faults
    assert faults and all("Row 3" in fault or "Row 4" in fault for fault in faults)


def test_a_row_that_only_looks_the_same_is_found(catalogue):
    unlocked(catalogue).execute("UPDATE ledger SET body = replace(body, '{', '{ ') WHERE seq = 2")
    assert ledger.verify(catalogue).faults == ("Row 2 of the ledger was changed after it was written.",)


def test_a_name_given_twice_is_found(catalogue):
    unlocked(catalogue).execute("""UPDATE ledger SET body = '{"note":"Grüße","number":9,"number":2}' WHERE seq = 2""")
    assert ledger.verify(catalogue).faults == ("Row 2 of the ledger was changed after it was written.",)


def test_a_removed_row_is_found(catalogue):
    unlocked(catalogue).execute("DELETE FROM ledger WHERE seq = 3")
    assert "Row 4 of the ledger stands where row 3 should; rows are missing." in ledger.verify(catalogue).faults


def test_a_row_rewritten_with_its_own_digest_breaks_the_next(catalogue):
    row = ledger.rows(catalogue)[2]
    body = {"number": 99}
    fresh = digest({"seq": 3, "at": row.at, "kind": row.kind, "subject": row.subject, "body": body, "previous": row.previous})
    unlocked(catalogue).execute("UPDATE ledger SET body = ?, digest = ? WHERE seq = 3", (canonical(body), fresh))
    assert ledger.verify(catalogue).faults == ("Row 4 of the ledger does not name the digest of the row before it.",)


def test_rows_cut_off_at_the_end_are_found_by_a_noted_digest(catalogue):
    head = ledger.verify(catalogue).head
    ledger.append(catalogue, "decision", "job-6", {})
    assert ledger.verify(catalogue, head).faults == ()
    unlocked(catalogue).execute("DELETE FROM ledger WHERE seq > 4")
    assert ledger.verify(catalogue).faults == ()
    assert ledger.verify(catalogue, head).faults == ("The ledger does not hold the digest that was noted; rows were removed or replaced.",)


def test_what_cannot_be_written_is_not(catalogue):
    before = kept.everything(catalogue)["ledger"]
    for body in ({"share": 0.5}, {"ö": 1}, {"text": "\ud800"}):
        with pytest.raises(RegistryError):
            ledger.append(catalogue, "decision", "job-1", body)
    assert kept.everything(catalogue)["ledger"] == before


def test_a_row_of_a_failed_transaction_leaves_no_gap(catalogue):
    with pytest.raises(ZeroDivisionError), store.transaction(catalogue):
        ledger.append(catalogue, "decision", "job-6", {})
        1 / 0
    ledger.append(catalogue, "decision", "job-7", {})
    assert ledger.verify(catalogue) == ledger.Chain(6, ledger.rows(catalogue)[-1].digest, ())


def test_rows_by_kind_and_subject(catalogue):
    ledger.append(catalogue, "complaint", "job-2", {"from": "somebody"})
    assert [row.seq for row in ledger.rows(catalogue, "decision")] == [1, 2, 3, 4, 5]
    assert [row.kind for row in ledger.rows(catalogue, subject="job-2")] == ["decision", "complaint"]
    assert ledger.newest(catalogue, "decision", "job-2", number=2).seq == 2
    assert ledger.newest(catalogue, "decision", "job-2", number=3) is None


def test_moments_are_in_utc_and_never_before_the_last(catalogue):
    moments = [row.at for row in ledger.rows(catalogue)]
    assert moments == sorted(moments)
    assert all(len(at) == 20 and at.endswith("Z") for at in moments)
