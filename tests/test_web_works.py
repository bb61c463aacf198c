"""Pages of works: from a title to an answer, one question at a time; edit, merge, picture, evidence, table."""

import random

import kept
import pytest
import webbed
from demo_modules import draw
from registry.catalogue import evidence, files, jobs, works
from registry.web import merge, work_edit
from webbed import form_of

PNG = bytes.fromhex("89504e470d0a1a0a0000000d49484452000000010000000108060000001f15c4890000000d49444154789c6360f8cf500f0003860182a5c54c4f0000000049454e44ae426082")


def wrong(answer):
    return {one["id"].removesuffix("-wrong"): one.text for one in answer.page.all("p", class_="wrong")}


def chips(page):
    return [one.text for one in page.all("ul", class_="chips")[0].all("li")]


# --- from nothing to an answer ------------------------------------------------------------------------

def test_from_nothing_to_an_answer(site, catalogue):
    """Only what matters is asked, the country before the renewal, and every answer is kept with its evidence."""
    sent = site.post("/work/new", form_of(site.get("/work/new"), title="Heron on a Post", kind="drawing"))
    assert sent.status == 303 and sent.headers["location"] == "/work/w1/ask?done=added"
    publication = {"published": "yes", "publications.0.date.how": "exact", "publications.0.date.one": "1945-05-17", "publications.0.country": "United States"}
    maker = {"creators.0.name": "Ann Example", "creators.0.died.how": "exact", "creators.0.died.one": "1950", "creators.0.nationality": "US"}
    typed = {"publications.date": publication, "publications.country": publication, "publications": publication, "nationality": maker, "died": maker,
             "authorship": {"authorship": "individual"}, "us_notice": {"us_notice": "yes"}, "us_renewed": {"us_renewed": "no"}}
    asked, path = [], "/work/w1/ask?in=US"
    while facts := (answer := site.get(path)).page.all("input", name="fact"):
        asked.append(facts[0]["value"])
        assert asked[-1] in typed and len(asked) < 12, f"nobody expected to be asked for {asked}"
        sent = site.post(path, form_of(answer, **typed[asked[-1]], basis="seen", evidence_title="title page", seen_by="Ann"))
        assert sent.status == 303, wrong(sent)
        path = sent.headers["location"]
    assert "nothing more to ask" in site.get(path).page.one("h1").text
    assert asked[0].startswith("publications.") and asked[-1] == "us_renewed"
    assert len(asked) == len(set(asked)) <= 4
    record = works.get(catalogue, "w1")
    assert record.facts["publications"] == [{"date": "1945-05-17", "country": "US"}]
    assert record.facts["us_renewed"] is False
    assert {one.fact for one in evidence.of_work(catalogue, "w1")} >= {"publications.0.date", "us_renewed"}
    page = site.get("/work/w1?in=US").page
    assert chips(page) == ["US likely public domain"]
    assert "Still to find out" not in [one.text for one in page.all("h2")]


@pytest.mark.parametrize("text, pairs", [
    ("heron on one leg; weir", [["heron on one leg", ""], ["weir", ""]]), ("red hat: tall\\; with a feather", [["red hat", "tall; with a feather"]]),
    ("red hat: tall; monocle; pipe: clay", [["red hat", "tall"], ["monocle", ""], ["pipe", "clay"]]),
    ("heron; red hat: tall\nweir;", [["heron", ""], ["red hat", "tall"], ["weir", ""]]), ("heron\\; one leg", [["heron; one leg", ""]]),
    ("hat\\: big: n: m", [["hat: big", "n: m"]]), ("a\\b: c\\\\", [["a\\b", "c\\"]]), (": no name", [["", "no name"]]), (" : \n;", [])])
def test_semicolons_part_traits_unless_a_backslash_stands_before_them(text, pairs):
    assert work_edit.traits(text) == pairs
    assert work_edit.traits(work_edit._lines(pairs)) == pairs


