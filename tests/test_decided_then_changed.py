"""A decision is about the job as it was: what changed since is said wherever the decision is shown, and the buyer is told of no such decision."""

import io
import json
import zipfile

import kept
import pytest
import webbed
from registry.catalogue import canonical, complaints, decisions, jobs, ledger, marks, permissions, settings, store, watch, works
from registry.exchange import complaint_folder, complaint_index, sheet
from registry.facts import edtf

TODAY = edtf.day("2026-07-01")
CHANGED = "changed since it was decided: product, pieces, wording"


@pytest.fixture
def catalogue(site, monkeypatch):
    monkeypatch.setattr(store, "today", lambda: TODAY)
    found = store.open_catalogue(site.folder)
    settings.put(found, name="Ninepin Slip", markets=["US"])
    works.add(found, kept.GULL, key="gull", traits=["post", "cap"])
    works.add(found, kept.CRAB, key="crab")
    permissions.add(found, "crab", "licence", licensor="M. Orlop", uses=["any"], places=["world"], media=["any"], commercial=True, changes_allowed=True)
    yield found
    found.db.close()


def signs(catalogue, **more):
    jobs.add(catalogue, **{"key": "signs", "title": "Signs", "product": "carved wooden sign", "markets": ["US"], "quantity": 5, "wording": "AHOY", "lettering": "slab",
                           "listing_text": "Carved by hand", "due": "2026-12-01", **more})
    return jobs.use(catalogue, "signs", "gull", "picture", ["post"], "mirrored")


def change(catalogue, **columns):
    return jobs.change(catalogue, "signs", jobs.get(catalogue, "signs").version, **columns)


def decide(catalogue, note="5 signs, ok", **more):
    return decisions.decide(catalogue, "signs", "Isbet", note, TODAY, **more)


def shirts(catalogue):
    """Decided as five signs, then five thousand shirts with other words."""
    signs(catalogue)
    decide(catalogue)
    return change(catalogue, product="printed t-shirt", quantity=5000, wording="LAND HO")


def last(catalogue):
    return decisions.last(catalogue, jobs.get(catalogue, "signs"))


def older(catalogue):
    """A decision as rows were before they kept what the job was."""
    row = decide(catalogue)
    body = {name: value for name, value in row.body.items() if name not in ("of", "of_sha256")}
    return ledger.append(catalogue, "decision", "signs", body)


# --- what is kept, and what is a change ------------------------------------------------------------------

def test_a_decision_keeps_what_the_job_was(catalogue):
    signs(catalogue)
    body = decide(catalogue).body
    assert body["of"] == {
        "product": "carved wooden sign", "purpose": "sale", "quantity": 5, "wording": "AHOY", "lettering": "slab", "listing_text": "Carved by hand", "due": "2026-12-01",
        "markets": ["US"], "places": ["US"], "uses": [{"work": "gull", "part": "picture", "traits": ["post"], "changes": "mirrored"}]}
    assert body["of_sha256"] == canonical.digest(body["of"]) and ledger.verify(catalogue).faults == ()
    assert last(catalogue).covers and last(catalogue).says == ""


@pytest.mark.parametrize("columns, named", [
    ({"product": "printed t-shirt"}, "product"), ({"purpose": "gift"}, "purpose"), ({"quantity": 5000}, "pieces"), ({"quantity": None}, "pieces"), ({"wording": "LAND HO"}, "wording"),
    ({"wording": "Ahoy"}, "wording"), ({"lettering": "script"}, "lettering"), ({"listing_text": "Authentic"}, "listing text"), ({"markets": ["US", "GB"]}, "markets"),
    ({"due": "2027-12-01"}, "due day"), ({"due": None}, "due day"),
])
def test_what_changes_what_was_decided(catalogue, columns, named):
    signs(catalogue)
    decide(catalogue)
    change(catalogue, **columns)
    assert last(catalogue).changed == (named,) and not last(catalogue).covers


@pytest.mark.parametrize("columns", [
    {"title": "Other"}, {"customer": "Somebody"}, {"price": "9"}, {"notes": "oak"}, {"sold_on": "2026-06-30"}, {"listing_text": "Carved\r\nby hand "}, {"markets": ["us"]}, {"markets": []}])
def test_what_does_not(catalogue, columns):
    signs(catalogue)
    decide(catalogue)
    version = change(catalogue, **columns).version
    assert version != decisions.of_job(catalogue, "signs")[0].body["job_version"] and last(catalogue).changed == ()


