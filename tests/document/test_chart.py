"""Charts of stitch patterns: drawn from the rows, and read back to them."""

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from castoff.document.chart import read_back
from castoff.document.compose import _job
from castoff.document.edition import Edition
from castoff.document.job import Job
from castoff.document.tree import BulletList, ChartGrid, Figure, Paragraph, Polyline, plain_text
from castoff.pipeline import Proof, prove_text
from castoff.press import Press
from castoff.world import World

HEAD = """\
written_for: 1
title: Swatch
excerpt: true
skill: complex
sizes: {names: One size}
gauge:
  stockinette: {stitches: 20, rows: 28, over: 10 cm, needles: larger}
yarns:
  A: {colour: slate, weight: worsted}
  B: {colour: sand, weight: worsted}
  C: {weight: worsted}
needles:
  larger: {size: 5 mm}
stitches:
  knot: {takes: 1, makes: 1, words: make a knot, symbol: "●"}
  bead: {takes: 1, makes: 1, words: place a bead, symbol: "SIGN"}
  plain: {takes: 1, makes: 1, words: do nothing}
stitch_patterns:
"""
TAIL = """\
sections:
  - title: Swatch
    worked: flat
    gauge: stockinette
    work: |
      CO 43 sts.
      BO all sts.
"""


def proved(multiple: int, plus: int, *rows: str, worked: str = "flat", sign: str = "○") -> Proof:
    lines = "".join(f"      {row}\n" for row in rows)
    pattern = f"  shore:\n    multiple: {multiple}\n    plus: {plus}\n    worked: {worked}\n    chart: yes\n"
    pattern += f"    rows: |\n{lines}"
    return prove_text("swatch.yaml", HEAD.replace("SIGN", sign) + pattern + TAIL)


def refused(proof: Proof) -> list[str]:
    return [found.message for found in proof.findings if found.rule.name == "chart-impossible"]


def figures(proof: Proof) -> Iterator[Figure]:
    checked = Press(proof, World.beside(), Path()).compose(Edition("metric"))
    assert [found.message for found in checked.findings] == []
    for block in checked.value.blocks:
        if isinstance(block, Figure) and isinstance(block.content, ChartGrid):
            yield block


def grid(proof: Proof) -> ChartGrid:
    assert refused(proof) == []
    (figure,) = figures(proof)
    assert isinstance(figure.content, ChartGrid)
    return figure.content


def signs(chart: ChartGrid) -> list[str]:
    """Every row from left to right, as printed: the names of the signs, a dash where there is no stitch."""
    return [" ".join("-" if cell.no_stitch else cell.symbol or "·" for cell in row) for row in chart.rows]


def job_of(proof: Proof) -> Job:
    assert proof.pattern and proof.numbers and proof.knitted and proof.trade
    return _job(
        proof.pattern, proof.numbers, {}, proof.knitted, proof.trade, Edition("metric"), World.beside().template,
        (), (), None, None, None, {chart.name: chart for chart in proof.charts}, None,
    )  # fmt: skip


# ------------------------------------------------------------------------------------------------ drawn


def test_right_side_rows_run_from_right_to_left_and_wrong_side_rows_back() -> None:
    chart = grid(
        proved(4, 3, "Row 1 (RS): K1, *yo, k2tog, k2; rep from * to last 2 sts, p2.", "Row 2: K2, p to last st, k1.")
    )
    assert signs(chart) == ["p p k k k k p", "p p k k k2tog yo k"]
    assert chart.row_labels == (("2", "left"), ("1", "right"))


def test_rounds_all_run_from_right_to_left() -> None:
    chart = grid(
        proved(3, 0, "Rnd 1: *K1, p2; rep from * to end.", "Rnd 2: *K2, p1; rep from * to end.", worked="in the round")
    )
    assert signs(chart) == ["p k k", "p p k"]
    assert chart.row_labels == (("2", "right"), ("1", "right"))


def test_a_pattern_may_begin_on_the_wrong_side() -> None:
    chart = grid(proved(2, 0, "Row 1 (WS): *K1, p1; rep from * to end.", "Row 2: *K1, p1; rep from * to end."))
    assert signs(chart) == ["p k", "p k"]
    assert chart.row_labels == (("2", "right"), ("1", "left"))


def test_every_row_that_is_told_at_once_is_drawn() -> None:
    chart = grid(
        proved(
            2,
            0,
            "Row 1 (RS): *K2tog, yo; rep from * to end.",
            "Row 2 and all WS rows: Purl.",
            "Row 3: *Yo, ssk; rep from * to end.",
        )
    )
    assert signs(chart) == ["ssk yo", "k k", "yo k2tog"] or signs(chart) == ["k k", "ssk yo", "k k", "yo k2tog"]


