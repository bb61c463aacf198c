"""The form of one work: every fact, what is recorded beside the facts, and a merge when two people edit it."""

from registry.catalogue import clear, store, works
from registry.errors import BadFacts, Conflict, RegistryError
from registry.exchange.parted import escaped, halves, parts, plain
from registry.rulebook import rulebook
from registry.web import body, dates, fields, merge, said
from registry.web.page import compose, go, markets, page, read, write

COLUMNS = ("based_on", "originality", "own", "access_terms", "notes", "traits")
ORIGINALITY = (("unknown", "not known"), ("faithful_copy", "no: a faithful copy"), ("new_expression", "yes: it adds something of its own"))


@page
async def edit(request, datasette):
    """The page /work/KEY/edit: the form, and what it sends."""
    key = request.url_vars["key"]
    if request.method == "POST":
        return await _save(request, datasette, key, await body.read(request, beside=True))

    def collect(catalogue):
        record = works.get(catalogue, key)
        values = values_of(record)
        return context(catalogue, record, values, values)

    return await compose(datasette, request, "work_edit", collect)


async def _save(request, datasette, key, form):
    typed, errors = fields.read(form)
    typed |= _columns(form)
    before, version = merge.unpacked(form.get("base")), form.number("version")
    try:
        if errors:
            raise BadFacts("")
        await write(datasette, lambda catalogue: keep(catalogue, key, version, typed))
        return go(f"/work/{key}?done=saved")
    except Conflict:
        return await _both(request, datasette, key, form, before, typed)
    except RegistryError as error:
        errors = errors or {"title": str(error)}

    def collect(catalogue):
        record = works.get(catalogue, key)
        return context(catalogue, record, typed, before, form, errors, version)

    return await compose(datasette, request, "work_edit", collect, 400)


async def _both(request, datasette, key, form, before, typed):
    """The page that shows what somebody else changed meanwhile, with the form as it would be after a merge."""

    def collect(catalogue):
        record = works.get(catalogue, key)
        now = values_of(record)
        values, differences = merge.merged(before, now, typed)
        shown = [(label_of(one.path), one) for one in differences]
        return context(catalogue, record, values, now) | {"differences": shown, "given_version": form.get("version")}

    return await compose(datasette, request, "work_edit", collect, 409)


def values_of(record):
    """All that the form shows of a WorkRecord, as {path: value}; empty texts are left out."""
    beside = {"based_on": record.based_on, "originality": record.originality, "own": record.own or None,
              "access_terms": record.access_terms or None, "notes": record.notes or None,
              "traits": [list(pair) for pair in record.traits] or None}
    return {**fields.flat(record.facts), **{name: value for name, value in beside.items() if value is not None}}


def _columns(form):
    found = {"based_on": form.get("based_on") or None, "originality": form.get("originality") or "unknown",
             "own": True if form.get("own") else None, "access_terms": form.get("access_terms") or None,
             "notes": form.get("notes") or None, "traits": traits(form.get("traits")) or None}
    return {name: value for name, value in found.items() if value is not None}


def traits(text):
    """Pairs of name and note from lines such as "red hat: first seen in the squall; weir"; a backslash before a sign keeps it."""
    pairs = [[plain(half) for half in halves(part)] for part in parts(text, r";\n")]
    return [[name, note] for name, note in pairs if name or note.strip(" :")]


def keep(catalogue, key, version, values):
    """The WorkRecord after a change to these values {path: value}; Conflict when it is no longer in that version."""
    facts = fields.nested({path: value for path, value in values.items() if path not in COLUMNS})
    beside = {name: values.get(name) for name in ("based_on", "originality")} | {"own": bool(values.get("own"))}
    return works.change(catalogue, key, version, facts=facts, traits=[tuple(pair) for pair in values.get("traits", ())],
                        access_terms=values.get("access_terms", ""), notes=values.get("notes", ""), **beside)


def label_of(path):
    """A path as people read it: Maker 2: died."""
    owner, _, rest = path.partition(".")
    number, _, name = rest.partition(".")
    if owner in fields.LISTS and body.small(number) is not None:
        return f"{'Maker' if owner == 'creators' else 'Publication'} {int(number) + 1}: {said.label(name).lower()}"
    named = {"based_on": "Based on", "access_terms": "Terms of the source", "traits": "Traits"}
    return named.get(path) or said.label(path)


def context(catalogue, record, values, base, form=None, errors=None, version=None):
    """What the template of the form needs; `form` brings back what was typed and could not be kept."""
    errors, codes = errors or {}, markets(catalogue)
    return {
        "record": record, "values": values, "version": record.version if version is None else version,
        "base": merge.packed(base), "errors": errors, "hows": dates.CHOICES,
        "sections": sections(values, asked_now(catalogue, record, codes), form, errors),
        "originality": ORIGINALITY, "markets": codes,
        "trait_lines": form.get("traits") if form is not None else _lines(values.get("traits", ())),
    }


def _lines(pairs):
    lines = ((escaped(name, r";:\n"), escaped(note, r";\n")) for name, note in pairs)
    return "\n".join(f"{name}: {note}" if note else name for name, note in lines)


def asked_now(catalogue, record, codes):
    """Names of the facts of this work that the law of these places asks for, or wants confirmed, as things stand."""
    chains = clear.chains(clear.desk(catalogue, store.today()), record, codes)
    return {ask.fact for line in chains.values() for layer in line if layer.work == record.key for ask in layer.asks}


def sections(values, asked, form, errors):
    """The fields: of the work, of each maker and publication with an empty one at the end, those that matter now, and the rest."""
    vocabulary = rulebook().vocabulary

    def one(path):
        return fields.field(path, values.get(path), form, errors)

    further = [name for name in vocabulary.of["work"] if name not in (*fields.FIRST["work"], *fields.HIDDEN)]
    near = [name for name in further if name in values or name in errors or name in asked]
    counts = {entries: _count(entries, values, form) + 1 for entries in fields.LISTS}
    return {
        "work": [one(name) for name in fields.FIRST["work"]], "near": [one(name) for name in near],
        "far": [one(name) for name in further if name not in near],
        "lists": {entries: [_entry(entries, number, vocabulary, one) for number in range(count)]
                  for entries, count in counts.items()},
    }


def _entry(entries, number, vocabulary, one):
    owner = fields.LISTS[entries]
    rest = [name for name in vocabulary.of[owner] if name not in fields.FIRST[owner]]
    return {"first": [one(f"{entries}.{number}.{name}") for name in fields.FIRST[owner]],
            "rest": [one(f"{entries}.{number}.{name}") for name in rest]}


def _count(entries, values, form):
    kept = {int(name.split(".")[1]) for name in values if name.startswith(f"{entries}.")}
    return max(kept | (fields.typed_entries(form, entries) if form is not None else set()), default=-1) + 1
