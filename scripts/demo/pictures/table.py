"""Pictures from the kitchen: kettle, teapot, loaf, fish, oysters."""
from .block import Block

BLACK = "#1f1a17"


def steam(hand, ink):
    """Three curls of steam rising from (0, 0)."""
    for x, tall in ((-12, 48), (2, 60), (16, 44)):
        hand.line(f"{x},0 {x - 8},{-tall * 0.3} {x + 6},{-tall * 0.65} {x - 4},{-tall}", 5, ink, 1.5)


def kettle_body(b):
    """Spout, handle, belly and lid."""
    b.area("126,156! 104,128 88,98! 62,92! 58,100! 76,112 92,152 116,190!", BLACK)
    b.area("124,160! 104,134 84,104! 70,101 86,122 98,150 118,182!", "#2c5d82")
    b.line("134,102 138,44 196,22 252,44 258,102", 12, BLACK, 12)
    b.line("139,98 143,48 196,28 247,48 253,98", 4, "#f0e6cf", 4)
    b.area("112,200! 108,150 138,108 196,94 254,108 284,150 280,200! 262,218 130,218", BLACK)
    b.area("118,198! 115,152 142,114 196,101 250,114 277,152 274,198! 258,211 134,211", "#2c5d82")
    b.area("118,198! 115,152 142,114 160,106! 138,130 130,170 136,210!", "#5f92b0")
    b.area("146,104! 160,90 196,84 232,90 246,104! 196,114", BLACK)
    b.disc(196, 80, 10, BLACK)
    b.cut(190, 77, 199, 76, 3, "#f0e6cf")


def kettle():
    """A speckled enamel kettle on the hob: blue, red and black."""
    b = Block(380, 290, "#f0e6cf", 45)
    b.box(0, 0, 380, 214, "#c9503c")
    for i in range(8):
        for k in range(5):
            b.at(24 + i * 48 + (k % 2) * 24, 22 + k * 42, turn=45).box(-5, -5, 10, 10, "#e39a72")
    b.box(0, 214, 380, 80, BLACK)
    b.box(0, 220, 380, 5, "#f0e6cf")
    for i in range(9):
        b.cut(20 + i * 40, 250 + i % 2 * 14, 50 + i * 40, 250 + i % 2 * 14, 3, "#f0e6cf")
    steam(b.at(66, 78, 1.1), "#f0e6cf")
    kettle_body(b)
    for i in range(60):
        x, y = 196 + ((i * 0.618034) % 1 - 0.5) * (96 + i * 0.8), 120 + i * 1.4
        b.disc(x, y, 1.4 + (i * 7 % 5) * 0.5, "#f0e6cf")
    b.frame(0, 10, "#f0e6cf")
    b.frame(9, 3, BLACK)
    return b


def cups(b):
    """Two cups on their saucers."""
    for x, y in ((88, 200), (292, 204)):
        cup = b.at(x, y)
        cup.disc(0, 18, 40, BLACK, 10)
        cup.disc(0, 16, 34, "#f4ead3", 7)
        cup.ring(26, -6, 13, 5, BLACK)
        cup.area("-28,-22! 28,-22! 24,4 12,14! -12,14! -24,4", BLACK)
        cup.area("-24,-18! 24,-18! 20,2 10,10! -10,10! -20,2", "#fbf6e8")
        cup.line("-22,-8 0,-4 22,-8", 4, "#c65a43")
        cup.disc(0, -21, 27, BLACK, 6)
        cup.disc(0, -21, 22, "#8a4a26", 3.4)


