"""The provenance sheet of a job and the buyer's card, as data: what was used, what is known, what it rests on, what was decided.

`collect` gathers all as plain values (text, numbers, lists, objects), so that a page, a printed sheet and a package
show the same. `html` and `card` make pages of it that need nothing else: pictures are in them, nothing is loaded; what they say of
the product stands in them as JSON-LD too.
"""

import base64
from dataclasses import asdict

from registry.catalogue import (
    answers, clear, decisions, evidence, files, jobs, marks, permissions, settings, store, support, verify, words,
    works,
)
from registry.clearance.layers import chain
from registry.clearance.shown import as_json
from registry.exchange import card_page, json_ld, sheet_page
from registry.facts import edtf
from registry.rulebook import place_names, rulebook

JOB = ("key", "title", "product", "purpose", "quantity", "wording", "lettering", "listing_text", "due", "sold_on")
PRIVATE = ("customer", "price", "notes")
WORK = ("key", "title", "kind", "makers", "first_published", "based_on", "originality", "own", "access_terms",
        "picture", "facts_sha256", "version")
ELSEWHERE = {"id", "title", "name", "role", "creators", "publications"}  # facts that stand above the table of facts
SHOWABLE = ("image/png", "image/jpeg", "image/gif", "image/webp", "image/svg+xml")  # what browsers show


def collect(catalogue, key, day=None, private=False):
    """All that a sheet of a job (its key) shows, as plain values; `day` is a day number, today without one.

    `private` adds customer, price and notes of the job, and notes on permissions. RegistryError when the job is not
    there or names no market.
    """
    day = store.today() if day is None else day
    job, at = jobs.get(catalogue, key), clear.desk(catalogue, day)
    answer = clear.answer(at, job, want=0)
    uses = [_use(use, at) for use in job.uses]
    records = [at.records[key] for key in dict.fromkeys(key for use in uses for key in use["chain"])]
    given = [one for record in records for one in permissions.of_work(catalogue, record.key)]
    supports = support.of_job(at, answer)
    told, noted = _told(answer), decisions.of_job(catalogue, key)
    return {
        "shop": settings.get(catalogue, "name"), "as_of": edtf.iso(day), "made_at": store.now(),
        "job": {**{name: getattr(job, name) for name in JOB}, "markets": [market["market"] for market in told["markets"]]},
        "private": {name: getattr(job, name) for name in PRIVATE} if private else None,
        "uses": uses, "works": [_work(record) for record in records],
        "facts": [fact for record in records for fact in _facts(catalogue, record, supports)],
        "answer": told, "rules": _rules(answer), "names": _names(answer),
        "marks": _marks(catalogue, job, answer, records), "permissions": [_permission(one, private) for one in given],
        "decisions": [_decision(decisions.standing(catalogue, job, row, at.shop)) for row in noted],
        "ledger": _ledger(catalogue), "rules_sha256": answers.rules_sha256(), "not_legal_advice": words.ADVICE,
    }


def _told(answer):
    """A JobAnswer as an object, with what its tables say of marks."""
    told = as_json(answer)
    markets = [one | {"marks_near": words.marks_near(market)} for one, market in zip(told["markets"], answer.markets)]
    return told | {"markets": markets}


def _use(use, at):
    return {"work": use.work, "part": use.part, "traits": list(use.traits), "changes": use.changes,
            "chain": [layer.key for layer in chain(at.families[use.work], use.work)]}


def _ledger(catalogue):
    row, head, moment = verify.head(catalogue)
    return {"row": row, "head": head, "at": moment}


def _work(record):
    traits = [{"name": name, "note": note} for name, note in record.traits]
    makers = [{name: value for name, value in one.items() if name in ("name", "role")} for one in record.facts.get("creators", ())]
    return {**{name: getattr(record, name) for name in WORK}, "traits": traits, "creators": makers, "facts": record.facts}


def _facts(catalogue, record, supports):
    """One object for each fact on record, in the order of the vocabulary, with what it rests on and where it decides."""
    proofs = evidence.of_work(catalogue, record.key)
    decides = {one.fact: one.places for one in supports if one.work == record.key}
    if record.own:
        yield _fact(record, "own", True, decides, proofs)
    names = dict.fromkeys(fact.shown or fact.name for fact in rulebook().vocabulary.facts.values() if fact.name not in ELSEWHERE)
    for name in names:
        value = evidence.recorded(record.facts, name)
        if value is not None:
            yield _fact(record, name, value, decides, proofs)


def _fact(record, name, value, decides, proofs):
    basis, found = support.grounds(record, name, proofs)
    return {"work": record.key, "fact": name, "value": value, "decides_in": list(decides.get(name, ())), "basis": basis,
            "rests_on_evidence": basis in (support.SEEN, support.TOLD), "evidence": [proof(record, one) for one in found]}


def proof(record, one):
    """A piece of evidence as an object; `still_as_then` is false when the fact was altered after it was added."""
    return {**evidence.body(one), "id": f"e{one.id}", "still_as_then": support.holds(record, one)}


