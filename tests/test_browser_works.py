"""In a real browser: add, look, upload, check, decide, print, meet somebody else's change; by keyboard, without scripts."""

import re
import shutil

import kept
import pytest
import stocked
from demo_modules import draw
from live import live
from registry.catalogue import decisions, files, jobs, settings, store, works


@pytest.fixture(scope="module")
def shop(tmp_path_factory):
    """(address, Catalogue) of a shop with two works that is served."""
    catalogue = kept.new(tmp_path_factory.mktemp("works"))
    settings.put(catalogue, name="Ninepin Slip", markets=["US"])
    works.add(catalogue, kept.GULL, key="gull", traits=["bollard", "cap"])
    works.add(catalogue, {**kept.CRAB, "us_renewed": None}, key="crab")
    with live(catalogue.folder) as address:
        yield address, catalogue
    catalogue.db.close()


def texts(page, css):
    """Texts of the elements that fit, read in one go: what the script of the page replaces meanwhile cannot get lost."""
    return page.execute("return [...document.querySelectorAll(arguments[0])].map(one => one.textContent.replace(/\\s+/g, ' ').trim())", css)


def titles(page):
    return texts(page, "#results .card .name")


def put(page, name, text):
    """Types into the field of that name, in place of what stands there."""
    css = f"main [name='{name}']"
    page.clear(css)
    page.type(css, text)


def choose(page, name, value):
    page.click(f"main select[name='{name}'] option[value='{value}']")


def stamps(page, css):
    return texts(page, f"{css} .stamp")


def quiet(page):
    """Asserts that the console is empty."""
    assert [one["message"] for one in page.console()] == []


def test_a_work_from_nothing_to_an_answer(browser, shop):
    address, catalogue = shop
    browser.open(address)
    browser.follow("a[href='/work/new']")
    put(browser, "title", "Heron on a Post")
    choose(browser, "kind", "drawing")
    browser.follow("form.sheet button:not([type])")
    browser.until(lambda: "/ask" in browser.url(), "the first question was asked")
    assert "The work is on record." in browser.text("p.done") and "first published" in browser.text("form h2")
    choose(browser, "published", "yes")
    choose(browser, "publications.0.date.how", "about")
    browser.type("[name='publications.0.date.one']", "1915")
    browser.until(lambda: "1915~: about 1915" in "".join(texts(browser, "[data-date='publications.0.date'] .reading")), "the written form was shown")
    browser.type("[name='publications.0.country']", "United States")
    choose(browser, "basis", "seen")
    browser.type("#evidence_title", "title page")
    browser.follow("form.sheet .does button")
    browser.until(lambda: "nothing more to ask" in "".join(texts(browser, "h1")) or "1915" not in browser.source(), "the answer was kept")
    while browser.find_all("input[name=fact]"):
        fact = browser.attribute("input[name=fact]", "value")
        assert fact == "authorship", f"nobody expected to be asked for {fact}"
        choose(browser, "authorship", "individual")
        browser.follow("form.sheet .does button")
        browser.until(lambda before=fact: not browser.find_all(f"input[name=fact][value='{before}']"), "the next question came")
    assert stamps(browser, "aside") == ["likely public domain"]
    browser.follow("a.button[href^='/work/']")
    browser.until(lambda: "Answer on" in "".join(texts(browser, "main")), "the work was shown")
    assert "title page" in browser.text("table.facts")
    quiet(browser)
    record = works.get(catalogue, browser.url().rpartition("/")[2])
    assert record.facts["publications"] == [{"date": "1915~", "country": "US"}]


def test_search_as_one_types(browser, shop):
    address, _catalogue = shop
    browser.open(address)
    before = set(titles(browser))
    assert {"Gull on a Bollard", "Crab in a Kettle"} <= before
    browser.type("#q", "boll")
    browser.until(lambda: titles(browser) == ["Gull on a Bollard"], "only the gull was left")
    assert "q=boll" in browser.url() and browser.execute("return document.querySelector('.heard').textContent") == "1 work."
    assert browser.execute("return document.activeElement.id") == "q"
    address_found = browser.url()
    browser.open(address_found)
    assert titles(browser) == ["Gull on a Bollard"]
    browser.click("summary")
    browser.clear("#q")
    choose(browser, "show", "open")
    browser.until(lambda: titles(browser) == ["Crab in a Kettle"], "only the open one was left")
    quiet(browser)


