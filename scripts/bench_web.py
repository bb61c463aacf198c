"""Speed of the pages over many works: `bench_web.py --works 100000`; makes an invented catalogue, serves it, measures.

Prints p50 and p95 in milliseconds for each page over one kept-alive connection, round-robin, and each against an
empty route of the same server and against Datasette's own page for the same rows. The catalogue is kept with
--catalogue FOLDER and used again when it is there.
"""

import argparse
import http.client
import random
import socket
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from registry.catalogue import settings, standing, store, works
from registry.cli import serve

PLACES = ["US", "CA", "GB"]
NOUNS = "Heron Anchor Kettle Lantern Otter Bollard Ferry Mussel Plough Barrel Wheel Gannet Dory Thistle Crab Loaf Pump Quay Swift Rope".split()
PLACES_OF = "Harbour Mill Ford Strand Meadow Loft Wharf Chapel Orchard Lane Marsh Hill Ferry Gate Field Weir Pool Heath Cove Bridge".split()
MANNERS = "at dawn;in the rain;by lantern light;with a crown;resting;in winter;on a board;under sail;after the storm;for the fair".split(";")


def facts(chance, makers):
    """One invented facts object; makers repeat, as they do in a shop."""
    name, died, country, year = chance.choice(makers)
    year = year + chance.randrange(-6, 7)
    title = f"{chance.choice(NOUNS)} of {chance.choice(PLACES_OF)} {chance.choice(MANNERS)}"
    found = {"title": title, "kind": chance.choice(["drawing", "print", "painting", "photograph"]), "authorship": "individual",
             "created": str(year), "creators": [{"name": name, "nationality": [country], **({"died": str(died)} if died else {})}],
             "published": True, "publications": [{"date": str(year), "country": country}]}
    if country == "US" and chance.random() < 0.7:
        found |= {"us_notice": True} | ({"us_renewed": chance.random() < 0.3} if chance.random() < 0.6 else {})
    return found


def fill(folder, number, seed=7):
    """A new catalogue with so many works."""
    chance = random.Random(seed)
    makers = [(f"Maker {n} {chance.choice(NOUNS)}son", chance.choice([None, *range(1890, 1990)]), chance.choice(["US", "GB", "CA", "FR", "DE"]),
               chance.randrange(1880, 1960)) for n in range(3000)]
    catalogue = store.create(folder)
    settings.put(catalogue, name="Bench", markets=PLACES)
    start = time.perf_counter()
    for first in range(0, number, 1000):
        with store.transaction(catalogue):
            for _ in range(min(1000, number - first)):
                works.add(catalogue, facts(chance, makers))
    print(f"{number} works added in {time.perf_counter() - start:.0f} s", flush=True)
    catalogue.db.close()


EMPTY = '''
from datasette import hookimpl
from datasette.utils.asgi import Response

async def empty():
    return Response.text("")

@hookimpl
def register_routes():
    return [(r"^/-/empty$", empty)]
'''


