"""Pictures of plants and hills."""
from .block import Block

BLACK = "#1c1917"


def agave_flower(b):
    """A flowering stalk."""
    stalk = b.at(318, 190)
    stalk.rod("0,30 6,-90", 5, "#12241f")
    for i in range(5):
        stalk.line(f"{2 + i},{-30 - i * 14} {20 - i},{-38 - i * 14} {30 - i * 3},{-34 - i * 14}", 3, "#12241f")
        stalk.line(f"{2 + i},{-30 - i * 14} {-16 + i},{-40 - i * 14} {-24 + i * 3},{-36 - i * 14}", 3, "#12241f")
        stalk.disc(30 - i * 3, -36 - i * 14, 6, "#f3d68a", 4)
        stalk.disc(-24 + i * 3, -38 - i * 14, 6, "#f3d68a", 4)


def agave():
    """Agaves under a full moon: a linoleum cut in four inks."""
    b = Block(380, 300, "#f3e6c8", 39)
    b.box(10, 10, 360, 280, "#2a2b4f")
    b.rays(258, 92, 60, 190, 46, 7, "#4b3f6e")
    b.disc(258, 92, 54, "#e8742f")
    b.disc(258, 92, 46, "#f3d68a")
    for x, y, size in ((240, 80, 8), (272, 104, 11), (268, 72, 5)):
        b.disc(x, y, size, "#e3bd6b")
    b.area("10,196! 60,150 110,176 160,138 214,178 270,150 330,182 370,160! 370,240! 10,240!", "#6d3a5c")
    b.area("10,216! 100,196 200,214 300,196 370,210! 370,290! 10,290!", "#a1452f")
    for row in range(4):
        b.line(f"10,{236 + row * 15} 120,{226 + row * 16} 240,{238 + row * 15} 370,{228 + row * 16}", 2.4, "#d98b4a", 3)
    for x, y, size in ((96, 262, 1.15), (232, 268, 0.9), (318, 250, 0.62)):
        for turn in (-78, 78, -56, 56, -34, 34, -14, 14, 0):
            leaf = b.at(x, y, size, turn)
            leaf.area("-9,4! -14,-40 -8,-84 0,-116! 8,-84 14,-40 9,4!", "#12241f")
            leaf.area("-6,0! -10,-40 -5,-80 0,-104! 0,0!", "#3f8f6d")
            leaf.area("1,0! 1,-100 5,-80 10,-40 6,0!", "#2a6b55")
    agave_flower(b)
    b.frame(0, 11, "#f3e6c8")
    b.frame(10, 3, "#12241f")
    return b


def hill_house(b):
    """A house on the hill."""
    house = b.at(218, 124)
    house.poly("-30,14 -30,-18 30,-18 30,14", BLACK)
    house.poly("-27,12 -27,-15 27,-15 27,12", "#f2e7cb")
    house.poly("-36,-16 0,-36 36,-16", BLACK)
    house.poly("-28,-18 0,-33 28,-18", "#cf5a35")
    for x in (-14, 12):
        house.box(x - 4, -8, 8, 10, BLACK)


