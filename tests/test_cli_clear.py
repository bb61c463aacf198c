"""The commands around a decision: what-ifs, permissions, clear, due, calendar; what they print and how they end."""

import json

import kept
import pytest

from registry.catalogue import ledger, permissions, store, works


@pytest.fixture
def command(tmp_path, capsys):
    found = kept.new(tmp_path)
    for key, facts in (("gull", kept.GULL), ("crab", kept.CRAB)):
        works.add(found, facts, key=key)
    return kept.Command(found.folder, capsys)


def job(command, key="job", work="gull", *more, markets="US", product="carved wooden sign"):
    command("job", "add", "--key", key, "--title", key.title(), "--product", product, "--quantity", "150", "--markets", markets)
    command("use", key, work, "--part", "picture", *more)


def rows(command, kind=None):
    return ledger.rows(store.open_catalogue(command.folder), kind)


# --- what-if ---------------------------------------------------------------------------------------------

def test_a_supposition_is_headed_as_such_and_kept_nowhere(command):
    before = kept.everything(store.open_catalogue(command.folder))
    code, text, _ = command("check", "crab", "--in", "US", "--suppose", "us_renewed=false", "--suppose", "died=1950")
    assert code == 0 and text.startswith("A SUPPOSITION, NOT THE RECORD: us_renewed=false; died=1950.")
    assert command("check", "crab", "--in", "US", "--dry")[0] == 3
    job(command, work="crab")
    code, text, _ = command("check", "--job", "job", "--suppose", "us_renewed=false")
    assert code == 0 and text.startswith("A SUPPOSITION, NOT THE RECORD: us_renewed=false.")
    after = kept.everything(store.open_catalogue(command.folder))
    assert after["ledger"] == before["ledger"] and after["works"] == before["works"]
    found = json.loads(command("check", "--job", "job", "--suppose", "crab:us_renewed=false", "--json")[1])
    assert found["supposed"] == ["crab:us_renewed=false"] and found["clear"] is True


@pytest.mark.parametrize("words, says", [
    (("crab", "--suppose", "renewed=false"), "renewed is not a fact"), (("crab", "--suppose", "us_renewed"), "'us_renewed' is no supposition"),
    (("crab", "--suppose", "gull:us_renewed=false"), "'gull:us_renewed=false' is about gull"), (("crab", "--suppose", "us_renewed=perhaps"), "field us_renewed is")])
def test_what_cannot_be_supposed(command, words, says):
    assert command.refused("check", *words, "--in", "US").startswith(says)


def test_a_copy_is_told_by_its_chain(command):
    catalogue = store.open_catalogue(command.folder)
    scan = {**kept.GULL, "kind": "photograph", "authorship": "corporate", "creators": [], "created": "2015", "publications": [{"date": "2015", "country": "US"}], "faithful_reproduction": True}
    works.add(catalogue, scan, key="scan", based_on="gull", originality="faithful_copy")
    works.add(catalogue, scan, key="stray")
    assert command("check", "scan", "--in", "US")[0] == 0
    code, text, _ = command("check", "stray", "--in", "US")
    assert code == 3 and "the original is not on record" in " ".join(text.split())


# --- a job -----------------------------------------------------------------------------------------------

def test_every_market_is_shown_and_the_exit_code_is_that_of_the_worst(command):
    job(command, markets="US,CA,AQ")
    code, text, _ = command("check", "--job", "job", "--on", "2026-07-01")
    assert code == 3 and "  AQ  not settled" in text and "\nUS United States: no bar found\n" in text and "Not legal advice." in text
    assert max(map(len, text.splitlines())) <= 80
    assert command("check", "--job", "job", "--in", "US,CA", "--on", "2026-07-01", "--brief")[0] == 0
    found = json.loads(command("check", "--job", "job", "--in", "EU minus ES", "--json")[1])
    assert [one["market"] for one in found["markets"]] == ["EU minus ES"]


