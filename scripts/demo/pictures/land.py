"""Pictures of houses, carving and a fair."""
import math

from .block import Block

BLACK = "#1c1917"


def gable_row(b, walls):
    """Six houses and their reflections."""
    for i, (x, wide, high) in enumerate(((26, 58, 124), (84, 50, 100), (134, 66, 140), (200, 50, 108), (250, 60, 128), (310, 62, 98))):
        for mirror in (False, True):
            h = b.at(x, 198, tall=-0.52 if mirror else 1)
            steps = [(0, 0)] + [p for k in range(5) for p in (
                (k * wide * 0.09, -high * (0.62 + k * 0.076)), ((k + 1) * wide * 0.09, -high * (0.62 + k * 0.076)))]
            right = [(wide - px, py) for px, py in steps[::-1]]
            h.lay(steps + right, BLACK if not mirror else "#22404f")
            inner = [(2.5 + px * (wide - 5) / wide, py + 3 if py else 0) for px, py in steps + right]
            h.lay(inner, walls[i] if not mirror else ("#56545c", "#6b6660", "#46525f", "#6c6f62", "#524c55", "#3f5d6e")[i])
            for row in range(3):
                for k in range(2 if wide < 60 else 3):
                    step = (wide - 16) / (2 if wide < 60 else 3)
                    h.box(10 + k * step, -high * 0.56 + row * high * 0.19, step - 6, high * 0.11, "#f4d98c" if (i + row + k) % 3 else BLACK)
            h.box(wide / 2 - 4, -high * 0.78, 8, 10, "#f4d98c")


def gables():
    """Stepped gables at a harbour, twice: once upright, once in the water."""
    b = Block(400, 300, "#efe3cb", 30)
    b.box(10, 10, 380, 190, "#e3a96a")
    b.disc(312, 66, 28, "#f7dfa2")
    b.box(10, 198, 380, 92, "#34596b")
    walls = ("#8f3b2b", "#c06a3d", "#5c4a52", "#b8873f", "#7a2f2c", "#40566b")
    gable_row(b, walls)
    for i in range(60):
        y = 206 + (i * 29) % 80
        x = 14 + (i * 67) % 340
        b.cut(x, y, x + 16 + (i * 7) % 26, y, 2.6, ("#efe3cb", "#34596b", "#34596b")[i % 3])
    b.rod("10,199 390,199", 6, BLACK)
    b.frame(0, 11, "#efe3cb")
    b.frame(10, 2.5, BLACK)
    return b


def mill(b, blue, deep, pale):
    """The mill with its barn and sails."""
    b.area("140,214! 148,150 152,128! 188,128! 192,150 200,214!", deep)
    b.hatch("144,210! 152,150 156,132! 172,132! 168,210!", 92, 7, 2.4, pale, 0.2)
    b.area("146,130! 154,112 170,104 186,112 194,130!", deep)
    b.poly("124,176 216,176 220,184 120,184", deep)
    b.area("160,214! 160,196 170,190 180,196 180,214!", pale)
    b.area("86,214! 86,194! 104,178 122,194! 122,214!", blue)
    b.box(98, 198, 10, 16, pale)
    for turn in (22, 112, 202, 292):
        sail = b.at(170, 122, turn=turn)
        sail.rod("0,0 0,-86", 4, deep)
        sail.poly("3,-20 24,-20 24,-84 3,-84", deep)
        for k in range(6):
            sail.box(5, -80 + k * 10.2, 17, 7, pale if k % 2 else "#9db9dc")
    b.disc(170, 122, 6, pale)


def tile_corners(b, blue, deep):
    """A quarter flower in every corner."""
    for turn in range(4):
        corner = b.at(170, 170, turn=turn * 90).at(-150, -150)
        corner.ring(0, 0, 44, 6, blue)
        for i in range(4):
            corner.at(turn=i * 30).area("14,-5! 34,-8 38,0 34,8 14,5!", deep if i % 2 else blue)
        corner.disc(8, 8, 9, deep)


def mill_tile():
    """A windmill on a blue tile: a cocoa maker's giveaway print."""
    blue, pale, deep = "#2c5a9a", "#f3f2ea", "#1c3a6b"
    b = Block(340, 340, pale, 32, rough=0.5)
    b.frame(8, 3, blue)
    tile_corners(b, blue, deep)
    b.frame(0, 8, pale)
    b.ring(170, 170, 132, 3, blue)
    b.ring(170, 170, 125, 1.6, blue)
    b.area("50,216! 110,206 170,212 230,204 290,216! 262,258 220,286 170,295 120,286 78,258", "#9db9dc")
    for i in range(9):
        b.cut(76 + i * 8, 232 + i * 7, 264 - i * 8, 231 + i * 7, 3, blue)
    mill(b, blue, deep, pale)
    for x, y in ((96, 96), (246, 110), (232, 88)):
        b.line(f"{x - 10},{y - 2} {x - 4},{y - 6} {x},{y} {x + 4},{y - 6} {x + 10},{y - 2}", 2.2, blue)
    for x in (226, 244, 262):
        b.area(f"{x},{214}! {x - 8},{196} {x},{176} {x + 8},{196}", blue)
    return b


