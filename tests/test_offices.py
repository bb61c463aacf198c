"""Offices and states of marks: the data as shipped, and what is refused."""

import pytest

from registry import data
from registry.catalogue.mark_rules import mark_rules
from registry.clearance.offices import ECHO, ELSEWHERE, HERE, UNKNOWN, reach, read_rules
from registry.errors import BadLaw
from registry.rulebook import rulebook

SHORT = {"applied", "published", "opposed", "registered", "expired", "cancelled", "withdrawn", "refused", "unregistered-use", "not-found"}


def test_the_short_list_of_states_is_complete():
    assert SHORT | {"live", "pending", "dead", "unknown"} == mark_rules().states.keys()


def test_a_union_mark_covers_every_member():
    for code in rulebook().groups["EU"]:
        assert reach("EM", code, None, mark_rules())[0] == HERE
    for code in ("GB", "CH", "NO", "US", "IS"):
        assert reach("EM", code, 800000, mark_rules())[0] == ELSEWHERE


@pytest.mark.parametrize("office, place, wanted", [
    ("US", "US", HERE), ("US", "CA", ELSEWHERE), ("JP", "JP", HERE), ("BX", "BE", HERE), ("BX", "FR", ELSEWHERE), ("NL", "NL", HERE), ("", "US", UNKNOWN),
    ("QQ", "US", UNKNOWN), ("WO", "US", UNKNOWN), ("IB", "US", UNKNOWN), ("AP", "KE", ELSEWHERE), ("AP", "ZW", UNKNOWN), ("GC", "SA", UNKNOWN), ("EM", "GB", ECHO),
])
def test_reach(office, place, wanted):
    found, why = reach(office, place, None, mark_rules())
    assert found == wanted and why


def test_every_office_says_how_it_is_known():
    for line in data.read_text("offices.toml").splitlines():
        if line.startswith("how = "):
            assert line in ('how = "read"', 'how = "secondary"', 'how = "memory"')


GOOD = {"code": '"XA"', "name": '"X"', "places": '["US"]', "says": '"x"', "source": '"x"', "how": '"memory"'}


@pytest.mark.parametrize("changed, says", [
    ({"places": '["XY"]'}, "XY is no code of a place"), ({"says": '""'}, "'says' is missing"), ({"colour": '"red"'}, "unknown key 'colour'"),
    ({"aliases": '["XA"]'}, "the code XA stands there twice"), ({"echo": '[{ place = "GB" }]'}, "an echo needs"),
])
def test_a_bad_office_is_named(changed, says):
    text = "[[office]]\n" + "\n".join(f"{name} = {value}" for name, value in {**GOOD, **changed}.items())
    with pytest.raises(BadLaw, match="offices.toml") as caught:
        read_rules(text, data.read_text("mark_states.toml"), rulebook().groups, {"US", "GB"})
    assert says in str(caught.value)


def test_a_bad_state_is_named():
    with pytest.raises(BadLaw, match="mark_states.toml, state sold: standing is 'odd'"):
        read_rules("office = []", '[[state]]\nword = "sold"\nstanding = "odd"\nsays = "x"\n', {}, set())
