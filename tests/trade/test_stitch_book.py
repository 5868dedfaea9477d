"""Stitches against the published lists: what each takes, makes and leans.

Expansions come from the lists named at the head of `templates/trade/stitches.yaml`; the counts follow from the way of
working, which every one of those lists describes the same.
"""

from __future__ import annotations

from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from castoff.trade import Trade, load_trade
from castoff.trade.stitch import Crossing
from castoff.trade.table import TradeTableError

# token, stitches taken, stitches made, lean on the right side of the fabric
PUBLISHED = """
k            1 1 -        p            1 1 -        k tbl        1 1 -        p tbl        1 1 -
sl           1 1 -        sl1k         1 1 -        sl1p         1 1 -        sl st        1 1 -
sl wyif      1 1 -        sl wyib      1 1 -        k1b          1 1 -        p1b          1 1 -
k2tog        2 1 right    k2tog tbl    2 1 left     k3tog        3 1 right    p2tog        2 1 right
p2tog tbl    2 1 left     p3tog        3 1 right    ssk          2 1 left     ssp          2 1 left
sssk         3 1 left     sssp         3 1 left     skp          2 1 left     sk2p         3 1 left
s2kp         3 1 centred  sp2p         3 1 -        dec          2 1 -        dec2         3 1 -
yo           0 1 -        yfwd         0 1 -        yrn          0 1 -        yon          0 1 -
yfrn         0 1 -        yo2          0 2 -        m1           0 1 -        m1l          0 1 left
m1r          0 1 right    m1p          0 1 -        m1lp         0 1 left     m1rp         0 1 right
kfb          1 2 -        kfbf         1 3 -        kfbfb        1 4 -        pfb          1 2 -
rli          1 2 right    lli          0 1 left     kyok         1 3 -        kpk          1 3 -
inc          1 2 -        inc2         1 3 -        puk          0 1 -        mb           1 1 -
RT           2 2 right    LT           2 2 left     C2B          2 2 right    C2F          2 2 left
C3B          3 3 right    C3F          3 3 left     C4B          4 4 right    C4F          4 4 left
C6B          6 6 right    C6F          6 6 left     T2B          2 2 right    T2F          2 2 left
T3B          3 3 right    T3F          3 3 left     T4B          4 4 right    T4F          4 4 left
w&t          0 0 -        brk          1 1 -        drop         1 0 -        ds           1 1 -
"""


def published_rows() -> list[tuple[str, int, int, str]]:
    rows = []
    for line in PUBLISHED.strip().splitlines():
        for at in range(0, len(line), 26):
            cell = line[at : at + 26].strip()
            name, takes, makes, lean = cell.rsplit(None, 3)
            rows.append((name, int(takes), int(makes), lean.replace("-", "")))
    return rows


@pytest.mark.parametrize(("token", "takes", "makes", "lean"), published_rows())
def test_counts_and_lean(trade: Trade, token: str, takes: int, makes: int, lean: str) -> None:
    stitch = trade.stitches.find(token)
    assert stitch is not None
    assert (stitch.takes, stitch.makes, stitch.lean) == (takes, makes, lean)
    assert stitch.change == makes - takes


def test_every_row_of_the_table_is_held_against_a_published_count(trade: Trade) -> None:
    # those without a published list behind them are the ones marked from memory
    held = {trade.stitches.find(name) for name, *_ in published_rows()}
    unheld = [stitch for stitch in trade.stitches.stitches if stitch not in held]
    assert [stitch.name for stitch in unheld if stitch.sources != ("m",)] == []


