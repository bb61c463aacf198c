"""Scenario rows for tests: from the JSON of a worked job to a Case, its answer, and what the row expects of it."""

import json
from functools import lru_cache
from pathlib import Path

from registry import data
from registry.catalogue.mark_rules import caution_rules, mark_rules, products
from registry.clearance import suppose
from registry.clearance.decision import decide, with_next
from registry.clearance.ground import Ground
from registry.clearance.markets import market
from registry.clearance.marks import Mark
from registry.clearance.model import Case, JobFacts, Layer, OtherJob, Permission, Terms, Use
from registry.clearance.questions import ranked
from registry.clearance.rules import read_rules
from registry.clearance.scene import founds, setting, with_marks
from registry.facts import edtf
from registry.facts.work import read_work
from registry.rulebook import place_phrases, rulebook

CASES = Path(__file__).parent / "cases"
ORIGINALITY = {True: "new_expression", False: "faithful_copy", "unknown": "unknown"}


def rows(name):
    """The scenario objects of a file under tests/cases."""
    with open(CASES / name, encoding="utf-8") as lines:
        return [json.loads(line) for line in lines if line.strip()]


@lru_cache(maxsize=1)
def rules():
    """The Rules as shipped."""
    return read_rules(data.read_text("clearance.toml"), data.read_text("licences.toml"), rulebook().groups)


def ground(day, groups=None):
    """The Ground of a day, ISO text."""
    book = rulebook()
    return Ground(book.laws, rules(), {**book.groups, **(groups or {})}, edtf.day(day), place_phrases())


def case(row, markets=None):
    """The Case in a scenario row."""
    job = row["job"]
    layers = {work["key"]: layer(work) for work in row["works"]}
    uses = tuple(Use(u["work"], u["part"], tuple(u.get("traits", ())), u.get("changes", "")) for u in job["uses"])
    facts = JobFacts("job", job["product"], job["purpose"], tuple(markets or job["markets"]), job["quantity"],
                     job.get("wording", ""), job.get("lettering", ""), _day(job.get("due")), uses)
    return Case(facts, layers, tuple(map(permission, row.get("permissions", ()))), tuple(map(other, row.get("other_jobs", ()))))


def layer(work):
    """The Layer of one work of a row."""
    terms = work.get("terms_of_access")
    return Layer(work["key"], work["facts"].get("title", ""), read_work(work["facts"], rulebook().vocabulary), work.get("based_on"),
                 ORIGINALITY[work.get("new_expression", "unknown")], tuple(work.get("traits", ())),
                 Terms(terms["text"], terms.get("supplier", ""), terms.get("accepted", "")) if terms else None, work.get("own_work", False))


def permission(one):
    """The Permission of a row."""
    places = one.get("places") or ()
    return Permission(one["id"], one["work"], one.get("kind", "licence"), one.get("grantor", ""), one.get("spdx"), tuple(one.get("uses") or ()),
                      (places,) if isinstance(places, str) else tuple(places), tuple(one.get("media") or ()), one.get("quantity"), _day(one.get("from")),
                      _day(one.get("to")), one.get("exclusive"), one.get("commercial"), one.get("changes_allowed"), one.get("credit_line", ""), one.get("document", ""))


def other(one):
    """The OtherJob of a row."""
    works = [u["work"] for u in one.get("uses", ())] or one.get("works", ())
    return OtherJob(one.get("key", one.get("id", "other")), one.get("quantity"), tuple(works), tuple(one.get("markets", ())), _day(one.get("day")))


def _day(text):
    return edtf.day(text) if text else None


def marks(row):
    """The marks of a row."""
    return [Mark(one["id"], one["words"], one.get("kind", ""), one.get("owner", ""), one["office"], one.get("number", ""), one.get("filed"), one.get("registered"),
                 one.get("expires"), tuple(one["classes"]), one.get("status_text", ""), one["state"]) for one in row.get("marks", ())]


def beside(row, given, on):
    """The Case of a row with matches and cautions, as a catalogue would find them."""
    where = setting(given, products(), on.laws, on.day)
    codes = dict.fromkeys(code for name in given.job.markets for code in market(name, on.groups).codes)
    by_place, near = founds(where, marks(row), codes, on.day, mark_rules())
    return with_marks(where, by_place, near, caution_rules(), on)


def supposed(row, given, wanted):
    """The Case of a row with the facts and permissions of one of its what-ifs."""
    told = [suppose.Supposition(key, path, value) for part in ("facts", "permissions")
            for key, values in wanted.get(part, {}).items() for path, value in values.items()]
    objects = {work["key"]: work["facts"] for work in row["works"]}
    return suppose.case(given, told, objects, rulebook().vocabulary)


def answer(given, on):
    """The JobAnswer of a Case on a Ground, with its questions in order."""
    return with_next(decide(given, on), ranked([given], on))


def next_question(found):
    """The name of what to find out next: a question that settles something, else the first thing to do, else None."""
    return (found.next[0].ask.fact if found.next else found.first[0].fact if found.first else None)
