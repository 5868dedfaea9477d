"""AT THE SAME TIME: what runs beside other rows, when it begins, and what the rest of the line says behind it."""

from __future__ import annotations

import pytest
from tests.knitting.plans import counts, said

START = "Cast on 60 sts.\nWork 2 rows in St st.\n"
DECS = "Dec 1 st at each end of every RS row 6 times"
END = "\nBind off all sts."


def test_a_total_behind_the_line_is_held_when_both_have_ended() -> None:
    # 12 sts at the sides and 3 at the neck: rows 1 to 12, the last neck decrease on row 12
    line = f"{DECS}; at the same time, dec 1 st at neck edge of every foll 4th row 3 times. {{}} sts."
    assert said(START + line.format(45) + END) == []
    assert said(START + line.format(99) + END) == ["stated-total-off: 99 sts are printed, 45 are on the needle"]


def test_the_steps_behind_it_are_worked() -> None:
    line = (
        f"{DECS}; at the same time, dec 1 st at neck edge of every foll 4th row 3 times. 45 sts. Next row (RS): K999."
    )
    found = said(START + line + END)
    assert [each.split(":")[0] for each in found] == ["too-few-stitches"]


def test_what_is_bound_off_beside_other_rows_is_bound_off_there() -> None:
    line = f"{DECS}; at the same time, when piece measures 3 cm, dec 1 st at beg of next 4 rows."
    worked = counts(START + line + END)
    # 3 cm are 8 rows; rows 9 to 12 lose one each, and rows 9, 11 and 13 two at the sides
    assert worked[-6:] == [54, 51, 50, 47, 46, 44]


def test_a_row_told_before_runs_beside_at_a_rate() -> None:
    work = """Cast on 60 sts.
Row 1 (RS): Knit.
Row 2: Purl.
Dec row (RS): K1, ssk, k to last 3 sts, k2tog, k1. 58 sts.
Purl 1 row.
Work in St st for 12 rows, at the same time, rep dec row every 4th row 3 times. 52 sts.
Bind off all sts."""
    assert said(work) == []
    assert said(work.replace("52 sts", "50 sts")) == ["stated-total-off: 50 sts are printed, 52 are on the needle"]


@pytest.mark.parametrize(
    ("trigger", "last"),
    [("after 3 armhole decs have been worked", 44), ("when 54 sts rem", 44), ("when 48 sts rem", 44)],
)
def test_it_begins_when_its_moment_comes(trigger: str, last: int) -> None:
    line = f"{DECS}; at the same time, {trigger}, dec 1 st at neck edge on next 4 rows. {last} sts."
    assert said(START + line + END) == []


def test_a_moment_that_never_comes_is_told() -> None:
    line = f"{DECS}; at the same time, when 53 sts rem, dec 1 st at neck edge on next 4 rows. 44 sts."
    assert said(START + line + END) == [
        "not-at-the-same-time: what is to be done at the same time never begins: its moment does not come"
    ]


def test_what_cannot_be_laid_beside_is_refused() -> None:
    line = f"{DECS}; at the same time, when piece measures 3 cm, work in garter st for 10 rows."
    assert [each.split(":")[0] for each in said(START + line + END)] == ["not-at-the-same-time"]


def test_what_is_left_at_the_end_of_a_section_is_worked() -> None:
    line = "At the same time, dec 1 st at neck edge of every foll 4th row 3 times.\nKnit 2 rows."
    assert counts(START + line + "\nKnit 30 rows." + END)[-1] == 57
    assert counts(START + line + END)[-1] == 57
