"""Works from a table that somebody keeps already: what would be added is shown, every bad cell is named, then it is kept."""

from registry.catalogue.store import transaction
from registry.errors import RegistryError
from registry.exchange import table_in, works_in
from registry.rulebook import rulebook
from registry.web import body, held, said
from registry.web.page import go, page, read, render, write

SHOWN = 200  # rows of the preview
EXAMPLE = ("title,kind,creator1.name,creator1.died,publication1.date,publication1.country,notes\n"
           "Heron at Dawn,print,Ann Example,1934,1911~,GB,box 3")


@page
async def bring(request, datasette):
    """The page /works/table: choose a CSV file, look at what it would add, keep it."""
    form = await body.read(request) if request.method == "POST" else body.Form()
    upload, error, table, double = form.file("table") or held.get(form.get("token")), "", None, {}
    if request.method == "POST" and not upload:
        error = "No table was chosen, or it is held no longer; choose it again."
    if upload:
        try:
            table, double = await read(datasette, lambda catalogue: _preview(catalogue, upload))
            if form.get("keep") and (form.get("rest") or not table.wrong):
                count = await write(datasette, lambda catalogue: keep(catalogue, upload, bool(form.get("rest"))))
                held.drop(form.get("token"))
                return go(f"/?done=table&added={count}")
        except RegistryError as refused:
            error, table = str(refused), None
    token = ("" if not table else form.get("token") if held.get(form.get("token")) is upload else held.hold(upload))
    context = {"table": table, "error": error, "token": token, "name": upload.name if upload else "", "shown": SHOWN,
               "example": EXAMPLE, "columns": columns(), "double": double,
               "good": sum(1 for row in table.rows if not row.wrong) if table else 0}
    return await render(datasette, request, "works_table", context, 400 if error else 200)


def _read(catalogue, upload):
    keys = {row[0] for row in catalogue.db.execute("SELECT key FROM works")}
    return table_in.read_table(upload.content, rulebook().vocabulary, keys)


def _preview(catalogue, upload):
    """(the table, keys of works on record with the same title and makers by number of the line)."""
    table = _read(catalogue, upload)
    rows = catalogue.db.execute("SELECT title, makers, key FROM works WHERE title <> '' ORDER BY id DESC")
    known = {(title.casefold(), makers.casefold()): key for title, makers, key in rows}
    return table, {row.line: known[_named(row)] for row in table.rows if _named(row) in known}


def _named(row):
    makers = [one.get("name") for one in row.facts.get("creators") or () if isinstance(one, dict)]
    return str(row.facts.get("title") or "").casefold(), "; ".join(filter(None, makers)).casefold()


def keep(catalogue, upload, rest):
    """How many works were added: all rows or none; with `rest` those in which no cell is bad."""
    with transaction(catalogue):
        return len(works_in.add(catalogue, _read(catalogue, upload), rest, without=True))  # the preview named them


def columns():
    """(column, what it means) for the page: the facts of a work, of makers and publications, and what stands beside them."""
    vocabulary = rulebook().vocabulary
    found = [(name, fact.question) for name, fact in vocabulary.of["work"].items() if name not in ("id", "creators", "publications")]
    found += [(f"{owner}1.{name}", fact.question) for owner in ("creator", "publication") for name, fact in vocabulary.of[owner].items()]
    beside = {"key": "A short handle of your own.", "based_on": "The key of the version that this one was made from.",
              "originality": "Whether it adds anything: faithful_copy, new_expression or unknown.",
              "own": "Whether the shop made it: yes or no.",
              "traits": "What this version shows first, with semicolons between.",
              "access_terms": "Terms of the source.", "notes": "Notes."}
    return [(name, said.label(name.rpartition(".")[2]), question) for name, question in [*found, *beside.items()]]
