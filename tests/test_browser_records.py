"""In a real browser, from an empty form to the record: marks, permissions, complaints, settings, calendar, due, law."""

import pytest
from kept import GULL, new
from live import live

from registry.catalogue import complaints, jobs, marks, permissions, settings, works

PAGES = ("/marks", "/marks/search?words=gullcraft&in=US", "/marks/searched", "/marks/table", "/mark/new", "/mark/m1", "/mark/m1/edit", "/permissions", "/permission/1", "/permission/new?work=gull",
         "/complaints", "/complaint/c1", "/complaint/new", "/calendar?until=2099", "/due?within=3660", "/due/proof", "/settings", "/law", "/law/US", "/law/DE")
UNLABELLED = """return [...document.querySelectorAll('main input:not([type=hidden]), main select, main textarea')]
    .filter(one => !one.labels.length || !one.labels[0].textContent.trim()).map(one => one.name)"""
HEADINGS = "return [...document.querySelectorAll('h1, h2, h3, h4')].map(one => Number(one.tagName[1]))"
DANGLING = """return [...document.querySelectorAll('[aria-describedby], [aria-labelledby], [for], [list]')].flatMap(one =>
    ['aria-describedby', 'aria-labelledby', 'for', 'list'].flatMap(name => (one.getAttribute(name) || '').split(' ').filter(id => id && !document.getElementById(id))))"""
TWICE = "return [...document.querySelectorAll('[id]')].map(one => one.id).filter((id, at, all) => all.indexOf(id) !== at)"


@pytest.fixture(scope="module")
def shop(tmp_path_factory):
    """(address, Catalogue) of a small shop that is served."""
    catalogue = new(tmp_path_factory.mktemp("live"))
    settings.put(catalogue, name="Ninepin Slip", markets=["US", "GB"])
    works.add(catalogue, GULL, key="gull")
    works.add(catalogue, {**GULL, "title": "Later gull", "created": "1950", "publications": [{"date": "1950", "country": "US"}]}, key="later")
    marks.add(catalogue, ["gull"], words="GULLCRAFT", office="US", number="invented-1", classes=[20], state="registered", look_again="2026-01-01")
    permissions.add(catalogue, "gull", "licence", licensor="P. Quill", quantity=5)
    jobs.add(catalogue, key="signs", title="Gull signs", markets=["US"], sold_on="2026-10-01")
    jobs.use(catalogue, "signs", "gull", "picture")
    complaints.add(catalogue, received="2026-10-02", sender="Gullcraft", claim="Ours.", jobs=["signs"], marks=["m1"], deadline="2026-10-20")
    with live(catalogue.folder) as address:
        yield address, catalogue
    catalogue.db.close()


def fill(page, **fields):
    """Types into the fields of these names, in place of what stands there."""
    for name, text in fields.items():
        page.clear(f"main [name='{name}']")
        page.type(f"main [name='{name}']", text)


def choose(page, name, value):
    page.click(f"main select[name='{name}'] option[value='{value}']")


def press(page, css, path):
    """Presses a button or link and waits until an address with this part is open."""
    page.click(css)
    page.until(lambda: path in page.url(), f"the page {path} was open")


def kept_at(page, path):
    """Waits for the page to which a form leads, and finds its word of success there."""
    page.until(lambda: path in page.url(), f"the page {path} was open")
    return page.text("p.done")


@pytest.mark.parametrize("path", PAGES)
def test_each_page_is_in_order_at_360_pixels_and_in_the_dark(browser, shop, path):
    browser.resize(360, 740)
    browser.colours("dark")
    browser.open(shop[0] + path)
    levels = browser.execute(HEADINGS)
    assert levels.count(1) == 1 and levels[0] == 1 and all(b - a <= 1 for a, b in zip(levels, levels[1:])), levels
    assert browser.execute(UNLABELLED) == [] and browser.execute(DANGLING) == [] and browser.execute(TWICE) == []
    assert browser.execute("return document.documentElement.scrollWidth - innerWidth") <= 0
    assert [one["message"] for one in browser.console()] == []


def test_a_mark_is_added_and_edited_without_scripts(scriptless, shop):
    address, catalogue = shop
    scriptless.open(address + "/marks")
    press(scriptless, "a[href='/mark/new']", "/mark/new")
    fill(scriptless, words="RED WREN", office="us", number="invented-7", classes="20, 99", works="gull")
    choose(scriptless, "state", "registered")
    scriptless.follow("form.sheet button")
    assert "99" in scriptless.text("#classes-wrong") and scriptless.find("#words").property("value") == "RED WREN"
    fill(scriptless, classes="20, 35")
    scriptless.follow("form.sheet button")
    assert kept_at(scriptless, "/mark/m") == "The mark is on record."
    press(scriptless, "a[href$='/edit']", "/edit")
    fill(scriptless, avoid="the name on spades")
    scriptless.follow("form.sheet button")
    assert kept_at(scriptless, "done=saved") and "the name on spades" in scriptless.text("p.beware")
    mark = marks.listed(catalogue, "RED WREN")[0]
    assert (mark.classes, mark.office, mark.works, mark.avoid) == ((20, 35), "US", ("gull",), "the name on spades")


