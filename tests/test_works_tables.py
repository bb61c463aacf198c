"""Works out as a table or as facts, and in again: nothing lost on the way, every bad cell named, all or none."""

import csv
import io
import json
from pathlib import Path

import kept
import pytest
import randoms
from registry.catalogue import files, works
from registry.catalogue.words import ADVICE
from registry.errors import RegistryError
from registry.exchange import works_in, works_out

HERON = {"title": 'Heron, "at dawn"\nsecond line', "kind": "print", "authorship": "individual", "created": "1910~", "published": True, "us_notice": False, "us_renewed": "unknown",
         "creators": [{"name": "Ann Example", "died": "1934", "nationality": ["GB", "IE"]}, {"name": "Körber; Sohn", "legal_person": True}],
         "publications": [{"date": "[1911,1912]", "country": "GB"}, {"date": "1913", "country": "unknown", "by_owner": True}]}


@pytest.fixture
def catalogue(tmp_path):
    found = kept.new(tmp_path)
    works.add(found, HERON, key="heron", traits=["red hat", ("reeds", "left; of it"), "a;b", "c\\", "d\\;e"], access_terms="no resale", notes="box 3; left")
    works.add(found, kept.GULL, key="gull")
    works.add(found, {"title": "Copy of the gull"}, key="copy", originality="faithful_copy")
    works.change(found, "copy", 1, based_on="gull")
    works.add(found, {"title": "Ours", "kind": "drawing"}, key="ours", based_on="copy", originality="new_expression", own=True)
    works.add(found, {}, key="blank", notes="nothing known")
    return found


def again(catalogue, folder, kind):
    """A new catalogue into which everything of another went, through a file."""
    folder.mkdir()
    path = folder / f"works.{kind}"
    with open(path, "w", encoding="utf-8", newline="") as out:
        works_out.table(catalogue, out) if kind == "csv" else out.writelines(line + "\n" for line in works_out.lines(catalogue))
    other = kept.new(folder)
    works_in.add(other, works_in.read(other, path))
    return other


def plain(record, columns=("key", "facts", "based_on", "originality", "own", "access_terms", "notes"), notes=False):
    return {name: getattr(record, name) for name in columns} | {"traits": record.traits if notes else [name for name, _note in record.traits]}


def test_a_table_brings_everything_back(catalogue, tmp_path):
    other = again(catalogue, tmp_path / "other", "csv")
    assert {one.key: plain(one) for one in works.listed(other)} == {one.key: plain(one) for one in works.listed(catalogue)}


def test_lines_bring_everything_back(catalogue, tmp_path):
    other = again(catalogue, tmp_path / "other", "jsonl")
    assert {one.key: plain(one, notes=True) for one in works.listed(other)} == {one.key: plain(one, notes=True) for one in works.listed(catalogue)}


PHOTO = {"title": "The pier", "kind": "photograph", "authorship": "individual", "created": "1990", "published": True,
         "creators": [{"name": "A. Living", "born": "1950", "alive": True, "nationality": ["GB"]}], "publications": [{"date": "1990", "country": "GB"}]}
OLD = {"title": "The pier, copied", "kind": "photograph", "created": "1890", "creators": [{"name": "B. Dead", "died": "1899"}],
       "publications": [{"date": "1890", "country": "GB"}]}


@pytest.mark.parametrize("kind", ["csv", "jsonl"])
def test_a_copy_of_what_is_protected_is_not_free_after_a_journey(tmp_path, capsys, kind):
    catalogue = kept.new(tmp_path)
    works.add(catalogue, OLD, key="cp")
    works.add(catalogue, PHOTO, key="ph")
    works.change(catalogue, "cp", 1, based_on="ph", originality="faithful_copy")
    before = kept.Command(catalogue.folder, capsys)("check", "cp", "--in", "GB", "--brief")
    other = again(catalogue, tmp_path / "other", kind)
    assert kept.Command(other.folder, capsys)("check", "cp", "--in", "GB", "--brief") == before and before[0] == 3


