"""Evidence: a document or a word that supports one fact of a work, and on what basis the fact is held."""

from dataclasses import dataclass

from registry.catalogue import files, ledger, works
from registry.catalogue.store import now, transaction
from registry.errors import BadDate, RegistryError
from registry.facts import edtf
from registry.rulebook import rulebook

BASES = ("seen", "told", "assumed")


@dataclass(frozen=True, slots=True)
class Evidence:
    """One piece of evidence: `work` is the key, `fact` a name of the vocabulary, `file` a SHA-256 or None."""

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


TEXTS = ("kind", "title", "place", "url", "seen_by", "note")


def add(catalogue, work, fact, basis, *, seen_on=None, file=None, **texts):
    """The new Evidence, noted in the ledger too; `texts` are those of TEXTS.

    RegistryError names the fact, basis, day or file that cannot be.
    """
    _check(catalogue, fact, basis, seen_on, file, texts)
    with transaction(catalogue) as db:
        record = works.get(catalogue, work)
        row = {"work": record.id, "fact": fact, "basis": basis, "seen_on": seen_on, "file": file, **texts, "added_at": now()}
        number = db.execute(f"INSERT INTO evidence ({', '.join(row)}) VALUES ({', '.join('?' * len(row))})", tuple(row.values())).lastrowid
        ledger.append(catalogue, "evidence", work, {**row, "work": work, "id": number})
    return next(one for one in of_work(catalogue, work) if one.id == number)


def of_work(catalogue, work):
    """The Evidence for the facts of a work, in the order in which it was added."""
    names = ", ".join(f"evidence.{name}" for name in Evidence.__dataclass_fields__ if name != "work")
    found = catalogue.db.execute(
        f"SELECT {names}, works.key AS work FROM evidence JOIN works ON works.id = evidence.work WHERE works.key = ? ORDER BY evidence.id", (work,)
    )
    return [Evidence(**dict(zip(row.keys(), row))) for row in found]


def _check(catalogue, fact, basis, seen_on, file, texts):
    if texts.keys() - set(TEXTS):
        raise TypeError(f"Evidence has no {texts.keys() - set(TEXTS)}.")
    if fact not in rulebook().vocabulary.facts:
        raise RegistryError(f"'{fact}' is no fact that evidence can support; take a name such as us_renewed, died or publications.")
    if basis not in BASES:
        raise RegistryError(f"The basis is '{basis}'; allowed are {', '.join(BASES)}.")
    if seen_on is not None:
        try:
            edtf.day(seen_on)
        except BadDate as error:
            raise BadDate(f"seen_on: {error}") from None
    if file is not None:
        files.get(catalogue, file)
