"""A small W3C WebDriver client: drives Debian's Chromium through chromedriver with the standard library.

    with Browser() as page:
        page.open("http://127.0.0.1:8001/")
        page.type("input[name=q]", "heron")
        page.click("button")
        assert "heron" in page.text("main")

A selector is CSS. `find` and everything built on it waits up to `patience` seconds for the element;
`find_all` answers at once. All failures are `BrowserError`, one plain sentence.
"""

import base64
from pathlib import Path

from driver import STALE, BrowserError, Driver, missing, until

__all__ = ["Browser", "BrowserError", "Element", "missing"]

ELEMENT = "element-6066-11e4-a52e-4f735466cecf"  # the W3C name of a reference to an element
LEAVING = (STALE, "detached shadow root")  # the element was there, and its page is gone
KEYS = {
    name: chr(code)
    for name, code in {
        "Backspace": 0xE003, "Tab": 0xE004, "Enter": 0xE007, "Shift": 0xE008, "Control": 0xE009,
        "Alt": 0xE00A, "Escape": 0xE00C, "Space": 0x20, "PageUp": 0xE00E, "PageDown": 0xE00F,
        "End": 0xE010, "Home": 0xE011, "ArrowLeft": 0xE012, "ArrowUp": 0xE013, "ArrowRight": 0xE014,
        "ArrowDown": 0xE015, "Delete": 0xE017,
    }.items()
}


class Element:
    """One element of the page that is open."""

    def __init__(self, browser, reference):
        self.browser = browser
        self.reference = reference

    def _call(self, method, path, body=None):
        return self.browser.call(method, f"/element/{self.reference}{path}", body)

    def text(self):
        """Text as it is shown."""
        return self._call("GET", "/text")

    def attribute(self, name):
        """Value of an attribute, None when it is not there."""
        return self._call("GET", f"/attribute/{name}")

    def property(self, name):
        """Present value of a property, such as `value` or `checked`."""
        return self._call("GET", f"/property/{name}")

    def shown(self):
        """True when the element can be seen."""
        return self._call("GET", "/displayed")

    def click(self):
        self._call("POST", "/click", {})

    def type(self, text):
        self._call("POST", "/value", {"text": text})

    def clear(self):
        self._call("POST", "/clear", {})

    def upload(self, *paths):
        """Puts files into a file input."""
        self.type("\n".join(str(Path(path).resolve(strict=True)) for path in paths))

    def find_all(self, css):
        """Elements inside this one."""
        found = self._call("POST", "/elements", {"using": "css selector", "value": css})
        return [Element(self.browser, item[ELEMENT]) for item in found]


