"""The law of each place as a page: the chain of acts, each rule's sentence, citation, condition, and how it is known."""

from collections import Counter

from registry.catalogue.words import HOW, LAW_LISTS
from registry.errors import UnknownRecord
from registry.rulebook import covered, place_names, rulebook
from registry.web import conditions
from registry.web.page import page, render

SHOWS = (("", "all places"), ("covered", "places with rules on file"), ("own", "places with a law of their own"),
         ("not", "places without rules"))


@page
async def listing(request, datasette):
    """The page /law with ?q= (part of a name, or a code) and ?show= (covered, own or not)."""
    words, show = request.args.get("q", "").strip(), request.args.get("show", "")
    show, laws = show if show in dict(SHOWS) else "", rulebook().laws
    named = sorted(place_names().items(), key=lambda one: one[1])
    rows = [(code, name, laws.law(code), laws.gap(code)) for code, name in named if fits(words, code, name)]
    rows = [row for row in rows if not show or _shown(show, row)]
    context = {"rows": rows, "covered": len(covered()), "all": len(named), "q": words, "show": show, "shows": SHOWS}
    return await render(datasette, request, "laws", context)


def fits(words, code, name):
    """True when a place is the one of that code, or its name holds the words."""
    return not words or (code == words.upper() if len(words) == 2 else False) or words.casefold() in name.casefold()


def _shown(show, row):
    code, _name, law, _gap = row
    return {"covered": law is not None, "own": law is not None and law.code == code, "not": law is None}[show]


@page
async def show(request, datasette):
    """The page /law/XX."""
    code = request.url_vars["code"].upper()
    if code not in place_names():
        raise UnknownRecord(f"{code} is not a place; two-letter codes of ISO 3166-1 such as US are allowed.")
    laws = rulebook().laws
    law = laws.law(code)
    context = {"code": code, "law": law, "gap": laws.gap(code), "place": laws.territories.get(code)}
    return await render(datasette, request, "law", context | (_shaped(law, laws) if law else {}))


def _rules(law):
    """Every Rule of a Law once."""
    found = [rule for act in law.acts for rule in (act.rule, *(term.rule for term in act.terms))]
    found += [entry.rule for name, _title in LAW_LISTS for entry in getattr(law, name)] + ([law.compare_rule] if law.compare_rule else [])
    return {rule.id: rule for rule in found}.values()


def _shaped(law, laws):
    """What the page shows of a Law: acts with their terms, and lists of rules, each with its condition in words."""
    said = conditions.of_law(law, laws)
    acts = [(act, applies, revive, list(zip(act.terms, terms))) for act, (applies, revive, terms) in zip(law.acts, said["acts"])]
    lists = [(title, [(entry.rule, when) for entry, when in zip(getattr(law, name), said[name])]) for name, title in LAW_LISTS]
    known = Counter(rule.how for rule in _rules(law))
    return {"known": [(known[how], how) for how in HOW if known[how]], "acts": acts,
            "lists": [one for one in lists if one[1]], "exempt": said["exempt"],
            "own_words": said["words"], "own_events": said["events"]}
