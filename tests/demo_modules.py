"""The modules of scripts/demo for the tests: that folder is no package."""

import sys
from pathlib import Path

DEMO = Path(__file__).resolve().parent.parent / "scripts" / "demo"

sys.path.insert(0, str(DEMO))
try:
    import draw
    import shop
finally:
    sys.path.remove(str(DEMO))

__all__ = ["DEMO", "draw", "shop"]
