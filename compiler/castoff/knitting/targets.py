"""How far it is to a place in the row: to the end, to a marker, to the last turn.

In: a row in work and a target. Out: the number of stitches up to there, or None with a fault on the row.
"""

from __future__ import annotations

from castoff.knitting.faults import NO_CENTRE, NO_MARKER, TOO_FEW, fault
from castoff.knitting.loops import DIVISION, hidden
from castoff.knitting.row import RowWork
from castoff.knitting.short_row_rules import NO_WRAP
from castoff.notation.syntax import (
    Count,
    Target,
    ToCentre,
    ToDivision,
    ToEnd,
    ToLast,
    ToMarker,
    ToStitch,
    ToTurn,
    ToWorked,
)
from castoff.span import Span

ROUND_STARTS = (
    "beg of rnd",
    "bor",
    "beginning of rnd",
    "end of rnd",
    "start of rnd",
    "rnd",
    "beginning of round",
    "beg of round",
    "start of round",
    "end of round",
    "beg",
    "beginning",
)


def reach(row: RowWork, target: Target) -> int | None:
    """Stitches from here to a place; None when the place is not there, and then the row has failed."""
    if isinstance(target, ToEnd):
        return row.end - row.pos
    if isinstance(target, ToLast):
        return _before(row, row.end, target.stitches, target.span, "the end")
    if isinstance(target, ToWorked):
        wanted = target.stitches.at(row.size)
        if wanted is None:
            return 0
        if target.behind and row.bound_at is None:
            row.fail(fault(NO_MARKER, target.span, "no sts have been bound off in this row"))
            return None
        wanted += (row.bound_at or 0) if target.behind else 0
        if wanted < row.outn:
            row.fail(
                fault(
                    TOO_FEW,
                    target.span,
                    "{wanted} sts are wanted on the right needle, {have} are there already",
                    wanted=wanted,
                    have=row.outn,
                )
            )
            return None
        return wanted - row.outn
    if isinstance(target, ToMarker):
        return _to_marker(row, target)
    if isinstance(target, ToStitch):
        return _to_stitch(row, target)
    if isinstance(target, ToTurn):
        return _to_turn(row, target)
    if isinstance(target, ToCentre):
        return _to_centre(row, target)
    return _to_division(row, target)


def _before(row: RowWork, place: int, less: Count | None, span: Span, what: str) -> int | None:
    short = 0 if less is None else less.at(row.size) or 0
    left = place - row.pos
    if left < short:
        row.fail(
            fault(
                TOO_FEW,
                span,
                "{have} sts are left up to {what}, fewer than the {short} that shall remain",
                have=left,
                what=what,
                short=short,
            )
        )
        return None
    return left - short


def next_marker(row: RowWork, name: str | None) -> int | None:
    """The place of the next marker, or of the next one of a name; the beginning of the round counts as one."""
    if row.setting.form == "round" and not row.setting.whole_round:
        return _in_short_rows(row, name)
    if name is not None and name.lower() in ROUND_STARTS and row.setting.form == "round":
        return row.end
    marks = [(place, other) for place, other in row.ahead if not hidden(other)]
    named = [place for place, other in marks if name is not None and other.lower() == name.lower()]
    if named:
        return named[0]
    if name is not None and len(name) > 1:
        # a name that no marker was given is a description ("side marker", "first marker"): the next one
        named = [place for place, other in marks if not other]
    else:
        named = [place for place, _ in marks]
    if named and named[0] <= row.end:
        return named[0]
    if row.setting.form == "round":
        return row.end
    return None


def _in_short_rows(row: RowWork, name: str | None) -> int | None:
    """Short rows of a round run over its beginning, whose marker is one among the others there."""
    begin = [row.bor] if row.pos < row.bor < row.original else []
    if name is not None and name.lower() in ROUND_STARTS:
        return begin[0] if begin else None
    marks = [(place, other) for place, other in row.ahead if not hidden(other)]
    named = [place for place, other in marks if name is not None and other.lower() == name.lower()]
    if not named and (name is None or len(name) == 1):
        named = [*(place for place, _ in marks), *begin]
    elif not named:
        named = [*(place for place, other in marks if not other), *begin]
    return min(named, default=None)


