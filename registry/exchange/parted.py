"""Several texts in one cell or field: signs part them, and a sign that belongs to a text has a backslash before it."""

import re

_OWN = r"\\[;:\\\n]"  # what is read as the sign itself; any other backslash stands for itself


def parts(text, signs):
    """The pieces of a text between these signs (of ; : and the line end), still with their backslashes; none is empty."""
    return re.findall(f"(?:{_OWN}|[^{signs}])+", text)


def halves(text):
    """(before, after) of the first colon that parts a text, still with backslashes; after is "" without one."""
    before = re.match(f"(?:{_OWN}|[^:])*", text)[0]
    return before, text[len(before) + 1:]


def plain(text):
    """A piece as it was meant: without the backslashes before signs, and without spaces around."""
    return re.sub(_OWN, lambda found: found[0][1], text).strip()


def escaped(text, signs):
    """A text with a backslash before each of these signs and each backslash, so that `plain` gives it back."""
    return re.sub(rf"[{signs}\\]", r"\\\g<0>", text)
