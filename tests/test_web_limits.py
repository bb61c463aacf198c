"""What is too much for a page is refused in one sentence: never a page that hangs, a page without end, or a failure of the program."""

import time
from urllib.parse import urlencode

import kept
import pytest
import webbed
from registry.catalogue import jobs, settings, store, works
from registry.errors import RegistryError
from registry.exchange import table_in
from registry.rulebook import rulebook
from registry.web import body, fields, guard

NINES = "9" * 5000


@pytest.fixture
def catalogue(site):
    found = store.open_catalogue(site.folder)
    settings.put(found, name="Ninepin Slip", markets=["US", "GB"])
    works.add(found, kept.GULL, key="gull")
    yield found
    found.db.close()


def form_of(site, path, **more):
    return dict(webbed.values(site.get(path).page.one("form", method="post"))) | more


def problems(answer):
    return " ".join(one.text for one in answer.page.all(class_="problem"))


# --- addresses ----------------------------------------------------------------------------------------

@pytest.mark.parametrize("path", ["/", "/check", "/marks", "/marks/search", "/marks/searched", "/job/new", "/mark/new", "/work/gull"])
@pytest.mark.parametrize("query, sentence", [
    ("&".join(f"a{number}=1" for number in range(guard.NAMES + 1)), "more than 500 values"),
    ("q=" + "a" * guard.ADDRESS, "longer than 64 KB"),
])
def test_an_address_that_is_too_long_is_refused(site, catalogue, path, query, sentence):
    begun = time.perf_counter()
    answer = site.get(f"{path}?{query}")
    assert (answer.status, sentence in answer.text) == (400, True)
    assert time.perf_counter() - begun < 2


def test_an_address_as_long_as_allowed_is_answered_at_once(site, catalogue):
    begun = time.perf_counter()
    for path in ("/", "/check", "/marks/search", "/marks/searched", "/job/new"):
        assert site.get(f"{path}?" + "&".join(f"a{number}=1" for number in range(guard.NAMES))).status == 200
    assert time.perf_counter() - begun < 5


def test_an_address_is_cut_only_once():
    class Request:
        count = 0

        @property
        def args(self):
            self.count += 1
            return self

        def __iter__(self):
            return iter(("work", "part"))

        def getlist(self, name):
            return [f"{name} 1", f"{name} 2"]

    request = Request()
    assert body.asked(request).texts == {"work": ["work 1", "work 2"], "part": ["part 1", "part 2"]}
    assert request.count == 1


@pytest.mark.parametrize("method, headers, status", [
    ("GET", {"host": "example.org"}, 421), ("POST", {"origin": "http://example.org"}, 403), ("GET", {}, 400),
])
def test_a_refusal_has_the_headers_of_every_page(site, method, headers, status):
    answer = site.ask(method, "/?" + ("a&" * 600 if status == 400 else ""), b"", headers)
    assert answer.status == status
    assert answer.headers["x-content-type-options"] == "nosniff"
    assert answer.headers["content-security-policy"] == guard.OWN_POLICY


# --- numbers ------------------------------------------------------------------------------------------

@pytest.mark.parametrize("text, number", [("0", 0), ("12", 12), ("007", 7), ("999999", 999999), ("1000000", None), ("", None), ("²", None), ("٣", None), ("-1", None), ("1\n", None), (NINES, None)])
def test_a_small_number(text, number):
    assert body.small(text) == number


@pytest.mark.parametrize("path", ["/check?work.%C2%B2=w1", "/check?work." + "9" * 4400 + "=w1", "/job/new?work.%C2%B2=w1", "/permission/new?like=%C2%B2", "/permission/new?like=" + "9" * 15])
def test_an_address_with_a_number_that_is_none(site, catalogue, path):
    assert site.get(path).status in (200, 400, 404)


def test_settings_with_a_group_whose_number_is_none(site, catalogue):
    sent = form_of(site, "/settings", **{"group.².name": "FAIRS", "group.².members": "GB", f"group.{'9' * 100}.name": "FAIRS"})
    assert site.post("/settings", sent).status == 303
    assert settings.everything(catalogue)["groups"] == {}


