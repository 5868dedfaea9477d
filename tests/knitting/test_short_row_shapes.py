# ruff: noqa: E501 - rows stand as they are printed
"""Shapes in short rows, in wraps and in double stitches and in three sizes: heel, toe, shoulder, raised neck, garter wedge.

Every row is held against a needle worked one stitch at a time. Every number of the words, one more or one less, is found.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass

import pytest
from tests.knitting.plans import findings, knitted, said
from tests.knitting.short_row_reference import Command, PlainShortRows

from castoff.notation.syntax import Form

SIZES = ("S", "M", "L")
Row = tuple[list[Command], bool]
"""Commands, and whether every wrap is worked with its stitch."""


@dataclass(frozen=True)
class Shape:
    """Words, and what they come to in a size: stitches, and rows for the plain needle. whole: rows before and behind."""

    words: str
    stitches: Callable[[int], int]
    rows: Callable[[int], list[Row]]
    form: Form = "flat"
    whole: tuple[int, int] = (0, 0)


def row(*commands: Command, gathers: bool = False) -> Row:
    return list(commands), gathers


W, T, DS, END = ("w&t",), ("turn",), ("ds",), ("to end",)
BEFORE, WRAP, CLOSE, MDS = ("to wrap", 1, 0), ("to wrap", 0, 0), ("close",), ("mds",)
TO_DS, PAST = ("to ds", 0, 0), ("to ds", 0, 1)

HEEL = Shape(
    """Cast on 28 (32, 36) sts.
Row 1 (RS): K27 (31, 35), w&t.
Row 2 (WS): P26 (30, 34), w&t.
Row 3: K to 1 st before last wrapped st, w&t.
Row 4: P to 1 st before last wrapped st, w&t.
Rep rows 3 and 4 7 (8, 9) more times. 10 (12, 14) unwrapped sts rem in centre, 9 (10, 11) wrapped sts each side.
Row 5: K to wrapped st, work wrap with st, w&t.
Row 6: P to wrapped st, work wrap with st, w&t.
Rep rows 5 and 6 7 (8, 9) more times. 1 wrapped st each side.
Row 7: K to last wrapped st, k it tog with both wraps.
Row 8: P to double-wrapped st, p it tog with both wraps.
Bind off all sts.""",
    lambda size: 28 + 4 * size,
    lambda size: [
        row(("work", 27 + 4 * size), W),
        row(("work", 26 + 4 * size), W),
        *[row(BEFORE, W)] * (2 * (8 + size)),
        *[row(WRAP, CLOSE, W)] * (2 * (8 + size)),
        *[row(WRAP, CLOSE)] * 2,
    ],
)
GERMAN_HEEL = Shape(
    """Cast on 28 (32, 36) sts.
Row 1 (RS): Knit.
Row 2 (WS): MDS, p to end.
Row 3: MDS, k to last DS, turn.
Row 4: MDS, p to last DS, turn.
Rep rows 3 and 4 7 (8, 9) more times. 11 (13, 15) sts between DS.
Row 5: MDS, k to end, working all DS as single sts.
Row 6: P to end, working all DS as single sts.
Row 7: K19 (22, 25), turn.
Row 8: MDS, p9 (11, 13), turn.
Row 9: MDS, k to DS, k DS, k1, turn.
Row 10: MDS, p to DS, p DS, p1, turn.
Rep rows 9 and 10 8 (9, 10) more times.
Row 11: MDS, k to end, working DS as you come to them.
Row 12: P to end, working DS as you come to them.
Bind off all sts.""",
    lambda size: 28 + 4 * size,
    lambda size: [
        row(END),
        row(MDS, END),
        *[row(MDS, TO_DS, T)] * (2 * (8 + size)),
        row(MDS, END),
        row(END),
        row(("work", 19 + 3 * size), T),
        row(MDS, ("work", 9 + 2 * size), T),
        *[row(MDS, TO_DS, CLOSE, ("work", 1), T)] * (2 * (9 + size)),
        row(MDS, END),
        row(END),
    ],
)
TOE = Shape(
    """Cast on 24 (26, 28) sts.
