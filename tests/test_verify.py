"""Whatever is changed in the ledger, in a kept file or in a table that must agree with it is found, and the entry named."""

import json
import random

import kept
import pytest
from registry.catalogue import answers, evidence, files, jobs, ledger, store, verify, works
from registry.catalogue.canonical import canonical, digest
from registry.errors import RegistryError
from registry.facts import edtf

DAY = edtf.day("2026-07-01")
TRIALS = 2000
FIELDS = ("seq", "at", "kind", "subject", "body", "previous", "digest")


def filled(folder):
    """A small catalogue with every kind of row in the ledger, and files."""
    catalogue = kept.new(folder)
    with store.transaction(catalogue):
        for number in range(4):
            works.add(catalogue, {**kept.GULL, "title": f"Möwe {number} \u6d77"}, key=f"gull{number}")
            answers.record(catalogue, answers.answer_work(works.get(catalogue, f"gull{number}"), ("US", "GB"), DAY))
            file = files.add(catalogue, b"%PDF-1.4 page " + bytes([65 + number]) * 200, f"{number}.pdf")
            evidence.add(catalogue, f"gull{number}", "died", "seen", file=file.sha256, title="Größe \"A\"\\\n\t\x7f")
        ledger.append(catalogue, "decision", "towel", {"job": "towel", "by": "I. Corrow", "note": "", "clear": True, "quantity": 9007199254740991})
    return catalogue


@pytest.fixture
def catalogue(tmp_path):
    return filled(tmp_path)


def unlocked(catalogue):
    """The database without the guards of the ledger, as an intruder would make it."""
    for (name,) in catalogue.db.execute("SELECT name FROM sqlite_master WHERE type = 'trigger' AND name LIKE 'ledger%'").fetchall():
        catalogue.db.execute(f"DROP TRIGGER {name}")
    catalogue.db.execute("PRAGMA ignore_check_constraints = on")
    catalogue.db.execute("PRAGMA foreign_keys = off")
    return catalogue.db


def test_a_whole_catalogue(catalogue):
    report = verify.verify(catalogue)
    assert (report.whole, report.first, report.strays) == (True, (), ())
    assert (report.rows, report.files, report.works, report.evidence) == (17, 4, 4, 4)
    assert report.head == verify.head(catalogue)[1] == ledger.rows(catalogue)[-1].digest
    assert report.file_bytes == 4 * 214
    assert report.ledger_bytes == sum(len(canonical({"seq": row.seq, "at": row.at, "kind": row.kind, "subject": row.subject, "body": row.body,
                                                     "previous": row.previous}).encode()) for row in ledger.rows(catalogue))


def test_an_empty_catalogue(tmp_path):
    report = verify.verify(kept.new(tmp_path))
    assert (report.whole, report.rows, report.head, report.files) == (True, 0, "", 0)


# --- two thousand changes ------------------------------------------------------------------------------

def byte_changed(content, chance):
    """The bytes with one of them another."""
    at = chance.randrange(len(content))
    return content[:at] + bytes([content[at] ^ chance.randrange(1, 256)]) + content[at + 1:]


def change_of_row(catalogue, chance, numbers):
    """Changes one byte or one whole field of a row; (numbers of which the report must name one, a way back)."""
    seq, field = chance.choice(numbers), chance.choice(FIELDS)
    if field == "seq":
        other = chance.choice([seq + 1000, -seq, 10**12])
        catalogue.db.execute("UPDATE ledger SET seq = ? WHERE seq = ?", (other, seq))
        return {str(seq), str(other)}, lambda: catalogue.db.execute("UPDATE ledger SET seq = ? WHERE seq = ?", (seq, other))
    (before,) = catalogue.db.execute(f"SELECT CAST({field} AS BLOB) FROM ledger WHERE seq = ?", (seq,)).fetchone()
    after = byte_changed(before, chance) if before and chance.random() < 0.7 else other_field(catalogue, field, before, chance)
    put = f"UPDATE ledger SET {field} = CAST(? AS TEXT) WHERE seq = ?"
    catalogue.db.execute(put, (after, seq))
    return {str(seq)}, lambda: catalogue.db.execute(put, (before, seq))


def other_field(catalogue, field, before, chance):
    """A field that would do in another row, or nothing, or the same with a blank more."""
    taken = catalogue.db.execute(f"SELECT CAST({field} AS BLOB) FROM ledger WHERE {field} <> CAST(? AS TEXT) ORDER BY seq LIMIT 1", (before,)).fetchone()
    return chance.choice([taken[0] if taken else b"other", b"" if before else b"0", before + b" ", b" " + before])


