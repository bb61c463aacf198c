"""The provenance sheet as HTML: what `sheet.collect` gathered, in the order in which a reader asks for it."""

from registry.catalogue import support, words
from registry.exchange.markup import day, esc, field, items, label, page as whole, picture, section, stamp, table, value, where
from registry.exchange.sheet_reasons import answers, beside, marks, reasons, rules

PURPOSE = {"sale": "for sale", "commission": "commission", "gift": "gift", "display": "for display"}


def page(found, pictures, data=""):
    """The whole page for what was collected; `pictures` are addresses by SHA-256, `data` an element for programs."""
    body = "".join((
        _head(found, pictures), answers(found), _decisions(found), _chain(found, pictures), _facts(found), reasons(found), rules(found),
        marks(found), _permissions(found), beside(found), _private(found), _foot(found)))
    return whole(f"Provenance sheet: {found['job']['title']}", f"<main>{body}</main>{data}")


def titled(work):
    """The title of a work, its key when it has none."""
    return work["title"] or work["key"]


def _head(found, pictures):
    job, works = found["job"], {work["key"]: work for work in found["works"]}
    first = works.get(found["uses"][0]["work"]) if found["uses"] else None
    rows = [
        ("Product", field("job.product", job["product"])),
        ("Purpose", field("job.purpose", PURPOSE.get(job["purpose"], job["purpose"]))),
        ("Pieces", field("job.quantity", job["quantity"])),
        ("Markets", field("job.markets", ", ".join(job["markets"]))),
        ("Wording", field("job.wording", job["wording"])), ("Lettering", field("job.lettering", job["lettering"])),
        ("Due", field("job.due", day(job["due"]))), ("Sold", field("job.sold_on", day(job["sold_on"]))),
        ("Job", field("job.key", job["key"])),
    ]
    facts = "".join(f"<dt>{name}</dt><dd>{shown}</dd>" for name, shown in rows if shown)
    image = ""
    if first:
        image = f'<figure>{picture(pictures.get(first["picture"]), titled(first))}<figcaption>{esc(titled(first))}</figcaption></figure>'
    return (f'<header class="head{"" if image else " bare"}"><div>{field("shop", found["shop"], "p", "shop")}'
            f'{field("job.title", job["title"], "h1")}<p class="what">Provenance sheet of {day(found["as_of"])}: '
            'what it is made from, what is known of that, and what was decided.</p>'
            f'<dl>{facts}</dl></div>{image}</header>')


# --- from source to product --------------------------------------------------------------------------

def _chain(found, pictures):
    works = {work["key"]: work for work in found["works"]}
    shown, parts = {found["uses"][0]["work"]} if found["uses"] else set(), []
    for number, use in enumerate(found["uses"]):
        steps = [_step(works[key], pictures, key not in shown) for key in use["chain"]]
        shown |= set(use["chain"])
        heading = f"<h3>As {esc(use['part'])}: {esc(titled(works[use['work']]))}</h3>" if len(found["uses"]) > 1 else ""
        parts.append(f'{heading}<ol class="chain">{"".join(steps)}{_product(found, use, number)}</ol>')
    return section("From source to product", "".join(parts) or "<p>No work is recorded as used.</p>")


def _step(work, pictures, with_picture):
    inside = "".join(f"<div>{line}</div>" for line in _lines(work) if line)
    image = picture(pictures.get(work["picture"]), titled(work)) if with_picture and work["picture"] else ""
    return f'<li><div class="step"><div>{inside}</div>{image}</div></li>' if image else f"<li>{inside}</li>"


def _lines(work):
    name, published, kind = f"work.{work['key']}", work["first_published"], (work["kind"] or "").replace("_", " ")
    yield f'<b>{field(f"{name}.title", titled(work))}</b> <span class="hint">[{esc(work["key"])}] {esc(kind)}</span>'
    since = f"first published {field(f'{name}.first_published', day(published))}" if published else ""
    yield ", ".join(part for part in (field(f"{name}.makers", work["makers"]), since) if part)
    origin = words.ORIGINALITY[work["originality"]] if work["based_on"] else "the original"
    origin = "made by the shop" if work["own"] else origin
    yield f'<span class="hint">{esc(origin)}</span>' if origin else ""
    yield _traits(work)
    terms = field(f"{name}.access_terms", work["access_terms"])
    yield f'<span class="small">Terms of the source: {terms}</span>' if work["access_terms"] else ""


