"""The hand-over package of a job: whole by our check and by one that shares no line with it, private things left out."""

import hashlib
import json
import re

import kept
import pytest
import test_labels
import test_sheet
from registry.catalogue import files, jobs, ledger, works
from registry.catalogue.canonical import digest
from registry.errors import RegistryError
from registry.exchange import bag, labels, sheet
from registry.exchange.bag_check import check

DAY = test_sheet.DAY


@pytest.fixture(scope="module")
def catalogue(tmp_path_factory):
    return test_sheet.filled(tmp_path_factory.mktemp("bag"))


@pytest.fixture(scope="module")
def made(catalogue, tmp_path_factory):
    return bag.make(catalogue, "sign", tmp_path_factory.mktemp("out") / "package", DAY)


def independent(folder):
    """Sentences on what is wrong with a bag of version 1.0, by a reading of the RFC of its own."""
    wrong = []
    if (folder / "bagit.txt").read_bytes() != b"BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n":
        wrong.append("bagit.txt")
    there = {path.relative_to(folder).as_posix() for path in folder.rglob("*") if path.is_file()}
    payload = {path for path in there if path.startswith("data/")}
    manifests = [name for name in there if re.fullmatch(r"(tag)?manifest-\w+\.txt", name)]
    for name in manifests:
        algorithm, listed = name.rpartition("-")[2][:-4], {}
        for line in (folder / name).read_text(encoding="utf-8").splitlines():
            value, path = re.fullmatch(r"([0-9a-f]+)  (\S.*)", line).groups()
            path = path.replace("%0A", "\n").replace("%0D", "\r").replace("%25", "%")
            wrong += [f"twice {path}"] if path in listed else []
            listed[path] = value
        for path, value in listed.items():
            if path not in there or ".." in path or hashlib.new(algorithm, (folder / path).read_bytes()).hexdigest() != value:
                wrong.append(f"{name}: {path}")
        wanted = {path for path in there if "/" not in path and not path.startswith("tagmanifest")} if name.startswith("tag") else payload
        wrong += [f"{name} lacks or has {path}" for path in wanted ^ set(listed)]
    wrong += [] if {"manifest-sha256.txt", "manifest-sha512.txt", "tagmanifest-sha256.txt", "tagmanifest-sha512.txt"} <= set(manifests) else ["manifests"]
    sums = re.findall(r"^Payload-Oxum: (\d+)\.(\d+)$", (folder / "bag-info.txt").read_text(encoding="utf-8"), re.MULTILINE)
    wrong += [] if sums == [(str(sum((folder / path).stat().st_size for path in payload)), str(len(payload)))] else ["Payload-Oxum"]
    return wrong


def read(made, path):
    return json.loads((made.folder / "data" / path).read_text(encoding="utf-8"))


def test_it_is_whole_by_both_checks(made):
    found = check(made.folder)
    assert (found.valid, found.findings, found.algorithms) == (True, [], ["sha256", "sha512"])
    assert independent(made.folder) == [] and made.files == len(found.payload) and made.bytes == found.bytes
    assert made.seal == hashlib.sha256((made.folder / "tagmanifest-sha256.txt").read_bytes()).hexdigest()


def test_the_other_check_finds_faults(made, tmp_path, catalogue):
    folder = bag.make(catalogue, "sign", tmp_path / "other", DAY).folder
    (folder / "data/card.html").write_text("other")
    assert len(independent(folder)) == 3  # two manifests and the sum
    (folder / "data/new.txt").write_text("x")
    assert len(independent(folder)) == 5


def test_what_is_in_it(made, catalogue):
    names = {path.relative_to(made.folder / "data").as_posix() for path in (made.folder / "data").rglob("*") if path.is_file()}
    shas = {row[0]: row[1] for row in catalogue.db.execute("SELECT sha256, media_type FROM files")}
    keys = ("gull", "tinted", "ours", "slab")
    assert names == {"READ-ME.txt", "sheet.html", "card.html", "provenance.jsonld", "records/sheet.json", "records/licences.json", "records/ledger.jsonl",
                     *(f"records/works/{key}.json" for key in keys), *(f"records/labels/{key}.json" for key in keys),
                     *(f"files/{sha}{files.ENDINGS[media]}" for sha, media in shas.items())}
    for sha in shas:
        (path,) = (made.folder / "data/files").glob(f"{sha}.*")
        assert path.read_bytes() == files.read(catalogue, sha)
    info = (made.folder / "bag-info.txt").read_text(encoding="utf-8")
    for line in ("Source-Organization: Ninepin & Sons", "Bagging-Date: 2026-07-01", "External-Identifier: sign", f"Ledger-Head: {read(made, 'records/sheet.json')['ledger']['head']}"):
        assert line in info


def test_records_are_those_of_the_catalogue(made, catalogue):
    told = sheet.collect(catalogue, "sign", DAY)
    assert read(made, "records/sheet.json") | {"made_at": ""} == told | {"made_at": ""}
    for key in ("gull", "tinted", "ours", "slab"):
        assert read(made, f"records/works/{key}.json") == works.get(catalogue, key).facts
        found = read(made, f"records/labels/{key}.json")
        assert {name: found[name] for name in ("work", "places", "whole")} == {name: labels.label(catalogue, key, ["US", "GB", "IE"], DAY)[name] for name in ("work", "places", "whole")}
    assert [one["id"] for one in read(made, "records/licences.json")] == ["p1"]


