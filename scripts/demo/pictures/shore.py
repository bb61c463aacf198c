"""Pictures from the shore: ferry, loft, boat carried down, chart, bell."""
import math

from .block import Block
from .harbour import gull

BLACK = "#1e1b18"


def deck_house(b, ink, lit):
    """The engine house and its smoke."""
    house = b.at(126, 168)
    house.poly("-28,0 -28,-62 28,-62 28,0", ink)
    house.poly("-24,-3 -24,-58 24,-58 24,-3", lit)
    house.hatch([(-24, -3), (-24, -30), (24, -30), (24, -3)], 90, 6, 1.6, ink, 0.2)
    house.box(-16, -52, 12, 16, ink)
    house.box(4, -52, 12, 16, ink)
    house.poly("-34,-62 34,-62 26,-74 -26,-74", ink)
    house.box(6, -98, 9, 26, ink)
    house.line("11,-102 22,-118 44,-122 60,-136 92,-138", 3, ink, 9)


def deck_wheel(b, ink):
    """The wheel that takes the chain."""
    wheel = b.at(250, 144)
    wheel.ring(0, 0, 34, 5, ink)
    wheel.disc(0, 0, 6, ink)
    for i in range(4):
        dx, dy = 31 * math.cos(i * math.pi / 4), 31 * math.sin(i * math.pi / 4)
        wheel.rod(f"{-dx:.1f},{-dy:.1f} {dx:.1f},{dy:.1f}", 2.6, ink)


def ferry_lines(b, ink, lit):
    """The chain ferry in pen lines; nothing but ``ink`` and the paper colour ``lit``."""
    b.line("0,120 50,98 96,92 150,102 210,96 262,80 320,88 400,106", 2.2, ink)
    b.hatch("214,100! 262,84 320,92 398,109 398,128! 300,130 220,124!", 64, 7, 1.6, ink, 0.4)
    for x, high in ((62, 30), (76, 40), (92, 34), (340, 42), (356, 32)):
        b.area(f"{x},{106}! {x - 9},{100 - high * 0.3} {x - 5},{100 - high} {x + 3},{98 - high} {x + 10},{100 - high * 0.4}", ink)
    for row in range(7):
        for i in range(9):
            x = 8 + i * 46 + (row % 2) * 23 + 6 * b.chance.random()
            b.line(f"{x:.1f},{212 + row * 11} {x + 12:.1f},{215 + row * 11} {x + 26:.1f},{212 + row * 11}", 1 + row * 0.22, ink)
    b.poly("52,184 92,168 320,168 360,184 344,206 70,206", ink)
    b.poly("58,186 94,173 318,173 353,186 342,201 73,201", lit)
    b.hatch([(58, 189), (353, 189), (342, 201), (73, 201)], 0, 4, 1.8, ink, 0.25)
    b.poly("52,184 20,160 16,165 50,192", ink)
    b.poly("360,184 392,160 396,165 362,192", ink)
    deck_house(b, ink, lit)
    for x in range(170, 316, 20):
        b.rod(f"{x},168 {x},138", 2.6, ink)
    b.rod("162,140 318,138", 3, ink)
    b.rod("162,153 318,152", 2, ink)
    deck_wheel(b, ink)


def ferry_1924():
    """A newspaper drawing of the chain ferry in pen and ink."""
    b = Block(400, 290, "#efe8d8", 24, rough=0.35)
    ferry_lines(b, BLACK, "#efe8d8")
    for x, y in ((220, 46), (250, 34), (282, 52)):
        gull(b.at(x, y), BLACK, 2)
    b.frame(0, 10, "#efe8d8")
    b.frame(9, 1.6, BLACK)
    return b


def ferry_1986():
    """The same drawing in the sunset tints of a later reprint."""
    b = Block(400, 290, "#f7efe2", 24, rough=0.35)
    for i, ink in enumerate(("#6f5a8c", "#a9638c", "#d9707a", "#ee9465", "#f6bd6a")):
        b.box(0, i * 23, 400, 30, ink)
    b.disc(316, 96, 40, "#fbe2a0")
    b.area("0,120! 50,98 96,92 150,102 210,96 262,80 320,88 400,106! 400,150! 0,150!", "#5b4b6d")
    b.box(0, 128, 400, 162, "#e58d74")
    for i in range(7):
        b.area(f"0,{150 + i * 22}! 100,{144 + i * 22} 220,{156 + i * 22} 400,{146 + i * 22}! 400,{162 + i * 22}! 200,{168 + i * 22} 0,{160 + i * 22}!",
               ("#c96f80", "#f3b27c", "#9c6288")[i % 3])
    ferry_lines(b, "#2b1f33", "#f6d9a0")
    for x, y in ((220, 46), (250, 34), (282, 52)):
        gull(b.at(x, y), "#2b1f33", 2)
    b.frame(0, 10, "#f7efe2")
    b.frame(9, 1.6, "#2b1f33")
    return b


