"""registry init: a new, empty catalogue."""

from registry.catalogue import settings, store
from registry.cli import shown
from registry.cli.settings import arguments, given

__all__ = ["arguments", "run"]


def run(args):
    """0 when the catalogue was made; RegistryError when there is one already."""
    values = given(args, {})
    settings.check(values)
    catalogue = store.create(args.catalogue)
    settings.put(catalogue, **values)
    if args.json:
        shown.show_json({"catalogue": str(args.catalogue), **settings.everything(catalogue)})
    else:
        print(f"Made an empty catalogue in {args.catalogue}.")
        print("Next: registry work add --title \"...\" --kind drawing")
    return 0
