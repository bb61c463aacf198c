"""A copy of the catalogue for everybody: works, answers and buyers' cards in a new database, by a list of what may go in.

It is made from nothing, so that no page of it ever held anything else. What is not on the lists below is never read:
customers, prices, notes, evidence, permissions, marks, complaints and who decided stay at home.
"""

import json
import os
import sqlite3
from dataclasses import dataclass
from pathlib import Path

from registry.catalogue import clear, decisions, jobs, settings, store, verify, whole, words, works
from registry.clearance.decision import clear_day
from registry.clearance.model import HOLD, NO_BAR
from registry.errors import RegistryError
from registry.exchange import labels, sheet
from registry.facts import edtf

PURPOSE = "sale"  # jobs of other kinds are between the shop and one person
COPIED = {  # table: columns of the catalogue that are copied as they are
    "works": ("key", "title", "kind", "makers", "first_published", "published_earliest", "published_latest", "originality", "own"),
    "creators": ("position", "name", "role", "born", "died", "nationality"),
    "publications": ("position", "date", "earliest", "latest", "country"),
    "traits": ("name",),
}
TABLES = (
    "CREATE TABLE about (name TEXT PRIMARY KEY, value TEXT NOT NULL) STRICT",
    """CREATE TABLE works (
        key TEXT PRIMARY KEY, title TEXT NOT NULL, kind TEXT, makers TEXT NOT NULL,
        first_published TEXT, published_earliest TEXT, published_latest TEXT,
        originality TEXT NOT NULL, own INTEGER NOT NULL, based_on TEXT REFERENCES works (key),
        statement TEXT, label TEXT NOT NULL, spdx TEXT
    ) STRICT""",
    """CREATE TABLE creators (
        work TEXT NOT NULL REFERENCES works (key), position INTEGER NOT NULL, name TEXT, role TEXT,
        born TEXT, died TEXT, nationality TEXT, PRIMARY KEY (work, position)
    ) STRICT""",
    """CREATE TABLE publications (
        work TEXT NOT NULL REFERENCES works (key), position INTEGER NOT NULL, date TEXT,
        earliest TEXT, latest TEXT, country TEXT, PRIMARY KEY (work, position)
    ) STRICT""",
    "CREATE TABLE traits (work TEXT NOT NULL REFERENCES works (key), name TEXT NOT NULL, PRIMARY KEY (work, name)) STRICT",
    """CREATE TABLE answers (
        work TEXT NOT NULL REFERENCES works (key), place TEXT NOT NULL, name TEXT NOT NULL, status TEXT NOT NULL,
        free_from TEXT, statement TEXT, says TEXT NOT NULL,
        reasons TEXT NOT NULL, as_of TEXT NOT NULL, PRIMARY KEY (work, place)
    ) STRICT""",
    "CREATE TABLE rules (id TEXT PRIMARY KEY, says TEXT NOT NULL, cite TEXT NOT NULL, how TEXT NOT NULL) STRICT",
    """CREATE TABLE answer_rules (
        work TEXT NOT NULL REFERENCES works (key), place TEXT NOT NULL, position INTEGER NOT NULL,
        rule TEXT NOT NULL REFERENCES rules (id), PRIMARY KEY (work, place, position)
    ) STRICT""",
    """CREATE TABLE products (
        key TEXT PRIMARY KEY, title TEXT NOT NULL, product TEXT NOT NULL, as_of TEXT NOT NULL, card TEXT NOT NULL
    ) STRICT""",
    """CREATE TABLE product_works (
        product TEXT NOT NULL REFERENCES products (key), work TEXT NOT NULL REFERENCES works (key),
        part TEXT NOT NULL, PRIMARY KEY (product, work, part)
    ) STRICT""",
    """CREATE TABLE product_answers (
        product TEXT NOT NULL REFERENCES products (key), market TEXT NOT NULL, decision TEXT NOT NULL,
        free_from TEXT, PRIMARY KEY (product, market)
    ) STRICT""",
    'CREATE VIRTUAL TABLE works_search USING fts5 (title, makers, content="works", tokenize="unicode61 remove_diacritics 2")',
)


@dataclass(frozen=True, slots=True)
class Copy:
    """What was written: the file, and how many works, answers and products are in it."""

    path: Path
    works: int
    answers: int
    products: int


def publish(catalogue, path, markets=None, day=None, replace=False):
    """The Copy in a new file, which may only be read; `markets` are names of places and groups, the shop's own without.

    RegistryError when the file is there already (unless `replace`), when no place is named, or when it cannot be written.
    """
    day = store.today() if day is None else day
    codes = settings.opened(catalogue, markets or settings.get(catalogue, "markets"))
    if not codes:
        raise RegistryError("Say for which places: --in US,CA names them, and 'registry settings --markets US,CA' keeps those of the shop.")
    if os.path.exists(path) and not replace:
        raise RegistryError(f"{path} is there already; name a new file, or replace it with --replace.")
    with whole.made(path, "The copy") as beside:
        found = _write(catalogue, beside, codes, day)
        beside.chmod(0o444)
    return Copy(Path(path), *found)


