"""Pictures of the harbour: lights, boats, nets, anchors."""
from .block import Block

BLACK = "#1b1a19"


def waves(b, y, rows, inks, deep=26, high=7):
    """Rows of waves over the whole width from height ``y`` down."""
    for row in range(rows):
        top, shift = y + row * deep, (row % 2) * 24 - 24
        crest = " ".join(f"{x + shift},{top + (high if (x // 24) % 2 else -high)}" for x in range(-24, b.width + 72, 24))
        b.area(f"{crest} {b.width + 60},{b.height + 20}! -60,{b.height + 20}!", inks[row % len(inks)])


def gull(hand, ink, wide=2.6):
    """A far-off gull."""
    hand.line("-13,-2 -7,-7 0,0", wide, ink, 1.2)
    hand.line("0,0 7,-7 13,-2", 1.4, ink, wide)


def tower(hand, key, body, band, glow):
    """A banded lighthouse on a rock, foot at (0, 0), 170 high."""
    hand.poly("-26,0 -17,-118 17,-118 26,0", key)
    hand.poly("-22,-3 -14,-116 14,-116 22,-3", body)
    for low, high in ((0, 28), (56, 84)):
        left, right = 22 - low * 0.075, 22 - high * 0.075
        hand.poly(f"{-left},{-low - 3} {-right},{-high - 3} {right},{-high - 3} {left},{-low - 3}", band)
    hand.box(-23, -124, 46, 8, key)
    hand.box(-13, -148, 26, 25, key)
    hand.box(-9, -145, 18, 20, glow)
    hand.box(-1.5, -146, 3, 22, key)
    hand.area("-18,-147! -10,-160 0,-168 10,-160 18,-147!", key)
    hand.rod("0,-164 0,-178", 3, key)
    hand.area("-6,0! -6,-16 0,-21 6,-16 6,0!", key)
    for y in (-44, -98):
        hand.box(-4, y - 8, 8, 12, key)


def lighthouse_1963():
    """Almanac head: a stubby light by day, red, blue and black."""
    b = Block(360, 270, "#f4eedd", 63)
    b.disc(262, 84, 44, "#e0b13f")
    b.rays(262, 84, 50, 78, 28, 5, "#e0b13f")
    b.area("0,150 50,138 110,146 150,132 196,146 250,172 300,186 360,190! 360,215! 0,215!", "#6f9aa8")
    waves(b, 190, 4, ("#2e6a86", "#3f7f98", "#22566f"), 22, 6)
    b.area("70,232! 84,196 110,186 134,178 172,180 200,190 226,204 250,236!", BLACK)
    b.hatch("84,226! 98,202 120,192 150,186 196,196 232,228!", 76, 9, 2.4, "#f4eedd", 0.5)
    tower(b.at(150, 186, 1.0), BLACK, "#f4eedd", "#c23b2c", "#e0b13f")
    for x, y, size in ((60, 60, 1), (92, 88, 0.8), (212, 44, 0.7)):
        gull(b.at(x, y, size), BLACK)
    b.frame(0, 10, "#f4eedd")
    b.frame(9, 2.5, BLACK)
    return b


def lighthouse_1964():
    """The next year's almanac: the same coast by night, cut in white lines."""
    b = Block(360, 270, "#f2ecd9", 64)
    b.box(9, 9, 342, 252, "#16202b")
    for spread in range(9):
        b.cut(112, 64, 350, 20 + spread * 15, 5, "#f0cf6a")
        b.cut(96, 64, 10, 40 + spread * 7, 4, "#f0cf6a")
    b.specks(14, 14, 330, 90, 34, "#f2ecd9", 4, 2.4)
    b.area("9,190 60,180 90,186! 130,204 160,226 150,262! 9,262!", "#3a4a52")
    b.hatch([(10, 196), (84, 190), (140, 222), (140, 258), (10, 258)], 68, 8, 2, "#f2ecd9", 0.6)
    for row in range(8):
        y = 200 + row * 8
        for i in range(9):
            b.cut(150 + i * 24 + row % 2 * 12, y, 166 + i * 24 + row % 2 * 12, y + 1, 2.4, "#7fa0a8")
    slim = b.at(104, 200, 0.8, tall=1.15)
    tower(slim, "#f2ecd9", "#16202b", "#f2ecd9", "#f0cf6a")
    hull = b.at(272, 206)
    hull.area("-44,0! -36,18 36,18! 48,-2! 20,2 -20,3", "#f2ecd9")
    hull.rod("0,4 0,-58", 3, "#f2ecd9")
    hull.poly("-4,-54 -32,-8 -4,-4", "#7fa0a8")
    hull.poly("4,-54 30,-6 4,-4", "#f2ecd9")
    b.frame(0, 9, "#f2ecd9")
    b.frame(8, 2.5, "#16202b")
    return b


