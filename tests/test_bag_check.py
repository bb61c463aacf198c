"""Bags judged by RFC 8493: the cases of the published conformance suite, by name, rebuilt by hand, and cases of our own."""

import hashlib
import json
import shutil
import sys
import unicodedata

import kept
import pytest
from registry.cli import main
from registry.errors import RegistryError
from registry.exchange import bagit
from registry.exchange.bag_check import DIGEST, FORM, MISSING, WARNING, check

VALID, INVALID, WARNED = "valid", "invalid", "warning"


class Made:
    """A bag under construction: files by path as bytes, written as they are."""

    def __init__(self, folder, version="0.97", algorithm="md5", encoding="UTF-8", payload=None):
        self.folder, self.algorithm, self.encoding = folder, algorithm, encoding
        self.files = {"bagit.txt": f"BagIt-Version: {version}\nTag-File-Character-Encoding: {encoding}\n".encode(),
                      "bag-info.txt": "Source-Organization: Sallowmouth Print Room\nContact-Name: Perpetua Quill\n".encode(encoding)}
        self.files |= {f"data/{name}": content for name, content in (payload or {"hello.txt": b"hello\n", "deep/bare-filename": b"bare\n"}).items()}
        self.manifest()

    def digest(self, content):
        return hashlib.new(self.algorithm, content).hexdigest()

    def manifest(self, edit=lambda lines: lines, name=None):
        """Writes the payload manifest from the files there are; `edit` alters its lines."""
        lines = [f"{self.digest(content)}  {path}" for path, content in sorted(self.files.items()) if path.startswith("data/")]
        self.files[name or f"manifest-{self.algorithm}.txt"] = ("\n".join(edit(lines)) + "\n").encode(self.encoding)
        return self

    def tags(self, edit=lambda lines: lines):
        """Writes the tag manifest from the files there are."""
        lines = [f"{self.digest(content)}  {path}" for path, content in sorted(self.files.items()) if not path.startswith(("data/", "tagmanifest"))]
        self.files[f"tagmanifest-{self.algorithm}.txt"] = ("\n".join(edit(lines)) + "\n").encode(self.encoding)
        return self

    def put(self, **files):
        """Changes files without telling the manifests; None takes one away. __ stands for / and _DOT_ for a point."""
        for name, content in files.items():
            path = name.replace("__", "/").replace("_DOT_", ".").replace("_DASH_", "-")
            self.files.pop(path, None)
            if content is not None:
                self.files[path] = content
        return self

    def written(self):
        """The folder, with all files in it."""
        (self.folder / "data").mkdir(parents=True, exist_ok=True)
        for path, content in self.files.items():
            target = self.folder / path
            target.parent.mkdir(parents=True, exist_ok=True)
            target.write_bytes(content)
        return self.folder


def v10(folder, **more):
    return Made(folder, "1.0", "sha512", **more)


def fetch(bag, path):
    bag.files["fetch.txt"] = f"https://archive.example/x - {path}\n".encode()
    return bag


def listed(path):
    """An edit that lists one more path."""
    return lambda lines: [*lines, f"{'d41d8cd98f00b204e9800998ecf8427e'}  {path}"]


NFC, NFD = unicodedata.normalize("NFC", "Möwe.txt"), unicodedata.normalize("NFD", "Möwe.txt")

