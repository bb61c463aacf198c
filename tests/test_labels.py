"""Labels say no more than was found: statements, PREMIS, SPDX, Dublin Core and schema.org, with no invented name."""

import csv
import itertools
import json
from pathlib import Path

import kept
import pytest
from registry.catalogue import evidence, permissions, settings, works
from registry.exchange import json_ld, labels
from registry.facts import edtf

CASES = Path(__file__).parent / "cases"
DAY = edtf.day("2026-07-01")
OPEN = {**kept.GULL, "title": "Of 1950", "publications": [{"date": "1950", "country": "US"}], "created": "1950", "us_renewed": "unknown",
        "creators": [{"name": "Perpetua Quill", "died": "1955", "nationality": ["US"]}]}  # free in Canada, not settled in the US
FREE_STATEMENTS = {"NoC-US", "PDM", "NoC-CR", "NoC-OKLR"}


def terms():
    """The published names by vocabulary, as far as they were read or are marked as from memory."""
    found = {}
    for row in csv.DictReader((CASES / "standard_terms.csv").open(encoding="utf-8")):
        found.setdefault(row["vocabulary"], {})[row["term"]] = row["how"].lower()
    return found


@pytest.fixture(scope="module")
def catalogue(tmp_path_factory):
    found = kept.new(tmp_path_factory.mktemp("labels"))
    settings.put(found, name="Ninepin Slip Workshop")
    works.add(found, kept.GULL, key="gull")
    works.add(found, kept.CRAB | {"us_renewed": True}, key="crab")
    works.add(found, OPEN, key="open")
    works.add(found, kept.GULL, key="scan", based_on="gull", originality="faithful_copy", access_terms="no resale")
    works.add(found, {"title": "Our gull", "kind": "drawing", "created": "2026"}, key="ours", based_on="gull", originality="new_expression", own=True)
    works.add(found, {"title": "Our crab", "kind": "drawing", "created": "2026"}, key="ourcrab", based_on="crab", originality="new_expression", own=True)
    works.add(found, kept.SCRAP, key="scrap")
    works.add(found, {"title": "Vecchio", "kind": "painting", "authorship": "individual", "created": "1890~", "published": True,
                      "creators": [{"name": "Ugo Rasteglio", "died": "1901", "nationality": ["IT"]}], "publications": [{"date": "1891", "country": "IT"}]}, key="vecchio")
    return found


def label(catalogue, key, *codes):
    return labels.label(catalogue, key, codes, DAY)


def said(found):
    """(statement for all, statement for each place, PREMIS status for each place)."""
    names = [one["statement"] and one["statement"]["id"] for one in [found["whole"], *found["places"]]]
    return names[0], names[1:], [one["premis"]["copyrightInformation"]["copyrightStatus"] for one in found["places"]]


@pytest.mark.parametrize("key, codes, whole, places, premis", [
    ("gull", ["US"], "NoC-US", ["NoC-US"], ["pub"]),
    ("gull", ["US", "AQ"], "NoC-US", ["NoC-US", "CNE"], ["pub", "unk"]),   # nothing is said of the place that is not on file
    ("gull", ["US", "GB"], "PDM", ["NoC-US", None], ["pub", "pub"]),
    ("gull", ["GB"], None, [None], ["pub"]),                              # only the US has a statement of its own
    ("gull", ["GB", "AQ"], None, [None, "CNE"], ["pub", "unk"]),
    ("gull", ["AQ"], "CNE", ["CNE"], ["unk"]),
    ("crab", ["US"], "InC", ["InC"], ["cpr"]),
    ("crab", ["US", "AQ"], "InC", ["InC", "CNE"], ["cpr", "unk"]),
    ("open", ["US", "CA"], "UND", ["UND", None], ["unk", "pub"]),
    ("open", ["CA"], None, [None], ["pub"]),
    ("scrap", ["US", "GB"], "UND", ["UND", "UND"], ["unk", "unk"]),
    ("ours", ["US", "GB"], "InC", ["InC", "InC"], ["cpr", "cpr"]),
    ("vecchio", ["US", "GB"], "PDM", ["NoC-US", None], ["pub", "pub"]),
    ("gull", [], None, [], []),
])
def test_which_label_fits(catalogue, key, codes, whole, places, premis):
    assert said(label(catalogue, key, *codes)) == (whole, places, premis)


