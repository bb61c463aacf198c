"""Pages of marks: list, one mark, wording search, form with merge, searches kept, table with preview."""

import pytest
import webbed
from kept import GULL, everything

from registry.catalogue import marks, settings, store, works
from registry.web import merge

WREN = {"words": "RED WREN", "owner": "Wren & Daughters", "office": "US", "number": "invented-1", "classes": [20], "state": "registered", "status_words": "registered and renewed"}


@pytest.fixture
def catalogue(site):
    found = store.open_catalogue(site.folder)
    works.add(found, GULL, key="gull")
    settings.put(found, markets=["US", "GB"])
    yield found
    found.db.close()


def wrongs(answer):
    """{field: sentence} of the errors that stand beside fields; each is named by its field."""
    found = {one["id"].removesuffix("-wrong"): one.text for one in answer.page.all("p", class_="wrong")}
    for field in answer.page.all(aria_invalid="true"):
        assert any(name + "-wrong" in (field["aria-describedby"] or "") for name in found), field.attributes
    return found


def form_of(page):
    return page.one("form", method="post")


# --- list and one mark --------------------------------------------------------------------------------

def test_the_list_says_how_each_mark_stands(site, catalogue):
    marks.add(catalogue, **WREN)
    marks.add(catalogue, words="OLD WREN", state="registered", expires="2001-01-01", office="GB")
    marks.add(catalogue, note="a wren on a spade", kind="figurative")
    page = site.get("/marks").page
    rows = [row.text for row in page.one("tbody").all("tr")]
    assert len(rows) == 3 and "live" in rows[0] and "RED WREN" in rows[0] and "registered and renewed" in rows[0]
    assert "dead" in rows[1] and "no renewal is on record" in rows[1]
    assert "picture mark m3" in rows[2] and "not known" in rows[2]


@pytest.mark.parametrize("query, words", [("q=daughters", ["RED WREN"]), ("q=wren", ["RED WREN", "BLUE WREN"]), ("state=dead", ["BLUE WREN"]), ("q=heron", []), ("state=nonsense", ["RED WREN", "BLUE WREN"])])
def test_the_list_is_narrowed(site, catalogue, query, words):
    marks.add(catalogue, **WREN)
    marks.add(catalogue, words="BLUE WREN", state="dead")
    page = site.get(f"/marks?{query}").page
    assert [link.text for link in page.all("a") if (link["href"] or "").startswith("/mark/m")] == words
    assert bool(page.all("p", class_="empty")) is not bool(words)


def test_an_empty_list_is_no_error_and_a_long_one_is_cut(site, catalogue, monkeypatch):
    assert "No mark is on record yet" in site.get("/marks").text
    monkeypatch.setattr("registry.web.marks.MOST", 2)
    for number in range(3):
        marks.add(catalogue, words=f"WREN {number}")
    page = site.get("/marks").page
    assert len(page.one("tbody").all("tr")) == 2 and "The first 2 of 3 marks" in page.text


def test_a_mark_says_where_it_reaches_and_what_is_missing(site, catalogue):
    marks.add(catalogue, ["gull"], **WREN)
    page = site.get("/mark/m1").page
    assert "It reaches US" in page.text and "It does not reach GB" in page.text
    assert [link["href"] for link in page.all("a", href="/work/gull")]
    assert "Not on record yet" not in page.text
    marks.add(catalogue, words="BARE")
    assert "Not on record yet: office, number, classes, state in the office’s words" in site.get("/mark/2").page.text


@pytest.mark.parametrize("path", ["/mark/m9", "/mark/nonsense", "/mark/m9/edit", "/mark/" + "9" * 30])
def test_a_mark_that_is_not_there(site, path):
    answer = site.get(path)
    assert answer.status == 404 and "mark" in answer.page.one("p", class_="problem").text


# --- the form -----------------------------------------------------------------------------------------

def test_a_new_mark_from_nothing(site, catalogue):
    page = site.get("/mark/new?work=gull").page
    sent = dict(webbed.values(form_of(page)))
    assert sent["works"] == "gull"
    answer = site.post("/mark/new", sent | {"words": "RED WREN", "office": "gb", "classes": "35, 20", "filed": "1999-02-03", "state": "applied"})
    assert (answer.status, answer.headers["location"]) == (303, "/mark/m1?done=mark")
    mark = marks.get(catalogue, 1)
    assert (mark.office, mark.classes, mark.filed, mark.state, mark.works) == ("GB", (20, 35), "1999-02-03", "applied", ("gull",))


