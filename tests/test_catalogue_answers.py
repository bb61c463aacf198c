"""Answers about kept works: reckoned by the law, worst first for a job, recorded once."""

import kept
import pytest
from registry.catalogue import answers, jobs, ledger, words, works
from registry.catalogue.canonical import digest
from registry.facts import edtf
from registry.law.verdict import Verdict

DAY = edtf.day("2026-07-01")


@pytest.fixture
def catalogue(tmp_path):
    found = kept.new(tmp_path)
    for key, facts in (("gull", kept.GULL), ("crab", kept.CRAB), ("scrap", kept.SCRAP)):
        works.add(found, facts, key=key)
    jobs.add(found, key="job", title="x")
    return found


def status(catalogue, key, place="US", day=DAY):
    (answer,) = answers.answer_work(works.get(catalogue, key), [place], day)
    return answer.verdict.status


def test_the_law_answers(catalogue):
    assert [status(catalogue, key) for key in ("gull", "crab", "scrap")] == ["public_domain", "in_copyright", "undetermined"]
    assert status(catalogue, "gull", day=edtf.day("2023-12-31")) == "in_copyright"
    assert status(catalogue, "gull", day=edtf.day("2024-01-01")) == "public_domain"
    assert status(catalogue, "gull", place="AQ") == "undetermined"


@pytest.mark.parametrize(
    "used, answer, reason",
    [
        ([], "not_settled", "No work and no wording is recorded for this job."),
        (["gull"], "no_bar_found", "is likely public domain in the United States, free since 1 January 2024"),
        (["gull", "scrap"], "not_settled", "'Torn scrap' is undetermined in the United States"),
        (["gull", "scrap", "crab"], "hold", "is likely in copyright in the United States until 1 January 2045"),
        (["crab"], "hold", "is likely in copyright in the United States until 1 January 2045"),
    ],
)
def test_a_job_is_as_bad_as_its_worst_work(catalogue, used, answer, reason):
    for key in used:
        jobs.use(catalogue, "job", key, "picture")
    found = answers.answer_job(catalogue, jobs.get(catalogue, "job"), ["US"], DAY)
    (market,) = found.markets
    assert (found.job, found.day, market.market, market.answer) == ("job", DAY, "US", answer)
    assert reason in market.reason
    assert [part.work.key for part in market.parts] == used


def test_what_a_version_is_based_on_counts(catalogue):
    works.add(catalogue, kept.GULL, key="tinted", based_on="crab")
    jobs.use(catalogue, "job", "tinted", "picture")
    (market,) = answers.answer_job(catalogue, jobs.get(catalogue, "job"), ["US"], DAY).markets
    assert market.answer == "hold" and "'Crab in a Kettle' (1949) is likely in copyright" in market.reason
    layers = answers.answer_layers(catalogue, works.get(catalogue, "tinted"), ["US"], DAY)
    assert [(one.work.key, one.verdict.status) for one in layers] == [("tinted", "public_domain"), ("crab", "in_copyright")]


def test_markets_are_answered_one_by_one(catalogue):
    jobs.use(catalogue, "job", "gull", "picture")
    found = answers.answer_job(catalogue, jobs.get(catalogue, "job"), ["US", "AQ"], DAY)
    assert [(market.market, market.answer) for market in found.markets] == [("US", "no_bar_found"), ("AQ", "not_settled")]


def test_an_assessment_in_the_ledger(catalogue):
    record = works.get(catalogue, "crab")
    found = answers.answer_work(record, ["US", "AQ"], DAY)
    rows = answers.record(catalogue, found)
    assert [row.body["place"] for row in rows] == ["US", "AQ"]
    body = ledger.newest(catalogue, "assessment", "crab", place="US").body
    assert body == {
        "work": "crab", "place": "US", "as_of": "2026-07-01", "status": "in_copyright", "free_from": "2045-01-01",
        "free_from_earliest": "2045-01-01", "free_from_latest": "2045-01-01", "because": None, "why": [rule.id for rule in found[0].verdict.why],
        "open": [], "facts_sha256": digest(record.facts), "rules_sha256": answers.rules_sha256(),
    }
    assert ledger.newest(catalogue, "assessment", "crab", place="AQ").body["because"] == "not_covered"


