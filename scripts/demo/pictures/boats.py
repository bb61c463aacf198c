"""Pictures of boats and of what floats, from engraving to poster."""
from .block import Block
from .harbour import gull, waves

BLACK = "#1b1a19"


def sail(hand, x, y, wide, high, ink, lit):
    """One square sail, filled by the wind from the left."""
    hand.area(f"{x},{y}! {x + wide},{y}! {x + wide + 6},{y + high * 0.5} {x + wide + 2},{y + high}! "
              f"{x + wide * 0.5},{y + high - 7} {x - 2},{y + high}! {x + 8},{y + high * 0.5}", ink)
    hand.area(f"{x + 3},{y + 2.5}! {x + wide - 2},{y + 2.5}! {x + wide + 3},{y + high * 0.5} {x + wide},{y + high - 3}! "
              f"{x + wide * 0.5},{y + high - 9} {x + 2},{y + high - 3}! {x + 11},{y + high * 0.5}", lit)
    ring = [(x + wide * 0.55, y + 3), (x + wide - 2, y + 3), (x + wide + 3, y + high / 2), (x + wide, y + high - 4), (x + wide * 0.7, y + high - 8)]
    hand.hatch(ring, 90, 4.2, 1.5, ink, 0.2)


def brig(hand, ink, lit):
    """A two-masted brig heading left; water line at y = 0, 190 high."""
    for x, top in ((-44, -176), (34, -184)):
        hand.rod(f"{x},-10 {x},{top}", 4.5, ink, 2)
    hand.rod("-84,-22 -150,-54", 4, ink, 2)
    for line in ("-44,-174 -148,-53", "-44,-120 -112,-36", "-44,-172 34,-120", "34,-180 104,-20", "-44,-170 -16,-14", "34,-178 64,-16"):
        hand.rod(line, 1, ink)
    hand.area("-48,-150! -92,-90 -138,-50! -92,-62 -54,-66!", ink)
    hand.area("-52,-138! -90,-88 -126,-56! -90,-66 -56,-70!", lit)
    for x, sizes in ((-44, ((34, -168, 30), (46, -134, 38), (56, -92, 44))), (34, ((36, -176, 32), (50, -140, 40), (60, -96, 46)))):
        for wide, y, high in sizes:
            sail(hand, x - wide / 2, y, wide, high, ink, lit)
    hand.area("38,-78! 92,-100! 104,-30 96,-24! 42,-26!", ink)
    hand.area("43,-74! 88,-94! 98,-34 92,-29! 46,-31!", lit)
    hand.area("-92,-30! -60,-20 0,-16 70,-18 108,-32! 102,-4 92,14! -66,14! -82,-6", ink)
    hand.line("-84,-20 -40,-9 30,-7 102,-20", 3, lit)
    for i in range(7):
        hand.box(-56 + i * 20, -7, 6, 5, lit)
    hand.line("34,-184 46,-190 58,-184 72,-188", 5, ink, 2)


def sea_lines(b, top, ink, count=11):
    """An engraver's sea: broken lines, closer together towards the sky line."""
    y = top
    for row in range(count):
        x = 16 - (row * 37) % 30
        while x < b.width - 14:
            long = 18 + 30 * b.chance.random()
            b.line(f"{max(14, x):.1f},{y:.1f} {x + long / 2:.1f},{y + 1.6 + row * 0.3:.1f} {min(b.width - 14, x + long):.1f},{y:.1f}",
                   0.9 + row * 0.22, ink)
            x += long + 5 + 8 * b.chance.random()
        y += 3.4 + row * 0.85


def sky_lines(b, top, bottom, ink):
    """An engraver's sky: ruled lines with clouds left open."""
    for i in range(int((bottom - top) / 4.4)):
        y = top + i * 4.4
        x = 16.0
        while x < b.width - 16:
            long = 40 + 120 * b.chance.random()
            open_cloud = 90 < x < 190 and top + 16 < y < top + 62 or 250 < x < 320 and top + 42 < y < top + 76
            if not open_cloud:
                b.rod(f"{x:.1f},{y:.1f} {min(b.width - 16, x + long):.1f},{y:.1f}", 1.25 - i * 0.02, ink)
            x += long + 3


