"""The body of a POST: fields and files of a form, urlencoded or multipart, read within limits."""

import re
from dataclasses import dataclass, field
from urllib.parse import parse_qsl

from registry.catalogue.files import LARGEST
from registry.errors import RegistryError

LIMIT = LARGEST + 2**20  # bytes: the largest file that is kept, and the fields around it
PARTS = 2000
_NAME = re.compile(r'(?:^|;)\s*name="([^"]*)"')
_FILE = re.compile(r'(?:^|;)\s*filename="([^"]*)"')
_BOUNDARY = re.compile(r'boundary="?([^";,]{1,200})"?')


@dataclass(frozen=True, slots=True)
class Upload:
    """A file as it came: its name without folders, and its bytes."""

    name: str
    content: bytes


@dataclass(frozen=True, slots=True)
class Form:
    """What was sent: texts by name (each a list), files by name."""

    texts: dict = field(default_factory=dict)
    files: dict = field(default_factory=dict)

    def get(self, name, default=""):
        """The last text of that name, without white space around it."""
        return self.texts[name][-1].strip() if name in self.texts else default

    def all(self, name):
        """All texts of that name that are not empty."""
        return [text.strip() for text in self.texts.get(name, ()) if text.strip()]

    def file(self, name):
        """The file of that name; None when none was chosen."""
        return self.files.get(name)

    def number(self, name):
        """The whole number of that name; RegistryError when it is none."""
        text = self.get(name)
        if not re.fullmatch(r"[0-9]{1,15}", text):
            raise RegistryError(f"The form came without its {name}; open the page again.")
        return int(text)


async def read(request):
    """The Form of a POST request; RegistryError when it is too large or cannot be read."""
    content, kind = await _bytes(request), request.headers.get("content-type", "")
    if kind.startswith("multipart/form-data"):
        return split(content, kind)
    texts = {}
    for name, value in parse_qsl(content.decode("utf-8", "replace"), keep_blank_values=True, max_num_fields=PARTS):
        texts.setdefault(name, []).append(_plain(value))
    return Form(texts)


async def _bytes(request):
    pieces, size, more = [], 0, True
    while more:
        message = await request.receive()
        if message["type"] != "http.request":
            raise RegistryError("The form did not arrive whole; send it again.")
        pieces.append(message.get("body", b""))
        size, more = size + len(pieces[-1]), message.get("more_body", False)
        if size > LIMIT:
            raise RegistryError(f"What was sent is larger than {LIMIT // 2**20} MB; a file may have {LARGEST // 2**20} MB.")
    return b"".join(pieces)


def split(content, kind):
    """The Form in a multipart body, cut at its boundary; the bytes of files stay as they are."""
    boundary = _BOUNDARY.search(kind)
    if not boundary:
        raise RegistryError("The form names no boundary between its parts.")
    pieces = (b"\r\n" + content).split(b"\r\n--" + boundary[1].encode("latin-1"))
    if len(pieces) < 2 or not pieces[-1].startswith(b"--"):
        raise RegistryError("The form did not arrive whole; send it again.")
    if len(pieces) > PARTS:
        raise RegistryError(f"The form has more than {PARTS} parts.")
    form = Form()
    for piece in pieces[1:-1]:
        _add(form, piece)
    return form


def _add(form, piece):
    head, gap, value = piece.partition(b"\r\n\r\n")
    lines = head.decode("utf-8", "replace").split("\r\n")
    disposition = next((line.partition(":")[2] for line in lines if line.lower().startswith("content-disposition:")), "")
    name = _NAME.search(disposition)
    if not gap or not name:
        raise RegistryError("A part of the form has no name.")
    file = _FILE.search(disposition)
    if file is None:
        form.texts.setdefault(name[1], []).append(_plain(value.decode("utf-8", "replace")))
    elif file[1] or value:
        form.files[name[1]] = Upload(re.split(r"[/\\]", file[1])[-1] or "file", value)


def _plain(text):
    """The text with one kind of line end, and without signs that no text column should hold."""
    return "".join(sign for sign in text.replace("\r\n", "\n").replace("\r", "\n") if sign >= " " or sign in "\n\t")
