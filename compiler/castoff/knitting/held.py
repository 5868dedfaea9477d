"""Stitches that wait on holders, and how a line finds them.

In: the groups that wait and the words of a line. Out: which group is meant.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from castoff.knitting.faults import NOT_HELD, fault
from castoff.knitting.loops import Group
from castoff.knitting.row import RowWork
from castoff.notation.syntax import Count, Join
from castoff.span import Span

_WORD = re.compile(r"[a-z0-9]+")
_EMPTY_WORDS = frozenset(
    [
        "the",
        "of",
        "on",
        "to",
        "a",
        "an",
        "and",
        "sts",
        "st",
        "stitches",
        "stitch",
        "held",
        "from",
        "holder",
        "holders",
        "waste",
        "yarn",
        "hold",
        "rem",
        "remaining",
        "other",
        "needle",
        "spare",
        "needles",
        "left-over",
        "these",
        "scrap",
        "live",
        "onto",
        "back",
    ]
)


_OPPOSITES = (("left", "right"), ("front", "back"), ("first", "second"))


def _contradicts(wanted: str, there: str) -> bool:
    """Whether a line speaks of the right side and the holder has the left."""
    one, two = set(_WORD.findall(wanted.lower())), set(_WORD.findall(there.lower()))
    return any(
        (first in one and second in two) or (second in one and first in two)
        for first, second in _OPPOSITES
        if not {first, second} <= one and not {first, second} <= two
    )


def find_group(
    groups: Sequence[Group], name: str | None, count: int | None, used: Sequence[int] = (), *, named: bool = False
) -> int | None:
    """Which waiting group a line means: by the words of its holder, then by its number of stitches, then the last.

    used: indices that have been taken already. named: its words must be among those of the group, where it has any.
    """
    free = [at for at in range(len(groups)) if at not in used and not _contradicts(name or "", groups[at].name)]
    if named and telling(name or ""):
        asked = telling(name or "")
        free = [
            at
            for at in free
            if asked & (telling(groups[at].name) | telling(groups[at].piece)) or not telling(groups[at].name)
        ]
    if not free:
        return None
    wanted = telling(name or "")

    def score(at: int) -> tuple[int, int, int, int]:
        group = groups[at]
        shared = 2 * len(wanted & telling(group.name)) + len(wanted & telling(group.piece))
        same_name = int((name or "").lower() == group.name and bool(name))
        return shared, int(count is not None and group.stitches == count), same_name, at

    return max(free, key=score)


def telling(name: str) -> frozenset[str]:
    """The words of a holder's name that tell which one it is, without "sts", "holder", "waste yarn"."""
    words = frozenset(_WORD.findall(name.lower()))
    return (words - _EMPTY_WORDS) or frozenset()


_SIDES = frozenset(side for pair in _OPPOSITES for side in pair)


def without_twins(holders: Sequence[Group], taken: Sequence[Group], piece: str, make: int) -> list[Group]:
    """What still waits when a piece that is made several times has taken up stitches: each one takes as many of its own.

    taken: what the words took, for the first one. A twin was held by the same piece, in the same number, under the same
    words but for left and right.
    """
    left = list(holders)
    parted: dict[tuple[str, Span | None], int] = {}
    for group in taken:
        parted[group.name, group.span] = parted.get((group.name, group.span), 0) + group.stitches
    for group in taken:
        whole = parted.pop((group.name, group.span), 0)  # a group may have been taken in parts
        if group.piece == piece or not whole:
            continue
        kind = telling(group.name) - _SIDES
        twins = [
            each
            for each in left
            if each.piece == group.piece and each.stitches == whole and telling(each.name) - _SIDES == kind
        ]
        for twin in twins[: make - 1]:
            left = [each for each in left if each is not twin]
    return left


def copies_for(group: Group, made: int, piece: str, make: int) -> int:
    """How often a group is there for a piece: as often as the piece that it comes from is made for each of it.

    made: how often the piece that it comes from is made. piece, make: the one that takes it.
    """
    return 1 if group.piece == piece else max(1, (made - group.used) // make)


def _used_up(row: RowWork) -> list[int]:
    """Indices of the groups that the row has taken as often as they are there."""
    copies = row.setting.copies
    return [at for at in row.taken if row.taken.count(at) >= (copies[at] if at < len(copies) else 1)]


def take_held(row: RowWork, holder: str | None, count: Count | None, span: Span) -> str | None:
    """Faces of a waiting group that the row works across, as they lie; None when it is not there or not so many."""
    number = None if count is None else count.at(row.size) or 0
    if number == 0:
        return ""
    groups = row.setting.holders
    at = find_group(groups, holder, number, _used_up(row))
    if at is None:
        row.fail(fault(NOT_HELD, span, "no stitches wait{named}", named=f" on {holder}" if holder else ""))
        return None
    group = groups[at]
    if number is not None and number != group.stitches:
        row.fail(
            fault(
                NOT_HELD,
                span,
                "{number} held sts are to be worked; {have} are held",
                number=number,
                have=group.stitches,
                hint="{have} sts",
                related=((group.span, "{have} sts were put aside here"),) if group.span else (),
            )
        )
        return None
    row.taken.append(at)
    row.event("resume", group.stitches, group.name, span)
    return group.needle.faces


def lie_in_work(row: RowWork, action: Join) -> bool:
    """Whether the words name the very piece on the needle: "knit across all right front sts, then the held ones"."""
    asked = telling(action.other)
    return bool(asked) and asked <= telling(row.setting.piece) and row.pos < row.end


def work_joined(row: RowWork, action: Join) -> str | None:
    """Faces of a second piece or holder that is worked into the row."""
    at = find_group(row.setting.holders, action.other, None, _used_up(row), named=True)
    if at is None:
        row.fail(fault(NOT_HELD, action.span, "no stitches of {other} wait to be joined", other=action.other))
        return None
    group = row.setting.holders[at]
    row.taken.append(at)
    row.count_stitch(action.stitch or "k", group.stitches)
    row.event("resume", group.stitches, group.name or action.other, action.span)
    if not action.stitch:
        return group.needle.faces
    return row.face("purl" if action.stitch == "p" else "knit") * group.stitches
