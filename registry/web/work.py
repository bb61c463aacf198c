"""The page of one work: picture, versions, facts with their evidence, the answer per place, questions, jobs."""

from functools import lru_cache
from urllib.parse import urlencode

from registry.catalogue import clear, evidence, jobs, marks, permissions, settings, store, support
from registry.clearance.model import NO_BAR, OPEN, WORST
from registry.errors import BadDate
from registry.exchange import json_ld, labels
from registry.facts import edtf
from registry.rulebook import place_names, place_phrases, rulebook
from registry.web import remembered, said, timeline
from registry.web.links import answer_to
from registry.web.page import compose, market_names, page, read

STATUS = {NO_BAR: "public_domain", "hold": "in_copyright", OPEN: "undetermined"}
FEW = 8     # answers that have a card each, whatever they say
ABOVE = 12  # versions made from this one that are shown


@page
async def show(request, datasette):
    """The page /work/KEY with ?in= (markets)."""
    key = request.url_vars["key"]

    def collect(catalogue):
        shop = settings.everything(catalogue)
        names = market_names(catalogue, request, shop["markets"])
        codes, day = settings.opened(catalogue, names, shop["groups"]), store.today()
        found = remembered.value(
            catalogue, ("work", key, tuple(codes), day),
            lambda: collected(clear.desk(catalogue, day, shop), key, codes))
        return {**found, "market_names": names, "shop": shop, "next_question": next_question(found["asks"], key, names)}

    return await compose(datasette, request, "work", collect)


def collected(at, key, codes):
    """All that the page shows of one work, read at a Desk."""
    catalogue, day, (line, above) = at.catalogue, at.ground.day, clear.versions(at, key)
    record = line[-1]
    chains = clear.chains(at, record, codes)
    answers = [placed(code, found) for code, found in chains.items()]
    hang = support.of_layer(at, key, {answer["place"]: answer["layers"][-1].status for answer in answers})
    return {
        "record": record, "line": line, "above": above[:ABOVE], "codes": codes, "day": day, "answers": answers, "cards": folded(answers),
        "drawing": timeline.draw(at.layers[key].work, [_drawn(answer) for answer in answers], day),
        "asks": asked(answers, ("settle", "lift", "first")), "confirm": asked(answers, ("confirm",)),
        "facts": facts_shown(record, clear.once(at, evidence.of_work, key)), "rests": support.told(hang),
        "json_ld": json_ld.script(json_ld.of_work(labels.of_record(at, record, chains), "/work/")),
        "permissions": clear.once(at, permissions.of_work, key), "marks": clear.once(at, marks.of_work, key),
        "jobs": [jobs.get(catalogue, name) for name in clear.once(at, jobs.of_work, key)],
    }


def _drawn(answer):
    """What the drawing of the years needs of an answer."""
    standing = said.OWN if answer["status"] == said.OWN else answer["decision"]
    return answer["name"], standing, answer["earliest"], answer["latest"]


def placed(code, found):
    """The answer of a whole chain in one place: the worst layer counts."""
    decision = max((one.decision for one in found), key=WORST.get)
    status = said.OWN if decision == NO_BAR and found[-1].status == "own_work" else STATUS[decision]
    asks = [ask for one in found if one.decision != NO_BAR for ask in one.asks if ask.kind == "settle"]
    confirm = [ask for one in found for ask in one.asks if ask.kind == "confirm"] if decision == NO_BAR else ()
    return {
        "place": code, "name": place_names().get(code, code), "within": place_phrases().get(code, code),
        "decision": decision, "status": status, "layers": found, "reasoned": any(one.rules for one in found),
        "earliest": max(one.earliest for one in found), "latest": max(one.latest for one in found),
        "waits": list(dict.fromkeys(said.label(ask.fact) for ask in asks)), "stuck": decision == OPEN and not asks,
        "confirm": list(dict.fromkeys(said.label(ask.fact) for ask in confirm)),
    }


