"""Complaints: the list, one with its answers, what is on record and what is missing, and the folder to hand over."""

import io
import tempfile
import zipfile
from pathlib import Path
from urllib.parse import quote

from datasette.utils.asgi import Response

from registry.catalogue import complaints, files, store
from registry.exchange import complaint_folder, complaint_index
from registry.facts import edtf
from registry.web import body, typed
from registry.web.page import HEADERS, compose, page, read, render

STATES = ("open", "answered", "closed")
OUTCOMES = {"sent": "an answer was sent", "withdrawn": "they withdrew it", "settled": "it was settled",
            "upheld": "it was upheld", "rejected": "it was rejected"}


@page
async def listing(request, datasette):
    """The page /complaints with ?state=, the earliest deadline first."""
    state = request.args.get("state", "")
    state = state if state in STATES else ""

    def collect(catalogue):
        found = complaints.listed(catalogue)
        fit = [one for one in found if not state or one.state == state]
        return {"complaints": [(one, left(one)) for one in fit], "state": state, "states": STATES, "count": len(found)}

    return await compose(datasette, request, "complaints", collect)


def left(one):
    """How long an open complaint may still wait, in words; "" when that does not matter."""
    if one.deadline is None or one.state != complaints.OPEN:
        return ""
    days = edtf.day(one.deadline) - store.today()
    if days < 0:
        return f"passed {-days} day{'' if days == -1 else 's'} ago"
    return "today" if days == 0 else f"{days} day{'' if days == 1 else 's'} left"


@page
async def show(request, datasette):
    """The page /complaint/KEY: claim, deadline, answers with the form for another, what is on record and what is missing."""
    return await shown(request, datasette, body.Form(), {})


async def shown(request, datasette, form, errors, status=200):
    """The page of a complaint with the form of an answer as it was typed."""
    key = request.url_vars["key"]
    context = await read(datasette, lambda catalogue: dossier(catalogue, key))
    context |= {"form": form, "errors": errors, "outcomes": OUTCOMES, "today": edtf.iso(store.today()),
                "waiting": typed.waiting(form, "file")}
    return await render(datasette, request, "complaint", context, status)


def dossier(catalogue, key):
    """What the page shows of a complaint: it, its kept files, and all on record about it."""
    found = complaint_folder.collect(catalogue, key, store.today())
    one = found.complaint
    kept = {digest: files.get(catalogue, digest) for digest in (one.file, *(answer.file for answer in one.answers)) if digest}
    return {"one": one, "left": left(one), "dossier": found, "missing": complaint_index.missing(found), "kept": kept}


@page
async def folder(request, datasette):
    """The address /complaint/KEY/folder.zip: the folder of `registry complaint folder`, packed."""
    key = request.url_vars["key"]
    content = await read(datasette, lambda catalogue: packed(catalogue, key))
    headers = {**HEADERS, "content-disposition": f"attachment; filename*=UTF-8''{quote(key)}.zip"}
    return Response(content, content_type="application/zip", headers=headers)


def packed(catalogue, key):
    """The bytes of a ZIP file with the folder of a complaint, named by its key; UnknownRecord when there is none."""
    complaints.get(catalogue, key)  # first, since a key in an address may be no name of a folder
    held = io.BytesIO()
    with tempfile.TemporaryDirectory() as place:
        out = Path(place) / key
        complaint_folder.write(catalogue, key, out, store.today())
        with zipfile.ZipFile(held, "w", zipfile.ZIP_DEFLATED) as pack:
            for path in sorted(path for path in out.rglob("*") if path.is_file()):
                pack.write(path, str(path.relative_to(place)))
    return held.getvalue()
