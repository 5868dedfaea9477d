"""Stitch patterns that are declared the other side of one another: the promise is kept stitch by stitch."""

from __future__ import annotations

import pytest
from tests.checks.tiny_pattern import with_fragment

from castoff.pipeline import prove_text

FLAT = """
stitch_patterns:
  chart A:
    multiple: 8
    plus: 1
    rows: |
      Row 1 (RS): *K1, yo, ssk, k5; rep from * to last st, k1.
      Row 2: Purl.
      Row 3: *K2, yo, ssk, 2/1 RC, k1; rep from * to last st, k1.
      Row 4: P1, *p5, p2tog, yo, p1; rep from * to end.
  chart B:
    multiple: 8
    plus: 1
    mirror: chart A
    rows: |
      Row 1 (RS): K1, *k5, k2tog, yo, k1; rep from * to end.
      Row 2: Purl.
      Row 3: K1, *k1, 2/1 LC, k2tog, yo, k2; rep from * to end.
      Row 4: *P1, yo, ssp, p5; rep from * to last st, p1.
"""


def told(source: str) -> list[str]:
    rules = ("patterns-not-mirrored", "unread-words", "unknown-name")
    return [each.message for each in prove_text("p.yaml", with_fragment(source)).findings if each.rule.name in rules]


def test_they_are_mirror_images() -> None:
    assert told(FLAT) == []


SLIPS = {
    "the lean": (("k5, k2tog, yo, k1", "k5, ssk, yo, k1"), "row 1: st 7 is `ssk`, the mirror image of `ssk` is `k2tog`"),
    "the place": (("k5, k2tog, yo, k1", "k4, k2tog, yo, k2"), "row 1: st 6 is `k2tog`, the mirror image of `k` is `k`"),
    "the crossing": (("2/1 LC", "2/1 RC"), "row 3: st 3 is `2/1 rc`, the mirror image of `2/1 rc` is `2/1 lc`"),
    "the other side's lean": (("ssp, p5", "p2tog, p5"), "row 4: st 3 is `p2tog`, the mirror image of `p2tog` is `ssp`"),
    "a row more": (("ssp, p5; rep from * to last st, p1.", "ssp, p5; rep from * to last st, p1.\n      Row 5: Knit."),
                   "it has 5 rows, there are 4"),
    "a multiple": (("plus: 1\n    mirror", "plus: 2\n    mirror"),
                   "it is worked over a multiple of 8 sts plus 2, not of 8 plus 1"),
    "in words": (("Row 2: Purl.\n      Row 3: K1", "Row 2: Work in patt to end.\n      Row 3: K1"),
                 "row 2 is not told stitch by stitch, so that it cannot be told"),
}  # fmt: skip


@pytest.mark.parametrize(("slip", "why"), SLIPS.values(), ids=SLIPS)
def test_what_is_no_mirror_image_is_told_with_its_stitch(slip: tuple[str, str], why: str) -> None:
    assert FLAT.count(slip[0]) == 1
    (message,) = told(FLAT.replace(*slip))
    assert message == f"`chart B` is no mirror image of `chart A`: {why}"


def test_two_that_name_each_other_are_told_once() -> None:
    both = FLAT.replace("plus: 1\n    rows", "plus: 1\n    mirror: chart B\n    rows", 1)
    assert told(both) == []
    assert len(told(both.replace("2/1 LC", "2/1 RC"))) == 1


def test_a_pattern_may_be_its_own_mirror_image() -> None:
    row = '"Row 1 (RS): *K2tog, yo, k1, yo, ssk; rep from * to end."'
    own = f"stitch_patterns:\n  vee: {{multiple: 5, mirror: vee, rows: {row}}}\n"
    assert told(own) == []
    assert told(own.replace("yo, ssk", "yo, k2tog")) == [
        "`vee` is no mirror image of itself: row 1: st 1 is `k2tog`, the mirror image of `k2tog` is `ssk`"
    ]


def test_stitches_of_the_author_have_mirror_images_where_they_are_declared() -> None:
    bare = """
stitches:
  lean: {takes: 2, makes: 1, words: lean to the left, mirror: tilt}
  tilt: {takes: 2, makes: 1, words: lean to the right, mirror: lean}
stitch_patterns:
  left: {multiple: 4, rows: "Row 1 (RS): *K1, yo, lean, k1; rep from * to end."}
  right: {multiple: 4, mirror: left, rows: "Row 1 (RS): *K1, tilt, yo, k1; rep from * to end."}
"""
    assert told(bare) == []
    assert told(bare.replace(", mirror: tilt", "")) == [
        "`right` is no mirror image of `left`: row 1: nothing is known to be the mirror image of `lean`"
    ]
