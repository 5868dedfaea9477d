"""Lines of whole garments: rows as in another piece, stitches that come in at the edges, patterns kept in part."""

from __future__ import annotations

import textwrap

import pytest

from castoff.pipeline import Proof, prove_text

LACE = """\
Row 1 (RS): K2, *yo, ssk, k3, k2tog, yo, k1; rep from * to last st, k1.
Row 2: Purl.
Row 3: K2, *k1, yo, ssk, k1, k2tog, yo, k2; rep from * to last st, k1.
Row 4: Purl.
"""
HEAD = """\
written_for: 1
title: Lines to try
excerpt: true
sizes: {names: "S (M, L)"}
gauge:
  stockinette: {stitches: 20, rows: 28, over: 10 cm, worked: flat, needles: larger}
yarns:
  A: {weight: worsted}
needles:
  larger: {size: 5 mm}
"""


def proof(*pieces: tuple[str, str], lace: str = LACE, form: str = "flat") -> Proof:
    """Pieces by name and work, as an excerpt."""
    text = (
        HEAD + "stitch_patterns:\n  lace:\n    multiple: 8\n    plus: 3\n    rows: |\n" + textwrap.indent(lace, " " * 6)
    )
    text += "sections:\n"
    for name, work in pieces:
        text += f"  - title: {name}\n    worked: {form}\n    gauge: stockinette\n    work: |\n"
        text += textwrap.indent(work, " " * 6) + "\n"
    return prove_text("lines.yaml", text)


def wrong(*pieces: tuple[str, str], lace: str = LACE, form: str = "flat") -> list[str]:
    """Rules of the errors, in the order of their places."""
    found = proof(*pieces, lace=lace, form=form).findings
    errors = [each for each in found if each.severity == "error" and each.span is not None]
    return [each.rule.name for each in sorted(errors, key=lambda each: each.span.line if each.span else 0)]


def said(work: str, lace: str = LACE) -> list[str]:
    return wrong(("Piece", work), lace=lace)


def last_row(work: str) -> list[tuple[int, int]]:
    """Row and stitches at the end, in every size; nothing may be wrong."""
    made = proof(("Piece", work))
    assert made.sound, [each.message for each in made.findings]
    assert made.knitted is not None
    records = [size.pieces["Piece"].records[-1] for size in made.knitted.sizes]
    return [(record.last_row, record.after) for record in records]


NEW = "CO 27 (35, 43) sts.\nWork in lace for 4 rows.\n"


def test_stitches_that_come_in_beside_a_lace_are_worked_in_their_own_fabric() -> None:
    work = NEW + (
        "Inc 1 st at each end of next and every foll alt row 5 times in total, working new sts in St st. 37 (45, 53) sts.\n"
        "Cont in patt, keeping first and last 5 sts in St st, until piece measures 10 cm, ending with a WS row."
    )
    assert last_row(work) == [(28, 37), (28, 45), (28, 53)]


@pytest.mark.parametrize(
    ("right", "other", "rule"),
    [
        ("5 times", "6 times", "stated-total-off"),
        ("37 (45, 53)", "37 (46, 53)", "stated-total-off"),
        ("last 5 sts", "last 6 sts", "repeat-does-not-divide"),
    ],
)
def test_each_number_beside_a_lace_counts(right: str, other: str, rule: str) -> None:
    work = NEW + (
        "Inc 1 st at each end of next and every foll alt row 5 times in total, working new sts in St st. 37 (45, 53) sts.\n"
        "Cont in patt, keeping first and last 5 sts in St st, until piece measures 10 cm, ending with a WS row."
    )
    assert said(work.replace(right, other))[:1] == [rule]


def test_a_pattern_is_kept_over_part_of_its_repeat_where_the_line_says_so() -> None:
    work = (
        NEW
        + "Bind off 3 sts at beg of next 2 rows, then 2 sts at beg of foll 2 rows, keeping patt correct. 17 (25, 33) sts.\n"
    )
    assert last_row(work + "Work 3 rows in patt.") == [(11, 17), (11, 25), (11, 33)]
    assert "repeat-does-not-divide" in said(work.replace(", keeping patt correct", ""))
    assert "stated-total-off" in said(work.replace("off 3 sts", "off 4 sts"))


