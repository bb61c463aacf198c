"""Names of places as people type them, opened to codes; needs no catalogue."""

from registry.clearance.markets import market
from registry.rulebook import place_names, places, rulebook


def opened(names, own=None):
    """Codes, each once, of names such as ["US", "EU minus ES", "all"]; `own` are groups of the shop. RegistryError else."""
    return list(dict.fromkeys(code for name in names for code in _codes(name, own or {})))


def _codes(name, own):
    if " minus " in name.lower():
        return market(name, {**rulebook().groups, **own}, place_names()).codes
    return places([name], own=own)