def anchor(hand, ink, white, wide=1.0):
    """An anchor with stock, ring and flukes, 200 high, middle of the ring at (0, 0)."""
    hand.ring(0, 0, 16, 6 * wide, ink)
    hand.box(-5 * wide, 14, 10 * wide, 160, ink)
    hand.poly(f"-58,34 58,34 58,{34 + 11 * wide} -58,{34 + 11 * wide}", ink)
    for side in (1, -1):
        hand.disc(58 * side, 34 + 5.5 * wide, 9, ink)
        hand.area(f"0,{176 + 8 * wide}! {34 * side},168 {62 * side},138 {70 * side},112! {76 * side},136 {54 * side},172 0,{190 + 8 * wide}!", ink)
        hand.poly(f"{80 * side},92 {88 * side},136 {50 * side},124", ink)
        hand.cut(30 * side, 176, 64 * side, 148, 2.4, white)
    hand.cut(-1, 40, -1, 168, 2.6, white)
    hand.cut(-46, 40, -10, 40, 2.2, white)
    hand.cut(14, 40, 48, 40, 2.2, white)


def cable(b, inset, ink, white):
    """A rope laid round the sheet."""
    b.frame(inset, 13, ink)
    w, h, m = b.width, b.height, inset
    for i in range(int((w - 2 * m) / 12)):
        for y in (m + 1, h - m - 12):
            b.cut(m + i * 12 + 2, y + 10, m + i * 12 + 11, y + 1, 2.6, white)
    for i in range(int((h - 2 * m - 24) / 12)):
        for x in (m + 1, w - m - 12):
            b.cut(x + 1, m + 22 + i * 12, x + 10, m + 13 + i * 12, 2.6, white)


def anchor_chapbook():
    """A worn woodblock from a chapbook: one ink, uneven."""
    b = Block(320, 360, "#ead9b5", 11, rough=1.0)
    cable(b, 14, "#2a211a", "#ead9b5")
    anchor(b.at(160, 76, 1.05), "#2a211a", "#ead9b5", 1.4)
    b.line("160,60 196,52 214,92 186,122 120,140 104,182 150,206 206,214 222,262 190,300", 8, "#2a211a", 5)
    for x, y in ((64, 250), (82, 66), (252, 62), (258, 232)):
        b.rays(x, y, 3, 13, 8, 4, "#2a211a")
    b.specks(14, 14, 292, 332, 300, "#ead9b5", 6, 1.6)
    b.specks(14, 14, 292, 332, 60, "#c9b084", 10, 2)
    return b


def anchor_tracing():
    """The same block traced with a blue pencil on tracing paper."""
    b = Block(320, 360, "#eef0ec", 12, rough=0.3)
    b.poly("26,20 300,12 306,344 18,350", "#f8f9f5")
    blue, pale = "#3d5f9c", "#f8f9f5"
    hand = b.at(160, 76, 1.05)
    anchor(hand, blue, blue, 1.4)
    hand.box(-5, 16, 10, 158, pale)
    hand.poly("-55,37 55,37 55,46 -55,46", pale)
    for side in (1, -1):
        hand.disc(58 * side, 41, 7, pale)
        hand.area(f"0,190! {36 * side},178 {62 * side},148 {69 * side},124! {73 * side},138 {52 * side},174 0,198!", pale)
        hand.poly(f"{78 * side},98 {85 * side},132 {55 * side},123", pale)
    b.line("160,60 196,52 214,92 186,122 120,140 104,182 150,206 206,214 222,262 190,300", 1.6, blue)
    b.line("166,64 190,60 206,92 180,116 112,134 98,184 148,212 198,220 214,262 184,298", 1.6, blue)
    for x, y in ((30, 22), (292, 20)):
        b.at(x, y, turn=-38 if x < 99 else 38).box(-24, -8, 48, 16, "#d9cfa6")
    return b


def bollard_gull():
    """A gull on a bollard, signed only with a nickname: two inks."""
    b = Block(360, 270, "#efe8d6", 27)
    b.box(12, 12, 336, 246, "#b9c8c4")
    waves(b, 176, 2, ("#7d9a98", "#668884"), 26, 5)
    b.poly("12,218 348,212 348,258 12,258", BLACK)
    b.hatch([(14, 222), (346, 216), (346, 256), (14, 256)], 2, 8, 2, "#efe8d6", 0.6)
    b.area("134,226! 140,190 132,176 136,166! 216,166! 220,176 212,190 218,226!", BLACK)
    b.hatch("146,220! 150,190 148,180! 170,180! 168,220!", 90, 7, 2, "#efe8d6", 0.4)
    bird = b.at(176, 62)
    bird.area("-60,-4! -36,-12 -28,-30 -8,-36 10,-24 18,-2 46,14 84,46 132,66! 96,72 60,86 20,90 -8,74 -20,48 -18,20 -28,4 -40,2!", BLACK)
    bird.area("-34,-9 -24,-25 -8,-31 6,-21 13,0 42,19 60,40 38,62 16,84 -4,70 -15,46 -13,18 -24,0", "#f7f3e8")
    bird.area("16,12 44,22 80,48 118,64! 84,64 48,58 24,40", "#8c9a99")
    bird.area("-60,-4! -38,-9 -34,-3! -44,1", "#d99a35")
    bird.disc(-14, -18, 3.4, BLACK)
    for i in range(4):
        bird.line(f"{36 + i * 12},{30 + i * 7} {54 + i * 12},{44 + i * 5} {74 + i * 11},{53 + i * 4}", 2.2, BLACK, 1)
    for x in (8, 24):
        bird.rod(f"{x},86 {x - 2},106", 4, "#d99a35")
    b.frame(0, 12, "#efe8d6")
    b.frame(11, 3, BLACK)
    return b
