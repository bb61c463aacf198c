"""Countries as people write them: codes, English names, and common other words for them."""

from registry.rulebook import place_names, place_words


def code_of(text):
    """The code that a text stands for; the text itself, two letters made capital, when it is none that is known."""
    plain = " ".join(text.split())
    if plain.isascii() and plain.upper() in place_names():
        return plain.upper()
    return place_words().get(plain.casefold(), plain.upper() if plain.isascii() and len(plain) == 2 else plain)
