"""The provenance sheet and the buyer's card: every field as the database holds it, nothing that is private, nothing to load."""

import base64
import json
from html.parser import HTMLParser

import kept
import pytest
import test_labels
import webbed
from registry.catalogue import clear, decisions, evidence, files, jobs, ledger, marks, permissions, settings, store, support, words, works
from registry.errors import RegistryError
from registry.exchange import card_page, sheet
from registry.exchange.markup import day as long_day, label
from registry.facts import edtf
from registry.web import said

DAY = edtf.day("2026-07-01")
PNG = base64.b64decode("iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNk+M9QDwADhgGAWjR9awAAAABJRU5ErkJggg==")
SVG = b'<svg xmlns="http://www.w3.org/2000/svg" width="40" height="30"><rect width="40" height="30" fill="teal"/></svg>'
SECRETS = {"customer": "SECRET-CUSTOMER", "price": "SECRET-PRICE", "notes": "SECRET-NOTES"}
NASTY = 'Gull & "Bollard" <script>alert(1)</script> \'x\''


def filled(folder):
    """A catalogue in which a job has everything: three layers, lettering, evidence, permission, marks, searches, two decisions."""
    catalogue = kept.new(folder)
    settings.put(catalogue, name="Ninepin & Sons", groups={"ISLES": ["GB", "IE"]}, markets=["US"])
    one, two = files.add(catalogue, PNG, "scan.png"), files.add(catalogue, SVG, "own.svg")
    page = files.add(catalogue, b"%PDF-1.4 the page", "page.pdf")
    works.add(catalogue, {**kept.GULL, "title": NASTY}, key="gull", traits=[("bollard", "mossy")], picture=one.sha256, access_terms="no resale of the scan", notes="SECRET-WORK-NOTE")
    works.add(catalogue, {**kept.GULL, "title": "Tinted gull", "creators": [{"name": "Ira Vell", "role": "artist", "died": "1949"}], "publications": [{"date": "1929-03-02", "country": "US"}]},
              key="tinted", based_on="gull", originality="new_expression", traits=["blue sky"])
    works.add(catalogue, {"title": "Our gull", "kind": "drawing", "created": "2026"}, key="ours", based_on="tinted", originality="new_expression", own=True, picture=two.sha256)
    works.add(catalogue, {"title": "Slab", "kind": "lettering", "created": "2019", "creators": [{"name": "O. Ferr", "alive": True}]}, key="slab")
    evidence.add(catalogue, "gull", "publications", "seen", kind="copy as issued", title="Page 6", place="flat file 2", url="https://archive.example/6", seen_on="2026-04-02", seen_by="I. Corrow", file=page.sha256, note="top")
    evidence.add(catalogue, "gull", "died", "told", seen_by="D. Pelloe", title="by the heirs")
    evidence.add(catalogue, "tinted", "publications", "assumed")
    permissions.add(catalogue, "slab", "licence", licensor="Ferr Letters", spdx=None, uses=["any"], places=["world"], media=["any"], commercial=True, changes_allowed=True, credit_line="Letters: O. Ferr", valid_from="2026-01-10", document=page.sha256, note="SECRET-LICENCE-NOTE")
    marks.add(catalogue, ["gull"], words="QUAYLARK", kind="word", owner="Quaylark Textiel", office="EM", number="77", state="live", classes=[24])
    marks.add_search(catalogue, "US", "THE GULL INN", by="I. Corrow", at="2026-06-01", classes=[20])
    jobs.add(catalogue, key="sign", title="The Gull", product="carved wooden sign", purpose="commission", markets=["US", "ISLES"], quantity=3, wording="THE GULL INN", lettering="slab", listing_text="Hand carved", due="2027-02-12",
             sold_on="2026-06-30", **SECRETS)
    jobs.use(catalogue, "sign", "ours", "picture", ["bollard", "blue sky"], "cut in relief")
    jobs.use(catalogue, "sign", "slab", "lettering", changes="carved by hand")
    decisions.decide(catalogue, "sign", "Isbet Corrow", "as a trial", DAY, although="only a sample")
    decisions.decide(catalogue, "sign", "Dunstan Pelloe", "goes ahead", DAY, although="asked by the owner")
    return catalogue


@pytest.fixture(scope="module")
def catalogue(tmp_path_factory):
    return filled(tmp_path_factory.mktemp("sheet"))


