"""The hand-over package of a job: sheet, card, records, files and provenance in a bag that anybody can check.

Customers, prices and private notes stay out.
"""

import json

from registry.catalogue import clear, files, ledger, permissions, settings, store, works
from registry.catalogue.canonical import canonical
from registry.exchange import bagit, json_ld, labels, sheet
from registry.exchange.provenance import graph
from registry.facts import edtf

READ_ME = """This package shows where the artwork of a product comes from, what is known of its copyright, and what was decided.

  sheet.html             the provenance sheet, to read and print
  card.html              the short card for a buyer
  records/sheet.json     everything on the sheet, for programs
  records/works/         the facts of each work as recorded
  records/labels/        open labels of each work: RightsStatements.org, PREMIS, Dublin Core, schema.org, SPDX
  records/licences.json  licences and permissions
  records/ledger.jsonl   the rows of the shop's ledger that belong to this job, with their digests
  provenance.jsonld      who made what from what (W3C PROV-O)
  files/                 pictures, evidence and documents, named by their SHA-256

The package is a bag as in RFC 8493. "registry bag --check FOLDER", or any other tool for bags, says whether it is
complete and unchanged. A digest of its tag manifest, given apart from it, proves that it was not written anew.

{advice}
"""


def make(catalogue, key, folder, day=None):
    """The bagit.Bag of a job (its key), written to a new folder; `day` is a day number, today without one.

    RegistryError when the job is not there, names no market, or the folder is not new; when a kept file was changed.
    """
    day = store.today() if day is None else day
    found = sheet.collect(catalogue, key, day)
    paths = _paths(catalogue, found)
    payload = {**_pages(catalogue, found), **_records(catalogue, found, day), "provenance.jsonld": _json(graph(found, paths)),
               **{path: files.path_of(catalogue, sha) for sha, path in paths.items()}}
    for sha in paths:
        files.read(catalogue, sha)
    return bagit.write(folder, payload, _info(catalogue, found, day))


def _pages(catalogue, found):
    pictures = sheet.embedded(catalogue, found)
    return {"sheet.html": sheet.html(found, pictures).encode("utf-8"), "card.html": sheet.card(found, pictures).encode("utf-8"),
            "READ-ME.txt": READ_ME.format(advice=found["not_legal_advice"]).encode("utf-8")}


def _paths(catalogue, found):
    """Paths in the package by SHA-256, of pictures, of files of evidence and of documents of permissions."""
    shas = [*(work["picture"] for work in found["works"]),
            *(one["file"] for fact in found["facts"] for one in fact["evidence"]),
            *(one["document"] for one in found["permissions"])]
    return {sha: f"files/{sha}{files.ENDINGS.get(files.get(catalogue, sha).media_type, '')}" for sha in dict.fromkeys(shas) if sha}


def _records(catalogue, found, day):
    codes = list(dict.fromkeys(place["place"] for market in found["answer"]["markets"] for place in market["places"]))
    made = {"records/sheet.json": _json(found), "records/licences.json": _json(_licences(catalogue, found)),
            "records/ledger.jsonl": "".join(f"{line}\n" for line in _ledger(catalogue, found)).encode("utf-8")}
    for work in found["works"]:
        label = labels.label(catalogue, work["key"], codes, day)
        made[f"records/works/{work['key']}.json"] = _json(works.get(catalogue, work["key"]).facts)
        told = {**label, "spdx": labels.spdx(label), "json_ld": json_ld.of_work(label, "#work-")}
        made[f"records/labels/{work['key']}.json"] = _json(told)
    return made


def _licences(catalogue, found):
    """Permissions without the shop's notes; for open licences their address and what they ask for."""
    known = clear.rules().licences
    given = [one for work in found["works"] for one in permissions.of_work(catalogue, work["key"])]
    told = {f"p{one.id}": _told(known[one.spdx], one.spdx) for one in given if one.spdx in known}
    return [{**one, "open_licence": told.get(one["id"])} for one in found["permissions"]]


def _told(licence, spdx):
    return {"name": licence.name, "says": licence.says, "uri": labels.licence_uri(spdx)}


def _ledger(catalogue, found):
    """The rows about the works and the decisions of the job, in order, one canonical JSON object a line."""
    kinds = ("facts", "evidence", "assessment")
    wanted = {(kind, work["key"]) for work in found["works"] for kind in kinds} | {("decision", found["job"]["key"])}
    rows = sorted((row for kind, subject in wanted for row in ledger.rows(catalogue, kind, subject)), key=lambda row: row.seq)
    names = ("seq", "at", "kind", "subject", "body", "previous", "digest")
    return [canonical({name: getattr(row, name) for name in names}) for row in rows]


def _json(value):
    return (json.dumps(value, ensure_ascii=False, indent=2, sort_keys=True) + "\n").encode("utf-8")


def _info(catalogue, found, day):
    return [("Source-Organization", settings.get(catalogue, "name")),
            ("External-Description", f"Provenance of: {found['job']['title']}. Not legal advice."),
            ("Bagging-Date", edtf.iso(day)), ("External-Identifier", found["job"]["key"]),
            ("Ledger-Head", found["ledger"]["head"]), ("Ledger-Row", found["ledger"]["row"])]
