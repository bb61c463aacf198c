"""registry evidence add, evidence list, gaps; what a check says about evidence."""

import json

import kept
import pytest
from registry.catalogue import evidence, files, jobs, ledger, store, support, works
from registry.facts import edtf


@pytest.fixture
def catalogue(tmp_path):
    found = kept.new(tmp_path)
    works.add(found, kept.GULL, key="gull")
    jobs.add(found, key="towel", title="Gull towel", product="printed tea towel", markets=["GB"], quantity=40)
    jobs.use(found, "towel", "gull", "picture")
    return found


@pytest.fixture
def command(catalogue, capsys):
    return kept.Command(catalogue.folder, capsys)


def add(command, *more):
    return command("evidence", "add", "gull", "--for", "died", "--for", "publications", "--kind", "title page", "--title", "Gulls", "--where", "own copy",
                   "--url", "https://archive.example/1", "--seen", "2026-05-02", "--by", "I. Corrow", "--note", "leaf 2", *more)


def test_a_scan_is_kept_for_two_facts(command, catalogue, tmp_path):
    scan = tmp_path / "misnamed.txt"
    scan.write_bytes(b"\x89PNG\r\n\x1a\n of sorts")
    code, out, _ = add(command, "--file", str(scan), "--json")
    first, second = json.loads(out)
    assert code == 0 and (first["fact"], second["fact"]) == ("died", "publications")
    assert {name: first[name] for name in ("id", "work", "basis", "kind", "title", "place", "url", "seen_on", "seen_by", "note", "value")} == {
        "id": "e1", "work": "gull", "basis": "seen", "kind": "title page", "title": "Gulls", "place": "own copy", "url": "https://archive.example/1",
        "seen_on": "2026-05-02", "seen_by": "I. Corrow", "note": "leaf 2", "value": ["1950"]}
    file = files.get(catalogue, first["file"])
    assert file.media_type == "image/png" and files.read(catalogue, file.sha256) == scan.read_bytes()
    assert [row.body["fact"] for row in ledger.rows(catalogue, "evidence", "gull")] == ["died", "publications"]


@pytest.mark.parametrize("content, says", [
    (b"", "is empty"), (b"MZ\x90\x00", "is of no kind that is kept; allowed are PNG, JPEG, GIF, WebP, TIFF, SVG, PDF and plain text"),
    (b"x" * (files.LARGEST + 1), "at most 33,554,432 are allowed"),
])
def test_files_that_are_not_kept(command, catalogue, tmp_path, content, says):
    (tmp_path / "scan.png").write_bytes(content)
    before = kept.everything(catalogue)
    assert says in command.refused("evidence", "add", "gull", "--for", "died", "--file", str(tmp_path / "scan.png"))
    assert (kept.everything(catalogue), kept.files_of(catalogue)) == (before, [])


@pytest.mark.parametrize("url", ["javascript:alert(1)", "archive.example/1", "file:///etc/hosts"])
def test_an_address_is_one_of_a_web_page(command, catalogue, url):
    assert command.refused("evidence", "add", "gull", "--for", "died", "--url", url) == f"url: '{url}' is no address of a web page; it begins with https:// or http://."


@pytest.mark.parametrize("typed, fact", [("Renewed (US)", "us_renewed"), ("renewed (us) [us_renewed]", "us_renewed"), ("Date of publication", "publications.date"),
                                         ("Date of publication [publications.date]", "publications.date"), ("DIED", "died"), ("us_renewed", "us_renewed")])
def test_a_fact_may_be_called_by_its_label(command, typed, fact):
    code, out, _ = command("evidence", "add", "gull", "--for", typed, "--json")
    assert code == 0 and [one["fact"] for one in json.loads(out)] == [fact]


def test_a_label_is_that_of_the_name_in_brackets(command):
    assert "'Died [us_renewed]' is no fact" in command.refused("evidence", "add", "gull", "--for", "Died [us_renewed]")


def test_every_command_calls_a_fact_the_same(command):
    """Whatever a list shows can be typed after --for."""
    text = " ".join(command("check", "gull", "--in", "US", "--brief")[1].split())
    named = text.partition("Rests on no evidence: ")[2].partition(". Not legal")[0]
    shown_ = [one.removesuffix(" (no evidence)") for one in named.removesuffix(".").split("; ")]
    assert "Date of publication [publications.date]" in shown_
    for name in shown_:
        assert command("evidence", "add", "gull", "--for", name)[0] == 0
    listed = " ".join(command("evidence", "list", "gull")[1].split())
    assert all(name in listed for name in shown_) and "Died of gull" in command("gaps")[1]


def test_one_wrong_fact_keeps_nothing(command, catalogue, tmp_path):
    (tmp_path / "scan.txt").write_text("A letter.")
    before = kept.everything(catalogue)
    assert "'birthday' is no fact" in command.refused("evidence", "add", "gull", "--for", "died", "--for", "birthday", "--file", str(tmp_path / "scan.txt"))
    assert (kept.everything(catalogue), kept.files_of(catalogue)) == (before, [])


def test_the_list_says_what_was_altered_since(command, catalogue):
    add(command)
    record = works.get(catalogue, "gull")
    works.change(catalogue, "gull", record.version, facts={**record.facts, "creators": [{"name": "Perpetua Quill", "died": "1951"}]})
    found = json.loads(command("evidence", "list", "gull", "--json")[1])
    assert [(one["fact"], one["still_as_then"]) for one in found] == [("died", False), ("publications", True)]
    out = " ".join(command("evidence", "list")[1].split())
    assert out.count("the fact was altered after its evidence was added") == 1 and "seen on 2026-05-02; by I. Corrow" in out


