"""Shaping at one rate is folded: it must come to the same as every row worked, in every value that anybody reads.

Rows, markers and rates are made up by hypothesis, and knitted twice: folded, and row by row with the fold switched off.
Also the whole catalogue, at its own gauge and at the gauge of a thread, where folds are long.
"""

from __future__ import annotations

import re
from dataclasses import fields
from pathlib import Path
from unittest import mock

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.knitting.plans import ROOT, knitted, plan_of

from castoff.diagnostic import Checked
from castoff.knitting import fold, run
from castoff.knitting.fabric import Knitted
from castoff.knitting.knit import knit
from castoff.knitting.plan import Plan
from castoff.knitting.slope import Records
from castoff.notation.syntax import Form
from castoff.pipeline import prove_text
from castoff.report.data import write_json


def row_by_row(plan: Plan) -> Checked[Knitted]:
    with mock.patch.object(run, "_folding", return_value=None):
        return knit(plan)


def folded_rows(fabric: Knitted) -> int:
    """Rows that were not worked one by one."""
    pieces = [piece.records for size in fabric.sizes for piece in size.pieces.values()]
    return sum(len(records) - sum(1 for _ in records.worked()) for records in pieces if isinstance(records, Records))


def assert_same(plan: Plan) -> Knitted:
    folded, plain = knit(plan), row_by_row(plan)
    assert folded.findings == plain.findings
    assert folded_rows(plain.value) == 0
    for one, two in zip(folded.value.sizes, plain.value.sizes, strict=True):
        assert list(one.loops.items()) == list(two.loops.items())
        assert (one.needles, one.held, one.trusted) == (two.needles, two.held, two.trusted)
        assert list(one.pieces) == list(two.pieces)
        for name, piece in one.pieces.items():
            for each in fields(piece):
                assert getattr(piece, each.name) == getattr(two.pieces[name], each.name), (name, each.name)
            other = two.pieces[name].records
            # what comparing records leaves out, and reading from the other end
            assert [record.span for record in piece.records] == [record.span for record in other]
            assert list(reversed(piece.records)) == list(reversed(other))
            assert piece.records[-1:] == other[-1:]
        assert one.sections == two.sections
    return folded.value


# ------------------------------------------------------------------------------------------------ made-up shaping

EDGE = st.sampled_from(("", "k1, ", "k3, ", "p2, ", "k1, p1, k1, "))
SHAPED = st.sampled_from(("ssk, ", "k2tog, ", "m1l, ", "yo, ", "kfb, ", "sk2p, ", "yo, ssk, ", "k2tog, yo, ", ""))
MIDDLE = st.sampled_from(
    (
        "k to last 3 sts, ",
        "p to last 4 sts, ",
        "k to marker, m1r, sm, m1l, k to last 2 sts, ",
        "k to 2 sts before marker, k2tog, sm, ssk, k to last 2 sts, ",
        "k to 1 st before marker, kfb, sm, k to last 2 sts, ",
        "k to marker, sm, k to 3 sts before marker, ssk, k1, sm, k2tog, k to last 2 sts, ",
        "*k2, p2; rep from * to last 2 sts, ",
        "*k1, p1; rep from * to marker, sm, k to last 3 sts, ",
        "*k4, k2tog; rep from * to last 3 sts, ",
        "[k2, p1] 3 times, k to last 3 sts, ",
        "work in patt to last 2 sts, ",
        "k to 1 st before centre st, s2kp, k to last 2 sts, ",
        "k to 2 sts before marked st, k2tog, k marked st, ssk, k to last 2 sts, ",
        "k to marked st, yo, k1 (marked st), yo, k to last 3 sts, ",
        "p3, sl 2, k to last 5 sts, p3, ",
    )
)
END = st.sampled_from(("k to end", "k2tog, k to end", "m1r, k to end", "yo, k to end", "p to end", "ssk, k to end"))
PLAIN = st.sampled_from(("Knit", "Purl", "Work even in patt", "K1, p to last st, k1"))
SHAPING_ROW = st.builds(lambda *parts: "".join(parts), EDGE, SHAPED, MIDDLE, END)