@pytest.mark.parametrize(
    ("name", "spellings"),
    [
        ("skp", ["SKP", "skpo", "sl1-k1-psso", "sl 1, k1, psso", "s1 k1 psso", "Sl1 k1 psso"]),  # cv, tr
        ("sk2p", ["SK2P", "sk2po", "sl1 k2tog psso", "sl 1, k2tog, psso"]),  # cv
        ("s2kp", ["S2KP", "S2KP2", "cdd", "CDD", "s2k1p"]),  # nn, cv
        ("k tbl", ["k1 tbl", "ktbl", "k-b", "k1-b", "K1tbl"]),  # sw
        ("p tbl", ["p1 tbl", "p1-b"]),  # sw
        ("k2tog tbl", ["k2tog-b", "k2togtbl", "K2TOG TBL", "k2tog-tbl"]),  # sw
        ("p2tog tbl", ["p2togb", "p2tog-b", "purl 2 together through the back loops"]),  # sw, cv
        ("k3tog", ["K3 tog", "k 3 tog", "knit 3 together"]),
        ("ssk", ["slip, slip, knit", "SSK"]),
        ("m1l", ["M1L", "m1-l"]),
        ("m1r", ["M1R", "m1-r"]),  # nn
        ("kfb", ["k1fb", "kf&b"]),
        ("pfb", ["p1fb"]),
        ("yo2", ["yo twice", "2yo", "yo 2", "double yarn over"]),
        ("w&t", ["w+t", "W&T", "wrap and turn"]),
        ("rli", ["RLI", "krl"]),
        ("lli", ["LLI", "kll"]),  # sq
        ("mb", ["MB"]),
        ("kyok", ["(k1, yo, k1) in 1", "k1-yo-k1"]),
        ("sl wyif", ["sl 1 wyif", "sl 1 pwise wyif"]),
        ("T3B", ["t3b"]),
        ("Cr3R", ["cr3r"]),
        ("2/2 RPC", ["2/2 rpc", "2/2RPC"]),
    ],
)
def test_spellings(trade: Trade, name: str, spellings: list[str]) -> None:
    for spelling in spellings:
        stitch = trade.stitches.find(spelling)
        assert stitch is not None, spelling
        assert stitch.name == name


def test_a_hyphen_tells_knit_below_from_through_the_back_loop(trade: Trade) -> None:
    below, twisted = trade.stitches.find("k1b"), trade.stitches.find("k1-b")
    assert below is not None
    assert twisted is not None
    assert (below.name, twisted.name) == ("k1b", "k tbl")


@pytest.mark.parametrize(
    "token", ["k5", "p12", "k0tog", "k1tog", "c1b", "0/2 LC", "frog", "", "yf", "yb", "2/2", "psso"]
)
def test_what_is_no_stitch(trade: Trade, token: str) -> None:
    assert trade.stitches.find(token) is None


@pytest.mark.parametrize(("slip", "meant"), [("k2tgo", "k2tog"), ("sskk", "ssk"), ("kbf", "kfb"), ("p2otg", "p2tog")])
def test_a_slip_of_the_pen_is_recognised(trade: Trade, slip: str, meant: str) -> None:
    assert meant in trade.stitches.near(slip)


@given(count=st.integers(2, 99), knit=st.booleans(), twisted=st.booleans())
def test_together_takes_its_number_and_makes_one(trade: Trade, count: int, knit: bool, twisted: bool) -> None:
    stitch = trade.stitches.find(f"{'k' if knit else 'p'}{count}tog{' tbl' if twisted else ''}")
    assert stitch is not None
    assert (stitch.takes, stitch.makes, stitch.loops) == (count, 1, 1)
    assert (stitch.lean, stitch.face) == ("left" if twisted else "right", "knit" if knit else "purl")
    assert str(count) in stitch.words


@given(over=st.integers(1, 20), under=st.integers(1, 20), letter=st.sampled_from("LR"), purl=st.booleans())
def test_a_cross_keeps_its_stitches(trade: Trade, over: int, under: int, letter: str, purl: bool) -> None:
    name = f"{over}/{under} {letter}{'P' if purl else ''}C"
    stitch = trade.stitches.find(name)
    assert stitch is not None
    assert stitch.crossing is not None
    assert (stitch.name, stitch.takes, stitch.makes) == (name, over + under, over + under)
    assert (stitch.crossing.over, stitch.crossing.under) == (over, under)
    assert stitch.crossing.under_worked == ("purl" if purl else "knit")
    mirror = trade.stitches.mirrored(stitch)
    assert mirror is not None
    assert trade.stitches.mirrored(mirror) == stitch
    assert {stitch.lean, mirror.lean} == {"left", "right"}


# The same crossing in letters and in slash notation: sq, tr2 and ya give the working, the slashes follow from it.
@pytest.mark.parametrize(
    ("letters", "slashed"),
    [
        ("C2B", "1/1 RC"), ("C2F", "1/1 LC"), ("C3B", "2/1 RC"), ("C3F", "2/1 LC"), ("C4B", "2/2 RC"),
        ("C4F", "2/2 LC"), ("C6B", "3/3 RC"), ("C6F", "3/3 LC"), ("T2B", "1/1 RPC"), ("T2F", "1/1 LPC"),
        ("T3B", "2/1 RPC"), ("T3F", "2/1 LPC"), ("T4B", "2/2 RPC"), ("T4F", "2/2 LPC"), ("C4R", "2/2 RC"),
        ("C4L", "2/2 LC"), ("Cr3R", "2/1 RPC"), ("Cr3L", "2/1 LPC"),
    ],
)  # fmt: skip
def test_lettered_cables_are_slashed_ones(trade: Trade, letters: str, slashed: str) -> None:
    first, second = trade.stitches.find(letters), trade.stitches.find(slashed)
    assert first is not None
    assert second is not None
    assert first.crossing == second.crossing


