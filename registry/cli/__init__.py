"""The command `registry`."""

import sys


def main(argv: list[str] | None = None) -> int:
    """Exit code of one run of the command."""
    print("usage: registry COMMAND ...", file=sys.stderr)
    return 2
