"""Times of clearance: one check of a large job as a whole process, and `due` on a large catalogue.

`bench_clearance.py` makes a catalogue in a temporary folder (10,000 works and 5,000 jobs; --works and --jobs alter
that), and prints seconds. With --all-moved it also times `due` after every rule file changed. Exit 1 when a limit is missed.
"""

import argparse
import os
import subprocess
import sys
import tempfile
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parent.parent))

from registry.catalogue import answers, decisions, jobs, permissions, store, watch, works  # noqa: E402

CHECK, DUE = 0.5, 5.0  # seconds
PLACES = ("US", "CA", "GB", "DE", "FR", "ES", "IT", "NL", "MX", "JP", "AU", "BR")


def facts(number):
    """The facts object of an invented drawing, different for every number."""
    made = 1900 + number % 70
    home = ("US", "GB", "FR", "DE")[number % 4]
    found = {"title": f"Drawing {number}", "kind": "drawing", "authorship": "individual", "created": str(made), "published": True,
             "creators": [{"name": f"Maker {number % 900}", "nationality": [home], **({"died": str(made + 5 + number % 40)} if number % 5 else {})}],
             "publications": [{"date": str(made), "country": home}]}
    return found | ({"us_notice": True, "us_renewed": bool(number % 3)} if home == "US" else {"us_notice": False, "us_published_within_30_days": False})


def fill(catalogue, count, runs):
    """Puts works, jobs and decisions into an empty catalogue."""
    with store.transaction(catalogue):
        for number in range(count):
            based = {"based_on": f"w{number}", "originality": "new_expression"} if number % 10 == 9 else {}
            works.add(catalogue, facts(number), key=f"w{number + 1}", traits=[f"trait {number}"], **based)
        for number in range(0, count, 50):
            permissions.add(catalogue, f"w{number + 1}", "licence", licensor="heirs", uses=["goods"], places=["world"], media=["any"], commercial=True, changes_allowed=True)
        for number in range(runs):
            key = jobs.add(catalogue, key=f"j{number + 1}", title=f"Run {number}", product="carved wooden sign", quantity=20,
                           markets=list(PLACES[number % 3: number % 3 + 3]), sold_on="2026-01-02" if number % 4 == 0 else None).key
            jobs.use(catalogue, key, f"w{number % count + 1}", "picture")
    with store.transaction(catalogue):
        for number in range(0, runs, 2):
            decisions.decide(catalogue, f"j{number + 1}", "bench", "timed", store.today(), although="bench")


def large_job(catalogue):
    """Key of a job of six layers for twelve places."""
    for number in range(6):
        based = {"based_on": f"layer{number - 1}", "originality": ("unknown", "new_expression", "faithful_copy")[number % 3]} if number else {}
        works.add(catalogue, facts(4 * number + 41) | ({"us_renewed": "unknown"} if number == 3 else {}), key=f"layer{number}", traits=[f"feature {number}"], **based)
    jobs.add(catalogue, key="large", title="Six layers", product="carved wooden sign", quantity=20, markets=list(PLACES))
    jobs.use(catalogue, "large", "layer5", "picture")
    return "large"


def timed(run):
    """Seconds that a call takes."""
    start = time.perf_counter()
    run()
    return time.perf_counter() - start


def process(folder, *words):
    """Seconds of one call of the command as a process of its own: the best of five."""
    root = str(Path(__file__).resolve().parent.parent)
    command = [sys.executable, "-m", "registry.cli", "--catalogue", str(folder), *words]
    return min(timed(lambda: subprocess.run(command, stdout=subprocess.DEVNULL, cwd=root, env={**os.environ, "PYTHONPATH": root}, check=False)) for _ in range(5))


def main():
    """0 when both limits are kept."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--works", type=int, default=10_000)
    parser.add_argument("--jobs", type=int, default=5_000)
    parser.add_argument("--all-moved", action="store_true", help="also time `due` after a change of all law data")
    args = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        catalogue = store.create(Path(folder) / "catalogue")
        print(f"filled in {timed(lambda: fill(catalogue, args.works, args.jobs)):.1f} s: {args.works} works, {args.jobs} jobs")
        large_job(catalogue)
        check = process(catalogue.folder, "check", "--job", "large")
        due = process(catalogue.folder, "due")
        print(f"check of a job with 6 layers in 12 places, whole process: {check:.2f} s (limit {CHECK})")
        print(f"due, whole process: {due:.2f} s (limit {DUE})")
        if args.all_moved:
            answers.rules_sha256 = lambda: "0" * 64
            print(f"due when all law data moved: {timed(lambda: watch.due(catalogue, store.today())):.1f} s")
    return 0 if check < CHECK and due < DUE else 1


if __name__ == "__main__":
    sys.exit(main())
