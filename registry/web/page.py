"""What every page needs: the catalogue on Datasette's connections, templates, errors as pages."""

import functools
import inspect
from dataclasses import replace
from pathlib import Path
from weakref import WeakKeyDictionary

from datasette.utils.asgi import Response

from registry.catalogue import settings, store, words
from registry.clearance.ground import listed
from registry.errors import Conflict, RegistryError, UnknownRecord
from registry.rulebook import place_names, place_phrases, rulebook
from registry.web import links, remembered, said
from registry.web.guard import OWN_POLICY

DATABASE = "catalogue"
NAV = (
    ("/", "Works"), ("/check", "Check"), ("/jobs", "Jobs"), ("/due", "Due"), ("/calendar", "Calendar"), ("/marks", "Marks"),
    ("/permissions", "Permissions"), ("/complaints", "Complaints"), ("/law", "Law"), ("/settings", "Settings"), ("/catalogue", "Tables"),
)
HREFS = frozenset(href for href, _label in NAV)
HEADERS = {"content-security-policy": OWN_POLICY, "cache-control": "no-store"}


async def read(datasette, function):
    """What `function(catalogue)` returns, run on a read-only connection of Datasette; it sees one state of the catalogue."""

    def steady(catalogue):
        noted = replace(catalogue, state=remembered.state_of(catalogue.folder))
        catalogue.db.execute("BEGIN")
        try:
            return function(noted)
        finally:
            catalogue.db.execute("ROLLBACK")

    return await _run(datasette, steady, "execute_fn")


async def write(datasette, function):
    """What `function(catalogue)` returns, run on Datasette's one writing connection."""
    return await _run(datasette, function, "execute_write_fn")


async def _run(datasette, function, way):
    database = datasette.get_database(DATABASE)
    folder = Path(database.path).parent

    def run(connection):
        try:
            return function(store.wrap(folder, connection)), None
        except RegistryError as error:  # handed over, since Datasette would print it
            return None, error

    found, error = await getattr(database, way)(run)
    if error:
        raise error
    return found


async def compose(datasette, request, name, collect, status=200):
    """The page of a template with what `collect(catalogue)` returns and what all pages show, read and written in one go."""

    def both(catalogue):
        found = collect(catalogue)
        return _text(datasette, request, name, found if "shop" in found else {**found, "shop": settings.everything(catalogue)})

    return Response.html(await read(datasette, both), status=status, headers=dict(HEADERS))


async def render(datasette, request, name, context, status=200):
    """A page from one of our templates, with what all of them show."""
    if "shop" not in context:
        context = {**context, "shop": await read(datasette, settings.everything)}
    return Response.html(_text(datasette, request, name, context), status=status, headers=dict(HEADERS))


def _text(datasette, request, name, context):
    shared = {"words": words, "said": said, "place_names": place_names(), "place_phrases": place_phrases(), "listed": listed,
              "advice": words.ADVICE, "path": request.path, "tabs": _tabs(_templates(datasette), request.path),
              "asked": request.args, "answer_to": links.answer_to}
    return _templates(datasette).get_template(f"registry_{name}.html").render({**shared, **context})


def _tabs(templates, path):
    """The list of pages at the top, made once for each of them and once for all other paths."""
    here = path if path in HREFS else ""
    if here not in _tabs_made:
        _tabs_made[here] = templates.get_template("registry_tabs.html").render(nav=NAV, path=here)
    return _tabs_made[here]


_tabs_made: dict = {}


_environments = WeakKeyDictionary()


def _templates(datasette):
    """Datasette's templates, compiled to run in one go and read once: nothing in ours waits, and it takes half the time."""
    if datasette not in _environments:
        _environments[datasette] = datasette.jinja_env.overlay(enable_async=False, auto_reload=False)
    return _environments[datasette]


def go(path):
    """An answer that sends the browser to another page of ours, as after every write."""
    return Response("", status=303, headers={"location": path, "cache-control": "no-store"})


def page(view):
    """The view with its RegistryErrors turned into pages that say the same sentence as the commands."""

    @functools.wraps(view)
    async def answered(request, datasette, **extra):
        try:
            return await view(request, datasette)
        except RegistryError as error:
            status = 404 if isinstance(error, UnknownRecord) else 409 if isinstance(error, Conflict) else 400
            return await render(datasette, request, "error", {"sentence": str(error), "status": status}, status)

    kind = inspect.Parameter.POSITIONAL_OR_KEYWORD
    answered.__signature__ = inspect.Signature([inspect.Parameter(name, kind) for name in ("request", "datasette")])
    return answered


def typed_markets(text):
    """Names of markets in a text with commas; "EU minus ES" is one name."""
    return [" ".join(name.split()) for name in text.split(",") if name.strip()]


def markets(catalogue, request=None):
    """Codes of the places to answer for: those in the address (?in=US,GB), else the shop's own, else the US."""
    return settings.opened(catalogue, market_names(catalogue, request))


def warm(catalogue):
    """Reads the law of the shop's markets, so that no page has to wait for it."""
    for code in markets(catalogue):
        rulebook().laws.law(code)


def market_names(catalogue, request=None, own=None):
    """The markets as named: those in the address (?in=US,EU), else the shop's `own`, else the US."""
    asked = [name for text in (request.args.getlist("in") if request else ()) for name in typed_markets(text)]
    return asked or (settings.get(catalogue, "markets") if own is None else own) or ["US"]