SUITE = [  # version, group, name in the suite, how it is rebuilt
    ("1.0", VALID, "basicBag", lambda f: v10(f, payload={"hello.txt": b"hello\n"}).tags()),
    ("1.0", INVALID, "bagit-with-invalid-whitespace", lambda f: v10(f).put(bagit_DOT_txt=b"BagIt-Version : 1.0\nTag-File-Character-Encoding : UTF-8\n")),
    ("1.0", INVALID, "missing-from-manifest", lambda f: v10(f).put(data__missingFromManifest_DOT_txt=b"x")),
    ("1.0", INVALID, "same-filename-listed-twice-with-different-hashes", lambda f: v10(f).manifest(lambda lines: [*lines, f"{'0' * 128}  data/hello.txt"])),
    ("0.97", VALID, "basic-bag", lambda f: Made(f).tags()),
    ("0.97", VALID, "minimal-bag", lambda f: Made(f).put(bag_DASH_info_DOT_txt=None)),
    *(("0.97", VALID, f"basic-bag-{name}", lambda f, name=name: Made(f, algorithm=name).tags()) for name in ("sha1", "sha224", "sha256", "sha384", "sha512")),
    ("0.97", VALID, "duplicate-metadata-entries", lambda f: Made(f).put(bag_DASH_info_DOT_txt=b"Contact-Name: One\nContact-Name: Two\n").tags()),
    ("0.97", VALID, "uncommon-metadata-separators", lambda f: Made(f).put(bag_DASH_info_DOT_txt=b"Contact-Name  :  One\nBag-Group-Identifier:two\n").tags()),
    ("0.97", VALID, "bag-with-escapable-characters", lambda f: Made(f, payload={"100% & \"more\" <x> #1.txt": b"a", "it's [a] file;.txt": b"b"})),
    ("0.97", VALID, "bag-with-encoded-names", lambda f: Made(f, payload={"a\nb.txt": b"a"}).manifest(lambda lines: [line.replace("a\nb", "a%0Ab") for line in lines])),
    ("0.97", VALID, "bag-with-space", lambda f: Made(f, payload={"file with spaces .txt": b"a"})),
    ("0.97", VALID, "bag-with-leading-dot-slash-in-manifest", lambda f: Made(f).manifest(lambda lines: [line.replace("  data", "  ./data") for line in lines])),
    ("0.97", VALID, "holey-bag", lambda f: fetch(Made(f), "data/hello.txt")),
    ("0.97", VALID, "bag-in-a-bag", lambda f: Made(f, payload={"inner/bagit.txt": b"BagIt-Version: 0.97\n", "inner/data/x": b"x", "inner/manifest-md5.txt": b"no\n"})),
    ("0.97", VALID, "UTF-16-encoded-tag-files", lambda f: Made(f, encoding="UTF-16").tags()),
    ("0.97", VALID, "ISO-8859-1-encoded-tag-files", lambda f: Made(f, encoding="ISO-8859-1", payload={"Möwe.txt": b"m"}).tags()),
    ("0.97", INVALID, "baginfo-missing-encoding", lambda f: Made(f).put(bagit_DOT_txt=b"BagIt-Version: 0.97\n")),
    ("0.97", INVALID, "bom-in-bagit.txt", lambda f: Made(f).put(bagit_DOT_txt=b"\xef\xbb\xbfBagIt-Version: 0.97\nTag-File-Character-Encoding: UTF-8\n")),
    ("0.97", INVALID, "bagit-with-invalid-whitespace", lambda f: Made(f).put(bagit_DOT_txt=b"BagIt-Version : 0.97\nTag-File-Character-Encoding : UTF-8\n")),
    ("0.97", INVALID, "corrupt-data-file", lambda f: Made(f).put(data__deep__bare_DASH_filename=b"bore\n")),
    ("0.97", INVALID, "corrupt-tag-file", lambda f: Made(f).tags().put(bag_DASH_info_DOT_txt=b"Contact-Name: Somebody else\n")),
    ("0.97", INVALID, "extra-file-in-bag", lambda f: Made(f).put(data__bar=b"extra")),
    ("0.97", INVALID, "invalid-version-number", lambda f: Made(f, version=".97")),
    ("0.97", INVALID, "missing-baginfo", lambda f: Made(f).tags().put(bag_DASH_info_DOT_txt=None)),
    ("0.97", INVALID, "missing-bagit.txt", lambda f: Made(f).put(bagit_DOT_txt=None)),
    ("0.97", INVALID, "out-of-scope-file-paths-using-dot-notation", lambda f: Made(f).manifest(listed("data/../../README.md"))),
    ("0.97", INVALID, "out-of-scope-file-paths-using-dot-notation-for-fetch", lambda f: fetch(Made(f), "../../README.md")),
    ("0.97", INVALID, "same-filename-listed-twice-with-different-hashes", lambda f: Made(f).manifest(listed("data/hello.txt"))),
    ("0.97", INVALID, "out-of-scope-file-paths-using-absolute-path", lambda f: Made(f).manifest(listed("/tmp/foo"))),
    ("0.97", INVALID, "out-of-scope-file-paths-using-absolute-path-for-fetch", lambda f: fetch(Made(f), "/tmp/foo")),
    ("0.97", INVALID, "out-of-scope-file-paths-using-shortcut", lambda f: Made(f).manifest(listed("~/foo"))),
    ("0.97", INVALID, "out-of-scope-file-paths-using-shortcut-for-fetch", lambda f: fetch(Made(f), "~/foo")),
    ("0.97", INVALID, "out-of-scope-file-paths-using-shortcut-username", lambda f: Made(f).manifest(listed("~root/foo"))),
    ("0.97", INVALID, "out-of-scope-file-paths-using-shortcut-username-for-fetch", lambda f: fetch(Made(f), "~root/foo")),
    ("0.97", INVALID, "out-of-scope-file-paths-using-absolute-path (windows)", lambda f: Made(f).manifest(listed("C:\\Windows\\System32\\setx.exe"))),
    ("0.97", INVALID, "out-of-scope-file-paths-using-absolute-path-for-fetch (windows)", lambda f: fetch(Made(f), "C:\\Windows\\System32\\setx.exe")),
    ("0.97", INVALID, "out-of-scope-file-paths-using-unc", lambda f: Made(f).manifest(listed("\\\\server\\Windows\\setx.exe"))),
    ("0.97", INVALID, "out-of-scope-file-paths-using-unc-for-fetch", lambda f: fetch(Made(f), "\\\\server\\Windows\\setx.exe")),
    ("0.97", INVALID, "out-of-scope-file-paths-using-shortcut (windows)", lambda f: Made(f).manifest(listed("%HomeDrive%\\Windows\\setx.exe"))),
    ("0.97", INVALID, "out-of-scope-file-paths-using-shortcut-for-fetch (windows)", lambda f: fetch(Made(f), "%HomeDrive%\\Windows\\setx.exe")),
    ("0.97", WARNED, "duplicate-file-with-different-case", lambda f: Made(f, payload={"hello.txt": b"a", "HELLO.txt": b"b"})),
    ("0.97", WARNED, "relative-path", lambda f: Made(f).manifest(lambda lines: [line.replace("  data", "  ./data") for line in lines])),
    ("0.97", WARNED, "special-system-files", lambda f: Made(f, payload={"hello.txt": b"a", "Thumbs.db": b"b", ".DS_Store": b"c"})),
    ("0.97", WARNED, "made-with-md5sum-tools", lambda f: Made(f).manifest(lambda lines: [line.replace("  ", " *") for line in lines])),
    ("0.97", WARNED, "same-filename-listed-twice-with-the-same-hash", lambda f: Made(f).manifest(lambda lines: [*lines, lines[0]])),
    ("0.97", WARNED, "same-filename-listed-twice-with-different-normalization", lambda f: Made(f, payload={NFC: b"m"}).manifest(lambda lines: [*lines, lines[0].replace(NFC, NFD)])),
    ("0.97", WARNED, "filename-normalization", lambda f: Made(f, payload={NFC: b"m"}).manifest(lambda lines: [line.replace(NFC, NFD) for line in lines])),
]
ON_DISK = {"duplicate-file-with-different-case": "linux", "same-filename-listed-twice-with-different-normalization": "linux", "filename-normalization": "linux"}


