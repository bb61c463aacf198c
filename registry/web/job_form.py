"""The fields of a job, the same on the check page and on the form of a kept job, and what they amount to."""

from registry.catalogue import jobs, search, works
from registry.catalogue.mark_rules import products
from registry.catalogue.places import written
from registry.errors import RegistryError, UnknownRecord
from registry.web.body import small
from registry.web.dates import plainly
from registry.web.page import typed_markets

TEXTS = ("title", "product", "wording", "lettering", "listing_text", "customer", "price", "notes")
DAYS = ("due", "sold_on")
FOUND = 8          # works offered for a search
# Signs of what is compared with every mark whenever a page is opened.
COMPARED = {"wording": 1000, "lettering": 1000, "title": 1000, "listing_text": 5000}
CALLED = {"listing_text": "listing text"}
UNSAVED = 2**62    # the number of a job that is not kept: later than all others


def columns(form):
    """(columns of a job as typed, errors {field: sentence})."""
    found, errors = {name: form.get(name) for name in TEXTS if name in form.texts}, refusals(form)
    found |= {name: plainly(form.get(name)) or None for name in DAYS if name in form.texts}
    if "markets" in form.texts:
        found["markets"] = [name for text in form.all("markets") for name in map(written, typed_markets(text))]
    if form.get("purpose"):
        found["purpose"] = form.get("purpose")
    if "quantity" in form.texts:
        text = form.get("quantity").replace(",", "").replace(" ", "")
        found["quantity"] = int(text) if text.isascii() and text.isdigit() and len(text) < 16 else None
        if text and not found["quantity"]:
            errors["quantity"] = f"The quantity is “{form.get('quantity')}”; a whole number from 1 up is allowed, or nothing."
    return found, errors


def refusals(form):
    """{field: sentence} for what is too long to be read or answered."""
    found = dict(form.long)
    for name, most in COMPARED.items():
        if len(form.get(name)) > most:
            found[name] = f"The {CALLED.get(name, name)} is longer than the {most:,} signs that are allowed."
    return found | ({"find": sentence} if (sentence := search.fault(form.get("find"))) else {})


def uses(form):
    """The Uses of a job as typed: its rows work.0, part.0 ... that are not taken out, and works named as `work`."""
    numbers = sorted({number for name in form.texts if name.startswith("work.") and (number := small(name[5:])) is not None})
    rows = [jobs.Use(form.get(f"work.{n}"), form.get(f"part.{n}") or "picture", tuple(form.all(f"traits.{n}")), form.get(f"changes.{n}"))
            for n in numbers if form.get(f"work.{n}") and not form.get(f"out.{n}")]
    known = {use.work for use in rows}
    rows += [jobs.Use(key, "picture") for key in dict.fromkeys(form.all("work")) if key not in known]
    return tuple({(use.work, use.part): use for use in rows}.values())


def unsaved(form, found):
    """A JobRecord that is kept nowhere, from what was typed; RegistryError for a purpose or part that there is not."""
    if found.get("purpose", "sale") not in jobs.PURPOSES:
        raise RegistryError(f"The purpose is “{found['purpose']}”; allowed are {', '.join(jobs.PURPOSES)}.")
    for use in uses(form):
        if use.part not in jobs.PARTS:
            raise RegistryError(f"The part is “{use.part}”; allowed are {', '.join(jobs.PARTS)}.")
    blank = {name: "" for name in jobs.JobRecord.__dataclass_fields__} | {"quantity": None, "due": None, "sold_on": None, "markets": ()}
    given = {**blank, **found, "markets": tuple(found.get("markets", ()))}
    kept = {"id": UNSAVED, "key": "check", "purpose": given["purpose"] or "sale", "version": 0, "uses": uses(form)}
    return jobs.JobRecord(**{**given, **kept})


def chosen(catalogue, form):
    """Rows (work, traits that it and its versions beneath first show, its Use) for the ticked works; sentences for unknown ones."""
    rows, problems = [], []
    for use in uses(form):
        try:
            record = works.get(catalogue, use.work)
        except UnknownRecord as error:
            problems.append(str(error))
            continue
        line = [record, *works.beneath(catalogue, record)]
        traits = [(name, layer.title or layer.key) for layer in reversed(line) for name, _note in layer.traits]
        rows.append((record, traits, use))
    return rows, problems


def offered(catalogue, form):
    """Works found for the words in the field `find` that are not ticked yet."""
    words, ticked = form.get("find"), {use.work for use in uses(form)}
    if not words or search.fault(words):
        return []
    found = search.find(catalogue, words, FOUND + len(ticked))
    return [one for one in found if one.key not in ticked][:FOUND]


def product_names():
    """Names of goods by which Nice classes are looked up, for suggestions."""
    return sorted({f"{row.material} {row.name}".removeprefix("any ").strip() for row in products().rows})


def flat(record):
    """All that the form shows of a JobRecord, as {field: value}; empty values are left out."""
    found = {name: getattr(record, name) for name in (*TEXTS, *DAYS, "purpose", "quantity")} | {"markets": list(record.markets)}
    for use in record.uses:
        found[f"use.{use.work}.{use.part}"] = [list(use.traits), use.changes]
    return {name: value for name, value in found.items() if value not in ("", None, [])}


def typed(form):
    """As `flat`, of what was typed; errors beside it."""
    found, errors = columns(form)
    values = {name: value for name, value in found.items() if value not in ("", None, [])}
    for use in uses(form):
        values[f"use.{use.work}.{use.part}"] = [list(use.traits), use.changes]
    return values, errors


def as_form(values):
    """The texts of a form that shows these flat values."""
    texts, number = {}, 0
    for name, value in values.items():
        if not name.startswith("use."):
            texts[name] = [", ".join(value) if name == "markets" else str(value)]
            continue
        key, _, part = name[4:].rpartition(".")
        texts |= {f"work.{number}": [key], f"part.{number}": [part], f"traits.{number}": list(value[0]), f"changes.{number}": [value[1]]}
        number += 1
    return texts


def keep(catalogue, key, version, values):
    """The JobRecord after it was made the same as these flat values; called in a transaction. Conflict as `jobs.change`."""
    given = {name: values.get(name, "") for name in TEXTS} | {name: values.get(name) for name in (*DAYS, "quantity")}
    given |= {"markets": values.get("markets", []), "purpose": values.get("purpose", "sale")}
    old = jobs.change(catalogue, key, version, **given)
    wanted = {tuple(name[4:].rpartition(".")[::2]): value for name, value in values.items() if name.startswith("use.")}
    have = {(use.work, use.part): [list(use.traits), use.changes] for use in old.uses}
    for work, part in have.keys() - wanted.keys():
        jobs.stop_using(catalogue, key, work, part)
    for (work, part), (traits, changes) in wanted.items():
        if have.get((work, part)) != [traits, changes]:
            jobs.use(catalogue, key, work, part, traits, changes)
    return jobs.get(catalogue, key)


def field_of(error):
    """The field that a sentence of the catalogue is about, so that it can stand beside it."""
    text = str(error)
    words = {"title": "title", "market": "markets", "place": "markets", "quantity": "quantity", "purpose": "purpose",
             "due:": "due", "sold_on:": "sold_on", "trait": "find", "work": "find"}
    return next((field for word, field in words.items() if word in text), "title")


def lines(error):
    """The error of a catalogue as {field: sentence}."""
    return {field_of(error): str(error)} if isinstance(error, RegistryError) else {}


