"""Stored answers: how each work stands, with all versions beneath it, in the places the shop sells to.

They only save time: each can be reckoned anew from the facts and the rules. An answer counts for the whole
chain of versions, by the same functions that judge a job; permissions and marks are not looked at.
"""

import json
from datetime import date

from registry.catalogue import clear, settings, support, works
from registry.catalogue.answers import rules_sha256
from registry.catalogue.canonical import canonical, digest
from registry.catalogue.store import transaction
from registry.clearance.model import HOLD, NEVER, NO_BAR, OPEN, WORST
from registry.facts import edtf
from registry.facts.work import spans
from registry.law.world import bounds

STATUS = {NO_BAR: "public_domain", HOLD: "in_copyright", OPEN: "undetermined"}
ALWAYS, LATE = "0001-01-01", "9999-12-31"
BATCH = 100  # works in one transaction
_OVER = ("until <= ?", "reckoned_on > ?")  # answers that do not hold on a day; one query each, so that each has its index


def kept(catalogue):
    """Codes of the places for which answers are kept."""
    return [row[0] for row in catalogue.db.execute("SELECT place FROM answer_places ORDER BY place")]


def home(catalogue):
    """Codes of the places to keep answers for in any case: the shop's own markets, else the US."""
    return settings.opened(catalogue, settings.get(catalogue, "markets") or ["US"])


def behind(catalogue, day, places=()):
    """How many works have no stored answer that holds on a day (number) in these places and the kept ones."""
    known = dict(catalogue.db.execute("SELECT place, rules_sha256 FROM answer_places").fetchall())
    if any(place not in known for place in places) or any(rules != rules_sha256() for rules in known.values()):
        return works.count(catalogue)
    tests = [f"SELECT count(*) FROM work_answers WHERE {test}" for test in _OVER]
    due = catalogue.db.execute("SELECT count(*) FROM answers_due").fetchone()[0]
    return due + sum(catalogue.db.execute(test, (edtf.iso(day),)).fetchone()[0] for test in tests)


def reckon(catalogue, day, places=(), limit=BATCH):
    """How many works are still without an answer after at most `limit` of them were reckoned; writes."""
    with transaction(catalogue) as db:
        _prepare(db, day, places)
        numbers = [row[0] for row in db.execute("SELECT work FROM answers_due ORDER BY work LIMIT ?", (limit,))]
        numbers = _with_above(db, numbers)
        at, codes, known = clear.desk(catalogue, day), kept(catalogue), {}
        for number in numbers:
            _store(at, number, codes, known)
        db.executemany("DELETE FROM answers_due WHERE work = ?", [(number,) for number in numbers])
        return db.execute("SELECT count(*) FROM answers_due").fetchone()[0]


def _prepare(db, day, places):
    """Notes every work as due whose answer does not hold; with new rules or new places that is all of them."""
    known, rules = dict(db.execute("SELECT place, rules_sha256 FROM answer_places").fetchall()), rules_sha256()
    fresh = [place for place in places if place not in known]
    if fresh or any(old != rules for old in known.values()):
        db.executemany("INSERT INTO answer_places (place, rules_sha256) VALUES (?, ?)", [(place, rules) for place in fresh])
        db.execute("UPDATE answer_places SET rules_sha256 = ?", (rules,))
        _forget(db)
    for test in _OVER:
        db.execute(f"INSERT OR IGNORE INTO answers_due (work) SELECT work FROM work_answers WHERE {test}", (edtf.iso(day),))


def _forget(db):
    db.execute("DELETE FROM work_answers")
    db.execute("DELETE FROM answer_sets")
    db.execute("INSERT OR IGNORE INTO answers_due (work) SELECT id FROM works")


def _with_above(db, numbers):
    """These works and all that are based on them."""
    found = dict.fromkeys(numbers)
    for number in numbers:
        above = db.execute(
            "WITH RECURSIVE up (id) AS (SELECT ?1 UNION SELECT works.id FROM works JOIN up ON works.based_on = up.id)"
            " SELECT id FROM up WHERE id <> ?1", (number,))
        found |= dict.fromkeys(row[0] for row in above)
    return list(found)