def test_no_trait_is_altered_by_being_shown_in_the_form():
    chance, signs = random.Random(3), ["\\", ";", ":", "\n", " ", "a", "é", "n"]
    for _ in range(3000):
        words = ["".join(chance.choices(signs, k=chance.randrange(7))).strip() for _ in range(6)]
        pairs = [[name, note] for name, note in zip(words[::2], words[1::2]) if name]
        assert work_edit.traits(work_edit._lines(pairs)) == pairs


def test_a_trait_with_a_colon_outlives_the_edit_of_something_else(site, catalogue):
    works.add(catalogue, kept.GULL, key="gull", traits=[("hat: big", "n"), ("pipe; of clay", "x; y")])
    assert site.post("/work/gull/edit", form_of(site.get("/work/gull/edit"), notes="box 9")).status == 303
    record = works.get(catalogue, "gull")
    assert (record.notes, record.traits) == ("box 9", (("hat: big", "n"), ("pipe; of clay", "x; y")))


def test_a_day_that_cannot_be_stands_at_its_own_field(site, catalogue):
    works.add(catalogue, {**kept.CRAB, "us_renewed": None}, key="crab")
    sent = site.post("/work/crab/ask?in=US", form_of(site.get("/work/crab/ask?in=US"), us_renewed="no", basis="seen", seen_on="2026-02-30"))
    assert sent.status == 400 and list(wrong(sent)) == ["seen_on"] and "“2026-02-30” cannot be read as a day" in wrong(sent)["seen_on"]
    assert "seen_on" not in sent.page.one(role="alert").text and works.get(catalogue, "crab").facts.get("us_renewed") is None


POSTER = {**kept.GULL, "title": "Le Bac", "created": "1910", "publications": [{"date": "1910", "country": "FR"}], "us_notice": None, "us_renewed": None,
          "creators": [{"name": "O. Bacquet", "died": "1955", "nationality": ["FR"]}]}


def test_what_a_free_answer_takes_for_granted_stands_in_the_card_of_the_place(site, catalogue, capsys):
    works.add(catalogue, POSTER, key="bac")
    card = site.get("/work/bac?in=FR").page.one("section", aria_labelledby="in-FR")
    assert "likely public domain" in card.text and "To confirm: Died for France" in card.text
    jobs.add(catalogue, key="cards", title="Cards", product="printed card", markets=["FR"])
    jobs.use(catalogue, "cards", "bac", "picture")
    out = kept.Command(site.folder, capsys)("check", "--job", "cards", "--brief", "--dry")[1]
    assert "confirm: Died for France" in " ".join(out.split())


def test_nothing_missing_is_not_nothing_to_confirm(site, catalogue):
    works.add(catalogue, POSTER, key="bac")
    page = site.get("/work/bac/ask?in=FR").page
    assert page.one("h1").text.endswith("nothing is missing") and "still to be confirmed" in page.text and "would change the answer" not in page.text
    link, = [one for one in page.all("a") if "ied for France" in one.text]
    assert link.text == "Answer this: Died for France"


def test_where_the_law_is_contested_no_fact_settles_it_and_the_page_says_so(site, catalogue):
    works.add(catalogue, {**kept.GULL, "title": "Plate"}, key="plate")
    works.add(catalogue, {"title": "Tracing", "kind": "drawing", "created": "2026", "creators": [{"name": "O. Trace", "alive": True, "nationality": ["CA"]}]}, key="tracing", based_on="plate", originality="faithful_copy")
    for path in ("/work/tracing?in=CA", "/work/tracing/ask?in=CA"):
        text = site.get(path).page.one("main").text
        assert "No fact, on record or missing, settles it in Canada: ask a practitioner there." in text
        assert "Nothing more is needed" not in text and "would change the answer" not in text


