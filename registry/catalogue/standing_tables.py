"""Tables of the stored answers, as SQL: how each work stands in the places the shop sells to.

Works whose answers are alike share one row of answer_sets, so that a filter looks at sets instead of works.
A change of a work, or of a version beneath it, removes its stored answer at once; what is gone is reckoned anew.
"""

_DROP = """
    INSERT OR IGNORE INTO answers_due (work) SELECT {row}.id UNION SELECT work FROM answer_layers WHERE layer = {row}.id;
    DELETE FROM work_answers WHERE work = {row}.id OR work IN (SELECT work FROM answer_layers WHERE layer = {row}.id);
"""

STANDING = (
    # The places for which answers are kept, and the rules by which they were reckoned.
    """CREATE TABLE answer_places (
        place TEXT PRIMARY KEY,
        rules_sha256 TEXT NOT NULL
    ) STRICT, WITHOUT ROWID""",
    """CREATE TABLE answer_sets (
        id INTEGER PRIMARY KEY,
        digest TEXT NOT NULL UNIQUE,
        works INTEGER NOT NULL DEFAULT 0
    ) STRICT""",
    # clear_from: the day from which copyright is surely over, as far as the facts tell; 0001-01-01 when it is over already,
    # null when no day is known.
    """CREATE TABLE set_answers (
        answer_set INTEGER NOT NULL REFERENCES answer_sets (id) ON DELETE CASCADE,
        place TEXT NOT NULL,
        status TEXT NOT NULL CHECK (status IN ('public_domain', 'in_copyright', 'undetermined')),
        clear_from TEXT,
        open TEXT NOT NULL DEFAULT '[]' CHECK (json_valid(open)),
        PRIMARY KEY (answer_set, place)
    ) STRICT, WITHOUT ROWID""",
    "CREATE INDEX set_answers_by_day ON set_answers (place, clear_from, answer_set)",
    "CREATE INDEX set_answers_by_status ON set_answers (place, status, answer_set)",
    """CREATE TABLE set_questions (
        fact TEXT NOT NULL,
        place TEXT NOT NULL,
        answer_set INTEGER NOT NULL REFERENCES answer_sets (id) ON DELETE CASCADE,
        PRIMARY KEY (fact, place, answer_set)
    ) STRICT, WITHOUT ROWID""",
    # until: the first day on which the answer may be another one without any change of facts.
    """CREATE TABLE work_answers (
        work INTEGER PRIMARY KEY REFERENCES works (id) ON DELETE CASCADE,
        answer_set INTEGER NOT NULL REFERENCES answer_sets (id),
        reckoned_on TEXT NOT NULL,
        until TEXT NOT NULL
    ) STRICT""",
    "CREATE INDEX work_answers_by_set ON work_answers (answer_set, work)",
    "CREATE INDEX work_answers_by_end ON work_answers (until)",
    """CREATE TABLE answer_layers (
        layer INTEGER NOT NULL REFERENCES works (id) ON DELETE CASCADE,
        work INTEGER NOT NULL REFERENCES works (id) ON DELETE CASCADE,
        PRIMARY KEY (layer, work)
    ) STRICT, WITHOUT ROWID""",
    """CREATE TABLE answers_due (
        work INTEGER PRIMARY KEY REFERENCES works (id) ON DELETE CASCADE
    ) STRICT""",
    "INSERT INTO answers_due (work) SELECT id FROM works",
    "CREATE TRIGGER work_answers_add AFTER INSERT ON work_answers BEGIN"
    " UPDATE answer_sets SET works = works + 1 WHERE id = new.answer_set; END",
    "CREATE TRIGGER work_answers_remove AFTER DELETE ON work_answers BEGIN"
    " UPDATE answer_sets SET works = works - 1 WHERE id = old.answer_set; END",
    """CREATE TRIGGER work_answers_change AFTER UPDATE OF answer_set ON work_answers BEGIN
        UPDATE answer_sets SET works = works - 1 WHERE id = old.answer_set;
        UPDATE answer_sets SET works = works + 1 WHERE id = new.answer_set;
    END""",
    f"CREATE TRIGGER works_answers_add AFTER INSERT ON works BEGIN {_DROP.format(row='new')} END",
    "CREATE TRIGGER works_answers_change AFTER UPDATE OF facts_sha256, based_on, originality, own ON works BEGIN"
    f" {_DROP.format(row='new')} END",
    """CREATE VIEW answers_now AS SELECT
        works.key AS work, works.title, set_answers.place, set_answers.status, set_answers.clear_from, set_answers.open,
        work_answers.reckoned_on, work_answers.until
    FROM work_answers
    JOIN works ON works.id = work_answers.work
    JOIN set_answers ON set_answers.answer_set = work_answers.answer_set""",
    "CREATE INDEX works_by_kind ON works (kind, id)",
)

# hangs: the facts that the law's answers on this version hang on, {fact: [places]}; "" where it was not worked out.
HANGS = ("ALTER TABLE work_answers ADD COLUMN hangs TEXT NOT NULL DEFAULT ''",)

# Answers reckoned on a day that lies ahead are found at once: the clock was wrong then. What was stored before dates to
# come were minded is reckoned anew.
RECKONED = (
    "CREATE INDEX work_answers_by_reckoning ON work_answers (reckoned_on)",
    "INSERT OR IGNORE INTO answers_due (work) SELECT work FROM work_answers",
)
