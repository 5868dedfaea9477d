"""Published pattern arithmetic, worked out by formulas.

Sources, each worked again by hand: G1 double-ewe-yarn.com "Gauge Schmauge"; G2 aknitica.com 2014; G3 mathsmagics.com 2021;
G4 knit-nottingham.blogspot.com 2011; G5 lovelyjubblyknits.blogspot.com 2015; G6 pressreader, Creative Knitting 2016; S1
knittingunplugged.com 2016; S5 kristentendyke.com 2015; S6 interweave.com "Plan your own top-down raglan"; M4
designyourownsweater.blogspot.com 2007; W woolpackyarn.com; E2 "Elizabeth Zimmermann yoke cheat sheet",
handmadestitchbystitch.wordpress.com; C1–C4 knittinghelp forum 147239, 78294, 76143, 830; S3/S4 zaftigknitting.com 2011 and
blog.knittingboard.com 883 (sock cast-on); H3 snapperknits.blogspot.com 2009; H4, H5 sock heels; R2 menwhoknit.com; R3
indigirl.com 2010; B1 knittingrobin.blogspot.com 2012; B2 carolina22nstitches.blogspot.com 2010; Y4 kddandco.com 2018.
"""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

import pytest

from castoff.grading.evaluate import evaluate
from castoff.model.pattern import Pattern
from castoff.trade import Trade

Make = Callable[..., Pattern]


def worked_out(make: Make, trade: Trade, formulas: str, gauge: str) -> dict[str, str]:
    graded = evaluate(make(formulas, gauge=f"  st: {{{gauge}}}"), trade)
    assert [finding for finding in graded.findings if finding.severity == "error"] == []
    told = {}
    for entry in graded.value.entries:
        if entry.plan is not None and entry.plan.plans[0] is not None:
            told[entry.name] = entry.plan.plans[0].words
        elif entry.values is not None and entry.values[0] is not None:
            told[entry.name] = entry.values[0].words
    return told


