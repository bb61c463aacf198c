"""registry serve: the pages on this machine only, through Datasette's own command, with everything risky shut off."""

import os
import signal
import socket
import subprocess
import sys
import time
import urllib.error
import urllib.request
from pathlib import Path

import kept
import pytest
from registry.catalogue import store, works
from registry.cli import serve

ROOT = Path(__file__).resolve().parent.parent


def free_port():
    with socket.socket() as trial:
        trial.bind(("127.0.0.1", 0))
        return trial.getsockname()[1]


def status(address):
    """The HTTP status of a page."""
    try:
        with urllib.request.urlopen(address, timeout=10) as answer:
            return answer.status
    except urllib.error.HTTPError as error:
        return error.code


@pytest.fixture(scope="module")
def served(tmp_path_factory):
    """(address, process) of a catalogue with one work, served by a process of its own."""
    catalogue = kept.new(tmp_path_factory.mktemp("served"))
    works.add(catalogue, kept.GULL)
    catalogue.db.close()
    port = free_port()
    command = [sys.executable, "-m", "registry.cli", "serve", "--catalogue", str(catalogue.folder), "--port", str(port)]
    process = subprocess.Popen(command, cwd=ROOT, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True)
    try:
        assert process.stdout.readline() == f"The pages are at http://127.0.0.1:{port}/ (stop with Ctrl-C).\n"
        for _ in range(150):
            with socket.socket() as trial:
                if trial.connect_ex(("127.0.0.1", port)) == 0:
                    break
            time.sleep(0.1)
        yield f"http://127.0.0.1:{port}", process
    finally:
        process.kill()
        process.wait()


def test_tables_are_served_and_risky_pages_are_not(served):
    address, _ = served
    assert status(address + "/") == 200
    assert status(address + "/catalogue/works") == 200
    assert status(address + "/catalogue?sql=select+1") == 403
    assert status(address + "/catalogue.db") == 403


def test_only_this_machine_is_listened_to(served):
    if not Path("/proc/net/tcp").exists():
        pytest.skip("the table of listening sockets is read from Linux")
    address, _ = served
    port = int(address.rpartition(":")[2])
    with open("/proc/net/tcp", encoding="ascii") as table:
        listening = {line.split()[1] for line in table if line.split()[3] == "0A"}
    assert f"0100007F:{port:04X}" in listening
    assert f"00000000:{port:04X}" not in listening


def test_a_port_in_use_is_said_in_one_sentence(served, tmp_path, capsys):
    command = kept.Command(tmp_path / "shop", capsys)
    command("init")
    port = served[0].rpartition(":")[2]
    assert command.refused("serve", "--port", port) == f"Port {port} of 127.0.0.1 cannot be used; name another with --port."
    assert command.refused("serve", "--port", "70000") == "--port takes a number from 1 to 65535, not 70000."


def test_ctrl_c_ends_it_in_order(served):
    _, process = served
    os.kill(process.pid, signal.SIGINT)
    _out, err = process.communicate(timeout=20)
    assert process.returncode == 0
    assert "Traceback" not in err


def test_the_words_for_datasette():
    words = serve.words_for(Path("shop"), 8001, "titles.yaml", True)
    assert words[:6] == ["serve", "shop/catalogue.db", "--host", "127.0.0.1", "--port", "8001"]
    pairs = list(zip(words, words[1:], words[2:]))
    for name in ("default_allow_sql", "allow_download"):
        assert ("--setting", name, "off") in pairs
    assert words[-3:] == ["--metadata", "titles.yaml", "--open"]
    assert "--metadata" not in serve.words_for(Path("shop"), 8001)


def test_titles_and_descriptions_are_handed_over(tmp_path, monkeypatch):
    monkeypatch.setattr(serve.data, "names", lambda: ["datasette.yaml"])
    monkeypatch.setattr(serve.data, "read_text", lambda name: f"title: from {name}\n")
    assert serve._metadata(tmp_path).read_text() == "title: from datasette.yaml\n"
    monkeypatch.setattr(serve.data, "names", lambda: ["facts.toml"])
    assert serve._metadata(tmp_path) is None


def test_the_catalogue_is_opened_before_it_is_served(tmp_path, capsys):
    command = kept.Command(tmp_path, capsys)
    (tmp_path / store.NAME).write_bytes(b"no database, only text, and long enough to be read as one" * 20)
    assert command.refused("serve").endswith("cannot be opened: file is not a database.")