def test_evidence_before_the_fact_is_told(command):
    out = " ".join(command("evidence", "add", "gull", "--for", "us_registered")[1].split())
    assert "Nothing is on record as us_registered yet." in out


def test_gaps(command, catalogue):
    found = json.loads(command("gaps", "--on", "2026-07-01", "--json")[1])
    assert found["not_legal_advice"] and found["as_of"] == "2026-07-01"
    died = next(one for one in found["gaps"] if one["fact"] == "died")
    assert (died["jobs"], died["pieces"], died["places"], died["basis"]) == (["towel"], 40, ["GB"], "none") and died["where_to_look"]
    assert "Not legal advice." in command("gaps")[1] and "Died of gull" in command("gaps")[1]
    add(command)
    assert not {"died", "publications.date"} & {one["fact"] for one in json.loads(command("gaps", "--json")[1])["gaps"]}


def test_all_gaps_are_listed_when_all_are_asked_for(command, catalogue):
    for number in range(6):
        works.add(catalogue, kept.GULL, key=f"gull{number}")
        jobs.use(catalogue, "towel", f"gull{number}", "picture")
    count = len(json.loads(command("gaps", "--json")[1])["gaps"])
    first, whole = command("gaps")[1], command("gaps", "--all")[1]
    assert count > 10 and "\n 10. " in first and "\n 11. " not in first and f"... and {count - 10} more: registry gaps --all" in first
    assert f"\n{count:>3}. " in whole and "more: registry gaps" not in whole


def test_a_check_of_a_work_says_what_rests_on_evidence(command):
    add(command)
    (found,) = json.loads(command("check", "gull", "--in", "GB", "--json")[1])
    bases = {one["fact"]: (one["basis"], one["rests_on_evidence"]) for one in found["decisive"]}
    assert bases["died"] == ("seen", True) and bases["kind"] == ("none", False)
    out = " ".join(command("check", "gull", "--in", "GB", "--brief")[1].split())
    rests, _, loose = out.partition("Rests on evidence: ")[2].partition("Rests on no evidence: ")
    assert "Died (seen in a document)" in rests and "no evidence" not in rests and "Kind (no evidence)" in loose and "Died" not in loose


def test_a_check_of_a_job_says_so_too(command):
    add(command)
    found = json.loads(command("check", "--job", "towel", "--json")[1])
    assert {one["fact"]: one["basis"] for one in found["decisive"]}["died"] == "seen"
    out = " ".join(command("check", "--job", "towel")[1].split())
    assert "Rests on evidence:" in out and "Rests on no evidence:" in out


def test_a_supposition_says_nothing_about_evidence(command):
    add(command)
    out = command("check", "gull", "--in", "GB", "--suppose", "died=1930")[1]
    assert "Rests on" not in out


@pytest.mark.parametrize("day, says", [
    ("2026-11-27", "seen_on: 2026-11-27 lies in the future; today is 2026-11-25 by the clock of this machine, and 2026-11-26 is the last day allowed."),
    ("2027-01-01", "lies in the future"), ("yesterday", "seen_on: A day must be a real calendar day")])
def test_a_day_to_come_is_refused(command, catalogue, monkeypatch, day, says):
    monkeypatch.setattr(store, "today", lambda: edtf.day("2026-11-25"))
    before = kept.everything(catalogue)
    assert says in command.refused("evidence", "add", "gull", "--for", "died", "--seen", day)
    assert kept.everything(catalogue) == before


@pytest.mark.parametrize("day", ["2026-11-25", "2026-11-26"])
def test_today_and_tomorrow_elsewhere_are_taken(command, monkeypatch, day):
    monkeypatch.setattr(store, "today", lambda: edtf.day("2026-11-25"))
    (one,) = json.loads(command("evidence", "add", "gull", "--for", "died", "--seen", day, "--json")[1])
    assert one["seen_on"] == day


@pytest.mark.parametrize("number", ["²", "9" * 5000, "-1", ""])
def test_an_entry_that_is_no_number_is_refused(command, number):
    assert "there are 1 creators on record" in command.refused("evidence", "add", "gull", "--for", f"creators.{number}.died")


def test_evidence_that_the_shop_made_a_work_holds_while_it_is_on_record_as_its_own(command, catalogue):
    works.add(catalogue, {"title": "Ours"}, key="ours")
    assert "Nothing is on record as own yet." in command("evidence", "add", "ours", "--for", "own")[1]
    works.change(catalogue, "ours", 1, own=True)
    early, = evidence.of_work(catalogue, "ours")
    assert support.grounds(works.get(catalogue, "ours"), "own", [early])[0] == "outdated"
    assert "Nothing is on record" not in command("evidence", "add", "ours", "--for", "own")[1]
    late = evidence.of_work(catalogue, "ours")[1]
    assert late.value == "true" and support.grounds(works.get(catalogue, "ours"), "own", [late]) == ("seen", (late,))
    works.change(catalogue, "ours", 2, own=False)
    assert "altered after" in command("evidence", "list", "ours")[1]
    assert support.grounds(works.get(catalogue, "ours"), "own", [late])[0] == "outdated"
