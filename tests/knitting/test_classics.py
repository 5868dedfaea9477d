"""Classic arithmetic of the trade. *Common practice* where no source is named."""

from __future__ import annotations

from fractions import Fraction

import pytest
from tests.knitting.plans import counts, knitted

from castoff.knitting.fabric import PieceKnitted


def piece(work: str, sizes: tuple[str, ...] = ("One size",), form: str = "flat", size: int = 0) -> PieceKnitted:
    return knitted(work, sizes, form).sizes[size].pieces["Piece"]  # type: ignore[arg-type]


def test_a_wedge_crown_loses_a_stitch_in_each_wedge() -> None:
    """Eight wedges: 80, 72, 64 … 16, then 8 (common practice)."""
    work = """Cast on 80 sts. Join to work in the round.
Rnd 1: *K8, k2tog, pm; rep from * 6 more times, k8, k2tog. 72 sts.
Rnd 2: Knit.
Rnd 3: *K to 2 sts before marker, k2tog, sm; rep from * to end. 64 sts.
Rep last 2 rnds until 16 sts rem.
Next rnd: *K2tog; rep from * to end, removing markers. 8 sts.
Break yarn and draw through rem sts."""
    assert counts(work, form="round") == [80, 72, 72, 64, 64, 56, 56, 48, 48, 40, 40, 32, 32, 24, 24, 16, 8]


def test_a_pi_shawl_doubles_when_its_radius_does() -> None:
    """9, 18, 36, 72, 144: stitches double after 1, 3, 6 and 12 plain rounds (E. Zimmermann's rule, from memory)."""
    work = """Cast on 9 sts. Join to work in the round.
Knit 1 rnd.
Next rnd: *Yo, k1; rep from * to end. 18 sts.
Knit 3 rnds.
Next rnd: *Yo, k1; rep from * to end. 36 sts.
Knit 6 rnds.
Next rnd: *Yo, k1; rep from * to end. 72 sts.
Knit 12 rnds.
Next rnd: *Yo, k1; rep from * to end. 144 sts.
Bind off all sts."""
    shawl = piece(work, form="round")
    assert [step.stitches for step in shawl.outline] == [9, 18, 36, 72, 144]
    assert shawl.rows == 1 + 1 + 3 + 1 + 6 + 1 + 12 + 1


def test_a_raglan_grows_by_eight_stitches_in_every_increase_round() -> None:
    work = """Cast on 80 (88) sts. Join to work in the round.
Rnd 1: K12 (13), pm, k28 (31), pm, k12 (13), pm, k28 (31). 80 (88) sts.
Rnd 2: *K1, m1l, k to 1 st before marker, m1r, k1, sm; rep from * 3 more times. 88 (96) sts.
Rnd 3: Knit.
Rep rnds 2 and 3 19 (23) more times. 240 (280) sts.
Bind off all sts."""
    for size, (start, times) in enumerate(((80, 20), (88, 24))):
        raglan = piece(work, ("S", "M"), "round", size)
        assert raglan.records[-1].after == start + 8 * times
        assert {record.after - record.before for record in raglan.records} == {0, 8}


def test_a_triangle_shawl_grows_by_four_stitches_in_every_right_side_row() -> None:
    work = """Cast on 7 sts.
Row 1 (RS): K2, yo, k1, yo, pm, k1, yo, k1, yo, k2. 11 sts.
Row 2 (WS): K2, p to last 2 sts, k2.
Row 3: K2, yo, k to marker, yo, sm, k1, yo, k to last 2 sts, yo, k2. 15 sts.
Rep rows 2 and 3 20 more times. 95 sts.
Bind off all sts."""
    shawl = piece(work)
    assert shawl.records[-1].after == 7 + 4 * 22
    assert all(record.after - record.before == (4 if record.side == "RS" else 0) for record in shawl.records)


