"""The pages of one catalogue, asked in this process: a small ASGI caller, and a reading of the HTML that comes back."""

import asyncio
import io
from html.parser import HTMLParser
from urllib.parse import urlencode

from datasette.app import Datasette
from datasette.utils import parse_metadata
from registry import data
from registry.cli.serve import SETTINGS

HOST = "127.0.0.1:8001"
OWN = {"origin": f"http://{HOST}", "sec-fetch-site": "same-origin"}
VOID = {"area", "base", "br", "col", "embed", "hr", "img", "input", "link", "meta", "source", "track", "wbr"}


class Answer:
    """One answer: status, headers by lower-case name, body."""

    def __init__(self, status, headers, body):
        self.status, self.headers, self.body = status, headers, body

    @property
    def text(self):
        """The body as text."""
        return self.body.decode("utf-8")

    @property
    def page(self):
        """The body as an Element."""
        return read(self.text)


class Site:
    """The pages of the catalogue in a folder; close it when done."""

    def __init__(self, folder):
        self.loop = asyncio.new_event_loop()
        settings = {name: value != "off" if value in ("on", "off") else int(value) for name, value in SETTINGS.items()}
        metadata = parse_metadata(data.read_text("datasette.yaml"))
        self.datasette = Datasette([str(folder / "catalogue.db")], settings=settings, metadata=metadata)
        self.loop.run_until_complete(self.datasette.invoke_startup())
        self.app = self.datasette.app()

    def close(self):
        """Ends what waits in the background."""
        for task in asyncio.all_tasks(self.loop):
            task.cancel()
        self.loop.run_until_complete(asyncio.sleep(0))
        self.loop.close()

    def get(self, path, **headers):
        """The Answer to a GET request."""
        return self.ask("GET", path, b"", headers)

    def post(self, path, fields=(), files=(), headers=OWN):
        """The Answer to a form: fields a dict or pairs, files (name, file name, bytes)."""
        pairs = [(name, one) for name, value in (fields.items() if isinstance(fields, dict) else fields) for one in (value if isinstance(value, list) else [value])]
        if files:
            body, kind = multipart(pairs, files)
        else:
            body, kind = urlencode(pairs).encode(), "application/x-www-form-urlencoded"
        return self.ask("POST", path, body, {"content-type": kind, **headers})

    def ask(self, method, path, body, headers):
        """The Answer to any request."""
        return self.loop.run_until_complete(self._ask(method, path, body, headers))

    async def _ask(self, method, path, body, headers):
        path, _, query = path.partition("?")
        given = {"host": HOST, **headers}
        scope = {"type": "http", "asgi": {"version": "3.0"}, "http_version": "1.1", "method": method, "path": path.partition("#")[0], "raw_path": path.encode(),
                 "query_string": query.encode(), "root_path": "", "scheme": "http", "server": ("127.0.0.1", 8001), "client": ("127.0.0.1", 50000),
                 "headers": [(name.replace("_", "-").lower().encode(), value.encode()) for name, value in given.items()]}
        sent, out = [{"type": "http.request", "body": body, "more_body": False}], []

        async def receive():
            return sent.pop(0) if sent else {"type": "http.disconnect"}

        async def send(message):
            out.append(message)

        await self.app(scope, receive, send)
        start = next(one for one in out if one["type"] == "http.response.start")
        content = b"".join(one.get("body", b"") for one in out if one["type"] == "http.response.body")
        return Answer(start["status"], {name.decode().lower(): value.decode() for name, value in start["headers"]}, content)


def multipart(pairs, files, boundary="----a1b2c3"):
    """(body, content type) of a form with files."""
    out = io.BytesIO()
    for name, value in pairs:
        out.write(f'--{boundary}\r\nContent-Disposition: form-data; name="{name}"\r\n\r\n{value}\r\n'.encode())
    for name, file_name, content in files:
        out.write(f'--{boundary}\r\nContent-Disposition: form-data; name="{name}"; filename="{file_name}"\r\nContent-Type: application/octet-stream\r\n\r\n'.encode())
        out.write(content + b"\r\n")
    out.write(f"--{boundary}--\r\n".encode())
    return out.getvalue(), f"multipart/form-data; boundary={boundary}"


