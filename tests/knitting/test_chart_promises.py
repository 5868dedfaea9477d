"""What a stitch pattern promises of its place: that it is centred, and on which rows it is worked."""

from __future__ import annotations

import pytest
from tests.checks.tiny_pattern import with_fragment

from castoff.pipeline import prove_text

CENTRED = """stitch_patterns:
  panel: {multiple: 8, centred: yes, rows: "Row 1 (RS): K2, p4, k2.\\nRow 2: P2, k4, p2."}
Row 29 (RS): K16, work row 1 of panel over next 8 sts, k16.
Row 30: P16, cont panel, p16.
"""
MARKED = """stitch_patterns:
  panel: {multiple: 8, centred: yes, rows: "Row 1 (RS): K2, p4, k2.\\nRow 2: P2, k4, p2."}
Row 29 (RS): K10, pm, k3, work row 1 of panel over next 8 sts, k3, pm, k16.
Row 30: P16, sm, p3, cont panel, p3, sm, p10.
"""
PACED = """stitch_patterns:
  cables: {multiple: 4, every: 4, worked: in the round, rows: "Row 1: C4F.\\nRow 2: C4B."}
sections:
  - title: Body
    worked: in the round
    gauge: stockinette
    work: |
      CO 40 sts. Join to work in the round.
      Knit 1 rnd.
      Next rnd: K4, work row 1 of cables over next 4 sts, k to end.
      Knit 3 rnds.
      Next rnd: K4, work row 2 of cables over next 4 sts, k to end.
      Knit 3 rnds.
      Next rnd: K4, work row 1 of cables over next 4 sts, k to end.
      Knit 3 rnds.
      BO all sts.
"""


def told(source: str) -> list[str]:
    rules = ("stated-part-off", "stated-rows-off", "unread-words", "row-number-off", "row-not-there")
    found = prove_text("p.yaml", with_fragment(source)).findings
    return [f"{each.message} | {each.hint}" for each in found if each.rule.name in rules]


def test_a_centred_panel() -> None:
    assert told(CENTRED) == []
    assert told(MARKED) == []
    wrong = CENTRED.replace("K16, work", "K15, work").replace("p16.", "p15.")
    wrong = wrong.replace("sts, k16", "sts, k17").replace("P16", "P17")
    assert told(wrong) == ["panel is centred; 15 sts lie at one side of it and 17 at the other | 16 and 16 sts"]


def test_a_centred_panel_between_markers() -> None:
    wrong = MARKED.replace("k3, work", "k2, work").replace("8 sts, k3", "8 sts, k4").replace("sm, p3, c", "sm, p4, c")
    assert told(wrong.replace("panel, p3", "panel, p2")) == [
        "panel is centred; 2 sts lie at one side of it and 4 at the other | 3 and 3 sts"
    ]


def test_rows_that_come_on_every_fourth_round() -> None:
    assert told(PACED) == []


@pytest.mark.parametrize(
    ("slip", "message"),
    [
        (
            ("Knit 3", "Knit 4"),
            "cables is worked on every 4th row; here it comes 5 rows after its last one | 3 rows between",
        ),
        (
            ("Knit 3", "Knit 2"),
            "cables is worked on every 4th row; here it comes 3 rows after its last one | 3 rows between",
        ),
        (
            ("every: 4", "every: 3"),
            "cables is worked on every 3rd row; here it comes 4 rows after its last one | 2 rows between",
        ),
    ],
)
def test_rows_that_come_too_early_or_too_late(slip: tuple[str, str], message: str) -> None:
    assert message in told(PACED.replace(*slip))


def test_a_pace_holds_in_rows_that_are_repeated() -> None:
    again = PACED.replace("      BO all", "      Rep last 4 rnds 5 more times.\n      BO all")
    last = ", k to end.\n      Knit 3 rnds.\n      Rep"
    again = again.replace("work row 1 of cables over next 4 sts" + last, "cont cables" + last)
    assert told(again) == []
    assert "here it comes 5 rows" in " ".join(
        told(again.replace("Knit 3 rnds.\n      Rep last 4", "Knit 4 rnds.\n      Rep last 5"))
    )


CHARTED = """stitch_patterns:
  chart A: {multiple: 4, rows: "Row 1 (RS): *K2, p2; rep from * to end.\\nRow 2: *P2, k2; rep from * to end."}
Work rows 1 and 2 of chart A once, then row 1 once more.
Row 32: Purl.
Cont in charted patt, beg with row 1, until rows 1 and 2 have been worked 3 more times.
"""


def rows_of(source: str) -> int:
    proof = prove_text("p.yaml", with_fragment(source))
    assert proof.knitted is not None
    return sum(record.rows for section in proof.knitted.sizes[0].sections for record in section.records.folded())


def test_rows_of_a_chart_until_they_have_been_worked() -> None:
    assert told(CHARTED) == []
    assert rows_of(CHARTED) == 28 + 3 + 1 + 6
    assert rows_of(CHARTED.replace("3 more", "4 more")) == 28 + 3 + 1 + 8
    assert told(CHARTED.replace("beg with row 1", "beg with row 2")) != []
    assert told(CHARTED.replace("rows 1 and 2 have", "rows 1 and 3 have")) != []
    assert told(CHARTED.replace("rows 1 and 2 have", "rows 1 and 2 of chart A have")) == []
