"""What becomes free when, for the chosen markets."""

from registry.catalogue import coming, settings, store
from registry.facts import edtf
from registry.web.page import market_names, page, read, render

AHEAD = 15  # years


@page
async def show(request, datasette):
    """The page /calendar."""

    def collect(catalogue):
        names, day = market_names(catalogue, request), store.today()
        until = edtf.day(f"{int(edtf.iso(day)[:4]) + AHEAD}-12-31")
        return {"market_names": names, "coming": coming.coming(catalogue, settings.opened(catalogue, names), day, until), "day": day, "until": until}

    return await render(datasette, request, "calendar", await read(datasette, collect))
