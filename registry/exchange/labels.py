"""Open labels of a work: per place and for all places asked about, in published vocabularies, and no more than was found.

The mapping is data (metadata/labels.toml). A label speaks of a version together with all that it is based on.
"""

import tomllib
from dataclasses import dataclass
from functools import lru_cache

from registry import data
from registry.catalogue import clear, permissions, support, words, works
from registry.clearance.decision import clear_day
from registry.clearance.ground import listed
from registry.clearance.model import HOLD, NEVER, NO_BAR, SOON, WORST
from registry.facts import edtf
from registry.rulebook import place_names, place_phrases

FREE, PROTECTED, OPEN, BLANK = "public_domain", "in_copyright", "undetermined", "not_covered"


@dataclass(frozen=True, slots=True)
class Status:
    """What was found of a work and all beneath it in one place: `first` and `last` bound the day from which it is free,
    `notes` are ids of rules that go with it, `sentences` one for each version."""

    place: str
    status: str
    first: int
    last: int
    notes: tuple
    sentences: tuple


@lru_cache(maxsize=1)
def mapping():
    """The mapping as a dictionary, as in metadata/labels.toml."""
    return tomllib.loads(data.read_text("labels.toml"))


def label(catalogue, key, codes, day):
    """All labels of a work (its key) for places (codes) on a day number, as plain values; RegistryError when it is not there."""
    at, record = clear.desk(catalogue, day), works.get(catalogue, key)
    chains = clear.chains(at, record, codes)
    proofs = support.of_layer(at, key, {code: answers[-1].status for code, answers in chains.items()})
    return of_record(at, record, chains, proofs)


def of_record(at, record, chains, proofs=None):
    """The labels of a WorkRecord at a Desk, which many works may share; `chains` are what clear.chains gives for it. Its
    Supports, as `proofs`, are needed for the PREMIS rights of each place, which are left out without them."""
    day = at.ground.day
    found = [_status(at, code, line) for code, line in chains.items()]
    terms = [one.access_terms for one in reversed(clear.versions(at, record.key)[0]) if one.access_terms]
    places = []
    for one in found:
        rights = {} if proofs is None else {"premis": _premis(one, record.own, proofs, day)}
        places.append(_place(one.place, one.status, _restricted(one), record.own, bool(terms)) | rights)
    return {
        "work": record.key, "title": record.title, "as_of": edtf.iso(day), "own": record.own, "places": places,
        "whole": _whole(found, record.own, bool(terms)), "licences": _licences(at, record),
        "access_terms": terms, "shop": at.shop["name"], "record": _record(record), "not_legal_advice": words.ADVICE,
    }


def _record(record):
    facts = record.facts
    named = {name: facts.get(name) for name in ("kind", "created", "creators", "publications")}
    return named | {"based_on": record.based_on, "first_published": record.first_published}


def _status(at, code, line):
    """The Status of a chain of LayerAnswers in a place: the worst of them."""
    worst = max((layer.decision for layer in line), key=WORST.get)
    first, last = max(layer.earliest for layer in line), max(layer.latest for layer in line)
    status = {HOLD: PROTECTED, NO_BAR: FREE}.get(worst) or _open(at, code, [layer for layer in line if layer.decision == worst])
    notes = tuple(caution.id for layer in line for caution in layer.cautions)
    return Status(code, status, first, last, notes, tuple(layer.says for layer in line))


def _open(at, code, layers):
    verdicts = [at.ground.verdict(at.ground.plain(at.layers[layer.work].work), code) for layer in layers]
    return BLANK if all(one.because == BLANK for one in verdicts) else OPEN


# --- which statement fits ----------------------------------------------------------------------------

@lru_cache(maxsize=4096)  # of few kinds; not to be changed by who gets it
def _place(place, status, restricted, own, terms):
    given = {"own": own, "status": status, "terms": terms, "restricted": restricted, "place": place}
    entry = next(entry for entry in mapping()["place"] if all(given[name] == value for name, value in entry["when"].items()))
    return {"place": place, "name": place_names().get(place, place), "status": PROTECTED if own else status,
            "statement": statement(entry["statement"]), "says": entry["says"].format(place=_phrase(place))}


