"""What one row says of another: edges that go on up the piece, shaping at markers, two sides that answer each other.

In: the shapes of all rows of a size, as they are told. Out: a warning for the row that stands alone.

Three ways of seeing it. Edge stitches that every other row has on both sides. Plain stitches beside markers, one on each
side in every row but one. And two sides of a piece that were parted (or two pieces, a left and a right): what stands so
many stitches from the beginning of a row on one of them stands as far from the end on the other.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from castoff.knitting.faults import ENDS_UNLIKE, fault
from castoff.knitting.row_shape import MIRROR, SLIPPED, UPRIGHT, Gap, Post, RowShape, Told, answers_itself, unlike
from castoff.knitting.state import SizeState

_SIDE = re.compile(r"\b(left|right)\b", re.IGNORECASE)


def mind_answers(state: SizeState) -> None:
    """Holds the rows of every piece against each other."""
    for name, piece in state.pieces.items():
        state.piece = piece
        told = [row for row in state.told if row.piece == name]
        whole = [row for row in told if not row.turned]
        _edges(state, whole)
        _markers(state, whole)
        _slipped_edges(state, told)
    _sides(state)


# ------------------------------------------------------------------------------------------------ edges


def _edges(state: SizeState, told: Sequence[Told]) -> None:
    rows = [(row, ends) for row in told if not row.round and (ends := _edge(row.shape)) is not None]
    for section in dict.fromkeys(row.section for row, _ in rows):
        here = [each for each in rows if each[0].section == section]
        # a section of one row has only the others of its piece to go by
        among = here if len(here) > 1 else [each for each in rows if each[0] is here[0][0] or _even(each[1])]
        odd = [each for each in among if not _even(each[1])]
        if len(odd) != 1 or len(among) < 2 or odd[0][0].section != section:
            continue
        row, (first, last) = odd[0]
        even = [ends for _, ends in among if _even(ends)]
        if any(ends[0].count in (first.count, last.count) for ends in even):
            state.report(unlike(row.label, row.span, first, last))


def _even(ends: tuple[Gap, Gap]) -> bool:
    return ends[0].count == ends[1].count


def _edge(shape: RowShape) -> tuple[Gap, Gap] | None:
    """Edge stitches on both sides of "k4, p to last 4 sts, k4", or outside of shaping that answers itself."""
    first, last = shape.gaps[0], shape.gaps[-1]
    one, two = shape.posts[0], shape.posts[-1]
    stretch = len(shape.posts) == 1 and one.kind == "on"
    shaped = one.shapes and two.shapes and answers_itself(shape.posts)
    if not (stretch or shaped) or first.open or last.open or not last.plain or not first.like(last):
        return None
    if stretch and (not one.stitch or one.stitch == last.kind):
        return None
    return first, last


def _slipped_edges(state: SizeState, told: Sequence[Told]) -> None:
    """Rows that begin with a slipped stitch, all but one: its edge has no chain there, or a stitch too many in it."""
    rows = [row for row in told if not row.round and not row.repeated]
    for section in dict.fromkeys(row.section for row in rows):
        here = [row for row in rows if row.section == section]
        odd = [row for row in here if row.slips != 1 and (row.slips or row is not here[0])]
        slipped = sum(row.slips == 1 for row in here)
        if len(odd) != 1 or not odd[0].numbered or slipped < (1 if odd[0].slips == 2 else 2):
            continue
        row = odd[0]
        if not row.slips and not any(_same_but_for_the_slip(row.shape, each.shape) for each in here):
            continue
        state.report(
            fault(
                ENDS_UNLIKE,
                row.span,
                "{label} begins with {slips}, the other rows with sl1",
                hint="`sl 1` at the beginning of every row",
                label=row.label,
                slips=f"sl{row.slips}" if row.slips else "no slipped st",
            )
        )


def _same_but_for_the_slip(row: RowShape, other: RowShape) -> bool:
    """Whether another row slips a stitch and goes on as this one begins."""
    alike = len(row.posts) == len(other.posts) and row.posts[0].kind == other.posts[0].kind
    long = any(post.opens for post in row.posts)
    return alike and long and not row.gaps[0].plain and other.gaps[0].plain == ((SLIPPED, 1),)


# ------------------------------------------------------------------------------------------------ markers


def _markers(state: SizeState, told: Sequence[Told]) -> None:
    rows = [(row, pairs) for row in told if (pairs := list(_about_markers(row)))]
    odd = [each for each in rows if any(one.count != two.count for one, two in each[1])]
    even = [row for row in told if _one_at_every_marker(row)]
    if len(odd) == 1 and any(row.span != odd[0][0].span for row in even):
        row, pairs = odd[0]
        one, two = next(pair for pair in pairs if pair[0].count != pair[1].count)
        if {one.count, two.count} == {0, 1}:
            state.report(unlike(row.label, row.span, one, two))


def _about_markers(row: Told) -> Iterator[tuple[Gap, Gap]]:
    """Plain stitches before and behind each marker that shaping stands about."""
    posts, gaps = row.shape.posts, row.shape.gaps
    for at, post in enumerate(posts):
        if post.kind != "marker":
            continue
        if 0 < at < len(posts) - 1 and _answer(posts[at - 1], posts[at + 1]):
            yield gaps[at], gaps[at + 1]
        elif row.repeated and 0 < at == len(posts) - 1 and not gaps[-1].plain and _answer(posts[at - 1], posts[0]):
            yield gaps[at], gaps[0]


def _one_at_every_marker(row: Told) -> bool:
    """Whether all shaping that stands beside markers stands one stitch away, before markers and behind them."""
    posts, gaps = row.shape.posts, row.shape.gaps
    before = [gaps[at] for at, post in enumerate(posts) if post.kind == "marker" and at and posts[at - 1].shapes]
    behind = [
        gaps[at + 1]
        for at, post in enumerate(posts)
        if post.kind == "marker" and at + 1 < len(posts) and posts[at + 1].shapes
    ]
    if row.repeated and posts[-1].kind == "marker" and posts[0].shapes:
        behind.append(gaps[0])
    return bool(before and behind) and all(gap.count == 1 for gap in (*before, *behind))


def _answer(one: Post, other: Post) -> bool:
    return one.shapes and other.kind == MIRROR[one.kind]


# ------------------------------------------------------------------------------------------------ two sides


@dataclass(frozen=True, slots=True)
class _OneSided:
    """Shaping at one end of a row. begins: at the beginning. stitch: what would stand there at the beginning of a row."""

    row: Told
    begins: bool
    stitch: str
    gap: Gap


def _sides(state: SizeState) -> None:
    found = [each for row in state.told if not row.turned and (each := _one_sided(row)) is not None]
    for one, other in _pairs(found):
        for begins in (True, False):
            for stitch in dict.fromkeys(each.stitch for each in one if each.begins is begins):
                here = [each for each in one if each.begins is begins and each.stitch == stitch]
                there = [each for each in other if each.begins is not begins and each.stitch == stitch]
                _hold_against(state, here, there)
        _mind_ends(state, one, other)


def _mind_ends(state: SizeState, one: Sequence[_OneSided], other: Sequence[_OneSided]) -> None:
    """Sides of one piece that each have one kind of shaping: it stands at opposite ends, and leans opposite ways."""
    kinds = {(each.begins, each.stitch) for each in one}, {(each.begins, each.stitch) for each in other}
    first, second = one[0], other[0]
    if first.row.piece != second.row.piece or len(kinds[0]) != 1 or len(kinds[1]) != 1:
        return
    if any("(WS)" in each.row.label or each.stitch.startswith("p") or each.stitch == "ssp" for each in (*one, *other)):
        return
    if first.begins == second.begins and first.gap.count == second.gap.count:
        # told in the same words; with another number of edge stitches it may be another edge
        message = "{label} shapes the same end of the row as {answered} on the other side"
        hint = "the edge that answers it is at the other end"
    elif first.begins != second.begins and first.stitch != second.stitch:
        message = "{label} leans the other way than {answered} on the other side does"
        hint = "`{stitch}` answers it"
    else:
        return
    state.piece = state.pieces[second.row.piece]
    answer = first.stitch if second.begins else MIRROR[first.stitch]
    state.report(
        fault(
            ENDS_UNLIKE,
            second.row.span,
            message,
            hint=hint,
            related=((first.row.span, "the row that it answers"),),
            label=second.row.label,
            answered=first.row.label,
            stitch=answer,
        )
    )


def _pairs(found: Sequence[_OneSided]) -> Iterator[tuple[list[_OneSided], list[_OneSided]]]:
    """Shaping of two sides of a piece, and of a left and a right piece."""
    groups: dict[tuple[str, int], list[_OneSided]] = {}
    for each in found:
        groups.setdefault((each.row.piece, each.row.part), []).append(each)
    keys = list(groups)
    for at, key in enumerate(keys):
        for other in keys[at + 1 :]:
            if key[0] == other[0] or _other_hand(key[0]) == other[0].lower():
                yield groups[key], groups[other]
                break


def _other_hand(piece: str) -> str:
    swapped = _SIDE.sub(lambda match: "right" if match[1].lower() == "left" else "left", piece)
    return "" if swapped == piece else swapped.lower()


def _one_sided(row: Told) -> _OneSided | None:
    """ "K1, ssk, k to end" and "k to last 3 sts, k2tog, k1"."""
    posts, gaps = row.shape.posts, row.shape.gaps
    if row.round or len(posts) != 2:
        return None
    for at, begins in ((0, True), (1, False)):
        post, stretch = posts[at], posts[1 - at]
        if post.shapes and post.kind not in UPRIGHT and stretch.kind == "on" and stretch.end == begins:
            stitch = post.kind if begins else MIRROR[post.kind]
            return _OneSided(row, begins, stitch, gaps[0] if begins else gaps[-1])
    return None


def _hold_against(state: SizeState, here: Sequence[_OneSided], there: Sequence[_OneSided]) -> None:
    if not here or not there:
        return
    first, second = ({each.gap.count for each in side} for side in (here, there))
    if first == second or first & second or len(first) > 1 or len(second) > 1:
        return
    one, two = here[0], there[0]
    if not one.gap.like(two.gap):
        return
    state.piece = state.pieces[two.row.piece]
    state.report(
        fault(
            ENDS_UNLIKE,
            two.row.span,
            "{label} has {other} at the edge, {answered} on the other side has {one}",
            hint="as many plain sts at the edge on both sides",
            related=((one.row.span, "the row that it answers"),),
            label=two.row.label,
            other=two.gap.words,
            answered=one.row.label,
            one=one.gap.words,
        )
    )
