"""Fixtures that several test files share."""

import os
import shutil
import subprocess
import sys
from pathlib import Path

import browser as client
import pytest
import stocked
import webbed
from demo_modules import DEMO
from registry.catalogue import store


def browser_is_there():
    """Skips the test when there is no browser; fails it where CI is set, since there it must be."""
    if not (absent := client.missing()):
        return
    reason = f"{' and '.join(absent)} not installed (Debian packages chromium and chromium-driver)"
    if os.environ.get("CI"):
        pytest.fail(f"The browser tests cannot run: {reason}.")
    pytest.skip(reason)


@pytest.fixture(scope="session")
def shared_browser():
    browser_is_there()
    with client.Browser() as page:
        yield page


@pytest.fixture
def browser(shared_browser):
    """A blank page of 1280 by 900 in light colours: one browser for the whole run, reset before each test."""
    shared_browser.reset()
    return shared_browser


@pytest.fixture(scope="session")
def shared_scriptless():
    browser_is_there()
    with client.Browser(javascript=False) as page:
        yield page


@pytest.fixture
def scriptless(shared_scriptless):
    """As `browser`, for a reader who blocks scripts."""
    shared_scriptless.reset()
    return shared_scriptless


@pytest.fixture(scope="session")
def demo_folder(tmp_path_factory):
    """The folder of a catalogue filled with the demo shop; to be looked at, not changed."""
    folder = tmp_path_factory.mktemp("demo") / "catalogue"
    subprocess.run([sys.executable, str(DEMO / "fill.py"), "--catalogue", str(folder)], check=True, stdout=subprocess.DEVNULL, cwd=DEMO)
    return folder


@pytest.fixture
def demo_copy(demo_folder, tmp_path):
    """A copy of the demo shop that a test may change."""
    return Path(shutil.copytree(demo_folder, tmp_path / "demo"))


@pytest.fixture(scope="session")
def demo_site(demo_folder):
    """The pages of the demo shop in this process; to be looked at, not changed."""
    site = webbed.Site(demo_folder)
    yield site
    site.close()


@pytest.fixture
def site(tmp_path):
    """The pages of an empty catalogue in this process, and its folder as `site.folder`."""
    store.create(tmp_path / "catalogue").db.close()
    site = webbed.Site(tmp_path / "catalogue")
    site.folder = tmp_path / "catalogue"
    yield site
    site.close()


@pytest.fixture
def catalogue(site):
    """The empty catalogue of `site`, read and written beside its pages."""
    found = store.open_catalogue(site.folder)
    yield found
    found.db.close()


@pytest.fixture(scope="session")
def stocked_folder(demo_folder, tmp_path_factory):
    """The folder of the demo shop with something of every kind on record; to be looked at, not changed."""
    folder = Path(shutil.copytree(demo_folder, tmp_path_factory.mktemp("stocked") / "catalogue"))
    stocked.enrich(folder)
    return folder


@pytest.fixture(scope="session")
def stocked_site(stocked_folder):
    """The pages of that shop in this process."""
    site = webbed.Site(stocked_folder)
    yield site
    site.close()
