"""What becomes free when, for the chosen markets, as a page and as a file for a calendar program (RFC 5545)."""

from itertools import groupby
from urllib.parse import urlencode

from datasette.utils.asgi import Response

from registry.catalogue import coming, settings, shelf, standing, store, works
from registry.errors import BadDate, RegistryError
from registry.exchange.calendar import Event, calendar_text
from registry.exchange.coming_events import TITLE, events
from registry.facts import edtf
from registry.rulebook import place_phrases
from registry.web import remembered
from registry.web.page import HEADERS, compose, market_names, page, read

AHEAD = 15    # years looked at when nothing is asked
MANY = 4000   # answers (works times places); beyond them only numbers are shown, from the stored answers
LINES = 60    # works listed for one day
DAYS = 500    # days and places listed in all when there are many works


@page
async def show(request, datasette):
    """The page /calendar with ?in= (markets) and ?until= (a day or a year)."""
    return await compose(datasette, request, "calendar", lambda catalogue: _collected(catalogue, request))


def _collected(catalogue, request):
    day, problem, asked = store.today(), "", request.args.get("until", "").strip()
    names, until = market_names(catalogue, request), end_of(AHEAD + int(edtf.iso(day)[:4]))
    try:
        codes = tuple(settings.opened(catalogue, names))
        until = _until(asked, day) if asked else until
    except RegistryError as error:
        problem, codes = str(error), tuple(settings.opened(catalogue, market_names(catalogue)))
    found, counts = _found(catalogue, codes, day, until)
    left = [f"The job {key} is not told of among those that wait: {says}" for key, says in coming.unplaced(catalogue).items()]
    problem = " ".join(filter(None, [problem, *left]))
    address = "/calendar.ics?" + urlencode({"in": ",".join(names), "until": edtf.iso(until)})
    behind = standing.behind(catalogue, day, codes) if counts is not None else 0
    return {"market_names": names, "problem": problem, "day": day, "until": until,
            "asked_until": asked or edtf.iso(until)[:4], "file": address,
            "days": by_day(found), "counts": counts, "behind": behind, "lines": LINES}


def _until(text, day):
    """The day number of a typed day, or the last day of a typed year; BadDate when it lies not ahead."""
    until = end_of(int(text)) if text.isascii() and text.isdigit() and len(text) == 4 else edtf.day(text)
    if until <= day:
        raise BadDate(f"“{text}” lies not ahead of today; type a year such as 2040, or a day.")
    return until


def end_of(year):
    """The day number of the last day of a year."""
    return edtf.day(f"{year:04d}-12-31")


def _found(catalogue, codes, day, until):
    """(Comings, None), or ([], rows of day, place, number of works and one of them) where there are too many works to judge each."""
    if works.count(catalogue) * len(codes) > MANY:
        return [], shelf.clearing(catalogue, codes, edtf.iso(day), edtf.iso(until), DAYS)
    return remembered.value(catalogue, ("calendar", codes, day, until), lambda: coming.coming(catalogue, codes, day, until)), None


def by_day(found):
    """[(day number, [(a Coming, codes of all places where the same holds, codes by waiting job)], how many works)] in order."""
    days = []
    for day, rows in groupby(found, key=lambda one: one.day):
        groups = {}
        for one in rows:
            _one, places, jobs = groups.setdefault((one.title, one.work, one.how, one.adds), (one, [], {}))
            places.append(one.place)
            for key in one.jobs:
                jobs.setdefault(key, []).append(one.place)
        days.append((day, [groups[key] for key in sorted(groups)], len({key[1] for key in groups})))
    return days


@page
async def file(request, datasette):
    """The address /calendar.ics: the same days as an iCalendar file."""

    def collect(catalogue):
        day, asked = store.today(), request.args.get("until", "").strip()
        codes = tuple(settings.opened(catalogue, market_names(catalogue, request)))
        found, counts = _found(catalogue, codes, day, _until(asked, day) if asked else end_of(AHEAD + int(edtf.iso(day)[:4])))
        return events(found) if counts is None else [_counted(*row) for row in counts]

    text = calendar_text(TITLE, await read(datasette, collect), store.now().replace("-", "").replace(":", ""))
    headers = {**HEADERS, "content-disposition": 'attachment; filename="what-becomes-free.ics"'}
    return Response(text, content_type="text/calendar; charset=utf-8", headers=headers)


def _counted(day, place, number, _one):
    works, where = f"{number} work{'' if number == 1 else 's'}", place_phrases().get(place, place)
    return Event(f"{day} {place}", edtf.day(day), f"{works} likely free from today at the latest in {where}")
