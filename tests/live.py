"""A catalogue served by a process of its own, for tests in a real browser."""

import contextlib
import socket
import subprocess
import sys
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
PATIENCE = 20  # seconds


@contextlib.contextmanager
def live(folder):
    """The address of the pages of the catalogue in a folder, while the block runs."""
    with socket.socket() as trial:
        trial.bind(("127.0.0.1", 0))
        port = trial.getsockname()[1]
    command = [sys.executable, "-m", "registry.cli", "--catalogue", str(folder), "serve", "--port", str(port)]
    process = subprocess.Popen(command, cwd=ROOT, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    try:
        end = time.monotonic() + PATIENCE
        while not _answers(port):
            assert process.poll() is None and time.monotonic() < end, "The pages did not come up."
            time.sleep(0.1)
        yield f"http://127.0.0.1:{port}"
    finally:
        process.kill()
        process.wait()


def _answers(port):
    with socket.socket() as trial:
        return trial.connect_ex(("127.0.0.1", port)) == 0