Row 1 (RS): K23 (25, 27), wrap next st and turn.
Row 2 (WS): P22 (24, 26), wrap next st and turn.
Row 3: K to 1 st before last turn, w&t.
Row 4: P to 1 st before last turn, w&t.
Rep last 2 rows until 8 unwrapped sts rem.
Row 5: K to wrapped st, pick up wrap and k tog with st, w&t.
Row 6: P to wrapped st, pick up wrap and p tog with st, w&t.
Rep last 2 rows until all wraps have been picked up.
Bind off all sts.""",
    lambda size: 24 + 2 * size,
    lambda size: [
        row(("work", 23 + 2 * size), W),
        row(("work", 22 + 2 * size), W),
        *[row(BEFORE, W)] * (2 * (7 + size)),
        *[row(WRAP, CLOSE, W)] * (2 * (7 + size)),
        *[row(WRAP, CLOSE, T)] * 2,
    ],
)
GERMAN_TOE = Shape(
    """Cast on 24 (26, 28) sts.
Row 1 (RS): K24 (26, 28), turn and make DS.
Row 2 (WS): P23 (25, 27), turn and make DS.
Row 3: K to DS, turn, sl 1 wyif, pull yarn over needle.
Row 4: P to DS, turn, sl 1 wyif, pull yarn over needle.
Rep last 2 rows until 8 sts rem between DS.
Row 5: K to end, closing all DS.
Row 6: P to end, closing all DS.
Bind off all sts.""",
    lambda size: 24 + 2 * size,
    lambda size: [
        row(("work", 24 + 2 * size), DS),
        row(("work", 23 + 2 * size), DS),
        *[row(TO_DS, DS)] * (2 * (7 + size)),
        row(END),
        row(END),
    ],
)
SHOULDER = Shape(
    """Cast on 30 (34, 38) sts.
Row 1 (RS): K to last 8 (9, 10) sts, w&t.
Row 2 (WS): Purl.
Row 3: K to 8 (9, 10) sts before last wrapped st, w&t.
Row 4: Purl.
Row 5: K14 (16, 18), work wrap with st, k7 (8, 9), work wrap with st, k to end.
Row 6: Purl.
Bind off all sts.""",
    lambda size: 30 + 4 * size,
    lambda size: [
        row(("work", 22 + 3 * size), W),
        row(END),
        row(("to wrap", 8 + size, 0), W),
        row(END),
        row(END, gathers=True),
        row(END),
    ],
)
GERMAN_SHOULDER = Shape(
    """Cast on 30 (34, 38) sts.
Row 1 (RS): K to last 8 (9, 10) sts, turn, make DS.
Row 2 (WS): Purl.
Row 3: K to 7 (8, 9) sts before DS, turn, make DS.
Row 4: Purl.
Row 5: K13 (15, 17), k DS, k7 (8, 9), k DS, k to end.
Row 6: Purl.
Bind off all sts.""",
    lambda size: 30 + 4 * size,
    lambda size: [
        row(("work", 22 + 3 * size), DS),
        row(END),
        row(("to ds", 7 + size, 0), DS),
        row(END),
        row(END),
        row(END),
    ],
)
NECK = Shape(
    """Cast on 60 (66, 72) sts. Place marker and join to work in the round.
Short row 1 (RS): K20 (22, 24), w&t.
Short row 2 (WS): P40 (44, 48), w&t.
Short row 3 (RS): K to 4 sts before last wrapped st, w&t.
Short row 4 (WS): P to 4 sts before last wrapped st, w&t. 32 (36, 40) unwrapped sts.
Short row 5 (RS): K to end of rnd.
Next rnd: K16 (18, 20), work wrap with st, k3, work wrap with st, k18 (20, 22), work wrap with st, k3, work wrap with st, k to end.
Bind off all sts.""",
    lambda size: 60 + 6 * size,
    lambda size: [
        row(("work", 20 + 2 * size), W),
        row(("work", 40 + 4 * size), W),
        row(("to wrap", 4, 0), W),
        row(("to wrap", 4, 0), W),
        row(END),
        row(END, gathers=True),
    ],
    "round",
)
GERMAN_NECK = Shape(
    """Cast on 60 (66, 72) sts. Place marker and join to work in the round.