def served(folder, plugins, port):
    """The process that serves a catalogue, with one empty route more."""
    words = [*serve.words_for(folder, port), "--plugins-dir", str(plugins)]
    process = subprocess.Popen([sys.executable, "-m", "datasette", *words], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    for _ in range(300):
        with socket.socket() as trial:
            if trial.connect_ex((serve.HOST, port)) == 0:
                return process
        time.sleep(0.1)
    process.kill()
    raise SystemExit("The pages did not come up.")


def ask(connection, path):
    """Milliseconds from the request to the last byte of the answer."""
    start = time.perf_counter()
    connection.request("GET", path)
    answer = connection.getresponse()
    answer.read()
    took = (time.perf_counter() - start) * 1000
    if answer.status != 200:
        raise SystemExit(f"{path} answered {answer.status}.")
    return took


PAGES = {  # name: (address, the page of Datasette with the same data, times an empty route that are allowed)
    "empty route": (lambda n: "/-/empty", None, None),
    "grid": (lambda n: "/", "Datasette table", 5),
    "grid, deep": (lambda n: f"/?after=w{n}", "Datasette table", 5),
    "work, first look": (lambda n: f"/work/w{n}", "Datasette row", 4),
    "work, seen before": (lambda n: f"/work/w{n}", "Datasette row", 4),
    "free in three markets": (lambda n: "/?show=free&in=US,CA,GB", "Datasette table", 12),
    "the same, deep": (lambda n: f"/?show=free&in=US,CA,GB&after=w{n}", "Datasette table", 12),
    "free by a day": (lambda n: "/?show=free&in=US,CA,GB&by=2030-01-01", "Datasette table", 12),
    "search, broad": (lambda n: "/?q=heron", "Datasette table", 20),
    "search, three words": (lambda n: "/?q=heron+har+dawn", "Datasette table", 20),
    "search and free": (lambda n: "/?q=heron&show=free", "Datasette table", 20),
    "Datasette row": (lambda n: f"/catalogue/works/{n}", None, None),
    "Datasette table": (lambda n: "/catalogue/works", None, None),
}


def wait(connection):
    """Returns when the pages have reckoned every stored answer, which they do in the background after new rules."""
    while True:
        connection.request("GET", "/?part=grid")
        if b"being reckoned" not in connection.getresponse().read():
            return
        time.sleep(2)


def measure(port, rounds, number):
    """{page: [ms]} over one connection, page after page in each round; "first look" takes a work nobody asked for yet."""
    connection, chance = http.client.HTTPConnection(serve.HOST, port), random.Random(3)
    wait(connection)
    numbers = chance.sample(range(2000, number), rounds + 60)
    some, fresh, warm = numbers[:20], numbers[20:20 + rounds], numbers[20 + rounds:]
    for n in (*warm, *some):  # the rules are read and the templates compiled once, whoever asks first
        ask(connection, f"/work/w{n}")
    for make, _other, _times in PAGES.values():
        ask(connection, make(some[0]))
    found = {name: [] for name in PAGES}
    for turn in range(rounds):
        for name, (make, _other, _times) in PAGES.items():
            found[name].append(ask(connection, make(fresh[turn] if name == "work, first look" else some[turn % len(some)])))
    return found


def show(found):
    """Prints the table; the number of pages that are slower than allowed."""
    middle = {name: statistics.median(times) for name, times in found.items()}
    slow = 0
    print(f"{'page':<24}{'p50 ms':>9}{'p95 ms':>9}{'x empty':>9}{'allowed':>9}{'x Datasette':>13}{'allowed':>9}")
    for name, (_make, other, times) in PAGES.items():
        p95 = sorted(found[name])[int(len(found[name]) * 0.95)]
        line = f"{name:<24}{middle[name]:>9.2f}{p95:>9.2f}"
        if times:
            ratio, beside = middle[name] / middle["empty route"], middle[name] / middle[other]
            slow += (ratio > times) + (beside > 0.6)
            line += f"{ratio:>9.1f}{times:>9}{beside:>13.2f}{0.6:>9}"
        print(line)
    return slow


def main(argv=None):
    """0 when every page is as fast as is allowed, else 1."""
    parser = argparse.ArgumentParser(description=__doc__.split("\n", maxsplit=1)[0])
    parser.add_argument("--works", type=int, default=100_000, metavar="N", help="How many works; without it 100,000.")
    parser.add_argument("--rounds", type=int, default=200, metavar="N", help="How often each page is asked for; without it 200.")
    parser.add_argument("--catalogue", metavar="FOLDER", help="Where the catalogue is kept; without it in a folder that is removed.")
    args = parser.parse_args(argv)
    with tempfile.TemporaryDirectory() as place:
        folder = Path(args.catalogue or Path(place) / "catalogue")
        if not folder.exists():
            fill(folder, args.works)
        _reckon(folder)
        (Path(place) / "plugins").mkdir()
        (Path(place) / "plugins" / "empty.py").write_text(EMPTY, encoding="utf-8")
        with socket.socket() as trial:
            trial.bind((serve.HOST, 0))
            port = trial.getsockname()[1]
        process = served(folder, Path(place) / "plugins", port)
        try:
            return 1 if show(measure(port, args.rounds, args.works)) else 0
        finally:
            process.kill()
            process.wait()


def _reckon(folder):
    """Brings the stored answers for PLACES up to date, in a new catalogue and in one that was kept."""
    catalogue, start = store.open_catalogue(folder), time.perf_counter()
    while standing.reckon(catalogue, store.today(), PLACES, 1000):
        pass
    print(f"answers in {len(PLACES)} places stored in {time.perf_counter() - start:.0f} s", flush=True)
    catalogue.db.close()


if __name__ == "__main__":
    sys.exit(main())
