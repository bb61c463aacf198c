"""Evidence for one fact of a work: what was seen, told or assumed, with the document when there is one."""

from registry.catalogue import evidence, files, works
from registry.catalogue.store import transaction
from registry.errors import RegistryError
from registry.web import body, fields
from registry.web.page import compose, go, page, write
from registry.web.work_edit import label_of


@page
async def add(request, datasette):
    """The page /work/KEY/evidence with ?fact= (a path): the evidence there is, and the form for more."""
    key = request.url_vars["key"]
    form, error = body.Form({"fact": [request.args.get("fact") or ""]}), ""
    if request.method == "POST":
        form = await body.read(request)
        try:
            await write(datasette, lambda catalogue: keep(catalogue, key, form))
            return go(f"/work/{key}?done=evidence")
        except RegistryError as refused:
            error = str(refused)

    def collect(catalogue):
        record = works.get(catalogue, key)
        paths = [path for path in fields.flat(record.facts)]
        return {"record": record, "form": form, "error": error, "evidence": evidence.of_work(catalogue, key),
                "paths": [("", "choose a fact"), *((path, label_of(path)) for path in paths), *_absent(paths)], "label_of": label_of}

    return await compose(datasette, request, "evidence", collect, 400 if error else 200)


def _absent(paths):
    """Facts of the work that nothing is recorded for: a search that found nothing is evidence too."""
    vocabulary = fields.rulebook().vocabulary
    return [(name, f"{label_of(name)} (nothing on record)") for name in vocabulary.of["work"] if name not in (*paths, *fields.HIDDEN, "title")]


def keep(catalogue, key, form):
    """The new Evidence; its document is kept with it, or neither."""
    with transaction(catalogue):
        document = form.file("document")
        file = files.add(catalogue, document.content, document.name).sha256 if document else None
        texts = {name: form.get(name) for name in evidence.TEXTS}
        return evidence.add(catalogue, key, form.get("fact"), form.get("basis"), seen_on=form.get("seen_on") or None, file=file, **texts)
