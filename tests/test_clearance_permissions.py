"""Permissions: what they cover, what they lack, what open licences bring, how pieces are counted over jobs."""

from dataclasses import replace

import clearing
import pytest

from registry.clearance.model import Case, JobFacts, OtherJob, Permission
from registry.clearance.permissions import Need, cover, effective, lacks, media_of
from registry.facts import edtf

ON = clearing.ground("2026-11-25")
DAY = ON.day
FULL = Permission("p1", "w1", "licence", "R. Vane", None, ("goods",), ("US", "EU"), ("wood",), 300, edtf.day("2026-01-01"), edtf.day("2027-03-31"), None, True, True, "Art: R. Vane")
NEED = Need("US", (DAY,), "sale", "carved wooden sign", 100, "two colours", "j1")


def _lacks(permission=FULL, need=NEED, others=()):
    return [(one.fact, one.known) for one in lacks(permission, need, Case(JobFacts("j1"), others=tuple(others)), ON)]


def test_a_full_permission_lacks_nothing():
    assert _lacks() == []


@pytest.mark.parametrize("change, expected", [
    ({"last": DAY - 1}, ("permission_to", True)), ({"first": DAY + 1}, ("permission_from", True)),
    ({"commercial": False}, ("permission_commercial", True)), ({"commercial": None}, ("permission_commercial", False)),
    ({"uses": ("desktop",)}, ("permission_uses", True)), ({"uses": ()}, ("permission_uses", False)),
    ({"places": ("GB",)}, ("permission_places", True)), ({"places": ()}, ("permission_places", False)),
    ({"media": ("paper",)}, ("permission_media", True)), ({"media": ()}, ("permission_media", False)),
    ({"quantity": 99}, ("permission_quantity", True)), ({"changes_allowed": False}, ("permission_changes", True)),
    ({"changes_allowed": None}, ("permission_changes", False))])
def test_each_thing_lacking_is_named(change, expected):
    assert _lacks(replace(FULL, **change)) == [expected]


@pytest.mark.parametrize("change", [{"last": DAY}, {"first": DAY}, {"quantity": 100}, {"quantity": None}, {"last": None, "first": None}, {"media": ("any",)}, {"uses": ("ANY",)}, {"places": ("world",)}])
def test_the_last_day_and_the_last_piece_are_inside(change):
    assert _lacks(replace(FULL, **change)) == []


def test_a_group_covers_its_members():
    assert _lacks(need=replace(NEED, place="FR")) == []
    assert _lacks(need=replace(NEED, place="CH")) == [("permission_places", True)]


def test_a_later_due_day_must_be_inside_too():
    assert _lacks(need=replace(NEED, days=(DAY, edtf.day("2027-04-01")))) == [("permission_to", True)]


@pytest.mark.parametrize("last, says", [
    ("2026-11-24", "it ended on 24 November 2026"), ("2026-11-25", "it ends on 25 November 2026, before the day the job is due"),
    ("2026-12-10", "it ends on 10 December 2026, before the day the job is due")])
def test_a_last_day_to_come_is_not_told_as_past(last, says):
    need = replace(NEED, days=(DAY, edtf.day("2026-12-20")))
    assert [one.says for one in lacks(replace(FULL, last=edtf.day(last)), need, Case(JobFacts("j1")), ON)] == [says]


def test_a_gift_needs_no_commercial_use_and_a_display_needs_display():
    assert _lacks(replace(FULL, commercial=False), replace(NEED, purpose="gift")) == []
    assert _lacks(need=replace(NEED, purpose="display")) == [("permission_uses", True)]


def test_a_product_of_untold_material_is_asked_about():
    assert _lacks(need=replace(NEED, product="house sign")) == [("permission_media", False)]


def test_every_material_of_a_product_must_be_covered():
    assert _lacks(need=replace(NEED, product="wooden sign with a paper label")) == [("permission_media", True)]
    assert _lacks(replace(FULL, media=("wood", "paper")), replace(NEED, product="wooden sign with a paper label")) == []


@pytest.mark.parametrize("product, media", [("carved wooden sign (Nice 20)", {"wood"}), ("printed tea towel", {"cloth"}), ("tin box with paper label", {"metal", "paper"}), ("sign", set())])
def test_materials_are_read_from_the_product(product, media):
    assert media_of(product, ON.rules) == media


# --- quantity over all jobs -------------------------------------------------------------------------

def other(quantity, works=("w1",), places=(), day=None):
    return OtherJob("j0", quantity, works, places, day)


@pytest.mark.parametrize("others, expected", [
    ([other(200)], []), ([other(201)], [("permission_quantity", True)]), ([other(150), other(100)], [("permission_quantity", True)]),
    ([other(900, works=("w2",))], []), ([other(900, places=("CA",))], []), ([other(900, places=("FR", "CA"))], [("permission_quantity", True)]),
    ([other(900, day=edtf.day("2025-12-31"))], []), ([other(900, day=edtf.day("2026-01-01"))], [("permission_quantity", True)]),
    ([other(None)], [("permission_quantity", False)])])
def test_pieces_are_counted_over_all_jobs_that_draw_on_it(others, expected):
    assert _lacks(others=others) == expected


def test_an_unknown_quantity_is_asked():
    assert _lacks(need=replace(NEED, quantity=None)) == [("permission_quantity", False)]


