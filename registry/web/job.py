"""Jobs: the list, the page of one with its answer and decisions, the form, and the decision itself."""

import json

from registry.catalogue import clear, complaints, decisions, jobs, settings, store, support, works
from registry.catalogue.canonical import digest
from registry.catalogue.store import transaction
from registry.clearance.model import HOLD
from registry.errors import BadFacts, Conflict, RegistryError
from registry.exchange import json_ld
from registry.web import body, job_form, merge, said, typed
from registry.web.dates import plainly
from registry.web.page import compose, go, page, read, write

SHOWN = 500
WORDS = {"look_again": "look_again", "look at it again": "look_again", "decision names": "markets",
         **dict.fromkeys(typed.PLACES, "markets"), "is on hold": "although", "name of who": "by"}  # of a refused decision: the field it is about


@page
async def listing(request, datasette):
    """The page /jobs with ?show=open or sold."""
    show = request.args.get("show") or ""

    def collect(catalogue):
        found = [one for one in jobs.listed(catalogue, SHOWN) if not show or (show == "sold") == (one.sold_on is not None)]
        shop = settings.everything(catalogue)
        decided = {one.key: last for one in found if (last := decisions.last(catalogue, one, shop))}
        return {"jobs": found, "decided": decided, "show": show, "shop": shop, "shown": SHOWN}

    return await compose(datasette, request, "jobs", collect)


@page
async def show(request, datasette):
    """The page /job/KEY."""
    return await _page(request, datasette, request.url_vars["key"])


async def _page(request, datasette, key, form=None, errors=None, status=200):
    def collect(catalogue):
        job, day, shop = jobs.get(catalogue, key), store.today(), settings.everything(catalogue)
        rows = reversed(decisions.of_job(catalogue, key))
        return {"job": job, "day": day, "form": form, "errors": errors or {}, "shop": shop,
                "markets": job.markets or shop["markets"], **_answer(catalogue, job, day),
                "works": {use.work: works.get(catalogue, use.work) for use in job.uses},
                "decisions": [decisions.standing(catalogue, job, row, shop) for row in rows],
                "complaints": complaints.of_job(catalogue, key)}

    return await compose(datasette, request, "job", collect, status)


def _answer(catalogue, job, day):
    at = clear.desk(catalogue, day)
    try:
        found = clear.answer(at, job)
    except RegistryError as error:
        return {"answer": None, "problem": str(error), "held": (), "seen": "", "rests": ((), ()), "json_ld": ""}
    held = [one.market for one in found.markets if one.decision == HOLD]
    return {"answer": found, "problem": "", "held": held, "seen": seen(catalogue, job, found),
            "rests": support.told(support.of_job(at, found)),
            "json_ld": json_ld.script(json_ld.of_answer(job, found, "/work/"))}


def seen(catalogue, job, answer):
    """What the job is and what the answer says, in short, so that a decision is taken on what was read and on nothing else."""
    found = {one.market: one.decision for one in answer.markets}
    return json.dumps({"job": digest(decisions.terms(catalogue, job)), "markets": found}, sort_keys=True)


@page
async def decide(request, datasette):
    """The address /job/KEY/decide, to which the decision form of a job is sent."""
    if request.method != "POST":
        return go(f"/job/{request.url_vars['key']}")
    key, form = request.url_vars["key"], await body.read(request, beside=True)
    try:
        if form.long:
            raise RegistryError(" ".join(form.long.values()))
        await write(datasette, lambda catalogue: _decide(catalogue, key, form))
    except RegistryError as error:
        return await _page(request, datasette, key, form, form.long or _beside(error), 409 if isinstance(error, Conflict) else 400)
    return go(f"/job/{key}?done=decided#decisions")


def _decide(catalogue, key, form):
    with transaction(catalogue):
        job, day = jobs.get(catalogue, key), store.today()
        if form.get("seen") and form.get("seen") != seen(catalogue, job, clear.answer(clear.desk(catalogue, day), job, want=0)):
            raise Conflict("The answer is another one than when this page was opened, or the job was changed; read it"
                           " again before you decide. What you typed is still in the form.")
        return decisions.decide(catalogue, key, form.get("by"), form.get("note"), day,
                                form.get("although") or None, plainly(form.get("look_again")) or None, _asked(catalogue, job, form))


