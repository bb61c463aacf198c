"""Where on our pages a question can be answered."""

from urllib.parse import quote

from registry.rulebook import rulebook

EDITED = ("originality", "own", "based_on", "trait_version", "access_terms", "terms_of_access")


def answer_to(ask):
    """The address of the page on which an Ask is answered, "" when there is none."""
    about, facts = quote(ask.about, safe=""), rulebook().vocabulary.facts
    if ask.fact in facts and ask.fact != "id":
        return f"/work/{about}/ask?fact={quote(ask.fact)}"
    if ask.fact in EDITED:
        return f"/work/{about}/edit"
    licensed = ask.fact.startswith(("permission_", "credit_line", "recut", "licensor", "limits"))
    if licensed and ask.about[:1] == "p" and ask.about[1:].isdigit():
        return f"/permission/{ask.about[1:]}"
    if ask.fact.startswith("mark_") and ask.about[:1] == "m" and ask.about[1:].isdigit():
        return f"/mark/{ask.about[1:]}"
    return f"/permission/new?work={about}" if ask.fact == "permission" else ""
