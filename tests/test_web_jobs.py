"""Check, jobs and decisions on the pages: what is supposed is kept nowhere, what is decided was read, nobody overwrites another."""

import io
import zipfile

import kept
import pytest
import webbed
from registry.catalogue import clear, decisions, jobs, ledger, marks, settings, store, works
from registry.exchange import bag_check
from webbed import form_of


@pytest.fixture
def catalogue(site):
    found = store.open_catalogue(site.folder)
    settings.put(found, name="Ninepin Slip", markets=["US", "GB"])
    works.add(found, kept.GULL, key="gull", traits=["post", "cap"])
    works.add(found, {**kept.CRAB, "us_renewed": None}, key="crab")  # whether it was renewed is not known
    yield found
    found.db.close()


def wrong(answer):
    return {one["id"].removesuffix("-wrong"): one.text for one in answer.page.all("p", class_="wrong")}


def table(page):
    """{market: its stamp} of the short answer."""
    return {row.all("th")[0].text: row.all("td")[0].text for row in page.one("table", class_="summary").one("tbody").all("tr")}


# --- check ------------------------------------------------------------------------------------------------

def test_a_check_without_a_job(site, catalogue):
    before = kept.everything(catalogue)
    page = site.get("/check?work=gull&product=printed+tea+towel&markets=US").page
    assert table(page) == {"United States": "no bar found"}
    assert site.get("/check?work=crab&markets=US").page.one("table", class_="summary").text.count("not settled") == 1
    assert kept.everything(catalogue) == before


def test_an_empty_check_says_what_to_do(site, catalogue):
    page = site.get("/check").page
    assert "Choose a work or type the wording" in page.text
    assert page.one("input", id="markets")["value"] == "US, GB"


def test_a_work_is_found_and_ticked(site, catalogue):
    page = site.get("/check?find=gull").page
    assert page.one("ul", class_="offered").all("input")[0]["value"] == "gull"
    page = site.get("/check?find=gull&work=gull&markets=US").page
    assert page.all("ul", class_="offered") == []
    assert [one["value"] for one in page.all("input", name="work.0")] == ["gull"]
    out = site.get("/check?work.0=gull&out.0=yes&markets=US").page
    assert out.all("input", name="work.0") == []


def test_traits_narrow_what_is_shown(site, catalogue):
    works.add(catalogue, {**kept.CRAB, "us_renewed": True}, key="later", based_on="gull", originality="new_expression", traits=["kettle"])
    held = site.get("/check?work.0=later&part.0=picture&markets=US").page
    assert table(held) == {"United States": "hold"}
    early = site.get("/check?work.0=later&part.0=picture&traits.0=post&markets=US").page
    assert [one["value"] for one in early.all("input", type="checkbox") if one["checked"] is not None] == ["post"]


def test_what_if(site, catalogue):
    before = kept.everything(catalogue)
    plain = site.get("/check?work=crab&markets=US").page
    switch = plain.one("select", id="if.crab/us_renewed")
    assert switch["form"] == "check" and [one["value"] for one in switch.all("option")] == ["", "yes", "no"]
    page = site.get("/check?work=crab&markets=US&if.crab/us_renewed=no").page
    assert table(page) == {"United States": "no bar found"}
    assert page.one("p", class_="note").text == "A supposition, not the record: Renewed (US) of crab is “no”. Nothing of this is kept."
    assert table(site.get("/check?work=crab&markets=US&if.crab/us_renewed=yes").page) == {"United States": "hold"}
    assert kept.everything(catalogue) == before


@pytest.mark.parametrize("query, sentence", [
    ("work=none", "There is no work 'none'"), ("work=gull&markets=XX", "XX"), ("work=gull&quantity=many", "whole number from 1 up"), ("work=crab&if.crab/died=spring", "spring"),
    ("work=crab&if.other/died=1950", "other"), ("work=gull&purpose=theft", "theft"), ("work=gull&due=soon", "soon"), ("work.0=gull&part.0=theft", "theft"),
    ("work=crab&if.crab/creators=x", ""), ("work=crab&if.crab/nonsense=x", "nonsense"), ("work=crab&if.crab=x", ""),
])
def test_what_cannot_be_checked_is_said_on_the_page(site, catalogue, query, sentence):
    answer = site.get(f"/check?{query}")
    assert answer.status == 200 and sentence in answer.page.text


