"""Arithmetic that knitters know by heart, held against the needle.

Each example is a short excerpt in the words of a pattern. Its numbers come from the page named beside it, or are marked
*common practice*; a page that is wrong must be contradicted. The counts are read from the fabric, row by row.
"""

from __future__ import annotations

import re

import pytest

from castoff.diagnostic import Diagnostic
from castoff.knitting.fabric import PieceKnitted
from castoff.pipeline import Proof, prove_text

HEAD = """\
written_for: 1
title: Excerpt
excerpt: true
sizes:
  names: {names}
sections:
  - title: Work
    piece: Piece
    worked: {worked}
    work: |
"""


def proof_of(work: str, *, worked: str = "flat", names: str = "One size") -> Proof:
    lines = "".join(f"      {' '.join(line.split())}\n" for line in work.strip().splitlines())
    return prove_text("excerpt.yaml", HEAD.format(names=names, worked=worked) + lines)


def told(findings: tuple[Diagnostic, ...]) -> list[str]:
    return [f"{finding.rule.name}: {finding.message}" for finding in findings]


def knitted(work: str, *, worked: str = "flat", names: str = "One size", size: int = 0) -> PieceKnitted:
    """The piece of an excerpt that must be clean."""
    proof = proof_of(work, worked=worked, names=names)
    assert told(proof.findings) == []
    assert proof.knitted is not None
    return proof.knitted.sizes[size].pieces["Piece"]


def counts(piece: PieceKnitted) -> list[int]:
    """Stitches after every row, from the cast-on (row 0)."""
    return [piece.stitches_at(row) for row in range(piece.rows + 1)]


def only_finding(work: str, *, worked: str = "flat") -> Diagnostic:
    """The one finding of an excerpt that must have one."""
    findings = proof_of(work, worked=worked).findings
    assert len(findings) == 1, told(findings)
    return findings[0]


def numbers(finding: Diagnostic) -> set[int]:
    return {int(number) for number in re.findall(r"\d+", finding.message)}


# ---------------------------------------------------------------------------------------------- pi shawl

# "True Pi Shawl" blog by Alicia Marchant, and a half-pi shawl in an online magazine of winter 2014 (knitty.com): from
# 9, every round of increases doubles the stitches, and the plain rounds between double too: 1, 3, 6, 12, 24, 48.
# (Start and first four stretches as published; the rest is the same doubling.)
PI_PLAIN = (1, 3, 6, 12, 24, 48)


def pi_shawl(rounds_of_increases: int) -> str:
    lines = ["Cast on 9 sts. Join to work in the round, being careful not to twist."]
    for plain in PI_PLAIN[:rounds_of_increases]:
        lines.append(f"Knit {plain} rnds." if plain > 1 else "Next rnd: Knit.")
        lines.append("Inc rnd: *Yo, k1; rep from * to end.")
    return "\n".join(lines)


def test_a_pi_shawl_doubles_when_its_radius_has_doubled() -> None:
    expected = [9]
    for plain in PI_PLAIN:
        expected += [expected[-1]] * plain + [2 * expected[-1]]
    assert expected[-1] == 576
    assert counts(knitted(pi_shawl(6), worked="in the round")) == expected


@pytest.mark.parametrize(("rounds", "total"), [(1, 18), (2, 36), (3, 72), (4, 144), (5, 288), (6, 576)])
def test_each_total_of_a_pi_shawl_holds_and_the_one_beside_it_does_not(rounds: int, total: int) -> None:
    knitted(f"{pi_shawl(rounds)} {total} sts.", worked="in the round")
    finding = only_finding(f"{pi_shawl(rounds)} {total - 2} sts.", worked="in the round")
    assert finding.rule.name == "stated-total-off"
    assert {total, total - 2} <= numbers(finding)


# ---------------------------------------------------------------------------------------------- sock heels


# sheepshots.blogspot.com, 2005-10-13: heel of 18, knit 11, skp, knit 1, turn; 4 stay unworked; then 5, 6, 7, 8 and 9
# stitches between; 12 are left.
HEEL_18 = """
Cast on 18 sts.
Row 1 (RS): K11, skp, k1, turn.
Row 2 (WS): Sl 1, p5, p2tog, p1, turn.
Row 3: Sl 1, k6, skp, k1, turn.
Row 4: Sl 1, p7, p2tog, p1, turn.
Row 5: Sl 1, k8, skp, k1, turn.
Row 6: Sl 1, p9, p2tog, p1.
"""