def canvas(b, ink, red):
    """The striped canvas, its ropes and its door."""
    for i in range(10):
        left, right = 40 + i * 28, 68 + i * 28
        near, far = 180 + (left - 180) * 0.16, 180 + (right - 180) * 0.16
        b.poly(f"{near},70 {far},70 {right},150 {left},150", red if i % 2 else "#f6ecd2")
        b.poly(f"{left + 4},150 {right + 4 - 8 * (i == 9)},150 {right},268 {left},268", red if i % 2 else "#f6ecd2")
        b.area(f"{left},148! {right},148! {right},162! {(left + right) / 2},174 {left},162!", "#f6ecd2" if i % 2 else red)
    b.line("158,70 110,112 38,150", 4, ink)
    b.line("202,70 250,112 322,150", 4, ink)
    b.line("40,152 42,210 40,268", 4, ink)
    b.line("320,152 318,210 320,268", 4, ink)
    b.rod("30,269 330,269", 5, ink)
    b.area("150,268! 152,196 180,170 208,196 210,268!", ink)
    b.area("160,268! 164,206 180,192! 176,230 172,268!", "#7c5a3c")


def sheaves(b, ink, red):
    """A small sheaf at either side."""
    for x in (66, 294):
        for i in (-1, 0, 1):
            sheaf = b.at(x, 296, turn=i * 22)
            sheaf.line("0,8 2,-20 0,-44", 4, ink)
            sheaf.area("0,-60 7,-48 0,-34 -7,-48", "#c38a2c")
            sheaf.area("6,-44 12,-36 4,-26 0,-36", "#c38a2c")
            sheaf.area("-6,-44 -12,-36 -4,-26 0,-36", "#c38a2c")
        b.poly(f"{x - 14},292 {x + 14},292 {x + 12},300 {x - 12},300", red)


def fair_tent():
    """A striped marquee for the wheatsheaf fair: a wood-type bill without its type."""
    red, ink = "#b23327", "#27211e"
    b = Block(360, 320, "#ecdcb6", 28, rough=0.8)
    for i in range(5):
        b.box(0, 264 + i * 12, 360, 5 + i, "#d3bd8c")
    canvas(b, ink, red)
    for x, y, size in ((180, 70, 0.82), (42, 148, 0.62), (318, 148, 0.62)):
        flag = b.at(x, y, size)
        flag.rod("0,0 0,-48", 4, ink)
        flag.area("1,-48! 20,-50 34,-42 52,-44! 44,-34 50,-26! 30,-28 18,-32 1,-28!", red)
    sheaves(b, ink, red)
    for x in range(28, 350, 16):
        b.at(x, 15, turn=45).box(-4.5, -4.5, 9, 9, red if x % 32 == 28 else ink)
        b.at(x, 308, turn=45).box(-3, -3, 6, 6, ink)
    b.specks(10, 10, 340, 300, 150, "#ecdcb6", 6, 1.4)
    return b


def petals(b, pencil):
    """Two rounds of petals, four of them shaded."""
    for ringed, (near, far, half, count) in enumerate(((60, 124, 28, 8), (30, 94, 22, 8))):
        for i in range(count):
            petal = b.at(180, 160, turn=i * 360 / count + ringed * 22.5)
            outline = f"0,{-near}! {-half},{-(near + far) / 2 - 6} {-half * 0.55},{-far + 6} 0,{-far + 4}! {half * 0.55},{-far + 6} {half},{-(near + far) / 2 - 6}"
            petal.area(outline, pencil)
            petal.at(0, -(near + far) / 2, 0.9).at(0, (near + far) / 2).area(outline, "#f2ebda")
            if 0 < i <= 4:
                petal.hatch(f"0,{-near - 6}! {half * 0.8},{-(near + far) / 2 - 4} {half * 0.4},{-far + 10} 0,{-far + 10}!", 50, 4.6, 1.4, pencil, 0.2)
            petal.rod(f"0,{-near - 6} 0,{-far + 12}", 1.4, pencil)