def test_a_picture_is_seen_before_it_is_kept(browser, shop, tmp_path):
    address, catalogue = shop
    drawing = tmp_path / "gull.svg"
    drawing.write_bytes(draw.picture("plumb-1928.svg", "Gull"))
    browser.open(address + "/work/gull")
    browser.follow("a[href='/work/gull/picture']")
    browser.upload("#picture", drawing)
    browser.follow("form.sheet button")
    browser.until(lambda: "Is this the picture?" in "".join(texts(browser, "h1")), "the preview was shown")
    browser.until(lambda: browser.execute("const one = document.querySelector('img.large'); return one.complete && one.naturalWidth > 0"), "the picture was shown")
    assert works.get(catalogue, "gull").picture is None
    browser.follow("button[name=keep]")
    browser.until(lambda: "done=picture" in browser.url(), "the picture was kept")
    browser.until(lambda: browser.execute("const one = document.querySelector('img.large'); return one.complete && one.naturalWidth > 0"), "the picture was shown")
    assert files.read(catalogue, works.get(catalogue, "gull").picture) == drawing.read_bytes()
    quiet(browser)


def test_check_suppose_make_it_a_job_decide_and_print(browser, shop, tmp_path):
    address, catalogue = shop
    browser.open(address + "/check")
    browser.type("#find", "crab")
    browser.press("Enter")
    browser.click(".offered input[value=crab]")
    browser.until(lambda: stamps(browser, "table.summary") == ["not settled"], "the answer came by itself")
    browser.click("[id='if.crab/us_renewed'] option[value=no]")
    browser.until(lambda: stamps(browser, "table.summary") == ["no bar found"], "the supposed answer came")
    assert "A supposition, not the record" in browser.text("p.note")
    browser.type("#product", "carved wooden sign")
    browser.follow("button[formaction='/job/new']")
    browser.until(lambda: "/job/new" in browser.url(), "the form of the job was open")
    put(browser, "title", "Crab sign")
    browser.follow("form.sheet .does button")
    browser.until(lambda: "done=job" in browser.url(), "the job was kept")
    job = next(one for one in jobs.listed(catalogue) if one.title == "Crab sign")
    assert stamps(browser, "table.summary") == ["not settled"]  # what was supposed is kept nowhere
    browser.type("#by", "Isbet")
    browser.type("#note", "waits for the renewal search")
    browser.follow("form[action*='/decide'] button")
    browser.until(lambda: "done=decided" in browser.url(), "the decision was recorded")
    assert "waits for the renewal search" in browser.text("#decisions ~ article")
    row, = decisions.of_job(catalogue, job.key)
    assert (row.body["by"], row.body["unsettled"]) == ("Isbet", ["US"])
    quiet(browser)
    browser.follow(f"a[href='/job/{job.key}/sheet']")
    browser.until(lambda: browser.url().endswith("/sheet"), "the sheet was open")
    assert "Crab sign" in browser.text("h1") and "waits for the renewal search" in browser.text("main")
    paper = browser.print(tmp_path / "sheet.pdf", page={"width": 21.0, "height": 29.7})
    assert paper.startswith(b"%PDF-") and paper.rstrip().endswith(b"%%EOF")
    assert 1 <= len(re.findall(rb"/Type\s*/Page\b(?!s)", paper)) <= 6 and len(paper) > 20_000
    quiet(browser)


def test_two_people_edit_one_work(browser, shop):
    address, catalogue = shop
    works.add(catalogue, kept.SCRAP, key="both")
    browser.open(address + "/work/both/edit")
    put(browser, "title", "My title")
    put(browser, "notes", "mine")
    works.change(catalogue, "both", 1, facts={"title": "Their title", "kind": "print"}, access_terms="theirs")
    browser.follow("form.sheet > p.does button")
    browser.until(lambda: "Somebody else changed this work meanwhile" in "".join(texts(browser, "h1")), "the conflict was shown")
    text = browser.text("table")
    assert "Their title" in text and "My title" in text and "both changed it" in text
    assert browser.find("#title").property("value") == "My title" and browser.find("#notes").property("value") == "mine"
    assert browser.find("#access_terms").property("value") == "theirs"
    assert works.get(catalogue, "both").title == "Their title"
    browser.follow("form.sheet > p.does button")
    browser.until(lambda: "done=saved" in browser.url(), "the merged form was kept")
    record = works.get(catalogue, "both")
    assert (record.title, record.notes, record.access_terms, record.kind) == ("My title", "mine", "theirs", "print")
    assert all("409" in one["message"] for one in browser.console())  # the browser itself reports the refused request


