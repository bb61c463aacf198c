"""Pictures of animals: goose, hare, swans, otter, oystercatcher, cranes."""
from .block import Block

BLACK = "#1d1a18"


def goose_bird(b):
    """The goose itself."""
    b.area("112,58! 90,64 72,74! 74,80 96,80 112,82!", "#d97d31")
    b.area("108,62 116,48 134,46 146,60 146,82 134,110 134,132 158,140 204,134 244,140 290,126! 276,160 262,196 226,220 "
           "178,226 134,212 112,180 108,140 114,104 112,84", "#fbf8ef")
    b.area("158,158! 196,146 244,150 276,150! 254,180 220,198 184,196 164,180", "#c9cfc4")
    for i in range(4):
        b.line(f"{182 + i * 20},{160 + i * 1} {192 + i * 18},{176 - i * 1} {206 + i * 16},{182 - i * 5}", 3.4, "#8d9a90", 1.4)
    b.area("128,214! 150,222 178,226 226,220 262,196! 230,208 180,212 140,204!", "#c9cfc4")
    b.disc(122, 64, 4.4, BLACK)
    b.rod("74,77 104,75", 2, BLACK)
    for x in (158, 190):
        b.rod(f"{x},224 {x - 2},232", 6, "#d97d31")
    b.area("108,126! 122,134 138,128! 138,138! 122,144 106,138!", "#c43f35")
    b.area("112,138! 104,160 110,164! 120,142!", "#c43f35")


def goose():
    """A goose on a gatepost: a craft fair sheet in three flat inks."""
    b = Block(340, 340, "#f3ecda", 85, rough=0.3)
    b.disc(170, 170, 156, "#7fa38a")
    b.area("30,240! 90,214 160,224 240,206 312,234! 290,290 230,322 170,326 110,322 52,284", "#4f7a5c")
    for x in (74, 120, 222, 268):
        for k in range(3):
            b.cut(x + k * 7, 276, x + k * 9 - 8, 252 - k * 3, 4, "#7fa38a")
    b.poly("138,236 206,236 206,316 138,318", BLACK)
    b.poly("143,244 201,244 201,312 143,314", "#b98a5a")
    b.hatch([(143, 244), (201, 244), (201, 312), (143, 314)], 90, 9, 2.2, "#7b5330", 0.4)
    b.poly("130,226 214,226 214,240 130,240", BLACK)
    b.poly("134,229 210,229 210,236 134,236", "#d9ad76")
    goose_bird(b)
    b.ring(170, 170, 156, 4, BLACK)
    return b


def hare(hand, ink):
    """A leaping hare heading left, about 200 long, as one silhouette."""
    hand.area("-92,-18! -84,-32 -66,-40 -50,-38 -36,-62 -14,-84! -10,-72 -22,-46 -28,-34 0,-38 40,-44 74,-34 92,-22 108,-30! "
              "112,-20 100,-10 106,14 126,40 138,52! 118,50 94,34 72,16 44,10 4,8 -20,12 -52,34 -82,44! -86,36 -66,24 -50,6 "
              "-60,-4 -84,-8", ink)
    hand.area("-44,-42! -44,-66 -34,-94! -26,-76 -28,-52 -34,-38!", ink)
    hand.area("60,12! 84,44 116,66! 94,66 64,44 40,10!", ink)
    hand.area("-24,8! -46,20 -66,20! -60,12 -44,2!", ink)


