"""BagIt 1.0 (RFC 8493): packages with digests, written whole or not at all. Checking them is in bag_check.py.

A bag guards against damage, not against somebody who writes it anew: the digest of its tag manifest, given
separately, does that.
"""

import hashlib
import shutil
from dataclasses import dataclass
from pathlib import Path

from registry.catalogue import whole
from registry.errors import RegistryError

VERSION, ENCODING = "1.0", "UTF-8"
ALGORITHMS = ("sha256", "sha512")
BLOCK = 2**18


@dataclass(frozen=True, slots=True)
class Bag:
    """What was written: the folder, how many payload files with how many bytes, SHA-256 of tagmanifest-sha256.txt."""

    folder: Path
    files: int
    bytes: int
    seal: str


def write(folder, payload, info):
    """The Bag in a new folder; `payload` maps paths beneath data/ to bytes or to the Path of a file to copy,
    `info` is a list of (label, value) for bag-info.txt.

    RegistryError when the folder is there already and not empty, when a path is not allowed, or on a failing disk.
    """
    for path in payload:
        _check(path)
    with whole.folder(folder, "The package") as beside:
        bag = _fill(beside, payload, info)
    return Bag(Path(folder), *bag)


def _check(path):
    steps = path.split("/")
    if not path or "\\" in path or "\0" in path or path.startswith("~") or any(step in ("", ".", "..") for step in steps):
        raise RegistryError(f"'{path}' cannot be the path of a file in a package; names joined by / are needed, without . and ..")


def _fill(folder, payload, info):
    digests = {algorithm: {} for algorithm in ALGORITHMS}
    (folder / "data").mkdir()
    size = 0
    for path in sorted(payload):
        target = folder / "data" / path
        target.parent.mkdir(parents=True, exist_ok=True)
        size += _put(target, payload[path])
        for algorithm, found in digest_of(target, ALGORITHMS).items():
            digests[algorithm][f"data/{path}"] = found
    tags = {"bagit.txt": f"BagIt-Version: {VERSION}\nTag-File-Character-Encoding: {ENCODING}\n",
            "bag-info.txt": _info([*info, ("Payload-Oxum", f"{size}.{len(payload)}"), ("Bag-Size", sized(size))])}
    tags |= {f"manifest-{algorithm}.txt": _manifest(found) for algorithm, found in digests.items()}
    seals = {f"tagmanifest-{algorithm}.txt": _manifest(_of_tags(tags, algorithm)) for algorithm in ALGORITHMS}
    for name, text in {**tags, **seals}.items():
        (folder / name).write_bytes(text.encode("utf-8"))
    return len(payload), size, hashlib.sha256(seals["tagmanifest-sha256.txt"].encode("utf-8")).hexdigest()


def _of_tags(tags, algorithm):
    return {name: hashlib.new(algorithm, text.encode("utf-8")).hexdigest() for name, text in tags.items()}


def _put(target, content):
    if isinstance(content, bytes):
        return target.write_bytes(content)
    shutil.copyfile(content, target)
    return target.stat().st_size


def digest_of(path, algorithms):
    """Digests of a file by name of algorithm, in one reading."""
    found, block = {name: hashlib.new(name) for name in algorithms}, bytearray(BLOCK)
    view = memoryview(block)
    with open(path, "rb", buffering=0) as file:
        while read := file.readinto(block):
            for one in found.values():
                one.update(view[:read])
    return {name: one.hexdigest() for name, one in found.items()}


def _manifest(digests):
    return "".join(f"{digest}  {encoded(path)}\n" for path, digest in sorted(digests.items()))


def encoded(path):
    """The path as it stands in a manifest: %, line feed and carriage return are percent-encoded, nothing else."""
    return path.replace("%", "%25").replace("\n", "%0A").replace("\r", "%0D")


def _info(pairs):
    """bag-info.txt: `Label: value` lines; a line break in a value becomes a blank."""
    return "".join(f"{label}: {' '.join(str(value).split())}\n" for label, value in pairs if str(value).strip())


def sized(size):
    """A size as people write it, such as 3.2 MB."""
    for unit in ("B", "kB", "MB", "GB"):
        if size < 1000 or unit == "GB":
            return f"{size:.0f} {unit}" if unit == "B" else f"{size:.1f} {unit}"
        size /= 1000
    return ""