@pytest.fixture(scope="module")
def found(catalogue):
    return sheet.collect(catalogue, "sign", DAY, private=True)


class Fields(HTMLParser):
    """Reads a page: texts by data-field, addresses that it names, its whole text."""

    def __init__(self, text):
        super().__init__()
        self.fields, self.addresses, self.open, self.tags, self.words = {}, [], [], [], []
        self.feed(text)
        self.close()

    def handle_starttag(self, tag, attributes):
        given = dict(attributes)
        self.tags.append(tag)
        self.addresses += [value for name, value in attributes if name in ("src", "href", "action", "data", "poster", "srcset")]
        if tag not in ("img", "meta", "br", "link"):
            self.open.append(given.get("data-field"))
            if self.open[-1] is not None:
                self.fields.setdefault(self.open[-1], [""]).append("")

    def handle_endtag(self, tag):
        if tag not in ("img", "meta", "br", "link"):
            self.open.pop()

    def handle_data(self, data):
        self.words.append(data)
        for name in self.open:
            if name is not None:
                self.fields[name][-1] += data

    def texts(self):
        """Text by field; one shown several times must be shown alike."""
        return {name: set(shown[1:]) for name, shown in self.fields.items()}


def value(fact):
    """A fact as the sheet is meant to show it."""
    if isinstance(fact, list):
        return ", ".join(value(one) for one in fact if one is not None)
    return {True: "yes", False: "no"}.get(fact, fact) if isinstance(fact, bool) else str(fact).replace("_", " ")


def expected(catalogue):
    """What every field must say, read from the tables of the database."""
    db, told = catalogue.db, {}
    job = db.execute("SELECT * FROM jobs WHERE key = 'sign'").fetchone()
    told |= {f"job.{name}": job[name] for name in ("key", "title", "product", "wording", "lettering", *SECRETS)}
    told |= {"job.quantity": str(job["quantity"]), "job.purpose": job["purpose"], "job.markets": ", ".join(json.loads(job["markets"])),
             "job.due": "12 February 2027", "job.sold_on": "30 June 2026"}
    told["shop"] = json.loads(db.execute("SELECT value FROM settings WHERE key = 'name'").fetchone()[0])
    for number, use in enumerate(db.execute("SELECT traits, changes FROM uses WHERE job = ? ORDER BY id", (job["id"],)).fetchall()):
        told[f"use.{number}.traits"], told[f"use.{number}.changes"] = ", ".join(json.loads(use["traits"])), use["changes"]
    for work in db.execute("SELECT * FROM works").fetchall():
        told |= _work(db, work)
    for one in db.execute("SELECT evidence.*, works.key AS owner FROM evidence JOIN works ON works.id = evidence.work").fetchall():
        told |= {f"evidence.e{one['id']}.{name}": one[name] for name in ("kind", "title", "place", "url", "seen_by", "note")}
        told |= {f"evidence.e{one['id']}.seen_on": long_day(one["seen_on"]), f"evidence.e{one['id']}.file": (one["file"] or "")[:16]}
    for one in db.execute("SELECT * FROM permissions").fetchall():
        told[f"permission.p{one['id']}.credit_line"] = one["credit_line"]
    for one in db.execute("SELECT * FROM marks").fetchall():
        told[f"mark.m{one['id']}"] = one["words"]
    for row in db.execute("SELECT seq, body, digest FROM ledger WHERE kind = 'decision' AND subject = 'sign'").fetchall():
        body = json.loads(row["body"])
        told |= {f"decision.{row['seq']}.{name}": body[name] for name in ("by", "note", "although")} | {f"decision.{row['seq']}.digest": row["digest"]}
    told |= {f"fact.{key}.own": "yes" for key, in db.execute("SELECT key FROM works WHERE own = 1").fetchall()}
    told["ledger.head"] = db.execute("SELECT digest FROM ledger ORDER BY seq DESC LIMIT 1").fetchone()[0]
    return {name: text for name, text in told.items() if text}


def _work(db, work):
    """The fields of one row of works, with its facts flattened."""
    key, facts = work["key"], json.loads(work["facts"])
    told = {f"work.{key}.title": work["title"], f"work.{key}.makers": work["makers"], f"work.{key}.first_published": long_day(work["first_published"]), f"work.{key}.access_terms": work["access_terms"]}
    traits = db.execute("SELECT name, note FROM traits WHERE work = ? ORDER BY id", (work["id"],)).fetchall()
    told[f"work.{key}.traits"] = ", ".join(name + (f" ({note})" if note else "") for name, note in traits)
    for name, fact in facts.items():
        if name in ("creators", "publications"):
            for inner in {inner for one in fact for inner in one} - {"name", "role"}:
                shown = f"publications.{inner}" if inner in ("date", "country") else inner
                told[f"fact.{key}.{shown}"] = value([one.get(inner) for one in fact])
        elif name not in ("id", "title"):
            told[f"fact.{key}.{name}"] = value(fact)
    return told