def test_a_heel_of_18_turns_into_12() -> None:
    piece = knitted(f"{HEEL_18.strip()} 12 sts.")
    assert [record.after for record in piece.records] == [17, 16, 15, 14, 13, 12]


def test_a_heel_row_that_goes_one_stitch_too_far_is_found() -> None:
    finding = only_finding(HEEL_18.replace("p9, p2tog, p1.", "p10, p2tog, p1."))
    assert finding.rule.name == "too-few-stitches"
    assert {13, 14} <= numbers(finding)


# A knitters' forum (thread 52340, heel of 32): purl 18, p2tog, p1, turn; sl 1, k5, k2tog, k1, turn; then one stitch
# more before each gap. The number left, X/2 + 2 for a heel of X whose half is even, is derived.
HEEL_32 = """
Cast on 32 sts.
Row 1 (RS): Knit.
Row 2 (WS): P18, p2tog, p1, turn.
Row 3 (RS): Sl 1, k5, k2tog, k1, turn.
Row 4 (WS): Sl 1, p to 1 st before gap, p2tog, p1, turn.
Row 5 (RS): Sl 1, k to 1 st before gap, k2tog, k1, turn.
"""


def test_a_heel_of_32_turned_by_its_gaps_leaves_half_and_two() -> None:
    piece = knitted(
        HEEL_32
        + """
        Rep rows 4 and 5 four more times. 20 sts.
        Next row (WS): Sl 1, p to 1 st before gap, p2tog, turn.
        Next row (RS): Sl 1, k to 1 st before gap, k2tog, turn. 18 sts.
        """
    )
    assert piece.live == 32 // 2 + 2
    assert [record.after for record in piece.records] == [32, *range(31, 17, -1)]


# sheepshots.blogspot.com, 2005-10-13: 12 heel stitches, 13 picked up on each side, 18 of the instep: 56 round. (The
# page says that the needle with the heel has 23 after one pick-up; 12 and 13 are 25.)
def test_a_heel_needle_after_its_first_pick_up_has_25_and_not_the_23_of_the_page() -> None:
    work = "Cast on 12 sts.\nNext row (RS): K12, pick up and knit 13 sts along side of heel flap. {total} sts."
    assert knitted(work.format(total=25)).live == 12 + 13
    finding = only_finding(work.format(total=23))
    assert finding.rule.name == "stated-total-off"
    assert {23, 25} <= numbers(finding)


def test_a_gusset_comes_to_the_sum_of_heel_edges_and_instep() -> None:
    work = """
    Cast on 18 sts. Place these 18 sts on holder for instep.
    Cast on 12 sts.
    Next row (RS): K12, pick up and knit 13 sts along side of heel flap, k18 instep sts \
        from holder, pick up and knit 13 sts along other side of heel flap. 56 sts.
    """
    assert knitted(work).live == 12 + 13 + 18 + 13


# afghansforafghans sock class, 2010-02-06: 36 stitches on needles of 9, 18 and 9; the first decrease round of a wedge
# toe leaves 32.
def test_a_wedge_toe_takes_four_stitches_in_every_decrease_round() -> None:
    piece = knitted(
        """
        Cast on 36 sts. Join to work in the round, being careful not to twist.
        Set-up rnd: K9, pm, k18, pm, k9.
        Rnd 1: K to 3 sts before marker, k2tog, k1, sm, k1, ssk, k to 3 sts before marker, k2tog, k1, sm, k1, ssk, \
            k to end. 32 sts.
        Rnd 2: Knit.
        Rep rnds 1 and 2 five more times. 12 sts.
        """,
        worked="in the round",
    )
    assert counts(piece) == [36, 36, *(36 - 4 * n for n in range(1, 7) for _ in range(2))]


# ---------------------------------------------------------------------------------------------- crowns

# Knitters' forum threads on hat crowns: 78294 (108 = 9 wedges of 12; 110 = 11 of 10 or 10 of 11), 76143 (70 = 7 of 10
# or 10 of 7), 830 (55 = 5 of 11), 76143 (84 = 7 of 12 or 12 of 7; 88 = 8 of 11).
WEDGES = [(108, 9), (110, 11), (110, 10), (70, 7), (70, 10), (55, 5), (84, 7), (84, 12), (88, 8)]