def loft_house(b):
    """The house, its roof under snow."""
    b.poly("78,172 284,172 284,184 78,184", BLACK)
    b.poly("90,174 90,106 176,52 262,106 262,174", BLACK)
    b.poly("95,170 95,108 176,58 257,108 257,170", "#a83a2c")
    b.hatch([(95, 170), (95, 108), (176, 58), (257, 108), (257, 170)], 90, 11, 2, "#6e2018", 0.1)
    b.area("76,112! 120,76 176,36 232,76 276,112! 270,122 250,112 214,90 176,64 138,90 104,112 82,122", "#fbfcfc")
    b.area("76,112! 82,122 104,112 138,90 176,64 214,90 250,112 270,122 276,112! 272,128 248,118 214,96 176,70 138,96 104,118 80,128", "#8ea2ae")
    b.poly("152,172 152,118 200,118 200,172", BLACK)
    b.poly("156,172 156,122 196,122 196,172", "#f2c96b")
    for text in ("156,147 196,147", "176,122 176,172"):
        b.rod(text, 3, BLACK)
    b.rod("176,88 176,118", 4, BLACK)


def net_loft():
    """A red net loft on stilts in falling snow."""
    b = Block(360, 270, "#dfe6ea", 72)
    b.area("0,120! 60,96 120,112 190,84 260,104 360,80! 360,200! 0,200!", "#b7c5cd")
    b.area("0,196! 120,188 240,194 360,186! 360,280! 0,280!", "#4c6675")
    for i in range(16):
        b.cut(10 + (i * 53) % 320, 206 + (i * 17) % 56, 44 + (i * 53) % 320, 207 + (i * 17) % 56, 2.6, "#9fb3bd")
    for x in (104, 140, 176, 212, 248):
        b.rod(f"{x},176 {x - 2},238", 7, BLACK)
        b.cut(x - 1, 184, x - 2, 226, 1.8, "#9fb3bd")
    b.rod("98,226 254,188", 3, BLACK)
    b.rod("98,188 254,226", 3, BLACK)
    loft_house(b)
    b.area("262,140! 300,136 330,144! 326,170 300,176 268,168!", BLACK)
    b.area("74,172! 120,166 150,172! 148,176 78,178!", "#fbfcfc")
    b.area("262,138! 300,132 332,142! 300,146 264,146!", "#fbfcfc")
    for _ in range(110):
        b.disc(360 * b.chance.random(), 250 * b.chance.random(), 1.2 + 2 * b.chance.random(), "#fbfcfc")
    b.frame(0, 9, "#f4f6f7")
    return b


def bearers(b):
    """Three men seen from the side."""
    for x, lean in ((112, -10), (196, 8), (280, -6)):
        man = b.at(x, 176)
        man.area("-19,-28! -22,8 -14,22! 14,22! 20,6 18,-28!", BLACK)
        man.area("-14,-24! -16,6 -11,18! 11,18! 15,4 13,-24!", "#b4532f")
        for foot in (lean - 12, lean + 12):
            man.line(f"{foot * 0.3},18 {foot * 0.8},40 {foot},62", 12, BLACK, 8)
            man.area(f"{foot - 6},58! {foot + 6},58! {foot + 2},68! {foot - 16},68!", BLACK)
        man.line("-16,-22 -24,-42", 6, BLACK)
        man.line("15,-22 22,-42", 6, BLACK)