@pytest.mark.parametrize("act, named", [
    (lambda one: jobs.use(one, "signs", "crab", "other"), ("works used",)), (lambda one: jobs.use(one, "signs", "gull", "lettering", ["post"], "mirrored"), ("works used",)),
    (lambda one: jobs.stop_using(one, "signs", "gull"), ("works used",)), (lambda one: jobs.use(one, "signs", "gull", "picture", ["cap"], "mirrored"), ("what is shown of the works",)),
    (lambda one: jobs.use(one, "signs", "gull", "picture", ["post"], "in two colours"), ("changes by hand",)), (lambda one: jobs.use(one, "signs", "gull", "picture", ["post"], "mirrored"), ()),
])
def test_changed_uses(catalogue, act, named):
    signs(catalogue)
    decide(catalogue)
    act(catalogue)
    assert last(catalogue).changed == named


def test_markets_of_the_shop_count_where_the_job_names_none_and_so_do_members_of_groups(catalogue):
    settings.put(catalogue, groups={"FAIRS": ["US"]}, markets=["FAIRS"])
    signs(catalogue, markets=[])
    decide(catalogue)
    settings.put(catalogue, markets=["US"])
    assert last(catalogue).changed == ()  # the same places under another name
    settings.put(catalogue, groups={"FAIRS": ["US", "GB"]}, markets=["FAIRS"])
    assert last(catalogue).changed == ("markets",) and last(catalogue).then == ("markets: FAIRS",)


def test_changed_back_is_as_decided_and_a_new_decision_covers(catalogue):
    shirts(catalogue)
    assert last(catalogue).says == CHANGED
    change(catalogue, product="carved wooden sign", quantity=5, wording="AHOY")
    assert last(catalogue).covers
    change(catalogue, quantity=6)
    decide(catalogue, "six, ok")
    assert last(catalogue).covers
    first, second = (decisions.standing(catalogue, jobs.get(catalogue, "signs"), row) for row in decisions.of_job(catalogue, "signs"))
    assert (first.changed, second.changed) == (("pieces",), ())


def test_an_older_row_does_not_tell(catalogue):
    signs(catalogue)
    older(catalogue)
    assert last(catalogue).covers  # the job was not saved since
    change(catalogue, title="Other")
    assert last(catalogue).changed is None and last(catalogue).says == "it is not known whether the job was the same when it was decided"


# --- the pages ------------------------------------------------------------------------------------------------

def cells(site):
    return site.get("/jobs").page.one("tbody").one("tr").all("td")


def test_the_list_says_so(site, catalogue):
    signs(catalogue)
    decide(catalogue)
    assert cells(site)[-1].text.startswith("decided ")
    change(catalogue, product="printed t-shirt", quantity=5000, wording="LAND HO")
    assert cells(site)[-1].one("strong").text == "changed since it was decided:" and "product, pieces, wording" in cells(site)[-1].text
    change(catalogue, sold_on="2026-06-30")
    assert cells(site)[-1].text.startswith("sold 30 June 2026, changed since it was decided:")


def test_the_list_tells_decisions_against_a_hold(site, catalogue):
    works.add(catalogue, {**kept.CRAB, "title": "Held", "creators": [{"name": "Ira Vell", "died": "1990", "nationality": ["GB"]}]}, key="held")
    signs(catalogue, markets=["US", "GB"])
    jobs.use(catalogue, "signs", "held", "picture")
    row = decide(catalogue, although="at our own risk")
    assert row.body["against"] == ["US", "GB"]
    assert cells(site)[-1].one("strong").text == "decided although on hold in US and GB"


def test_the_page_of_the_job_says_so_above_and_beside_the_decision(site, catalogue):
    signs(catalogue)
    decide(catalogue)
    assert "hanged since it was decided" not in site.get("/job/signs").page.text
    change(catalogue, product="printed t-shirt", quantity=5000, wording="LAND HO")
    page = site.get("/job/signs").page
    top = page.one("p", role="note")
    assert top.text.startswith("C" + CHANGED[1:]) and top.one("a")["href"] == "#decide"
    beside = page.one("section", aria_labelledby="decisions").one("article").text
    assert "C" + CHANGED[1:] in beside and "When it was decided: product: carved wooden sign; pieces: 5; wording: AHOY." in beside


def test_an_older_row_on_the_pages(site, catalogue):
    signs(catalogue)
    older(catalogue)
    change(catalogue, quantity=5000)
    says = "it is not known whether the job was the same when it was decided"
    assert cells(site)[-1].one("strong").text == "not known whether the job was the same" and says[1:] in site.get("/job/signs").page.one("p", role="note").text
    assert says in site.get("/due").page.one("section", aria_labelledby="changed").text
    found = sheet.collect(catalogue, "signs", TODAY)
    assert found["decisions"][-1]["changed"] is None and says[1:] in sheet.html(found, {}) and sheet.for_buyer(found)["decided"] is None


