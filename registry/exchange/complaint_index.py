"""The index of a complaint's folder: what is on record, line by line, and what is missing. It gives no opinion."""

import textwrap

from registry.catalogue import complaints, support, words
from registry.facts import edtf

WIDTH = 88


def text(dossier, copied, sheets=(), lost=()):
    """The index as plain text; `copied` are (name, what, SHA-256) of the files, `sheets` names of provenance sheets,
    `lost` sentences about files not copied."""
    blocks = [_head(dossier), _complaint(dossier), _answers(dossier)]
    blocks += [_job(one, dossier) for one in dossier.jobs]
    blocks += [_works(dossier), _marks(dossier), _missing(dossier, lost), _files(dossier, copied, sheets)]
    return "\n\n".join(block for block in blocks if block) + "\n"


def missing(dossier, lost=()):
    """Sentences about what a practitioner will ask for and is not on record."""
    found, complaint = [], dossier.complaint
    if complaint.file is None:
        found.append("The complaint as received (letter, message, screen) is not kept as a file.")
    if complaint.deadline is None:
        found.append("No deadline is on record.")
    if not complaint.jobs:
        found.append("No job is named, only works: which products are meant?")
    for one in dossier.jobs:
        found += _missing_of_job(one)
    for record in dossier.works:
        found += _missing_of_work(record, dossier.evidence[record.key])
    for mark in dossier.marks:
        found += _missing_of_mark(mark)
    return [*found, *lost]


def _missing_of_job(one):
    name = f"Job {one.job.key}"
    if not one.decisions:
        yield f"{name}: no decision is on record."
    if one.since:
        yield f"{name}: {one.since}."
    if one.job.sold_on is None:
        yield f"{name}: no day of sale is on record."
    if one.job.quantity is None:
        yield f"{name}: no quantity is on record."
    if not one.job.uses:
        yield f"{name}: no work is recorded as used in it."
    if one.job.wording and not one.searches:
        yield f"{name}: no search of a register for its wording '{one.job.wording}' is on record."
    if one.answer is None:
        yield f"{name}: it could not be judged today: {one.why_not}"
    for fact in one.supports:
        if not fact.rests:
            yield f"{name}: its answer hangs on {fact.fact} of {fact.work}, for which there is {support.WORDS[fact.basis]}."
    for given in one.permissions:
        if not given.document:
            yield f"{name}: the document of permission p{given.id} ({given.licensor or 'licensor not on record'}) is not kept as a file."


def _missing_of_work(record, proofs):
    if record.picture is None:
        yield f"Work {record.key}: no picture of it is kept."
    if not proofs:
        yield f"Work {record.key}: no evidence for any of its facts is on record."


def _missing_of_mark(mark):
    for name, what in (("office", "office"), ("number", "number"), ("classes", "classes"), ("status_words", "state in the office's words")):
        if not getattr(mark, name):
            yield f"Mark {mark.key}: its {what} {'are' if name == 'classes' else 'is'} not on record."


# --- blocks -----------------------------------------------------------------------------------------

def _head(dossier):
    shop = f" of {dossier.shop}" if dossier.shop else ""
    return "\n".join([
        f"COMPLAINT {dossier.complaint.key}", "",
        _para(f"What the catalogue{shop} holds about it on {words.day(dossier.day)}, for a licensed practitioner. {words.ADVICE}"),
        _para("Customers, prices and private notes are left out. The same records stand in the JSON files of this folder."),
        f"Head of the ledger: {dossier.head or 'the ledger is empty'}",
    ])


def _complaint(dossier):
    one = dossier.complaint
    waits = one.deadline is not None and one.state != complaints.CLOSED
    left = _left(edtf.day(one.deadline) - dossier.day) if waits else ""
    return _block("The complaint", [
        f"Received: {one.received}", f"From: {one.sender}", one.where and f"Where: {one.where}",
        one.reference and f"Their reference: {one.reference}",
        f"Deadline: {one.deadline}{left}" if one.deadline else "Deadline: none on record",
        f"About jobs: {', '.join(one.jobs) or 'none named'}",
        one.works and f"About works: {', '.join(one.works)}", one.marks and f"Marks named: {', '.join(one.marks)}",
        f"State: {one.state}", f"Claim, as recorded: {one.claim}", one.note and f"Note: {one.note}"])


def _left(days):
    return f" ({days} day{'' if days == 1 else 's'} left)" if days >= 0 else f" (passed {-days} day{'' if days == -1 else 's'} ago)"


