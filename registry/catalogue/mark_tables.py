"""Tables of marks as they became, as SQL: more words for a state, and an index by the keys of likeness.

The index holds the keys that `registry.clearance.mark_keys` makes of the words of a mark. Triggers drop what a
change makes wrong; `keyed` says by which version of the keys a mark is filed, 0 when it is not.
"""

STATES = (
    "applied", "published", "opposed", "registered", "expired", "cancelled", "withdrawn", "refused", "unregistered-use",
    "not-found", "live", "pending", "dead", "unknown",
)

MARKS = (
    "CREATE TABLE mark_works_kept AS SELECT mark, work FROM mark_works",
    "DROP TABLE mark_works",
    f"""CREATE TABLE marks_new (
        id INTEGER PRIMARY KEY,
        words TEXT NOT NULL DEFAULT '',
        kind TEXT NOT NULL DEFAULT '',
        owner TEXT NOT NULL DEFAULT '',
        office TEXT NOT NULL DEFAULT '',
        number TEXT NOT NULL DEFAULT '',
        filed TEXT,
        registered TEXT,
        expires TEXT,
        look_again TEXT,
        classes TEXT NOT NULL DEFAULT '[]' CHECK (json_valid(classes)),
        nice_edition TEXT NOT NULL DEFAULT '',
        status_words TEXT NOT NULL DEFAULT '',
        state TEXT NOT NULL DEFAULT 'unknown' CHECK (state IN ({', '.join(f"'{state}'" for state in STATES)})),
        goods TEXT NOT NULL DEFAULT '',
        avoid TEXT NOT NULL DEFAULT '',
        note TEXT NOT NULL DEFAULT '',
        added_at TEXT NOT NULL,
        keyed INTEGER NOT NULL DEFAULT 0
    ) STRICT""",
    """INSERT INTO marks_new (id, words, kind, owner, office, number, filed, registered, expires, look_again, classes, nice_edition,
        status_words, state, goods, avoid, note, added_at)
    SELECT id, words, kind, owner, office, number, filed, registered, expires, look_again, classes, nice_edition,
        status_words, state, goods, avoid, note, added_at FROM marks""",
    "DROP TABLE marks",
    "ALTER TABLE marks_new RENAME TO marks",
    """CREATE TABLE mark_works (
        mark INTEGER NOT NULL REFERENCES marks (id) ON DELETE CASCADE,
        work INTEGER NOT NULL REFERENCES works (id) ON DELETE CASCADE,
        PRIMARY KEY (mark, work)
    ) STRICT, WITHOUT ROWID""",
    "CREATE INDEX mark_works_by_work ON mark_works (work)",
    "INSERT INTO mark_works (mark, work) SELECT mark, work FROM mark_works_kept",
    "DROP TABLE mark_works_kept",
    "CREATE INDEX marks_by_look_up ON marks (look_again)",
    "CREATE INDEX marks_by_keyed ON marks (keyed)",
    "CREATE UNIQUE INDEX marks_by_number ON marks (office, number) WHERE number <> '' AND office <> ''",
    "CREATE VIRTUAL TABLE mark_keys USING fts5 (keys, detail = none, columnsize = 0, tokenize = 'ascii')",
    """CREATE TRIGGER marks_filed_anew AFTER UPDATE OF words ON marks WHEN new.words <> old.words AND old.keyed <> 0 BEGIN
        DELETE FROM mark_keys WHERE rowid = old.id;
        UPDATE marks SET keyed = 0 WHERE id = new.id;
    END""",
    """CREATE TRIGGER marks_not_filed AFTER DELETE ON marks WHEN old.keyed <> 0 BEGIN
        DELETE FROM mark_keys WHERE rowid = old.id;
    END""",
)
