"""registry job add: records a job."""

from registry.catalogue import jobs, store
from registry.cli import job_options, shown
from registry.errors import RegistryError


def arguments(parser):
    """Adds the options of the command."""
    parser.add_argument("--key", help="A short handle, such as inn-sign; without it j1, j2 and so on.")
    job_options.columns_options(parser)


def run(args):
    """0 when the job was recorded."""
    catalogue = store.open_catalogue(args.catalogue)
    columns = job_options.columns_of(args)
    if "title" not in columns:
        raise RegistryError("A job needs a title; give it with --title.")
    job = jobs.add(catalogue, key=args.key, **columns)
    if args.json:
        shown.show_json(job_options.as_object(job))
        return 0
    print(f"Recorded {shown.plain(job.title)} as {job.key}.")
    print(f"Next: registry use {job.key} WORK --part picture")
    return 0
