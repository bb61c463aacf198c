"""From a Case to what marks and cautions look at in each place: texts, goods, layers, marks found.

Pure like the rest; the catalogue calls `setting`, `founds` and `with_marks`, once for all places of a job.
"""

from dataclasses import dataclass, replace

from registry.clearance.cautions import Scene, Seen, cautions, runs_of, words_in
from registry.clearance.goods import Goods, goods
from registry.clearance.likeness import prepared
from registry.clearance.marks import Text, judged, nearest, ranked
from registry.clearance.model import Match
from registry.clearance.traits import walk
from registry.law.known import Base


@dataclass(frozen=True, slots=True)
class Setting:
    """What is the same in every place: the Case, its Texts, its Goods, keys of all layers shown, Bases by key."""

    case: object
    texts: tuple
    goods: Goods
    shown: tuple
    bases: dict
    runs: frozenset
    listing: bool


def texts_of(case, title="", listing=""):
    """The Texts of a job: wording, lettering, listing text, its title, titles and traits of the versions it shows."""
    job = case.job
    given = [("wording", job.wording, ""), ("lettering", job.lettering, ""), ("listing", listing, ""), ("title", title, "")]
    for use in job.uses:
        for layer in walk(case.layers, use).shown:
            given.append(("work", layer.title, layer.key))
        given += [("trait", name, use.work) for name in use.traits or _all_traits(case, use)]
    kept = dict.fromkeys(one for one in given if one[1].strip())
    return tuple(Text(field, prepared(text), work) for field, text, work in kept)


def _all_traits(case, use):
    return [name for layer in walk(case.layers, use).shown for name in layer.traits]


def setting(case, products, laws, day, title="", listing=""):
    """The Setting of a Case on a day."""
    texts = texts_of(case, title, listing)
    shown = tuple(dict.fromkeys(layer.key for use in case.job.uses for layer in walk(case.layers, use).shown))
    bases = {key: Base(case.layers[key].work, laws, day) for key in shown}
    return Setting(case, texts, goods(case.job.product, products), shown, bases, runs_of(texts), bool(listing.strip()))


def founds(where, marks, places, day, rules):
    """{place: Founds, the strongest first} and the keys of the Marks that come near at all, whatever place."""
    works = where.shown
    near = [(mark, found) for mark in marks if (found := nearest(where.texts, mark, works))]
    by_place = {
        place: ranked(one for mark, found in near if (one := judged(found, mark, place, where.goods, day, rules)))
        for place in places
    }
    return by_place, tuple(mark.key for mark, _found in near)


def scene(where, place, found, elsewhere, ground):
    """The Scene of a Setting in one place."""
    job = where.case.job
    return Scene(place, ground.day, job.product, job.purpose, where.goods.classes, words_in(job.wording), where.listing, where.runs,
                 tuple(_seen(where, key, place, ground) for key in where.shown), tuple(found), elsewhere)


def _seen(where, key, place, ground):
    layers = where.case.layers
    layer, parts, beneath = layers[key], [], []
    for use in where.case.job.uses:
        line = walk(layers, use).line
        if layer in line:
            parts.append(use.part)
            beneath += [one.work.kind for one in line[:line.index(layer)]]
    status = ground.verdict(ground.plain(layer.work), place).status
    return Seen(layer, tuple(dict.fromkeys(parts)), status, tuple(dict.fromkeys(beneath)), where.bases[key],
                any(one.work == key for one in where.case.permissions))


def matches_for(by_place):
    """The Matches that a decision takes, one for each Found."""
    return tuple(Match(one.mark.key, one.mark.words, (one.place,), one.strength, one.says, "", one.ask, one.question, one.where)
                 for found in by_place.values() for one in found)


def with_marks(where, by_place, near, rules, ground):
    """The Case with Matches and Cautions in place, ready for a decision."""
    told = []
    for place, found in by_place.items():
        told += cautions(scene(where, place, found, bool(near), ground), rules)
    return replace(where.case, matches=matches_for(by_place), cautions=tuple(told))
