"""The shop's own work, and markets without some members, as kept in a catalogue."""

import kept
import pytest

from registry.catalogue import jobs, settings, works
from registry.errors import RegistryError


@pytest.fixture
def catalogue(tmp_path):
    return kept.new(tmp_path)


def test_a_work_may_be_the_shop_s_own(catalogue):
    works.add(catalogue, kept.GULL, key="gull")
    mine = works.add(catalogue, kept.GULL, key="mine", based_on="gull", own=True)
    assert (works.get(catalogue, "gull").own, mine.own) == (False, True)
    again = works.change(catalogue, "mine", mine.version, own=True)
    assert again.version == mine.version
    assert works.change(catalogue, "mine", mine.version, own=False).own is False


def test_a_market_may_leave_members_out(catalogue):
    job = jobs.add(catalogue, title="x", markets=["eu minus es", "US"])
    assert job.markets == ("EU MINUS ES", "US")
    opened = settings.opened(catalogue, job.markets)
    assert "ES" not in opened and {"DE", "US"} <= set(opened)
    settings.put(catalogue, groups={"FAIRS": ["GB", "IE"]})
    assert settings.opened(catalogue, ["fairs minus ie"]) == ["GB"]


@pytest.mark.parametrize("name", ["EU minus US", "EU minus ", "NOWHERE minus ES"])
def test_what_leaves_out_nothing_that_is_there_is_refused(catalogue, name):
    with pytest.raises(RegistryError):
        jobs.add(catalogue, title="x", markets=[name])
