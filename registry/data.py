"""Files of the folder metadata/, the same from a wheel, an editable install and a plain checkout.

It only finds and reads text; what the text means is the reader's business.
"""

from importlib.resources import files
from pathlib import Path


def read_text(*parts: str) -> str:
    """Text (UTF-8) of one data file, e.g. `read_text("terms", "us.toml")`.

    Raises FileNotFoundError when there is no such file.
    """
    file = _root().joinpath(*parts)
    if not file.is_file():
        raise FileNotFoundError(f"There is no data file metadata/{'/'.join(parts)}.")
    return file.read_text(encoding="utf-8")


def names(folder: str = "") -> list[str]:
    """Sorted names of the data files in a sub-folder of metadata/ ("" is metadata/ itself).

    Sub-folders, Python files and hidden files are left out.
    Raises FileNotFoundError when there is no such folder.
    """
    place = _root().joinpath(*folder.split("/")) if folder else _root()
    if not place.is_dir():
        raise FileNotFoundError(f"There is no data folder metadata/{folder}.")
    return sorted(item.name for item in place.iterdir() if _is_data(item))


def _is_data(item):
    return item.is_file() and not item.name.startswith(".") and not item.name.endswith((".py", ".pyc"))


def _root():
    try:
        return files("registry.metadata")
    except ModuleNotFoundError:  # a checkout that was never installed
        return Path(__file__).resolve().parent.parent / "metadata"
