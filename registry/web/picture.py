"""Kept pictures and documents as they are, and the page that gives a work a picture after showing it."""

import hashlib
from urllib.parse import quote

from datasette.utils.asgi import Response

from registry.catalogue import files, works
from registry.catalogue.store import transaction
from registry.errors import RegistryError, UnknownRecord
from registry.web import body, held
from registry.web.page import compose, go, page, read, write

POLICY = "default-src 'none'; style-src 'unsafe-inline'; sandbox"


@page
async def show(request, datasette):
    """The bytes of the file /picture/SHA256, compared with its digest, when it is a picture; an SVG may run and load nothing."""
    sha = request.url_vars["sha"]

    def collect(catalogue):
        file = files.get(catalogue, sha)
        return file, files.read(catalogue, sha) if file.media_type in files.PICTURES else None

    file, content = await read(datasette, collect)
    if content is None:
        return Response.text("That file is not a picture.", status=404)
    return _bytes(content, file.media_type, "private, max-age=31536000, immutable")


@page
async def document(request, datasette):
    """The bytes of the file /file/SHA256, whatever it is, compared with its digest; as a download unless it is a picture."""
    sha = request.url_vars["sha"]
    file, content = await read(datasette, lambda catalogue: (files.get(catalogue, sha), files.read(catalogue, sha)))
    kind = file.media_type if file.media_type in files.PICTURES else "application/octet-stream"
    told = {"content-disposition": f"attachment; filename*=UTF-8''{quote(file.name)}"}
    return _bytes(content, kind, "no-store", {} if kind in files.PICTURES else told)


@page
async def waiting(request, datasette):
    """The picture /held/TOKEN that was sent and is not kept yet."""
    upload = held.get(request.url_vars["token"])
    kind = files.media_type(upload.content) if upload else None
    if kind not in files.PICTURES:
        raise UnknownRecord("That picture is held no longer; send it again.")
    return _bytes(upload.content, kind, "no-store")


def _bytes(content, kind, cache, more=None):
    return Response(content, content_type=kind, headers={"content-security-policy": POLICY, "cache-control": cache, **(more or {})})


@page
async def give(request, datasette):
    """The page /work/KEY/picture: choose a picture, look at it, keep it."""
    key, upload, error = request.url_vars["key"], None, ""
    form = await body.read(request) if request.method == "POST" else body.Form()
    token = form.get("token")
    if form.file("picture"):
        upload = form.file("picture")
        error, token = _fault(upload), ""
        token = "" if error else held.hold(upload)
    elif request.method == "POST":
        upload = held.get(token)
        error = "" if upload else "No picture was chosen, or it is held no longer; choose it again."
        if upload and form.get("keep"):
            await write(datasette, lambda catalogue: _keep(catalogue, key, form.number("version"), upload))
            held.drop(token)
            return go(f"/work/{key}?done=picture")

    def collect(catalogue):
        return {"record": works.get(catalogue, key), "token": token if upload and not error else "",
                "upload": upload, "error": error,
                "kind": files.media_type(upload.content) if upload and not error else "",
                "known": _same(catalogue, key, upload) if upload else []}

    return await compose(datasette, request, "picture", collect, 400 if error else 200)


def _same(catalogue, key, upload):
    """(key, title) of other works with that picture."""
    found = catalogue.db.execute(
        "SELECT key, title FROM works WHERE picture = ? AND key <> ? LIMIT 5", (_digest(upload), key))
    return [tuple(row) for row in found.fetchall()]


def _fault(upload):
    try:
        files.checked(upload.content, upload.name, files.PICTURES)
    except RegistryError as error:
        return str(error)
    return ""


def _digest(upload):
    return hashlib.sha256(upload.content).hexdigest()


def _keep(catalogue, key, version, upload):
    with transaction(catalogue):
        kept = files.add(catalogue, upload.content, upload.name, files.PICTURES)
        works.change(catalogue, key, version, picture=kept.sha256)