@pytest.mark.parametrize("version, group, name, make", SUITE, ids=[f"{row[0]}-{row[1]}-{row[2]}" for row in SUITE])
def test_the_published_cases(tmp_path, version, group, name, make):
    if ON_DISK.get(name, sys.platform) != sys.platform:
        pytest.skip("this file system cannot hold the names of the case")
    bag = check(make(tmp_path / "bag").written())
    assert bag.valid == (group != INVALID), bag.findings
    if group == WARNED:
        assert {one.kind for one in bag.findings} == {WARNING}
    if group == VALID and name != "bag-with-leading-dot-slash-in-manifest":
        assert bag.findings == []
    if group == INVALID:
        assert any(one.kind in (FORM, MISSING, DIGEST) for one in bag.findings)


OWN = [  # what, how, complete, valid, what is said
    ("as it should be", lambda f: v10(f).tags(), True, True, None),
    ("an empty payload", lambda f: v10(f, payload={"x": b""}).put(data__x=None).manifest(), True, True, None),
    ("lines that end in CR LF", lambda f: crlf(v10(f)), True, True, None),
    ("capital letters in digests", lambda f: v10(f).manifest(lambda lines: [f"{line[:128].upper()}{line[128:]}" for line in lines]), True, True, None),
    ("a tab between digest and path", lambda f: v10(f).manifest(lambda lines: [line.replace("  ", "\t") for line in lines]), True, True, None),
    ("% and line ends in names", lambda f: v10(f, payload={"a\nb%0A 100%.txt": b"x"}).manifest(lambda lines: [bagit.encoded(line) for line in lines]), True, True, None),
    ("% in a name not encoded", lambda f: v10(f, payload={"a%0Ab": b"x"}), False, False, "is listed in manifest-sha512.txt and is not there"),
    ("the payload folder gone", lambda f: v10(f, payload={"x": b"x"}).put(data__x=None), False, False, "data/x is listed in manifest-sha512.txt and is not there."),
    ("a listed file gone", lambda f: v10(f).put(data__hello_DOT_txt=None), False, False, "data/hello.txt is listed in manifest-sha512.txt and is not there."),
    ("a file still to be fetched", lambda f: fetch(v10(f).put(data__hello_DOT_txt=None), "data/hello.txt"), False, False, "is still to be fetched, as fetch.txt says"),
    ("a fetched file in no manifest", lambda f: fetch(v10(f), "data/other.txt"), False, False, "'data/other.txt' is not in every payload manifest."),
    ("something fetched into the tags", lambda f: fetch(v10(f), "bag-info.txt"), False, False, "only payload files may be fetched"),
    ("fetch.txt without a length", lambda f: v10(f).put(fetch_DOT_txt=b"https://archive.example/x data/hello.txt\n"), False, False, "an address, a length or -, and a path are needed"),
    ("a changed byte", lambda f: v10(f).put(data__hello_DOT_txt=b"hellO\n"), True, False, "data/hello.txt was changed: its sha512 is not the one in manifest-sha512.txt."),
    ("a second manifest that lacks a file", lambda f: second(v10(f)), False, False, "is in the bag and not listed in manifest-md5.txt"),
    ("the same path twice, same digest", lambda f: v10(f).manifest(lambda lines: [*lines, lines[0]]), False, False, "is listed twice."),
    ("no manifest", lambda f: v10(f).put(manifest_DASH_sha512_DOT_txt=None), False, False, "There is no payload manifest"),
    ("an unknown algorithm", lambda f: v10(f).put(manifest_DASH_crc32_DOT_txt=b"abcd  data/hello.txt\nabcd  data/deep/bare-filename\n"), False, False, "the algorithm 'crc32' is not known"),
    ("a digest that is too short", lambda f: v10(f).manifest(lambda lines: [line[4:] for line in lines]), False, False, "is not as long as one of sha512 is"),
    ("a line that is none", lambda f: v10(f).manifest(lambda lines: [*lines, "hello"]), False, False, "a digest, white space and a path are needed"),
    ("a payload manifest that lists a tag file", lambda f: v10(f).manifest(lambda lines: [*lines, f"{'0' * 128}  bag-info.txt"]), False, False, "which is not in data/"),
    ("a tag manifest that lists payload", lambda f: v10(f).tags(lambda lines: [*lines, f"{'0' * 128}  data/hello.txt"]), False, False, "lists neither payload nor tag manifests"),
    ("a tag manifest without the payload manifest", lambda f: v10(f).tags(lambda lines: [line for line in lines if "manifest" not in line]), False, False, "does not list manifest-sha512.txt"),
    ("a listed tag file gone", lambda f: v10(f).tags().put(bag_DASH_info_DOT_txt=None), False, False, "bag-info.txt is listed in tagmanifest-sha512.txt and is not there"),
    ("the right sum", lambda f: v10(f).put(bag_DASH_info_DOT_txt=b"Payload-Oxum: 11.2\n"), True, True, None),
    ("a wrong sum", lambda f: v10(f).put(bag_DASH_info_DOT_txt=b"Payload-Oxum: 12.2\n"), False, False, "says that the payload has 12.2 (bytes.files); it has 11.2"),
    ("two sums", lambda f: v10(f).put(bag_DASH_info_DOT_txt=b"Payload-Oxum: 11.2\nPayload-Oxum: 11.2\n"), False, False, "Payload-Oxum 2 times"),
    ("a long value on several lines", lambda f: v10(f).put(bag_DASH_info_DOT_txt=b"External-Description: one\n  and more\n\tand more\n"), True, True, None),
    ("a label without a colon", lambda f: v10(f).put(bag_DASH_info_DOT_txt=b"just words\n"), False, False, "bag-info.txt, line 1: 'Label: value' is needed."),
    ("an unknown encoding", lambda f: v10(f).put(bagit_DOT_txt=b"BagIt-Version: 1.0\nTag-File-Character-Encoding: EBCDIC-XYZ\n"), False, False, "'EBCDIC-XYZ' of the tag files is not known"),
    ("a manifest in another encoding", lambda f: v10(f, payload={"Möwe.txt": b"m"}).put(manifest_DASH_sha512_DOT_txt=b"\xff\xfe"), False, False, "is not written in the encoding utf-8"),
    ("a third line in bagit.txt", lambda f: v10(f).put(bagit_DOT_txt=b"BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\nmore\n"), False, False, "bagit.txt must hold two lines and nothing else"),
    ("a version to come", lambda f: Made(f, "2.0", "sha512"), False, False, "The version 2.0 is not known"),
    ("other tag files and folders", lambda f: v10(f).put(notes__readme_DOT_txt=b"x", other=b"y").tags(), True, True, None),
]


