"""Forms as they arrive: multipart cut at its boundary, bytes untouched, limits kept."""

import asyncio

import pytest
import webbed
from registry.errors import RegistryError
from registry.web import body

PATTERNS = [
    b"", b"\r\n", b"\r\n--", b"--", b"\x00\xff\xfe", b"a\r\nb", b"--a1b2c3", b"\r\n------a1b2c", b"\n", b"\r", bytes(range(256)) * 50,
    "Zauberflöte – ½ \u2028".encode(),
]


@pytest.mark.parametrize("content", [one for one in PATTERNS if one])
def test_files_come_out_as_they_went_in(content):
    sent, kind = webbed.multipart([("title", "Otter & Co"), ("title", "zwei")], [("picture", "otter.png", content)])
    form = body.split(sent, kind)
    assert form.file("picture").content == content
    assert form.file("picture").name == "otter.png"
    assert form.texts == {"title": ["Otter & Co", "zwei"]}


def test_a_file_field_left_empty_is_no_file():
    sent, kind = webbed.multipart([], [("picture", "", b"")])
    assert body.split(sent, kind).file("picture") is None


@pytest.mark.parametrize("name, kept", [("../../etc/passwd", "passwd"), ("C:\\shop\\sign.svg", "sign.svg"), ("a/b/", "file")])
def test_a_file_name_is_no_path(name, kept):
    sent, kind = webbed.multipart([], [("picture", name, b"x")])
    assert body.split(sent, kind).file("picture").name == kept


def test_line_ends_are_made_one_and_control_signs_left_out():
    sent, kind = webbed.multipart([("notes", "a\r\nb\rc\x00\x1bd\te")], [])
    assert body.split(sent, kind).get("notes") == "a\nb\ncd\te"


@pytest.mark.parametrize("kind, content, sentence", [
    ("multipart/form-data", b"--x\r\n", "names no boundary"),
    ("multipart/form-data; boundary=x", b"--x\r\nContent-Disposition: form-data; name=\"a\"\r\n\r\nb\r\n", "did not arrive whole"),
    ("multipart/form-data; boundary=x", b"nothing", "did not arrive whole"),
    ("multipart/form-data; boundary=x", b"--x\r\nContent-Type: text/plain\r\n\r\nb\r\n--x--\r\n", "has no name"),
    ("multipart/form-data; boundary=x", b"--x\r\nContent-Disposition: form-data; name=\"a\"\r\n--x--\r\n", "has no name"),
])
def test_what_cannot_be_read_is_refused(kind, content, sentence):
    with pytest.raises(RegistryError, match=sentence):
        body.split(content, kind)


def test_too_many_parts_are_refused(monkeypatch):
    monkeypatch.setattr(body, "PARTS", 3)
    sent, kind = webbed.multipart([("a", str(number)) for number in range(4)], [])
    with pytest.raises(RegistryError, match="more than 3 parts"):
        body.split(sent, kind)


class Request:
    """A request that sends its body in pieces."""

    def __init__(self, *pieces, kind="application/x-www-form-urlencoded", broken=False):
        self.headers = {"content-type": kind}
        self.messages = [{"type": "http.request", "body": piece, "more_body": True} for piece in pieces]
        if not broken:
            self.messages[-1]["more_body"] = False

    async def receive(self):
        return self.messages.pop(0) if self.messages else {"type": "http.disconnect"}


def read(request):
    return asyncio.run(body.read(request))


def test_a_plain_form_in_pieces():
    form = read(Request(b"title=He", b"ron+%26+Co&empty=&title=last"))
    assert form.texts == {"title": ["Heron & Co", "last"], "empty": [""]}
    assert (form.get("title"), form.get("empty", "x"), form.get("none", "x"), form.all("title")) == ("last", "", "x", ["Heron & Co", "last"])


def test_a_body_that_is_too_large_is_refused_before_it_is_whole(monkeypatch):
    monkeypatch.setattr(body, "LIMIT", 2**20)
    with pytest.raises(RegistryError, match="larger than 1 MB"):
        read(Request(b"a" * 2**20, b"b"))


def test_a_body_that_breaks_off_is_refused():
    with pytest.raises(RegistryError, match="did not arrive whole"):
        read(Request(b"a=b", broken=True))


@pytest.mark.parametrize("text", ["", "x", "-1", "1.5", "1" * 20, "٣"])
def test_a_number_is_a_number(text):
    with pytest.raises(RegistryError, match="without its version"):
        body.Form({"version": [text]}).number("version")
    assert body.Form({"version": ["12"]}).number("version") == 12