@pytest.mark.parametrize(("stitches", "wedges"), WEDGES)
def test_a_wedge_crown_loses_one_stitch_a_wedge_in_every_decrease_round(stitches: int, wedges: int) -> None:
    wedge = stitches // wedges
    lines = [f"Cast on {stitches} sts. Join to work in the round, being careful not to twist."]
    for width in range(wedge - 2, 0, -1):
        lines += [f"Dec rnd: *K{width}, k2tog; rep from * to end.", "Next rnd: Knit."]
    lines.append(f"Next rnd: *K2tog; rep from * to end. {wedges} sts.")
    expected = [stitches]
    for left in range(wedge - 1, 1, -1):
        expected += [left * wedges] * 2
    expected.append(wedges)
    assert counts(knitted("\n".join(lines), worked="in the round")) == expected


def test_a_wedge_that_does_not_divide_the_round_is_found() -> None:
    # Knitters' forum thread 18399 prints "k5, k2tog" over 80 stitches: 11 repeats leave 3.
    finding = only_finding(
        """
        Cast on 80 sts. Join to work in the round, being careful not to twist.
        Rnd 1: *K5, k2tog; rep from * to end.
        """,
        worked="in the round",
    )
    assert finding.rule.name == "repeat-does-not-divide"
    assert {80, 7, 3} <= numbers(finding)


# Knitters' forum thread 147239: crowns over (k2, 22 rib) x 4 and (k2, 26 rib) x 4; 8 decreases in every 2nd round 6 (7)
# times, then in every round 4 (5) times: 96, 48, 16 and 112, 56, 16. The decreases lie here beside markers.
@pytest.mark.parametrize(("stitches", "slow", "middle", "quick"), [(96, 6, 48, 4), (112, 7, 56, 5)])
def test_eight_decreases_every_second_round_and_then_every_round(
    stitches: int, slow: int, middle: int, quick: int
) -> None:
    part = stitches // 4
    piece = knitted(
        f"""
        Cast on {stitches} sts. Join to work in the round, being careful not to twist.
        Set-up rnd: [K{part}, pm] 3 times, k{part}.
        Rnd 1: *K2, ssk, k to 2 sts before marker, k2tog, sm; rep from * twice more, k2, ssk, k to last 2 sts, k2tog.
        Rnd 2: Knit.
        Rep rnds 1 and 2 {slow - 1} more times. {middle} sts.
        Rep rnd 1 {quick} more times. 16 sts.
        """,
        worked="in the round",
    )
    steps = [stitches - 8 * n for n in range(1, slow + 1)]
    expected = [stitches, stitches, *(left for left in steps for _ in range(2))]
    expected += [middle - 8 * n for n in range(1, quick + 1)]
    assert counts(piece) == expected
    assert piece.live == 16


# ---------------------------------------------------------------------------------------------- yokes and raglans


# handmadestitchbystitch.wordpress.com, a summary of percentages for round yokes: 268 stitches, then x 3/4, x 2/3, x
# 3/5 by "k2, k2tog", "k1, k2tog" and "k1, k2tog, k2tog": 268, 201, 134, 80.
def test_a_round_yoke_goes_down_by_a_quarter_and_a_third() -> None:
    piece = knitted(
        """
        Cast on 268 sts. Join to work in the round, being careful not to twist.
        Next rnd: *K2, k2tog; rep from * to end. 201 sts.
        Knit 3 rnds.
        Next rnd: *K1, k2tog; rep from * to end. 134 sts.
        Knit 3 rnds.
        Next rnd: *K1, [k2tog] twice; rep from * to last 4 sts, [k2tog] twice. 80 sts.
        """,
        worked="in the round",
    )
    assert counts(piece) == [268, *[201] * 4, *[134] * 4, 80]


def test_the_last_yoke_round_does_not_divide_by_five_as_the_summary_has_it() -> None:
    # 134 x 3/5 is 80.4: the summary rounds it, a round of knitting cannot.
    finding = only_finding(
        """
        Cast on 134 sts. Join to work in the round, being careful not to twist.
        Next rnd: *K1, k2tog, k2tog; rep from * to end.
        """,
        worked="in the round",
    )
    assert finding.rule.name == "repeat-does-not-divide"
    assert {134, 5, 4} <= numbers(finding)