def test_a_check_records_what_the_law_said_once(command):
    job(command, markets="US,CA")
    for _ in range(2):
        command("check", "--job", "job", "--on", "2026-07-01")
    assert [(row.subject, row.body["place"]) for row in rows(command, "assessment")] == [("gull", "US"), ("gull", "CA")]
    command("check", "--job", "job", "--on", "2026-07-02", "--dry")
    assert len(rows(command, "assessment")) == 2


def test_questions_and_their_outcomes_are_shown(command):
    command("work", "change", "crab", "--set", "us_renewed=unknown")
    job(command, work="crab")
    text = " ".join(command("check", "--job", "job")[1].split())
    assert "1. Is there a renewal registration" in text and "If no: US no bar found." in text and "Record it as Renewed (US) [us_renewed] of crab" in text


# --- permissions -------------------------------------------------------------------------------------------

def test_a_permission_is_recorded_and_listed(command):
    code, text, _ = command("permission", "add", "crab", "--licensor", "R. Vane", "--uses", "goods", "--places", "us,eu", "--media", "Wood,cloth", "--quantity", "300",
                            "--from", "2026-01-01", "--to", "2027-03-31", "--commercial", "yes", "--changes-allowed", "no", "--credit-line", "Crab: R. Vane")
    assert code == 0 and text.startswith("Recorded p1 for crab.\n") and "Not legal advice." in text
    (kept_,) = permissions.of_work(store.open_catalogue(command.folder), "crab")
    assert (kept_.uses, kept_.places, kept_.media, kept_.commercial, kept_.changes_allowed, kept_.exclusive) == (("goods",), ("US", "EU"), ("wood", "cloth"), True, False, None)
    job(command, work="crab")
    command("clear", "job", "--by", "Isbet", "--note", "licence seen")
    code, text, _ = command("permission", "list")
    assert code == 0 and "150 of 300 pieces used" in " ".join(text.split()) and "no changes" in text
    assert json.loads(command("permission", "list", "crab", "--json")[1])[0]["used"] == 150
    assert command("permission", "list", "gull")[1] == "No permission is on record.\n"


def test_a_use_or_medium_that_counts_for_nothing_is_named(command):
    says = "'frying' is kept as the document says it, but no answer counts it as a use; those that count are display, gift, goods, any, all."
    words = ("permission", "add", "crab", "--uses", "goods,frying", "--media", "wood,gold")
    text = " ".join(command(*words)[1].split())
    assert says in text and "'gold' is kept as the document says it, but no answer counts it as a medium;" in text and "'goods' is" not in text and "'wood' is" not in text
    assert json.loads(command(*words, "--json")[1])["not_understood"][0] == says
    assert json.loads(command("permission", "add", "crab", "--uses", "any", "--json")[1])["not_understood"] == []


def test_an_open_licence_is_known_by_its_id(command):
    code, text, _ = command("permission", "add", "crab", "--spdx", "CC-BY-SA-4.0", "--credit-line", "Crab: R. Vane")
    assert code == 0 and "same licence" in text
    job(command, work="crab")
    code, text, _ = command("check", "--job", "job")
    assert code == 0 and "Credit lines owed\n  - Crab in a Kettle: Crab: R. Vane" in text


@pytest.mark.parametrize("words, says", [
    (("crab", "--spdx", "CC-BY-9.0"), "'CC-BY-9.0' is not among the open licences"), (("crab", "--quantity", "0"), "The quantity is 0"),
    (("crab", "--to", "tomorrow"), "valid_to: A day must be"), (("crab", "--places", "Atlantis"), "'Atlantis'"), (("crob",), "There is no work 'crob'"),
    (("crab", "--document", "nowhere.pdf"), "The file nowhere.pdf cannot be read"), (("crab", "--quantity", "99999999999999999999"), "The quantity is 9"),

    (("crab", "--from", "2027-01-01", "--to", "2026-01-01"), "The last day is 2026-01-01, before the first (2027-01-01)")])
def test_a_wrong_permission_is_refused(command, words, says):
    assert command.refused("permission", "add", *words).casefold().startswith(says.casefold())
    assert permissions.of_work(store.open_catalogue(command.folder), "crab") == []


# --- clear, due, calendar -------------------------------------------------------------------------------------