@pytest.mark.parametrize("name, sentence", [
    ("creators.abc", ""), ("creators.²", ""), ("creators.².name", ""), ("creators.5", ""),
    ("creators.20000.name", "more than 99 creators"), ("creators.99.name", "more than 99 creators"), ("publications.1000.country", "more than 99 publications"),
    (f"creators.{'9' * 150}.name", "more than 99 creators"), (f"creators.{NINES}.name", "name of 5,014 signs"),
])
def test_the_number_of_an_entry_has_an_end(site, catalogue, name, sentence):
    answer = site.post("/work/gull/edit", form_of(site, "/work/gull/edit", **{name: "x", "created.how": "in", "created.one": "no date at all"}))
    assert answer.status == 400 and len(answer.body) < 300_000
    assert sentence in answer.page.text


def test_as_many_makers_as_allowed_are_kept(site, catalogue):
    sent = form_of(site, "/work/gull/edit", **{f"creators.{number}.name": f"Maker {number}" for number in range(fields.MOST)})
    assert site.post("/work/gull/edit", sent).status == 303
    again = form_of(site, "/work/gull/edit")
    assert len(again) < body.PARTS and again["creators.99.name"] == ""
    assert site.post("/work/gull/edit", again).status == 303
    assert len(works.get(catalogue, "gull").facts["creators"]) == fields.MOST


@pytest.mark.parametrize("column, meant", [
    ("creator1.name", "creators.0.name"), ("creator99.name", "creators.98.name"), ("creator.name", "creators.0.name"), ("creator0.name", ""), ("creator00.name", ""),
    ("creator100.name", ""), ("creator².name", ""), ("creator٣.name", ""), (f"creator{NINES}.name", ""),
])
def test_the_number_of_a_column_has_an_end(column, meant):
    assert table_in.meaning(column, rulebook().vocabulary) == meant


def test_a_table_with_a_giant_number(site, catalogue):
    answer = site.post("/works/table", [], [("table", "works.csv", f"title,creator{NINES}.name\nHeron,Ann\n".encode())])
    assert answer.status == 200 and "Heron" in answer.text


# --- forms --------------------------------------------------------------------------------------------

@pytest.mark.parametrize("path", ["/work/gull/edit", "/settings", "/job/new", "/mark/new", "/complaint/new"])
def test_more_fields_than_a_form_has(site, catalogue, path):
    answer = site.post(path, [("a", "1")] * (body.PARTS + 1))
    assert (answer.status, "more than 3000 parts" in answer.page.text) == (400, True)


@pytest.mark.parametrize("kind", ["Multipart/Form-Data; boundary=----a1b2c3", "MULTIPART/FORM-DATA; Boundary=----a1b2c3"])
def test_capitals_in_the_kind_of_a_body(site, catalogue, kind):
    content, _kind = webbed.multipart([("name", "Otter Slip"), ("markets", "US"), ("base", form_of(site, "/settings")["base"])], [])
    assert site.ask("POST", "/settings", content, {"content-type": kind, **webbed.OWN}).status == 303
    assert settings.everything(catalogue)["name"] == "Otter Slip"


LONG = "x" * (body.LONGEST + 1)


@pytest.mark.parametrize("path, name, other", [
    ("/work/gull/edit", "title", "notes"), ("/work/gull/edit", "notes", "title"), ("/work/gull/edit", "created.one", "notes"), ("/work/gull/edit", "traits", "title"),
    ("/settings", "name", "markets"), ("/job/new", "customer", "title"), ("/job/new", "notes", "title"), ("/mark/new", "note", "words"), ("/mark/new", "words", "note"),
    ("/marks/searched", "note", "words"), ("/permission/new", "note", "licensor"),
])
def test_a_text_that_is_too_long_is_told_and_nothing_else_is_lost(site, catalogue, path, name, other):
    before = kept.everything(catalogue)
    answer = site.post(path, form_of(site, path, **{name: LONG, other: "GB"}))
    assert answer.status == 400 and kept.everything(catalogue) == before
    assert f"The field “{name}” has 20,001 signs; at most 20,000 are allowed." in problems(answer) or name == "words"
    shown = dict(webbed.values(answer.page.one("form", method="post")))
    assert (shown[name], shown[other]) == (LONG, "GB")


@pytest.mark.parametrize("path, name", [("/work/new", "title"), ("/complaint/new", "claim"), ("/work/gull/evidence", "title")])
def test_a_text_that_is_too_long_is_refused_by_every_form(site, catalogue, path, name):
    before = kept.everything(catalogue)
    answer = site.post(path, {name: LONG})
    assert (answer.status, f"The field “{name}” has 20,001 signs" in answer.page.text) == (400, True)
    assert kept.everything(catalogue) == before


