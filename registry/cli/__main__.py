"""The command as `python -m registry.cli`."""

from registry.cli import main

raise SystemExit(main())