# A yarn company's leaflet of a raglan from the neck, three sizes: 33 (36, 39) stitches, 8 more in every increase row;
# 41 (44, 47) after one and 57 (60, 63) after two more pairs. Two at each of four lines every 2nd round: common
# practice.
@pytest.mark.parametrize(("size", "start"), [(0, 33), (1, 36), (2, 39)])
def test_a_raglan_grows_by_eight_in_every_increase_round(size: int, start: int) -> None:
    piece = knitted(
        """
        Cast on 33 (36, 39) sts. Join to work in the round, being careful not to twist.
        Set-up rnd: K10 (11, 12), pm, k6 (6, 7), pm, k11 (13, 13), pm, k6 (6, 7), pm.
        Rnd 1: *K1, m1l, k to 1 st before marker, m1r, k1, sm; rep from * 3 more times. 41 (44, 47) sts.
        Rnd 2: Knit.
        Rep rnds 1 and 2 twice more. 57 (60, 63) sts.
        """,
        worked="in the round",
        names="S (M, L)",
        size=size,
    )
    assert counts(piece) == [start, start, *(start + 8 * n for n in (1, 1, 2, 2, 3, 3))]


# ---------------------------------------------------------------------------------------------- triangle shawls


# Common practice: a triangle from the middle of its longest edge, two yarn overs at the centre stitch and one at each
# end in every right-side row, four stitches more each time.
@pytest.mark.parametrize("repeats", [1, 9, 40])
def test_a_triangle_shawl_grows_by_four_in_every_right_side_row(repeats: int) -> None:
    total = 7 + 4 * repeats
    piece = knitted(
        f"""
        Cast on 7 sts.
        Set-up row (WS): K3, pm, p1, pm, k3.
        Row 1 (RS): K2, yo, k to marker, yo, sm, k1, sm, yo, k to last 2 sts, yo, k2.
        Row 2 (WS): K2, p to last 2 sts, k2.
        Rep rows 1 and 2 {repeats - 1} more times. {total} sts.
        """
        if repeats > 1
        else f"""
        Cast on 7 sts.
        Set-up row (WS): K3, pm, p1, pm, k3.
        Row 1 (RS): K2, yo, k to marker, yo, sm, k1, sm, yo, k to last 2 sts, yo, k2. {total} sts.
        Row 2 (WS): K2, p to last 2 sts, k2.
        """
    )
    assert counts(piece) == [7, 7, *(7 + 4 * n for n in range(1, repeats + 1) for _ in range(2))]


def test_a_triangle_shawl_that_forgets_one_edge_is_found() -> None:
    finding = only_finding(
        """
        Cast on 7 sts.
        Set-up row (WS): K3, pm, p1, pm, k3.
        Row 1 (RS): K2, yo, k to marker, yo, sm, k1, sm, yo, k to end. 11 sts.
        """
    )
    assert finding.rule.name == "stated-total-off"
    assert {10, 11} <= numbers(finding)


# ---------------------------------------------------------------------------------------------- evenly across a row

# Each row with the page that gives its plan: the formula column of a yarn magazine's designer (2010): 124 + 14;
# moderndailyknitting.com: 48 + 6; knitabit.net: 100 + 10 round and 110 + 10 flat, 100 + 11; dummies.com: 40 + 4;
# woolpackyarn.com: 51 + 4, round and flat; a yarn company's lesson: 100 + 16, 140 + 21 and 48 + 12.
EVENLY = [
    ("124 in groups of 8 and 9", "flat", 124, "[K8, m1] twice, [k9, m1] 12 times.", 138),
    ("48 in groups of 8", "in the round", 48, "*K8, m1; rep from * to end.", 54),
    ("100 every 10th, round", "in the round", 100, "*K10, m1; rep from * to end.", 110),
    ("110 with 11 gaps, flat", "flat", 110, "K10, *m1, k10; rep from * to end.", 120),
    ("100 in groups of 9 and 10", "in the round", 100, "[K9, m1] 10 times, k10, m1.", 111),
    ("40 with 5 gaps", "flat", 40, "[K8, m1] 4 times, k8.", 44),
    ("51 after 13, 26, 39 and 51", "in the round", 51, "[K13, m1] 3 times, k12, m1.", 55),
    ("51 after 6, 19, 32 and 45", "flat", 51, "K6, m1, [k13, m1] 3 times, k6.", 55),
    ("100 every 6th, 4 left", "flat", 100, "[K6, m1] 16 times, k4.", 116),
    ("140 every 6th and 7th in turn", "flat", 140, "[K6, m1, k7, m1] 10 times, k6, m1, k4.", 161),
    ("48 with 2 at each end", "flat", 48, "K2, [m1, k4] 11 times, m1, k2.", 60),
]


