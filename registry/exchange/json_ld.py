"""Labels as JSON-LD in schema.org and Dublin Core, for pages of works and products; every name is one of labels.toml."""

import json
import re

from registry.catalogue.words import ADVICE
from registry.exchange.labels import mapping
from registry.facts import edtf
from registry.rulebook import place_names

_PLAIN = re.compile(r"\d{4}(-\d\d(-\d\d)?)?\Z")
ART = {"drawing", "painting", "print", "photograph", "sculpture", "applied_art", "map", "lettering"}


def context(*names):
    """The @context for these vocabularies, such as schema and dcterms."""
    return {name: mapping()["vocabulary"][name]["uri"] for name in names}


def of_work(found, address=""):
    """The JSON-LD object of a work from its label; `address` stands before its key in @id."""
    record, origin = found["record"], _reference(address, found["record"]["based_on"])
    makers = record["creators"] or ()
    node = {
        "@context": context("schema", "dcterms"), "@id": address + found["work"],
        "@type": "schema:VisualArtwork" if record["kind"] in ART else "schema:CreativeWork",
        "schema:name": found["title"], "dcterms:title": found["title"], "schema:artform": (record["kind"] or "").replace("_", " "),
        "schema:creator": [person(one) for one in makers],
        "dcterms:creator": [one["name"] for one in makers if one.get("name")],
        **_dated(record), "schema:isBasedOn": origin, "dcterms:isVersionOf": origin,
        **_rights(found),
    }
    return _filled(node)


TOLD = {"no_bar_found": "no bar of copyright found on the facts on record", "hold": "on hold", "not_settled": "not settled"}


def of_product(found, address=""):
    """The JSON-LD object of a product from the buyer's part of a sheet (`sheet.for_buyer`)."""
    works = [key for use in found["uses"] for key in use["chain"]]
    markets = [(one["market"], one["decision"]) for one in found["markets"]]
    return _product(found["job"]["key"], found["job"]["title"], works, markets, found["as_of"], address)


def of_answer(job, answer, address=""):
    """The JSON-LD object of a product from a JobRecord and its JobAnswer; `address` stands before the keys of works."""
    works = [layer.work for market in answer.markets for place in market.places for layer in place.layers]
    return _product(job.key, job.title, works, [(one.market, one.decision) for one in answer.markets], edtf.iso(answer.day), address)


def _product(key, title, works, markets, as_of, address):
    rights = [f"{place_names().get(market, market)}: {TOLD[decision]}, as of {as_of}." for market, decision in markets]
    return _filled({
        "@context": context("schema", "dcterms", "prov"), "@id": "#product" if address else key, "@type": ["schema:Product", "prov:Entity"],
        "schema:name": title, "prov:wasDerivedFrom": [{"@id": f"{address}{work}"} for work in dict.fromkeys(works)],
        "dcterms:rights": [*rights, ADVICE] if rights else [],
    })


def person(one):
    """A maker as a node; one that is a legal person is an organization."""
    born, died = one.get("born"), one.get("died")
    body = one.get("legal_person") is True
    return _filled({
        "@type": "schema:Organization" if body else "schema:Person", "schema:name": one.get("name"),
        "schema:birthDate": _plain(born), "schema:deathDate": _plain(died),
        "schema:nationality": [] if body else [country(code) for code in _codes(one.get("nationality"))],
    })


def country(code):
    """A country as a node."""
    return {"@type": "schema:Country", "schema:name": place_names().get(code, code)}


def _codes(named):
    return [code for code in named if code != "unknown"] if isinstance(named, list) else [named] if named and named != "unknown" else []


def _dated(record):
    made, shown = _text(record["created"]), record["first_published"]
    first = next((one.get("country") for one in record["publications"] or ()
                  if _text(one.get("date")) == shown and one.get("country") not in (None, "unknown")), None)
    return {
        "schema:dateCreated": _plain(made), "schema:temporalCoverage": made if made and not _plain(made) else None, "dcterms:created": made,
        "schema:datePublished": _plain(shown), "dcterms:issued": shown, "schema:countryOfOrigin": country(first) if first else None,
    }


def _text(value):
    return str(value) if value not in (None, "unknown") else None


def _plain(value):
    """The date when it is a plain ISO one; other EDTF text is none for schema.org."""
    text = _text(value)
    return text if text and _PLAIN.match(text) else None


def _reference(address, key):
    return {"@id": address + key} if key else None


def _rights(found):
    said = found["whole"]["statement"]
    holder = {"@type": "schema:Organization", "schema:name": found["shop"]} if found["own"] and found["shop"] else None
    sentences = [f"{one['says']} (As of {found['as_of']}.)" for one in found["places"]]
    licences = [{"@id": one["uri"]} for one in found["licences"] if one["uri"]]
    return {
        "dcterms:rights": [*([{"@id": said["uri"]}] if said else []), *sentences, found["whole"]["says"], found["not_legal_advice"]],
        "schema:usageInfo": {"@id": said["uri"]} if said else None, "schema:license": licences, "dcterms:license": licences,
        "schema:creditText": [one["credit_line"] for one in found["licences"] if one["credit_line"]],
        "schema:conditionsOfAccess": found["access_terms"], "dcterms:accessRights": found["access_terms"],
        "schema:copyrightHolder": holder, "dcterms:rightsHolder": holder,
    }


def _filled(node):
    """The node without what is empty; a list of one stands alone."""
    kept = {name: value for name, value in node.items() if value not in (None, "", [], {})}
    return {name: value[0] if isinstance(value, list) and len(value) == 1 and not name.startswith("@") else value
            for name, value in kept.items()}


def script(node):
    """The node as an element for an HTML page; nothing in it can end the element early."""
    text = json.dumps(node, ensure_ascii=False).replace("&", "\\u0026").replace("<", "\\u003c").replace(">", "\\u003e")
    return f'<script type="application/ld+json">{text}</script>'