Short row 1 (RS): K20 (22, 24), turn, make DS.
Short row 2 (WS): P39 (43, 47), turn, make DS.
Short row 3 (RS): K to 3 sts before last DS, turn, make DS.
Short row 4 (WS): P to 3 sts before last DS, turn, make DS. 30 (34, 38) sts between DS.
Short row 5 (RS): K to end of rnd.
Next rnd: K15 (17, 19), k DS, k3, k DS, k to end, working DS as you come to them. 60 (66, 72) sts.
Bind off all sts.""",
    lambda size: 60 + 6 * size,
    lambda size: [
        row(("work", 20 + 2 * size), DS),
        row(("work", 39 + 4 * size), DS),
        row(("to ds", 3, 0), DS),
        row(("to ds", 3, 0), DS),
        row(END),
        row(END),
    ],
    "round",
)
HAT = Shape(
    """Cast on 30 (34, 38) sts.
Row 1 (RS): K to last 4 sts, w&t.
Row 2 (WS): Knit.
Row 3: K to 4 sts before last wrapped st, w&t.
Row 4: Knit.
Row 5: K to 4 sts before last wrapped st, w&t. 18 (22, 26) unwrapped sts.
Row 6: Knit.
Row 7: Knit.
Row 8: Knit.
Bind off all sts.""",
    lambda size: 30 + 4 * size,
    lambda size: [
        row(("work", 26 + 4 * size), W),
        row(END),
        row(("to wrap", 4, 0), W),
        row(END),
        row(("to wrap", 4, 0), W),
        row(END),
        row(END),
        row(END),
    ],
)
GERMAN_HAT = Shape(
    """Cast on 30 (34, 38) sts.
