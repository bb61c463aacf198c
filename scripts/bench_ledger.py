"""Stores and verifies many files and ledger rows: `bench_ledger.py [FILES] [ROWS]`, 10,000 and 100,000 without.

Verifying is measured against plain hashlib over the same bytes in the same run, and must reach half its speed.
Memory is the peak of a process of its own that verifies, for the whole catalogue and for a tenth of it.
"""
import hashlib
import random
import subprocess
import sys
import tempfile
import time
from itertools import islice
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
sys.path.insert(0, str(ROOT))

from registry.catalogue import chain, files, ledger, store, verify  # noqa: E402

SIZES = (8_000, 24_000, 96_000)  # bytes of a file: a note, a small scan, a picture
LEAST = 0.5
PEAK = """if True:
    import re, sys
    sys.path.insert(0, sys.argv[2])
    from registry.catalogue import store, verify
    catalogue = store.open_catalogue(sys.argv[1])
    peak = lambda: re.search("VmHWM:\\s+(\\d+)", open("/proc/self/status").read()).group(1)
    before = peak()
    assert verify.verify(catalogue).whole
    print(before, peak())"""


def body(number):
    """The body of an assessment, as long as real ones are."""
    return {"work": f"w{number % 900}", "place": "GB", "as_of": "2026-07-01", "status": "public_domain", "free_from": "2021-01-01",
            "free_from_earliest": "2021-01-01", "free_from_latest": "2021-01-01", "because": None, "why": ["gb.1988", "gb.1996.life"],
            "open": [], "facts_sha256": "0" * 64, "rules_sha256": "f" * 64, "number": number}


def fill(folder, count, rows):
    """(seconds for the files, seconds for the rows) of a new catalogue; a thousand in each transaction."""
    catalogue, chance = store.create(folder), random.Random(1)
    start = time.perf_counter()
    for block in range(0, count, 1000):
        with store.transaction(catalogue):
            for number in range(block, min(count, block + 1000)):
                files.add(catalogue, b"%PDF-" + chance.randbytes(SIZES[number % 3]), f"{number}.pdf")
    middle = time.perf_counter()
    for block in range(0, rows, 1000):
        with store.transaction(catalogue):
            for number in range(block, min(rows, block + 1000)):
                ledger.append(catalogue, "assessment", f"w{number % 900}", body(number))
    end = time.perf_counter()
    catalogue.db.close()
    return middle - start, end - middle


def plain(catalogue):
    """(seconds, bytes) of plain hashlib over the files, and over the texts of the rows, which are put together before."""
    start, size = time.perf_counter(), 0
    for (sha256,) in catalogue.db.execute("SELECT sha256 FROM files ORDER BY sha256"):
        with open(files.path_of(catalogue, sha256), "rb") as file:
            hashlib.file_digest(file, "sha256").hexdigest()
    of_files = time.perf_counter() - start
    of_rows = 0.0
    rows = chain.texts(catalogue.db)
    while texts := [row[3] for row in islice(rows, 5000)]:
        start = time.perf_counter()
        for text in texts:
            hashlib.sha256(text).hexdigest()
        of_rows += time.perf_counter() - start
        size += sum(map(len, texts))
    return of_files, of_rows, size


def parts(catalogue):
    """(seconds for the rows, seconds for the files) of a verification, part by part."""
    tally = verify._Tally()
    start = time.perf_counter()
    verify._ledger(catalogue.db, None, tally)
    middle = time.perf_counter()
    verify._files(catalogue, tally)
    assert not tally.count
    return middle - start, time.perf_counter() - middle


def peak(folder):
    """(MiB before, MiB at the peak) of a process that verifies a catalogue; read where Linux keeps it."""
    done = subprocess.run([sys.executable, "-c", PEAK, str(folder), str(ROOT)], capture_output=True, text=True, check=True)
    return tuple(int(number) / 1024 for number in done.stdout.split())


def main():
    """0 when verifying reaches half the speed of plain hashlib, 1 when not."""
    count, rows = (int(sys.argv[1]), int(sys.argv[2])) if len(sys.argv) > 2 else (10_000, 100_000)
    with tempfile.TemporaryDirectory() as folder:
        whole, tenth = Path(folder) / "whole", Path(folder) / "tenth"
        of_files, of_rows = fill(whole, count, rows)
        fill(tenth, count // 10, rows // 10)
        print(f"Stored {count:,} files in {of_files:.1f} s ({count / of_files:,.0f} a second), {rows:,} ledger rows in {of_rows:.1f} s ({rows / of_rows:,.0f} a second).")
        catalogue = store.open_catalogue(whole)
        plain(catalogue)  # the disk cache is warm for both
        ratios = []
        for _ in range(5):
            hash_files, hash_rows, row_bytes = plain(catalogue)
            start = time.perf_counter()
            report = verify.verify(catalogue)
            spent = time.perf_counter() - start
            ratios.append((hash_files + hash_rows) / spent)
            rows_part, files_part = parts(catalogue)
        assert report.whole and report.ledger_bytes == row_bytes
        total = report.file_bytes + report.ledger_bytes
        print(f"Verified {total / 2**20:,.0f} MiB ({row_bytes / 2**20:,.0f} MiB of ledger) in {spent:.2f} s: {total / 2**20 / spent:,.0f} MiB/s; "
              f"plain hashlib over the same bytes {hash_files + hash_rows:.2f} s. Speed of plain hashlib reached, 5 runs: {', '.join(f'{one:.2f}' for one in ratios)} (least {LEAST}).")
        print(f"In the last run: files {files_part:.2f} s against {hash_files:.2f} s, ledger {rows_part:.2f} s against {hash_rows:.2f} s.")
        for name, place in (("a tenth", tenth), ("the whole", whole)):
            before, most = peak(place)
            print(f"Peak memory verifying {name}: {most:.1f} MiB, of which {before:.1f} MiB before it began.")
    return 0 if sorted(ratios)[2] >= LEAST else 1


if __name__ == "__main__":
    sys.exit(main())