def cypresses():
    """Cypresses on ploughed hills: an Italian woodcut in three blocks."""
    b = Block(400, 280, "#f2e7cb", 33)
    b.box(12, 12, 376, 256, "#ead091")
    b.disc(96, 84, 34, "#cf5a35")
    for i in range(6):
        b.cut(20 + i * 62, 58 + (i * 23) % 40, 110 + i * 52, 58 + (i * 23) % 40, 5, "#f2e7cb")
    b.area("12,150! 80,120 150,138 220,104 300,132 388,108! 388,200! 12,200!", "#8d9b62")
    b.area("12,190! 100,150 190,178 280,148 388,184! 388,268! 12,268!", "#5f7a4c")
    for i in range(15):
        b.line(f"{200 + i * 14 - 60},{164 - abs(i - 7)} {170 + i * 24 - 90},{206} {130 + i * 36 - 140},{268}", 2, "#ead091", 4)
    b.area("12,216! 70,206 130,226 170,268! 12,268!", "#7b4a2c")
    b.hatch("12,220! 70,212 126,230 160,268! 12,268!", 32, 8, 2.4, "#ead091", 0.3)
    for x, y, tall in ((58, 168, 90), (92, 160, 112), (128, 166, 84), (300, 152, 70), (324, 158, 96), (350, 164, 76)):
        b.rod(f"{x},{y + 14} {x},{y - 10}", 5, BLACK)
        b.area(f"{x},{y + 4}! {x - 15},{y - tall * 0.2} {x - 12},{y - tall * 0.65} {x},{y - tall}! {x + 12},{y - tall * 0.65} {x + 15},{y - tall * 0.2}", BLACK)
        b.hatch(f"{x + 2},{y}! {x + 12},{y - tall * 0.25} {x + 9},{y - tall * 0.6} {x + 1},{y - tall * 0.85}!", 70, 7, 2.2, "#5f7a4c", 0.3)
    hill_house(b)
    b.frame(0, 12, "#f2e7cb")
    b.frame(11, 3, BLACK)
    return b


def holly_plate(b):
    """Sea holly drawn upon an empty plate of 300 by 360."""
    stem, leaf, vein, blue = "#5d7f76", "#8fb3a5", "#43635b", "#53709f"
    b.line("150,336 152,270 148,210 150,150", 6, stem, 4)
    b.line("150,240 112,200 92,150", 4.4, stem, 3)
    b.line("150,220 196,184 214,140", 4.4, stem, 3)
    for x, y, size, turn in ((150, 288, 1.1, -62), (152, 300, 1.05, 66), (120, 206, 0.72, -84), (188, 190, 0.74, 80)):
        spiny(b.at(x, y, size, turn), leaf, vein)
    for x, y, size in ((150, 128, 1.1), (88, 128, 0.78), (218, 118, 0.84)):
        head = b.at(x, y, size)
        for i in range(9):
            bract = head.at(turn=-112 + i * 28)
            bract.area("0,-12! -8,-30 -3,-36 -9,-46 0,-66! 9,-46 3,-36 8,-30", blue)
            bract.rod("0,-20 0,-58", 1.4, "#dfe6ea")
        head.area("-20,14! -22,-8 -12,-26 0,-32 12,-26 22,-8 20,14! 0,22", "#39507e")
        for i in range(22):
            head.disc(-14 + (i * 7.3) % 29, -22 + (i * 11.7) % 36, 2.6, "#a9bbdb")
    b.rod("40,346 96,346", 1, vein)
    b.rod("204,346 262,346", 1, vein)


def spiny(hand, leaf, vein):
    """One spiny leaf growing up from (0, 0)."""
    hand.area("0,0! -14,-18 -34,-22! -22,-34 -38,-48! -22,-54 -28,-74! -10,-72 0,-96! 10,-72 28,-74! 22,-54 38,-48! 22,-34 34,-22! 14,-18", vein)
    hand.at(0, -3, 0.92).area("0,0! -14,-18 -34,-22! -22,-34 -38,-48! -22,-54 -28,-74! -10,-72 0,-96! 10,-72 28,-74! 22,-54 38,-48! 22,-34 34,-22! 14,-18", leaf)
    hand.rod("0,0 0,-88", 1.8, vein)
    for side in (1, -1):
        for y in (-18, -40, -62):
            hand.line(f"0,{y} {side * 12},{y - 6} {side * 26},{y - 8}", 1.4, vein)


def sea_holly():
    """A botanist's colour plate of sea holly."""
    b = Block(320, 360, "#f1ead4", 87, rough=0.3)
    holly_plate(b.at(10, 0))
    b.frame(14, 1.2, "#7d7660")
    b.disc(284, 326, 8, "#e4d6b0", 6)
    return b
