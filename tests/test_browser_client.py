"""The WebDriver client does what it says, on a page made for it."""

import contextlib
import functools
import http.server
import struct
import threading
from pathlib import Path

import browser as client
import conftest
import driver
import pytest

PAGE = """<!doctype html><html lang="en"><title>Signs</title>
<link rel="icon" href="data:,">
<style>
  body { margin: 0; background: rgb(255, 255, 255); }
  @media (prefers-color-scheme: dark) { body { background: rgb(1, 2, 3); } }
  .tall { height: 3000px; }
</style>
<form><label>Name <input name="name" value="old"></label>
<input type="file" name="picture" multiple>
<button type="button" data-kind="greet">Greet</button></form>
<p id="said"></p><p id="late"></p><noscript>No scripts here.</noscript>
<ul><li>heron</li><li>anchor</li></ul><a href="/second.html">second</a>
<div class="tall"></div>
<script>
  document.querySelector("button").onclick = () => {
    document.querySelector("#said").textContent = "Hello " + document.querySelector("[name=name]").value;
    console.warn("greeted once");
    setTimeout(() => { document.querySelector("#late").innerHTML = "<b>later</b>"; }, 300);
  };
</script></html>"""


class Quiet(http.server.SimpleHTTPRequestHandler):
    def log_message(self, *_):
        pass


@pytest.fixture(scope="module")
def site(tmp_path_factory):
    folder = tmp_path_factory.mktemp("site")
    (folder / "index.html").write_text(PAGE)
    (folder / "second.html").write_text("<!doctype html><title>Second</title><link rel=icon href='data:,'>")
    server = http.server.ThreadingHTTPServer(("127.0.0.1", 0), functools.partial(Quiet, directory=folder))
    threading.Thread(target=server.serve_forever, daemon=True).start()
    yield f"http://127.0.0.1:{server.server_port}/"
    server.shutdown()
    server.server_close()


def png_size(data):
    assert data.startswith(b"\x89PNG\r\n\x1a\n")
    return struct.unpack(">II", data[16:24])


def processes_naming(folder):
    """Command lines that name a folder; a process that has ended has none."""
    found = []
    for entry in Path("/proc").glob("[0-9]*/cmdline"):
        with contextlib.suppress(OSError):
            found.append(entry.read_bytes())
    return [line for line in found if str(folder).encode() in line]


def background(page):
    return page.execute("return getComputedStyle(document.body).backgroundColor")


def test_types_clicks_and_waits(browser, site):
    browser.open(site)
    browser.clear("[name=name]")
    browser.type("[name=name]", "Märta")
    browser.click("button")
    assert browser.text("#said") == "Hello Märta"
    assert browser.text("#late b") == "later"  # there only after 300 ms
    assert browser.attribute("button", "data-kind") == "greet"
    assert browser.attribute("button", "title") is None
    assert browser.find("[name=name]").property("value") == "Märta"
    assert [item.text() for item in browser.find_all("li")] == ["heron", "anchor"]
    assert [item.text() for item in browser.find("ul").find_all("li")] == ["heron", "anchor"]
    assert browser.find_all("table") == []
    browser.follow("a")
    assert browser.title() == "Second"
    assert browser.url() == site + "second.html"


def test_an_element_that_never_comes_is_one_sentence(browser, site):
    browser.open(site)
    browser.patience, before = 0.2, browser.patience
    try:
        with pytest.raises(client.BrowserError, match='^Waited in vain until there was "#never".$'):
            browser.find("#never")
    finally:
        browser.patience = before


@pytest.mark.parametrize(
    ("error", "message", "kind"),
    [
        ("stale element reference", "stale element not found", "stale element reference"),
        ("unknown error", 'inspector error: {"message":"Node with given id does not belong to the document"}',
         "stale element reference"),
        ("unknown error", "the browser crashed", "unknown error"),
    ],
)
def test_an_element_whose_page_is_leaving_is_told_from_other_errors(error, message, kind):
    assert driver.kind_of({"error": error, "message": message}) == kind


def test_presses_keys(browser, site):
    browser.open(site)
    browser.press("Tab", "Control+a", "n", "e", "w", "Tab", "Tab", "Enter")
    assert browser.text("#said") == "Hello new"
    browser.press("Shift+Tab", "Shift+Tab")
    assert browser.execute("return document.activeElement.name") == "name"


