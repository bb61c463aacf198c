"""The tables of catalogue.db, as named steps that sqlite-utils applies once each.

A step that was released is never edited; a change is a new step at the end. Only this module and the
functions that call `migrate` need sqlite-utils, which is imported late because it is slow to start.
"""

from registry.catalogue import mark_tables, proof_tables, standing_tables, tables, views

SET = "catalogue"
STEPS = {
    "01-tables": tables.TABLES,
    "02-search": tables.SEARCH,
    "03-ledger": tables.LEDGER,
    "04-views": views.VIEWS,
    "05-own-work": tables.OWN_WORK,
    "06-standing": standing_tables.STANDING,
    "07-evidence-values": proof_tables.VALUES,
    "08-marks": mark_tables.MARKS,
    "09-hangs": standing_tables.HANGS,
    "10-reckoned": standing_tables.RECKONED,
}


def migrate(connection):
    """Names of the steps that were applied now; each is a transaction, so a failing one leaves no trace."""
    from sqlite_utils import Database, Migrations

    database = Database(connection)
    steps = Migrations(SET)
    for name, statements in STEPS.items():
        steps(name=name)(_step(statements))
    pending = [step.name for step in steps.pending(database)]
    steps.apply(database)
    return pending


def _step(statements):
    def run(database):
        for statement in statements:
            database.execute(statement)

    return run


def applied(connection):
    """Names of the steps that a database has had; None when it never had any."""
    found = connection.execute("SELECT 1 FROM sqlite_master WHERE name = '_sqlite_migrations'").fetchone()
    if not found:
        return None
    rows = connection.execute("SELECT name FROM _sqlite_migrations WHERE migration_set = ? ORDER BY id", (SET,))
    return [row[0] for row in rows]