Row 1 (RS): K to last 4 sts, turn, make DS.
Row 2 (WS): Knit.
Row 3: K to 3 sts before last DS, turn, make DS.
Row 4: Knit.
Row 5: K to 3 sts before last DS, turn, make DS. 17 (21, 25) sts between DS.
Row 6: Knit.
Row 7: Knit to end, closing all DS.
Row 8: Knit.
Bind off all sts.""",
    lambda size: 30 + 4 * size,
    lambda size: [
        row(("work", 26 + 4 * size), DS),
        row(END),
        row(("to ds", 3, 0), DS),
        row(END),
        row(("to ds", 3, 0), DS),
        row(END),
        row(END),
        row(END),
    ],
)
SHAPES = {
    "heel": HEEL, "German heel": GERMAN_HEEL, "toe": TOE, "German toe": GERMAN_TOE, "shoulder": SHOULDER,
    "German shoulder": GERMAN_SHOULDER, "neck": NECK, "German neck": GERMAN_NECK, "hat": HAT, "German hat": GERMAN_HAT,
}  # fmt: skip


@pytest.mark.parametrize("name", SHAPES)
def test_every_row_is_as_long_as_stitch_by_stitch(name: str) -> None:
    shape = SHAPES[name]
    sizes = knitted(shape.words, SIZES, shape.form).sizes
    for size, made in enumerate(sizes):
        plain = PlainShortRows(shape.stitches(size), shape.form == "round")
        for commands, gathers in shape.rows(size):
            plain.row(commands, gathering=gathers)
        worked = [
            sum(times for (_, stitch), times in record.tally if stitch in ("k", "p"))
            for record in made.pieces["Piece"].records
            for _ in range(record.rows)
        ]
        assert worked == plain.log, f"size {SIZES[size]}"
        # what is left in the fabric: nothing but in garter stitch, where nobody picks wraps up
        assert plain.wraps() == [] and plain.doubles() == []
        assert plain.lost() == (3 if name == "hat" else 0)


NUMBER = re.compile(r"(?<![\d.])\d+(?![\d:.]*:)")


def slips(words: str) -> list[tuple[str, str]]:
    """The words with one number one more or one less, and the line it stands in."""
    found = []
    for match in NUMBER.finditer(words):
        line = words[words.rfind("\n", 0, match.start()) + 1 : words.find("\n", match.end())]
        before = words[: match.start()]
        if (
            before.endswith(("Row ", "row ", "rows ", " and ", "last "))
            and "sts" not in words[match.end() : match.end() + 5]
        ):
            continue  # labels and "last 2 rows"
        for step in (-1, 1):
            number = int(match[0]) + step
            found.append((f"{before}{number}{words[match.end() :]}", f"{line}  {match[0]} -> {number}"))
    return found


PASSED = {
    # how far the second half goes is told by nothing else: the rows behind it work all the stitches, however many
    "German heel": (
        "Row 9: MDS, k to DS, k DS, k1, turn.",
        "Row 10: MDS, p to DS, p DS, p1, turn.",
        "Rep rows 9 and 10",
    ),
    # where the first half ends is told once
    "German toe": ("Rep last 2 rows until 8 sts rem between DS.",),
}
"""Lines whose number is the only word on it."""


@pytest.mark.parametrize("name", SHAPES)
def test_every_number_off_by_one_is_found(name: str) -> None:
    shape = SHAPES[name]
    silent = [
        where
        for changed, where in slips(shape.words)
        if not where.startswith(PASSED.get(name, ("none",))) and not findings_or_refused(changed, shape.form)
    ]
    assert silent == []


def findings_or_refused(words: str, form: Form) -> list[str]:
    """What is found, as errors and warnings; lines that cannot be read are found, too."""
    try:
        return [each.message for each in findings(words, SIZES, form) if each.rule.severity != "note"]
    except AssertionError as unread:
        return [str(unread)]


def test_wraps_are_left_in_garter_stitch_with_a_note() -> None:
    picked = "Row 9: Knit.\nRow 10: K20, w&t.\nRow 11: Knit.\nRow 12: K to end, picking up wraps.\nRow 13: Knit.\n"
    words = HAT.words.replace("Bind off", picked + "Bind off")
    found = findings(words, SIZES)
    assert {(each.rule.name, each.rule.severity) for each in found} == {("wraps-left-in-garter", "note")}
    assert [each.message for each in found] == ["row 7 works over wraps and picks none of them up: 3"]


def test_yarn_overs_of_turns_are_no_stitches_until_they_are_worked() -> None:
    work = """Cast on 20 sts.
Row 1 (RS): K16, turn, yo. 20 sts.
Row 2 (WS): P12, turn, yo. 20 sts.
Row 3: K to yo, {}, k to end. 20 sts.
Row 4: P to yo, p yo tog with next st, p to end. 20 sts.
Bind off all sts."""
    assert said(work.format("k yo tog with next st")) == []
    assert said(work.format("k2tog")) == []
    assert said(work.format("k1")) == [
        "wraps-not-picked-up: row 3 works yarn-overs of turns as stitches of their own: 1",
    ]


def test_yarn_overs_gathered_in_one_row() -> None:
    work = """Cast on 20 sts.
Row 1 (RS): K16, turn, yo.
Row 2 (WS): P12, turn, yo.
Row 3: K to end, working each yo tog with next st. 20 sts.
Row 4: P to end, working each yo tog with next st. 20 sts.
Bind off all sts."""
    assert said(work) == []
    assert [
        line.split(":")[0]
        for line in said(
            work.replace("Row 4: P to end, working each yo tog with next st. 20 sts.", "Row 4: Purl. 20 sts.")
        )
    ] == [
        "wraps-not-picked-up",
    ]
