"""The first tables, as SQL. Days are ISO text, moments UTC text, lists canonical JSON in text."""

TABLES = (
    """CREATE TABLE settings (
        key TEXT PRIMARY KEY,
        value TEXT NOT NULL CHECK (json_valid(value))
    ) STRICT, WITHOUT ROWID""",
    """CREATE TABLE files (
        sha256 TEXT PRIMARY KEY CHECK (length(sha256) = 64),
        bytes INTEGER NOT NULL,
        media_type TEXT NOT NULL,
        name TEXT NOT NULL,
        added_at TEXT NOT NULL
    ) STRICT, WITHOUT ROWID""",
    # facts is the single source of truth; the columns after changed_at are derived from it in the same transaction.
    """CREATE TABLE works (
        id INTEGER PRIMARY KEY,
        key TEXT NOT NULL UNIQUE,
        title TEXT NOT NULL,
        kind TEXT,
        facts TEXT NOT NULL CHECK (json_valid(facts)),
        facts_sha256 TEXT NOT NULL,
        based_on INTEGER REFERENCES works (id),
        originality TEXT NOT NULL CHECK (originality IN ('faithful_copy', 'new_expression', 'unknown')),
        access_terms TEXT NOT NULL DEFAULT '',
        notes TEXT NOT NULL DEFAULT '',
        picture TEXT REFERENCES files (sha256),
        version INTEGER NOT NULL DEFAULT 1,
        added_at TEXT NOT NULL,
        changed_at TEXT NOT NULL,
        makers TEXT NOT NULL,
        first_published TEXT,
        published_earliest TEXT,
        published_latest TEXT
    ) STRICT""",
    "CREATE INDEX works_by_title ON works (title, id)",
    "CREATE INDEX works_by_publication ON works (published_earliest, id)",
    "CREATE INDEX works_by_origin ON works (based_on)",
    "CREATE INDEX works_by_picture ON works (picture)",
    """CREATE TABLE creators (
        id INTEGER PRIMARY KEY,
        work INTEGER NOT NULL REFERENCES works (id) ON DELETE CASCADE,
        position INTEGER NOT NULL,
        name TEXT,
        role TEXT,
        born TEXT,
        died TEXT,
        nationality TEXT,
        UNIQUE (work, position)
    ) STRICT""",
    "CREATE INDEX creators_by_name ON creators (name)",
    """CREATE TABLE publications (
        id INTEGER PRIMARY KEY,
        work INTEGER NOT NULL REFERENCES works (id) ON DELETE CASCADE,
        position INTEGER NOT NULL,
        date TEXT,
        earliest TEXT,
        latest TEXT,
        country TEXT,
        UNIQUE (work, position)
    ) STRICT""",
    """CREATE TABLE traits (
        id INTEGER PRIMARY KEY,
        work INTEGER NOT NULL REFERENCES works (id) ON DELETE CASCADE,
        name TEXT NOT NULL CHECK (name <> ''),
        note TEXT NOT NULL DEFAULT '',
        UNIQUE (work, name)
    ) STRICT""",
    """CREATE TABLE evidence (
        id INTEGER PRIMARY KEY,
        work INTEGER NOT NULL REFERENCES works (id),
        fact TEXT NOT NULL,
        basis TEXT NOT NULL CHECK (basis IN ('seen', 'told', 'assumed')),
        kind TEXT NOT NULL DEFAULT '',
        title TEXT NOT NULL DEFAULT '',
        place TEXT NOT NULL DEFAULT '',
        url TEXT NOT NULL DEFAULT '',
        seen_on TEXT,
        seen_by TEXT NOT NULL DEFAULT '',
        file TEXT REFERENCES files (sha256),
        note TEXT NOT NULL DEFAULT '',
        added_at TEXT NOT NULL
    ) STRICT""",
    "CREATE INDEX evidence_by_work ON evidence (work, fact)",
    """CREATE TABLE permissions (
        id INTEGER PRIMARY KEY,
        work INTEGER NOT NULL REFERENCES works (id),
        kind TEXT NOT NULL CHECK (kind IN ('licence', 'release', 'purchase')),
        licensor TEXT NOT NULL DEFAULT '',
        spdx TEXT,
        uses TEXT NOT NULL DEFAULT '[]' CHECK (json_valid(uses)),
        places TEXT NOT NULL DEFAULT '[]' CHECK (json_valid(places)),
        media TEXT NOT NULL DEFAULT '[]' CHECK (json_valid(media)),
        quantity INTEGER,
        valid_from TEXT,
        valid_to TEXT,
        exclusive INTEGER CHECK (exclusive IN (0, 1)),
        commercial INTEGER CHECK (commercial IN (0, 1)),
        changes_allowed INTEGER CHECK (changes_allowed IN (0, 1)),
        credit_line TEXT NOT NULL DEFAULT '',
        document TEXT REFERENCES files (sha256),
        note TEXT NOT NULL DEFAULT '',
        added_at TEXT NOT NULL
    ) STRICT""",
    "CREATE INDEX permissions_by_work ON permissions (work)",
    """CREATE TABLE marks (
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
        state TEXT NOT NULL DEFAULT 'unknown' CHECK (state IN ('live', 'pending', 'dead', 'unknown')),
        goods TEXT NOT NULL DEFAULT '',
        avoid TEXT NOT NULL DEFAULT '',
        note TEXT NOT NULL DEFAULT '',
        added_at TEXT NOT NULL
    ) STRICT""",
    """CREATE TABLE mark_works (
        mark INTEGER NOT NULL REFERENCES marks (id) ON DELETE CASCADE,
        work INTEGER NOT NULL REFERENCES works (id) ON DELETE CASCADE,
        PRIMARY KEY (mark, work)
    ) STRICT, WITHOUT ROWID""",
    "CREATE INDEX mark_works_by_work ON mark_works (work)",
    """CREATE TABLE mark_searches (
        id INTEGER PRIMARY KEY,
        at TEXT NOT NULL,
        "by" TEXT NOT NULL DEFAULT '',
        place TEXT NOT NULL,
        words TEXT NOT NULL,
        classes TEXT NOT NULL DEFAULT '[]' CHECK (json_valid(classes)),
        result TEXT NOT NULL DEFAULT '',
        note TEXT NOT NULL DEFAULT ''
    ) STRICT""",
    """CREATE TABLE jobs (
        id INTEGER PRIMARY KEY,
        key TEXT NOT NULL UNIQUE,
        title TEXT NOT NULL,
        product TEXT NOT NULL DEFAULT '',
        purpose TEXT NOT NULL CHECK (purpose IN ('sale', 'commission', 'gift', 'display')),
        markets TEXT NOT NULL DEFAULT '[]' CHECK (json_valid(markets)),
        quantity INTEGER CHECK (quantity > 0),
        wording TEXT NOT NULL DEFAULT '',
        lettering TEXT NOT NULL DEFAULT '',
        listing_text TEXT NOT NULL DEFAULT '',
        due TEXT,
        sold_on TEXT,
        customer TEXT NOT NULL DEFAULT '',
        price TEXT NOT NULL DEFAULT '',
        notes TEXT NOT NULL DEFAULT '',
        version INTEGER NOT NULL DEFAULT 1,
        added_at TEXT NOT NULL,
        changed_at TEXT NOT NULL
    ) STRICT""",
    "CREATE INDEX jobs_by_due ON jobs (due, id)",
    """CREATE TABLE uses (
        id INTEGER PRIMARY KEY,
        job INTEGER NOT NULL REFERENCES jobs (id) ON DELETE CASCADE,
        work INTEGER NOT NULL REFERENCES works (id),
        part TEXT NOT NULL CHECK (part IN ('picture', 'lettering', 'text', 'photograph', 'other')),
        traits TEXT NOT NULL DEFAULT '[]' CHECK (json_valid(traits)),
        changes TEXT NOT NULL DEFAULT '',
        UNIQUE (job, work, part)
    ) STRICT""",
    "CREATE INDEX uses_by_work ON uses (work)",
)

