"""Facts as fields of a form, and typed fields as facts: the same validator as every other way in, field by field."""

import re
from dataclasses import dataclass

from registry.errors import BadFacts, RegistryError
from registry.exchange.countries import code_of
from registry.exchange.table_in import told
from registry.facts.work import UNKNOWN, read_work
from registry.rulebook import place_names, rulebook
from registry.web import dates, merge, said

LISTS = {"creators": "creator", "publications": "publication"}
FIRST = {  # the facts asked at once; all others stand behind a fold
    "work": ("title", "kind", "authorship", "created", "published"),
    "creator": ("name", "role", "born", "died", "alive", "nationality"),
    "publication": ("date", "country", "by_owner"),
}
HIDDEN = ("id", "creators", "publications")
MOST = 99  # makers, and publications, of one work that a form can bring
_ENTRY = re.compile(r"(creators|publications)\.([0-9]+)\.")
_PART = re.compile(r"\.(how|one|two)$")
BOOLS = (("", "not looked for yet"), ("yes", "yes"), ("no", "no"), (UNKNOWN, "looked for, not found"))


@dataclass(frozen=True, slots=True)
class Field:
    """One field: `path` names it, `values` are the texts of its inputs, `reading` a date in plain words."""

    path: str
    type: str
    label: str
    question: str
    where: str
    choices: tuple
    values: tuple
    error: str = ""
    reading: str = ""


def field(path, value=None, form=None, errors=None):
    """The Field of a fact with the value on record, or as it was typed in a Form that could not be kept."""
    fact = fact_of(path)
    kind = "date" if fact.type in ("edtf", "year") else fact.type
    values = _typed(path, kind, form) if form is not None else _shown(kind, value)
    return Field(path, kind, said.label(fact.name), fact.question, fact.where, _choices(fact), values,
                 (errors or {}).get(path, ""), _reading(kind, values))


def fact_of(path):
    """The fact that a path such as creators.0.died is about."""
    return rulebook().vocabulary.facts[path.rpartition(".")[2] if path not in rulebook().vocabulary.facts else path]


def _choices(fact):
    if fact.type == "bool":
        return BOOLS
    return (("", "not recorded"), *((one, one.replace("_", " ")) for one in fact.choices)) if fact.type == "choice" else ()


def _shown(kind, value):
    if kind == "date":
        return dates.choice(value)
    if kind == "bool":
        return ({True: "yes", False: "no", None: ""}.get(value, value),)
    return (", ".join(value) if isinstance(value, list) else "" if value is None else str(value),)


def _typed(path, kind, form):
    if kind == "date":
        return tuple(form.get(f"{path}.{part}") for part in ("how", "one", "two"))
    return (form.get(path),)


def _reading(kind, values):
    if kind != "date" or not any(values):
        return ""
    try:
        text = dates.written(*values)
        words = dates.reading(text)
        return f"{text}: {words}" if text and words != text else ""
    except RegistryError:
        return ""


# --- from a form --------------------------------------------------------------------------------------

def value(path, form):
    """The JSON value typed for a path, None when nothing is; BadFacts or BadDate when it cannot be."""
    fact, name = fact_of(path), path.rpartition(".")[2]
    if fact.type in ("edtf", "year"):
        found = dates.written(*_typed(path, "date", form), recorded=_recorded(path, form))
    else:
        found = _plain(fact, form.get(path))
    if found is not None:
        _check(path, name, found)
    return found


def _recorded(path, form):
    """True when the form showed a date on record: left without a choice, it would lose how it was meant."""
    return not form.get(f"{path}.how") and bool(form.get(f"{path}.one")) and path in merge.unpacked(form.get("base"))


def _plain(fact, text):
    if not text:
        return None
    if fact.type == "bool":
        return {"yes": True, "no": False}.get(text, text)
    if fact.type == "country":
        return code(text)
    if fact.type == "countries":
        return UNKNOWN if text == UNKNOWN else [code(one) for one in re.split(r"[,;]", text) if one.strip()]
    return text


def code(text):
    """The code of a place written as code or name; what is neither stays for the validator to refuse."""
    return UNKNOWN if text.strip().lower() in (UNKNOWN, "looked for, not found") else code_of(text)


def _check(path, name, found):
    owner = LISTS.get(path.partition(".")[0])
    facts = {path.partition(".")[0]: [{name: found}]} if owner else {path: found}
    if fact_of(name).type in ("country", "countries"):
        _check_place(found)
    try:
        read_work(facts, rulebook().vocabulary)
    except BadFacts as error:
        raise BadFacts(told(error)) from None


def _check_place(found):
    for one in found if isinstance(found, list) else [found]:
        if one != UNKNOWN and one not in place_names():
            raise BadFacts(f"“{one}” is no country on record; type its name or its two-letter code, such as GB.")


def paths(form, facts=None):
    """All paths of facts that a form brings, in the order of the vocabulary; RegistryError for more entries than a form has."""
    vocabulary, sent = rulebook().vocabulary, {_PART.sub("", name) for name in form.texts}
    found = [name for name in vocabulary.of["work"] if name in sent and name not in HIDDEN]
    for entries, owner in LISTS.items():
        numbers = sorted(typed_entries(form, entries))
        known = (f"{entries}.{number}.{name}" for number in numbers for name in vocabulary.of[owner])
        found += [path for path in known if path in sent]
    return found


def typed_entries(form, entries):
    """The numbers of the creators or publications of which a form says something; RegistryError beyond MOST of them."""
    found = set()
    for name, texts in form.texts.items():
        match = _ENTRY.match(name)
        if match and match[1] == entries and any(text.strip() for text in texts):
            if len(match[2]) > 3 or int(match[2]) >= MOST:
                raise RegistryError(f"The form brings more than {MOST} {entries}; add the rest with the commands.")
            found.add(int(match[2]))
    return found


def read(form, wanted=None):
    """(flat facts {path: value}, errors {path: sentence}) of a form, for all its paths or those wanted."""
    found, errors = {}, {_PART.sub("", name): sentence for name, sentence in form.long.items()}
    for path in wanted or paths(form):
        try:
            typed = value(path, form) if path not in errors else None
            if typed is not None:
                found[path] = typed
        except RegistryError as error:
            errors[path] = str(error)
    return found, errors


# --- flat and nested ----------------------------------------------------------------------------------

def flat(facts):
    """A facts object as {path: value}, with creators.0.died for what is inside a list."""
    found = {}
    for name, held in facts.items():
        if name in LISTS:
            found |= {f"{name}.{number}.{inner}": what for number, one in enumerate(held) for inner, what in one.items()}
        elif name != "id":
            found[name] = held
    return found


def nested(values):
    """The facts object of {path: value}; entries of which nothing is said are left out, the others keep their order."""
    facts, lists = {}, {}
    for path, held in values.items():
        match = _ENTRY.match(path)
        if match:
            lists.setdefault(match[1], {}).setdefault(int(match[2]), {})[path.rpartition(".")[2]] = held
        else:
            facts[path] = held
    return facts | {name: [entries[number] for number in sorted(entries)] for name, entries in lists.items()}
