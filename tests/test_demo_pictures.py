"""The pictures of the demo shop: one for every work, safe to show, the same bytes every time."""

import re
import struct
import xml.etree.ElementTree as ElementTree
import zlib

import pytest

from demo_modules import DEMO, draw, shop

PICTURE_SIZES = (320, 480, 240, 360)  # narrowest, widest, lowest, highest
WORKS = shop.load(DEMO)["works"]


@pytest.fixture(scope="module")
def drawn(tmp_path_factory):
    """The folder with all pictures, drawn once."""
    folder = tmp_path_factory.mktemp("pictures")
    draw.draw(folder)
    return folder


def test_every_work_has_a_picture_of_its_own(drawn):
    named = [work["picture"] for work in WORKS]
    assert len(set(named)) == len(named) == len(WORKS)
    assert {path.name for path in drawn.iterdir()} == set(named) == set(draw.PICTURES)
    assert len({path.read_bytes() for path in drawn.iterdir()}) == len(named)
    assert sum(name.endswith(".png") for name in named) == 3


def test_drawn_again_the_bytes_are_the_same(drawn):
    for work in WORKS:
        again = draw.picture(work["picture"], work["facts"]["title"])
        assert (drawn / work["picture"]).read_bytes() == again, work["picture"]


def _svgs():
    return [name for name in sorted(draw.PICTURES) if name.endswith(".svg")]


@pytest.mark.parametrize("name", _svgs())
def test_an_svg_is_only_shapes(drawn, name):
    text = (drawn / name).read_text(encoding="utf-8")
    tree = ElementTree.fromstring(text)
    tags = {element.tag.removeprefix("{http://www.w3.org/2000/svg}") for element in tree.iter()}
    attributes = {attribute for element in tree.iter() for attribute in element.attrib}
    assert tags == {"svg", "title", "path"}
    assert attributes <= {"width", "height", "viewBox", "role", "fill", "d"}
    assert not re.search(r"script|href|url\(|<!|<\?|style|\bon\w+=", text, re.I)
    assert all(re.fullmatch(r"#[0-9a-f]{6}", path.get("fill")) for path in tree if path.get("d"))
    assert all(re.fullmatch(r"[MLZHV0-9. -]+", path.get("d")) for path in tree if path.get("d"))
    assert len(text) < 120_000
    _size_fits(int(tree.get("width")), int(tree.get("height")), name)


def _size_fits(wide, high, name):
    narrowest, widest, lowest, highest = PICTURE_SIZES
    assert narrowest <= wide <= widest and lowest <= high <= highest, name


def _decode(data):
    """Width, height and rows of an unfiltered 8-bit RGB PNG, with every check sum proven."""
    assert data[:8] == b"\x89PNG\r\n\x1a\n"
    at, chunks = 8, []
    while at < len(data):
        length, kind = struct.unpack(">I4s", data[at:at + 8])
        body = data[at + 8:at + 8 + length]
        assert zlib.crc32(kind + body) == struct.unpack(">I", data[at + 8 + length:at + 12 + length])[0]
        chunks.append((kind, body))
        at += 12 + length
    assert [kind for kind, _ in chunks] == [b"IHDR", b"IDAT", b"IEND"]
    wide, high, *rest = struct.unpack(">IIBBBBB", chunks[0][1])
    assert rest == [8, 2, 0, 0, 0]
    raw = zlib.decompress(chunks[1][1])
    assert len(raw) == high * (1 + 3 * wide)
    return wide, high, [raw[row * (1 + 3 * wide):(row + 1) * (1 + 3 * wide)] for row in range(high)]


@pytest.mark.parametrize("name", sorted(name for name in draw.PICTURES if name.endswith(".png")))
def test_a_png_decodes_and_shows_something(drawn, name):
    wide, high, rows = _decode((drawn / name).read_bytes())
    _size_fits(wide, high, name)
    assert all(row[0] == 0 for row in rows)
    assert len({row[at:at + 3] for row in rows for at in range(1, 1 + 3 * wide, 3)}) > 100
