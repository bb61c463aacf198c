"""What is due: answers and jobs that changed since a decision, permissions and marks running out, sales without a decision."""

from dataclasses import dataclass

from registry.catalogue import answers, clear, complaints, decisions, jobs, ledger, settings, words
from registry.catalogue.beside import marks_sha256
from registry.catalogue.mark_rules import mark_rules
from registry.clearance.permissions import drawing
from registry.errors import RegistryError
from registry.facts import edtf

WITHIN = 60  # days ahead that are looked at
ALTERED = "changed job"  # what an Ending is about when the job is no longer the one that was decided


@dataclass(frozen=True, slots=True)
class Changed:
    """A decided job whose answer is another now: the market, the decision it relied on, the decision today, why."""

    job: str
    title: str
    market: str
    then: str
    now: str
    decided: str
    by: str
    because: str
    sentence: str


@dataclass(frozen=True, slots=True)
class Ending:
    """Something with a day: what (permission, mark, mark look-up, complaint, decision, changed job), which, the day,
    whom or what it concerns."""

    what: str
    key: str
    day: str
    says: str
    jobs: tuple = ()


@dataclass(frozen=True, slots=True)
class Due:
    """All that is due on a day."""

    day: int
    changed: tuple
    ending: tuple
    undecided: tuple


def due(catalogue, day, within=WITHIN):
    """The Due of a day number; `within` days ahead count as running out."""
    until, decided = edtf.iso(day + within), ledger.latest(catalogue, "decision")
    ending = [*_permissions(catalogue, edtf.iso(day), until), *_marks(catalogue, until), *_complaints(catalogue, until),
              *_look_again(decided, until), *_altered_jobs(catalogue, decided)]
    ending.sort(key=lambda one: (one.day, one.what, one.key))
    return Due(day, tuple(_changed(catalogue, day, decided)), tuple(ending), tuple(undecided(catalogue)))


# --- answers that changed ---------------------------------------------------------------------------

def changed(catalogue, day):
    """Changed, one for each market of a decided job that has another answer now than when it was decided.

    A job is judged anew only when something moved that can matter: facts, law, permissions, marks, the job, the calendar.
    """
    return _changed(catalogue, day, ledger.latest(catalogue, "decision"))


def _changed(catalogue, day, decided):
    if not decided:
        return
    facts = _facts(catalogue, {work for row in decided for work in row.body["facts"]})
    versions = dict(catalogue.db.execute("SELECT key, version FROM jobs"))
    given = {}
    for number, work in catalogue.db.execute("SELECT permissions.id, works.key FROM permissions JOIN works ON works.id = permissions.work"):
        given.setdefault(work, set()).add(f"p{number}")
    families = _families(catalogue)
    rules, known, today, at = answers.rules_sha256(), marks_sha256(catalogue), edtf.iso(day), clear.desk(catalogue, day)
    for row in decided:
        if row.subject in versions:
            because = _moved(row.body, facts, families, versions[row.subject], given, rules, known, today)
            if because or row.body["limited"]:
                yield from _compared(at, row, because)


def _facts(catalogue, keys):
    """The digest of the facts of each of these works that is still there."""
    found = (catalogue.db.execute("SELECT key, facts_sha256 FROM works WHERE key = ?", (key,)).fetchone() for key in sorted(keys))
    return dict(tuple(row) for row in found if row)


def _families(catalogue):
    """For each work the {key: version} of all that share its original, as they are now."""
    rows = catalogue.db.execute("SELECT id, key, version, based_on FROM works ORDER BY id").fetchall()
    beneath, root, families = {row["id"]: row["based_on"] for row in rows}, {}, {}
    for row in rows:
        number, passed = row["id"], []
        while number not in root and beneath[number] is not None:
            passed.append(number)
            number = beneath[number]
        root.update(dict.fromkeys([*passed, number], root.get(number, number)))
        families.setdefault(root[row["id"]], {})[row["key"]] = row["version"]
    return {row["key"]: families[root[row["id"]]] for row in rows}


def _altered(was, families):
    """True when works that a decision looked at, or others of the same original, are no longer in the version they
    were; an older row does not tell."""
    if was is None:
        return False
    return {key: version for known in was for key, version in families.get(known, {}).items()} != was


def _moved(body, facts, families, version, given, rules, known, today):
    """What moved since a decision, in words; none when nothing that can matter did, but for what other jobs draw."""
    now = {key for work in body["facts"] for key in given.get(work, ())}
    new_facts = any(facts.get(work) != digest for work, digest in body["facts"].items())
    moved = [
        ("facts", new_facts), ("versions of the works", not new_facts and _altered(body.get("works"), families)),
        ("law data", body["rules_sha256"] != rules), ("the calendar", any(day <= today for day in body["changes_on"])),
        ("permissions", now != set(body["permissions"])), ("marks", body["marks_sha256"] != known),
        ("the job", version != body["job_version"]),
    ]
    return [words for words, is_so in moved if is_so]


