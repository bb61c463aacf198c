"""registry job change: alters a job."""

from registry.catalogue import jobs, store
from registry.cli import job_options, shown
from registry.errors import RegistryError


def arguments(parser):
    """Adds the arguments of the command."""
    parser.add_argument("job", help="The key of the job.")
    parser.add_argument("--version", type=int, metavar="N", help="Refuses the change when the job is no longer in this version.")
    job_options.columns_options(parser)


def run(args):
    """0 when the job was changed."""
    catalogue = store.open_catalogue(args.catalogue)
    columns = job_options.columns_of(args)
    if not columns:
        raise RegistryError("Say what to change, such as --due 2027-02-12; 'registry job change --help' lists all.")
    with store.transaction(catalogue):
        old = jobs.get(catalogue, args.job)
        job = jobs.change(catalogue, args.job, old.version if args.version is None else args.version, **columns)
    if args.json:
        shown.show_json(job_options.as_object(job))
    else:
        print(f"Changed {job.key}; it is now in version {job.version}.")
    return 0
