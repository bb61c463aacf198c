"""The law of each place as a page: the chain of acts, each rule's sentence, citation and how it is known."""

from registry.errors import UnknownRecord
from registry.rulebook import covered, place_names, rulebook
from registry.web.page import page, render


@page
async def listing(request, datasette):
    """The page /law."""
    laws = rulebook().laws
    rows = [(code, name, laws.law(code), laws.gap(code)) for code, name in place_names().items()]
    return await render(datasette, request, "laws", {"rows": rows, "covered": covered()})


@page
async def show(request, datasette):
    """The page /law/XX."""
    code = request.url_vars["code"].upper()
    if code not in place_names():
        raise UnknownRecord(f"{code} is not a place; two-letter codes of ISO 3166-1 such as US are allowed.")
    laws = rulebook().laws
    return await render(datasette, request, "law", {"code": code, "law": laws.law(code), "gap": laws.gap(code),
                                                    "place": laws.territories.get(code)})
