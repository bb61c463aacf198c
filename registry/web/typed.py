"""Plain fields of a form that are no facts: days, numbers, classes, keys, places, files. What is wrong is said beside the field."""

import re

from registry.catalogue.places import written
from registry.errors import BadDate
from registry.facts import edtf
from registry.web import dates, held
from registry.web.page import typed_markets

YES_NO = (("", "not said"), ("yes", "yes"), ("no", "no"))
PLACES = ("not a place", "not a market", "leaves no place", "cannot be taken out", "what is left out")  # of a refused market
MEANT = {"yes": True, "no": False}


def day(form, name, errors):
    """The ISO day typed in a field, None for none; what is no day is noted in `errors`."""
    text = dates.plainly(form.get(name))
    if not text:
        return None
    try:
        edtf.day(text)
        return text
    except BadDate as error:
        errors[name] = str(error)
        return None


def number(form, name, errors, what="The number"):
    """The whole number from 1 up typed in a field, None for none; what is no such number is noted in `errors`."""
    text = form.get(name).replace(",", "").replace(" ", "")
    if text and not (text.isascii() and text.isdigit() and 0 < len(text) < 16 and int(text)):
        errors[name] = f"{what} is “{form.get(name)}”; a whole number from 1 up is allowed, or nothing."
        return None
    return int(text) if text else None


def classes(form, name, errors):
    """The Nice classes typed in a field, such as 20, 35; what is none is noted in `errors`."""
    parts = re.findall(r"[^\s,;]+", form.get(name))
    bad = next((part for part in parts if not (part.isascii() and part.isdigit() and 1 <= int(part[:9]) <= 45)), None)
    if bad is not None:
        errors[name] = f"“{bad}” is no Nice class; whole numbers from 1 to 45 are allowed, such as 20, 35."
        return []
    return sorted({int(part) for part in parts})


def meant(form, name):
    """True, False, or None where the field was left at "not said"."""
    return MEANT.get(form.get(name))


def keys(form, name):
    """The keys typed or ticked in a field, each once, in order."""
    return list(dict.fromkeys(key for text in form.all(name) for key in re.findall(r"[^\s,;]+", text)))


def places(text):
    """Codes and groups in a text with commas; the plain name of a country becomes its code."""
    return list(dict.fromkeys(map(written, typed_markets(text))))


def upload(form, name):
    """The Upload of a file field: the one sent now, else the one sent before and still held; None when there is none."""
    return form.file(name) or held.get(form.get(f"{name}_token"))


def waiting(form, name):
    """(token, name) under which the file of a form that could not be kept is held, so that it need not be chosen again."""
    sent = upload(form, name)
    if sent is None:
        return "", ""
    return (held.hold(sent) if form.file(name) else form.get(f"{name}_token")), sent.name


def beside(error, words, otherwise):
    """The sentence of an error as {field: sentence}: at the field of the first of `words` that it holds, else at `otherwise`."""
    text = str(error)
    return {next((name for word, name in words.items() if word in text), otherwise): text}