def _restricted(one):
    return one.status == FREE and not _limiting().isdisjoint(one.notes)


@lru_cache(maxsize=1)
def _limiting():
    return frozenset(mapping()["restricted"]["rules"])


def _whole(found, own, terms):
    given = {"own": own, "terms": terms, "restricted": any(map(_restricted, found))}
    statuses = [(one.place, one.status) for one in found]
    entry = next((entry for entry in mapping()["whole"] if _fits(entry["when"], statuses, given)), None)
    if entry is None:
        return {"statement": None, "places": [], "says": "No place was asked about."}
    when = entry["when"]
    wanted = (when.get("some"), when.get("all"), FREE if "only" in when else None)
    meant = [one.place for one in found if one.status in wanted]
    said = entry["says"].format(places=listed(map(_phrase, meant)), all=listed(_phrase(one.place) for one in found))
    return {"statement": statement(entry["statement"]), "places": meant or [one.place for one in found], "says": said}


def _fits(when, statuses, given):
    return all(_TESTS[name](wanted, statuses) if name in _TESTS else given[name] == wanted for name, wanted in when.items())


def _only(place, statuses):
    free = [code for code, status in statuses if status == FREE]
    return free == [place] and all(status == BLANK for code, status in statuses if code != place)


_TESTS = {  # (what is wanted, [(place, status)]) of the words that look at all places
    "all": lambda wanted, statuses: bool(statuses) and all(status == wanted for _code, status in statuses),
    "some": lambda wanted, statuses: any(status == wanted for _code, status in statuses),
    "only": _only, "least": lambda number, statuses: len(statuses) >= number,
}


def statement(name):
    """The statement of that id as {id, uri, label, spdx}; None for ""."""
    return _statements().get(name)


@lru_cache(maxsize=1)
def _statements():
    return {one["id"]: {"id": one["id"], "uri": one["uri"], "label": one["label"], "spdx": one.get("spdx")}
            for one in mapping()["statement"]}


def _phrase(code):
    return place_phrases().get(code, code)


# --- PREMIS, SPDX -----------------------------------------------------------------------------------

def _premis(one, own, proofs, day):
    """The rights statement of one place in the units of PREMIS 3.0."""
    status, dates = PROTECTED if own else one.status, {}
    if not own and status in (FREE, PROTECTED):
        dates = _dates(status, clear_day(HOLD if status == PROTECTED else NO_BAR, one.first, one.last))
    resting = [fact for fact in proofs if one.place in fact.places and fact.rests]
    found = {
        "copyrightStatus": mapping()["premis"]["status"][status]["id"], "copyrightJurisdiction": one.place,
        "copyrightStatusDeterminationDate": edtf.iso(day), "copyrightNote": [*one.sentences, words.ADVICE],
        "copyrightDocumentationIdentifier": [_documented(proof, fact) for fact in resting for proof in fact.evidence],
    }
    return {"rightsBasis": "copyright", "copyrightInformation": found | ({"copyrightApplicableDates": dates} if dates else {})}


def _documented(proof, fact):
    return {"copyrightDocumentationIdentifierType": "evidence of this catalogue",
            "copyrightDocumentationIdentifierValue": f"e{proof.id}", "copyrightDocumentationRole": fact.fact}


def _dates(status, day):
    if day is None or not SOON < day < NEVER:
        return {}
    return {"startDate": edtf.iso(day)} if status == FREE else {"endDate": edtf.iso(day - 1)}


def _licences(at, record):
    """Open licences on record for this version: SPDX identifier, address, credit line."""
    return [{"spdx": one.spdx, "uri": licence_uri(one.spdx), "credit_line": one.credit_line}
            for one in clear.once(at, permissions.of_work, record.key) if one.spdx]


def licence_uri(spdx):
    """The address of a licence of the SPDX list; None for one of the shop's own (LicenseRef-...)."""
    return None if spdx.startswith("LicenseRef-") else f"https://spdx.org/licenses/{spdx}.html"


def spdx(found):
    """The SPDX expression for a label: that of its licences, else of its statement; None when there is none."""
    ids = list(dict.fromkeys(one["spdx"] for one in found["licences"]))
    return " OR ".join(ids) or (found["whole"]["statement"] or {}).get("spdx")
