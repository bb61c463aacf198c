"""Works: what is kept, what follows from the facts, how a change is guarded."""

import json
import random
import sqlite3

import kept
import pytest
import randoms
from registry.catalogue import files, keys, ledger, store, works
from registry.catalogue.canonical import canonical, digest
from registry.catalogue.facts_text import altered, plain, value_of
from registry.errors import BadFacts, Conflict, RegistryError, UnknownRecord
from registry.facts.work import read_work
from registry.rulebook import rulebook

VOCABULARY = rulebook().vocabulary


@pytest.fixture
def catalogue(tmp_path):
    return kept.new(tmp_path)


def test_a_work_as_kept(catalogue):
    record = works.add(catalogue, kept.GULL, traits=["bollard", ("hat", "tall")], notes="own copy", access_terms="none")
    assert (record.key, record.title, record.kind, record.version) == ("w1", "Gull on a Bollard", "drawing", 1)
    assert (record.makers, record.first_published) == ("Perpetua Quill", "1928-05-17")
    assert record.facts == {**kept.GULL, "id": "w1"}
    assert record.facts_sha256 == digest(record.facts)
    assert record.traits == (("bollard", ""), ("hat", "tall"))
    assert (record.based_on, record.originality, record.picture) == (None, "unknown", None)
    assert works.get(catalogue, "w1") == record


def test_facts_are_kept_as_canonical_json(catalogue):
    works.add(catalogue, {**kept.GULL, "us_renewed_on": None, "us_notice_year": 1927})
    text = catalogue.db.execute("SELECT facts FROM works").fetchone()[0]
    assert text == canonical(json.loads(text))
    assert "us_renewed_on" not in json.loads(text)
    assert json.loads(text)["us_notice_year"] == 1927


def test_keys(catalogue):
    assert works.add(catalogue, kept.GULL).key == "w1"
    assert works.add(catalogue, kept.GULL, key="w3").key == "w3"
    assert works.add(catalogue, {**kept.GULL, "id": "gull-1928"}).key == "gull-1928"
    assert works.add(catalogue, {**kept.GULL, "id": "theirs"}, key="ours").facts["id"] == "ours"
    assert works.add(catalogue, kept.GULL).key == "w5"
    with pytest.raises(Conflict, match="^There is a work 'w1' already; choose another key, or alter it with 'registry work change w1'.$"):
        works.add(catalogue, kept.GULL, key="w1")
    for key in ("-x", "a b", "a/b", "é", "x" * 81, "a\n", 7):
        with pytest.raises(RegistryError, match="cannot be the key of a work"):
            works.add(catalogue, kept.GULL, key=key)


@pytest.mark.parametrize("thing", ["work", "job"])
@pytest.mark.parametrize("key", ["new", "con", "CON", "aux.txt", "nul.a.b", "com1", "Lpt9.png", "prn.", "a.", "a..", "w1."])
def test_a_key_that_could_not_be_opened_or_unpacked_is_refused(catalogue, thing, key):
    with pytest.raises(RegistryError, match=f"^'{key}' cannot be the key of a {thing}; 'new', a point at the end and the names that Windows keeps"):
        keys.new(catalogue.db, thing, key)


@pytest.mark.parametrize("key", ["New", "news", "new.1", "console", "com", "com10", "lpt-1", "a.con", "a.b", "aux-1"])
def test_a_key_that_only_looks_like_one_of_those_is_taken(catalogue, key):
    assert works.add(catalogue, kept.GULL, key=key).key == key


def test_a_key_from_before_stays_readable(catalogue):
    works.add(catalogue, kept.GULL, key="older")
    catalogue.db.execute("UPDATE works SET key = 'con' WHERE key = 'older'")
    assert works.get(catalogue, "con").title == kept.GULL["title"]


def test_an_automatic_key_steps_over_a_taken_one(catalogue):
    works.add(catalogue, kept.GULL, key="w2")
    assert works.add(catalogue, kept.GULL).key == "w3"