_TRAITS = "(SELECT coalesce(group_concat(name || ' ' || note, ' '), '') FROM traits WHERE work = {row}.work)"
_REFRESH = "UPDATE works_search SET traits = " + _TRAITS + " WHERE rowid = {row}.work"

SEARCH = (
    """CREATE VIRTUAL TABLE works_search USING fts5 (
        title, makers, traits, notes, tokenize = "unicode61 remove_diacritics 2"
    )""",
    """CREATE TRIGGER works_search_add AFTER INSERT ON works BEGIN
        INSERT INTO works_search (rowid, title, makers, traits, notes)
        VALUES (new.id, new.title, new.makers, '', new.notes);
    END""",
    """CREATE TRIGGER works_search_change AFTER UPDATE OF title, makers, notes ON works BEGIN
        UPDATE works_search SET title = new.title, makers = new.makers, notes = new.notes WHERE rowid = new.id;
    END""",
    """CREATE TRIGGER works_search_remove AFTER DELETE ON works BEGIN
        DELETE FROM works_search WHERE rowid = old.id;
    END""",
    f"CREATE TRIGGER traits_search_add AFTER INSERT ON traits BEGIN {_REFRESH.format(row='new')}; END",
    f"CREATE TRIGGER traits_search_change AFTER UPDATE ON traits BEGIN {_REFRESH.format(row='new')}; END",
    f"CREATE TRIGGER traits_search_remove AFTER DELETE ON traits BEGIN {_REFRESH.format(row='old')}; END",
)

OWN_WORK = ("ALTER TABLE works ADD COLUMN own INTEGER NOT NULL DEFAULT 0 CHECK (own IN (0, 1))",)

LEDGER = (
    """CREATE TABLE ledger (
        seq INTEGER PRIMARY KEY,
        at TEXT NOT NULL,
        kind TEXT NOT NULL CHECK (kind <> ''),
        subject TEXT NOT NULL,
        body TEXT NOT NULL CHECK (json_valid(body)),
        previous TEXT NOT NULL,
        digest TEXT NOT NULL CHECK (length(digest) = 64)
    ) STRICT""",
    "CREATE INDEX ledger_by_subject ON ledger (kind, subject, seq)",
    """CREATE TRIGGER ledger_is_not_changed BEFORE UPDATE ON ledger BEGIN
        SELECT raise(ABORT, 'The ledger is only added to; a row in it is never changed.');
    END""",
    """CREATE TRIGGER ledger_is_not_removed BEFORE DELETE ON ledger BEGIN
        SELECT raise(ABORT, 'The ledger is only added to; a row in it is never removed.');
    END""",
    # REPLACE removes rows without calling the trigger above, so a row may only stand at the end of the chain.
    """CREATE TRIGGER ledger_grows_at_its_end BEFORE INSERT ON ledger
    WHEN new.seq IS NOT (SELECT coalesce(max(seq), 0) + 1 FROM ledger)
        OR new.previous IS NOT coalesce((SELECT digest FROM ledger ORDER BY seq DESC LIMIT 1), '')
    BEGIN
        SELECT raise(ABORT, 'The ledger is only added to, at its end, each row naming the digest of the one before.');
    END""",
)
