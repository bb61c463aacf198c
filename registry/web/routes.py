"""Which page answers which address. The order matters: the first that fits."""

import re

from registry.web import home, job, law, picture, work

KEY = r"(?P<key>[^/]+)"
ROUTES = [
    (r"^/$", home.show),
    (r"^/jobs$", job.listing),
    (rf"^/job/{KEY}$", job.show),
    (rf"^/work/{KEY}$", work.show),
    (r"^/law$", law.listing),
    (r"^/law/(?P<code>[A-Za-z]{2})$", law.show),
    (r"^/picture/(?P<sha>[0-9a-f]{64})$", picture.show),
]
_OWN = [re.compile(pattern) for pattern, _view in ROUTES]


def is_own(path):
    """True for an address of one of our pages."""
    return any(pattern.match(path) for pattern in _OWN)
