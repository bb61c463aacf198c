"""registry law list: the places whose law is on file."""

from registry.catalogue import words
from registry.cli import shown
from registry.rulebook import covered, place_names, rulebook


def arguments(_parser):
    """Adds nothing; the command takes no arguments of its own."""


def run(args):
    """0; a place to which the law of a state applies names that state."""
    laws = rulebook().laws
    found = [(code, laws.law(code)) for code in covered()]
    if args.json:
        shown.show_json([_object(code, law) for code, law in found])
        return 0
    print(shown.table([(code, place_names().get(code, law.name), _says(code, law)) for code, law in found], 0))
    print(f"\n{len(found)} places; a check anywhere else says that it is not covered.")
    print(shown.advice())
    return 0


def _says(code, law):
    if code != law.code:
        return f"the law of {law.name} ({law.code})"
    return f"{len(law.acts)} act{'' if len(law.acts) == 1 else 's'}, looked at {law.checked}"


def _object(code, law):
    return {"place": code, "name": place_names().get(code, law.name), "law": law.code, "last_looked_at": law.checked, "acts": len(law.acts),
            "covers": sorted(law.covers), "not_covered": law.edge, "not_legal_advice": words.ADVICE}
