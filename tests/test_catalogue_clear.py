"""Jobs of a catalogue judged: rows become a case, other jobs draw on licences, decisions stand for ever, changes are found."""

import kept
import pytest

from registry.catalogue import clear, decisions, jobs, ledger, permissions, settings, watch, works
from registry.errors import RegistryError
from registry.facts import edtf

DAY = edtf.day("2026-07-01")
LIVING = {"title": "Heron on Ice", "kind": "drawing", "authorship": "individual", "created": "2019", "published": True,
          "creators": [{"name": "Ysolde Vane", "alive": True, "nationality": ["GB"]}], "publications": [{"date": "2019", "country": "GB"}]}
GIVEN = {"licensor": "Y. Vane", "uses": ["goods"], "places": ["US", "GB"], "media": ["wood"], "quantity": 300, "commercial": True, "changes_allowed": True,
         "valid_to": "2027-03-31", "credit_line": "Heron: Y. Vane"}


@pytest.fixture
def catalogue(tmp_path):
    found = kept.new(tmp_path)
    works.add(found, kept.GULL, key="gull", traits=["bollard"])
    works.add(found, {**kept.GULL, "title": "Gull in a Storm", "created": "1936", "publications": [{"date": "1936", "country": "US"}]}, key="storm",
              based_on="gull", originality="new_expression", traits=["oilskin"])
    works.add(found, LIVING, key="heron")
    return found


def add(catalogue, key, *uses, quantity=100, markets=("US",), product="carved wooden sign", **columns):
    jobs.add(catalogue, key=key, title=key.title(), product=product, markets=list(markets), quantity=quantity, **columns)
    for work, traits in uses:
        jobs.use(catalogue, key, work, "picture", traits)


def answer(catalogue, key, day=DAY, **more):
    return clear.answer(clear.desk(catalogue, day), jobs.get(catalogue, key), **more)


def decisions_of(catalogue, key, day=DAY):
    return [one.decision for one in answer(catalogue, key, day, want=0).markets]


def test_a_trait_decides(catalogue):
    add(catalogue, "early", ("storm", ["bollard"]))
    add(catalogue, "late", ("storm", ["bollard", "oilskin"]))
    assert decisions_of(catalogue, "early") == ["not_settled"] and decisions_of(catalogue, "late") == ["hold"]
    jobs.use(catalogue, "early", "storm", "picture", ["bollard"], "redrawn from gull")
    assert decisions_of(catalogue, "early") == ["no_bar_found"]
    assert answer(catalogue, "late").markets[0].leave_off == ("oilskin",)


def test_the_shop_s_own_groups_and_markets_count(catalogue):
    settings.put(catalogue, groups={"FAIRS": ["US", "AQ"]}, markets=["FAIRS"])
    jobs.add(catalogue, key="fair", title="x")
    jobs.use(catalogue, "fair", "gull", "picture")
    (market,) = answer(catalogue, "fair").markets
    assert (market.market, market.decision, market.held_by) == ("FAIRS", "not_settled", ("AQ",))


def test_a_job_without_market_is_refused(catalogue):
    jobs.add(catalogue, key="nowhere", title="x")
    with pytest.raises(RegistryError, match="names no market"):
        answer(catalogue, "nowhere")


# --- pieces over all jobs ------------------------------------------------------------------------------

def test_the_second_job_is_over_and_the_first_is_not(catalogue):
    permissions.add(catalogue, "heron", "licence", **GIVEN)
    add(catalogue, "first", ("heron", []), quantity=200)
    add(catalogue, "second", ("heron", []), quantity=150)
    assert decisions_of(catalogue, "first") == ["no_bar_found"]
    found = answer(catalogue, "second")
    assert found.markets[0].decision == "hold" and "50 over" in found.markets[0].sentence
    assert found.next[0].ask.fact == "permission_quantity"


def test_a_later_job_counts_once_it_is_sold_or_decided(catalogue):
    permissions.add(catalogue, "heron", "licence", **GIVEN)
    add(catalogue, "first", ("heron", []), quantity=200)
    add(catalogue, "second", ("heron", []), quantity=150)
    jobs.change(catalogue, "second", jobs.get(catalogue, "second").version, sold_on="2026-06-30")
    assert decisions_of(catalogue, "first") == ["hold"]


