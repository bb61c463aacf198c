"""May this job be sold? Builds what clearance judges from the rows of the catalogue, and records what was found.

`answer` is the one place where the answer for a whole job is made; faces only show what it returns.
"""

from dataclasses import dataclass, field
from functools import lru_cache

from registry import data
from registry.catalogue import answers, evidence, jobs, marks, permissions, settings, works
from registry.catalogue.beside import beside
from registry.catalogue.places import written
from registry.clearance import suppose
from registry.clearance.decision import decide, with_next
from registry.clearance.ground import Ground
from registry.clearance.layers import chain, judged
from registry.clearance.model import Case, JobFacts, Layer, OtherJob, Permission, Terms, Use
from registry.clearance.permissions import WORLD, drawing
from registry.clearance.questions import ranked
from registry.clearance.rules import read_rules
from registry.errors import RegistryError
from registry.facts import edtf
from registry.rulebook import covered, place_phrases, rulebook

SHARING = 8  # other waiting jobs that are looked at to see how much a question would settle


@lru_cache(maxsize=1)
def rules():
    """The Rules of clearance of this installation; BadLaw when a data file is wrong."""
    return read_rules(data.read_text("clearance.toml"), data.read_text("licences.toml"), rulebook().groups)


@dataclass(frozen=True, slots=True)
class Desk:
    """What the answers of one day share: the catalogue, the Ground, what the shop says of itself (all settings), and the
    works and what is beside them as read so far."""

    catalogue: object
    ground: Ground
    shop: dict
    records: dict = field(default_factory=dict)
    layers: dict = field(default_factory=dict)
    families: dict = field(default_factory=dict)
    read: dict = field(default_factory=dict)


def desk(catalogue, day, shop=None):
    """The Desk of a day number; `shop` are all settings where they were read already."""
    book, shop = rulebook(), shop or settings.everything(catalogue)
    return Desk(catalogue, Ground(book.laws, rules(), {**book.groups, **shop["groups"]}, day, place_phrases()), shop)


def once(at, function, key):
    """What `function(catalogue, key)` gives, such as evidence.of_work, asked for once at a Desk."""
    name = (function, key)
    if name not in at.read:
        at.read[name] = function(at.catalogue, key)
    return at.read[name]


def _glance(at, record):
    """True when there are versions made from a work; notes at a Desk what there is none of beside it, in the same query, so
    that `once` need not ask for each: most have nothing."""
    *found, built_on = at.catalogue.db.execute(_ANY, (record.id,)).fetchone()
    at.read.update({(function, record.key): () for function, there in zip(_BESIDE.values(), found) if not there})
    return built_on


_BESIDE = {"evidence": evidence.of_work, "permissions": permissions.of_work, "mark_works": marks.of_work, "uses": jobs.of_work}
_THERE = ", ".join(f"EXISTS (SELECT 1 FROM {table} WHERE work = ?1)" for table in _BESIDE)
_ANY = f"SELECT {_THERE}, EXISTS (SELECT 1 FROM works WHERE based_on = ?1)"


def answer(at, job, markets=None, supposed=(), want=3):
    """The JobAnswer of a JobRecord in its markets (or in those named), with up to `want` questions in order.

    `supposed` are Suppositions; the answer then says what would hold, and must be shown as such and not be kept.
    """
    given = case(at, job, markets)
    if supposed:
        objects = {key: at.records[key].facts for key in given.layers}
        given = suppose.case(given, supposed, objects, rulebook().vocabulary)
    given = beside(at.catalogue, given, at.ground, job.title, job.listing_text)
    found = decide(given, at.ground)
    if not want:
        return found
    others = [] if supposed or found.clear else [case(at, one) for one in _sharing(at, job)]  # their marks settle nothing
    return with_next(found, ranked([given, *others], at.ground, want, job.key))


def case(at, job, markets=None):
    """The Case of a JobRecord: its works with all their versions, their permissions, jobs that draw on the same."""
    asked = markets or job.markets or at.shop["markets"]
    names = tuple(dict.fromkeys(name for one in asked for name in (covered() if one.lower() == "all" else [written(one)])))
    if not names:
        raise RegistryError(f"The job {job.key} names no market; say where with --in, or record markets for the job or the shop.")
    layers = {}
    for use in job.uses:
        layers |= _family(at, use.work)
    uses = tuple(Use(use.work, use.part, tuple(use.traits), use.changes) for use in job.uses)
    facts = JobFacts(job.key, job.product, job.purpose, names, job.quantity, job.wording, job.lettering, _day(job.due), uses)
    used = {layer.key for use in job.uses for layer in chain(layers, use.work)}
    given = tuple(_permission(at, one) for key in sorted(used) for one in once(at, permissions.of_work, key))
    return Case(facts, layers, given, _others(at, job, given))


def _day(text):
    return edtf.day(text) if text else None


def versions(at, key):
    """(WorkRecords from the original up to the work of that key, those made directly from it in the order they were added)."""
    layers = _family(at, key)
    return [at.records[layer.key] for layer in chain(layers, key)], [at.records[one.key] for one in layers.values() if one.based_on == key]


def _family(at, key):
    """Layers by key of a work and of all versions that share its original."""
    if key not in at.families:
        record = works.get(at.catalogue, key)
        alone = not _glance(at, record) and record.based_on is None
        line = {one.id: one for one in (record, *works.beneath(at.catalogue, record))}
        found = list(line) if alone else [row[0] for row in at.catalogue.db.execute(_TREE, (list(line)[-1],))]
        line |= {one.id: one for one in works.some(at.catalogue, [number for number in found if number not in line])}
        family = {line[number].key: _layer(at, line[number]) for number in found}
        at.families.update(dict.fromkeys(family, family))
    return at.families[key]


