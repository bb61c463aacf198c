"""The answer for a job as plain objects, ready for JSON: every rule with its citation and how it is known."""

from registry.clearance.model import NEVER, SOON
from registry.facts import edtf


def as_json(answer):
    """The JobAnswer as an object; days as ISO text or null."""
    return {
        "job": answer.job, "as_of": edtf.iso(answer.day), "clear": answer.clear,
        "markets": [_market(one) for one in answer.markets],
        "next": [ranked(one) for one in answer.next],
        "do_first": [ask(one) for one in answer.first], "confirm": [ask(one) for one in answer.confirm],
        "credits": [{"work": title, "credit_line": line} for title, line in answer.credits], "notes": list(answer.notes),
    }


def at_latest(one):
    """True when the day of a MarketAnswer or PlaceAnswer is only the last on which it can have become free."""
    places = getattr(one, "places", (one,))
    return one.free_from is not None and max(place.earliest for place in places) < one.free_from


def ask(one):
    """One Ask as an object."""
    return {"fact": one.fact, "about": one.about, "question": one.question, "where_to_look": one.where}


def ranked(one):
    """One Ranked as an object; outcomes: each answer tried, with the decision it leads to by market."""
    return {**ask(one.ask), "settles": one.settles, "waiting": one.waiting,
            "outcomes": [{"answer": words, "markets": dict(found)} for words, found in one.outcomes]}


def _market(one):
    return {
        "market": one.market, "decision": one.decision, "sentence": one.sentence, "free_from": edtf.iso(one.free_from),
        "at_the_latest": at_latest(one), "held_by": list(one.held_by), "not_on_file": list(one.not_on_file), "leave_off": list(one.leave_off),
        "taken_as_not_shown": list(one.assumed),
        "cautions": [_caution(caution) for caution in one.cautions], "places": [_place(place) for place in one.places],
    }


def _place(one):
    return {
        "place": one.place, "decision": one.decision, "sentence": one.sentence, "advice": one.advice,
        "reasons": list(one.reasons), "free_from": edtf.iso(one.free_from), "at_the_latest": at_latest(one),
        "layers": [_layer(layer) for layer in one.layers], "leave_off": list(one.leave_off), "taken_as_not_shown": list(one.assumed),
        "traits": [_trait(trait) for trait in one.traits],
        "cautions": [caution.id for caution in one.cautions], "marks": [_match(match) for match in one.matches],
    }


def _trait(one):
    return {"trait": one.trait, "first_shown_in": one.work, "first_shown": one.shown, "decision": one.decision,
            "free_from": edtf.iso(one.free_from)}


def _match(one):
    return {"mark": one.mark, "words": one.words, "strength": one.strength, "says": one.says}


def _layer(one):
    return {
        "work": one.work, "title": one.title, "part": one.part, "role": one.role, "status": one.status, "decision": one.decision,
        "says": one.says, "free_from": edtf.iso(_day(one.latest) if one.earliest == one.latest else None),
        "free_from_earliest": edtf.iso(_day(one.earliest)), "free_from_latest": edtf.iso(_day(one.latest)),
        "why": [{"id": rule.id, "says": rule.says, "cite": rule.cite, "how": rule.how} for rule in one.rules],
        "permission": one.permission, "lacks": [{"fact": lack.fact, "says": lack.says, "known": lack.known} for lack in one.lacks],
        "cautions": [caution.id for caution in one.cautions], "open": [ask_.fact for ask_ in one.asks], "credit_line": one.credit,
    }


def _day(day):
    return day if SOON < day < NEVER else None


def _caution(one):
    return {"id": one.id, "title": one.title, "says": one.says, "action": one.action, "cite": one.cite, "how": one.how}
