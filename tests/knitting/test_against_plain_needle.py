"""The symbolic needle against a plain one, stitch by stitch: rows and needles made up by hypothesis."""

from __future__ import annotations

from fractions import Fraction

from hypothesis import given, settings
from hypothesis import strategies as st
from tests.knitting.plans import GAUGES, TRADE
from tests.knitting.reference import Impossible, Plain

from castoff.knitting.acts import work
from castoff.knitting.loops import Needle
from castoff.knitting.plan import Plan
from castoff.knitting.row import RowWork
from castoff.knitting.setting import Reading, RowSetting
from castoff.notation.syntax import (
    Action,
    Count,
    MarkerAct,
    Repeat,
    Side,
    Stitch,
    StitchTo,
    Times,
    ToEnd,
    ToLast,
    ToMarker,
)
from castoff.span import SourceFile, Span

HERE = Span(SourceFile("row", "row"), 0, 3)
PLAN = Plan(("M",), (), TRADE.stitches, GAUGES)


def number(value: int) -> Count:
    return Count((value,), span=HERE)


NAMES = st.sampled_from(("k", "p", "sl", "k2tog", "ssk", "p2tog", "sk2p", "yo", "m1", "kfb"))
STITCHES = st.builds(lambda name, many: Stitch(name, number(many), span=HERE), NAMES, st.integers(0, 9))
MARKERS = st.builds(lambda act: MarkerAct(act, span=HERE), st.sampled_from(("place", "slip", "remove")))
TARGETS = st.one_of(
    st.just(ToEnd(span=HERE)),
    st.builds(lambda many: ToLast(number(many), span=HERE), st.integers(0, 6)),
    st.builds(lambda many: ToMarker(None, number(many), span=HERE), st.integers(0, 3)),
)
RUNS = st.builds(
    lambda name, target: StitchTo(name, target, span=HERE), st.sampled_from(("k", "p", "sl", "k2tog")), TARGETS
)
BODIES = st.lists(st.one_of(STITCHES, STITCHES, MARKERS), min_size=1, max_size=4).map(tuple)
TIMES = st.one_of(
    st.builds(
        lambda kind, many: Times(kind, number(many), span=HERE), st.sampled_from(("all", "more")), st.integers(0, 7)
    ),
    st.builds(lambda target: Times("to", target=target, span=HERE), TARGETS),
)
REPEATS = st.builds(lambda body, times: Repeat(body, times, span=HERE), BODIES, TIMES)
NESTED = st.builds(
    lambda body, times: Repeat((*body,), times, span=HERE), st.lists(REPEATS, min_size=1, max_size=2), TIMES
)
ROWS = st.lists(st.one_of(STITCHES, STITCHES, RUNS, REPEATS, MARKERS, NESTED), min_size=1, max_size=6).map(tuple)
NEEDLES = st.text(alphabet="kkkkkppppy|", min_size=1, max_size=40)


def needle_of(text: str) -> Needle:
    marks, faces = [], ""
    for letter in text:
        if letter == "|":
            marks.append((len(faces), ""))
        else:
            faces += letter
    return Needle(faces, marks=tuple(marks))


def text_of(needle: Needle) -> str:
    letters = list(needle.faces)
    for place, _ in reversed(needle.marks):
        letters.insert(place, "|")
    return "".join(letters)


@settings(max_examples=1500, deadline=None)
@given(NEEDLES, ROWS, st.sampled_from(("RS", "WS")))
def test_a_row_comes_to_the_same_stitch_by_stitch(text: str, acts: tuple[Action, ...], side: Side) -> None:
    needle = needle_of(text)
    if side == "WS":
        needle = Needle(needle.faces, len(needle.faces), needle.marks)
    plain = Plain(list(text_of(needle)) if side == "RS" else list(reversed(text_of(needle))), side == "WS")
    try:
        plain.work(acts)
        expected: str | None = "".join(plain.right + plain.left)
        if plain.stitches_left():
            expected = None
    except Impossible:
        expected = None
    row = RowWork(PLAN, 0, RowSetting(side, "flat"), Reading(), needle, HERE)
    row.start()
    work(row, acts)
    result = row.finish("row 1")
    if expected is None:
        assert result.faults, (text, acts, text_of(result.needle))
        return
    assert not result.faults, [fault.message for fault in result.faults]
    assert result.after == len(expected.replace("|", ""))
    made = text_of(result.needle)
    assert (made if side == "RS" else made[::-1]) == expected
    worked = sum(many for (_, name), many in result.tally if name != "yo")
    assert worked >= 0 and Fraction(result.after) == len(result.needle.faces)