def test_the_next_question_leads_to_the_version_it_is_about(site, catalogue):
    works.add(catalogue, {**kept.CRAB, "us_renewed": None}, key="crab")
    works.add(catalogue, kept.GULL, key="later", based_on="crab", originality="new_expression")
    button = next(one for one in site.get("/work/later?in=US").page.all("a", class_="button") if one.text == "Answer the next question")
    assert button["href"] == "/work/crab/ask?in=US"
    assert site.get(button["href"]).page.one("input", name="fact")["value"] == "us_renewed"
    own = next(one for one in site.get("/work/crab?in=US").page.all("a", class_="button") if one.text == "Answer the next question")
    assert own["href"] == "/work/crab/ask?in=US"


def test_a_question_can_be_put_off(site, catalogue):
    works.add(catalogue, kept.SCRAP, key="scrap")
    first = site.get("/work/scrap/ask?in=US").page
    skip = next(link["href"] for link in first.all("a") if link.text.startswith("Not now"))
    second = site.get(skip).page
    assert second.one("input", name="fact")["value"] != first.one("input", name="fact")["value"]
    for _ in range(20):
        page = site.get(skip).page
        links = [link["href"] for link in page.all("a") if link.text.startswith("Not now")]
        if not links:
            break
        skip = links[0]
    assert "Some questions were put off" in page.text


def test_a_wrong_answer_stays_in_the_field_with_its_error(site, catalogue):
    works.add(catalogue, kept.SCRAP, key="scrap")
    answer = site.get("/work/scrap/ask?fact=died")
    sent = site.post("/work/scrap/ask?fact=died", form_of(answer, **{"creators.0.died.how": "exact", "creators.0.died.one": "spring 1950", "creators.0.nationality": "Narnia", "creators.0.name": "Bo"}))
    assert sent.status == 400
    assert set(wrong(sent)) == {"creators.0.died", "creators.0.nationality"}
    assert "“Narnia” is no country on record" in wrong(sent)["creators.0.nationality"]
    held = dict(webbed.values(sent.page.all("form", method="post")[0]))
    assert (held["creators.0.died.one"], held["creators.0.nationality"], held["creators.0.name"]) == ("spring 1950", "Narnia", "Bo")
    assert works.get(catalogue, "scrap").version == 1


def test_looked_for_and_not_found_is_not_the_same_as_not_looked_for(site, catalogue):
    works.add(catalogue, kept.SCRAP, key="scrap")
    site.post("/work/scrap/ask?fact=died", form_of(site.get("/work/scrap/ask?fact=died"), **{"creators.0.died.how": "unknown", "creators.0.name": "Bo"}))
    assert works.get(catalogue, "scrap").facts["creators"] == [{"name": "Bo", "died": "unknown"}]


def test_a_living_maker(site, catalogue):
    works.add(catalogue, {**kept.GULL, "creators": [{"name": "Perpetua Quill", "nationality": ["US"]}]}, key="gull")
    site.post("/work/gull/ask?fact=died", form_of(site.get("/work/gull/ask?fact=died"), **{"creators.0.alive": "yes"}))
    assert works.get(catalogue, "gull").facts["creators"] == [{"name": "Perpetua Quill", "nationality": ["US"], "alive": True}]


@pytest.mark.parametrize("fact", ["kind", "created", "publications", "creators", "died", "alive", "nationality", "by_owner", "author_untraceable", "us_notice_year", "government_of", "real_person"])
def test_every_question_has_a_field_to_answer_it(site, catalogue, fact):
    works.add(catalogue, {**kept.GULL, "creators": [{"name": "Ann"}, {"name": "Bo"}]}, key="gull")
    names = [name for name, _value in form_of(site.get(f"/work/gull/ask?fact={fact}"))]
    wanted = {"publications": "publications.0.date.how", "creators": "creators.1.died.how"}.get(fact, fact)
    assert any(name == wanted or name.endswith(f".{wanted}") or name in (f"{wanted}.how",) or name.endswith(f".{wanted}.how") for name in names), names