def test_rows_that_change_the_count_of_a_repeat_are_not_kept_over_part_of_it() -> None:
    uneven = LACE.replace("k2tog, yo, k1; rep", "k2, yo, k1; rep").replace(
        "K2, *k1, yo, ssk, k1, k2tog, yo, k2", "K2, *k2, ssk, k2, k2tog, k1"
    )
    assert said(NEW, uneven) == []
    work = NEW + "Dec 1 st at each end of next row, keeping patt correct. 25 (33, 41) sts."
    assert said(work, uneven)


def test_a_neck_parts_a_lace_where_the_stitches_say() -> None:
    work = NEW + (
        "Next row (RS): Work 10 (14, 18) sts in patt, join a second ball of yarn and bind off centre 7 sts, "
        "work in patt to end. 10 (14, 18) sts each side.\n"
        "Work both sides at the same time. Work 2 rows in patt, ending with a RS row.\n"
    )
    assert said(work) == []
    assert said(work.replace("Work 10 (14", "Work 11 (14"))


def test_both_shoulders_may_be_bound_off_to_the_last_stitch() -> None:
    work = (
        "CO 40 (44, 48) sts.\nWork 4 rows in St st.\n"
        "Next row (RS): K15 (17, 19), join a second ball of yarn and bind off centre 10 sts, k to end. "
        "15 (17, 19) sts each side.\n"
        "Work both sides at the same time with separate balls of yarn. Work 3 rows even, ending with a WS row.\n"
        "Bind off 8 (9, 10) sts at beg of next 2 rows, then 7 (8, 9) sts at beg of foll 2 rows."
    )
    assert said(work) == []
    assert said(work.replace("then 7 (8", "then 8 (8"))


def test_an_open_rate_counts_on_from_the_row_it_begins_with() -> None:
    work = (
        "CO 20 (22, 24) sts.\nBeg with a k row, work in St st, inc 1 st at each end of 5th and every foll 6th row until "
        "there are 26 (28, 30) sts, then at each end of every foll 4th row until there are 30 (32, 34) sts."
    )
    assert last_row(work) == [(25, 30), (25, 32), (25, 34)]
    assert said(work.replace("26 (28", "27 (28"))
    assert said(work.replace("30 (32, 34)", "30 (32, 35)"))


# ------------------------------------------------------------------------------------------------ as in another piece


def two(back: str, front: str) -> list[str] | list[int]:
    """What is wrong, or the rows of the front in every size."""
    found = wrong(("Back", back), ("Front", front))
    made = proof(("Back", back), ("Front", front))
    assert made.knitted is not None
    return found or [size.pieces["Front"].rows for size in made.knitted.sizes]


RIB = (
    "CO 26 (30, 34) sts.\n1st row (RS): K2, *p2, k2; rep from * to end.\n2nd row: P2, *k2, p2; rep from * to end.\n"
    "These 2 rows form rib.\nCont in rib for a further 8 rows, ending with a WS row.\n"
)


@pytest.mark.parametrize(
    ("line", "rows"),
    [
        ("Work 10 rows in rib as given for Back.", 10),
        ("Work in rib as for Back until piece measures 5 cm, ending with a WS row.", 14),
        ("Work ribbing as for Back until piece measures 5 cm, ending with a WS row.", 14),
    ],
)
def test_a_rib_told_row_by_row_is_worked_again_as_there(line: str, rows: int) -> None:
    assert two(RIB, f"CO 18 (22, 26) sts.\n{line}") == [rows] * 3
    assert two(RIB, f"CO 19 (22, 26) sts.\n{line}")[0] == "repeat-does-not-divide"


def test_rows_of_a_rib_are_counted() -> None:
    behind = "\nBeg with a k row, work 4 rows in St st."
    assert two(RIB, f"CO 18 (22, 26) sts.\nWork 10 rows in rib as given for Back.{behind}") == [14] * 3
    assert two(RIB, f"CO 18 (22, 26) sts.\nWork 11 rows in rib as given for Back.{behind}")[0] == "wrong-side-due"


def test_a_piece_is_followed_as_far_as_a_length_that_it_measures() -> None:
    back = (
        "CO 40 (44, 48) sts.\nWork in St st until piece measures 10 cm, ending with a WS row.\n"
        "Bind off 3 sts at beg of next 2 rows. 34 (38, 42) sts.\nWork even until armhole measures 8 cm, "
        "ending with a WS row.\nBO all sts."
    )
    front = "Work same as for Back until armhole measures 4 cm, ending with a WS row. 34 (38, 42) sts.\nBO all sts."
    rows = two(back, front)
    assert rows == [40, 40, 40]
    assert two(back, front.replace("34 (38", "34 (39"))[0] == "stated-total-off"
    assert two(back, front.replace("armhole measures 4", "armhole measures 9"))[0] == "piece-not-there"


