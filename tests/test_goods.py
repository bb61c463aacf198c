"""The 45 Nice classes, the table of products, and the classes read from a description."""

import csv
from pathlib import Path

import pytest

from registry import data
from registry.catalogue.mark_rules import products
from registry.clearance.goods import HOW, goods, read_products
from registry.errors import BadLaw

# One telling word of each class heading, written down from the published headings of the 12th edition.
HEADINGS = {
    1: "chemicals", 2: "paints", 3: "cosmetics", 4: "candles", 5: "medicines", 6: "metals", 7: "machines", 8: "hand-operated tools", 9: "scientific",
    10: "medical", 11: "lighting", 12: "vehicles", 13: "firearms", 14: "jewellery", 15: "musical", 16: "printed matter", 17: "rubber", 18: "leather",
    19: "building materials not of metal", 20: "furniture", 21: "kitchen utensils", 22: "ropes", 23: "yarns", 24: "textiles", 25: "clothing", 26: "lace",
    27: "carpets", 28: "toys", 29: "meat", 30: "coffee", 31: "live plants", 32: "beers", 33: "alcoholic drinks", 34: "tobacco", 35: "advertising",
    36: "finance", 37: "construction", 38: "telecommunications", 39: "transport", 40: "treatment of materials", 41: "education", 42: "scientific and technological",
    43: "food and drink services", 44: "medical, veterinary", 45: "legal",
}


def rows(name):
    return list(csv.DictReader(data.read_text(name).splitlines()))


def test_all_classes_with_heading_kind_and_edition():
    nice = rows("nice.csv")
    assert [int(row["class"]) for row in nice] == list(range(1, 46))
    for row in nice:
        number = int(row["class"])
        assert HEADINGS[number] in row["heading"], row
        assert row["kind"] == ("goods" if number <= 34 else "services")
        assert row["edition"] == "12" and row["how"] in HOW and row["source"]


def test_products_are_many_and_each_says_how_it_is_known():
    table = rows("products.csv")
    assert len({row["product"] for row in table}) >= 150
    assert len({(row["product"], row["material"]) for row in table}) == len(table)
    assert all(row["how"] in HOW and row["source"] for row in table)
    assert all(row["source"].startswith("Nice 12") for row in table if row["how"] == "read")
    assert sum(row["how"] == "read" for row in table) >= 150


def test_every_material_is_used_and_every_word_stands_for_one():
    words = [word for row in rows("materials.csv") for word in row["words"].split()]
    assert len(words) == len(set(words))
    assert {row["material"] for row in rows("products.csv")} - {""} <= {row["material"] for row in rows("materials.csv")}


@pytest.mark.parametrize("text, classes", [
    ("carved wooden sign (Nice 20)", {20}),
    ("printed tea towel (Nice 24)", {24}),
    ("printed paper cards (Nice 16)", {16}),
    ("class 6 and 20", {6, 20}),
    ("carved wooden sign", {20}),
    ("carved oak sign", {20}),
    ("printed metal sign", {6}),
    ("sign of slate", {19}),
    ("sign of coloured glass", {21}),
    ("neon sign", {9}),
    ("enamelled tin plaques", {6}),
    ("porcelain figurine of a hare", {21}),
    ("papier figurine of card", {16}),
    ("mugs", {21}),
    ("two enamel mugs and a tea towel", {21, 24}),
    ("oak inn sign and slate house number", {20, 19}),
    ("wooden box for playing cards", {20}),
    ("set of greeting cards in a box", {16}),
    ("6 coasters of cork", {21}),
    ("T-shirt with print", {25}),
    ("framed art print", {16}),
    ("bottle openers", {8, 21}),
    ("wooden jigsaw", {28}),
    ("Christmas tree decoration", {28}),
    ("stained glass panel", {21}),
    ("poster for a glass shop", {16}),
    ("linen wall hanging", {24}),
    ("leather belt", {25}),
    ("cutting file for lasers", {9}),
])
def test_classes_of_a_description(text, classes):
    found = goods(text, products())
    assert set(found.classes) == classes and found.known and found.settled and found.says


@pytest.mark.parametrize("text", ["sign", "hanging sign", "figurine of a hare", "plaque"])
def test_a_product_whose_class_hangs_on_the_material(text):
    found = goods(text, products())
    assert found.known and not found.settled and len(found.classes) > 1 and "material" in found.says


@pytest.mark.parametrize("text", ["", "gadget", "class 99", "birthday cake"])
def test_what_is_not_in_the_table(text):
    found = goods(text, products())
    assert not found.known and found.classes == frozenset() and "not known" in found.says


def test_neighbouring_classes_never_hold_the_class_itself():
    for row in products().rows:
        assert not row.classes & row.also, row.name
    found = goods("carved wooden sign", products())
    assert {6, 16, 19, 21, 35, 40} <= found.also and not found.also & found.classes


def test_every_row_is_found_by_its_own_name():
    for row in products().rows:
        assert row.classes <= goods(f"{row.material} {row.name}", products()).classes, row


@pytest.mark.parametrize("row, says", [
    ("sign,wood,46,,memory,x", "46 is no Nice class"), ("sign,wood,20,99,memory,x", "99 is no Nice class"), ("sign,stuff,20,,memory,x", "'stuff' is no material"),
    ("sign,wood,20,,heard,x", "how is 'heard'; allowed are read, memory"), (",wood,20,,memory,x", "a product and its class are needed"),
    ("sign,wood,,,memory,x", "a product and its class are needed"),
])
def test_a_bad_row_is_named(row, says):
    with pytest.raises(BadLaw, match="products.csv, line 2: ") as caught:
        read_products("product,material,classes,also,how,source\n" + row, data.read_text("materials.csv"), data.read_text("nice.csv"))
    assert says in str(caught.value)


def test_the_headings_ship_with_the_package():
    assert (Path(__file__).resolve().parent.parent / "metadata" / "nice.csv").is_file()
