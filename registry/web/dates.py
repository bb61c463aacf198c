"""Dates by plain choices: "about", "in or before", "between", made into the written form (EDTF) and back.

No date that was typed is left out silently: a choice that has no place for it is refused with what to do instead.
"""

import re

from registry.errors import BadDate
from registry.facts import date_hints, edtf
from registry.facts.work import LAST_DAY, UNKNOWN

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
_LABELS = {how: label.partition(", one day")[0].partition(" (")[0] for how, label in CHOICES}
_PLAIN = r"-?\d{4}(?:-\d{2}){0,2}"
_FORMS = (
    ("exact", re.compile(rf"({_PLAIN})\Z")),
    ("about", re.compile(rf"({_PLAIN})~\Z")),
    ("before", re.compile(rf"\[\.\.({_PLAIN}[?~%]?)\]\Z")),
    ("after", re.compile(rf"\[({_PLAIN}[?~%]?)\.\.\]\Z")),
    ("between", re.compile(rf"\[({_PLAIN}[?~%]?)\.\.({_PLAIN}[?~%]?)\]\Z")),
)
_MONTH = r"(?:jan(?:uary)?|feb(?:ruary)?|mar(?:ch)?|apr(?:il)?|may|june?|july?|aug(?:ust)?|sept?(?:ember)?|oct(?:ober)?|nov(?:ember)?|dec(?:ember)?)\.?"
_NAMED = re.compile(rf"(?:\d{{1,2}}(?:st|nd|rd|th)?\.? )?{_MONTH},? [12]\d{{3}}|{_MONTH} \d{{1,2}}(?:st|nd|rd|th)?,? [12]\d{{3}}", re.IGNORECASE)
_MADE = {"before": "[..{}]", "after": "[{}..]", "between": "[{}..{}]"}
_AS_TYPED = ("", "exact", "written")
_ANY = "type a year such as 1928, a month such as 1928-05 or a day such as 1928-05-17"
_WHY = re.compile(r"cannot be read because (.+?)(?:; write .*)?\.\Z", re.DOTALL)
_FOR_EXPERTS = re.compile(r"EDTF|draft|codes|\(S\)|\bset\b|interval|marks?\b|'\.\.'|names no date")


def written(how, first, second="", recorded=False):
    """The written form of a choice; None when nothing is said.

    `recorded` says that a date with a choice of its own is on record: then a date without a choice is refused,
    since it would lose its "about" or "before". BadDate when a date is missing, has no place or cannot be read.
    """
    first, second = (first.strip(), second.strip()) if how == "written" else (plainly(first), plainly(second))
    if how not in _LABELS:
        raise BadDate(f"“{how}” is no way to mean a date; allowed are {', '.join(f'“{one}”' for one in _LABELS.values())}.")
    _check_places(how, first, second, recorded)
    if how == "unknown":
        return UNKNOWN
    if not first:
        return None
    if how == "written" or (how in _AS_TYPED and first == UNKNOWN):
        return first
    return _checked(how, first, second)


def plainly(text):
    """A day or month with its name and a year of four digits as the form it can only mean, 12 March 1931 as 1931-03-12; any
    other text as it is."""
    text = text.strip()
    if not _NAMED.fullmatch(text):
        return text
    forms = [form for form in _forms(text) if re.fullmatch(_PLAIN, form)]
    return forms[0] if len(forms) == 1 else text


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


# --- what is refused ----------------------------------------------------------------------------------

def _check_places(how, first, second, recorded):
    """BadDate when a date is typed where the choice has no place for it, or is missing where it needs one."""
    if (how == "unknown" and (first or second)) or (not how and first and not second and recorded):
        raise BadDate(f"A date is given, but “{_LABELS[how]}” is chosen: choose how the date is meant, or empty it.")
    if how == "between" and bool(first) != bool(second):
        raise BadDate("A date is missing: “between” needs two; type the other one, or choose how the one is meant.")
    if how != "between" and first and second:
        raise BadDate("Two dates are given: choose “between”, or empty the second.")
    if how != "between" and second:
        raise BadDate("A date is given in the second field, which is only for “between”: move it to the first, or empty it.")
    if how not in ("", "unknown") and not first:
        raise BadDate("A date is missing; type a year such as 1928, or choose “not looked for yet”.")