# Where the front group starts and ends, in cells from the right edge; the naming (C..B, RC: cable needle at the
# back, front
# stitches travel right) from knitting4knewbies.com 2018-10-14, the cells worked out by hand from the working.
@pytest.mark.parametrize(
    ("name", "starts", "ends"),
    [
        ("2/2 RC", [2, 3], [0, 1]),
        ("2/2 LC", [0, 1], [2, 3]),
        ("2/1 RPC", [1, 2], [0, 1]),
        ("2/1 LPC", [0, 1], [1, 2]),
        ("2/1/2 LC", [0, 1], [3, 4]),
        ("2/1/2 RPC", [3, 4], [0, 1]),
    ],
)
def test_where_the_front_of_a_cable_goes(trade: Trade, name: str, starts: list[int], ends: list[int]) -> None:
    stitch = trade.stitches.find(name)
    assert stitch is not None
    assert stitch.crossing is not None
    assert (list(stitch.crossing.over_starts), list(stitch.crossing.over_ends)) == (starts, ends)


def test_a_cable_says_how_it_is_worked(trade: Trade) -> None:
    # sq: "slip next 2 to cable needle at back, k2, p1 ..." for T3B is 1 to the needle: k2, p1 from it
    stitch = trade.stitches.find("T3B")
    assert stitch is not None
    assert stitch.how == "Slip next st to cable needle and hold at back, k2, then p1 from cable needle."
    assert stitch.crossing == Crossing(2, 1, "right", "purl")


# A decrease and its partner on the other side of a garment, as raglan and armhole lines pair them (common practice).
@pytest.mark.parametrize(
    ("stitch", "mirror"),
    [
        ("k2tog", "ssk"), ("ssk", "k2tog"), ("k3tog", "sssk"), ("sssk", "k3tog"), ("p2tog", "ssp"), ("ssp", "p2tog"),
        ("m1l", "m1r"), ("m1r", "m1l"), ("m1lp", "m1rp"), ("RT", "LT"), ("C4F", "C4B"), ("T3B", "T3F"),
        ("skp", "k2tog"), ("s2kp", "s2kp"), ("yo", "yo"), ("yon", "yfrn"), ("k", "k"), ("lli", "rli"),
    ],
)  # fmt: skip
def test_mirrors(trade: Trade, stitch: str, mirror: str) -> None:
    found = trade.stitches.find(stitch)
    assert found is not None
    turned = trade.stitches.mirrored(found)
    assert turned is not None
    assert turned.name == mirror


# What a chart's knit square means on a wrong-side row, and so on: vogueknitting.com, Reading charts, for k and p.
@pytest.mark.parametrize(
    ("right_side", "wrong_side"),
    [("k", "p"), ("p", "k"), ("k tbl", "p tbl"), ("k2tog", "p2tog"), ("ssk", "ssp"), ("p2tog", "k2tog"),
     ("k3tog", "p3tog"), ("sssk", "sssp"), ("yo", "yo"), ("sl wyib", "sl wyif"), ("m1l", "m1lp"), ("kfb", "pfb")],
)  # fmt: skip
def test_the_same_look_from_the_wrong_side(trade: Trade, right_side: str, wrong_side: str) -> None:
    stitch = trade.stitches.find(right_side)
    assert stitch is not None
    twin = trade.stitches.for_wrong_side(stitch)
    assert twin is not None
    assert twin.name == wrong_side
    assert (twin.takes, twin.makes) == (stitch.takes, stitch.makes)


def test_mirror_and_wrong_side_keep_the_count_of_every_stitch(trade: Trade) -> None:
    for stitch in trade.stitches.stitches:
        for partner in (trade.stitches.mirrored(stitch), trade.stitches.for_wrong_side(stitch)):
            # the lifted increases are counted as their sources count them, with and without the next stitch
            assert partner is None or partner.change == stitch.change, stitch.name