def test_the_repeat_is_framed() -> None:
    chart = grid(proved(4, 3, "Row 1 (RS): K1, *yo, k2tog, k2; rep from * to last 2 sts, k2.", "Row 2: Purl."))
    assert chart.outlines == ((2, 0, 6, 2),)


def test_a_frame_moves_with_its_rows() -> None:
    rows = (
        "Row 1 (RS): K1, *p2, k2; rep from * to last 3 sts, k3.",
        "Row 2: Purl.",
        "Row 3: K3, *p2, k2; rep from * to last st, k1.",
    )
    assert grid(proved(4, 4, *rows)).outlines == ((1, 0, 5, 1), (3, 1, 7, 3))


def test_stitches_that_come_and_go_leave_squares_without_a_stitch() -> None:
    rows = (
        "Row 1 (RS): K1, *yo, k4, yo, k1; rep from * to end.",
        "Row 2: Purl.",
        "Row 3: K1, *ssk, k2, k2tog, k1; rep from * to end.",
    )
    chart = grid(proved(5, 1, *rows))
    assert signs(chart) == ["k - k2tog k k - ssk k", "k k k k k k k k", "k yo k k k k yo k"]
    (figure,) = figures(proved(5, 1, *rows))
    assert (
        plain_text(figure.caption)
        == "Chart of shore; the frame is the repeat; where a square is missing there is no stitch."
    )


def test_what_is_made_good_in_the_row_needs_no_gap() -> None:
    chart = grid(proved(10, 1, "Row 1 (RS): *K1, yo, k3, sk2p, k3, yo; rep from * to last st, k1.", "Row 2: Purl."))
    assert not any(cell.no_stitch for row in chart.rows for cell in row)


def test_a_stitch_that_makes_two_is_two_squares_wide() -> None:
    chart = grid(proved(3, 0, "Row 1 (RS): *Kfb, k2; rep from * to end.", "Row 2: Purl."))
    assert [[cell.columns for cell in row] for row in chart.rows] == [[1, 1, 1, 1], [1, 1, 2]]


def test_cables_span_their_squares_and_cross_as_they_say() -> None:
    front = grid(proved(6, 0, "Row 1 (RS): *C6F; rep from * to end."))
    back = grid(proved(6, 0, "Row 1 (RS): *C6B; rep from * to end."))
    assert [cell.columns for cell in front.rows[0]] == [6]
    (front_sign,), (back_sign,) = front.symbols, back.symbols
    assert front_sign.columns == 6
    assert front_sign.shapes != back_sign.shapes
    # the line of the group in front: to the left for C6F, drawn from the bottom up
    front_line, back_line = front_sign.shapes[0], back_sign.shapes[0]
    assert isinstance(front_line, Polyline) and isinstance(back_line, Polyline)
    assert [(round(x), round(y)) for x, y in front_line.points] == [(3, 1), (0, 0)]
    assert [(round(x), round(y)) for x, y in back_line.points] == [(0, 1), (3, 0)]


def test_colours_have_grounds_and_signs() -> None:
    rows = ("Rnd 1: *K2 A, k2 B; rep from * to end.", "Rnd 2: *P2 A, k1 C, k1 B; rep from * to end.")
    chart = grid(proved(4, 0, *rows, worked="in the round"))
    assert [plain_text(colour.meaning) for colour in chart.colours] == ["A: slate", "B: sand", "C"]
    assert [colour.symbol for colour in chart.colours] == ["", "yarn B", "yarn C"]
    assert len({colour.colour for colour in chart.colours}) == 3
    assert signs(chart) == ["· · p p", "· · · ·"]


def test_the_key_tells_both_sides_where_both_are_worked() -> None:
    chart = grid(proved(2, 0, "Row 1 (RS): *K2tog, yo; rep from * to end.", "Row 2: Purl."))
    meanings = {symbol.name: plain_text(symbol.meaning) for symbol in chart.symbols}
    assert meanings == {"k2tog": "knit 2 together", "yo": "yarn over", "k": "knit; on the wrong side: purl"}


def test_how_to_read_is_said_once_with_the_rules_that_hold() -> None:
    proof = proved(2, 0, "Rnd 1: *K1, p1; rep from * to end.", worked="in the round")
    blocks = Press(proof, World.beside(), Path()).compose(Edition("metric")).value.blocks
    lists = [b for b in blocks if isinstance(b, BulletList) and "square" in plain_text(b.items[0][0].inline)]  # type: ignore[union-attr]
    (told,) = lists
    said = [plain_text(block.inline) for item in told.items for block in item if isinstance(block, Paragraph)]
    assert "Worked in the round: read every row from right to left." in said
    assert not any(words.startswith("Worked flat") for words in said)