def brig_engraving():
    """A steel engraving of a brig, foxed, in one ink."""
    ink, paper = "#2c2723", "#eadfc4"
    b = Block(400, 300, paper, 68, rough=0.3)
    sky_lines(b, 22, 196, ink)
    b.area("14,204! 40,188 84,182 120,194 150,204!", ink)
    b.hatch("16,203! 40,189 84,183 120,195 144,203!", 30, 5, 1.8, paper, 0.2)
    sea_lines(b, 206, ink)
    brig(b.at(220, 214, 0.98), ink, paper)
    b.disc(72, 96, 13, "#dcc596", 10)
    b.disc(330, 262, 9, "#d8bf8e")
    b.disc(352, 60, 5, "#d8bf8e")
    b.frame(0, 14, paper)
    b.frame(13, 1.4, ink)
    b.frame(18, 0.8, ink)
    return b


def brig_restored():
    """The same engraving cleaned, with tints laid in and the missing corner drawn anew."""
    ink, paper = "#22242c", "#f8f5ea"
    b = Block(400, 300, paper, 68, rough=0.3)
    b.box(14, 14, 372, 192, "#c9dce2")
    b.area("90,40! 120,30 160,36 196,44 180,72 130,78 96,66", paper)
    b.area("250,64 280,58 322,66 318,88 270,92", paper)
    b.box(14, 204, 372, 82, "#8db3b8")
    sky_lines(b, 22, 196, "#7d93a3")
    b.area("14,204! 40,188 84,182 120,194 150,204!", "#6d7f63")
    b.hatch("16,203! 40,189 84,183 120,195 144,203!", 30, 5, 1.8, ink, 0.2)
    sea_lines(b, 206, "#2f5560")
    brig(b.at(220, 214, 0.98), ink, "#f6ecd2")
    b.line("254,33 266,27 278,33 292,29", 5, "#b5402f", 2)
    b.frame(0, 14, paper)
    b.frame(13, 1.4, ink)
    return b


def sails(b):
    """Three sailing boats."""
    for x, y, size, ink in ((176, 196, 1, "#fdf6e3"), (286, 204, 0.72, "#d8452f"), (128, 184, 0.5, "#fdf6e3")):
        hand = b.at(x, y, size)
        hand.area("0,-58! 26,-30 30,-8! 2,-8!", ink)
        hand.area("-4,-48! -20,-24 -24,-8! -3,-8!", "#f7e3ac")
        hand.area("-28,-5! 34,-5! 24,6 -18,6!", "#7a2f2a")


def beach(b):
    """A striped tent and a ball."""
    tent = b.at(88, 318)
    for i in range(6):
        left, right = -42 + i * 14, -28 + i * 14
        tent.poly(f"0,-66 {left * 0.9},-28 {right * 0.9},-28", ("#d8452f", "#fdf6e3")[i % 2])
        tent.poly(f"{left * 0.9},-28 {right * 0.9},-28 {right},20 {left},20", ("#b93626", "#e9dcc0")[i % 2])
    tent.poly("-8,20 0,-22 8,20", "#5d2430")
    tent.poly("0,-84 0,-66 20,-76", "#1f6a80")
    ball = b.at(236, 316)
    ball.area("-62,22! 70,14! 62,28 -50,32!", "#d9a866")
    ball.disc(0, 0, 22, "#fdf6e3")
    ball.area("0,-22! -14,-8 -14,10 0,22! -24,14 -24,-12", "#d8452f")
    ball.area("0,-22! 6,-8 6,10 0,22! 18,12 18,-12", "#1f6a80")


def bay_poster():
    """A seaside poster of the thirties: flat colours, no outlines."""
    b = Block(340, 360, "#f6e9cb", 34, rough=0.3)
    b.box(0, 0, 340, 360, "#f3c877")
    b.disc(236, 92, 46, "#f7e3ac")
    b.disc(236, 92, 34, "#fdf3d2")
    b.area("0,40! 46,44 84,60 96,96 90,130 104,170 98,214! 0,230!", "#c9795a")
    b.area("0,40! 30,46 52,72 56,110 48,150 60,190 56,222! 0,230!", "#9c4f45")
    b.area("0,40! 46,40 88,54! 70,60 34,56 0,60!", "#7c9a57")
    b.box(0, 168, 340, 100, "#2f8a99")
    b.area("0,196! 90,176 190,170 340,168! 340,176! 200,182 110,196 60,214 0,222!", "#57adb0")
    b.area("0,262! 70,238 150,232 240,244 340,222! 340,290! 0,290!", "#1f6a80")
    b.area("0,272! 90,246 180,248 250,262 340,244! 340,320! 0,320!", "#f6efd9")
    b.area("0,282! 90,256 180,260 250,274 340,256! 340,360! 0,360!", "#eec98a")
    sails(b)
    beach(b)
    for x, y in ((150, 40), (176, 58), (130, 66)):
        gull(b.at(x, y, 0.9), "#7a2f2a")
    b.frame(0, 12, "#f6efd9")
    return b


