"""Instruction lines in print: what an edition changes in them, and nothing else."""

from __future__ import annotations

import pytest
from tests.document.sources import composed, lines_of, rows, source

from castoff.document.tree import Abbreviation, StitchTerm

CAST_ON = "With larger needles and A, cast on 80 (88, 96) sts. Place marker and join to work in the round."


def line(text: str, words: str = "both", more: str = "") -> str:
    """A line behind a cast-on, in an edition."""
    return lines_of(source(f"{CAST_ON}\n{text}", more), words)[1]


def test_all_sizes_keep_their_numbers_and_the_total_stands_apart() -> None:
    assert line("Rnd 1: *K8, k2tog; rep from * 7 (7, 8) more times, k0 (8, 6). 72 (80, 87) sts.") == (
        "Rnd 1: *K8, k2tog; rep from * 7 (7, 8) more times, k0 (8, 6). => 72 (80, 87) sts"
    )


@pytest.mark.parametrize(
    ("size", "printed"),
    [
        ("S", "Rnd 1: *K8, k2tog; rep from * 7 more times. => 72 sts"),
        ("M", "Rnd 1: *K8, k2tog; rep from * 7 more times, k8. => 80 sts"),
        ("L", "Rnd 1: *K8, k2tog; rep from * 8 more times, k6. => 87 sts"),
    ],
)
def test_one_size_has_its_numbers_only_and_k0_vanishes(size: str, printed: str) -> None:
    text = "Rnd 1: *K8, k2tog; rep from * 7 (7, 8) more times, k0 (8, 6). 72 (80, 87) sts."
    assert line(text, f"size={size}") == printed


def test_k0_at_the_head_gives_its_capital_on() -> None:
    assert line("Rnd 1: K0 (8, 16), knit to end.", "size=S") == "Rnd 1: Knit to end."


def test_a_total_is_set_apart_however_it_was_set_off() -> None:
    for text in ("Rnd 1: Knit — 80 (88, 96) sts.", "Rnd 1: Knit. (80 (88, 96) sts)", "Rnd 1: Knit; 80 (88, 96) sts."):
        assert line(text) == "Rnd 1: Knit. => 80 (88, 96) sts"


def test_a_total_in_a_sentence_of_its_own_stays_there() -> None:
    assert line("Rnd 1: Knit. You should have 80 (88, 96) sts.", "size=M") == "Rnd 1: Knit. You should have 88 sts."


@pytest.mark.parametrize(
    ("size", "printed"),
    [("S", "Rep rnd 1 once more."), ("M", "Rep rnd 1 twice more."), ("L", "Rep rnd 1 3 more times.")],
)
def test_one_time_is_once(size: str, printed: str) -> None:
    assert lines_of(source(f"{CAST_ON}\nRnd 1: Knit.\nRep rnd 1 1 (2, 3) more times."), f"size={size}")[2] == printed


@pytest.mark.parametrize(
    ("words", "size", "printed"),
    [
        ("once (twice, twice) more", "S", "once more"),
        ("once (twice, twice) more", "L", "twice more"),
        ("once (twice, twice) more", "", "once (twice, twice) more"),
        ("one (two, three) more times", "L", "3 more times"),
        ("one (two, three) more times", "S", "once more"),
        ("one (two, three) more times", "", "1 (2, 3) more times"),
    ],
)
def test_a_list_in_words_is_a_list(words: str, size: str, printed: str) -> None:
    text = source(f"{CAST_ON}\nRnd 1: Knit.\nRep rnd 1 {words}.")
    assert lines_of(text, f"size={size}" if size else "both")[2] == f"Rep rnd 1 {printed}."


def test_stars_of_bold_names_are_not_printed() -> None:
    assert line("**Rnd 1:** Knit. 80 (88, 96) sts.") == "Rnd 1: Knit. => 80 (88, 96) sts"
    assert line("**Rnd 1**: **K2, p2; rep from ** to end.") == "Rnd 1: **K2, p2; rep from ** to end."


def test_a_further_two_times_stays() -> None:
    text = source(f"{CAST_ON}\nRnd 1: Knit.\nRep rnd 1 a further 2 (3, 4) times.")
    assert lines_of(text, "size=S")[2] == "Rep rnd 1 a further 2 times."


def test_a_line_that_is_worked_no_times_is_gone() -> None:
    text = source(f"{CAST_ON}\nRnd 1: Knit.\nRep rnd 1 0 (2, 3) more times.\nKnit 4 rnds.")
    assert lines_of(text, "size=S")[1:] == ["Rnd 1: Knit.", "Knit 4 rnds."]
    assert lines_of(text)[2] == "Rep rnd 1 0 (2, 3) more times."


def test_rates_of_no_times_are_gone() -> None:
    flat = (
        "With larger needles and A, cast on 40 sts.\nRow 1 (RS): Knit.\nRow 2 (WS): Purl.\n"
        "Inc row (RS): K1, m1l, k to last st, m1r, k1. 42 sts.\n"
        "Rep inc row every 6th row 2 (0, 1) times, then every 4th row 0 (3, 2) times."
    )
    head = source(flat).replace("worked: in the round\n    work", "worked: flat\n    work")
    assert lines_of(head, "size=S")[-1] == "Rep inc row every 6th row twice."
    assert lines_of(head, "size=M")[-1] == "Rep inc row every 4th row 3 times."
    assert lines_of(head, "size=L")[-1] == "Rep inc row every 6th row once, then every 4th row twice."