def test_two_answers_to_one_question_meet(site, catalogue):
    works.add(catalogue, kept.GULL, key="gull")
    mine = form_of(site.get("/work/gull/ask?fact=us_renewed"), us_renewed="no")
    record = works.get(catalogue, "gull")
    works.change(catalogue, "gull", record.version, facts={**record.facts, "us_renewed": "unknown"})
    sent = site.post("/work/gull/ask?fact=us_renewed", mine)
    assert sent.status == 409
    assert "stored now looked for, not found, typed by you no" in sent.page.one("div", class_="problem").text
    assert works.get(catalogue, "gull").facts["us_renewed"] == "unknown"
    assert site.post("/work/gull/ask?fact=us_renewed", form_of(sent)).status == 303
    assert works.get(catalogue, "gull").facts["us_renewed"] is False


def test_an_answer_beside_a_change_elsewhere_is_kept(site, catalogue):
    works.add(catalogue, kept.GULL, key="gull")
    mine = form_of(site.get("/work/gull/ask?fact=us_renewed"), us_renewed="no")
    record = works.get(catalogue, "gull")
    works.change(catalogue, "gull", record.version, facts={**record.facts, "title": "Gull at Rest"})
    assert site.post("/work/gull/ask?fact=us_renewed", mine).status == 303
    facts = works.get(catalogue, "gull").facts
    assert (facts["title"], facts["us_renewed"]) == ("Gull at Rest", False)


# --- new --------------------------------------------------------------------------------------------------

def test_a_new_work_needs_a_title_or_a_picture(site, catalogue):
    sent = site.post("/work/new", form_of(site.get("/work/new"), notes="from the box"))
    assert sent.status == 400 and list(wrong(sent)) == ["title"]
    assert sent.page.one("textarea", name="notes").text == "from the box"
    assert works.count(catalogue) == 0


def test_a_new_work_with_everything(site, catalogue):
    works.add(catalogue, kept.GULL, key="gull")
    fields = form_of(site.get("/work/new?based_on=gull"), title="Tinted gull", originality="new_expression", traits="red cap: with a bobble\nsunset", key="tint", own="yes", access_terms="ask first")
    sent = site.post("/work/new", fields, [("picture", "tint.png", PNG)])
    assert sent.status == 303, wrong(sent)
    record = works.get(catalogue, "tint")
    assert (record.based_on, record.originality, record.own, record.access_terms) == ("gull", "new_expression", True, "ask first")
    assert record.traits == (("red cap", "with a bobble"), ("sunset", ""))
    assert files.read(catalogue, record.picture) == PNG
    assert site.get(f"/picture/{record.picture}").body == PNG


def test_a_picture_need_not_be_chosen_twice(site, catalogue):
    sent = site.post("/work/new", form_of(site.get("/work/new"), title="Tint", key="no good"), [("picture", "tint.png", PNG)])
    assert sent.status == 400 and "key" in wrong(sent)
    token = sent.page.one("input", name="token")["value"]
    assert site.get(f"/held/{token}").body == PNG
    again = site.post("/work/new", form_of(sent, key="tint"))
    assert again.status == 303 and files.read(catalogue, works.get(catalogue, "tint").picture) == PNG
    assert site.get(f"/held/{token}").status == 404


def test_what_is_no_picture_is_refused_and_nothing_is_kept(site, catalogue):
    sent = site.post("/work/new", form_of(site.get("/work/new"), title="Tint"), [("picture", "tint.exe", b"MZ\x00\x01")])
    assert sent.status == 400 and "picture" in wrong(sent)
    assert works.count(catalogue) == 0 and kept.files_of(catalogue) == []


# --- edit -------------------------------------------------------------------------------------------------