def test_a_work_that_is_not_there_is_named_above_the_works_and_no_answer_is_given_without_it(site, catalogue):
    page = site.get("/check?work=gull&work=none&markets=US").page
    told = page.one("form", id="check").one("p", class_="problem")
    assert told.text == "There is no work 'none' in this catalogue. It is left out of the form below." and page.all("table", class_="summary") == []


def test_markets_are_named_on_the_check_page(site, catalogue):
    page = site.get("/check?work=gull&markets=Germany, eu minus spain").page
    assert list(table(page)) == ["Germany", "EU minus ES"] and page.one("input", id="markets")["value"] == "DE, EU minus ES"


def test_a_check_begins_with_a_job(site, catalogue):
    jobs.add(catalogue, key="towel", title="Towel", product="tea towel", markets=["US"], quantity=20, wording="AHOY")
    jobs.use(catalogue, "towel", "gull", "picture", ["cap"], "mirrored")
    page = site.get("/check?job=towel").page
    held = dict(webbed.values(page.one("form", id="check")))
    assert (held["product"], held["markets"], held["quantity"], held["wording"], held["work.0"], held["changes.0"], held["traits.0"]) == ("tea towel", "US", "20", "AHOY", "gull", "mirrored", "cap")


def test_a_check_becomes_a_job(site, catalogue):
    page = site.get("/job/new?work.0=gull&part.0=picture&traits.0=cap&changes.0=mirrored&product=tea+towel&markets=US,GB&quantity=20&wording=AHOY")
    sent = site.post("/job/new", form_of(page, title="Gull towel"))
    assert sent.status == 303 and sent.headers["location"] == "/job/j1?done=job"
    job = jobs.get(catalogue, "j1")
    assert (job.title, job.product, job.markets, job.quantity, job.wording) == ("Gull towel", "tea towel", ("US", "GB"), 20, "AHOY")
    assert job.uses == (jobs.Use("gull", "picture", ("cap",), "mirrored"),)


# --- jobs -------------------------------------------------------------------------------------------------

def test_a_job_without_a_title_is_asked_for_one(site, catalogue):
    sent = site.post("/job/new", form_of(site.get("/job/new?work=gull&wording=AHOY")))
    assert sent.status == 400 and "title" in wrong(sent)
    assert sent.page.one("input", name="wording")["value"] == "AHOY" and jobs.listed(catalogue) == []


@pytest.mark.parametrize("fields, name", [({"markets": "US, Narnia"}, "markets"), ({"quantity": "a few"}, "quantity"), ({"due": "soon"}, "due"), ({"sold_on": "2027-13-01"}, "sold_on")])
def test_a_field_that_cannot_be_is_named_and_nothing_is_lost(site, catalogue, fields, name):
    jobs.add(catalogue, key="towel", title="Towel", markets=["US"])
    sent = site.post("/job/towel/edit", form_of(site.get("/job/towel/edit"), **{"notes": "typed", **fields}))
    assert sent.status == 400 and list(wrong(sent)) == [name]
    assert sent.page.one("textarea", name="notes").text == "typed" and sent.page.one("input", name=name)["value"] == fields[name]
    assert jobs.get(catalogue, "towel").version == 1


def test_works_are_added_and_taken_out(site, catalogue):
    jobs.add(catalogue, key="towel", title="Towel", markets=["US"])
    jobs.use(catalogue, "towel", "gull", "picture")
    found = site.post("/job/towel/edit", form_of(site.get("/job/towel/edit"), find="crab", look="yes", notes="typed"))
    assert found.status == 200 and found.page.one("ul", class_="offered").all("input")[0]["value"] == "crab"
    assert jobs.get(catalogue, "towel").notes == ""
    sent = site.post("/job/towel/edit", form_of(found, work="crab", **{"out.0": "yes", "find": ""}))
    assert sent.status == 303
    job = jobs.get(catalogue, "towel")
    assert [use.work for use in job.uses] == ["crab"] and job.notes == "typed"


def test_one_work_in_two_parts_stays_in_both(site, catalogue):
    jobs.add(catalogue, key="towel", title="Towel", markets=["US"])
    jobs.use(catalogue, "towel", "gull", "picture", ["post"])
    jobs.use(catalogue, "towel", "gull", "lettering", [], "cut by hand")
    before = jobs.get(catalogue, "towel").uses
    assert site.post("/job/towel/edit", form_of(site.get("/job/towel/edit"), title="Towels")).status == 303
    assert jobs.get(catalogue, "towel").uses == before


