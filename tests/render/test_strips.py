"""Page breaks: what goes on which page, told in characters."""

from __future__ import annotations

from castoff.render.pdf.sheet import Sheet
from castoff.render.pdf.strips import ALONE, IN_ROW, NEVER, Column, Strip, deal_out, in_columns, stack_height


def nothing(sheet: Sheet, x: float, top: float) -> None:
    """Draws nothing."""


def strips(pattern: str) -> list[Strip]:
    """One strip of 10 points a letter: . a line, h a heading before it, r a row's second line, ! a forced break."""
    made: list[Strip] = []
    after = ""
    for letter in pattern:
        cost = {"r": IN_ROW, "w": ALONE}.get(letter, 0.0)
        made.append(Strip(10.0, nothing, cost=cost + (NEVER if after == "h" else 0.0), forced=letter == "!"))
        after = letter
    return made


def pages(pattern: str, lines: int, stump: float = 0.0) -> list[str]:
    made = strips(pattern)
    letters = dict(zip(map(id, made), pattern, strict=True))
    return ["".join(letters[id(strip)] for strip in page) for page in deal_out(made, lines * 10.0, stump)]


def test_pages_are_filled_in_order() -> None:
    assert pages(".......", 4) == ["....", "..."]


def test_a_heading_goes_with_what_it_heads() -> None:
    assert pages("...h...", 4) == ["...", "h..."]


def test_a_row_stays_whole_when_it_can() -> None:
    assert pages("...rr..r", 5) == ["...rr", "..r"]
    assert pages("....rr..", 5) == ["...", ".rr.."]


def test_a_row_longer_than_a_page_is_cut() -> None:
    assert "".join(pages(".rrrrrrrr", 4)) == ".rrrrrrrr"


def test_a_forced_break_is_kept() -> None:
    assert pages("..!...", 4) == ["..", "!..."]


def test_the_last_page_is_no_stump() -> None:
    assert pages("." * 9, 8) == ["." * 8, "."]
    assert pages("." * 9, 8, stump=30.0) == ["." * 6, "..."]


def test_room_above_is_dropped_at_the_head_of_a_page() -> None:
    made = [Strip(10.0, nothing), Strip(10.0, nothing, before=15.0), Strip(10.0, nothing, before=15.0)]
    assert [len(page) for page in deal_out(made, 35.0, 0.0)] == [2, 1]


def test_what_is_carried_over_takes_its_room() -> None:
    head = Strip(10.0, nothing)
    made = [Strip(10.0, nothing, carry=(head,) if index else ()) for index in range(6)]
    dealt = deal_out(made, 30.0, 0.0)
    assert [len(page) for page in dealt] == [3, 3, 2]
    assert all(page[0] is head for page in dealt[1:])


def test_the_larger_wish_for_room_counts() -> None:
    column = Column()
    column.put([Strip(10.0, nothing)], after=6.0)
    column.put([Strip(10.0, nothing)], before=4.0)
    assert column.strips[1].before == 6.0


def test_columns_are_balanced_and_lose_nothing() -> None:
    made = in_columns(strips("." * 7), 2, 100.0, 200.0)
    assert [strip.height for strip in made] == [40.0]
    tall = in_columns(strips("." * 100), 2, 100.0, 200.0)
    assert stack_height(tall) >= 500.0
    assert max(strip.height for strip in tall) <= 200.0


def test_a_page_before_a_forced_break_is_no_stump_either() -> None:
    assert pages("......!..", 5, stump=0.0) == [".....", ".", "!.."]
    assert pages("......!..", 5, stump=25.0) == ["...", "...", "!.."]


def test_what_stands_alone_before_a_forced_break_may_be_short() -> None:
    assert pages("!.!..", 5, stump=25.0) == ["!.", "!.."]


def test_an_entry_s_lines_go_into_one_column() -> None:
    drawn: list[tuple[float, float]] = []

    def note(sheet: Sheet, x: float, top: float) -> None:
        drawn.append((x, top))

    noted = [Strip(strip.height, note, cost=strip.cost) for strip in strips("..www..")]
    (side_by_side,) = in_columns(noted, 2, 100.0, 200.0)
    side_by_side.draw(None, 0.0, 0.0)  # type: ignore[arg-type]
    assert [x for x, _ in drawn] == [0.0] * 5 + [100.0] * 2
    assert side_by_side.height == 50.0
