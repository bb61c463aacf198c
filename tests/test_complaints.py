"""Complaints: kept in the ledger, tracked, and handed over as one folder without private columns or opinions."""

import json

import kept
import pytest

from registry.catalogue import complaints, evidence, files, jobs, ledger, marks, settings, store, watch, works
from registry.errors import BadDate, RegistryError, UnknownRecord
from registry.exchange import complaint_folder, complaint_index
from registry.facts import edtf

DAY = edtf.day("2026-11-25")
SECRETS = ("Mrs Thimbleby", "GBP 4711", "hush-hush job", "hush-hush work")


@pytest.fixture
def catalogue(tmp_path):
    found = kept.new(tmp_path)
    settings.put(found, name="Ninepin Slip", markets=["US"])
    paper = files.add(found, b"the letter as received", "letter.txt")
    works.add(found, kept.GULL, key="gull", notes=SECRETS[3])
    evidence.add(found, "gull", "us_renewed", "seen", kind="search report", title="Renewals 1956", file=files.add(found, b"report", "r.txt").sha256)
    jobs.add(found, key="sign", title="Gull sign", product="carved wooden sign", wording="GULL & BOLLARD", markets=["US", "GB"], customer=SECRETS[0], price=SECRETS[1], notes=SECRETS[2])
    jobs.use(found, "sign", "gull", "picture")
    marks.add(found, words="GULL & BOLLARD", office="GB", classes=[33], state="live", owner="Bollard Brewery")
    complaints.add(found, received="2026-11-20", sender="Bollard Brewery", claim="uses our name", jobs=["sign"], marks=["m1"], deadline="2026-12-01", where="a marketplace",
                   reference="R-77", file=paper.sha256)
    return found


def test_a_complaint_is_kept_in_the_ledger(catalogue):
    one = complaints.get(catalogue, "c1")
    assert (one.sender, one.deadline, one.jobs, one.marks, one.state, one.answers) == ("Bollard Brewery", "2026-12-01", ("sign",), ("m1",), "open", ())
    assert [row.kind for row in ledger.rows(catalogue, subject="c1")] == ["complaint"]
    assert ledger.rows(catalogue)[-1].subject == "c1"
    assert complaints.of_job(catalogue, "sign") == [one]


@pytest.mark.parametrize("outcomes, says", [([], " (6 days left)"), (["sent"], " (6 days left)"), (["sent", "withdrawn"], "")])
def test_nothing_is_left_of_the_deadline_of_a_closed_complaint(catalogue, outcomes, says):
    for outcome in outcomes:
        complaints.answer(catalogue, "c1", answered="2026-11-24", by="Ann", says="so it is", outcome=outcome)
    assert f"Deadline: 2026-12-01{says}\n" in complaint_index.text(complaint_folder.collect(catalogue, "c1", DAY), [])


@pytest.mark.parametrize("outcomes, state", [([], "open"), (["sent"], "answered"), (["sent", "withdrawn"], "closed"), (["upheld"], "closed"), (["sent", "settled", "sent"], "closed")])
def test_the_answer_is_tracked(catalogue, outcomes, state):
    for outcome in outcomes:
        complaints.answer(catalogue, "c1", answered="2026-11-26", by="Ann", says="so it is", outcome=outcome)
    one = complaints.get(catalogue, "c1")
    assert one.state == state and [answer.outcome for answer in one.answers] == outcomes
    assert complaints.listed(catalogue, state) == [one]
    assert complaints.waiting(catalogue, "2026-12-31") == ([one] if state == "open" else [])
    assert complaints.waiting(catalogue, "2026-11-30") == []


def test_the_earliest_deadline_stands_first_and_closed_ones_last(catalogue):
    for number, deadline in enumerate((None, "2026-11-28", "2027-01-01"), 2):
        complaints.add(catalogue, received="2026-11-21", sender="X", claim="y", jobs=[], works=["gull"], deadline=deadline)
    complaints.answer(catalogue, "c3", answered="2026-11-22", by="Ann", says="over", outcome="withdrawn")
    assert [one.key for one in complaints.listed(catalogue)] == ["c1", "c4", "c2", "c3"]


