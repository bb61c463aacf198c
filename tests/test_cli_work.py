"""registry work add, change, show, list, find."""

import io
import json

import kept
import pytest
from registry.catalogue import files, ledger, store, works
from registry.cli import typed
from registry.rulebook import rulebook

GULL = ("--title", "Gull on a Bollard", "--kind", "drawing", "--authorship", "individual", "--created", "1928", "--published", "yes",
        "--creator", "Perpetua Quill;died=1950;nationality=US", "--publication", "1928-05-17:US", "--us-notice", "yes", "--us-renewed", "yes")


@pytest.fixture
def command(tmp_path, capsys):
    found = kept.Command(tmp_path / "shop", capsys)
    found("init")
    return found


def facts(command, key="w1"):
    return json.loads(command("work", "show", key, "--json")[1])["facts"]


def test_options_amount_to_the_facts_object(command):
    code, out, err = command("work", "add", *GULL)
    assert (code, err) == (0, "")
    assert out == "Recorded Gull on a Bollard as w1.\nNext: registry check w1 --in US,CA\n"
    assert facts(command) == {**kept.GULL, "id": "w1"}


def test_there_is_an_option_for_every_fact(command):
    vocabulary = rulebook().vocabulary
    text = command("work", "add", "--help")[1]
    for owner in ("work", "creator"):
        for name in set(vocabulary.of[owner]) - {"id", "name", "creators", "publications"}:
            assert f"  {typed.option(name)} " in text, name
    assert vocabulary.facts["us_notice"].question.split(":")[0] in " ".join(text.split())


VALUES = {"bool": ("no", False), "edtf": ("1928~", "1928~"), "year": ("1928", "1928"), "country": ("us", "US"), "countries": ("gb,fr", ["GB", "FR"]),
          "text": ("some words", "some words")}


@pytest.mark.parametrize("name", sorted(set(rulebook().vocabulary.of["work"]) - {"id", "creators", "publications"}))
def test_every_fact_of_a_work_goes_in_and_comes_out(command, name):
    fact = rulebook().vocabulary.facts[name]
    typed_value, value = (fact.choices[0],) * 2 if fact.choices else VALUES[fact.type]
    assert command("work", "add", typed.option(name), typed_value)[0] == 0
    assert facts(command) == {"id": "w1", name: value}


@pytest.mark.parametrize("name", sorted(set(rulebook().vocabulary.of["creator"]) - {"name"}))
def test_every_fact_of_a_maker_goes_in_both_ways(command, name):
    typed_value, value = VALUES[rulebook().vocabulary.facts[name].type]
    assert command("work", "add", typed.option(name), typed_value)[0] == 0
    assert command("work", "add", "--creator", f"A. Quill; {name.replace('_', '-')}={typed_value}")[0] == 0
    assert facts(command) == {"id": "w1", "creators": [{name: value}]}
    assert facts(command, "w2") == {"id": "w2", "creators": [{"name": "A. Quill", name: value}]}


@pytest.mark.parametrize(
    "text, entry",
    [
        ("1928-05-17:US", {"date": "1928-05-17", "country": "US"}),
        ("192X:gb", {"date": "192X", "country": "GB"}),
        ("1928", {"date": "1928"}),
        (":GB", {"country": "GB"}),
        ("1985-04-12T23:20:30:GB", {"date": "1985-04-12T23:20:30", "country": "GB"}),
        ("1985-04-12T23:20:30", {"date": "1985-04-12T23:20:30"}),
        ("1928:FR;by_owner=no", {"date": "1928", "country": "FR", "by_owner": False}),
        ("date=1928;country=fr", {"date": "1928", "country": "FR"}),
    ],
)
def test_publications(command, text, entry):
    assert command("work", "add", "--publication", text, "--publication", "1930:CA")[0] == 0
    assert facts(command)["publications"] == [entry, {"date": "1930", "country": "CA"}]


def test_a_file_of_facts_and_options_on_top(command, tmp_path, monkeypatch):
    path = tmp_path / "facts.json"
    path.write_text(json.dumps({**kept.GULL, "id": "gull"}), encoding="utf-8")
    assert command("work", "add", "--facts", str(path), "--us-renewed", "no", "--creator", "B")[0] == 0
    found = facts(command, "gull")
    assert found["us_renewed"] is False and found["creators"] == [*kept.GULL["creators"], {"name": "B"}]
    monkeypatch.setattr("sys.stdin", io.StringIO('{"title": "from a pipe"}'))
    assert command("work", "add", "--facts", "-")[1].startswith("Recorded from a pipe as w2.")


