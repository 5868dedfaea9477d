"""Numbers and measures in words."""

from __future__ import annotations

from fractions import Fraction

import pytest

from castoff.document.figures import set_figures
from castoff.document.setting import Setting
from castoff.document.tree import SizeList, plain_text
from castoff.document.wording import counts, decimal, joined, listed, measure, mixed, ordinal

ALL = Setting(("S", "M", "L"), groups=(2,))
METRIC = Setting(("S", "M", "L"), units="metric", groups=(2,))
INCHES = Setting(("S", "M", "L"), units="imperial", groups=(2,))
ONE = Setting(("S", "M", "L"), shown=1, groups=(2,))


def flat(inline: object) -> str:
    return plain_text(inline).replace("\u00a0", " ")  # type: ignore[arg-type]


def mm(*values: float | None) -> tuple[Fraction | None, ...]:
    return tuple(None if value is None else Fraction(str(value)) for value in values)


@pytest.mark.parametrize(
    ("value", "text"),
    [("16.5", "16.5"), ("16", "16"), ("0.25", "0.25"), ("1/3", "0.333"), ("-4", "−4"), ("100", "100")],
)
def test_decimals_have_no_more_digits_than_they_need(value: str, text: str) -> None:
    assert decimal(Fraction(value)) == text


@pytest.mark.parametrize(
    ("value", "text"), [("33/4", "8¼"), ("1/2", "½"), ("21/8", "2⅝"), ("7", "7"), ("33/16", "2.062")]
)
def test_inches_have_real_fractions(value: str, text: str) -> None:
    assert mixed(Fraction(value)) == text


@pytest.mark.parametrize(
    ("value", "text"),
    [(1, "1st"), (2, "2nd"), (3, "3rd"), (4, "4th"), (11, "11th"), (12, "12th"), (21, "21st"), (112, "112th")],
)
def test_ordinals(value: int, text: str) -> None:
    assert ordinal(value) == text


def test_a_list_of_equal_numbers_is_one_number() -> None:
    assert flat(counts([84, 84, 84], ALL)) == "84"
    assert counts([84, 92, 100], ALL) == (SizeList(("84", "92", "100"), ("S", "M", "L"), groups=(2,)),)


def test_a_size_that_skips_has_a_dash() -> None:
    assert flat(counts([None, 92, 100], ALL)) == "– (92, 100)"


def test_a_one_size_edition_holds_no_other_number() -> None:
    inline = counts([84, 92, 100], ONE)
    assert flat(inline) == "92"
    assert "84" not in repr(inline) and "100" not in repr(inline)


def test_units_follow_the_last_bracket() -> None:
    assert flat(listed(["5", "6", "7"], ALL, "cm")) == "5 (6, 7) cm"


def test_a_length_is_printed_in_the_unit_it_was_typed_in_first() -> None:
    assert flat(measure(mm(200, 200, 200), "cm", ALL)) == "20 cm / 7¾ in"
    assert flat(measure(mm(203.2, 203.2, 203.2), "in", ALL)) == "8 in / 20.5 cm"
    assert flat(measure(mm(200, 200, 200), "cm", METRIC)) == "20 cm"
    assert flat(measure(mm(200, 200, 200), "cm", INCHES)) == "7¾ in"


def test_a_typed_pair_is_printed_as_typed() -> None:
    # 7½ in and 19.5 cm are 190.5 and 195 mm: neither is the rounding of the other, and the author's word stands
    inches, centimetres = mm(190.5, 190.5, 190.5), mm(195, 195, 195)
    assert flat(measure(inches, "in", ALL, twin=centimetres, twin_unit="cm")) == "7½ in / 19.5 cm"
    assert flat(measure(inches, "in", METRIC, twin=centimetres, twin_unit="cm")) == "19.5 cm"


def test_a_computed_length_is_rounded_in_each_system_from_the_exact_value() -> None:
    # 133.3 mm: 13.5 cm by halves; 5.248 in is 5¼ by quarters, where 13.5 cm alone would make it 5.315
    assert flat(measure(mm(133.3, 133.3, 133.3), "", ALL)) == "13.5 cm / 5¼ in"


def test_the_author_s_inch_is_used() -> None:
    # 60 in: 150 cm by 2.5 and 152.5 by 2.54 (jennabarron.com, Common measurement errors in knitting patterns)
    sixty = mm(1524, 1524, 1524)
    assert flat(measure(sixty, "in", Setting(("S", "M", "L"), units="metric", inch_mm=Fraction(25)))) == "150 cm"
    assert flat(measure(sixty, "in", METRIC)) == "152.5 cm"


def test_yarn_is_rounded_up_and_needles_to_whole_units() -> None:
    # common practice, no source: 345 yd are stated as 316 m, a 16 in circular needle as 41 cm
    assert flat(measure(mm(345 * 914.4), "yd", Setting(("One size",), units="metric"), kind="yarn")) == "316 m"
    assert flat(measure(mm(406.4), "in", Setting(("One size",), units="metric"), kind="needle")) == "41 cm"


def test_a_put_up_is_rounded_to_the_nearest() -> None:
    one = Setting(("One size",), units="imperial")
    assert flat(measure(mm(200000), "m", one, kind="put-up")) == "219 yd"
    assert flat(measure(mm(100), "g", one, kind="mass")) == "3.5 oz"


def test_a_length_that_is_not_nothing_is_never_printed_as_nothing() -> None:
    assert flat(measure(mm(2), "cm", Setting(("One size",), units="imperial"))) == "⅛ in"


def test_names_in_a_sentence() -> None:
    assert joined(["A"]) == "A"
    assert joined(["A", "B", "C"]) == "A, B and C"


# ── numbers in running text ───────────────────────────────────────────────────────────────────────


@pytest.mark.parametrize(
    ("text", "printed"),
    [
        ("Cut a 20 cm tail.", "Cut a 7¾ in tail."),
        ("about 13 to 17.5 cm of ease", "about 5 to 7 in of ease"),
        ("a swatch of 16 x 16 cm", "a swatch of 6¼ x 6¼ in"),
        ("for 13 (14, 15) cm / 5 (5½, 6) in more", "for 5 (5½, 6) in more"),
        ("on 4.5 mm needles", "on 4.5 mm needles"),
        ("version 1.0.0 of 2026-11-01", "version 1.0.0 of 2026-11-01"),
        ("k2, p2 and k2tog 3 times", "k2, p2 and k2tog 3 times"),
        ("84 (92, 100) sts", "84 (92, 100) sts"),
        ("leave 8 in. Then turn", "leave 8 in. Then turn"),
    ],
)
def test_prose_in_inches(text: str, printed: str) -> None:
    assert flat(set_figures(text, INCHES)) == printed


def test_prose_of_one_size_keeps_no_other_number() -> None:
    inline = set_figures("Cast on 84 (92, 100) sts and knit 13 (14, 15) cm.", ONE)
    assert flat(inline) == "Cast on 92 sts and knit 14 cm / 5½ in."
    assert "84" not in repr(inline) and "15" not in repr(inline)
