"""What marks and cautions are judged by, as shipped: offices, states, products, cautions. Read once per process."""

import csv
from functools import lru_cache

from registry import data
from registry.clearance.caution_rules import read_cautions
from registry.clearance.goods import read_products
from registry.clearance.offices import read_rules
from registry.rulebook import rulebook


@lru_cache(maxsize=1)
def mark_rules():
    """The MarkRules of this installation; BadLaw when a data file is wrong."""
    countries = [row["code"] for row in csv.DictReader(data.read_text("places.csv").splitlines())]
    return read_rules(data.read_text("offices.toml"), data.read_text("mark_states.toml"), rulebook().groups, countries)


@lru_cache(maxsize=1)
def products():
    """The table of Products of this installation; BadLaw when a data file is wrong."""
    return read_products(data.read_text("products.csv"), data.read_text("materials.csv"), data.read_text("nice.csv"))


@lru_cache(maxsize=1)
def caution_rules():
    """The CautionRules of this installation; BadLaw when the data file is wrong."""
    return read_cautions(data.read_text("cautions.toml"), rulebook().vocabulary, rulebook().groups)
