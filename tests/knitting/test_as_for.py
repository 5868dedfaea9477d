"""Work told by what has been worked before: where it is taken up, with the stitches that are on the needle."""

from __future__ import annotations

import pytest
from tests.knitting.plans import GAUGES, NEEDLES, TRADE

from castoff.diagnostic import Diagnostic
from castoff.knitting.fabric import SizeKnitted
from castoff.knitting.knit import knit
from castoff.knitting.plan import Plan, PlanSection
from castoff.notation.lines import parse_work
from castoff.notation.syntax import Form
from castoff.notation.vocabulary import Vocabulary
from castoff.span import Text

SIZES = ("S", "M", "L")
Told = tuple[str, str, str]
"""Title, piece and work of a section."""


def worked(
    *told: Told, form: Form = "flat", excerpt: bool = False
) -> tuple[tuple[SizeKnitted, ...], tuple[Diagnostic, ...]]:
    vocabulary = Vocabulary(
        SIZES,
        TRADE.stitches,
        yarns=("A", "B"),
        needles=tuple(NEEDLES),
        gauges=tuple(GAUGES),
        pieces=tuple(dict.fromkeys(piece for _, piece, _ in told)),
        sections=tuple(title for title, _, _ in told),
    )
    sections = []
    for title, piece, work in told:
        read = parse_work(Text.plain(work), vocabulary)
        assert not read.findings, [each.message for each in read.findings]
        sections.append(PlanSection(title, piece, read.value, form, "stockinette"))
    checked = knit(Plan(SIZES, tuple(sections), TRADE.stitches, GAUGES, ("A", "B"), NEEDLES, excerpt=excerpt))
    return checked.value.sizes, checked.findings


def rows(size: SizeKnitted, section: int) -> list[tuple[str | None, int]]:
    """Side and count of every row of a section, equal rows spread out."""
    return [(each.side, each.after) for each in size.sections[section].records for _ in range(each.rows)]


BACK = """CO 40 (44, 48) sts.
Work 4 rows in St st.
Dec row (RS): K1, ssk, k to end. 39 (43, 47) sts. **
Purl 1 row.
Next row (RS): K1, ssk, k to end. 38 (42, 46) sts.
BO all sts."""


@pytest.mark.parametrize(
    "wording",
    [
        "Complete as for Back.",
        "Finish as for Back.",
        "Complete as given for Back.",
        "Complete to match Back.",
        "Continue as for the Back.",
        "Complete the front as for Back.",
        "Work the rest as for Back.",
        "Finish in the same way as Back.",
        "Complete as for Back from **.",
        "Work as for Back from ** to end.",
    ],
)
def test_it_goes_on_from_the_mark(wording: str) -> None:
    front = f"Work as for Back to **.\nNext row (WS): P2tog, p to end.\nNext row (RS): Kfb, k to end.\n{wording}"
    sizes, found = worked(("Back", "Back", BACK), ("Front", "Front", front))
    assert [each.message for each in found] == []
    for size, cast_on in zip(sizes, (40, 44, 48), strict=True):
        assert size.pieces["Front"].cast_on[0] == cast_on
        assert rows(size, 1) == [
            ("RS", cast_on), ("WS", cast_on), ("RS", cast_on), ("WS", cast_on), ("RS", cast_on - 1),
            ("WS", cast_on - 2), ("RS", cast_on - 1), ("WS", cast_on - 1), ("RS", cast_on - 2),
        ]  # fmt: skip
        assert size.pieces["Front"].live == 0
        assert [each.kind for each in size.sections[1].events].count("cast on") == 1


def test_a_number_that_is_off_is_found_where_it_is_worked_again() -> None:
    front = "Work as for Back to **.\nNext row (WS): P2tog, p to end.\nNext row (RS): Purl.\nComplete as for Back."
    _, found = worked(("Back", "Back", BACK), ("Front", "Front", front))
    assert [each.message for each in found] == ["38 (42, 46) sts are printed, 37 (41, 45) are on the needle"]
    assert [each.message for each in found[0].related][-1] == "worked again from here"


FINGER = """CO 14 (16, 18) sts. Join to work in the round.
Knit 10 rnds.
Next rnd: (K2tog) to end. 7 (8, 9) sts.
Break yarn, draw through rem sts and fasten off."""
OWN = "CO 16 (18, 20) sts. Join to work in the round.\nKnit 12 rnds."
SAME = "CO 14 (16, 18) sts. Join to work in the round.\nKnit 3 rnds."