SOURCE = """\
written_for: 1
title: A tee to try
excerpt: true
sizes: {names: "S (M)"}
gauge:
  stockinette: {stitches: 20, rows: 28, over: 10 cm, worked: flat, needles: larger}
yarns:
  A: {weight: worsted}
needles:
  larger: {size: 5 mm}
sections:
  - title: Back
    worked: flat
    work: &half |
      CO 80 (90) sts.
      Work in St st until piece measures 30 cm, ending with a WS row.
      Inc 1 st at each end of next and every foll alt row 5 times in total. 90 (100) sts.
      Work 20 rows even.
      BO all sts.
  - title: Front
    worked: flat
    work: *half
measurements:
  bust: {label: Bust, is: "80 (90) cm"}
"""


def test_a_bust_may_be_that_below_the_sleeves() -> None:
    def found(text: str) -> list[str]:
        return [each.rule.name for each in prove_text("tee.yaml", text).findings if each.severity == "error"]

    assert found(SOURCE) == []
    assert found(SOURCE.replace("80 (90) cm", "80 (91) cm")) == ["measurement-off"]
    assert found(SOURCE.replace("80 (90) cm", "90 (100) cm")) == []


# ------------------------------------------------------------------------------------------------ joined at the underarm

BODY = (
    "CO 60 (64, 68) sts. Join to work in the round and pm for beginning of round.\n"
    "Next round: K30 (32, 34), pm for right side, k to end.\n"
    "Knit 9 rnds, ending last rnd 2 sts before marker.\n"
    "Divide for armholes: Bind off 4 sts (removing marker), k until there are 26 (28, 30) sts on right needle "
    "after bind-off, bind off 4 sts (removing marker), k to end. 26 (28, 30) sts each for front and back.\n"
    "Break yarn and leave sts on spare needle."
)
SLEEVE = (
    "CO 20 (22, 24) sts. Join to work in the round and pm for beginning of round.\n"
    "Knit 6 rnds, ending last rnd 2 sts before marker.\nNext rnd: Bind off 4 sts, k to end. 16 (18, 20) sts.\n"
    "Break yarn and place sts on waste yarn."
)
YOKE = (
    "Joining round: With larger needles and RS facing, rejoin yarn to sts of front, knit across 26 (28, 30) front sts, pm, "
    "knit across 16 (18, 20) sts of right sleeve, pm, knit across 26 (28, 30) back sts, pm, "
    "knit across 16 (18, 20) sts of left sleeve, pm for beginning of round. 84 (92, 100) sts.\n"
    "Knit 2 rnds. Bind off."
)


def joined(body: str = BODY, yoke: str = YOKE) -> list[str]:
    made = proof(("Body", body), ("Sleeve", SLEEVE), ("Left sleeve", SLEEVE), ("Yoke", yoke), form="in the round")
    return [each.rule.name for each in made.findings if each.severity == "error"]


def test_body_and_sleeves_are_joined_from_where_they_wait() -> None:
    assert joined() == []


@pytest.mark.parametrize("number", ["26 (28, 30) front", "16 (18, 20) sts of right", "26 (28, 30) back", "84 (92"])
def test_every_number_of_a_joining_round_counts(number: str) -> None:
    first = number.split(" ")[0]
    found = joined(yoke=YOKE.replace(number, number.replace(first, str(int(first) + 1), 1)))
    assert found and found[0] in ("stitches-not-held", "stated-total-off"), found


@pytest.mark.parametrize("wrong", ["off 4 sts (removing marker), k until", "there are 26", "end. 26 (28"])
def test_every_number_of_a_dividing_round_counts(wrong: str) -> None:
    number = "4" if "4" in wrong else "26"
    assert "stated-part-off" in joined(BODY.replace(wrong, wrong.replace(number, str(int(number) + 1), 1)))


