"""A new work: as little as a title or a picture, then one question at a time."""

from urllib.parse import urlencode

from registry.catalogue import files, works
from registry.catalogue.store import transaction
from registry.errors import RegistryError
from registry.facts.work import UNKNOWN
from registry.rulebook import rulebook
from registry.web import body, fields, held
from registry.web.page import compose, go, market_names, page, write
from registry.web.work_edit import ORIGINALITY, traits


@page
async def new(request, datasette):
    """The page /work/new with ?based_on= (a key): the form, and what it sends."""
    if request.method == "POST":
        return await _add(request, datasette, await body.read(request))
    return await _form(request, datasette, body.Form({"based_on": [request.args.get("based_on") or ""]}), {})


async def _form(request, datasette, form, errors, status=200):
    def collect(catalogue):
        beneath = works.get(catalogue, form.get("based_on")) if form.get("based_on") and not errors else None
        return {"form": form, "errors": errors, "beneath": beneath, "originality": ORIGINALITY, "market_names": market_names(catalogue),
                "kinds": rulebook().vocabulary.facts["kind"].choices, "authorships": rulebook().vocabulary.facts["authorship"].choices,
                "token": _token(form)}

    return await compose(datasette, request, "work_new", collect, status)


def _token(form):
    """The token of the picture that came with the form, so that it need not be chosen again."""
    upload = form.file("picture")
    if upload and files.media_type(upload.content) in files.PICTURES:
        return held.hold(upload)
    return form.get("token") if held.get(form.get("token")) else ""


async def _add(request, datasette, form):
    typed, errors = fields.read(form, ("title", "kind", "authorship", "creators.0.name"))
    upload = form.file("picture") or held.get(form.get("token"))
    if not typed.get("title") and not upload:
        errors["title"] = "Give at least a title or a picture; what you call it among yourselves will do."
    try:
        if errors:
            raise RegistryError("")
        record = await write(datasette, lambda catalogue: keep(catalogue, form, typed, upload))
    except RegistryError as error:
        field = "based_on" if "work '" in str(error) else "key" if "key" in str(error) else "picture"
        return await _form(request, datasette, form, errors or {field: str(error)}, 400)
    held.drop(form.get("token"))
    return go(f"/work/{record.key}/ask?" + urlencode({"done": "added", **({"in": form.get("in")} if form.get("in") else {})}))


def keep(catalogue, form, typed, upload):
    """The new WorkRecord, its picture kept with it, or neither."""
    columns = {"originality": form.get("originality") or UNKNOWN, "own": bool(form.get("own")),
               "access_terms": form.get("access_terms"), "notes": form.get("notes")}
    if form.get("based_on"):
        columns["based_on"] = form.get("based_on")
    with transaction(catalogue):
        if upload:
            columns["picture"] = files.add(catalogue, upload.content, upload.name, files.PICTURES).sha256
        columns["traits"] = [tuple(pair) for pair in traits(form.get("traits"))]
        return works.add(catalogue, fields.nested(typed), key=form.get("key") or None, **columns)