def crlf(bag):
    for name in ("bagit.txt", "bag-info.txt", "manifest-sha512.txt"):
        bag.files[name] = bag.files[name].replace(b"\n", b"\r\n")
    return bag


def second(bag):
    bag.files["manifest-md5.txt"] = f"{hashlib.md5(b'hello' + bytes([10])).hexdigest()}  data/hello.txt\n".encode()
    return bag


@pytest.mark.parametrize("what, make, complete, valid, says", OWN, ids=[row[0] for row in OWN])
def test_cases_of_our_own(tmp_path, what, make, complete, valid, says):
    bag = check(make(tmp_path / "bag").written())
    assert (bag.complete, bag.valid) == (complete, valid), bag.findings
    assert bag.findings == [] if says is None else any(says in one.says for one in bag.findings), bag.findings


def test_links_are_not_followed(tmp_path):
    folder = v10(tmp_path / "bag").written()
    (tmp_path / "outside").write_bytes(b"hello\n")
    (folder / "data/hello.txt").unlink()
    (folder / "data/hello.txt").symlink_to(tmp_path / "outside")
    assert not check(folder).valid and any("is a link" in one.says for one in check(folder).findings)


def test_data_that_is_a_link_is_none(tmp_path):
    folder = v10(tmp_path / "bag").written()
    (folder / "data").rename(tmp_path / "elsewhere")
    (folder / "data").symlink_to(tmp_path / "elsewhere")
    assert any("The folder data/ is missing." == one.says for one in check(folder).findings)


