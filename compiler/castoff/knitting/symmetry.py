"""Rows that read the same from both ends but for a number: plain stitches beside shaping, at markers, at the ends.

In: the lines of a section and one size. Out: a warning for a row that is uneven where nothing seems to ask for it, and the
shapes of all its rows, for what one row says of another (`answering.py`).

A round may have a stitch in its middle: "k1, k2tog, k to last 2 sts, ssk" stands evenly about its first stitch, and
"k2tog, k1, sm, ssk" about the stitch before the marker.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from castoff.knitting.row_shape import CENTRED, MIRROR, SLIPPED, Gap, Post, RowShape, Told, answers_itself, unlike
from castoff.knitting.shape_reading import shape_of
from castoff.knitting.state import Acts, SizeState, label_text
from castoff.notation.syntax import (
    InstructionLine,
    Line,
    MarkerAct,
    Remark,
    Repeat,
    Resume,
    RowStep,
    Stitch,
    Times,
    Turn,
    UseYarn,
)
from castoff.span import Span


def mind_symmetry(state: SizeState, lines: Sequence[Line]) -> None:
    """Looks through the rows of a section."""
    for line in lines:
        if not isinstance(line, InstructionLine) or not line.sizes[state.size]:
            continue
        for step in line.steps:
            if isinstance(step, Resume):
                state.parts_told += 1
            elif isinstance(step, RowStep):
                _row(state, step)


def _row(state: SizeState, row: RowStep) -> None:
    label = label_text(row.label, state.size)
    round_ = row.label.unit == "rnd" if row.label is not None else state.piece.form == "round"
    title = "" if state.section is None else state.section.title
    where = (state.piece.name, title, state.parts_told)
    turned = bool(row.work) and isinstance(row.work[-1], Turn)
    shape = shape_of(state, row.work[:-1] if turned else row.work)
    if shape is not None:
        numbered = row.label is not None and row.label.which == "numbers"
        slips = _slipped_first(state, row.work)
        state.told.append(Told(*where, label, row.span, shape, round_, slips=slips, numbered=numbered, turned=turned))
    if shape is not None and not turned:
        _judge(state, label, row.span, shape, _Ends(round_))
    for repeat in row.work:
        if isinstance(repeat, Repeat) and any(isinstance(act, MarkerAct) for act in repeat.body):
            inner = shape_of(state, repeat.body)
            if inner is not None:
                state.told.append(Told(*where, label, row.span, inner, True, repeated=True))
                _judge(state, label, repeat.span, inner, _Ends(True, True, _twice(state, repeat.times)))
        elif isinstance(repeat, Repeat) and repeat.times.kind == "to":
            _motif(state, label, repeat)


def _slipped_first(state: SizeState, acts: Acts) -> int:
    """Stitches that a row slips before it works any."""
    slips = 0
    for act in acts:
        if isinstance(act, Repeat) and not slips:
            return _slipped_first(state, act.body)
        if isinstance(act, Stitch) and act.name == SLIPPED:
            slips += 1 if act.count is None else state.number_of(act.count)
        elif not isinstance(act, (Remark, UseYarn)):
            break
    return slips


def _motif(state: SizeState, label: str, repeat: Repeat) -> None:
    """A repeat of lace about a double decrease: "k1, yo, k4, sk2p, k4, yo" has as many stitches on both sides of it."""
    shape = shape_of(state, repeat.body)
    if shape is None or len(shape.posts) % 2 == 0 or shape.posts[len(shape.posts) // 2].kind not in CENTRED:
        return
    inner = RowShape(shape.posts, (Gap(open=True), *shape.gaps[1:-1], Gap(open=True)))
    _judge(state, label, repeat.span, inner, _Ends(True, True))


@dataclass(frozen=True, slots=True)
class _Ends:
    """What is known of the two ends of a stretch.

    meet: they are one place. repeated: at a marker that parts what is repeated. halves: it is worked twice, once for each
    half of the round.
    """

    meet: bool
    repeated: bool = False
    halves: bool = False


def _twice(state: SizeState, times: Times) -> bool:
    number = state.number_of(times.count)
    return (times.kind == "all" and number == 2) or (times.kind == "more" and number == 1)


def _judge(state: SizeState, label: str, span: Span, shape: RowShape, ends: _Ends) -> None:
    uneven = _at_markers(shape) or _uneven(shape, ends)
    if uneven is not None:
        state.report(unlike(label, span, *uneven))


def _at_markers(shape: RowShape) -> tuple[Gap, Gap] | None:
    """A marker with other plain stitches about it than the other markers of the row, where all else is alike."""
    about = [
        (shape.gaps[at], shape.gaps[at + 1], (shape.posts[at - 1].kind, shape.posts[at + 1].kind))
        for at, post in enumerate(shape.posts)
        if post.kind == "marker" and 0 < at < len(shape.posts) - 1
    ]
    alike = [each for each in about if MIRROR.get(each[2][0]) == each[2][1]]
    even = [each for each in alike if each[0].count == each[1].count]
    odd = [each for each in alike if each[0].count != each[1].count]
    if len(odd) == 1 and even and odd[0][2] == even[0][2] and odd[0][0].like(odd[0][1]):
        return odd[0][0], odd[0][1]
    return None


def _uneven(shape: RowShape, ends: _Ends) -> tuple[Gap, Gap] | None:
    """Two groups of plain stitches that answer each other and are not equally many; None where all do, or none can."""
    posts, gaps = list(shape.posts), list(shape.gaps)
    whole = [True, True]
    for last in (-1, 0):
        while posts and (posts[last].opens or (posts[last].kind == "marker" and len(posts) > 1)):
            taken = posts.pop(last)
            gaps.pop(last)
            whole[last] = False
            gaps[last] = replace(gaps[last], open=gaps[last].open or taken.opens)
    if not answers_itself(posts):
        return None
    axes = {at for at, post in enumerate(posts) if post.kind == "marker" and _axis(posts, gaps, at, ends)}
    half = len(gaps) // 2
    for at in range(half):
        one, two = gaps[at], gaps[-1 - at]
        if at in axes or at - 1 in axes or one.open or two.open or one.count == two.count or not one.like(two):
            continue
        if at == 0 and _middle_stitch(one, two, ends, all(whole)):
            continue
        return one, two
    return None


def _axis(posts: Sequence[Post], gaps: Sequence[Gap], at: int, ends: _Ends) -> bool:
    """A marker beside the stitches that its shaping stands about: "m1r, sm, k1, m1l", "k2tog, sm, k2, ssk"."""
    if not 0 < at < len(posts) - 1 or not (posts[at - 1].shapes and posts[at + 1].shapes):
        return False
    if gaps[at].plain and gaps[at + 1].plain:
        return False
    return not ends.halves or gaps[at].count + gaps[at + 1].count > 1


def _middle_stitch(first: Gap, last: Gap, ends: _Ends, whole: bool) -> bool:
    """Whether the ends may differ because they meet beside the stitches that the shaping stands about: the first of the
    round, or those beside the marker that parts what is repeated. Halves of a round lie over each other, and one stitch
    that only one of them has is a slip."""
    if not ends.meet or (first.plain and last.plain):
        return False
    if ends.repeated:
        return not ends.halves or first.count + last.count > 1
    return whole and bool(first.plain)
