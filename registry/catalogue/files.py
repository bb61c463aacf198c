"""Files of the catalogue, kept under their SHA-256: files/ab/abcdef... The bytes say what a file is, not its name."""

import hashlib
import os
import re
from dataclasses import dataclass
from pathlib import Path

from registry.catalogue.store import FILES, now, transaction
from registry.errors import RegistryError, UnknownRecord

LARGEST = 32 * 2**20  # bytes
LONGEST, ENDING = 120, 12  # letters of a name, and of the ending that a cut leaves it
PICTURES = ("image/png", "image/jpeg", "image/gif", "image/webp", "image/tiff", "image/svg+xml")
ENDINGS = dict(zip((*PICTURES, "application/pdf", "text/plain"), (".png", ".jpg", ".gif", ".webp", ".tif", ".svg", ".pdf", ".txt")))
ALLOWED = "PNG, JPEG, GIF, WebP, TIFF, SVG, PDF and plain text"
_STARTS = (
    (b"\x89PNG\r\n\x1a\n", "image/png"),
    (b"\xff\xd8\xff", "image/jpeg"),
    (b"GIF87a", "image/gif"),
    (b"GIF89a", "image/gif"),
    (b"II*\x00", "image/tiff"),
    (b"MM\x00*", "image/tiff"),
    (b"%PDF-", "application/pdf"),
)


@dataclass(frozen=True, slots=True)
class File:
    """One kept file; `bytes` is its size."""

    sha256: str
    bytes: int
    media_type: str
    name: str
    added_at: str


def add(catalogue, content, name, allowed=None):
    """The File for these bytes; the same bytes are kept once, under the name they first came with.

    `allowed` narrows the media types (PICTURES for a picture). RegistryError when the file is empty, too large
    or of another type.
    """
    media_type = checked(content, name, allowed)
    sha256 = hashlib.sha256(content).hexdigest()
    with transaction(catalogue) as db:
        known = db.execute("SELECT * FROM files WHERE sha256 = ?", (sha256,)).fetchone()
        _write(catalogue, sha256, content)
        if known:
            return File(*known)
        file = File(sha256, len(content), media_type, plain_name(name), now())
        db.execute(
            "INSERT INTO files (sha256, bytes, media_type, name, added_at) VALUES (?, ?, ?, ?, ?)",
            (file.sha256, file.bytes, file.media_type, file.name, file.added_at),
        )
    return file


def add_path(catalogue, path, allowed=None):
    """The File for a file on disk; RegistryError when it cannot be read, is too large or of another type."""
    path = Path(path)
    try:
        if path.stat().st_size > LARGEST:
            raise RegistryError(_too_large(path, path.stat().st_size))
        content = path.read_bytes()
    except OSError as error:
        raise RegistryError(f"The file {path} cannot be read: {error.strerror}.") from None
    return add(catalogue, content, path.name, allowed)


def get(catalogue, sha256):
    """The File of that digest; UnknownRecord when none is kept."""
    found = catalogue.db.execute("SELECT * FROM files WHERE sha256 = ?", (sha256,)).fetchone()
    if not found:
        raise UnknownRecord(f"No file {sha256!r} is kept in this catalogue.")
    return File(*found)


def path_of(catalogue, sha256):
    """The path of a kept file; the digest must be 64 hex digits, so that it can name nothing outside files/."""
    if not isinstance(sha256, str) or len(sha256) != 64 or not set(sha256) <= set("0123456789abcdef"):
        raise UnknownRecord(f"{sha256!r} is no digest of a file; 64 digits and letters a to f are needed.")
    return catalogue.folder / FILES / sha256[:2] / sha256


def read(catalogue, sha256):
    """The bytes of a kept file, compared with its digest; UnknownRecord when they are missing, RegistryError when they differ."""
    try:
        content = path_of(catalogue, sha256).read_bytes()
    except FileNotFoundError as error:
        raise UnknownRecord(f"The kept file {sha256} cannot be read: {error.strerror}.") from None
    except OSError as error:
        raise RegistryError(f"The kept file {sha256} cannot be read: {error.strerror}.") from None
    if hashlib.sha256(content).hexdigest() != sha256:
        raise RegistryError(f"The kept file {sha256} was changed on disk.")
    return content


def media_type(content):
    """The media type that the first bytes tell; None when it is none that is kept."""
    for start, kind in _STARTS:
        if content.startswith(start):
            return kind
    if content[:4] == b"RIFF" and content[8:12] == b"WEBP":
        return "image/webp"
    return _text_type(content)


def _text_type(content):
    try:
        text = content.decode("utf-8")
    except UnicodeDecodeError:
        return None
    if any(ord(letter) < 32 and letter not in "\t\n\r\f" for letter in text):
        return None
    return "image/svg+xml" if _is_svg(text) else "text/plain"


def _is_svg(text):
    """True when the first element is svg; the declaration, doctype and comments before it are stepped over."""
    rest = text.lstrip("\ufeff \t\r\n")
    for opening, closing in (("<?", "?>"), ("<!--", "-->"), ("<!", ">"), ("<!--", "-->")):
        while rest.startswith(opening):
            rest = rest.partition(closing)[2].lstrip()
    return rest.startswith("<svg") and rest[4:5] in " \t\r\n>/"


def plain_name(text):
    """The name of a file as it may be kept and shown: without folders and unprintable signs, at most LONGEST letters."""
    name = "".join(sign for sign in re.split(r"[/\\]", str(text))[-1] if sign.isprintable()).strip()
    if not name.strip("."):
        return "file"
    stem, point, ending = name.rpartition(".")
    if len(name) <= LONGEST or not point or len(ending) > ENDING:
        return name[:LONGEST]
    return f"{stem[:LONGEST - len(ending) - 1]}.{ending}"


def checked(content, name, allowed=None):
    """The media type of bytes that may be kept; RegistryError when they are empty, too large or of another type."""
    name = plain_name(name)
    if not content:
        raise RegistryError(f"The file {name} is empty.")
    if len(content) > LARGEST:
        raise RegistryError(_too_large(name, len(content)))
    kind = media_type(content)
    if kind is None:
        raise RegistryError(f"The file {name} is of no kind that is kept; allowed are {ALLOWED}.")
    if allowed and kind not in allowed:
        raise RegistryError(f"The file {name} is {kind}; allowed here are {', '.join(allowed)}.")
    return kind


def _too_large(name, size):
    return f"The file {name} has {size:,} bytes; at most {LARGEST:,} are allowed."


def _write(catalogue, sha256, content):
    """Puts the bytes in place unless they are; the name appears only when all is on disk."""
    target = path_of(catalogue, sha256)
    if target.is_file() and target.stat().st_size == len(content):
        return
    beside = target.with_name(f"{sha256}.{os.getpid()}.new")
    try:
        target.parent.mkdir(parents=True, exist_ok=True)
        with open(beside, "wb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        beside.replace(target)
    except OSError as error:
        raise RegistryError(f"The file could not be kept in {target.parent}: {error.strerror}.") from None
    finally:
        beside.unlink(missing_ok=True)
    catalogue.undo.append(lambda: target.unlink(missing_ok=True))
