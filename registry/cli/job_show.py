"""registry job show: a job, the works used in it, and whether somebody decided about it."""

from registry.catalogue import decisions, jobs, store
from registry.cli import job_options, shown


def arguments(parser):
    """Adds the argument of the command."""
    parser.add_argument("job", help="The key of the job.")


def run(args):
    """0; UnknownRecord when there is no such job."""
    catalogue = store.open_catalogue(args.catalogue)
    job = jobs.get(catalogue, args.job)
    if args.json:
        shown.show_json(job_options.as_object(job))
        return 0
    print(shown.heading(job.title, job.key))
    last = decisions.last(catalogue, job)
    print(shown.table([row for row in (*rows(job), ("decision", job_options.decided(last))) if row[1]]))
    print("\nUses" if job.uses else f"\nNo work is used in it yet: registry use {job.key} WORK --part picture")
    if job.uses:
        print(shown.table([(use.work, use.part, _use(use)) for use in job.uses]))
    return 0


def rows(job):
    """Rows of what is on record about a job."""
    yield "product", job.product
    yield "purpose", job.purpose
    yield "markets", ", ".join(job.markets)
    yield "quantity", str(job.quantity or "")
    for name in ("wording", "lettering", "listing_text", "due", "sold_on", "customer", "price", "notes"):
        yield name.replace("_", " "), getattr(job, name) or ""
    yield "version", f"{job.version}, changed {job.changed_at}"


def _use(use):
    parts = [f"uses {', '.join(use.traits)}" if use.traits else "", use.changes and f"changes: {use.changes}"]
    return "; ".join(part for part in parts if part)