def teapot_body(pot, brown, gold):
    """The pot at its place."""
    pot.area("-66,22! -96,14 -100,-18 -124,-34! -116,-42 -92,-36 -84,-10 -62,-8!", BLACK)
    pot.area("-66,16! -90,10 -95,-20 -114,-35 -97,-30 -88,-4 -62,0!", brown)
    pot.ring(70, 4, 42, 11, BLACK, 38)
    pot.ring(70, 4, 38, 4, gold, 34)
    pot.area("-62,44! -82,4 -62,-40 0,-54 62,-40 82,4 62,44! 48,54 -48,54", BLACK)
    pot.area("-56,40! -75,4 -57,-35 0,-48 57,-35 75,4 56,40! 44,48 -44,48", brown)
    for y, ink in ((-18, gold), (-6, "#c65a43"), (6, gold)):
        pot.line(f"-72,{y + 2} -30,{y + 8} 30,{y + 8} 72,{y + 2}", 5, ink)
    pot.area("-66,-4! -60,-28 -40,-40! -48,-20 -52,8 -44,36! -58,22", "#a15c36")
    pot.area("-34,-48! -20,-62 0,-66 20,-62 34,-48! 0,-42", BLACK)
    pot.disc(0, -70, 9, BLACK)
    pot.disc(-2, -72, 3, gold)


def teapot():
    """A brown pot and two cups on a striped cloth, from a caddy lid."""
    brown, gold = "#6e3a22", "#e2ac4f"
    b = Block(380, 280, "#f4ead3", 55)
    b.disc(190, 136, 172, "#d7ddc4", 124)
    b.ring(190, 136, 172, 4, "#5d7058", 124)
    b.ring(190, 136, 163, 2, "#5d7058", 115)
    b.area("52,196! 190,184 328,196! 300,228 190,244 80,228!", "#f4ead3")
    for i in range(11):
        b.poly(f"{66 + i * 23},{200} {77 + i * 23},{198} {84 + i * 21},{234} {72 + i * 21},{232}", "#c65a43")
    pot = b.at(186, 142)
    teapot_body(pot, brown, gold)
    steam(b.at(74, 102, 0.62), "#5d7058")
    cups(b)
    return b


def ear(hand, ink, light, count=7):
    """One ear of wheat growing up from (0, 0), 100 high."""
    hand.line("0,0 2,-30 0,-64", 3, ink)
    for i in range(count):
        y = -34 - i * 9
        for side in (-1, 1):
            grain = hand.at(side * 5, y, turn=side * 26)
            grain.area("0,-9 4.6,0 0,8 -4.6,0", ink)
            grain.cut(0, -6, 0, 5, 1.6, light)
            hand.line(f"{side * 6},{y - 6} {side * 12},{y - 20} {side * 15},{y - 34}", 1.2, ink)
    hand.at(0, -38 - count * 9).area("0,-10 4.6,0 0,7 -4.6,0", ink)


def harvest_loaf():
    """A plaited loaf under ears of wheat, as a seed merchant's calendar head."""
    crust, light, dark = "#c17b2f", "#ecc373", "#4a2a14"
    b = Block(400, 280, "#f6efdc", 50)
    b.box(12, 12, 376, 256, "#8ea66b")
    b.rays(200, 196, 60, 240, 38, 9, "#a3b980", 180, 180)
    for i in range(9):
        ear(b.at(88 + i * 28, 176, 1.25, turn=(i - 4) * 11), dark, light)
    b.area("12,214! 100,206 200,210 300,206 388,214! 388,268! 12,268!", "#5d7044")
    b.area("54,206! 70,166 120,142 200,134 280,142 330,166 346,206! 320,234 200,242 80,234", dark)
    b.area("62,204! 77,171 124,149 200,141 276,149 323,171 338,204! 314,227 200,235 86,227", crust)
    for i in range(7):
        x = 92 + i * 36
        b.area(f"{x - 22},{206}! {x - 12},{176} {x + 12},{158} {x + 30},{164}! {x + 22},{190} {x + 2},{214} {x - 12},{222}!", dark)
        b.area(f"{x - 16},{204}! {x - 7},{179} {x + 12},{164} {x + 24},{168}! {x + 16},{189} {x},{208} {x - 10},{215}!", light)
        b.hatch(f"{x - 8},{200}! {x},{182} {x + 14},{170} {x + 20},{172}! {x + 12},{190} {x - 2},{206}!", 126, 6, 2, crust, 0.3)
    b.specks(80, 146, 240, 80, 40, "#f6efdc", 5, 2)
    b.frame(0, 12, "#f6efdc")
    b.frame(11, 3, dark)
    return b