def test_it_is_due(site, catalogue):
    signs(catalogue)
    decide(catalogue)
    assert watch.due(catalogue, TODAY).ending == ()
    change(catalogue, product="printed t-shirt", quantity=5000, wording="LAND HO")
    (one,) = watch.due(catalogue, TODAY, within=0).ending
    assert (one.what, one.key, one.jobs) == ("changed job", "signs", ("signs",)) and CHANGED in one.says
    section = site.get("/due").page.one("section", aria_labelledby="changed")
    assert f"Signs: {CHANGED}. Isbet decided on" in section.text and section.one("a")["href"] == "/job/signs" and "No answer that a decision relied on" not in section.text
    assert site.get("/due").page.one("section", aria_labelledby="ending").text.count("Signs") == 0  # told once
    decide(catalogue, "shirts, ok")
    assert watch.due(catalogue, TODAY).ending == ()


def test_a_decision_is_about_the_job_that_was_read(site, catalogue):
    signs(catalogue)
    form = webbed.values(site.get("/job/signs").page.all("form", method="post")[0])
    form = [pair for pair in form if pair[0] not in ("by", "note")] + [("by", "Isbet"), ("note", "5 signs, ok")]
    change(catalogue, quantity=5000)  # the answer stays what it was
    sent = site.post("/job/signs/decide", form)
    assert sent.status == 409 and "the job was changed" in sent.page.text and ledger.rows(catalogue, "decision") == []


# --- the papers ---------------------------------------------------------------------------------------------

def test_the_sheet_says_so_beside_the_decision(catalogue):
    shirts(catalogue)
    found = sheet.collect(catalogue, "signs", TODAY)
    text = sheet.html(found, {})
    assert found["decisions"][0]["changed"] == ["product", "pieces", "wording"]
    assert text.index("5 signs, ok") < text.index("C" + CHANGED[1:] + ".</b> When it was decided: product: carved wooden sign; pieces: 5; wording: AHOY.") < text.index("Row ")


def test_the_card_tells_of_no_decision_about_another_job(catalogue):
    signs(catalogue)
    decide(catalogue)
    assert "Decided by the shop" in sheet.card(sheet.collect(catalogue, "signs", TODAY), {})
    change(catalogue, product="printed t-shirt", quantity=5000, wording="LAND HO")
    found = sheet.collect(catalogue, "signs", TODAY)
    assert "ecided" not in sheet.card(found, {}) and sheet.for_buyer(found)["decided"] is None


def test_an_earlier_decision_that_fits_does_not_stand_in_for_the_last(catalogue):
    signs(catalogue)
    decide(catalogue)
    change(catalogue, quantity=6)
    decide(catalogue, "six, not five")
    change(catalogue, quantity=5)
    assert sheet.for_buyer(sheet.collect(catalogue, "signs", TODAY))["decided"] is None


def mark(catalogue):
    return marks.add(catalogue, words="AHOY", office="US", number="invented-9", classes=[20], state="registered", registered="2020-01-01", expires="2030-01-01")


def card(catalogue):
    found = sheet.collect(catalogue, "signs", TODAY)
    return found, webbed.read(sheet.card(found, {}))


def test_the_heading_of_the_card_claims_no_more_than_was_looked_up(catalogue):
    mark(catalogue)
    signs(catalogue)
    _found, page = card(catalogue)
    assert "May it be sold, as looked up on 1 July 2026" in page.text and "Copyright, as" not in page.text and "Not legal advice" in page.text


def test_the_card_says_that_a_decision_stands_against_a_hold(site, catalogue):
    mark(catalogue)
    signs(catalogue)
    row = decide(catalogue, although="the owner of the mark nodded")
    found, page = card(catalogue)
    note = page.one("p", role="note")
    assert note.text.startswith("The shop decided on ") and note.text.endswith(" although there is a hold in the United States.")
    assert ", although on hold in the United States (row " in page.one("footer").text and "nodded" not in page.text
    assert sheet.for_buyer(found)["decided"] == {"at": row.at, "row": row.seq, "against": ["US"]}
    assert site.get("/job/signs/card").page.one("p", role="note").text == note.text
    with zipfile.ZipFile(io.BytesIO(site.get("/job/signs/package.zip").body)) as held:
        assert note.text in held.read("signs/data/card.html").decode()
    marks.change(catalogue, "m1", state="dead")
    assert card(catalogue)[1].one("p", role="note").text.endswith(" although there was a hold in the United States then.")