def currach():
    """A boat carried down to the water on six legs: two inks on blue paper."""
    b = Block(400, 280, "#d5dcd3", 56)
    b.disc(312, 74, 34, "#eee7c9")
    b.area("0,150! 70,132 120,140 180,118 250,132 320,120 400,134! 400,190! 0,190!", "#8fa59a")
    b.poly("0,178 400,172 400,214 0,214", "#5f8390")
    for i in range(22):
        b.cut((i * 67) % 380, 182 + (i * 11) % 28, 26 + (i * 67) % 380, 182 + (i * 11) % 28, 2.6, "#d5dcd3")
    b.area("0,222! 90,208 200,216 300,206 400,216! 400,290! 0,290!", "#3d3a33")
    b.hatch("0,232! 90,220 200,226 300,218 400,226! 400,276! 0,276!", 4, 9, 2.2, "#d5dcd3", 0.7)
    bearers(b)
    b.area("38,146! 60,104 120,80 200,74 280,80 336,96 372,128! 352,150 200,140 60,158!", BLACK)
    b.area("48,142! 68,108 124,86 200,80 276,86 330,101 362,127! 346,143 200,133 64,149!", "#2f4a4f")
    for text in ("64,128 130,108 200,102 276,106 350,126", "58,138 130,122 200,117 276,120 352,135"):
        b.line(text, 2.6, "#d5dcd3")
    for x in (98, 138, 178, 220, 262, 304):
        b.line(f"{x + 6},{90 - (x == 220) * 4} {x},{112} {x - 2},{140}", 2, "#8fa59a")
    for x, y in ((60, 52), (96, 36), (150, 50)):
        gull(b.at(x, y, 1.1), BLACK)
    b.frame(8, 3, BLACK)
    return b


def compass(hand, ink, lit):
    """A compass rose of sixteen points."""
    for size, odd in ((44, 1), (62, 0)):
        for i in range(4):
            turn = hand.at(turn=90 * i + 45 * odd)
            turn.poly(f"0,{-size} 9,-9 0,0 -9,-9", ink)
            turn.poly(f"0,{-size + 8} -6,-9 0,-3", lit)
    hand.ring(0, 0, 26, 2, ink)
    hand.ring(0, 0, 68, 1.6, ink)
    for i in range(32):
        hand.at(turn=i * 11.25).rod("0,-68 0,-63", 1.6, ink)


def fairway(b, ink):
    """A leading line, two buoys and a scale."""
    b.line("440,60 360,84 290,104 226,118 196,124", 2, "#9c3a2b")
    for x, y, ink2 in ((352, 74, "#9c3a2b"), (272, 122, ink)):
        b.area(f"{x - 6},{y}! {x - 3},{y - 14} {x + 3},{y - 14} {x + 6},{y}!", ink2)
        b.disc(x, y - 17, 3, ink2)
        b.rod(f"{x - 9},{y} {x + 9},{y}", 1.5, ink2)
    for i in range(8):
        b.box(30 + i * 16, 296, 16, 7, ink if i % 2 else "#f3eedd")


def chart():
    """A surveyor's chart: coast, depth lines, soundings as strokes, a compass rose."""
    ink, land, shoal = "#274060", "#e4cd95", "#cfe0dc"
    b = Block(440, 320, "#f3eedd", 8, rough=0.4)
    coast = "0,0! 250,0! 232,30 246,56 214,74 196,60 172,84 184,112 150,124 128,108 104,132 120,160 92,186 66,176 60,214 84,236 62,270 30,276 0,300!"
    b.area("0,0! 330,0! 320,50 300,96 250,120 236,160 196,180 170,224 150,262 120,320! 0,320!", shoal)
    b.area("0,0! 290,0! 278,40 262,80 216,104 200,140 160,158 136,200 120,240 90,290 60,320! 0,320!", "#b3d0cf")
    b.area(coast, ink)
    b.at(-2.5, -2.5).area(coast, land)
    b.hatch("0,0! 180,0! 150,40 90,80 60,120 20,160 0,170!", 128, 12, 1.8, "#b08d4a", 0.5)
    for x, y, size in ((70, 60, 16), (104, 40, 12), (44, 104, 12)):
        b.rays(x, y, 5, size, 14, 2.4, "#8a6a33")
    for i in range(46):
        x, y = 150 + (i * 71) % 280, 20 + (i * 47) % 284
        if x + y > 300:
            b.rod(f"{x},{y} {x + 5},{y}", 1.5, ink)
            b.rod(f"{x + 7},{y - 3} {x + 7},{y + 3}", 1.3, ink)
    compass(b.at(340, 218), "#9c3a2b", "#f3eedd")
    fairway(b, ink)
    b.frame(0, 12, "#f3eedd")
    b.frame(11, 1.4, ink)
    b.frame(15, 4, ink)
    return b