def hare_vane():
    """A hare for a weathervane: a pattern sheet of the seventies."""
    rust, cream, brown = "#c8612c", "#f2e4c4", "#43291b"
    b = Block(360, 300, cream, 77, rough=0.4)
    for i, (size, ink) in enumerate(((150, "#e9a94a"), (124, "#dd8437"), (98, rust), (72, "#f0cf8a"))):
        b.disc(180, 150, size, ink, size * 0.92)
    b.area("0,236! 60,214 120,232 180,214 240,232 300,212 360,232! 360,310! 0,310!", "#7a7a3a")
    b.area("130,300! 138,262 180,232 222,262 230,300!", brown)
    b.hatch("140,296! 148,266 180,242 212,266 220,296!", 90, 10, 2.4, cream, 0.2)
    b.rod("180,130 180,246", 6, brown)
    b.rod("82,206 278,206", 5, brown)
    for side in (-1, 1):
        b.poly(f"{180 + side * 96},194 {180 + side * 116},206 {180 + side * 96},218", brown)
        b.line(f"{180},{224} {180 + side * 26},{214} {180 + side * 22},{194} {180 + side * 8},{190}", 4, brown)
    b.disc(180, 206, 9, brown)
    b.rod("64,168 300,168", 4, brown)
    b.poly("50,168 72,156 72,180", brown)
    b.poly("300,156 322,148 314,168 322,188 300,180", brown)
    hare(b.at(178, 122, 1.12), brown)
    b.disc(178 - 78, 122 - 27, 3.2, cream)
    for x, y, u, v in ((96, 104, 120, 98), (150, 96, 214, 92), (240, 96, 278, 112), (132, 152, 96, 164)):
        b.cut(x, y, u, v, 3.2, "#e9a94a")
    b.frame(0, 10, cream)
    b.frame(10, 4, brown)
    return b


def swan(hand, key, white, beak):
    """A swan heading right on its own reflection."""
    hand.area("-58,8! -64,-14 -48,-30! -34,-22 -10,-30 14,-18! 34,-12 40,-32 30,-58 36,-82 54,-90 68,-80 70,-72! 60,-70 50,-72 "
              "48,-58 58,-34 60,-8 46,12!", key)
    hand.area("-53,5! -58,-12 -47,-24! -34,-16 -10,-25 12,-13! 36,-6 45,-32 35,-58 40,-79 54,-85 63,-78! 56,-75 46,-74 43,-58 "
              "53,-34 55,-8 44,8!", white)
    hand.area("62,-80! 84,-70! 68,-68 60,-72!", beak)
    hand.disc(58, -78, 2.4, key)
    for i in range(4):
        hand.line(f"{-44 + i * 14},{-16 + i * 2} {-30 + i * 13},{-6 + i} {-14 + i * 12},{-8 + i}", 2.2, key, 1)
    for i in range(4):
        hand.cut(-56 + i * 8, 16 + i * 7, 52 - i * 8, 16 + i * 7, 3, white)


def swans():
    """Two swans in an oval with reeds: a hatter's trade card of the twenties."""
    green, gold = "#2f5b57", "#d8b25a"
    b = Block(400, 270, "#f5ead0", 20, rough=0.4)
    b.frame(8, 3, green)
    b.disc(200, 135, 176, gold, 114)
    b.disc(200, 135, 171, green, 109)
    b.area("46,150! 200,142 354,150! 336,200 270,232 200,241 130,232 64,200", "#20403e")
    b.disc(200, 84, 26, gold)
    swan(b.at(128, 166, 1.0), "#14211f", "#fbf5e4", "#e07b39")
    swan(b.at(272, 166, 1.0, flip=True), "#14211f", "#fbf5e4", "#e07b39")
    for side in (-1, 1):
        for i in range(4):
            x = 200 + side * (116 + i * 9)
            b.line(f"{x},{196 - i * 6} {x + side * 2},{150 - i * 4} {x + side * 6},{104 + i * 10}", 3, gold, 1.6)
            b.area(f"{x + side * 6 - 4},{114 + i * 10} {x + side * 6},{92 + i * 10} {x + side * 6 + 4},{114 + i * 10} {x + side * 6},{122 + i * 10}", gold)
    for x in (30, 370):
        for y in (30, 240):
            b.rays(x, y, 3, 15, 8, 6, green)
    return b