@pytest.mark.parametrize("typed, field, word", [
    ({"classes": "20, 46"}, "classes", "46"), ({"classes": "wood"}, "classes", "wood"), ({"filed": "1999-02-30"}, "filed", "1999-02-30"),
    ({"expires": "soon"}, "expires", "soon"), ({"works": "gull nobody"}, "works", "nobody"), ({"words": ""}, "words", "needs its words"),
    ({"office": "US", "number": "invented-1"}, "number", "m1"), ({"state": "asleep"}, "state", "asleep"), ({"kind": "smell"}, "kind", "smell"),
])
def test_what_cannot_be_stands_beside_its_field_and_nothing_is_lost(site, catalogue, typed, field, word):
    marks.add(catalogue, **WREN)
    before = everything(catalogue)
    full = {"words": "BLUE WREN", "owner": "somebody", "goods": "spades\nand rakes", "works": "gull", **typed}
    answer = site.post("/mark/new", full)
    assert answer.status == 400 and list(wrongs(answer)) == [field] and word in wrongs(answer)[field]
    kept = dict(webbed.values(form_of(answer.page)))
    lost = {name: (text, kept[name]) for name, text in full.items() if kept[name].replace(",", "").split() != text.replace(",", "").split() and name not in ("state", "kind")}
    assert lost == {} and everything(catalogue) == before


def test_several_faults_are_all_named(site, catalogue):
    answer = site.post("/mark/new", {"words": "x", "filed": "a", "registered": "b", "classes": "c"})
    assert set(wrongs(answer)) == {"filed", "registered", "classes"}
    assert [link["href"] for link in answer.page.one(role="alert").all("a")] == ["#filed", "#registered", "#classes"]


def test_changes_of_two_people_are_put_together(site, catalogue):
    marks.add(catalogue, **WREN)
    mine = dict(webbed.values(form_of(site.get("/mark/m1/edit").page)))
    marks.change(catalogue, 1, owner="Wren & Sons")
    assert site.post("/mark/m1/edit", mine | {"goods": "spades"}).status == 303
    mark = marks.get(catalogue, 1)
    assert (mark.owner, mark.goods, mark.number) == ("Wren & Sons", "spades", "invented-1")


def test_the_same_field_changed_by_two_is_a_conflict_and_then_kept(site, catalogue):
    marks.add(catalogue, **WREN)
    mine = dict(webbed.values(form_of(site.get("/mark/m1/edit").page)))
    marks.change(catalogue, 1, owner="Wren & Sons", number="invented-2")
    answer = site.post("/mark/m1/edit", mine | {"owner": "Wren & Heirs"})
    assert answer.status == 409 and marks.get(catalogue, 1).owner == "Wren & Sons"
    assert "Wren & Sons" in answer.page.one("caption").parent.text and "yours; both changed it" in answer.page.text
    again = dict(webbed.values(form_of(answer.page)))
    assert (again["owner"], again["number"]) == ("Wren & Heirs", "invented-2")
    assert site.post("/mark/m1/edit", again).status == 303
    assert (marks.get(catalogue, 1).owner, marks.get(catalogue, 1).number) == ("Wren & Heirs", "invented-2")


def test_a_form_that_is_sent_unchanged_changes_nothing(site, catalogue):
    marks.add(catalogue, ["gull"], **WREN, filed="1999-01-01", goods="spades", avoid="the name", kind="word", nice_edition="12", note="a\nb")
    before = marks.get(catalogue, 1)
    assert site.post("/mark/m1/edit", webbed.values(form_of(site.get("/mark/m1/edit").page))).status == 303
    assert marks.get(catalogue, 1) == before


def test_a_field_that_is_emptied_is_empty(site, catalogue):
    marks.add(catalogue, ["gull"], **WREN, filed="1999-01-01")
    sent = dict(webbed.values(form_of(site.get("/mark/m1/edit").page))) | {"filed": "", "classes": "", "works": "", "owner": ""}
    assert site.post("/mark/m1/edit", sent).status == 303
    mark = marks.get(catalogue, 1)
    assert (mark.filed, mark.classes, mark.works, mark.owner, mark.words) == (None, (), (), "", "RED WREN")


def test_a_damaged_base_loses_nothing_unseen(site, catalogue):
    marks.add(catalogue, **WREN)
    assert site.post("/mark/m1/edit", {"base": "{broken", "words": "RED WREN", "owner": "me", "state": "registered"}).status == 409
    assert marks.get(catalogue, 1).owner == WREN["owner"]
    assert merge.unpacked("{broken") == {}


# --- wording ------------------------------------------------------------------------------------------

def test_a_wording_that_is_a_live_mark_holds(site, catalogue):
    marks.add(catalogue, **WREN)
    page = site.get("/marks/search?words=Red+Wren&product=carved+wooden+sign&in=US,GB").page
    held, other = page.all("section", class_="answer")
    assert held.one("span", class_="stamp").text == "hold" and "US" in held.one("h2").text
    assert "GB" in other.one("h2").text and "hold" not in [one.text for one in other.all("span", class_="stamp")]
    assert "no clearance" in page.text and "Nice class 20" in page.text


@pytest.mark.parametrize("query, words", [
    ("words=heron&in=US", "no mark on record comes near"), ("words=heron&in=XX", "is not a place"), ("words=heron&classes=77", "no Nice class"), ("", "Does a wording come near a mark?")])