@pytest.mark.parametrize("creators", [[{}, {"died": "1900"}], [{"died": "1900"}, {}], [{"name": ""}, {"died": "1900"}]])
@pytest.mark.parametrize("kind", ["csv", "jsonl"])
def test_a_maker_of_whom_nothing_is_known_stays_one(tmp_path, kind, creators):
    catalogue = kept.new(tmp_path)
    works.add(catalogue, {"title": "Two hands", "kind": "drawing", "creators": creators, "publications": [{}]}, key="two")
    (one,) = works.listed(again(catalogue, tmp_path / "other", kind))
    before = works.facts_of(works.get(catalogue, "two"))
    assert (len(one.facts["creators"]), len(one.facts["publications"])) == (2, 1)
    assert [maker.died for maker in works.facts_of(one).creators] == [maker.died for maker in before.creators]


def test_what_does_not_go_out_is_named(catalogue, tmp_path, capsys):
    picture = files.add(catalogue, b"\x89PNG\r\n\x1a\n" + b"0" * 40, "p.png")
    works.change(catalogue, "gull", 1, picture=picture.sha256)
    command = kept.Command(catalogue.folder, capsys)
    said = " ".join(command("work", "export", str(tmp_path / "w.csv"))[1].split())
    assert "The pictures of gull did not go with it." in said and "The notes on traits of heron did not go with it." in said
    assert json.loads(command("work", "export", str(tmp_path / "w.jsonl"), "--json")[1])["left_out"] == ["The pictures of gull did not go with it."]
    assert "The pictures of gull" in command("work", "export", "-")[2]


def test_nobody_answers_from_the_facts_of_a_version_alone(catalogue, tmp_path, capsys):
    command = kept.Command(catalogue.folder, capsys)
    lines = {json.loads(line)["id"]: line for line in works_out.lines(catalogue)}
    (tmp_path / "f.jsonl").write_text("\n".join([lines["gull"], lines["copy"], lines["ours"], '{"originality": "faithful_copy"}', '{"notes": "x", "traits": ["y"], "kind": "drawing"}']))
    code, out, err = command("assess", str(tmp_path / "f.jsonl"), "--in", "US")
    assert code == 1 and [json.loads(line)["id"] for line in out.splitlines()] == ["gull", "5"]
    assert "line 2: this work is based on gull (based_on), whose rights count too" in err and "line 3: this work is based on copy" in err
    assert "line 4: this work is a faithful copy of one that is not named" in err


def test_a_version_stands_below_what_it_is_based_on(catalogue):
    catalogue.db.execute("UPDATE works SET based_on = (SELECT id FROM works WHERE key = 'blank') WHERE key = 'heron'")
    out = io.StringIO(newline="")
    assert works_out.table(catalogue, out) == 5
    keys = [row["key"] for row in csv.DictReader(io.StringIO(out.getvalue(), newline=""))]
    assert keys == ["blank", "heron", "gull", "copy", "ours"]


def test_the_table_is_as_the_rfc_asks(catalogue):
    out = io.StringIO(newline="")
    works_out.table(catalogue, out)
    text = out.getvalue()
    rows = list(csv.reader(io.StringIO(text, newline=""), strict=True))
    assert text.endswith("\r\n") and len({len(row) for row in rows}) == 1 and '"Heron, ""at dawn""\nsecond line"' in text
    assert rows[0][:4] == ["key", "based_on", "originality", "own"] and len(set(rows[0])) == len(rows[0])


def test_random_works_come_back(tmp_path):
    catalogue = kept.new(tmp_path)
    for number, facts in enumerate(some_facts()):
        works.add(catalogue, facts, key=f"r{number}")
    for kind in ("csv", "jsonl"):
        other = again(catalogue, tmp_path / kind, kind)
        assert [text(one.facts) for one in works.listed(other)] == [text(one.facts) for one in works.listed(catalogue)]


