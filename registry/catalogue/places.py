"""Names of places as people type them, opened to codes; needs no catalogue."""

from registry.clearance import markets
from registry.clearance.markets import market
from registry.rulebook import place_names, place_words, places, rulebook


def written(name):
    """A market in the one way in which it is kept and shown: Germany as DE, "eu minus Spain" as "EU minus ES"."""
    return markets.written(name, place_words())


def opened(names, own=None):
    """Codes, each once, of names such as ["US", "EU minus ES", "all"]; `own` are groups of the shop. RegistryError else."""
    return list(dict.fromkeys(code for name in names for code in _codes(name, own or {})))


def _codes(name, own):
    plain = written(name)
    if " minus " in plain:
        return market(name, {**rulebook().groups, **own}, place_names(), place_words()).codes
    return places([plain if plain in place_names() else name], own=own)
