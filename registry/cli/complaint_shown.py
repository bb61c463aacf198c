"""A complaint as text and as an object: what the commands about complaints share."""

from dataclasses import asdict

from registry.facts import edtf


def as_object(one):
    """A complaint as an object for JSON."""
    return {**asdict(one), "state": one.state}


def line(one, today):
    """A complaint as a row of a list."""
    about = ", ".join((*one.jobs, *one.works))
    return one.key, one.state, _deadline(one, today), f"{one.sender} about {about}: {one.claim}"


def _deadline(one, today):
    if one.deadline is None:
        return "no deadline"
    late = one.state == "open" and edtf.day(one.deadline) < today
    return f"by {one.deadline}{', passed' if late else ''}"


def rows(one, today):
    """Rows of what is on record about a complaint."""
    yield "state", one.state
    yield "received", one.received
    yield "deadline", _deadline(one, today)
    for name in ("where", "reference", "claim", "note"):
        yield name, getattr(one, name)
    for name in ("jobs", "works", "marks"):
        yield name, ", ".join(getattr(one, name))
    yield "file", (one.file or "")[:16]