def some_facts():
    """Facts of the worked cases, as far as they can be kept."""
    for line in (Path(randoms.__file__).parent / "cases" / "europe_americas.jsonl").read_text(encoding="utf-8").splitlines()[::3]:
        facts = json.loads(line)["facts"]
        yield {name: value for name, value in facts.items() if name != "id"}


def text(facts):
    """The facts with numbers as text, since a table holds text."""
    if isinstance(facts, dict):
        return {name: text(value) for name, value in facts.items()}
    return [text(value) for value in facts] if isinstance(facts, list) else facts if isinstance(facts, bool) else str(facts)


# --- what cannot be used -------------------------------------------------------------------------------

BAD = "title,kind,died,publication1.date,publication1.country\nHeron,statue,1934,1911~,GB\nGull,print,1934,around 1911,GB\nTern,print,1934,1911,Atlantis\nCrab,print,1934,1911,GB\n"


def read(catalogue, tmp_path, content, name="works.csv"):
    (tmp_path / name).write_bytes(content if isinstance(content, bytes) else content.encode("utf-8"))
    return works_in.read(catalogue, tmp_path / name)


def test_line_column_value_and_what_is_allowed_are_told(catalogue, tmp_path):
    before = kept.everything(catalogue)
    with pytest.raises(RegistryError) as refused:
        works_in.add(catalogue, read(catalogue, tmp_path, BAD))
    said = str(refused.value)
    for words in ("Line 2, column kind, “statue”: ", "allowed are drawing, painting, print", "Line 3, column publication1.date, “around 1911”: ", "Line 4, column publication1.country, “Atlantis”: ", "Nothing was added."):
        assert words in said, said
    assert kept.everything(catalogue) == before


def test_the_rest_can_be_kept(catalogue, tmp_path):
    assert [one.title for one in works_in.add(catalogue, read(catalogue, tmp_path, BAD), rest=True)] == ["Crab"]


@pytest.mark.parametrize("content, says", [
    ('{"title": "A"}\n{"title": 5}\n', "Line 2: field title is 5; a text is needed."), ('{"title": "A"}\nnot json\n', "Line 2: this is no JSON (Expecting value at column 1)"),
    ('{"title": "A", "title": "B"}\n', "Line 1: field title is given twice in one object"), ('{"title": "A"}\n"\xff"\n'.encode("latin-1"), "Line 2: this is not text in UTF-8."),
    ('[1]\n', "Line 1: the facts are"), ('{"id": "gull"}\n', "Line 1: There is a work 'gull' already"), ('{"id": "a"}\n{"id": "a"}\n', "Line 2: There is a work 'a' already"),
    ('{"id": "b", "based_on": "nowhere"}\n', "Line 1, column based_on, “nowhere”: There is no work with this key"),
    ('{"title": "A", "own": "yes"}\n', "Line 1: field own is 'yes'; true or false is needed."), ('{"title": "A", "traits": [5]}\n', "field traits holds '5'"),
    ('{"title": "A", "originality": "copied"}\n', "field originality is 'copied'; allowed are faithful_copy, new_expression, unknown."),
    ('{"id": "not a key!"}\n', "Line 1: 'not a key!' cannot be the key of a work"),
])
def test_lines_that_cannot_be(catalogue, tmp_path, content, says):
    before = kept.everything(catalogue)
    with pytest.raises(RegistryError) as refused:
        works_in.add(catalogue, read(catalogue, tmp_path, content, "works.jsonl"))
    assert says in str(refused.value) and kept.everything(catalogue) == before


@pytest.mark.parametrize("name, content, says", [("works.jsonl", "\n\n", "holds no facts"), ("works.csv", "", "empty"), ("works.csv", "title\n", "no rows"), ("works.csv", "colour\nred\n", "No column")])
def test_files_that_hold_nothing(catalogue, tmp_path, name, content, says):
    with pytest.raises(RegistryError, match=says):
        read(catalogue, tmp_path, content, name)