@pytest.mark.parametrize("given, error, says", [
    ({"sender": " "}, RegistryError, "from whom it comes"), ({"claim": ""}, RegistryError, "what it claims"), ({"jobs": []}, RegistryError, "the jobs, or at least the works"),
    ({"jobs": ["mug"]}, UnknownRecord, "There is no job 'mug'"), ({"works": ["tern"]}, UnknownRecord, "There is no work 'tern'"), ({"marks": ["m9"]}, UnknownRecord, "There is no mark m9"),
    ({"received": "2999-01-01"}, RegistryError, "^received: 2999-01-01 lies in the future"), ({"received": "May"}, BadDate, "^received: "), ({"deadline": "soon"}, BadDate, "^deadline: "), ({"file": "0" * 64}, UnknownRecord, "No file"),
    ({"deadline": "2026-11-19"}, RegistryError, "^The deadline is 2026-11-19, before the day on which the complaint came in \\(2026-11-20\\)"),
])
def test_complaints_that_cannot_be(catalogue, given, error, says):
    with pytest.raises(error, match=says):
        complaints.add(catalogue, **{"received": "2026-11-20", "sender": "X", "claim": "y", "jobs": ["sign"], **given})
    assert len(complaints.listed(catalogue)) == 1


@pytest.mark.parametrize("given, says", [
    ({"by": ""}, "the name of who gave it"), ({"says": " "}, "a note of what was said"), ({"outcome": "won"}, "allowed are sent, withdrawn, settled, upheld, rejected"),
    ({"answered": "2026-11-19"}, "before the complaint c1 came in"), ({"answered": "2999-01-01"}, "^answered: 2999-01-01 lies in the future"),
])
def test_answers_that_cannot_be(catalogue, given, says):
    with pytest.raises(RegistryError, match=says):
        complaints.answer(catalogue, "c1", **{"answered": "2026-11-26", "by": "Ann", "says": "no", **given})
    assert complaints.get(catalogue, "c1").answers == ()


def test_the_folder_holds_the_records_and_the_files(catalogue, tmp_path):
    complaint_folder.write(catalogue, "c1", tmp_path / "out", DAY)
    names = sorted(str(path.relative_to(tmp_path / "out")) for path in (tmp_path / "out").rglob("*") if path.is_file())
    assert [name for name in names if not name.startswith("files/")] == ["complaint.json", "index.txt", "jobs/sign.html", "jobs/sign.json", "ledger.json", "marks.json", "works/gull.json"]
    copied = {path.read_bytes() for path in (tmp_path / "out" / "files").iterdir()}
    assert copied == {b"the letter as received", b"report"}
    job = json.loads((tmp_path / "out/jobs/sign.json").read_text())
    assert "Gull sign" in (tmp_path / "out/jobs/sign.html").read_text(encoding="utf-8")
    assert job["answer_today"]["markets"][0]["market"] == "US" and job["decisions"] == [] and job["rests_on"]
    work = json.loads((tmp_path / "out/works/gull.json").read_text())
    assert work["evidence"][0]["title"] == "Renewals 1956" and work["work"]["facts"]["us_renewed"] is True
    assert json.loads((tmp_path / "out/marks.json").read_text())[0]["key"] == "m1"
    assert json.loads((tmp_path / "out/complaint.json").read_text())["missing"]


def test_the_index_lists_what_is_on_record_and_gives_no_opinion(catalogue, tmp_path):
    complaint_folder.write(catalogue, "c1", tmp_path / "out", DAY)
    text = " ".join((tmp_path / "out/index.txt").read_text(encoding="utf-8").split())
    for part in ("COMPLAINT c1", "Deadline: 2026-12-01 (6 days left)", "Their reference: R-77", "Not legal advice", "Claim, as recorded: uses our name",
                 "Wording: GULL & BOLLARD", "'GULL & BOLLARD', Bollard Brewery", "evidence for us_renewed: seen, search report, Renewals 1956", "the complaint as received (SHA-256"):
        assert part in text, part
    assert ledger.rows(catalogue)[-1].digest in text