def test_lines_for_some_sizes() -> None:
    text = source(f"{CAST_ON}\nSizes M and L only:\nKnit 2 rnds.\nAll sizes:\nKnit 4 rnds.")
    assert lines_of(text)[1:] == ["Sizes M and L only:", "Knit 2 rnds.", "All sizes:", "Knit 4 rnds."]
    assert [row.indent for row in rows(composed(text))] == [0, 0, 1, 0, 0]
    assert lines_of(text, "size=S")[1:] == ["Knit 4 rnds."]
    assert lines_of(text, "size=M")[1:] == ["Knit 2 rnds.", "Knit 4 rnds."]


def test_one_stitch_is_singular() -> None:
    assert line("Rnd 1: K to last 1 (2, 3) sts, knit to end.", "size=S") == "Rnd 1: K to last 1 st, knit to end."


def test_lengths_in_each_edition() -> None:
    text = "Knit every rnd until piece measures 12 (13, 14) cm."
    assert line(text) == "Knit every rnd until piece measures 12 (13, 14) cm / 4¾ (5, 5½) in."
    assert line(text, "imperial") == "Knit every rnd until piece measures 4¾ (5, 5½) in."
    assert line(text, "metric size=L") == "Knit every rnd until piece measures 14 cm."


def test_a_typed_pair_is_printed_as_typed() -> None:
    text = "Knit every rnd until piece measures 4¾ (5¼, 5½) in. / 12 (13, 14) cm."
    assert line(text) == "Knit every rnd until piece measures 4¾ (5¼, 5½) in / 12 (13, 14) cm."
    assert line(text, "imperial") == "Knit every rnd until piece measures 4¾ (5¼, 5½) in."


def test_computed_numbers_are_filled_in() -> None:
    more = "numbers:\n  rounds: 10 (12, 14)\n  deep: 3 (3.5, 4) cm\n"
    assert line("Knit {rounds} rnds.", more=more) == "Knit 10 (12, 14) rnds."
    assert line("Knit every rnd until piece measures {deep}.", "metric", more) == (
        "Knit every rnd until piece measures 3 (3.5, 4) cm."
    )


def test_written_out() -> None:
    assert line("Rnd 1: *K8, k2tog; rep from * to last 0 (8, 6) sts, k to end. 72 (80, 87) sts.", "words size=M") == (
        "Round 1: *Knit 8, knit two together; repeat from * to last 8 stitches, knit to end. => 80 stitches"
    )


def test_ssk_in_words_cannot_be_taken_for_three_stitches() -> None:
    assert line("Rnd 1: K1, ssk, k to end. 79 (87, 95) sts.", "words size=S") == (
        "Round 1: Knit 1, slip-slip-knit, knit to end. => 79 stitches"
    )


def test_short_forms_carry_their_words() -> None:
    row = rows(composed(source(f"{CAST_ON}\nRnd 1: Ssk, k to end. 79 (87, 95) sts.")))[1]
    assert StitchTerm("Ssk", "slip, slip, knit") in row.text
    assert row.label is not None and Abbreviation("Rnd", "round") in row.label


# ── the other country's words ─────────────────────────────────────────────────────────────────────


def test_uk_terms_from_a_us_source() -> None:
    text = source(f"{CAST_ON}\nWork in stockinette stitch for 4 rnds.\nBind off all sts loosely.")
    assert lines_of(text, "uk")[1:] == ["Work in stocking stitch for 4 rnds.", "Cast off all sts loosely."]


@pytest.mark.parametrize(
    ("us", "uk"),
    [
        ("*K3, yo, k2tog; rep from * to last 0 (3, 1) sts, k to end.", "yfwd"),
        ("*P3, yo, p2tog; rep from * to last 0 (3, 1) sts, p to end.", "yrn"),
        ("*P3, yo, k2tog; rep from * to last 0 (3, 1) sts, k to end.", "yon"),
        ("*K3, yo, p2tog; rep from * to last 0 (3, 1) sts, p to end.", "yfrn"),
    ],
)
def test_a_yarn_over_is_named_by_its_neighbours(us: str, uk: str) -> None:
    # UK names of a yarn over between knit and purl stitches: knittingmagic.biz and yarntoday.co.uk, see trade/terms.yaml
    printed = line(f"Rnd 1: {us}", "uk")
    assert f", {uk}, " in printed and "yo" not in printed.replace("yon", "")


def test_us_terms_from_a_uk_source() -> None:
    text = source(f"{CAST_ON}\nRnd 1: *K3, yfwd, k2tog; rep from * to last 0 (3, 1) sts, k to end.\nCast off all sts.")
    uk = text.replace("date: 2026", "terms: UK\ndate: 2026")
    assert lines_of(uk, "us")[1:] == [
        "Rnd 1: *K3, yo, k2tog; rep from * to last 0 (3, 1) sts, k to end.",
        "Bind off all sts.",
    ]


def test_ranges_have_the_printer_s_dash_and_words_the_printer_s_apostrophe() -> None:
    assert line("Rnds 1-4: Knit.") == "Rnds 1–4: Knit."
    assert line("Rnd 1: Ssk, k to end. (1 st dec'd)") == "Rnd 1: Ssk, k to end. => 1 st dec’d"