# --- the commands ----------------------------------------------------------------------------------------

@pytest.fixture
def command(catalogue, capsys):
    return kept.Command(catalogue.folder, capsys)


def test_a_preview_keeps_nothing(command, catalogue, tmp_path):
    (tmp_path / "t.csv").write_text(BAD + ",,,,\n")
    before = kept.everything(catalogue)
    code, out, _ = command("work", "import", str(tmp_path / "t.csv"), "--preview")
    assert code == 1 and "1 of 4 works could be recorded; nothing was." in out and "column kind, “statue”" in " ".join(out.split())
    found = json.loads(command("work", "import", str(tmp_path / "t.csv"), "--preview", "--json")[1])
    assert [one["line"] for one in found["works"]] == [5] and [(one["line"], one["column"], one["typed"]) for one in found["wrong"]] == [
        (2, "kind", "statue"), (3, "publication1.date", "around 1911"), (4, "publication1.country", "Atlantis")]
    assert kept.everything(catalogue) == before


def test_import_records_all_or_none(command, catalogue, tmp_path):
    (tmp_path / "t.csv").write_text(BAD)
    assert "Nothing was added." in command.refused("work", "import", str(tmp_path / "t.csv")) and works.count(catalogue) == 5
    code, out, _ = command("work", "import", str(tmp_path / "t.csv"), "--rest", "--json")
    assert code == 1 and len(json.loads(out)["recorded"]) == 1 and works.count(catalogue) == 6
    (tmp_path / "good.csv").write_text("key,title\nx1,One\nx2,Two\n")
    assert command("work", "import", str(tmp_path / "good.csv"))[:2] == (0, "Recorded 2 works: x1 to x2.\n")
    assert "cannot be read" in command.refused("work", "import", str(tmp_path / "nowhere.csv"))


def test_a_column_that_is_not_understood_is_never_lost_silently(command, catalogue, tmp_path):
    (tmp_path / "t.csv").write_text("title,colour,size\nOne,red,\n")
    says = command.refused("work", "import", str(tmp_path / "t.csv"))
    assert says.startswith("Columns that are not understood: colour. ") and "--without" in says and works.count(catalogue) == 5
    assert command.refused("work", "import", str(tmp_path / "t.csv"), "--json") == says
    code, out, _ = command("work", "import", str(tmp_path / "t.csv"), "--preview")
    assert code == 0 and "unless --without leaves them out: colour." in " ".join(out.split())
    assert json.loads(command("work", "import", str(tmp_path / "t.csv"), "--preview", "--json")[1])["not_understood"] == ["colour"]
    assert command("work", "import", str(tmp_path / "t.csv"), "--without")[1].startswith("Columns that were left out: colour.\n")
    assert json.loads(command("work", "import", str(tmp_path / "t.csv"), "--without", "--json")[1])["left_out"] == ["colour"]
    (tmp_path / "t.csv").write_text("title,colour\nOne,\n")
    assert command("work", "import", str(tmp_path / "t.csv"))[0] == 0


