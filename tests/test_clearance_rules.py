"""The data of clearance: every entry has its sentence and source, and a wrong file is refused by name."""

import clearing
import pytest

from registry import data
from registry.clearance.permissions import ORDER
from registry.clearance.rules import read_rules
from registry.errors import BadLaw
from registry.rulebook import rulebook

TEXT, LICENCES = data.read_text("clearance.toml"), data.read_text("licences.toml")


def test_every_rule_says_and_cites():
    rules = clearing.rules()
    found = [one.rule for one in (*rules.copies, *rules.lettering, *rules.phrases)] + list(rules.notes.values())
    assert len({rule.id for rule in found}) == len(found) > 15
    assert all(rule.says.endswith(".") and rule.cite and rule.how in ("read", "secondary", "memory") for rule in found)


def test_every_ask_says_where_to_look_and_every_lack_has_its_words():
    rules = clearing.rules()
    assert all(entry["question"].endswith(("?", ".")) and entry["where"] for entry in rules.asks.values())
    assert set(rules.shortfalls) == set(ORDER)
    assert all(rules.purposes[name]["uses"] for name in ("sale", "commission", "gift", "display"))


def test_licences_have_one_entry_each_and_say_what_they_ask():
    licences = clearing.rules().licences
    assert {"CC-BY-4.0", "CC0-1.0", "OFL-1.1", "CC-BY-NC-SA-3.0"} <= set(licences)
    assert all(one.says and (("NC" in ident) != one.commercial) and (("ND" in ident) != one.changes) for ident, one in licences.items() if ident.startswith("CC-BY"))
    assert all(one.share_alike == ("SA" in ident) for ident, one in licences.items() if ident.startswith("CC-BY"))


@pytest.mark.parametrize("old, new, word", [
    ("[[copy]]", "[[copies]]", "copies"), ('cite = ["sdny1999"]', 'cite = ["nobody"]', "nobody"), ('effect = "composed"', 'effect = "maybe"', "maybe"),
    ('places = ["DE"]', 'places = ["Germany"]', "Germany"), ('id = "copy.us"\n', "", "id"), ("checked =", "checked", "not readable")])
def test_a_wrong_entry_is_named(old, new, word):
    with pytest.raises(BadLaw, match=word):
        read_rules(TEXT.replace(old, new, 1), LICENCES, rulebook().groups)


@pytest.mark.parametrize("old, new, word", [("credit = true", "credits = true", "credits"), ('how = "memory"', 'how = "guess"', "guess"), ('"OFL-1.0",', '"CC0-1.0",', "twice")])
def test_a_wrong_licence_is_named(old, new, word):
    with pytest.raises(BadLaw, match=word):
        read_rules(TEXT, LICENCES.replace(old, new, 1), rulebook().groups)
