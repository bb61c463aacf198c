"""One job that cannot be judged blinds nobody for the others; a group that jobs need is not taken away."""

import json
import re

import kept
import pytest
from registry.catalogue import clear, coming, decisions, jobs, permissions, settings, store, support, watch, works
from registry.errors import RegistryError
from registry.facts import edtf

DAY = edtf.day("2026-07-01")
LATE = {**kept.GULL, "created": "1936", "publications": [{"date": "1936", "country": "US"}]}


@pytest.fixture
def catalogue(tmp_path):
    found = kept.new(tmp_path)
    settings.put(found, name="Ninepin Slip", markets=["US"], groups={"NEAR": ["US", "CA"], "FAIRS": ["GB"]})
    works.add(found, LATE, key="late")
    for key, markets in (("near", ["NEAR"]), ("less", ["NEAR minus CA"]), ("plain", ["US"])):
        jobs.add(found, key=key, title=key, product="carved wooden sign", markets=markets, quantity=5)
        jobs.use(found, key, "late", "picture")
    return found


@pytest.fixture
def blind(catalogue):
    """The catalogue of a shop that lost a group which two jobs name, the first of them decided."""
    decisions.decide(catalogue, "near", "Ann", "goes ahead", DAY, although="agreed")
    decisions.decide(catalogue, "plain", "Ann", "goes ahead", DAY, although="agreed")
    catalogue.db.execute("UPDATE settings SET value = '{}' WHERE key = 'groups'")
    works.change(catalogue, "late", 1, facts={**LATE, "us_renewed": False})
    return catalogue


def test_a_group_that_jobs_name_is_not_taken_away(catalogue):
    before = settings.everything(catalogue)
    with pytest.raises(RegistryError, match="^The group NEAR is a market of the jobs near, less; give them other markets"):
        settings.put(catalogue, groups={"FAIRS": ["GB"]})
    assert settings.everything(catalogue) == before
    settings.put(catalogue, groups={"NEAR": ["US"]})
    for key in ("near", "less"):
        jobs.change(catalogue, key, jobs.get(catalogue, key).version, markets=["US"])
    settings.put(catalogue, groups={})
    assert settings.get(catalogue, "groups") == {}


def test_a_group_that_the_markets_name_is_not_taken_away(catalogue, capsys):
    command = kept.Command(catalogue.folder, capsys)
    assert "of the jobs near, less" in command.refused("settings", "--markets", "US", "--group", "NEAR=")
    settings.put(catalogue, markets=["US", "FAIRS"])
    assert "FAIRS" in command.refused("settings", "--group", "FAIRS=")


def test_what_is_due_is_told_of_all_jobs(blind):
    found = {one.job: one for one in watch.due(blind, DAY).changed}
    assert found.keys() == {"near", "plain"} and found["plain"].now == "no_bar_found"
    assert found["near"].market == "" and "'NEAR'" in found["near"].sentence


def test_gaps_are_told_of_all_jobs(blind):
    found = support.missing(blind, DAY)
    assert found.unjudged.keys() == {"near", "less"} and {key for gap in found.gaps for key in gap.jobs} == {"plain"}


def test_the_calendar_is_told_of_all_works(blind):
    works.change(blind, "late", 2, facts=LATE)
    found = coming.coming(blind, ["US"], DAY, edtf.day("2040-12-31"))
    assert [one.jobs for one in found] == [("plain",)] and coming.unplaced(blind).keys() == {"near", "less"}


def test_a_job_is_judged_beside_one_that_cannot_be(blind):
    permissions.add(blind, "late", "licence", uses=["any"], places=["world"], media=["any"], quantity=7, commercial=True, changes_allowed=True)
    works.change(blind, "late", 2, facts=LATE)
    at = clear.desk(blind, DAY)
    found = clear.answer(at, jobs.get(blind, "plain"))
    assert "5" in found.markets[0].sentence and found.markets[0].decision == "hold"  # what the others drew counts everywhere


