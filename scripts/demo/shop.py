"""Reads the records of the invented Ninepin Slip Workshop, which carves inn signs and prints tea towels.

Everything in these files is made up: the workshop, its town Sallowmouth, the artists, works, marks and customers.
"""
import json
from pathlib import Path

KINDS = ("works", "jobs", "permissions", "marks", "evidence")


def load(folder):
    """The records of the shop as ``{"works": [...], "jobs": [...], ...}``, in the order of the files.

    Reads ``<kind>.jsonl`` for every kind in KINDS from the folder. Raises OSError when a file is missing and
    ValueError, with file and line, when a line is not one JSON object.
    """
    return {kind: _records(Path(folder) / f"{kind}.jsonl") for kind in KINDS}


def _records(path):
    records = []
    for number, line in enumerate(path.read_text(encoding="utf-8").splitlines(), 1):
        if not line.strip():
            continue
        try:
            record = json.loads(line)
        except json.JSONDecodeError as error:
            raise ValueError(f"{path.name}, line {number}, column {error.colno}: {error.msg}; one JSON object a line is needed.") from None
        if not isinstance(record, dict):
            raise ValueError(f"{path.name}, line {number}: this is {type(record).__name__}, and one JSON object is needed.")
        records.append(record)
    return records
