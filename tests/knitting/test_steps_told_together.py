"""Several steps in one sentence: cast-offs one after another, next and following rows, an edge after other needles."""

from __future__ import annotations

import pytest
from tests.knitting.plans import counts, knitted, said

CAST_ON = "With larger needles, cast on 40 sts.\nWork 2 rows in St st.\n"


@pytest.mark.parametrize(
    ("words", "after"),
    [
        ("Cast off 4 sts at beg of next 2 rows, 3 sts at beg of foll 2 rows, then 2 sts at beg of next 2 rows.",
         [36, 32, 29, 26, 24, 22]),
        ("Dec 1 st at each end of next and foll 2 alt rows.", [38, 38, 36, 36, 34]),
        ("Dec 1 st at each end of next row and 2 foll alt rows.", [38, 38, 36, 36, 34]),
        ("Dec 1 st at each end of next row, then at each end of foll 2 alt rows.", [38, 38, 36, 36, 34]),
        ("Dec 1 st at beg of next row and at same edge on foll 2 alt rows.", [39, 39, 38, 38, 37]),
    ],
)  # fmt: skip
def test_every_step_is_worked(words: str, after: list[int]) -> None:
    work = f"{CAST_ON}{words} {after[-1]} sts.\nBind off all sts."
    assert said(work) == []
    assert counts(work)[-len(after) :] == after
    assert said(work.replace(f"{after[-1]} sts.", f"{after[-1] + 1} sts.")) != []


def test_the_rest_waits_when_these_stitches_alone_are_worked() -> None:
    work = f"{CAST_ON}Next row (RS): K10, turn and work on these sts only.\nNext row (WS): P10.\nBind off 10 sts.\n"
    assert said(f"{work}With RS facing, rejoin yarn to rem 30 sts, k to end.\nBind off 30 sts.") == []
    assert said(f"{work}With RS facing, rejoin yarn to rem 31 sts, k to end.\nBind off 31 sts.") != []


def test_an_edge_is_measured_from_where_the_needles_changed() -> None:
    body = f"{CAST_ON}Work in St st until piece measures 10 cm.\n"
    rib = "Work in garter st until edging measures 3 cm. Bind off all sts."
    assert said(f"{body}Change to smaller needles.\n{rib}") == []
    changed = knitted(f"{body}Change to smaller needles.\n{rib}").sizes[0].pieces["Piece"]
    plain = knitted(f"{body}Bind off all sts.").sizes[0].pieces["Piece"]
    assert len(changed.records) > len(plain.records)
    assert any(each.startswith("length-already-passed") for each in said(f"{body}{rib}"))
