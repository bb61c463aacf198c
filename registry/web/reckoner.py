"""Keeps the stored answers up to date while pages are served: a few at once, many in the background."""

import asyncio

from registry.catalogue import standing, store
from registry.errors import RegistryError
from registry.web.page import write

AT_ONCE = 150  # works that a page waits for
STEP = 50      # works in one step of the background, so that other writes need not wait long

_running = set()


async def catch_up(datasette, places, behind):
    """True when the stored answers for these places were brought up to date; many are made in the background."""
    day = store.today()
    if behind <= AT_ONCE:
        await write(datasette, lambda catalogue: standing.reckon(catalogue, day, places, AT_ONCE))
        return True
    if not _running:
        task = asyncio.get_running_loop().create_task(_background(datasette, day, places))
        _running.add(task)
        task.add_done_callback(_running.discard)
    return False


async def _background(datasette, day, places):
    try:
        while await write(datasette, lambda catalogue: standing.reckon(catalogue, day, places, STEP)):
            await asyncio.sleep(0.01)
    except RegistryError:
        pass  # another program is writing; the next page tries again
