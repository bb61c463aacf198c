"""The grid of works, with search and the answer for each of the shop's markets."""

from registry.catalogue import answers, search, store, works
from registry.web.page import markets, page, read, render

SHOWN = 24


@page
async def show(request, datasette):
    """The page / with ?q= (words), ?in= (places), ?from= (number of the first work)."""
    typed = request.args.get("q", "").strip()
    start = int(request.args.get("from", "0")) if request.args.get("from", "0").isdigit() else 0

    def collect(catalogue):
        codes = markets(catalogue, request)
        found = search.find(catalogue, typed, 200)[start:start + SHOWN] if typed else works.listed(catalogue, SHOWN, start)
        day = store.today()
        cards = [(record, answers.answer_work(record, codes, day)) for record in found]
        return {"cards": cards, "codes": codes, "count": works.count(catalogue)}

    found = await read(datasette, collect)
    return await render(datasette, request, "home", {**found, "typed": typed, "start": start, "size": SHOWN})
