"""Judges a bag, our own or somebody else's, by RFC 8493: complete, valid, and why not. Nothing is fetched or changed.

Bags of the drafts before 1.0 (0.93 to 0.97) are judged by what those allowed.
"""

import codecs
import hashlib
import re
import unicodedata
from dataclasses import dataclass, field
from pathlib import Path

from registry.errors import RegistryError
from registry.exchange.bag_parts import FETCH, INFO, fetches, labels, lines, manifest, out_of_bag
from registry.exchange.bagit import digest_of

VERSIONS = ("0.93", "0.94", "0.95", "0.96", "0.97", "1.0")
KNOWN = ("md5", "sha1", "sha224", "sha256", "sha384", "sha512")
SEALED = "tagmanifest-sha256.txt"
SYSTEM = {"thumbs.db", ".ds_store", "desktop.ini"}
FORM, MISSING, DIGEST, WARNING = "form", "missing", "digest", "warning"
_DECLARATION = re.compile(rb"BagIt-Version: (\d+\.\d+)(?:\r\n|\n|\r)Tag-File-Character-Encoding: (\S+)(?:\r\n|\n|\r)?\Z")
_SEAL = re.compile(r"[0-9a-f]{64}\Z")
_NAME = re.compile(r"(tag)?manifest-([a-z0-9-]+)\.txt\Z", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Finding:
    """Something found in a bag: `kind` form (against the rules), missing (not complete), digest (changed) or warning."""

    kind: str
    says: str


@dataclass(slots=True)
class Looked:
    """A bag being looked at: what is known of it so far, and what was found; `seal` is the SHA-256 of SEALED, "" without."""

    folder: Path
    version: str = ""
    encoding: str = ""
    findings: list = field(default_factory=list)
    algorithms: list = field(default_factory=list)
    payload: dict = field(default_factory=dict)
    bytes: int = 0
    info: list = field(default_factory=list)
    absent: set = field(default_factory=set)
    seal: str = ""

    def say(self, kind, says):
        """Adds a finding once."""
        if Finding(kind, says) not in self.findings:
            self.findings.append(Finding(kind, says))

    def strict(self):
        """True for a bag of version 1.0."""
        return self.version not in VERSIONS[:-1]

    @property
    def complete(self):
        """True when all that is required and listed is there and nothing is against the rules."""
        return not any(one.kind in (FORM, MISSING) for one in self.findings)

    @property
    def valid(self):
        """True when it is complete and every digest is right."""
        return self.complete and not any(one.kind == DIGEST for one in self.findings)


def check(folder, seal=None):
    """What was Looked at in a bag; `seal` is the SHA-256 of its tag manifest as it was given apart from the bag.

    RegistryError when there is no such folder, or when `seal` is no such digest.
    """
    folder, seal = Path(folder), seal and seal.strip().lower()
    if seal is not None and not _SEAL.match(seal):
        raise RegistryError(f"'{seal}' is no seal of a package; 64 hexadecimal digits are needed, as 'registry bag' prints them.")
    if not folder.is_dir():
        raise RegistryError(f"There is no folder {folder}.")
    bag = Looked(folder)
    try:
        _declaration(bag)
        if bag.encoding:
            _payload(bag)
            _manifests(bag)
            _info(bag)
            _seal(bag, seal)
    except OSError as error:
        bag.say(FORM, f"{error.filename or folder} cannot be read: {error.strerror}.")
    return bag


def _declaration(bag):
    """Reads bagit.txt, the two lines that make a folder a bag."""
    path = bag.folder / "bagit.txt"
    if not path.is_file():
        return bag.say(FORM, "bagit.txt is missing, so this is no bag.")
    content = path.read_bytes()
    if content.startswith((codecs.BOM_UTF8, codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)):
        return bag.say(FORM, "bagit.txt begins with a byte-order mark, which is not allowed.")
    found = _DECLARATION.match(content)
    if not found:
        return bag.say(FORM, "bagit.txt must hold two lines and nothing else, 'BagIt-Version: 1.0' and"
                             " 'Tag-File-Character-Encoding: UTF-8', with one blank after each colon.")
    bag.version, encoding = found.group(1).decode(), found.group(2).decode("ascii", "replace")
    if bag.version not in VERSIONS:
        bag.say(FORM, f"The version {bag.version} is not known; {', '.join(VERSIONS)} are.")
    try:
        bag.encoding = codecs.lookup(encoding).name
    except (LookupError, ValueError):
        bag.say(FORM, f"The encoding '{encoding}' of the tag files is not known.")
    return None


def _payload(bag):
    """Collects the payload files, by path with / and their size."""
    data = bag.folder / "data"
    if data.is_symlink() or not data.is_dir():
        return bag.say(FORM, "The folder data/ is missing.")
    for path in sorted(data.rglob("*")):
        name = path.relative_to(bag.folder).as_posix()
        if path.is_symlink():
            bag.say(FORM, f"{name} is a link; a bag holds the files themselves.")
        elif path.is_file():
            bag.payload[name] = path.stat().st_size
        if path.name.lower() in SYSTEM:
            bag.say(WARNING, f"{name} is a file that a system leaves behind.")
    bag.bytes = sum(bag.payload.values())
    _alike(bag, bag.payload)
    return None


def _alike(bag, names):
    for what, key in (("letter case", str.casefold), ("Unicode normalisation", lambda name: unicodedata.normalize("NFC", name))):
        seen = {}
        for name in names:
            other = seen.setdefault(key(name), name)
            if other != name:
                bag.say(WARNING, f"{other} and {name} differ by {what} alone; some systems take them for one.")


# --- manifests --------------------------------------------------------------------------------------

def _manifests(bag):
    found = {path.name: _NAME.match(path.name) for path in sorted(bag.folder.iterdir()) if path.is_file() and _NAME.match(path.name)}
    payload = {name: match.group(2).lower() for name, match in found.items() if not match.group(1)}
    tags = {name: match.group(2).lower() for name, match in found.items() if match.group(1)}
    if not payload:
        bag.say(FORM, "There is no payload manifest, such as manifest-sha512.txt.")
    listed = [_listed(bag, name) for name in payload]
    _holes(bag, listed)
    for (name, algorithm), lines_ in zip(payload.items(), listed):
        _compare(bag, name, algorithm, lines_, _payload_path)
    _unlisted(bag, list(payload), listed)
    for name, algorithm in tags.items():
        lines_ = _listed(bag, name)
        _tags(bag, name, lines_, payload)
        _compare(bag, name, algorithm, lines_, _tag_path)
    bag.algorithms = sorted(set(payload.values()))


def _listed(bag, name):
    """Lines of a manifest that can be used, each path once."""
    kept, seen = [], {}
    for number, line in enumerate(_text_lines(bag, name), 1):
        if not line.strip():
            continue
        found = manifest(line, bag.strict())
        if found is None:
            bag.say(FORM, f"{name}, line {number}: a digest, white space and a path are needed.")
            continue
        if found.odd:
            bag.say(WARNING, f"{name}, line {number}: {found.odd}.")
        wrong = out_of_bag(found.path)
        if wrong:
            bag.say(FORM, f"{name}, line {number}: the path '{found.path}' {wrong}; only files in the bag may be named.")
            continue
        before = seen.setdefault(found.path, found.digest)
        if len(seen) > len(kept):
            kept.append(found)
        else:
            _twice(bag, name, number, found, before)
    _alike(bag, seen)
    return kept


def _twice(bag, name, number, found, before):
    same = before.lower() == found.digest.lower()
    kind = WARNING if same and not bag.strict() else FORM
    bag.say(kind, f"{name}, line {number}: '{found.path}' is listed twice{'' if same else ', with different digests'}.")


def _text_lines(bag, name):
    try:
        return lines((bag.folder / name).read_bytes().decode(bag.encoding))
    except (UnicodeDecodeError, LookupError):
        bag.say(FORM, f"{name} is not written in the encoding {bag.encoding} that bagit.txt names.")
        return []


def _holes(bag, listed):
    """Files that fetch.txt names are still to be fetched; each must be in every payload manifest and in the bag's reach."""
    if not (bag.folder / FETCH).is_file():
        return
    for number, line in enumerate(_text_lines(bag, FETCH), 1):
        if not line.strip():
            continue
        path = fetches(line, bag.strict())
        if path is None:
            bag.say(FORM, f"{FETCH}, line {number}: an address, a length or -, and a path are needed.")
        elif out_of_bag(path) or not path.startswith("data/"):
            why = out_of_bag(path) or "is not in data/"
            bag.say(FORM, f"{FETCH}, line {number}: the path '{path}' {why}; only payload files may be fetched.")
        elif not all(any(one.path == path for one in lines_) for lines_ in listed):
            bag.say(FORM, f"{FETCH}, line {number}: '{path}' is not in every payload manifest.")
        elif path not in bag.payload:
            _absent(bag, path, f"is still to be fetched, as {FETCH} says")


def _absent(bag, path, says):
    """Says once that a listed file is not there."""
    if path not in bag.absent:
        bag.absent.add(path)
        bag.say(MISSING, f"{path} {says}.")


def _payload_path(bag, name, line):
    if not line.path.startswith("data/"):
        bag.say(FORM, f"{name} lists '{line.path}', which is not in data/.")
        return None
    path, odd = _there(line, bag.payload)
    if odd:
        bag.say(WARNING, f"'{line.path}' is named on disk in another Unicode normalisation.")
    if path is None:
        _absent(bag, line.path, f"is listed in {name} and is not there")
    return path


def _tag_path(bag, name, line):
    if line.path.startswith("data/") or _NAME.match(line.path) and line.path.lower().startswith("tag"):
        bag.say(FORM if bag.strict() else WARNING, f"{name} lists '{line.path}'; a tag manifest lists neither payload nor tag manifests.")
        return None
    if (bag.folder / line.path).is_file():
        return line.path
    return _absent(bag, line.path, f"is listed in {name} and is not there")


def _there(line, names):
    """(path of a listed file as it is named on disk, whether in another normalisation); (None, False) when it is not there."""
    for path in (line.path, *line.otherwise):
        if path in names:
            return path, False
    normal = {unicodedata.normalize("NFC", name): name for name in names} if not line.path.isascii() else {}
    found = normal.get(unicodedata.normalize("NFC", line.path))
    return found, found is not None


def _compare(bag, name, algorithm, listed, find):
    """Compares the digests in a manifest with those of the files."""
    if algorithm.replace("-", "") not in KNOWN:
        bag.say(FORM, f"{name}: the algorithm '{algorithm}' is not known, so nothing in it can be compared.")
        return
    method = algorithm.replace("-", "")
    for line in listed:
        path = find(bag, name, line)
        if path is None:
            continue
        if len(line.digest) != hashlib.new(method).digest_size * 2:
            bag.say(FORM, f"{name}: the digest of '{line.path}' is not as long as one of {method} is.")
        elif digest_of(bag.folder / path, [method])[method] != line.digest.lower():
            bag.say(DIGEST, f"{path} was changed: its {method} is not the one in {name}.")


def _unlisted(bag, names, listed):
    """Payload files must be in every manifest (before 1.0: in one of them)."""
    per = [{_there(line, bag.payload)[0] for line in lines_} for lines_ in listed]
    for path in bag.payload:
        absent = [name for name, known in zip(names, per) if path not in known]
        if absent and (bag.strict() or len(absent) == len(names)):
            bag.say(FORM, f"{path} is in the bag and not listed in {', '.join(absent)}.")


def _tags(bag, name, listed, payload):
    known = {line.path for line in listed}
    for one in payload:
        if one not in known:
            bag.say(FORM if bag.strict() else WARNING, f"{name} does not list {one}; a tag manifest lists every payload manifest.")


# --- bag-info.txt -----------------------------------------------------------------------------------

def _info(bag):
    if not (bag.folder / INFO).is_file():
        return
    found = labels(_text_lines(bag, INFO), bag.strict())
    for number in found.bad:
        bag.say(FORM if bag.strict() else WARNING, f"{INFO}, line {number}: 'Label: value' is needed.")
    bag.info = list(found.pairs)
    sums = [value for label, value in found.pairs if label.lower() == "payload-oxum"]
    if len(sums) > 1:
        bag.say(FORM if bag.strict() else WARNING, f"{INFO} gives Payload-Oxum {len(sums)} times; once is allowed.")
    for value in sums[:1]:
        if value != f"{bag.bytes}.{len(bag.payload)}":
            told = value.rpartition(".")[2] == str(len(bag.payload)) and bag.complete and not bag.valid
            bag.say(DIGEST if told else MISSING,  # all files are there, and a changed one has been named already
                    f"{INFO} says that the payload has {value} (bytes.files); it has {bag.bytes}.{len(bag.payload)}.")


# --- the seal ---------------------------------------------------------------------------------------

def _seal(bag, given):
    """Notes the digest of the tag manifest, which stands for all of the bag, and compares it with the one given."""
    path = bag.folder / SEALED
    if path.is_file():
        bag.seal = digest_of(path, ("sha256",))["sha256"]
    if given is not None and given != bag.seal:
        found = f"its seal is {bag.seal}" if bag.seal else f"it has no {SEALED}"
        bag.say(DIGEST, f"This is not the package whose seal is {given}: {found}. Something in it was changed and its"
                        " manifests were written anew.")
