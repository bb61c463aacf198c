"""One question at a time: the fact that settles most for the chosen markets, asked in plain words, until none is left."""

import re
from urllib.parse import urlencode

from registry.catalogue import clear, evidence, settings, store, works
from registry.catalogue.store import transaction
from registry.clearance.model import NO_BAR
from registry.errors import BadFacts, RegistryError
from registry.rulebook import rulebook
from registry.web import body, dates, fields, merge, said, work
from registry.web.evidence import seen_on
from registry.web.page import compose, go, market_names, page, write
from registry.web.work_edit import label_of

CONTRADICTION = "facts.contradiction"  # the rule by which nothing is answered while two facts contradict each other
PUBLICATION = ("published", "publications.0.date", "publications.0.country")
MAKER = ("name", "born", "died", "alive", "nationality")
GROUPS = {"publication": ("publications", "publications.date", "publications.country", "published", "date", "country"),
          "maker": ("creators", "died", "born", "nationality", "alive", "name")}


@page
async def ask(request, datasette):
    """The page /work/KEY/ask with ?fact= (one question), ?skip= (facts with commas) and ?in= (markets)."""
    key = request.url_vars["key"]
    if request.method == "POST":
        return await _answered(request, datasette, key, await body.read(request))
    return await _question(request, datasette, key)


async def _question(request, datasette, key, form=None, errors=None, status=200, differences=()):
    def collect(catalogue):
        return context(catalogue, request, key, form, errors or {}) | {"differences": [(label_of(one.path), one) for one in differences]}

    return await compose(datasette, request, "ask", collect, status)


def context(catalogue, request, key, form, errors):
    """What the template needs: the present answers, the question to ask now, its fields, and those that come after."""
    record, names = works.get(catalogue, key), market_names(catalogue, request)
    codes, day = settings.opened(catalogue, names), store.today()
    answers = [work.placed(code, found) for code, found in clear.chains(clear.desk(catalogue, day), record, codes).items()]
    skipped = [one for one in (request.args.get("skip") or "").split(",") if one]
    waiting = ranked(answers, key)
    left = [one for one in waiting if one[0].fact not in skipped]
    fact = (form.get("fact") if form is not None else None) or request.args.get("fact") or (left[0][0].fact if left else "")
    known = rulebook().vocabulary.facts.get(fact)
    paths = group(fact, record.facts) if known else ()
    flat = fields.flat(record.facts)
    held = {path: flat[path] for path in paths if path in flat}
    return {
        "record": record, "answers": answers, "market_names": names, "day": day, "fact": fact if known else "", "known": known,
        "fields_": [(None if path.count(".") < 2 else label_of(path), fields.field(path, flat.get(path), form, errors)) for path in paths],
        "version": record.version, "base": merge.packed(held), "errors": errors, "form": form, "hows": dates.CHOICES,
        "places": next((places for ask_, places in waiting if ask_.fact == fact), ()),
        "after": [said.label(one.fact) for one, _places in left if one.fact != fact][:6],
        "skip": _address(key, names, [*skipped, *_same(fact)]) if known else "", "skipped": skipped, "elsewhere": elsewhere(answers, key),
        "contradicting": contradicting(answers, record),
        "confirm": work.asked(answers, ("confirm",)), "here": _address(key, names, skipped),
    }


def ranked(answers, key):
    """(Ask, places) about this work, those first that stand first in most places that are not settled."""
    weights, found = {}, {}
    for answer in answers:
        layers = [layer for layer in answer["layers"] if layer.work == key and layer.decision != NO_BAR]
        asks = [ask_ for layer in layers for ask_ in layer.asks if ask_.kind == "settle"]
        for number, ask_ in enumerate(asks):
            weights[ask_.fact] = weights.get(ask_.fact, 0) + 1 / (1 + number)
            found.setdefault(ask_.fact, (ask_, []))[1].append(answer["place"])
    return [found[fact] for fact in sorted(found, key=lambda fact: -weights[fact])]