def test_every_field_is_as_the_database_holds_it(catalogue, found):
    shown = Fields(sheet.html(found, {})).texts()
    wanted = expected(catalogue)
    assert {name: shown.get(name) for name in wanted} == {name: {text} for name, text in wanted.items()}
    answered = {name for name in shown if name not in wanted}
    kinds = {name.partition(".")[0] for name in answered}
    assert kinds <= {"market", "free_from", "sentence", "rule", "cite", "fact", "rules_sha256"} and all(name.endswith(".basis") for name in answered if name.startswith("fact."))


def test_answers_are_those_of_the_clearance(catalogue, found):
    answer = clear.answer(clear.desk(catalogue, DAY), jobs.get(catalogue, "sign"), want=0)
    page = Fields(sheet.html(found, {}))
    shown = page.texts()
    for market in answer.markets:
        assert shown[f"sentence.{market.market}"] == {market.sentence}
        if market.free_from is not None:
            assert shown[f"free_from.{market.market}"] == {words.day(market.free_from)}
        for place in market.places:
            for layer in place.layers:
                for rule in layer.rules:
                    assert shown[f"rule.{rule.id}"] == {rule.says} and shown.get(f"cite.{rule.id}", {""}) == {rule.cite}
    said = " ".join(" ".join(page.words).split())
    assert words.ADVICE in said and "It is no licence" in said and all(words.MARKET[market.decision] in said for market in answer.markets)


def test_what_facts_rest_on(catalogue, found):
    at = clear.desk(catalogue, DAY)
    supports = {(one.work, one.fact): one for one in support.of_job(at, clear.answer(at, jobs.get(catalogue, "sign"), want=0))}
    shown = Fields(sheet.html(found, {})).texts()
    assert supports
    for fact in found["facts"]:
        one = supports.get((fact["work"], fact["fact"]))
        assert fact["decides_in"] == list(one.places if one else ())
        if one:
            assert shown[f"fact.{one.work}.{one.fact}.basis"] == {support.WORDS[one.basis]}
    bases = {(fact["work"], fact["fact"]): fact["basis"] for fact in found["facts"]}
    assert (bases["gull", "publications.date"], bases["gull", "died"], bases["tinted", "publications.date"], bases["tinted", "kind"]) == ("seen", "told", "assumed", "none")


def test_layers_stand_from_the_source_to_the_product(found):
    assert [use["chain"] for use in found["uses"]] == [["gull", "tinted", "ours"], ["slab"]]
    text = sheet.html(found, {})
    order = [text.index(f'data-field="work.{key}.title"') for key in ("gull", "tinted", "ours", "slab")]
    assert order == sorted(order) and "made by the shop" in text and "the product" in text


def test_marks_and_searches_are_told_and_not_finding_is_no_clearance(found):
    said = " ".join(" ".join(Fields(sheet.html(found, {})).words).split())
    assert "I. Corrow searched US for “THE GULL INN” in classes 20: nothing found" in said
    assert "QUAYLARK" in said and "What is not found is no clearance" in said


def test_decisions_against_a_hold_are_marked(found):
    text = sheet.html(found, {})
    held = [one for one in found["decisions"] if one["against"]]
    for one in held:
        assert "Against a hold in" in text and one["although"] in text
    assert text.index("Dunstan Pelloe") < text.index("Isbet Corrow")


@pytest.mark.parametrize("page", [sheet.html, sheet.card])
def test_nothing_is_loaded_and_nothing_runs(catalogue, found, page):
    read = Fields(page(found, sheet.embedded(catalogue, found)))
    assert read.addresses and all(address.startswith("data:image/") for address in read.addresses)
    assert read.tags.count("script") == page(found, {}).count('<script type="application/ld+json">') == 1  # data, which no browser runs
    assert not {"link", "iframe", "object", "embed", "form", "base"} & set(read.tags) and "@import" not in page(found, {}) and "url(" not in page(found, {})
    assert NASTY in "".join(read.words)