def _traits(work):
    shown = ", ".join(trait["name"] + (f" ({trait['note']})" if trait["note"] else "") for trait in work["traits"])
    return f'<span class="small">Shown here first: {field("work." + work["key"] + ".traits", shown)}</span>' if shown else ""


def _product(found, use, number):
    shows = f'; shows {field(f"use.{number}.traits", ", ".join(use["traits"]))}' if use["traits"] else ""
    changes = f'; changed by hand: {field(f"use.{number}.changes", use["changes"])}' if use["changes"] else ""
    named = esc(found["job"]["product"] or found["job"]["title"])
    return (f'<li class="end"><b>{named}</b> <span class="hint">the product</span>'
            f'<div class="small">uses it as {esc(use["part"])}{shows}{changes}</div></li>')


# --- facts and evidence ------------------------------------------------------------------------------

def _facts(found):
    parts, told = [], set()
    for work in found["works"]:
        facts = [fact for fact in found["facts"] if fact["work"] == work["key"]]
        weighty = [fact for fact in facts if fact["decides_in"] or fact["evidence"]]
        rows = [_fact(fact, told, found["answer"]["markets"]) for fact in weighty]
        rest = "; ".join(f'{esc(label(fact["fact"]))}: {field(_path(fact), value(fact["value"]))}' for fact in facts if fact not in weighty)
        if facts:
            heads = ("Fact", "As recorded", "An answer hangs on it in", "Rests on")
            parts.append(f"<h3>{esc(titled(work))}</h3>" + table(heads, rows, "facts"))
        if rest:
            parts.append(f'<p class="small">{"Also on" if rows else "On"} record, without evidence,'
                         f' and no answer hangs on it: {rest}.</p>')
    return section("Facts, and what they rest on", _weighed(found), *parts)


def _weighed(found):
    decisive = [fact for fact in found["facts"] if fact["decides_in"]]
    if not decisive:
        return ""
    rests = sum(fact["rests_on_evidence"] for fact in decisive)
    return (f"<p>The answers hang on {len(decisive)} of these facts;"
            f" {rests} of them rest on evidence, {len(decisive) - rests} do not.</p>")


def _path(fact):
    return f"fact.{fact['work']}.{fact['fact']}"


def _fact(fact, told, markets):
    """The row of one fact; evidence in `told` was described before and is only named again."""
    named = f'<span class="decides">{esc(label(fact["fact"]))}</span>' if fact["decides_in"] else esc(label(fact["fact"]))
    grade = "rests" if fact["rests_on_evidence"] else "loose" if fact["decides_in"] else ""
    proofs = [esc(one["id"]) + ", as above" if one["id"] in told else _proof(one) for one in fact["evidence"]]
    told |= {one["id"] for one in fact["evidence"]}
    basis = field(f"{_path(fact)}.basis", support.WORDS[fact["basis"]])
    rests = basis + "".join(f'<div class="small">{proof}</div>' for proof in proofs)
    decides = esc(_places(fact["decides_in"], markets))
    return named, field(_path(fact), value(fact["value"])), decides, f'<div class="{grade}">{rests}</div>'


def _places(codes, markets):
    """The places in short: "US, all of EU" or "US, 20 of EU" where many members of a group are meant."""
    told, left = [], list(codes)
    for market in markets:
        members = [place["place"] for place in market["places"] if place["place"] in left]
        if len(market["places"]) > 1 and len(members) > 3:
            told.append(f"{'all' if len(members) == len(market['places']) else len(members)} of {market['market']}")
            left = [code for code in left if code not in members]
    return ", ".join([*left, *told])


def _proof(one):
    path = f"evidence.{one['id']}"
    parts = [*(field(f"{path}.{name}", one[name]) for name in ("kind", "title", "place", "url")),
             f"seen {field(f'{path}.seen_on', day(one['seen_on']))}" if one["seen_on"] else "",
             f"by {field(f'{path}.seen_by', one['seen_by'])}" if one["seen_by"] else "",
             f"file {field(f'{path}.file', one['file'][:16])}…" if one["file"] else "", field(f"{path}.note", one["note"])]
    told = ", ".join(part for part in parts if part) or "no details"
    return f"{esc(one['id'])}: {told}" + ("" if one["still_as_then"] else " <b>(the fact was altered since)</b>")


