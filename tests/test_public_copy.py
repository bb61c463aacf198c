"""The copy for everybody: nothing private in any byte of it, everything public in it, served by plain Datasette."""

import json
import os
import sqlite3
import subprocess
import sys

import kept
import pytest
import test_sheet
from registry.catalogue import complaints, decisions, jobs, permissions, settings, works
from registry.errors import RegistryError
from registry.exchange import labels, public_copy, sheet

DAY = test_sheet.DAY
MARK = "zq7"  # begins every planted secret

PUBLIC = {  # columns that are meant for everybody, themselves or as a part of the buyer's card
    "settings": {"value"}, "works": {"key", "title", "kind", "makers", "first_published", "published_earliest", "published_latest", "originality"},
    "creators": {"name", "role", "born", "died", "nationality"}, "publications": {"date", "earliest", "latest", "country"}, "traits": {"name"},
    "jobs": {"key", "title", "product", "markets"}, "uses": {"part", "changes"}, "permissions": {"credit_line", "spdx"},
}
CLOSED = {  # columns that hold no free text: codes, days, digests, numbers, words of a closed list
    "_sqlite_migrations": {"migration_set", "name", "applied_at"}, "settings": {"key"}, "files": {"sha256", "media_type", "added_at"},
    "works": {"facts", "facts_sha256", "picture", "added_at", "changed_at"},  # facts: what is in them stands in creators and publications too
    "evidence": {"fact", "basis", "seen_on", "file", "added_at"}, "permissions": {"kind", "places", "valid_from", "valid_to", "document", "added_at"},
    "marks": {"kind", "office", "filed", "registered", "expires", "look_again", "classes", "state", "added_at"}, "mark_searches": {"at", "place", "classes"},
    "jobs": {"purpose", "due", "sold_on", "added_at", "changed_at"}, "uses": {"traits"}, "ledger": {"at", "kind", "previous", "digest"},
}
DERIVED = {"answer_places", "answer_sets", "set_answers", "set_questions", "work_answers", "answer_layers", "answers_due"}  # statuses and digests, reckoned anew


def text_columns(db):
    """(table, column) of every column of text in the catalogue; search indexes hold the same texts once more."""
    for (table,) in db.execute("SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite_%' ORDER BY name").fetchall():
        if not table.startswith(("works_search", "mark_")) or table in ("mark_works", "mark_searches"):
            for _number, column, kind, *_rest in db.execute(f'PRAGMA table_info("{table}")'):
                if "TEXT" in kind.upper():
                    yield table, column


def secret(table, column):
    return f"{MARK}-{table}-{column}-{MARK}"


def planted(catalogue):
    """Puts a secret into every column of text that is neither public nor closed; the columns."""
    db = catalogue.db
    for (name,) in db.execute("SELECT name FROM sqlite_master WHERE type = 'trigger'").fetchall():
        db.execute(f"DROP TRIGGER {name}")
    done = set()
    for table, column in text_columns(db):
        if column in PUBLIC.get(table, ()) or column in CLOSED.get(table, ()) or table in DERIVED:
            continue
        number = "sha256" if table == "files" else "rowid"
        word, rows = secret(table, column), db.execute(f'SELECT {number}, "{column}" FROM {table}').fetchall()
        for row, text in rows:
            db.execute(f'UPDATE {table} SET "{column}" = ? WHERE {number} = ?', (with_secret(table, column, text, word), row))
        assert rows, f"no row of {table} to plant a secret in"
        done.add((table, column))
    return done


def with_secret(table, column, text, word):
    """The text with a secret in it, in a form that the column still allows."""
    if (table, column) == ("ledger", "subject"):
        return text  # decisions are found by it; the rows of complaints and evidence hold secrets as subjects below
    if (table, column) == ("ledger", "body"):
        body = json.loads(text)
        return json.dumps({name: f"{value} {word}" if name in ("by", "note", "although", "claim", "sender", "title") and value else value for name, value in body.items()} | {"hidden": word})
    if (table, column) in (("permissions", "uses"), ("permissions", "media")):
        return json.dumps([*json.loads(text), word])
    if (table, column) == ("evidence", "value"):
        return json.dumps([{"date": word} if isinstance(one, dict) else word for one in json.loads(text)])
    return f"{text or ''} {word}"


