"""Files are kept once, under their digest, and only of kinds that the bytes themselves show."""

import hashlib

import kept
import pytest
from registry.catalogue import files, store, works
from registry.errors import RegistryError, UnknownRecord

PNG = b"\x89PNG\r\n\x1a\n" + b"rest"
SVG = b"<svg xmlns='http://www.w3.org/2000/svg'/>"


@pytest.fixture
def catalogue(tmp_path):
    return kept.new(tmp_path)


@pytest.mark.parametrize(
    "content, kind",
    [
        (PNG, "image/png"),
        (b"\xff\xd8\xff\xe0rest", "image/jpeg"),
        (b"GIF89a...", "image/gif"),
        (b"GIF87a...", "image/gif"),
        (b"RIFF\x10\x00\x00\x00WEBPVP8 ", "image/webp"),
        (b"II*\x00rest", "image/tiff"),
        (b"MM\x00*rest", "image/tiff"),
        (b"%PDF-1.7\n%\xe2\xe3", "application/pdf"),
        (SVG, "image/svg+xml"),
        (b"\xef\xbb\xbf<?xml version='1.0'?>\n<!-- a -->\n<!DOCTYPE svg>\n<!-- b --><svg>", "image/svg+xml"),
        ("a letter, with é".encode(), "text/plain"),
        (b"<html><svg></svg></html>", "text/plain"),
        (b"<svgx>", "text/plain"),
        (b"RIFF\x10\x00\x00\x00WAVEfmt ", None),
        (b"\x7fELF\x02", None),
        (b"MZ\x90\x00", None),
        (b"latin \xe9", None),
        (b"text\x00with nul", None),
        (b"\x89PNG\n", None),
    ],
)
def test_the_bytes_tell_the_kind(content, kind):
    assert files.media_type(content) == kind


def test_a_file_is_kept_under_its_digest(catalogue):
    file = files.add(catalogue, PNG, "../../etc/gull.png")
    digest = hashlib.sha256(PNG).hexdigest()
    assert (file.sha256, file.bytes, file.media_type, file.name) == (digest, len(PNG), "image/png", "gull.png")
    assert kept.files_of(catalogue) == [f"files/{digest[:2]}/{digest}"]
    assert files.read(catalogue, digest) == PNG
    assert files.get(catalogue, digest) == file


def test_the_same_bytes_are_kept_once(catalogue):
    first = files.add(catalogue, PNG, "one.png")
    assert files.add(catalogue, PNG, "two.png") == first
    assert len(kept.files_of(catalogue)) == 1


def test_bytes_that_went_missing_are_put_back(catalogue):
    file = files.add(catalogue, PNG, "one.png")
    files.path_of(catalogue, file.sha256).unlink()
    with pytest.raises(RegistryError, match="cannot be read: No such file or directory.$"):
        files.read(catalogue, file.sha256)
    files.add(catalogue, PNG, "one.png")
    assert files.read(catalogue, file.sha256) == PNG


def test_changed_bytes_are_noticed(catalogue):
    file = files.add(catalogue, PNG, "one.png")
    files.path_of(catalogue, file.sha256).write_bytes(PNG[:-1] + b"X")
    with pytest.raises(RegistryError, match="was changed on disk.$"):
        files.read(catalogue, file.sha256)


@pytest.mark.parametrize(
    "content, allowed, says",
    [
        (b"", None, "^The file x is empty.$"),
        (b"\x00\x01", None, "^The file x is of no kind that is kept; allowed are PNG, "),
        (b"a letter", files.PICTURES, "^The file x is text/plain; allowed here are image/png, "),
        (b"%PDF-1.4", files.PICTURES, "^The file x is application/pdf; allowed here are image/png, "),
    ],
)
def test_what_is_refused(catalogue, content, allowed, says):
    with pytest.raises(RegistryError, match=says):
        files.add(catalogue, content, "x", allowed)
    assert kept.files_of(catalogue) == []


