"""Dates by plain choices: "about", "in or before", "between", made into the written form (EDTF) and back."""

import re

from registry.errors import BadDate
from registry.facts import edtf
from registry.facts.work import UNKNOWN

CHOICES = (
    ("", "not looked for yet"),
    ("exact", "in or on"),
    ("about", "about"),
    ("before", "in or before"),
    ("after", "in or after"),
    ("between", "between, one day from … to …"),
    ("unknown", "looked for, not found"),
    ("written", "in the written form (EDTF)"),
)
_PLAIN = r"-?\d{4}(?:-\d{2}){0,2}"
_FORMS = (
    ("exact", re.compile(rf"({_PLAIN})\Z")),
    ("about", re.compile(rf"({_PLAIN})~\Z")),
    ("before", re.compile(rf"\[\.\.({_PLAIN})\]\Z")),
    ("after", re.compile(rf"\[({_PLAIN})\.\.\]\Z")),
    ("between", re.compile(rf"\[({_PLAIN})\.\.({_PLAIN})\]\Z")),
)
_MADE = {"exact": "{}", "written": "{}", "about": "{}~", "before": "[..{}]", "after": "[{}..]"}


def written(how, first, second=""):
    """The written form of a choice; None when nothing is said. BadDate when a needed date is missing."""
    first, second = first.strip(), second.strip()
    if how == "unknown":
        return UNKNOWN
    if not how:
        if first or second:
            how = "written"
        else:
            return None
    if not first or (how == "between" and not second):
        raise BadDate("A date is missing; type a year such as 1928, or choose “not looked for yet”.")
    return f"[{first}..{second}]" if how == "between" else _MADE.get(how, "{}").format(first)


def choice(text):
    """(how, first, second) for a written form; what no plain choice can say stays in the written form."""
    if text in (None, ""):
        return "", "", ""
    if text == UNKNOWN:
        return "unknown", "", ""
    for how, form in _FORMS:
        found = form.match(str(text))
        if found:
            return how, found[1], found[2] if how == "between" else ""
    return "written", str(text), ""


def reading(text):
    """How a written form is understood, in plain English; BadDate when it cannot be."""
    if text in (None, ""):
        return "not looked for yet"
    if text == UNKNOWN:
        return "looked for, not found"
    return edtf.describe(edtf.parse(str(text)))
