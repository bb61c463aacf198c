"""Times the matching of one job against many marks, by the index and by a plain scan: `bench_marks.py [MARKS] [RUNS]`.

All marks are invented. Words come as often as words do (the n-th most common about one n-th as often as the first);
words of the trade stand among the first thousand. Both ways must find the same.
"""
import bisect
import itertools
import random
import resource
import statistics
import sys
import tempfile
import time
from pathlib import Path

sys.path[:0] = [str(Path(__file__).resolve().parent.parent)]

from registry.catalogue import mark_index, mark_search, marks, store  # noqa: E402
from registry.catalogue.mark_rules import mark_rules, products  # noqa: E402
from registry.clearance.goods import goods  # noqa: E402
from registry.clearance.likeness import prepared  # noqa: E402
from registry.clearance.marks import Text, judged, nearest, ranked  # noqa: E402
from registry.facts import edtf  # noqa: E402

LIMIT = 0.5  # seconds for one job
DAY = edtf.day("2026-11-25")
PLACES = ("US", "GB", "DE")
SYLLABLES = ("ba be bi bo bra cla dor del fen gar hal har jul ka kel kor lan lar lin mar mel mor nel nor ost pel per quil ran ros sal sel skel tar tel tol"
             " ul van vel wick win wold yar zen").split()
TRADE = "inn house lantern harbour hare gull sign oak works mill tea room garden coast royal old green red north star anchor shop crafts home".split()
JOB = {
    "wording": "THE HARE AND LANTERN", "lettering": "carved slab letters", "title": "Inn sign with a hare",
    "listing": "Carved oak inn sign with a hare and a lantern, painted by hand in our harbour workshop. It hangs from two rings of black iron"
               " and is made to order; the letters are cut by hand and gilded. Sent by post in a flat box, with a note of where the picture comes from.",
    "work": "Hare under a street lamp", "trait": "striped waistcoat",
}


def vocabulary(chance, size=30000):
    """(words, running sums of how often each comes)."""
    words = ["".join(chance.choice(SYLLABLES) for _ in range(chance.choice((2, 2, 3, 3, 4)))) for _ in range(size)]
    for number, word in enumerate(TRADE):
        words[150 + 35 * number] = word
    return words, list(itertools.accumulate(1 / (number + 3) for number in range(size)))


def invented(count, chance):
    """Words of marks, with a handful that the job must meet."""
    words, sums = vocabulary(chance)
    for number in range(count):
        size = chance.choice((1, 1, 2, 2, 2, 3))
        yield " ".join(words[min(bisect.bisect(sums, chance.random() * sums[-1]), len(words) - 1)] for _ in range(size)).upper()
    yield from ("HARE & LANTERN", "HAIR AND LANTERNE", "LANTERN HARE", "STRIPED WAISTCOATS")


def filled(folder, count):
    """The catalogue with so many marks, and the seconds that recording and filing took."""
    catalogue, chance = store.create(folder), random.Random(20261125)
    start = time.perf_counter()
    with store.transaction(catalogue) as db:
        rows = ((words, "GB", str(number), "[20]", "registered", "now") for number, words in enumerate(invented(count, chance)))
        db.executemany("INSERT INTO marks (words, office, number, classes, state, added_at) VALUES (?, ?, ?, ?, ?, ?)", rows)
        recorded = time.perf_counter() - start
        mark_index.file_all(catalogue)
    return catalogue, recorded, time.perf_counter() - start - recorded


def texts():
    """The texts of the job, made ready."""
    return tuple(Text(field, prepared(text)) for field, text in JOB.items())


def found(given, candidates):
    """What is found for the job in every place: {place: Founds}."""
    made = goods("carved wooden sign", products())
    alike = [(mark, like) for mark in candidates if (like := nearest(given, mark))]
    return {place: ranked(one for mark, like in alike if (one := judged(like, mark, place, made, DAY, mark_rules()))) for place in PLACES}


def by_index(catalogue):
    """The way of a check: the index first, then the few candidates."""
    given, candidates = mark_search.near(catalogue, texts())
    return found(given, candidates), len(candidates)


def by_scan(catalogue):
    """Every mark compared with every text."""
    given, _candidates = mark_search.near(catalogue, texts())  # the same texts, without words that tell nothing
    return found(given, marks.listed(catalogue))


def timed(run):
    """(what a call returns, its seconds)."""
    start = time.perf_counter()
    result = run()
    return result, time.perf_counter() - start


def main():
    """0 when both ways find the same and the index is within the limit."""
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 100_000
    runs = int(sys.argv[2]) if len(sys.argv) > 2 else 9
    with tempfile.TemporaryDirectory() as folder:
        catalogue, recorded, filed = filled(Path(folder) / "catalogue", count)
        size = (Path(folder) / "catalogue" / "catalogue.db").stat().st_size
        print(f"{marks.count(catalogue):,} marks: recorded in {recorded:.1f} s, filed in {filed:.1f} s, {size / 2**20:.0f} MiB")
        mark_rules(), products()
        times = []
        for _ in range(runs):
            (indexed, candidates), seconds = timed(lambda: by_index(catalogue))
            times.append(seconds)
        scanned, whole = timed(lambda: by_scan(catalogue))
        catalogue.db.close()
    median = statistics.median(times)
    hits = {place: len(one) for place, one in indexed.items()}
    print(f"one job, {len(JOB)} texts, {len(PLACES)} places: {candidates} candidates, found {hits}")
    print(f"by the index: median {median:.3f} s of {runs} runs, fastest {min(times):.3f} s, slowest {max(times):.3f} s (limit {LIMIT} s)")
    print(f"plain scan:   {whole:.1f} s, {whole / median:.0f} times as long; peak memory {resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024:.0f} MiB")
    same = all([one.mark.key for one in indexed[place]] == [one.mark.key for one in scanned[place]] for place in PLACES)
    print("both found the same" if same else "THE TWO DIFFER")
    return 0 if same and median <= LIMIT else 1


if __name__ == "__main__":
    sys.exit(main())
