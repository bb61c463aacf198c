"""Tables of letters: marks that are dropped, letters that look alike, letters that sound alike.

Facts about scripts as they are printed, from memory; not a rule of any office.
"""

DROPPED = dict.fromkeys(map(ord, (
    "™®©℠℗\u00ad\u200b\u200c\u200d\u2060\ufeff\u200e\u200f"
    "\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069"
)))
APOSTROPHES = "'’‘ʼ`´′＇"
CONJUNCTIONS = frozenset("& + and und et og och en y e i и és ve kai και ja n".split())
FIRMS = {"co": "company", "ltd": "limited", "bros": "brothers", "inc": "incorporated", "corp": "corporation"}  # at the end of a name
ARTICLES = frozenset("the a an le la les un une der die das ein eine el los las il lo gli l de het een o os as den det".split())

# Combining marks above and below Latin, Greek and Cyrillic letters; Hebrew points; Arabic vowel signs and the stretch.
# Marks of other scripts are letters in their own right (the vowels of Devanagari, the two strokes of kana) and stay.
POINTS = dict.fromkeys([
    *range(0x300, 0x370), *range(0x591, 0x5C8), *range(0x610, 0x61B), *range(0x64B, 0x660), 0x670, 0x640,
    *range(0x6D6, 0x6EE),
])

SPELT = str.maketrans({
    "ø": "o", "ł": "l", "đ": "d", "ð": "d", "þ": "th", "ı": "i", "ħ": "h", "ŧ": "t", "æ": "ae", "œ": "oe", "ŋ": "n", "ĸ": "k",
    "أ": "ا", "إ": "ا", "آ": "ا", "ٱ": "ا", "ى": "ي", "ک": "ك", "ی": "ي",
})

# Letters of other scripts that cannot be told from a Latin one in capitals (or as printed), in lower case.
ALIKE = str.maketrans({
    # Cyrillic
    "а": "a", "в": "b", "е": "e", "к": "k", "м": "m", "н": "h", "о": "o", "р": "p", "с": "c", "т": "t", "у": "y", "х": "x",
    "ѕ": "s", "і": "i", "ј": "j", "ԛ": "q", "ԝ": "w", "ԁ": "d", "ѵ": "v", "ӏ": "i", "ү": "y",
    # Greek
    "α": "a", "β": "b", "ε": "e", "ζ": "z", "η": "h", "ι": "i", "κ": "k", "μ": "m", "ν": "n", "ο": "o", "ρ": "p", "τ": "t",
    "υ": "y", "χ": "x", "ϲ": "c", "ϳ": "j",
    # Armenian, Latin beyond the alphabet of English
    "օ": "o", "ս": "u", "հ": "h", "ո": "n", "զ": "q", "ɑ": "a", "ɡ": "g", "ɩ": "i", "ʀ": "r", "ʙ": "b", "ɢ": "g", "ʜ": "h", "ɪ": "i",
    "ʟ": "l", "ɴ": "n", "ʏ": "y", "ᴀ": "a", "ᴄ": "c", "ᴅ": "d", "ᴇ": "e", "ᴊ": "j", "ᴋ": "k", "ᴍ": "m", "ᴏ": "o", "ᴘ": "p",
    "ᴛ": "t", "ᴜ": "u", "ᴠ": "v", "ᴡ": "w", "ᴢ": "z", "ꜱ": "s",
})

# Figures and signs that stand in for a letter, and letters easily taken for one another; only inside a word with letters.
STAND_INS = str.maketrans({
    "0": "o", "1": "l", "3": "e", "4": "a", "5": "s", "7": "t", "8": "b", "$": "s", "€": "e", "¢": "c", "£": "l",
    "|": "l", "!": "l", "@": "a", "i": "l",
})
PAIRS = (("rn", "m"), ("vv", "w"), ("cl", "d"))

SOUNDS = str.maketrans({
    # Cyrillic
    "а": "a", "б": "b", "в": "v", "г": "g", "д": "d", "е": "e", "ж": "zh", "з": "z", "и": "i", "й": "i", "к": "k", "л": "l", "м": "m",
    "н": "n", "о": "o", "п": "p", "р": "r", "с": "s", "т": "t", "у": "u", "ф": "f", "х": "h", "ц": "ts", "ч": "ch", "ш": "sh",
    "щ": "sh", "ъ": "", "ы": "i", "ь": "", "э": "e", "ю": "iu", "я": "ia", "і": "i", "ї": "i", "є": "e", "ґ": "g", "ђ": "d", "ј": "i",
    "љ": "l", "њ": "n", "ћ": "c", "џ": "dz",
    # Greek
    "α": "a", "β": "v", "γ": "g", "δ": "d", "ε": "e", "ζ": "z", "η": "i", "θ": "th", "ι": "i", "κ": "k", "λ": "l", "μ": "m", "ν": "n",
    "ξ": "x", "ο": "o", "π": "p", "ρ": "r", "σ": "s", "τ": "t", "υ": "i", "φ": "f", "χ": "h", "ψ": "ps", "ω": "o",
})
KANA = {code: code + 0x60 for code in range(0x3041, 0x3097)}  # hiragana to katakana

# Spellings heard alike, tried in this order (English first; common practice, no source).
HEARD = (
    ("ight", "it"), ("tsch", "ch"), ("sch", "sh"), ("ph", "f"), ("ck", "k"), ("qu", "kv"), ("x", "ks"),
    ("ce", "se"), ("ci", "si"), ("cy", "si"), ("ch", "#"), ("c", "k"), ("q", "k"), ("#", "ch"),
    ("tz", "s"), ("z", "s"), ("wh", "v"), ("w", "v"), ("th", "t"), ("dt", "t"), ("gh", "g"),
    ("ee", "i"), ("ea", "i"), ("ie", "i"), ("y", "i"), ("oo", "u"), ("ou", "u"), ("ai", "e"), ("ei", "e"),
    ("oa", "o"), ("ae", "e"), ("oe", "o"), ("ue", "u"), ("j", "i"),
)

UNEVEN = {
    "geese": "goose", "mice": "mouse", "feet": "foot", "teeth": "tooth", "men": "man", "women": "woman", "children": "child", "oxen": "ox",
    "fishes": "fish", "chevaux": "cheval", "oiseaux": "oiseau", "yeux": "oeil",
}

NUMBERS = dict(zip("0 1 2 3 4 5 6 7 8 9 10 11 12".split(), "zero one two three four five six seven eight nine ten eleven twelve".split()))

# Endings of plural and case that may be taken off a word of six letters or more, longest first, without accents (from memory; rough).
ENDINGS = {
    "latin": "owie ami lein chen ern ler lar ar or er en es ie iu e n s i a o y u".split(),
    "cyrillic": (
        "ого его ому ему ыми ими ами ями ыи ии ои ая яя ое ее ые ие ым им ых их ую юю ов ев еи ам ям ах ях ом ем"
        " а я о е ы и у ю ь и"
    ).split(),
    "greek": "ους ατα ια ος ας ης οι ες ου ων α ο η ι".split(),
}
