"""Countries as people write them: codes, English names, and common other words for them."""

from functools import lru_cache

from registry import data
from registry.rulebook import place_names


@lru_cache(maxsize=1)
def codes_by_word():
    """Codes of ISO 3166-1 by the names of places and by other words for them, all in small letters."""
    lines = data.read_text("place_words.csv").splitlines()[1:]
    words = dict(line.rsplit(",", 1) for line in lines if line)
    return words | {name.casefold(): code for code, name in place_names().items()}


def code_of(text):
    """The code that a text stands for; the text itself, two letters made capital, when it is none that is known."""
    plain = " ".join(text.split())
    if plain.upper() in place_names():
        return plain.upper()
    return codes_by_word().get(plain.casefold(), plain.upper() if len(plain) == 2 else plain)
