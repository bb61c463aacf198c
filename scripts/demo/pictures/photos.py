"""The three pictures that stand for photographs: drawn, then softened and toned as pixels."""
from . import pixels
from .block import Block
from .land import ram
from .plants import holly_plate


def ketch(hand, hull, cloth, dim):
    """A ketch under way, water line at y = 0."""
    for x, top in ((-14, -112), (36, -80)):
        hand.rod(f"{x},-4 {x},{top}", 3, hull, 1.6)
    hand.area("-18,-104! -60,-40 -84,-14! -40,-14 -18,-16!", cloth)
    hand.area("-10,-104! 10,-60 24,-18! 6,-14 -10,-16!", dim)
    hand.area("40,-74! 56,-44 66,-16! 52,-13 40,-14!", cloth)
    hand.area("-92,-16! -50,-8 20,-7 70,-16! 62,8! -70,8! -84,-4", hull)
    hand.line("-88,-12 -40,-4 20,-3 66,-11", 2, cloth)


def jetty(b):
    """A jetty with two figures on it."""
    b.poly("250,236 440,206 440,226 256,252", "#3d3c3a")
    b.poly("250,236 440,206 440,211 252,241", "#a5a39b")
    for i in range(6):
        x = 268 + i * 32
        b.rod(f"{x},{238 - i * 4} {x - 1},{296 - i * 3}", 8, "#2b2a29")
        b.cut(x - 2, 246 - i * 4, x - 3, 288 - i * 3, 2, "#8d8b84")
    b.disc(352, 206, 5, "#2b2a29")
    b.area("344,232! 345,212 352,208 360,212 361,230!", "#2b2a29")
    b.area("388,226! 388,196 396,190 404,196 404,224!", "#454442")


def ketches():
    """PNG bytes: ketches at a jetty, a toned print with a white border, 440 by 320."""
    b = Block(440, 320, "#e6e4dc", 54, rough=0.3)
    for i in range(9):
        b.box(0, i * 19, 440, 22, f"#{200 - i * 2:02x}{200 - i * 2:02x}{198 - i * 2:02x}")
    for x, y, wide in ((70, 52, 70), (120, 64, 90), (330, 40, 84), (276, 58, 60)):
        b.disc(x, y, wide, "#dcdcd6", 13)
    b.area("0,168! 60,150 130,158 200,146 280,156 360,140 440,152! 440,190! 0,190!", "#8c8c88")
    b.box(0, 182, 440, 140, "#7a7b79")
    for i in range(90):
        y = 188 + (i * i * 7 + i * 13) % 120
        x = (i * 97) % 430
        b.cut(x, y, x + 12 + (y - 180) * 0.4, y, 1.4 + (y - 180) * 0.016, "#b9bab5" if i % 3 else "#5c5d5c")
    ketch(b.at(120, 204, 1.0), "#2c2c2c", "#f2f1ea", "#c4c4be")
    ketch(b.at(270, 192, 0.6), "#3a3a3a", "#e4e3dc", "#bdbdb7")
    jetty(b)
    rows = pixels.tone(pixels.shade(pixels.soften(pixels.render(b)), 0.86, 1.0, 1.0, 0.84), "#241c14", "#fdf3dc", 20, 54)
    return pixels.png(_border(rows, 14, "#f6efdd"))


def _border(rows, wide, paper):
    """The rows with their outermost pixels turned into a paper margin."""
    ink = list(map(float, pixels.rgb(paper)))
    high, across = len(rows), len(rows[0]) // 3
    edged = []
    for y, line in enumerate(rows):
        if y < wide or y >= high - wide:
            edged.append(ink * across)
        else:
            edged.append(ink * wide + line[3 * wide:-3 * wide] + ink * wide)
    return edged


def ram_photo():
    """PNG bytes: the carved ram in evening light, 360 by 360."""
    b = Block(360, 360, "#1c1712", 11, rough=0.3)
    for i in range(14):
        b.disc(120, 130, 250 - i * 15, f"#{30 + i * 5:02x}{24 + i * 4:02x}{18 + i * 3:02x}")
    ram(b.at(204, 182, 1.06), "#120c08", "#120c08", "#120c08", "#120c08")
    ram(b.at(180, 168, 1.04), "#2a1a10", "#6b452a", "#c08a55", "#b98d43")
    for x1, y1, x2, y2, wide in ((164, 104, 168, 220, 9), (96, 92, 82, 150, 8), (150, 270, 148, 316, 8), (226, 92, 250, 80, 7)):
        b.cut(x1, y1, x2, y2, wide, "#e9bd86")
    rows = pixels.soften(pixels.shade(pixels.render(b), 1.1, 1.0, 0.5, 0.72), 1)
    return pixels.png(rows)


def holly_scan():
    """PNG bytes: the sea holly plate as a museum scans it, with margin, shadow and colour strip, 380 by 360."""
    b = Block(380, 360, "#55565a", 14, rough=0.2)
    b.box(26, 18, 270, 330, "#3b3c40")
    b.box(20, 12, 270, 330, "#eadfbf")
    holly_plate(b.at(20, 8, 0.9))
    b.box(20, 12, 12, 330, "#d8caa2")
    for i, ink in enumerate(("#f4f4f2", "#c8c8c6", "#8f8f8e", "#5a5a5a", "#222222", "#b7352c", "#d9b338", "#3f7d4c", "#34679e", "#7b4a86")):
        b.box(316, 20 + i * 26, 40, 24, ink)
    for i in range(16):
        b.rod(f"316,{292 + i * 3.6} {336 if i % 5 else 350},{292 + i * 3.6}", 1.2, "#e8e8e6")
    return pixels.png(pixels.shade(pixels.render(b), 1.0, 1.02, 0.94, 0.95))