def test_by_keyboard_alone(browser, shop):
    address, catalogue = shop
    browser.open(address)
    browser.press("Tab", "Enter")  # past the head of the page
    assert browser.execute("return document.activeElement.id") == "main"
    for _ in range(60):
        browser.press("Tab")
        if browser.execute("return document.activeElement.getAttribute('href')") == "/work/new":
            break
        assert browser.execute(SEEN), browser.execute("return document.activeElement.outerHTML")
    browser.press("Enter")
    browser.until(lambda: browser.url().endswith("/work/new"), "the form was open")
    browser.until(lambda: browser.find_all("#title"), "the form was there")
    for _ in range(30):
        browser.press("Tab")
        if browser.execute("return document.activeElement.id") == "title":
            break
    browser.press(*"Otter", "Tab", "Tab", "d", "Tab", "t", "Tab", *"Ann", "Enter")
    browser.until(lambda: "/ask" in browser.url(), "the work was kept")
    record = next(one for one in works.listed(catalogue) if one.title == "Otter")
    assert (record.kind, record.facts["authorship"], record.makers) == ("drawing", "individual", "Ann")


SEEN = """const one = document.activeElement, style = getComputedStyle(one), box = one.getBoundingClientRect();
    return one !== document.body && style.outlineStyle !== 'none' && parseFloat(style.outlineWidth) >= 3 && box.width > 0"""


@pytest.mark.parametrize("path", ["/", "/work/gull", "/work/gull/edit", "/work/crab/ask", "/check?work=crab", "/works/table", "/job/new"])
def test_focus_is_always_seen(browser, shop, path):
    browser.open(shop[0] + path)
    seen = set()
    for _ in range(40):
        browser.press("Tab")
        if browser.execute("return document.activeElement === document.body"):
            break
        assert browser.execute(SEEN), browser.execute("return document.activeElement.outerHTML")
        seen.add(browser.execute("return document.activeElement.outerHTML"))
    assert len(seen) > 12


def test_everything_without_scripts(scriptless, shop, tmp_path):
    """Add, ask, filter, check, table: the script only adds comfort."""
    address, catalogue = shop
    scriptless.open(address + "/work/new")
    put(scriptless, "title", "Bare Anchor")
    scriptless.follow("form.sheet button:not([type])")
    scriptless.until(lambda: "/ask" in scriptless.url(), "the first question was asked")
    choose(scriptless, "publications.0.date.how", "between")
    scriptless.type("[name='publications.0.date.one']", "1901")
    scriptless.follow("form.sheet .does button")
    assert "A date is missing" in scriptless.text(".wrong")
    scriptless.type("[name='publications.0.date.two']", "1905")
    choose(scriptless, "published", "yes")
    scriptless.type("[name='publications.0.country']", "usa")
    scriptless.follow("form.sheet .does button")
    key = re.search(r"/work/([^/]+)/ask", scriptless.url())[1]
    scriptless.until(lambda: works.get(catalogue, key).version > 1, "the answer was kept")
    assert works.get(catalogue, key).facts["publications"] == [{"date": "[1901..1905]", "country": "US"}]
    scriptless.open(address + "/")
    scriptless.click("summary")
    choose(scriptless, "show", "free")
    scriptless.type("#q", "anchor")
    scriptless.press("Enter")
    scriptless.until(lambda: "show=free" in scriptless.url(), "the filter stood in the address")
    assert titles(scriptless) in (["Bare Anchor"], [])
    scriptless.open(address + "/work/gull")
    scriptless.click("details.world summary")
    scriptless.follow("details.world a")
    scriptless.until(lambda: scriptless.url().endswith("/places"), "all places were shown")
    assert len(scriptless.find_all(".tiles li")) > 150
    table = tmp_path / "list.csv"
    table.write_text("title,kind,country\nBarrel,print,GB\nWheel,pint,GB\n")
    scriptless.open(address + "/works/table")
    scriptless.upload("#table", table)
    scriptless.follow("form.sheet button")
    assert "“pint” cannot stand here" in scriptless.text("tbody")
    scriptless.follow("button[name=keep]")
    scriptless.until(lambda: "done=table" in scriptless.url(), "the good row was kept")
    assert [one.title for one in works.listed(catalogue) if one.title in ("Barrel", "Wheel")] == ["Barrel"]


