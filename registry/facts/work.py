"""What is known about one work, and the one validator every way in goes through."""

import re
from dataclasses import dataclass, field

from registry.errors import BadDate, BadFacts
from registry.facts import edtf

UNKNOWN = "unknown"
LAST_DAY = 3652059  # 31 December 9999
_COUNTRY = re.compile(r"[A-Z]{2}\Z")


@dataclass(frozen=True, slots=True)
class Creator:
    """One person or body that made the work; dates are EDTF spans or None when not recorded."""

    name: str | None = None
    role: str | None = None
    born: edtf.Span | None = None
    died: edtf.Span | None = None
    alive: bool | None = None
    nationality: tuple | None = None
    identity_disclosed: edtf.Span | None = None
    facts: dict = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Publication:
    """One publication: its date (EDTF span or None), country code or None, and who published."""

    date: edtf.Span | None = None
    country: str | None = None
    by_owner: bool | str | None = None


@dataclass(frozen=True, slots=True)
class Work:
    """The facts of one work in one version; `facts` holds the further named facts as given."""

    id: str = ""
    title: str = ""
    kind: str | None = None
    authorship: str | None = None
    creators: tuple = ()
    created: edtf.Span | None = None
    published: bool | str | None = None
    publications: tuple = ()
    facts: dict = field(default_factory=dict)


def read_work(obj, vocabulary):
    """The Work in a facts object; BadFacts names the field, what it got and what is allowed."""
    if not isinstance(obj, dict):
        raise BadFacts(f"the facts are {_shown(obj)}; one JSON object is needed.")
    given = _known(obj, vocabulary, "work", "", also=vocabulary.of["creator"])
    everyone = {k: given.pop(k) for k in list(given) if k not in vocabulary.of["work"]}
    creators = _each(given.pop("creators", None), "creators", lambda o, at: _creator(o, vocabulary, at, everyone))
    if everyone and not creators:
        creators = (_creator({}, vocabulary, "creators[0]", everyone),)
    publications = _each(given.pop("publications", None), "publications", lambda o, at: _publication(o, vocabulary, at))
    core = {k: given.pop(k) for k in ("id", "title", "kind", "authorship", "created", "published") if k in given}
    if core.get("created") == UNKNOWN:
        del core["created"]
    return Work(creators=creators, publications=publications, facts=given, **core)


def spans(work):
    """All dates on record of a Work, as EDTF spans."""
    found = [work.created, *(one.date for one in work.publications), *work.facts.values()]
    for one in work.creators:
        found += [one.born, one.died, one.identity_disclosed, *one.facts.values()]
    return [one for one in found if isinstance(one, edtf.Span)]


def _known(obj, vocabulary, owner, at, also=()):
    allowed = vocabulary.of[owner]
    values = {}
    for key, value in obj.items():
        fact = allowed.get(key) or (key in also and also[key])
        if not fact:
            raise BadFacts(f"field {at}{key} is not a fact name of a {owner}; {_nearest(key, allowed)}.")
        if value is not None:
            values[key] = _value(fact, value, at + key)
    return values


def _nearest(key, allowed):
    import difflib

    close = difflib.get_close_matches(key, allowed, 1, 0.6)
    if close:
        return f"did you mean {close[0]}"
    return "allowed are " + ", ".join(sorted(allowed))


def _value(fact, value, at):
    return _READERS[fact.type](fact, value, at)


def _text(_fact, value, at):
    if not isinstance(value, str):
        raise BadFacts(f"field {at} is {_shown(value)}; a text is needed.")
    return value.strip()


def _choice(fact, value, at):
    if value == UNKNOWN:
        return None
    if value not in fact.choices:
        raise BadFacts(f"field {at} is {_shown(value)}; allowed are {', '.join(fact.choices)}.")
    return value


def _bool(_fact, value, at):
    if value is True or value is False or value == UNKNOWN:
        return value
    raise BadFacts(f"field {at} is {_shown(value)}; allowed are true, false and \"unknown\".")


def _edtf(_fact, value, at):
    if value == UNKNOWN:
        return UNKNOWN
    if isinstance(value, int) and not isinstance(value, bool):
        value = str(value)
    if not isinstance(value, str):
        raise BadFacts(f"field {at} is {_shown(value)}; a date is a text such as \"1928\", \"1928~\" or \"[..1930]\".")
    try:
        span = edtf.parse(value)
    except BadDate as error:
        raise BadFacts(f"field {at}: {error}") from None
    if span.earliest is not None and span.earliest < 1 and span.latest is not None and span.latest >= LAST_DAY:  # XXXX says nothing
        return UNKNOWN
    if span.earliest is not None and span.earliest < 1:  # a stray dash would make a work two thousand years old
        raise BadFacts(f"field {at} is {_shown(value)}, a date before year 1; write [..0001] for something that old.")
    return span


def _country(fact, value, at):
    if value == UNKNOWN or (isinstance(value, str) and _COUNTRY.match(value) and (not fact.places or value in fact.places)):
        return value
    if isinstance(value, str) and _COUNTRY.match(value):
        raise BadFacts(f"field {at} is \"{value}\", which is no country code of ISO 3166-1; the United Kingdom is \"GB\", and a state that is gone goes by one of today.")
    raise BadFacts(f"field {at} is {_shown(value)}; allowed are two capital letters of ISO 3166-1, such as \"GB\", or \"unknown\".")


def _countries(fact, value, at):
    if value == UNKNOWN:
        return value
    values = value if isinstance(value, list) else [value]
    if not values:
        return None
    return tuple(_country(fact, v, at) for v in values)


def _list(_fact, value, at):
    if not isinstance(value, list):
        raise BadFacts(f"field {at} is {_shown(value)}; a list of objects is needed.")
    return value


_READERS = {"text": _text, "choice": _choice, "bool": _bool, "edtf": _edtf, "year": _edtf,
            "country": _country, "countries": _countries, "list": _list}


def _each(values, name, read):
    out = []
    for number, value in enumerate(values or ()):
        at = f"{name}[{number}]"
        if not isinstance(value, dict):
            raise BadFacts(f"field {at} is {_shown(value)}; an object is needed.")
        out.append(read(value, at))
    return tuple(out)


_CREATOR = ("name", "role", "born", "died", "alive", "nationality", "identity_disclosed")


def _creator(obj, vocabulary, at, everyone):
    given = {**everyone, **_known(obj, vocabulary, "creator", at + ".")}
    core = {k: given.pop(k) for k in _CREATOR if k in given}
    if core.get("nationality") == UNKNOWN:
        core["nationality"] = (UNKNOWN,)
    silent = ("name", "role", "born", "died", "alive")  # where looked for and not found is the same as not recorded
    return Creator(facts=given, **{k: v for k, v in core.items() if v != UNKNOWN or k not in silent})


def _publication(obj, vocabulary, at):
    given = _known(obj, vocabulary, "publication", at + ".")
    return Publication(**{k: (None if v == UNKNOWN and k != "by_owner" else v) for k, v in given.items()})


def _shown(value):
    text = repr(value) if not isinstance(value, str) else f"\"{value}\""
    return text if len(text) <= 60 else text[:57] + "..."
