"""Acts that say on which needle of a set the stitches of a row go.

In: a row in work and one of these acts. Out: where one needle ends and the next begins, among the row's markers.
"""

from __future__ import annotations

from castoff.knitting.faults import PART_OFF, TOO_FEW, fault
from castoff.knitting.loops import DIVISION
from castoff.knitting.needle_numbers import needle_number
from castoff.knitting.row import RowWork
from castoff.knitting.targets import count_of
from castoff.notation.syntax import FromNeedle, OnNeedle


def go_onto(row: RowWork, action: OnNeedle) -> None:
    """From here on stitches go on that needle; where they lay before is no more."""
    if not row.onto:
        row.ahead = [mark for mark in row.ahead if not mark[1].startswith(DIVISION)]
        row.out_marks = [mark for mark in row.out_marks if not mark[1].startswith(DIVISION)]
        if row.outn:
            row.onto = 1
    number = needle_number(action.needle)
    due = row.onto if action.same else row.onto + 1
    if number != due:
        row.fail(
            fault(
                PART_OFF,
                action.span,
                "{needle} is told; needle {due} is in work"
                if action.same
                else "{needle} is told, needle {due} is next",
                needle=action.needle,
                due=due,
            )
        )
        return
    if row.onto and not action.same:
        row.out_marks.append((row.outn, f"{DIVISION}{row.onto}"))
    row.onto = number


def from_needle(row: RowWork, action: FromNeedle) -> int:
    """How many stitches go from one needle to the one before it; 0 with a fault on the row."""
    source, onto = needle_number(action.source), needle_number(action.onto)
    divisions = [place for place, name in (*row.out_marks, *row.ahead) if name.startswith(DIVISION)]
    needles = len(divisions) + 1
    before = needles if source == 1 else source - 1
    there = source == 1 and (row.pos == 0 == row.needle.at or (row.may_wrap and row.pos == row.end))
    ahead = [place for place, name in row.ahead if name.startswith(DIVISION) and place > row.pos]
    if source > 1:
        there = any(place == row.pos for place, name in row.ahead if name.startswith(DIVISION))
        there = there and needles >= source == 1 + sum(place <= row.pos for place in divisions)
    if not there or onto != before or needles < 2:
        row.fail(
            fault(
                PART_OFF,
                action.span,
                "sts go from {source} onto {onto}; the row is not at the beginning of {source}"
                if not there
                else "sts go from {source} onto {onto}; before {source} lies needle {before}",
                source=action.source,
                onto=action.onto,
                before=before,
            )
        )
        return 0
    if row.pos and source == 1:
        have = min(place for place, name in row.out_marks if name.startswith(DIVISION))
    else:
        have = (ahead[0] if ahead else row.end) - row.pos
    number = count_of(row, action.count, have)
    if number > have or (number == have and row.pos):
        row.fail(
            fault(
                TOO_FEW,
                action.span,
                "{number} sts are to go from {source}, which has {have}",
                number=number,
                source=action.source,
                have=have,
            )
        )
        return 0
    if source > 1:
        moved = next(mark for mark in row.ahead if mark[0] == row.pos and mark[1].startswith(DIVISION))
        row.ahead = sorted((*(mark for mark in row.ahead if mark is not moved), (row.pos + number, moved[1])))
    elif not row.pos:
        row.start_moves = True
        if number == have and ahead:
            row.ahead = [mark for mark in row.ahead if mark[0] != ahead[0] or not mark[1].startswith(DIVISION)]
    return number