def _rules(answer):
    """Every rule that an answer names, each once, in order."""
    found = {}
    for market in answer.markets:
        for place in market.places:
            for rule in (rule for layer in place.layers for rule in layer.rules):
                found.setdefault(rule.id, {"id": rule.id, "says": rule.says, "cite": rule.cite, "how": rule.how})
    return list(found.values())


def _names(answer):
    """{code: name} of the places and markets of an answer."""
    codes = (code for market in answer.markets for code in [*(place.place for place in market.places), market.market])
    return {code: place_names().get(code, code) for code in codes}


def _marks(catalogue, job, answer, records):
    """Marks that were found to match, marks linked to the works, and searches made for the words on the product."""
    matches = {}
    for market in answer.markets:
        for place in market.places:
            for one in place.matches:
                kept = {"mark": one.mark, "words": one.words, "strength": one.strength, "says": one.says, "places": []}
                matches.setdefault((one.mark, one.says), kept)["places"].append(place.place)
    linked = {one.key: one for record in records for one in marks.of_work(catalogue, record.key)}
    looked = marks.searches(catalogue, words=[text for text in (job.wording, job.title) if text])
    searches = [asdict(one) | {"classes": list(one.classes)} for one in looked]
    return {"matches": list(matches.values()), "linked": [_mark(one) for one in linked.values()], "searches": searches}


def _mark(one):
    names = ("words", "kind", "owner", "office", "number", "state", "status_words", "expires", "look_again", "goods", "avoid")
    return {"key": one.key, **{name: getattr(one, name) for name in names}, "classes": list(one.classes), "works": list(one.works)}


def _permission(one, private):
    kept = {name: list(value) if isinstance(value, tuple) else value for name, value in asdict(one).items() if private or name != "note"}
    return {**kept, "id": f"p{one.id}"}


def _decision(one):
    """A decision as an object; `changed` names what of the job changed since, null when an older row does not tell;
    `says` is that for people."""
    row, told = one.row, {"changed": None if one.changed is None else list(one.changed), "then": list(one.then),
                          "covers": one.covers, "says": one.says}
    names = ("by", "note", "although", "as_of", "clear", "against", "unsettled", "markets", "look_again", "rules_sha256")
    return {"row": row.seq, "at": row.at, "digest": row.digest, **{name: row.body.get(name) for name in names}, **told}


# --- pages ------------------------------------------------------------------------------------------

def html(found, pictures):
    """The printable sheet as one HTML page; `pictures` are addresses by SHA-256, as from `embedded`."""
    return sheet_page.page(found, pictures, json_ld.script(json_ld.of_product(for_buyer(found))))


def card(found, pictures):
    """The buyer's card as one HTML page: no customer, price, notes, people or evidence of the shop."""
    buyer = for_buyer(found)
    return card_page.page(buyer, pictures, json_ld.script(json_ld.of_product(buyer)))


def for_buyer(found):
    """The part of a sheet that a buyer sees, as plain values."""
    # One about another job, or about some markets alone, is none about this.
    last = next((one for one in found["decisions"][-1:] if one["covers"]), None)
    makers = {work["key"]: work for work in found["works"]}
    shown = ("key", "title", "kind", "makers", "first_published", "originality", "own")
    return {
        "shop": found["shop"], "as_of": found["as_of"],
        "job": {name: found["job"][name] for name in ("key", "title", "product", "markets")},
        "picture": next((makers[use["work"]]["picture"] for use in found["uses"]), None),
        "works": [{name: work[name] for name in shown} for work in found["works"]],
        "uses": [{name: use[name] for name in ("work", "part", "changes", "chain")} for use in found["uses"]],
        "markets": [{name: market[name] for name in ("market", "decision", "free_from", "at_the_latest", "held_by")}
                    | {"marks_near": bool(market["marks_near"])} for market in found["answer"]["markets"]],
        "assumed": _assumed(found), "names": found["names"], "credits": found["answer"]["credits"],
        "rests": {"decisive": sum(bool(fact["decides_in"]) for fact in found["facts"]),
                  "on_evidence": sum(bool(fact["decides_in"]) and fact["rests_on_evidence"] for fact in found["facts"])},
        "decided": last and {"at": last["at"], "row": last["row"], "against": last["against"]},
        "ledger": found["ledger"], "not_legal_advice": found["not_legal_advice"],
    }


def _assumed(found):
    """What the answers take as not shown, each sentence once."""
    return list(dict.fromkeys(says for market in found["answer"]["markets"] for says in market["taken_as_not_shown"]))


def embedded(catalogue, found):
    """Addresses (data: URLs) by SHA-256 of the pictures in a sheet that browsers show, each compared with its digest."""
    shas = {work["picture"] for work in found["works"] if work["picture"]}
    return {sha: f"data:{files.get(catalogue, sha).media_type};base64,{base64.b64encode(files.read(catalogue, sha)).decode('ascii')}"
            for sha in sorted(shas) if files.get(catalogue, sha).media_type in SHOWABLE}
