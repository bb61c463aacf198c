"""registry settings: what the shop says of itself."""

from registry.catalogue import settings, store
from registry.cli import inputs, shown
from registry.errors import RegistryError
from registry.exchange.countries import code_of


def arguments(parser):
    """Adds the options of the command."""
    parser.add_argument("--name", help="The name of the shop.")
    parser.add_argument("--markets", metavar="PLACES", help="The places the shop ships to, such as US,CA,EU;"
                                                            " a check without --in takes these.")
    parser.add_argument("--group", action="append", default=[], metavar="NAME=PLACES",
                        help="A group of places of the shop's own, such as NEAR=GB,IE; nothing after = takes the group away.")


def run(args):
    """0 when the settings were shown, after what was given was kept."""
    catalogue = store.open_catalogue(args.catalogue)
    values = given(args, settings.get(catalogue, "groups"))
    if values:
        settings.put(catalogue, **values)
    found = settings.everything(catalogue)
    if args.json:
        shown.show_json(found)
        return 0
    print(shown.table([
        ("name", found["name"] or "(none)"),
        ("markets", ", ".join(found["markets"]) or "(none)"),
        *((f"group {name}", ", ".join(members)) for name, members in sorted(found["groups"].items())),
    ]))
    return 0


def given(args, groups):
    """The settings that were typed; `groups` are those kept so far."""
    values = {}
    if args.name is not None:
        values["name"] = args.name
    if args.markets is not None:
        values["markets"] = inputs.split([args.markets])
    if args.group:
        values["groups"] = _groups(args.group, groups)
    return values


def _groups(typed, groups):
    groups = dict(groups)
    for text in typed:
        name, equals, members = text.partition("=")
        if not equals:
            raise RegistryError(f"--group {text}: a name, = and places are needed, such as NEAR=GB,IE.")
        groups[name.strip().upper()] = [code_of(one) for one in inputs.split([members])]
    return {name: members for name, members in groups.items() if members}
