"""What the answers hang on, as text: the facts that rest on evidence, and those that do not."""

from registry.catalogue import support
from registry.cli import shown


def show(supports):
    """Prints the decisive facts of an answer in two sentences; nothing when no answer hangs on a recorded fact."""
    rests, loose = support.told(supports, shown.fact)
    if rests or loose:
        print()
    if rests:
        print(shown.paragraph(f"Rests on evidence: {'; '.join(rests)}."))
    if loose:
        print(shown.paragraph(f"Rests on no evidence: {'; '.join(loose)}."))


def of_place(supports, work, place):
    """The decisive facts of one work in one place as objects for JSON."""
    return support.as_objects([one for one in supports if one.work == work and place in one.places])