def test_assess_reads_lines_as_the_import_does(command, tmp_path):
    path = tmp_path / "w.jsonl"
    path.write_bytes("\ufeff".encode() + b'{"id": "a", "kind": "print"}\n{"id": "\xff"}\n{"kind": "print", "kind": "drawing"}\n{"id": "d", "title": "M\xc3\xb6ve\xe2\x80\xa8"}\n'
                     + b"[" * 100000 + b'\n{"created": ' + b"9" * 5000 + b"}\n")
    code, out, err = command("assess", str(path), "--in", "EU minus ES, US", "--on", "2026-07-01")
    found = [json.loads(line) for line in out.splitlines()]
    assert code == 1 and [one["id"] for one in found if one["jurisdiction"] == "US"] == ["a", "d"]
    assert {one["jurisdiction"] for one in found} >= {"US", "DE"} and "ES" not in {one["jurisdiction"] for one in found}
    assert all(one["not_legal_advice"] == ADVICE for one in found)
    assert [line.partition("w.jsonl, ")[2] for line in err.splitlines()] == [
        "line 2: this is not text in UTF-8.", "line 3: field kind is given twice in one object; give it once.",
        "line 5: lists and objects lie in each other too deep; one object of facts is needed.", "line 6: a number has too many digits to be read."]
    (tmp_path / "good.jsonl").write_bytes("\ufeff".encode() + '{"id": "e", "title": "Möve\u2028"}\r\n'.encode())
    assert command("assess", str(tmp_path / "good.jsonl"), "--in", "US")[0] == command("work", "import", str(tmp_path / "good.jsonl"))[0] == 0
    assert command.refused("assess", str(path), "--in", ",").startswith("'' is not a place")
    assert command.refused("assess", str(path), "--in", "EU minus US").startswith("'EU minus US': US is not in EU")


def test_export_to_a_file_and_to_standard_output(command, catalogue, tmp_path):
    code, out, _ = command("work", "export", str(tmp_path / "w.jsonl"), "--json")
    assert code == 0 and json.loads(out)["works"] == 5
    assert (tmp_path / "w.jsonl").read_text(encoding="utf-8") == "".join(line + "\n" for line in works_out.lines(catalogue))
    assert command("work", "export", "-", "--as", "jsonl")[1] == (tmp_path / "w.jsonl").read_text(encoding="utf-8")
    command("work", "export", str(tmp_path / "w.csv"))
    assert (tmp_path / "w.csv").read_bytes().startswith(b"key,based_on,originality,own,")
    assert command("work", "export", "-", "--json")[1] == (tmp_path / "w.jsonl").read_text(encoding="utf-8")
    assert command("work", "export", "-")[1].startswith("key,based_on,")
    assert command.refused("work", "export", "-", "--json", "--as", "csv") == "A table is no JSON; leave out --json, or say --as jsonl."
    assert "is there already" in command.refused("work", "export", str(tmp_path / "w.csv"))
    assert "the name tells no kind of file" in command.refused("work", "export", str(tmp_path / "w.txt"))
    code, out, _ = command("assess", str(tmp_path / "w.jsonl"), "--in", "US", "--on", "2026-07-01")
    assert code == 1 and [json.loads(line)["id"] for line in out.splitlines()] == ["heron", "gull", "blank"]  # versions hang on others


@pytest.mark.parametrize("kind, bad, says", [
    ("jsonl", '{"based_on": ""}', "field based_on is empty"), ("jsonl", '{"title": "x", "traits": ["cap", {"name": "cap", "note": "red"}]}', "names 'cap' twice"),
    ("jsonl", "{}", "Nothing is said of the work"), ("jsonl", '{"traits": []}', "Nothing is said of the work"), ("jsonl", '{"id": "con", "title": "x"}', "cannot be the key"),
    ("csv", "x,cap; cap,k,", "stands here twice"), ("csv", "x,,k,nowhere\ny,,,k", "stands further up, in a line that cannot be used")])
def test_what_the_preview_passes_can_be_recorded(tmp_path, kind, bad, says):
    found, path = kept.new(tmp_path), tmp_path / f"works.{kind}"
    path.write_text(('{"title": "Good"}\n' if kind == "jsonl" else "title,traits,key,based_on\nGood,,,\n") + bad + "\n", encoding="utf-8")
    table = works_in.read(found, path)
    assert len([row for row in table.rows if not row.wrong]) == 1 and says in " ".join(cell.says for cell in table.wrong)
    assert [one.title for one in works_in.add(found, table, rest=True)] == ["Good"]
