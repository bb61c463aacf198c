"""Days as they are typed into records: calendar days, and for what was seen or done, none to come."""

from registry.catalogue import store
from registry.errors import BadDate, RegistryError
from registry.facts import edtf

AHEAD = 1  # days: where somebody saw it, tomorrow may have begun already


def read(name, text):
    """The day number of a typed day; BadDate with the name of the field when it is none."""
    try:
        return edtf.day(text)
    except BadDate as error:
        raise BadDate(f"{name}: {error}") from None


def past(name, text):
    """As `read`, for what has happened; RegistryError for a day to come."""
    day = read(name, text)
    if day > latest():
        raise RegistryError(f"{name}: {text} lies in the future; today is {edtf.iso(store.today())} by the clock of this"
                            f" machine, and {edtf.iso(latest())} is the last day allowed.")
    return day


def latest():
    """The day number of the last day on which something can have happened, by the clock of this machine."""
    return store.today() + AHEAD