def test_a_holder_is_worked_in_parts() -> None:
    work = (
        "CO 40 (44, 48) sts.\nWork 4 rows in St st.\n"
        "Next row (RS): K14 (16, 18), place next 12 sts on a holder for front, "
        "place rem 14 (16, 18) sts on a second holder, turn.\n"
        "BO all sts.\nWith RS facing, knit the last 6 sts from the front holder, pick up and knit 10 sts along neck, "
        "knit the remaining 6 sts from the front holder. 22 sts."
    )
    assert said(work) == []
    assert said(work.replace("last 6", "last 7"))[0] == "stitches-not-held"
    assert said(work.replace("remaining 6", "remaining 5"))[0] == "stitches-not-held"
    assert said(work.replace("knit 10 sts", "knit 11 sts"))[0] == "stated-total-off"


# ------------------------------------------------------------------------------------------------ steeks

STEEKED = (
    "CO 60 (64, 68) sts. Join to work in the round and pm for beginning of round.\nKnit 6 rnds.\n"
    "Next rnd: K4, slip these 4 sts just worked and last 3 sts of previous rnd on to a thread (left underarm, 7 sts), "
    "cast on 5 steek sts, pm, k23 (25, 27), pm, slip next 7 sts on to a thread (right underarm), cast on 5 steek sts, pm, "
    "k to end, pm for new start of rnd. 56 (60, 64) sts.\n"
    "Knit 6 rnds.\n"
    "Next rnd: Cast off 5 steek sts, k23 (25, 27), cast off 5 steek sts, k to end. "
    "23 (25, 27) sts for front and 23 (25, 27) sts for back.\n"
    "Machine stitch along each side of the centre st of each steek, and cut open."
)
ARMBAND = (
    "With RS facing, slip first 4 sts from underarm thread on to right needle, rejoin yarn, k rem 3 sts, "
    "pick up and knit 20 sts evenly around armhole, k 4 sts from underarm. 27 sts. Join in the round.\n"
    "Knit 2 rnds.\nBind off."
)


def test_steeks_are_bridged_and_cast_off_and_bands_begin_in_the_middle_of_the_underarm() -> None:
    assert wrong(("Body", STEEKED), form="in the round") == []
    assert wrong(("Body", STEEKED + "\nBind off."), ("Armband", ARMBAND), form="in the round") == []


@pytest.mark.parametrize(
    ("right", "other"),
    [("these 4", "these 5"), ("last 3 sts", "last 4 sts"), ("underarm, 7", "underarm, 8"), ("slip next 7", "slip next 8"),
     ("on 5 steek", "on 6 steek"), ("56 (60", "57 (60"), ("off 5 steek", "off 6 steek"),
     ("23 (25, 27) sts for back", "24 (25, 27) sts for back")],
)  # fmt: skip
def test_every_number_of_a_steek_counts(right: str, other: str) -> None:
    assert right in STEEKED
    assert wrong(("Body", STEEKED.replace(right, other, 1)), form="in the round")


@pytest.mark.parametrize(
    ("right", "other"),
    [("first 4", "first 5"), ("rem 3", "rem 4"), ("k 4 sts from", "k 3 sts from"), ("27 sts", "28 sts")],
)
def test_every_number_of_an_armband_counts(right: str, other: str) -> None:
    band = ARMBAND.replace(right, other, 1)
    assert wrong(("Body", STEEKED + "\nBind off."), ("Armband", band), form="in the round")


SHOULDERS = (
    "CO 60 (64, 68) sts. Join to work in the round and pm for beginning of round.\nKnit 6 rnds.\n"
    "Next rnd: K10, bind off 6 (8, 10) sts, k10 (including st used in binding off), bind off 4 sts, k to end.\n"
    "Join right and left shoulders by three-needle cast-off, working 10 sts from front and back together each side "
    "and leaving centre 10 (12, 14) sts on a holder for back neck."
)


def test_shoulders_are_joined_in_numbers() -> None:
    assert wrong(("Body", SHOULDERS), form="in the round") == []
    assert "grafted-counts-differ" in wrong(
        ("Body", SHOULDERS.replace("working 10", "working 11")), form="in the round"
    )
    assert "grafted-counts-differ" in wrong(("Body", SHOULDERS.replace("centre 10", "centre 11")), form="in the round")
    assert wrong(
        ("Body", SHOULDERS.replace("centre 10", "centre 11").replace("off 4 sts", "off 3 sts")), form="in the round"
    )


