"""Published digests and canonical JSON texts: those within the profile come out, the others are refused with a reason."""

import csv
import hashlib
import json
from pathlib import Path

import pytest
from registry.catalogue import files
from registry.catalogue.canonical import canonical, digest
from registry.errors import RegistryError

import kept

ROWS = {row["name"]: row for row in csv.DictReader((Path(__file__).parent / "cases" / "hash_vectors.csv").open(encoding="utf-8"))}
CANONICAL = {name: bytes.fromhex(row["input"].partition("(hex): ")[2]) for name, row in ROWS.items() if name.startswith("jcs-")}
REFUSED = {  # outside the profile of this program, and why
    "jcs-french": "names must be text in ASCII", "jcs-weird": "names must be text in ASCII", "jcs-values": "is of type float",
}
WRITTEN = {  # other texts of the same values, as anybody may write them
    "jcs-arrays": ' [ 56, {"d": true, "10": null, "1": [ ] } ] ',
    "jcs-structures": '{"1": {"f": {"f": "hi", "F": 5}, "\\n": 56}, "10": {}, "": "empty", "a": {}, "111": [{"e": "yes", "E": "no"}], "A": {}}',
    "jcs-unicode": '{ "Unnormalized Unicode" : "A\\u030a" }',
}


def content(row):
    """The bytes that a row describes."""
    words = row["input"]
    if words.startswith("canonical"):
        return CANONICAL[row["name"]]
    if words == "zero-length input":
        return b""
    if words == "one million times ASCII a":
        return b"a" * 1_000_000
    text = words.removeprefix("ASCII ").split(" (")[0]
    if text.endswith(" ten times"):
        return text.removesuffix(" ten times").encode() * 10
    return text.replace(" + LF", "\n").encode()


def test_every_kind_of_row_is_used():
    assert len(ROWS) == 14 and CANONICAL.keys() == REFUSED.keys() | WRITTEN.keys()


@pytest.mark.parametrize("name", ROWS)
def test_digests(name):
    row = ROWS[name]
    found = content(row)
    assert len(found) == int(row["byte_length"])
    assert hashlib.new(row["algorithm"], found).hexdigest() == row["digest_hex"]


@pytest.mark.parametrize("name", [name for name, row in ROWS.items() if row["algorithm"] == "sha256" and name.startswith("jcs") is False and "empty" not in name])
def test_a_file_is_kept_under_the_published_digest(name, tmp_path):
    assert files.add(kept.new(tmp_path), content(ROWS[name]), "vector.txt").sha256 == ROWS[name]["digest_hex"]


@pytest.mark.parametrize("name", WRITTEN)
def test_canonical_texts_within_the_profile(name):
    for text in (WRITTEN[name], CANONICAL[name].decode()):
        value = json.loads(text)
        assert canonical(value).encode() == CANONICAL[name]
        assert digest(value) == ROWS[name]["digest_hex"]


@pytest.mark.parametrize("name, says", REFUSED.items())
def test_canonical_texts_outside_the_profile(name, says):
    with pytest.raises(RegistryError, match=says):
        canonical(json.loads(CANONICAL[name]))
