"""The demo shop with something of every kind on record, and an example address for every page."""

import re
from datetime import date, timedelta

from registry.catalogue import complaints, decisions, evidence, jobs, marks, store
from registry.web import routes

DAY = date.today()


def enrich(folder):
    """Adds to a copy of the demo shop what it lacks: decisions, a complaint with an answer, a search, a sale."""
    catalogue = store.open_catalogue(folder)
    decisions.decide(catalogue, "pelican-sign", "Isbet Corrow", "goes ahead", store.today(), look_again=(DAY + timedelta(days=30)).isoformat())
    held = next(job.key for job in jobs.listed(catalogue) if job.key == "pelican-oilskin")
    decisions.decide(catalogue, held, "Isbet Corrow", "one piece, not for sale there", store.today(), although="the owner agreed by letter")
    sold = jobs.get(catalogue, "otter-first")
    jobs.change(catalogue, sold.key, sold.version, sold_on="2026-10-01")
    complaints.add(catalogue, received="2026-10-02", sender="Corvane & Thole", claim="The pelican is ours.", jobs=["pelican-sign"], works=["plumb-1928"], marks=["m1"], deadline="2026-10-20")
    complaints.answer(catalogue, "c1", answered="2026-10-10", by="Isbet Corrow", says="Sent the sheet.")
    marks.add_search(catalogue, "US", "GAFFER PLUMB", by="Mab", at="2026-09-01")
    evidence.add(catalogue, "plumb-1936", "died", "told", title="letter of the heirs", seen_on="2026-01-01")
    catalogue.db.close()


EXAMPLES = {  # by the pattern of a route: addresses that show it in its different states
    r"^/$": ["/", "/?q=pelican&show=free", "/?q=zebra", "/?in=EU&show=held&order=title", "/?in=Narnia", "/?after=plumb-1928"],
    r"^/works/table$": ["/works/table"],
    r"^/work/new$": ["/work/new", "/work/new?based_on=plumb-1928"],
    r"^/work/KEY$": ["/work/plumb-1936", "/work/plumb-ours", "/work/ram-photo", "/work/anchor-chapbook?in=EU", "/work/none", "/work/plumb-1928?done=saved"],
    r"^/work/KEY/edit$": ["/work/plumb-1936/edit", "/work/anchor-chapbook/edit"],
    r"^/work/KEY/ask$": ["/work/plumb-1928/ask", "/work/bay-poster/ask?in=EU,US", "/work/plumb-1936/ask?fact=us_renewed", "/work/plumb-1936/ask?fact=publications.date"],
    r"^/work/KEY/picture$": ["/work/plumb-1936/picture"],
    r"^/work/KEY/evidence$": ["/work/plumb-1928/evidence", "/work/plumb-1936/evidence?fact=us_renewed"],
    r"^/work/KEY/places$": ["/work/plumb-1936/places"],
    r"^/jobs$": ["/jobs", "/jobs?show=sold"],
    r"^/check$": ["/check", "/check?job=herring-towel", "/check?work=loaf-1950&markets=US,EU&find=pelican", "/check?work=none", "/check?job=herring-towel&if.herring-label/died=1930"],
    r"^/job/new$": ["/job/new", "/job/new?work=plumb-1928"],
    r"^/job/KEY$": ["/job/pelican-sign", "/job/pelican-oilskin", "/job/herring-towel", "/job/otter-second", "/job/none"],
    r"^/job/KEY/edit$": ["/job/pelican-sunday/edit"],
    r"^/marks$": ["/marks", "/marks?q=plumb"],
    r"^/marks/search$": ["/marks/search", "/marks/search?words=gaffer+plumb&in=US&product=twine"],
    r"^/marks/searched$": ["/marks/searched"],
    r"^/marks/table$": ["/marks/table"],
    r"^/mark/new$": ["/mark/new"],
    r"^/mark/KEY$": ["/mark/m1", "/mark/m2"],
    r"^/mark/KEY/edit$": ["/mark/m1/edit"],
    r"^/permissions$": ["/permissions"],
    r"^/permission/new$": ["/permission/new", "/permission/new?work=otter"],
    r"^/permission/NUMBER$": ["/permission/1", "/permission/2"],
    r"^/complaints$": ["/complaints"],
    r"^/complaint/new$": ["/complaint/new?job=otter-first"],
    r"^/complaint/KEY$": ["/complaint/c1"],
    r"^/calendar$": ["/calendar", "/calendar?in=EU"],
    r"^/due$": ["/due", "/due?within=3650"],
    r"^/due/proof$": ["/due/proof"],
    r"^/settings$": ["/settings"],
    r"^/law$": ["/law"],
    r"^/law/CODE$": ["/law/US", "/law/DE", "/law/AQ", "/law/VI"],
}
PAPERS = {r"^/job/KEY/sheet$": ["/job/pelican-sign/sheet", "/job/pelican-oilskin/sheet?private=1"], r"^/job/KEY/card$": ["/job/pelican-sign/card"]}
NOT_PAGES = {  # addresses that give no page to read: files, JSON, and forms that only send
    r"^/date$", r"^/picture/SHA$", r"^/file/SHA$", r"^/held/TOKEN$", r"^/calendar\.ics$", r"^/complaint/KEY/folder\.zip$", r"^/job/KEY/package\.zip$",
    r"^/work/KEY/label\.json$", r"^/job/KEY/decide$", r"^/complaint/KEY/answer$",
}
PAGES = [path for paths in EXAMPLES.values() for path in paths]


def plain(pattern):
    """A pattern of routes.ROUTES with KEY, CODE, NUMBER, SHA, TOKEN for its groups."""
    return re.sub(r"\(\?P<(\w+)>.*?\)(?=[/$\\]|$)", lambda found: found[1].upper(), pattern)


def forgotten():
    """Routes without an example."""
    return [plain(pattern) for pattern, _view in routes.ROUTES if plain(pattern) not in EXAMPLES and plain(pattern) not in PAPERS and plain(pattern) not in NOT_PAGES]
