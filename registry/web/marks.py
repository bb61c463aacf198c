"""The marks on record, one mark, and the search for marks that a wording comes near."""

from registry.catalogue import marks
from registry.web.page import page, read, render


@page
async def listing(request, datasette):
    """The page /marks: the marks on record."""
    return await render(datasette, request, "marks", {"marks": await read(datasette, marks.listed)})
