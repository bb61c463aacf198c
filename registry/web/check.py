"""Check before anything is made: works, traits, wording, markets, with "what if" for facts that are not known."""

from registry.catalogue import clear, jobs, settings, store
from registry.clearance import suppose
from registry.errors import RegistryError
from registry.rulebook import rulebook
from registry.web import body, job_form, said
from registry.web.page import compose, page

WANT = 6  # questions that are ranked, and offered as switches
INSTEAD = {"publications": "date", "creators": "died", "publications.date": "date", "publications.country": "country"}


@page
async def show(request, datasette):
    """The page /check: ?work=KEY&product=&purpose=&markets=&wording=..., ?job=KEY to begin with a job, ?if.KEY.fact= to suppose."""
    given = body.asked(request)
    part, refused = "check_answer" if given.get("part") == "answer" else "check", job_form.refusals(given)
    return await compose(datasette, request, part, lambda catalogue: _collected(catalogue, given, refused), 400 if refused else 200)


def _collected(catalogue, given, refused):
    form = _begun(catalogue, given)
    found, errors = job_form.columns(form)
    found["markets"] = found.get("markets") or settings.get(catalogue, "markets") or ["US"]
    rows, problems = job_form.chosen(catalogue, form)
    day = store.today()
    context = {"form": form, "rows": rows, "offered": job_form.offered(catalogue, form),
               "parts": jobs.PARTS, "purposes": jobs.PURPOSES, "errors": errors,
               "markets": found["markets"], "products": job_form.product_names(), "day": day, "answer": None, "switches": [], "told": [],
               "shop": settings.everything(catalogue), "of_job": form.get("job"), "problem": "", "unknown": ()}
    if refused:
        return context | {"problem": " ".join(dict.fromkeys(refused.values()))}
    if problems:
        return context | {"problem": " ".join(problems), "unknown": problems}
    if not (rows or found.get("wording")):
        return context
    try:
        return context | _answered(catalogue, form, job_form.unsaved(form, found), day)
    except RegistryError as error:
        return context | {"problem": str(error)}


def _begun(catalogue, given):
    """The form as given; one that only names a job is filled with what that job holds."""
    if not given.get("job") or any(name in given.texts for name in ("product", "work.0", "work")):
        return given
    values = job_form.flat(jobs.get(catalogue, given.get("job")))
    return body.Form(job_form.as_form(values) | given.texts, long=given.long)


def _answered(catalogue, form, job, day):
    """The answer as things are, or as supposed, with the switches that can be turned."""
    told = suppositions(form)
    plain = clear.answer(clear.desk(catalogue, day), job, None, (), WANT)
    found = clear.answer(clear.desk(catalogue, day), job, None, told, 0) if told else plain
    return {"answer": found, "plain": plain, "told": [(one.about, said.label(one.path), said.value(one.value)) for one in told],
            "switches": switches(form, [one.ask for one in plain.next])}


def suppositions(form):
    """The Suppositions of a form: fields such as if.w1.us_renewed that are not empty."""
    found = []
    for name in form.texts:
        if name.startswith("if.") and form.get(name):
            key, _, fact = name[3:].rpartition("/")
            found.append(suppose.read(f"{key}:{fact}={form.get(name)}"))
    return found


def switches(form, asks):
    """What can be supposed: (field, label, about, kind, choices, value) for questions about facts, and for what is supposed now."""
    wanted = [(ask.about, _fact(ask.fact)) for ask in asks if _fact(ask.fact)]
    wanted += [tuple(name[3:].rpartition("/")[::2]) for name in form.texts if name.startswith("if.") and form.get(name)]
    return [_switch(form, about, fact) for about, fact in dict.fromkeys(wanted)]


def _fact(name):
    """The fact by whose name something is supposed; "" when it cannot be."""
    if name == "originality":
        return name
    return INSTEAD.get(name) or (name if name in rulebook().vocabulary.facts else "")


def _switch(form, about, fact):
    field, facts = f"if.{about}/{fact}", rulebook().vocabulary.facts
    known = facts.get(fact) or facts.get(fact.rpartition(".")[2])  # a path such as creators.0.died
    if fact == "originality":
        kind, choices = "select", (("faithful_copy", "a faithful copy"), ("new_expression", "something new"))
    elif known is None:  # a term of a permission
        return {"field": field, "label": said.label(f"permission_{fact}"), "about": about, "kind": "text",
                "choices": (), "value": form.get(field)}
    else:
        kind = "select" if known.type in ("bool", "choice") else "text"
        choices = (("yes", "yes"), ("no", "no")) if known.type == "bool" else tuple((one, one.replace("_", " ")) for one in known.choices)
    return {"field": field, "label": said.label(fact), "about": about, "kind": kind, "choices": choices, "value": form.get(field)}
