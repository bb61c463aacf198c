"""Strength of a match by words, state, class and place: only exact, live, same class, same market holds."""

from dataclasses import replace

import pytest

from registry.catalogue.mark_rules import mark_rules, products
from registry.clearance.goods import goods
from registry.clearance.likeness import prepared
from registry.clearance.marks import DEAD, EXACT, NOTHING, STRONG, WEAK, Mark, Text, as_json, matches
from registry.facts import edtf

DAY = edtf.day("2026-11-25")
MARK = Mark("m1", "HARE & LANTERN", "word", "Lantern Inns", "US", "invented-7", "2010-02-01", "2011-03-01", "2031-03-01", (20,), "registered and renewed", "registered")


def found(mark=MARK, text="HARE AND LANTERN", place="US", product="carved wooden sign", works=(), field="wording"):
    return matches((Text(field, prepared(text), "w1"),), (mark,), place, goods(product, products()), DAY, mark_rules(), works)


def strength(**changed):
    given = {name: changed.pop(name) for name in ("text", "place", "product", "works", "field") if name in changed}
    one = found(replace(MARK, **changed), **given)
    return one[0].strength if one else None


@pytest.mark.parametrize("changed, wanted", [
    ({}, EXACT),
    ({"state": "live"}, EXACT),
    ({"state": "unregistered-use"}, EXACT),
    ({"place": "PR"}, EXACT),
    ({"text": "The Hare and Lantern Inn"}, STRONG),
    ({"text": "HARES & LANTERNS"}, STRONG),
    ({"text": "HARE"}, WEAK),
    ({"state": "applied"}, STRONG),
    ({"state": "published"}, STRONG),
    ({"state": "opposed"}, STRONG),
    ({"state": "unknown"}, STRONG),
    ({"classes": (35,)}, STRONG),            # related
    ({"classes": (33,)}, WEAK),              # other goods
    ({"classes": ()}, STRONG),
    ({"product": "gadget"}, STRONG),
    ({"office": ""}, STRONG),
    ({"office": "ZZ"}, STRONG),              # an office that is not known
    ({"office": "WO"}, STRONG),
    ({"place": "GB"}, WEAK),
    ({"place": "GB", "classes": (33,)}, None),
    ({"place": "GB", "text": "The Hare and Lantern Inn"}, None),
    ({"state": "expired"}, DEAD),
    ({"state": "cancelled"}, DEAD),
    ({"state": "withdrawn"}, DEAD),
    ({"state": "refused"}, DEAD),
    ({"state": "not-found"}, DEAD),
    ({"state": "dead"}, DEAD),
    ({"state": "dead", "place": "CA"}, None),
    ({"state": "dead", "text": "HARE"}, None),
    ({"expires": "2026-11-24"}, EXACT),      # can still be renewed
    ({"expires": "2026-06-01"}, EXACT),
    ({"expires": "2026-05-01"}, DEAD),       # more than six months
    ({"text": "A GOOSE"}, None),
])
def test_strength(changed, wanted):
    assert strength(**changed) == wanted


@pytest.mark.parametrize("office, registered, place, wanted", [
    ("EM", "2019-01-01", "DE", EXACT), ("EU", "2019-01-01", "MT", EXACT), ("EM", "2019-01-01", "GB", STRONG), ("EM", "2021-01-01", "GB", WEAK),
    ("EM", None, "GB", STRONG), ("EM", "2019-01-01", "CH", WEAK), ("BX", "2019-01-01", "NL", EXACT), ("BX", "2019-01-01", "DE", WEAK),
    ("GB", "2019-01-01", "IM", EXACT), ("UK", "2019-01-01", "GB", EXACT), ("FR", "2019-01-01", "RE", EXACT), ("CH", "2019-01-01", "LI", WEAK),
    ("OA", "2019-01-01", "SN", EXACT), ("AP", "2019-01-01", "UG", STRONG), ("AP", "2019-01-01", "FR", WEAK), ("JP", "2019-01-01", "JP", EXACT),
])
def test_reach(office, registered, place, wanted):
    assert strength(office=office, registered=registered, filed=None, place=place) == wanted


def test_every_field_can_hold():
    for field in ("wording", "lettering", "listing", "title", "work", "trait"):
        assert strength(field=field) == EXACT


def test_a_linked_mark_is_shown_without_words():
    one, = found(replace(MARK, words="", works=("w1",)), text="A GOOSE", works=("w1", "w0"))
    assert (one.strength, one.likeness) == (STRONG, "linked")
    assert "linked on record to the work w1" in one.says
    assert found(replace(MARK, words="", works=("w9",)), text="A GOOSE", works=("w1",)) == ()


def test_sentences():
    exact, = found()
    assert exact.says.startswith('The wording "HARE AND LANTERN" is the mark, but for')
    assert "'HARE & LANTERN' (Lantern Inns; US invented-7)" in exact.says and exact.says.endswith("Hold.")
    assert 'registered (the office: "registered and renewed")' in exact.says
    dead, = found(replace(MARK, state="dead", status_words="cancelled, no declaration of use"))
    assert "Use-based rights may remain." in dead.says and "cancelled, no declaration of use" in dead.says and dead.ask == "mark_in_use"
    past, = found(replace(MARK, expires="2020-01-01"))
    assert "expired on 2020-01-01 and no renewal is on record" in past.says and past.ask == "mark_renewed"
    other, = found(replace(MARK, classes=(33,), avoid="the two words on labels"))
    assert "not for this product" in other.says and "To avoid: the two words on labels." in other.says


@pytest.mark.parametrize("changed, ask", [
    ({}, "mark_consent"), ({"state": "unknown"}, "mark_state"), ({"classes": ()}, "mark_classes"), ({"office": "WO"}, "mark_office"),
    ({"classes": (33,)}, "mark_goods"), ({"classes": (35,)}, "mark_goods"),
])
def test_what_to_find_out(changed, ask):
    one, = found(replace(MARK, **changed))
    assert one.ask == ask and one.question.endswith("?") and one.where


def test_a_product_of_unknown_material_holds_and_asks_for_it():
    one, = found(product="sign")
    assert (one.strength, one.ask) == (EXACT, "product")


def test_the_strongest_stand_first():
    marks = tuple(replace(MARK, key=key, state=state) for key, state in (("a", "dead"), ("b", "applied"), ("c", "registered")))
    texts = (Text("wording", prepared("HARE AND LANTERN")),)
    listed = matches(texts, marks, "US", goods("carved wooden sign", products()), DAY, mark_rules())
    assert [one.mark.key for one in listed] == ["c", "b", "a"]


def test_nothing_found_is_never_a_clearance():
    assert found(text="A GOOSE") == ()
    assert "no clearance" in NOTHING and "Not legal advice" in NOTHING


def test_json_keeps_the_offices_own_words():
    told = as_json(found()[0])
    assert told["status_words"] == "registered and renewed" and told["state"] == "registered" and told["classes"] == [20]
