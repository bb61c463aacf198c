"""Works from a table (CSV): every cell read by the one validator, every bad cell named by line and column.

Columns are names of facts, of a work beside its facts (key, based_on, originality, own, traits, access_terms, notes),
and of makers and publications by number: creator1.name, creator1.died, publication2.date. A fact of the only maker or
publication may stand without its owner (died, date, country). It needs no catalogue; `known` keys are told to it.
"""

import csv
import io
import re
from dataclasses import dataclass, field

from registry.errors import RegistryError
from registry.exchange.countries import code_of
from registry.exchange.fact_lines import BESIDE, ORIGINALITY, repeated
from registry.exchange.parted import parts, plain
from registry.facts.work import read_work
from registry.rulebook import place_names

MOST = 20000      # rows
LARGEST = 8 * 2**20
OWNERS = {"creator": "creators", "publication": "publications"}
LOOSE = {"maker": "creator1.name", "artist": "creator1.name", "name": "creator1.name"}
_NUMBERED = re.compile(r"(creator|publication)s?[._ ]?([0-9]{0,2})[._ ](\w+)\Z")  # up to 99 of each, as in a form
PRINTS = {"etching", "engraving", "woodcut", "wood engraving", "linocut", "lithograph", "aquatint", "mezzotint", "screen print", "poster"}
YES_NO = {"yes": True, "true": True, "y": True, "no": False, "false": False, "n": False}


@dataclass(frozen=True, slots=True)
class Cell:
    """What is wrong with one cell: its line in the file (the header is 1), its column, what was typed, one sentence."""

    line: int
    column: str
    typed: str
    says: str


@dataclass(frozen=True, slots=True)
class Row:
    """One work as it would be added: its line, facts, what stands beside the facts, and the Cells that cannot be."""

    line: int
    facts: dict
    beside: dict = field(default_factory=dict)
    wrong: tuple = ()


@dataclass(frozen=True, slots=True)
class Table:
    """A table as read: columns as typed and what each is taken for ("" when it is not understood), and its Rows.

    `lost` names the columns that are not understood and in which something stands; one without a name goes by number.
    """

    columns: tuple
    rows: tuple
    lost: tuple = ()

    @property
    def wrong(self):
        """All Cells that cannot be, by line."""
        return tuple(cell for row in self.rows for cell in row.wrong)


def read_table(content, vocabulary, known=()):
    """The Table in the bytes of a CSV file; RegistryError when it cannot be read as one at all.

    `known` are keys that are taken already. Countries may be written as codes or as names.
    """
    lines = _lines(text_of(content))
    header = [" ".join(name.split()) for name in lines[0][1]]
    meant = [meaning(name, vocabulary) for name in header]
    _check_header(header, meant)
    rows, taken = [], set(known)
    for number, cells in lines[1:]:
        if any(cell.strip() for cell in cells):
            rows.append(_row(number, cells, header, meant, vocabulary, taken))
    if not rows:
        raise RegistryError("The table has a header and no rows beneath it.")
    return Table(tuple(zip(header, meant)), based(rows, known), tuple(_lost(header, meant, lines[1:])))


def _lost(header, meant, lines):
    for number, (name, path) in enumerate(zip(header, meant)):
        if not path and any(cells[number].strip() for _line, cells in lines if len(cells) > number):
            yield name or f"column {number + 1}"


def text_of(content, most=LARGEST):
    """The text in the bytes of a table: UTF-8 with or without a byte order mark, since a guess would garble names."""
    if len(content) > most:
        raise RegistryError(f"The table has {len(content):,} bytes; at most {most:,} are allowed.")
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError:
        text = "\0"
    if "\0" in text:
        raise RegistryError("The file is not text in UTF-8; save the table as CSV (UTF-8) and choose that file.")
    return text


def _lines(text):
    """(line number, cells) of every row; comma, semicolon or tab separates them."""
    first = text.partition("\n")[0]
    sign = max(",;\t", key=first.count)
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=sign, strict=True)
    found, start = [], 1
    try:
        for cells in reader:
            found.append((start, cells))
            start = reader.line_num + 1
            if len(found) > MOST + 1:
                raise RegistryError(f"The table has more than {MOST:,} rows; cut it into several.")
    except csv.Error as error:
        raise RegistryError(f"Line {start} of the table cannot be read: {error}.") from None
    if not found or not any(cell.strip() for cell in found[0][1]):
        raise RegistryError("The table is empty; its first line must name the columns.")
    return found


# --- columns ------------------------------------------------------------------------------------------

def meaning(name, vocabulary):
    """What a column is: the path of a fact such as us_renewed or creators.0.died, a name of BESIDE, or "" for neither."""
    if any(sign.isdigit() and not sign.isascii() for sign in name):  # creator² is not the first one
        return ""
    plain = re.sub(r"[^a-z0-9]+", "_", name.strip().casefold()).strip("_")
    if plain in BESIDE:
        return plain
    dotted = LOOSE.get(plain, re.sub(r"\s+", "_", name.strip().casefold()))
    found = _NUMBERED.match(dotted) or _NUMBERED.match(plain)
    if found and found[3] in vocabulary.of[found[1]]:
        return f"{OWNERS[found[1]]}.{int(found[2] or 1) - 1}.{found[3]}" if not found[2] or int(found[2]) else ""
    if plain in vocabulary.of["work"] and plain not in ("id", "creators", "publications"):
        return plain
    return next((f"{OWNERS[owner]}.0.{plain}" for owner in OWNERS if plain in vocabulary.of[owner]), "")


