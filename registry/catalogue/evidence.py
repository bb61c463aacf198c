"""Evidence: a document or a word that supports one fact of a work, and on what basis the fact is held.

A fact is named as in the vocabulary (us_renewed, died, publications.date), or for one entry of a list by its path
(creators.1.died). What was on record when the evidence was added is kept with it, so that a later change shows.
"""

import json
from dataclasses import dataclass

from registry.catalogue import days, files, ledger, words, works
from registry.catalogue.canonical import canonical
from registry.catalogue.store import now, transaction
from registry.errors import RegistryError
from registry.rulebook import rulebook

BASES = ("seen", "told", "assumed")
BESIDE = {"own": words.BESIDE["own"]}  # what is kept beside the facts and may need proof too
LISTS = {"creator": "creators", "publication": "publications"}


@dataclass(frozen=True, slots=True)
class Evidence:
    """One piece of evidence: `work` is the key, `fact` a name or path, `file` a SHA-256 or None.

    `value` is the canonical JSON of what was on record for the fact at the time; None in records of before.
    """

    id: int
    work: str
    fact: str
    basis: str
    kind: str
    title: str
    place: str
    url: str
    seen_on: str | None
    seen_by: str
    file: str | None
    note: str
    added_at: str
    value: str | None = None


TEXTS = ("kind", "title", "place", "url", "seen_by", "note")


def add(catalogue, work, fact, basis, *, seen_on=None, file=None, **texts):
    """The new Evidence, noted in the ledger too; `texts` are those of TEXTS.

    RegistryError names the fact, basis, day or file that cannot be.
    """
    _check(catalogue, basis, seen_on, file, texts)
    with transaction(catalogue) as db:
        record = works.get(catalogue, work)
        fact = named(fact, record.facts)
        row = {"work": record.id, "fact": fact, "basis": basis, "seen_on": seen_on, "file": file, **texts,
               "value": canonical(on_record(record, fact)), "added_at": now()}
        number = db.execute(f"INSERT INTO evidence ({', '.join(row)}) VALUES ({', '.join('?' * len(row))})", tuple(row.values())).lastrowid
        ledger.append(catalogue, "evidence", work, body(get(catalogue, number)))
    return get(catalogue, number)


def body(one):
    """What the ledger keeps of a piece of evidence: all of it, so that the table can be compared with the chain."""
    return {**{name: getattr(one, name) for name in Evidence.__dataclass_fields__}, "value": decoded(one)}


def decoded(one):
    """What was on record for the fact when the evidence was added, as a value; None when nothing was."""
    return None if one.value is None else json.loads(one.value)


_SELECT = "SELECT {}, works.key AS work FROM evidence JOIN works ON works.id = evidence.work ".format(
    ", ".join(f"evidence.{name}" for name in Evidence.__dataclass_fields__ if name != "work"))


def get(catalogue, number):
    """The Evidence of that number; RegistryError when there is none."""
    found = catalogue.db.execute(_SELECT + "WHERE evidence.id = ?", (number,)).fetchone()
    if not found:
        raise RegistryError(f"There is no evidence number {number} in this catalogue.")
    return _record(found)


def of_work(catalogue, work):
    """The Evidence for the facts of a work, in the order in which it was added."""
    return [_record(row) for row in catalogue.db.execute(_SELECT + "WHERE works.key = ? ORDER BY evidence.id", (work,))]


def listed(catalogue):
    """Yields all Evidence, in the order in which it was added."""
    return (_record(row) for row in catalogue.db.execute(_SELECT + "ORDER BY evidence.id"))


def _record(row):
    return Evidence(**dict(zip(row.keys(), row)))


def named(fact, facts):
    """The name or path by which evidence for a fact is kept; RegistryError when there is no such fact or entry."""
    vocabulary = rulebook().vocabulary.facts
    steps = fact.strip().replace("[", ".").replace("]", "").split(".")
    if len(steps) == 3 and steps[0] in LISTS.values():
        return _entry(fact, steps, facts, vocabulary)
    beside = next((name for name, label in BESIDE.items() if fact.strip().casefold() in (name, label.casefold(), f"{label} [{name}]".casefold())), "")
    if beside:
        return beside
    known = vocabulary.get(fact.strip()) or _labelled(fact, vocabulary)
    if known is None:
        raise RegistryError(f"'{fact}' is no fact that evidence can support; take a name such as us_renewed, died or"
                            " publications, or creators.0.died for one of several makers.")
    return known.shown or known.name


def _labelled(text, vocabulary):
    """The Fact whose label a text is, also as lists show it: "Renewed (US) [us_renewed]"; None when there is none."""
    label, bracket, name = text.strip().removesuffix("]").partition(" [")
    found = (one for one in vocabulary.values() if one.label.casefold() == label.casefold())
    return next((one for one in found if not bracket or name in (one.name, one.shown)), None)


def _entry(path, steps, facts, vocabulary):
    entries, number, name = steps
    known = vocabulary.get(name)
    if known is None or LISTS.get(known.of) != entries:
        raise RegistryError(f"'{path}' names no fact of one of the {entries};"
                            " a path such as creators.0.died or publications.0.date is allowed.")
    count = len(facts.get(entries) or ())
    if not (number.isascii() and number.isdigit() and len(number) < 10) or int(number) >= count:
        raise RegistryError(f"'{path}': there are {count} {entries} on record, counted from 0.")
    return f"{entries}.{int(number)}.{name}"


def on_record(record, fact):
    """What a WorkRecord holds for a name or path, among its facts or beside them; None when nothing. That a work is not the
    shop's own is nothing: none is, unless somebody says so."""
    return getattr(record, fact) or None if fact in BESIDE else recorded(record.facts, fact)


def recorded(facts, fact):
    """What a facts object holds for a name or path, None when nothing; for a fact of every entry a list of all."""
    steps = fact.split(".")
    if len(steps) == 3:
        entries = facts.get(steps[0]) or ()
        return entries[int(steps[1])].get(steps[2]) if int(steps[1]) < len(entries) else None
    known = rulebook().vocabulary.facts[fact]
    if known.of in LISTS:
        found = [one.get(known.name) for one in facts.get(LISTS[known.of]) or ()]
        return found if any(value is not None for value in found) else None
    return facts.get(known.name)


def _check(catalogue, basis, seen_on, file, texts):
    if texts.keys() - set(TEXTS):
        raise TypeError(f"Evidence has no {texts.keys() - set(TEXTS)}.")
    if basis not in BASES:
        raise RegistryError(f"The basis is '{basis}'; allowed are {', '.join(BASES)}.")
    if texts.get("url") and not texts["url"].lower().startswith(("http://", "https://")):
        raise RegistryError(f"url: '{texts['url'][:80]}' is no address of a web page; it begins with https:// or http://.")
    if seen_on is not None:
        days.past("seen_on", seen_on)
    if file is not None:
        files.get(catalogue, file)