@pytest.mark.parametrize(
    ("text", "name", "rest"),
    [
        ("k2tog tbl, k1", "k2tog tbl", ", k1"),
        ("sl 1, k1, psso, k3", "skp", ", k3"),
        ("sl1, k2tog, psso; rep", "sk2p", "; rep"),
        ("yo twice, k2tog", "yo2", ", k2tog"),
        ("C4F, p2", "C4F", ", p2"),
        ("2/2 RC, p1", "2/2 RC", ", p1"),
        ("m1l; k1", "m1l", "; k1"),
        ("ssk.", "ssk", "."),
        ("k1 tbl, p1", "k tbl", ", p1"),
        ("Knit 2 together, k1", "k2tog", ", k1"),
        ("slip, slip, knit, p1", "ssk", ", p1"),
    ],
)
def test_the_longest_name_at_a_place_in_a_line(trade: Trade, text: str, name: str, rest: str) -> None:
    found = trade.stitches.match(f"Row 1: {text}", 7)
    assert found is not None
    assert (found[0].name, f"Row 1: {text}"[found[1] :]) == (name, rest)


@pytest.mark.parametrize("text", ["k2, p2", "pm, k3", "to end", "k1, tbl", "marker"])
def test_no_name_at_a_place(trade: Trade, text: str) -> None:
    assert trade.stitches.match(text) is None


def test_yarn_that_is_drawn(trade: Trade) -> None:
    # a slipped stitch draws none, a decrease one, kfb two, a four-stitch cable four; the bobble of bp seven
    drawn = {
        name: getattr(trade.stitches.find(name), "loops", None) for name in ("sl", "ssk", "kfb", "C4B", "mb", "w&t")
    }
    assert drawn == {"sl": 0, "ssk": 1, "kfb": 2, "C4B": 4, "mb": 7, "w&t": 0}


def test_words_for_reading_aloud(trade: Trade) -> None:
    spoken = {name: getattr(trade.stitches.find(name), "spoken", "") for name in ("k2tog", "skp", "k12tog", "ssk")}
    assert spoken == {
        "k2tog": "knit two together",
        "skp": "slip one, knit one, pass slipped stitch over",
        "k12tog": "knit 12 together",
        "ssk": "slip, slip, knit",
    }


def faulty(read: Callable[[str], str], old: str, new: str) -> str:
    """What the stitch table says once a line of it is spoilt."""
    text = read("trade/stitches.yaml")
    assert text.count(old) == 1
    with pytest.raises(TradeTableError) as caught:
        _ = load_trade(lambda name: text.replace(old, new)).stitches
    line = text[: text.index(old)].count("\n") + 1
    assert caught.value.line == line
    return str(caught.value).replace(f"line {line}", "line N")


def test_a_house_table_with_a_fault_names_file_line_and_entry(read_template: Callable[[str], str]) -> None:
    ssk = '  ssk: {words: "slip, slip, knit", takes: 2, makes: 1, kind: decrease'
    assert faulty(read_template, ssk, ssk.replace("takes: 2", "takes: two")) == (
        "trade/stitches.yaml, line N: stitches › ssk › takes: should be a number, and is `two`"
    )
    assert faulty(read_template, ssk, ssk.replace("takes: 2, ", "")) == (
        "trade/stitches.yaml, line N: stitches › ssk: has no `takes`"
    )
    assert faulty(read_template, ssk, ssk.replace("takes: 2", "take: 2, takes: 2")) == (
        "trade/stitches.yaml, line N: stitches › ssk › take: `take` is not a column of this table; is `takes` meant?"
    )
    assert faulty(read_template, ssk, ssk.replace("decrease", "decreese")) == (
        "trade/stitches.yaml, line N: stitches › ssk › kind: `decreese` is not known here; is `decrease` meant?"
    )
    assert faulty(read_template, "  ssp: {words", "  ssk: {words").endswith("stitches › ssk: is given twice")
    assert faulty(read_template, "mirror: m1r, wrong_side: m1lp", "mirror: m1rr, wrong_side: m1lp").endswith(
        "stitches › m1l › mirror: there is no stitch `m1rr`"
    )
    assert faulty(read_template, "also: [m1-r, m1kr", "also: [ssk, m1kr").endswith(
        "stitches › m1r: the spelling `ssk` already belongs to `ssk`"
    )
    assert faulty(read_template, "crossing: 1/1 right, also", "crossing: 2/1 right, also").endswith(
        "crosses 3 stitches, while the entry takes 2 and makes 2"
    )
    assert "{x} is never filled" in faulty(read_template, '"knit {n} together"', '"knit {x} together"')
