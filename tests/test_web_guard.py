"""The guard: who may ask, who may write, before any page is reached."""

import pytest

from registry.web.guard import refused

HERE = {"host": "127.0.0.1:8001"}


@pytest.mark.parametrize("host", ["127.0.0.1", "127.0.0.1:8001", "localhost:99", "LOCALHOST", "[::1]:8001", "[::1]"])
def test_this_machine_is_answered(host):
    assert refused("GET", {"host": host}) is None


@pytest.mark.parametrize("host", ["", "example.org", "127.0.0.1.example.org", "localhost.example.org:80", "10.0.0.1", "[::2]", "127.0.0.2"])
def test_other_names_are_refused(host):
    assert refused("GET", {"host": host})[0] == 421


@pytest.mark.parametrize("headers, allowed", [
    ({}, True),
    ({"sec-fetch-site": "same-origin", "origin": "http://127.0.0.1:8001"}, True),
    ({"sec-fetch-site": "none"}, True),
    ({"sec-fetch-site": "cross-site"}, False),
    ({"sec-fetch-site": "same-site"}, False),
    ({"origin": "http://example.org"}, False),
    ({"origin": "null"}, False),
    ({"origin": "http://127.0.0.1:9999"}, False),
    ({"sec-fetch-site": "same-origin", "origin": "http://example.org"}, False),
])
def test_writes_come_from_our_own_pages(headers, allowed):
    answer = refused("POST", {**HERE, **headers})
    assert (answer is None) is allowed
    assert allowed or answer[0] == 403


def test_reading_from_elsewhere_is_not_a_write():
    assert refused("GET", {**HERE, "sec-fetch-site": "cross-site"}) is None
