"""registry mark add, change, list, show, search, searched, import."""

import json

import kept
import pytest


@pytest.fixture
def command(tmp_path, capsys):
    found = kept.Command(tmp_path / "shop", capsys)
    found("init")
    found("work", "add", "--key", "gull", "--title", "Gull")
    found("mark", "add", "--words", "HARE & LANTERN", "--owner", "Lantern Inns", "--office", "US", "--number", "i-7", "--classes", "20,43", "--state", "registered",
          "--status-words", "registered and renewed", "--expires", "2031-03-01", "--work", "gull", "--avoid", "the words on boards")
    return found


def test_a_mark_is_shown(command):
    text = command("mark", "show", "m1")[1]
    for line in ("HARE & LANTERN  [m1]", 'state           registered (the office: "registered and renewed")', "classes         20, 43", "works           gull", "Not legal advice."):
        assert line in text
    found = json.loads(command("mark", "show", "m1", "--json")[1])
    assert found["key"] == "m1" and found["classes"] == [20, 43] and found["searches"] == []
    assert "m1  HARE & LANTERN  registered, US i-7, class 20, 43, Lantern Inns" in command("mark", "list")[1]
    assert command("mark", "list", "--state", "dead")[1] == "No mark on record fits.\n"


@pytest.mark.parametrize("options, missing", [
    (("--office", "GB", "--state", "live", "--classes", "20"), ""), (("--office", "GB", "--classes", "20"), "state"), (("--state", "live"), "office, classes"),
    (("--status-words", "live"), "office, classes, state")])
def test_what_a_mark_lacks_for_a_hold_is_told(command, options, missing):
    out = " ".join(command("mark", "add", "--words", "HERON", *options)[1].split())
    assert out == "Recorded HERON as m2." + (f" Not on record yet: {missing}. Without office, classes and state a match is a caution, never a hold." if missing else "")
    assert command("mark", "search", "heron", "--in", "GB", "--classes", "20")[0] == (0 if missing else 3)


@pytest.mark.parametrize("options, says", [
    (("--office", "ZZ"), "The office is 'ZZ'; allowed are the codes of countries such as US, and"), (("--registered", "2030-01-01", "--expires", "2020-01-01"), "The mark is registered 2030-01-01 and expires 2020-01-01;"),
    (("--filed", "2020-01-02", "--registered", "2020-01-01"), "The mark is filed 2020-01-02 and registered 2020-01-01;"), (("--classes", "20,200"), "--classes: there is no class 200; Nice classes are whole numbers from 1 to 45."),
    (("--classes", "0"), "--classes: there is no class 0;"), (("--classes", "9" * 5000), "--classes: there is no class 999999999;")])
def test_a_mark_that_cannot_be(command, options, says):
    assert command.refused("mark", "add", "--words", "HERON", *options).startswith(says)
    assert command.refused("mark", "change", "m1", *options).startswith(says)
    if "--classes" in options:
        assert command.refused("mark", "search", "heron", "--in", "US", *options).startswith(says)


def test_a_day_is_compared_with_those_on_record(command):
    assert command.refused("mark", "change", "m1", "--registered", "2031-03-02").startswith("The mark is registered 2031-03-02 and expires 2031-03-01;")
    assert command("mark", "change", "m1", "--registered", "2031-03-01", "--office", "gb")[0] == 0
    assert json.loads(command("mark", "show", "m1", "--json")[1])["office"] == "GB"


def test_the_works_of_a_mark_are_taken_away_by_an_empty_one(command):
    assert command("mark", "change", "m1", "--work", "")[0] == 0
    assert json.loads(command("mark", "show", "m1", "--json")[1])["works"] == []


@pytest.mark.parametrize("words, says", [
    (("--in", "US", "--on", "2999-01-01"), "the day of the search: 2999-01-01 lies in the future"), (("--in", "GB,US"), "'GB,US' names several places; keep the search of each register by itself.")])
def test_a_search_that_cannot_have_been(command, words, says):
    assert command.refused("mark", "searched", "HERON", "--by", "Ann", *words).startswith(says)
    assert command("mark", "list", "--searches")[1].startswith("No search is on record")


def test_a_list_of_none_is_refused_and_not_told_as_an_empty_record(command):
    assert command.refused("mark", "list", "--limit", "0") == "--limit 0: a whole number from 1 to 1000000000 is allowed."
    assert command.refused("mark", "search", "heron", "--in", "") .startswith("Say where: --in US,CA names places")


def test_a_mark_is_altered(command):
    assert command("mark", "change", "m1", "--state", "cancelled", "--status-words", "cancelled, no declaration of use")[1] == "Altered m1.\n"
    assert json.loads(command("mark", "show", "m1", "--json")[1])["state"] == "cancelled"
    assert command.refused("mark", "change", "m1") == "Say what is to be altered; 'registry mark change --help' lists the options."
    assert command.refused("mark", "change", "m4", "--state", "dead") == "There is no mark m4 in this catalogue."


def test_an_exact_mark_is_a_hold(command):
    code, out, _err = command("mark", "search", "Hare and Lantern", "--in", "US,CA", "--product", "carved wooden sign", "--on", "2026-11-25")
    assert code == 3 and "US: 1 mark near\n  - HOLD: [m1]" in out and "CA: 1 mark near\n  - mild caution: [m1]" in out and "no clearance" in out and "Not legal advice" in out
    found = json.loads(command("mark", "search", "Hare and Lantern", "--in", "US", "--classes", "20", "--json")[1])
    assert found["places"][0]["matches"][0]["strength"] == "exact-same-goods-live" and "Not legal advice" in found["not_legal_advice"]


