"""Later steps of the tables of evidence, as SQL."""

# What was on record for the fact when the evidence was added, as canonical JSON; NULL in rows of before.
VALUES = (
    "ALTER TABLE evidence ADD COLUMN value TEXT CHECK (value IS NULL OR json_valid(value))",
)
