"""What the shop says of itself: its name, the markets it ships to, its own groups of places."""

from registry.catalogue import settings
from registry.catalogue.store import transaction
from registry.errors import RegistryError
from registry.rulebook import place_names, rulebook
from registry.web import body, merge, typed
from registry.web.fields import code
from registry.web.page import go, page, read, render, typed_markets, write

GROUP = "group "
BLANK = 2  # empty rows for further groups


@page
async def show(request, datasette):
    """The page /settings: the form, and what it sends."""
    if request.method != "POST":
        now = values_of(await read(datasette, settings.everything))
        return await _form(request, datasette, now, now, {})
    form = await body.read(request, beside=True)
    values, errors, rows = read_form(form)
    before = merge.unpacked(form.get("base"))
    try:
        if errors:
            raise RegistryError("")
        differences = await write(datasette, lambda catalogue: keep(catalogue, before, values))
    except RegistryError as error:
        return await _form(request, datasette, values, before, errors or {"markets": str(error)}, 400, (), form, rows)
    if differences:
        now = values_of(await read(datasette, settings.everything))
        return await _form(request, datasette, merge.merged(before, now, values)[0], now, {}, 409, differences)
    return go("/settings?done=settings")


async def _form(request, datasette, values, base, errors, status=200, differences=(), form=None, rows=None):
    if rows is None:
        rows = [(name.removeprefix(GROUP), ", ".join(values[name])) for name in sorted(values) if name.startswith(GROUP)]
    if form is not None:
        shown = {"name": form.get("name"), "markets": form.get("markets")}
    else:
        shown = {"name": values.get("name", ""), "markets": ", ".join(values.get("markets", ()))}
    context = {"values": shown, "rows": [*rows, *[("", "")] * BLANK], "base": merge.packed(base), "errors": errors,
               "differences": differences, "groups": rulebook().groups}
    return await render(datasette, request, "settings", context, status)


def values_of(found):
    """The settings as {field: value}, each group by itself, so that two people may change different ones."""
    values = {"name": found["name"], "markets": found["markets"], **{GROUP + name: members for name, members in found["groups"].items()}}
    return {name: value for name, value in values.items() if value}


def read_form(form):
    """(values {field: value}, errors {field: sentence}, rows of the groups as typed) of the form."""
    values, errors, rows = {"name": form.get("name"), "markets": typed.places(form.get("markets"))}, dict(form.long), []
    numbers = {body.small(name[6:-5]) for name in form.texts if name.startswith("group.") and name.endswith(".name")} - {None}
    for number in sorted(numbers):
        name, members = form.get(f"group.{number}.name"), form.get(f"group.{number}.members")
        if not (name or members):
            continue
        place, codes = len(rows), list(dict.fromkeys(map(code, typed_markets(members))))
        rows.append((name, members))
        name = name.upper().replace(" ", "-")
        sentence = _fault(name, codes, values)
        if sentence:
            errors[f"group.{place}.name"] = sentence
        else:
            values[GROUP + name] = codes
    return {name: value for name, value in values.items() if value}, errors, rows


def _fault(name, codes, values):
    """What is wrong with one group, "" when nothing is."""
    unknown = [one for one in codes if one not in place_names()]
    if not name:
        return "This group has no name; three or more capital letters are needed, such as FAIRS."
    if not codes:
        return f"The group {name} has no places; empty its name too to take it away."
    if GROUP + name in values:
        return f"The group {name} stands here twice."
    if unknown:
        return f"“{unknown[0]}” is no place; names and two-letter codes of countries are allowed in a group, such as GB, IE."
    try:
        settings.check({"groups": {name: codes}})
    except RegistryError as error:
        return str(error)
    return ""


def keep(catalogue, before, values):
    """Keeps the settings; Differences instead when somebody else changed the same meanwhile."""
    with transaction(catalogue):
        kept, differences = merge.merged(before, values_of(settings.everything(catalogue)), values)
        if any(one.both for one in differences):
            return differences
        groups = {name.removeprefix(GROUP): members for name, members in kept.items() if name.startswith(GROUP)}
        settings.put(catalogue, name=kept.get("name", ""), markets=kept.get("markets", []), groups=groups)
    return ()
