"""A row worked on the piece: which side, which reading, and what it leaves behind.

In: the state of one size and a `RowDef`. Out: the state moved on by that row, with a record of it; False when it
failed.
"""

from __future__ import annotations

import re
from dataclasses import replace
from itertools import product

from castoff.knitting.acts import work
from castoff.knitting.chart_promises import mind_promises
from castoff.knitting.divided import divide_round, ends_with_held, note_division
from castoff.knitting.fabric import Event, RowRecord
from castoff.knitting.faults import NO_STITCHES, OVER_A_GAP, TOO_FEW, TWO_READINGS, WRONG_SIDE, YARN_USED_AGAIN, fault
from castoff.knitting.held import copies_for, without_twins
from castoff.knitting.loops import DIVISION, Group, Needle
from castoff.knitting.meanwhile import tick
from castoff.knitting.parting import parting
from castoff.knitting.pattern_rows import first_side, rows_of_pattern
from castoff.knitting.row import RowWork
from castoff.knitting.row_faults import after_fault, labelled, other, stopped
from castoff.knitting.row_kinds import kind_of
from castoff.knitting.setting import Reading, RowResult, RowSetting, Standing, flipped, settled
from castoff.knitting.short_rows import mind_wraps
from castoff.knitting.state import Acts, PieceState, RowDef, RowKind, SizeState, begin_finger
from castoff.knitting.waiting import taking_in
from castoff.notation.syntax import (
    BindOffAct,
    CastOnAct,
    Drop,
    Fabric,
    MarkerAct,
    Side,
    Turn,
)
from castoff.span import Span


def work_row(state: SizeState, row: RowDef, expected: int | None = None, *, said: bool = True) -> bool:
    """Works one row. expected: the total printed behind it; said: whether the side printed for it must be due."""
    piece = state.piece
    if state.holders:
        row = taking_in(state, row)
    row = parting(state, row)
    if piece.needle.stitches == 0 and not kind_of(state, row.acts).makes:
        state.report(fault(NO_STITCHES, row.span, "{label}: no stitches are on the needle", label=row.label))
        piece.doubt = True
        return False
    # short rows of a round stay in it, unless a part of it has been put aside
    short = not piece.parted and any(isinstance(act, Turn) for act in row.acts)
    if piece.form == "round" and row.unit == "row" and row.side is not None and not piece.turned and not short:
        # a row with a side, where rounds were worked: back and forth from here
        piece.form = "flat"
        piece.due = None
        if piece.before_held:
            divide_round(state)
    elif piece.form == "flat" and row.unit == "rnd" and piece.started and _section_round(state):
        piece.form = "round"
        piece.due = "RS"
    if said:
        _mind_the_side(state, row)
    _bind_off_over_the_start(state, row)
    acts: Acts = row.acts
    if piece.taken_back is not None:
        _apart_or_together(state, row, expected)
    start = piece.needle.stitches
    first = True
    while acts:
        result = worked(state, row, acts, expected)
        if result.faults:
            if piece.unsure and kind_of(state, acts).marks:
                piece.doubt = True  # after an error it may be the markers that are wrong
            for found in result.faults:
                told = labelled(state, found, row, acts, result)
                if not piece.doubt:
                    piece.stopped.append(stopped(state, row, result, told))
                state.report(told)
            after_fault(state, result, expected, marks=kind_of(state, acts).marks)
            return False
        _take_over(state, row, result, acts, first)
        acts = result.rest
        first = False
    piece.before = start
    if piece.strayed and kind_of(state, row.acts).marks:
        piece.doubt = True  # what a row does between markers that have strayed says nothing
    if state.beside:
        tick(state)
    return True


def _bind_off_over_the_start(state: SizeState, row: RowDef) -> None:
    """ "… ending 5 sts before marker. Next rnd: Bind off 10 sts": the round's start goes with what is bound off."""
    piece = state.piece
    needle = piece.needle
    first = row.acts[0] if row.acts else None
    if piece.form != "round" or piece.turned or not isinstance(first, BindOffAct) or first.count is None:
        return
    if 0 < needle.at < needle.stitches < needle.at + state.number_of(first.count, 0):
        rotated = needle.rotated(needle.at)
        marks = rotated.marks
        second = row.acts[1] if len(row.acts) > 1 else None
        if isinstance(second, MarkerAct) and second.act == "remove":
            marks = tuple(sorted({*marks, (needle.stitches - needle.at, "beg of rnd")}))
        piece.needle = replace(rotated, at=0, marks=marks)


