"""The marks on record, one mark with what it reaches, and the search for marks that a wording comes near."""

from registry.catalogue import complaints, mark_search, marks, search as find, settings, store, works
from registry.catalogue.mark_rules import mark_rules, products
from registry.catalogue.mark_tables import STATES
from registry.clearance.goods import goods
from registry.clearance.marks import DEAD, EXACT, STRONG, WEAK, stands
from registry.clearance.offices import ECHO, ELSEWHERE, HERE, UNKNOWN, reach
from registry.errors import RegistryError
from registry.facts import edtf
from registry.web import body, typed
from registry.web.page import compose, market_names, page

MOST = 100  # marks in one list
COMPARED = 1000  # signs that are compared with every mark at once
STRENGTH = {EXACT: ("hold", "hold"), STRONG: ("not_settled", "caution"), WEAK: ("not_settled", "mild caution"),
            DEAD: ("plain", "dead mark")}
REACHES = ((HERE, "It reaches"), (ECHO, "Look there too"), (UNKNOWN, "Not known for"), (ELSEWHERE, "It does not reach"))


@page
async def listing(request, datasette):
    """The page /marks with ?q= words or owner, state=: the marks on record and the latest searches of registers."""
    args = request.args
    text, state = args.get("q", "").strip(), args.get("state", "")
    state = state if state in STATES else ""
    find.check(text)

    def collect(catalogue):
        found, day = marks.listed(catalogue, text, state, MOST + 1), store.today()
        return {"marks": [(one, *stands(one, day, mark_rules())) for one in found[:MOST]], "cut": len(found) > MOST,
                "count": marks.count(catalogue), "q": text, "state": state, "states": state_choices(),
                "searches": marks.searches(catalogue)[:5], "market_names": market_names(catalogue)}

    return await compose(datasette, request, "marks", collect)


def state_choices():
    """(word, what it means) of the states of a mark, for a select field."""
    return [(word, mark_rules().states[word][1] if word in mark_rules().states else word) for word in STATES]


@page
async def show(request, datasette):
    """The page /mark/KEY: what is on record, how it stands today, where it reaches, what it is linked to."""

    def collect(catalogue):
        mark, day = marks.get(catalogue, request.url_vars["key"]), store.today()
        names = market_names(catalogue)
        standing, says = stands(mark, day, mark_rules())
        return {"mark": mark, "standing": standing, "says": says, "market_names": names,
                "reaches": reaches(mark, settings.opened(catalogue, names)),
                "works": [works.get(catalogue, key) for key in mark.works],
                "searches": marks.searches(catalogue, words=[mark.words]) if mark.words else [],
                "complaints": [one for one in complaints.listed(catalogue) if mark.key in one.marks],
                "headings": products().headings, "today": edtf.iso(day)}

    return await compose(datasette, request, "mark", collect)


def reaches(mark, codes):
    """(title, codes, sentence) for each way in which a mark bears on some of these places."""
    day = edtf.day(mark.registered or mark.filed) if mark.registered or mark.filed else None
    found = {}
    for code in codes:
        kind, says = reach(mark.office, code, day, mark_rules())
        found.setdefault(kind, ([], says))[0].append(code)
    return [(title, *found[kind]) for kind, title in REACHES if kind in found]


def refusals(form):
    """{field: sentence} for what is too long to be read, or to be compared with every mark."""
    found = dict(form.long)
    if len(form.get("words")) > COMPARED:
        found["words"] = f"The words are longer than the {COMPARED:,} signs that are allowed."
    return found


@page
async def search(request, datasette):
    """The page /marks/search with ?words=, in=, product=, classes=: the marks on record that a wording comes near."""
    form = body.asked(request)
    errors = refusals(form)
    status = 400 if errors else 200
    classes = typed.classes(form, "classes", errors)

    def collect(catalogue):
        names = market_names(catalogue, request)
        context = {"form": form, "market_names": names, "problem": " ".join(errors.values()), "found": None,
                   "told": (), "made": None, "strength": STRENGTH}
        if errors or not form.get("words"):
            return context
        try:
            return context | answered(catalogue, form, names, classes)
        except RegistryError as error:
            return context | {"problem": str(error)}

    return await compose(datasette, request, "mark_search", collect, status)


def answered(catalogue, form, names, classes):
    """What was found for a wording in places, places of the same answer together, and what stands beside every answer."""
    codes, product = settings.opened(catalogue, names), form.get("product")
    found = mark_search.search(catalogue, form.get("words"), codes, store.today(), product, classes)
    return {"found": alike(found), "told": mark_search.told(catalogue, names, [form.get("words")]),
            "made": goods(product, products()) if product and not classes else None}


def alike(found):
    """(codes, Searched) with places of the same answer together; the Searched is that of the first."""
    groups = {}
    for one in found:
        groups.setdefault(tuple((match.mark.key, match.strength, match.reach) for match in one.found), ([], one))[0].append(one.place)
    return list(groups.values())
