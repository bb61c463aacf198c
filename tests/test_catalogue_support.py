"""Which decisive facts rest on evidence: by basis, by what was on record then, for single makers, and ranked over jobs."""

import kept
import pytest
from registry.catalogue import answers, clear, evidence, jobs, permissions, support, works
from registry.errors import RegistryError
from registry.facts import edtf

DAY = edtf.day("2026-07-01")
LATE = {**kept.GULL, "creators": [{"name": "Perpetua Quill", "died": "1958", "nationality": ["US"]}]}  # free in Britain by comparison with home
TWO = {**LATE, "title": "Two hands", "creators": [{"name": "Perpetua Quill", "died": "1930", "nationality": ["US"]}, {"name": "Obadiah Sline", "died": "1950", "nationality": ["US"]}]}


@pytest.fixture
def catalogue(tmp_path):
    found = kept.new(tmp_path)
    works.add(found, LATE, key="gull")
    works.add(found, TWO, key="two")
    return found


def of_work(catalogue, key="gull", places=("US", "GB")):
    found = answers.answer_work(works.get(catalogue, key), places, DAY)
    return {one.fact: one for one in support.of_answers(catalogue, found)}


def basis(catalogue, fact, key="gull", places=("US", "GB")):
    return of_work(catalogue, key, places)[fact].basis


def change(catalogue, key, **facts):
    record = works.get(catalogue, key)
    works.change(catalogue, key, record.version, facts={**record.facts, **facts})


def test_what_an_answer_hangs_on(catalogue):
    found = of_work(catalogue)
    assert found["died"].places == ("GB",) and found["nationality"].places == ("GB",) and found["publications.date"].places == ("US", "GB")
    assert found["died"].value == ["1958"] and found["publications.date"].value == ["1928-05-17"]
    assert "us_renewed" not in found  # beyond 95 years it no longer matters
    assert {one.basis for one in found.values()} == {"none"} and not any(one.rests for one in found.values())


@pytest.mark.parametrize("given, best, rests", [
    (["seen"], "seen", True), (["told"], "told", True), (["assumed"], "assumed", False), ([], "none", False),
    (["assumed", "told"], "told", True), (["seen", "assumed"], "seen", True),
])
def test_the_best_basis_counts(catalogue, given, best, rests):
    for one in given:
        evidence.add(catalogue, "gull", "died", one)
    found = of_work(catalogue)["died"]
    assert (found.basis, found.rests, len(found.evidence)) == (best, rests, len(given))


def test_evidence_for_the_publications_counts_for_date_and_country(catalogue):
    evidence.add(catalogue, "gull", "publications", "seen")
    found = of_work(catalogue)
    assert {fact: found[fact].basis for fact in ("publications.date", "publications.country", "died")} == {
        "publications.date": "seen", "publications.country": "seen", "died": "none"}


def test_evidence_that_it_was_published_does_not_say_when(catalogue):
    evidence.add(catalogue, "gull", "published", "seen")
    assert basis(catalogue, "publications.date") == "none"


def test_a_fact_altered_afterwards_no_longer_rests_on_it(catalogue):
    evidence.add(catalogue, "gull", "died", "seen")
    evidence.add(catalogue, "gull", "publications", "seen")
    change(catalogue, "gull", creators=[{**LATE["creators"][0], "died": "1957"}])
    assert (basis(catalogue, "died"), basis(catalogue, "publications.date")) == ("outdated", "seen")
    change(catalogue, "gull", publications=[{"date": "1928-05-17", "country": "PR"}])
    assert (basis(catalogue, "publications.date"), basis(catalogue, "publications.country")) == ("seen", "outdated")


def test_evidence_from_before_the_fact_was_on_record_does_not_count(catalogue):
    works.add(catalogue, {**kept.GULL, "creators": [{"name": "Perpetua Quill"}]}, key="early")
    assert evidence.add(catalogue, "early", "died", "seen").value == "null"
    change(catalogue, "early", creators=[{"name": "Perpetua Quill", "died": "1950"}])
    assert basis(catalogue, "died", "early", ("GB",)) == "outdated"


@pytest.mark.parametrize("paths, best", [
    (["creators.0.died"], "none"), (["creators.1.died"], "none"), (["creators[0].died", "creators.1.died"], "seen"), (["died"], "seen"),
])
def test_every_maker_needs_evidence(catalogue, paths, best):
    for path in paths:
        evidence.add(catalogue, "two", path, "seen")
    assert basis(catalogue, "died", "two", ("GB",)) == best


def test_the_weakest_maker_counts(catalogue):
    evidence.add(catalogue, "two", "creators.0.died", "seen")
    evidence.add(catalogue, "two", "creators.1.died", "assumed")
    assert basis(catalogue, "died", "two", ("GB",)) == "assumed"


@pytest.mark.parametrize("fact, says", [
    ("birthday", "^'birthday' is no fact that evidence can support"), ("creators.2.died", "there are 2 creators on record"),
    ("creators.0.date", "names no fact of one of the creators"), ("publications.0.died", "names no fact of one of the publications"),
    ("makers.0.died", "is no fact that evidence can support"), ("creators.x.died", "there are 2 creators"),
])
def test_facts_that_cannot_be_named(catalogue, fact, says):
    before = kept.everything(catalogue)
    with pytest.raises(RegistryError, match=says):
        evidence.add(catalogue, "two", fact, "seen")
    assert kept.everything(catalogue) == before