def test_clear_records_and_refuses(command):
    job(command)
    code, text, _ = command("clear", "job", "--by", "Isbet", "--note", "looked at the page of 1928")
    assert code == 0 and "Isbet cleared job" in text and "US  no bar found" in text and "Not legal advice." in text
    job(command, "held", "crab")
    assert command.refused("clear", "held", "--by", "Isbet", "--note", "x").startswith("The job held is on hold in US")
    code, out, _ = command("clear", "held", "--by", "Isbet", "--note", "x", "--although", "one piece", "--json")
    assert code == 0 and json.loads(out)["decision"]["against"] == ["US"]
    assert command("clear", "held", "--by", "Isbet")[0] == 2
    assert command.refused("clear", "job", "--by", "Isbet", "--note", "x", "--look-again", "2020-01-01").startswith("The day to look at it again is 2020-01-01, which is over;")
    assert command.refused("clear", "job", "--by", "Isbet", "--note", "x", "--in", " ,").startswith("Say where: --in US,CA names places")
    assert len(rows(command, "decision")) == 2


def test_due_names_what_changed(command):
    job(command)
    command("clear", "job", "--by", "Isbet", "--note", "x")
    code, text, _ = command("due")
    assert (code, text.splitlines()[0]) == (0, "Nothing is due.")
    command("work", "change", "gull", "--set", "publications.0.date=1948")
    text = " ".join(command("due")[1].split())
    assert "Changed since it was decided - Job [job]: US was no bar found, is now hold" in text and "moved: facts" in text
    found = json.loads(command("due", "--json")[1])
    assert found["changed"][0]["now"] == "hold" and found["sold_without_decision"] == []
    command("job", "change", "job", "--sold-on", "2026-01-02")
    job(command, "other")
    command("job", "change", "other", "--sold-on", "2026-01-02")
    assert [one["job"] for one in json.loads(command("due", "--json")[1])["sold_without_decision"]] == ["other"]


def test_within_says_how_far_ahead_what_runs_out_is_told(command):
    command("permission", "add", "crab", "--uses", "goods", "--to", "2026-08-01")
    for within, count in (("31", 1), ("30", 0), ("0", 0)):
        assert len(json.loads(command("due", "--on", "2026-07-01", "--within", within, "--json")[1])["ending"]) == count
    assert command.refused("due", "--within", "99999999999999999999") == "--within 99999999999999999999: a whole number from 0 to 36525 is allowed."


def test_a_calendar_as_text_json_and_file(command, tmp_path):
    code, text, _ = command("calendar", "--in", "US,CA", "--until", "2060", "--on", "2026-07-01")
    assert code == 0 and "1 January 2045\n  - US: Crab in a Kettle [crab], free from that day.\n" in text
    assert json.loads(command("calendar", "--in", "US", "--until", "2044", "--on", "2026-07-01", "--json")[1]) == []
    path = tmp_path / "free.ics"
    code, text, _ = command("calendar", "--in", "US", "--until", "2060-01-01", "--on", "2026-07-01", "--ics", str(path))
    assert code == 0 and text.startswith(f"Wrote 1 days to {path}.")
    (found,) = json.loads(command("calendar", "--in", "US", "--until", "2060", "--on", "2026-07-01", "--json")[1])
    assert found["day"] == "2045-01-01" and found["not_legal_advice"].startswith("Not legal advice.")
    found = path.read_bytes().decode()
    assert "DTSTART;VALUE=DATE:20450101\r\n" in found and "Crab in a Kettle: likely free from today in" in found


@pytest.mark.parametrize("words, says", [
    (("--in", "US", "--until", "2020", "--on", "2026-07-01"), "--until 2020 lies not after"), (("--in", "US", "--until", "soon"), "--until: A day must be"),
    (("--until", "2040"), "Say where"), (("--in", "US", "--until", "2040", "--ics", "/nowhere/x.ics"), "The calendar could not be written to /nowhere/x.ics: No such file")])
def test_a_calendar_that_cannot_be(command, words, says):
    assert command.refused("calendar", *words).startswith(says)
