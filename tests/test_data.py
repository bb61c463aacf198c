"""Data files are read and listed the same way in a checkout as in an install."""

from pathlib import Path

import pytest
from registry import data

FOLDER = Path(__file__).resolve().parent.parent / "metadata"


@pytest.fixture
def folder(tmp_path, monkeypatch):
    (tmp_path / "terms").mkdir()
    (tmp_path / "terms/us.toml").write_text('name = "Café"', encoding="utf-8")
    for name in ("b.csv", "a.toml", "__init__.py", ".hidden"):
        (tmp_path / name).touch()
    monkeypatch.setattr(data, "_root", lambda: tmp_path)


def test_reads_utf_8(folder):
    assert data.read_text("terms", "us.toml") == 'name = "Café"'


def test_lists_data_files_only(folder):
    assert data.names() == ["a.toml", "b.csv"]
    assert data.names("terms") == ["us.toml"]


@pytest.mark.parametrize("parts", [("none.toml",), ("terms",), ("terms", "xx.toml")])
def test_a_file_that_is_not_there(folder, parts):
    with pytest.raises(FileNotFoundError, match=f"^There is no data file metadata/{'/'.join(parts)}.$"):
        data.read_text(*parts)


def test_a_folder_that_is_not_there(folder):
    with pytest.raises(FileNotFoundError, match="^There is no data folder metadata/maps.$"):
        data.names("maps")


def test_a_checkout_that_was_never_installed(monkeypatch):
    def absent(name):
        raise ModuleNotFoundError(name)

    monkeypatch.setattr(data, "files", absent)
    assert data._root() == FOLDER
    assert '"""' in data.read_text("__init__.py")
