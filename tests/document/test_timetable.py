"""Timetables: which row does what where two shapings run at the same time, in every size."""

from __future__ import annotations

import pytest
from tests.document.sources import ROOT, composed, edition_of, from_file

from castoff.document.tree import Document, FactList, Heading, Paragraph, TickTable, plain_text
from castoff.pipeline import prove_text

HEAD = """\
written_for: 1
title: Trial Front
excerpt: true
summary: A front for trials.
sizes: {names: "S (M, L)"}
gauge:
  stockinette: {stitches: 20, rows: 28, over: 10 cm, worked: flat, needles: larger}
yarns:
  A: {weight: worsted}
needles:
  larger: {size: 5 mm}
"""
SECTION = """  - title: {title}
    worked: flat
    work: |
      CO 60 (64, 68) sts.
      Work 2 rows in St st.
      {line}
      BO all sts.
"""
LINE = (
    "Dec 1 st at armhole edge of next and every foll RS row 3 (4, 5) times. "
    "AT THE SAME TIME, dec 1 st at neck edge of next and every foll 4th row 4 times. {total} sts."
)
SIX = "Dec 1 st at each end of every RS row 6 times"
LATER = "at the same time, when piece measures 3 cm, bind off 3 sts at beg of next 2 rows."


def front(line: str, *titles: str) -> str:
    return HEAD + "sections:\n" + "".join(SECTION.format(title=title, line=line) for title in titles or ("Front",))


def timetable(document: Document) -> dict[str, list[str]]:
    found: dict[str, list[str]] = {}
    for block in document.blocks:
        if isinstance(block, FactList) and block.key.startswith("timetable-"):
            found |= {plain_text(fact.term): [plain_text(line) for line in fact.says] for fact in block.facts}
    return found


def test_every_size_has_its_own_rows() -> None:
    # S: 3 on rows 1, 3, 5 and 4 on rows 1, 5, 9, 13; 60 − 7, 64 − 8, 68 − 9
    rows = "rows 1, 5, 9 and 13."
    assert timetable(composed(front(LINE.format(total="53 (56, 59)")))) == {
        "S": ["Dec 1 st at armhole edge: rows 1, 3 and 5.", f"Dec 1 st at neck edge: {rows}",
              "Row 1 is a right-side row. 53 sts after row 13."],
        "M": ["Dec 1 st at armhole edge: rows 1, 3, 5 and 7.", f"Dec 1 st at neck edge: {rows}",
              "Row 1 is a right-side row. 56 sts after row 13."],
        "L": ["Dec 1 st at armhole edge: rows 1, 3, 5, 7 and 9.", f"Dec 1 st at neck edge: {rows}",
              "Row 1 is a right-side row. 59 sts after row 13."],
    }  # fmt: skip


def test_an_edition_of_one_size_has_its_rows_and_ticks_with_what_is_done() -> None:
    document = composed(front(LINE.format(total="53 (56, 59)")), "size=M")
    assert list(timetable(document)) == ["M"]
    (table,) = [block for block in document.blocks if isinstance(block, TickTable)]
    ticked = [(plain_text(row.label), plain_text(row.remark).replace("\u00a0", " "), row.boxes) for row in table.rows]
    assert ticked == [
        ("Stockinette row", "", 2),
        ("Dec at armhole and neck", "62 sts", 1), ("Row between", "", 1),
        ("Dec row", "61 sts", 1), ("Row between", "", 1),
        ("Dec at armhole and neck", "59 sts", 1), ("Row between", "", 1),
        ("Dec row", "58 sts", 1), ("Even row", "", 1),
        ("Dec at neck", "57 sts", 1), ("Even row", "", 3),
        ("Dec at neck", "56 sts", 1),
    ]  # fmt: skip


def test_sizes_that_shape_alike_share_one_line_and_so_do_sections() -> None:
    line = LINE.replace("3 (4, 5) times", "3 times").format(total="53 (57, 61)")
    # the rows are the same, the counts are not
    assert list(timetable(composed(front(line)))) == ["S", "M", "L"]
    document = composed(front(line, "Left Front", "Right Front"))
    titles = [
        plain_text(b.inline) for b in document.blocks if isinstance(b, Heading) and b.key.startswith("timetable-")
    ]
    assert titles == ["Left Front and Right Front"]
    pointers = [plain_text(b.inline) for b in document.blocks if isinstance(b, Paragraph)]
    assert pointers.count("Which row does what stands under “At the same time” at the end.") == 2
    one = front(line.replace("53 (57, 61)", "53")).replace("60 (64, 68)", "60")
    assert list(timetable(composed(one))) == ["All sizes"]


@pytest.mark.parametrize(
    ("line", "acts"),
    [
        (
            "Dec 1 st at each end of every RS row 2 times; at the same time, dec 2 sts at neck edge of every foll 4th row "
            "twice. 52 (56, 60) sts.",
            ["Dec 1 st at each end: rows 1 and 3.", "Dec 2 sts at neck edge: rows 4 and 8."],
        ),
        (
            f"{SIX}; {LATER} 42 (46, 50) sts.",
            ["Dec 1 st at each end: rows 1, 3, 5, 7, 9 and 11.", "Bind off 3 sts at beginning of row: rows 7 and 8."],
        ),
    ],
)
def test_acts_are_told_by_what_and_where(line: str, acts: list[str]) -> None:
    assert [said[:-1] for said in timetable(composed(front(line))).values()] == [acts] * 3


def test_words_are_those_of_the_edition() -> None:
    said = timetable(composed(front(f"{SIX}; {LATER}"), "uk words"))["S"]
    assert said[0] == "Decrease 1 stitch at each end: rows 1, 3, 5, 7, 9 and 11."
    assert said[1] == "Cast off 3 stitches at beginning of row: rows 7 and 8."


def test_a_pattern_without_shapings_beside_each_other_has_none() -> None:
    document = composed(front("Dec 1 st at each end of every RS row 6 times. 48 (52, 56) sts."))
    assert timetable(document) == {}
    assert prove_text("trial.yaml", front(LINE.format(total="53 (56, 60)"))).findings != ()


def test_the_catalogue_s_cardigan_is_as_its_text_says() -> None:
    proof = from_file(ROOT / "patterns" / "fulmar-cardigan.yaml")
    assert proof.pattern is not None and proof.knitted is not None
    table = timetable(edition_of(proof).value)
    assert list(table) == list(proof.pattern.sizes.labels)
    at = next(i for i, section in enumerate(proof.pattern.sections) if section.title.value == "Left front body")
    for said, size in zip(table.values(), proof.knitted.sizes, strict=True):
        rows = [len(line.partition("rows ")[2].replace(" and ", ", ").split(", ")) for line in said[:2]]
        # what is bound off at the shoulder comes after the shaping, all at once
        shaped = [
            record
            for record in size.sections[at].records
            if record.span is not None and record.label != "next row (RS)"
        ]
        lost = sum(record.before - record.after for record in shaped)
        assert sum(rows) == lost