def _apart_or_together(state: SizeState, row: RowDef, expected: int | None) -> None:
    """Stitches taken back beside live ones: worked with them if the row comes out so, else alone, the others waiting."""
    piece = state.piece
    assert piece.taken_back is not None, "asked only when there are some"
    live, back = piece.taken_back
    piece.taken_back = None
    if not worked(state, row, row.acts, expected).faults:
        return
    together = piece.needle, piece.form, piece.due
    side: Side = row.side or "RS"
    piece.needle = replace(back, at=0 if side == "RS" else back.stitches)
    piece.due = side
    if row.unit == "row":
        piece.form = "flat"
    if worked(state, row, row.acts, expected).faults:
        piece.needle, piece.form, piece.due = together
        return
    state.holders.append(Group("", replace(live, at=0), piece.name, None, piece.rows, piece.length, True, row.span))


def _section_round(state: SizeState) -> bool:
    return state.section is None or state.section.form != "flat"


def _mind_the_side(state: SizeState, row: RowDef) -> None:
    """A printed side must be the one that is due; right after a cast-on it may be either."""
    piece = state.piece
    if row.side is None or (piece.form == "round" and not piece.turned):
        if piece.form == "flat" and piece.due is None:
            face("RS", state)
            piece.due = "RS"
        return
    if piece.due is None or not piece.started:
        piece.due = row.side
        face(row.side, state)
        return
    if piece.due == row.side:
        return
    if piece.loose_end:
        # worked to a length: the row that the next line is printed for says where to stop
        work_row(state, one_more(state, row.span), said=False)
        if piece.due == row.side:
            return
    state.report(
        fault(
            WRONG_SIDE,
            row.span,
            "{label} is printed for the {said}, a {due} row is due",
            hint="a row is missing or one too many before it, or it is meant as the {due} row",
            label=row.label,
            said=row.side,
            due=piece.due,
        )
    )
    piece.due = row.side
    face(row.side, state)


def face(side: Side, state: SizeState) -> None:
    """Lays the yarn where a row of that side begins, if it is at an end of the needle."""
    needle = state.piece.needle
    at = 0 if side == "RS" else needle.stitches
    if needle.at != at and needle.at in (0, needle.stitches):
        state.piece.needle = replace(needle, at=at)


def one_more(state: SizeState, span: Span | None) -> RowDef:
    """The row more that may follow rows whose end was left open."""
    if state.piece.loose_row is not None:
        return replace(state.piece.loose_row, label="one row more", span=span)
    return RowDef(state.shared.acts_of(_as_it_stands(state, span)), "one row more", span=span)


def _as_it_stands(state: SizeState, span: Span | None) -> Fabric:
    assert span is not None, "rows come from lines"
    return state.piece.fabric or Fabric("set", span=span)


# ------------------------------------------------------------------------------------------------ readings


def side_in_work(piece: PieceState) -> Side:
    """The side that faces the knitter in the next row."""
    return "RS" if piece.form == "round" and not piece.turned else piece.due or "RS"


def worked(state: SizeState, row: RowDef, acts: Acts, expected: int | None) -> RowResult:
    """What comes of a row in the reading that fits: the usual one first, another only where it alone comes out.

    Nothing of the piece moves.
    """
    piece = state.piece
    side = side_in_work(piece)
    holders = kind_of(state, acts).held
    setting = RowSetting(
        side,
        piece.form,
        piece.standing,
        tuple(sorted(piece.pattern_rows.items())),
        row.unit == "rnd" or not piece.turned,
        row.partial and piece.form == "round",
        row.yarn if row.yarn is not None else state.yarn,
        tuple(state.holders) if holders else (),
        tuple(_copies(state, group) for group in state.holders) if holders else (),
        piece.picks_wraps,
        state.till_all_worked,
        piece.fresh_charts,
        bridges=piece.bridges,
        kept=piece.kept,
        piece=piece.name if holders else "",
    )
    shared = state.shared
    key = (id(acts), shared.numbers_of(acts, state.size), setting, piece.needle, expected, row.label)
    if not holders:
        known = shared.rows.get(key)
        if known is not None:
            return known[1]
    result = _fitting(state, row, acts, setting, expected)
    shared.rows[key] = (acts, result)
    return result