def test_a_drawing_made_of_it_draws_on_it_too_and_another_place_does_not(catalogue):
    permissions.add(catalogue, "heron", "licence", **GIVEN)
    works.add(catalogue, LIVING, key="ours", based_on="heron", originality="new_expression", own=True)
    add(catalogue, "first", ("ours", []), quantity=200)
    add(catalogue, "abroad", ("heron", []), quantity=900, markets=["CA"])
    add(catalogue, "second", ("heron", []), quantity=150)
    assert decisions_of(catalogue, "second") == ["hold"] and "other jobs use 200" in answer(catalogue, "second").markets[0].sentence


def test_credits_and_expiry(catalogue):
    permissions.add(catalogue, "heron", "licence", **GIVEN)
    add(catalogue, "run", ("heron", []))
    assert answer(catalogue, "run").credits == (("Heron on Ice", "Heron: Y. Vane"),)
    assert decisions_of(catalogue, "run", edtf.day("2027-03-31")) == ["no_bar_found"]
    assert decisions_of(catalogue, "run", edtf.day("2027-04-01")) == ["hold"]


def test_questions_count_other_jobs_that_wait(catalogue):
    works.add(catalogue, {**kept.GULL, "us_renewed": "unknown", "created": "1945", "publications": [{"date": "1945", "country": "US"}]}, key="later")
    add(catalogue, "one", ("later", []))
    add(catalogue, "two", ("later", []))
    (first, *_) = answer(catalogue, "one").next
    assert (first.ask.fact, first.settles, first.waiting) == ("us_renewed", 2, 2)


# --- decisions -------------------------------------------------------------------------------------------

def decide(catalogue, key, **more):
    return decisions.decide(catalogue, key, "Isbet", "looked at all of it", DAY, **more)


def test_a_decision_keeps_what_it_relied_on(catalogue):
    add(catalogue, "early", ("storm", ["bollard"]))
    jobs.use(catalogue, "early", "storm", "picture", ["bollard"], "redrawn from gull")
    body = decide(catalogue, "early").body
    assert body["clear"] and body["against"] == [] and body["by"] == "Isbet"
    assert [(one["work"], one["place"]) for one in body["relied_on"]] == [("gull", "US"), ("storm", "US")]
    assert all(ledger.rows(catalogue, "assessment")[number].seq == one["seq"] for number, one in enumerate(body["relied_on"]))
    assert ledger.verify(catalogue).faults == ()


def test_against_a_hold_only_with_a_reason_and_marked_for_ever(catalogue):
    add(catalogue, "late", ("storm", ["oilskin"]))
    before = len(ledger.rows(catalogue))
    with pytest.raises(RegistryError, match="on hold in US.*--although"):
        decide(catalogue, "late")
    with pytest.raises(RegistryError, match="--although"):
        decide(catalogue, "late", although="  ")
    assert len(ledger.rows(catalogue)) == before
    row = decide(catalogue, "late", although="one piece, at our own risk")
    assert (row.body["against"], row.body["although"]) == (["US"], "one piece, at our own risk")
    decide(catalogue, "late", although="again")
    assert [one.body["although"] for one in decisions.of_job(catalogue, "late")] == ["one piece, at our own risk", "again"]


@pytest.mark.parametrize("by, note", [("", "x"), ("x", " "), (None, "x")])
def test_a_decision_has_a_name_and_a_note(catalogue, by, note):
    add(catalogue, "early", ("gull", []))
    with pytest.raises(RegistryError, match="name"):
        decisions.decide(catalogue, "early", by, note, DAY)


def test_an_open_answer_may_be_decided_and_is_marked(catalogue):
    add(catalogue, "far", ("gull", []), markets=["AQ"])
    assert decide(catalogue, "far").body["unsettled"] == ["AQ"]


# --- what is due ---------------------------------------------------------------------------------------------

def changed(catalogue, day=DAY):
    return [(one.job, one.market, one.then, one.now, one.because) for one in watch.due(catalogue, day).changed]