def change_of_file(catalogue, chance, _numbers):
    """Changes, cuts, lengthens or removes a kept file."""
    sha256 = chance.choice([row[0] for row in catalogue.db.execute("SELECT sha256 FROM files")])
    path = files.path_of(catalogue, sha256)
    before = path.read_bytes()
    way = chance.choice(["byte"] * 6 + ["cut", "longer", "empty", "gone"])
    if way == "gone":
        path.unlink()
    else:
        path.write_bytes({"byte": byte_changed(before, chance), "cut": before[:-1], "longer": before + b"\n", "empty": b""}[way])
    return {sha256}, lambda: path.write_bytes(before)


def test_two_thousand_changes_are_found_and_named(catalogue):
    chance = random.Random(8493)
    unlocked(catalogue)
    numbers = [row.seq for row in ledger.rows(catalogue)]
    clean = verify.verify(catalogue)
    assert {fault.part for fault in clean.first} == {"guard"}
    for trial in range(TRIALS):
        change, part = chance.choice([(change_of_row, "ledger")] * 3 + [(change_of_file, "file")])
        names, back = change(catalogue, chance, numbers)
        first = verify.verify(catalogue).first[0]
        assert (first.part, first.entry in names) == (part, True), (trial, first, names)
        assert any(name in first.says for name in names), first
        back()
    assert verify.verify(catalogue) == clean


# --- what a clever change leaves behind --------------------------------------------------------------

def rewritten(catalogue, seq, body):
    """Rewrites a row and every digest behind it, so that the chain is whole again."""
    rows, previous = ledger.rows(catalogue), ""
    for row in rows:
        row_body = body if row.seq == seq else row.body
        whole = digest({"seq": row.seq, "at": row.at, "kind": row.kind, "subject": row.subject, "body": row_body, "previous": previous})
        catalogue.db.execute("UPDATE ledger SET body = ?, previous = ?, digest = ? WHERE seq = ?", (canonical(row_body), previous, whole, row.seq))
        previous = whole


def test_a_ledger_written_anew_is_found_by_a_head_noted_elsewhere(catalogue):
    row, noted, _moment = verify.head(catalogue)
    ledger.append(catalogue, "decision", "towel", {"by": "later"})
    assert verify.verify(catalogue, noted).noted == row and verify.verify(catalogue, noted.upper() + "\n").whole
    unlocked(catalogue)
    rewritten(catalogue, 17, {"job": "towel", "by": "somebody else"})
    assert {fault.part for fault in verify.verify(catalogue).first} == {"guard"}
    first = verify.verify(catalogue, noted).first[0]
    assert first == verify.Fault("ledger", "head", "The ledger does not hold the digest that was noted; rows were removed or replaced.")


def test_rows_cut_off_are_found_by_a_head_noted_elsewhere(catalogue):
    noted = verify.head(catalogue)[1]
    unlocked(catalogue).execute("DELETE FROM ledger WHERE seq > 15")
    assert verify.verify(catalogue, noted).first[0].entry == "head"


@pytest.mark.parametrize("noted", ["abc", "g" * 64, "0" * 63, "", " "])
def test_what_is_no_head_is_refused(catalogue, noted):
    with pytest.raises(RegistryError, match="is no head of a ledger; 64 hexadecimal digits are needed"):
        verify.verify(catalogue, noted)


@pytest.mark.parametrize("command, part, entry", [
    ("UPDATE works SET facts = replace(facts, '1950', '1930') WHERE key = 'gull2'", "work", "gull2"),
    ("UPDATE works SET facts_sha256 = '{}' WHERE key = 'gull1'".format("0" * 64), "work", "gull1"),
    ("UPDATE works SET key = 'tern' WHERE key = 'gull3'", "work", "tern"),
    ("DELETE FROM works WHERE key = 'gull3'", "work", "gull3"),
    ("UPDATE evidence SET basis = 'told' WHERE id = 2", "evidence", "e2"),
    ("UPDATE evidence SET file = NULL WHERE id = 3", "evidence", "e3"),
    ("UPDATE evidence SET value = '[\"1930\"]' WHERE id = 4", "evidence", "e4"),
    ("DELETE FROM evidence WHERE id = 1", "evidence", "row 4"),
    ("INSERT INTO evidence (work, fact, basis, added_at) VALUES (1, 'died', 'seen', '')", "evidence", "table"),
    ("UPDATE files SET bytes = bytes + 1 WHERE name = '2.pdf'", "file", None),
    ("UPDATE files SET sha256 = '{}' WHERE name = '2.pdf'".format("a" * 64), "file", "a" * 64),
    ("UPDATE files SET sha256 = '../../etc/passwd' WHERE name = '2.pdf'", "file", "../../etc/passwd"),
    ("DROP TRIGGER ledger_is_not_removed", "guard", "ledger_is_not_removed"),
])
def test_tables_that_no_longer_agree(catalogue, command, part, entry):
    catalogue.db.execute("PRAGMA foreign_keys = off")
    catalogue.db.execute("PRAGMA ignore_check_constraints = on")
    catalogue.db.execute(command)
    first = verify.verify(catalogue).first[0]
    assert first.part == part and entry in (None, first.entry), first