@pytest.mark.parametrize(("flap", "first", "left"), ((20, 11, 12), (28, 15, 16), (32, 17, 18)))
def test_a_heel_is_turned_until_every_stitch_is_in(flap: int, first: int, left: int) -> None:
    """Half the flap plus one, then a decrease across the gap in every row; what is left is half the flap plus two
    (common practice for the round heel)."""
    pairs = (flap - first - 3) // 2
    work = f"""Cast on {flap} sts.
Knit 2 rows.
Row 1 (RS): K{first}, ssk, k1, turn.
Row 2 (WS): Sl 1, p{2 * first - flap + 1}, p2tog, p1, turn.
Row 3 (RS): Sl 1, k to 1 st before gap, ssk, k1, turn.
Row 4 (WS): Sl 1, p to 1 st before gap, p2tog, p1, turn.
Rep rows 3 and 4 {pairs - 1} more times. {left} sts.
Bind off all sts."""
    heel = piece(work)
    assert heel.records[-1].after == left
    assert not heel.records[-1].short and heel.records[-2].short


def test_a_gusset_takes_back_what_was_picked_up() -> None:
    """Half the flap's rows on each side, then two off every other round until the leg's count is there again."""
    work = """Cast on 56 sts. Join to work in the round.
Knit 10 rnds.
The heel is worked back and forth over the first 28 sts of the rnd.
Place the other 28 sts on hold for the instep.
Row 1 (RS): *Sl 1, k1; rep from * to end.
Row 2 (WS): Sl 1, p to end.
Rep rows 1 and 2 13 more times.
Row 1 (RS): K15, ssk, k1, turn.
Row 2 (WS): Sl 1, p3, p2tog, p1, turn.
Row 3 (RS): Sl 1, k to 1 st before gap, ssk, k1, turn.
Row 4 (WS): Sl 1, p to 1 st before gap, p2tog, p1, turn.
Rep rows 3 and 4 4 more times. 16 sts.
Next rnd: K16, pick up and knit 14 sts along side of flap, pm, k28 held instep sts, pm,
  pick up and knit 14 sts along side of flap, k8. 72 sts.
Rnd 1: K to 3 sts before marker, k2tog, k1, sm, k to marker, sm, k1, ssk, k to end. 2 sts dec'd.
Rnd 2: Knit.
Rep rnds 1 and 2 until 56 sts rem.
Bind off all sts."""
    sock = piece(work, form="round")
    assert sock.records[-1].after == 56
    assert not sock.live


def test_a_yoke_is_divided_and_every_group_comes_back_whole() -> None:
    work = """Cast on 100 sts. Join to work in the round.
Knit 2 rnds.
Next rnd: K30, place next 20 sts on holder for left sleeve, cast on 6 sts,
  k30, place next 20 sts on holder for right sleeve, cast on 6 sts. 72 sts.
Knit 4 rnds.
Bind off all sts.
Return 20 held left sleeve sts to needles.
Join to work in the round.
Knit 4 rnds. 20 sts.
Bind off all sts.
Return 20 held right sleeve sts to needles.
Join to work in the round.
Knit 4 rnds. 20 sts.
Bind off all sts."""
    assert counts(work, form="round")[-1] == 20


def test_lengths_and_widths_come_from_the_gauge_of_each_row() -> None:
    work = "Cast on 40 sts.\nKnit 14 rows.\nWork in St st until piece measures 12 cm, ending with a WS row.\n"
    work += "Bind off all sts."
    body = piece(work)
    # 28 rows to 10 cm: 12 cm are 33.6 rows, 34 end with a wrong-side row
    assert body.rows == 34
    assert body.length_mm == Fraction(34 * 100, 28)
    assert body.width_at(20) == 40 * Fraction(100, 20)
    assert body.length_between(14, 34) == Fraction(20 * 100, 28)


def test_making_two_doubles_the_loops_and_nothing_else() -> None:
    from tests.knitting.plans import GAUGES, NEEDLES, TRADE, lines

    from castoff.knitting.knit import knit
    from castoff.knitting.plan import Plan, PlanSection

    def loops(make: int) -> int:
        read = lines("Cast on 10 sts.\nKnit 4 rows.\nBind off all sts.")
        section = PlanSection("Strap", "Strap", read, "flat", "stockinette", make=make)
        checked = knit(Plan(("M",), (section,), TRADE.stitches, GAUGES, ("A",), NEEDLES))
        assert not checked.findings
        return checked.value.stitches

    assert loops(1) == 10 + 40 + 10
    assert loops(2) == 2 * loops(1)