def test_all_places_unfold_in_place(browser, shop):
    browser.open(shop[0] + "/work/gull")
    browser.click("details.world summary")
    browser.until(lambda: len(browser.find_all("details.world .tiles li")) > 150, "the places were brought in")
    assert browser.url().endswith("/work/gull")
    quiet(browser)


def test_a_broken_work_of_the_kept_files_is_said(browser, shop):
    """A picture that was changed on disk is still served as it is, but a document never is."""
    address, catalogue = shop
    note = files.add(catalogue, b"letter of the heirs", "letter.txt")
    files.path_of(catalogue, note.sha256).write_bytes(b"changed")
    browser.open(f"{address}/file/{note.sha256}")
    assert "was changed on disk" in browser.text("p.problem")


# --- every page, in both colours, wide and narrow -----------------------------------------------------------

CONTRAST = """
const channel = value => (value /= 255, value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4);
const luminance = ([r, g, b]) => 0.2126 * channel(r) + 0.7152 * channel(g) + 0.0722 * channel(b);
const parse = text => (text.match(/[\\d.]+/g) || []).map(Number);
const ground = one => { for (; one; one = one.parentElement) { const found = parse(getComputedStyle(one).backgroundColor); if (found.length === 3 || found[3] > 0) return found; } return [255, 255, 255]; };
const found = [];
const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
for (let node; node = walker.nextNode();) {
    const one = node.parentElement, box = one.getBoundingClientRect();
    if (!node.data.trim() || !box.width || one.closest('svg, datalist, option, script')) continue;
    const [light, dark] = [luminance(parse(getComputedStyle(one).color)), luminance(ground(one))].sort((a, b) => b - a);
    const ratio = (light + 0.05) / (dark + 0.05);
    if (ratio < 4.5) found.push(node.data.trim().slice(0, 40) + ' ' + ratio.toFixed(2));
}
return found;"""
WIDE = "return [...document.querySelectorAll('main *')].filter(one => one.getBoundingClientRect().right > innerWidth + 1 && !one.closest('.scroll, pre, .skip, svg')).slice(0, 3).map(one => one.outerHTML.slice(0, 120))"


@pytest.fixture(scope="module")
def stocked_address(stocked_folder, tmp_path_factory):
    folder = shutil.copytree(stocked_folder, tmp_path_factory.mktemp("live") / "catalogue")
    with live(folder) as address:
        yield address


def test_the_look_at_contrast_sees_what_is_too_faint(browser, stocked_address):
    browser.open(stocked_address + "/settings")
    assert browser.execute(CONTRAST) == []
    browser.execute("document.querySelector('h1').style.color = '#b0a89a'")
    assert len(browser.execute(CONTRAST)) == 1


@pytest.mark.parametrize("path", [path for paths in {**stocked.EXAMPLES, **stocked.PAPERS}.values() for path in paths[:2]])
def test_each_page_is_in_order_wide_and_narrow_light_and_dark(browser, stocked_address, path):
    for width, colours in ((360, "light"), (1280, "dark")):
        browser.resize(width, 800)
        browser.colours(colours)
        browser.open(stocked_address + path)
        assert browser.execute("return document.documentElement.scrollWidth - innerWidth") <= 0, browser.execute(WIDE)
        assert browser.execute(CONTRAST) == [], colours
        entries = [one["message"] for one in browser.console()]
        assert [one for one in entries if not (path in ("/work/none", "/job/none") and "404" in one)] == []


def test_jobs_to_tick_lie_beneath_each_other_on_a_narrow_screen(browser, stocked_address):
    browser.resize(360, 740)
    browser.open(stocked_address + "/complaint/new")
    wide = browser.execute("const box = document.querySelector('.ticks'); return [box.scrollWidth, box.clientWidth, box.querySelectorAll('input').length]")
    assert wide[0] <= wide[1] and wide[2] > 10


def test_the_days_of_the_timeline_stand_in_words_on_a_narrow_screen(browser, stocked_address):
    browser.resize(360, 740)
    browser.open(stocked_address + "/work/plumb-1931?in=US")
    assert "United States: free from" in browser.text("ul.narrow")
    browser.resize(1280, 900)
    assert not browser.find("ul.narrow").shown()
