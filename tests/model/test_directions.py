"""Sizes in two directions, and choices of the knitter: read, worked out, knitted and named."""

from fractions import Fraction

import pytest

from castoff.numeral import Misfit, NumeralList, read_list, read_measure
from castoff.per_size import Axes, Choice, Option, SizeNames, axes_of, pair_list
from castoff.pipeline import Proof, prove_text

NECK = Option("neck", (Choice("crew", "crew neck"), Choice("v", "V neck")))
PAIRS = Axes(("S", "M", "L"), "cup", ("B", "D"))
WHOLE = Axes(("S", "M"), "cup", ("B", "D"), (NECK,))

SOURCE = """\
written_for: 1
title: Top
excerpt: true
skill: easy
sizes:
  names: S (M, L)
  second: {name: cup, names: B (D)}
  body: {bust: "84 (92, 100) | 90 (98, 106) cm"}
options:
  neck: {crew: crew neck, v: V neck}
gauge:
  stockinette: {stitches: 20, rows: 28, over: 10 cm, needles: larger}
yarns:
  A: {weight: worsted}
needles:
  larger: {size: 5 mm}
numbers:
  front: stitches(body.bust / 2, gauge=stockinette)
  dart: 4 | 8
  depth: neck(crew=8 cm, v=18 cm)
sections:
  - title: Front
    worked: flat
    gauge: stockinette
    work: |
      CO {front} sts.
      Knit 4 rows.
LINES
  - title: Crew neck
    piece: Front
    option: {neck: crew}
    work: |
      Row 1 (RS): K10, BO 20 sts, k to end.
      BO all sts.
  - title: V neck
    piece: Front
    option: {neck: v}
    work: |
      Row 1 (RS): K2tog, k to end.
      BO all sts.
notes: "{front} sts, a dart of {dart} sts, a neck of {depth}."
"""


def proof(*lines: str, **changes: str) -> Proof:
    text = SOURCE.replace("LINES\n", "".join(f"      {line}\n" for line in lines))
    for old, new in changes.items():
        assert old in text
        text = text.replace(old, new)
    return prove_text("top.yaml", text)


def faults(proof: Proof) -> list[tuple[str, str, tuple[str, ...]]]:
    return [(each.rule.name, each.message, each.sizes) for each in proof.findings if each.severity == "error"]


# ------------------------------------------------------------------------------------------------ names


def test_every_pair_in_every_choice_is_a_size() -> None:
    assert PAIRS.labels == ("S, cup B", "M, cup B", "L, cup B", "S, cup D", "M, cup D", "L, cup D")
    assert WHOLE.count == 8
    assert WHOLE.labels[:3] == ("S, cup B, crew neck", "M, cup B, crew neck", "S, cup D, crew neck")
    assert [WHOLE.place(size) for size in (0, 1, 2, 4, 7)] == [(0, 0, 0), (1, 0, 0), (0, 1, 0), (0, 0, 1), (1, 1, 1)]
    assert WHOLE.chosen("neck", "v") == (False,) * 4 + (True,) * 4


def test_several_options_are_combined() -> None:
    dart = Option("dart", (Choice("yes", "with darts"), Choice("no", "without darts")))
    axes = Axes(("One size",), options=(NECK, dart))
    assert axes.labels == (
        "crew neck, with darts", "crew neck, without darts", "V neck, with darts", "V neck, without darts",
    )  # fmt: skip
    assert axes.chosen("dart", "no") == (False, True, False, True)
    assert axes.chosen("neck", "v") == (False, False, True, True)


@pytest.mark.parametrize(
    ("sizes", "told"),
    [
        ((0, 1, 2, 3, 4, 5, 6, 7), ()),
        ((2, 3, 6, 7), ("cup D",)),
        ((4, 5, 6, 7), ("V neck",)),
        ((1, 3), ("M, crew neck",)),
        ((0, 1), ("cup B, crew neck",)),
        ((0, 3), ("S, cup B, crew neck", "M, cup D, crew neck")),
        ((5,), ("M, cup B, V neck",)),
    ],
)
def test_sizes_are_told_in_as_few_words_as_say_the_same(sizes: tuple[int, ...], told: tuple[str, ...]) -> None:
    assert WHOLE.told([WHOLE.labels[size] for size in sizes]) == told


def test_names_know_what_they_are_made_of() -> None:
    assert axes_of(SizeNames.of(PAIRS)) == PAIRS
    assert axes_of(("S", "M")) == Axes(("S", "M"))
    assert axes_of(("S", "M")).plain and not PAIRS.plain


# ------------------------------------------------------------------------------------------------ numbers