def test_the_form_keeps_what_it_shows(site, catalogue):
    """Sending the form as it stands changes nothing."""
    works.add(catalogue, {**kept.GULL, "us_notice_year": "1928", "author_untraceable": False}, key="gull", traits=[("post", "of oak")], notes="box 3")
    before = works.get(catalogue, "gull")
    sent = site.post("/work/gull/edit", form_of(site.get("/work/gull/edit")))
    assert sent.status == 303 and sent.headers["location"] == "/work/gull?done=saved"
    assert works.get(catalogue, "gull") == before


def test_every_fact_of_the_vocabulary_has_a_field_once(site, catalogue):
    works.add(catalogue, kept.GULL, key="gull")
    names = [name for name, _value in form_of(site.get("/work/gull/edit"))]
    from registry.rulebook import rulebook

    vocabulary = rulebook().vocabulary
    expected = [name for name in vocabulary.of["work"] if name not in ("id", "creators", "publications")]
    expected += [f"creators.{n}.{name}" for n in (0, 1) for name in vocabulary.of["creator"]] + [f"publications.{n}.{name}" for n in (0, 1) for name in vocabulary.of["publication"]]
    for name in expected:
        assert names.count(name) + names.count(f"{name}.how") == 1, name


def test_a_maker_is_added_and_another_taken_out(site, catalogue):
    works.add(catalogue, {**kept.GULL, "creators": [{"name": "Ann", "died": "1950"}, {"name": "Bo", "died": "1960"}]}, key="gull")
    form = form_of(site.get("/work/gull/edit"), **{"creators.0.name": "", "creators.0.died.how": "", "creators.0.died.one": "", "creators.2.name": "Cy"})
    assert site.post("/work/gull/edit", form).status == 303
    assert works.get(catalogue, "gull").facts["creators"] == [{"name": "Bo", "died": "1960"}, {"name": "Cy"}]


def test_every_error_stands_beside_its_field(site, catalogue):
    works.add(catalogue, kept.GULL, key="gull")
    sent = site.post("/work/gull/edit", form_of(site.get("/work/gull/edit"), **{"created.one": "about 1928", "publications.0.country": "Narnia", "notes": "kept all the same"}))
    assert sent.status == 400
    assert set(wrong(sent)) == {"created", "publications.0.country"}
    assert dict(webbed.values(sent.page.all("form", method="post")[0]))["notes"] == "kept all the same"
    for link in sent.page.one("div", class_="problem").all("a"):
        target = link["href"][1:]
        assert any(one["id"] in (target, f"{target}.how", f"{target}-wrong") for one in sent.page), target


def test_two_people_edit_one_work(site, catalogue):
    works.add(catalogue, kept.GULL, key="gull")
    opened = site.get("/work/gull/edit")
    theirs = form_of(opened, **{"title": "Their title", "notes": "theirs"})
    mine = form_of(opened, **{"title": "My title", "access_terms": "mine"})
    assert site.post("/work/gull/edit", theirs).status == 303
    met = site.post("/work/gull/edit", mine)
    assert met.status == 409
    assert met.page.one("h1").text == "Somebody else changed this work meanwhile"
    rows = {row.all("th")[0].text: [cell.text for cell in row.all("td")] for row in met.page.one("table").one("tbody").all("tr")}
    assert rows["Title"] == ["Gull on a Bollard", "Their title", "My title", "both changed it: yours is in the form"]
    assert rows["Notes"] == ["nothing", "theirs", "nothing", "theirs is in the form"]
    assert works.get(catalogue, "gull").title == "Their title"
    assert site.post("/work/gull/edit", form_of(met)).status == 303
    record = works.get(catalogue, "gull")
    assert (record.title, record.notes, record.access_terms) == ("My title", "theirs", "mine")


def test_a_damaged_form_overwrites_nothing_unseen(site, catalogue):
    works.add(catalogue, kept.GULL, key="gull")
    form = form_of(site.get("/work/gull/edit"), base="{", title="Mine")
    works.change(catalogue, "gull", 1, notes="theirs")
    assert site.post("/work/gull/edit", form).status == 409
    assert site.post("/work/gull/edit", [pair for pair in form if pair[0] != "version"]).status == 400
    assert works.get(catalogue, "gull").notes == "theirs"
    assert merge.unpacked("{") == {}