@pytest.mark.parametrize(
    ("own", "counts"),
    [
        (f"{OWN}\nNext rnd: (K2tog) to end. 8 (9, 10) sts.", (8, 9, 10)),
        (OWN, (8, 9, 10)),
        (f"{SAME}\nPurl 1 rnd.\nNext rnd: (K2tog) to end. 7 (8, 9) sts.", (7, 8, 9)),
    ],
)  # fmt: skip
@pytest.mark.parametrize("name", ["first finger", "First Finger", "the first finger"])
def test_a_finger_goes_on_behind_the_row_that_it_shares(own: str, counts: tuple[int, ...], name: str) -> None:
    told = f"{own}\nFinish as for {name}."
    sizes, found = worked(("First finger", "Glove", FINGER), ("Second finger", "Glove", told), form="round")
    assert [each.message for each in found] == []
    for size, last in zip(sizes, counts, strict=True):
        second = size.sections[1]
        assert second.records[-1].after == last
        assert [(each.kind, each.count) for each in second.events if each.kind in ("cast on", "fasten off")][:2] == [
            ("cast on", {7: 14, 8: 16, 9: 18, 10: 20}[last]), ("fasten off", last),
        ]  # fmt: skip
        assert size.pieces["Glove"].live == 0


def test_under_a_heading() -> None:
    glove = (
        "CO 24 (28, 32) sts.\nJoin to work in the round.\nKnit 2 rnds.\n"
        "Next rnd: K12 (14, 16), place rem sts on holder. 12 (14, 16) sts.\n"
        "Little finger:\nKnit 6 rnds.\nNext rnd: (K2tog) to end.\nBreak yarn, draw through rem sts and fasten off.\n"
        "Ring finger:\nReturn 12 (14, 16) held sts to needle. Join to work in the round.\nKnit 8 rnds.\n"
        "Next rnd: (K2tog) to end.\nFinish as for little finger."
    )
    sizes, found = worked(("Glove", "Glove", glove), form="round")
    assert [each.message for each in found] == []
    assert [each.pieces["Glove"].live for each in sizes] == [0, 0, 0]
    assert [rows(each, 0)[-1][1] for each in sizes] == [6, 7, 8]


RIGHT = """CO 40 (44, 48) sts. Join to work in the round.
Knit 3 rnds.
Thumb placement rnd: K2, place next 8 sts on holder, CO 8 sts, k to end. 40 (44, 48) sts.
Knit 5 rnds."""
TOP = "Next rnd: (K2tog) to end. 20 (22, 24) sts.\nBO all sts.\nReturn 8 held sts to needle.\nBO all sts."