def test_a_trigger_that_does_nothing_any_more_is_found(catalogue):
    catalogue.db.execute("DROP TRIGGER ledger_is_not_changed")
    catalogue.db.execute("CREATE TRIGGER ledger_is_not_changed BEFORE UPDATE ON ledger BEGIN SELECT 1; END")
    assert [fault.entry for fault in verify.verify(catalogue).first] == ["ledger_is_not_changed"]


def test_a_lawful_change_leaves_all_whole(catalogue):
    record = works.get(catalogue, "gull1")
    works.change(catalogue, "gull1", record.version, facts={**record.facts, "created": "1927"})
    assert verify.verify(catalogue).whole


def test_a_file_of_nobody_is_named_and_harms_nothing(catalogue):
    stray = catalogue.folder / "files" / "ab" / ("ab" + "0" * 62)
    stray.parent.mkdir(exist_ok=True)
    stray.write_bytes(b"left over")
    report = verify.verify(catalogue)
    assert report.whole and report.strays == (f"ab/{stray.name}",)


def test_many_faults_are_counted_and_the_first_are_told(catalogue):
    unlocked(catalogue).execute("UPDATE ledger SET at = at || 'x'")
    for (sha256,) in catalogue.db.execute("SELECT sha256 FROM files").fetchall():
        files.path_of(catalogue, sha256).write_bytes(b"other")
    report = verify.verify(catalogue)
    assert (report.faults, len(report.first)) == (17 + 4 + 3, verify.MANY)  # rows, files, and the guards taken away
    assert [fault.entry for fault in report.first[:3]] == ["1", "2", "3"]


def test_what_is_written_meanwhile_does_not_disturb(catalogue):
    other = store.open_catalogue(catalogue.folder)
    before = verify.verify(catalogue).rows
    with verify._still(catalogue.db):
        catalogue.db.execute("SELECT count(*) FROM ledger").fetchone()
        works.add(other, kept.CRAB, key="crab")
        assert catalogue.db.execute("SELECT count(*) FROM ledger").fetchone()[0] == before
    assert verify.verify(catalogue).rows == before + 1


# --- the database itself -----------------------------------------------------------------------------------

def test_a_damaged_page_of_any_table_or_index_is_found(catalogue):
    path = catalogue.folder / store.NAME
    size = catalogue.db.execute("PRAGMA page_size").fetchone()[0]
    roots = {name: page for name, page in catalogue.db.execute("SELECT name, rootpage FROM sqlite_master WHERE rootpage > 1")}
    catalogue.db.close()
    whole, chance = path.read_bytes(), random.Random(5)
    assert {"permissions", "jobs", "marks", "settings", "ledger", "works"} < roots.keys()
    for name, page in roots.items():
        path.write_bytes(whole[:(page - 1) * size] + chance.randbytes(size) + whole[page * size:])
        try:
            damaged = store.open_catalogue(catalogue.folder)
            report = verify.verify(damaged)
            damaged.db.close()
        except RegistryError as error:  # the list of its steps cannot be read
            assert "cannot be opened" in str(error), name
            continue
        assert "database" in {fault.part for fault in report.first} and not report.whole, name
    path.write_bytes(whole)
    assert verify.verify(store.open_catalogue(catalogue.folder)).whole


@pytest.mark.parametrize("large", [2**40, 0])
def test_an_index_that_does_not_fit_its_table_is_found_unless_the_database_is_large(catalogue, monkeypatch, large):
    monkeypatch.setattr(verify, "LARGE", large)
    catalogue.db.execute("PRAGMA writable_schema = on")
    catalogue.db.execute("CREATE INDEX lying ON jobs (title)")
    jobs.add(catalogue, title="Gull sign")
    catalogue.db.execute("UPDATE sqlite_master SET sql = 'CREATE INDEX lying ON jobs (key)' WHERE name = 'lying'")
    catalogue.db.close()
    report = verify.verify(store.open_catalogue(catalogue.folder))
    assert [fault.part for fault in report.first] == (["database"] if large else [])


