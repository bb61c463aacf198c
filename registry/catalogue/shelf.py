"""Which works to show: filters over stored answers, words, kind and jobs, page by page from a key onward.

Filters by answer look at the few sets of like answers first, so that their cost does not grow with the works.
"""

from dataclasses import dataclass

from registry.catalogue import search
from registry.errors import RegistryError
from registry.facts import edtf

ORDERS = ("new", "title", "published")
SHOWS = ("", "free", "held", "open")
ANY = "any"
COUNTED = 1000  # works counted one by one at most; beyond that "more than"
RANKED = 400    # found works that are put in the order of how well they fit; more come in the order of entry


@dataclass(frozen=True, slots=True)
class Wanted:
    """What to show. `show`: everything, free in all `places` on `day`, held in one of them, open in one of them.

    `missing` is a fact that is asked for there, or "any"; `used` yes, no or ""; `after` the key of the last work seen.
    """

    places: tuple
    day: str
    words: str = ""
    show: str = ""
    kind: str = ""
    missing: str = ""
    used: str = ""
    order: str = "new"
    after: str = ""
    size: int = 24


@dataclass(frozen=True, slots=True)
class Shelf:
    """Row numbers of works to show, how many fit in all (None: more than COUNTED), and whether more follow."""

    ids: tuple
    count: int | None
    more: bool


def find(catalogue, wanted):
    """The Shelf of a Wanted; RegistryError for an order or a filter that there is not."""
    _check(wanted)
    sets, set_values = _sets(wanted)
    tests, values = _tests(wanted)
    both = [*tests, *([f"work_answers.answer_set IN ({sets})"] if sets else [])], [*values, *set_values]
    if wanted.words.strip():  # a search without a letter in it finds nothing
        return _found(catalogue, wanted, *both) if search.match(wanted.words) else Shelf((), 0, False)
    count = _count(catalogue.db, sets, set_values, tests, values)
    return _shelf(_page(catalogue.db, wanted, *both), count, wanted)


def asked_for(catalogue, places, limit=8):
    """(fact, number of works) of the facts that the stored answers for these places ask for, the most wanted first."""
    marks = ", ".join("?" * len(places))
    found = catalogue.db.execute(
        f"""SELECT fact, sum(works) AS number FROM (SELECT DISTINCT fact, answer_set FROM set_questions WHERE place IN ({marks}))
        JOIN answer_sets ON answer_sets.id = answer_set
        GROUP BY fact HAVING number > 0 ORDER BY number DESC, fact LIMIT ?""", (*places, limit))
    return [tuple(row) for row in found]


def clearing(catalogue, places, after, until, limit=100):
    """(day, place, number of works, row number of one of them) of works that clear after a day and until another."""
    marks = ", ".join("?" * len(places))
    found = catalogue.db.execute(
        f"""SELECT clear_from, place, sum(works), min((SELECT min(work) FROM work_answers WHERE work_answers.answer_set = answer_sets.id))
        FROM set_answers JOIN answer_sets ON answer_sets.id = answer_set
        WHERE place IN ({marks}) AND clear_from > ? AND clear_from <= ? AND works > 0
        GROUP BY clear_from, place ORDER BY clear_from, place LIMIT ?""",
        (*places, after, until, limit))
    return [tuple(row) for row in found]


def answers_of(catalogue, ids, places):
    """{row number of a work: {place: row of set_answers}} for the works that have a stored answer."""
    if not ids or not places:
        return {}
    found = catalogue.db.execute(
        f"""SELECT work, place, status, clear_from, open FROM work_answers CROSS JOIN set_answers USING (answer_set)
        WHERE work IN ({', '.join('?' * len(ids))}) AND place IN ({', '.join('?' * len(places))})""", (*ids, *places))
    answers = {}
    for row in found:
        answers.setdefault(row["work"], {})[row["place"]] = row
    return answers


@dataclass(frozen=True, slots=True)
class Card:
    """What a grid shows of one work: `answers` maps a place to its row of set_answers, `licensed` tells of a permission."""

    id: int
    key: str
    title: str
    makers: str
    first_published: str | None
    picture: str | None
    kind: str | None
    own: bool
    licensed: bool
    answers: dict


def cards(catalogue, ids, places):
    """The Cards of these row numbers, in the same order."""
    if not ids:
        return []
    answers = answers_of(catalogue, ids, places)
    found = {row["id"]: row for row in catalogue.db.execute(
        f"""SELECT id, key, title, makers, first_published, picture, kind, own,
        EXISTS (SELECT 1 FROM permissions WHERE permissions.work = works.id) AS licensed
        FROM works WHERE id IN ({', '.join('?' * len(ids))})""", ids)}
    return [Card(*tuple(found[number])[:7], bool(found[number]["own"]), bool(found[number]["licensed"]), answers.get(number, {}))
            for number in ids if number in found]


def _check(wanted):
    for name, allowed in (("order", ORDERS), ("show", SHOWS), ("used", ("", "yes", "no"))):
        given = getattr(wanted, name)
        if given not in allowed:
            raise RegistryError(f"The works cannot be shown with {name} '{given}';"
                                f" allowed are {', '.join(filter(None, allowed))}.")
    edtf.day(wanted.day)


