"""What is due: answers that changed since they were decided, what runs out, sales without a decision, proof that is missing."""

from registry.catalogue import jobs, settings, shelf, standing, store, support, watch, works
from registry.facts import edtf
from registry.rulebook import rulebook
from registry.web import fields, reckoner, remembered, said
from registry.web.page import compose, market_names, page, read, render

FARTHEST = 3660  # days ahead
ASKS, GAPS = 8, 200
SPANS = ((watch.WITHIN, f"{watch.WITHIN} days"), (183, "half a year"), (365, "a year"), (1826, "five years"))


@page
async def show(request, datasette):
    """The page /due with ?within= (days ahead that count as running out)."""
    typed = request.args.get("within", "")
    within = min(int(typed), FARTHEST) if typed.isascii() and typed.isdigit() and len(typed) < 6 else watch.WITHIN

    def collect(catalogue):
        day, names = store.today(), market_names(catalogue)
        facts, places = rulebook().vocabulary.facts, tuple(settings.opened(catalogue, names))
        found = remembered.value(catalogue, ("due", day, within), lambda: watch.due(catalogue, day, within))
        left = standing.behind(catalogue, day, places)
        asks = [(fact, facts[fact], number) for fact, number in shelf.asked_for(catalogue, places, ASKS) if fact in facts]
        altered = [_altered(catalogue, one) for one in found.ending if one.what == watch.ALTERED]
        ending = [(one, wait(one.day, day), address(one)) for one in found.ending if one.what != watch.ALTERED]
        return {"due": found, "altered": altered, "ending": ending, "within": within, "spans": SPANS, "asks": asks,
                "market_names": names, "places": places, "behind": left}

    found = await read(datasette, collect)
    if found["behind"] and await reckoner.catch_up(datasette, found["places"], found["behind"]):
        found = await read(datasette, collect)
    return await render(datasette, request, "due", found)


def _altered(catalogue, ending):
    """(the Ending of a changed job, the title of the job, the rest of what it says)."""
    title = jobs.get(catalogue, ending.key).title
    return ending, title, ending.says.removeprefix(title)


def wait(text, today):
    """How far a day (ISO text) is away, in words."""
    days = edtf.day(text) - today
    if days == 0:
        return "today"
    return f"in {days} day{'' if days == 1 else 's'}" if days > 0 else f"passed {-days} day{'' if days == -1 else 's'} ago"


def address(ending):
    """The page on which an Ending is looked after."""
    kinds = {"permission": f"/permission/{ending.key.removeprefix('p')}", "complaint": f"/complaint/{ending.key}",
             "decision": f"/job/{ending.key}"}
    return kinds.get(ending.what) or f"/mark/{ending.key}"


@page
async def proof(request, datasette):
    """The page /due/proof: facts that answers for jobs hang on and that no evidence is on record for."""

    def collect(catalogue):
        day = store.today()
        missing = remembered.value(catalogue, ("gaps", day), lambda: support.missing(catalogue, day))
        found = missing.gaps
        shown = [(gap, path_of(works.get(catalogue, gap.support.work).facts, gap.support.fact)) for gap in found[:GAPS]]
        return {"unjudged": missing.unjudged, "gaps": shown, "count": len(found), "basis": support.WORDS, "label": said.label}

    return await compose(datasette, request, "due_proof", collect)


def path_of(facts, name):
    """The path of the first recorded fact of that name, such as creators.0.died for died; the name when none is recorded."""
    owner, _, inner = name.rpartition(".")
    paths = (path for path in fields.flat(facts) if path == name or (path.rpartition(".")[2] == inner and path.startswith(owner)))
    return next(paths, name)