@pytest.mark.parametrize("page", [sheet.html, sheet.card])
def test_what_it_says_of_the_product_is_in_it_for_programs(found, page):
    text = page(found, {})
    node = json.loads(text.partition('<script type="application/ld+json">')[2].partition("</script>")[0])
    assert list(test_labels.strange(node)) == [] and node["@type"] == ["schema:Product", "prov:Entity"] and node["schema:name"] == "The Gull"
    assert [one["@id"] for one in node["prov:wasDerivedFrom"]] == ["gull", "tinted", "ours", "slab"]
    assert node["dcterms:rights"][-1] == words.ADVICE and len(node["dcterms:rights"]) == 3 and "SECRET" not in json.dumps(node)


def test_pictures_are_the_kept_bytes(catalogue, found):
    inside = [base64.b64decode(address.partition(",")[2]) for address in Fields(sheet.html(found, sheet.embedded(catalogue, found))).addresses]
    assert sorted(inside) == sorted([PNG, SVG])


def test_a_picture_that_was_changed_stops_the_sheet(tmp_path):
    catalogue = filled(tmp_path)
    files.path_of(catalogue, works.get(catalogue, "gull").picture).write_bytes(SVG)
    with pytest.raises(RegistryError, match="was changed on disk"):
        sheet.embedded(catalogue, sheet.collect(catalogue, "sign", DAY))


def test_what_is_private_stays_out_of_what_is_handed_on(catalogue, found):
    text = sheet.html(found, {})
    assert all(secret in text for secret in SECRETS.values())
    others = sheet.collect(catalogue, "sign", DAY)
    for page in (sheet.html(others, {}), json.dumps(others), sheet.card(found, {}), json.dumps(sheet.for_buyer(found))):
        assert not any(secret in page for secret in (*SECRETS.values(), "SECRET"))


def test_the_card_names_no_people_of_the_shop_and_no_evidence(found):
    text = sheet.card(found, {})
    for hidden in ("Corrow", "Pelloe", "flat file", "archive.example", "SECRET", "sample", "owner</"):
        assert hidden not in text
    for told in ("Ninepin &amp; Sons", "Letters: O. Ferr", words.ADVICE, found["ledger"]["head"], "Tinted gull", "made by the shop", "cut in relief"):
        assert told in text


def test_a_job_without_anything_has_a_sheet(catalogue):
    jobs.add(catalogue, key="bare", title="Nothing yet", markets=["US"])
    found = sheet.collect(catalogue, "bare", DAY)
    text = sheet.html(found, {}) + sheet.card(found, {})
    assert "No work is recorded as used." in text and "Nobody has decided" in text and found["facts"] == []


def test_what_was_collected_is_plain(catalogue, found):
    assert json.loads(json.dumps(found)) == found
    assert sheet.collect(catalogue, "sign", DAY, private=True) | {"made_at": ""} == found | {"made_at": ""}


# --- the commands ---------------------------------------------------------------------------------------

@pytest.fixture
def command(catalogue, capsys):
    return kept.Command(catalogue.folder, capsys)


@pytest.mark.parametrize("name", ["sheet", "card"])
def test_the_command_writes_one_file(command, tmp_path, name, found):
    out = tmp_path / "paper.html"
    code, said, _ = command(name, "sign", str(out), "--on", "2026-07-01")
    assert code == 0 and "Not legal advice." in said and f"({out.stat().st_size:,} bytes)" in said
    text = out.read_text(encoding="utf-8")
    assert ("SECRET-CUSTOMER" in text) == (name == "sheet") and "data:image/svg+xml;base64," in text
    assert found["ledger"]["head"] in text


def test_the_sheet_for_others(command, tmp_path):
    command("sheet", "sign", str(tmp_path / "paper.html"), "--for-others")
    assert "SECRET" not in (tmp_path / "paper.html").read_text(encoding="utf-8")
    assert "SECRET" not in command("sheet", "sign", "--for-others", "--json")[1]


def test_the_commands_print_json(command):
    sheet_ = json.loads(command("sheet", "sign", "--on", "2026-07-01", "--json")[1])
    card = json.loads(command("card", "sign", "--on", "2026-07-01", "--json")[1])
    assert sheet_["job"]["key"] == card["job"]["key"] == "sign" and sheet_["private"] == SECRETS and "private" not in card


