"""registry bag: the hand-over package of a job (BagIt 1.0), and a check of any such package."""

from registry.catalogue import store, words
from registry.cli import inputs, shown
from registry.errors import RegistryError

VERDICT = {(True, True): "complete and valid", (True, False): "complete, but NOT valid", (False, False): "NOT complete, and so not valid"}


def arguments(parser):
    """Adds the arguments of the command."""
    parser.add_argument("job", nargs="?", help="The key of the job.")
    parser.add_argument("out", nargs="?", metavar="OUT", help="A new folder for the package.")
    parser.add_argument("--check", metavar="FOLDER", help="Judges a package instead, of this program or any other:"
                                                          " complete, valid, and why not. No catalogue is needed.")
    parser.add_argument("--seal", metavar="HEX", help="With --check: the SHA-256 of its tagmanifest-sha256.txt as it was given"
                                                      " apart from the package, which shows whether it was written anew.")
    inputs.day_option(parser)


def run(args):
    """0 when the package was written or is valid, 1 when it is not."""
    if args.check:
        if args.job:
            raise RegistryError("Name a job and a new folder to make a package, or --check and a folder to judge one, not both.")
        return _check(args)
    if args.seal is not None:
        raise RegistryError("--seal goes with --check and the folder of a package.")
    if not (args.job and args.out):
        raise RegistryError("Name a job and a new folder, such as: registry bag j1 j1-package; or --check and the folder of a package.")
    return _make(args)


def _make(args):
    from registry.exchange import bag

    made = bag.make(store.open_catalogue(args.catalogue), args.job, args.out, inputs.day_of(args.on))
    if args.json:
        shown.show_json({"folder": str(made.folder), "files": made.files, "bytes": made.bytes,
                         "tagmanifest_sha256": made.seal, "not_legal_advice": words.ADVICE})
        return 0
    print(shown.paragraph(f"Wrote {made.files} files with {made.bytes:,} bytes to {made.folder}."))
    print(shown.paragraph(f"SHA-256 of its tagmanifest-sha256.txt, to be given apart from the package: {made.seal}"))
    print(shown.advice())
    return 0


def _check(args):
    from registry.exchange.bag_check import check

    found = check(args.check, args.seal)
    if args.json:
        shown.show_json({"complete": found.complete, "valid": found.valid, "version": found.version,
                         "algorithms": found.algorithms, "files": len(found.payload), "bytes": found.bytes,
                         "tagmanifest_sha256": found.seal or None, "seal_compared": args.seal is not None,
                         "info": [list(pair) for pair in found.info],
                         "findings": [{"kind": one.kind, "says": one.says} for one in found.findings]})
        return 0 if found.valid else 1
    manifests = ", ".join(found.algorithms) or "no manifest"
    print(shown.paragraph(f"{args.check}: {VERDICT[found.complete, found.valid]}; {len(found.payload)} files,"
                          f" {found.bytes:,} bytes, {manifests}."))
    for one in found.findings:
        print(shown.paragraph(f"{one.kind}: {one.says}", 4, "  - "))
    print(shown.paragraph(_seal(found.seal, args.seal)))
    return 0 if found.valid else 1


def _seal(found, given):
    """What the digest of the tag manifest tells: with one given apart whether the package is that one, else nothing of that."""
    if not found:
        return ("There is no tagmanifest-sha256.txt, so the package has no seal: whoever alters a file can write the"
                " manifests anew, and nothing here would tell.")
    says = f"Seal (SHA-256 of its tagmanifest-sha256.txt): {found}."
    if given is None:
        return (f"{says} It was compared with none: a package that was altered and written anew is valid too. Give the seal"
                " that came apart from it with --seal.")
    return f"{says} This is {'the' if found == given.strip().lower() else 'NOT the'} seal that was given."