class Element:
    """One element of a page: tag, attributes, children (Elements and texts)."""

    def __init__(self, tag, attributes, parent=None):
        self.tag, self.attributes, self.parent, self.children = tag, attributes, parent, []

    def __getitem__(self, name):
        return self.attributes.get(name)

    def __iter__(self):
        for child in self.children:
            if isinstance(child, Element):
                yield child
                yield from child

    def all(self, *tags, **attributes):
        """Elements inside with one of these tags and these attributes, in order; class_ is one of several classes."""
        wanted = {name.rstrip("_").replace("_", "-"): value for name, value in attributes.items()}
        return [one for one in self if (not tags or one.tag in tags) and all(_has(one, name, value) for name, value in wanted.items())]

    def one(self, *tags, **attributes):
        """The only such element."""
        found = self.all(*tags, **attributes)
        assert len(found) == 1, f"{len(found)} elements {tags} {attributes}, not one"
        return found[0]

    @property
    def text(self):
        """The text inside, white space made one blank."""
        return " ".join("".join(self._texts()).split())

    def _texts(self):
        for child in self.children:
            yield from child._texts() if isinstance(child, Element) else [child]

    @property
    def within(self):
        """The elements around it, the nearest first."""
        one = self.parent
        while one is not None:
            yield one
            one = one.parent


def _has(element, name, value):
    held = element.attributes.get(name)
    return held is not None if value is True else value in (held or "").split() if name == "class" else held == value


class _Reader(HTMLParser):
    def __init__(self):
        super().__init__(convert_charrefs=True)
        self.top = self.at = Element("", {})
        self.faults = []

    def handle_starttag(self, tag, attrs):
        one = Element(tag, {name: value or "" for name, value in attrs}, self.at)
        self.at.children.append(one)
        if tag not in VOID:
            self.at = one

    def handle_startendtag(self, tag, attrs):
        self.at.children.append(Element(tag, {name: value or "" for name, value in attrs}, self.at))

    def handle_endtag(self, tag):
        if tag in VOID:
            return
        if self.at.tag != tag:
            self.faults.append(f"</{tag}> closes <{self.at.tag}>")
        while self.at.parent is not None and self.at.tag != tag:
            self.at = self.at.parent
        self.at = self.at.parent or self.at

    def handle_data(self, data):
        self.at.children.append(data)


def read(text):
    """The Element of a whole page; AssertionError when its tags do not nest."""
    reader = _Reader()
    reader.feed(text)
    reader.close()
    assert reader.faults == [], reader.faults
    return reader.top


def values(form):
    """What a browser would send for a form as it stands, as (name, value) pairs; no button is pressed."""
    found = []
    for one in form.all("input", "select", "textarea"):
        name, kind = one["name"], one["type"]
        if not name or kind in ("submit", "file", "button"):
            continue
        if one.tag == "select":
            options = one.all("option")
            chosen = next((o for o in options if o["selected"] is not None), options[0] if options else None)
            found.append((name, "" if chosen is None else chosen["value"] if chosen["value"] is not None else chosen.text))
        elif one.tag == "textarea":
            found.append((name, "".join(one._texts()).removeprefix("\n")))
        elif kind not in ("checkbox", "radio") or one["checked"] is not None:
            found.append((name, one["value"] or ""))
    return found


def form_of(answer, number=0, **more):
    """What a browser would send for one of the posting forms of an Answer, with some fields typed anew."""
    pairs = values(answer.page.all("form", method="post")[number])
    return [pair for pair in pairs if pair[0] not in more] + list(more.items())