def test_the_mark_names_the_places_it_is_meant_for(catalogue):
    found = label(catalogue, "gull", "US", "GB", "CA")
    assert found["whole"]["places"] == ["US", "GB", "CA"] and "the United States, the United Kingdom and Canada" in found["whole"]["says"]
    assert "elsewhere, and for marks, faces and other rights, nothing is said" in found["whole"]["says"] and labels.spdx(found) == "CC-PDM-1.0"


def test_terms_of_the_copy_are_told(catalogue):
    found = label(catalogue, "scan", "US")
    assert said(found)[:2] == ("NoC-CR", ["NoC-CR"]) and found["access_terms"] == ["no resale"]
    assert json_ld.of_work(found)["schema:conditionsOfAccess"] == "no resale"


def test_the_shop_s_own_version_is_in_copyright_and_its_source_is_not_hidden(catalogue):
    assert "holds the rights in what it added" in label(catalogue, "ours", "US")["whole"]["says"]
    assert label(catalogue, "ourcrab", "US")["whole"]["says"] == "Likely in copyright in the United States."
    node = json_ld.of_work(label(catalogue, "ours", "US"), "/work/")
    assert node["schema:copyrightHolder"]["schema:name"] == "Ninepin Slip Workshop" and node["schema:isBasedOn"] == {"@id": "/work/gull"}


def test_another_law_that_limits_the_use(catalogue, monkeypatch):
    monkeypatch.setattr(labels, "_status", lambda at, code, line: labels.Status(code, "public_domain", 1, 1, ("it.heritage",) if code == "IT" else (), ("x",)))
    told = said(label(catalogue, "vecchio", "IT", "US"))
    assert told[:2] == ("NoC-OKLR", ["NoC-OKLR", "NoC-US"])


def test_no_label_claims_more_than_was_found(catalogue):
    places = ("US", "GB", "CA", "FR", "AQ")
    for key in ("gull", "crab", "open", "scan", "ours", "ourcrab", "scrap", "vecchio"):
        for number in (1, 2, 3):
            for codes in itertools.combinations(places, number):
                found = label(catalogue, key, *codes)
                statuses = {one["place"]: one["status"] for one in found["places"]}
                whole, each, premis = said(found)
                assert not (set(statuses.values()) & {"in_copyright", "undetermined"} and whole in FREE_STATEMENTS), (key, codes)
                assert whole != "PDM" or (len(codes) > 1 and set(statuses.values()) == {"public_domain"}), (key, codes)
                assert whole != "NoC-US" or [code for code, status in statuses.items() if status == "public_domain"] == ["US"], (key, codes)
                assert "in_copyright" not in statuses.values() or whole == "InC", (key, codes)
                for code, one, status in zip(codes, each, premis):
                    assert one != "NoC-US" or code == "US"
                    assert status == {"public_domain": "pub", "in_copyright": "cpr"}.get(statuses[code], "unk")
                    assert one not in FREE_STATEMENTS or statuses[code] == "public_domain"


# --- the mapping and the published vocabularies ------------------------------------------------------------

def test_statements_are_the_published_ones():
    published = {row["uri"]: row["label"] for row in csv.DictReader((CASES / "rights_vocab.csv").open(encoding="utf-8"))}
    for one in labels.mapping()["statement"]:
        assert published[one["uri"]] == one["label"]
    for one in labels.mapping()["premis"]["status"].values():
        assert published[one["uri"]] == one["label"]


def test_names_are_the_published_ones():
    known = terms()
    for name, vocabulary in labels.mapping()["vocabulary"].items():
        assert set(vocabulary["read"]) <= {term for term, how in known[name].items() if how == "read"}
        assert set(vocabulary["memory"]) <= {term for term, how in known[name].items() if how == "memory"}


def test_every_entry_of_the_mapping_has_a_source():
    table = labels.mapping()
    ids = {one["id"] for one in table["statement"]} | {""}
    for entry in [*table["statement"], *table["place"], *table["whole"]]:
        assert entry["source"] in table["source"]
    assert {entry["statement"] for entry in [*table["place"], *table["whole"]]} <= ids
    for entry in table["map"]:
        for name in entry["to"]:
            prefix, _, term = name.partition(":")
            assert term in table["vocabulary"][prefix]["read"] + table["vocabulary"][prefix]["memory"], name


def names_in(node):
    """Every name of a property or type in a JSON-LD object, with the vocabularies that its context knows."""
    if isinstance(node, list):
        for one in node:
            yield from names_in(one)
    elif isinstance(node, dict):
        for name, value in node.items():
            if name == "@type":
                yield from [value] if isinstance(value, str) else value
            elif not name.startswith("@"):
                yield name
            if name != "@context":
                yield from names_in(value)