def tug(b):
    """The tug from ahead."""
    b.box(142, 92, 36, 70, "#1d2b3a")
    b.box(142, 104, 36, 18, "#c8352b")
    b.poly("104,156 216,156 226,214 94,214", "#f2e6c9")
    for x in (112, 144, 176):
        b.box(x, 168, 28, 24, "#1d2b3a")
    b.poly("92,150 228,150 232,160 88,160", "#c8352b")
    b.area("36,206! 90,196 160,192 230,196 284,206! 268,270 224,330! 96,330! 52,270", "#1d2b3a")
    b.area("36,206! 90,196 160,192 230,196 284,206! 282,218 220,208 160,205 100,208 38,218!", "#f2e6c9")
    b.area("160,206! 230,210 280,220 264,270 222,330! 160,330!", "#101923")
    b.rod("160,200 160,330", 4, "#c8352b")
    for x in (116, 204):
        b.ring(x, 262, 20, 9, "#8a5a3a", 22)


def tug_poster():
    """A French poster of a tug seen from ahead, in three inks."""
    b = Block(320, 360, "#efe2c3", 29, rough=0.3)
    b.box(0, 0, 320, 360, "#e9b65a")
    b.poly("0,0 320,0 320,120 160,236 0,120", "#efcf86")
    for i in range(5):
        b.poly(f"160,236 {i * 80 - 20},-10 {i * 80 + 14},-10", "#f4dfa6")
    b.area("176,96! 170,60 190,40 230,46 250,20 300,26 340,-10! 340,70! 290,84 250,76 226,104 196,98 190,120!", "#6b4a43")
    tug(b)
    b.area("0,300! 50,284 96,316 132,298 160,330 188,298 224,316 270,284 320,300! 320,360! 0,360!", "#2c6e78")
    b.area("0,326! 60,312 110,336 160,346 210,336 260,312 320,326! 320,360! 0,360!", "#f2e6c9")
    b.area("0,338! 60,324 110,346 160,354 210,346 260,324 320,338! 320,360! 0,360!", "#1d4a55")
    for x, y, size in ((56, 90, 1.3), (84, 122, 1), (42, 140, 0.8)):
        gull(b.at(x, y, size), "#1d2b3a")
    b.frame(0, 10, "#f2e6c9")
    return b


def dory():
    """A dory in fog: greys laid one over another."""
    b = Block(360, 270, "#e9ebe6", 71, rough=0.8)
    for i, ink in enumerate(("#dfe3e0", "#d2d8d6", "#c3ccca", "#b2bfbe")):
        b.area(f"0,{80 + i * 44}! 70,{74 + i * 46} 150,{88 + i * 44} 240,{76 + i * 46} 360,{86 + i * 44}! 360,270! 0,270!", ink)
    b.area("250,104! 262,84 300,74 360,70! 360,116! 300,112!", "#c9d0cd")
    hand = b.at(176, 168)
    hand.area("-118,-26! -70,-8 0,-2 76,-8 120,-34! 112,0 88,30! -74,30! -102,6", "#26333a")
    hand.area("-104,-16! -60,-1 0,5 70,0 110,-21! 104,2 84,24! -70,24! -92,6", "#c9712e")
    hand.line("-104,-4 -50,9 30,11 106,-8", 3, "#26333a")
    hand.line("-96,8 -50,18 30,20 98,6", 2, "#26333a")
    hand.area("-92,-17! -40,-4 20,-2 96,-21! 40,-14 -30,-14", "#26333a")
    for x1, x2 in ((-26, -92), (34, 96)):
        hand.rod(f"{x1},-18 {x2},50", 4.5, "#26333a", 6)
        hand.area(f"{x2 - 5},46! {x2 + 5},48! {x2 + (14 if x2 > 0 else -2)},74 {x2 + (4 if x2 > 0 else -14)},76!", "#26333a")
    for i in range(7):
        b.cut(84 + i * 28, 206 + (i * 5) % 12, 116 + i * 28, 207 + (i * 5) % 12, 3, "#26333a")
    b.specks(10, 100, 340, 160, 70, "#f3f5f1", 26, 2.6)
    b.frame(0, 9, "#f3f5f1")
    return b
