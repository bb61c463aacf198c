"""Complaints: the list, one with its answers and what is on record, and the forms for both."""

from registry.catalogue import complaints
from registry.web.page import page, read, render


@page
async def listing(request, datasette):
    """The page /complaints, the earliest deadline first."""
    return await render(datasette, request, "complaints", {"complaints": await read(datasette, complaints.listed)})
