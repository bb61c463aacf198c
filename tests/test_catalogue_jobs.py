"""Jobs and the works used in them."""

import kept
import pytest
from registry.catalogue import jobs, settings, store, works
from registry.errors import BadDate, Conflict, RegistryError, UnknownRecord


@pytest.fixture
def catalogue(tmp_path):
    found = kept.new(tmp_path)
    works.add(found, kept.GULL, key="gull", traits=["bollard", "hat"])
    works.add(found, kept.CRAB, key="crab", based_on="gull", traits=["kettle"])
    return found


def test_a_job_as_kept(catalogue):
    job = jobs.add(catalogue, title="Tea towel", product="towel", markets=["us", "EU"], quantity=20, due="2027-02-12", price="GBP 9")
    assert (job.key, job.purpose, job.markets, job.quantity, job.due, job.version) == ("j1", "sale", ("US", "EU"), 20, "2027-02-12", 1)
    assert jobs.get(catalogue, "j1") == job


def test_a_group_of_the_shop_is_a_market(catalogue):
    with pytest.raises(RegistryError, match="^'NEAR' is not a place"):
        jobs.add(catalogue, title="x", markets=["NEAR"])
    settings.put(catalogue, groups={"NEAR": ["GB", "IE"]})
    assert jobs.add(catalogue, title="x", markets=["near"]).markets == ("NEAR",)


@pytest.mark.parametrize(
    "columns, says",
    [
        ({"title": " "}, "^A job needs a title.$"),
        ({"purpose": "rent"}, "^The purpose is 'rent'; allowed are sale, commission, gift, display.$"),
        ({"quantity": 0}, "^The quantity is 0; a whole number from 1 up is allowed.$"),
        ({"quantity": True}, "^The quantity is True"),
        ({"quantity": 2**60}, "^The quantity is"),
        ({"due": "next week"}, "^due: A day must be a real calendar day"),
        ({"sold_on": "2026-02-30"}, "^sold_on: A day must be a real calendar day"),
        ({"markets": ["US", "Atlantis"]}, "^'Atlantis' is not a place"),
        ({"colour": "red"}, "^A job has no 'colour'; allowed are title, product, purpose"),
        ({"key": "a b"}, "^'a b' cannot be the key of a job"),
    ],
)
def test_jobs_that_cannot_be(catalogue, columns, says):
    before = kept.everything(catalogue)
    with pytest.raises((RegistryError, BadDate), match=says):
        jobs.add(catalogue, **{"title": "x", **columns})
    assert kept.everything(catalogue) == before


def test_a_change_and_a_stale_one(catalogue):
    jobs.add(catalogue, key="towel", title="x", due="2027-02-12")
    job = jobs.change(catalogue, "towel", 1, sold_on="2026-11-25", due=None)
    assert (job.version, job.sold_on, job.due) == (2, "2026-11-25", None)
    with pytest.raises(Conflict, match="^The job towel was changed since it was read .version 2, not 1."):
        jobs.change(catalogue, "towel", 1, title="y")
    with pytest.raises(Conflict, match="^There is a job 'towel' already"):
        jobs.add(catalogue, key="towel", title="z")
    assert jobs.get(catalogue, "towel") == job


def test_uses(catalogue):
    jobs.add(catalogue, key="towel", title="x")
    jobs.use(catalogue, "towel", "gull", "picture", ["hat"], "two colours")
    job = jobs.use(catalogue, "towel", "crab", "picture", ["kettle", "bollard"])
    assert job.uses == (jobs.Use("gull", "picture", ("hat",), "two colours"), jobs.Use("crab", "picture", ("kettle", "bollard"), ""))
    assert job.version == 3
    job = jobs.use(catalogue, "towel", "gull", "picture", [], "one colour")
    assert job.uses[0] == jobs.Use("gull", "picture", (), "one colour")
    assert jobs.of_work(catalogue, "gull") == ["towel"]
    jobs.use(catalogue, "towel", "gull", "text")
    assert jobs.stop_using(catalogue, "towel", "gull", "text").uses[0].part == "picture"
    assert jobs.stop_using(catalogue, "towel", "gull").uses == (jobs.Use("crab", "picture", ("kettle", "bollard"), ""),)
    assert jobs.of_work(catalogue, "gull") == []


@pytest.mark.parametrize(
    "words, says",
    [
        (("towel", "gull", "frame"), "^The part is 'frame'; allowed are picture, lettering, text, photograph, other.$"),
        (("towl", "gull", "picture"), "^There is no job 'towl' in this catalogue; did you mean towel.$"),
        (("towel", "tern", "picture"), "^There is no work 'tern' in this catalogue.$"),
        (("towel", "gull", "picture", ["kettle"]), "^'kettle' is no trait of gull or of what it is based on; on record are bollard, hat.$"),
    ],
)
def test_uses_that_cannot_be(catalogue, words, says):
    jobs.add(catalogue, key="towel", title="x")
    before = kept.everything(catalogue)
    with pytest.raises(RegistryError, match=says):
        jobs.use(catalogue, *words)
    assert kept.everything(catalogue) == before


def test_what_is_not_used_cannot_be_taken_out(catalogue):
    jobs.add(catalogue, key="towel", title="x")
    with pytest.raises(UnknownRecord, match="^The job towel does not use the work gull as text.$"):
        jobs.stop_using(catalogue, "towel", "gull", "text")
    assert jobs.get(catalogue, "towel").version == 1


def test_the_earliest_due_stands_first(catalogue):
    for key, due in (("a", None), ("b", "2027-03-01"), ("c", "2026-12-01"), ("d", "2026-12-01")):
        jobs.add(catalogue, key=key, title=key, due=due)
    assert [job.key for job in jobs.listed(catalogue)] == ["c", "d", "b", "a"]
    assert [job.key for job in jobs.listed(catalogue, 2)] == ["c", "d"]


def test_a_use_and_its_new_version_are_written_together(catalogue):
    jobs.add(catalogue, key="towel", title="x")
    catalogue.db.execute("CREATE TRIGGER stop BEFORE UPDATE ON jobs BEGIN SELECT raise(ABORT, 'stop'); END")
    before = kept.everything(catalogue)
    with pytest.raises(Exception, match="stop"), store.transaction(catalogue):
        jobs.use(catalogue, "towel", "gull", "picture")
    with pytest.raises(Exception, match="stop"):
        jobs.use(catalogue, "towel", "gull", "picture")
    assert kept.everything(catalogue) == before