@st.composite
def works(draw: st.DrawFn) -> tuple[str, Form]:
    form: Form = draw(st.sampled_from(("flat", "round")))
    row, unit = ("Row", "row") if form == "flat" else ("Rnd", "rnd")
    set_up = draw(st.sampled_from(("", "markers", "columns", "marked")))
    stitches = draw(st.integers(8, 220))
    if set_up == "marked":
        stitches += 1 - stitches % 2  # so that there is a centre stitch
    text = [f"Cast on {stitches} sts."]
    if form == "round":
        text.append("Place marker for beg of rnd and join to work in the round.")
    first = draw(st.integers(2, max(2, stitches // 3)))
    second = draw(st.integers(2, max(2, stitches // 3)))
    if set_up == "markers":
        text.append(f"Set-up {unit}: K{first}, pm, k{second}, pm, k to end.")
    elif set_up == "columns":
        text.append(f"Set-up {unit}: K{first}, pm, p{second}, pm, k to end.")
    elif set_up == "marked":
        text.append("Mark the centre st.")
    rows = draw(st.lists(st.one_of(SHAPING_ROW, SHAPING_ROW, PLAIN), min_size=1, max_size=3))
    text += [f"{row} {number}: {words}." for number, words in enumerate(rows, 1)]
    times = draw(st.integers(0, 70))
    every, then = draw(st.integers(1, 7)), draw(st.integers(1, 7))
    again = f"Rep {unit}s 1–{len(rows)}" if len(rows) > 1 else f"Rep {unit} 1"
    rates = (
        f"{again} {times} more times.",
        f"Rep {unit} 1 every {every}th {unit} {times} times, then every {then}th {unit} {times // 2} times.",
        f"{again} until {times + 4} sts rem.",
        f"Dec 1 st each end of every {every}th {unit} {times} times, then every {then}th {unit} {times} times.",
        f"Inc 1 st each end of next and every foll {every}th {unit} {times} times.",
        f"Bind off 2 sts at beg of next {times} {unit}s.",
    )
    text.append(draw(st.sampled_from(rates)))
    text.append(f"Knit {draw(st.integers(1, 9))} {unit}s.\nBind off all sts.")
    return "\n".join(text), form


@settings(max_examples=600, deadline=None)
@given(works())
def test_made_up_shaping_comes_to_the_same(work: tuple[str, Form]) -> None:
    text, form = work
    with mock.patch.object(fold, "FEWEST", 1):
        assert_same(plan_of(text, form=form))


# ------------------------------------------------------------------------------------------------ known shaping

RAGLAN = """
Cast on 80 sts.
Place marker for beg of rnd and join to work in the round.
Set-up rnd: K10, pm, k30, pm, k10, pm, k30.
Rnd 1: *K1, m1l, k to 1 st before marker, m1r, k1, sm; rep from * 3 more times.
Rep rnd 1 every 2nd rnd 100 times, then every 4th rnd 50 times.
"""
SLEEVE = (
    "Cast on 60 sts.\nWork 4 rows in St st.\nInc 1 st each end of every 6th row 60 times, then every 4th row 9 times."
)
CROWN = "Cast on 400 sts.\nRow 1: Ssk, k to last 2 sts, k2tog.\nRow 2: Purl.\nRep rows 1 and 2 until 20 sts rem."
PANEL = """
Cast on 90 sts.
Row 1: K1, m1l, [p2, k4] 6 times, k to last st, m1r, k1.
Row 2: Purl.
Rep rows 1 and 2 80 times.
"""
EVERY_THIRD = "Cast on 200 sts.\nDec 1 st each end of every 3rd row 60 times."


@pytest.mark.parametrize(
    ("work", "form", "rows"),
    [(RAGLAN, "round", 376), (SLEEVE, "flat", 330), (CROWN, "flat", 364), (PANEL, "flat", 130), (EVERY_THIRD, "flat", 150)],
    ids=["raglan", "sleeve", "crown", "panel", "every third"],
)  # fmt: skip
def test_long_shaping_is_folded(work: str, form: Form, rows: int) -> None:
    """At least so many rows of each, which leaves about four cycles of every rate."""
    assert folded_rows(assert_same(plan_of(work, form=form))) >= rows


def test_what_changes_on_the_way_is_worked_row_by_row() -> None:
    """A rib that divides every other time, and a marker that the decreases come up to."""
    rib = "Cast on 40 sts.\nRow 1: M1l, *k2, p2; rep from * to end.\nRow 2: K to last st, m1l, k1."
    ragged = plan_of(rib + "\nRep rows 1 and 2 20 times.")
    assert knit(ragged).findings
    assert_same(ragged)
    close = "Cast on 60 sts.\nSet-up row: K30, pm, k30.\nRow 1: K to 2 sts before marker, k2tog, sm, k to end."
    fabric = assert_same(plan_of(close + "\nRow 2: Purl.\nRep rows 1 and 2 40 times."))
    assert 0 < folded_rows(fabric) < 60


def test_rows_of_a_slope_are_written_out_alike() -> None:
    """One row, a part of the rows, and all of them, however they are asked for."""
    records = knitted(RAGLAN + "Bind off all sts.", form="round").sizes[0].pieces["Piece"].records
    every = list(records)
    assert len(records) == len(every) == 402
    assert [records[at] for at in range(len(records))] == every
    assert [records[at] for at in range(-len(records), 0)] == every
    assert list(reversed(records)) == every[::-1]
    for first in (0, 3, 57, 300, 401, -1, -300):
        assert list(records[first:]) == every[first:]
        assert list(records[first : first + 9]) == every[first : first + 9]
    assert [record.row for record in every] == list(range(1, 403))
    with pytest.raises(IndexError):
        records[402]


def finer(text: str, times: float) -> str:
    """A source at a gauge so many times as fine."""
    return re.sub(
        r"stitches: ([\d.]+), rows: ([\d.]+)",
        lambda match: f"stitches: {int(float(match[1]) * times)}, rows: {int(float(match[2]) * times)}",
        text,
    )


SOURCES = sorted(
    path
    for folder in ("patterns", "tests/typed_patterns", "tests/worked_examples")
    for path in (ROOT / folder).glob("*.yaml")
    if path.stem not in ("expected", "house", "shared")
)


@pytest.mark.parametrize("path", SOURCES, ids=lambda path: path.stem)
def test_the_catalogue_comes_to_the_same(path: Path) -> None:
    plan = prove_text(str(path), path.read_text("utf-8")).plan
    assert plan is not None
    assert_same(plan)


@pytest.mark.parametrize("path", SOURCES, ids=lambda path: path.stem)
def test_a_fine_gauge_comes_to_the_same_for_every_reader(path: Path) -> None:
    """Ten times the stitches: folds are long, and what no longer fits is found; rules and yarn read both alike."""
    text = finer(path.read_text("utf-8"), 3.2)
    folded = prove_text(str(path), text)
    with mock.patch.object(run, "_folding", return_value=None):
        plain = prove_text(str(path), text)
    assert write_json(folded.findings) == write_json(plain.findings)
    assert len(folded.accepted) == len(plain.accepted)
    assert folded.estimates == plain.estimates
    assert folded.plan is not None
    assert_same(folded.plan)