@pytest.fixture(scope="module")
def catalogue(tmp_path_factory):
    found = test_sheet.filled(tmp_path_factory.mktemp("public"))
    settings.put(found, groups={"ZQSEVENGROUP": ["GB", "IE"], "ISLES": ["GB", "IE"]})
    permissions.add(found, "gull", "licence", spdx="CC-BY-4.0")
    for key, purpose, markets in (("towel", "sale", ["US"]), ("undecided", "sale", ["US"]), ("withheld", "sale", ["US"]), ("altered", "sale", ["US"])):
        jobs.add(found, key=key, title=f"Title of {key}", product="printed tea towel", purpose=purpose, markets=markets, customer="somebody", price="9", notes="ours")
    jobs.use(found, "towel", "gull", "picture", ["bollard"], "in two colours")
    works.add(found, kept.CRAB | {"us_renewed": True}, key="crab")
    jobs.use(found, "withheld", "crab", "picture")
    decisions.decide(found, "towel", "Isbet Corrow", "goes ahead", DAY)
    decisions.decide(found, "withheld", "Isbet Corrow", "a risk", DAY, although="we want to")
    jobs.use(found, "altered", "gull", "picture", ["bollard"], "in two colours")
    decisions.decide(found, "altered", "Isbet Corrow", "goes ahead", DAY)
    jobs.change(found, "altered", jobs.get(found, "altered").version, wording="GULL AND ANCHOR")
    complaints.add(found, received="2026-06-20", sender="Owner", claim="ours", jobs=["towel"], note="private", where="a marketplace", reference="R1")
    found.db.execute("UPDATE jobs SET title = ? WHERE key = 'sign'", (secret("jobs", "commission"),))
    return found


@pytest.fixture(scope="module")
def copy(catalogue, tmp_path_factory):
    path = tmp_path_factory.mktemp("copy") / "public.db"
    made = public_copy.publish(catalogue, path, ["US", "GB"], DAY)
    return made, sqlite3.connect(f"{path.as_uri()}?mode=ro", uri=True)


def test_every_column_of_text_is_classed(catalogue):
    columns = set(text_columns(catalogue.db))
    listed = {(table, column) for group in (PUBLIC, CLOSED) for table, names in group.items() for column in names}
    assert listed <= columns and not {(t, c) for t, names in PUBLIC.items() for c in names} & {(t, c) for t, names in CLOSED.items() for c in names}
    assert len(columns) > 80


def test_no_byte_of_the_copy_is_private(tmp_path):
    catalogue = test_sheet.filled(tmp_path / "own")
    jobs.add(catalogue, key="towel", title="Gull towel", product="printed tea towel", markets=["US"], customer="c", price="p", notes="n", listing_text="l", wording="", lettering="x")
    jobs.use(catalogue, "towel", "ours", "picture", ["bollard"], "in two colours")
    decisions.decide(catalogue, "towel", "Isbet Corrow", "goes ahead", DAY, although="although")
    complaints.add(catalogue, received="2026-06-20", sender="Owner", claim="ours", jobs=["towel"], note="private")
    settings.put(catalogue, groups={"ZQ7GROUP": ["GB"], "ISLES": ["GB", "IE"]})
    done = planted(catalogue)
    decisions.decide(catalogue, "towel", secret("ledger", "body"), secret("ledger", "body"), DAY, although=secret("ledger", "body"))  # the job as it is now
    assert {("jobs", "customer"), ("jobs", "price"), ("jobs", "notes"), ("works", "notes"), ("ledger", "body"), ("evidence", "note"), ("permissions", "licensor"), ("marks", "owner"),
            ("mark_searches", "by"), ("files", "name"), ("traits", "note"), ("works", "access_terms"), ("jobs", "listing_text"), ("evidence", "seen_by")} <= done
    (tmp_path / "catalogue.dump").write_text("\n".join(catalogue.db.iterdump()))
    there = (tmp_path / "catalogue.dump").read_text()
    assert all(secret(*column) in there for column in done if column != ("ledger", "subject"))
    assert public_copy.publish(catalogue, tmp_path / "public.db", ["US", "GB"], DAY).products == 1
    content = (tmp_path / "public.db").read_bytes()
    assert MARK.encode() not in content.lower() and b"somebody" not in content and b"SECRET" not in content
    assert b"Tinted gull" in content and b"Perpetua Quill" in content  # the search would have found it


def test_only_works_and_products_for_sale_that_were_cleared_are_in_it(copy, catalogue):
    made, db = copy
    assert [row[0] for row in db.execute("SELECT key FROM products")] == ["towel"] and made.products == 1
    assert made.works == works.count(catalogue) == db.execute("SELECT count(*) FROM works").fetchone()[0]
    content = made.path.read_bytes()
    for word in ("commission", "Title of undecided", "Title of withheld", "Title of altered", "ZQSEVENGROUP", "Isbet", "flat file", "Quaylark", "a marketplace"):
        assert word.encode() not in content, word


def test_the_card_is_the_buyer_s(copy, catalogue):
    _made, db = copy
    found = sheet.collect(catalogue, "towel", DAY)
    (card,) = db.execute("SELECT card FROM products").fetchone()
    assert card == sheet.card(found, sheet.embedded(catalogue, found)) and "Not legal advice." in card
    assert db.execute("SELECT product, work, part FROM product_works").fetchall() == [("towel", "gull", "picture")]
    assert db.execute("SELECT market, decision FROM product_answers").fetchall() == [(one["market"], one["decision"]) for one in found["answer"]["markets"]]