def stern_rose():
    """A ship carver's sheet: half the rose in pencil lines, half shaded, never published."""
    pencil, faint = "#4c4a48", "#b9b2a2"
    b = Block(360, 320, "#ebe3cf", 3, rough=0.3)
    b.poly("14,10 346,16 350,306 10,312", "#f2ebda")
    for r in (124, 96, 62, 30):
        b.ring(180, 160, r, 1.2, faint)
    for i in range(12):
        t = math.radians(i * 30)
        b.rod(f"{180 - 136 * math.cos(t):.1f},{160 - 136 * math.sin(t):.1f} {180 + 136 * math.cos(t):.1f},{160 + 136 * math.sin(t):.1f}", 0.9, faint)
    petals(b, pencil)
    b.disc(180, 160, 30, pencil)
    b.disc(180, 160, 27, "#f2ebda")
    for i in range(12):
        b.at(180, 160, turn=i * 30).disc(0, -19, 5, pencil)
        b.at(180, 160, turn=i * 30).disc(0, -19, 3.4, "#f2ebda")
    b.disc(180, 160, 8, pencil)
    b.rod("56,296 304,296", 1.4, pencil)
    for x in (56, 180, 304):
        b.rod(f"{x},290 {x},302", 1.4, pencil)
    b.disc(306, 52, 20, "#e0d2b0", 17)
    b.ring(306, 52, 20, 1.6, "#cdbb92", 17)
    return b


def ram_horns(hand, gold, key, light):
    """Horns and ears."""
    for side in (1, -1):
        horn = hand.at(0, 0, flip=side < 0)
        horn.line("18,-62 62,-92 104,-64 112,-14 88,24 56,20 50,-8 72,-22", 40, key, 12)
        horn.line("18,-62 62,-92 104,-64 112,-14 88,24 56,20 50,-8 70,-20", 31, gold, 6)
        for x1, y1, x2, y2 in ((40, -98, 46, -66), (68, -106, 66, -72), (96, -94, 84, -62), (118, -62, 96, -44), (128, -20, 100, -18), (112, 22, 94, 2), (76, 38, 74, 14)):
            horn.cut(x1, y1, x2, y2, 5, key)
        horn.area("34,-26! 66,-20 76,-2! 56,4 34,-8!", key)
        horn.area("38,-22! 60,-16 67,-4! 54,-1 38,-10!", light)


def ram(hand, key, mid, light, gold):
    """A carved ram's head seen from the front on its scroll, middle at (0, 0)."""
    hand.area("-40,150! -58,100 -50,60! 50,60! 58,100 40,150! 0,166", key)
    hand.area("-34,144! -50,100 -44,64! 44,64! 50,100 34,144! 0,158", mid)
    hand.line("-28,76 -34,104 -20,124 0,112 20,124 34,104 28,76", 6, key, 6)
    hand.disc(0, 128, 14, key)
    hand.disc(0, 128, 9, gold)
    ram_horns(hand, gold, key, light)
    hand.area("-38,-50! -30,-72 0,-82 30,-72 38,-50! 38,-14 28,30 20,64 0,78 -20,64 -28,30 -38,-14!", key)
    hand.area("-32,-48! -26,-66 0,-75 26,-66 32,-48! 32,-14 23,30 16,60 0,71 -16,60 -23,30 -32,-14!", light)
    hand.area("8,-72! 26,-66 32,-48! 32,-14 23,30 16,60 4,70! 10,20", mid)
    for side in (1, -1):
        hand.area(f"{side * 10},-26! {side * 20},-36 {side * 30},-30! {side * 24},-18 {side * 14},-18", key)
        hand.disc(side * 20, -27, 3.6, light)
        hand.area(f"{side * 4},56! {side * 12},46 {side * 16},54! {side * 10},60", key)
    hand.line("0,52 0,62 -8,66", 2.6, key)
    hand.line("0,62 8,66", 2.6, key)
    for x, y in ((-18, -62), (-6, -68), (6, -68), (18, -62), (-12, -54), (0, -58), (12, -54)):
        hand.ring(x, y, 8, 2.6, key)


def ram_figurehead():
    """The carved ram as a measured drawing in brown and gold."""
    b = Block(340, 340, "#efe6d3", 70, rough=0.4)
    b.box(14, 14, 312, 312, "#5f7f86")
    b.rays(170, 160, 70, 230, 48, 8, "#73929a")
    ram(b.at(170, 156, 0.98), "#33221a", "#9a6a3f", "#d3a468", "#e3bd57")
    b.frame(0, 14, "#efe6d3")
    b.frame(13, 3, "#33221a")
    return b
