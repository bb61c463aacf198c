"""registry use: says which work plays which part in a job."""

from registry.catalogue import jobs, store
from registry.cli import job_options, shown
from registry.errors import RegistryError


def arguments(parser):
    """Adds the arguments of the command."""
    parser.usage = "%(prog)s JOB WORK (--part PART | --remove [--part PART]) [options]"
    parser.add_argument("job", help="The key of the job.")
    parser.add_argument("work", help="The key of the work.")
    parser.add_argument("--part", choices=jobs.PARTS, help="The part that the work plays; with --remove it may be left out.")
    parser.add_argument("--trait", action="append", default=[], metavar="NAME",
                        help="A trait that is used, on record for the work or a version beneath it; repeat for several."
                             " It says what of a figure is shown; whether the drawing of a version of which no trait is"
                             " named is shown too hangs on --changes.")
    parser.add_argument("--changes", default="", metavar="TEXT",
                        help="What is changed by hand: 'unchanged' when the work is used just as it is, 'redrawn from"
                             " KEY' when the picture was drawn anew from an older version alone; 'none' or 'redrawn' leave"
                             " it to the named traits what is shown, and the answer says so. Without it nothing is taken"
                             " as unchanged: a permission without changes is then asked about.")
    parser.add_argument("--remove", action="store_true", help="Takes the work out of the job again.")


def run(args):
    """0 when the use was recorded or taken away."""
    catalogue = store.open_catalogue(args.catalogue)
    if args.remove:
        job = jobs.stop_using(catalogue, args.job, args.work, args.part)
    elif args.part is None:
        raise RegistryError(f"Say which part the work plays: --part takes {', '.join(jobs.PARTS)}.")
    else:
        job = jobs.use(catalogue, args.job, args.work, args.part, args.trait, args.changes)
    if args.json:
        shown.show_json(job_options.as_object(job))
        return 0
    print(f"{args.job} {'no longer uses' if args.remove else 'uses'} {args.work}{f' as {args.part}' if args.part else ''}.")
    print(f"Next: registry check --job {job.key}")
    return 0
