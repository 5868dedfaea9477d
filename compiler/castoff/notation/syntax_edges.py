"""Sentences about where stitches begin, wait and end: cast-ons, bind-offs, holders, edges and seams, as nodes.

In: nothing. Out: frozen node types, given on by `syntax.py`.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from castoff.notation.syntax_acts import Action, HoldAct
from castoff.notation.syntax_parts import Count, Side, place
from castoff.span import Span


@dataclass(frozen=True, slots=True)
class CastOn:
    """Begin a piece or a part. onto: new stitches beside the live ones ("cast on 5 sts onto left needle")."""

    count: Count
    method: str | None = None
    yarns: tuple[str, ...] = ()
    needles: str | None = None
    provisional: bool = False
    onto: bool = False
    span: Span = place()


@dataclass(frozen=True, slots=True)
class Release:
    """A provisional cast-on undone: "Unzip provisional cast-on and place 20 sts on spare needle".

    count: its live stitches when the line says how many. aside: they wait on a needle of their own ("a spare needle");
    else they go on the needle in work (`needles`).
    """

    count: Count | None = None
    needles: str | None = None
    aside: bool = False
    span: Span = place()


@dataclass(frozen=True, slots=True)
class OffAct:
    """One act of a bind-off that is told: `stitch` worked so many times; stitches slipped "back" to the left needle,
    passed "over" the one worked last, or cast "on" onto the left needle."""

    act: Literal["work", "back", "over", "on"]
    count: Count
    stitch: str = ""
    span: Span = place()


@dataclass(frozen=True, slots=True)
class WorkedOff:
    """How stitches are bound off, act by act: `lead`, then `body` again and again until `left` are left.

    left: None when all are bound off. plain: each stitch is bound off as it is worked so ("binding off in patt").
    """

    lead: tuple[OffAct, ...]
    body: tuple[OffAct, ...]
    left: Count | None = None
    plain: bool = False
    span: Span = place()


@dataclass(frozen=True, slots=True)
class BindOff:
    """Bind off as a step: all, or the rest.

    beside: stitches decreased meanwhile at each side of every marked stitch ("dec 1 st at each side of marked st").
    as_before: that the rows before did so too. picot: stitches cast on for each point, and bound off for it.
    leaves: stitches that stay on the needle behind all the others ("bind off all but the last st").
    so: how, act by act ("K2, *slip 2 sts back to left needle, k2tog tbl, k1; rep from * …").
    """

    count: Count | None = None
    manner: tuple[str, ...] = ()
    beside: Count | None = None
    as_before: bool = False
    picot: tuple[Count, Count] | None = None
    leaves: Count | None = None
    so: WorkedOff | None = None
    span: Span = place()


@dataclass(frozen=True, slots=True)
class JoinShoulders:
    """Front and back bound off together at both shoulders.

    count: of the front, and as many of the back, at each of them. rest: the stitches between, put aside for the neck.
    """

    count: Count
    rest: HoldAct | None = None
    span: Span = place()


@dataclass(frozen=True, slots=True)
class DrawThrough:
    """Break the yarn and draw it through the stitches that are left; `count` when the line says how many."""

    count: Count | None = None
    span: Span = place()


@dataclass(frozen=True, slots=True)
class FastenOff:
    """Fasten off: the last loop is closed."""

    span: Span = place()


@dataclass(frozen=True, slots=True)
class Hold:
    """Put stitches aside (a step of its own). See HoldAct.

    only: "work on these 20 sts only": the stitches of the act are those that are worked, and the others wait. part: what
    they are for ("for first side of neck"), lower case.
    """

    act: HoldAct
    leave: bool = False
    only: bool = False
    part: str = ""
    span: Span = place()


@dataclass(frozen=True, slots=True)
class Resume:
    """Put held or left stitches back on the needle; `rejoin` when the yarn is joined anew.

    parts: several groups in one line, in order: (count, holder). note: where the yarn is joined ("neck edge").
    first: they are the first of those that wait, and others go on waiting ("return first 10 held sts to needle").
    ends: the two parts are the first and the last of those that wait, and the others go on waiting.
    """

    parts: tuple[tuple[Count | None, str], ...]
    needles: str | None = None
    side: Side | None = None
    rejoin: bool = False
    note: str = ""
    first: bool = False
    ends: bool = False
    span: Span = place()


@dataclass(frozen=True, slots=True)
class PickUpRow:
    """A row made by picking up: all its parts in order (pick up, work held stitches, markers)."""

    parts: tuple[Action, ...]
    side: Side | None = None
    yarns: tuple[str, ...] = ()
    needles: str | None = None
    begin: str = ""
    span: Span = place()


@dataclass(frozen=True, slots=True)
class Seam:
    """Close edges. manner: "sew", "graft", "three-needle", "whip", "mattress" …; edges: the author's words for each."""

    manner: str
    edges: tuple[str, ...]
    span: Span = place()


@dataclass(frozen=True, slots=True)
class Graft:
    """Graft live stitches to live stitches or to an edge; parts as worded ("toe sts", "cast-on edge")."""

    parts: tuple[str, ...]
    counts: tuple[Count, ...] = ()
    manner: str = "kitchener"
    span: Span = place()