def test_the_limit_of_size(catalogue, monkeypatch, tmp_path):
    monkeypatch.setattr(files, "LARGEST", len(PNG))
    files.add(catalogue, PNG, "fits.png")
    path = tmp_path / "large.png"
    path.write_bytes(PNG + b"!")
    for call in (lambda: files.add(catalogue, PNG + b"!", "large.png"), lambda: files.add_path(catalogue, path)):
        with pytest.raises(RegistryError, match="large.png has 13 bytes; at most 12 are allowed.$"):
            call()


def test_a_path_that_cannot_be_read(catalogue, tmp_path):
    with pytest.raises(RegistryError, match="^The file .*none.png cannot be read: No such file or directory.$"):
        files.add_path(catalogue, tmp_path / "none.png")
    with pytest.raises(RegistryError, match="cannot be read: Is a directory.$"):
        files.add_path(catalogue, tmp_path)


@pytest.mark.parametrize("digest", ["", "../../catalogue.db", "A" * 64, "a" * 63, "a" * 65, "/etc/passwd" + "a" * 53])
def test_a_digest_names_nothing_outside(catalogue, digest):
    with pytest.raises(UnknownRecord):
        files.path_of(catalogue, digest)
    with pytest.raises(UnknownRecord):
        files.get(catalogue, digest)


def test_a_file_of_a_failed_transaction_does_not_stay(catalogue):
    with pytest.raises(RegistryError), store.transaction(catalogue):
        file = files.add(catalogue, PNG, "one.png", files.PICTURES)
        works.add(catalogue, {**kept.GULL, "kind": "no such kind"}, picture=file.sha256)
    assert kept.files_of(catalogue) == []
    assert kept.everything(catalogue)["files"] == []


def test_a_file_that_was_there_before_outlives_a_failed_transaction(catalogue):
    file = files.add(catalogue, PNG, "one.png")
    with pytest.raises(ZeroDivisionError), store.transaction(catalogue):
        files.add(catalogue, PNG, "one.png")
        files.add(catalogue, SVG, "two.svg")
        1 / 0
    assert [path[-64:] for path in kept.files_of(catalogue)] == [file.sha256]


def test_a_disk_that_fails_leaves_nothing(catalogue, monkeypatch):
    def fails(_descriptor):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(files.os, "fsync", fails)
    with pytest.raises(RegistryError, match="^The file could not be kept in .*: No space left on device.$"):
        files.add(catalogue, PNG, "one.png")
    assert kept.files_of(catalogue) == []
    assert kept.everything(catalogue)["files"] == []


@pytest.mark.parametrize("given, kept_as", [
    ("gull.png", "gull.png"), ("../../etc/gull.png", "gull.png"), ("C:\\box\\gull.png", "gull.png"), ("a\x00b\r\nc.png", "abc.png"), ("gull\u202egnp.exe", "gullgnp.exe"),
    ("\udcff.png", ".png"), ("M\u00f6we 3.png", "M\u00f6we 3.png"), ("", "file"), (".", "file"), ("..", "file"), (" \n ", "file"), ("a/", "file"), ("\x00..", "file"),
    ("x" * 120, "x" * 120), ("x" * 5000, "x" * 120), ("x" * 5000 + ".jpeg", "x" * 115 + ".jpeg"), ("a." + "x" * 5000, "a." + "x" * 118)])
def test_a_name_is_kept_plain(catalogue, given, kept_as):
    assert files.add(catalogue, PNG, given).name == kept_as


def test_a_refusal_names_the_file_plainly(catalogue):
    with pytest.raises(RegistryError, match="^The file xy.png is empty.$"):
        files.add(catalogue, b"", "x\x00\ny.png")


def test_a_missing_file_is_an_unknown_record(catalogue):
    file = files.add(catalogue, PNG, "one.png")
    files.path_of(catalogue, file.sha256).unlink()
    with pytest.raises(UnknownRecord, match="cannot be read: No such file or directory.$"):
        files.read(catalogue, file.sha256)