def _write(catalogue, path, codes, day):
    db = sqlite3.connect(path, isolation_level=None)
    try:
        db.execute("PRAGMA foreign_keys = on")
        db.execute("BEGIN")
        for statement in TABLES:
            db.execute(statement)
        at = clear.desk(catalogue, day)
        count = _works(at, db, codes)
        products = _products(catalogue, db, day)
        _about(catalogue, db, codes, day)
        db.execute("INSERT INTO works_search (works_search) VALUES ('rebuild')")
        answers = db.execute("SELECT count(*) FROM answers").fetchone()[0]
        db.execute("COMMIT")
    finally:
        db.close()
    return count, answers, products


def _put(db, table, **row):
    db.execute(f"INSERT INTO {table} ({', '.join(row)}) VALUES ({', '.join('?' * len(row))})", tuple(row.values()))


def _copied(catalogue, table, work):
    """Rows of a table of the catalogue that belong to a work (its row number), only the columns on the list."""
    names, key = COPIED[table], "id" if table == "works" else "work"
    found = catalogue.db.execute(f"SELECT {', '.join(names)} FROM {table} WHERE {key} = ?", (work,))
    return [dict(zip(names, row)) for row in found]


# --- works and answers -------------------------------------------------------------------------------

def _works(at, db, codes):
    """How many works were copied; what a work is based on is filled in when all are there."""
    numbers = [row[0] for row in at.catalogue.db.execute("SELECT id FROM works ORDER BY id")]
    for number in numbers:
        (record,) = works.some(at.catalogue, [number])
        chains = clear.chains(at, record, codes)
        found = labels.of_record(at, record, chains)
        (row,) = _copied(at.catalogue, "works", number)
        said = found["whole"]["statement"]
        _put(db, "works", **row, statement=said and said["uri"], label=found["whole"]["says"], spdx=labels.spdx(found))
        for table in ("creators", "publications", "traits"):
            for one in _copied(at.catalogue, table, number):
                _put(db, table, work=record.key, **one)
        _answers(db, record, found, chains)
    origins = at.catalogue.db.execute(
        "SELECT works.key, origin.key FROM works JOIN works AS origin ON origin.id = works.based_on")
    for key, origin in origins:
        db.execute("UPDATE works SET based_on = ? WHERE key = ?", (origin, key))
    return len(numbers)


def _answers(db, record, found, chains):
    for one in found["places"]:
        line = chains[one["place"]]
        earliest, latest = max(layer.earliest for layer in line), max(layer.latest for layer in line)
        free = clear_day(HOLD if one["status"] == labels.PROTECTED else NO_BAR, earliest, latest)
        settled = not record.own and one["status"] in (labels.FREE, labels.PROTECTED)
        _put(db, "answers", work=record.key, place=one["place"], name=one["name"], status=one["status"],
             free_from=edtf.iso(free) if settled else None, statement=one["statement"] and one["statement"]["uri"],
             says=one["says"], reasons=" ".join(layer.says for layer in line), as_of=found["as_of"])
        for position, rule in enumerate(dict.fromkeys(rule for layer in line for rule in layer.rules)):
            db.execute("INSERT OR IGNORE INTO rules (id, says, cite, how) VALUES (?, ?, ?, ?)", (rule.id, rule.says, rule.cite, rule.how))
            _put(db, "answer_rules", work=record.key, place=one["place"], position=position, rule=rule.id)


# --- products ----------------------------------------------------------------------------------------

def _products(catalogue, db, day):
    """How many jobs were copied: those for sale that somebody decided about as they are now, not against a hold."""
    keys = [job.key for job in jobs.listed(catalogue) if job.purpose == PURPOSE and job.markets and _cleared(catalogue, job)]
    for key in keys:
        found = sheet.collect(catalogue, key, day)
        buyer = sheet.for_buyer(found)
        _put(db, "products", key=key, title=buyer["job"]["title"], product=buyer["job"]["product"],
             as_of=buyer["as_of"], card=sheet.card(found, sheet.embedded(catalogue, found)))
        for use in buyer["uses"]:
            _put(db, "product_works", product=key, work=use["work"], part=use["part"])
        for one in buyer["markets"]:
            _put(db, "product_answers", product=key, market=one["market"], decision=one["decision"], free_from=one["free_from"])
    return len(keys)


def _cleared(catalogue, job):
    last = decisions.last(catalogue, job)
    return bool(last) and last.covers and not last.against


def _about(catalogue, db, codes, day):
    row, head, _moment = verify.head(catalogue)
    statuses = ("Of each version with all that it is based on: public_domain and in_copyright mean 'likely';"
                " not_covered means that the rules on file do not cover it.")
    told = {"shop": settings.get(catalogue, "name"), "as_of": edtf.iso(day), "places": json.dumps(codes),
            "not_legal_advice": words.ADVICE, "ledger_head": head, "ledger_row": str(row), "statuses": statuses}
    for name, value in told.items():
        _put(db, "about", name=name, value=value)
