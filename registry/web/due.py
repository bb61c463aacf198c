"""What is due: answers that changed since they were decided, what runs out, what was sold without a decision."""

from registry.catalogue import store, watch
from registry.web.page import page, read, render


@page
async def show(request, datasette):
    """The page /due."""
    return await render(datasette, request, "due", {"due": await read(datasette, lambda catalogue: watch.due(catalogue, store.today()))})