def test_the_commands_name_the_jobs_and_go_on(blind, capsys):
    command = kept.Command(blind.folder, capsys)
    for words in (("due",), ("gaps",)):
        code, out, _ = command(*words, "--on", "2026-07-01")
        assert code == 0 and "'NEAR'" in out and "plain" in out, words
    assert json.loads(command("gaps", "--json")[1])["unjudged"].keys() == {"near", "less"}
    code, out, err = command("calendar", "--in", "US", "--until", "2040", "--on", "2026-07-01")
    assert code == 0 and "The job near is not told of" in " ".join(err.split())
    assert "cannot be judged" not in command("gaps", "--json")[1]


# --- why an answer is another one --------------------------------------------------------------------------

def causes(catalogue):
    return [one.because for one in watch.due(catalogue, DAY).changed]


def test_other_jobs_are_named_as_a_cause_only_where_there_are_some(tmp_path):
    catalogue = kept.new(tmp_path)
    works.add(catalogue, LATE, key="late")
    permissions.add(catalogue, "late", "licence", uses=["any"], places=["world"], media=["any"], quantity=7, commercial=True, changes_allowed=True)
    jobs.add(catalogue, key="sign", title="sign", product="carved wooden sign", markets=["US"], quantity=5)
    jobs.use(catalogue, "sign", "late", "picture")
    decisions.decide(catalogue, "sign", "Ann", "goes ahead", DAY)
    jobs.change(catalogue, "sign", jobs.get(catalogue, "sign").version, quantity=8)
    assert causes(catalogue) == ["the job"]
    jobs.change(catalogue, "sign", jobs.get(catalogue, "sign").version, quantity=5)
    jobs.add(catalogue, key="mug", title="mug", product="mug", markets=["US"], quantity=5, sold_on="2026-06-01")
    jobs.use(catalogue, "mug", "late", "picture")
    assert causes(catalogue) == ["the job, quantities of other jobs"]


def test_what_other_jobs_draw_is_a_cause_by_itself(tmp_path):
    catalogue = kept.new(tmp_path)
    works.add(catalogue, LATE, key="late")
    permissions.add(catalogue, "late", "licence", uses=["any"], places=["world"], media=["any"], quantity=7, commercial=True, changes_allowed=True)
    for key in ("sign", "mug"):
        jobs.add(catalogue, key=key, title=key, product="carved wooden sign", markets=["US"], quantity=5)
    jobs.use(catalogue, "sign", "late", "picture")
    decisions.decide(catalogue, "sign", "Ann", "goes ahead", DAY)
    assert causes(catalogue) == []
    jobs.use(catalogue, "mug", "late", "picture")
    jobs.change(catalogue, "mug", jobs.get(catalogue, "mug").version, sold_on="2026-06-01")
    assert causes(catalogue) == ["quantities of other jobs"]


# --- the pages ---------------------------------------------------------------------------------------------

def test_the_pages_name_the_jobs_and_go_on(site):
    catalogue = store.open_catalogue(site.folder)
    settings.put(catalogue, markets=["US"], groups={"NEAR": ["US"]})
    works.add(catalogue, LATE, key="late")
    for key, market in (("near", "NEAR"), ("plain", "US")):
        jobs.add(catalogue, key=key, title=key, markets=[market])
        jobs.use(catalogue, key, "late", "picture")
    decisions.decide(catalogue, "near", "Ann", "goes ahead", store.today(), although="agreed")
    catalogue.db.execute("UPDATE settings SET value = '{}' WHERE key = 'groups'")
    works.change(catalogue, "late", 1, facts={**LATE, "us_renewed": False})
    for path in ("/due", "/due/proof", "/calendar", "/"):
        found = site.get(path)
        text = re.sub(r"&#39;", "'", found.text)
        assert found.status == 200 and ("'NEAR'" in text or path == "/"), path