def test_nothing_found_is_told_as_no_clearance(command):
    code, out, _err = command("mark", "search", "A goose", "--in", "US", "--product", "mug")
    assert code == 0 and "no mark on record comes near" in out and "An empty list is no clearance" in " ".join(out.split())
    assert "no clearance" in json.loads(command("mark", "search", "A goose", "--in", "US", "--json")[1])["told"][0]


def test_a_nil_search_is_kept_and_told(command):
    code, out, _err = command("mark", "searched", "A GOOSE", "--in", "US", "--by", "Ann Roe", "--on", "2026-05-02", "--classes", "20")
    assert code == 0 and out.startswith("Kept as search 1.") and "not a clearance" in " ".join(out.split())
    assert "2026-05-02  Ann Roe searched US for 'A GOOSE', class 20: nothing found." in command("mark", "list", "--searches")[1]
    assert "Ann Roe searched US" in " ".join(command("mark", "search", "a goose", "--in", "US")[1].split())
    assert command.refused("mark", "searched", "A GOOSE", "--by", "Ann") == "Say where and who: --in US --by NAME."


def test_marks_and_searches_stand_in_the_check_of_a_job(command):
    command("job", "add", "--key", "board", "--title", "Board", "--product", "carved wooden sign", "--markets", "US", "--wording", "HARE AND LANTERN")
    command("use", "board", "gull", "--part", "picture")
    code, out, _err = command("check", "--job", "board", "--dry")
    flat = " ".join(out.split())
    assert code == 3 and "US hold" in flat and 'The wording "HARE AND LANTERN" is the mark' in flat and "1 mark on record was compared." in flat
    found = json.loads(command("check", "--job", "board", "--dry", "--json")[1])
    assert found["markets"][0]["places"][0]["marks"][0]["mark"] == "m1" and "no clearance" in found["marks"][0]
    assert any(one["id"] == "TM-NOEXPIRY" and one["action"] == "also" and one["title"] for one in found["markets"][0]["cautions"])


def table(tmp_path, text):
    path = tmp_path / "marks.csv"
    path.write_bytes(text.encode("utf-8"))
    return str(path)


@pytest.mark.parametrize("text", [
    "words,office,number,classes,state,works\nOSTREL,us,i-9,20 6,registered,gull\nKEDGE,GB,i-10,,DEAD,\n",
    "\ufeffWords;Office;Number;Classes;State;Works\r\nOSTREL;us;i-9;20,6;registered;gull\r\n\r\nKEDGE;GB;i-10;;dead;\r\n",
    "words\toffice\tnumber\tclasses\tstate\tworks\n\"OSTREL\"\tUS\ti-9\t20 6\tregistered\tgull\nKEDGE\tGB\ti-10\t\tdead\t\n",
])
def test_a_table_is_taken_in(command, tmp_path, text):
    assert command("mark", "import", table(tmp_path, text), "--dry")[1].startswith("2 marks could be recorded from ")
    assert len(json.loads(command("mark", "list", "--json")[1])) == 1
    assert command("mark", "import", table(tmp_path, text))[1].startswith("2 marks recorded from ")
    ostrel, kedge = json.loads(command("mark", "list", "--json")[1])[1:]
    assert (ostrel["words"], ostrel["office"], ostrel["classes"], ostrel["works"], ostrel["state"]) == ("OSTREL", "US", [6, 20], ["gull"], "registered")
    assert (kedge["words"], kedge["classes"], kedge["state"]) == ("KEDGE", [], "dead")
    assert "[m2]" in command("mark", "search", "ostrell", "--in", "US")[1]


@pytest.mark.parametrize("text, says", [
    ("words,colour\nOSTREL,red\n", "line 1: there is no column 'colour'"),
    ("words,words\nA,B\n", "line 1: a column stands there twice"),
    ("words,state\nOSTREL,live\nKEDGE,asleep\n", "line 3: The state of the mark is 'asleep'"),
    ("words,classes\nOSTREL,20 x\n", "line 2: column classes: 'x' is no Nice class"),
    ("words,classes\nOSTREL,99\n", "line 2: The class is 99"),
    ("words,works\nOSTREL,tern\n", "line 2: There is no work 'tern'"),
    ("words,expires\nOSTREL,2031\n", "line 2: expires: "),
    ("words,state\n,live\n", "line 2: A mark needs its words"),
    ("words,state\nOSTREL,live,extra\n", "line 2: there are more cells than columns"),
    ("words,office,number\nA,US,1\nB,US,1\n", "line 3: The number 1 of the office US is recorded already"),
    ("", "has no header line"),
])
def test_a_table_with_a_fault_is_refused_whole(command, tmp_path, text, says):
    assert says in command.refused("mark", "import", table(tmp_path, text))
    assert len(json.loads(command("mark", "list", "--json")[1])) == 1


def test_tables_that_cannot_be_read(command, tmp_path):
    assert "cannot be read: No such file" in command.refused("mark", "import", str(tmp_path / "none.csv"))
    path = tmp_path / "latin.csv"
    path.write_bytes(b"words\n\xe9toile\n")
    assert "not text in UTF-8" in command.refused("mark", "import", str(path))
    path.write_bytes("\ufeffwords\nétoile\n".encode())
    assert command("mark", "import", str(path))[0] == 0 and json.loads(command("mark", "list", "--json")[1])[-1]["words"] == "étoile"