def test_the_overrun_is_named():
    found = lacks(FULL, replace(NEED, quantity=150), Case(JobFacts("j1"), others=(other(200),)), ON)
    assert found[0].says == "it covers 300 pieces; other jobs use 200 and this job 150: 50 over"


def _cover(*permissions, need=NEED, others=()):
    return cover("w1", need, Case(JobFacts("j1"), permissions=permissions, others=tuple(others)), ON)


def test_two_small_ones_cover_together_and_a_refusal_is_not_pooled():
    small, second = replace(FULL, quantity=60), replace(FULL, key="p2", quantity=60)
    assert [one.key for one in _cover(small, second).by] == ["p1", "p2"]
    assert _cover(small, replace(second, quantity=30)).by == ()
    assert _cover(small, replace(second, places=("GB",))).by == ()


def test_the_nearest_is_the_one_that_refuses_nothing():
    found = _cover(replace(FULL, commercial=False), replace(FULL, key="p2", places=(), media=()))
    assert found.nearest.key == "p2" and found.possible


def test_a_release_and_another_work_s_licence_cover_nothing():
    assert _cover(replace(FULL, kind="release")).nearest is None
    assert _cover(replace(FULL, work="w2")).nearest is None


# --- open licences ------------------------------------------------------------------------------------

BARE = Permission("p1", "w1", spdx="CC-BY-4.0")


@pytest.mark.parametrize("spdx, purpose, changes, covered", [
    ("CC-BY-4.0", "sale", "red", True), ("CC-BY-SA-3.0", "sale", "red", True), ("CC-BY-ND-4.0", "sale", "", True), ("CC-BY-ND-4.0", "sale", "red", False),
    ("CC-BY-NC-4.0", "sale", "", False), ("CC-BY-NC-4.0", "gift", "", True), ("CC0-1.0", "sale", "red", True), ("OFL-1.1", "commission", "red", True),
    ("CC-PDM-1.0", "sale", "", False), ("LicenseRef-shop", "sale", "", False), (None, "sale", "", False)])
def test_an_open_licence_fills_in_its_terms(spdx, purpose, changes, covered):
    assert bool(_cover(replace(BARE, spdx=spdx), need=replace(NEED, purpose=purpose, changes=changes)).by) == covered


@pytest.mark.parametrize("changes, allowed, expected", [
    (None, False, [("changes", False)]), (None, None, [("changes", False)]), (None, True, []),
    ("", False, []), ("", None, []), ("red", False, [("permission_changes", True)]), ("red", None, [("permission_changes", False)])])
def test_silence_about_changes_is_not_unchanged(changes, allowed, expected):
    assert _lacks(replace(FULL, changes_allowed=allowed), replace(NEED, changes=changes)) == expected


@pytest.mark.parametrize("spdx, covered", [("CC-BY-ND-4.0", False), ("CC-BY-NC-ND-3.0", False), ("CC-BY-4.0", True), ("OFL-1.1", True)])
def test_an_open_licence_without_changes_asks_whether_there_are_any(spdx, covered):
    need = replace(NEED, purpose="gift", changes=None)
    assert bool(_cover(replace(BARE, spdx=spdx), need=need).by) == covered


def test_a_licence_that_bars_commercial_use_is_asked_about_a_thing_that_hangs_in_a_shop():
    need = replace(NEED, purpose="display", changes="")
    assert not _cover(replace(BARE, spdx="CC-BY-NC-4.0"), need=need).by
    assert _cover(replace(BARE, spdx="CC-BY-4.0"), need=need).by
    assert _cover(replace(FULL, uses=("display",), commercial=False), need=need).by


def test_an_open_licence_overrules_narrower_notes_but_not_its_own_refusals():
    noted = replace(BARE, uses=("desktop",), changes_allowed=False, spdx="OFL-1.1")
    assert effective(noted, ON.rules).changes_allowed is True
    assert effective(replace(BARE, spdx="CC-BY-NC-4.0", commercial=True), ON.rules).commercial is False


def test_a_label_grants_nothing():
    assert effective(replace(BARE, spdx="CC-PDM-1.0"), ON.rules) is None


def test_a_permission_is_asked_about_only_where_it_is_needed():
    """Free in the US and in copyright in Germany: the licence that ended is to be renewed for Germany alone."""
    old = {"title": "Weir", "kind": "drawing", "authorship": "individual", "created": "1920", "published": True, "us_notice": True, "us_renewed": True,
           "creators": [{"name": "O. Weirman", "died": "1970", "nationality": ["US"]}], "publications": [{"date": "1920", "country": "US"}]}
    row = {"job": {"product": "carved wooden sign", "purpose": "sale", "markets": ["US", "DE"], "quantity": 10, "uses": [{"work": "w1", "part": "picture", "changes": "none"}]},
           "works": [{"key": "w1", "facts": old}],
           "permissions": [{"id": "p1", "work": "w1", "grantor": "R. Vane", "uses": ["goods"], "places": ["US", "DE"], "media": ["wood"], "commercial": True, "to": "2026-10-31"}]}
    free = clearing.answer(clearing.case(row, ["US"]), ON)
    assert free.clear and [one.fact for one in (*free.first, *free.confirm) if one.fact.startswith("permission")] == []
    assert "LICENCE-TERMS" in {one.id for one in free.markets[0].cautions}
    held = clearing.answer(clearing.case(row, ["US", "DE"]), ON)
    assert [one.decision for one in held.markets] == ["no_bar_found", "hold"]
    assert {one.fact for one in held.markets[1].asks} >= {"permission_to"} and held.first == free.first
