"""A row after which the work is not turned: the next one is worked on the same side again."""

from __future__ import annotations

import pytest
from tests.knitting.plans import knitted, said

SIZES = ("S", "M", "L")


def sides(work: str) -> list[str | None]:
    records = knitted(work, SIZES).sizes[0].pieces["Piece"].records
    return [each.side for each in records for _ in range(each.rows)]


@pytest.mark.parametrize(
    "words",
    [
        "Do not turn.", "Do not turn the work.", "Slide sts to other end of needle.",
        "Do not turn; slide sts to the other end of the needle.", "Without turning.",
    ],
)  # fmt: skip
def test_the_side_is_kept(words: str) -> None:
    first = f"CO 20 (22, 24) sts.\nRow 1 (RS): With A, knit. {words}"
    work = f"{first}\nRow 2 (RS): With B, purl.\nRow 3 (WS): With A, purl.\nBO all sts."
    assert sides(work) == ["RS", "RS", "WS"]
    unsaid = work.replace(" (RS): With B", ": With B")
    assert sides(unsaid) == ["RS", "RS", "WS"]
    off = said(work.replace("Row 2 (RS)", "Row 2 (WS)"), SIZES)
    assert off[0] == "wrong-side-due: row 2 is printed for the WS, a RS row is due"
    assert said(work.replace(f" {words}", ""), SIZES) != []


def test_it_holds_for_the_row_and_its_total() -> None:
    work = (
        "CO 20 (22, 24) sts.\nRow 1 (RS): K2tog, k to end, do not turn. 19 (21, 23) sts.\n"
        "Row 2 (RS): K2tog, k to end, do not turn. 18 (20, 22) sts.\nRow 3 (RS): Knit.\nRow 4: Purl.\nBO all sts."
    )
    assert sides(work) == ["RS", "RS", "RS", "WS"]


def test_in_the_round_nobody_turns() -> None:
    work = "CO 20 (22, 24) sts. Join to work in the round.\nRnd 1: Knit. Do not turn.\nRnd 2: Purl.\nBO all sts."
    assert said(work, SIZES, "round") == []
