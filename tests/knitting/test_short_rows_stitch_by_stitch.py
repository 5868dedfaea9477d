"""Short rows against a plain needle, stitch by stitch: rows made up by hypothesis, flat, w&t and double stitches mixed."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import event, given, settings
from hypothesis import strategies as st
from tests.knitting.plans import GAUGES, TRADE
from tests.knitting.short_row_reference import Command, Impossible, PlainShortRows

from castoff.knitting.acts import work
from castoff.knitting.loops import Needle
from castoff.knitting.plan import Plan
from castoff.knitting.row import RowWork
from castoff.knitting.setting import Reading, RowResult, RowSetting
from castoff.notation.syntax import Action, Count, PickUpWrap, Side, Stitch, StitchTo, ToEnd, ToTurn, Turn
from castoff.span import SourceFile, Span

HERE = Span(SourceFile("row", "row"), 0, 3)
PLAN = Plan(("M",), (), TRADE.stitches, GAUGES)


def number(value: int) -> Count:
    return Count((value,), span=HERE)


def act_of(command: Command, name: str) -> Action:
    """The act that a command of the plain needle stands for."""
    what = command[0]
    if what == "work":
        assert isinstance(command[1], int)
        return Stitch(name, number(command[1]), span=HERE)
    if what == "to end":
        return StitchTo(name, ToEnd(span=HERE), span=HERE)
    if what in ("to wrap", "to twice", "to ds"):
        before, past = command[1], command[2]
        assert isinstance(before, int) and isinstance(past, int)
        to = ToTurn({"to wrap": "wrapped", "to twice": "double-wrapped", "to ds": "ds"}[str(what)], span=HERE)  # type: ignore[arg-type]
        if before or past:
            to = replace(to, before=number(before)) if before else replace(to, after=number(past))
        return StitchTo(name, to, span=HERE)
    if what == "close":
        kind = command[1]
        return PickUpWrap(name, what=kind, span=HERE)  # type: ignore[arg-type]
    return Turn({"w&t": "wrap", "ds": "german", "turn": "plain"}[str(what)], span=HERE)  # type: ignore[arg-type]


def laid(needle: Needle) -> tuple[list[tuple[int, int]], list[int]]:
    """Wraps with their numbers, and double stitches, by place."""
    wraps = [(wrap.place, wrap.times) for wrap in needle.wraps if wrap.kind == "wrap"]
    return wraps, [wrap.place for wrap in needle.wraps if wrap.kind == "ds"]


def worked(needle: Needle, side: Side, acts: tuple[Action, ...], *, picking: bool = False) -> RowResult:
    row = RowWork(PLAN, 0, RowSetting(side, "flat"), Reading(), needle, HERE)
    row.start()
    row.wraps.picking = picking
    work(row, acts)
    return row.finish("row")


WHAT = ("to wrap", "to twice", "to ds")
ENDS = st.sampled_from((("w&t",), ("w&t",), ("ds",), ("turn",), ("to end",)))


@st.composite
def rows(draw: st.DrawFn, plain: PlainShortRows) -> list[Command]:
    """A row that the needle can mostly work."""
    commands: list[Command] = []
    near = [what for what in WHAT if _distance(plain, what) is not None]
    often: int = draw(st.integers(0, 3))
    if near and often:
        what = draw(st.sampled_from(near))
        distance = _distance(plain, what) or 0
        before = draw(st.integers(0, 2)) if distance > 2 else 0
        commands.append((what, before, 0 if before else draw(st.integers(0, 2))))
        if commands[-1] == (what, 0, 0) and draw(st.booleans()):
            commands.append(("close", "ds" if what == "to ds" else "wrap"))
    elif draw(st.integers(0, 19)):
        left = plain.stitches - plain.yarn if not plain.back else plain.yarn
        commands.append(("work", draw(st.integers(1, max(left - 1, 1)))))
    else:
        commands.append((draw(st.sampled_from(WHAT)), draw(st.integers(0, 2)), 0))
        commands.append(("close", draw(st.sampled_from(("wrap", "ds")))))
    commands.append(draw(ENDS))
    return commands


def _distance(plain: PlainShortRows, what: str) -> int | None:
    try:
        return plain.ahead(what.removeprefix("to "))
    except Impossible:
        return None


@settings(max_examples=1200, deadline=None)
@given(st.integers(2, 24), st.integers(1, 14), st.data())
def test_short_rows_come_to_the_same_stitch_by_stitch(stitches: int, many: int, data: st.DataObject) -> None:
    plain = PlainShortRows(stitches)
    needle = Needle("k" * stitches)
    side: Side = "RS"
    lost = 0
    for _ in range(many):
        commands = data.draw(rows(plain))
        picking = data.draw(st.booleans())
        name = "k" if side == "RS" else "p"
        result = worked(needle, side, tuple(act_of(command, name) for command in commands), picking=picking)
        try:
            for command in commands:
                if command[0] == "close":
                    _mind_kind(plain, command[1], commands)
            plain.row(commands, gathering=picking)
        except Impossible as stop:
            event(str(stop))
            assert result.faults, (str(stop), commands)
            return
        assert not result.faults, (commands, [each.message for each in result.faults])
        needle = result.needle
        lost += sum(wrap.times for wrap in result.wraps.left)
        assert needle.at == plain.yarn
        assert laid(needle) == (plain.wraps(), plain.doubles()), commands
        assert lost == plain.lost()
        assert sum(times for (_, stitch), times in result.tally if stitch in ("k", "p")) == plain.log[-1]
        side = "WS" if side == "RS" else "RS"
    event(f"all of {many} rows" if many > 5 else "all of a few rows")


def _mind_kind(plain: PlainShortRows, kind: object, commands: list[Command]) -> None:
    """What is closed must be of its kind: a copy of the plain needle goes as far as that."""
    trial = PlainShortRows(plain.stitches)
    for loop, other in zip(trial.loops, plain.loops, strict=True):
        loop.wraps, loop.double = other.wraps, other.double
    trial.yarn, trial.back = plain.yarn, plain.back
    for command in commands:
        if command[0] == "close":
            break
        before = trial.back
        trial.row([command], gathering=True)
        trial.back = before
    loop_there = trial.next_loop()
    if loop_there is None or not (loop_there.wraps if kind == "wrap" else loop_there.double):
        raise Impossible(f"no {kind} is here")