def _copies(state: SizeState, group: Group) -> int:
    source = state.pieces.get(group.piece)
    return copies_for(group, 1 if source is None else source.make, state.piece.name, state.piece.make)


def _fitting(state: SizeState, row: RowDef, acts: Acts, setting: RowSetting, expected: int | None) -> RowResult:
    over = setting.bridges
    base = _try(state, row, acts, setting, Reading(cross_gaps=over))
    fits = not base.faults and (expected is None or base.after == expected or bool(base.rest))
    loops = kind_of(state, acts).binds
    if base.gap_met and not (over or base.turned) and any(isinstance(act, CastOnAct) for act in acts):
        # "p to last 10 sts, CO 2 sts, p10": the new stitches close the gap, and the row is counted to its very end
        whole = _try(state, row, acts, setting, Reading(cross_gaps=True))
        closed = not whole.faults and not whole.gaps[2] and not whole.needle.gaps
        if closed and (expected is None or whole.after == expected or base.after != expected):
            return whole
    if not (base.ambiguous or loops or base.gap_met):
        return base
    if fits and not (base.ambiguous and expected is None):
        return base
    choices = product(
        (False, True) if base.ambiguous else (False,),
        (True, False) if loops else (True,),
        (over, not over) if base.gap_met else (over,),
    )
    sound = [] if base.faults else [base]
    for more, loop, cross in list(choices)[1:]:
        result = _try(state, row, acts, setting, Reading(more, loop, cross))
        if result.faults:
            continue
        if expected is not None and result.after == expected:
            return result
        if fits and more and loop and cross == over and result.after != base.after:
            note = fault(
                TWO_READINGS,
                row.span,
                "{label}: the repeat can be worked as often as it says in all ({all} sts) or once more ({more} sts)",
                hint="write `more times`, or `times in all`",
                label=row.label,
                all=base.after,
                more=result.after,
            )
            state.report(note)
            return base
        sound.append(result)
    return sound[0] if sound else base


def _try(state: SizeState, row: RowDef, acts: Acts, setting: RowSetting, reading: Reading) -> RowResult:
    across = RowWork(state.plan, state.size, setting, reading, state.piece.needle, row.span)
    across.rows_of = lambda name: rows_of_pattern(state, name)
    across.first_side = lambda name: first_side(state, name)
    kind = kind_of(state, acts)
    across.only_stitch = kind.only
    for drop in kind.drops:
        across.needle = _without_extra_loops(state, across, drop)
    across.start()
    # a round with both sides of a flap picked up ends beyond its start, in the middle of the heel
    across.wraps.picking = setting.picks_wraps or kind.wraps is not None
    across.may_wrap = setting.form == "round" and kind.picks > 1
    work(across, acts)
    return across.finish(row.label)


def _without_extra_loops(state: SizeState, row: RowWork, drop: Drop) -> Needle:
    """The needle once loops of yarn-overs made twice or more have been dropped: all but one of each, or so many of so
    many ("dropping 2 of each 3 yos")."""
    needle = row.needle
    of = None if drop.of is None else state.number_of(drop.of)
    gone = state.number_of(drop.count)
    faces = ""
    places = [0]
    for run in _LOOPS.findall(needle.faces):
        kept = len(run)
        if run[0] == "y":
            kept = 1 if of is None else kept - gone if kept == of else kept
        places += [len(faces) + min(at, kept) for at in range(1, len(run) + 1)]
        faces += run[:kept]
    if of is not None and len(faces) == needle.stitches:
        row.fail(
            fault(
                TOO_FEW,
                drop.span,
                "{gone} of each {of} loops are to be dropped; no yarn-over has {of} loops",
                gone=gone,
                of=of,
            )
        )
    return Needle(
        faces,
        places[needle.at],
        tuple((places[place], name) for place, name in needle.marks),
        tuple(places[gap] for gap in needle.gaps),
        tuple(places[turn] for turn in needle.turns),
        tuple((places[at], name) for at, name in needle.marked),
        tuple(wrap.to(places[wrap.place]) for wrap in needle.wraps),
    )