def test_no_private_column_goes_out(catalogue, tmp_path):
    complaint_folder.write(catalogue, "c1", tmp_path / "out", DAY)
    whole = b"".join(path.read_bytes() for path in (tmp_path / "out").rglob("*") if path.is_file())
    assert [secret for secret in SECRETS if secret.encode() in whole] == []


def test_what_is_missing(catalogue):
    def missing():
        return complaint_index.missing(complaint_folder.collect(catalogue, "c1", DAY))

    first = missing()
    for part in ("Job sign: no decision is on record.", "Job sign: no day of sale is on record.", "Job sign: no quantity is on record.", "Work gull: no picture of it is kept.",
                 "Job sign: no search of a register for its wording 'GULL & BOLLARD' is on record.", "Mark m1: its number is not on record."):
        assert part in first, part
    assert any("its answer hangs on publications.date of gull" in line for line in first) and not any("hangs on us_renewed" in line for line in first)
    marks.add_search(catalogue, "US", "GULL & BOLLARD", by="Ann", at="2026-11-01")
    jobs.change(catalogue, "sign", jobs.get(catalogue, "sign").version, quantity=4, sold_on="2026-10-01")
    gone = set(first) - set(missing())
    assert gone == {"Job sign: no day of sale is on record.", "Job sign: no quantity is on record.", "Job sign: no search of a register for its wording 'GULL & BOLLARD' is on record."}


def test_a_job_that_cannot_be_judged_is_handed_over_all_the_same(catalogue, tmp_path):
    settings.put(catalogue, markets=[])
    jobs.change(catalogue, "sign", jobs.get(catalogue, "sign").version, markets=[])
    complaint_folder.write(catalogue, "c1", tmp_path / "out", DAY)
    assert not (tmp_path / "out/jobs/sign.html").exists()
    assert "it could not be judged today" in " ".join((tmp_path / "out/index.txt").read_text().split())


def test_a_file_that_was_changed_on_disk_is_named_and_not_handed_over(catalogue, tmp_path):
    digest = complaints.get(catalogue, "c1").file
    files.path_of(catalogue, digest).write_bytes(b"another letter")
    complaint_folder.write(catalogue, "c1", tmp_path / "out", DAY)
    text = " ".join((tmp_path / "out/index.txt").read_text().split())
    assert f"The kept file {digest} was changed on disk." in text
    assert b"another letter" not in {path.read_bytes() for path in (tmp_path / "out/files").iterdir()}


def test_a_picture_that_was_changed_on_disk_leaves_the_sheet_without_it(catalogue, tmp_path):
    picture = files.add(catalogue, b"\x89PNG\r\n\x1a\n rest", "gull.png").sha256
    works.change(catalogue, "gull", works.get(catalogue, "gull").version, picture=picture)
    files.path_of(catalogue, picture).write_bytes(b"\x89PNG\r\n\x1a\n other")
    complaint_folder.write(catalogue, "c1", tmp_path / "out", DAY)
    assert (tmp_path / "out/jobs/sign.html").is_file()
    assert (tmp_path / "out/index.txt").read_text().count(f"The kept file {picture}") == 1


def test_nothing_is_overwritten_and_nothing_half_written_stays(catalogue, tmp_path, monkeypatch):
    out = tmp_path / "out"
    out.mkdir()
    (out / "mine.txt").write_text("mine")
    with pytest.raises(RegistryError, match="is there already and not empty"):
        complaint_folder.write(catalogue, "c1", out, DAY)
    assert [path.name for path in out.iterdir()] == ["mine.txt"]
    monkeypatch.setattr(complaint_index, "text", lambda *_: (_ for _ in ()).throw(OSError(28, "No space left on device")))
    with pytest.raises(RegistryError, match="could not be written to .*: No space left"):
        complaint_folder.write(catalogue, "c1", tmp_path / "other", DAY)
    assert sorted(path.name for path in tmp_path.iterdir()) == ["catalogue", "out"]