@pytest.mark.parametrize(
    ("text", "values"),
    [
        ("84", (84,)),
        ("84 (92, 100)", (84, 92, 100, 84, 92, 100)),
        ("4 | 8", (4, 4, 4, 8, 8, 8)),
        ("84 (92, 100) | 90 (98, 106)", (84, 92, 100, 90, 98, 106)),
        ("84 [92, 100] | 90", (84, 92, 100, 90, 90, 90)),
        ("84 (92, –) | 90 (98, 106)", (84, 92, None, 90, 98, 106)),
    ],
)
def test_lists_of_pairs(text: str, values: tuple[int | None, ...]) -> None:
    read = read_list(text, 0, PAIRS)
    assert isinstance(read, NumeralList)
    assert tuple(read.values) == values and read.end == len(text)


def test_lists_are_spread_over_the_choices() -> None:
    read = read_list("84 (92)", 0, WHOLE)
    assert isinstance(read, NumeralList) and list(map(int, filter(None, read.values))) == [84, 92] * 4
    read = read_list("1 | 2", 0, WHOLE)
    assert isinstance(read, NumeralList) and list(map(int, filter(None, read.values))) == [1, 1, 2, 2] * 2


def test_lengths_of_pairs_may_be_said_twice() -> None:
    measure = read_measure("20 | 25 cm / 8 | 10 in", 0, PAIRS)
    assert measure is not None and not isinstance(measure, Misfit) and measure.second is not None
    assert list(map(int, filter(None, measure.first.in_base()))) == [200, 200, 200, 250, 250, 250]
    assert measure.second.in_base() == tuple(Fraction(254, 10) * inches for inches in (8, 8, 8, 10, 10, 10))


def test_a_list_for_too_few_of_the_second_sizes_is_a_misfit() -> None:
    assert read_list("1 | 2", 0, Axes(("S", "M"), "cup", ("B", "C", "D"))) == Misfit(2, 0, 5)


def test_a_list_is_shown_as_it_is_typed() -> None:
    assert pair_list(("1", "2", "3", "4", "5", "6"), PAIRS) == "1 (2, 3) | 4 (5, 6)"
    assert pair_list(("1", "2", "3", "1", "2", "3"), PAIRS) == "1 (2, 3)"
    assert pair_list(("1", "1", "2", "2", "3", "3", "4", "4"), WHOLE) == "crew neck: 1 | 2; V neck: 3 | 4"


# ------------------------------------------------------------------------------------------------ patterns


def test_every_pair_is_knitted_in_every_choice() -> None:
    done = proof()
    assert faults(done) == []
    assert done.knitted is not None and done.numbers is not None
    front = next(entry.worth for entry in done.numbers.entries if entry.name == "front")
    assert front is not None and list(map(int, filter(None, front.values))) == [84, 92, 100, 90, 98, 106] * 2
    for size, knitted in enumerate(done.knitted.sizes):
        crew, v = knitted.sections[1], knitted.sections[2]
        assert bool(crew.records) == (size < 6) and bool(v.records) == (size >= 6)
    depth = next(entry.worth for entry in done.numbers.entries if entry.name == "depth")
    assert depth is not None and list(map(int, filter(None, depth.values))) == [80] * 6 + [180] * 6


def test_findings_name_the_pair() -> None:
    done = proof("Knit 1 row. 84 (92, 100) | 90 (98, 104) sts.", "Knit 1 row.")
    assert [found[1:] for found in faults(done)] == [("104 sts are printed, 106 are on the needle", ("L, cup D",))]


def test_findings_name_the_choice() -> None:
    done = proof("V neck only: Next row (RS): K2tog, k to end. {front} sts.", "V neck only: Next row: Purl.")
    (found,) = faults(done)
    assert found[2] == ("V neck",)


def test_lines_for_one_choice_or_one_of_the_second_sizes() -> None:
    done = proof(
        "Cup D only: Knit 2 rows.", "V neck only:", "Knit 6 rows.", "All versions:", "Sizes M and L only: Knit 2 rows."
    )
    assert faults(done) == []
    assert done.knitted is not None
    rows = [knitted.sections[0].rows for knitted in done.knitted.sizes]
    assert rows == [4, 6, 6, 6, 8, 8, 10, 12, 12, 12, 14, 14]


@pytest.mark.parametrize(
    ("old", "new", "message"),
    [
        ("dart: 4 | 8", "dart: 4 (5, 6, 7) | 8", "4 values for 3 sizes"),
        ("option: {neck: v}", "option: {neck: round}", "there is no choice of `neck` `round`"),
        ("option: {neck: v}", "option: {nek: v}", "there is no option `nek`"),
        ("v=18 cm", "v=18", "`18` is a plain number, and the others are not"),
        (", v=18 cm", "", "`neck` is chosen by the knitter, and nothing is said for `v`"),
        ("v=18 cm", "w=18 cm", "`neck` is chosen by the knitter: its choices are crew, v"),
    ],
)
def test_what_is_wrong_is_told(old: str, new: str, message: str) -> None:
    assert message in [found[1] for found in faults(proof(**{old: new}))]