def _check_header(header, meant):
    if not any(meant):
        raise RegistryError("No column of the table is understood; the first line must name them, such as title, kind,"
                            " creator1.name, creator1.died, publication1.date, publication1.country.")
    seen = {}
    for name, path in zip(header, meant):
        if path and path in seen:
            raise RegistryError(f"The columns “{seen[path]}” and “{name}” are the same; leave one out.")
        seen[path] = name


# --- rows ---------------------------------------------------------------------------------------------

def _row(number, cells, header, meant, vocabulary, taken):
    flat, beside, wrong = {}, {}, []
    if len(cells) > len(header) and any(cell.strip() for cell in cells[len(header):]):
        wrong.append(Cell(number, "", cells[len(header)], "There are more cells in this line than columns in the header."))
    for name, path, cell in zip(header, meant, cells):
        text = cell.strip()
        if text and path:
            try:
                (beside if path in BESIDE else flat)[path] = _beside(path, text, taken) if path in BESIDE else _fact(path, text, vocabulary)
            except RegistryError as error:
                wrong.append(Cell(number, name, text, str(error)))
    facts = _nested(flat)
    if not wrong and not (facts or beside):
        wrong.append(Cell(number, "", "", "Nothing is said of this work."))
    if beside.get("key"):
        taken.add(beside["key"])
    return Row(number, facts, beside, tuple(wrong or _together(number, facts, vocabulary)))


def _together(number, facts, vocabulary):
    try:
        read_work(facts, vocabulary)
    except RegistryError as error:
        return [Cell(number, "", "", str(error))]
    return []


def _fact(path, text, vocabulary):
    name = path.rpartition(".")[2]
    fact, value = vocabulary.facts[name], text
    if fact.type == "bool":
        value = YES_NO.get(text.casefold(), text)
    elif fact.type == "country":
        value = _code(text)
    elif fact.type == "countries" and text.casefold() != "unknown":
        value = [_code(one) for one in re.split(r"[,;/]", text) if one.strip()]
    elif fact.type == "choice":
        value = text.casefold().replace(" ", "_")
    _check_word(name, fact.type, text, value)
    _valid(path, name, value, vocabulary)
    return value


def _check_word(name, kind, text, value):
    """Nothing; RegistryError for a word that stands in tables often, with what to write instead."""
    if kind == "bool" and value is text and text.casefold() != "unknown":
        more = "; a date of publication goes into the column publication1.date" if name == "published" else ""
        raise RegistryError(f"“{text}” cannot stand here; allowed are yes, no and unknown{more}.")
    if name == "kind" and text.casefold().replace("_", " ").rstrip("s") in PRINTS:
        raise RegistryError(f"“{text}” is a print here: write print, and keep the technique in the column notes.")


def _valid(path, name, value, vocabulary):
    owner = path.partition(".")[0]
    try:
        read_work({owner: [{name: value}]} if owner in OWNERS.values() else {path: value}, vocabulary)
    except RegistryError as error:
        raise RegistryError(told(error)) from None


def told(error):
    """The sentence of the validator without the name of the field, since it stands beside the cell or field."""
    sentence = re.sub(r"^field \S+(?: is|:) ", "", str(error))
    return re.sub(r'^"(.*?)"; ', r"“\1” cannot stand here; ", sentence)


def _code(text):
    """The code of a country by code or name; RegistryError when there is none, "unknown" as it is."""
    if text.strip().casefold() == "unknown":
        return "unknown"
    code = code_of(text)
    if code not in place_names():
        raise RegistryError(f"“{text.strip()}” is no country on record; write its name or its two-letter code, such as GB.")
    return code


def _beside(path, text, taken):
    if path == "own":
        if text.casefold() not in YES_NO:
            raise RegistryError("Allowed are yes and no.")
        return YES_NO[text.casefold()]
    if path == "originality":
        word = text.casefold().replace(" ", "_")
        if word not in ORIGINALITY:
            raise RegistryError(f"Allowed are {', '.join(ORIGINALITY)}.")
        return word
    if path == "key":
        return _key(text, taken)
    return _traits(text) if path == "traits" else text


def _traits(text):
    names = [one for part in parts(text, ";") if (one := plain(part))]
    if repeated(names):
        raise RegistryError(f"The trait “{repeated(names)}” stands here twice; name each once.")
    return names


def _key(text, taken):
    if not re.fullmatch(r"[A-Za-z0-9][A-Za-z0-9._-]{0,79}", text):
        raise RegistryError("A key has up to 80 letters, digits, points, hyphens and underscores, beginning with a letter or digit.")
    if text in taken:
        raise RegistryError("There is a work with this key already.")
    return text


_NOWHERE = "There is no work with this key, neither in the catalogue nor further up in the table."


def based(rows, known):
    """The Rows with those marked wrong that are based on a work neither kept nor in the table above them as one that can be."""
    found, keys, bad = [], set(known), set()
    for row in rows:
        base = row.beside.get("based_on")
        if base and base not in keys:
            says = "The work with this key stands further up, in a line that cannot be used." if base in bad else _NOWHERE
            cell = Cell(row.line, "based_on", base, says)
            row = Row(row.line, row.facts, row.beside, (*row.wrong, cell))
        (bad if row.wrong else keys).add(row.beside.get("key"))
        found.append(row)
    return tuple(found)


def _nested(flat):
    facts, lists = {}, {}
    for path, value in flat.items():
        owner, _, rest = path.partition(".")
        if rest:
            number, _, name = rest.partition(".")
            lists.setdefault(owner, {}).setdefault(int(number), {})[name] = value
        else:
            facts[path] = value
    return facts | {owner: [entries[number] for number in sorted(entries)] for owner, entries in lists.items()}
