"""Pages: a Datasette plugin that shows one catalogue. Only the hooks are here."""

import gc

from datasette import hookimpl

from registry.web import guard, raw, routes
from registry.web.page import DATABASE, read, warm


@hookimpl
def register_routes():
    """The registry's own pages, matched before Datasette's."""
    return routes.ROUTES


@hookimpl
def startup(datasette):
    """The rules of the shop's markets are read before the first page; what is read stays, so the collector may pass it by."""

    async def ready():
        if DATABASE in datasette.databases:  # a public copy may be served where the plugin is installed
            await read(datasette, warm)
        gc.collect()
        gc.freeze()
        gc.set_threshold(20_000, 20, 20)  # a page makes thousands of small objects that all go with it

    return ready


@hookimpl
def asgi_wrapper(datasette):
    """The outermost layer: who may ask, who may write, what a page may load."""
    return guard.wrap


@hookimpl
def skip_csrf(scope):
    """Own paths are protected by the guard, which asks for the origin of every write."""
    return routes.is_own(scope.get("path", ""))


@hookimpl
def prepare_connection(conn):
    """SQLite leaves foreign keys unchecked unless it is told; and each connection may keep 16 MB of the file at hand."""
    conn.execute("PRAGMA foreign_keys = on")
    conn.execute("PRAGMA cache_size = -16000")


@hookimpl
def render_cell(value, column, table, database):
    """Keys in the raw tables lead to our pages."""
    return raw.cell(value, column, table) if database == DATABASE else None


@hookimpl
def menu_links(datasette):
    """A way back from the raw tables."""
    return [{"href": "/", "label": "Pages of the registry"}]
