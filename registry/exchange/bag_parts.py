"""Lines of the files of a bag: of manifests, of fetch.txt, of bag-info.txt. Text in, plain values out."""

import re
from dataclasses import dataclass

FETCH, INFO = "fetch.txt", "bag-info.txt"
_MANIFEST = re.compile(r"([0-9A-Fa-f]+)[ \t]+(\*?)(.+)\Z", re.DOTALL)
_FETCH = re.compile(r"(\S+)[ \t]+(\d+|-)[ \t]+(.+)\Z", re.DOTALL)
_DRIVE = re.compile(r"[A-Za-z]:|%[A-Za-z]+%[\\/]")
_ENDS = re.compile(r"\r\n|\n|\r")
_ESCAPES = {"%0a": "\n", "%0d": "\r", "%25": "%"}


@dataclass(frozen=True, slots=True)
class Line:
    """One line of a manifest: digest, path, other paths it may mean (in drafts before 1.0), and what is odd about it."""

    digest: str
    path: str
    otherwise: tuple = ()
    odd: str = ""


@dataclass(frozen=True, slots=True)
class Labels:
    """What bag-info.txt holds: pairs of label and value in order, and the numbers of lines that are none."""

    pairs: tuple
    bad: tuple


def lines(text):
    """The lines of a text, whichever way they end; the end of the last one opens no further line."""
    found = _ENDS.split(text)
    return found[:-1] if found and not found[-1] else found


def manifest(line, strict):
    """The Line in a line of a manifest; None when it is none."""
    found = _MANIFEST.match(line)
    if not found:
        return None
    digest, star, path = found.groups()
    odd = ["an asterisk stands before the path, as checksum tools write it"] if star else []
    if path.startswith("./"):
        path = path[2:]
        odd.append("the path begins with ./")
    plain = decoded(path)
    if strict or plain == path:
        return Line(digest, plain if strict else path, (), "; ".join(odd))
    return Line(digest, path, (plain,), "; ".join(odd))


def decoded(path):
    """The path with %0A, %0D and %25 put back."""
    return re.sub(r"%(?:0[aAdD]|25)", lambda found: _ESCAPES[found.group().lower()], path)


def fetches(line, strict):
    """The path in a line of fetch.txt; None when it is none."""
    found = _FETCH.match(line)
    if not found:
        return None
    path = found.group(3).removeprefix("./")
    return decoded(path) if strict else path


def out_of_bag(path):
    """Why a path may not be followed, "" when it may."""
    if path.startswith(("/", "\\")):
        return "is absolute"
    if path.startswith("~"):
        return "begins in somebody's home"
    if _DRIVE.match(path):
        return "names a drive"
    if ".." in re.split(r"[/\\]", path):
        return "leads out of the bag"
    return ""


def labels(found, strict):
    """The Labels in the lines of bag-info.txt; an indented line goes on with the value before it."""
    pairs, bad = [], []
    for number, line in enumerate(found, 1):
        if line[:1] in (" ", "\t") and pairs:
            pairs[-1] = (pairs[-1][0], f"{pairs[-1][1]} {line.strip()}")
        elif line.strip():
            label, colon, value = line.partition(":")
            if not colon or not label.strip() or strict and (label != label.strip() or value[:1] not in (" ", "\t", "")):
                bad.append(number)
            else:
                pairs.append((label.strip(), value.strip()))
    return Labels(tuple(pairs), tuple(bad))