def test_two_people_edit_one_job(site, catalogue):
    jobs.add(catalogue, key="towel", title="Towel", markets=["US"])
    opened = site.get("/job/towel/edit")
    assert site.post("/job/towel/edit", form_of(opened, title="Their towel", notes="theirs")).status == 303
    met = site.post("/job/towel/edit", form_of(opened, title="My towel", wording="AHOY"))
    assert met.status == 409 and met.page.one("h1").text == "Somebody else changed this job meanwhile"
    assert jobs.get(catalogue, "towel").title == "Their towel"
    assert site.post("/job/towel/edit", form_of(met)).status == 303
    job = jobs.get(catalogue, "towel")
    assert (job.title, job.notes, job.wording) == ("My towel", "theirs", "AHOY")


def test_the_list(site, catalogue):
    assert "No job is recorded yet" in site.get("/jobs").page.text
    jobs.add(catalogue, key="towel", title="Towel", due="2027-02-01")
    jobs.add(catalogue, key="sign", title="Sign", sold_on="2026-10-01", quantity=1)
    rows = [row.text for row in site.get("/jobs").page.one("tbody").all("tr")]
    assert "not decided" in rows[0] and "1 piece" in rows[1] and "without a decision" in rows[1]
    assert len(site.get("/jobs?show=sold").page.one("tbody").all("tr")) == 1
    assert len(site.get("/jobs?show=open").page.one("tbody").all("tr")) == 1


# --- decisions ----------------------------------------------------------------------------------------------

def job_of(catalogue, work="gull", **more):
    jobs.add(catalogue, **{"key": "towel", "title": "Towel", "product": "printed tea towel", "markets": ["US"], **more})
    return jobs.use(catalogue, "towel", work, "picture")


def test_a_decision_is_recorded_with_what_it_relied_on(site, catalogue):
    job_of(catalogue)
    sent = site.post("/job/towel/decide", form_of(site.get("/job/towel"), by="Isbet", note="goes ahead", look_again="2027-06-01"))
    assert sent.status == 303 and sent.headers["location"] == "/job/towel?done=decided#decisions"
    row = decisions.of_job(catalogue, "towel")[0]
    assert (row.body["by"], row.body["note"], row.body["look_again"], row.body["clear"]) == ("Isbet", "goes ahead", "2027-06-01", True)
    assert [one["work"] for one in row.body["relied_on"]] == ["gull"]
    page = site.get("/job/towel").page
    assert "Isbet" in page.text and row.digest[:12] in page.text


def test_a_decision_may_be_for_some_of_the_markets(site, catalogue):
    job_of(catalogue, markets=["US", "GB"])
    page = site.get("/job/towel")
    assert page.page.one("input", name="markets")["value"] == "US, GB"
    sent = site.post("/job/towel/decide", form_of(page, by="Isbet", note="goes ahead in the US", markets="United States"))
    assert sent.status == 303
    assert [one["market"] for one in decisions.of_job(catalogue, "towel")[0].body["markets"]] == ["US"]
    assert "Not decided for GB" in site.get("/job/towel").page.text


def test_a_decision_covers_no_market_whose_answer_was_not_shown(site, catalogue):
    job_of(catalogue, markets=["US"])
    sent = site.post("/job/towel/decide", form_of(site.get("/job/towel"), by="Isbet", note="goes ahead", markets="US, FR"))
    assert sent.status == 400 and "The decision names FR" in wrong(sent)["markets"]
    assert ledger.rows(catalogue, "decision") == []


@pytest.mark.parametrize("day", ["soon", "2020-01-01"])
def test_a_day_to_look_again_that_cannot_be_is_told_above_the_form_and_at_its_field(site, catalogue, day):
    job_of(catalogue)
    sent = site.post("/job/towel/decide", form_of(site.get("/job/towel"), by="Isbet", note="goes ahead", look_again=day))
    told = sent.page.one(role="alert")
    assert sent.status == 400 and told.text.startswith("Not kept yet.") and told.one("a")["href"] == "#look_again"
    assert day in wrong(sent)["look_again"] and "look_again" not in wrong(sent)["look_again"]


def test_nobody_decides_without_a_name(site, catalogue):
    job_of(catalogue)
    sent = site.post("/job/towel/decide", form_of(site.get("/job/towel"), note="goes ahead"))
    assert sent.status == 400 and "needs the name of who decided" in sent.page.text
    assert sent.page.one("textarea", name="note").text == "goes ahead"
    assert ledger.rows(catalogue, "decision") == []