def _to_marker(row: RowWork, target: ToMarker) -> int | None:
    place = next_marker(row, target.marker)
    if place is None:
        named = "" if target.marker is None else f" {target.marker}"
        row.fail(
            fault(
                NO_MARKER,
                target.span,
                "no marker{named} is ahead; {left} sts are left in the row",
                named=named,
                left=row.end - row.pos,
            )
        )
        return None
    if target.after is not None:
        return place - row.pos + (target.after.at(row.size) or 0)
    return _before(row, place, target.before, target.span, "the marker")


def marked_stitch(row: RowWork, name: str, span: Span) -> int | None:
    """The place of the next marked stitch; of the middle one of the row where none is marked and that is asked for."""
    ahead = [place for place, _ in row.marked if row.pos <= place < row.end]
    if ahead:
        return ahead[0]
    any_marked = bool(row.marked or row.out_marked)
    if name == "centre" and not any_marked and row.setting.form == "flat":
        if row.original % 2:
            return row.original // 2
        row.fail(
            fault(
                NO_MARKER,
                span,
                "{have} sts have no centre st, and none is marked",
                hint="an odd number of sts, or `mark this st` where it is made",
                have=row.original,
            )
        )
        return None
    row.fail(
        fault(
            NO_MARKER,
            span,
            "no marked st is ahead; {left} sts are left in the row"
            if any_marked
            else "no st is marked; {left} sts are left in the row",
            hint=None if any_marked else "write `mark this st` behind the stitch, or `mark the centre st`",
            left=row.end - row.pos,
        )
    )
    return None


def _to_stitch(row: RowWork, target: ToStitch) -> int | None:
    place = marked_stitch(row, target.name, target.span)
    if place is None:
        return None
    if target.after is not None:
        return place + 1 - row.pos + (target.after.at(row.size) or 0)
    return _before(row, place, target.before, target.span, f"the {target.name} st")


def _to_centre(row: RowWork, target: ToCentre) -> int | None:
    centre = target.stitches.at(row.size)
    if centre is None:
        return row.end - row.pos
    around = row.end - centre
    if around < 0 or around % 2:
        row.fail(
            fault(
                NO_CENTRE,
                target.span,
                "{centre} sts in the middle of {have} leave {around}, which are not the same on both sides"
                if around > 0
                else "{centre} sts in the middle are more than the {have} on the needle",
                hint="{less} or {more} sts have as many on one side as on the other" if around > 0 else None,
                centre=centre,
                have=row.end,
                around=around,
                less=centre - 1,
                more=centre + 1,
            )
        )
        return None
    if around // 2 < row.pos:
        row.fail(
            fault(
                TOO_FEW,
                target.span,
                "the {centre} sts in the middle begin behind st {first}; the row is already at st {here}",
                centre=centre,
                first=around // 2,
                here=row.pos,
            )
        )
        return None
    return around // 2 - row.pos


_WHAT = {"turn": "turn or gap", "wrapped": "wrapped st", "double-wrapped": "double-wrapped st", "ds": "double stitch",
         "yo": "yarn-over of a turn"}  # fmt: skip


def _to_turn(row: RowWork, target: ToTurn) -> int | None:
    what = _WHAT[target.to]
    if target.to == "turn":
        place = min((place for place in row.turns + row.gaps if place >= row.pos), default=None)
    else:
        kinds = ("wrap",) if target.to in ("wrapped", "double-wrapped") else (target.to,)
        place = row.wraps.next_of(kinds, 2 if target.to == "double-wrapped" else 1)
    if place is None:
        row.fail(
            fault(
                NO_WRAP,
                target.span,
                "no {what} is ahead; {left} sts are left in the row",
                what=what,
                left=row.end - row.pos,
            )
        )
        return None
    if target.after is not None:
        beyond = 0 if target.to == "turn" else 1
        return place - row.pos + beyond + (target.after.at(row.size) or 0)
    return _before(row, place, target.before, target.span, "the last turn" if target.to == "turn" else f"the {what}")


