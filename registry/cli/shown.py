"""Text for people in 80 columns, JSON for programs. Shows what it is given; reckons nothing."""

import json
import textwrap

from registry.catalogue import evidence, words
from registry.rulebook import rulebook

WIDTH = 80


def show_json(value):
    """Prints a value as JSON for programs."""
    print(json.dumps(value, ensure_ascii=False, indent=2))


def plain(text):
    """Text that can be printed on a terminal: control characters, which could steer it, become spaces."""
    return "".join(letter if letter.isprintable() else " " for letter in str(text))


def paragraph(text, indent=0, first=None):
    """The text wrapped to the width, each line indented; `first` is put before the first line instead."""
    start = " " * indent if first is None else first
    return textwrap.fill(plain(text), WIDTH, initial_indent=start, subsequent_indent=" " * max(indent, 0),
                         break_long_words=False, break_on_hyphens=False)


def table(rows, indent=2):
    """Rows of cells as aligned lines; the last column is wrapped within the width."""
    rows = [[plain(cell) for cell in row] for row in rows]
    widths = [max(len(row[number]) for row in rows) for number in range(len(rows[0]) - 1)] if rows else []
    lines = []
    for row in rows:
        start = " " * indent + "".join(f"{cell:<{width}}  " for cell, width in zip(row, widths))
        lines.append(paragraph(row[-1], len(start), start).rstrip() if row[-1] else start.rstrip())
    return "\n".join(lines)


def heading(title, key):
    """A title with its key, as the first line about a record."""
    return paragraph(f"{title or '(untitled)'}  [{key}]", 2, "")


def summary(record):
    """What a work is, in one line: kind, makers, first publication."""
    parts = [kind(record.kind), record.makers, f"first published {record.first_published}" if record.first_published else ""]
    return ", ".join(part for part in parts if part) or "nothing is known of it"


def kind(name):
    """The kind of a work in plain words."""
    return (name or "").replace("_", " ")


def fact(name):
    """A fact by its label, with the name that commands take where that is another: 'Renewed (US) [us_renewed]', 'Died'."""
    known = rulebook().vocabulary.facts.get(name)
    if name in evidence.BESIDE:
        return f"{evidence.BESIDE[name]} [{name}]"
    if known is None or known.label.casefold() == name.replace("_", " "):
        return known.label if known else name
    return f"{known.label} [{name}]"


def advice():
    """The sentence that stands under every answer."""
    return paragraph(words.ADVICE)
