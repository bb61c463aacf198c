"""Fills a new catalogue with the demo shop: `fill.py --catalogue FOLDER`. One transaction: all of it, or nothing."""
import argparse
import sys
from pathlib import Path

import draw
import shop

from registry.catalogue import answers, evidence, files, jobs, marks, permissions, settings, store, works
from registry.errors import RegistryError

HERE = Path(__file__).parent
PLACES = ("US", "CA", "GB")
BASES = {  # how the shop came to know, in its own words: the basis on which the catalogue holds the fact
    "seen": "seen", "nil search": "seen", "secondary": "seen",
    "told by the artist": "told", "told by the heirs": "told",
    "deduced": "assumed", "asked": "assumed",
}
KINDS = {"font licence": "licence", "open licence": "licence"}
OWN = "own work"  # kept as a mark on the work, not as a permission
JOB = ("key", "title", "product", "purpose", "markets", "quantity", "wording", "due", "customer")


def fill(catalogue):
    """Counts of what was put into an empty catalogue, by kind."""
    records = shop.load(HERE)
    with store.transaction(catalogue):
        settings.put(catalogue, name="Ninepin Slip Workshop", markets=list(PLACES))
        for fill_kind, kind in ((_work, "works"), (_evidence, "evidence"), (_permission, "permissions"), (_mark, "marks"), (_job, "jobs")):
            for record in records[kind]:
                fill_kind(catalogue, record)
        for record in works.listed(catalogue):
            answers.record(catalogue, answers.answer_work(record, PLACES, store.today()))
    return {kind: len(found) for kind, found in records.items()}


def _work(catalogue, record):
    picture = draw.picture(record["picture"], record["facts"]["title"])
    file = files.add(catalogue, picture, record["picture"], files.PICTURES)
    works.add(
        catalogue, record["facts"], key=record["key"], traits=record["traits"], based_on=record["based_on"], originality=record["originality"],
        access_terms=record["terms_of_access"] or "", notes=record["note"], picture=file.sha256,
    )


def _evidence(catalogue, record):
    basis = BASES[record["basis"]]
    evidence.add(
        catalogue, record["work"], record["for"], basis, kind=record["kind"], title=record["title"], place=record["where"],
        seen_on=record["seen"], seen_by=record["by"], note="" if basis == record["basis"] else record["basis"],
    )


def _permission(catalogue, record):
    if record["kind"] == OWN:
        works.change(catalogue, record["work"], works.get(catalogue, record["work"]).version, own=True)
        return
    places = [record["places"]] if isinstance(record["places"], str) else record["places"]
    permissions.add(
        catalogue, record["work"], KINDS.get(record["kind"], record["kind"]), licensor=record["grantor"], places=places,
        valid_from=record["from"], valid_to=record["to"], note=f"{record['kind']}: {record['document']}",
        **{name: record[name] for name in ("spdx", "uses", "media", "quantity", "exclusive", "commercial", "changes_allowed", "credit_line")},
    )


def _mark(catalogue, record):
    columns = {name: value for name, value in record.items() if name not in ("key", "works")}
    marks.add(catalogue, record["works"], **columns)


def _job(catalogue, record):
    jobs.add(catalogue, **{name: record[name] for name in JOB})
    for use in record["uses"]:
        jobs.use(catalogue, record["key"], use["work"], use["part"], use["traits"], use["changes"])


def main(argv=None):
    """0 when a new catalogue was made and filled; an empty one stays when it could not be filled."""
    parser = argparse.ArgumentParser(description="Makes a catalogue and fills it with the demo shop.")
    parser.add_argument("--catalogue", required=True, metavar="FOLDER", help="A new folder.")
    args = parser.parse_args(argv)
    try:
        counts = fill(store.create(args.catalogue))
    except RegistryError as error:
        print(error, file=sys.stderr)
        return 1
    print(", ".join(f"{number} {kind}" for kind, number in counts.items()) + ".")
    return 0


if __name__ == "__main__":
    sys.exit(main())