@pytest.mark.parametrize(
    "content, says",
    [
        (None, "cannot be read: No such file or directory."),
        (b"{", ": this is no JSON (Expecting property name enclosed in double quotes at line 1, column 2); one object of facts is needed."),
        (b'{"title": "A", "creators": [{"name": "B", "name": "C"}]}', ": field name is given twice in one object; give it once."),
        (b'{"title": NaN}', ": NaN is no JSON; a value is a text, true, false, a number, a list or an object."),
        (b'{"created": ' + b"9" * 5000 + b"}", ": a number has too many digits to be read."),
        (b"[" * 100000, ": lists and objects lie in each other too deep; one object of facts is needed."),
        (b'{"title": "\\ud800"}', ": a text holds half of a pair of surrogates (\\ud800 to \\udfff), which no letter is."),
        (b"[1]", "holds no JSON object; one object of facts is needed."),
        (b"\xff", "is not text in UTF-8."),
        (b'{"titel": "x"}', "field titel is not a fact name of a work; did you mean title."),
        (b'{"creators": 5}', "field creators is 5; a list of objects is needed."),
    ],
)
def test_a_file_of_facts_that_cannot_be_used(command, tmp_path, content, says):
    if content is not None:
        (tmp_path / "facts.json").write_bytes(content)
    assert command.refused("work", "add", "--facts", str(tmp_path / "facts.json")).endswith(says)
    assert command.refused("work", "add", "--facts", str(tmp_path / "facts.json"), "--creator", "A").endswith(says)


@pytest.mark.parametrize(
    "words, says",
    [
        (("--kind", "fresco"), 'field kind is "fresco"; allowed are drawing, painting'),
        (("--created", "about 1928"), "field created: The date 'about 1928' cannot be read because it is not written as an EDTF date; write 1928~ (about 1928)."),
        (("--us-notice", "maybe"), 'field us_notice is "maybe"; allowed are true, false and "unknown".'),
        (("--publication", "1928:USA"), "field publications[0].date: The date '1928:USA' cannot be read"),
        (("--publication", "1928;place=GB"), "--publication 1928;place=GB: 'place=GB' is not understood; allowed are by_owner, country, date"),
        (("--creator", "A;dead"), "--creator A;dead: 'dead' is not understood; allowed are"),
        (("--creator", "A;died=soon"), "field creators[0].died: The date 'soon' cannot be read"),
        (("--nationality", "England"), 'field nationality is "ENGLAND"; allowed are two capital letters'),
        (("--title", "x", "--based-on", "w9"), "There is no work 'w9' in this catalogue."),
        (("--title", "x", "--picture", "/nowhere.png"), "The file /nowhere.png cannot be read: No such file or directory."),
        (("--title", "x", "--key", "a b"), "'a b' cannot be the key of a work"),
        (("--title", "x", "--trait", "hat", "--trait", "hat"), "A trait has no name, or the same trait is given twice."),
        ((), "Nothing is said of the work; give at least a title."),
        (("--title", " "), "Nothing is said of the work; give at least a title."),
    ],
)
def test_refusals_leave_nothing(command, words, says):
    before = kept.everything(store.open_catalogue(command.folder))
    assert command.refused("work", "add", *words).startswith(says)
    catalogue = store.open_catalogue(command.folder)
    assert kept.everything(catalogue) == before and kept.files_of(catalogue) == []


def test_a_picture_of_a_refused_work_is_not_kept(command, tmp_path):
    (tmp_path / "gull.svg").write_text("<svg/>")
    assert command.refused("work", "add", "--picture", str(tmp_path / "gull.svg"), "--kind", "fresco")
    assert kept.files_of(store.open_catalogue(command.folder)) == []


