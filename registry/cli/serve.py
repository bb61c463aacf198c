"""registry serve: the catalogue as pages in the browser, on this machine only, through Datasette's own command."""

import os
import socket
import sys
import tempfile
from pathlib import Path

from registry import data
from registry.catalogue import store
from registry.cli import shown
from registry.errors import RegistryError

HOST = "127.0.0.1"
SETTINGS = {"default_allow_sql": "off", "allow_download": "off", "suggest_facets": "off", "default_cache_ttl": "0"}
METADATA = "datasette.yaml"


def arguments(parser):
    """Adds the options of the command."""
    parser.add_argument("--port", type=int, default=8001, metavar="N", help="The port on 127.0.0.1; without it 8001.")
    parser.add_argument("--open", action="store_true", help="Opens the pages in the browser.")


def run(args):
    """0 when it was stopped; RegistryError when the port cannot be used."""
    store.open_catalogue(args.catalogue).db.close()  # brings it up to date, or says why it cannot be opened
    _check_port(args.port)
    os.environ["REGISTRY_CATALOGUE"] = str(args.catalogue.resolve())
    address = f"http://{HOST}:{args.port}/"
    if args.json:
        shown.show_json({"address": address})
    else:
        print(f"The pages are at {address} (stop with Ctrl-C).")
    sys.stdout.flush()
    with tempfile.TemporaryDirectory() as folder:
        return _serve(args, _metadata(folder))


def words_for(catalogue, port, metadata=None, open_browser=False):
    """The words after `datasette` that serve a catalogue; `metadata` is the path of a file or None."""
    words = ["serve", str(catalogue / store.NAME), "--host", HOST, "--port", str(port)]
    for name, value in SETTINGS.items():
        words += ["--setting", name, value]
    words += ["--metadata", str(metadata)] if metadata else []
    return words + (["--open"] if open_browser else [])


def _serve(args, metadata):
    from datasette.cli import cli  # slow to import, and needed here alone

    try:
        cli.main(args=words_for(args.catalogue, args.port, metadata, args.open), prog_name="registry serve")
    except KeyboardInterrupt:  # the server stops in order, then raises it again
        return 0
    except SystemExit as end:
        return end.code or 0
    return 0


def _metadata(folder):
    """The path of a copy of the titles and descriptions that the tables are shown with; None when there are none."""
    if METADATA not in data.names():
        return None
    path = Path(folder) / METADATA
    path.write_text(data.read_text(METADATA), encoding="utf-8")
    return path


def _check_port(port):
    if not 0 < port < 65536:
        raise RegistryError(f"--port takes a number from 1 to 65535, not {port}.")
    with socket.socket() as trial:
        trial.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            trial.bind((HOST, port))
        except OSError:
            raise RegistryError(f"Port {port} of {HOST} cannot be used; name another with --port.") from None
