"""Shaping that goes on as in the rows before: the plain stitches between decreases grow fewer row by row.

In: a `GoOnShaping` and where the knitting stands. Out: the rows worked. How the sets change is read off the last two
shaping rows (`*k12, k2tog`, then `*k11, k2tog`); where there is only one, off its own decrease: a set of 9 that became 8
is worked on 8. What the line says beside that (8 sts each time, 1 st fewer, k7 instead of k8) must agree.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, fields, is_dataclass, replace

from castoff.knitting.counted import counter_of
from castoff.knitting.extents import rows_of_extent
from castoff.knitting.faults import NEVER_ENDS, NO_SUCH_ROW, TOTAL_OFF, fault
from castoff.knitting.loops import MOST_ROWS
from castoff.knitting.run import run_rows
from castoff.knitting.state import Acts, RowDef, SizeState
from castoff.knitting.steps_charts import standing_fabric
from castoff.knitting.steps_repeat import rows_apart
from castoff.knitting.steps_rows import rows_meant
from castoff.notation.syntax import (
    Count,
    GoOnShaping,
    Leg,
    Repeat,
    Stitch,
    StitchTo,
    UntilStitches,
    WorkFabric,
)
from castoff.span import Span

_PLAIN = ("k", "p", "k tbl", "p tbl")


@dataclass(frozen=True, slots=True)
class _Known:
    """What is known of the shaping.

    row: the shaping row worked last. by: how much each number of plain stitches differs from one shaping row to the next,
    in the order of the row's acts; empty when nothing does. between: rows worked between two shaping rows. since: rows
    worked since the last one. apart: rows from one to the next, None when that cannot be seen.
    """

    row: RowDef
    by: tuple[int, ...]
    between: tuple[RowDef, ...]
    since: int
    apart: int | None


def go_on(state: SizeState, step: GoOnShaping) -> None:
    """Works shaping rows on and on, with the rows between them."""
    known = _known(state, step)
    if known is None:
        state.piece.doubt = True
        return
    before = state.piece.needle.stitches
    worked = 0
    for leg in step.legs:
        apart = (
            known.apart
            if leg.every is None and leg.every_side is None
            else rows_apart(state, leg.every, leg.every_side)
        )
        if apart is None:
            _refuse(state, step, "how often is not told", "write `on every rnd` or `on every other row`")
            break
        found = _leg(state, step, leg, known, apart)
        if found is None:
            break
        known, rows = found
        worked += rows
    state.piece.before = before
    state.last_rows = worked
    state.counted += worked


def _refuse(state: SizeState, step: GoOnShaping, message: str, hint: str) -> None:
    state.report(fault(NO_SUCH_ROW, step.span, message, hint=hint))
    state.piece.doubt = True


# ------------------------------------------------------------------------------------------------ what goes on


def _known(state: SizeState, step: GoOnShaping) -> _Known | None:
    """The shaping that a line goes on with; None, with a fault, when it cannot be told."""
    rows = list(state.history)
    if step.rows is not None:
        wanted = rows_meant(state, step.rows)
        if not wanted:
            return None
        if not state.last_worked_are(wanted):
            rows += wanted
    shaping = [at for at, row in enumerate(rows) if _changes(state, row)]
    if not shaping:
        _refuse(
            state, step, "no row before this line changes the number of stitches", "write the shaping row out first"
        )
        return None
    last = shaping[-1]
    row = rows[last]
    if not _one_way(state, step, rows, shaping):
        return None
    earlier = next((at for at in reversed(shaping[:-1]) if _steps(state, rows[at].acts, row.acts) is not None), None)
    by = None if earlier is None else _steps(state, rows[earlier].acts, row.acts)
    since = len(rows) - 1 - last
    apart = None
    between: tuple[RowDef, ...] = ()
    if earlier is not None:
        apart = last - earlier
        between = tuple(rows[earlier + 1 : last])
    elif since:
        apart = since + 1
        between = tuple(rows[last + 1 :])
    if by is None or not any(by):
        by = _alone(state, step, row)
        if by is None:
            return None
    if not _agree(state, step, row, by):
        return None
    return _Known(row, by, between, since, apart)


def _one_way(state: SizeState, step: GoOnShaping, rows: Sequence[RowDef], shaping: Sequence[int]) -> bool:
    """Whether the shaping rows are all of one shape, or come round as they did; two that take turns are not guessed."""
    last = shaping[-1]
    same = next(
        (at for at in reversed(shaping[:-1]) if _steps(state, rows[at].acts, rows[last].acts) is not None), None
    )
    numbered = {id(each.acts) for each in state.defs.values()}
    first = -1 if same is None else same
    others = [at for at in shaping if first < at < last and id(rows[at].acts) in numbered]
    rates = any(leg.every is not None or leg.every_side is not None for leg in step.legs)
    if not others or (same is not None and not rates):
        return True
    _refuse(state, step, "the rows before are shaped in two ways", "write `rep rows 1-4` with how often, or until when")
    return False


def sets_change(state: SizeState) -> bool:
    """Whether the shaping row worked last has sets that grow fewer, so that it cannot come again as it is."""
    shaping = [row for row in state.history if _changes(state, row)]
    if not shaping:
        return False
    last = shaping[-1]
    earlier = next(
        (_steps(state, row.acts, last.acts) for row in reversed(shaping[:-1]) if row.acts != last.acts), None
    )
    if earlier is not None:
        return any(earlier)
    only = last.acts[0] if len(last.acts) == 1 else None
    return (
        isinstance(only, Repeat) and only.times.kind == "to" and not any(isinstance(act, StitchTo) for act in only.body)
    )


def _changes(state: SizeState, row: RowDef) -> bool:
    """Whether a row changed the number of stitches when it was worked."""
    for record in reversed(state.piece.records):
        if record.span == row.span and record.label == row.label:
            return record.before != record.after
    return False


def _numbers(state: SizeState, acts: Acts) -> list[tuple[object, int]]:
    """Numbers of plain stitches in some acts, with what they are of, in order; a stretch without a number is no number."""
    found: list[tuple[object, int]] = []
    for act in acts:
        if isinstance(act, Stitch) and act.name in _PLAIN:
            found.append((act.name, state.number_of(act.count, 1)))
        elif isinstance(act, WorkFabric) and isinstance(act.over, Count):
            found.append((act.fabric, state.number_of(act.over)))
        elif isinstance(act, Repeat):
            found.extend(_numbers(state, act.body))
    return found


def _shape(state: SizeState, node: object) -> object:
    """Some acts with their plain numbers left out: rows of one shape differ in nothing else."""
    if isinstance(node, Stitch) and node.name in _PLAIN:
        return ("plain", node.name)
    if isinstance(node, WorkFabric) and isinstance(node.over, Count):
        return ("over", node.fabric)
    if isinstance(node, Count):
        return node.values[state.size]
    if isinstance(node, tuple):
        return tuple(_shape(state, each) for each in node)
    if is_dataclass(node) and not isinstance(node, type):
        kept = [each.name for each in fields(node) if each.compare]
        return (type(node).__name__, *(_shape(state, getattr(node, name)) for name in kept))
    return node


def _steps(state: SizeState, earlier: Acts, later: Acts) -> tuple[int, ...] | None:
    """How the plain numbers went from one row to another of the same shape; None where the shapes differ."""
    if _shape(state, earlier) != _shape(state, later):
        return None
    pairs = zip(_numbers(state, earlier), _numbers(state, later), strict=True)
    return tuple(two - one for (_, one), (_, two) in pairs)


def _alone(state: SizeState, step: GoOnShaping, row: RowDef) -> tuple[int, ...] | None:
    """The change of the sets where only one shaping row is known: none where it goes as far as places do, else as much
    as the row itself takes from its set."""
    numbers = _numbers(state, row.acts)
    none = (0,) * len(numbers)
    places = any(isinstance(act, (StitchTo, WorkFabric)) for act in row.acts)
    repeat = row.acts[0] if len(row.acts) == 1 and isinstance(row.acts[0], Repeat) else None
    in_repeats = any(isinstance(act, StitchTo) for each in row.acts if isinstance(each, Repeat) for act in each.body)
    told = 0 if step.fewer is None else state.number_of(step.fewer) * (1 if step.more else -1)
    if not told and step.instead is not None:
        new, old = step.instead
        told = state.number_of(new) - state.number_of(old)
    if (places or in_repeats) and not told:
        return none
    if repeat is not None and len(numbers) == 1 and not in_repeats:
        last = next((each for each in reversed(state.piece.records) if each.span == row.span), None)
        sets = 0 if last is None else _sets(state, repeat, numbers[0][1], last.before)
        if last is not None and sets and (last.after - last.before) % sets == 0:
            return ((last.after - last.before) // sets,)
    sides = step.where.startswith(("on each side", "at each side", "on either side"))
    if told and sides and len(numbers) == 2:
        return (told, told)
    if told and len(numbers) == 1:
        return (told,)
    _refuse(
        state,
        step,
        "which of its plain stitches grow fewer cannot be told from one shaping row",
        "write out the next shaping row, then `continue in this way`",
    )
    return None


def _sets(state: SizeState, repeat: Repeat, plain: int, before: int) -> int:
    """How often the repeat of a shaping row was worked across so many stitches."""
    takes = 0
    for act in repeat.body:
        known = state.plan.stitch(act.name) if isinstance(act, Stitch) else None
        if known is None or not isinstance(act, Stitch):
            return 0
        takes += known.takes * (plain if act.name in _PLAIN else state.number_of(act.count, 1))
    return before // takes if takes and before % takes == 0 else 0


def _agree(state: SizeState, step: GoOnShaping, row: RowDef, by: Sequence[int]) -> bool:
    """Whether what the line says of the sets is what they do."""
    changes = sorted({each for each in by if each})
    if step.fewer is not None:
        told = state.number_of(step.fewer) * (1 if step.more else -1)
        if changes != [told]:
            real = changes[0] if changes else 0
            state.report(
                fault(
                    TOTAL_OFF,
                    step.fewer.span,
                    "{told} {which} {where} are told; the rows before go on with {real}",
                    hint="{real}",
                    told=abs(told),
                    which="more" if step.more else "fewer",
                    where=step.where,
                    real=f"{abs(real)} {'more' if real > 0 else 'fewer'}" if real else "as many as before",
                )
            )
            return False
    if step.instead is not None:
        new, old = (state.number_of(each) for each in step.instead)
        last = [number for (_, number), each in zip(_numbers(state, row.acts), by, strict=True) if each]
        if old not in last or new - old not in changes:
            state.report(
                fault(
                    TOTAL_OFF,
                    step.instead[0].span,
                    "{new} instead of {old} plain sts are told; the last shaping row has {last}, the next one {next}",
                    new=new,
                    old=old,
                    last=", ".join(str(each) for each in last) or "none that change",
                    next=", ".join(str(number + each) for number, each in zip(last, [e for e in by if e], strict=True))
                    or "as many",
                )
            )
            return False
    return True


# ------------------------------------------------------------------------------------------------ working it


def _next_row(state: SizeState, known: _Known, span: Span) -> RowDef | None:
    """The shaping row that comes next; None when a set has no stitches left for it."""
    changes = iter(known.by)
    acts = _changed(state, known.row.acts, changes)
    if acts is None:
        return None
    unit = "rnd" if state.piece.form == "round" else "row"
    return RowDef(acts, f"shaping {unit}", unit=unit, span=span)


def _changed(state: SizeState, acts: Acts, changes: Iterator[int]) -> Acts | None:
    found: list[object] = []
    for act in acts:
        if isinstance(act, Stitch) and act.name in _PLAIN:
            by = next(changes)
            number = state.number_of(act.count, 1) + by
            if by == 0:
                found.append(act)
            elif number < 0:
                return None
            else:
                # a number of none stays in the row, so that rows of one shape stay so
                found.append(replace(act, count=_same(state, number, act.span)))
        elif isinstance(act, WorkFabric) and isinstance(act.over, Count):
            number = state.number_of(act.over) + next(changes)
            if number < 0:
                return None
            found.append(replace(act, over=_same(state, number, act.over.span)))
        elif isinstance(act, Repeat):
            body = _changed(state, act.body, changes)
            if body is None:
                return None
            found.append(replace(act, body=body))
        else:
            found.append(act)
    return tuple(found)  # type: ignore[arg-type]


def _same(state: SizeState, number: int, span: Span) -> Count:
    return Count((number,) * len(state.plan.sizes), span=span)


def _leg(state: SizeState, step: GoOnShaping, leg: Leg, known: _Known, apart: int) -> tuple[_Known, int] | None:
    """Works one stretch; None when it cannot be worked to its end."""
    until = None if leg.until is None else leg.until.until
    wanted = until.stitches.at(state.size) if isinstance(until, UntilStitches) else None
    if isinstance(until, UntilStitches) and wanted is None:
        return known, 0
    rows = None if leg.until is None or isinstance(until, UntilStitches) else rows_of_extent(state, leg.until)
    times = None if leg.times is None else state.number_of(leg.times.count)
    counted = None if not isinstance(until, UntilStitches) else counter_of(state, until.where, until.span)
    if isinstance(until, UntilStitches) and counted is None:
        return None
    counts = [state.piece.needle.stitches if counted is None else counted()]
    total = done = 0
    while total < MOST_ROWS:
        now = counts[-1]
        if wanted is not None and _passed(counts, wanted):
            break
        if (times is not None and done >= times) or (rows is not None and total >= rows):
            break
        shaped = _next_row(state, known, step.span)
        if shaped is None or (len(counts) > 1 and counts[-2] == now):
            break
        group = [*_fillers(state, known, apart, step.span), shaped]
        if rows is not None:
            group = group[: rows - total]
        have = state.piece.needle.stitches
        if not run_rows(state, group, len(group), step.span):
            return None
        counts.append(state.piece.needle.stitches if counted is None else counted())
        total += len(group)
        done += 1
        known = replace(known, row=shaped, since=0 if shaped in group else known.since + len(group))
        if done == 1 and not _mind_change(state, step, state.piece.needle.stitches - have):
            return None
    if wanted is not None and counts[-1] != wanted:
        _never(state, leg, wanted, counts)
        return None
    if times is not None and done < times:
        state.report(
            fault(
                NEVER_ENDS,
                leg.span,
                "{times} times are told; after {done} the sets have no stitches left",
                hint="{done} times",
                times=times,
                done=done,
            )
        )
        state.piece.doubt = True
        return None
    return known, total


def _passed(counts: Sequence[int | None], wanted: int) -> bool:
    """Whether a count has come up, or been passed."""
    first, now = counts[0], counts[-1]
    if now == wanted or first is None or now is None:
        return now == wanted
    return len(counts) > 1 and (now < wanted) != (first < wanted)


def _fillers(state: SizeState, known: _Known, apart: int, span: Span) -> list[RowDef]:
    """The rows up to the next shaping row: those worked between before, or the fabric as it stands."""
    unit = "rnd" if state.piece.form == "round" else "row"
    plain = RowDef(state.shared.acts_of(standing_fabric(state, span)), "row between", unit=unit, span=span)
    return [
        replace(known.between[at], side=None) if at < len(known.between) else plain
        for at in range(known.since, apart - 1)
    ]


def _mind_change(state: SizeState, step: GoOnShaping, change: int) -> bool:
    """ "Cont to dec 8 sts": as many as each shaping row takes."""
    if step.decrease is None:
        return True
    told = None if step.change is None else state.number_of(step.change) * (-1 if step.decrease else 1)
    if (change < 0) == step.decrease and told in (None, change):
        return True
    state.report(
        fault(
            TOTAL_OFF,
            step.span if step.change is None else step.change.span,
            "{told} are told; each shaping row {does} {real} sts",
            hint="{real} sts",
            told=f"{abs(told)} sts" if told is not None else "decreases" if step.decrease else "increases",
            does="takes" if change < 0 else "gives",
            real=abs(change),
        )
    )
    state.piece.doubt = True
    return False


def _never(state: SizeState, leg: Leg, wanted: int, counts: Sequence[int | None]) -> None:
    last = [each for each in counts if each is not None][-3:] or [0]
    state.report(
        fault(
            NEVER_ENDS,
            leg.span,
            "{wanted} sts never come up: the count goes {steps}",
            hint="{last} sts come up" if len(last) > 1 else None,
            wanted=wanted,
            steps=", ".join(str(each) for each in last),
            last=last[-2] if len(last) > 1 else last[-1],
        )
    )
    state.piece.doubt = True