@pytest.mark.parametrize(
    ("worked", "stitches", "row", "total"), [each[1:] for each in EVENLY], ids=[each[0] for each in EVENLY]
)
def test_a_published_plan_of_increases_uses_the_row_up(worked: str, stitches: int, row: str, total: int) -> None:
    unit = "rnd" if worked == "in the round" else "row"
    work = f"Cast on {stitches} sts.\nNext {unit}: {row} {total} sts."
    assert counts(knitted(work, worked=worked)) == [stitches, total]


@pytest.mark.parametrize(("stitches", "more"), [(124, 14), (51, 4), (100, 11), (140, 21), (48, 12), (112, 16)])
def test_evenly_across_is_taken_at_its_word(stitches: int, more: int) -> None:
    work = f"Cast on {stitches} sts.\nNext row: Knit, inc {more} sts evenly across. {stitches + more} sts."
    assert counts(knitted(work)) == [stitches, stitches + more]


def test_a_published_plan_that_forgets_nineteen_stitches_is_found() -> None:
    # knitabit.net: 120 stitches, 10 more, "every 10th stitch 9 times and every 11th 1 time": 9 x 10 + 11 are 101.
    finding = only_finding("Cast on 120 sts.\nNext row: [K10, m1] 9 times, k11, m1.")
    assert finding.rule.name == "stitches-left-over"
    assert {101, 120, 19} <= numbers(finding)


# ---------------------------------------------------------------------------------------------- shaping over rows


# A hints page known as "the magic formula": 36 changes over 140 rows are every 3rd row 4 times and every 4th row 32
# times. designyourownsweater.blogspot.com, 2007-01: 42 changes over 176 rows, every 4th row 34 times and every 5th
# row 8 times, from 72 stitches to 156.
@pytest.mark.parametrize(("start", "rows", "first", "second"), [(72, 140, (3, 4), (4, 32)), (72, 176, (4, 34), (5, 8))])
def test_shaping_rows_are_spread_over_all_the_rows_there_are(
    start: int, rows: int, first: tuple[int, int], second: tuple[int, int]
) -> None:
    changes = first[1] + second[1]
    piece = knitted(
        f"""
        Cast on {start} sts. Join to work in the round, being careful not to twist.
        Knit {first[0] - 1} rnds.
        Inc rnd: K1, m1l, k to last st, m1r, k1. {start + 2} sts.
        Rep inc rnd every {first[0]}{"rd" if first[0] == 3 else "th"} rnd {first[1] - 1} more times, then every \
            {second[0]}th rnd {second[1]} times. {start + 2 * changes} sts.
        """,
        worked="in the round",
    )
    places = [first[0] * n for n in range(1, first[1] + 1)]
    places += [places[-1] + second[0] * n for n in range(1, second[1] + 1)]
    assert places[-1] == rows
    assert counts(piece) == [start + 2 * sum(place <= row for place in places) for row in range(rows + 1)]


# ---------------------------------------------------------------------------------------------- buttonholes


# knittingrobin.blogspot.com, 2012-09-05: a band of 100 with 7 buttonholes of 4, 3 at each end, 11 in each of 6
# spaces. carolina22nstitches.blogspot.com, 2010-07-03: 138 with 24 above and 6 below, 5 buttonholes of 4, 22 in each
# of 4 spaces.
@pytest.mark.parametrize(
    ("band", "before", "space", "after", "holes", "width"), [(100, 3, 11, 3, 7, 4), (138, 24, 22, 6, 5, 4)]
)
def test_a_row_of_buttonholes_uses_the_band_up_and_the_next_row_restores_it(
    band: int, before: int, space: int, after: int, holes: int, width: int
) -> None:
    left = band - holes * width
    piece = knitted(
        f"""
        Cast on {band} sts.
        Row 1 (RS): K{before}, [bind off next {width} sts, k{space}] {holes - 1} times, bind off next {width} sts, \
            k{after}. {left} sts.
        Row 2: K{after}, [cast on {width} sts, k{space}] {holes - 1} times, cast on {width} sts, k{before}. {band} sts.
        """
    )
    assert piece.live == before + after + holes * width + (holes - 1) * space
    assert counts(piece) == [band, left, band]
