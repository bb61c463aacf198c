"""The pelican who mends nets: one figure in the five versions the demo works follow."""
from .block import Block

BLACK, CREAM = "#1d1a17", "#f1e6cd"


def net(hand, ink, width=1.6):
    """A net hung out to dry, in lozenges with a rope along the top."""
    for i in range(9):
        hand.line(f"{i * 20 - 20},0 {i * 20 + 14},34 {i * 20 + 36},74 {i * 20 + 52},118", width, ink)
        hand.line(f"{i * 20 + 20},0 {i * 20 - 6},34 {i * 20 - 26},74 {i * 20 - 44},118", width, ink)
    hand.line("-34,6 20,-2 90,-4 180,4", 5, ink)
    for i in range(7):
        hand.disc(i * 32 - 16, -1 if 0 < i < 6 else 3, 6, ink, 4.5)


def bill(hand, key, bill_ink, paper):
    """The bill with its pouch, and the head."""
    hand.area("142,44! 104,70 44,106! 40,114 50,118! 74,134 112,136 140,114 150,86!", key)
    hand.area("58,112! 84,124 112,126 134,108 142,86 110,96!", bill_ink)
    hand.area("134,56 100,78 60,102! 104,88 138,74!", bill_ink)
    for i in range(5):
        hand.line(f"{84 + i * 11},{116 - i * 3} {92 + i * 10},{122 - i * 3} {104 + i * 8},{121 - i * 4}", 2, key, 1)
    hand.disc(158, 56, 27, key)
    hand.area("136,58 140,40 158,33 176,42 180,60 170,76 152,80 138,72", paper)
    hand.disc(151, 54, 7.5, key)
    hand.disc(151, 54, 4.6, paper)
    hand.disc(149.5, 54.5, 2.8, key)
    for turn, long in ((0, 22), (1, 26), (2, 20)):
        hand.cut(174 - turn * 5, 42 - turn * 4, 174 + long - turn * 6, 36 - turn * 12, 6, key)


def body(hand, key, paper):
    """Neck, body, tail and feet."""
    hand.area("178,44 190,62 190,86 196,102 228,116 254,146 262,186 286,220! 254,222 226,236 190,238 162,222 "
              "148,190 150,158 162,130 156,104 144,84 146,60", key)
    hand.area("174,58 183,70 183,90 190,108 222,122 246,150 254,188 270,214! 246,214 220,228 190,231 168,216 "
              "156,188 158,160 170,130 164,104 152,84 152,66", paper)
    for x in (192, 222):
        hand.line(f"{x},232 {x - 2},250", 7, key)
        hand.area(f"{x - 2},244! {x - 24},258! {x - 14},260 {x - 4},257 {x + 6},261 {x + 10},256!", key)


def waistcoat(hand, key, cloth, patch):
    """The waistcoat with its square patch, crossed by stitches."""
    hand.area("164,128! 178,134 196,112! 214,122 214,160 212,196 206,228! 186,230 166,214 154,186 157,156", key)
    hand.area("166,136! 180,142 196,121! 207,127 207,160 205,194 200,222! 186,224 171,210 160,186 162,158", cloth)
    hand.line("180,141 184,170 188,222", 2.4, key)
    for y in (160, 182, 204):
        hand.disc(175, y, 3.2, key)
    hand.at(195, 196, turn=8).box(-10, -12, 20, 22, key)
    hand.at(195, 196, turn=8).box(-7.5, -9.5, 15, 17, patch)
    for i in range(4):
        hand.at(195, 196, turn=8).cut(-12 + i * 7, -14, -10 + i * 7, -8, 2, key)


def wing(hand, key, fill, paper):
    """The near wing, with the netting needle held in its tip."""
    hand.area("208,124 232,130 250,156 252,190 242,206! 230,196 216,190 196,178 168,170 140,168! 150,158 176,152 198,146", key)
    hand.area("210,132 229,137 243,158 245,184 240,192! 228,186 214,180 198,171 172,163! 190,158 206,150", fill)
    for i in range(5):
        hand.line(f"{214 + i * 6},{146 + i * 2} {222 + i * 5},{164 + i * 2} {226 + i * 4},{178 + i * 3}", 2.6, key, 1)
    hand.at(132, 172, turn=-24).area("-40,0! -24,-7 20,-7 34,-3! 34,3! 20,7 -24,7", key)
    hand.at(132, 172, turn=-24).area("-30,0! -20,-3 -2,-3 -2,3 -20,3", paper)
    hand.line("98,186 84,200 88,222 70,236", 2, key)


def figure(hand, key=BLACK, paper=CREAM, bill_ink=CREAM, cloth=CREAM, patch=CREAM, fill=CREAM):
    """The whole bird, looking left, about 250 by 230 units."""
    body(hand, key, paper)
    waistcoat(hand, key, cloth, patch)
    wing(hand, key, fill, paper)
    bill(hand, key, bill_ink, paper)


def lantern(hand, key, glow):
    """A storm lantern hung by its bow."""
    hand.ring(0, 8, 15, 3, key, 17)
    hand.poly("-9,18 9,18 14,28 -14,28", key)
    hand.area("-14,28! -18,44 -14,60! 14,60! 18,44 14,28!", key)
    hand.area("-10,31! -13,44 -10,57! 10,57! 13,44 10,31!", glow)
    hand.area("0,36! 5,46 0,55 -5,46", key)
    hand.box(-17, 60, 34, 8, key)
    hand.line("-17,30 -22,45 -17,62", 2.4, key)
    hand.line("17,30 22,45 17,62", 2.4, key)