def test_no_folder(tmp_path):
    with pytest.raises(RegistryError, match="There is no folder"):
        check(tmp_path / "nowhere")


def test_every_byte_counts(tmp_path):
    """A change of any byte of any file of a bag with tag manifests is found."""
    bagit.write(tmp_path / "bag", {"a.txt": b"some text\n", "b/c.bin": bytes(range(40))}, [("Source-Organization", "Ninepin")])
    assert check(tmp_path / "bag").valid
    for path in sorted(path for path in (tmp_path / "bag").rglob("*") if path.is_file()):
        before = path.read_bytes()
        for at in range(0, len(before), max(1, len(before) // 25)):
            path.write_bytes(before[:at] + bytes([before[at] ^ 1]) + before[at + 1:])
            assert not check(tmp_path / "bag").valid, (path, at)
        path.write_bytes(before)


# --- writing ------------------------------------------------------------------------------------------

def test_what_is_written(tmp_path):
    (tmp_path / "large").write_bytes(b"x" * 700_000)
    made = bagit.write(tmp_path / "bag", {"a/large": tmp_path / "large", "100% \n.txt": b"b", "leer": b""}, [("External-Description", "two\nlines"), ("Contact-Name", "")])
    folder = tmp_path / "bag"
    assert (folder / "bagit.txt").read_bytes() == b"BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n"
    assert (folder / "bag-info.txt").read_text() == "External-Description: two lines\nPayload-Oxum: 700001.3\nBag-Size: 700.0 kB\n"
    assert "data/100%25 %0A.txt" in (folder / "manifest-sha256.txt").read_text()
    assert sorted(path.name for path in folder.iterdir()) == ["bag-info.txt", "bagit.txt", "data", "manifest-sha256.txt", "manifest-sha512.txt", "tagmanifest-sha256.txt", "tagmanifest-sha512.txt"]
    assert (made.files, made.bytes, made.seal) == (3, 700_001, hashlib.sha256((folder / "tagmanifest-sha256.txt").read_bytes()).hexdigest())
    assert check(folder).valid and check(folder).findings == []


def test_the_published_digest_of_the_basic_bag(tmp_path):
    bagit.write(tmp_path / "bag", {"hello.txt": b"hello\n"}, [])
    assert "5891b5b522d5df086d0ff0b110fbd9d21bb4fc7163af34d08286a2e846f6be03  data/hello.txt" in (tmp_path / "bag/manifest-sha256.txt").read_text()
    assert "e7c22b994c59d9cf2b48e549b1e24666636045930d3da7c1acb299d1c3b7f931f94aae41edda2c2b207a36e10f8bcb8d45223e54878f5b316e7ce3b6bc019629  data/hello.txt" in (tmp_path / "bag/manifest-sha512.txt").read_text()


@pytest.mark.parametrize("path", ["../x", "/x", "a//b", "a/./b", "~/x", "a\\b", "", "a/"])
def test_paths_that_are_refused(tmp_path, path):
    with pytest.raises(RegistryError, match="cannot be the path of a file in a package"):
        bagit.write(tmp_path / "bag", {path: b"x"}, [])
    assert list(tmp_path.iterdir()) == []


def test_a_folder_with_something_in_it_is_left_alone(tmp_path):
    (tmp_path / "bag").mkdir()
    (tmp_path / "bag/mine.txt").write_text("mine")
    with pytest.raises(RegistryError, match="is there already and not empty"):
        bagit.write(tmp_path / "bag", {"x": b"x"}, [])
    assert [path.name for path in tmp_path.rglob("*")] == ["bag", "mine.txt"]


def test_a_bag_that_cannot_be_finished_leaves_nothing(tmp_path):
    with pytest.raises(RegistryError, match="could not be written"):
        bagit.write(tmp_path / "bag", {"a": b"x", "z": tmp_path / "nowhere"}, [])
    assert list(tmp_path.iterdir()) == []


# --- the command ---------------------------------------------------------------------------------------

def test_the_command_judges_without_a_catalogue(tmp_path, capsys):
    good, bad = v10(tmp_path / "good").tags().written(), v10(tmp_path / "bad").put(data__hello_DOT_txt=b"other").written()
    assert main(["bag", "--check", str(good)]) == 0
    assert "complete and valid; 2 files" in " ".join(capsys.readouterr().out.split())
    assert main(["bag", "--check", str(bad)]) == 1
    assert "complete, but NOT valid" in " ".join(capsys.readouterr().out.split())
    assert main(["bag", "--check", str(bad), "--json"]) == 1
    found = json.loads(capsys.readouterr().out)
    assert (found["complete"], found["valid"], found["version"], found["algorithms"], found["findings"][0]["kind"]) == (True, False, "1.0", ["sha512"], "digest")
    assert main(["bag", "j1", "--check", str(good)]) == 1 and main(["bag", "j1"]) == 1


# --- the seal, and a file that grew ------------------------------------------------------------------------

def anew(folder):
    """Writes the manifests of a bag anew, as somebody would who altered it."""
    payload = {str(path.relative_to(folder / "data")): path.read_bytes() for path in (folder / "data").rglob("*") if path.is_file()}
    shutil.rmtree(folder)
    return bagit.write(folder, payload, [])


def test_a_bag_written_anew_is_found_by_its_seal_alone(tmp_path):
    made = bagit.write(tmp_path / "bag", {"sheet.html": b"cleared for nobody"}, [])
    (tmp_path / "bag" / "data" / "sheet.html").write_bytes(b"cleared for everybody")
    other = anew(tmp_path / "bag")
    assert check(tmp_path / "bag").valid and check(tmp_path / "bag").seal == other.seal != made.seal
    found = check(tmp_path / "bag", made.seal)
    assert (found.complete, found.valid) == (True, False) and f"its seal is {other.seal}" in found.findings[0].says
    assert check(tmp_path / "bag", f" {other.seal.upper()}\n").valid


def test_a_bag_without_a_tag_manifest_has_no_seal(tmp_path):
    made = bagit.write(tmp_path / "bag", {"sheet.html": b"x"}, [])
    for name in ("sha256", "sha512"):
        (tmp_path / "bag" / f"tagmanifest-{name}.txt").unlink()
    assert check(tmp_path / "bag").valid and check(tmp_path / "bag").seal == ""
    assert "it has no tagmanifest-sha256.txt" in check(tmp_path / "bag", made.seal).findings[0].says
    with pytest.raises(RegistryError, match="'abc' is no seal of a package; 64 hexadecimal digits"):
        check(tmp_path / "bag", "abc")


def test_the_command_prints_the_seal_and_compares_one(tmp_path, capsys):
    command, out = kept.Command(tmp_path / "none", capsys), str(tmp_path / "bag")
    made = bagit.write(out, {"sheet.html": b"x"}, [])
    code, said, _ = command("bag", "--check", out)
    assert code == 0 and f"Seal (SHA-256 of its tagmanifest-sha256.txt): {made.seal}" in " ".join(said.split()) and "--seal" in said
    code, said, _ = command("bag", "--check", out, "--seal", made.seal)
    assert code == 0 and "This is the seal that was given" in " ".join(said.split())
    code, said, _ = command("bag", "--check", out, "--seal", "0" * 64)
    assert code == 1 and "NOT valid" in said and "This is not the package whose seal is" in " ".join(said.split())
    assert json.loads(command("bag", "--check", out, "--json")[1])["tagmanifest_sha256"] == made.seal
    (tmp_path / "bag" / "tagmanifest-sha256.txt").unlink()
    assert "There is no tagmanifest-sha256.txt" in " ".join(command("bag", "--check", out)[1].split())
    assert "--seal" in command.refused("bag", "j1", "x", "--seal", made.seal)


@pytest.mark.parametrize("content", [b"longer than it was", b"s"])
def test_a_file_that_grew_or_shrank_is_changed_and_not_missing(tmp_path, content):
    bagit.write(tmp_path / "bag", {"sheet.html": b"as it was", "card.html": b"card"}, [])
    (tmp_path / "bag" / "data" / "sheet.html").write_bytes(content)
    found = check(tmp_path / "bag")
    assert (found.complete, found.valid) == (True, False) and {one.kind for one in found.findings} == {"digest"}
    (tmp_path / "bag" / "data" / "card.html").unlink()
    assert not check(tmp_path / "bag").complete
