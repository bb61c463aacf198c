"""The words in which answers are shown to people, the same in the commands and on the pages."""

from datetime import date

from registry.clearance.marks import EXACT, STRONG
from registry.clearance.shown import at_latest
from registry.facts import edtf

STATUS = {
    "public_domain": "likely public domain",
    "in_copyright": "likely in copyright",
    "undetermined": "undetermined",
    "own": "the shop’s own",
}
MARKET = {"no_bar_found": "no bar found", "hold": "hold", "not_settled": "not settled"}
BECAUSE = {
    "missing_fact": "a fact is missing or too vague",
    "contested_law": "the law itself is contested",
    "not_covered": "not covered by the rules on file",
}
HOW = {
    "read": "read in the source",
    "secondary": "from a secondary source",
    "memory": "from memory, not checked",
}
BASIS = {"seen": "seen in a document", "told": "told by somebody", "assumed": "assumed"}
# What is asked about beside the facts of a work.
BESIDE = {
    "permission_to": "Last day of the permission", "permission_from": "First day of the permission",
    "permission_commercial": "Goods for sale", "permission_uses": "Uses of the permission",
    "permission_places": "Places of the permission", "permission_media": "Products of the permission",
    "permission_quantity": "Pieces of the permission", "permission_changes": "Changes allowed",
    "permission_advantage": "Commercial advantage", "changes": "What is changed by hand",
    "redrawn": "Version it is drawn from", "recut": "Leave to cut or carve it", "licensor": "Who holds the rights",
    "limits": "Last day and pieces of the permission", "words_of": "Text that the words are of",
    "terms_of_access": "Terms of the source",
    "mark_in_use": "The mark is in use", "mark_state": "State of the mark", "mark_renewed": "Renewal of the mark",
    "mark_classes": "Classes of the mark", "mark_office": "Office of the mark",
    "mark_consent": "Consent of the owner of the mark", "mark_goods": "Goods of the mark",
    "originality": "Copy or something new", "own": "Made by the shop itself",
}
ORIGINALITY = {
    "faithful_copy": "a faithful copy that adds nothing of its own",
    "new_expression": "adds something of its own",
    "unknown": "not known whether it adds something of its own",
}
# What an act does with works that were there before it, and with a longer term.
EXISTING = {
    "if_protected": "for new works, and for those still protected on that day",
    "revive": "for new works, those still protected, and some that were free already",
    "revive_only": "only for works that were free already and get protection back",
}
KEEP = {
    "before": "A longer term already running is kept; then it is compared with the term at home.",
    "after": "A longer term already running is kept, whatever the comparison with the term at home says.",
}
# Lists of rules of a law beside its acts: (name in the law, heading).
LAW_LISTS = (
    ("never", "Never protected"),
    ("doubts", "Contested, or beyond these rules: the answer is then undetermined"),
    ("related", "Related rights that can outlast the copyright"),
    ("also", "Free, but beware"),
)
ADVICE = (
    "Not legal advice. The law of each place decides, as it stands on the day; before you rely on an"
    " answer, ask a practitioner who is licensed there."
)


def day(number):
    """A day number as 1 January 2024; ISO text for days outside the years 1 to 9999."""
    if not 1 <= number <= date.max.toordinal():
        return edtf.iso(number)
    found = date.fromordinal(number)
    return f"{found.day} {found:%B} {found.year}"


def marks_near(market):
    """What a row says of the marks of a MarketAnswer: "held by the mark 'X'" or "near the mark 'X'"; "" for none."""
    found = {}
    for place in market.places:
        for match in place.matches:
            found.setdefault(match.strength, {})[f"'{match.words or match.mark}'"] = place.place
    told = ((EXACT, "held by the mark"), (STRONG, "near the mark"))
    parts = [f"{says} {', '.join(found[strength])}" for strength, says in told if strength in found]
    return "; ".join(parts)


def since(market):
    """Since when a MarketAnswer or PlaceAnswer without a bar is free, "at the latest" where the day is only a bound; "" for no day."""
    if market.free_from is None:
        return ""
    return f"since {day(market.free_from)}" + (" at the latest" if at_latest(market) else "")


def worth(one):
    """What an answer to a Ranked question would settle, as a sentence."""
    several = one.waiting > 1
    waiting = f"{one.waiting} markets and jobs that wait for it" if several else "one market and job that waits for it"
    if not one.settles and several:
        return f"An answer to this alone settles none of the {waiting}: other questions must be answered too."
    if not one.settles:
        return "An answer to this alone is not enough: other questions must be answered too."
    return f"An answer may settle {one.settles} of the {waiting}." if several else f"An answer may settle the {waiting}."


def when(verdict):
    """Since when a work is free, or until when it is protected, as far as that is known; "" when it is not."""
    return _WHEN[verdict.status](verdict)


def _free(verdict):
    if verdict.free_from is not None:
        return f"since {day(verdict.free_from)}"
    if verdict.latest is not None:
        return f"since {day(verdict.latest)} at the latest"
    return "no copyright there, on these facts"


def _protected(verdict):
    if verdict.free_from is not None:
        return f"to {day(verdict.free_from - 1)}"
    if verdict.earliest is None:
        return "no end in sight"
    if verdict.latest is None:
        return f"to {day(verdict.earliest - 1)} or later"
    return f"to {day(verdict.earliest - 1)} at least, {day(verdict.latest - 1)} at most"


def _open(verdict):
    if verdict.because != "missing_fact" or verdict.latest is None:
        return ""
    if verdict.earliest is None:
        return f"free from {day(verdict.latest)} at the latest"
    return f"free from some day between {day(verdict.earliest)} and {day(verdict.latest)}"


_WHEN = {"public_domain": _free, "in_copyright": _protected, "undetermined": _open}
