"""Gaps, short rows, holders and parts; the outline that comes of them, and the yarn in the loops."""

from __future__ import annotations

from fractions import Fraction

import pytest
from tests.knitting.plans import counts, knitted, said

from castoff.notation.syntax import Form

SOUND: tuple[tuple[str, Form, str], ...] = (
    (
        "a shoulder in wrapped short rows",
        "flat",
        """Cast on 30 sts.
Knit 2 rows.
Short row 1 (RS): K to last 5 sts, w&t.
Short row 2 (WS): P to last 5 sts, w&t.
Short row 3: K to 5 sts before wrapped st, w&t.
Short row 4: P to 5 sts before wrapped st, w&t.
Next row (RS): K to end, picking up wraps as you come to them.
Next row (WS): P to end, picking up wraps as you come to them. 30 sts.
Bind off all sts.""",
    ),
    (
        "a short-row heel in the round",
        "round",
        """Cast on 40 sts. Join to work in the round.
Knit 5 rnds.
Row 1 (RS): K19, w&t.
Row 2 (WS): P18, w&t.
Row 3: K to 1 st before last turn, w&t.
Row 4: P to 1 st before last turn, w&t.
Rep rows 3 and 4 4 more times.
Next rnd: Knit. 40 sts.
Bind off all sts.""",
    ),
    (
        "a neck bound off in the middle, its sides worked apart",
        "flat",
        """Cast on 50 sts.
Knit 2 rows.
Next row (RS): K20, bind off next 10 sts, k to end. 40 sts.
Next row (WS): Purl. 20 sts.
Knit 2 rows.
Bind off all sts.
With WS facing, rejoin yarn to rem 20 sts.
Next row (WS): Purl.
Knit 2 rows.
Bind off all sts.""",
    ),
    (
        "a buttonhole closed by casting on over the gap",
        "flat",
        """Cast on 50 sts.
Knit 2 rows.
Row 1 (RS): K5, bind off 3 sts, k to end. 47 sts.
Row 2 (WS): K42, cast on 3 sts, k5. 50 sts.
Bind off all sts.""",
    ),
    (
        "a body that goes on across the gaps its sleeves have left",
        "flat",
        """Cast on 100 sts.
Knit 2 rows.
Next row (RS): K15, place next 20 sts on holder for left sleeve, k30,
  place next 20 sts on holder for right sleeve, k15. 60 sts.
Next row (WS): Purl. 60 sts.
Bind off all sts.
Return 20 left sleeve sts to needle.
Join to work in the round.
Knit 3 rnds.
Bind off all sts.
Return 20 right sleeve sts to needle.
Join to work in the round.
Knit 3 rnds.
Bind off all sts.""",
    ),
    (
        "cables by name and spelled out",
        "flat",
        """Cast on 20 sts.
Row 1 (RS): P4, c4f, k4, c4b, p4.
Row 2: K4, p12, k4.
Row 3: P4, 2/2 lc, k4, sl 2 to cn and hold at back, k2, k2 from cn, p4. 20 sts.
Bind off all sts.""",
    ),
    (
        "increases and decreases evenly",
        "flat",
        """Cast on 50 sts.
Row 1 (RS): Knit, increasing 10 sts evenly across. 60 sts.
Row 2: Purl.
Row 3: Dec 6 sts evenly across. 54 sts.
Bind off all sts.""",
    ),
)


@pytest.mark.parametrize(
    ("form", "work"), [(form, work) for _, form, work in SOUND], ids=[name for name, _, _ in SOUND]
)
def test_parts_are_knitted_through(form: Form, work: str) -> None:
    assert said(work, form=form) == []


@pytest.mark.parametrize(
    ("name", "before", "after", "rule"),
    (
        ("a neck bound off in the middle, its sides worked apart", "Purl. 20 sts", "Purl. 21 sts", "stated-total-off"),
        ("a buttonhole closed by casting on over the gap", "cast on 3", "cast on 4", "stated-total-off"),
        ("a buttonhole closed by casting on over the gap", "K42", "K41", "stitches-left-over"),
        ("a body that goes on across the gaps its sleeves have left", "k30,", "k31,", "too-few-stitches"),
        (
            "a body that goes on across the gaps its sleeves have left",
            "Return 20 left",
            "Return 21 left",
            "stitches-not-held",
        ),
        ("increases and decreases evenly", "Dec 6", "Dec 40", "no-even-spacing"),
        ("a shoulder in wrapped short rows", "K to last 5 sts", "K to last 35 sts", "too-few-stitches"),
    ),
)
def test_one_number_changed_is_found(name: str, before: str, after: str, rule: str) -> None:
    form, work = next((form, work) for known, form, work in SOUND if known == name)
    assert before in work
    found = said(work.replace(before, after, 1), form=form)
    assert found and found[0].startswith(rule), found


def test_a_turned_heel_must_take_in_every_stitch() -> None:
    work = """Cast on 20 sts.
Knit 2 rows.
Row 1 (RS): K11, ssk, k1, turn.
Row 2 (WS): Sl 1, p3, p2tog, p1, turn.
Row 3 (RS): Sl 1, k to 1 st before gap, ssk, k1, turn.
Row 4 (WS): Sl 1, p to 1 st before gap, p2tog, p1, turn.
Rep rows 3 and 4 2 more times, until all heel sts have been worked. 12 sts.
Bind off all sts."""
    assert said(work) == []
    assert said(work.replace("p3, p2tog", "p2, p2tog"))[0].startswith("stitches-left-over")


def test_the_outline_is_told_part_by_part() -> None:
    name = "a neck bound off in the middle, its sides worked apart"
    work = next(work for known, _, work in SOUND if known == name)
    outline = knitted(work).sizes[0].pieces["Piece"].outline
    assert [(step.part, step.stitches, step.rows) for step in outline] == [
        (0, 50, 2), (0, 40, 1), (0, 20, 3), (1, 20, 3),
    ]  # fmt: skip
    assert outline[0].width_mm == 250 and outline[0].height_mm == Fraction(200, 28)


def test_edges_say_where_the_fabric_begins_and_ends() -> None:
    piece = knitted("Cast on 40 sts.\nKnit 28 rows.\nBind off all sts.").sizes[0].pieces["Piece"]
    assert [(str(edge.kind), edge.stitches, edge.length_mm) for edge in piece.edges] == [
        ("cast on", 40, Fraction(200)), ("bind off", 40, Fraction(200)),
        ("left", 0, Fraction(100)), ("right", 0, Fraction(100)),
    ]  # fmt: skip


def test_yarn_is_counted_by_the_loop() -> None:
    loops = knitted("Cast on 40 sts.\nKnit 28 rows.\nBind off all sts.").sizes[0].loops
    assert sum(loops.values()) == 40 * 30


def test_seed_stitch_alternates() -> None:
    assert counts("Cast on 7 sts.\nWork 4 rows in seed st.\nBind off all sts.")[-1] == 7
