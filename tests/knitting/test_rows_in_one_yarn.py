"""A row told by its stitch and its yarn is the whole row, in that yarn."""

from __future__ import annotations

import pytest
from tests.knitting.plans import knitted, said

SIZES = ("S", "M", "L")


@pytest.mark.parametrize(
    "row", ["Knit with B.", "Knit in B.", "K using B.", "Knit, in B.", "With B, knit.", "K all sts in B."]
)
@pytest.mark.parametrize(("label", "form"), [("Rnd 1", "round"), ("Round 1", "round"), ("Row 1 (RS)", "flat")])
def test_the_whole_row_is_in_the_yarn(row: str, label: str, form: str) -> None:
    begin = "With A, CO 40 (44, 48) sts." + (" Join to work in the round." if form == "round" else "")
    work = f"{begin}\n{label}: {row} 40 (44, 48) sts.\nBO all sts."
    for size, count in zip(knitted(work, SIZES, form).sizes, (40, 44, 48), strict=True):  # type: ignore[arg-type]
        assert size.loops["B", "stockinette", "k"] == count
        assert ("A", "stockinette", "k") not in size.loops
    off = work.replace("40 (44, 48) sts.\nBO", "40 (45, 48) sts.\nBO")
    assert said(off, SIZES, form) == ["stated-total-off: 45 sts are printed, 44 are on the needle"]  # type: ignore[arg-type]


def test_purl_rows_and_rows_of_a_stitch_pattern() -> None:
    work = (
        "With A, CO 40 (44, 48) sts.\nRow 1 (RS): *K3 in A, k1 in B; rep from * to end.\nRow 2: Purl in A.\n"
        "Row 3: Knit with B.\nRow 4: P with A.\nRep rows 1 to 4 twice more.\nBO all sts."
    )
    for size, count in zip(knitted(work, SIZES).sizes, (40, 44, 48), strict=True):
        assert size.loops["A", "stockinette", "p"] == 6 * count
        assert size.loops["B", "stockinette", "k"] == 3 * (count + count // 4)


def test_one_stitch_of_several_in_a_row_is_one_stitch() -> None:
    work = "With A, CO 40 sts.\nRow 1 (RS): *K in A, k in B; rep from * to end.\nBO all sts."
    size = knitted(work).sizes[0]
    assert size.loops["A", "stockinette", "k"] == size.loops["B", "stockinette", "k"] == 20


_SLIPPED = (
    "With A, CO 41 (45, 49) sts.\nRow 1 (RS): With A, k1, *sl 1 wyif, k1; rep from * to end.\nRow 2: With A, purl.\n"
)


@pytest.mark.parametrize(
    "rows",
    [
        "Rows 3 and 4: With B, as rows 1 and 2.",
        "Rows 3–4: Rep rows 1–2 with B.",
        "Row 3: As row 1 but using B.\nRow 4: As row 2, in B.",
        "Row 3 (RS): Using B, as row 1.\nRow 4: With B, rep row 2.",
        "Row 3 (B): As row 1.\nRow 4 (WS, B): As row 2.",
    ],
)
def test_rows_like_others_in_another_yarn(rows: str) -> None:
    out = "With B, k1, *sl 1 wyif, k1; rep from * to end."
    told = knitted(f"{_SLIPPED}{rows}\nBO all sts.", SIZES)
    written = knitted(f"{_SLIPPED}Row 3: {out}\nRow 4: With B, purl.\nBO all sts.", SIZES)
    for size, same in zip(told.sizes, written.sizes, strict=True):
        assert size.loops == same.loops
        assert size.loops["B", "stockinette", "p"] == size.loops["A", "stockinette", "p"] > 40
    wrong = rows.replace("row 1", "row 7").replace("ows 1", "ows 7")
    assert "row-not-there" in "\n".join(said(f"{_SLIPPED}{wrong}\nBO all sts.", SIZES)) or "backwards" in "\n".join(
        said(f"{_SLIPPED}{wrong}\nBO all sts.", SIZES)
    )


def test_a_row_in_two_yarns_has_no_place_for_another() -> None:
    work = (
        "With A, CO 40 sts.\nRow 1 (RS): *K3 in A, k1 in B; rep from * to end.\nRow 2: With B, as row 1.\nBO all sts."
    )
    assert said(work)[0] == "row-not-there: row 1 is worked in more than one yarn: B cannot take the place of one"