def _store(at, number, codes, known):
    record, db = works.some(at.catalogue, [number])[0], at.catalogue.db
    chains = clear.chains(at, record, codes)
    rows, until = answer_rows(chains, at.ground)
    hangs, otherwise = support.hangs(at, record.key, {code: line[-1].status for code, line in chains.items()})
    until = min(until, _coming(at, chains), edtf.iso(otherwise) if otherwise <= date.max.toordinal() else until)
    hangs_on = canonical({fact: list(where) for fact, where in hangs.items()})
    db.execute("INSERT INTO work_answers (work, answer_set, reckoned_on, until, hangs) VALUES (?1, ?2, ?3, ?4, ?5)"
               " ON CONFLICT (work) DO UPDATE SET answer_set = ?2, reckoned_on = ?3, until = ?4, hangs = ?5",
               (number, _set_of(db, rows, known), edtf.iso(at.ground.day), until, hangs_on))
    db.execute("DELETE FROM answer_layers WHERE work = ?", (number,))
    layers = [(one.id, number) for one in works.beneath(at.catalogue, record)]
    db.executemany("INSERT INTO answer_layers (layer, work) VALUES (?, ?)", layers)


def answer_rows(chains, ground):
    """(rows for set_answers without their set, ISO day of the next change) for LayerAnswers by code of place."""
    until = date(date.fromordinal(ground.day).year + 1, 1, 1).toordinal()
    for code, found in chains.items():
        until = min([until, *_changes(found, code, ground)])
    return [_row(code, found) for code, found in chains.items()], edtf.iso(until)


def _coming(at, chains):
    """The first day to come on which a date on record of these layers is reached or over, as ISO text; LATE when there is none."""
    works_ = [at.layers[one.work].work for line in chains.values() for one in line]
    days = [bound + more for work in works_ for span in spans(work) for pair in (bounds(span), (span.earliest, span.latest))
            for bound in pair if bound is not None for more in (0, 1)]
    return edtf.iso(min((day for day in days if at.ground.day < day <= date.max.toordinal()), default=None)) or LATE


def _row(code, found):
    decision = max((one.decision for one in found), key=WORST.get)
    latest = max(one.latest for one in found)
    asks = [ask.fact for one in found if one.decision != NO_BAR for ask in one.asks if ask.kind == "settle"]
    open_ = canonical(list(dict.fromkeys(asks))) if decision == OPEN else "[]"
    return code, STATUS[decision], _clear(decision, latest), open_


def _clear(decision, latest):
    """The day from which it is clear at the latest; what is clear already has been so always, to keep the sets few."""
    if decision == NO_BAR:
        return ALWAYS
    return edtf.iso(latest) if 1 < latest < NEVER else None


def _changes(found, code, ground):
    """Days to come on which this answer may change: a bound of a layer is reached, or an act comes into force."""
    law = ground.laws.law(code)
    starts = [act.start for act in law.acts if isinstance(act.start, int)] if law else []
    bounds = [day for one in found for day in (one.earliest, one.latest)]
    return [day for day in (*starts, *bounds) if day > ground.day]


def _set_of(db, rows, known):
    """The number of the set with these answers, a new one when there is none yet."""
    name = digest([list(row) for row in rows])
    if name not in known:
        found = db.execute("SELECT id FROM answer_sets WHERE digest = ?", (name,)).fetchone()
        known[name] = found[0] if found else _new_set(db, name, rows)
    return known[name]


def _new_set(db, name, rows):
    number = db.execute("INSERT INTO answer_sets (digest) VALUES (?)", (name,)).lastrowid
    db.executemany("INSERT INTO set_answers (answer_set, place, status, clear_from, open) VALUES (?, ?, ?, ?, ?)",
                   [(number, *row) for row in rows])
    db.executemany("INSERT INTO set_questions (fact, place, answer_set) VALUES (?, ?, ?)",
                   [(fact, row[0], number) for row in rows for fact in json.loads(row[-1])])
    return number