def test_works_and_answers_are_those_of_the_catalogue(copy, catalogue):
    _made, db = copy
    names = public_copy.COPIED["works"]
    assert db.execute(f"SELECT {', '.join(names)} FROM works ORDER BY key").fetchall() == [tuple(row) for row in catalogue.db.execute(f"SELECT {', '.join(names)} FROM works ORDER BY key")]
    assert dict(db.execute("SELECT key, based_on FROM works WHERE based_on IS NOT NULL")) == {"tinted": "gull", "ours": "tinted"}
    for record in works.listed(catalogue):
        label = labels.label(catalogue, record.key, ["US", "GB"], DAY)
        rows = db.execute("SELECT place, status, statement, says FROM answers WHERE work = ? ORDER BY rowid", (record.key,)).fetchall()
        assert rows == [(one["place"], one["status"], one["statement"] and one["statement"]["uri"], one["says"]) for one in label["places"]]
        assert db.execute("SELECT statement, label, spdx FROM works WHERE key = ?", (record.key,)).fetchone() == (
            label["whole"]["statement"] and label["whole"]["statement"]["uri"], label["whole"]["says"], labels.spdx(label))
    assert db.execute("SELECT free_from FROM answers WHERE work = 'gull' AND place = 'US'").fetchone() == ("2024-01-01",)
    assert db.execute("SELECT status, free_from FROM answers WHERE work = 'ours' AND place = 'US'").fetchone() == ("in_copyright", None)


def test_every_answer_has_its_rules(copy):
    _made, db = copy
    assert db.execute("SELECT count(*) FROM answer_rules JOIN rules ON rules.id = answer_rules.rule WHERE work = 'gull'").fetchone()[0] >= 2
    assert db.execute("PRAGMA foreign_key_check").fetchall() == [] and db.execute("PRAGMA integrity_check").fetchone() == ("ok",)


def test_it_says_what_it_is(copy):
    told = dict(copy[1].execute("SELECT name, value FROM about"))
    assert told["not_legal_advice"].startswith("Not legal advice.") and told["as_of"] == "2026-07-01" and json.loads(told["places"]) == ["US", "GB"] and len(told["ledger_head"]) == 64


def test_it_can_be_searched(copy):
    found = copy[1].execute("SELECT works.key FROM works JOIN works_search ON works_search.rowid = works.rowid WHERE works_search MATCH 'tinted'").fetchall()
    assert found == [("tinted",)]


def test_it_can_only_be_read(copy):
    path = copy[0].path
    assert path.stat().st_mode & 0o777 == 0o444 and not list(path.parent.glob("public.db?*"))


def test_plain_datasette_serves_it(copy):
    def get(address):
        command = [sys.executable, "-m", "datasette", "serve", "--immutable", str(copy[0].path), "--get", address]
        done = subprocess.run(command, capture_output=True, text=True, env={**os.environ, "DATASETTE_LOAD_PLUGINS": ""}, timeout=60)
        assert done.returncode == 0, done.stderr
        return json.loads(done.stdout)

    rows = get("/public/works.json?_shape=array&_search=tinted")
    assert [row["key"] for row in rows] == ["tinted"]
    tables = {table["name"] for table in get("/public.json")["tables"] if not table["hidden"]}
    assert tables == {"about", "works", "creators", "publications", "traits", "answers", "rules", "answer_rules", "products", "product_works", "product_answers"}


@pytest.mark.parametrize("markets, says", [([], None), (["Atlantis"], "is not a place")])
def test_which_places(catalogue, tmp_path, markets, says):
    if says:
        with pytest.raises(RegistryError, match=says):
            public_copy.publish(catalogue, tmp_path / "x.db", markets, DAY)
    else:
        public_copy.publish(catalogue, tmp_path / "x.db", markets, DAY)  # the shop's own: US
        assert sqlite3.connect(tmp_path / "x.db").execute("SELECT DISTINCT place FROM answers").fetchall() == [("US",)]


def test_no_market_at_all(tmp_path):
    with pytest.raises(RegistryError, match="^Say for which places"):
        public_copy.publish(kept.new(tmp_path), tmp_path / "x.db", None, DAY)
    assert not (tmp_path / "x.db").exists()


def test_a_file_that_is_there_is_left_alone(catalogue, tmp_path, capsys):
    command = kept.Command(catalogue.folder, capsys)
    (tmp_path / "x.db").write_text("mine")
    assert "is there already" in command.refused("publish", str(tmp_path / "x.db"), "--in", "US")
    assert (tmp_path / "x.db").read_text() == "mine"
    code, out, _ = command("publish", str(tmp_path / "x.db"), "--in", "US", "--replace", "--json")
    assert code == 0 and json.loads(out)["works"] == works.count(catalogue)
    assert "could not be written" in command.refused("publish", str(tmp_path / "no" / "x.db"), "--in", "US")