def folded(answers):
    """The answers in lists of those that say the same but for the name of the place; each by itself where there are few."""
    if len(answers) <= FEW:
        return [[one] for one in answers]
    found = {}
    for one in answers:
        says = tuple(layer.says.replace(one["within"], "{}") for layer in one["layers"])
        name = (one["status"], one["earliest"], one["latest"], says, *map(tuple, (one["waits"], one["confirm"])))
        found.setdefault(name, []).append(one)
    return list(found.values())


def next_question(asks, key, names):
    """The address where the next of these (Ask, places) is answered: of the work of that key before those beneath; "" for none."""
    facts, own = rulebook().vocabulary.facts, [ask for ask, _places in asks if ask.about == key]
    if any(ask.kind == "settle" and ask.fact in facts for ask in own):
        return f"/work/{key}/ask?{urlencode({'in': ','.join(names)})}"
    beneath = [ask for ask, _places in asks if ask.kind == "settle" and ask.fact in facts]
    ways = [f"/work/{ask.about}/ask?{urlencode({'in': ','.join(names)})}" for ask in beneath]
    return next((way for way in (*ways, *(answer_to(ask) for ask, _places in asks)) if way), "")


def asked(answers, kinds):
    """Each question once: (Ask, names of the places it counts in), those of most places first."""
    found = {}
    for answer in answers:
        for layer in answer["layers"]:
            for ask in layer.asks:
                if ask.kind in kinds:
                    found.setdefault((ask.fact, ask.about, ask.question), (ask, []))[1].append(answer["place"])
    return sorted(found.values(), key=lambda pair: -len(pair[1]))


def facts_shown(record, pieces):
    """Rows (path, label, value as written, how it is read, evidence) of all facts on record, in the vocabulary's order.

    Evidence are pairs: the Evidence, and what was on record when it was added where that is on record no longer.
    """
    vocabulary, by_fact = rulebook().vocabulary, {}
    for piece in pieces:
        then = "" if support.holds(record, piece) else _then(evidence.decoded(piece))
        by_fact.setdefault(piece.fact, []).append((piece, then))
    order = {name: number for number, name in enumerate(vocabulary.of["work"])}
    rows = [_row("own", "own", said.label("own"), True, by_fact, vocabulary)] if record.own else []
    for name, value in sorted(record.facts.items(), key=lambda item: order.get(item[0], 99)):
        if name in ("creators", "publications"):
            for number, one in enumerate(value):
                whose = _owner(name, number, one, value)
                for inner, what in one.items():
                    label = f"{whose}: {said.label(inner).lower()}"
                    rows.append(_row(f"{name}.{number}.{inner}", inner, label, what, by_fact, vocabulary))
        elif name != "id":
            rows.append(_row(name, name, said.label(name), value, by_fact, vocabulary))
    return rows


def _then(value):
    """A value as it was, shortly; lists of makers or publications are too long to be told."""
    return "something else" if isinstance(value, list) and value and isinstance(value[0], dict) else said.value(value) or "nothing"


def _owner(name, number, one, value):
    word = {"creators": "Maker", "publications": "Publication"}[name]
    return one.get("name") or (word if len(value) == 1 else f"{word} {number + 1}")


def _row(path, name, label, value, by_fact, vocabulary):
    owner, fact = path.partition(".")[0], vocabulary.facts.get(name)
    pieces = [pair for one in dict.fromkeys((path, name, owner, f"{owner}.{name}")) for pair in by_fact.get(one, ())] if by_fact else ()
    return {"path": path, "label": label, "value": said.value(value), "reading": _reading(fact, value), "evidence": pieces, "fact": name}


def _reading(fact, value):
    """A date in plain English where that says more than the written form; "" else."""
    if fact is None or fact.type not in ("edtf", "year") or value == "unknown":
        return ""
    return _in_words(str(value))


@lru_cache(maxsize=4096)
def _in_words(text):
    try:
        words = edtf.describe(edtf.parse(text))
    except BadDate:
        return ""
    return "" if words == text else words
