"""What is recorded as changed by hand: drawn anew from an older version? Read narrowly, since a version set aside for it
may be the protected one. A bare "none" or "redrawn" leaves it to the named traits; what else is not surely said is asked.
"""

import re

from registry.clearance.layers import shown_year

# Such as: redrawn from, drawn anew by hand from, retraced from; at the start of the text or of a part of it.
AFRESH = re.compile(
    r"(?:^|[,;:(] ?)(?:(?:wholly|entirely|all|newly) )?"
    r"(?:redrawn|retraced|drawn|traced)(?: (?:anew|afresh|again|by hand|by the shop|in full))* from "
)
# Words that may stand between "from" and the name of the version.
BETWEEN = frozenset(
    "a an the its of in dated version versions edition original first oldest older earliest page pages print strip"
    " sheet plate card postcard poster label picture drawing issue number titled called work key".split()
)
# Words with which a text takes back some of it.
MORE = re.compile(
    r"\b(?:not|never|no|part|parts|partly|half|mostly|mainly|almost|nearly|perhaps|maybe|only|just"
    r"|and|but|with|plus|also|both|or|except|later|newer|photograph|photo|scan)\b"
)
# With these the named traits alone tell what is shown: no change is worth a word, or a drawing of one's own is made.
NONE = frozenset(("none", "nothing", "no changes", "no change"))
OWN_HAND = re.compile(r"(?:redrawn|drawn anew)(?: by hand)?(?: as an? (?:flat )?(?:relief|outline|silhouette|line drawing))?")
# After the name nothing may stand but what is left out, or a change of what is drawn.
END = re.compile(r"|without .*|[\w ]+ (?:taller|longer|shorter|larger|smaller|wider|narrower|mirrored|left out)")
QUOTES = dict.fromkeys(map(ord, "'\"‘’“”„«»`"))


def drawn_from(changes, sources, left):
    """True when the changes say that the picture was drawn anew from one of the Layers `sources`, and name none of
    `left`. A version is named by its key, its title, or the year in which it was first shown.
    """
    text = plain(changes)
    found = AFRESH.search(text)
    if found is None or any(_place(name, text) is not None for layer in left for name in _names(layer)):
        return False
    before, rest = text[:found.start()], text[found.end():]
    return any(_tells(name, before, rest) for layer in sources for name in _names(layer))


def told(changes):
    """True when what is recorded of the changes leaves it to the named traits what is shown: no changes worth a word, or
    drawn anew, nobody says from what.
    """
    text = plain(changes).rstrip(" .!")
    return text in NONE or OWN_HAND.fullmatch(text) is not None


def plain(text):
    """A text as compared: letter case, spaces and quotation marks do not count."""
    return " ".join(text.casefold().translate(QUOTES).split())


def _names(layer):
    """What a text may call a Layer; none that is a word of the sentence anyway."""
    year = shown_year(layer)[:4]
    names = (plain(layer.key), plain(layer.title), year if len(year) == 4 and year.isdigit() else "")
    return [name for name in names if name and name not in BETWEEN]


def _tells(name, before, rest):
    """True when the text after "from" names a version so, at once, and takes nothing back."""
    place = _place(name, rest)
    if place is None or MORE.search(f"{before} {rest}"):
        return False
    after = rest[place + len(name):].strip(" .,;()").split()
    while after and after[0].strip(",") in BETWEEN:  # such as: from the 1926 strip
        after.pop(0)
    return END.fullmatch(" ".join(after).strip("() ")) is not None and all(word.strip("(),:") in BETWEEN | {""} for word in rest[:place].split())


def _place(name, text):
    found = re.search(rf"(?<![\w-]){re.escape(name)}(?![\w-])", text)
    return found.start() if found else None
