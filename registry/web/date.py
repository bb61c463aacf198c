"""How a date typed by plain choices is written and read; the script of the forms asks it while somebody types."""

from datasette.utils.asgi import Response

from registry.errors import RegistryError
from registry.web import dates
from registry.web.page import HEADERS, page


@page
async def show(request, datasette):
    """The address /date with ?how=, one=, two=: JSON with the written form and its meaning, or the sentence that refuses it."""
    how, one, two = (request.args.get(name) or "" for name in ("how", "one", "two"))
    try:
        text = dates.written(how, one, two)
        found = {"written": text, "reading": dates.reading(text) if text else "", "error": ""}
    except RegistryError as error:
        found = {"written": None, "reading": "", "error": str(error)}
    return Response.json(found, headers=dict(HEADERS))
