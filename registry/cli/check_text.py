"""Answers as text: a short table first, then the reasons place by place, then what to find out."""

from registry.catalogue import words
from registry.clearance.layers import DECISION
from registry.clearance.model import OPEN as NOT_SETTLED
from registry.cli import check_support, shown
from registry.law.verdict import OPEN
from registry.rulebook import place_names, place_phrases

OWN = "own_work"  # the status of a LayerAnswer
SUPPOSED = "A SUPPOSITION, NOT THE RECORD: {}. Nothing of this is kept."


def show_work(record, found, day, brief, supposed=(), chains=None, hang=()):
    """Prints the answers for a work and for what it is based on; `found` stands work by work, `chains` place by place."""
    if supposed:
        print(shown.paragraph(SUPPOSED.format("; ".join(supposed))) + "\n")
    _heading(record, day)
    made = {(layer.work, place) for place, line in (chains or {}).items() for layer in line if layer.status == OWN}
    print(shown.table(_rows(found, record, made)))
    layers = _by_work(found, record)
    for key, answers in layers.items():
        layer = answers[0].work
        print(f"\nBased on {shown.heading(layer.title, key)}")
        print(shown.table(_rows(answers, layer, made)))
    if layers:
        print("\n" + shown.paragraph("Each version has rights of its own; all of them must be clear."))
    _chains(found, chains or {})
    check_support.show(hang)
    _close([answer for answer in found if (answer.work.key, answer.place) not in made], brief)


def _chains(found, chains):
    """Prints what only the chain tells: that a copy adds nothing, or that it is worth no more than what it was made from."""
    alone = {(answer.work.key, answer.place): DECISION.get(answer.verdict.status, NOT_SETTLED) for answer in found}
    told = {}
    for place, line in chains.items():
        for layer in line:
            if layer.decision != alone.get((layer.work, place)):
                told.setdefault((layer.decision, layer.says), []).append(place)
    for (decision, says), places in told.items():
        print("\n" + shown.paragraph(f"{', '.join(places)}: {words.MARKET[decision]}. {says}"))


def name(code):
    """The name of a place, its code when it has none."""
    return place_names().get(code, code)


def _heading(record, day):
    print(shown.heading(record.title, record.key))
    print(shown.paragraph(f"{shown.summary(record)}; asked about {words.day(day)}."))
    print()


def _by_work(found, without):
    groups = {}
    for answer in found:
        if without is None or answer.work.key != without.key:
            groups.setdefault(answer.work.key, []).append(answer)
    return groups


def _rows(found, record, made):
    """The rows of a table about one version; what the shop made itself (`made`: keys of works with places) needs no answer of the law."""
    return [(a.place, name(a.place), *((words.STATUS["own"], "confirm: made by the shop itself") if (record.key, a.place) in made
                                       else (words.STATUS[a.verdict.status], _when(a.verdict)))) for a in found if a.work.key == record.key]


def _when(verdict):
    """The last cell of a row: since or until when, and the first facts to find out or to confirm."""
    asked = ", ".join(shown.fact(question.fact) for question in verdict.questions[:3])
    if verdict.status == OPEN:
        return f"find out: {asked}" if asked else words.BECAUSE[verdict.because]
    return f"{words.when(verdict)}; confirm: {asked}" if asked else words.when(verdict)


def _close(found, brief):
    if not brief:
        cited = set()
        for answer in found:
            _reasons(answer, len({a.work.key for a in found}) > 1, cited)
        _questions(found)
    print("\n" + shown.advice())


def _reasons(answer, several, cited):
    """Prints the rules of one answer; the source of a rule in `cited` was printed before."""
    verdict = answer.verdict
    whose = f"{answer.work.key} in {place_phrases().get(answer.place, answer.place)}" if several else name(answer.place)
    since = words.when(verdict)
    because = f", {words.BECAUSE[verdict.because]}" if verdict.because else ""
    print("\n" + shown.paragraph(f"{whose}: {words.STATUS[verdict.status]}{because}{f'; {since}' if since else ''}", 2, ""))
    for rule in verdict.why:
        print(shown.paragraph(rule.says, 4, "  - "))
        print(shown.paragraph("[as cited above]" if rule.id in cited else f"[{rule.cite}; {words.HOW[rule.how]}]", 4))
        cited.add(rule.id)


def _questions(found):
    """Prints each question once, with the works and places in which its answer counts."""
    asked = {}
    for answer in found:
        for question in answer.verdict.questions:
            asked.setdefault(question, {}).setdefault(answer.work.key, []).append(answer.place)
    if not asked:
        return
    several = len({answer.work.key for answer in found}) > 1
    print("\nTo find out or to confirm")
    for question, counts in asked.items():
        print(shown.paragraph(question.question, 4, "  - "))
        print(shown.paragraph(f"Look in: {question.where_to_look}.", 4))
        print(shown.paragraph(f"Record it as {shown.fact(question.fact)}; it counts {_counts(counts, several)}.", 4))


def _counts(counts, several):
    """'in US, CA', or for several works 'for gull in US, CA and for crab in US'."""
    each = [f"{f'for {key} ' if several else ''}in {', '.join(places)}" for key, places in counts.items()]
    return " and ".join(each)
