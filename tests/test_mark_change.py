"""A mark on record can be changed in every column, its number too."""

import pytest
from kept import Command, new

from registry.catalogue import marks

CHANGES = {"words": "BRINDLE", "number": "invented-2", "owner": "Brindle & Sons", "office": "GB", "state": "expired", "classes": [24], "expires": "2030-01-01"}


@pytest.mark.parametrize("name, value", CHANGES.items())
def test_each_column_can_be_changed(tmp_path, name, value):
    catalogue = new(tmp_path)
    mark = marks.add(catalogue, words="Brindle", number="invented-1")
    changed = marks.change(catalogue, mark.key, **{name: value})
    assert getattr(changed, name) == (tuple(value) if isinstance(value, list) else value)


def test_the_command_changes_the_number(tmp_path, capsys):
    catalogue = new(tmp_path)
    marks.add(catalogue, words="Brindle", number="invented-1")
    assert Command(catalogue.folder, capsys)("mark", "change", "m1", "--number", "invented-2")[0] == 0
    assert marks.get(catalogue, 1).number == "invented-2"