def strange(node):
    """Names that no listed vocabulary has, or whose vocabulary is not in the context."""
    table = labels.mapping()["vocabulary"]
    for name in set(names_in(node)):
        prefix, _, term = name.partition(":")
        if prefix not in node["@context"] or node["@context"][prefix] != table[prefix]["uri"] or term not in table[prefix]["read"] + table[prefix]["memory"]:
            yield name


@pytest.mark.parametrize("key", ["gull", "crab", "open", "scan", "ours", "scrap", "vecchio"])
def test_no_name_is_invented(catalogue, key):
    node = json_ld.of_work(label(catalogue, key, "US", "GB"), "https://shop.example/work/")
    assert list(strange(node)) == [] and node["@id"] == f"https://shop.example/work/{key}"
    assert json.loads(json.dumps(node)) == node and None not in node.values()


def test_an_invented_name_is_found():
    assert set(strange({"@context": json_ld.context("schema"), "schema:copyrightStatus": 1, "dcterms:rights": 2, "schema:name": [{"@type": "schema:Painter"}]})) == {
        "schema:copyrightStatus", "dcterms:rights", "schema:Painter"}


def test_dates_that_are_no_plain_days_stay_out_of_schema_org(catalogue):
    node = json_ld.of_work(label(catalogue, "vecchio", "US"))
    assert "schema:dateCreated" not in node and node["schema:temporalCoverage"] == node["dcterms:created"] == "1890~"
    assert node["schema:datePublished"] == "1891" and node["schema:countryOfOrigin"]["schema:name"] == "Italy"


def test_premis_names_day_place_reason_and_evidence(catalogue):
    evidence.add(catalogue, "gull", "publications", "seen", title="page")
    (one,) = label(catalogue, "gull", "US")["places"]
    found = one["premis"]["copyrightInformation"]
    assert (found["copyrightJurisdiction"], found["copyrightStatusDeterminationDate"], found["copyrightApplicableDates"]) == ("US", "2026-07-01", {"startDate": "2024-01-01"})
    assert found["copyrightNote"][-1].startswith("Not legal advice") and found["copyrightDocumentationIdentifier"] == [
        {"copyrightDocumentationIdentifierType": "evidence of this catalogue", "copyrightDocumentationIdentifierValue": "e1", "copyrightDocumentationRole": "publications.date"}]
    (held,) = label(catalogue, "crab", "US")["places"]
    assert held["premis"]["copyrightInformation"]["copyrightApplicableDates"] == {"endDate": "2044-12-31"}
    known = terms()["premis"]
    assert set(found) | set(found["copyrightDocumentationIdentifier"][0]) | {"rightsBasis"} <= set(known)


def test_licences(catalogue):
    permissions.add(catalogue, "crab", "licence", spdx="CC-BY-4.0", credit_line="Crab: P. Quill")
    permissions.add(catalogue, "crab", "licence", spdx="LicenseRef-letter")
    found = label(catalogue, "crab", "US")
    node = json_ld.of_work(found)
    assert labels.spdx(found) == "CC-BY-4.0 OR LicenseRef-letter" and node["schema:license"] == {"@id": "https://spdx.org/licenses/CC-BY-4.0.html"}
    assert node["schema:creditText"] == "Crab: P. Quill"


def test_an_element_for_a_page_cannot_be_ended_early():
    text = json_ld.script({"schema:name": "</script><script>alert(1)</script> & <!--"})
    assert text.count("<") == 2 and text.count("</script>") == 1
    assert json.loads(text.removeprefix('<script type="application/ld+json">').removesuffix("</script>")) == {"schema:name": "</script><script>alert(1)</script> & <!--"}


# --- the command --------------------------------------------------------------------------------------------

@pytest.fixture
def command(catalogue, capsys):
    return kept.Command(catalogue.folder, capsys)


def test_the_command(command):
    code, out, _ = command("label", "gull", "--in", "US,GB", "--on", "2026-07-01")
    told = " ".join(out.split())
    assert code == 0 and "All together: PDM (Public Domain Mark 1.0)" in told and "Not legal advice." in told and "SPDX: CC-PDM-1.0" in told
    found = json.loads(command("label", "gull", "--in", "US,GB", "--on", "2026-07-01", "--json")[1])
    assert found["json_ld"]["@type"] == "schema:VisualArtwork" and found["spdx"] == "CC-PDM-1.0" and found["not_legal_advice"]
    assert command.refused("label", "tern", "--in", "US").startswith("There is no work 'tern'")