_LOOPS = re.compile("y+|[^y]+")


# ------------------------------------------------------------------------------------------------ what it leaves


def _take_over(state: SizeState, row: RowDef, result: RowResult, acts: Acts, first: bool) -> None:
    piece = state.piece
    side = side_in_work(piece)
    needle = result.needle
    taken = [state.holders[at] for at in result.taken]
    for at in sorted(set(result.taken), reverse=True):
        times = result.taken.count(at)
        again = replace(state.holders[at], used=state.holders[at].used + times * piece.make)
        state.holders[at : at + 1] = [again] if _copies(state, state.holders[at]) > times else []
    if taken and piece.make > 1:
        state.holders = without_twins(state.holders, taken, piece.name, piece.make)
    row_form = piece.form
    turned = result.turned or (piece.form == "round" and row.unit == "row" and piece.turned and needle.at != 0)
    for group in result.held:
        state.holders.append(
            replace(
                group,
                piece=piece.name,
                side=other(side) if piece.form == "flat" else "RS",
                rows=piece.rows,
                length_mm=piece.length,
            )
        )
    height = state.row_height()
    piece.turned_height = height
    # turned at a gap: the stitches beyond it are another part, and the row is whole
    short = result.short and not (piece.form == "flat" and result.turned and needle.at in needle.gaps)
    if short:
        height = height * 0
        piece.short_rows += 1
    else:
        piece.rows += 1
        piece.length += height
    if result.start_moves and 0 < needle.at < needle.stitches:
        around = needle.rotated(needle.at)
        needle = replace(around, at=0, marks=tuple(mark for mark in around.marks if mark[1] != f"{DIVISION}0"))
    piece.needle = needle
    piece.started = True
    piece.fresh = False
    piece.loose_end, piece.loose_row = False, None
    piece.turned = turned and piece.form == "round"
    if piece.form == "flat" or piece.turned:
        piece.due = other(side)
    else:
        piece.due = "RS"
    for name, number in result.patterns:
        piece.pattern_rows[name] = number
        piece.pattern_reach[name] = max(number, piece.pattern_reach.get(name, 0))
        piece.fresh_charts = False
    if not short and state.plan.promising:
        mind_promises(state, [name for name, _ in result.patterns], row.span)
    for told in result.told:
        state.report(told)
    _split_at_gap(state, side, result, row)
    piece.before_held = False
    if row_form == "round" == piece.form and result.held and not result.short:
        piece.before_held = ends_with_held(acts[: len(acts) - len(result.rest)])
        if piece.before_held and result.turned and not _turns_back(result):
            divide_round(state)  # turned for good: "turn, cast on 2 sts, turn, k to end" comes round again
    piece.standing = standing_after(piece.standing, result)
    changes = tuple(replace(event, row=piece.rows) for event in result.events)
    piece.events.extend(changes)
    for (yarn, stitch), number in result.tally:
        state.count_loops((yarn, state.gauge, stitch), number * piece.make)
    state.use_needles()
    piece.wrap = result.wrap
    _mind_yarns(state, row, kind_of(state, acts))
    _mind_gaps(state, row, result)
    mind_wraps(state, row, acts, result, kind_of(state, acts).wraps)
    change = result.after - result.before
    if change and piece.unaccounted is None and row.span is not None:
        piece.unaccounted = (row.span, change)
    if result.events:
        _landmarks(state, result.events)
    piece.records.append(
        RowRecord(
            row.label,
            piece.rows,
            side,
            row_form,
            result.before,
            piece.needle.stitches,
            1,
            1,
            result.yarns,
            state.gauge,
            state.needles,
            changes,
            piece.length,
            height,
            short,
            piece.needle.faces,
            result.worked,
            result.tally,
            row.span,
            piece.part,
        )
    )


def standing_after(standing: Standing, result: RowResult) -> Standing:
    """How the fabric goes on by itself after a row: as before, unless the row shows how."""
    if result.below:
        if result.above == settled(result.below):
            return "same"
        if result.above == flipped(result.below):
            return "flip"
    return standing


