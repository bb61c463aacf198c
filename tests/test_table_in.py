"""Works from a table: columns by many names, each bad cell named, nothing guessed."""

import pytest
from registry.errors import RegistryError
from registry.exchange import table_in
from registry.rulebook import rulebook

GOOD = "title,kind,creator1.name,creator1.died,creator1.nationality,publication1.date,publication1.country,us_renewed,own,traits,notes\n"


def table(text, known=()):
    return table_in.read_table(text.encode() if isinstance(text, str) else text, rulebook().vocabulary, known)


def test_a_row_becomes_a_work():
    found = table(GOOD + "Heron at Dawn,print,Ann Example,1934,GB; IE,1911~,United Kingdom,no,no,red hat; tall reeds,box 3\n")
    row = found.rows[0]
    assert row.line == 2 and row.wrong == ()
    assert row.facts == {"title": "Heron at Dawn", "kind": "print", "us_renewed": False, "creators": [{"name": "Ann Example", "died": "1934", "nationality": ["GB", "IE"]}],
                         "publications": [{"date": "1911~", "country": "GB"}]}
    assert row.beside == {"own": False, "traits": ["red hat", "tall reeds"], "notes": "box 3"}


@pytest.mark.parametrize("word, code", [("English", "GB"), ("french", "FR"), ("American", "US"), ("Dutch", "NL"), ("New Zealander", "NZ")])
def test_words_for_a_nationality_are_understood(word, code):
    assert table(f"title,creator1.nationality\nHeron,{word}\n").rows[0].facts["creators"] == [{"nationality": [code]}]


@pytest.mark.parametrize("word", ["Korean", "Congolese", "Yugoslav", "Prussian", "Flemish"])
def test_words_that_may_mean_several_places_are_not(word):
    assert table(f"title,creator1.nationality\nHeron,{word}\n").wrong[0].column == "creator1.nationality"


@pytest.mark.parametrize("name, path", [
    ("Title", "title"), ("creator1.name", "creators.0.name"), ("Creator 2 died", "creators.1.died"), ("creator_2_died", "creators.1.died"), ("died", "creators.0.died"),
    ("Artist", "creators.0.name"), ("publication1.date", "publications.0.date"), ("date", "publications.0.date"), ("Country", "publications.0.country"),
    ("US renewed", "us_renewed"), ("us_renewed", "us_renewed"), ("based on", "based_on"), ("Notes", "notes"), ("creators", ""), ("id", ""), ("colour", ""), ("creator0.name", ""),
    ("creator1.colour", ""), ("", ""),
])
def test_what_a_column_means(name, path):
    assert table_in.meaning(name, rulebook().vocabulary) == path


@pytest.mark.parametrize("sign", [",", ";", "\t"])
def test_signs_between_cells(sign):
    assert table(f"title{sign}kind\nHeron{sign}print\n").rows[0].facts == {"title": "Heron", "kind": "print"}


@pytest.mark.parametrize("content", ["\ufefftitle\nMövén\n".encode(), b"title\r\nM\xc3\xb6v\xc3\xa9n\r\n"])
def test_writings_of_letters(content):
    assert table(content).rows[0].facts == {"title": "Mövén"}


@pytest.mark.parametrize("code", ["cp1252", "latin-1", "utf-16"])
def test_another_encoding_is_refused_and_not_guessed(code):
    with pytest.raises(RegistryError, match="not text in UTF-8; save the table as CSV"):
        table("title\nMövén\n".encode(code))


def test_columns_that_would_be_lost_are_named():
    found = table("title,colour,,size,\nHeron,red,,,x\n")
    assert found.lost == ("colour", "column 5")  # in the others nothing stands
    assert table("title,colour\nHeron,\n").lost == ()


BAD = [  # header, row, column, part of the sentence
    ("title,kind", "Heron,pint", "kind", "“pint” cannot stand here; allowed are drawing"),
    ("title,died", "Heron,19344", "died", "years have four digits"),
    ("title,date", "Heron,c. 1911", "date", "write 1911~"),
    ("title,country", "Heron,Narnia", "country", "“Narnia” is no country on record"),
    ("title,nationality", "Heron,GB; XX", "nationality", "“XX” is no country on record"),
    ("title,us_renewed", "Heron,perhaps", "us_renewed", "“perhaps” cannot stand here; allowed are yes, no and unknown."),
    ("title,Published", "Heron,about 1911", "Published", "a date of publication goes into the column publication1.date"),
    ("title,kind", "Heron,etching", "kind", "“etching” is a print here: write print"),
    ("title,kind", "Heron,Woodcuts", "kind", "“Woodcuts” is a print here: write print"),
    ("title,own", "Heron,perhaps", "own", "Allowed are yes and no"),
    ("title,originality", "Heron,new", "originality", "Allowed are faithful_copy"),
    ("title,key", "Heron,no good", "key", "A key has up to 80 letters"),
    ("title,key", "Heron,taken", "key", "There is a work with this key already"),
    ("title,based_on", "Heron,nowhere", "based_on", "neither in the catalogue nor further up"),
    ("title", "Heron,more", "", "more cells in this line than columns"),
]


@pytest.mark.parametrize("header, row, column, says", BAD)
def test_a_bad_cell_is_named(header, row, column, says):
    found = table(f"title,{header}\nGood,{',' * header.count(',')}\n".replace("title,title", "title") + row + "\n", known=["taken"])
    cells = found.wrong
    assert [(cell.line, cell.column) for cell in cells] == [(3, column)]
    assert says in cells[0].says


def test_every_bad_cell_is_named_not_only_the_first():
    found = table("title,kind,died,country\nHeron,pint,19344,Narnia\n")
    assert [cell.column for cell in found.wrong] == ["kind", "died", "country"]


def test_line_numbers_are_those_of_the_file():
    found = table('title,kind\n"Two\nlines",print\n\nCrab,pint\n')
    assert [row.line for row in found.rows] == [2, 5]
    assert found.wrong[0].line == 5


def test_a_row_may_rest_on_one_further_up_or_on_a_kept_work():
    found = table("key,title,based_on\nbase,Heron,\ntint,Tinted heron,base\ntrace,Traced heron,kept\n", known=["kept"])
    assert found.wrong == ()
    twice = table("key,title\nsame,Heron\nsame,Crab\n")
    assert [(cell.line, cell.column) for cell in twice.wrong] == [(3, "key")]


def test_columns_that_are_not_understood_are_told():
    assert table("title,colour\nHeron,red\n").columns == (("title", "title"), ("colour", ""))


def test_two_makers():
    facts = table("title,creator1.name,creator2.name,creator2.died\nHeron,Ann,,1934\n").rows[0].facts
    assert facts["creators"] == [{"name": "Ann"}, {"died": "1934"}]


@pytest.mark.parametrize("content, sentence", [
    (b"", "empty"), (b"\n\n", "empty"), (b"title\n", "no rows"), (b"colour,size\nred,2\n", "No column"), (b"title,Title\nA,B\n", "are the same"),
    (b"\x00\x01\x02", "not text"), (b'title\n"open\n', "cannot be read"), (b"title\n" + b"a" * (table_in.LARGEST + 1), "bytes"),
])
def test_what_is_no_table(content, sentence):
    with pytest.raises(RegistryError, match=sentence):
        table(content)


def test_a_table_has_an_end(monkeypatch):
    monkeypatch.setattr(table_in, "MOST", 3)
    with pytest.raises(RegistryError, match="more than 3 rows"):
        table("title\n" + "A\n" * 4)
