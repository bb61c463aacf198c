"""A printing block: takes shapes one over another and gives them back as SVG text."""
import copy
import math
import random
from dataclasses import dataclass
from xml.sax.saxutils import escape

from . import lines


@dataclass(frozen=True, slots=True)
class Shape:
    """One inked area: rings of points (filled where the winding is not zero) and an ink ``#rrggbb``."""

    rings: tuple
    ink: str


class Block:
    """A sheet of paper in the making; ``at`` gives a moved, turned or mirrored hand on the same sheet."""

    def __init__(self, width, height, paper, seed=1, rough=0.55):
        self.width, self.height, self.paper, self.rough = width, height, paper, rough
        self.chance = random.Random(seed)  # .random() alone: its stream is the same in every Python
        self.shapes = []
        self.place = (1.0, 0.0, 0.0, 1.0, 0.0, 0.0)

    def at(self, x=0.0, y=0.0, size=1.0, turn=0.0, flip=False, tall=1.0):
        """The same sheet with the origin moved to (x, y), scaled, turned (degrees) and perhaps mirrored."""
        cos, sin = math.cos(math.radians(turn)), math.sin(math.radians(turn))
        wide, high = (-size if flip else size), size * tall
        a, b, c, d = cos * wide, sin * wide, -sin * high, cos * high
        p, q, r, s, u, v = self.place
        hand = copy.copy(self)
        hand.place = (p * a + r * b, q * a + s * b, p * c + r * d, q * c + s * d,
                      p * x + r * y + u, q * x + s * y + v)
        return hand

    def _move(self, ring):
        p, q, r, s, u, v = self.place
        return [(p * x + r * y + u, q * x + s * y + v) for x, y in ring]

    def lay(self, ring, ink, *holes, rough=None):
        """Ink an outline given as points; ``holes`` are left out."""
        rings = [self._move(ring)] + [self._move(hole) for hole in holes]
        turned = [one if (area(one) > 0) == (i == 0) else one[::-1] for i, one in enumerate(rings)]
        small = min(1.0, math.sqrt(abs(area(rings[0]))) / 26)
        slip = (self.rough if rough is None else rough) * small
        cut = tuple(tuple(lines.carve(one, self.chance, slip)) for one in turned)
        self.shapes.append(Shape(cut, ink))

    def area(self, text, ink):
        """Ink a smooth outline."""
        self.lay(lines.smooth(text), ink)

    def poly(self, text, ink):
        """Ink a straight-edged outline."""
        self.lay(lines.straight(text), ink)

    def box(self, x, y, wide, high, ink):
        """Ink an upright oblong."""
        self.lay([(x, y), (x + wide, y), (x + wide, y + high), (x, y + high)], ink)

    def disc(self, x, y, rx, ink, ry=None):
        """Ink an oval."""
        self.lay(lines.oval(x, y, rx, ry), ink)

    def ring(self, x, y, rx, wide, ink, ry=None):
        """Ink a band round an oval, ``wide`` inwards from the radius."""
        ry = rx if ry is None else ry
        self.lay(lines.oval(x, y, rx, ry), ink, lines.oval(x, y, rx - wide, ry - wide))

    def line(self, text, width, ink, end=None, sharp=False):
        """Ink a smooth line of the given width, perhaps changing to ``end`` or tapering."""
        self.lay(lines.ribbon(lines.smooth(text, closed=False), width, end, sharp), ink)

    def rod(self, text, width, ink, end=None):
        """Ink a straight-edged line."""
        flat = lines.straight(text)
        for (x1, y1), (x2, y2) in zip(flat, flat[1:]):
            self.lay(lines.ribbon([(x1, y1), (x2, y2)], width, end), ink)

    def cut(self, x1, y1, x2, y2, width, ink):
        """Ink (or, with the paper colour, clear) one push of the gouge."""
        self.lay(lines.gouge(x1, y1, x2, y2, width), ink, rough=0.15)

    def hatch(self, outline, angle, gap, width, ink, loose=0.25):
        """Fill a smooth outline (text) or point list with parallel cuts."""
        ring = lines.smooth(outline) if isinstance(outline, str) else outline
        for x1, y1, x2, y2 in lines.crossings(ring, angle, gap):
            a, b = self.chance.random() * loose, 1 - self.chance.random() * loose
            if math.hypot(x2 - x1, y2 - y1) * (b - a) > width * 1.5:
                self.cut(x1 + (x2 - x1) * a, y1 + (y2 - y1) * a, x1 + (x2 - x1) * b, y1 + (y2 - y1) * b,
                         width * (0.7 + 0.5 * self.chance.random()), ink)

    def specks(self, x, y, wide, high, count, ink, length=7, width=1.4, angle=0):
        """Scatter small cuts over an oblong, as where the ink did not take."""
        for _ in range(count):
            cx, cy = x + self.chance.random() * wide, y + self.chance.random() * high
            turn = math.radians(angle + (self.chance.random() - 0.5) * 24)
            half = length * (0.4 + 0.6 * self.chance.random()) / 2
            dx, dy = math.cos(turn) * half, math.sin(turn) * half
            self.cut(cx - dx, cy - dy, cx + dx, cy + dy, width * (0.6 + 0.6 * self.chance.random()), ink)

    def rays(self, x, y, near, far, count, width, ink, start=0.0, sweep=360.0):
        """Cut rays out from a point between two distances."""
        for i in range(count):
            turn = math.radians(start + sweep * i / (count if sweep >= 360 else max(1, count - 1)))
            long = near + (far - near) * (0.8 + 0.2 * self.chance.random())
            self.cut(x + near * math.cos(turn), y + near * math.sin(turn),
                     x + long * math.cos(turn), y + long * math.sin(turn), width, ink)

    def frame(self, inset, wide, ink):
        """Ink a rule round the sheet."""
        w, h, i, j = self.width, self.height, inset or -4, inset + wide  # at the edge: well over it, no slits
        self.lay([(i, i), (w - i, i), (w - i, h - i), (i, h - i)], ink,
                 [(j, j), (w - j, j), (w - j, h - j), (j, h - j)])


def area(ring):
    """Signed area of an outline; the sign tells which way round it runs."""
    return sum(x1 * y2 - x2 * y1 for (x1, y1), (x2, y2) in zip(ring, ring[1:] + ring[:1])) / 2


def _figure(value):
    text = f"{value:.1f}".removesuffix(".0")
    return "0" if text == "-0" else text


def _path(shape):
    rings = ("L".join(f"{_figure(x)} {_figure(y)}" for x, y in ring) for ring in shape.rings)
    return "".join(f"M{ring}Z" for ring in rings)


def svg(block, title):
    """SVG text of a block: one path per shape, no style sheet, no script, no reference."""
    w, h = block.width, block.height
    head = (f'<svg xmlns="http://www.w3.org/2000/svg" width="{w}" height="{h}" viewBox="0 0 {w} {h}" role="img">\n'
            f"<title>{escape(title)}</title>\n"
            f'<path fill="{block.paper}" d="M0 0H{w}V{h}H0Z"/>\n')
    body, last = [], None
    for shape in block.shapes:  # shapes of one ink that follow each other share a path: smaller files
        if last == shape.ink:
            body[-1] += _path(shape)
        else:
            body.append(f'<path fill="{shape.ink}" d="{_path(shape)}')
        last = shape.ink
    return head + "".join(f'{part}"/>\n' for part in body) + "</svg>\n"
