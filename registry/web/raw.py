"""Cells of Datasette's own tables that lead to our pages."""

from html import escape
from urllib.parse import quote

KEYS = {
    ("works", "key"): "/work/", ("jobs", "key"): "/job/", ("answers_now", "work"): "/work/",
    ("works_now", "work"): "/work/", ("open_questions", "work"): "/work/", ("stale", "work"): "/work/",
    ("assessments", "work"): "/work/", ("decisions", "subject"): "/job/",
    ("works", "picture"): "/picture/", ("files", "sha256"): "/file/",
    ("answers_now", "place"): "/law/", ("works_now", "place"): "/law/",
}


class Link:
    """A link that templates put out as it is; its words are escaped here."""

    __slots__ = ("address", "words")

    def __init__(self, address, words):
        self.address, self.words = address, words

    def __html__(self):
        return f'<a href="{escape(self.address)}">{escape(self.words)}</a>'

    def __str__(self):
        return self.words


def cell(value, column, table):
    """The Link for a key, None for every other cell."""
    start = KEYS.get((table, column))
    if not (start and isinstance(value, str) and value):
        return None
    return Link(start + quote(value, safe=""), value if len(value) < 40 else f"{value[:12]}…")
