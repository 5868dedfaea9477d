"""The words of the trade brought to one form each, so that the grammar is written once.

In: a word in lower case. Out: its key ("stitches", "sts" and "st" are all "st"), its number when it is one ("twice"),
or its place in a count when it is one ("second").
"""

from __future__ import annotations

from types import MappingProxyType

_SAME = """
st: sts stitch stitches
rnd: rnds round rounds
row: rows
rep: repeat repeats reps repeating rpt
beg: beginning begin begins start starting starts
foll: follow follows following fol folls
alt: alternate
rem: remain remains remaining
patt: pat pattern
cont: continue continuing
m: marker mkr
ms: markers mkrs
dec: decs decrease decreases decreasing
decd: dec'd decreased
inc: incs increase increases increasing
incd: inc'd increased
meas: measure measures measuring measured
needle: needles ndl ndls
k: knit knits
p: purl purls
sl: slip slips
sm: slm
work: works
co: caston
between: bet btwn
approx: approximately
until: till til
tog: together
dpn: dpns
colour: color colours colors
from: frm
ws: wrongside
est: established
yarn: yarns
last: prev previous
end: ends
edge: edges
holder: holders
time: times
times: x ×
lh: left-hand
rh: right-hand
knitwise: kwise kw k-wise
purlwise: pwise pw p-wise
wyif: wyf
wyib: wyb
stockinette: stocking
pm: placemarker
n: ndle
seam: seams
piece: pieces
more: further additional
total: altogether
centre: center
turn: turning
each: ea
cable: cables
double-pointed: doublepointed
yos: yo's
inch: inches
rib: ribbing ribs
garter: g
buttonhole: buttonholes
ridge: ridges
hold: held
set-up: setup
circular: circ circs circulars
"""

_KEYS = {word: line.split(":")[0] for line in _SAME.strip().splitlines() for word in line.split(":")[1].split()}
_KEYS["time"] = _KEYS["times"] = "times"
KEYS = MappingProxyType(_KEYS)
"""Every other spelling of a word and the key it stands for; a word that is not here is its own key."""

_ONES = [
    "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve", "thirteen",
    "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen",
]  # fmt: skip
_TENS = ["twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"]
_TO_NINETY_NINE = _ONES + [f"{ten}-{one}" if one else ten for ten in _TENS for one in ("", *_ONES[:9])]

NUMBER_WORDS = MappingProxyType({word: number for number, word in enumerate(_TO_NINETY_NINE, start=1)})
"""Numbers in words, to ninety-nine."""

TIMES_WORDS = MappingProxyType({"once": 1, "twice": 2, "thrice": 3})
"""How often, in one word."""

ORDINAL_WORDS = MappingProxyType(
    {
        "first": 1, "second": 2, "third": 3, "fourth": 4, "fifth": 5, "sixth": 6, "seventh": 7, "eighth": 8,
        "ninth": 9, "tenth": 10, "eleventh": 11, "twelfth": 12,
    }
)  # fmt: skip
"""Places in a count, in words; figures ("4th") are read by the lexer."""

SHORTENED = frozenset(
    [
        "st",
        "sts",
        "rep",
        "foll",
        "rem",
        "beg",
        "cont",
        "patt",
        "pat",
        "alt",
        "approx",
        "rnd",
        "rnds",
        "dec",
        "inc",
        "tog",
        "meas",
        "incl",
        "prev",
        "bet",
        "est",
        "yo",
        "sl",
    ]
)
"""Words that are often written with a full stop that ends no sentence ("rep. from *")."""


def key_of(word: str) -> str:
    """The one form of a word given in lower case."""
    return KEYS.get(word, word)