class Browser:
    """A browser of its own with an empty profile; use it with `with`.

    javascript=False blocks the scripts of pages (`execute` still works). width and height are those of the
    page in CSS pixels. chromium is the program, for a test of a start that fails.
    """

    def __init__(self, width=1280, height=900, dark=False, javascript=True, patience=5.0, chromium=None):
        self.size = (width, height)
        self.dark = dark
        self.patience = patience
        self.driver = Driver(javascript, chromium)
        self.call = self.driver.call

    def __enter__(self):
        try:
            self.reset()
        except BaseException:
            self.end()
            raise
        return self

    def __exit__(self, *_):
        self.end()

    def end(self):
        """Ends browser and driver and removes the profile."""
        self.driver.end()

    def reset(self):
        """Back to a blank page with the first size and colours, no cookies, an empty console."""
        self.open("about:blank")
        self.cdp("Network.clearBrowserCookies")
        self.resize(*self.size)
        self.colours("dark" if self.dark else "light")
        self.console()

    def cdp(self, command, **parameters):
        """Result of a command of Chromium's own protocol, for what WebDriver cannot do."""
        return self.call("POST", "/goog/cdp/execute", {"cmd": command, "params": parameters})

    # -- the page

    def open(self, url):
        """Opens an address and returns when the page has loaded."""
        self.call("POST", "/url", {"url": url})

    def url(self):
        return self.call("GET", "/url")

    def title(self):
        return self.call("GET", "/title")

    def source(self):
        """The page as HTML, as it stands now."""
        return self.call("GET", "/source")

    def execute(self, script, *arguments):
        """What a script returns; `return document.title`, with arguments[0] and so on."""
        return self.call("POST", "/execute/sync", {"script": script, "args": list(arguments)})

    def until(self, test, what, seconds=None):
        """First true answer of `test`; BrowserError with `what` when the patience ends."""
        return until(test, what, seconds or self.patience)

    def find_all(self, css):
        """Elements that are there now, in the order of the page."""
        found = self.call("POST", "/elements", {"using": "css selector", "value": css})
        return [Element(self, item[ELEMENT]) for item in found]

    def find(self, css):
        """First element, as soon as there is one."""
        return self.until(lambda: self.find_all(css), f'there was "{css}"')[0]

    def _with(self, css, step):
        """What `step(element)` gives for the first element; tried again while a page that is leaving takes it away."""
        last = []

        def tried():
            try:
                return [step(self.find(css))]
            except BrowserError as error:
                if error.kind not in LEAVING:
                    raise
                last[:] = [error]
                return None

        try:
            return self.until(tried, f'"{css}" stayed long enough to be used')[0]
        except BrowserError:
            raise last[0] if last else BrowserError(f'"{css}" could not be used.') from None

    def text(self, css="body"):
        return self._with(css, Element.text)

    def attribute(self, css, name):
        return self._with(css, lambda one: one.attribute(name))

    def click(self, css):
        self._with(css, Element.click)

    def follow(self, css):
        """Clicks what leads to another page, and returns when this one is gone."""
        here = self.find("html")
        self.click(css)
        self.until(lambda: self._left(here), f'"{css}" led to another page')

    def _left(self, element):
        try:
            self.call("GET", f"/element/{element.reference}/name")
        except BrowserError as error:
            if error.kind not in LEAVING:
                raise
            return True
        return False

    def type(self, css, text):
        self._with(css, lambda one: one.type(text))

    def clear(self, css):
        self._with(css, Element.clear)

    def upload(self, css, *paths):
        self._with(css, lambda one: one.upload(*paths))

    def press(self, *chords):
        """Presses keys where the focus is: "Tab", "Shift+Tab", "a", "Control+a"; names are in KEYS."""
        actions = []
        for chord in chords:
            keys = [KEYS.get(name, name) for name in (chord.split("+") if len(chord) > 1 else [chord])]
            actions += [{"type": "keyDown", "value": key} for key in keys]
            actions += [{"type": "keyUp", "value": key} for key in reversed(keys)]
        self.call("POST", "/actions", {"actions": [{"type": "key", "id": "keys", "actions": actions}]})

    def console(self):
        """Entries since the last call: level ("SEVERE", "WARNING", "INFO"), source, message, timestamp."""
        return self.call("POST", "/se/log", {"type": "browser"})

    # -- how it looks

    def resize(self, width, height):
        """Sets the page's size in CSS pixels; smaller than a window can be is allowed."""
        self.cdp("Emulation.setDeviceMetricsOverride", width=width, height=height, deviceScaleFactor=1, mobile=False)

    def colours(self, scheme):
        """Sets what the reader prefers: "dark" or "light"."""
        self.cdp("Emulation.setEmulatedMedia", features=[{"name": "prefers-color-scheme", "value": scheme}])

    def screenshot(self, path=None, whole=False):
        """PNG bytes of what is in view, or of the whole page; also written to `path` when given."""
        if whole:
            size = self.cdp("Page.getLayoutMetrics")["cssContentSize"]
            png = self.cdp("Page.captureScreenshot", captureBeyondViewport=True, clip={**size, "scale": 1})["data"]
        else:
            png = self.call("GET", "/screenshot")
        return _bytes(png, path)

    def print(self, path=None, **options):
        """PDF bytes of the page as printed; options are WebDriver's (orientation, page, margin ...)."""
        return _bytes(self.call("POST", "/print", options), path)


def _bytes(text, path):
    data = base64.b64decode(text)
    if path:
        Path(path).write_bytes(data)
    return data
