"""Search in the titles, makers, traits and notes of works."""

from registry.catalogue import works


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
    """The FTS5 query for typed words, "" when there is no word in them: quotes and operators are plain text."""
    plain = [word.replace('"', "") for word in words.split()]
    return " ".join(f'"{word}"*' for word in plain if any(letter.isalnum() for letter in word))