def test_rows_of_the_ledger_can_be_checked_one_by_one(made, catalogue):
    rows = [json.loads(line) for line in (made.folder / "data/records/ledger.jsonl").read_text(encoding="utf-8").splitlines()]
    assert {row["kind"] for row in rows} == {"facts", "evidence", "assessment", "decision"}
    kept_rows = {row.seq: row for row in ledger.rows(catalogue)}
    for row in rows:
        whole = {name: value for name, value in row.items() if name != "digest"}
        assert row["digest"] == digest(whole) == kept_rows[row["seq"]].digest
    assert [row["seq"] for row in rows] == sorted(row["seq"] for row in rows)


def test_private_things_stay_out_of_every_byte(made):
    for path in made.folder.rglob("*"):
        if path.is_file():
            assert b"SECRET" not in path.read_bytes(), path


def test_pages_in_it_stand_alone(made):
    for name in ("sheet.html", "card.html"):
        page = test_sheet.Fields((made.folder / "data" / name).read_text(encoding="utf-8"))
        assert page.addresses and all(address.startswith("data:") for address in page.addresses)


# --- provenance ------------------------------------------------------------------------------------------

def references(node):
    """Every @id that a node points at."""
    for name, value in node.items():
        for one in value if isinstance(value, list) else [value]:
            if isinstance(one, dict):
                if set(one) == {"@id"}:
                    yield name, one["@id"]
                else:
                    yield from references(one)


def test_provenance_uses_published_names_alone(made):
    document = read(made, "provenance.jsonld")
    assert set(document) == {"@context", "@graph"} and len(set(test_labels.names_in(document))) > 12
    assert list(test_labels.strange(document)) == []


def test_every_reference_is_to_something(made):
    document = read(made, "provenance.jsonld")
    nodes = {node["@id"] for node in document["@graph"]}
    assert len(nodes) == len(document["@graph"])
    for node in document["@graph"]:
        for name, target in references(node):
            assert target in nodes or name == "schema:archivedAt", (node["@id"], name, target)
    for name in nodes:
        if name.startswith("files/"):
            assert (made.folder / "data" / name).is_file()


def derived(document):
    found = {}
    for node in document["@graph"]:
        found[node["@id"]] = [target for name, target in references(node) if name == "prov:wasDerivedFrom"]
    return found


def test_the_product_goes_back_to_its_source(made):
    document = read(made, "provenance.jsonld")
    beneath = derived(document)
    assert beneath["#product"] == ["#work-ours", "#work-slab"] and beneath["#work-ours"] == ["#work-tinted"] and beneath["#work-tinted"] == ["#work-gull"]
    assert beneath["#work-gull"] == []
    nodes = {node["@id"]: node for node in document["@graph"]}
    assert nodes["#work-ours"]["prov:wasAttributedTo"] == [{"@id": "#shop"}]
    decision = next(node for name, node in nodes.items() if name.startswith("#decision-"))
    assert decision["@type"] == "prov:Activity" and decision["prov:wasAssociatedWith"]["prov:actedOnBehalfOf"] == {"@id": "#shop"}


def test_nothing_is_derived_from_itself(made):
    beneath = derived(read(made, "provenance.jsonld"))

    def walk(name, above):
        assert name not in above, above
        for one in beneath.get(name, ()):
            walk(one, (*above, name))

    for name in beneath:
        walk(name, ())


# --- what cannot be made ---------------------------------------------------------------------------------

def test_a_changed_file_stops_the_package(tmp_path):
    catalogue = test_sheet.filled(tmp_path / "catalogue")
    sha = next(row[0] for row in catalogue.db.execute("SELECT sha256 FROM files WHERE media_type = 'application/pdf'"))
    files.path_of(catalogue, sha).write_bytes(b"%PDF-1.4 forged")
    with pytest.raises(RegistryError, match="was changed on disk"):
        bag.make(catalogue, "sign", tmp_path / "package", DAY)
    assert not (tmp_path / "package").exists()


@pytest.fixture
def command(catalogue, capsys):
    return kept.Command(catalogue.folder, capsys)


def test_the_command(command, tmp_path):
    code, out, _ = command("bag", "sign", str(tmp_path / "package"), "--on", "2026-07-01")
    seal = hashlib.sha256((tmp_path / "package/tagmanifest-sha256.txt").read_bytes()).hexdigest()
    assert code == 0 and seal in out and "Not legal advice." in out
    assert command("bag", "--check", str(tmp_path / "package"))[0] == 0
    assert "is there already and not empty" in command.refused("bag", "sign", str(tmp_path / "package"))
    assert "There is no job 'tern'" in command.refused("bag", "tern", str(tmp_path / "other"))


def test_a_job_with_nothing_has_a_package(catalogue, tmp_path):
    jobs.add(catalogue, key="bare", title="Nothing yet", markets=["US"])
    folder = bag.make(catalogue, "bare", tmp_path / "bare", DAY).folder
    assert check(folder).valid and independent(folder) == []