def test_against_a_hold_only_with_a_reason(site, catalogue):
    works.add(catalogue, kept.CRAB, key="held")
    job_of(catalogue, "held")
    page = site.get("/job/towel")
    assert page.page.one("textarea", name="although")
    refused = site.post("/job/towel/decide", form_of(page, by="Isbet", note="goes ahead"))
    assert refused.status == 400 and "is on hold in US" in refused.page.text and "--although" not in refused.page.text
    sent = site.post("/job/towel/decide", form_of(refused, although="the heirs agreed by word"))
    assert sent.status == 303
    assert decisions.of_job(catalogue, "towel")[0].body["against"] == ["US"]
    assert "the heirs agreed by word" in site.get("/job/towel").page.text


def test_a_decision_is_about_the_answer_that_was_read(site, catalogue):
    job_of(catalogue)
    form = form_of(site.get("/job/towel"), by="Isbet", note="goes ahead")
    record = works.get(catalogue, "gull")
    works.change(catalogue, "gull", record.version, facts={**record.facts, "publications": [{"date": "1949", "country": "US"}], "created": "1949"})
    sent = site.post("/job/towel/decide", form)
    assert sent.status == 409 and "The answer is another one than when this page was opened" in sent.page.text
    assert sent.page.one("textarea", name="note").text == "goes ahead" and ledger.rows(catalogue, "decision") == []


def test_a_job_that_cannot_be_answered_can_still_be_looked_at(site, catalogue):
    settings.put(catalogue, markets=[])
    jobs.add(catalogue, key="towel", title="Towel")
    page = site.get("/job/towel").page
    assert "names no market" in page.one("p", class_="problem").text and page.all("form", method="post") == []


def test_a_mark_that_matches_holds_and_is_named(site, catalogue):
    marks.add(catalogue, words="HARE AND LANTERN", office="US", number="invented-9", classes=[24], state="registered", status_words="registered", registered="2020-01-01", expires="2030-01-01")
    job_of(catalogue, wording="HARE & LANTERN")
    page = site.get("/job/towel").page
    assert table(page) == {"United States": "hold"} and "HARE AND LANTERN" in page.text


def test_a_day_that_is_only_a_bound_is_told_as_one(site, catalogue, capsys):
    vague = {"created": "190X", "creators": [{"name": "O. Weirman", "died": "1930", "nationality": ["US"]}], "publications": [{"date": "[..1905]", "country": "US"}]}
    works.add(catalogue, {**kept.GULL, **vague, "us_renewed": None}, key="weir")
    job_of(catalogue, "weir", markets=["US", "DE"])
    cells = {row.all("th")[0].text: row.all("td")[1].text for row in site.get("/job/towel").page.one("table", class_="summary").one("tbody").all("tr")}
    assert cells["United States"].endswith("at the latest") and cells["Germany"] == "since 1 January 2001"
    code, out, _ = kept.Command(site.folder, capsys)("check", "--job", "towel", "--brief", "--dry")
    assert code == 0 and "at the latest" in out and "since 1 January 2001\n" in out


# --- what goes with it ----------------------------------------------------------------------------------------

def test_sheet_card_and_package(site, catalogue, tmp_path):
    job_of(catalogue, customer="Mrs Private", price="12")
    sheet, card = site.get("/job/towel/sheet"), site.get("/job/towel/card")
    assert sheet.status == card.status == 200
    assert "Mrs Private" not in sheet.text and "Mrs Private" not in card.text and "Mrs Private" in site.get("/job/towel/sheet?private=1").text
    assert "script" not in sheet.headers["content-security-policy"]
    pack = site.get("/job/towel/package.zip")
    with zipfile.ZipFile(io.BytesIO(pack.body)) as held:
        held.extractall(tmp_path / "out")
    found = bag_check.check(tmp_path / "out" / "towel")
    assert found.complete and found.valid
    assert clear.answer(clear.desk(catalogue, store.today()), jobs.get(catalogue, "towel")).clear


def test_labels_of_a_work(site, catalogue):
    answer = site.get("/work/gull/label.json?in=US")
    assert answer.headers["content-type"].startswith("application/json") and b'"json_ld"' in answer.body


@pytest.mark.parametrize("markets", ["EU minus EU", "EU minus US", "Atlantis"])
def test_markets_that_cannot_be_are_told_at_their_field(site, catalogue, markets):
    jobs.add(catalogue, key="towel", title="Towel", product="towel", markets=["US"])
    jobs.use(catalogue, "towel", "gull", "picture")
    sent = site.post("/job/towel/decide", form_of(site.get("/job/towel"), by="Isbet", note="goes ahead", markets=markets))
    assert sent.status == 400 and list(wrong(sent)) == ["markets"]