def test_the_card_says_that_a_hold_came_after_the_decision(catalogue):
    signs(catalogue)
    decide(catalogue)
    assert card(catalogue)[1].all("p", role="note") == []
    mark(catalogue)
    text = card(catalogue)[1].one("p", role="note").text
    assert text.startswith("There is a hold in the United States, which the decision of the shop on ") and text.endswith(" did not weigh.")


def test_a_reason_without_a_hold_is_no_hold(site, catalogue):
    signs(catalogue)
    decide(catalogue, although="in case")
    for text in (site.get("/job/signs").text, sheet.html(sheet.collect(catalogue, "signs", TODAY), {})):
        assert "Against a hold" not in text and "Reason given:" in text and "in case" in text


# --- the commands -------------------------------------------------------------------------------------------------

@pytest.fixture
def command(catalogue, capsys):
    return kept.Command(catalogue.folder, capsys)


def test_the_commands_say_so(command, catalogue):
    signs(catalogue)
    decide(catalogue)
    text = " ".join(command("job", "show", "signs")[1].split())
    assert "decision decided on 20" in text and " by Isbet" in text and "changed since" not in text
    assert command("job", "list")[1] == "2026-12-01  signs  Signs (US)\n1 job.\n" and command("due")[1].startswith("Nothing is due.")
    change(catalogue, product="printed t-shirt", quantity=5000, wording="LAND HO")
    for words in (("due",), ("job", "show", "signs"), ("job", "list")):
        assert CHANGED in " ".join(command(*words)[1].split()), words
    assert CHANGED in json.loads(command("due", "--json")[1])["ending"][0]["says"]


def test_the_folder_of_a_complaint_says_so(catalogue):
    shirts(catalogue)
    complaints.add(catalogue, received="2026-06-20", sender="Owner", claim="ours", jobs=["signs"])
    dossier = complaint_folder.collect(catalogue, "c1", TODAY)
    assert "Job signs: changed since it was decided: product, pieces, wording." in complaint_index.missing(dossier)


# --- works that changed, not their facts ------------------------------------------------------------------

@pytest.mark.parametrize("act", [
    lambda catalogue: works.change(catalogue, "gull", works.get(catalogue, "gull").version, based_on="lobster", originality="new_expression"),
    lambda catalogue: works.change(catalogue, "gull", works.get(catalogue, "gull").version, originality="faithful_copy"),
])
def test_what_a_work_is_made_of_is_watched(catalogue, act):
    works.add(catalogue, kept.CRAB | {"us_renewed": True}, key="lobster")
    signs(catalogue)
    decide(catalogue)
    assert list(watch.changed(catalogue, TODAY)) == []
    act(catalogue)
    found = list(watch.changed(catalogue, TODAY))
    assert [(one.job, one.market, one.then, one.because.split(", ")[0]) for one in found] == [("signs", "US", "no_bar_found", "versions of the works")]
    assert found[0].now in ("hold", "not_settled")


def test_another_version_of_the_same_original_is_watched(catalogue):
    """A version that shows the feature earlier may change whose feature it is; what changes nothing is not told."""
    signs(catalogue)
    decide(catalogue)
    works.add(catalogue, kept.CRAB, key="sheet", based_on="gull", originality="new_expression", traits=["post"])
    assert list(watch.changed(catalogue, TODAY)) == []
    assert watch._altered(last(catalogue).row.body["works"], watch._families(catalogue))


@pytest.mark.parametrize("markets, decided, left", [
    (["US", "GB"], ["US"], ("GB",)), (["US", "GB"], None, ()), (["eu minus es", "US"], None, ()), (["EU minus ES"], ["EU"], ()), (["EU"], ["EU minus ES"], ("EU",)), (["all"], None, ()),
])
def test_a_decision_about_some_markets_leaves_the_others(site, catalogue, markets, decided, left):
    signs(catalogue, markets=markets)
    decide(catalogue, markets=decided, although="so it is")
    found = last(catalogue)
    assert found.left == left and found.covers is (not left)
    says = f"not decided for {', '.join(left)}"
    assert found.says == (says if left else "")
    for path in ("/jobs", "/job/signs"):
        assert (says in site.get(path).page.text.replace("Not decided", "not decided")) is bool(left), path
    assert ("Decided by the shop on" in card(catalogue)[1].text) is (not left)