def _checked(how, first, second):
    """The written form when every date fits the choice; BadDate quotes a date as it was typed."""
    for part in (first, second) if how == "between" else (first,):
        if not _fits(how, part):
            raise BadDate(_refusal(how, part))
    text = _made(how, first, second)
    if how in _AS_TYPED:
        return text
    span = _span(text)
    if span is None:
        raise BadDate(f"The second date, {second}, is before the first, {first}: type the earlier one first.")
    if span.earliest is not None and span.earliest < 1:
        raise BadDate(f"“{_cut(first)}” reaches back before the year 1: for something that old choose “in or before” with 0001.")
    return text


def _made(how, first, second=""):
    if how == "about":
        return _about(first)
    return _MADE.get(how, "{}").format(first, second)


def _about(text):
    """The date marked as approximate; a mark that was typed is not doubled, and ? with about is %."""
    if _span(text) and _span(text).approximate:
        return text
    return text.replace("?", "%") if "?" in text else f"{text}~"


def _fits(how, part):
    """True when a typed date can be read, and stand under this choice."""
    span = _span(part)
    if span is None or how in _AS_TYPED:
        return span is not None
    return span.kind == "date" and not _endless(span) and _span(_made(how, part, part)) is not None


def _endless(span):
    """True for XXXX, which is any day at all."""
    return span.earliest is not None and span.earliest < 1 and span.latest is not None and span.latest >= LAST_DAY


def _span(text):
    try:
        return edtf.parse(text)
    except BadDate:
        return None


# --- what to do instead -------------------------------------------------------------------------------

def _refusal(how, part):
    """The sentence about a typed date that cannot stand under a choice, with advice that works there."""
    forms = _forms(part)
    advice = " or ".join(dict.fromkeys(filter(None, (_advice(how, form) for form in forms))))
    if not advice and forms and forms[0] != part:
        advice = f"choose “{_LABELS['written']}” with {forms[0]}"
    if _span(part) is not None:
        return f"“{_cut(part)}” cannot stand under “{_LABELS[how]}”, which takes one plain date: {advice or _ANY}."
    return f"“{_cut(part)}” cannot be read as a date{_why(part)}: {advice or _ANY}."


def _forms(part):
    """Written forms that a typed date may have been meant for; both readings of a span of years."""
    if part == UNKNOWN:
        return ("XXXX",)
    ends = part.split("/")
    if len(ends) == 2 and all(ends) and _span(part) is not None:
        return (f"[{ends[0]}..{ends[1]}]",)
    return date_hints.instead(part, lambda text: _span(text) is not None)


def _advice(how, form):
    """What to type or to choose for a written form; "" when the plain choices cannot say it."""
    if form == "XXXX":
        return f"choose “{_LABELS['unknown']}”"
    other, first, second = choice(form)
    plainer = other in ("before", "after", "between") or (other == "about" and how in _AS_TYPED)
    if plainer and other == how != "between":
        return f"type {first}"
    if plainer and _fits(other, first):
        return f"choose “{_LABELS[other]}” with {first}{f' and {second}' if second else ''}"
    bare = form.removesuffix("~").replace("%", "?") if how == "about" else form
    if not _fits(how, bare):
        return ""
    meaning = reading(bare)
    return f"type {bare}{f' ({meaning})' if meaning != bare else ''}"


def _why(part):
    """Why a date cannot be read, as a half sentence; "" where only the written form would explain it."""
    try:
        edtf.parse(part)
    except BadDate as error:
        found = _WHY.search(str(error))
        if found and not _FOR_EXPERTS.search(found[1]):
            return f", because {found[1]}"
    return ""


def _cut(text):
    return text if len(text) <= 60 else f"{text[:57]}…"