# --- permissions, decisions, the end -------------------------------------------------------------------

def _permissions(found):
    rows = [_permission(one) for one in found["permissions"]]
    credits = items([f"{esc(one['work'])}: {esc(one['credit_line'])}" for one in found["answer"]["credits"]])
    given = section("Permissions", table(("No.", "What", "Covers", "Credit line"), rows), name="keep")
    return given + section("Credit lines owed", credits, name="keep")


def _permission(one):
    kind = f"{one['kind']}{' ' + one['spdx'] if one['spdx'] else ''}"
    what = f"{kind} of {one['licensor'] or 'somebody not named'} for {one['work']}"
    return esc(one["id"]), esc(what), _scope(one), field(f"permission.{one['id']}.credit_line", one["credit_line"])


def _scope(one):
    parts = [", ".join(one["uses"]), ", ".join(map(where, one["places"])), ", ".join(one["media"]),
             f"{one['quantity']} pieces" if one["quantity"] else "",
             f"from {day(one['valid_from'])}" if one["valid_from"] else "", f"to {day(one['valid_to'])}" if one["valid_to"] else "",
             f"document {one['document'][:16]}…" if one["document"] else ""]
    return esc("; ".join(part for part in parts if part))


def _decisions(found):
    if not found["decisions"]:
        return section("Decision", "<p>Nobody has decided about this job yet.</p>", name="keep")
    heading = "Decision" if len(found["decisions"]) == 1 else "Decisions, the last one first"
    return section(heading, "".join(map(_decision, reversed(found["decisions"]))))


def _decision(one):
    path = f"decision.{one['row']}"
    reason = f"Against a hold in {', '.join(one['against'])}, with the reason:" if one["against"] else "Reason given:"
    although = f'<p class="beware"><b>{esc(reason)}</b> {field(f"{path}.although", one["although"])}</p>' if one["although"] else ""
    then_was = f' When it was decided: {esc("; ".join(one["then"]))}.' if one["then"] else ""
    since = f'<p class="beware"><b>{esc(one["says"][:1].upper() + one["says"][1:])}.</b>{then_was}</p>' if one["says"] else ""
    then = " ".join(f'{esc(where(market["market"]))} {stamp(market["decision"], words.MARKET[market["decision"]])}'
                    for market in one["markets"])
    by, note, digest = (field(f"{path}.{name}", one[name]) for name in ("by", "note", "digest"))
    return (f'<div class="keep"><p><b>{by}</b>, {day(one["at"])}: {note}</p>{since}{although}<p>{then}</p>'
            f'<p class="hint">Row {one["row"]} of the ledger, digest <code>{digest}</code></p></div>')


def _private(found):
    if not found["private"]:
        return ""
    rows = "".join(f"<dt>{name.title()}</dt><dd>{field(f'job.{name}', text)}</dd>" for name, text in found["private"].items() if text)
    return f'<section class="private"><h2>For the shop only</h2><dl>{rows}</dl></section>' if rows else ""


def _foot(found):
    made, row = esc(found["made_at"]), found["ledger"]["row"]
    head, rules_sha256 = field("ledger.head", found["ledger"]["head"]), field("rules_sha256", found["rules_sha256"])
    return (f'<footer><p><b>{esc(found["not_legal_advice"])}</b></p>'
            '<p>"No bar found" says that on these facts no copyright was found to stand in the way. '
            'It is no licence, no clearance of marks, faces or emblems, and no promise.</p>'
            f'<p class="small">Head of the shop\'s ledger when this sheet was made ({made}), row {row}:<br>'
            f'<code>{head}</code><br>The ledger is a chain: whoever keeps this digest can have it proven with '
            '<code>registry verify --head</code> that nothing recorded up to then was changed afterwards. '
            f'Rules on file, SHA-256: <code>{rules_sha256}</code></p></footer>')