def _mind_yarns(state: SizeState, row: RowDef, kind: RowKind) -> None:
    """A yarn that was broken off is joined before a row names it."""
    for yarn in kind.joins:
        state.broken.discard(yarn)
    for yarn in kind.named:
        if yarn in state.broken:
            state.broken.discard(yarn)
            state.report(
                fault(
                    YARN_USED_AGAIN,
                    row.span,
                    "yarn {yarn} was broken off and has not been joined since",
                    yarn=yarn,
                    hint="join {yarn}",
                )
            )


def _mind_gaps(state: SizeState, row: RowDef, result: RowResult) -> None:
    """A row cannot be worked on across stitches that were bound off; held ones may be drawn together."""
    piece = state.piece
    bound, held, crossed = result.gaps
    if crossed and piece.gaps[0] and not piece.gaps[1]:
        _report_gap(state, row)
    still = bool(piece.needle.gaps)
    piece.gaps = (piece.gaps[0] + bound, piece.gaps[1] + held) if still else (0, 0)
    if held and not bound:
        # one yarn goes on behind the holder; a second ball, or a neck, parts two sides
        parts = kind_of(state, row.acts).second or any("neck" in group.name for group in result.held)
        piece.bridges = not parts and not piece.gaps[0]
    elif bound or not still:
        piece.bridges = False


def _report_gap(state: SizeState, row: RowDef) -> None:
    state.report(
        fault(
            OVER_A_GAP,
            row.span,
            "{label} is worked on across stitches that were bound off, and casts none on over them",
            hint="end the row at the gap, or cast on over it",
            label=row.label,
        )
    )


_WHOLE_ROUNDS = ("next rnd", "knit rnd", "purl rnd")
"""Labels of rounds that the author calls so, besides those with a number."""


def _landmarks(state: SizeState, events: tuple[Event, ...]) -> None:
    piece = state.piece
    here = (piece.rows, piece.length)
    for event in events:
        if event.kind == "bind off":
            piece.landmarks.setdefault("bind-off", here)
            piece.landmarks["last bind-off"] = here
        elif event.kind == "pick up":
            # the round before the picked-up stitches is where the new fabric begins
            height = state.row_height()
            piece.landmarks["picked-up"] = (piece.rows, piece.length)
            piece.landmarks["heel"] = (piece.rows, piece.length - piece.short_rows * height)
        elif event.kind == "cast on":
            piece.landmarks["cast-on sts"] = here
        elif event.kind == "hold":
            piece.landmarks["division"] = here
            piece.landmarks["underarm"] = here
            if "underarm" in event.name or "armhole" in event.name:
                piece.landmarks["armhole"] = here
            begin_finger(piece, "hold")


def _turns_back(result: RowResult) -> bool:
    """Whether the row turns once more: "turn, cast on 2 sts, turn, k to end" of a round goes on round."""
    return result.turned and any(isinstance(act, Turn) for act in result.rest)


def _split_at_gap(state: SizeState, side: Side, result: RowResult, row: RowDef) -> None:
    """Stitches beyond a gap wait where they are when the row has stopped at it."""
    piece = state.piece
    needle = piece.needle
    if _turns_back(result) or (result.turned and any(isinstance(act, CastOnAct) for act in result.rest[:1])):
        # turned to cast on over the gap, and back: the stitches beyond it are worked in the same row
        return
    if needle.at not in needle.gaps or result.turned:
        if result.turned and needle.gaps and needle.at in needle.gaps:
            pass
        else:
            return
    total = needle.stitches
    if piece.form == "round":
        told = row.number is not None or row.label in _WHOLE_ROUNDS
        if told and piece.gaps[0] and not (result.turned or result.gaps[0] or piece.gaps[1]):
            _report_gap(state, row)
        turned = needle.rotated(needle.at)
        piece.needle = replace(turned, at=total, gaps=tuple(gap for gap in turned.gaps if 0 < gap < total), turns=())
        piece.form, piece.turned = "flat", False
        piece.due = "WS"
        note_division(piece)
        return
    if needle.at in (0, total):
        return
    keep, leave = (needle.part(0, needle.at), needle.part(needle.at, total))
    if side == "WS":
        keep, leave = leave, keep
    piece.needle = replace(keep, at=keep.stitches if side == "RS" else 0)
    state.holders.append(
        Group(
            "",
            replace(leave, at=0),
            piece.name,
            side,
            piece.rows - 1,
            piece.length - state.row_height(),
            True,
            row.span,
        )
    )