def test_everything_beside_the_facts(command, tmp_path):
    (tmp_path / "gull.svg").write_text("<svg/>")
    command("work", "add", *GULL, "--key", "gull")
    code, out, _ = command("work", "add", "--title", "Tinted", "--based-on", "gull", "--originality", "new_expression", "--trait", "hat=tall and grey",
                           "--trait", "scarf", "--picture", str(tmp_path / "gull.svg"), "--terms", "bought", "--notes", "box 2", "--json")
    found = json.loads(out)
    assert code == 0
    assert (found["based_on"], found["originality"], found["access_terms"], found["notes"]) == ("gull", "new_expression", "bought", "box 2")
    assert found["traits"] == [{"name": "hat", "note": "tall and grey"}, {"name": "scarf", "note": ""}]
    assert files.read(store.open_catalogue(command.folder), found["picture"]) == b"<svg/>"
    text = command("work", "show", "w2")[1]
    for line in ("based on  gull (adds something of its own)", "traits    hat (tall and grey); scarf", "terms     bought", "notes     box 2"):
        assert line in text


def test_single_facts_are_changed(command):
    command("work", "add", *GULL)
    code, out, err = command("work", "change", "w1", "--set", "us_renewed=no", "--set", "creators.0.died=1951", "--set", "died=1952", "--unset", "us_notice",
                             "--set", "publications.1.date=1930", "--set", "publications.1.country=gb", "--set", "created=1927~")
    assert (code, out, err) == (0, "Changed w1; it is now in version 2.\n", "")
    wanted = {**kept.GULL, "id": "w1", "us_renewed": False, "created": "1927~", "creators": [{**kept.GULL["creators"][0], "died": "1952"}],
              "publications": [*kept.GULL["publications"], {"date": "1930", "country": "GB"}]}
    del wanted["us_notice"]
    assert facts(command) == wanted
    catalogue = store.open_catalogue(command.folder)
    before, after = (row.body for row in ledger.rows(catalogue, "facts", "w1"))
    assert after["before"] == before["after"] and after["facts"] == wanted


def test_changes_of_nothing_and_of_the_wrong_version(command):
    command("work", "add", *GULL)
    assert command("work", "change", "w1", "--set", "us_renewed=yes")[1] == "Nothing in w1 had to be changed.\n"
    assert command("work", "change", "w1", "--version", "1", "--notes", "n")[0] == 0
    assert command.refused("work", "change", "w1", "--version", "1", "--notes", "m").startswith("The work w1 was changed since it was read")


def test_a_change_of_nothing_that_was_asked_for_is_refused(command):
    command("work", "add", *GULL)
    says = "Say what to change, such as --set us_renewed=no; 'registry work change --help' lists all."
    assert command.refused("work", "change", "w1") == command.refused("work", "change", "w1", "--version", "1") == says
    assert command.refused("work", "change", "w1", "--unset", "foo") == "--unset foo: there is no fact 'foo'; 'registry work show w1' lists those on record."
    assert command.refused("work", "change", "w1", "--unset", "creators.0.foo").startswith("--unset creators.0.foo: there is no fact 'foo'")
    assert command("work", "change", "w1", "--unset", "us_renewed", "--unset", "creators[0]")[0] == 0
    assert command("work", "change", "w1", "--unset", "us_renewed")[1] == "Nothing in w1 had to be changed.\n"


def test_what_a_work_stands_on_and_its_picture_are_taken_away_by_an_empty_value(command, tmp_path):
    (tmp_path / "gull.svg").write_text("<svg/>")
    command("work", "add", *GULL)
    command("work", "add", "--title", "tinted", "--based-on", "w1", "--picture", str(tmp_path / "gull.svg"))
    found = works.get(store.open_catalogue(command.folder), "w2")
    assert found.based_on == "w1" and found.picture
    assert command("work", "change", "w2", "--based-on", "", "--picture", "")[1] == "Changed w2; it is now in version 2.\n"
    found = works.get(store.open_catalogue(command.folder), "w2")
    assert found.based_on is None and found.picture is None


@pytest.mark.parametrize("words", [("find", "--limit", "0", "heron"), ("list", "--limit", "0"), ("list", "--limit", "-3"), ("list", "--limit", "99999999999999999999"), ("list", "--limit", "two")])
def test_a_number_of_works_that_cannot_be(command, words):
    assert command.refused("work", *words) == f"--limit {words[2]}: a whole number from 1 to 1000000000 is allowed."
    assert command.refused("work", "list", "--from", "99999999999999999999").startswith("--from 9")
    assert command("work", "list", "--from", "0", "--limit", "1")[0] == 0


