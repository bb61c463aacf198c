"""The part of the provenance sheet that answers: market by market, the reasons, the rules, the marks, what else to mind."""

from registry.catalogue import words
from registry.exchange.markup import day, esc, field, items, section, stamp, table, where

MANY = 8  # members of a group that are named in a line


def answers(found):
    """The table of answers, one row for each market."""
    rows = [(field(f"market.{one['market']}", where(one["market"])), stamp(one["decision"], words.MARKET[one["decision"]]), _told(one)) for one in found["answer"]["markets"]]
    return section(f"Answer on {day(found['as_of'])}", table(("Market", "Answer", "Since, or what stands in the way"), rows, "answers") or "<p>No market is recorded.</p>")


def _told(one):
    since = {"no_bar_found": "since", "hold": "clears on"}.get(one["decision"], "")
    parts = [f"{since} {field('free_from.' + one['market'], day(one['free_from']))}" if one["free_from"] and since else "",
             f"{'held by' if one['decision'] == 'hold' else 'open in'} {esc(_listed(one['held_by']))}" if one["held_by"] else "",
             f"leave off {esc(', '.join(one['leave_off']))}" if one["leave_off"] else "",
             f"no rules on file for {esc(_listed(one['not_on_file']))}" if one["not_on_file"] else ""]
    return "; ".join(part for part in parts if part) or esc({"no_bar_found": "on the facts on record", "hold": "no day known", "not_settled": "a question is open"}[one["decision"]])


def _listed(codes):
    return ", ".join(codes[:MANY]) + (f" and {len(codes) - MANY} more" if len(codes) > MANY else "")


def reasons(found):
    """For each market its sentence; for each of its places every version with its answer and the rules by number."""
    return section("Why", "".join(_market(one) for one in found["answer"]["markets"]))


def _market(one):
    group = len(one["places"]) > 1
    rows = _together(one["places"]) if group else [_version(layer, one["sentence"]) for place in one["places"] for layer in place["layers"]]
    members = table(("Places", "Version", "Answer", "Rules") if group else ("Version", "Answer", "Rules"), rows, "group" if group else "members")
    return f'<h3>{esc(where(one["market"]))} {stamp(one["decision"], words.MARKET[one["decision"]])}</h3>{field("sentence." + one["market"], one["sentence"], "p")}{members}'


def _together(places):
    """The rows of a group: places with the same answer for the same reasons stand in one."""
    alike = {}
    for place in places:
        for layer in place["layers"]:
            alike.setdefault(_version(layer, None), []).append(where(place["place"]))
    return [(esc(", ".join(names)), *row) for row, names in alike.items()]


def _version(layer, said):
    """(version, answer, rules) of one layer; its own sentence only where `said`, the one above, does not hold it."""
    status = words.STATUS.get(layer["status"], layer["status"].replace("_", " "))
    told = f"{status}; permission {layer['permission']}" if layer["permission"] else status
    more = f'<div>{esc(layer["says"])}</div>' if said is not None and layer["says"] not in said else ""
    return esc(f"{layer['title'] or layer['work']} ({layer['role']})"), esc(told) + more, esc(", ".join(rule["id"] for rule in layer["why"]))


def rules(found):
    """Every rule that is named above, once: its sentence, its source, and how that is known."""
    entries = [f'<b>{esc(rule["id"])}</b> {field("rule." + rule["id"], rule["says"])} <cite>{field("cite." + rule["id"], rule["cite"])}</cite> <span class="how">({esc(words.HOW[rule["how"]])})</span>' for rule in found["rules"]]
    return section("Rules of law, with their sources", items(entries, name="rules"))


def marks(found):
    """Marks that were found to match, marks known of the works, and searches that were made."""
    known = found["marks"]
    matches = [f'{esc(one["says"])} <span class="hint">({esc(one["mark"])}, in {esc(_listed(one["places"]))})</span>' for one in known["matches"]]
    linked = [f'{field("mark." + one["key"], one["words"] or "a figure")} <span class="hint">[{esc(one["key"])}]</span> {esc(_mark(one))}' for one in known["linked"]]
    searches = [f'{esc(day(one["at"]))}, {esc(one["by"])} searched {esc(one["place"])} for “{esc(one["words"])}”{esc(_classes(one["classes"]))}: {esc(one["result"])}' for one in known["searches"]]
    parts = [items(matches), f"<h3>Known of the works used</h3>{items(linked)}" if linked else "", f"<h3>Searches made</h3>{items(searches)}" if searches else ""]
    if not any(parts):
        parts = ["<p>No mark on record matches, and no search of a register is recorded.</p>"]
    return section("Marks looked up", *parts, '<p class="hint">What is not found is no clearance: rights may rest on use alone, and registers change.</p>')


def _mark(one):
    parts = [f"owner {one['owner']}" if one["owner"] else "", f"{one['office']} {one['number']}".strip(), one["state"], one["status_words"],
             f"classes {', '.join(map(str, one['classes']))}" if one["classes"] else "", f"avoid: {one['avoid']}" if one["avoid"] else ""]
    return "; ".join(part for part in parts if part)


def _classes(numbers):
    return f" in classes {', '.join(map(str, numbers))}" if numbers else ""


def beside(found):
    """What is to be kept in mind beside copyright, each once, and what was to be done first."""
    cautions = {one["id"]: one for market in found["answer"]["markets"] for one in market["cautions"]}
    entries = [f'{esc(one["says"])} <span class="hint">{esc(one["cite"])} ({esc(words.HOW.get(one["how"], one["how"]))}; {esc(one["id"])})</span>' for one in cautions.values()]
    first = [f'{esc(one["question"])} <span class="hint">Look in: {esc(one["where_to_look"])}.</span>' for one in found["answer"]["do_first"]]
    return section("To be looked at before anything is sold", items(first)) + section("To keep in mind beside copyright", items(entries, name="rules"), "".join(f"<p>{esc(note)}</p>" for note in found["answer"]["notes"]))