def _answers(dossier):
    lines = [f"{one.answered}, {one.by}, {one.outcome}: {one.says}" for one in dossier.complaint.answers]
    return _block("Answers so far", lines or ["None is on record."])


def _job(one, dossier):
    job = one.job
    lines = [*_made(job), *map(_use, job.uses), *map(_decision, one.decisions)]
    lines += [f"The job: {one.since}"] if one.since else []
    for market in one.answer.markets if one.answer else ():
        lines.append(f"{market.market} today: {words.MARKET[market.decision]}. {market.sentence}")
    for market in one.answer.markets if one.answer else ():
        found = ((place, match) for place in market.places for match in place.matches)
        lines += [f"Mark {match.mark} in {place.place}: {match.says}" for place, match in found]
    lines += [f"Hangs on {fact.fact} of {fact.work}: {support.WORDS[fact.basis]}" for fact in one.supports]
    lines += map(_permission, one.permissions)
    lines += [f"On {look.at} {look.by} searched {look.place} for '{look.words}': {look.result}" for look in one.searches]
    lines += [f"Other complaint about it: {key}" for key in one.complaints if key != dossier.complaint.key]
    return _block(f"Job {job.key}", lines)


def _made(job):
    quantity, markets = job.quantity or "not on record", ", ".join(job.markets) or "none"
    yield (f"{job.title}: {job.product or 'product not on record'}, {job.purpose}, quantity {quantity},"
           f" markets {markets}, sold {job.sold_on or 'on no day on record'}")
    for label, text in (("Wording", job.wording), ("Lettering", job.lettering), ("Listing text", job.listing_text)):
        yield text and f"{label}: {text}"


def _use(use):
    shows = f", showing {','.join(use.traits)}" if use.traits else ""
    return f"Uses {use.work} as {use.part}{shows}{f'; changes: {use.changes}' if use.changes else ''}"


def _decision(row):
    body = row.body
    against = ""
    if body.get("against"):
        against = f" against a hold in {', '.join(body['against'])}, because: {body['although']}"
    return f"Decided on {row.at[:10]} by {body['by']}{against}: {body['note']} (ledger row {row.seq})"


def _permission(one):
    licensor, first = one.licensor or "a licensor not on record", one.valid_from or "no start"
    return f"Permission p{one.id} of {licensor} for {one.work}: {one.kind}, {first} to {one.valid_to or 'no end'}"


def _works(dossier):
    lines = []
    for record in dossier.works:
        lines.append(f"{record.key}: {record.title or 'untitled'}{f', by {record.makers}' if record.makers else ''}"
                     f"{f', first published {record.first_published}' if record.first_published else ''}"
                     f"{f', based on {record.based_on}' if record.based_on else ''}")
        lines += map(_proof, dossier.evidence[record.key])
    return _block("Works", lines)


def _proof(one):
    details = _joined(one.kind, one.title, one.place, one.seen_on and f"seen {one.seen_on}", one.seen_by)
    return f"   evidence for {one.fact}: {one.basis}, {details or 'no details'}"


def _joined(*parts):
    return ", ".join(filter(None, parts))


def _marks(dossier):
    return _block("Marks", map(_mark, dossier.marks))


def _mark(one):
    return f"{one.key}: '{one.words}', {_joined(one.owner, one.office, one.number, one.state, one.status_words)}"


def _missing(dossier, lost):
    return _block("Missing", missing(dossier, lost) or ["Nothing that this program looks for is missing."])


def _files(dossier, copied, sheets):
    lines = ["complaint.json: the complaint, its answers and what is missing",
             *(f"jobs/{one.job.key}.json: job, decisions, today's answer with rules and citations"
               for one in dossier.jobs),
             *(f"works/{record.key}.json: facts, evidence, answers recorded" for record in dossier.works),
             "marks.json: the marks concerned", "ledger.json: rows of the ledger about the complaint"]
    lines += [f"{name}: the provenance sheet of the job, to be printed" for name in sheets]
    return _block("Files", [*lines, *(f"{name}: {what} (SHA-256 {digest})" for name, what, digest in copied)])


def _block(title, lines):
    kept = [line for line in lines if line]
    return "\n".join([title.upper(), *(_para(line, "  - ") for line in kept)]) if kept else ""


def _para(line, start=""):
    plain = "".join(letter if letter.isprintable() else " " for letter in line)
    return textwrap.fill(plain, WIDTH, initial_indent=start, subsequent_indent=" " * len(start),
                         break_long_words=False, break_on_hyphens=False)

