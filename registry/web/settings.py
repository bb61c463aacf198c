"""What the shop says of itself: its name, the markets it ships to, its own groups of places."""

from registry.web.page import page, render


@page
async def show(request, datasette):
    """The page /settings."""
    return await render(datasette, request, "settings", {})
