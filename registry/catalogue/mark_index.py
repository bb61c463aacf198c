"""The index of marks: files each under its keys, and finds the few that a text may be like.

Written with sqlite3 alone. Marks that are not filed yet are compared one by one, so nothing is ever overlooked.
"""

from registry.clearance.mark_keys import VERSION, mark_keys
from registry.clearance.wording import wording

AT_ONCE = 200 # keys in one query
BATCH = 2000   # marks filed between two looks at the table


def file_all(catalogue):
    """How many marks were filed now; to be called inside a transaction."""
    db, count = catalogue.db, 0
    while rows := db.execute("SELECT id, words FROM marks WHERE keyed < ? LIMIT ?", (VERSION, BATCH)).fetchall():
        db.executemany("DELETE FROM mark_keys WHERE rowid = ?", [(row["id"],) for row in rows])
        db.executemany("INSERT INTO mark_keys (rowid, keys) VALUES (?, ?)", [(row["id"], _keys(row["words"])) for row in rows])
        db.executemany("UPDATE marks SET keyed = ? WHERE id = ?", [(VERSION, row["id"]) for row in rows])
        count += len(rows)
    if count > BATCH:
        db.execute("INSERT INTO mark_keys (mark_keys) VALUES ('optimize')")  # one piece of the index is searched faster than many
    return count


def _keys(words):
    return " ".join(sorted(mark_keys(wording(words))))


def candidates(catalogue, keys):
    """Row numbers of the marks that share one of these keys, and of all that are not filed yet, in order."""
    db, found, wanted = catalogue.db, set(), sorted(keys)
    for start in range(0, len(wanted), AT_ONCE):
        query = " OR ".join(f'"{key}"' for key in wanted[start:start + AT_ONCE])
        found.update(row[0] for row in db.execute("SELECT rowid FROM mark_keys WHERE mark_keys MATCH ?", (query,)))
    found.update(row[0] for row in db.execute("SELECT id FROM marks WHERE keyed < ?", (VERSION,)))
    return sorted(found)


def counted(catalogue, key, most):
    """How many marks are filed under a key; counting stops at `most`."""
    found = catalogue.db.execute(
        "SELECT count(*) FROM (SELECT 1 FROM mark_keys WHERE mark_keys MATCH ? LIMIT ?)", (f'"{key}"', most))
    return found.fetchone()[0]


def linked(catalogue, works):
    """Row numbers of the marks that are linked to one of these works, given by key."""
    works = tuple(works)
    places = ", ".join("?" * len(works))
    rows = catalogue.db.execute(
        "SELECT DISTINCT mark FROM mark_works JOIN works ON works.id = mark_works.work"
        f" WHERE works.key IN ({places})", works)
    return [row[0] for row in rows]
