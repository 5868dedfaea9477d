"""Where a number comes from."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

from castoff.grading.evaluate import Numbers, evaluate
from castoff.grading.origin import moved_mm, why
from castoff.model.pattern import Pattern
from castoff.trade import Trade

Make = Callable[..., Pattern]
HEADS = "  body:\n    head: 48 (52, 56.5) cm"


def chain(numbers: Numbers, name: str, size: int) -> list[str]:
    told = []
    for step in why(numbers, name, size):
        rounding = f" ({step.rounding})" if step.rounding else ""
        again = " *" if step.seen else ""
        told.append(f"{'  ' * step.depth}{step.name} = {step.formula} = {step.value}{rounding}{again}")
    return told


def test_the_chain_goes_down_to_body_ease_and_gauge(make: Make, trade: Trade) -> None:
    numbers = evaluate(
        make("ease: -4 cm\naround: body.head + ease\nc: stitches(around, multiple_of=8)\nboth: c + c / 8", sizes=HEADS),
        trade,
    ).value
    assert chain(numbers, "both", 2) == [
        "both = c + c / 8 = 117 stitches",
        "  c = stitches(around, multiple_of=8) = 104 stitches (105 stitches before rounding)",
        "    around = body.head + ease = 52.5 cm",
        "      body.head = 48 (52, 56.5) cm = 56.5 cm",
        "      ease = -4 cm = −4 cm",
        "    gauge.stockinette = 20 stitches and 28 rows over 10 cm = ",
    ]
    assert why(numbers, "nothing", 0) == ()


def test_what_was_told_already_is_not_told_again(make: Make, trade: Trade) -> None:
    numbers = evaluate(make("a: 4\nb: a + 1\nc: b + 1\nd: b + c"), trade).value
    assert chain(numbers, "d", 0) == [
        "d = b + c = 11", "  b = a + 1 = 5", "    a = 4 = 4", "  c = b + 1 = 6", "    b = a + 1 = 5 *",
    ]  # fmt: skip


def test_a_plan_and_a_table_have_origins_too(make: Make, trade: Trade) -> None:
    numbers = evaluate(
        make("p: spread(36, over=140)\nt: p.times + 1\nw: body.chest", sizes="  standard: women"), trade
    ).value
    assert chain(numbers, "t", 0) == [
        "t = p.times + 1 = 5",
        "  p.times = spread(36, over=140) = every 3rd row 4 times, then every 4th row 32 times",
    ]
    assert chain(numbers, "w", 1) == ["w = body.chest = 96.5 cm", "  body.chest = table `women`, size M = 96.5 cm"]


def test_how_far_rounding_moved_a_count_as_a_length(make: Make, trade: Trade) -> None:
    numbers = evaluate(
        make("a: stitches(41 cm, multiple_of=8)\nb: rows(41 cm)\nc: nearest(20.3 cm, 0.5 cm)\nd: 4"), trade
    ).value
    moved = {name: moved_mm(numbers, entry) for name in "abcd" if (entry := numbers.entry(name)) is not None}
    assert moved["a"] == (Fraction(-10),) * 3  # 82 sts to 80, at 20 to 10 cm
    assert moved["b"] == (Fraction(1, 5) * Fraction(100, 28),) * 3  # 114.8 rows to 115, at 28 to 10 cm
    assert moved["c"] == (Fraction(2),) * 3
    assert moved["d"] is None
