"""The other side of a section, as words and as stitches: every row is knitted both ways and held against the other."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from castoff.knitting.fabric import Done, Worked
from castoff.pipeline import Proof, prove_text
from castoff.trade import load_trade
from castoff.world import World

HEAD = """\
written_for: 1
title: Example
excerpt: true
skill: complex
sizes: {names: "S (M, L)"}
gauge:
  stockinette: {stitches: 20, rows: 28, over: 10 cm, needles: larger}
yarns:
  A: {name: Low Tide Worsted, weight: worsted, ball: 200 m / 100 g}
  B: {name: Low Tide Worsted, weight: worsted, ball: 200 m / 100 g}
needles:
  larger: {size: 5 mm}
stitches:
  knot: {takes: 1, makes: 1, words: make a knot, mirror: knot}
  lean: {takes: 2, makes: 1, words: lean over}
stitch_patterns:
  eyelets: {multiple: 2, plus: 2, rows: "Row 1 (RS): K1, *yo, k2tog; rep from * to last st, k1.\\nRow 2: Purl."}
  check:
    multiple: 2
    plus: 1
    rows: "Row 1 (RS): K1, *p1, k1; rep from * to end.\\nRow 2: P1, *k1, p1; rep from * to end."
sections:
"""
BOOK = load_trade(World.beside().template).stitches


def mirrored(*lines: str, form: str = "flat", more: str = "", terms: str = "US") -> Proof:
    work = "".join(f"      {line}\n" for line in lines)
    first = f"  - title: Left Side\n    worked: {form}\n    gauge: stockinette\n    work: |\n{work}"
    return prove_text(
        "sides.yaml", f"terms: {terms}\n{HEAD}{first}  - title: Right Side\n    mirrors: Left Side\n{more}"
    )


def other_side(*lines: str, form: str = "flat", more: str = "", terms: str = "US") -> list[str]:
    proof = mirrored(*lines, form=form, more=more, terms=terms)
    assert [found.message for found in proof.findings if found.severity == "error"] == []
    assert proof.pattern is not None
    work = proof.pattern.sections[1].work
    assert work is not None
    return work.value.splitlines()


def turned(line: str, cast_on: str = "CO 40 (44, 48) sts.", form: str = "flat") -> str:
    return other_side(cast_on, line, "BO all sts.", form=form)[1]


@pytest.mark.parametrize(
    ("line", "other"),
    [
        ("Row 1 (RS): Knit.", "Row 1 (RS): Knit."),
        ("Row 1 (RS): K1, ssk, k to end.", "Row 1 (RS): K to last 3 sts, k2tog, k1."),
        ("Row 1 (RS): K1, ssk, k to last 3 sts, k2tog, k1.", "Row 1 (RS): K1, ssk, k to last 3 sts, k2tog, k1."),
        ("Row 1 (RS): K to last 5 sts, m1r, k5.", "Row 1 (RS): K5, m1l, k to end."),
        ("Row 1 (WS): P5, p2tog, p to end.", "Row 1 (WS): P to last 7 sts, ssp, p5."),
        ("Row 1 (RS): K10 (12, 14), C4F, k to end.", "Row 1 (RS): K to last 14 (16, 18) sts, C4B, k10 (12, 14)."),
        ("Row 1 (RS): K2, *p2, k2; rep from * to last 2 sts, k2.",
         "Row 1 (RS): K2, *k2, p2; rep from * to last 2 sts, k2."),
        ("Row 1 (RS): *K2, p2; rep from * to end.", "Row 1 (RS): *P2, k2; rep from * to end."),
        ("Row 1 (RS): K2, knot, p to end.", "Row 1 (RS): P to last 3 sts, knot, k2."),
        ("Row 1 (RS): K1, [k2tog, yo] 4 times, k to end.", "Row 1 (RS): K to last 9 sts, [yo, ssk] 4 times, k1."),
        ("Row 1 (RS): K3, sl 2 wyif, k to end.", "Row 1 (RS): K to last 5 sts, sl 2 wyif, k3."),
        ("Row 1 (RS): K to last 3 sts, p to end.", "Row 1 (RS): P3, k to end."),
        ("Row 1 (RS): *K2 A, k1 B, k1 A; rep from * to end.", "Row 1 (RS): *K1 in A, k1 in B, k2 in A; rep from * to end."),
        (
            "Row 1 (RS): Sl 2 to cn and hold at front, p1, k2 from cn, k to end.",
            "Row 1 (RS): K to last 3 sts, sl 1 to cn and hold in back, k2, p1 from cn.",
        ),
        ("Next row (RS): K4, bind off next 6 sts, k to end. 34 (38, 42) sts.",
         "Next row (RS): K to last 10 sts, bind off 6 sts, k to end. 34 (38, 42) sts."),
        ("Dec 1 st at beg of every RS row 3 times.", "Dec 1 st at end of every RS row 3 times."),
        ("Dec 1 st at neck edge of next and every foll RS row 3 times.",
         "Dec 1 st at neck edge of next and every foll RS row 3 times."),
        ("Bind off 3 sts at beg of next 2 rows.", "Bind off 3 sts at beg of next 2 rows."),
        ("Work in St st until left side measures 10 cm, ending with a WS row.",
         "Work in St st until right side measures 10 cm, ending with a WS row."),
    ],
)  # fmt: skip
def test_a_row_from_its_other_end(line: str, other: str) -> None:
    assert turned(line) == other


def test_markers_are_met_from_the_other_end() -> None:
    lines = (
        "CO 40 (44, 48) sts.",
        "Row 1 (RS): K10, m1l, pm, k to end.",
        "Row 2: P to marker, sm, p to end.",
        "Row 3: K to 2 sts before marker, ssk, sm, k3, p to end.",
        "Row 4: Knit.",
        "BO all sts.",
    )
    assert other_side(*lines)[1:4] == [
        "Row 1 (RS): K to last 10 sts, pm, m1r, k10.",
        "Row 2: P to marker, sm, p to end.",
        "Row 3: P to 3 sts before m, k3, sm, k2tog, k to end.",
    ]


def test_rounds_from_marker_to_marker_stay() -> None:
    line = "Rnd 2: *K1, ssk, k to 3 sts before marker, k2tog, k1, sm; rep from * once more."
    lines = ("CO 40 sts. Place marker and join to work in the round.", "Rnd 1: K20, pm, k to end.", line, "BO all sts.")
    assert other_side(*lines, form="in the round")[2] == line


def test_what_is_bound_off_at_the_beginning_moves_to_the_other_side() -> None:
    lines = (
        "CO 40 (44, 48) sts.",
        "Work in St st until left side measures 10 cm, ending with a WS row.",
        "> Shape the left armhole.",
        "Next row (RS): Bind off 4 sts, k to end.",
        "Next row: Purl.",
        "Next row (RS): Bind off 2 sts, k to end.",
        "Next row: Purl.",
        "Dec row (RS): K1, ssk, k to end.",
        "Next row: Purl.",
        "Rep last 2 rows twice more.",
        "Knit 2 rows.",
        "Next row (RS): Bind off 6 sts, k to end.",
        "Next row: Purl.",
        "Bind off rem sts.",
    )
    assert other_side(*lines)[1:] == [
        "Work in St st until right side measures 10 cm, ending with a RS row.",
        "> Shape the right armhole.",
        "Next row (WS): Bind off 4 sts, p to end.",
        "Next row: Knit.",
        "Next row (WS): Bind off 2 sts, p to end.",
        "Dec row (RS): K to last 3 sts, k2tog, k1.",
        "Next row: Purl.",
        "Rep last 2 rows twice more.",
        "Knit 2 rows.",
        "Work 1 row even.",
        "Next row (WS): Bind off 6 sts, p to end.",
        "Next row: Knit.",
        "Bind off rem sts.",
    ]


def test_short_rows_are_worked_on_the_other_side() -> None:
    rows = ("Row 1 (RS): K16, w&t.", "Row 2: P to end.", "Row 3: K to end, picking up wraps.", "Row 4: Purl.")
    assert other_side("CO 24 sts.", *rows, "BO all sts.")[1:5] == [
        "Row 1 (WS): P16, w&t.",
        "Row 2: K to end.",
        "Row 3: P to end, picking up wraps.",
        "Row 4: Knit.",
    ]


def test_wraps_and_double_stitches_are_worked_on_the_other_side() -> None:
    lines = other_side(
        "CO 40 (44, 48) sts.",
        "Knit 2 rows.",
        "Row 1 (RS): K to last 8 sts, w&t.",
        "Row 2 (WS): Purl.",
        "Row 3: K to end, picking up wraps and knitting them tog.",
        "Row 4: Purl.",
        "Row 5: K20, w&t.",
        "Row 6: Purl.",
        "Row 7: K to wrapped st, k it tog with its wrap, k3, turn, sl 1 wyif, pull yarn over needle.",
        "Row 8: Purl.",
        "Row 9: K to DS, k DS, k to end.",
        "Row 10: Purl.",
    )
    assert lines[3:13] == [
        "Row 1 (WS): P to last 8 sts, w&t.",
        "Row 2 (RS): Knit.",
        "Row 3: P to end, picking up wraps and purling them tog.",
        "Row 4: Knit.",
        "Row 5: P20, w&t.",
        "Row 6: Knit.",
        "Row 7: P to wrapped st, p it tog with its wrap, p3, turn, sl 1 wyif, pull yarn over needle.",
        "Row 8: Knit.",
        "Row 9: P to DS, p DS, p to end.",
        "Row 10: Knit.",
    ]


def test_a_section_that_begins_with_a_stated_opening_may_begin_on_either_side() -> None:
    more = "    begins: You have 30 sts, RS facing.\n"
    lines = ("CO 30 sts.", "Knit 1 row.", "Next row (WS): BO 3 sts, p to end.", "Next row: Knit.", "BO all sts.")
    work = "".join(f"      {line}\n" for line in lines[2:])
    first = f"  - title: Cast on\n    piece: Left Side\n    work: |\n      {lines[0]}\n      {lines[1]}\n"
    first += f"  - title: Left Side\n    gauge: stockinette\n    work: |\n{work}"
    proof = prove_text("s.yaml", f"{HEAD}{first}  - title: Right Side\n    mirrors: Left Side\n{more}")
    assert [found.message for found in proof.findings if found.severity == "error"] == []
    assert proof.pattern is not None and proof.pattern.sections[2].work is not None
    assert proof.pattern.sections[2].work.value.splitlines()[0] == "Next row (RS): BO 3 sts, k to end."


def test_uk_words_stay_uk_words() -> None:
    lines = ("Cast on 40 sts.", "Row 1 (RS): K4, cast off next 6 sts, k to end.", "Cast off all sts.")
    assert other_side(*lines, terms="UK")[1] == "Row 1 (RS): K to last 10 sts, cast off 6 sts, k to end."


def test_sides_of_fabric_and_needles_keep_their_names() -> None:
    lines = (
        "CO 40 sts.",
        "Row 1 (RS): K10, place rem 30 sts on a holder for left front, turn.",
        "Row 2: Purl.",
        "BO all sts.",
        "Return 30 held left front sts to needle. With right side facing, rejoin yarn at left neck edge.",
        "BO all sts.",
    )
    made = other_side(*lines)
    assert made[1] == "Row 1 (WS): P10, place rem 30 sts on a holder for right front, turn."
    assert (
        made[4] == "Return 30 held right front sts to needle. With right side facing, rejoin yarn at right neck edge."
    )


@pytest.mark.parametrize(
    ("line", "why"),
    [
        ("Row 1 (RS): K5, lean, k to end.", "the source does not say which stitch is the other side of `lean`"),
        ("Row 1 (RS): K5, sp2p, k to end.", "`sp2p` has no other side"),
        ("Row 1 (RS): K5, with A, k5, with B, k to end.", "the yarn changes in the middle of the row"),
        ("Work in eyelets for 4 rows.",
         "the source does not say which stitch pattern is the other side of `eyelets` (`mirror:`)"),
        ("On trust: work a frill. 40 sts.", "what it says has no other side that can be told for certain"),
    ],
)  # fmt: skip
def test_what_cannot_be_turned_is_refused_at_its_line(line: str, why: str) -> None:
    proof = mirrored("CO 40 sts.", line, "BO all sts.")
    found = [each for each in proof.findings if each.rule.name == "line-not-turned"]
    assert [each.message for each in found] == [f"`{line}` cannot be turned round: {why}"]
    assert found[0].span is not None and found[0].span.source.line(found[0].span.line).strip() == line


def test_a_pattern_that_is_the_same_from_both_ends_needs_no_partner() -> None:
    assert turned("Work in check for 4 rows.", "CO 41 sts.") == "Work in check for 4 rows."


def test_lines_that_are_written_out_stand_for_theirs() -> None:
    more = '    instead:\n      - {of: "Row 1 (RS): K5", work: "Row 1 (RS): K to last 7 sts, k2tog, k5."}\n'
    made = other_side("CO 40 sts.", "Row 1 (RS): K5, lean, k to end. 39 sts.", "BO all sts.", more=more)
    assert made[1] == "Row 1 (RS): K to last 7 sts, k2tog, k5."


def test_a_line_written_out_for_no_line_is_told() -> None:
    proof = mirrored("CO 40 sts.", "BO all sts.", more="    instead:\n      - {of: Purl, work: Knit 1 row.}\n")
    assert [each.message for each in proof.findings if each.rule.name == "instead-unused"] == [
        "no line of the section that is mirrored begins with `Purl`"
    ]


def test_a_side_that_comes_out_otherwise_is_told() -> None:
    more = '    instead:\n      - {of: Row 1, work: "Row 1 (RS): K to last 8 sts, k3tog, k5."}\n'
    proof = mirrored("CO 40 sts.", "Row 1 (RS): K5, ssk, k to end.", "Row 2: Purl.", "BO all sts.", more=more)
    assert [each.message for each in proof.findings if each.rule.name == "mirror-differs"] == [
        "`Right Side` is not the other side of `Left Side`: from 40 to 38 sts where from 40 to 39 sts should be"
    ]


def test_findings_of_the_other_side_are_told_where_it_was_asked_for() -> None:
    more = '    instead:\n      - {of: Row 1, work: "Row 1 (RS): K to last 3 sts, k2tog, k1. 38 sts."}\n'
    proof = mirrored("CO 40 sts.", "Row 1 (RS): K1, ssk, k to end. 39 sts.", "BO all sts.", more=more)
    (found,) = (each for each in proof.findings if each.severity == "error")
    assert found.span is not None and found.span.source.name == "sides.yaml"
    assert found.span.source.line(found.span.line) == "    mirrors: Left Side"
    line = "Row 1 (RS): K to last 3 sts, k2tog, k1. 38 sts."
    assert found.message.endswith(f" (in `{line}`, turned round from `Left Side`)")
    (made_from,) = (each.span for each in found.related if each.message == "the line it was made from")
    assert made_from.source.line(made_from.line).strip() == "Row 1 (RS): K1, ssk, k to end. 39 sts."


def test_one_fault_of_both_sides_is_one_finding() -> None:
    proof = mirrored("CO 40 sts.", "Row 1 (RS): K1, ssk, k to end. 38 sts.", "BO all sts.")
    assert [each.message for each in proof.findings if each.severity == "error"] == [
        "38 sts are printed, 39 are on the needle"
    ]


# ------------------------------------------------------------------------------------------------ by the stitches

FIXED = st.sampled_from(
    [
        "k3",
        "p2",
        "k1",
        "k2tog",
        "ssk",
        "yo",
        "m1l",
        "m1r",
        "p2tog",
        "sl1 wyif",
        "C4F",
        "2/1 RPC",
        "[k1, yo, ssk] twice",
        "kfb",
        "k3tog",
    ]
)
FAR = st.sampled_from(["k", "p"])


@st.composite
def rows(draw: st.DrawFn) -> tuple[str, int]:
    head = draw(st.lists(FIXED, max_size=5))
    tail = draw(st.lists(FIXED, max_size=5))
    takes = sum(width(each) for each in tail)
    if draw(st.booleans()):
        middle = f"{draw(FAR)} to last {takes} sts" if takes else f"{draw(FAR)} to end"
    else:
        middle = f"*k1, p1, ssk, yo; rep from * to last {takes} sts" if takes else "*k1, p1, ssk, yo; rep from * to end"
    return ", ".join([*head, middle, *tail]), sum(width(each) for each in head) + takes


def width(words: str) -> int:
    if words.startswith("["):
        return 6
    if words[0] in "kp" and words[1:].isdigit():
        return int(words[1:])
    if words.startswith("sl1"):
        return 1
    stitch = BOOK.find(words)
    assert stitch is not None
    return stitch.takes


def stitches(worked: tuple[Worked, ...]) -> list[str]:
    out: list[str] = []
    for each in worked:
        out += [each.stitch] * each.count if isinstance(each, Done) else stitches(each.body) * each.times
    return out


@given(rows())
@settings(max_examples=150, deadline=None)
def test_the_other_side_of_a_row_has_the_stitches_in_the_opposite_order(row: tuple[str, int]) -> None:
    words, taken = row
    proof = mirrored(f"CO {taken + 4} sts.", f"Row 1 (RS): {words}.", "BO all sts.")
    assert [found.message for found in proof.findings if found.severity == "error"] == []
    assert proof.knitted is not None
    first, second = (stitches(section.records[0].worked) for section in proof.knitted.sizes[0].sections)
    expected = []
    for name in reversed(first):
        stitch = BOOK.find(name)
        assert stitch is not None
        other = BOOK.mirrored(stitch)
        assert other is not None
        expected.append(other.name.lower())
    assert [name.lower() for name in second] == expected