@pytest.mark.parametrize("words_, says", [
    (("sheet", "sign"), "Name the file to write"), (("sheet", "sign", "out.db"), "ends in .html"), (("card", "tern", "x.html"), "There is no job 'tern'"),
    (("sheet", "sign", "/nowhere/at/all/x.html"), "could not be written"),
])
def test_what_cannot_be_written(command, words_, says):
    assert says in command.refused(*words_)


# --- in a real browser ---------------------------------------------------------------------------------

@pytest.mark.parametrize("paper, width, height", [("A4", 21.0, 29.7), ("Letter", 21.59, 27.94)])
def test_printed_on_paper(browser, catalogue, found, tmp_path, paper, width, height):
    (tmp_path / "sheet.html").write_text(sheet.html(found, sheet.embedded(catalogue, found)), encoding="utf-8")
    browser.open((tmp_path / "sheet.html").as_uri())
    assert browser.execute("return document.documentElement.scrollWidth <= window.innerWidth")
    assert browser.execute("return [...document.images].every(one => one.complete && one.naturalWidth > 0)")
    assert browser.execute("return document.querySelectorAll('h1').length") == 1 and browser.console() == []
    pdf = browser.print(page={"width": width, "height": height})
    assert pdf.startswith(b"%PDF") and 1 <= pdf.count(b"/Type /Page\n") + pdf.count(b"/Type /Page ") + pdf.count(b"/Type /Page/") <= 8


def test_the_card_fits_one_page_and_a_narrow_screen(browser, catalogue, found, tmp_path):
    (tmp_path / "card.html").write_text(sheet.card(found, sheet.embedded(catalogue, found)), encoding="utf-8")
    browser.resize(360, 800)
    browser.open((tmp_path / "card.html").as_uri())
    assert browser.execute("return document.documentElement.scrollWidth <= window.innerWidth") and browser.console() == []
    pdf = browser.print(page={"width": 21.0, "height": 29.7})
    assert b"/Count 1" in pdf


def test_that_the_shop_made_it_is_what_an_answer_hangs_on_and_may_rest_on_evidence(tmp_path, capsys):
    catalogue = filled(tmp_path)
    command = kept.Command(catalogue.folder, capsys)
    before = sheet.collect(catalogue, "sign", DAY)
    own = next(one for one in before["facts"] if (one["work"], one["fact"]) == ("ours", "own"))
    assert own["decides_in"] == ["US", "GB", "IE"] and own["basis"] == "none"
    row = next(one for one in webbed.read(sheet.html(before, {})).all("tr") if one.text.startswith("Made by the shop itself"))
    assert "US" in row.text and "no evidence" in row.text
    assert "Made by the shop itself of ours (no evidence)" in support.told(support.of_job(at := clear.desk(catalogue, DAY), clear.answer(at, jobs.get(catalogue, "sign"), want=0)))[1]
    gaps = json.loads(command("gaps", "--json", "--on", "2026-07-01")[1])["gaps"]
    gap = next(one for one in gaps if (one["work"], one["fact"]) == ("ours", "own"))
    assert gap["jobs"] == ["sign"] and "Did the shop make 'Our gull' itself" in gap["question"]
    assert command("evidence", "add", "ours", "--for", "own", "--basis", "seen", "--title", "dated sketches")[0] == 0
    after = json.loads(command("gaps", "--json", "--on", "2026-07-01")[1])["gaps"]
    assert [one for one in after if (one["work"], one["fact"]) == ("ours", "own")] == []
    assert sheet.for_buyer(sheet.collect(catalogue, "sign", DAY))["rests"]["on_evidence"] == sheet.for_buyer(before)["rests"]["on_evidence"] + 1
    assert "dated sketches" in sheet.html(sheet.collect(catalogue, "sign", DAY), {}) and command("verify")[0] == 0
    catalogue.db.close()


# --- days and marks on paper --------------------------------------------------------------------------

PRINT = {"title": "Weir", "kind": "print", "created": "190X", "published": True, "creators": [{"name": "O. Weirman", "died": "1930", "nationality": ["US"]}],
         "publications": [{"date": "[..1905]", "country": "US"}]}


