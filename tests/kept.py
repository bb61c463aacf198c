"""Catalogues and works for tests: a small invented stock, and a way to call the command."""

from registry.catalogue import store
from registry.cli import main

GULL = {  # free in the United States: published there in 1928 with notice and renewed
    "title": "Gull on a Bollard", "kind": "drawing", "authorship": "individual", "created": "1928", "published": True,
    "creators": [{"name": "Perpetua Quill", "died": "1950", "nationality": ["US"]}],
    "publications": [{"date": "1928-05-17", "country": "US"}], "us_notice": True, "us_renewed": True,
}
CRAB = {**GULL, "title": "Crab in a Kettle", "created": "1949", "publications": [{"date": "1949", "country": "US"}]}  # protected
SCRAP = {"title": "Torn scrap", "kind": "drawing"}  # nothing is known


def new(folder):
    """An empty Catalogue in a folder of its own."""
    return store.create(folder / "catalogue")


def everything(catalogue):
    """All rows of all tables, to see that nothing changed."""
    names = [row[0] for row in catalogue.db.execute("SELECT name FROM sqlite_master WHERE type = 'table' ORDER BY name")]
    return {name: [tuple(row) for row in catalogue.db.execute(f'SELECT * FROM "{name}"')] for name in names}


def files_of(catalogue):
    """Paths of the files that are kept on disk."""
    return sorted(str(path.relative_to(catalogue.folder)) for path in (catalogue.folder / "files").rglob("*") if path.is_file())


class Command:
    """Calls the command on one catalogue and reads what it printed."""

    def __init__(self, folder, capsys):
        self.folder, self.capsys = folder, capsys

    def __call__(self, *words):
        """(exit code, standard output, standard error) of one call."""
        code = main(["--catalogue", str(self.folder), *words])
        out, err = self.capsys.readouterr()
        return code, out, err

    def refused(self, *words):
        """The one sentence with which a call is refused."""
        code, out, err = self(*words)
        assert (code, out) == (1, "")
        assert err.endswith("\n") and err.count("\n") == 1, err
        return err.strip()