def test_a_row_that_names_one_that_is_not_there_is_found(catalogue):
    unlocked(catalogue).execute("UPDATE works SET based_on = 999 WHERE key = 'gull1'")
    (fault,) = [one for one in verify.verify(catalogue).first if one.part == "database"]
    assert fault.says == "Row 2 of the table works names a row of works that is not there."



def test_a_database_that_sqlite_cannot_even_quote_is_refused_in_one_sentence(catalogue, capsys):
    path = catalogue.folder / store.NAME
    catalogue.db.close()
    whole = path.read_bytes()
    place = whole.index(b"CREATE TABLE")
    path.write_bytes(whole[:place] + b"CREATE \xff\xfe\xc8" + whole[place + 10:])
    said = kept.Command(catalogue.folder, capsys).refused("verify")
    assert said == f"The catalogue {path} cannot be opened: it is damaged."


def test_single_bytes_of_a_damaged_page_are_never_a_traceback(catalogue):
    path = catalogue.folder / store.NAME
    size = catalogue.db.execute("PRAGMA page_size").fetchone()[0]
    pages = [row[0] for row in catalogue.db.execute("SELECT rootpage FROM sqlite_master WHERE name IN ('works', 'ledger', 'files', 'evidence')")]
    catalogue.db.close()
    whole, chance, found = path.read_bytes(), random.Random(7), 0
    for _ in range(300):
        damaged = bytearray(whole)
        for _ in range(chance.choice((1, 2, 30))):
            start = (chance.choice(pages) - 1) * size
            damaged[chance.choice([place for place in range(start, start + size) if whole[place]])] = chance.randrange(256)
        path.write_bytes(damaged)
        try:
            opened = store.open_catalogue(catalogue.folder)
        except RegistryError:
            continue
        found += not verify.verify(opened).whole
        opened.db.close()
    assert found > 100


@pytest.mark.parametrize("column", ["at", "body", "kind", "previous", "subject", "digest"])
def test_a_value_of_the_ledger_that_is_gone_is_a_fault(catalogue, column):
    db = unlocked(catalogue)
    db.execute("PRAGMA writable_schema = on")
    db.execute("UPDATE sqlite_master SET sql = replace(sql, 'NOT NULL', '') WHERE name = 'ledger'")
    db.close()
    opened = store.open_catalogue(catalogue.folder)
    opened.db.execute("PRAGMA ignore_check_constraints = on")
    opened.db.execute(f"UPDATE ledger SET {column} = NULL WHERE seq = 1")
    assert "ledger" in {fault.part for fault in verify.verify(opened).first}


# --- the commands ----------------------------------------------------------------------------------------

@pytest.fixture
def command(catalogue, capsys):
    return kept.Command(catalogue.folder, capsys)


def test_the_command_says_what_was_not_changed_and_what_it_cannot_tell(command):
    code, head, err = command("head")
    assert code == 0 and len(head.strip()) == 64 and "Row 17" in err
    code, out, _ = command("verify", "--head", head.strip())
    assert code == 0 and "17 rows" in out and "that of row 17" in " ".join(out.split())
    said = " ".join(out.split())
    assert "As they were recorded: the ledger with its assessments, decisions and complaints, the facts of the works, the evidence, and the kept files." in said
    assert "Not covered by the ledger, so that a change of it shows nowhere: what a work is based on, its originality" in said
    assert "permissions; jobs and what they use; marks and searches; settings." in said and "Nothing was changed" not in said
    assert json.loads(command("verify", "--json")[1])["not_covered"] == list(verify.BARE)
    assert json.loads(command("head", "--json")[1])["head"] == head.strip()


def test_the_command_names_the_fault(command, catalogue):
    unlocked(catalogue).execute("UPDATE ledger SET subject = 'gull9' WHERE seq = 6")
    code, out, _ = command("verify")
    assert code == 1 and "NOT as it was recorded" in out and "Row 6 of the ledger was changed" in " ".join(out.split())
    code, out, _ = command("verify", "--json")
    found = json.loads(out)
    assert (code, found["whole"], found["first"][0]["part"], found["first"][0]["entry"]) == (1, False, "ledger", "6")


def test_no_head_of_an_empty_ledger(tmp_path, capsys):
    catalogue = kept.new(tmp_path)
    assert kept.Command(catalogue.folder, capsys).refused("head").startswith("The ledger is empty")
