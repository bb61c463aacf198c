"""What every page needs: the catalogue on Datasette's connections, templates, errors as pages."""

import functools
import inspect
from pathlib import Path

from datasette.utils.asgi import Response

from registry.catalogue import settings, store, words
from registry.errors import Conflict, RegistryError, UnknownRecord
from registry.rulebook import place_names
from registry.web.guard import OWN_POLICY

DATABASE = "catalogue"


async def read(datasette, function):
    """What `function(catalogue)` returns, run on a read-only connection of Datasette."""
    return await _run(datasette, function, "execute_fn")


async def write(datasette, function):
    """What `function(catalogue)` returns, run on Datasette's one writing connection."""
    return await _run(datasette, function, "execute_write_fn")


async def _run(datasette, function, way):
    database = datasette.get_database(DATABASE)
    folder = Path(database.path).parent
    return await getattr(database, way)(lambda connection: function(store.wrap(folder, connection)))


async def render(datasette, request, name, context, status=200):
    """A page from one of our templates, with what all of them show."""
    shared = {"words": words, "place_names": place_names(), "advice": words.ADVICE, "path": request.path,
              "shop": await read(datasette, settings.everything)}
    html = await datasette.render_template(f"registry_{name}.html", {**shared, **context}, request=request)
    return Response.html(html, status=status, headers={"content-security-policy": OWN_POLICY, "cache-control": "no-store"})


def page(view):
    """The view with its RegistryErrors turned into pages that say the same sentence as the commands."""

    @functools.wraps(view)
    async def answered(request, datasette, **extra):
        try:
            return await view(request, datasette)
        except RegistryError as error:
            status = 404 if isinstance(error, UnknownRecord) else 409 if isinstance(error, Conflict) else 400
            return await render(datasette, request, "error", {"sentence": str(error), "status": status}, status)

    answered.__signature__ = inspect.Signature([inspect.Parameter(n, inspect.Parameter.POSITIONAL_OR_KEYWORD) for n in ("request", "datasette")])
    return answered


def markets(catalogue, request=None):
    """Codes of the places to answer for: those in the address (?in=US,GB), else the shop's own, else the US."""
    asked = request.args.get("in", "") if request else ""
    names = [name for name in asked.split(",") if name.strip()] or settings.get(catalogue, "markets") or ["US"]
    return settings.opened(catalogue, names)