def _beside(error):
    """{field: sentence} of a refused decision; under "decide" what no field can mend."""
    text = str(error).replace("--although", "the field for it")
    found = typed.beside(text, WORDS, "decide")
    return {name: says.removeprefix("look_again: ") for name, says in found.items()}


def _asked(catalogue, job, form):
    """The markets that the decision is about, None for all of the job; RegistryError for one whose answer the page did not show."""
    own, named = decisions.terms(catalogue, job)["markets"], typed.places(form.get("markets"))
    for name in named:
        if not set(settings.opened(catalogue, [name])).issubset(settings.opened(catalogue, own)):
            raise RegistryError(f"The decision names {name}, and the job is asked about {', '.join(own)} alone;"
                                " edit the job first, so that the answer there can be read.")
    return named if named and named != own else None


# --- the form -----------------------------------------------------------------------------------------

@page
async def new(request, datasette):
    """The page /job/new: the form of a new job; the check page sends what was checked here."""
    if request.method != "POST":
        return await _form(request, datasette, None, body.asked(request))
    form = await body.read(request, beside=True)
    values, errors = job_form.typed(form)
    try:
        if errors or form.get("look"):
            raise BadFacts("")
        job = await write(datasette, lambda catalogue: _add(catalogue, values))
    except RegistryError as error:
        found = errors or ({} if form.get("look") else job_form.lines(error))
        return await _form(request, datasette, None, form, found, 200 if form.get("look") and not job_form.refusals(form) else 400)
    return go(f"/job/{job.key}?done=job")


def _add(catalogue, values):
    with transaction(catalogue):
        job = jobs.add(catalogue, title=values.get("title", ""))
        return job_form.keep(catalogue, job.key, job.version, values)


@page
async def edit(request, datasette):
    """The page /job/KEY/edit: the form of a kept job, and a merge when two people edit it."""
    key = request.url_vars["key"]
    if request.method != "POST":
        return await _form(request, datasette, key)
    form = await body.read(request, beside=True)
    values, errors = job_form.typed(form)
    try:
        if errors or form.get("look"):
            raise BadFacts("")
        await write(datasette, lambda catalogue: _keep(catalogue, key, form.number("version"), values))
    except Conflict:
        return await _form(request, datasette, key, form, {}, 409, values)
    except RegistryError as error:
        found = errors or ({} if form.get("look") else job_form.lines(error))
        return await _form(request, datasette, key, form, found, 200 if form.get("look") and not job_form.refusals(form) else 400)
    return go(f"/job/{key}?done=saved")


def _keep(catalogue, key, version, values):
    with transaction(catalogue):
        return job_form.keep(catalogue, key, version, values)


async def _form(request, datasette, key, form=None, errors=None, status=200, conflict=None):
    def collect(catalogue):
        job = jobs.get(catalogue, key) if key else None
        now = job_form.flat(job) if job else {}
        differences, shown, base = [], form, merge.unpacked(form.get("base")) if form is not None else now
        if conflict is not None:
            values, differences = merge.merged(base, now, conflict)
            shown, base = body.Form(job_form.as_form(values)), now
        elif form is None:
            shown = body.Form(job_form.as_form(now))
        elif not key and "markets" not in form.texts:
            shown = body.Form({**form.texts, "markets": [", ".join(settings.get(catalogue, "markets"))]})
        rows, problems = job_form.chosen(catalogue, shown)
        kept = conflict is not None or form is None
        version = (job.version if job else 0) if kept else form.get("version")
        return {"job": job, "form": shown, "errors": errors or {}, "rows": rows, "problem": " ".join(problems),
                "offered": job_form.offered(catalogue, shown), "parts": jobs.PARTS, "purposes": jobs.PURPOSES,
                "differences": [(_label(one.path), one) for one in differences],
                "products": job_form.product_names(), "version": version, "base": merge.packed(base),
                "shop": settings.everything(catalogue)}

    return await compose(datasette, request, "job_edit", collect, status)


def _label(path):
    if not path.startswith("use."):
        return said.label(path)
    work, _, part = path[4:].rpartition(".")
    return f"Use of {work} as {part}"
