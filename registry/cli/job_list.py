"""registry job list: the jobs, the earliest due first."""

from registry.catalogue import decisions, jobs, settings, store
from registry.cli import inputs, job_options, shown


def arguments(parser):
    """Adds the option of the command."""
    parser.add_argument("--limit", type=inputs.whole("--limit"), default=-1, metavar="N", help="Lists N jobs at most.")


def run(args):
    """0; jobs without a day stand last."""
    catalogue = store.open_catalogue(args.catalogue)
    found = jobs.listed(catalogue, args.limit)
    if args.json:
        shown.show_json([job_options.as_object(job) for job in found])
        return 0
    if found:
        shop = settings.everything(catalogue)
        print(shown.table([(job.due or "no day", job.key, _told(job, decisions.last(catalogue, job, shop))) for job in found], 0))
    whole = jobs.count(catalogue)
    some = f"{len(found)} of " if len(found) != whole else ""
    print(f"{some}{whole} job{'' if whole == 1 else 's'}.")
    return 0


def _told(job, last):
    """A job in a line; of its last decision (None without one) only what is to be minded."""
    beware = f"; {job_options.decided(last)}" if last and (last.says or last.against) else ""
    return f"{job.title} ({', '.join(job.markets) or 'no markets'}){beware}"