def otter_body(b, dark, fur, pale):
    """The otter on its back, and its mussel."""
    b.area("56,178! 40,152 30,118! 50,128 76,150 108,150 150,138 214,134 262,142 292,130 322,118 346,126 354,148 342,170 312,182 "
           "270,198 206,206 146,202 96,192", dark)
    b.area("62,174! 48,152 42,132! 56,142 78,156 108,156 150,144 214,140 264,148 296,136 322,124 341,131 348,148 337,165 310,176 "
           "268,191 206,199 146,195 98,186", fur)
    b.area("110,172! 150,156 214,152 262,162 290,156! 280,178 240,188 190,190 140,186", pale)
    b.disc(322, 126, 10, dark)
    b.disc(322, 126, 6, fur)
    b.area("330,140! 346,136 352,148 344,160 328,162 318,152", pale)
    b.disc(350, 146, 6, dark)
    b.disc(326, 140, 4, dark)
    b.line("340,156 346,160 352,158", 2, dark)
    for y in (150, 156, 162):
        b.line(f"338,{y} 352,{y + 6} 368,{y + 8}", 1.2, dark, 0.8)
    b.area("246,150! 236,126 216,118! 210,128 226,140 232,154!", dark)
    b.area("270,150! 270,124 254,110! 246,120 256,134 258,152!", dark)
    b.area("206,120! 214,100 238,90 258,96 262,108! 246,122 224,126", "#2b3550")
    b.area("214,116! 222,103 240,97 254,101! 240,112 226,118", "#6d7fa6")
    for x in (92, 116):
        b.area(f"{x},160! {x - 8},138 {x + 2},128 {x + 14},136 {x + 16},156!", dark)
    for i in range(13):
        b.cut(112 + i * 14, 192 - (i % 3) * 3, 122 + i * 14, 180 - (i % 3) * 3, 2.4, dark)
    for x, y, wide in ((30, 92, 60), (280, 84, 70), (150, 88, 40), (60, 240, 80), (230, 250, 90), (330, 222, 40)):
        b.cut(x, y, x + wide, y + 2, 4, "#e8efe9")


def otter():
    """An otter on its back with a mussel: a drawing by a living artist, licensed."""
    dark, fur, pale = "#3a2620", "#8a5a3c", "#e3c39a"
    b = Block(400, 280, "#e8efe9", 21, rough=0.35)
    b.area("0,60! 100,52 220,64 320,50 400,60! 400,280! 0,280!", "#9cc3c0")
    for i, (rx, ink) in enumerate(((188, "#7fb0af"), (160, "#9cc3c0"), (138, "#649b9d"))):
        b.disc(200, 166, rx, ink, rx * 0.46)
    otter_body(b, dark, fur, pale)
    b.frame(0, 10, "#e8efe9")
    b.frame(9, 2, dark)
    return b


def oystercatcher():
    """A wading bird in pen and one wash of orange."""
    b = Block(360, 290, "#f4efe2", 62, rough=0.4)
    for i in range(9):
        y = 206 + i * 8
        b.line(f"{20 + (i * 31) % 40},{y} {120 + (i * 17) % 60},{y + 3} {210 + (i * 23) % 60},{y - 2} {330 - (i * 13) % 40},{y + 1}",
               1.2, BLACK, 2)
    b.area("20,214! 80,204 130,208 160,214! 120,222 60,222!", "#cfc4a8")
    bird = b.at(186, 128)
    bird.area("-44,-44! -80,-36 -118,-20! -116,-14 -80,-24 -42,-32!", "#e2622b")
    bird.area("-52,-40 -46,-58 -26,-66 -8,-58 -2,-38 8,-26 48,-18 92,4 132,12! 104,22 60,34 20,40 -14,30 -32,8 -34,-16 -46,-28", BLACK)
    bird.area("-30,2! -4,16 36,20 84,18 116,14! 96,24 60,32 20,37 -12,28", "#fbf8ef")
    bird.area("4,4! 40,8 84,8 112,12! 80,15 36,16 8,12", "#fbf8ef")
    bird.disc(-34, -48, 5.4, "#e2622b")
    bird.disc(-34, -48, 2.4, BLACK)
    bird.hatch("-20,-50! -8,-34 10,-18 40,-10! 20,2 -8,-4 -24,-20!", 36, 7, 1.6, "#f4efe2", 0.3)
    for x, knee in ((12, 4), (36, 40)):
        bird.line(f"{x},36 {knee},62 {knee + 4},92", 5, "#e2622b", 4)
        for toe in (-16, -4, 10):
            bird.line(f"{knee + 4},92 {knee + toe},98", 3.4, "#e2622b", 2)
    for i in range(5):
        b.cut(176 + i * 12, 232 + i * 4, 236 + i * 8, 233 + i * 4, 3, BLACK)
    for x, y, h in ((310, 204, 60), (322, 206, 80), (334, 206, 52), (300, 206, 40)):
        b.line(f"{x},{y} {x + 4},{y - h / 2} {x + 12},{y - h}", 2.2, BLACK, 1)
    return b


