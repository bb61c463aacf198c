"""The buyer's card as HTML: where the picture comes from, what was found for each market, whom to credit."""

from registry.catalogue import words
from registry.clearance.ground import listed
from registry.exchange.markup import day, esc, field, items, page as whole, picture, section, stamp, table, where, within


def page(found, pictures, data=""):
    """The whole page for the buyer's part of a sheet; `pictures` are addresses by SHA-256, `data` an element for programs."""
    job = found["job"]
    image = pictures.get(found["picture"])
    figure = f'<figure>{picture(image, job["title"])}</figure>' if image else ""
    head = (f'<header class="head{"" if figure else " bare"}"><div>{field("shop", found["shop"], "p", "shop")}'
            f'{field("job.title", job["title"], "h1")}{field("job.product", job["product"], "p", "what")}'
            f'</div>{figure}</header>')
    body = "".join((head, _source(found), _markets(found), _credits(found), _foot(found)))
    return whole(f"Where it comes from: {job['title']}", f'<main class="card">{body}</main>{data}').replace("<body>", '<body class="card">')


def _source(found):
    works = {work["key"]: work for work in found["works"]}
    parts = []
    for use in found["uses"]:
        steps = [_work(works[key]) for key in use["chain"]]
        changes = [f"changed by hand: {esc(use['changes'])}"] if use["changes"] else []
        parts.append((f"<h3>{esc(use['part'].capitalize())}</h3>" if len(found["uses"]) > 1 else "") + items([*steps, *changes], "ol"))
    return section("Where it comes from", *parts)


def _work(work):
    key, published = work["key"], work["first_published"]
    told = [work["makers"], f"first published {day(published)}" if published else ""]
    made = "made by the shop" if work["own"] else ", ".join(part for part in told if part)
    return field(f"work.{key}.title", work["title"] or key) + (f' <span class="hint">{esc(made)}</span>' if made else "")


def _markets(found):
    rows, rests, told = [_market(one) for one in found["markets"]], found["rests"], ""
    if rests["decisive"]:
        facts = "one recorded fact" if rests["decisive"] == 1 else f"{rests['decisive']} recorded facts"
        rest = "rests" if rests["on_evidence"] == 1 else "rest"
        told = f'<p class="small">The answers hang on {facts}, of which {rests["on_evidence"]} {rest} on evidence that the shop keeps.</p>'
    told = "".join(f'<p class="small">{esc(one)}</p>' for one in found["assumed"]) + told
    answers = table(("Place", "Found", ""), rows, "answers")
    return section(f"May it be sold, as looked up on {day(found['as_of'])}", _holds(found), answers, told)


def _market(one):
    latest = " at the latest" if one["at_the_latest"] else ""
    since = f"since {day(one['free_from'])}{latest}" if one["free_from"] and one["decision"] == "no_bar_found" else ""
    near = "a mark on record is like its words: the shop's full sheet names it" if one["marks_near"] else ""
    answer = stamp(one["decision"], words.MARKET[one["decision"]])
    return field(f"market.{one['market']}", where(one["market"])), answer, esc("; ".join(part for part in (since, near) if part))


def _holds(found):
    """What must not be missed where the shop decided: that there is, or was, a hold all the same."""
    if not found["decided"]:
        return ""
    against = found["decided"]["against"]
    held = [one["market"] for one in found["markets"] if one["decision"] == "hold"]
    on, still = day(found["decided"]["at"]), [market for market in against if market in held]
    gone = [market for market in against if market not in held]
    new = [market for market in held if market not in against]
    told = [f"The shop decided on {on} although there is a hold in {_named(still)}." if still else "",
            f"The shop decided on {on} although there was a hold in {_named(gone)} then." if gone else "",
            f"There is a hold in {_named(new)}, which the decision of the shop on {on} did not weigh." if new else ""]
    return "".join(f'<p class="hold beware" role="note"><b>{esc(one)}</b></p>' for one in told if one)


def _named(markets):
    return listed(map(within, markets))


def _credits(found):
    return section("Credit", items([f"{esc(one['work'])}: {esc(one['credit_line'])}" for one in found["credits"]]))


def _foot(found):
    decided, row = found["decided"], found["ledger"]["row"]
    told, head = "", field("ledger.head", found["ledger"]["head"])
    if decided:
        told = f"Decided by the shop on {day(decided['at'])}{_although(found)} (row {decided['row']} of its ledger). "
    return (f'<footer><p>{esc(found["not_legal_advice"])}</p>'
            f'<p class="small">{esc(told)}Reference {field("job.key", found["job"]["key"])}. '
            'The shop keeps the full sheet with its sources. '
            f'Head of its ledger, row {row}: <code>{head}</code></p></footer>')


def _although(found):
    against = found["decided"]["against"]
    return f", although on hold in {_named(against)}" if against else ""
