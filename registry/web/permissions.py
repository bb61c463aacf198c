"""The permissions on record, with the pieces used so far."""

from registry.catalogue import clear, permissions
from registry.web.page import page, read, render


@page
async def listing(request, datasette):
    """The page /permissions: all permissions, by work."""

    def collect(catalogue):
        found = [one for key in clear.permitted_works(catalogue) for one in permissions.of_work(catalogue, key)]
        return {"permissions": found, "used": {one.id: clear.drawn(catalogue, one) for one in found}}

    return await render(datasette, request, "permissions", await read(datasette, collect))