def test_a_wording_is_compared_and_the_search_kept(browser, shop):
    address, catalogue = shop
    browser.open(address + "/marks")
    browser.type("#words", "Gullcraft")
    browser.type("#product", "carved wooden sign")
    press(browser, "form[action='/marks/search'] button", "words=Gullcraft")
    assert "US" in browser.text(".answer h2")
    assert "hold" in [one.text() for one in browser.find_all(".answer .stamp")] and "no clearance" in browser.text("main")
    press(browser, "a[href^='/marks/searched']", "/marks/searched")
    assert browser.find("#words").property("value") == "Gullcraft"
    fill(browser, place="GB", by="Isbet", at="2026-10-01")
    browser.follow("form.sheet button")
    assert "not a clearance" in kept_at(browser, "done=searched")
    assert [(one.words, one.place, one.by, one.result) for one in marks.searches(catalogue)] == [("Gullcraft", "GB", "Isbet", marks.NIL)]


def test_marks_from_a_table(scriptless, shop, tmp_path):
    address, catalogue = shop
    table = tmp_path / "wrens.csv"
    table.write_text("words,office,classes\nBLUE WREN,GB,24\nGREY WREN,GB,77\n")
    scriptless.open(address + "/marks/table")
    scriptless.upload("#table", table)
    scriptless.follow("form.sheet button")
    assert "The class is 77" in scriptless.text("td .wrong") and marks.listed(catalogue, "BLUE WREN") == []
    table.write_text("words,office,classes\nBLUE WREN,GB,24\nGREY WREN,GB,25\n")
    scriptless.upload("#table", table)
    scriptless.follow("form.sheet button")
    scriptless.follow("button[name=keep]")
    assert kept_at(scriptless, "/marks?") and len(marks.listed(catalogue, "Y WREN")) == 1 and len(marks.listed(catalogue, "BLUE WREN")) == 1


def test_a_permission_with_its_document_by_keyboard_alone(browser, shop, tmp_path):
    address, catalogue = shop
    letter = tmp_path / "letter.txt"
    letter.write_text("You may make five hundred signs.")
    browser.open(address + "/permission/new?work=later")
    browser.execute("document.querySelector('#licensor').focus()")
    browser.press(*"Quill", "Tab", "Tab", *"goods", "Tab", *"US", "Tab", *"wood", "Tab", *"many", "Enter")
    assert "many" in browser.text("#quantity-wrong") and browser.find("#media").property("value") == "wood"
    fill(browser, quantity="500", valid_to="2030-12-31")
    choose(browser, "commercial", "yes")
    browser.upload("#document", letter)
    browser.follow("form.sheet button")
    assert kept_at(browser, "/permission/2") == "The permission is on record." and "0 of 500" in browser.text("main")
    one, = permissions.of_work(catalogue, "later")
    assert (one.licensor, one.uses, one.places, one.media, one.quantity, one.commercial, one.changes_allowed) == ("Quill", ("goods",), ("US",), ("wood",), 500, True, None)
    press(browser, "a[href^='/permission/new?like=']", "like=")
    assert browser.find("#licensor").property("value") == "Quill"


def test_a_complaint_and_its_answer_without_scripts(scriptless, shop, tmp_path):
    address, catalogue = shop
    letter = tmp_path / "complaint.txt"
    letter.write_text("Stop it.")
    scriptless.open(address + "/complaint/new")
    fill(scriptless, sender="Wren & Daughters", claim="Your wren is ours.")
    scriptless.upload("#file", letter)
    scriptless.follow("form.sheet button")
    assert "jobs" in scriptless.text("#jobs-wrong")
    scriptless.click("input[name=jobs][value=signs]")
    scriptless.follow("form.sheet button")
    assert kept_at(scriptless, "/complaint/c2") == "The complaint is in the ledger."
    assert complaints.get(catalogue, "c2").file and "complaint.txt" in scriptless.text("main")
    fill(scriptless, says="We showed our decision.", by="Isbet")
    choose(scriptless, "outcome", "settled")
    scriptless.follow("#answer button")
    assert kept_at(scriptless, "done=answered") and complaints.get(catalogue, "c2").state == "closed"


def test_settings_are_kept(scriptless, shop):
    address, catalogue = shop
    before = settings.everything(catalogue)
    scriptless.open(address + "/settings")
    fill(scriptless, markets="US, Canada, FAIRS", **{"group.0.name": "fairs", "group.0.members": "GB, Nowhere"})
    scriptless.follow("form.sheet button")
    assert "Nowhere" in scriptless.text("main .wrong") and settings.everything(catalogue) == before
    fill(scriptless, **{"group.0.members": "GB, Ireland"})
    scriptless.follow("form.sheet button")
    assert kept_at(scriptless, "done=settings")
    assert settings.everything(catalogue) == {"name": "Ninepin Slip", "markets": ["US", "CA", "FAIRS"], "groups": {"FAIRS": ["GB", "IE"]}}
    settings.put(catalogue, **before)


def test_calendar_due_and_law_are_narrowed(scriptless, shop):
    address, _catalogue = shop
    scriptless.open(address + "/calendar")
    fill(scriptless, until="2046", **{"in": "US"})
    press(scriptless, "main form button", "until=2046")
    assert scriptless.text("main section h2").startswith("1 January 2046") and "Later gull: US" in scriptless.text("main section li")
    scriptless.open(address + "/due")
    choose(scriptless, "within", "365")
    press(scriptless, "main form button", "within=365")
    assert "Gull signs" in scriptless.text("section[aria-labelledby=undecided]")
    assert "passed" in scriptless.text("section[aria-labelledby=ending]")
    scriptless.open(address + "/law")
    fill(scriptless, q="island")
    choose(scriptless, "show", "not")
    press(scriptless, "main form button", "show=not")
    names = [one.text() for one in scriptless.find_all(".lands a")]
    assert names and all("island" in name.lower() for name in names)