def plumb_1928():
    """Newspaper advertisement: black line and a grey-red tint."""
    b = Block(400, 300, "#efe4c9", 28)
    net(b.at(66, 52, 1.05), "#8d8474")
    b.poly("0,262 400,258 400,300 0,300", "#c9b894")
    b.hatch([(0, 262), (400, 258), (400, 300), (0, 300)], 0, 7, 1.8, BLACK, 0.6)
    figure(b.at(76, 12), paper="#efe4c9", bill_ink="#d9a75c", cloth="#b9553b", patch="#efe4c9", fill="#d8cfb8")
    b.frame(8, 3, BLACK)
    b.frame(14, 1.2, BLACK)
    return b


def plumb_1930():
    """The night scene with the lantern."""
    night, glow = "#26364a", "#f2c25b"
    b = Block(400, 300, "#f0e3c4", 30)
    b.box(10, 10, 380, 280, night)
    b.disc(112, 104, 90, "#3d5470")
    b.disc(112, 104, 60, "#6d7f86")
    b.rays(112, 104, 34, 88, 26, 4, glow)
    net(b.at(64, 176, 0.7), "#0f1722", 2)
    b.poly("10,262 390,258 390,290 10,290", "#0f1722")
    figure(b.at(98, 14), "#0f1722", "#f0e3c4", "#e2a94d", "#a9472f", "#f0e3c4", "#cfc6ae")
    b.line("112,10 110,36 112,50", 3, "#0f1722")
    lantern(b.at(112, 48, 1.25), "#0f1722", glow)
    b.specks(200, 16, 180, 60, 26, "#f0e3c4", 5, 2.2)
    return b


def plumb_1931():
    """The figure with its spotted neckerchief, on a calendar leaf."""
    b = Block(400, 300, "#f3ead2", 31)
    b.disc(214, 138, 128, "#8fb1a8")
    b.disc(214, 138, 118, "#f3ead2")
    b.disc(214, 138, 112, "#b7cdc0")
    net(b.at(118, 60, 0.9), "#7c9a90")
    b.poly("0,262 400,258 400,300 0,300", "#54756c")
    figure(b.at(76, 12), paper="#f3ead2", bill_ink="#e5ad4e", cloth="#54756c", patch="#e5ad4e", fill="#d9d3bd")
    scarf = b.at(76, 12)
    scarf.area("154,100! 172,110 192,104! 204,112 204,122! 184,128 160,122!", BLACK)
    scarf.area("157,104! 172,114 191,108! 200,114 199,119! 184,124 163,119!", "#c33d2e")
    scarf.area("196,112! 216,104 232,112! 224,118 230,130! 212,126", BLACK)
    scarf.area("200,113! 216,108 226,112! 219,118 223,125! 212,121", "#c33d2e")
    for x, y in ((166, 112), (176, 119), (186, 115), (195, 115), (213, 114), (219, 120)):
        scarf.disc(x, y, 2.2, "#f3ead2")
    b.frame(0, 8, "#f3ead2")
    b.frame(7, 4, "#54756c")
    return b


def plumb_1936():
    """The colour page: oilskin hat and coat in a squall."""
    sea, oil = "#2f6f8f", "#f0b62e"
    b = Block(400, 300, "#f5ecd6", 36)
    b.box(0, 0, 400, 300, "#a8cbd0")
    for i in range(5):
        y = 170 + i * 28
        b.area(f"-10,{y} 40,{y - 14} 90,{y + 2} 140,{y - 12} 200,{y + 4} 260,{y - 12} 320,{y + 2} 410,{y - 10} 410,320! -10,320!",
               (sea, "#3f86a3", "#245a78", "#2f6f8f", "#1c4a64")[i])
    b.specks(0, 0, 400, 170, 80, "#f5ecd6", 22, 2.2, 62)
    for x in (150, 232, 314):
        b.box(x, 262, 16, 40, BLACK)
    b.poly("116,256 376,254 376,270 116,272", BLACK)
    b.poly("119,259 373,257 373,264 119,266", "#b98a56")
    bird = b.at(76, 0)
    figure(bird, paper="#f5ecd6", bill_ink="#e98f3c", cloth=oil, patch="#c9342b", fill=oil)
    bird.area("126,44! 112,58 96,62! 140,46 180,48 214,78! 214,62 196,40! 190,14 158,6 138,18", BLACK)
    bird.area("136,38! 144,20 160,12 184,20 190,38!", oil)
    bird.area("124,52! 142,42 182,44 206,66! 192,46 140,44", oil)
    bird.line("138,37 160,33 190,38", 5, "#c9342b")
    b.frame(0, 9, "#f5ecd6")
    return b


def plumb_ours():
    """The shop's own relief on a hanging board, looking the other way."""
    wood, dark, light = "#b07a45", "#4a2d19", "#e6c48f"
    b = Block(360, 360, "#e9e4d6", 26)
    b.rod("20,30 340,30", 9, "#2b2b2c")
    b.line("28,84 40,52 74,34", 6, "#2b2b2c")
    b.box(14, 10, 14, 96, "#2b2b2c")
    for x in (104, 256):
        b.ring(x, 44, 9, 4, "#2b2b2c", 14)
    b.area("58,62! 120,50 180,64 240,50 302,62! 316,160 300,290! 240,330 180,346 120,330 60,290! 44,160", dark)
    b.area("68,72! 122,62 180,76 238,62 292,72! 304,160 290,282! 236,320 180,334 124,320 70,282! 56,160", wood)
    b.hatch("74,82! 122,72 180,84 238,72 286,82! 296,160 282,276! 236,310 180,324 124,310 78,276! 66,160", 88, 13, 2, "#9a6636", 0.5)
    figure(b.at(345, 92, 0.87, flip=True), dark, light, "#d99b4e", "#8e3f2a", light, "#caa068")
    return b