def test_uploads_files(browser, site, tmp_path):
    files = [tmp_path / "heron.png", tmp_path / "anchor.png"]
    for file in files:
        file.write_bytes(b"picture")
    browser.open(site)
    browser.upload("[name=picture]", *files)
    chosen = "return [...document.querySelector('[name=picture]').files].map(f => f.name + ' ' + f.size)"
    assert browser.execute(chosen) == ["heron.png 7", "anchor.png 7"]


def test_reads_the_console(browser, site):
    browser.open(site)
    assert browser.console() == []
    browser.click("button")
    browser.execute("console.error('from ' + arguments[0])", "outside")
    entries = browser.console()
    assert [entry["level"] for entry in entries] == ["WARNING", "SEVERE"]
    assert "greeted once" in entries[0]["message"] and "from outside" in entries[1]["message"]
    assert browser.console() == []


@pytest.mark.parametrize("size", [(1280, 900), (360, 640)])
def test_screenshot_has_the_size_asked_for(browser, site, tmp_path, size):
    browser.resize(*size)
    browser.open(site)
    data = browser.screenshot(tmp_path / "view.png")
    assert png_size(data) == size
    assert (tmp_path / "view.png").read_bytes() == data
    assert browser.execute("return [innerWidth, innerHeight]") == list(size)
    width, height = png_size(browser.screenshot(whole=True))
    assert width == size[0] and 3000 < height < 3400


def test_size_and_colours_outlive_a_change_of_host(browser, site):
    browser.resize(400, 500)
    browser.colours("dark")
    browser.open(site)
    browser.open(site.replace("127.0.0.1", "localhost"))
    assert browser.execute("return [innerWidth, innerHeight]") == [400, 500]
    assert background(browser) == "rgb(1, 2, 3)"


def test_prints(browser, site, tmp_path):
    browser.open(site)
    data = browser.print(tmp_path / "page.pdf", orientation="landscape")
    assert data.startswith(b"%PDF-") and b"%%EOF" in data[-32:]
    assert (tmp_path / "page.pdf").read_bytes() == data


def test_dark_and_light(browser, site):
    browser.open(site)
    assert background(browser) == "rgb(255, 255, 255)"
    browser.colours("dark")
    assert background(browser) == "rgb(1, 2, 3)"


def test_reset_forgets_the_test_before(browser, site):
    browser.open(site)
    browser.colours("dark")
    browser.resize(300, 300)
    browser.execute("document.cookie = 'a=b'; console.error('left behind')")
    browser.reset()
    assert browser.url() == "about:blank"
    assert browser.console() == []
    browser.open(site)
    assert browser.execute("return document.cookie") == ""
    assert browser.execute("return [innerWidth, innerHeight]") == [1280, 900]
    assert background(browser) == "rgb(255, 255, 255)"


def test_without_scripts(scriptless, site):
    scriptless.open(site)
    # Not by text(): WebDriver's idea of visible text leaves <noscript> out even where it is shown.
    assert "No scripts here." in scriptless.execute("return document.body.innerText")
    scriptless.click("button")
    assert scriptless.text("#said") == ""
    assert scriptless.execute("return 6 * 7") == 42


def test_a_start_that_fails_leaves_nothing_running(tmp_path, monkeypatch):
    conftest.browser_is_there()
    monkeypatch.setattr(driver.tempfile, "tempdir", str(tmp_path))
    with pytest.raises(client.BrowserError, match="^The browser refused POST /session"):
        client.Browser(chromium="/bin/false")
    assert list(tmp_path.iterdir()) == []
    assert processes_naming(tmp_path) == []


def test_the_end_leaves_nothing_running():
    conftest.browser_is_there()
    with client.Browser() as page:
        folder = page.driver.folder
        assert processes_naming(folder)
        page.driver.process.kill()  # so that the browser cannot be asked to leave
    assert page.driver.process.returncode is not None
    assert processes_naming(folder) == []
    assert not folder.exists()


@pytest.mark.parametrize("ci, outcome", [("", pytest.skip.Exception), ("true", pytest.fail.Exception)])
def test_a_missing_browser_skips_here_and_fails_on_a_build_machine(monkeypatch, ci, outcome):
    monkeypatch.setenv("CI", ci)
    monkeypatch.setattr(driver.shutil, "which", lambda name: None)
    with pytest.raises(outcome, match="chromium and chromedriver not installed"):
        conftest.browser_is_there()
