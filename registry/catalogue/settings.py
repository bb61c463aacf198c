"""What the shop says of itself: its name, the markets it ships to, its own groups of places."""

import json

from registry.catalogue import places
from registry.catalogue.canonical import canonical
from registry.catalogue.store import transaction
from registry.errors import RegistryError
from registry.rulebook import place_names, place_words, rulebook

MANY = 10  # jobs that are named in one sentence
DEFAULTS = {"name": "", "markets": [], "groups": {}}


def get(catalogue, key):
    """The value of a setting, its default when it was never set; RegistryError when there is no such setting."""
    _known(key)
    found = catalogue.db.execute("SELECT value FROM settings WHERE key = ?", (key,)).fetchone()
    return json.loads(found[0]) if found else DEFAULTS[key]


def everything(catalogue):
    """All settings by name."""
    found = {key: json.loads(value) for key, value in catalogue.db.execute("SELECT key, value FROM settings")}
    return {key: found.get(key, default) for key, default in DEFAULTS.items()}


def put(catalogue, **values):
    """Keeps settings, all or none; RegistryError for a market or a group that cannot be, that jobs would miss, or that
    permissions name: they cover what was meant when they were recorded."""
    before = everything(catalogue)
    if "groups" in values:
        values["groups"] = {name: list(dict.fromkeys(map(places.written, members))) for name, members in values["groups"].items()}
    check(values, before)
    after = values.get("groups", before["groups"])
    _check_jobs(catalogue, before["groups"].keys() - after.keys())
    _check_permissions(catalogue, [name for name, codes in before["groups"].items() if set(codes) != set(after.get(name, ()))])
    if "markets" in values:
        values["markets"] = list(dict.fromkeys(map(places.written, values["markets"])))
    with transaction(catalogue) as db:
        for key, value in values.items():
            db.execute("INSERT OR REPLACE INTO settings (key, value) VALUES (?, ?)", (key, canonical(value)))


def check(values, before=DEFAULTS):
    """Nothing; RegistryError when these settings cannot stand together with the others as they are in `before`."""
    for key in values:
        _known(key)
    after = {**before, **values}
    _check_groups(after["groups"])
    places.opened(after["markets"], after["groups"])


def _check_jobs(catalogue, gone):
    """Nothing; RegistryError names the jobs whose markets are told by a group that is to go."""
    for group in sorted(gone):
        keys = _naming(catalogue, "SELECT key, markets FROM jobs ORDER BY id", group)
        if keys:
            raise RegistryError(f"The group {group} is a market of the job{_some(keys)}; give {'them' if keys[1:] else 'it'}"
                                " other markets before you take the group away.")


def _check_permissions(catalogue, changed):
    """Nothing; RegistryError names the permissions whose places are told by a group that is to change or to go."""
    for group in sorted(changed):
        found = _naming(catalogue, "SELECT 'p' || id, places FROM permissions ORDER BY id", group)
        if found:
            raise RegistryError(f"The group {group} tells the places of the permission{_some(found)}, and must go on"
                                " telling what was meant; leave it as it is, and give other places to a group of another name.")


def _naming(catalogue, query, group):
    """Keys of the rows (key, stored list of markets) that name a group, also as part of one such as "EU minus NEAR"."""
    rows = catalogue.db.execute(query)
    return [key for key, stored in rows if group in " ".join(json.loads(stored)).upper().replace(",", " ").split()]


def _some(keys):
    """The end of "the job" or "the permission" with the first keys: "s j1, j2 and 3 more" or " j1"."""
    more = f" and {len(keys) - MANY} more" if keys[MANY:] else ""
    return f"{'s' * (len(keys) > 1)} {', '.join(keys[:MANY])}{more}"


def opened(catalogue, names, own=None):
    """Codes of the places in a list of names such as ["US", "EU minus ES"]; the shop's `own` groups are known too."""
    own = get(catalogue, "groups") if own is None else own
    return places.opened(names, own)


def _known(key):
    if key not in DEFAULTS:
        raise RegistryError(f"There is no setting '{key}'; allowed are {', '.join(DEFAULTS)}.")


def _check_groups(groups):
    for name, members in groups.items():
        if name in rulebook().groups:
            raise RegistryError(f"The group {name} is one of the program's own and cannot be given other members.")
        plain = name.replace("-", "")
        if not (plain.isascii() and plain.isalnum() and name == name.upper() and len(name) > 2) or name == "ALL":
            raise RegistryError(f"'{name}' cannot name a group; three or more capital letters, digits and hyphens are allowed.")
        if name.casefold() in place_words():
            raise RegistryError(f"'{name}' cannot name a group; it is a word for {place_words()[name.casefold()]}.")
        for member in members:
            if member not in place_names():
                raise RegistryError(f"The group {name} has the member '{member}'; two-letter codes such as GB are allowed.")