def test_a_hood_is_joined_from_its_middle() -> None:
    work = "CO 40 (44, 48) sts.\nWork 6 rows in St st.\nNext row (RS): K20 (22, 24), pm, k to end.\nNext row: Purl.\n"
    work += "Next row: K to marker, then fold the hood in half with right sides together "
    work += "and join the top with a three-needle cast off."
    assert said(work) == []
    assert "grafted-counts-differ" in said(work.replace("K20 (22", "K21 (22"))


def test_a_front_is_as_long_as_the_back_of_the_same_piece() -> None:
    work = (
        "CO 60 (64, 68) sts. Join to work in the round and pm for beginning of round.\nKnit 10 rnds.\n"
        "Divide for front and back: K30 (32, 34), then turn, leaving the remaining 30 (32, 34) sts on a spare "
        "needle for the front. Work back and forth on the back sts from here.\n"
        "Starting with a purl row, work in st st for 15 rows, ending with a purl row.\nCast off.\n"
        "Slip the 30 (32, 34) front sts back onto the larger needle and rejoin yarn with RS facing.\n"
        "Starting with a knit row, work in st st for 4 rows.\nContinue straight until front matches "
        "back to shoulder.\nCast off."
    )
    made = proof(("Body", work), form="in the round")
    assert [each.message for each in made.findings if each.severity == "error"] == []
    assert made.knitted is not None
    last = [size.pieces["Body"].records[-1].last_row for size in made.knitted.sizes]
    assert last == [26, 26, 26]


def test_an_armhole_is_as_deep_as_the_back_to_its_shoulder() -> None:
    back = (
        "CO 40 (44, 48) sts.\nWork 10 rows in St st.\nBind off 3 sts at beg of next 2 rows. 34 (38, 42) sts.\n"
        "Work 20 rows even.\nBind off 5 sts at beg of next 4 rows. 14 (18, 22) sts.\nBO all sts."
    )
    front = (
        "CO 40 (44, 48) sts.\nWork 10 rows in St st.\nBind off 3 sts at beg of next 2 rows. 34 (38, 42) sts.\n"
        "Work straight until armhole measures same as Back, ending with a WS row.\nBO all sts."
    )
    assert two(back, front) == [32, 32, 32]


YOKE_FIRST = """\
written_for: 1
title: A yoke to try
excerpt: true
sizes: {names: "S (M)"}
gauge:
  stockinette: {stitches: 20, rows: 28, over: 10 cm, worked: flat, needles: larger}
yarns:
  A: {weight: worsted}
needles:
  larger: {size: 5 mm}
sections:
  - title: Cardigan
    worked: flat
    gauge: stockinette
    work: |
      CO 100 (110) sts.
      Work 10 rows in St st.
      Dividing row (RS): K20 (22), place next 20 (22) sts on waste yarn for sleeve, k20 (22), place next 20 (22) sts on
        waste yarn for sleeve, k to end. 60 (66) sts.
      Work 9 rows in St st.
      BO all sts.
measurements:
  chest: {label: Chest, is: "30 (33) cm", of: width of Cardigan}
"""


def test_the_width_of_a_body_is_that_without_its_sleeves() -> None:
    def found(text: str) -> list[str]:
        return [each.rule.name for each in prove_text("yoke.yaml", text).findings if each.severity == "error"]

    assert found(YOKE_FIRST) == []
    assert found(YOKE_FIRST.replace("30 (33)", "30 (34)")) == ["measurement-off"]
    assert found(YOKE_FIRST.replace("width of Cardigan", "width of Cardigan at the widest")) == ["measurement-off"]


def test_what_is_bound_off_in_a_dividing_row_happens_in_that_row() -> None:
    work = (
        "CO 40 (44, 48) sts.\nWork 4 rows in St st.\n"
        "Next row (RS): Bind off 3 sts, k until there are 17 (19, 21) sts on right needle, turn and leave rem "
        "20 (22, 24) sts on a holder.\nNext row: Purl.\nBO all sts."
    )
    made = proof(("Front", work))
    assert made.knitted is not None
    piece = made.knitted.sizes[0].pieces["Front"]
    told = [
        (event.row, event.count) for record in piece.records for event in record.changes if event.kind == "bind off"
    ]
    happened = [(event.row, event.count) for event in piece.events if event.kind == "bind off"]
    assert told == [(5, 3)] and happened == [(5, 3), (6, 17)]
