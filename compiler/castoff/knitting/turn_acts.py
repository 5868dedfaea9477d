"""Acts of short rows: turning before the end of the row, and working again what a turn has left.

In: a row in work and one of these acts. Out: nothing; the row has been worked or has failed.
"""

from __future__ import annotations

from castoff.knitting.faults import fault
from castoff.knitting.loops import Wrap
from castoff.knitting.row import RowWork
from castoff.knitting.short_row_rules import NO_WRAP, NOTHING_TO_WRAP, TURNS_MEET
from castoff.knitting.targets import count_of
from castoff.notation.syntax import PickUpWrap, Turn
from castoff.span import Span

NAMES = {"wrap": "wrapped st", "ds": "double stitch", "yo": "yarn-over of a turn"}


def turn(row: RowWork, action: Turn) -> None:
    """Turns: the stitch that is next is wrapped, or the one worked last pulled up, or a yarn-over laid."""
    left = row.end - row.pos
    if not row.pos and not row.outn:
        row.fail(
            fault(
                TURNS_MEET,
                action.span,
                "the row turns where it began: no stitch is left between its two turns",
                hint="the rows have been worked once too often, or too many stitches are left before a turn",
            )
        )
        return
    if action.method == "wrap":
        if _may_be_wrapped(row):
            row.wraps.wrap(row.pos)
        elif not row.setting.last_may_turn:
            row.fail(
                fault(
                    NOTHING_TO_WRAP,
                    action.span,
                    "no stitch is left to wrap: the row has worked all {have} sts up to its end",
                    hint="`turn` without a wrap, or one stitch less before it",
                    have=row.pos,
                )
            )
            return
    elif action.method == "german":
        if not row.outn:
            row.fail(fault(NOTHING_TO_WRAP, action.span, "no stitch has been worked that could become a double stitch"))
            return
        row.wraps.made = [each for each in row.wraps.made if each.place != row.outn - 1]
        row.wraps.made.append(Wrap(row.outn - 1, "ds"))
        row.slid_back = 1
        row.count_stitch("ds", 1)
    elif action.method == "yarn-over":
        row.insert("y")
        row.wraps.ahead = [Wrap(row.pos, "yo"), *row.wraps.ahead]
        row.count_stitch("yo", 1)
        row.level = False
    row.turned = True
    row.event("turn", left, action.method, action.span)


def _may_be_wrapped(row: RowWork) -> bool:
    """Whether a stitch of this row stands next on the left needle; one beyond a gap belongs to other work."""
    if row.setting.form == "round":
        return row.pos < row.original
    return row.pos < len(row.src) and row.pos not in row.gaps


def make_double(row: RowWork, span: Span) -> None:
    """ "MDS" at the start of a row: the stitch worked last before the turn is slipped and pulled up."""
    place = row.outn
    faces = row.src[row.pos : row.pos + 1]
    if row.take(1, 1, 1, faces, "ds", span):
        row.wraps.made = [each for each in row.wraps.made if each.place != place]
        row.wraps.made.append(Wrap(place, "ds"))
        row.count_stitch("ds", 1)


def pick_up_wrap(row: RowWork, action: PickUpWrap) -> None:
    """Works the next stitches together with their wraps. What is picked up as it comes has been set for the whole row."""
    if action.come:
        return
    if action.what == "loop":
        _close_gap(row, action)
        return
    for _ in range(count_of(row, action.count, 1)):
        there = row.wraps.at(row.pos, action.what)
        if there is None:
            _no_wrap(row, action)
            return
        if action.both and there.times < 2:
            row.fail(
                fault(
                    NO_WRAP,
                    action.span,
                    "both wraps are to be worked with the st; it has been wrapped once",
                    hint="`its wrap`",
                )
            )
            return
        face = row.src[row.pos : row.pos + 1]
        knit = (face != "p") == (row.setting.side == "RS") if action.stitch == "work" else action.stitch == "k"
        name = "k" if knit else "p"
        picking, row.wraps.picking = row.wraps.picking, True
        made = row.face("knit" if knit else "purl")
        if action.what == "yo":
            name += "2tog"
        worked = row.take(2 if action.what == "yo" else 1, 1, 1, made, name, action.span)
        row.wraps.picking = picking
        if not worked:
            return
        row.count_stitch(name, 1)


def _close_gap(row: RowWork, action: PickUpWrap) -> None:
    """A loop of the yarn is pulled up where an earlier row has turned, and worked together with the stitch behind it."""
    if row.pos not in row.turns:
        ahead = next((place for place in row.turns if place > row.pos), None)
        row.fail(
            fault(NO_WRAP, action.span, "no turn is here, whose gap could be closed, nor further on")
            if ahead is None
            else fault(
                NO_WRAP,
                action.span,
                "no turn is here, whose gap could be closed; the next one is {ahead} st{s} further on",
                ahead=ahead - row.pos,
                s="" if ahead - row.pos == 1 else "s",
            )
        )
        return
    face = row.src[row.pos : row.pos + 1]
    knit = (face != "p") == (row.setting.side == "RS") if action.stitch == "work" else action.stitch == "k"
    name = "k" if knit else "p"
    if row.take(1, 1, 1, row.face("knit" if knit else "purl"), name, action.span):
        row.count_stitch(name, 1)


def _no_wrap(row: RowWork, action: PickUpWrap) -> None:
    ahead = row.wraps.next_of((action.what,))
    name = NAMES[action.what]
    if ahead is None:
        found = fault(NO_WRAP, action.span, "no {name} is here, nor further on", name=name)
    else:
        found = fault(
            NO_WRAP,
            action.span,
            "no {name} is here; the next one is {ahead} st{s} further on",
            name=name,
            ahead=ahead - row.pos,
            s="" if ahead - row.pos == 1 else "s",
        )
    row.fail(found)
