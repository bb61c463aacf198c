"""The part of the provenance sheet that answers: market by market, the reasons, the rules, the marks, what else to mind."""

from registry.catalogue import words
from registry.exchange.markup import day, esc, field, items, section, stamp, table, where

MANY = 8  # members of a group that are named in a line


def answers(found):
    """The table of answers, one row for each market."""
    rows = [(field(f"market.{one['market']}", where(one["market"])), _stamp(one), _told(one))
            for one in found["answer"]["markets"]]
    shown = table(("Market", "Answer", "Since, or what stands in the way"), rows, "answers")
    assumed = dict.fromkeys(says for one in found["answer"]["markets"] for says in one["taken_as_not_shown"])
    told = "".join(f'<p class="small">{esc(one)}</p>' for one in assumed)
    return section(f"Answer on {day(found['as_of'])}", shown or "<p>No market is recorded.</p>", told)


def _stamp(one):
    return stamp(one["decision"], words.MARKET[one["decision"]])


def _told(one):
    since = {"no_bar_found": "since", "hold": "clears on"}.get(one["decision"], "")
    latest = " at the latest" if one["at_the_latest"] else ""
    parts = [f"{since} {field('free_from.' + one['market'], day(one['free_from']))}{latest}" if one["free_from"] and since else "",
             f"{'held by' if one['decision'] == 'hold' else 'open in'} {esc(_listed(one['held_by']))}" if one["held_by"] else "",
             f"leave off {esc(', '.join(one['leave_off']))}" if one["leave_off"] else "",
             f"<b>{esc(one['marks_near'])}</b>" if one["marks_near"] else "",
             f"no rules on file for {esc(_listed(one['not_on_file']))}" if one["not_on_file"] else ""]
    plain = {"no_bar_found": "on the facts on record", "hold": "no day known", "not_settled": "a question is open"}
    return "; ".join(part for part in parts if part) or esc(plain[one["decision"]])


def _listed(codes):
    return ", ".join(codes[:MANY]) + (f" and {len(codes) - MANY} more" if len(codes) > MANY else "")


def reasons(found):
    """For each market its sentence; for each of its places every version with its answer and the rules by number."""
    return section("Why", "".join(_market(one) for one in found["answer"]["markets"]))


def _market(one):
    if len(one["places"]) > 1:
        members = table(("Places", "Version", "Answer", "Rules"), _together(one["places"]), "group")
    else:
        rows = dict.fromkeys(_version(layer, one["sentence"]) for place in one["places"] for layer in place["layers"])
        members = table(("Version", "Answer", "Rules"), rows, "members")
    sentence = field("sentence." + one["market"], one["sentence"], "p")
    return f'<h3>{esc(where(one["market"]))} {_stamp(one)}</h3>{sentence}{members}'


def _together(places):
    """The rows of a group: places with the same answer for the same reasons stand in one."""
    alike = {}
    for place in places:
        for layer in place["layers"]:
            alike.setdefault(_version(layer, None), {})[where(place["place"])] = None
    return [(esc(", ".join(names)), *row) for row, names in alike.items()]


def _version(layer, said):
    """(version, answer, rules) of one layer; its own sentence only where `said`, the one above, does not hold it."""
    status = words.STATUS.get(layer["status"], layer["status"].replace("_", " "))
    told = f"{status}; permission {layer['permission']}" if layer["permission"] else status
    more = f'<div>{esc(layer["says"])}</div>' if said is not None and layer["says"] not in said else ""
    version = f"{layer['title'] or layer['work']} ({layer['role']})"
    return esc(version), esc(told) + more, esc(", ".join(rule["id"] for rule in layer["why"]))


def rules(found):
    """Every rule that is named above, once: its sentence, its source, and how that is known."""
    entries = [_rule(one) for one in found["rules"]]
    return section("Rules of law, with their sources", items(entries, name="rules"))


def _rule(one):
    says, cite = field("rule." + one["id"], one["says"]), field("cite." + one["id"], one["cite"])
    return f'<b>{esc(one["id"])}</b> {says} <cite>{cite}</cite> <span class="how">({esc(words.HOW[one["how"]])})</span>'


def marks(found):
    """Marks that were found to match, marks known of the works, and searches that were made."""
    known = found["marks"]
    parts = [items([_match(one) for one in known["matches"]]),
             _headed("Known of the works used", [_linked(one) for one in known["linked"]]),
             _headed("Searches made", [_search(one) for one in known["searches"]])]
    if not any(parts):
        parts = ["<p>No mark on record matches, and no search of a register is recorded.</p>"]
    beware = "What is not found is no clearance: rights may rest on use alone, and registers change."
    return section("Marks looked up", *parts, f'<p class="hint">{beware}</p>')


def _headed(title, entries):
    return f"<h3>{title}</h3>{items(entries)}" if entries else ""


def _match(one):
    return f'{esc(one["says"])} <span class="hint">({esc(one["mark"])}, in {esc(_listed(one["places"]))})</span>'


def _linked(one):
    named = field("mark." + one["key"], one["words"] or "a figure")
    return f'{named} <span class="hint">[{esc(one["key"])}]</span> {esc(_mark(one))}'


def _search(one):
    sought = f'“{esc(one["words"])}”{esc(_classes(one["classes"]))}'
    return f'{esc(day(one["at"]))}, {esc(one["by"])} searched {esc(one["place"])} for {sought}: {esc(one["result"])}'


def _mark(one):
    parts = [f"owner {one['owner']}" if one["owner"] else "", f"{one['office']} {one['number']}".strip(), one["state"], one["status_words"],
             f"classes {', '.join(map(str, one['classes']))}" if one["classes"] else "", f"avoid: {one['avoid']}" if one["avoid"] else ""]
    return "; ".join(part for part in parts if part)


def _classes(numbers):
    return f" in classes {', '.join(map(str, numbers))}" if numbers else ""


def beside(found):
    """What is to be kept in mind beside copyright, each once, and what was to be done first."""
    answer = found["answer"]
    cautions = {one["id"]: one for market in answer["markets"] for one in market["cautions"]}
    entries = [_caution(one) for one in cautions.values()]
    first = [f'{esc(one["question"])} <span class="hint">Look in: {esc(one["where_to_look"])}.</span>'
             for one in answer["do_first"]]
    notes = "".join(f"<p>{esc(note)}</p>" for note in answer["notes"])
    return (section("To be looked at before anything is sold", items(first))
            + section("To keep in mind beside copyright", items(entries, name="rules"), notes))


def _caution(one):
    how = words.HOW.get(one["how"], one["how"])
    return f'{esc(one["says"])} <span class="hint">{esc(one["cite"])} ({esc(how)}; {esc(one["id"])})</span>'
