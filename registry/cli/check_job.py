"""The answer for a job as text: a table of markets, the reasons place by place, then what to find out and to do."""

from registry.catalogue import words
from registry.catalogue.support import label
from registry.clearance.model import HOLD, NO_BAR, OPEN
from registry.cli import check_support, shown
from registry.cli.check_text import SUPPOSED, name
from registry.facts import edtf

MANY = 6  # codes of members, answers to a question: more are left out
RESTS = 3  # presumptions that are named in a row
SHOWN = 2  # members of a group of which the reasons are shown
OUTCOME = {NO_BAR: "by what is on record", HOLD: "no day known", OPEN: "find out first"}


def show(job, found, brief=False, supposed=(), hang=(), looked=()):
    """Prints a JobAnswer for people."""
    if supposed:
        print(shown.paragraph(SUPPOSED.format("; ".join(supposed))) + "\n")
    print(shown.heading(job.title, job.key))
    quantity = f", {job.quantity} made" if job.quantity else ""
    print(shown.paragraph(f"{job.purpose} of {job.product or 'something not described'}{quantity};"
                          f" asked about {words.day(found.day)}."))
    print("\n" + shown.table([(one.market, words.MARKET[one.decision], _row(one, job)) for one in found.markets]))
    _block("Taken for granted", dict.fromkeys(says for one in found.markets for says in one.assumed))
    check_support.show(hang)
    if not brief:
        cited = set()
        for market in found.markets:
            _market(market, cited)
    _next(found)
    _asks("To do first, before anything is sold", found.first)
    _block("Credit lines owed", [f"{title}: {line}" for title, line in found.credits])
    if not brief:
        _asks("To confirm, since an answer rests on it", found.confirm)
    _block("To keep in mind", found.notes)
    _block("Marks", looked)
    print("\n" + shown.advice())


def _row(market, job):
    """The last cell of a market's row: since when, until when, held by whom, what to leave off."""
    near, rests = words.marks_near(market), [label(ask.fact) for ask in market.asks if ask.kind == "confirm"]
    off = (f"; leave off {', '.join(market.leave_off)}" if market.leave_off else "") + (f"; {near}" if near else "")
    off += f"; confirm: {', '.join(list(dict.fromkeys(rests))[:RESTS])}" if rests and market.decision == NO_BAR else ""
    some = ", ".join(market.held_by[:MANY]) + (" ..." if len(market.held_by) > MANY else "")
    held = f"{'held by' if market.decision == HOLD else 'open in'} {some}; " if some else ""
    if market.free_from is None:
        return f"{held}{OUTCOME[market.decision]}{off}"
    if market.decision == NO_BAR:
        return f"{words.since(market)}{off}"
    early = f", before it is due ({job.due})" if job.due and market.free_from <= edtf.day(job.due) else ""
    return f"{held}clears on {words.day(market.free_from)}{early}{off}"


def _market(market, cited):
    if len(market.places) == 1 and market.market == market.places[0].place:
        _place(market.places[0], cited)
    else:
        print("\n" + shown.paragraph(market.sentence.split(" Hold in ")[0].split(" Not settled in ")[0], 2, ""))
        worst = [place for place in market.places if place.decision == market.decision] if market.decision != NO_BAR else []
        for place in worst[:SHOWN]:
            _place(place, cited)
        if worst[SHOWN:]:
            others = ", ".join(place.place for place in worst[SHOWN:])
            print("\n" + shown.paragraph(f"The same decision in {others}; --in shows them.", 2, ""))
    _beware(market)


def _place(place, cited):
    print("\n" + shown.paragraph(f"{place.place} {name(place.place)}: {words.MARKET[place.decision]}", 2, ""))
    if place.advice:
        print(shown.paragraph(place.advice, 2))
    for layer in {(one.work, one.says): one for one in place.layers}.values():
        print(shown.paragraph(f"{layer.work} ({layer.role}), {words.MARKET[layer.decision]}: {layer.says}", 4, "  - "))
        for rule in layer.rules[-2:]:
            if rule.id not in cited:
                print(shown.paragraph(f"[{rule.cite}; {words.HOW[rule.how]}]", 4))
                cited.add(rule.id)
    for says in [one for one in place.reasons if one not in {layer.says for layer in place.layers}]:
        print(shown.paragraph(says, 4, "  - "))
    for match in place.matches:
        if match.says not in place.reasons:
            print(shown.paragraph(f"mark {match.mark}: {match.says}", 4, "  - "))


def _beware(market):
    """The cautions of a market; in a group, with the members that they are about."""
    lines = []
    for caution in market.cautions:
        where = [place.place for place in market.places if any(one.id == caution.id for one in place.cautions)]
        some = "" if len(market.places) == 1 else f"{', '.join(where[:MANY])}{' ...' if where[MANY:] else ''}: "
        first = "FIRST: " if caution.action == "first" else ""
        lines.append(f"{first}{some}{caution.says} [{caution.id}; {words.HOW.get(caution.how, caution.how)}]")
    _block("Beware", lines, 2)


def _next(found):
    if found.next:
        print("\nTo find out next, the most useful first")
    for number, one in enumerate(found.next, 1):
        print(shown.paragraph(one.ask.question, 5, f"  {number}. "))
        if one.ask.where:
            print(shown.paragraph(f"Look in: {one.ask.where}.", 5))
        print(shown.paragraph(f"{_recorded(one.ask)} {words.worth(one)}", 5))
        for answer, markets in one.outcomes[:MANY]:
            told = ", ".join(f"{market} {words.MARKET[decision]}" for market, decision in markets)
            print(shown.paragraph(f"If {answer}: {told}.", 9, "     "))


ANSWERS = {  # questions that are no facts of a work: where the answer goes
    "originality": "Record it with 'registry work change {about} --originality ...'.",
    "based_on": "Record it with 'registry work change {about} --based-on KEY'.",
    "source": "If so, use that version instead: 'registry use JOB {extra} --part picture'.",
    "redrawn": "If nothing is, use that version: 'registry use JOB {extra} --part picture', or say so with"
               " --changes \"redrawn from {extra}\".",
    "changes": "Record it with 'registry use JOB {about} --part ... --changes unchanged', or with what is changed.",
    "trait_version": "Record it with 'registry work change KEY --trait \"{extra}\"'.",
    "uses": "Record it with 'registry use {about} KEY --part picture'.",
    "wording_source": "Record them with 'registry work add --kind text ...' and 'registry use {about} KEY --part text'.",
    "making": "Say so in the product: 'registry job change {about} --product ...'.",
    "permission": "Record it with 'registry permission add {about} ...'.",
    "quantity": "Record it with 'registry job change {about} --quantity N'.",
}


def _recorded(ask):
    """Where the answer to a question is recorded, in one sentence."""
    if ask.fact.startswith("permission_"):
        return f"Record what was agreed with 'registry permission add {ask.extra} ...'."
    return ANSWERS.get(ask.fact, "Record it as {fact} of {about}.").format(fact=shown.fact(ask.fact), about=ask.about, extra=ask.extra)


def _asks(title, asks):
    if asks:
        print(f"\n{title}")
    for ask in asks:
        print(shown.paragraph(f"{ask.question} ({shown.fact(ask.fact)} of {ask.about})", 4, "  - "))
        if ask.where:
            print(shown.paragraph(f"Look in: {ask.where}.", 4))


def _block(title, lines, indent=0):
    if lines:
        print(("\n" if not indent else "") + " " * indent + title)
    for line in lines:
        print(shown.paragraph(line, indent + 4, " " * indent + "  - "))
