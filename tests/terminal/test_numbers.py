"""`castoff show`: every number with its sum, its other units and its rounding; and where each comes from."""

from __future__ import annotations

import re

import pytest

from castoff.pipeline import Proof, prove_text
from castoff.terminal.numbers import UnknownNumberError, show_numbers, show_why

SOURCE = """\
written_for: 1
title: Saltgrass Cap
excerpt: true
sizes:
  names: S (M)
  body:
    head: 52 (56.5) cm
gauge:
  stockinette: {stitches: 20, rows: 28, over: 10 cm}
  rib: {stitches: 22, rows: 30, over: 10 cm}
yarns: {A: {name: Low Tide Worsted}}
numbers:
  ease: -4 cm
  cast_on: stitches(body.head + ease, gauge=rib, multiple_of=4)
  both: 2 * cast_on
  crown: rows(11.1 cm, gauge=stockinette)
  p: spread(10 (11), over=40 (41), wording=same)
sections:
  - title: Brim
    work: |
      Cast on {cast_on} sts.
      Dec row: K1, ssk, k to last 3 sts, k2tog, k1.
      Rep dec row {p.words}.
measurements:
  round: {label: Circumference, is: "width(cast_on, gauge=rib)"}
"""


@pytest.fixture(scope="module")
def proof() -> Proof:
    return prove_text("cap.yaml", SOURCE)


def rows(text: str) -> list[list[str]]:
    return [re.split(r"\s{2,}", line.strip()) for line in text.splitlines() if line.strip()]


def test_a_count_with_its_width_and_how_far_rounding_moved_it(proof: Proof) -> None:
    """48 cm at 22 sts to 10 cm are 105.6 sts; 104 are 1.6 fewer, which is 0.73 cm."""
    told = rows(show_numbers(proof))
    at = next(index for index, row in enumerate(told) if row[0] == "cast_on")
    formula = "stitches(body.head + ease, gauge=rib, multiple_of=4)"
    assert told[at] == ["cast_on", "104 stitches", "116 stitches", formula]
    assert told[at + 1] == ["wide", "47.3 cm, 18.61 in", "52.7 cm, 20.76 in"]
    assert told[at + 2] == ["before rounding", "105.6 stitches", "115.5 stitches"]
    assert told[at + 3] == ["moved", "−1.6 stitches, −0.73 cm", "+0.5 stitches, +0.23 cm"]
    # a sum of counts is as wide as what it is made of says
    assert told[at + 5] == ["wide", "94.5 cm, 37.22 in", "105.5 cm, 41.52 in"]


def test_lengths_in_both_units_and_measurements(proof: Proof) -> None:
    told = rows(show_numbers(proof))
    ease = next(index for index, row in enumerate(told) if row[0] == "ease")
    assert told[ease : ease + 2] == [["ease", "−4 cm", "−4 cm", "-4 cm"], ["−1.57 in", "−1.57 in"]]
    last = next(index for index, row in enumerate(told) if row[0] == "Circumference")
    assert told[last] == ["Circumference", "47.273 cm", "52.727 cm", "width(cast_on, gauge=rib)"]


def test_a_plan_by_its_numbers_and_what_one_wording_cost(proof: Proof) -> None:
    told = rows(show_numbers(proof, 1))
    at = next(index for index, row in enumerate(told) if row[0] == "p")
    assert told[at : at + 5] == [
        ["p", "plan", "spread(10 (11), over=40 (41), wording=same)"],
        ["every", "3"], ["times", "3"], ["then_every", "4"], ["then_times", "8"],
    ]  # fmt: skip
    cost = "p, one wording for all sizes: intervals 2 rows apart instead of every 4th row 10 times in S"
    assert show_numbers(proof).splitlines()[-1] == cost


def test_where_a_number_comes_from(proof: Proof) -> None:
    assert show_why(proof, "both", 0).splitlines() == [
        "size S",
        "  both = 208 stitches (94.5 cm, 37.22 in wide): 2 * cast_on",
        "    cast_on = 104 stitches (47.3 cm, 18.61 in wide), from 105.6 stitches before",
        "          rounding (−0.73 cm): stitches(body.head + ease, gauge=rib,",
        "          multiple_of=4)",
        "      body.head = 52 cm (20.47 in): 52 (56.5) cm",
        "      ease = −4 cm (−1.57 in): -4 cm",
        "      gauge.rib = 22 stitches and 30 rows over 10 cm",
    ]


@pytest.mark.parametrize(
    ("asked", "first"),
    [
        ("round", "  round = 47.273 cm (18.61 in): width(cast_on, gauge=rib)"),
        ("Circumference", "  round = 47.273 cm (18.61 in): width(cast_on, gauge=rib)"),
        ("body.head", "  body.head = 52 cm (20.47 in): 52 (56.5) cm"),
        ("p.every",
         "  p.every = every 3rd row 5 times, then every 5th row 5 times: spread(10 (11), over=40 (41), wording=same)"),
        ("cast_on / 4", "  cast_on / 4 = 26 stitches (11.8 cm, 4.65 in wide)"),
    ],
)  # fmt: skip
def test_anything_printed_can_be_asked_for(asked: str, first: str, proof: Proof) -> None:
    told = show_why(proof, asked, 0).splitlines()
    assert all(len(line) <= 80 for line in told)
    # a line that is too long goes on further in
    whole = told[1]
    for line in told[2:]:
        if not line.startswith("        "):
            break
        whole += f" {line.strip()}"
    assert whole == first


def test_what_is_not_there_is_told_with_what_is_near(proof: Proof) -> None:
    with pytest.raises(UnknownNumberError, match="there is no number `caston`; did you mean `cast_on`"):
        show_why(proof, "caston")
