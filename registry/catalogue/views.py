"""The first views, as SQL: what was computed, what is asked, what is out of date."""

VIEWS = (
    """CREATE VIEW assessments AS SELECT
        seq, at, subject AS work,
        json_extract(body, '$.place') AS place,
        json_extract(body, '$.as_of') AS as_of,
        json_extract(body, '$.status') AS status,
        json_extract(body, '$.free_from') AS free_from,
        json_extract(body, '$.free_from_earliest') AS free_from_earliest,
        json_extract(body, '$.free_from_latest') AS free_from_latest,
        json_extract(body, '$.because') AS because,
        json_extract(body, '$.why') AS why,
        json_extract(body, '$.open') AS open,
        json_extract(body, '$.facts_sha256') AS facts_sha256,
        json_extract(body, '$.rules_sha256') AS rules_sha256
    FROM ledger WHERE kind = 'assessment'""",
    "CREATE VIEW decisions AS SELECT seq, at, subject, body FROM ledger WHERE kind = 'decision'",
    """CREATE VIEW complaints AS SELECT seq, at, kind, subject, body
    FROM ledger WHERE kind IN ('complaint', 'complaint_answer')""",
    # A bare column beside max() comes from the row that holds the maximum (documented by SQLite).
    """CREATE VIEW works_now AS SELECT
        works.key AS work, works.title, last.place, last.as_of, last.status, last.free_from,
        last.because, last.open, last.facts_sha256, last.rules_sha256, last.seq
    FROM works JOIN (
        SELECT max(seq) AS seq, work, place, as_of, status, free_from, because, open, facts_sha256, rules_sha256
        FROM assessments GROUP BY work, place
    ) AS last ON last.work = works.key""",
    """CREATE VIEW open_questions AS SELECT
        question.value AS fact, works_now.work, works_now.title, group_concat(works_now.place, ' ') AS places,
        (SELECT count(DISTINCT uses.job) FROM uses JOIN works ON works.id = uses.work WHERE works.key = works_now.work) AS jobs
    FROM works_now, json_each(works_now.open) AS question
    WHERE works_now.status = 'undetermined'
    GROUP BY question.value, works_now.work""",
    """CREATE VIEW stale AS SELECT works_now.work, works_now.title, works_now.place, works_now.as_of, works_now.seq
    FROM works_now JOIN works ON works.key = works_now.work
    WHERE works_now.facts_sha256 <> works.facts_sha256""",
)
