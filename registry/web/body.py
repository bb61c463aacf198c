"""The body of a POST: fields and files of a form, urlencoded or multipart, read within limits."""

import re
from dataclasses import dataclass, field
from urllib.parse import parse_qsl

from registry.catalogue.files import LARGEST, plain_name
from registry.errors import RegistryError

LIMIT = LARGEST + 2**20  # bytes: the largest file that is kept, and the fields around it
PARTS = 3000           # fields of one form: a hundred makers and a hundred publications of one work need nearly as many
LONGEST = 20_000       # signs of one text
SHOWN = 10 * LONGEST   # signs of a text that is too long which are shown again, to be shortened
NAME = 200             # signs of the name of a field
UNSEEN = ("base", "seen")  # what a page sends back of itself, as long as the record is
_NAME = re.compile(r'(?:^|;)\s*name="([^"]*)"')
_FILE = re.compile(r'(?:^|;)\s*filename="([^"]*)"')
_BOUNDARY = re.compile(r'boundary="?([^";,]{1,200})"?', re.I)


@dataclass(frozen=True, slots=True)
class Upload:
    """A file as it came: its name as files.plain_name makes it, and its bytes."""

    name: str
    content: bytes


@dataclass(frozen=True, slots=True)
class Form:
    """What was sent: texts by name (each a list), files by name, sentences about texts that are too long by name."""

    texts: dict = field(default_factory=dict)
    files: dict = field(default_factory=dict)
    long: dict = field(default_factory=dict)

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


def small(text):
    """The number of a row or record written in a name or an address; None for all but one to six plain digits."""
    return int(text) if re.fullmatch(r"[0-9]{1,6}", text) else None


def asked(request):
    """The Form in the address of a request, which is cut into its parts only once."""
    args, form = request.args, Form()
    for name in args:
        for value in args.getlist(name):
            _put(form, name, value)
    return form


async def read(request, beside=False):
    """The Form of a POST request; RegistryError when it is too large or cannot be read.

    A text that is too long is an error too, unless the page says so `beside` its field, from `Form.long`.
    """
    content, kind = await _bytes(request), request.headers.get("content-type", "")
    form = split(content, kind) if kind.strip().lower().startswith("multipart/form-data") else _pairs(content)
    if form.long and not beside:
        raise RegistryError(next(iter(form.long.values())))
    return form


def _pairs(content):
    form = Form()
    try:
        pairs = parse_qsl(content.decode("utf-8", "replace"), keep_blank_values=True, max_num_fields=PARTS)
    except ValueError:
        raise RegistryError(f"The form has more than {PARTS} parts.") from None
    for name, value in pairs:
        _put(form, name, _plain(value))
    return form


def _put(form, name, text):
    if len(name) > NAME:
        raise RegistryError(f"A field has a name of {len(name):,} signs; at most {NAME} are allowed.")
    if len(text) > LONGEST and name not in UNSEEN:
        form.long[name] = f"The field “{name}” has {len(text):,} signs; at most {LONGEST:,} are allowed."
        text = text[:SHOWN]
    form.texts.setdefault(name, []).append(text)


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
        _put(form, name[1], _plain(value.decode("utf-8", "replace")))
    elif file[1] or value:
        form.files[name[1]] = Upload(plain_name(file[1]), value)


def _plain(text):
    """The text with one kind of line end, and without signs that no text column should hold."""
    return "".join(sign for sign in text.replace("\r\n", "\n").replace("\r", "\n") if sign >= " " or sign in "\n\t")