def test_a_shown_name_is_kept(catalogue):
    assert evidence.add(catalogue, "gull", "date", "seen").fact == "publications.date"


def test_an_open_answer_hangs_on_what_is_missing(catalogue):
    works.add(catalogue, kept.SCRAP, key="scrap")
    assert of_work(catalogue, "scrap") == {}


def job(catalogue, key, *uses, markets=("US",), quantity=10, **columns):
    jobs.add(catalogue, key=key, title=key, product="printed tea towel", markets=list(markets), quantity=quantity, **columns)
    for work in uses:
        jobs.use(catalogue, key, work, "picture")


def test_a_job_hangs_on_the_facts_of_its_layers(catalogue):
    works.add(catalogue, {**kept.GULL, "title": "Tinted gull", "publications": [{"date": "1929", "country": "US"}]}, key="tinted", based_on="gull", originality="new_expression")
    job(catalogue, "towel", "tinted")
    at = clear.desk(catalogue, DAY)
    found = support.of_job(at, clear.answer(at, jobs.get(catalogue, "towel"), want=0))
    assert {(one.work, one.fact) for one in found} >= {("gull", "publications.date"), ("tinted", "publications.date")}
    assert {place for one in found for place in one.places} == {"US"}


def test_what_a_permission_covers_hangs_on_no_fact(catalogue):
    works.add(catalogue, {**kept.CRAB, "us_renewed": True}, key="crab")
    job(catalogue, "towel", "crab")
    at = clear.desk(catalogue, DAY)
    assert support.of_job(at, clear.answer(at, jobs.get(catalogue, "towel"), want=0))
    permissions.add(catalogue, "crab", "licence", uses=["any"], places=["world"], media=["any"], commercial=True, changes_allowed=True)
    at = clear.desk(catalogue, DAY)
    assert support.of_job(at, clear.answer(at, jobs.get(catalogue, "towel"), want=0)) == ()


def ranked(catalogue):
    return [(gap.support.work, gap.support.fact, gap.jobs, gap.pieces) for gap in support.missing(catalogue, DAY).gaps]


def test_gaps_are_ranked_by_the_sales_that_hang_on_them(catalogue):
    job(catalogue, "small", "gull", quantity=5)
    job(catalogue, "large", "two", quantity=500)
    assert [row[0] for row in ranked(catalogue)][:1] == ["two"]
    job(catalogue, "third", "gull", quantity=1)
    first = ranked(catalogue)[0]
    assert (first[0], set(first[2]), first[3]) == ("gull", {"small", "third"}, 6)
    facts = [row[1] for row in ranked(catalogue) if row[0] == "gull"]
    assert facts[-1] == "kind" and "publications.date" in facts


def test_evidence_closes_a_gap(catalogue):
    job(catalogue, "small", "gull", markets=("GB",))
    assert "died" in [row[1] for row in ranked(catalogue)]
    evidence.add(catalogue, "gull", "died", "assumed")
    assert "died" in [row[1] for row in ranked(catalogue)]
    evidence.add(catalogue, "gull", "died", "told")
    assert "died" not in [row[1] for row in ranked(catalogue)]


def test_no_job_no_gap(catalogue):
    job(catalogue, "empty")
    job(catalogue, "nowhere", "gull", markets=())
    assert ranked(catalogue) == []


LETTERS = {"title": "Slab", "kind": "lettering", "authorship": "individual", "created": "2019", "published": True, "publications": [{"date": "2019", "country": "US"}],
           "creators": [{"name": "O. Ferr", "alive": True, "nationality": ["US"]}]}


def test_what_the_law_on_these_facts_does_not_answer_hangs_on_none_of_them(catalogue):
    works.add(catalogue, {**LATE, "title": "Scan"}, key="scan", based_on="gull", originality="faithful_copy")
    works.add(catalogue, {"title": "Ours", "kind": "drawing", "created": "2026"}, key="ours", based_on="gull", originality="new_expression", own=True)
    works.add(catalogue, LETTERS, key="slab")
    job(catalogue, "towel", "scan", "ours")
    jobs.use(catalogue, "towel", "slab", "lettering")
    at = clear.desk(catalogue, DAY)
    found = clear.answer(at, jobs.get(catalogue, "towel"), want=0)
    statuses = {layer.work: layer.status for layer in found.markets[0].places[0].layers}
    assert statuses["scan"] == "no_layer" and statuses["ours"] == "own_work" and statuses["slab"] == "public_domain"
    hang = {(one.work, one.fact) for one in support.of_job(at, found)}
    assert {fact for work, fact in hang if work == "slab"} == {"kind"}  # letters as such are free there, whatever else is recorded
    assert {work for work, _fact in hang} == {"gull", "slab", "ours"}
    assert {fact for work, fact in hang if work == "ours"} == {"own"}  # that the shop made it, and no fact of it