def _found(catalogue, wanted, tests, values):
    """The Shelf for words: the best first when few fit, else in the order of entry."""
    db, tests, values = catalogue.db, ["works_search MATCH ?", *tests], [search.match(wanted.words), *values]
    base = f"FROM works_search CROSS JOIN works ON works.id = works_search.rowid{_JOIN} WHERE {' AND '.join(tests)}"
    count = db.execute(f"SELECT count(*) FROM (SELECT 1 {base} LIMIT {RANKED + 1})", values).fetchone()[0]
    if count > RANKED:
        after = _number(db, wanted.after)
        found = db.execute(
            f"SELECT works.id {base} AND works.id > ? ORDER BY works_search.rowid LIMIT ?",
            (*values, after or 0, wanted.size + 1))
        return _shelf([row[0] for row in found], None, wanted)
    exact = [row[0] for row in db.execute("SELECT id FROM works WHERE key = ?", (wanted.words.strip(),))]
    ids = [row[0] for row in db.execute(f"SELECT works.id {base} ORDER BY bm25(works_search, 8, 4, 4, 1), works.id", values)]
    ids = list(dict.fromkeys(exact + ids))
    start = ids.index(_number(db, wanted.after)) + 1 if _number(db, wanted.after) in ids else 0
    return _shelf(ids[start:start + wanted.size + 1], len(ids), wanted)


def _shelf(ids, count, wanted):
    return Shelf(tuple(ids[:wanted.size]), count, len(ids) > wanted.size)


_JOIN = " LEFT JOIN work_answers ON work_answers.work = works.id"


def _sets(wanted):
    """(SQL tests on answer sets, their values); none when answers do not matter."""
    marks, parts, values = ", ".join("?" * len(wanted.places)), [], []
    if wanted.show == "free":
        first, *rest = wanted.places
        also = "".join(
            " AND EXISTS (SELECT 1 FROM set_answers AS b"
            " WHERE b.answer_set = a.answer_set AND b.place = ? AND b.clear_from <= ?)" for _ in rest)
        parts.append(f"SELECT answer_set FROM set_answers AS a WHERE place = ? AND clear_from <= ?{also}")
        values += [one for place in wanted.places for one in (place, wanted.day)]
    elif wanted.show:
        parts.append(f"SELECT answer_set FROM set_answers WHERE place IN ({marks}) AND status = ?")
        values += [*wanted.places, {"held": "in_copyright", "open": "undetermined"}[wanted.show]]
    if wanted.missing == ANY:
        parts.append(f"SELECT answer_set FROM set_questions WHERE place IN ({marks})")
        values += wanted.places
    elif wanted.missing:
        parts.append(f"SELECT answer_set FROM set_questions WHERE fact = ? AND place IN ({marks})")
        values += [wanted.missing, *wanted.places]
    return " INTERSECT ".join(parts), values


def _tests(wanted):
    """(SQL tests on single works, their values)."""
    tests, values = [], []
    if wanted.kind:
        tests.append("works.kind = ?")
        values.append(wanted.kind)
    if wanted.used:
        tests.append(f"works.id {'NOT ' if wanted.used == 'no' else ''}IN (SELECT work FROM uses)")
    if wanted.order == "published":  # without a day there is no place in this order
        tests.append("works.published_earliest IS NOT NULL")
    return tests, values


def _count(db, sets, set_values, tests, values):
    """How many works fit: exact when only answers or nothing is asked for, else up to COUNTED; None beyond."""
    if not tests:
        query = f"SELECT coalesce(sum(works), 0) FROM answer_sets WHERE id IN ({sets})" if sets else "SELECT count(*) FROM works"
        return db.execute(query, set_values).fetchone()[0]
    if sets:
        tests, values = [*tests, f"work_answers.answer_set IN ({sets})"], [*values, *set_values]
    counted = f"SELECT 1 FROM works{_JOIN} WHERE {' AND '.join(tests)} LIMIT {COUNTED + 1}"
    found = db.execute(f"SELECT count(*) FROM ({counted})", values).fetchone()[0]
    return found if found <= COUNTED else None


_COLUMNS = {"new": ("id", "DESC"), "title": ("title", "ASC"), "published": ("published_earliest", "ASC")}


def _page(db, wanted, tests, values):
    """Row numbers of the next works in order, one more than are shown."""
    column, way = _COLUMNS[wanted.order]
    start = db.execute(f"SELECT id, {column} FROM works WHERE key = ?", (wanted.after,)).fetchone() if wanted.after else None
    if start and column == "id":
        tests, values = [*tests, "works.id < ?"], [*values, start["id"]]
    elif start:
        tests, values = [*tests, f"({column}, works.id) > (?, ?)"], [*values, start[column], start["id"]]
    where = f" WHERE {' AND '.join(tests)}" if tests else ""
    order = f"works.id {way}" if column == "id" else f"{column} {way}, works.id {way}"
    found = db.execute(f"SELECT works.id FROM works{_JOIN}{where} ORDER BY {order} LIMIT ?", (*values, wanted.size + 1))
    return [row[0] for row in found]


def _number(db, key):
    """The row number of a work by its key; None when there is none."""
    found = db.execute("SELECT id FROM works WHERE key = ?", (key,)).fetchone() if key else None
    return found[0] if found else None
