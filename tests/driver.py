"""Chromedriver and its Chromium as processes, and the W3C WebDriver protocol to them; see browser.py."""

import contextlib
import http.client
import json
import os
import re
import shutil
import signal
import subprocess
import tempfile
import time
import urllib.error
import urllib.request
from pathlib import Path

FLAGS = [
    "--headless=new",
    "--no-sandbox",  # the sandbox does not start for root, which build machines are
    "--disable-gpu",
    "--disable-quic",
    "--disable-dev-shm-usage",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--hide-scrollbars",
]
NO_SCRIPTS = {"profile.default_content_setting_values.javascript": 2}
STALE = "stale element reference"
GONE = (  # what Chromium says of an element whose page is leaving, and chromedriver passes on as "unknown error"
    "does not belong to the document",
    "No node with given id found",
    "Cannot find context with specified id",
)
DIRECT = urllib.request.build_opener(urllib.request.ProxyHandler({}))  # never through a proxy


class BrowserError(AssertionError):
    """Something the browser could not do; `kind` is WebDriver's short name for it, or ""."""

    def __init__(self, message, kind=""):
        super().__init__(message)
        self.kind = kind


def missing():
    """Names of the programs that are needed and not installed, [] when all are there."""
    return [name for name in ("chromium", "chromedriver") if not shutil.which(name)]


def until(test, what, seconds):
    """First true answer of `test`; BrowserError with `what` when the seconds are over."""
    end = time.monotonic() + seconds
    while True:
        if answer := test():
            return answer
        if time.monotonic() > end:
            raise BrowserError(f"Waited in vain until {what}.")
        time.sleep(0.05)


def kind_of(value):
    """WebDriver's short name for an error it answered, also where chromedriver did not find it."""
    return STALE if any(said in value["message"] for said in GONE) else value["error"]


class Driver:
    """A running pair of chromedriver and Chromium with an empty profile; `end` it in any case.

    A start that fails ends what it had started and raises BrowserError.
    """

    def __init__(self, javascript=True, chromium=None):
        self.folder = Path(tempfile.mkdtemp(prefix="browser-"))
        self.process = None
        self.session = ""
        try:
            self.address = self._start()
            options = {
                "binary": chromium or shutil.which("chromium"),
                "args": [*FLAGS, f"--user-data-dir={self.folder / 'profile'}"],
                "prefs": {} if javascript else NO_SCRIPTS,
            }
            wanted = {"goog:chromeOptions": options, "goog:loggingPrefs": {"browser": "ALL"}}
            found = self.call("POST", "/session", {"capabilities": {"alwaysMatch": wanted}}, 60)
            self.session = "/session/" + found["sessionId"]
        except BaseException:
            self.end()
            raise

    def _start(self):
        """Address of a new chromedriver, on a port that it chose itself."""
        log = self.folder / "driver.log"
        with log.open("wb") as out:
            self.process = subprocess.Popen(
                ["chromedriver", "--port=0"], stdin=subprocess.DEVNULL, stdout=out, stderr=out, start_new_session=True
            )

        def port():
            return self.process.poll() is not None or re.search(r"successfully on port (\d+)", log.read_text())

        found = until(port, "chromedriver said on which port it listens", 20)
        if found is True:
            raise BrowserError(f"chromedriver ended at once: {log.read_text().strip()}")
        return f"http://127.0.0.1:{found[1]}"

    def call(self, method, path, body=None, seconds=30):
        """Value of one WebDriver command; path is below the session's."""
        request = urllib.request.Request(
            self.address + self.session + path,
            method=method,
            data=None if body is None else json.dumps(body).encode(),
            headers={"Content-Type": "application/json"},
        )
        try:
            with DIRECT.open(request, timeout=seconds) as reply:
                return json.load(reply)["value"]
        except urllib.error.HTTPError as error:
            value = json.load(error)["value"]
            says = value["message"].splitlines()[0]
            raise BrowserError(f"The browser refused {method} {path or '/'}: {says}", kind_of(value)) from None
        except (OSError, http.client.HTTPException) as error:
            raise BrowserError(f"The browser does not answer: {error}") from None

    def end(self):
        """Ends browser and driver, whatever state they are in, and removes the profile."""
        try:
            if self.session:
                self.call("DELETE", "", seconds=10)
        except BrowserError:
            pass  # what is left is ended below
        self.session = ""
        if self.process:
            self.process.kill()
            self.process.wait()
        try:
            until(self._nothing_left, "the browser had ended", 10)
        finally:
            shutil.rmtree(self.folder, ignore_errors=True)

    def _nothing_left(self):
        """True when no process of ours is left; one that is gets killed, which takes a moment."""
        alive = self.left_over()
        for process in alive:
            with contextlib.suppress(ProcessLookupError):
                os.kill(process, signal.SIGKILL)
        return not alive

    def left_over(self):
        """Ids of browser processes that outlived their driver; they carry our profile's path."""
        mark = str(self.folder).encode()
        return [int(entry.name) for entry in Path("/proc").glob("[0-9]*") if mark in _command_line(entry)]


def _command_line(entry):
    try:
        return (entry / "cmdline").read_bytes()
    except OSError:
        return b""