_TREE = """WITH RECURSIVE tree (id) AS (
    SELECT ?1 UNION SELECT works.id FROM works JOIN tree ON works.based_on = tree.id
) SELECT id FROM tree ORDER BY id"""


def _layer(at, record):
    if record.key not in at.layers:
        at.records[record.key] = record
        at.layers[record.key] = _layer_of(record)
    return at.layers[record.key]


def _layer_of(record):
    terms = Terms(record.access_terms) if record.access_terms else None
    return Layer(record.key, record.title, works.facts_of(record), record.based_on, record.originality,
                 tuple(name for name, _note in record.traits), terms, record.own)


def _permission(at, one):
    where = one.places if one.places == WORLD else tuple(code for name in one.places for code in _within(at, name))
    return Permission(f"p{one.id}", one.work, one.kind, one.licensor, one.spdx, one.uses, where, one.media, one.quantity,
                      _day(one.valid_from), _day(one.valid_to), one.exclusive, one.commercial, one.changes_allowed, one.credit_line,
                      "the document on record" if one.document else one.note)


def _within(at, name):
    """Codes of one of the places of a permission; the name itself where it is no place (any more), so that it covers nothing."""
    try:
        return settings.opened(at.catalogue, [name], at.shop["groups"])
    except RegistryError:
        return [name]


def _others(at, job, given):
    """Jobs that have drawn on the limited permissions of this one: recorded before it, or sold, or decided."""
    limited = {one.work for one in given if one.quantity is not None}
    found = {}
    for key in sorted(limited):
        for row in at.catalogue.db.execute(_DRAWN, (works.get(at.catalogue, key).id, job.id)):
            before = found[row["key"]].works if row["key"] in found else ()
            found[row["key"]] = _other(at, row, (*before, key))
    return tuple(found.values())


def _other(at, row, keys):
    """The OtherJob in a row of _DRAWN, which uses the works of these keys."""
    codes = _opened(at, jobs.get(at.catalogue, row["key"]))  # none: it may have drawn anywhere
    return OtherJob(row["key"], row["quantity"], keys, tuple(codes), _day(row["sold_on"] or row["due"]))


_DRAWN = """WITH RECURSIVE tree (id) AS (
    SELECT ?1 UNION SELECT works.id FROM works JOIN tree ON works.based_on = tree.id
) SELECT DISTINCT jobs.key, jobs.quantity, jobs.due, jobs.sold_on FROM jobs JOIN uses ON uses.job = jobs.id
WHERE uses.work IN (SELECT id FROM tree) AND jobs.id <> ?2 AND (jobs.id < ?2 OR jobs.sold_on IS NOT NULL
    OR EXISTS (SELECT 1 FROM ledger WHERE kind = 'decision' AND subject = jobs.key))
ORDER BY jobs.id"""


def _sharing(at, job):
    """Other JobRecords not sold yet that use a work of this one."""
    marks = ", ".join("?" * len(job.uses))
    found = at.catalogue.db.execute(
        f"""SELECT DISTINCT jobs.key FROM jobs JOIN uses ON uses.job = jobs.id JOIN works ON works.id = uses.work
        WHERE works.key IN ({marks}) AND jobs.key <> ? AND jobs.sold_on IS NULL AND jobs.markets <> '[]' ORDER BY jobs.id LIMIT ?""",
        (*(use.work for use in job.uses), job.key, SHARING))
    return [one for row in found.fetchall() if _opened(at, one := jobs.get(at.catalogue, row[0]))]


def _opened(at, job):
    """Codes of the markets of a job beside the one that is judged; none when they are no places (any more)."""
    try:
        return settings.opened(at.catalogue, job.markets, at.shop["groups"])
    except RegistryError:
        return []


def chains(at, record, codes):
    """LayerAnswers of a work, as recorded or supposed, and of all beneath it, the original first, by code of place.

    What a copy adds, and what a copy is worth whose original is not on record, is told only by the chain.
    """
    line = chain(_family(at, record.key), record.key)
    if record != at.records[record.key]:  # supposed facts; as recorded, the layer at hand keeps its verdicts
        line = (*line[:-1], _layer_of(record))
    return {code: [judged(line[:number], "picture", code, at.ground) for number in range(1, len(line) + 1)] for code in codes}


def relied_on(at, job, found):
    """Answers of the law on every layer beneath the uses of a job, in every place of a JobAnswer."""
    layers = {layer.key: layer for use in job.uses for layer in chain(_family(at, use.work), use.work)}
    codes = dict.fromkeys(place.place for market in found.markets for place in market.places)
    return [answers.Answer(at.records[key], code, at.ground.day, at.ground.verdict(layer.work, code))
            for key, layer in layers.items() for code in codes]


def permitted_works(catalogue):
    """Keys of the works that have a permission on record, in the order of the first."""
    rows = catalogue.db.execute("SELECT works.key FROM permissions JOIN works ON works.id = permissions.work"
                                " GROUP BY works.id ORDER BY min(permissions.id)")
    return [row[0] for row in rows]


def drawn(catalogue, permission):
    """How many pieces the jobs that were sold or decided have drawn on a kept permission; None when one has no quantity.

    As in an answer, a job outside its places or its days draws nothing on it.
    """
    at, work = desk(catalogue, 0), works.get(catalogue, permission.work).id
    rows = catalogue.db.execute(_DRAWN.replace("jobs.id < ?2 OR ", ""), (work, -1)).fetchall()
    others = tuple(_other(at, row, (permission.work,)) for row in rows)
    found = [one.quantity for one in drawing(_permission(at, permission), Case(JobFacts(""), others=others), at.ground)]
    return None if None in found else sum(found)
