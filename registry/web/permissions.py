"""The permissions on record with the pieces used so far, one permission, and the form for a new one."""

from registry.catalogue import clear, files, jobs, permissions, search, store, works
from registry.catalogue.store import transaction
from registry.errors import RegistryError, UnknownRecord
from registry.facts import edtf
from registry.web import body, typed
from registry.web.mark_edit import some_works
from registry.web.page import compose, go, page, read, typed_markets, write

OWN = "LicenseRef-"
WORLD = "world"
KINDS = (("licence", "licence: a right to use the work"), ("purchase", "purchase: bought with the right to use it"),
         ("release", "release: the consent of a person shown; no copyright permission"))
WORDS = {"no work": "work", "kind of permission": "kind", "valid_from: ": "valid_from", "valid_to: ": "valid_to",
         **dict.fromkeys(typed.PLACES, "places"), "market": "places", "file": "document"}
IN_FORCE, ENDED, AHEAD, USED_UP = "in force", "ended", "not begun yet", "used up"


@page
async def listing(request, datasette):
    """The page /permissions with ?q= (words of the work, the licensor or the note)."""
    words = request.args.get("q", "").strip()
    search.check(words)

    def collect(catalogue):
        found = [(works.get(catalogue, key), one) for key in clear.permitted_works(catalogue)
                 for one in permissions.of_work(catalogue, key)]
        rows = [(record, one, *standing(catalogue, one)) for record, one in found if _holds(words, record, one)]
        return {"rows": rows, "q": words, "count": len(found)}

    return await compose(datasette, request, "permissions", collect)


def _holds(words, record, one):
    told = f"{record.title} {record.key} {one.licensor} {one.note} {one.spdx or ''}"
    return words.casefold() in told.casefold()


def standing(catalogue, one):
    """(how it stands today, pieces used: a number, None when not known, "" without a limit) of a Permission."""
    used = clear.drawn(catalogue, one) if one.quantity is not None else ""
    today = edtf.iso(store.today())
    if one.valid_to and one.valid_to < today:
        return ENDED, used
    if one.valid_from and one.valid_from > today:
        return AHEAD, used
    return (USED_UP if used not in ("", None) and used >= one.quantity else IN_FORCE), used


@page
async def show(request, datasette):
    """The page /permission/NUMBER."""

    def collect(catalogue):
        one = get(catalogue, request.url_vars["number"])
        stands, used = standing(catalogue, one)
        return {"one": one, "record": works.get(catalogue, one.work), "stands": stands, "used": used,
                "licence": clear.rules().licences.get(one.spdx), "strange": list(permissions.strange(one, clear.rules())),
                "jobs": [jobs.get(catalogue, key) for key in jobs.of_work(catalogue, one.work)],
                "document": files.get(catalogue, one.document) if one.document else None}

    return await compose(datasette, request, "permission", collect)


def get(catalogue, number):
    """The Permission of a number; UnknownRecord when there is none."""
    row = catalogue.db.execute(
        "SELECT works.key FROM permissions JOIN works ON works.id = permissions.work WHERE permissions.id = ?",
        (int(number),)).fetchone()
    if not row:
        raise UnknownRecord(f"There is no permission p{number} in this catalogue.")
    return next(one for one in permissions.of_work(catalogue, row[0]) if one.id == int(number))


# --- a new one ----------------------------------------------------------------------------------------

@page
async def new(request, datasette):
    """The page /permission/new with ?work= (a key) or ?like= (the number of another, whose terms are filled in)."""
    if request.method != "POST":
        return await _form(request, datasette, body.Form(await _begun(datasette, request.args)), {})
    form = await body.read(request, beside=True)
    errors = dict(form.long)
    columns = read_form(form, errors)
    try:
        if errors:
            raise RegistryError("")
        kept = await write(datasette, lambda catalogue: keep(catalogue, form, columns))
    except RegistryError as error:
        return await _form(request, datasette, form, errors or typed.beside(error, WORDS, "work"), 400)
    return go(f"/permission/{kept.id}?done=permission")


async def _begun(datasette, args):
    """The texts that a new form begins with."""
    like = args.get("like") or ""
    if body.small(like) is None:
        return {"work": [args.get("work") or ""]}
    return await read(datasette, lambda catalogue: as_form(get(catalogue, like)))


async def _form(request, datasette, form, errors, status=200):
    def collect(catalogue):
        known = catalogue.db.execute("SELECT 1 FROM works WHERE key = ?", (form.get("work"),)).fetchone()
        record = works.get(catalogue, form.get("work")) if known else None
        return {"form": form, "errors": errors, "record": record, "kinds": KINDS, "yes_no": typed.YES_NO,
                "licences": [(ident, one.name) for ident, one in sorted(clear.rules().licences.items())],
                "document": typed.waiting(form, "document"), "known_works": some_works(catalogue)}

    return await compose(datasette, request, "permission_new", collect, status)


def read_form(form, errors):
    """The columns of a permission as typed; what cannot be is noted in `errors`."""
    columns = {name: form.get(name) for name in ("licensor", "credit_line", "note")}
    columns |= {name: typed.day(form, name, errors) for name in ("valid_from", "valid_to")}
    columns |= {name: [word.lower() for word in typed_markets(form.get(name))] for name in ("uses", "media")}
    columns |= {name: typed.meant(form, name) for name in permissions.YES_NO}
    places = form.get("places")
    columns |= {"places": [WORLD] if places.lower() == WORLD else typed.places(places),
                "quantity": typed.number(form, "quantity", errors, "The number of pieces"),
                "spdx": form.get("spdx") or None}
    if columns["spdx"] and columns["spdx"] not in clear.rules().licences and not columns["spdx"].startswith(OWN):
        errors["spdx"] = (f"“{columns['spdx']}” is not among the open licences on file; allowed are those of the list,"
                          f" {OWN} and a name for a licence of one’s own, or nothing.")
    if not form.get("work"):
        errors["work"] = "Say which work it covers, by its key."
    if columns["valid_from"] and columns["valid_to"] and columns["valid_to"] < columns["valid_from"]:
        errors["valid_to"] = "The last day lies before the first."
    return columns


def keep(catalogue, form, columns):
    """The new Permission; its document is kept with it, or neither."""
    document = typed.upload(form, "document")
    with transaction(catalogue):
        if document:
            columns = {**columns, "document": files.add(catalogue, document.content, document.name).sha256}
        return permissions.add(catalogue, form.get("work"), form.get("kind") or "licence", **columns)


def as_form(one):
    """The texts of a form that shows the terms of a Permission, without its document."""
    names = ("work", "kind", "licensor", "spdx", "valid_from", "valid_to", "credit_line", "note")
    texts = {name: getattr(one, name) or "" for name in names}
    texts |= {name: ", ".join(getattr(one, name)) for name in permissions.LISTS} | {"quantity": str(one.quantity or "")}
    texts |= {name: {True: "yes", False: "no"}.get(getattr(one, name), "") for name in permissions.YES_NO}
    return {name: [text] for name, text in texts.items()}
