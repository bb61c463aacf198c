"""Shapes turned into pixels and written as PNG with the standard library alone."""
import random
import struct
import zlib

ROWS = 3  # lines looked at in each row of pixels: edges come out soft


def rgb(ink):
    """The three parts (0-255) of an ink ``#rrggbb``."""
    return tuple(int(ink[i:i + 2], 16) for i in (1, 3, 5))


def _spans(rings, y):
    """Stretches of the line at height y that lie inside the rings."""
    hits = []
    for ring in rings:
        for (x1, y1), (x2, y2) in zip(ring, ring[1:] + ring[:1]):
            if (y1 > y) != (y2 > y):
                hits.append((x1 + (y - y1) * (x2 - x1) / (y2 - y1), 1 if y2 > y1 else -1))
    depth, start = 0, 0.0
    for x, way in sorted(hits):
        if depth == 0:
            start = x
        depth += way
        if depth == 0 and x > start:
            yield start, x


def _cover(line, left, right):
    """Add one stretch to a line of pixel cover."""
    left, right = max(0.0, left), min(len(line) - 1e-9, right)
    if right <= left:
        return
    first, last = int(left), int(right)
    if first == last:
        line[first] += (right - left) / ROWS
        return
    line[first] += (first + 1 - left) / ROWS
    line[last] += (right - last) / ROWS
    for x in range(first + 1, last):
        line[x] += 1 / ROWS


def _paint(rows, shape):
    """Lay one shape over rows of ``[r, g, b, ...]``."""
    red, green, blue = rgb(shape.ink)
    across = [x for ring in shape.rings for x, _ in ring]
    heights = [y for ring in shape.rings for _, y in ring]
    left, right = max(0, int(min(across))), min(len(rows[0]) // 3, int(max(across)) + 2)
    for row in range(max(0, int(min(heights))), min(len(rows), int(max(heights)) + 1)):
        cover = [0.0] * max(1, right - left)
        for part in range(ROWS):
            for start, stop in _spans(shape.rings, row + (part + 0.5) / ROWS):
                _cover(cover, start - left, stop - left)
        line = rows[row]
        for at, share in zip(range(3 * left, 3 * right, 3), cover):
            if share > 0.004:
                keep = max(0.0, 1 - share)
                line[at:at + 3] = (line[at] * keep + red * (1 - keep), line[at + 1] * keep + green * (1 - keep),
                                   line[at + 2] * keep + blue * (1 - keep))


def render(block):
    """Rows of ``[r, g, b, r, g, b, ...]`` (numbers 0-255) of a block."""
    rows = [list(map(float, rgb(block.paper))) * block.width for _ in range(block.height)]
    for shape in block.shapes:
        _paint(rows, shape)
    return rows


def soften(rows, reach=1):
    """The same rows blurred by a box of ``2 * reach + 1`` pixels, across and down."""
    def across(line):
        size = len(line) // 3
        return [sum(line[3 * min(size - 1, max(0, x + d)) + k] for d in range(-reach, reach + 1)) / (2 * reach + 1)
                for x in range(size) for k in range(3)]
    wide = [across(line) for line in rows]
    last = len(wide) - 1
    return [[sum(parts) / len(parts) for parts in zip(*(wide[min(last, max(0, y + d))] for d in range(-reach, reach + 1)))]
            for y in range(len(wide))]


def tone(rows, dark, light, grain=0.0, seed=1):
    """The same rows in shades between two inks, with grain (0-255) as of an old print."""
    low, high, chance = rgb(dark), rgb(light), random.Random(seed)
    toned = []
    for line in rows:
        new = []
        for x in range(0, len(line), 3):
            grey = 0.3 * line[x] + 0.59 * line[x + 1] + 0.11 * line[x + 2] + (chance.random() - 0.5) * grain
            share = min(1.0, max(0.0, grey / 255))
            new.extend(low[k] + (high[k] - low[k]) * share for k in range(3))
        toned.append(new)
    return toned


def shade(rows, left, top, right, bottom):
    """The same rows, each edge darkened towards a share (0-1) of its light."""
    high, wide = len(rows) - 1, len(rows[0]) // 3 - 1
    return [[value * (left + (right - left) * (x // 3) / wide) * (top + (bottom - top) * y / high)
             for x, value in enumerate(line)] for y, line in enumerate(rows)]


def _chunk(kind, data):
    return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))


def png(rows):
    """PNG bytes (8 bits, RGB, no filter) of rows of numbers 0-255."""
    wide, high = len(rows[0]) // 3, len(rows)
    raw = b"".join(b"\0" + bytes(min(255, max(0, int(value + 0.5))) for value in line) for line in rows)
    return (b"\x89PNG\r\n\x1a\n" + _chunk(b"IHDR", struct.pack(">IIBBBBB", wide, high, 8, 2, 0, 0, 0))
            + _chunk(b"IDAT", zlib.compress(raw, 9)) + _chunk(b"IEND", b""))