@pytest.mark.parametrize("to", ["thumb placement rnd", "the thumb placement round"])
def test_as_far_as_a_row_that_has_a_name_and_on_behind_it(to: str) -> None:
    left = (
        f"Work as for Right Mitten to {to}.\n"
        "Thumb placement rnd: K14 (16, 18), place next 8 sts on holder, CO 8 sts, k to end. 40 (44, 48) sts.\n"
        "Complete as for Right Mitten."
    )
    told = (("Hand", "Right Mitten", RIGHT), ("Top", "Right Mitten", TOP), ("Left Mitten", "Left Mitten", left))
    sizes, found = worked(*told, form="round")
    assert [each.message for each in found] == []
    for size, cast_on in zip(sizes, (40, 44, 48), strict=True):
        assert [count for _, count in rows(size, 2)] == [cast_on] * 9 + [cast_on // 2]
        assert size.pieces["Left Mitten"].live == 0


def test_as_far_as_a_section_and_on_from_it() -> None:
    left = "Work as for Right Mitten to top.\nKnit 2 rnds.\nComplete as for Right Mitten."
    told = (("Hand", "Right Mitten", RIGHT), ("Top", "Right Mitten", TOP), ("Left Mitten", "Left Mitten", left))
    sizes, found = worked(*told, form="round")
    assert [each.message for each in found] == []
    assert [len(rows(each, 2)) for each in sizes] == [12, 12, 12]


SQUARE = """Cast on 13 (15, 17) sts.
Row 1 (WS): Knit.
Row 2 (RS): K5 (6, 7), s2kp, k to end. 11 (13, 15) sts.
Knit 3 rows.
Bind off all sts."""


def test_stitches_of_another_kind_stand_for_the_cast_on() -> None:
    picked_up = "With RS facing, pick up and knit 13 (15, 17) sts along edge of Square 1. 13 (15, 17) sts."
    second = f"{picked_up}\nComplete as for Square 1."
    sizes, found = worked(("Square 1", "Blanket", SQUARE), ("Square 2", "Blanket", second))
    assert [each.message for each in found] == []
    assert [[count for _, count in rows(each, 1)][-5:] for each in sizes] == [
        [13, 11, 11, 11, 11], [15, 13, 13, 13, 13], [17, 15, 15, 15, 15],
    ]  # fmt: skip


def test_as_many_as_the_other_begins_with_must_be_there() -> None:
    second = "With RS facing, pick up and knit 12 (14, 16) sts along edge of Square 1.\nComplete as for Square 1."
    _, found = worked(("Square 1", "Blanket", SQUARE), ("Square 2", "Blanket", second))
    assert [each.message for each in found if each.severity == "error"] == [
        "where square 1 is to be taken up, with 12 (14, 16) sts on the needle, cannot be told"
    ]


CASTS_ON = "30 sts are on the needle, and back begins by casting on"
NOWHERE = "where back is to be taken up, with 30 sts on the needle, cannot be told"


@pytest.mark.parametrize(
    ("own", "said", "message"),
    [
        ("CO 30 sts.\nPurl 3 rows.", "Complete as for Back.", NOWHERE),
        ("CO 30 sts.\nPurl 3 rows.", "Work as for Back.", NOWHERE),
        ("CO 30 sts.\nPurl 3 rows.", "Work as for Back to armhole.", CASTS_ON),
        ("CO 40 sts.\nKnit 2 rows.", "Complete as for Back from ***.", "back has no place called ***"),
        ("CO 40 sts.\nKnit 2 rows.", "Work as for Back to dec rnd.", "back has no place called dec rnd"),
    ],
)  # fmt: skip
def test_what_cannot_be_told_is_refused(own: str, said: str, message: str) -> None:
    back = BACK.replace(" **", "").replace("Dec row (RS)", "Row 5 (RS)")
    _, found = worked(("Back", "Back", back), ("Front", "Front", f"{own}\n{said}"))
    assert [each.message for each in found if each.severity == "error"] == [message]
    assert "`**`" in (found[0].hint or "")


def test_a_mark_and_a_shared_row_that_lie_apart() -> None:
    own = "Next row (WS): P2tog, p to end.\nNext row (RS): K1, ssk, k to end."
    front = f"Work as for Back to **.\n{own}\nComplete as for Back."
    _, found = worked(("Back", "Back", BACK), ("Front", "Front", front))
    assert [each.message for each in found] == [
        "back can be taken up at two places: at its mark, or behind the row on line 5, which was worked last"
    ]


def test_a_whole_section_again_in_its_own_piece() -> None:
    sizes, found = worked(
        ("First flipper", "Seal", SQUARE),
        ("Second flipper", "Seal", "Work as for first flipper."),
        ("Body", "Body", SQUARE),
    )
    assert [each.message for each in found] == []
    for size in sizes:
        assert rows(size, 1) == rows(size, 0)
        assert sum(size.loops.values()) % 3 == 0
        assert size.pieces["Seal"].make == 1


def test_a_piece_made_twice_counts_its_own_yarn_alone() -> None:
    once, _ = worked(("Body", "Body", SQUARE), ("Mitt", "Mitt", SQUARE))
    twice, found = worked(("Body", "Body", SQUARE), ("Mitt", "Mitt", f"{SQUARE}\nMake a second mitt the same."))
    assert [each.message for each in found] == []
    for one, two in zip(once, twice, strict=True):
        assert 2 * sum(two.loops.values()) == 3 * sum(one.loops.values())
        assert two.pieces["Mitt"].make == 2


RIBBED = """With smaller needles, CO 40 sts.
1st row (RS): *K2, p2; rep from * to end.
2nd row: *K2, p2; rep from * to end.
These 2 rows form rib.
Cont in rib for 4 rows more.
Change to larger needles.
Work 4 rows in St st. {there} sts.
BO all sts."""


@pytest.mark.parametrize(
    ("wording", "more"),
    [
        ("Work as for Back until you have changed to larger needles.", 6),
        ("Work as given for Back until rib is complete.", 6),
        ("Work as for Back to end of ribbing.", 6),
        ("CO 40 sts.\nWork in rib as given for Back for 10 rows.", 10),
        ("CO 40 sts.\nWork in ribbing as for Back for 9 rows.", 9),
    ],
)
def test_a_piece_is_followed_to_the_end_of_its_rib(wording: str, more: int) -> None:
    front = f"{wording}\nKnit 2 rows. {{}} sts.\nBO all sts."
    back = RIBBED.format(there=40)
    sizes, found = worked(("Back", "Back", back), ("Front", "Front", front.format(40)))
    assert not found, [each.message for each in found]
    assert len(rows(sizes[0], 1)) == more + 2
    _, off = worked(("Back", "Back", back), ("Front", "Front", front.format(41)))
    assert [each.span.line for each in off if each.span] == [wording.count("\n") + 2]


def test_a_place_that_stands_nowhere_or_twice_is_refused() -> None:
    front = "Work as for Back until you have changed to {} needles.\nKnit 2 rows.\nBO all sts."
    _, found = worked(("Back", "Back", RIBBED.format(there=40)), ("Front", "Front", front.format("smaller")))
    assert [each.message for each in found][:1] == ["back has no place called you have changed to smaller needles"]
    twice = RIBBED.format(there=40).replace("BO all", "Change to larger needles.\nBO all")
    _, found = worked(("Back", "Back", twice), ("Front", "Front", front.format("larger")))
    assert [each.message for each in found][:1] == ["back has no place called you have changed to larger needles"]