@pytest.mark.parametrize(
    ("gauge", "formulas", "expected"),
    [
        # gauge: stitches to a width and back
        ("stitches: 18, rows: 24, over: 4 in", "x: nearest(width(204) * 100 / 2.54 / 1 cm) / 100", "45.33"),  # W
        ("stitches: 4.25, rows: 6, over: 1 in", "x: nearest(width(184) * 100 / 2.54 / 1 cm) / 100", "43.29"),  # G1
        ("stitches: 4.5, rows: 6, over: 1 in", "x: nearest(width(184) * 100 / 2.54 / 1 cm) / 100", "40.89"),  # G1
        ("stitches: 3.5, rows: 6, over: 1 in", "x: nearest(width(184) * 100 / 2.54 / 1 cm) / 100", "52.57"),  # G1
        ("stitches: 4.5, rows: 6, over: 1 in", "x: width(144) / 2.54 / 1 cm", "32"),  # G2
        ("stitches: 3, rows: 6, over: 1 in", "x: nearest(width(160) * 100 / 2.54 / 1 cm) / 100", "53.33"),  # G3
        ("stitches: 5.5, rows: 7, over: 1 in", "x: nearest(width(128 - 2) * 100 / 2.54 / 1 cm) / 100", "22.91"),  # G4
        ("stitches: 22, rows: 30, over: 10 cm", "x: stitches(48 cm)", "106 stitches"),  # G5
        ("stitches: 5.5, rows: 7, over: 1 in", "x: stitches(9 in, to=up)", "50 stitches"),  # S1
        ("stitches: 5.5, rows: 7, over: 1 in", "x: stitches(13 in, to=up)", "72 stitches"),  # S1
        ("stitches: 28, rows: 40, over: 10 cm", "x: stitches(26 cm, multiple_of=2, to=down)", "72 stitches"),  # M4
        ("stitches: 28, rows: 40, over: 10 cm", "x: rows(49 cm)", "196 rows"),  # M4
        ("stitches: 28, rows: 40, over: 10 cm", "x: stitches(56 cm, multiple_of=2, to=down)", "156 stitches"),  # M4
        ("stitches: 6, rows: 8, over: 1 in", "x: 46 - count(7.25 in * gauge.st.stitches)", "2.5"),  # G6
        # a yoke in percentages of the body's stitches (E2)
        ("stitches: 5, rows: 7, over: 1 in", "k: stitches(40 in)\nx: k + 2 * 66 - 4 * nearest(k * 8%)", "268 stitches"),
        ("stitches: 5, rows: 7, over: 1 in", "x: nearest(268 * 3 / 4)", "201"),
        ("stitches: 5, rows: 7, over: 1 in", "x: nearest(201 * 2 / 3)", "134"),
        ("stitches: 5, rows: 7, over: 1 in", "x: nearest(134 * 3 / 5)", "80"),
        ("stitches: 5, rows: 7, over: 1 in", "x: up(nearest(268 * 2 / 3) * 2 / 3)", "120"),
        # raglan: S5, and 102 sts round 22 in, 184 round 40 in at one gauge of 4.6 (S6)
        ("stitches: 4.6, rows: 6, over: 1 in", "x: stitches(40 in)", "184 stitches"),
        ("stitches: 4.6, rows: 6, over: 1 in", "x: stitches(22 in, multiple_of=2, to=up)", "102 stitches"),
        ("stitches: 4.6, rows: 6, over: 1 in", "x: stitches(13 in)", "60 stitches"),
        # crowns (C1): 8 decreases every 2nd round 6 times, then every round 4 times
        ("stitches: 20, rows: 28, over: 10 cm", "x: 96 - 8 * 6 - 8 * 4", "16"),
        ("stitches: 20, rows: 28, over: 10 cm", "x: evenly(9, across=108, worked=round, uses=2)", "[k10, k2tog] 9 times"),
        ("stitches: 20, rows: 28, over: 10 cm", "x: evenly(11, across=110, worked=round, uses=2)", "[k8, k2tog] 11 times"),
        ("stitches: 20, rows: 28, over: 10 cm", "x: evenly(10, across=70, worked=round, uses=2)", "[k5, k2tog] 10 times"),
        ("stitches: 20, rows: 28, over: 10 cm", "x: evenly(5, across=55, worked=round, uses=2)", "[k9, k2tog] 5 times"),
        # socks: 8.5 in at 4.75 to the inch, 10 % less, a multiple of 4 (S3, S4); toe-up heel (H3); flap (H5)
        ("stitches: 4.75, rows: 6, over: 1 in", "x: stitches(8.5 in * 0.9, multiple_of=4)", "36 stitches"),
        ("stitches: 8, rows: 11, over: 1 in", "a: 63\nb: 33\nx: (a + b) / 2 - 1", "47"),
        ("stitches: 8, rows: 11, over: 1 in", "b: 33\nx: (b - 1) / 2", "16"),
        # picked-up stitches: a band of 20 in at 16 sts and 24 rows to 4 in (R2)
        ("stitches: 16, rows: 24, over: 4 in", "x: stitches(length(120))", "80 stitches"),
        # 142 sts over 216 rows: 68 gaps of one row and 74 of two (R3, the split is ours)
        ("stitches: 16, rows: 24, over: 4 in", "x: spread(142, over=216)",
         "every row 68 times, then every 2nd row 74 times"),
        # buttonholes: spaces between them (B1, B2)
        ("stitches: 20, rows: 28, over: 10 cm", "x: steps(100 - 2 * 3 - 7 * 4, over=6)", "11 sts 6 times"),
        ("stitches: 20, rows: 28, over: 10 cm", "x: steps(110 - 2 * 3 - 7 * 3, over=6)",
         "14 sts 5 times, then 13 sts once"),
        ("stitches: 20, rows: 28, over: 10 cm", "x: steps(138 - 24 - 6 - 5 * 4, over=4)", "22 sts 4 times"),
        # 8 in more at 5 rows to the inch (Y4)
        ("stitches: 4, rows: 5, over: 1 in", "x: count(rows(8 in)) * 140", "5600"),
    ],
)  # fmt: skip
def test_published(gauge: str, formulas: str, expected: str, make: Make, trade: Trade) -> None:
    assert worked_out(make, trade, formulas, gauge)["x"] == expected


def test_a_published_slip_is_refuted() -> None:
    """120 sts, increase 10: "every 10th stitch 9 times and every 11th once" leaves nineteen stitches unaccounted for."""
    assert 9 * 10 + 1 * 11 == 101
    from castoff.grading.shaping import evenly

    plan = evenly(10, 120, worked="flat")
    assert plan.stitches == 120
    assert plan.words == "k6, m1, [k12, m1] 9 times, k6"


def test_a_published_yoke_depth(make: Make, trade: Trade) -> None:
    """Yoke depth is a quarter of the body: 10 in of 40, which are 66, 70 or 75 rounds at 6.6, 7 and 7.5 (E2)."""
    for rows, expected in ((Fraction(66, 10), "66 rows"), (7, "70 rows"), (Fraction(75, 10), "75 rows")):
        gauge = f"stitches: 5, rows: {float(rows):g}, over: 1 in"
        assert worked_out(make, trade, "x: rows(40 in / 4)", gauge)["x"] == expected
