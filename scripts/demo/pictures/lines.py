"""Outlines as lists of points: read from a short text, bent, turned and roughened. Pure.

A text such as ``"10,20 30,40! 50,20"`` lists points; ``!`` marks a corner that stays sharp.
"""
import math

STEP = 7.0  # length of one cut of the knife, in picture units


def points(text):
    """The points of a text as ``[(x, y, sharp), ...]``."""
    found = []
    for word in text.split():
        sharp = word.endswith("!")
        x, y = word.rstrip("!").split(",")
        found.append((float(x), float(y), sharp))
    return found


def straight(outline):
    """Plain points of a text or of a list, joined by straight edges."""
    return [p[:2] for p in (points(outline) if isinstance(outline, str) else outline)]


def _bend(a, b, c, d):
    """Points of the bent edge from b to c (c left out), with a and d as neighbours."""
    count = max(2, int(math.dist(b, c) / STEP))
    bent = []
    for i in range(count):
        t = i / count
        bent.append(tuple(
            0.5 * (2 * q + (r - p) * t + (2 * p - 5 * q + 4 * r - s) * t * t + (3 * q - p - 3 * r + s) * t ** 3)
            for p, q, r, s in zip(a, b, c, d)))
    return bent


def smooth(text, closed=True):
    """Plain points of a smooth outline (or open line) through the points of the text."""
    marks = points(text)
    size = len(marks)
    bent = []
    for i in range(size if closed else size - 1):
        j = (i + 1) % size
        b, c = marks[i][:2], marks[j][:2]
        first, last = not closed and i == 0, not closed and j == size - 1
        a = b if marks[i][2] or first else marks[i - 1][:2]
        d = c if marks[j][2] or last else marks[(j + 1) % size][:2]
        bent.extend(_bend(a, b, c, d))
    return bent if closed else bent + [marks[-1][:2]]


def oval(x, y, rx, ry=None, start=0.0, sweep=360.0):
    """Points round an oval, from ``start`` over ``sweep`` degrees, clockwise as seen."""
    ry = rx if ry is None else ry
    count = max(8, int(max(rx, ry) * math.radians(abs(sweep)) / (STEP * 0.6)))
    whole = abs(sweep) >= 360
    turns = [math.radians(start + sweep * i / count) for i in range(count if whole else count + 1)]
    return [(x + rx * math.cos(t), y + ry * math.sin(t)) for t in turns]


def ribbon(line, width, end=None, sharp=False):
    """The outline of a line drawn with a brush going from ``width`` to ``end`` (tapering at both ends if sharp)."""
    end = width if end is None else end
    last = max(1, len(line) - 1)
    left, right = [], []
    for i, (x, y) in enumerate(line):
        ax, ay = line[max(0, i - 1)]
        bx, by = line[min(last, i + 1)] if last < len(line) else line[i]
        long = math.hypot(bx - ax, by - ay) or 1.0
        half = (width + (end - width) * i / last) / 2
        half *= math.sin(math.pi * min(max(i / last, 0.04), 0.96)) ** 0.6 if sharp else 1
        nx, ny = -(by - ay) / long * half, (bx - ax) / long * half
        left.append((x + nx, y + ny))
        right.append((x - nx, y - ny))
    return left + right[::-1]


def gouge(x1, y1, x2, y2, width):
    """The lens-shaped outline that one push of a gouge leaves."""
    nx, ny = (y1 - y2), (x2 - x1)
    long = math.hypot(nx, ny) or 1.0
    nx, ny = nx / long * width / 2, ny / long * width / 2
    mx, my = x1 + (x2 - x1) * 0.42, y1 + (y2 - y1) * 0.42
    qx, qy = x1 + (x2 - x1) * 0.75, y1 + (y2 - y1) * 0.75
    return [(x1, y1), (mx + nx, my + ny), (qx + nx * 0.6, qy + ny * 0.6),
            (x2, y2), (qx - nx * 0.6, qy - ny * 0.6), (mx - nx, my - ny)]


def carve(ring, chance, rough):
    """The same outline with every long edge cut into short ones that miss the line by up to ``rough``."""
    cut = []
    for i, (x, y) in enumerate(ring):
        ex, ey = ring[(i + 1) % len(ring)]
        count = max(1, round(math.hypot(ex - x, ey - y) / STEP))
        for k in range(count):
            t = k / count
            cut.append((x + (ex - x) * t + (chance.random() - 0.5) * 2 * rough,
                        y + (ey - y) * t + (chance.random() - 0.5) * 2 * rough))
    return cut


def crossings(ring, angle, gap):
    """Pieces of parallel lines inside an outline: ``[(x1, y1, x2, y2), ...]``, ``gap`` apart, at ``angle`` degrees."""
    turn = math.radians(angle)
    cos, sin = math.cos(turn), math.sin(turn)
    flat = [(x * cos + y * sin, -x * sin + y * cos) for x, y in ring]
    low, high = min(y for _, y in flat), max(y for _, y in flat)
    inside = []
    for row in range(math.ceil(low / gap), math.floor(high / gap) + 1):
        y = row * gap + 0.013
        hits = sorted(
            x1 + (y - y1) * (x2 - x1) / (y2 - y1)
            for (x1, y1), (x2, y2) in zip(flat, flat[1:] + flat[:1]) if (y1 > y) != (y2 > y))
        for a, b in zip(hits[::2], hits[1::2]):
            inside.append((a * cos - y * sin, a * sin + y * cos, b * cos - y * sin, b * sin + y * cos))
    return inside
