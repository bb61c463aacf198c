"""Evidence for one fact of a work: what was seen, told or assumed, with the document when there is one."""

from dataclasses import dataclass

from registry.catalogue import days, evidence, files, store, works
from registry.catalogue.store import transaction
from registry.errors import BadDate, RegistryError
from registry.facts import edtf
from registry.web import body, fields, held, said, typed
from registry.web.dates import plainly
from registry.web.page import compose, go, page, read, write
from registry.web.work_edit import label_of

WORDS = {"basis": "basis", "seen_on": "seen_on", "file": "document"}


@dataclass(frozen=True, slots=True)
class Document:
    """The document of a form: the Upload chosen now or before (None for none), whether it is to be left off, what is wrong."""

    upload: body.Upload | None = None
    off: bool = False
    fault: str = ""


@page
async def add(request, datasette):
    """The page /work/KEY/evidence with ?fact= (a path): the evidence there is, and the form for more."""
    key = request.url_vars["key"]
    form, document, errors = body.Form({"fact": [request.args.get("fact") or ""]}), Document(), {}
    if request.method == "POST":
        form = await body.read(request)
        document = chosen(form)
        errors = await read(datasette, lambda catalogue: faults(works.get(catalogue, key).facts, form, document))
        try:
            if not errors:
                await write(datasette, lambda catalogue: keep(catalogue, key, form, document))
                held.drop(form.get("document_token"))
                return go(f"/work/{key}?done=evidence")
        except RegistryError as refused:
            errors = typed.beside(refused, WORDS, "fact")
    waiting = _waiting(form, document)

    def collect(catalogue):
        record = works.get(catalogue, key)
        paths = [path for path in fields.flat(record.facts)]
        return {"record": record, "form": form, "errors": errors, "waiting": waiting, "evidence": evidence.of_work(catalogue, key),
                "paths": [("", "choose a fact"), *((path, label_of(path)) for path in paths), *_absent(record, paths)], "label_of": label_of}

    return await compose(datasette, request, "evidence", collect, 400 if errors else 200)


def _absent(record, paths):
    """What is no recorded fact: that the shop made the work, and facts that nothing is recorded for, since a search that
    found nothing is evidence too."""
    own = [(name, label) for name, label in evidence.BESIDE.items() if getattr(record, name)]
    known = (*paths, *fields.HIDDEN, "title")
    names = [name for name in fields.rulebook().vocabulary.of["work"] if name not in known]
    return [*own, *((name, f"{label_of(name)} (nothing on record)") for name in names)]


# --- what is wrong ------------------------------------------------------------------------------------

def faults(facts, form, document):
    """All that is wrong with a form about a work with these facts, as {field: sentence}, in the order of the fields."""
    found = {"fact": _fact(facts, form.get("fact")), "basis": _basis(form.get("basis")),
             "seen_on": seen_on(form.get("seen_on")), "document": document.fault}
    return {name: sentence for name, sentence in found.items() if sentence}


def _fact(facts, fact):
    if not fact:
        return "Choose the fact that this is evidence for."
    try:
        evidence.named(fact, facts)
    except RegistryError:
        return f"“{fact[:60]}” is no fact of this work, or is on record no longer; choose one from the list."
    return ""


def _basis(basis):
    if basis in evidence.BASES:
        return ""
    return "Choose the basis: whether it was seen in a document, told by somebody, or is only assumed."


def seen_on(text):
    """What is wrong with the day on which something was seen, as typed; "" when nothing is."""
    text = plainly(text)
    try:
        if not text or edtf.day(text) <= days.latest():
            return ""
    except BadDate:
        return f"“{text[:60]}” cannot be read as a day of the calendar; write a day such as 2026-11-25, or leave the field empty."
    return (f"“{text}” is still to come: today is {said.iso(edtf.iso(store.today()))}."
            " Write the day on which it was seen or told, or leave the field empty.")


# --- the document -------------------------------------------------------------------------------------

def chosen(form):
    """The Document of a form: a file sent now takes the place of one that is held, unless it is of no use."""
    sent, token, off = form.file("document"), form.get("document_token"), bool(form.get("document_drop"))
    before = held.get(token)
    fault = _fault(sent) if sent else ""
    if sent and not fault:
        return Document(sent)
    if token and not before and not off:
        fault = fault or f"{_name(form)} is held no longer. Choose it again, or send the form once more to keep the evidence without it."
    return Document(before, off and before is not None, fault)


def _fault(upload):
    try:
        files.checked(upload.content, upload.name)
    except RegistryError as error:
        return str(error)
    return ""


def _name(form):
    return f"“{form.get('document_name')}”" if form.get("document_name") else "The document chosen before"


def _waiting(form, document):
    """What the form shows of a document that could not be kept yet: its token, its name, whether it is to be left off."""
    before, upload = form.get("document_token"), document.upload
    if upload is None:
        return {"token": "", "name": "", "off": False}
    if held.get(before) is upload:
        return {"token": before, "name": upload.name, "off": document.off}
    held.drop(before)
    return {"token": held.hold(upload), "name": upload.name, "off": document.off}


def keep(catalogue, key, form, document):
    """The new Evidence; its document is kept with it, or neither."""
    upload = None if document.off else document.upload
    with transaction(catalogue):
        file = files.add(catalogue, upload.content, upload.name).sha256 if upload else None
        texts = {name: form.get(name) for name in evidence.TEXTS}
        return evidence.add(catalogue, key, form.get("fact"), form.get("basis"), seen_on=plainly(form.get("seen_on")) or None, file=file, **texts)
