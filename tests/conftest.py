"""Fixtures that several test files share."""

import os

import browser as client
import pytest


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