def test_nothing_moved_nothing_is_due(catalogue):
    add(catalogue, "early", ("gull", []))
    decide(catalogue, "early")
    assert changed(catalogue) == [] and watch.due(catalogue, DAY).undecided == ()


def test_a_changed_fact_is_found_when_it_changes_the_answer(catalogue):
    add(catalogue, "early", ("gull", []), markets=["US", "CA"])
    decide(catalogue, "early")
    works.change(catalogue, "gull", 1, facts={**kept.GULL, "title": "Another title"})
    assert changed(catalogue) == []
    works.change(catalogue, "gull", 2, facts={**kept.GULL, "publications": [{"date": "1948", "country": "US"}]})
    assert changed(catalogue) == [("early", "US", "no_bar_found", "hold", "facts")]


def test_the_calendar_frees(catalogue):
    add(catalogue, "late", ("storm", ["oilskin"]))
    decide(catalogue, "late", although="made ready")
    assert changed(catalogue, edtf.day("2031-12-31")) == []
    assert changed(catalogue, edtf.day("2032-01-01")) == [("late", "US", "hold", "no_bar_found", "the calendar")]


def test_a_licence_that_ended_a_job_that_changed_and_new_law(catalogue, monkeypatch):
    number = permissions.add(catalogue, "heron", "licence", **{**GIVEN, "quantity": None}).id
    add(catalogue, "run", ("heron", []))
    decide(catalogue, "run")
    assert changed(catalogue) == [] and changed(catalogue, edtf.day("2027-04-01")) == [("run", "US", "no_bar_found", "hold", "the calendar")]
    jobs.use(catalogue, "run", "storm", "other", ["oilskin"])
    assert changed(catalogue) == [("run", "US", "no_bar_found", "hold", "the job")]
    monkeypatch.setattr("registry.catalogue.answers.rules_sha256", lambda: "0" * 64)
    assert "law data" in changed(catalogue)[0][4]
    ending = watch.due(catalogue, edtf.day("2027-02-15")).ending
    assert [(one.what, one.key, one.jobs) for one in ending] == [("changed job", "run", ("run",)), ("permission", f"p{number}", ("run",))] and ending[1].day == "2027-03-31"
    assert [one.what for one in watch.due(catalogue, edtf.day("2027-02-15"), within=10).ending] == ["changed job"]


def test_a_new_mark_is_found_and_holds(catalogue):
    from registry.catalogue import marks

    add(catalogue, "named", ("gull", []), wording="Gull & Anchor", product="carved wooden sign (Nice 20)", markets=["US", "CA"])
    assert decisions_of(catalogue, "named") == ["no_bar_found", "no_bar_found"]
    decide(catalogue, "named")
    marks.add(catalogue, words="GULL AND ANCHOR", office="US", state="live", classes=[20], registered="2020-01-01")
    assert decisions_of(catalogue, "named") == ["hold", "no_bar_found"]
    assert changed(catalogue) == [("named", "US", "no_bar_found", "hold", "marks")]
    marks.add(catalogue, words="GULL AND ANCHOR", office="CA", state="live", classes=[32])
    us, ca = answer(catalogue, "named").markets
    assert ca.decision == "no_bar_found" and [one.mark for one in ca.places[0].matches]
    assert {caution.id for caution in ca.cautions} >= {"TM-NOEXPIRY"}


def test_marks_look_again_and_sales_without_decision(catalogue):
    from registry.catalogue import marks

    marks.add(catalogue, words="GULL", office="US", state="live", look_again="2026-08-01", expires="2026-08-15")
    marks.add(catalogue, words="OLD GULL", office="US", state="dead", expires="2009-08-15")
    add(catalogue, "early", ("gull", []), sold_on="2026-05-02")
    add(catalogue, "decided", ("gull", []), sold_on="2026-05-03")
    decide(catalogue, "decided", look_again="2026-07-15")
    found = watch.due(catalogue, DAY)
    assert [(one.what, one.day) for one in found.ending] == [("decision", "2026-07-15"), ("mark look-up", "2026-08-01"), ("mark", "2026-08-15")]
    assert found.undecided == (("early", "Early", "2026-05-02"),)