def elsewhere(answers, key):
    """Asks that wait for facts of a version beneath, or that are no facts of the vocabulary."""
    facts = rulebook().vocabulary.facts
    pairs = work.asked(answers, ("settle",))
    return [(one, places) for one, places in pairs if one.about != key or one.fact not in facts]


def contradicting(answers, record):
    """(fact, label, value as people read it) of the facts on record that cannot all be true; () when there are none."""
    layers = (layer for answer in answers for layer in answer["layers"] if layer.work == record.key)
    torn = [layer for layer in layers if any(rule.id == CONTRADICTION for rule in layer.rules)]
    asked = {ask_.fact for layer in torn for ask_ in layer.asks if ask_.kind == "settle"}
    if not asked:
        return []
    rows = ((row, re.sub(r"\.\d+", "", row["path"])) for row in work.facts_shown(record, ()))
    return [(row["fact"], row["label"], row["reading"] or row["value"]) for row, name in rows
            if asked & {name, row["fact"], name.partition(".")[0]}]


def group(fact, facts):
    """The paths of the fields that are asked together with a fact."""
    people, printed = range(max(1, len(facts.get("creators") or ()))), range(max(1, len(facts.get("publications") or ())))
    if fact in GROUPS["publication"]:
        return PUBLICATION
    if fact in GROUPS["maker"]:
        return tuple(f"creators.{number}.{name}" for number in people for name in MAKER)
    owner = rulebook().vocabulary.facts[fact].of
    if owner == "work":
        return (fact,)
    entries = people if owner == "creator" else printed
    return tuple(f"{'creators' if owner == 'creator' else 'publications'}.{number}.{fact}" for number in entries)


def _same(fact):
    return next((names for names in GROUPS.values() if fact in names), (fact,))


def _address(key, names, skipped):
    rest = {"in": ",".join(names), **({"skip": ",".join(dict.fromkeys(skipped))} if skipped else {})}
    return f"/work/{key}/ask?{urlencode(rest)}"


async def _answered(request, datasette, key, form):
    paths = group(_fact(form), dict.fromkeys(fields.LISTS, [{}] * fields.MOST))
    paths = [path for path in paths if any(name in form.texts for name in (path, *(f"{path}.{part}" for part in ("how", "one", "two"))))]
    typed, errors = fields.read(form, paths)
    errors |= {"seen_on": sentence} if (sentence := seen_on(form.get("seen_on"))) else {}
    before = merge.unpacked(form.get("base"))
    try:
        if errors:
            raise BadFacts("")
        differences = await write(datasette, lambda catalogue: keep(catalogue, key, form, before, typed, paths))
    except RegistryError as error:
        return await _question(request, datasette, key, form, errors or {paths[0] if paths else "fact": str(error)}, 400)
    if differences:
        return await _question(request, datasette, key, form, None, 409, differences)
    return go(form.get("next") if _NEXT.fullmatch(form.get("next")) and form.get("next").startswith(f"/work/{key}/ask") else f"/work/{key}")


_NEXT = re.compile("[!-~]*")  # nothing that could end a header


def _fact(form):
    fact = form.get("fact")
    if fact not in rulebook().vocabulary.facts:
        raise RegistryError(f"“{fact}” is no fact that can be asked.")
    return fact


def keep(catalogue, key, form, before, typed, paths):
    """Keeps the answers and how they are known; Differences instead when somebody else answered the same meanwhile."""
    with transaction(catalogue):
        record = works.get(catalogue, key)
        flat = fields.flat(record.facts)
        values, differences = merge.merged(before, {path: flat[path] for path in paths if path in flat}, typed)
        if any(one.both for one in differences):
            return differences
        facts = fields.nested({**{path: value for path, value in flat.items() if path not in paths}, **values})
        works.change(catalogue, key, record.version, facts=facts)
        if form.get("basis"):
            for path in (path for path in typed if typed[path] != before.get(path)):
                evidence.add(catalogue, key, path, form.get("basis"), **proof(form))
    return ()


def proof(form):
    """The columns of a piece of evidence typed beside a fact."""
    return {"title": form.get("evidence_title"), "place": form.get("evidence_place"),
            "seen_on": dates.plainly(form.get("seen_on")) or None, "seen_by": form.get("seen_by")}


