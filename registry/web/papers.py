"""What goes with a product: the provenance sheet and the buyer's card as pages to print, the hand-over package as a ZIP file."""

import io
import json
import tempfile
import zipfile
from pathlib import Path
from urllib.parse import quote

from datasette.utils.asgi import Response

from registry.catalogue import files, settings, store, works
from registry.exchange import bag, json_ld, labels, markup, sheet
from registry.web.page import HEADERS, market_names, page, read

ON_PAPER = {**HEADERS, "content-security-policy": markup.POLICY}  # these pages carry their own style, to be kept as single files


@page
async def provenance(request, datasette):
    """The page /job/KEY/sheet; ?private=1 adds customer, price and notes."""
    return await _paper(request, datasette, sheet.html, request.args.get("private") == "1")


@page
async def card(request, datasette):
    """The page /job/KEY/card, for the buyer."""
    return await _paper(request, datasette, sheet.card, False)


async def _paper(request, datasette, make, private):
    key = request.url_vars["key"]

    def collect(catalogue):
        found = sheet.collect(catalogue, key, private=private)
        shas = [work["picture"] for work in found["works"] if work["picture"] and _shows(catalogue, work["picture"])]
        return make(found, {sha: f"/picture/{sha}" for sha in shas})

    return Response.html(await read(datasette, collect), headers=dict(ON_PAPER))


def _shows(catalogue, sha):
    return files.get(catalogue, sha).media_type in sheet.SHOWABLE


@page
async def package(request, datasette):
    """The address /job/KEY/package.zip: the hand-over package of `registry bag`, packed."""
    key = request.url_vars["key"]
    return _download(await read(datasette, lambda catalogue: _packed(catalogue, key)), "application/zip", f"{key}.zip")


def _packed(catalogue, key):
    """The bytes of a ZIP file that holds the package of a job in a folder named by its key."""
    held = io.BytesIO()
    with tempfile.TemporaryDirectory() as place:
        bag.make(catalogue, key, Path(place) / key, store.today())
        with zipfile.ZipFile(held, "w", zipfile.ZIP_DEFLATED) as pack:
            for path in sorted(path for path in Path(place).rglob("*") if path.is_file()):
                pack.write(path, str(path.relative_to(place)))
    return held.getvalue()


@page
async def label(request, datasette):
    """The address /work/KEY/label.json with ?in= (markets): what may be said of a work in published vocabularies."""
    key = request.url_vars["key"]

    def collect(catalogue):
        record = works.get(catalogue, key)
        codes = settings.opened(catalogue, market_names(catalogue, request))
        found = labels.label(catalogue, record.key, codes, store.today())
        return {**found, "spdx": labels.spdx(found), "json_ld": json_ld.of_work(found)}

    text = json.dumps(await read(datasette, collect), ensure_ascii=False, indent=2)
    return _download(text, "application/json; charset=utf-8", f"{key}.json")


def _download(content, kind, name):
    headers = {**HEADERS, "content-disposition": f"attachment; filename*=UTF-8''{quote(name, safe='')}"}
    return Response(content, content_type=kind, headers=headers)
