"""The shop's own work, and markets without some members, as kept in a catalogue."""

import json

import kept
import pytest

from registry.catalogue import jobs, permissions, settings, works
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
    assert job.markets == ("EU minus ES", "US")
    opened = settings.opened(catalogue, job.markets)
    assert "ES" not in opened and {"DE", "US"} <= set(opened)
    settings.put(catalogue, groups={"FAIRS": ["GB", "IE"]})
    assert settings.opened(catalogue, ["fairs minus ie"]) == ["GB"]


def test_markets_may_be_named_and_are_kept_in_one_way(catalogue, capsys):
    """Names of countries are taken wherever markets are, and shown back as codes with a small minus."""
    settings.put(catalogue, markets=["UK", "eu Minus Spain"], groups={"FAIRS": ["Britain", "IE"]})
    assert settings.get(catalogue, "markets") == ["GB", "EU minus ES"] and settings.get(catalogue, "groups") == {"FAIRS": ["GB", "IE"]}
    assert jobs.add(catalogue, key="x", title="x", markets=["Germany", "EU MINUS spain"]).markets == ("DE", "EU minus ES")
    works.add(catalogue, kept.GULL, key="gull")
    assert permissions.add(catalogue, "gull", "licence", places=["Germany", "EU"]).places == ("DE", "EU")
    jobs.use(catalogue, "x", "gull", "picture")
    code, out, _ = kept.Command(catalogue.folder, capsys)("check", "--job", "x", "--in", "Germany,EU minus Spain", "--brief", "--dry", "--json")
    assert [one["market"] for one in json.loads(out)["markets"]] == ["DE", "EU minus ES"]


def test_a_group_is_not_called_as_a_place_is(catalogue):
    for groups, word in (({"FRANCE": ["FR"]}, "a word for FR"), ({"NEAR": ["Narnia"]}, "two-letter codes")):
        with pytest.raises(RegistryError, match=word):
            settings.put(catalogue, groups=groups)


@pytest.mark.parametrize("name", ["EU minus US", "EU minus ", "NOWHERE minus ES"])
def test_what_leaves_out_nothing_that_is_there_is_refused(catalogue, name):
    with pytest.raises(RegistryError):
        jobs.add(catalogue, title="x", markets=[name])


def test_a_market_named_twice_counts_once(catalogue, capsys):
    works.add(catalogue, kept.GULL, key="gull")
    jobs.add(catalogue, key="x", title="x", product="cloth", markets=["GB"])
    jobs.use(catalogue, "x", "gull", "picture")
    command = kept.Command(catalogue.folder, capsys)
    found = json.loads(command("check", "--job", "x", "--in", "germany,DE,eu,EU", "--dry", "--json")[1])
    assert [one["market"] for one in found["markets"]] == ["DE", "EU"]
    found = json.loads(command("clear", "x", "--by", "Isbet", "--note", "goes", "--although", "so", "--in", "GB,GB,britain", "--json")[1])
    assert [one["market"] for one in found["decision"]["markets"]] == ["GB"]


@pytest.mark.parametrize("name", ["\u00df", "EU minus \u00df", "\u0131t"])
def test_letters_of_other_alphabets_make_no_code(catalogue, name):
    """The capital of one such letter is SS, which is South Sudan, of another I, as in IT."""
    with pytest.raises(RegistryError, match="not a (place|market)"):
        jobs.add(catalogue, title="x", markets=[name])
    with pytest.raises(RegistryError, match="not a (place|market)"):
        settings.put(catalogue, markets=[name])
    with pytest.raises(RegistryError, match="has the member"):
        settings.put(catalogue, groups={"NEAR": [name]})