def test_the_commands(catalogue, capsys, tmp_path):
    catalogue.db.close()
    command = kept.Command(catalogue.folder, capsys)
    letter = tmp_path / "letter.txt"
    letter.write_text("please take it down")
    code, out, _err = command("complaint", "add", "--from", "A marketplace", "--claim", "counterfeit", "--job", "sign", "--on", "2026-11-21", "--deadline", "2026-11-30", "--file", str(letter))
    assert code == 0 and out.startswith("Kept as c2; an answer is due by 2026-11-30.") and "Not legal advice" in out
    assert [line.split()[0] for line in command("complaint", "list")[1].splitlines() if line.startswith("  c")] == ["c2", "c1"]
    assert command("complaint", "answer", "c2", "--by", "Ann", "--note", "withdrawn by mail", "--outcome", "withdrawn", "--on", "2026-11-23")[1] == "Kept; c2 is closed.\n"
    assert json.loads(command("complaint", "show", "c2", "--json")[1])["answers"][0]["outcome"] == "withdrawn"
    assert "2026-11-23  Ann, withdrawn: withdrawn by mail" in command("complaint", "show", "c2")[1]
    assert [one["key"] for one in json.loads(command("complaint", "list", "--state", "open", "--json")[1])] == ["c1"]
    assert command("complaint", "list", "--state", "answered")[1] == "No answered complaint is on record.\n"
    code, out, _err = command("complaint", "folder", "c1", str(tmp_path / "hand-over"), "--on", "2026-11-25")
    assert code == 0 and "begin with index.txt" in out and "no decision is on record" in out and (tmp_path / "hand-over/index.txt").is_file()
    assert json.loads(command("complaint", "folder", "c1", str(tmp_path / "other"), "--json")[1])["missing"]
    assert command.refused("complaint", "folder", "c9", str(tmp_path / "x")) == "There is no complaint 'c9' in this catalogue."
    assert command.refused("complaint", "add", "--job", "sign") == "Say from whom and what: --from NAME --claim TEXT."


def test_a_failed_complaint_leaves_no_file_behind(catalogue, capsys, tmp_path):
    before = kept.files_of(catalogue)
    letter = tmp_path / "letter.txt"
    letter.write_text("please take it down")
    command = kept.Command(catalogue.folder, capsys)
    assert "There is no job 'mug'" in command.refused("complaint", "add", "--from", "X", "--claim", "y", "--job", "mug", "--file", str(letter))
    assert kept.files_of(catalogue) == before and store.open_catalogue(catalogue.folder).db.execute("SELECT count(*) FROM files").fetchone()[0] == 2


def test_an_unanswered_complaint_and_a_mark_that_runs_out_are_due(catalogue):
    marks.change(catalogue, "m1", state="registered", expires="2026-12-20", look_again="2026-11-01")
    found = [(one.what, one.key, one.day) for one in watch.due(catalogue, DAY).ending]
    assert found == [("mark look-up", "m1", "2026-11-01"), ("complaint", "c1", "2026-12-01"), ("mark", "m1", "2026-12-20")]
    complaints.answer(catalogue, "c1", answered="2026-11-26", by="Ann", says="sent")
    marks.change(catalogue, "m1", state="cancelled", look_again=None)
    assert watch.due(catalogue, DAY).ending == ()


def test_a_deadline_may_be_the_day_of_receipt(catalogue):
    one = complaints.add(catalogue, received="2026-11-20", sender="X", claim="y", jobs=["sign"], deadline="2026-11-20")
    assert one.deadline == one.received


def test_a_folder_whose_name_is_too_long_is_refused(catalogue, tmp_path):
    with pytest.raises(RegistryError, match="could not be written to .*: File name too long.$"):
        complaint_folder.write(catalogue, "c1", tmp_path / ("x" * 5000), DAY)