@pytest.mark.parametrize(
    "publications, text, earliest, latest",
    [
        ([], None, None, None),
        ([{"country": "US"}], None, None, None),
        ([{"date": "1930"}, {"date": "1928-05"}], "1928-05", "1928-05-01", "1928-05-31"),
        ([{"date": "192X"}, {"date": "1925"}], "192X", "1920-01-01", "1925-12-31"),
        ([{"date": "[..1930]"}, {"date": "1928"}], "[..1930]", None, "1928-12-31"),
        ([{"date": "1928/.."}, {"date": "1929"}], "1928/..", "1928-01-01", "1929-12-31"),
        ([{"date": "unknown"}], None, None, None),
    ],
)
def test_the_first_publication(catalogue, publications, text, earliest, latest):
    record = works.add(catalogue, {"title": "x", "publications": publications})
    row = catalogue.db.execute("SELECT first_published, published_earliest, published_latest FROM works").fetchone()
    assert (record.first_published, *row) == (text, text, earliest, latest)


def test_makers_and_publications_are_browsable(catalogue):
    facts = {**kept.GULL, "creators": [{"name": "A. Quill", "role": "artist", "born": "1890~"}, {"nationality": ["FR", "GB"]}]}
    works.add(catalogue, facts)
    makers = [tuple(row) for row in catalogue.db.execute("SELECT position, name, role, born, died, nationality FROM creators")]
    assert makers == [(0, "A. Quill", "artist", "1890~", None, None), (1, None, None, None, None, "FR, GB")]
    works.change(catalogue, "w1", 1, facts={**facts, "creators": [], "publications": [{"date": "1930", "country": "GB"}]})
    assert catalogue.db.execute("SELECT count(*) FROM creators").fetchone()[0] == 0
    assert tuple(catalogue.db.execute("SELECT date, earliest, latest, country FROM publications").fetchone()) == ("1930", "1930-01-01", "1930-12-31", "GB")


def test_a_change_is_noted_with_what_was_before(catalogue):
    old = works.add(catalogue, kept.GULL)
    new = works.change(catalogue, "w1", 1, facts={**old.facts, "us_renewed": False})
    assert (new.version, new.facts["us_renewed"]) == (2, False)
    first, second = (row.body for row in ledger.rows(catalogue, "facts", "w1"))
    assert first == {"work": "w1", "before": None, "after": old.facts_sha256, "facts": old.facts}
    assert second == {"work": "w1", "before": old.facts_sha256, "after": new.facts_sha256, "facts": new.facts}


def test_a_change_of_nothing(catalogue):
    old = works.add(catalogue, kept.GULL, traits=["hat"], notes="n")
    assert works.change(catalogue, "w1", 1, facts=old.facts, traits=["hat"], notes="n") == old
    assert len(ledger.rows(catalogue)) == 1


def test_a_change_beside_the_facts(catalogue):
    works.add(catalogue, kept.GULL, key="gull")
    works.add(catalogue, kept.CRAB, key="crab")
    record = works.change(catalogue, "crab", 1, based_on="gull", originality="new_expression", traits=["kettle"], notes="later")
    assert (record.version, record.based_on, record.originality, record.traits, record.notes) == (2, "gull", "new_expression", (("kettle", ""),), "later")
    assert works.change(catalogue, "crab", 2, based_on=None).based_on is None
    assert len(ledger.rows(catalogue)) == 2


def test_a_stale_version(catalogue):
    old = works.add(catalogue, kept.GULL)
    works.change(catalogue, "w1", 1, facts={**old.facts, "us_renewed": False})
    before = kept.everything(catalogue)
    with pytest.raises(Conflict, match="^The work w1 was changed since it was read .version 2, not 1.; look at it again and repeat the change.$"):
        works.change(catalogue, "w1", 1, facts={**old.facts, "us_notice": False})
    assert kept.everything(catalogue) == before


@pytest.mark.parametrize(
    "facts, says",
    [
        ({"kind": "fresco"}, 'field kind is "fresco"; allowed are drawing, painting'),
        ({"us_renewd": True}, "field us_renewd is not a fact name of a work; did you mean us_renewed"),
        ({"created": "about 1928"}, "field created: The date 'about 1928' cannot be read"),
        ([], "Nothing is said of the work; give at least a title."),
        ({}, "Nothing is said of the work; give at least a title."),
    ],
)
def test_facts_that_cannot_be(catalogue, facts, says):
    before = kept.everything(catalogue)
    with pytest.raises(BadFacts, match=says):
        works.add(catalogue, facts)
    assert kept.everything(catalogue) == before


