"""Sections and their lines: which piece is in work, and every step of a line in turn.

In: the state of one size and a section. Out: the section worked.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from typing import cast

from castoff.knitting.as_for import ACTS, by_section, like_other, steps_to_work
from castoff.knitting.beside import finish_beside, parted, refuse, set_beside
from castoff.knitting.both_sides import bind_off_at_edges, mind_two_sides, part_sides, second_side
from castoff.knitting.columns import check_formed
from castoff.knitting.divisions import shift
from castoff.knitting.faults import NOT_SHORTER, fault
from castoff.knitting.first_side import mind_first_side
from castoff.knitting.going_on import go_on, sets_change
from castoff.knitting.holding import hold
from castoff.knitting.loops import Group, Needle
from castoff.knitting.marking import mark_between
from castoff.knitting.plan import PlanSection
from castoff.knitting.run import mind_on_last_row
from castoff.knitting.shoulders import join_shoulders
from castoff.knitting.starting import release
from castoff.knitting.state import Ahead, PieceState, SizeState
from castoff.knitting.steps_charts import check_repeat
from castoff.knitting.steps_edges import cast_on, join_round, opening, pick_up_row, place, turn_work
from castoff.knitting.steps_endings import bind_off, graft
from castoff.knitting.steps_needles import (
    arrange,
    change_yarn,
    mind_over,
    resume,
    round_start,
    use_needles,
    work_over_part,
)
from castoff.knitting.steps_repeat import mind_turns, repeat_rows
from castoff.knitting.steps_rows import row_step, rows_as, rows_meant
from castoff.knitting.steps_shape import at_beginning, set_fabric, shape_rows, work_rows
from castoff.knitting.symmetry import mind_symmetry
from castoff.knitting.totals import check_rows, check_total, expected_of
from castoff.knitting.unturned import mind_unturned, turned_in_sentences
from castoff.notation.cords import folded_of
from castoff.notation.syntax import (
    Arrange,
    AtBeginning,
    BindOff,
    BindOffAct,
    BindOffAtEdges,
    BothSides,
    CastOn,
    ChangeNeedles,
    ChangeYarn,
    Count,
    DrawThrough,
    FastenOff,
    Finish,
    GoOnShaping,
    Graft,
    Hold,
    HoldAct,
    InstructionLine,
    JoinRound,
    JoinShoulders,
    Leg,
    Line,
    Mark,
    MarkStitch,
    Meanwhile,
    Note,
    OnLastRow,
    OnTrust,
    Opening,
    PickUpRow,
    PickUpWrap,
    Place,
    ProseLine,
    Release,
    Remark,
    RepeatRows,
    RepeatSections,
    Resume,
    RoundStart,
    RowsAs,
    RowsForm,
    RowStep,
    Seam,
    SetFabric,
    ShapeRows,
    ShiftStitches,
    SizesLine,
    Step,
    Stripes,
    ToldLength,
    ToldRepeat,
    ToldRows,
    Total,
    ToWorked,
    Turn,
    TurnWork,
    UnreadLine,
    UntilStitches,
    WorkAs,
    WorkFabric,
    WorkRows,
)


def work_section(state: SizeState, section: PlanSection) -> None:
    """Works a section on its piece."""
    state.remembered = 0
    _take_up(state, section)
    _open(state, section.opening)
    lines: Iterable[Line] = section.lines
    if section.mirrors is not None:
        source = next((each for each in state.plan.sections if each.title == section.mirrors), None)
        if source is not None and not section.lines:
            lines = source.lines
    _lines(state, lines)
    if state.over:
        return
    if state.beside:
        finish_beside(state)
    mind_symmetry(state, section.lines)


def work_ahead(state: SizeState, block: Ahead) -> None:
    """Works what is still to be worked: sections, lines, or steps of a line."""
    if not block or state.over:
        return
    if isinstance(block[0], PlanSection):
        for section in block:
            if isinstance(section, PlanSection) and (section.sizes is None or section.sizes[state.size]):
                work_section(state, section)
                if state.over:
                    return
    elif isinstance(block[0], (InstructionLine, ProseLine, SizesLine, UnreadLine)):
        _lines(state, cast(Sequence[Line], block))
    else:
        work_steps(state, cast(Sequence[Step], block))


def _take_up(state: SizeState, section: PlanSection) -> None:
    before = state.piece
    if before.name != section.piece and before.needle.stitches:
        # stitches that stay on the needle while another piece is in work
        state.holders.append(
            Group(before.name.lower(), before.needle, before.name, before.due, before.rows, before.length, True)
        )
        before.needle = Needle()
    piece = state.pieces.get(section.piece)
    if piece is None:
        piece = PieceState(section.piece, max(1, section.make))
        state.pieces[section.piece] = piece
    state.piece = piece
    for at, group in enumerate(state.holders):
        if group.left and group.piece == piece.name and group.name == piece.name.lower() and not piece.needle.stitches:
            piece.needle = group.needle
            del state.holders[at]
            break
    state.keep_rows()
    state.section = section
    _begin(state, section, carry=before is piece)


def _begin(state: SizeState, section: PlanSection, *, carry: bool) -> None:
    """What a section says of gauge, needles, yarn and form, and what it forgets of the one before."""
    piece = state.piece
    if section.gauge is not None:
        state.gauge = section.gauge
    known = state.plan.gauges.get(state.gauge) if state.gauge is not None else None
    if section.needles is not None:
        state.needles = section.needles
    elif state.needles is None and known is not None:
        state.needles = known.needles
    if section.yarn is not None:
        state.yarn = section.yarn
    elif not state.yarn and state.plan.yarns:
        state.yarn = state.plan.yarns[0]
    if section.form == "round" and piece.form == "flat" and piece.needle.turns:
        mind_turns(state, None)
    if section.form is not None and piece.needle.stitches and section.form != piece.form:
        piece.form = section.form
        piece.turned = False
        if section.form == "round":
            piece.due = "RS"
    piece.called.append((section.title.lower(), piece.part, piece.rows))
    piece.fabric = None
    piece.wraps_unknown = False
    state.forget_rows(carry=carry)
    state.stripes = []
    state.landmark_section()
    state.unread_lines = False


def _open(state: SizeState, lines: Sequence[Line]) -> None:
    """The stated opening; "you have 84 sts" is no total to be checked here, it is where the piece stands."""
    for line in lines:
        if isinstance(line, UnreadLine):
            state.piece.doubt = state.piece.unsure = state.piece.strayed = True
            state.unread_lines = True
        if not isinstance(line, InstructionLine) or not line.sizes[state.size]:
            continue
        for step in line.steps:
            if isinstance(step, Total) and step.stated and not state.piece.needle.stitches:
                opening(state, Opening(step.stated[0].stitches, span=step.span))
            else:
                work_step(state, step, None)


def _lines(state: SizeState, lines: Iterable[Line]) -> None:
    mine = [line for line in lines if line.sizes[state.size]]
    depth = len(state.following)
    state.following.append(())
    for at, line in enumerate(mine):
        if state.over:
            break
        state.following[depth] = mine[at + 1 :]
        if isinstance(line, UnreadLine):
            state.piece.doubt = state.piece.unsure = state.piece.strayed = True
            state.unread_lines = True
            state.piece.due = "RS" if state.piece.form == "round" else None
        elif isinstance(line, InstructionLine):
            work_steps(state, line.steps, _first_of(mine[at + 1 :]))
    del state.following[depth:]


def _first_of(lines: Sequence[Line]) -> Step | None:
    return next((line.steps[0] for line in lines if isinstance(line, InstructionLine)), None)


_BESIDE_ROWS = (ShapeRows, GoOnShaping, WorkRows, AtBeginning, RowStep, RepeatRows, RowsAs, WorkAs)
"""Steps that something can run beside."""
_GO_ON = (
    *_BESIDE_ROWS, SetFabric, Stripes, ChangeYarn, ChangeNeedles, Place, MarkStitch, Note, Meanwhile, Mark, RowsForm,
    ToldLength, ToldRepeat, TurnWork,
)  # fmt: skip
"""Steps that may stand while something runs at the same time; before any other it has come to its end."""


def _mind_beside(state: SizeState, step: Step) -> None:
    """Finishes what runs at the same time before a step that needs all of it done."""
    if isinstance(step, Total) and expected_of(state, step) == state.piece.needle.stitches:
        return
    if not isinstance(step, _GO_ON):
        finish_beside(state)


def _meanwhile(state: SizeState, step: Meanwhile) -> None:
    """What runs beside the rows before it, or those behind it; then what is left of the line."""
    running, rest = parted(step)
    if not running or all(isinstance(each, Note) for each in running):
        refuse(state, step)
        return
    if any(each.source is step for each in state.beside):
        finish_beside(state)
    else:
        set_beside(state, step)
        if rest:
            finish_beside(state)
    work_steps(state, rest)


def work_steps(state: SizeState, steps: Sequence[Step], upcoming: Step | None = None) -> None:
    """Works steps in order. A total printed straight behind a row is what the row must come to.

    upcoming: the first step of the next line, which may be worked at the same time as the last of these.
    """
    steps = turned_in_sentences(steps)
    steps = [each for step in _rows_to_right_needle(steps) for each in _rest_of_turned(step)]
    if any(_keeps_pattern(step) or _parts_pattern(state, step) for step in steps):
        state.piece.kept = True
    depth = len(state.following)
    state.following.append(())
    for at, step in enumerate(steps):
        if state.over:
            break
        state.following[depth] = steps[at + 1 :]
        behind = steps[at + 1] if at + 1 < len(steps) else upcoming
        if isinstance(behind, BindOff) and folded_of(behind.manner) and isinstance(step, RowStep):
            step = replace(step, work=(*step.work, Turn("plain", span=behind.span)))  # it ends at the fold
        if isinstance(behind, Meanwhile) and isinstance(step, _BESIDE_ROWS):
            set_beside(state, behind)
        if isinstance(behind, OnLastRow):
            state.on_last_row = behind
        expected = None
        for later in steps[at + 1 :]:
            if isinstance(later, Total):
                expected = expected_of(state, later)
                break
            if not isinstance(later, (Note, OnLastRow)):
                break
        if at and isinstance(step, WorkAs) and not step.to and not step.start and step.extent is None:
            continue  # "…, as for the first half": said beside rows that are told in full
        if isinstance(step, WorkRows) and isinstance(behind, WorkAs) and at + 1 < len(steps):
            like = like_other(state, step, behind)
            if like is None:
                state.piece.doubt = True
                continue
            if isinstance(like, list):
                sent, state.sent_back = state.sent_back, (*state.sent_back, step.span)
                work_steps(state, like, upcoming)
                state.sent_back = sent
                continue
            step = like
        work_step(state, step, None if state.piece.doubt else expected)
        mind_unturned(state, step, (*steps[at + 1 :], *(() if upcoming is None else (upcoming,))))
        state.counts.setdefault(step.span, state.piece.needle.stitches)
        if state.second is not None and not isinstance(step, BothSides):
            state.second.steps.append(step)
            again = second_side(state)
            if again:
                work_steps(state, again)
                state.piece.neck_rows = None
    del state.following[depth:]


_KEEPING = frozenset({"keeping", "maintaining", "working", "taking", "bringing", "incorporating"})


def _keeps_pattern(step: Step) -> bool:
    """ "Keeping patt correct", "working inc sts into patt": the pattern goes on over stitches that are no whole repeats."""
    said = [step.words] if isinstance(step, Note) else []
    if isinstance(step, RowStep):
        said = [act.words for act in step.work if isinstance(act, Remark)]
    return any(words.split()[0] in _KEEPING and words.replace(" pattern", " patt").find(" patt") >= 0 for words in said)


def _parts_pattern(state: SizeState, step: Step) -> bool:
    """ "Work 49 sts in patt, bind off centre 9 sts, work in patt to end": a row that parts the fabric it goes on with."""
    fabric = state.piece.fabric
    if not isinstance(step, RowStep) or fabric is None or fabric.name.lower() not in state.plan.patterns:
        return False
    counted = any(isinstance(act, WorkFabric) and isinstance(act.over, Count) for act in step.work)
    return counted and any(isinstance(act, BindOffAct | HoldAct | Turn) for act in step.work)


def _rows_to_right_needle(steps: Sequence[Step]) -> list[Step]:
    """ "K until there are 15 sts on right needle, turn": part of one row, and no rows until the count is 15."""
    found: list[Step] = []
    for at, step in enumerate(steps):
        until = step.extent.until if isinstance(step, WorkRows) else None
        if (
            isinstance(step, WorkRows)
            and isinstance(until, UntilStitches)
            and until.where.startswith("on right needle")
        ):
            bound = until.where != "on right needle"
            behind = steps[at + 1] if at + 1 < len(steps) else None
            part = WorkFabric(step.fabric, ToWorked(until.stitches, bound, span=until.span), span=step.span)
            turn = (Turn("plain", span=behind.span),) if isinstance(behind, TurnWork) else ()
            found.append(RowStep(None, (part, *turn), span=step.span))
        elif not (isinstance(step, TurnWork) and found and isinstance(found[-1], RowStep) and _turned(found[-1])):
            found.append(step)
    return found


def _turned(row: RowStep) -> bool:
    return len(row.work) == 2 and isinstance(row.work[0], WorkFabric) and isinstance(row.work[1], Turn)


def _rest_of_turned(step: Step) -> tuple[Step, ...]:
    """ "K15, turn and leave rem sts on a holder": what is left is put aside behind the row."""
    if not isinstance(step, RowStep) or len(step.work) < 3:
        return (step,)
    turn, last = step.work[-2:]
    rest = isinstance(last, HoldAct) and last.target is None and not last.worked and last.told != "these"
    if not isinstance(turn, Turn) or not isinstance(last, HoldAct) or not rest:
        return (step,)
    if last.count is not None and last.told != "rem":
        return (step,)
    return replace(step, work=step.work[:-1]), Hold(last, True, span=last.span)


def work_step(state: SizeState, step: Step, expected: int | None) -> None:
    """Works one step."""
    piece = state.piece
    state.steps += 1
    if piece.worked_over is not None and not isinstance(step, (Hold, Arrange, JoinRound, Place, Total, Note)):
        work_over_part(state, step.span)
    if isinstance(step, ACTS):
        if not piece.needle.stitches:
            piece.acts.clear()
        piece.acts.append(step)
    if not mind_two_sides(state, step):
        return
    if state.beside:
        _mind_beside(state, step)
    if not isinstance(step, (ToldRows, ToldRepeat, ToldLength, Total, Note)):
        state.repeated = isinstance(step, RepeatRows) and not step.rows.name
    if isinstance(step, RowStep) and _for_all_rows(step):
        piece.picks_wraps = True
    elif isinstance(step, RowStep):
        row_step(state, step, expected)
    elif isinstance(step, Total):
        check_total(state, step)
    elif isinstance(step, RepeatRows):
        repeat_rows(state, step, expected)
    elif isinstance(step, RepeatSections):
        _repeat_sections(state, step)
    elif isinstance(step, RowsAs):
        rows_as(state, step, expected)
    elif isinstance(step, WorkRows) and _goes_on(state, step):
        leg = Leg(None, until=step.extent, span=step.span)
        go_on(state, GoOnShaping(None, None, None, None, False, "", None, (leg,), span=step.span))
    elif isinstance(step, WorkRows):
        mind_first_side(state, step)
        work_rows(state, step, expected)
    elif isinstance(step, SetFabric):
        set_fabric(state, step.fabric)
    elif isinstance(step, ShapeRows):
        shape_rows(state, step, expected)
    elif isinstance(step, BothSides):
        part_sides(state, step)
    elif isinstance(step, BindOffAtEdges):
        bind_off_at_edges(state, step)
    elif isinstance(step, GoOnShaping):
        go_on(state, step)
    elif isinstance(step, AtBeginning):
        at_beginning(state, step, expected)
    elif isinstance(step, CastOn):
        cast_on(state, step)
    elif isinstance(step, Release):
        release(state, step)
    elif isinstance(step, JoinRound):
        join_round(state, step)
    elif isinstance(step, ChangeYarn):
        change_yarn(state, step)
    elif isinstance(step, ChangeNeedles):
        use_needles(state, step.needles, step.span)
    elif isinstance(step, BindOff):
        bind_off(state, step)
    elif isinstance(step, (DrawThrough, FastenOff)):
        if isinstance(step, DrawThrough):
            mind_over(state, step.count)
        if isinstance(step, DrawThrough) or piece.needle.stitches <= 1:
            state.event("fasten off", piece.needle.stitches, span=step.span)
            piece.needle = Needle()
            piece.doubt = False
    elif isinstance(step, Hold):
        hold(state, step, expected)
    elif isinstance(step, Resume):
        resume(state, step)
    elif isinstance(step, PickUpRow):
        pick_up_row(state, step, expected)
    elif isinstance(step, Place):
        place(state, step)
    elif isinstance(step, MarkStitch):
        mark_between(state, step)
    elif isinstance(step, TurnWork):
        turn_work(state, step)
    elif isinstance(step, Seam):
        state.event("seam", name=" + ".join((step.manner, *step.edges)), span=step.span)
    elif isinstance(step, JoinShoulders):
        join_shoulders(state, step)
    elif isinstance(step, Graft):
        graft(state, step)
    elif isinstance(step, Opening):
        opening(state, step)
    elif isinstance(step, OnTrust):
        _on_trust(state, step)
    elif isinstance(step, WorkAs):
        _work_as(state, step)
    elif isinstance(step, Stripes):
        state.stripes = [(number, yarn) for count, yarn in step.bands if (number := state.number_of(count))]
        state.stripe_row = 0
    elif isinstance(step, Meanwhile):
        _meanwhile(state, step)
    elif isinstance(step, Finish):
        state.event("finish", name=step.act, span=step.span)
    elif isinstance(step, Arrange):
        arrange(state, step)
    elif isinstance(step, ShiftStitches):
        shift(state, step)
    elif isinstance(step, RoundStart):
        round_start(state, step)
    elif isinstance(step, RowsForm):
        rows = rows_meant(state, step.rows)
        if rows and step.fabric.name:
            state.formed[step.fabric.name.lower()] = rows
            check_formed(state, step)
    elif isinstance(step, ToldRows):
        check_rows(state, step)
    elif isinstance(step, OnLastRow):
        mind_on_last_row(state, step)
    elif isinstance(step, ToldRepeat):
        check_repeat(state, step)
    elif isinstance(step, ToldLength) and not step.what:
        state.event("length told", state.last_rows, span=step.span)
        if state.repeated:
            state.event("length told", state.last_rows + state.cycle, span=step.span)
    elif isinstance(step, (Mark, Note, ToldLength)):
        return


def _goes_on(state: SizeState, step: WorkRows) -> bool:
    """ "Continue in this way until 8 sts rem", behind rows whose sets grow fewer."""
    until = step.extent.until
    return step.fabric.name == "this manner" and isinstance(until, UntilStitches) and sets_change(state)


def _for_all_rows(step: RowStep) -> bool:
    """ "Work wraps tog with sts as you come to them." as a sentence of its own: meant for every row from here on."""
    return step.label is None and all(isinstance(act, PickUpWrap) and act.come for act in step.work)


def _on_trust(state: SizeState, step: OnTrust) -> None:
    state.trusted.append(step.span)
    leaves = None if step.leaves is None else step.leaves.at(state.size)
    if leaves is not None:
        state.piece.needle = state.piece.needle.resized(leaves)
        state.piece.unaccounted = None
        state.piece.doubt = False
    state.event("on trust", state.piece.needle.stitches, step.words, step.span)


_MOST_SECTIONS = 500
"""More times than any section is worked again."""


def _repeat_sections(state: SizeState, step: RepeatSections) -> None:
    """Works whole sections of the piece again, as often as told."""
    number = state.number_of(step.times.count)
    number -= step.times.kind == "all"
    meant = [
        section
        for title in step.sections
        for section in state.plan.sections
        if section.title == title and section.piece == state.piece.name and section is not state.section
    ]
    if number > _MOST_SECTIONS or len(meant) != len(step.sections) or state.replaying > 3:
        state.report(
            fault(
                NOT_SHORTER,
                step.span,
                "no section of this piece is called {names}, and stands before this line"
                if len(meant) != len(step.sections)
                else "{number} times is more often than any piece is long",
                names=" or ".join(step.sections),
                number=number,
            )
        )
        return
    here = state.section
    state.replaying += 1
    for _ in range(number):
        for section in meant:
            state.section = section
            _begin(state, section, carry=False)
            _lines(state, section.lines)
    state.section = here
    state.replaying -= 1


def _work_as(state: SizeState, step: WorkAs) -> None:
    """Works the steps of another piece or section again, as far as a mark, or from where the two part."""
    if state.replaying > 3:
        return
    found = steps_to_work(state, step)
    if found is None:
        return
    if not found:
        # the whole piece once more
        piece = state.piece
        for key, count in list(piece.loops.items()):
            state.count_loops(key, count // piece.make)
        piece.make += 1
        return
    here, sent = state.section, state.sent_back
    state.replaying += 1
    state.sent_back = (*sent, step.span)
    for at, (section, part) in enumerate(by_section(found)):
        state.section = section
        if at or not state.piece.needle.stitches:
            _begin(state, section, carry=True)
        elif section.gauge is not None:
            state.gauge = section.gauge
        if any(each.step is None for each in part):
            state.piece.doubt = state.piece.unsure = state.unread_lines = True
        work_steps(state, [each.step for each in part if each.step is not None])
    state.section, state.sent_back = here, sent
    state.replaying -= 1