def herring(hand, key, back, belly):
    """A herring heading left, 120 long, middle at (0, 0)."""
    hand.area("-62,2! -44,-12 -10,-18 28,-10 50,-3! 68,-18! 62,0 68,18! 50,4 26,12 -12,18 -44,12", key)
    hand.area("-57,2! -42,-9 -10,-14.5 28,-7 52,0! 62,-11! 57,0 62,11! 50,0 26,8 -12,14 -42,9", belly)
    hand.area("-57,1! -42,-9 -10,-14.5 28,-7 52,0! 20,-1 -20,-3", back)
    hand.line("-38,-9 -34,0 -38,9", 2.4, key)
    hand.disc(-47, -1, 3.4, key)
    hand.disc(-47.6, -1.4, 1.4, belly)
    for i in range(5):
        for k in range(2):
            hand.line(f"{-24 + i * 13},{1 + k * 5} {-20 + i * 13},{4 + k * 5} {-24 + i * 13},{7 + k * 4}", 1.4, key)
    hand.poly("-6,-16 12,-24 14,-12", key)
    hand.poly("-4,15 8,22 12,12", key)


def herring_label():
    """A crate label: six herrings in a wheel, ribbons left empty."""
    red, gold, blue = "#b5322a", "#e0b04a", "#27475c"
    b = Block(360, 360, "#f3e8cf", 26)
    b.box(10, 10, 340, 340, blue)
    b.frame(16, 4, gold)
    b.disc(180, 180, 152, gold)
    b.disc(180, 180, 146, "#f3e8cf")
    b.rays(180, 180, 26, 140, 60, 4, gold)
    for i in range(6):
        herring(b.at(180, 180, turn=i * 60).at(0, -84, 0.94), BLACK, "#4f7f96", "#dfe6e0")
    b.disc(180, 180, 42, BLACK)
    b.disc(180, 180, 38, red)
    b.rays(180, 180, 6, 34, 6, 13, gold, 30)
    for x, y in ((46, 46), (314, 46), (46, 314), (314, 314)):
        b.rays(x, y, 4, 20, 8, 7, gold)
    for y, tall in ((300, 1), (22, 1)):
        b.area(f"70,{y + 8}! 120,{y} 180,{y - 3} 240,{y} 290,{y + 8}! 290,{y + 36}! 240,{y + 28} 180,{y + 25} 120,{y + 28} 70,{y + 36}!", BLACK)
        b.area(f"75,{y + 12}! 122,{y + 4} 180,{y + 1} 238,{y + 4} 285,{y + 12}! 285,{y + 31}! 238,{y + 24} 180,{y + 21} 122,{y + 24} 75,{y + 31}!", red)
        b.line(f"86,{y + 21} 124,{y + 14} 180,{y + 11} 236,{y + 14} 274,{y + 21}", 2, gold)
    return b


def shells(b):
    """Seven open shells."""
    for x, y, turn in ((108, 118, -40), (180, 96, 0), (252, 118, 40), (88, 186, -80), (272, 186, 80), (136, 224, -150), (224, 224, 150)):
        shell = b.at(x, y, 0.92, turn)
        shell.area("0,-42! 22,-34 34,-8 30,20 12,38 -10,40 -28,24 -34,-4 -22,-32", "#20302b")
        shell.area("0,-36! 18,-29 28,-8 24,16 10,31 -9,33 -22,20 -27,-4 -18,-27", "#aab3a6")
        shell.area("2,-22 16,-14 18,8 8,22 -8,22 -17,8 -13,-14", "#e9e4d2")
        shell.area("4,-10 12,-2 8,12 -4,15 -8,4", "#b9a98c")
        shell.line("-8,-10 -10,4 -4,14", 2.4, "#20302b", 1)
        for k in range(4):
            shell.cut(-26 + k * 3, -16 + k * 13, -19 + k * 3, -12 + k * 10, 2.2, "#20302b")


