"""registry law show: the law of a place as it is on file, for a lawyer to read and to correct."""

from registry.catalogue import words
from registry.cli import shown
from registry.errors import UnknownRecord
from registry.facts import edtf
from registry.rulebook import places, rulebook


def arguments(parser):
    """Adds the argument of the command."""
    parser.add_argument("place", help="The two-letter code of the place, such as US.")


def run(args):
    """0; UnknownRecord when no law is on file for the place."""
    codes = places([args.place])
    if len(codes) != 1:
        raise UnknownRecord(f"{args.place} stands for {len(codes)} places; name one of them: {', '.join(codes)}.")
    code = codes[0]
    law = rulebook().laws.law(code)
    if law is None:
        raise UnknownRecord(f"No law is on file for {code}; 'registry law list' names the places that have one.")
    if args.json:
        shown.show_json(_object(law))
        return 0
    _head(law, code)
    _acts(law)
    for name, title in words.LAW_LISTS:
        _entries(title, [entry.rule for entry in getattr(law, name)])
    _entries("Comparison with the term in the country of origin", [law.compare_rule] if law.compare_rule else [])
    _sources(law)
    print("\n" + shown.advice())
    return 0


def _head(law, code):
    print(f"{law.name}  [{law.code}]")
    if code != law.code:
        print(shown.paragraph(f"It applies in {code} too."))
    print(shown.paragraph(f"Last looked at on {law.checked}. It covers {', '.join(map(shown.kind, sorted(law.covers)))}."))
    print(shown.paragraph(f"Limits: {law.edge or 'other kinds of work are not covered.'}"))


def _acts(law):
    print("\nActs in the order in which they came into force")
    for number, act in enumerate(law.acts, 1):
        print("\n" + shown.paragraph(f"{_start(act)}, {words.EXISTING[act.existing]}", 4, f"{number:>2}. "))
        _rule(act.rule, 4)
        if act.keep_longer:
            print(shown.paragraph(words.KEEP[act.keep_longer], 4))
        if act.compare and not act.keep_longer:
            print(shown.paragraph("The term is not longer than at home, unless the rules on comparison below say otherwise.", 4))
        if len(act.terms) > 1:
            print(shown.paragraph("The first of these terms that fits is taken:", 4))
        for term in act.terms:
            _rule(term.rule, 8, "      - ")
        if act.carry:
            print(shown.paragraph("Otherwise the term found so far stays.", 8, "      - "))


def _start(act):
    return words.day(act.start) if isinstance(act.start, int) else "From a day that depends on the country of origin"


def _rule(rule, indent, first=None):
    print(shown.paragraph(rule.says, indent, first))
    print(shown.paragraph(f"[{rule.id}: {rule.cite}; {words.HOW[rule.how]}]", indent))


def _entries(title, rules):
    if rules:
        print(f"\n{title}")
        for rule in rules:
            _rule(rule, 4, "  - ")


def _sources(law):
    print("\nSources")
    for source in law.sources.values():
        print(shown.paragraph(f"{source['title']} ({words.HOW[source['how']]}, {source.get('seen', 'no day')})", 4, "  - "))
        if source.get("url"):
            print(f"    {source['url']}")


def _object(law):
    lists = {name: [_plain(entry.rule) for entry in getattr(law, name)] for name, _title in words.LAW_LISTS}
    return {
        "place": law.code, "name": law.name, "last_looked_at": law.checked, "covers": sorted(law.covers), "not_covered": law.edge,
        "acts": [_act(act) for act in law.acts], **lists, "compare": _plain(law.compare_rule) if law.compare_rule else None,
        "sources": [{name: str(value) for name, value in source.items()} for source in law.sources.values()],
        "not_legal_advice": words.ADVICE,
    }


def _act(act):
    start = edtf.iso(act.start) if isinstance(act.start, int) else None
    return {**_plain(act.rule), "from": start, "existing": act.existing, "compare": act.compare, "keep_longer": act.keep_longer,
            "terms": [_plain(term.rule) for term in act.terms]}


def _plain(rule):
    return {"id": rule.id, "says": rule.says, "cite": rule.cite, "how": rule.how}
