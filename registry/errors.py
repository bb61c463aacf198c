"""The errors that the package raises: one plain sentence each, ready to be shown to a person."""


class RegistryError(Exception):
    """Anything the registry refuses to do; its text is one plain sentence."""


class BadDate(RegistryError):
    """A date that cannot be read; the sentence says what was got and what to write instead."""


class BadFacts(RegistryError):
    """Facts about a work that cannot be used; names the fact, what was got and what is allowed."""


class BadLaw(RegistryError):
    """A data file of law that cannot be used; names the file, the entry and what is allowed."""


class UnknownRecord(RegistryError):
    """A record was asked for that is not there; names its kind and its id."""


class Conflict(RegistryError):
    """A change that does not fit what is stored by now; names the record and what differs."""