def test_a_work_that_is_not_there(site, catalogue):
    for path in ("/work/none", "/work/none/edit", "/work/none/ask", "/work/none/places", "/work/none/picture", "/work/none/evidence", "/work/none/label.json"):
        answer = site.get(path)
        assert answer.status == 404 and "There is no work 'none'" in answer.page.text, path


# --- pictures and evidence ----------------------------------------------------------------------------------

def test_a_picture_is_shown_before_it_is_kept(site, catalogue):
    works.add(catalogue, kept.GULL, key="gull")
    shown = site.post("/work/gull/picture", {}, [("picture", "gull.png", PNG)])
    assert shown.status == 200 and "Is this the picture?" in shown.page.one("h1").text
    assert works.get(catalogue, "gull").picture is None and kept.files_of(catalogue) == []
    source = shown.page.all("img")[0]["src"]
    assert site.get(source).body == PNG
    done = site.post("/work/gull/picture", form_of(shown, keep="yes"))
    assert done.status == 303
    assert files.read(catalogue, works.get(catalogue, "gull").picture) == PNG
    assert site.post("/work/gull/picture", form_of(shown, keep="yes")).status == 400  # held no longer


@pytest.mark.parametrize("content, sentence", [(b"", "is empty"), (b"MZ\x00", "of no kind that is kept"), (b"%PDF-1.4", "allowed here are image/png")])
def test_what_is_no_picture_is_not_held(site, catalogue, content, sentence):
    works.add(catalogue, kept.GULL, key="gull")
    answer = site.post("/work/gull/picture", {}, [("picture", "x.png", content)])
    assert answer.status == 400 and sentence in answer.page.text
    assert answer.page.all("input", name="token") == []


def test_a_drawing_may_run_and_load_nothing(site, catalogue):
    works.add(catalogue, kept.GULL, key="gull")
    drawing = draw.picture("plumb-1928.svg", "Heron")
    kept_file = files.add(catalogue, drawing, "heron.svg")
    answer = site.get(f"/picture/{kept_file.sha256}")
    assert answer.headers["content-security-policy"].startswith("default-src 'none'") and "sandbox" in answer.headers["content-security-policy"]
    assert answer.headers["content-type"] == "image/svg+xml" and answer.headers["x-content-type-options"] == "nosniff"


def test_a_document_comes_as_a_download(site, catalogue):
    note = files.add(catalogue, b"<script>alert(1)</script>", "letter \"of\" heirs.txt")
    assert site.get(f"/picture/{note.sha256}").status == 404
    answer = site.get(f"/file/{note.sha256}")
    assert answer.headers["content-type"] == "application/octet-stream"
    assert answer.headers["content-disposition"] == "attachment; filename*=UTF-8''letter%20%22of%22%20heirs.txt"


def test_evidence_with_a_document(site, catalogue):
    works.add(catalogue, kept.GULL, key="gull")
    form = form_of(site.get("/work/gull/evidence?fact=us_renewed"), basis="seen", title="renewal entry", seen_on="2026-02-30")
    refused = site.post("/work/gull/evidence", form, [("document", "entry.txt", b"R 1234")])
    assert refused.status == 400 and list(wrong(refused)) == ["seen_on"] and kept.files_of(catalogue) == []
    assert refused.page.one("input", name="title")["value"] == "renewal entry"
    sent = site.post("/work/gull/evidence", form_of(refused, seen_on="2026-02-03"), [("document", "entry.txt", b"R 1234")])
    assert sent.status == 303
    piece = evidence.of_work(catalogue, "gull")[0]
    assert (piece.fact, piece.basis, piece.title, piece.seen_on) == ("us_renewed", "seen", "renewal entry", "2026-02-03")
    assert files.read(catalogue, piece.file) == b"R 1234"
    rows = {row.all("th")[0].text: row.all("td")[1].text for row in site.get("/work/gull").page.one("table", class_="facts").one("tbody").all("tr")}
    assert rows["Renewed (US)"].startswith("Seen in a document: renewal entry")
    assert rows["Kind"] == "no basis recorded"


