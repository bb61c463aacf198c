"""The grid of works with search, filters and the answer for each chosen market; beside it, what needs somebody."""

from urllib.parse import urlencode

from registry.catalogue import settings, shelf, standing, store, watch, works
from registry.errors import BadDate, RegistryError
from registry.facts import edtf
from registry.rulebook import rulebook
from registry.web import reckoner, remembered, said
from registry.web.page import market_names, page, read, render

SHOWS = (("", "all works"), ("free", "free in all chosen markets"), ("held", "in copyright in one of them"),
         ("open", "undetermined in one of them"))
ORDERS = (("new", "newest entry first"), ("title", "by title"), ("published", "by first publication"))
SIZE = 24
MOST_PLACES = 80  # answers are kept for every place that the grid was asked for
SHOWN_PLACES = 6  # more places than these are summed up on a card


@page
async def show(request, datasette):
    """The page / with ?q= words, in= markets, show=, by= day, kind=, missing= fact, used=, order=, after= key;
    part=grid for the grid alone.
    """
    args = request.args  # cut into its parts anew each time that it is asked for
    part = args.get("part") == "grid"

    def collect(catalogue):
        return _collected(catalogue, request, args, part)

    found = await read(datasette, collect)
    if found["behind"] and await reckoner.catch_up(datasette, found["wanted"].places, found["behind"]):
        found = await read(datasette, collect)
    return await render(datasette, request, "grid" if part else "home", found)


def _collected(catalogue, request, args, part):
    wanted, names, problem = _wanted(catalogue, request, args)
    found, day = shelf.find(catalogue, wanted), store.today()
    cards = shelf.cards(catalogue, found.ids, wanted.places)
    beside = {}
    if not part:
        beside = remembered.value(
            catalogue, ("home", wanted.places, day), lambda: _beside(catalogue, wanted.places, day))
    return {
        "cards": [_card(card, wanted.places) for card in cards], "shelf": found, "wanted": wanted,
        "market_names": names, "problem": problem,
        "behind": standing.behind(catalogue, day, wanted.places), "next": _address(args, cards, found), "start": _address(args, (), None),
        "kinds": rulebook().vocabulary.facts["kind"].choices, "shows": SHOWS, "orders": ORDERS, "day": day,
        "shop": settings.everything(catalogue), **beside,
        "filtered": any((wanted.words, wanted.show, wanted.kind, wanted.missing, wanted.used)),
    }


def _wanted(catalogue, request, args):
    """(Wanted, names of the markets, sentence about what could not be used) of an address."""
    problem = ""
    try:
        names = market_names(catalogue, request)
        places = settings.opened(catalogue, names)
    except RegistryError as error:
        problem, names = str(error), market_names(catalogue)
        places = settings.opened(catalogue, names)
    if len(places) > MOST_PLACES:
        problem = (f"The grid answers for {MOST_PLACES} places at most, and these are {len(places)};"
                   " the page of a work shows all places.")
        names = market_names(catalogue)
        places = settings.opened(catalogue, names)
    day, asked = edtf.iso(store.today()), args.get("by", "").strip()
    try:
        day = max(day, edtf.iso(edtf.day(asked))) if asked else day
    except BadDate as error:
        problem = problem or str(error)
    picked = {name: args.get(name, "") for name in ("kind", "missing", "used", "after")}
    show = args.get("show", "")
    wanted = shelf.Wanted(tuple(places), day, args.get("q", "").strip(), show if show in dict(SHOWS) else "",
                          order=args.get("order") if args.get("order") in dict(ORDERS) else "new", size=SIZE, **picked)
    return wanted, names, problem


def _address(args, cards, found):
    """The address of the next page; of the first one without a Shelf; "" when there is none."""
    rest = [(name, value) for name in args for value in args.getlist(name) if name not in ("after", "part") and value]
    if found is None:
        return "/?" + urlencode(rest) if rest else "/"
    return "/?" + urlencode([*rest, ("after", cards[-1].key)]) if found.more and cards else ""


def _card(card, places):
    """A Card and its chips: (codes, status, count); places are summed up by status when there are many."""
    statuses = {place: _status(card, place) for place in places}
    if len(places) <= SHOWN_PLACES:
        return card, [(place, status, card.answers.get(place)) for place, status in statuses.items()]
    groups = {}
    for place, status in statuses.items():
        groups.setdefault(status, []).append(place)
    return card, [(_codes(codes), status, None) for status, codes in groups.items()]


def _status(card, place):
    found = card.answers[place]["status"] if place in card.answers else ""
    return said.OWN if card.own and found == "public_domain" else found


def _codes(codes):
    return f"{', '.join(codes[:3])} and {len(codes) - 3} more" if len(codes) > 4 else ", ".join(codes)


def _beside(catalogue, places, day):
    """What needs somebody: due things, facts that settle most, what clears on the next 1 January."""
    turn = f"{int(edtf.iso(day)[:4]) + 1}-01-01"
    due = watch.due(catalogue, day)
    facts, asked = rulebook().vocabulary.facts, shelf.asked_for(catalogue, places, 40)
    return {
        "count": works.count(catalogue), "due": due,
        "asks": [(fact, facts[fact].question, number) for fact, number in asked if fact in facts][:3],
        "missing": sorted(((fact, said.label(fact)) for fact, _number in asked), key=lambda one: one[1]),
        "clearing": shelf.clearing(catalogue, places, edtf.iso(day), turn), "turn": turn,
    }