def _compared(at, row, moved):
    subject, body, decided, because = row.subject, row.body, row.at[:10], ", ".join(moved)
    job, markets = jobs.get(at.catalogue, subject), [one["market"] for one in body["markets"]]
    try:
        if body["limited"] and (not moved or _drawn(at, job, markets)):
            because = ", ".join([*moved, "quantities of other jobs"])
        found = clear.answer(at, job, markets, want=0)
    except RegistryError as error:  # a group of the shop that is gone, say: the others are looked at all the same
        yield Changed(subject, job.title, "", "", "", decided, body["by"], because, str(error))
        return
    for then, now in zip(body["markets"], found.markets):
        if then["decision"] != now.decision:
            yield Changed(subject, job.title, now.market, then["decision"], now.decision, decided, body["by"], because, now.sentence)


def _drawn(at, job, markets):
    """True when other jobs draw on a limited permission of this one."""
    case = clear.case(at, job, markets)
    return any(drawing(one, case, at.ground) for one in case.permissions if one.quantity is not None)


# --- what runs out, what was forgotten ---------------------------------------------------------------

def _permissions(catalogue, today, until):
    rows = catalogue.db.execute(
        """SELECT permissions.id, permissions.licensor, permissions.valid_to, permissions.work, works.key, works.title FROM permissions
        JOIN works ON works.id = permissions.work WHERE valid_to BETWEEN ? AND ? ORDER BY valid_to, permissions.id""", (today, until))
    for row in rows.fetchall():
        says = f"Permission of {row['licensor'] or 'the licensor'} for '{row['title'] or row['key']}' ends."
        yield Ending("permission", f"p{row['id']}", row["valid_to"], says, _open_jobs(catalogue, row["work"]))


def _open_jobs(catalogue, work):
    rows = catalogue.db.execute(
        """WITH RECURSIVE tree (id) AS (SELECT ?1 UNION SELECT works.id FROM works JOIN tree ON works.based_on = tree.id)
        SELECT DISTINCT jobs.key FROM jobs JOIN uses ON uses.job = jobs.id
        WHERE uses.work IN (SELECT id FROM tree) AND jobs.sold_on IS NULL ORDER BY jobs.id""", (work,))
    return tuple(row[0] for row in rows)


def _marks(catalogue, until):
    alive = [word for word, (standing, _says) in mark_rules().states.items() if standing in ("live", "pending")]
    rows = catalogue.db.execute(
        "SELECT id, words, office, look_again, expires, state FROM marks"
        " WHERE look_again <= ?1 OR expires <= ?1 ORDER BY id", (until,))
    for row in rows.fetchall():
        key, name = f"m{row['id']}", f"'{row['words']}' ({row['office']})"
        if row["look_again"] and row["look_again"] <= until:
            yield Ending("mark look-up", key, row["look_again"], f"Look up the mark {name} again.")
        if row["expires"] and row["expires"] <= until and row["state"] in alive:
            says = (f"The mark {name} is recorded as {row['state']} and its registration ends:"
                    " look up whether it was renewed.")
            yield Ending("mark", key, row["expires"], says)


def _complaints(catalogue, until):
    for one in complaints.waiting(catalogue, until):
        yield Ending("complaint", one.key, one.deadline, f"The complaint {one.key} of {one.sender} waits for an answer.", one.jobs)


def _look_again(decided, until):
    for row in decided:
        day = row.body["look_again"]
        if day and day <= until:
            says = f"Look again at the job {row.subject}, as was noted when it was decided."
            yield Ending("decision", row.subject, day, says, (row.subject,))


def _altered_jobs(catalogue, decided):
    """Endings, one for each decided job that is not, or not known to be, the one that was decided; the day is that of the last change."""
    shop, kept = settings.everything(catalogue), {row[0] for row in catalogue.db.execute("SELECT key FROM jobs")}
    for row in decided:
        if row.subject not in kept:
            continue
        job = jobs.get(catalogue, row.subject)
        found = decisions.standing(catalogue, job, row, shop)
        if not found.covers:
            decided_on = words.day(edtf.day(row.at[:10]))
            says = (f"{job.title}: {found.says}. {row.body['by']} decided on {decided_on};"
                    " decide anew about the job as it is now.")
            yield Ending(ALTERED, job.key, max(job.changed_at, row.at)[:10], says, (job.key,))


def undecided(catalogue):
    """(key, title, day sold) of every job that was sold without a decision, the earliest sale first."""
    rows = catalogue.db.execute(
        """SELECT key, title, sold_on FROM jobs WHERE sold_on IS NOT NULL
        AND NOT EXISTS (SELECT 1 FROM ledger WHERE kind = 'decision' AND subject = jobs.key) ORDER BY sold_on, id""")
    return [tuple(row) for row in rows]