@pytest.fixture
def near(tmp_path):
    """A job with a day that is only a bound and a mark that is near its words."""
    catalogue = kept.new(tmp_path)
    settings.put(catalogue, name="Ninepin", markets=["US", "GB", "DE"])
    works.add(catalogue, PRINT, key="weir")
    marks.add(catalogue, words="WEIRMAN", kind="word", owner="Weir Invented Goods", office="GB", number="invented-3", state="registered", status_words="registered",
              registered="2020-01-01", expires="2030-01-01", classes=[24])
    jobs.add(catalogue, key="towel", title="Weir towel", product="printed tea towel", wording="WEIRMANS")
    jobs.use(catalogue, "towel", "weir", "picture")
    yield catalogue
    catalogue.db.close()


def rows_of(html):
    """{market: [cells]} of the table of answers."""
    found = webbed.read(html).one("table", class_="answers").one("tbody").all("tr")
    return {row.all("th")[0].text: [cell.text for cell in row.all("td")] for row in found}


@pytest.mark.parametrize("make", [sheet.html, sheet.card])
def test_a_day_that_is_only_a_bound_is_told_as_one_on_paper(near, make):
    rows = rows_of(make(sheet.collect(near, "towel", DAY), {}))
    assert rows["United States"][-1].startswith("since 1 January") or rows["United States"][-1].startswith("since 31 December")
    assert "at the latest" in rows["United States"][-1] and rows["Germany"][-1] == "since 1 January 2001"


def test_a_mark_that_is_near_stands_in_the_tables_on_paper(near):
    found = sheet.collect(near, "towel", DAY)
    assert "near the mark 'WEIRMAN'" in rows_of(sheet.html(found, {}))["United Kingdom"][-1]
    card = rows_of(sheet.card(found, {}))
    assert "a mark on record is like its words" in card["United Kingdom"][-1] and "mark" not in card["United States"][-1]
    assert "WEIRMAN" not in sheet.card(found, {})


def test_sentences_of_the_card_are_english():
    one = {"markets": [], "assumed": [], "as_of": "2026-07-01", "decided": None, "rests": {"decisive": 3, "on_evidence": 1}}
    assert "hang on 3 recorded facts, of which 1 rests on evidence" in card_page._markets(one)
    assert "hang on one recorded fact, of which 0 rest on" in card_page._markets(one | {"rests": {"decisive": 1, "on_evidence": 0}})
    held = one | {"decided": {"at": "2026-06-01", "row": 1, "against": ["GB", "FR"]}, "markets": [{"market": "GB", "decision": "hold"}, {"market": "FR", "decision": "hold"}]}
    assert "a hold in the United Kingdom and France." in card_page._holds(held)


@pytest.mark.parametrize("name", ["us_notice", "by_owner", "publications.date", "us_renewed", "created", "authorship", "own"])
def test_a_fact_has_one_name_on_papers_and_pages(name):
    assert label(name) == said.label(name) and "_" not in label(name)
    assert {"us_notice": "Copyright notice (US)", "by_owner": "Published with the owner’s leave"}.get(name, label(name)) == label(name)


def test_an_original_that_two_versions_share_stands_once(tmp_path):
    catalogue = kept.new(tmp_path)
    settings.put(catalogue, name="Ninepin", groups={"ISLES": ["GB", "IE"]}, markets=["US", "ISLES"])
    works.add(catalogue, kept.GULL, key="gull")
    for key in ("one", "two"):
        works.add(catalogue, {"title": f"Ours {key}", "kind": "drawing", "created": "2026"}, key=key, based_on="gull", originality="new_expression", own=True)
    jobs.add(catalogue, key="pair", title="Pair")
    jobs.use(catalogue, "pair", "one", "picture")
    jobs.use(catalogue, "pair", "two", "picture")
    page = webbed.read(sheet.html(sheet.collect(catalogue, "pair", DAY), {}))
    for name in ("members", "group"):
        rows = [row.text for row in page.one("table", class_=name).one("tbody").all("tr") if kept.GULL["title"] in row.text]
        assert len(rows) == len(set(rows)) and all(row.count("United Kingdom") < 2 for row in rows), rows
    catalogue.db.close()


def test_no_table_is_squeezed_on_a_narrow_screen(browser, catalogue, found, tmp_path):
    (tmp_path / "sheet.html").write_text(sheet.html(found, {}), encoding="utf-8")
    browser.resize(360, 800)
    browser.open((tmp_path / "sheet.html").as_uri())
    widths = browser.execute("return [...document.querySelectorAll('table.facts td, table.answers td')].filter(c => c.offsetWidth).map(c => c.offsetWidth)")
    assert widths and min(widths) > 200 and browser.execute("return document.documentElement.scrollWidth") <= 360