def test_ten_million_letters_are_not_sent_back(site, catalogue):
    answer = site.post("/work/gull/edit", form_of(site, "/work/gull/edit", title="x" * 10_000_000, notes="box 3"))
    assert answer.status == 400 and len(answer.body) < 1_000_000
    assert "The field “title” has 10,000,000 signs" in problems(answer)
    assert dict(webbed.values(answer.page.one("form", method="post")))["notes"] == "box 3"


def test_the_longest_text_is_kept(site, catalogue):
    assert site.post("/work/gull/edit", form_of(site, "/work/gull/edit", notes="n" * body.LONGEST, access_terms="t" * body.LONGEST)).status == 303
    assert site.post("/work/gull/edit", form_of(site, "/work/gull/edit", title="Gulls")).status == 303  # what the page sends back of itself is longer
    assert len(works.get(catalogue, "gull").notes) == body.LONGEST


def test_a_decision_with_a_note_that_is_too_long(site, catalogue):
    jobs.add(catalogue, title="Sign", key="sign", markets=["US"])
    answer = site.post("/job/sign/decide", {"by": "Mab", "note": LONG})
    assert answer.status == 400 and "The field “note” has 20,001 signs" in answer.page.text
    assert "Mab" in [one["value"] for one in answer.page.all("input", name="by")]


# --- searches -----------------------------------------------------------------------------------------

@pytest.mark.parametrize("path, query, sentence", [
    ("/", {"q": "a " * 15_000}, "The search has 15,000 words; at most 50 are allowed."),
    ("/", {"q": "a-" * 51}, "The search has 51 words"),
    ("/", {"q": "a " * 51, "part": "grid"}, "The search has 51 words"),
    ("/marks", {"q": "a " * 51}, "The search has 51 words"),
    ("/permissions", {"q": "a " * 51}, "The search has 51 words"),
    ("/check", {"find": "a " * 51}, "The search has 51 words"),
    ("/check", {"wording": "harbour light " * 3000}, "The wording is longer than the 1,000 signs that are allowed."),
    ("/check", {"wording": "w" * 1001, "part": "answer"}, "The wording is longer than the 1,000 signs"),
    ("/check", {"lettering": "w" * 1001}, "The lettering is longer than the 1,000 signs"),
    ("/check", {"title": "w" * 1001}, "The title is longer than the 1,000 signs"),
    ("/check", {"wording": "gull", "listing_text": "w " * 2501}, "The listing text is longer than the 5,000 signs"),
    ("/marks/search", {"words": "harbour " * 6000}, "The words are longer than the 1,000 signs that are allowed."),
])
def test_a_search_for_too_much_is_refused_at_once(site, catalogue, path, query, sentence):
    begun = time.perf_counter()
    answer = site.get(f"{path}?{urlencode(query)}")
    assert (answer.status, sentence in answer.page.text) == (400, True)
    assert time.perf_counter() - begun < 2


@pytest.mark.parametrize("path", [f"/?{urlencode({'q': 'a ' * 50})}", f"/check?{urlencode({'wording': ('gull ' * 200).strip(), 'find': 'b ' * 50})}", f"/marks/search?{urlencode({'words': ('gull ' * 200).strip()})}"])
def test_a_search_for_as_much_as_allowed(site, catalogue, path):
    begun = time.perf_counter()
    assert site.get(path).status == 200
    assert time.perf_counter() - begun < 5


@pytest.mark.parametrize("sent, sentence", [({"wording": "w" * 1001}, "The wording is longer than the 1,000 signs"), ({"find": "a " * 51, "look": "1"}, "The search has 51 words"), ({"find": "a " * 51}, "The search has 51 words")])
def test_a_job_with_too_much_is_not_kept_and_not_lost(site, catalogue, sent, sentence):
    answer = site.post("/job/new", form_of(site, "/job/new", title="Sign for Mab", markets="US", **sent))
    assert answer.status == 400 and sentence in problems(answer)
    assert dict(webbed.values(answer.page.one("form", method="post")))["title"] == "Sign for Mab"
    assert jobs.listed(catalogue) == []


def test_fifty_words_are_counted_as_the_index_counts_them():
    from registry.catalogue import search
    assert search.match("a " * 50) and search.fault("d'une_mer " * 17)
    with pytest.raises(RegistryError, match="at most 50"):
        search.match("a " * 51)