# ------------------------------------------------------------------------------------------------ refused


@pytest.mark.parametrize(
    ("rows", "message"),
    [
        (("Row 1 (RS): K1, *yo, k2tog; rep from * to end.",), "row 1 repeats 2 sts over 11"),
        (("Row 1 (RS): K5, yo, k2tog.",), "row 1 leaves 5 of 12 sts unworked"),
        (("Row 1 (RS): Knit.", "Row 2: Work in patt to end."), "row 2 is not told stitch by stitch"),
        (("Row 1 (RS): K14.",), "row 1 needs 2 more sts than the 12 that are there"),
        (("Row 1 (RS): K1 A, k1 B, k to end.",), "row 1 does not say the yarn of every stitch"),
        (("Row 1 (RS): K to marker, k1.",), "row 1 goes to a place that a chart does not have"),
        (("Row 1 (RS): Knit.", "Row 2: K1, C4F, k to end."),
         "row 2 works `c4f` on the wrong side, which looks like no stitch of the key"),
    ],
)  # fmt: skip
def test_rows_without_squares_are_refused(rows: tuple[str, ...], message: str) -> None:
    assert refused(proved(4, 0, *rows)) == [f"`shore` cannot be drawn as a chart: {message}"]


def test_a_stitch_without_a_sign_is_told() -> None:
    proof = proved(2, 0, "Row 1 (RS): *Plain, k1; rep from * to end.")
    found = Press(proof, World.beside(), Path()).compose(Edition("metric")).findings
    assert [each.message for each in found] == ["`plain` stands in a chart and has no sign"]


def test_two_stitches_with_one_sign_are_told() -> None:
    proof = proved(2, 0, "Row 1 (RS): *Knot, bead; rep from * to end.", sign="●")
    found = Press(proof, World.beside(), Path()).compose(Edition("metric")).findings
    assert [each.message for each in found] == ["row 1 of the chart of `shore` reads `bead` for `knot`"]


# ------------------------------------------------------------------------------------------------ read back

PIECES = st.sampled_from(
    ["k1", "k2", "p1", "p3", "yo, k2tog", "ssk, yo", "yo, k1, yo, sk2p", "knot", "sl 1", "k1 tbl", "m1l", "k2tog"]
)
CABLES = st.sampled_from(["C4F", "C4B", "2/1 RPC"])


@st.composite
def row_bodies(draw: st.DrawFn) -> list[str]:
    return draw(st.lists(st.one_of(PIECES, CABLES), min_size=1, max_size=6))


@given(st.lists(row_bodies(), min_size=1, max_size=4))
@settings(max_examples=80, deadline=None)
def test_a_chart_reads_back_to_its_rows(bodies: list[list[str]]) -> None:
    """Rows of any stitches, each over as many as the row before leaves, filled up with knits."""
    rows: list[str] = []
    width = 40
    for number, body in enumerate(bodies):
        side = "RS" if number % 2 == 0 else "WS"
        pieces = [
            piece for piece in body if side == "RS" or piece not in ("C4F", "C4B", "2/1 RPC", "yo, k1, yo, sk2p", "m1l")
        ]
        rows.append(f"Row {number + 1} ({side}): {', '.join([*pieces, 'k to end'])}.")
    proof = proved(width, 0, *rows)
    if refused(proof):
        return
    chart = grid(proof)
    (drawn,) = proof.charts
    job = job_of(proof)
    said = read_back(job, chart, flat=True)
    for row, read in zip(drawn.rows, said, strict=True):
        known = [job.trade.stitches.find(each.stitch) for each in row.worked]
        names = [("knot" if stitch is None else stitch.name, "") for stitch in known]
        assert list(read) == names


def test_a_grid_that_was_changed_reads_otherwise() -> None:
    proof = proved(4, 0, "Row 1 (RS): *K2tog, yo, k2; rep from * to end.", "Row 2: Purl.")
    chart = grid(proof)
    job = job_of(proof)
    told = read_back(job, chart, flat=True)
    first = chart.rows[-1]
    swapped = replace(chart, rows=(*chart.rows[:-1], (*first[:2], first[3], first[2])))
    turned = replace(chart, row_labels=tuple((number, "left") for number, _ in chart.row_labels))
    mirrored = replace(chart, rows=(*chart.rows[:-1], tuple(reversed(first))))
    assert told[0] == (("k2tog", ""), ("yo", ""), ("k", ""), ("k", ""))
    assert told != read_back(job, swapped, flat=True)
    assert told != read_back(job, mirrored, flat=True)
    assert told != read_back(job, turned, flat=True)
