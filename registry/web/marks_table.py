"""Marks from a table: shown row by row with every fault named, then recorded all together, or none."""

from registry.catalogue import marks
from registry.errors import RegistryError
from registry.exchange import marks_in
from registry.web import body, held, typed
from registry.web.body import Upload
from registry.web.page import go, page, render, write

SHOWN = 200  # rows of a preview; faulty ones stand first


@page
async def table(request, datasette):
    """The page /marks/table: choose a CSV file or paste one, look at what it would add, record it."""
    form, error, rows, wrong = body.Form(), "", (), ()
    if request.method == "POST":
        form = await body.read(request)
        sent = _sent(form)
        try:
            if sent is None:
                raise RegistryError("No table was sent; choose a CSV file or paste its lines.")
            rows = marks_in.rows(sent.content, sent.name)
            if not rows:
                raise RegistryError(f"{sent.name} has a header line and nothing beneath it.")
            keep = bool(form.get("keep"))
            wrong = await write(datasette, lambda catalogue: marks_in.problems(catalogue, rows, keep=keep))
            if keep and not wrong:
                held.drop(form.get("table_token"))
                return go(f"/marks?done=table&added={len(rows)}")
        except RegistryError as refused:
            error = str(refused)
    token = _token(form, error)
    faults = {line: str(one) for line, one in wrong}
    shown = sorted(rows, key=lambda row: row[0] not in faults)[:SHOWN]
    columns = [name for name in (*marks.COLUMNS, *marks_in.ALSO) if any(row.get(name) for _line, row in shown)]
    context = {"form": form, "error": error, "token": token, "rows": shown, "count": len(rows), "faults": faults, "columns": columns,
               "allowed": (*marks.COLUMNS, *marks_in.ALSO)}
    return await render(datasette, request, "marks_table", context, 400 if error or (wrong and form.get("keep")) else 200)


def _sent(form):
    """The table as an Upload: a chosen file, pasted lines, or what was shown before; None when there is none."""
    if form.file("table"):
        return form.file("table")
    pasted = form.texts.get("lines", [""])[-1]
    return Upload("the pasted table", pasted.strip("\n").encode("utf-8")) if pasted.strip() else typed.upload(form, "table")


def _token(form, error):
    sent = _sent(form)
    if sent is None or error:
        return ""
    return form.get("table_token") if held.get(form.get("table_token")) is sent else held.hold(sent)