def _to_division(row: RowWork, target: ToDivision) -> int | None:
    ahead = [place for place, other in row.ahead if other.startswith(DIVISION) and place > row.pos]
    if "needle" in target.name and _done_with(row, target):
        return _before(row, row.pos, target.before, target.span, target.name)
    if "needle" in target.name and not _on_its_needle(row, target, len(ahead)):
        return None
    if row.setting.form == "round" and row.setting.side == "WS" and row.bor > 0 and "needle" in target.name:
        # back over the beginning of the round: there one needle ends as well
        ahead = sorted((*ahead, *((row.bor,) if row.bor > row.pos else ())))
        if ahead and row.pos >= row.end:
            return _before(row, ahead[0], target.before, target.span, target.name)
    if not ahead:
        ahead = [place for place, other in row.ahead if other.lower() == target.name.lower()]
    place = ahead[0] if ahead else row.end
    return _before(row, min(place, row.end), target.before, target.span, target.name)


def _done_with(row: RowWork, target: ToDivision) -> bool:
    """Whether a round has just worked the last stitch of the needle spoken of: nothing is left up to its end."""
    number = _number_of(target)
    if row.setting.form != "round" or row.setting.side == "WS" or row.wrapped or not row.pos or number is None:
        return False
    places = [place for place, name in row.needle.marks if name.startswith(DIVISION)]
    here = row.needle.at + row.pos
    ends = [*places, row.needle.stitches]
    return here in ends and number == 1 + sum(place < here for place in places) and bool(places)


def _number_of(target: ToDivision) -> int | None:
    """The number of the needle spoken of; None for "each needle"."""
    word = target.name.removeprefix("needle").removesuffix("needle").strip()
    digits = "".join(sign for sign in word if sign.isdigit())
    return int(digits) if digits else _ORDINALS.index(word) + 1 if word in _ORDINALS else None


def needle_in_work(row: RowWork) -> int:
    """The number of the needle of a set that a round has come to; a row back meets them from the last to the first."""
    total = row.needle.stitches
    here = (row.needle.at + row.pos) % total if total else 0
    passed = sum(name.startswith(DIVISION) and place <= here for place, name in row.needle.marks)
    needles = 1 + sum(name.startswith(DIVISION) for _, name in row.needle.marks)
    return 1 + passed if row.setting.side == "RS" else needles - passed


_ORDINALS = ("first", "second", "third", "fourth", "fifth")


def _on_its_needle(row: RowWork, target: ToDivision, ahead: int) -> bool:
    """Whether the needle spoken of is the one that the row has come to; if not, the row has failed."""
    passed = sum(name.startswith(DIVISION) for _, name in row.out_marks)
    passed += sum(name.startswith(DIVISION) and place <= row.pos for place, name in row.ahead)
    needles = passed + ahead + 1
    word = target.name.removeprefix("needle").removesuffix("needle").strip()
    number = _number_of(target)
    if number is None and word != "each":
        return True
    if needles == 1 and number != 1:
        row.fail(
            fault(
                NO_MARKER,
                target.span,
                "{name} is spoken of; nothing says how the stitches lie on needles",
                name=target.name,
                hint="say how many lie on each: `arrange sts over 3 needles: …`",
            )
        )
        return False
    if number is not None and number > needles:
        row.fail(
            fault(
                NO_MARKER,
                target.span,
                "needle {number} is spoken of; the stitches lie on {needles} needles",
                number=number,
                needles=needles,
            )
        )
        return False
    due = needle_in_work(row) if row.setting.form == "round" and not row.wrapped else passed + 1
    if number is not None and number != due and needles > 1:
        row.fail(
            fault(
                NO_MARKER,
                target.span,
                "needle {number} is spoken of, needle {due} is in work",
                number=number,
                due=due,
                hint="stitches of a needle were left out, or needles told out of their order",
            )
        )
        return False
    return True


def count_of(row: RowWork, count: Count | None, unsaid: int) -> int:
    """The number of this size; 0 where the size skips."""
    if count is None:
        return unsaid
    return count.at(row.size) or 0
