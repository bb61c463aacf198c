"""The forms of a complaint: a new one, and an answer to one. Both go into the ledger, with their documents, or neither."""

from registry.catalogue import complaints, files, jobs, marks, store
from registry.catalogue.store import transaction
from registry.errors import RegistryError
from registry.facts import edtf
from registry.web import body, typed
from registry.web.complaints import shown
from registry.web.mark_edit import some_works
from registry.web.page import compose, go, page, write

TEXTS = ("sender", "claim", "where", "reference", "note")
LISTS = ("jobs", "works", "marks")
MOST = 60  # jobs that can be ticked; others are named by their keys
WORDS = {"from whom": "sender", "what it claims": "claim", "needs the jobs": "jobs", "no job": "more_jobs",
         "no work": "works", "mark": "marks", "received: ": "received", "deadline: ": "deadline",
         "The deadline is": "deadline", "file": "file"}
ANSWER = {"name of who gave it": "by", "before the complaint": "answered", "answered: ": "answered", "outcome": "outcome", "file": "file"}


@page
async def new(request, datasette):
    """The page /complaint/new with ?job=, work= or mark= (a key): the form, and what it sends."""
    if request.method != "POST":
        return await _form(request, datasette, body.Form({name: request.args.getlist(name[:-1]) for name in LISTS}), {})
    form, errors = await body.read(request), {}
    days = {name: typed.day(form, name, errors) for name in ("received", "deadline")}
    errors |= _lacking(form, sender="Say from whom it comes.", claim="Say what it claims.")
    try:
        if errors:
            raise RegistryError("")
        kept = await write(datasette, lambda catalogue: keep(catalogue, form, days))
    except RegistryError as error:
        return await _form(request, datasette, form, errors or typed.beside(error, WORDS, "claim"), 400)
    return go(f"/complaint/{kept.key}?done=complaint")


def _lacking(form, **sentences):
    """The sentences for those of the fields that were left empty."""
    return {name: sentence for name, sentence in sentences.items() if not form.get(name)}


async def _form(request, datasette, form, errors, status=200):
    def collect(catalogue):
        latest = sorted(jobs.listed(catalogue), key=lambda job: (job.sold_on or "", job.id), reverse=True)[:MOST]
        ticked, ticks = typed.keys(form, "jobs"), [(job.key, _said(job)) for job in latest]
        others = [*(key for key in ticked if key not in dict(ticks)), *typed.keys(form, "more_jobs")]
        return {"form": form, "errors": errors, "today": edtf.iso(store.today()), "ticks": ticks, "ticked": ticked,
                "others": ", ".join(others), "waiting": typed.waiting(form, "file"),
                "known_works": some_works(catalogue),
                "known_marks": [(one.key, one.words) for one in marks.listed(catalogue, limit=200)]}

    return await compose(datasette, request, "complaint_new", collect, status)


def _said(job):
    return f"{job.title}{f', sold {job.sold_on}' if job.sold_on else ''} ({job.key})"


def keep(catalogue, form, days):
    """The new Complaint; without a day of receipt it came today."""
    texts = {name: form.get(name) for name in TEXTS}
    about = {name: typed.keys(form, name) for name in ("works", "marks")}
    named = [*typed.keys(form, "jobs"), *typed.keys(form, "more_jobs")]
    with transaction(catalogue):
        return complaints.add(catalogue, received=days["received"] or edtf.iso(store.today()),
                              deadline=days["deadline"], file=document(catalogue, form), jobs=named, **about, **texts)


def document(catalogue, form):
    """The SHA-256 of the document sent with a form, after it was kept; None when there is none."""
    sent = typed.upload(form, "file")
    return files.add(catalogue, sent.content, sent.name).sha256 if sent else None


@page
async def answer(request, datasette):
    """The address /complaint/KEY/answer: keeps an answer, or what became of the complaint."""
    key = request.url_vars["key"]
    if request.method != "POST":
        return go(f"/complaint/{key}#answer")
    form, errors = await body.read(request), {}
    day = typed.day(form, "answered", errors)
    errors |= _lacking(form, by="Say who answered, or who told what became of it.",
                       says="Say what was said, or what became of it.")
    try:
        if errors:
            raise RegistryError("")
        await write(datasette, lambda catalogue: keep_answer(catalogue, key, form, day))
    except RegistryError as error:
        return await shown(request, datasette, form, errors or typed.beside(error, ANSWER, "says"), 400)
    return go(f"/complaint/{key}?done=answered")


def keep_answer(catalogue, key, form, day):
    """The Complaint with one more answer; without a day it was given today."""
    with transaction(catalogue):
        return complaints.answer(catalogue, key, answered=day or edtf.iso(store.today()), by=form.get("by"),
                                 says=form.get("says"), outcome=form.get("outcome") or "sent",
                                 file=document(catalogue, form))