def oysters():
    """A plate of oysters with a lemon: a restaurant poster."""
    b = Block(360, 320, "#f2e5c8", 12, rough=0.4)
    b.box(0, 0, 360, 320, "#355c4b")
    for i in range(10):
        b.box(i * 40 - 8, 0, 14, 320, "#3f6b57")
    b.disc(180, 168, 150, "#17261f", 118)
    b.disc(180, 162, 148, "#f2e5c8", 116)
    b.ring(180, 162, 138, 4, "#2d4f86", 106)
    b.ring(180, 162, 108, 2.4, "#2d4f86", 80)
    for i in range(16):
        b.at(180, 162, tall=0.78, turn=0).at(turn=i * 22.5).at(0, -124).area("0,-7 5,0 0,7 -5,0", "#2d4f86")
    shells(b)
    b.disc(180, 162, 38, "#20302b", 34)
    b.disc(180, 162, 34, "#e8b92f", 30)
    b.disc(180, 162, 29, "#f6e6a0", 25)
    for i in range(8):
        b.at(180, 162, tall=0.88).at(turn=i * 45 + 20).area("0,-4! 8,-22 0,-26 -8,-22", "#edc94d")
    b.frame(0, 10, "#f2e5c8")
    return b


def jar_body(jar, clay, dark):
    """The jar with handle and two spouts."""
    jar.ring(6, -74, 34, 11, dark, 28)
    jar.ring(6, -74, 30, 4, clay, 24)
    jar.area("-40,-44! -66,-72 -74,-86! -58,-92! -44,-74 -20,-60!", dark)
    jar.area("46,-42! 58,-66 60,-82! 84,-82! 82,-62 68,-30!", dark)
    jar.area("-30,104! -66,62 -84,10 -70,-36 0,-64 70,-36 84,10 66,62 30,104!", dark)
    jar.area("-27,98! -60,58 -77,10 -64,-32 0,-57 64,-32 77,10 60,58 27,98!", clay)
    jar.area("-36,-48! -58,-72 -66,-84 -59,-86 -44,-70 -24,-54!", clay)
    jar.area("50,-42! 62,-66 65,-77! 79,-77! 77,-62 64,-36!", clay)
    jar.area("-27,98! -60,58 -77,10 -64,-32 -44,-46! -54,-10 -50,40 -20,96!", "#e08a58")
    for y in (-4, 34):
        jar.line(f"-76,{y} -30,{y + 10} 30,{y + 10} 76,{y}", 4, dark)
    for i in range(7):
        jar.at(-54 + i * 18, 24 - abs(i - 3) * 1.6, turn=45).box(-5, -5, 10, 10, "#f4ecd8")


def botijo():
    """A clay water jar with its two spouts and a dish of sardines."""
    clay, sky, dark = "#c4673d", "#dfe3d2", "#2a211f"
    b = Block(360, 320, "#f4ecd8", 35)
    b.box(12, 12, 336, 296, "#e8bd5b")
    b.box(12, 12, 336, 190, sky)
    for i in range(7):
        for k in range(4):
            tile = b.at(36 + i * 48, 36 + k * 48)
            tile.ring(0, 0, 20, 3, "#6d94ad")
            tile.at(turn=45).box(-5, -5, 10, 10, "#6d94ad")
    b.area("12,214! 120,204 240,210 348,202! 348,308! 12,308!", "#a84c38")
    b.hatch([(14, 222), (346, 212), (346, 306), (14, 306)], -3, 13, 3, "#c46a4d", 0.6)
    jar = b.at(136, 136)
    jar_body(jar, clay, dark)
    b.disc(262, 246, 82, dark, 32)
    b.disc(262, 242, 78, "#f4ecd8", 28)
    b.ring(262, 242, 72, 3, "#4f7f96", 23)
    for i, (x, y) in enumerate(((252, 232), (272, 244), (256, 256))):
        herring(b.at(x, y, 0.86, turn=-4 + i * 3), dark, "#4f7f96", "#e3e6dc")
    b.frame(0, 12, "#f4ecd8")
    b.frame(11, 3, dark)
    return b
