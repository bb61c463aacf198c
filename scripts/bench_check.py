"""Times `registry check` of one work in ten places as a whole process: `bench_check.py [RUNS]`."""
import os
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
PLACES = "US,CA,GB,DE,FR,ES,IT,NL,AU,JP"
LIMIT = 0.4  # seconds
WORK = (
    "--title", "Gull on a Bollard", "--kind", "print", "--authorship", "individual", "--created", "1928~", "--published", "yes",
    "--creator", "Perpetua Quill;died=1950;nationality=GB", "--publication", "1928:GB", "--us-notice", "no",
)


def call(*words):
    """The exit code of one process of the command."""
    env = {**os.environ, "PYTHONPATH": str(ROOT), "PYTHONDONTWRITEBYTECODE": ""}  # as after a first run anywhere
    return subprocess.run([sys.executable, "-m", "registry.cli", *words], env=env, stdout=subprocess.DEVNULL, check=False).returncode


def timed(folder, runs):
    """Seconds of each run; the first, which also writes byte code, is left out."""
    times = []
    for _ in range(runs + 1):
        start = time.perf_counter()
        code = call("check", "w1", "--in", PLACES, "--on", "2026-07-01", "--catalogue", folder)
        times.append(time.perf_counter() - start)
        if code not in (0, 3):
            sys.exit(f"The check ended with exit code {code}.")
    return times[1:]


def main():
    """0 when the median is within the limit, 1 when it is not."""
    runs = int(sys.argv[1]) if len(sys.argv) > 1 else 15
    with tempfile.TemporaryDirectory() as folder:
        if call("init", "--catalogue", folder) or call("work", "add", *WORK, "--catalogue", folder):
            sys.exit("The work could not be recorded.")
        times = timed(folder, runs)
    median = statistics.median(times)
    print(f"registry check, 1 work in 10 places, whole process, {runs} runs: median {median:.3f} s, fastest {min(times):.3f} s, slowest {max(times):.3f} s (limit {LIMIT} s).")
    return 0 if median <= LIMIT else 1


if __name__ == "__main__":
    sys.exit(main())
