"""HTML by hand: escaped text, fields that name what they show, tables; and the whole page with its style in it."""

import html
from datetime import date
from functools import lru_cache
from importlib.resources import files

from registry.catalogue import support, words
from registry.rulebook import place_names, place_phrases

POLICY = "default-src 'none'; img-src 'self' data:; style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'"


def esc(value):
    """The value as text that can stand in HTML, also between quotation marks; control characters become spaces."""
    return html.escape("".join(letter if letter.isprintable() or letter == "\n" else " " for letter in str(value)))


def field(path, value, tag="span", name=""):
    """An element that shows a value and says in data-field which one it is; "" when there is no value."""
    if value in (None, "", [], ()):
        return ""
    return f'<{tag}{_class(name)} data-field="{esc(path)}">{esc(value)}</{tag}>'


def _class(name):
    return f' class="{name}"' if name else ""


def table(heads, rows, name=""):
    """A table from heads (text) and rows of cells (HTML); the first cell of a row is its head."""
    top = "".join(f'<th scope="col">{esc(head)}</th>' for head in heads)
    cells = [f'<td data-label="{esc(head)}">' for head in heads[1:]]  # the head of its column, for where there is no room for columns
    lines = "".join(f'<tr><th scope="row">{first}</th>{"".join(f"{start}{cell}</td>" for start, cell in zip(cells, rest))}</tr>' for first, *rest in rows)
    return f'<table{_class(name)}><thead><tr>{top}</tr></thead><tbody>{lines}</tbody></table>' if rows else ""


def section(title, *parts, name=""):
    """A section with a heading; "" when there is nothing in it."""
    inside = "".join(parts)
    return f'<section{_class(name)}><h2>{esc(title)}</h2>{inside}</section>' if inside else ""


def items(entries, tag="ul", name=""):
    """A list of entries (HTML); "" when there are none."""
    return f'<{tag}{_class(name)}>{"".join(f"<li>{entry}</li>" for entry in entries)}</{tag}>' if entries else ""


def stamp(kind, says):
    """A decision or status as a stamp: told apart by its words and its frame, not by colour alone."""
    return f'<span class="stamp {esc(kind)}">{esc(says)}</span>'


def picture(address, title, name=""):
    """A picture, or a frame that says that none can be shown."""
    if not address:
        return f'<span class="nopicture{" " + name if name else ""}">no picture to show</span>'
    return f'<img{_class(name)} src="{esc(address)}" alt="Picture of {esc(title)}">'


def day(text):
    """An ISO day as 1 January 2024; what is none stays as it is."""
    try:
        return words.day(date.fromisoformat((text or "")[:10]).toordinal())
    except ValueError:
        return text or ""


def where(code):
    """The name of a place by its code; a group keeps its own name."""
    return place_names().get(code, code)


def within(code):
    """The same as it stands within a sentence: "the United States"."""
    return place_phrases().get(code, code)


def value(fact):
    """A fact as people read it; the values of several makers or publications stand side by side."""
    if isinstance(fact, (list, tuple)):
        return ", ".join(value(one) for one in fact if one is not None)
    if isinstance(fact, dict):
        return "; ".join(f"{name} {value(one)}" for name, one in fact.items())
    if not isinstance(fact, (str, bool)):
        return str(fact)
    return {True: "yes", False: "no", "unknown": "looked for, not found"}.get(fact, str(fact).replace("_", " "))


def label(name):
    """The name of a fact in plain words, the same as on the pages."""
    return support.label(name)


def page(title, body):
    """The whole page, in English, with its style and without anything to load."""
    return (
        '<!DOCTYPE html>\n<html lang="en">\n<head>\n<meta charset="utf-8">\n'
        '<meta name="viewport" content="width=device-width, initial-scale=1">\n'
        f'<meta http-equiv="Content-Security-Policy" content="{POLICY}">\n<title>{esc(title)}</title>\n'
        f'<style>\n{style()}</style>\n</head>\n<body>\n{body}\n</body>\n</html>\n'
    )


@lru_cache(maxsize=1)
def style():
    """The style sheet of printed papers."""
    return files("registry.exchange").joinpath("paper.css").read_text(encoding="utf-8")