# --- a table ------------------------------------------------------------------------------------------------

TABLE = "key,title,kind,artist,died,date,country\nheron,Heron,print,Ann,1934,1911~,GB\ncrab,Crab,pint,Bo,1950,1949,Narnia\n"


def test_a_table_is_shown_with_every_bad_cell_and_nothing_is_kept(site, catalogue):
    shown = site.post("/works/table", {}, [("table", "list.csv", TABLE.encode())])
    assert shown.status == 200 and works.count(catalogue) == 0
    bad = [[cell.text for cell in row.all("td")] for row in shown.page.all("tbody")[0].all("tr")]
    assert [row[:2] for row in bad] == [["kind", "pint"], ["country", "Narnia"]]
    assert "2 rows, 1 can be added, 2 cells need another look" in shown.page.text
    done = site.post("/works/table", form_of(shown, keep="yes"))
    assert done.status == 303 and done.headers["location"] == "/?done=table&added=1"
    assert works.get(catalogue, "heron").facts["creators"] == [{"name": "Ann", "died": "1934"}]
    assert works.count(catalogue) == 1


def test_a_good_table_is_kept_whole(site, catalogue):
    good = TABLE.replace("pint", "print").replace("Narnia", "United States")
    shown = site.post("/works/table", {}, [("table", "list.csv", good.encode())])
    assert "2 rows, 2 can be added" in shown.page.text and "Cells that cannot be used" not in shown.page.text
    assert site.post("/works/table", form_of(shown, keep="yes")).headers["location"] == "/?done=table&added=2"
    again = site.post("/works/table", {}, [("table", "list.csv", good.encode())]).page
    assert "2 rows have the title and the makers of a work on record" in again.text and again.text.count("on record already?") == 2
    assert works.count(catalogue) == 2


def test_a_table_whose_key_was_taken_meanwhile_adds_nothing(site, catalogue):
    good = TABLE.replace("pint", "print").replace("Narnia", "US")
    shown = site.post("/works/table", {}, [("table", "list.csv", good.encode())])
    works.add(catalogue, kept.GULL, key="crab")
    answer = site.post("/works/table", form_of(shown, keep="yes"))
    assert answer.status == 200 and "There is a work with this key already" in answer.page.text
    assert works.count(catalogue) == 1


def test_a_table_that_is_none(site):
    answer = site.post("/works/table", {}, [("table", "list.csv", b"\x00\x01")])
    assert answer.status == 400 and "not text in UTF-8" in answer.page.one("p", class_="problem").text
    assert "No table was chosen" in site.post("/works/table", {"token": "gone"}).page.text


def test_many_places_with_the_same_answer_share_a_card(site, catalogue):
    works.add(catalogue, kept.GULL, key="gull")
    page = site.get("/work/gull?in=EU,US").page
    cards = page.all("section", class_="answer")
    assert len(cards) < 12
    heads = [card.one("h3").text for card in cards]
    assert all(sum(name in head for head in heads) == 1 for name in ("Austria", "Germany", "Spain", "United States"))
    shared = next(card for card in cards if "Austria" in card.one("h3").text)
    assert "in each of these places" in shared.text and "is likely public domain in Austria" not in shared.all("p")[0].text
    whys = [one.text for one in shared.all("summary")]
    assert "Why, place by place" in whys and "Why, in Austria" in whys
    assert len(site.get("/work/gull?in=US,GB,FR").page.all("section", class_="answer")) == 3