def test_permissions_and_evidence_are_shown_as_their_lists_show_them(command):
    command("work", "add", *GULL)
    command("permission", "add", "w1", "--spdx", "CC-BY-4.0", "--licensor", "A. Quill", "--credit-line", "A. Quill")
    command("evidence", "add", "w1", "--for", "us_renewed", "--title", "the register")
    text = " ".join(command("work", "show", "w1")[1].split())
    assert "p1 licence A. Quill; CC-BY-4.0; credit: A. Quill" in text and "p1 w1 licence A. Quill; CC-BY-4.0; credit: A. Quill" in " ".join(command("permission", "list", "w1")[1].split())
    assert "e1 Renewed (US) [us_renewed] seen in a document; the register" in text
    found = json.loads(command("work", "show", "w1", "--json")[1])
    listed = json.loads(command("permission", "list", "w1", "--json")[1])
    assert [one["id"] for one in found["permissions"]] == ["p1"] == [one["id"] for one in listed] and [one["id"] for one in found["evidence"]] == ["e1"]
    assert json.loads(command("check", "w1", "--in", "US", "--json")[1])[0]["decisive"] and [one["evidence"] for one in json.loads(command("check", "w1", "--in", "US", "--json")[1])[0]["decisive"] if one["fact"] == "us_renewed"] in ([], [["e1"]])


def test_traits_are_added_and_taken_away(command):
    command("work", "add", "--title", "x", "--trait", "hat=old", "--trait", "scarf")
    command("work", "change", "w1", "--trait", "hat=new", "--trait", "boots", "--no-trait", "scarf")
    assert works.get(store.open_catalogue(command.folder), "w1").traits == (("hat", "new"), ("boots", ""))
    assert command.refused("work", "change", "w1", "--no-trait", "scarf") == "'scarf' is no trait of w1; on record are hat, boots."


def test_facts_are_replaced_whole(command, tmp_path):
    command("work", "add", *GULL)
    (tmp_path / "facts.json").write_text('{"title": "Other", "id": "theirs"}')
    assert command("work", "change", "w1", "--facts", str(tmp_path / "facts.json"))[0] == 0
    assert facts(command) == {"id": "w1", "title": "Other"}


@pytest.mark.parametrize(
    "words, says",
    [
        (("--set", "us_renewed"), "--set us_renewed: a fact, = and its value are needed, such as us_renewed=no."),
        (("--set", "us_renewd=no"), "field us_renewd is not a fact name of a work; did you mean us_renewed."),
        (("--set", "kind=fresco"), 'field kind is "fresco"; allowed are'),
        (("--set", "creators.0.dead=1950"), "field creators[0].dead is not a fact name of a creator; did you mean"),
        (("--set", "creators=A"), "creators is a list; name a fact in it"),
        (("--set", f"creators.{'9' * 5000}.died=1950"), "creators.9"), (("--set", "creators.²=A"), "creators.² is no path to a fact"),
        (("--set", "creators.4.died=1950"), "creators.4.died: there are 1 creators, counted from 0; the next one is creators.1."),
    ],
)
def test_changes_that_are_refused(command, words, says):
    command("work", "add", *GULL)
    assert command.refused("work", "change", "w1", *words).startswith(says)
    assert facts(command) == {**kept.GULL, "id": "w1"}


def test_a_work_is_shown(command):
    command("work", "add", *GULL, "--us-renewed-on", "1955", "--notes", "a long note " * 20)
    text = command("work", "show", "w1")[1]
    assert text.startswith("Gull on a Bollard  [w1]\n")
    for line in ("maker      Perpetua Quill, died 1950, nationality US", "published  1928-05-17, US", "us_notice      yes", "us_renewed_on  1955"):
        assert line in text
    assert max(map(len, text.splitlines())) <= 80


def test_works_are_listed_and_found(command):
    assert command("work", "list")[1] == "0 works.\n"
    command("work", "add", *GULL)
    command("work", "add", "--title", "Crab", "--notes", "like the gull")
    assert command("work", "list")[1] == ("w1  Gull on a Bollard (drawing, Perpetua Quill, 1928-05-17)\nw2  Crab (nothing is known of it)\n2 works.\n")
    assert command("work", "list", "--limit", "1", "--from", "1")[1].endswith("1 of 2 works.\n")
    assert [one["key"] for one in json.loads(command("work", "list", "--json")[1])] == ["w1", "w2"]
    assert command("work", "find", "GULL", "perp")[1].endswith("1 found.\n")
    assert [one["key"] for one in json.loads(command("work", "find", "gull", "--json")[1])] == ["w1", "w2"]
    assert command("work", "find", "tern") == (0, "No work holds all of these words.\n", "")
