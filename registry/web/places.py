"""The answer for one work in every place with rules on file, as one compact table drawn from our own data."""

from registry.catalogue import clear, store, works
from registry.rulebook import covered, place_names
from registry.web import remembered, said, work
from registry.web.page import compose, page


@page
async def show(request, datasette):
    """The page /work/KEY/places; ?part=table gives the table alone."""
    key, part = request.url_vars["key"], request.args.get("part") == "table"

    def collect(catalogue):
        day = store.today()
        return {"day": day, **remembered.value(catalogue, ("places", key, day), lambda: _collected(catalogue, key, day))}

    return await compose(datasette, request, "places_table" if part else "places", collect)


def _collected(catalogue, key, day):
    record, codes = works.get(catalogue, key), covered()
    rows = [work.placed(code, found) for code, found in clear.chains(clear.desk(catalogue, day), record, codes).items()]
    order = ("public_domain", said.OWN, "in_copyright", "undetermined")
    groups = {status: [row for row in rows if row["status"] == status] for status in order}
    for found in groups.values():
        found.sort(key=lambda row: row["name"])
    return {"record": record, "groups": groups, "gaps": sorted(set(place_names()) - set(codes), key=place_names().get)}
