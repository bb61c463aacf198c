"""Lettering cut as shapes, and a song sheet with its lines left as strokes."""
from .block import Block

BLACK = "#1f1b19"


def stem(hand, x, wide, ink, top=-100, foot=0):
    """An upright stem with slabs at both ends."""
    hand.box(x, top, wide, foot - top, ink)
    for y in (top, foot - 12):
        hand.box(x - 9, y, wide + 18, 12, ink)


def letter_i(hand, ink):
    """I, 46 wide."""
    stem(hand, 9, 28, ink)


def letter_n(hand, ink):
    """N, 106 wide."""
    stem(hand, 9, 18, ink)
    stem(hand, 79, 18, ink)
    hand.poly("9,-100 37,-100 97,0 69,0", ink)


def letter_h(hand, ink):
    """H, 106 wide."""
    stem(hand, 9, 26, ink)
    stem(hand, 71, 26, ink)
    hand.box(30, -57, 46, 12, ink)


def letter_e(hand, ink):
    """E, 84 wide."""
    stem(hand, 9, 28, ink)
    hand.box(9, -100, 68, 11, ink)
    hand.box(9, -11, 70, 11, ink)
    hand.box(30, -57, 30, 11, ink)
    hand.poly("66,-100 78,-100 78,-70 72,-70", ink)
    hand.poly("74,-32 82,-32 82,0 66,0", ink)
    hand.box(56, -66, 7, 29, ink)


def letter_t(hand, ink):
    """T, 92 wide."""
    stem(hand, 32, 28, ink)
    hand.box(4, -100, 84, 11, ink)
    for side in (4, 88):
        hand.poly(f"{side},-100 {side},-66 {side + (6 if side < 9 else -6)},-66 {side + (14 if side < 9 else -14)},-100", ink)


def inline(hand, places, ink):
    """White lines cut down the stems."""
    for x, top, foot in places:
        hand.cut(x, top, x, foot, 4.4, ink)


def word(b, x, y, size, letters, ink, lit):
    """Set drawn letters side by side: ``(letter, width, stems)``, with a cast shadow."""
    for draw, wide, stems in letters:
        draw(b.at(x + 5, y + 5, size), "#d98a4b")
        draw(b.at(x, y, size), ink)
        inline(b.at(x, y, size), stems, lit)
        x += wide * size


def ropewalk():
    """A specimen of a fat slab letter: THE INN, with a rope swash."""
    b = Block(440, 320, "#f3ead6", 19, rough=0.35)
    paper = "#f3ead6"
    i = (letter_i, 56, [(23, -84, -16)])
    n = (letter_n, 116, [(18, -84, -20), (88, -84, -20)])
    h = (letter_h, 116, [(22, -84, -16), (84, -84, -16)])
    e = (letter_e, 92, [(23, -84, -16)])
    t = (letter_t, 100, [(46, -84, -16)])
    word(b, 100, 112, 0.8, [t, h, e], BLACK, paper)
    word(b, 66, 256, 1.12, [i, n, n], BLACK, paper)
    for y in (128, 284):
        b.line(f"40,{y} 100,{y + 8} 160,{y - 4} 220,{y + 6} 280,{y - 4} 340,{y + 8} 400,{y}", 7, "#8a3f2c", 7)
        for k in range(30):
            b.cut(44 + k * 12, y + 4, 49 + k * 12, y - 3, 2, paper)
    b.frame(12, 3, BLACK)
    b.frame(18, 1.4, "#8a3f2c")
    return b


def concertina(hand, key, fill, gold):
    """A concertina opened a little, 150 wide."""
    for side in (-1, 1):
        hand.poly(f"{side * 40},-40 {side * 66},-34 {side * 78},0 {side * 66},34 {side * 40},40", key)
        hand.poly(f"{side * 44},-34 {side * 63},-29 {side * 73},0 {side * 63},29 {side * 44},34", fill)
        for x, y in ((52, -16), (60, -4), (52, 10), (62, 14)):
            hand.disc(side * x, y, 3.4, gold)
    for i in range(8):
        x = -40 + i * 10
        hand.poly(f"{x},-40 {x + 5},-46 {x + 10},-40 {x + 10},40 {x + 5},46 {x},40", key if i % 2 else gold)
        hand.rod(f"{x + 5},-44 {x + 5},44", 1.6, key)


def song_sheet():
    """A penny song sheet: a concertina over four lines of verse shown as strokes."""
    ink, red = "#26211d", "#a4402e"
    b = Block(320, 360, "#eee2c3", 24)
    concertina(b.at(160, 84, 1.0), ink, red, "#e3c174")
    for x, y, up in ((52, 92, 1), (268, 84, 1), (60, 58, 0), (262, 50, 0)):
        b.at(x, y, turn=-20).disc(0, 0, 7, ink, 5)
        b.rod(f"{x + 6},{y - 2} {x + 6},{y - 30}", 2.2, ink)
        b.line(f"{x + 6},{y - 30} {x + 14},{y - 22} {x + 12},{y - 12}", 3.4, ink, 1)
    b.line("40,150 100,144 160,150 220,144 280,150", 2.4, red, 2.4)
    for verse, top in enumerate((172, 250)):
        for row in range(4):
            x, y = 60 + (row % 2) * 16, top + row * 16
            while x < 246 - (row % 2) * 10:
                long = 10 + 22 * b.chance.random()
                b.line(f"{x:.1f},{y} {x + long * 0.3:.1f},{y - 2.4} {x + long * 0.6:.1f},{y + 1.6} {x + long:.1f},{y - 1}", 4, ink, 3)
                x += long + 6
        if not verse:
            b.rays(160, 238, 2, 7, 8, 3, red)
    b.frame(14, 3, ink)
    b.frame(20, 1.2, ink)
    for x, y in ((14, 14), (306, 14), (14, 346), (306, 346)):
        b.rays(x, y, 2, 12, 10, 4, red)
    b.disc(276, 318, 12, "#dccb9c", 10)
    return b