def test_the_same_answer_is_not_written_twice(catalogue):
    record = works.get(catalogue, "gull")
    first = answers.record(catalogue, answers.answer_work(record, ["US"], DAY))
    assert answers.record(catalogue, answers.answer_work(record, ["US"], DAY)) == first
    assert answers.record(catalogue, answers.answer_work(record, ["US"], DAY + 1)) != first
    assert answers.record(catalogue, answers.answer_work(record, ["US"], DAY)) != first
    assert len(ledger.rows(catalogue, "assessment")) == 3


def test_assessments_are_written_all_or_none(catalogue):
    good, bad = answers.answer_work(works.get(catalogue, "gull"), ["US", "AQ"], DAY)
    catalogue.db.execute("""CREATE TRIGGER stop BEFORE INSERT ON ledger WHEN new.body LIKE '%"AQ"%' BEGIN SELECT raise(ABORT, 'stop'); END""")
    with pytest.raises(Exception, match="stop"):
        answers.record(catalogue, [good, bad])
    assert ledger.rows(catalogue, "assessment") == []


def test_views_show_the_newest_answers_questions_and_what_is_stale(catalogue):
    jobs.use(catalogue, "job", "scrap", "picture")
    for key in ("gull", "scrap"):
        answers.record(catalogue, answers.answer_work(works.get(catalogue, key), ["US"], DAY))
    answers.record(catalogue, answers.answer_work(works.get(catalogue, "gull"), ["US"], DAY + 9))
    now = {row["work"]: (row["status"], row["as_of"]) for row in catalogue.db.execute("SELECT * FROM works_now")}
    assert now == {"gull": ("public_domain", "2026-07-10"), "scrap": ("undetermined", "2026-07-01")}
    asked = catalogue.db.execute("SELECT fact, work, places, jobs FROM open_questions").fetchall()
    assert {row["work"] for row in asked} == {"scrap"} and {row["jobs"] for row in asked} == {1}
    assert catalogue.db.execute("SELECT * FROM stale").fetchall() == []
    works.change(catalogue, "gull", 1, facts={**kept.GULL, "us_notice": False})
    assert [row["work"] for row in catalogue.db.execute("SELECT * FROM stale")] == ["gull"]


def test_the_digest_of_the_rules_follows_the_files(monkeypatch):
    first = answers.rules_sha256()
    real = answers.data.read_text
    monkeypatch.setattr(answers.data, "read_text", lambda *parts: real(*parts) + ("#" if parts == ("terms", "us.toml") else ""))
    answers.rules_sha256.cache_clear()
    assert answers.rules_sha256() != first
    monkeypatch.undo()
    answers.rules_sha256.cache_clear()
    assert answers.rules_sha256() == first


def day(text):
    return None if text is None else edtf.day(text)


@pytest.mark.parametrize(
    "status, free_from, earliest, latest, because, says",
    [
        ("public_domain", "2024-01-01", "2024-01-01", "2024-01-01", None, "since 1 January 2024"),
        ("public_domain", None, "1957-01-01", "2024-01-01", None, "since 1 January 2024 at the latest"),
        ("public_domain", None, None, "2024-01-01", None, "since 1 January 2024 at the latest"),
        ("public_domain", None, None, None, None, "no copyright there, on these facts"),
        ("in_copyright", "2045-01-01", "2045-01-01", "2045-01-01", None, "to 31 December 2044"),
        ("in_copyright", None, "2045-01-01", None, None, "to 31 December 2044 or later"),
        ("in_copyright", None, "2045-01-01", "2050-01-01", None, "to 31 December 2044 at least, 31 December 2049 at most"),
        ("in_copyright", None, None, None, None, "no end in sight"),
        ("undetermined", None, "1957-01-01", "2050-01-01", "missing_fact", "free from some day between 1 January 1957 and 1 January 2050"),
        ("undetermined", None, None, "2050-01-01", "missing_fact", "free from 1 January 2050 at the latest"),
        ("undetermined", None, "1957-01-01", None, "missing_fact", ""),
        ("undetermined", None, None, None, "not_covered", ""),
        ("undetermined", None, "1957-01-01", "2050-01-01", "contested_law", ""),
    ],
)
def test_since_when_and_until_when(status, free_from, earliest, latest, because, says):
    assert words.when(Verdict(status, day(free_from), day(earliest), day(latest), (), (), because)) == says
