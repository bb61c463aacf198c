"""The form of one mark, new or on record, and the searches of registers that somebody made."""

from registry.catalogue import marks, store, works
from registry.catalogue.mark_rules import mark_rules, products
from registry.catalogue.store import transaction
from registry.errors import Conflict, RegistryError
from registry.facts import edtf
from registry.rulebook import place_names
from registry.web import body, merge, typed
from registry.web.marks import refusals, state_choices
from registry.web.page import compose, go, market_names, page, read, write

TEXTS = ("words", "kind", "owner", "office", "number", "nice_edition", "status_words", "state", "goods", "avoid", "note")
WORDS = {  # by a word of the catalogue's sentence: the field that it is about
    **{f"{name}: ": name for name in marks.DAYS}, "Nice class": "classes", "state of the mark": "state", "kind of the mark": "kind",
    "no work": "works", "recorded already": "number", "needs its words": "words",
}


@page
async def new(request, datasette):
    """The page /mark/new with ?work= (a key) and ?words=: the form, and what it sends."""
    if request.method != "POST":
        args = request.args
        begun = {name: [args.get(key)] for name, key in (("works", "work"), ("words", "words")) if args.get(key)}
        return await _form(request, datasette, None, body.Form(begun), {}, {})
    form = await body.read(request, beside=True)
    values, errors = read_form(form)
    try:
        if errors:
            raise RegistryError("")
        mark = await write(datasette, lambda catalogue: marks.add(catalogue, **columns(values)))
    except RegistryError as error:
        return await _form(request, datasette, None, form, {}, errors or typed.beside(error, WORDS, "words"), 400)
    return go(f"/mark/{mark.key}?done=mark")


@page
async def edit(request, datasette):
    """The page /mark/KEY/edit: the form with what is on record; nothing that somebody else changed meanwhile is overwritten unseen."""
    key = request.url_vars["key"]
    mark = await read(datasette, lambda catalogue: marks.get(catalogue, key))
    if request.method != "POST":
        return await _form(request, datasette, mark, as_form(values_of(mark)), values_of(mark), {})
    form = await body.read(request, beside=True)
    values, errors = read_form(form)
    before = merge.unpacked(form.get("base"))
    try:
        if errors:
            raise RegistryError("")
        differences = await write(datasette, lambda catalogue: keep(catalogue, key, before, values))
    except RegistryError as error:
        status = 409 if isinstance(error, Conflict) else 400
        errors = errors or typed.beside(error, WORDS, "words")
        return await _form(request, datasette, mark, form, before, errors, status)
    if differences:
        now = values_of(await read(datasette, lambda catalogue: marks.get(catalogue, key)))
        proposed, _differences = merge.merged(before, now, values)
        return await _form(request, datasette, mark, as_form(proposed), now, {}, 409, differences)
    return go(f"/mark/{key}?done=saved")


def keep(catalogue, key, before, values):
    """Keeps what was typed and what somebody else changed elsewhere; Differences instead when both changed the same field."""
    with transaction(catalogue):
        kept, differences = merge.merged(before, values_of(marks.get(catalogue, key)), values)
        if any(one.both for one in differences):
            return differences
        marks.change(catalogue, key, **columns(kept))
    return ()


def columns(values):
    """The arguments of `marks.add` and `marks.change` for values {field: value}; what is missing is emptied."""
    texts = {name: values.get(name, "") for name in TEXTS} | {"state": values.get("state", "unknown")}
    days = {name: values.get(name) for name in marks.DAYS}
    return {**texts, **days, "classes": values.get("classes", ()), "linked": values.get("works", ())}


def values_of(mark):
    """All that the form shows of a Mark, as {field: value}; what is empty is left out."""
    found = {name: getattr(mark, name) for name in (*TEXTS, *marks.DAYS)} | {"classes": list(mark.classes), "works": list(mark.works)}
    return {name: value for name, value in found.items() if value}


def read_form(form):
    """(values {field: value}, errors {field: sentence}) of a form."""
    errors = refusals(form)
    found = {name: form.get(name) for name in TEXTS} | {name: typed.day(form, name, errors) for name in marks.DAYS}
    found |= {"office": form.get("office").upper(), "classes": typed.classes(form, "classes", errors), "works": typed.keys(form, "works")}
    return {name: value for name, value in found.items() if value}, errors


def as_form(values):
    """A Form that shows these values."""
    return body.Form({name: [", ".join(map(str, value)) if isinstance(value, list) else value] for name, value in values.items()})


async def _form(request, datasette, mark, form, base, errors, status=200, differences=()):
    def collect(catalogue):
        return {"mark": mark, "form": form, "base": merge.packed(base), "errors": errors,
                "differences": differences, "states": state_choices(),
                "kinds": [("", "not said"), *((kind, kind) for kind in marks.KINDS)], "offices": offices(),
                "headings": products().headings, "known_works": some_works(catalogue)}

    return await compose(datasette, request, "mark_edit", collect, status)


def offices():
    """(code, name) of the offices that keep registers of marks, for suggestions."""
    return list({**{one.code: one.name for one in mark_rules().offices.values()}, **place_names()}.items())


def some_works(catalogue, most=200):
    """(key, title) of the works added last, for suggestions."""
    count = works.count(catalogue)
    return [(one.key, one.title) for one in works.listed(catalogue, most, max(0, count - most))]


# --- searches of registers ----------------------------------------------------------------------------

SEARCH_WORDS = {"where it": "place", "words searched": "words", "who searched": "by", "what was found": "result",
                "class": "classes", "several places": "place", "the day of the search": "at"}


@page
async def searched(request, datasette):
    """The page /marks/searched with ?words=, place=, classes=: the searches on record, and the form to keep one."""
    form, errors = body.asked(request), {}
    if request.method == "POST":
        form = await body.read(request, beside=True)
        errors = dict(form.long)
        classes, day = typed.classes(form, "classes", errors), typed.day(form, "at", errors)
        try:
            if errors:
                raise RegistryError("")
            await write(datasette, lambda catalogue: keep_search(catalogue, form, classes, day))
            return go("/marks/searched?done=searched")
        except RegistryError as error:
            errors = errors or typed.beside(error, SEARCH_WORDS, "words")

    def collect(catalogue):
        found = marks.searches(catalogue)
        return {"form": form, "errors": errors, "searches": found[:200], "count": len(found),
                "market_names": market_names(catalogue), "today": edtf.iso(store.today()), "nil": marks.NIL}

    return await compose(datasette, request, "mark_searched", collect, 400 if errors else 200)


def keep_search(catalogue, form, classes, day):
    """The new Search; without a day it was made today."""
    return marks.add_search(catalogue, form.get("place"), form.get("words"), by=form.get("by"),
                            at=day or edtf.iso(store.today()), classes=classes,
                            result=form.get("result") or marks.NIL, note=form.get("note"))