def crane(hand, key, white, red):
    """A crane in flight heading right."""
    hand.area("-10,0! -40,-40 -84,-62 -112,-66! -92,-46 -98,-42 -76,-30 -82,-24 -58,-14 -64,-8 -30,8!", key)
    hand.area("-12,-1! -38,-34 -78,-54! -60,-38 -38,-14 -30,3!", white)
    hand.area("6,-2! 14,-46 40,-80 66,-94! 60,-72 68,-70 56,-52 62,-48 46,-30 50,-24 24,6!", key)
    hand.area("10,-4! 18,-42 40,-68! 40,-44 28,-14 22,2!", white)
    hand.area("-60,14! -30,0 10,-6 42,2 74,2 96,-8 104,-4! 96,4 76,12 44,14 10,18 -30,18!", white)
    hand.line("40,5 70,5 96,-6", 5, key)
    hand.area("94,-10! 104,-14 110,-6 102,0 94,-2!", white)
    hand.area("98,-12! 104,-15 109,-10!", red)
    hand.poly("108,-8 130,-4 108,-3", key)
    hand.line("-50,14 -80,20 -124,22", 2.6, key)
    hand.line("-50,16 -80,25 -122,29", 2.6, key)


def salt_pans(b):
    """The pans, and two heaps of salt."""
    for row, (y, high) in enumerate(((230, 18), (254, 24), (284, 30), (320, 28))):
        for k in range(4 + 1):
            x = 14 + k * (60 + row * 14) - row * 26
            left, right = max(16, x), min(304, x + 52 + row * 12)
            if right - left > 14:
                b.poly(f"{left},{y} {right},{y} {min(304, right - 5)},{y + high} {max(16, left - 5)},{y + high}",
                       ("#7d9fa6", "#9fb8b4", "#6a8f9b")[(k + row) % 3])
    for x, y in ((70, 262), (214, 300)):
        b.area(f"{x - 20},{y}! {x},{y - 26} {x + 20},{y}!", "#f4efe0")
        b.area(f"{x},{y - 26}! {x + 20},{y}! {x + 4},{y}!", "#b9b193")


def cranes():
    """A Japanese woodcut: two cranes over salt pans, shaded bands, a red seal."""
    b = Block(320, 360, "#efe6d2", 31, rough=0.3)
    sky = ("#20466b", "#345d82", "#56809c", "#84a4ae", "#b6c4b8", "#dccfae", "#e9c79a", "#e7b083")
    for i, ink in enumerate(sky):
        b.box(14, 14 + i * 27, 292, 28, ink)
    b.disc(222, 190, 36, "#c8442f")
    b.area("14,206! 60,192 104,200 150,186 210,198 260,188 306,200! 306,232! 14,232!", "#4c6a72")
    b.box(14, 226, 292, 122, "#cdbf98")
    salt_pans(b)
    crane(b.at(170, 132, 0.96), "#1d2530", "#f6f1e4", "#c8442f")
    crane(b.at(104, 206, 0.56), "#1d2530", "#f6f1e4", "#c8442f")
    b.box(276, 28, 18, 44, "#f0e2bd")
    for i in range(4):
        b.at(285, 35 + i * 10, turn=45).box(-2.6, -2.6, 5.2, 5.2, "#1d2530")
    b.box(276, 76, 18, 18, "#b8352a")
    b.ring(285, 85, 6, 2, "#f0e2bd")
    b.frame(0, 14, "#efe6d2")
    b.frame(13, 2, "#1d2530")
    return b