@pytest.mark.parametrize("columns", [{"based_on": "nowhere"}, {"originality": "plain"}, {"picture": "a" * 64}])
def test_columns_that_cannot_be(catalogue, columns):
    before = kept.everything(catalogue)
    with pytest.raises(RegistryError):
        works.add(catalogue, kept.GULL, **columns)
    works.add(catalogue, kept.GULL)
    with pytest.raises(RegistryError):
        works.change(catalogue, "w1", 1, facts=kept.CRAB, **columns)
    assert works.get(catalogue, "w1").title == "Gull on a Bollard"
    assert before["works"] == []


def test_traits_that_cannot_be(catalogue):
    for traits in (["hat", "hat"], [""]):
        with pytest.raises(RegistryError, match="^A trait has no name, or the same trait is given twice.$"):
            works.add(catalogue, kept.GULL, traits=traits)
    assert works.count(catalogue) == 0 and ledger.rows(catalogue) == []


def test_versions_upon_versions(catalogue):
    for key, origin in (("a", None), ("b", "a"), ("c", "b")):
        works.add(catalogue, kept.GULL, key=key, based_on=origin)
    assert [layer.key for layer in works.beneath(catalogue, works.get(catalogue, "c"))] == ["b", "a"]
    for origin in ("a", "b", "c"):
        with pytest.raises(RegistryError, match="^The work a cannot be based on"):
            works.change(catalogue, "a", 1, based_on=origin)


def test_failures_inside_a_change_leave_the_work_as_it_was(catalogue):
    works.add(catalogue, kept.GULL, traits=["hat"])
    catalogue.db.execute("CREATE TRIGGER stop BEFORE UPDATE ON works BEGIN SELECT raise(ABORT, 'stop'); END")
    before = kept.everything(catalogue)
    with pytest.raises(sqlite3.IntegrityError, match="stop"):
        works.change(catalogue, "w1", 1, facts=kept.CRAB, traits=["kettle"])
    assert kept.everything(catalogue) == before


@pytest.mark.parametrize("table", ["creators", "publications", "traits", "works_search_content", "ledger"])
def test_failures_inside_an_addition_leave_nothing(catalogue, table):
    if table == "works_search_content":
        catalogue.db.execute("DROP TABLE works_search")
    else:
        catalogue.db.execute(f"CREATE TRIGGER stop BEFORE INSERT ON {table} BEGIN SELECT raise(ABORT, 'stop'); END")
    before = kept.everything(catalogue)
    with pytest.raises((sqlite3.Error, RegistryError)), store.transaction(catalogue):
        file = files.add(catalogue, b"<svg/>", "gull.svg")
        works.add(catalogue, kept.GULL, traits=["hat"], picture=file.sha256)
    assert kept.everything(catalogue) == before
    assert kept.files_of(catalogue) == []


def test_a_work_that_is_not_there(catalogue):
    works.add(catalogue, kept.GULL, key="gull-1928")
    with pytest.raises(UnknownRecord, match="^There is no work 'gull-1929' in this catalogue; did you mean gull-1928.$"):
        works.get(catalogue, "gull-1929")
    with pytest.raises(UnknownRecord, match="^There is no work 'crab' in this catalogue.$"):
        works.get(catalogue, "crab")


def test_listed_in_order(catalogue):
    for number in range(5):
        works.add(catalogue, {"title": f"n{number}"})
    assert [record.title for record in works.listed(catalogue, 2, 1)] == ["n1", "n2"]
    assert works.count(catalogue) == len(works.listed(catalogue)) == 5


@pytest.mark.parametrize(
    "facts, same",
    [
        ({"died": "1950"}, {"creators": [{"died": "1950"}]}),
        ({"died": "1950", "creators": [{"name": "A"}, {"name": "B", "died": "1960"}]},
         {"creators": [{"died": "1950", "name": "A"}, {"name": "B", "died": "1960"}]}),
        ({"kind": None, "creators": [{"died": None}], "publications": [{"date": "1928", "country": None}]},
         {"creators": [{}], "publications": [{"date": "1928"}]}),
        ({"nationality": "GB", "title": "x"}, {"title": "x", "creators": [{"nationality": "GB"}]}),
    ],
)
def test_the_plain_form_means_the_same(facts, same):
    assert plain(facts, VOCABULARY) == same
    assert read_work(plain(facts, VOCABULARY), VOCABULARY) == read_work(facts, VOCABULARY)


