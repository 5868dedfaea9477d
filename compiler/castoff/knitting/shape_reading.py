"""Reads the shape of a row from what it tells.

In: the acts of a row, in one size. Out: `RowShape`, or None for a row that says nothing of its own. Nothing is knitted
here: "k1, ssk, k to last 3 sts, k2tog, k2" is uneven though its total is right.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from castoff.knitting.row_shape import SLIPPED, Gap, Post, RowShape
from castoff.knitting.state import Acts, SizeState
from castoff.notation.syntax import (
    CastOnAct,
    MarkerAct,
    Remark,
    Repeat,
    Stitch,
    StitchTo,
    ToDivision,
    ToEnd,
    UseYarn,
    WorkFabric,
)
from castoff.span import Span

_ONE_NAME = {"skp": "ssk", "skpo": "ssk", "k2tog tbl": "ssk", "p2tog tbl": "ssp", "k3tog tbl": "sssk", "yfwd": "yo"}
_PLAIN = ("k", "p", SLIPPED)


def shape_of(state: SizeState, acts: Acts) -> RowShape | None:
    """The shape of a row, or of what a repeat holds; None when there is nothing but plain stitches in it."""
    posts: list[Post] = []
    gaps: list[list[tuple[str, int]]] = [[]]
    spans: list[Span | None] = [None]
    needle: tuple[str, int] | None = None
    """The needle of a set in work, and stitches still to come on it behind its stretch."""

    def post(kind: str, span: Span, stitch: str = "", *, end: bool = False) -> None:
        posts.append(Post(kind, span, stitch, end))
        gaps.append([])
        spans.append(None)

    def taken(count: int, span: Span) -> None:
        nonlocal needle
        if needle is not None:
            needle = needle[0], needle[1] - count
            if needle[1] <= 0:
                post("marker", span)
                needle = None

    work = [act for act in acts if not isinstance(act, (Remark, UseYarn))]
    while work and isinstance(work[-1], CastOnAct):
        work.pop()
    if any(isinstance(act, UseYarn) and act.body is not None for act in acts):
        return None
    for act in work:
        if isinstance(act, Stitch) and act.name in _PLAIN and not act.of:
            count = 1 if act.count is None else state.number_of(act.count)
            if count:
                if gaps[-1] and gaps[-1][-1][0] == act.name:
                    gaps[-1][-1] = act.name, gaps[-1][-1][1] + count
                else:
                    gaps[-1].append((act.name, count))
                spans[-1] = spans[-1] or act.span
                taken(count, act.span)
        elif isinstance(act, Stitch):
            name = _ONE_NAME.get(act.name, act.name)
            count = 1 if act.count is None else state.number_of(act.count)
            if count:
                post(name if count == 1 else f"{name} x{count}", act.span)
                known = state.plan.stitch(act.name)
                taken(count * (known.takes if known is not None and known.takes is not None else 0), act.span)
        elif isinstance(act, MarkerAct):
            post("marker", act.span)
        elif isinstance(act, StitchTo):
            post("on", act.span, act.name, end=isinstance(act.target, ToEnd))
            if isinstance(act.target, ToDivision):
                left = state.number_of(act.target.before)
                needle = act.target.name, left
                taken(0, act.span)
        elif isinstance(act, WorkFabric):
            post("on", act.span, end=isinstance(act.over, ToEnd))
        elif isinstance(act, Repeat):
            post("repeat", act.span)
        else:
            return None
    if not posts:
        return None
    return RowShape(tuple(posts), _gaps(posts, gaps, spans))


def _gaps(
    posts: Sequence[Post], plain: Sequence[Sequence[tuple[str, int]]], spans: Sequence[Span | None]
) -> tuple[Gap, ...]:
    gaps: list[Gap] = []
    for at, each in enumerate(plain):
        # nothing at all stands where the post beside it does
        beside = posts[at] if at < len(posts) else posts[-1]
        gap = Gap(tuple(each), spans[at] or beside.span)
        neighbours = [*posts[max(at - 1, 0) : at], *posts[at : at + 1]]
        if any(_takes_up(post, gap) for post in neighbours):
            gap = replace(gap, open=True)
        gaps.append(gap)
    return tuple(gaps)


def _takes_up(post: Post, gap: Gap) -> bool:
    """Whether a stretch beside plain stitches is of their own stitch, or of none that can be told."""
    if post.kind == "repeat":
        return True
    return post.kind == "on" and (not post.stitch or (bool(gap.plain) and gap.kind in ("", post.stitch)))
