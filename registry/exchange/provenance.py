"""Who made what from what, and who looked at it: the sheet of a job as PROV-O in JSON-LD.

Nodes are named within the document (#work-KEY, #evidence-e1, #decision-12); files by their path beside it.
"""

from registry.exchange.json_ld import ART, context, person


def graph(found, paths):
    """The JSON-LD document for what `sheet.collect` gathered; `paths` are those of kept files by SHA-256."""
    nodes = [_shop(found), _product(found), _making(found), _answer(found), _check(found)]
    nodes += [node for work in found["works"] for node in _work(work)]
    nodes += [node for one in _proofs(found) for node in _evidence(one, paths)]
    nodes += [node for one in found["decisions"] for node in _decision(one)]
    nodes += _files(found, paths)
    filled = [{name: value for name, value in node.items() if value not in (None, "", [])} for node in nodes]
    return {"@context": context("prov", "schema", "dcterms", "xsd"), "@graph": filled}


def _ref(name):
    return {"@id": name}


def _time(moment):
    return {"@value": moment, "@type": "xsd:dateTime"} if moment else None


def _shop(found):
    return {"@id": "#shop", "@type": ["prov:Organization", "schema:Organization"], "schema:name": found["shop"] or "the shop"}


def _product(found):
    used = dict.fromkeys(use["work"] for use in found["uses"])
    return {"@id": "#product", "@type": ["prov:Entity", "schema:Product"], "schema:name": found["job"]["title"],
            "prov:wasDerivedFrom": [_ref(f"#work-{key}") for key in used],
            "prov:wasGeneratedBy": _ref("#making"), "prov:wasAttributedTo": _ref("#shop")}


def _making(found):
    """The production of the job; when it was made is not on record."""
    used = dict.fromkeys(use["work"] for use in found["uses"])
    return {"@id": "#making", "@type": "prov:Activity", "prov:used": [_ref(f"#work-{key}") for key in used],
            "prov:wasAssociatedWith": _ref("#shop")}


def _answer(found):
    markets = "; ".join(f"{one['market']}: {one['decision']}" for one in found["answer"]["markets"])
    works = [_ref(f"#work-{work['key']}") for work in found["works"]]
    proofs = [_ref(f"#evidence-{one['id']}") for one in _proofs(found)]
    return {"@id": "#answer", "@type": ["prov:Entity", "schema:CreativeWork"],
            "schema:name": f"Answer of {found['as_of']} ({markets})", "prov:wasGeneratedBy": _ref("#check"),
            "prov:generatedAtTime": _time(found["made_at"]), "prov:wasDerivedFrom": [*works, *proofs],
            "dcterms:rights": found["not_legal_advice"]}


def _check(found):
    return {"@id": "#check", "@type": "prov:Activity", "prov:endedAtTime": _time(found["made_at"]), "prov:wasAssociatedWith": _ref("#shop"),
            "prov:used": [_ref(f"#work-{work['key']}") for work in found["works"]]}


def _work(work):
    """The work and its makers; the shop's own works are attributed to the shop."""
    makers = [] if work["own"] else work["facts"].get("creators") or []
    names = [f"#work-{work['key']}-maker-{number}" for number, _one in enumerate(makers)]
    kind = "schema:VisualArtwork" if work["kind"] in ART else "schema:CreativeWork"
    yield {"@id": f"#work-{work['key']}", "@type": ["prov:Entity", kind], "schema:name": work["title"] or work["key"],
           "prov:wasDerivedFrom": _ref(f"#work-{work['based_on']}") if work["based_on"] else None,
           "prov:wasAttributedTo": [_ref("#shop")] if work["own"] else [_ref(name) for name in names],
           "dcterms:accessRights": work["access_terms"]}
    for name, one in zip(names, makers):
        node = person(one)
        agent = "prov:Organization" if node["@type"] == "schema:Organization" else "prov:Person"
        yield {"@id": name, **node, "@type": [node["@type"], agent]}


def _proofs(found):
    """Every piece of evidence, each once, in order."""
    return list({one["id"]: one for fact in found["facts"] for one in fact["evidence"]}.values())


def _evidence(one, paths):
    """A document or word, and the looking at it."""
    name, on_the_web = f"#evidence-{one['id']}", one["url"].startswith(("http://", "https://"))
    titled = ", ".join(part for part in (one["kind"], one["title"]) if part)
    yield {"@id": name, "@type": ["prov:Entity", "schema:CreativeWork"],
           "schema:name": titled or f"evidence for {one['fact']}",
           "schema:archivedAt": _ref(one["url"]) if on_the_web else None,
           "prov:wasDerivedFrom": _ref(paths[one["file"]]) if one["file"] in paths else None}
    if one["seen_on"] or one["seen_by"]:
        yield {"@id": f"{name}-seen", "@type": "prov:Activity", "prov:used": _ref(name),
               "prov:endedAtTime": {"@value": one["seen_on"], "@type": "xsd:date"} if one["seen_on"] else None,
               "prov:wasAssociatedWith": _of_the_shop(one["seen_by"]) if one["seen_by"] else None}


def _decision(one):
    yield {"@id": f"#decision-{one['row']}", "@type": "prov:Activity",
           "prov:used": _ref("#answer") if one["as_of"] else None, "prov:endedAtTime": _time(one["at"]),
           "prov:wasAssociatedWith": _of_the_shop(one["by"])}


def _of_the_shop(name):
    return {"@type": ["prov:Person", "schema:Person"], "schema:name": name, "prov:actedOnBehalfOf": _ref("#shop")}


def _files(found, paths):
    shown = {work["picture"]: f"#work-{work['key']}" for work in found["works"] if work["picture"]}
    return [{"@id": path, "@type": ["prov:Entity", "schema:MediaObject"], "schema:sha256": sha, "schema:contentUrl": path,
             "prov:wasDerivedFrom": _ref(shown[sha]) if sha in shown else None} for sha, path in paths.items()]