def test_random_facts_come_out_as_they_went_in(catalogue):
    dice = random.Random(20)
    with store.transaction(catalogue):
        for number in range(300):
            facts = randoms.some_facts(dice, number)
            if number % 3 == 0:
                facts = {**facts, "domicile": "GB", "us_notice_year": None}
            record = works.add(catalogue, facts)
            assert works.facts_of(record) == read_work(facts, VOCABULARY)
            assert record.facts_sha256 == digest(record.facts)
    assert ledger.verify(catalogue).rows == 300


TWO = {"creators": [{"name": "A", "died": "1950"}, {"name": "B"}], "publications": [{"date": "1928"}], "us_renewed": True}


@pytest.mark.parametrize(
    "path, value, found",
    [
        ("us_renewed", False, {**TWO, "us_renewed": False}),
        ("us_renewed", None, {k: v for k, v in TWO.items() if k != "us_renewed"}),
        ("us_notice", None, TWO),
        ("creators.0.died", "1951", {**TWO, "creators": [{"name": "A", "died": "1951"}, {"name": "B"}]}),
        ("creators[1].died", "1951", {**TWO, "creators": [{"name": "A", "died": "1950"}, {"name": "B", "died": "1951"}]}),
        ("creators.2.name", "C", {**TWO, "creators": [*TWO["creators"], {"name": "C"}]}),
        ("creators.0.died", None, {**TWO, "creators": [{"name": "A"}, {"name": "B"}]}),
        ("creators.1", None, {**TWO, "creators": [{"name": "A", "died": "1950"}]}),
        ("country", "GB", {**TWO, "publications": [{"date": "1928", "country": "GB"}]}),
        ("publications.1.date", "1930", {**TWO, "publications": [{"date": "1928"}, {"date": "1930"}]}),
    ],
)
def test_a_single_fact_altered(path, value, found):
    before = json.dumps(TWO)
    assert altered(TWO, path, value, VOCABULARY) == found
    assert json.dumps(TWO) == before


def test_a_maker_that_is_not_there_yet():
    assert altered({}, "died", "1950", VOCABULARY) == {"creators": [{"died": "1950"}]}


@pytest.mark.parametrize(
    "path, value, says",
    [
        ("died", "1951", "^died is a fact of each creator and there are 2; name one, such as creators.0.died.$"),
        ("creators.3.died", "1951", "^creators.3.died: there are 2 creators, counted from 0; the next one is creators.2.$"),
        ("creators.2", None, "^creators.2: there is no creators.2 to take anything from.$"),
        ("creators.2.died", None, "there is no creators.2 to take anything from.$"),
        ("creators.0", "x", "^creators.0 is a whole entry; name the fact in it, such as creators.0.died.$"),
        ("titles.0.name", "x", "^titles.0.name is no path to a fact"),
        ("creators.x.died", "1951", "^creators.x.died is no path to a fact"),
        ("creators.-1.died", "1951", "^creators.-1.died is no path to a fact"),
        ("creators.0.died.x", "1951", "is no path to a fact"),
    ],
)
def test_paths_that_lead_nowhere(path, value, says):
    with pytest.raises(BadFacts, match=says):
        altered(TWO, path, value, VOCABULARY)


@pytest.mark.parametrize(
    "name, text, value",
    [
        ("us_notice", "yes", True), ("us_notice", "No", False), ("us_notice", "true", True), ("us_notice", "unknown", "unknown"),
        ("us_notice", "perhaps", "perhaps"), ("title", " 1928 ", "1928"), ("created", "192X", "192X"), ("us_notice_year", "1928", "1928"),
        ("government_of", "us", "US"), ("government_of", "unknown", "unknown"), ("nationality", "gb, fr", ["GB", "FR"]),
        ("nationality", "unknown", "unknown"), ("kind", "print", "print"),
    ],
)
def test_typed_values(name, text, value):
    assert value_of(VOCABULARY.facts[name], text) == value


def test_lists_are_not_typed_whole():
    with pytest.raises(BadFacts, match="^creators is a list; name a fact in it"):
        value_of(VOCABULARY.facts["creators"], "A")
