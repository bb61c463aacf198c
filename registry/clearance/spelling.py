"""How far two spellings are apart: a distance in which slips of sound and pen count half."""

VOWELS = frozenset("aeiouy")
SOFT = frozenset(map(frozenset, ("ck", "sz", "vw", "bp", "dt", "gk", "mn", "kq", "fv")))
WIDE = 99.0


def distance(first, second, limit):
    """The least sum of slips that turns one spelling into the other; WIDE when it is above the limit.

    A letter more, less or other counts 1; a vowel for another, a letter doubled and letters of kindred sound count
    0.5, neighbours swapped 0.5. Symmetric; the limit is in the same measure.
    """
    if abs(len(first) - len(second)) > limit * 2:
        return WIDE
    before, row = None, [0.0]
    for letter in range(len(second)):
        row.append(row[-1] + _gap(second, letter))
    for i, one in enumerate(first):
        current = [row[0] + _gap(first, i)]
        for j, other in enumerate(second):
            best = min(row[j] + _change(one, other), row[j + 1] + _gap(first, i), current[j] + _gap(second, j))
            if before is not None and j and one == second[j - 1] and other == first[i - 1]:
                best = min(best, before[j - 1] + 0.5)
            current.append(best)
        if min(current) > limit:
            return WIDE
        before, row = row, current
    return row[-1] if row[-1] <= limit else WIDE


def _gap(word, at):
    """The weight of a letter that only one has: half when it doubles its neighbour or is a silent h or e at the end."""
    letter = word[at]
    if at and word[at - 1] == letter:
        return 0.5
    return 0.5 if (letter == "h" and at) or (letter in "es" and at == len(word) - 1) else 1.0


def _change(one, other):
    if one == other:
        return 0.0
    if one in VOWELS and other in VOWELS:
        return 0.5
    return 0.5 if frozenset((one, other)) in SOFT else 1.0
