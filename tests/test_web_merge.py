"""Two people change one record: what each did is kept apart, and nothing is lost."""

import pytest
from registry.web import merge

BEFORE = {"title": "Heron", "died": "1950", "notes": "box 3"}
ROWS = [  # stored now, typed by me, proposed, (path, both) of the differences
    (BEFORE, {**BEFORE, "title": "Grey Heron"}, {**BEFORE, "title": "Grey Heron"}, []),
    ({**BEFORE, "died": "1951"}, BEFORE, {**BEFORE, "died": "1951"}, [("died", False)]),
    ({**BEFORE, "died": "1951"}, {**BEFORE, "title": "Grey Heron"}, {"title": "Grey Heron", "died": "1951", "notes": "box 3"}, [("died", False)]),
    ({**BEFORE, "died": "1951"}, {**BEFORE, "died": "1952"}, {**BEFORE, "died": "1952"}, [("died", True)]),
    ({**BEFORE, "died": "1951"}, {**BEFORE, "died": "1951"}, {**BEFORE, "died": "1951"}, [("died", False)]),
    ({"title": "Heron", "died": "1950"}, {**BEFORE, "notes": "box 4"}, {**BEFORE, "notes": "box 4"}, [("notes", True)]),
    ({**BEFORE, "kind": "print"}, {"title": "Heron", "died": "1950"}, {"title": "Heron", "died": "1950", "kind": "print"}, [("kind", False)]),
]


@pytest.mark.parametrize("now, mine, proposed, differences", ROWS)
def test_merged(now, mine, proposed, differences):
    values, found = merge.merged(BEFORE, now, mine)
    assert values == proposed
    assert [(one.path, one.both) for one in found] == differences


def test_packed_values_come_back():
    values = {"title": "Käthe's “heron”", "own": True, "traits": [["hat", ""]]}
    assert merge.unpacked(merge.packed(values)) == values
    assert merge.unpacked("{broken") == merge.unpacked("[1]") == merge.unpacked("") == {}