def test_other_searches(site, catalogue, query, words):
    marks.add(catalogue, **WREN)
    answer = site.get(f"/marks/search?{query}")
    assert answer.status == 200 and words in answer.page.text


def test_nothing_found_is_never_a_clearance(site, catalogue):
    assert "An empty list is no clearance" in site.get("/marks/search?words=heron&in=US").page.text


# --- searches of registers ----------------------------------------------------------------------------

def test_a_search_that_found_nothing_is_kept(site, catalogue):
    sent = dict(webbed.values(form_of(site.get("/marks/searched?words=Red+Wren&place=US").page)))
    assert (sent["words"], sent["place"]) == ("Red Wren", "US")
    answer = site.post("/marks/searched", sent | {"by": "Isbet", "at": "2026-10-01", "classes": "20"})
    assert (answer.status, answer.headers["location"]) == (303, "/marks/searched?done=searched")
    one, = marks.searches(catalogue)
    assert (one.words, one.place, one.by, one.at, one.classes, one.result) == ("Red Wren", "US", "Isbet", "2026-10-01", (20,), marks.NIL)
    assert "not a clearance" in site.get("/marks/searched?done=searched").text
    assert "Isbet searched US" in site.get("/marks").page.text


@pytest.mark.parametrize("typed, field", [({"by": ""}, "by"), ({"place": ""}, "place"), ({"words": ""}, "words"), ({"at": "yesterday"}, "at"), ({"classes": "0"}, "classes")])
def test_a_search_needs_who_and_where(site, catalogue, typed, field):
    answer = site.post("/marks/searched", {"words": "wren", "place": "US", "by": "Isbet", **typed})
    assert answer.status == 400 and list(wrongs(answer)) == [field] and marks.searches(catalogue) == []


# --- table --------------------------------------------------------------------------------------------

GOOD = "words;office;classes;works\nRED WREN;US;20 35;gull\nBLUE WREN;GB;24;\n"
BAD = "words,office,classes,filed\nRED WREN,US,20,1999-01-01\nBLUE WREN,GB,77,\nGREY WREN,GB,24,1999-13-01\n"


def test_a_table_is_shown_before_it_is_kept(site, catalogue):
    answer = site.post("/marks/table", files=[("table", "wrens.csv", GOOD.encode())])
    assert answer.status == 200 and marks.count(catalogue) == 0
    assert "All 2 rows can be recorded" in answer.page.text and "BLUE WREN" in answer.page.text
    token = answer.page.all("input", name="table_token")[0]["value"]
    kept = site.post("/marks/table", {"table_token": token, "keep": "yes"})
    assert kept.status == 303 and [(one.words, one.classes, one.works) for one in marks.listed(catalogue)] == [("RED WREN", (20, 35), ("gull",)), ("BLUE WREN", (24,), ())]
    assert site.post("/marks/table", {"table_token": token, "keep": "yes"}).status == 400 and marks.count(catalogue) == 2


def test_every_bad_row_is_named_and_none_is_kept(site, catalogue):
    answer = site.post("/marks/table", files=[("table", "wrens.csv", BAD.encode())])
    rows = [[cell.text for cell in row.all("th", "td")][:2] for row in answer.page.one("tbody").all("tr")]
    assert [line for line, _fault in rows] == ["3", "4", "2"]
    assert "The class is 77" in rows[0][1] and rows[1][1].startswith("filed: ") and rows[2][1] == "nothing"
    assert not answer.page.all("button", name="keep")
    assert site.post("/marks/table", {"lines": BAD, "keep": "yes"}).status == 400 and marks.count(catalogue) == 0


@pytest.mark.parametrize("lines, words", [("", "No table was sent"), ("words,colour\nwren,red", "no column 'colour'"), ("words\n", "nothing beneath it"), ("words\na,b", "more cells than columns")])
def test_a_table_that_cannot_be_read(site, catalogue, lines, words):
    answer = site.post("/marks/table", {"lines": lines})
    assert answer.status == 400 and words in answer.page.one("p", role="alert").text
    assert dict(webbed.values(form_of(answer.page)))["lines"] == lines.removeprefix("\n")


def test_a_table_in_another_encoding_is_refused(site, catalogue):
    answer = site.post("/marks/table", files=[("table", "wrens.csv", "words\nMöwe\n".encode("latin-1"))])
    assert answer.status == 400 and "not text in UTF-8" in answer.page.text


def test_another_site_may_not_write(site, catalogue):
    for path in ("/mark/new", "/marks/searched", "/marks/table"):
        assert site.post(path, {"words": "x", "place": "US", "by": "y"}, headers={"origin": "http://example.org", "sec-fetch-site": "cross-site"}).status == 403
    assert marks.count(catalogue) == 0


def test_a_mark_without_a_state_is_told_in_a_sentence(site, catalogue):
    mark = marks.add(catalogue, words="WEIRMAN", office="US", classes=[24])
    text = site.get(f"/mark/{mark.key}").page.one("main").text
    assert "not known since its state is not on record" in text and "not known of" not in text
