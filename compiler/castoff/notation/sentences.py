"""A line as a sequence of steps: sentence readers tried in order, totals and marks between them.

In: a cursor. Out: the steps read; the cursor stands at the end of the line, or where reading stopped.
"""

from __future__ import annotations

from collections.abc import Callable

from castoff.notation.actions import read_remark
from castoff.notation.arranging import read_arrange, read_join
from castoff.notation.as_for import read_work_as
from castoff.notation.binding_off import read_worked_off
from castoff.notation.both_sides import read_at_edges, read_both_sides
from castoff.notation.chart_lines import read_told_repeat
from castoff.notation.cords import read_cord
from castoff.notation.cursor import Cursor
from castoff.notation.extents import read_trigger
from castoff.notation.going_on import read_going_on
from castoff.notation.headings import read_heading
from castoff.notation.labels import read_label
from castoff.notation.last_row import read_on_last_row
from castoff.notation.marking import read_mark
from castoff.notation.openings import read_opening
from castoff.notation.phrases import FIRST_WORDS
from castoff.notation.releasing import read_kitchener, read_release
from castoff.notation.rows import read_row, read_row_work
from castoff.notation.section_repeats import read_repeat_sections
from castoff.notation.shoulders import read_shoulders
from castoff.notation.steps_fabric import read_set_fabric, read_work_rows
from castoff.notation.steps_parts import (
    read_bind_off_step,
    read_draw_through,
    read_fasten_off,
    read_finish,
    read_hold_step,
    read_pick_up_row,
    read_resume,
    read_seam,
)
from castoff.notation.steps_rows import read_repeat_rows
from castoff.notation.steps_setup import (
    read_cast_on_step,
    read_change,
    read_place,
    read_stripes,
    read_turn_work,
)
from castoff.notation.steps_shaping import read_shape
from castoff.notation.syntax import CastOnAct, Mark, Meanwhile, Note, PickUpRow, RowStep, Step, UseYarn
from castoff.notation.told_needles import read_told_needles
from castoff.notation.totals import read_total
from castoff.notation.waste_yarn import read_waste_out

_LOOSE = frozenset({"until", "shaping", "removing", "with", "leaving", "ending", "using", "you", "there"})
_BETWEEN = frozenset({".", ":", ",", ";", "and", "then", "-", "now"})


def _read_labelled_join(c: Cursor) -> tuple[Note, PickUpRow] | None:
    """ "Joining round: With RS facing, rejoin yarn, knit across 100 front sts": a row of what has waited, by its name."""
    start = c.at
    label = read_label(c)
    if label is None or label.which != "named" or label.ranges:
        return c.back(start)
    words = c.raw(start, c.at - 1)
    c.take(".")
    row = read_pick_up_row(c)
    return c.back(start) if row is None else (Note(words, span=label.span), row)


Reader = Callable[[Cursor], "Step | tuple[Step, ...] | None"]


_READERS: tuple[Reader, ...] = (
    read_row,
    _read_labelled_join,
    read_heading,
    read_told_repeat,
    read_worked_off,
    read_cord,
    read_release,
    read_kitchener,
    read_opening,
    read_told_needles,
    read_on_last_row,
    read_waste_out,
    read_arrange,
    read_both_sides,
    read_at_edges,
    read_going_on,
    read_repeat_rows,
    read_repeat_sections,
    read_stripes,
    read_work_as,
    read_work_rows,
    read_set_fabric,
    read_resume,
    read_pick_up_row,
    read_cast_on_step,
    read_shape,
    read_bind_off_step,
    read_hold_step,
    read_mark,
    read_place,
    read_join,
    read_shoulders,
    read_seam,
    read_change,
    read_turn_work,
    read_draw_through,
    read_fasten_off,
)


def read_sentences(c: Cursor) -> tuple[Step, ...]:
    """Reads the steps of a line in order."""
    steps: list[Step] = []
    if c.at == 0:
        c.take("note :")
    while not c.done:
        before = c.at
        if steps:
            told = read_told_needles(c)
            if told is not None:
                steps.append(told)
                c.settle()
                continue
            total = read_total(c)
            if total is not None:
                steps.append(total)
                c.settle()
                continue
            while c.here.key in _BETWEEN:
                c.step()
            if c.done:
                break
            remark = read_remark(c)
            if remark is not None:
                steps.append(Note(remark.words, span=remark.span))
                continue
        found = _read_step(c)
        if not found:
            c.back(before)
            return tuple(steps)
        steps.extend(found)
        c.settle()
        if not _boundary(c):
            return tuple(steps)
    return tuple(steps)


def _meanwhile(c: Cursor) -> Meanwhile | None:
    """ "AT THE SAME TIME, when armhole measures 4 cm, …": the rest of the line runs beside what was told before."""
    start = c.at
    if not c.take("at the same times", "at same times", "meanwhile"):
        return None
    while c.here.key in (",", ":", "-", "and", "then"):
        c.step()
    trigger = read_trigger(c)
    while trigger is not None and c.here.key in (",", ":", "-", "then"):
        c.step()
    steps = read_sentences(c)
    if not steps or not c.done:
        return c.back(start)
    return Meanwhile(steps, trigger, span=c.span(start))


def _boundary(c: Cursor) -> bool:
    """Whether a step may end here: at a mark, a joining word, or the end."""
    here = c.here
    if c.lexemes[c.at - 1].key == ":":  # behind a heading
        return True
    return here.kind in ("mark", "end") or here.key in _BETWEEN or here.key in _LOOSE or here.key in FIRST_WORDS


def _read_step(c: Cursor) -> tuple[Step, ...]:
    start = c.at
    if c.here.kind == "mark" and c.here.text[0] in "*†‡" and (c.peek().kind == "end" or c.peek().key == "."):
        mark = c.step().text
        return (Mark(mark, span=c.span(start)),)
    beside = _meanwhile(c)
    if beside is not None:
        return (beside,)
    found: Step | tuple[Step, ...] | None
    cut_short: tuple[tuple[Step, ...], int] | None = None
    for reader in _READERS:
        found = reader(c)
        if found is None or found == ():
            c.back(start)
            continue
        steps = found if isinstance(found, tuple) else (found,)
        if _boundary(c):
            return steps
        # "K to 2 sts" of "K to 2 sts before m": others may read on
        cut_short = cut_short or (steps, c.at)
        c.back(start)
    total = read_total(c)
    if total is not None:
        return (total,)
    remark = read_remark(c)
    if remark is not None:
        return (Note(remark.words, span=remark.span),)
    work = read_row_work(c)
    begun = bool(work) and isinstance(work[0], CastOnAct)  # a sentence of its own, and this one was none
    if work and not begun and not all(isinstance(action, UseYarn) and action.body is None for action in work):
        return (RowStep(None, work, span=c.span(start)),)
    c.back(start)
    finish = read_finish(c)
    if finish is None and cut_short is not None:
        c.at = cut_short[1]
        return cut_short[0]
    return () if finish is None else (finish,)
