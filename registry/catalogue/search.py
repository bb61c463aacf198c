"""Search in the titles, makers, traits and notes of works."""

import re

from registry.catalogue import works
from registry.errors import RegistryError

MOST = 50  # words of one search
_WORD = re.compile(r"[^\W_]+")


def find(catalogue, words, limit=50):
    """WorkRecords that hold every word (or a word that begins like it), the best match first.

    Accents and capitals do not matter; a work whose key is what was typed comes first.
    """
    exact = catalogue.db.execute("SELECT id FROM works WHERE key = ?", (words.strip(),)).fetchall()
    query = match(words)
    ids = [row[0] for row in exact]
    if query:
        found = catalogue.db.execute(
            "SELECT rowid FROM works_search WHERE works_search MATCH ? ORDER BY bm25(works_search, 8, 4, 4, 1), rowid LIMIT ?",
            (query, limit),
        )
        ids += [row[0] for row in found if row[0] not in ids]
    return works.some(catalogue, ids[:limit])


def match(words):
    """The FTS5 query for typed words, "" when there is no word in them: quotes and operators are plain text.

    RegistryError for more words than anybody looks for, since each is looked up by itself.
    """
    check(words)
    plain = [word.replace('"', "") for word in words.split()]
    return " ".join(f'"{word}"*' for word in plain if any(letter.isalnum() for letter in word))


def check(words):
    """Nothing; RegistryError when typed words are no search."""
    if sentence := fault(words):
        raise RegistryError(sentence)


def fault(words):
    """What is wrong with typed words as a search, "" when nothing is: parts of a word such as a-b count by themselves."""
    count = len(_WORD.findall(words))
    return f"The search has {count:,} words; at most {MOST} are allowed." if count > MOST else ""
