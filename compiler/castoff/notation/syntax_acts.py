"""Acts: what is done within a row, as nodes of instruction lines.

In: nothing. Out: frozen node types and their union `Action`, given on by `syntax.py`.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal, TypeAlias

from castoff.notation.syntax_parts import Count, Fabric, Target, place
from castoff.span import Span

# ------------------------------------------------------------------------------------------------ within a row


@dataclass(frozen=True, slots=True)
class Stitch:
    """A stitch worked so many times in a row: `k5`, `k2tog`, `yo`, `m1l`, `c4f`, `mb`.

    name: canonical lower-case name of the stitch book ("k", "p", "k2tog", "p tbl", "2/2 lc", "yo").
    as_written: the word used ("K", "knit", "yfwd").
    count: how many; None when the word stands alone (one working).
    yarn_held: "front" / "back" for slips and the like, when the line says so.
    manner: "knitwise" / "purlwise" when the line says so.
    of: whose stitches they are when the line says so ("knit the 13 thumb sts": "thumb"), lower case; "marked" and
      "centre" when it is the stitch that is marked, or the middle one; "with the loop" when the loop of the bind-off
      before it is one of them ("k15 (including st used in casting off)").
    """

    name: str
    count: Count | None = None
    as_written: str = field(default="", compare=False)
    yarn_held: Literal["front", "back"] | None = None
    manner: Literal["knitwise", "purlwise"] | None = None
    of: str = ""
    span: Span = place()


@dataclass(frozen=True, slots=True)
class StitchTo:
    """The same stitch as far as a place: `k to end`, `p to last 3 sts`, `sl to marker`."""

    name: str
    target: Target
    yarn_held: Literal["front", "back"] | None = None
    span: Span = place()


@dataclass(frozen=True, slots=True)
class WorkFabric:
    """A fabric over some stitches of the row: `rib to end`, `work in patt to last 2 sts`, `seed stitch over next 7 sts`.

    way: where so many stitches lead ("rib 18 sts to face opening"), lower case.
    """

    fabric: Fabric
    over: Count | Target
    way: str = ""
    span: Span = place()


@dataclass(frozen=True, slots=True)
class Times:
    """How often a repeat is worked.

    kind:
      "all"     N times altogether: `[k2, p2] 5 times`, `twice`
      "more"    N times more after the first: `rep from * 5 more times`
      "ambiguous" `rep from * 5 times`: the trade reads it both ways; the needle takes the reading that fits
      "to"      as far as `target`
    """

    kind: Literal["all", "more", "ambiguous", "to"]
    count: Count | None = None
    target: Target | None = None
    span: Span = place()


@dataclass(frozen=True, slots=True)
class Repeat:
    """Actions worked again and again: `*K2, p2; rep from * to end`, `[k1, yo] 3 times`, `(k2tog) twice`.

    mark: "*", "**", "†" … for starred repeats, "[" or "(" for bracketed ones.
    last: what the last repeat has in place of its last act ("rep from *, ending last rep k1").
    """

    body: tuple[Action, ...]
    times: Times
    mark: str = "*"
    last: tuple[Action, ...] = ()
    span: Span = place()


@dataclass(frozen=True, slots=True)
class IntoOne:
    """Several stitches into the same place: `(k1, yo, k1) in next st`, `(k1, p1) into yo`. Takes 1, or `takes`."""

    body: tuple[Action, ...]
    takes: int = 1
    span: Span = place()


@dataclass(frozen=True, slots=True)
class Cable:
    """A crossing spelled out: `sl 3 to cn and hold at back, k3, k3 from cn`."""

    held: Count
    hold: Literal["front", "back"]
    over: tuple[Action, ...]
    back: tuple[Action, ...]
    span: Span = place()


@dataclass(frozen=True, slots=True)
class MarkerAct:
    """Place, slip or remove a marker at this point; `name` None for the next or an unnamed one.

    act: "replace": taken out of the stitches worked together just before, and put back ("s2kp, removing and replacing m").
    every: "removing markers" and "slipping markers" said once for the whole row.
    along: "bind off 8 sts, removing marker": on the way, wherever it hangs between the stitches of the act before.
    """

    act: Literal["place", "slip", "remove", "replace"]
    name: str | None = None
    every: bool = False
    along: bool = False
    span: Span = place()


@dataclass(frozen=True, slots=True)
class MarkStitch:
    """A marker put in a stitch: it moves up with the stitch, row by row ("1 st from centre of V (mark this st)").

    which: "this" (worked last), "next", "centre" (the middle one), or "counted" from the beginning by `at` ("the 31st").
    behind: the marker goes on the needle behind that stitch ("placing a marker after the 31st st").
    A step as well as an act of a row.
    """

    which: Literal["this", "next", "centre", "counted"]
    at: Count | None = None
    behind: bool = False
    span: Span = place()


@dataclass(frozen=True, slots=True)
class UseYarn:
    """From here on with these yarns ("with A", "k3 in B" gives UseYarn for those stitches, then back).

    joins: the yarn is joined here, in mid-row ("k to m, join B, k to end"); yarns empty for "join yarn".
    """

    yarns: tuple[str, ...]
    body: tuple[Action, ...] | None = None
    joins: bool = False
    span: Span = place()


@dataclass(frozen=True, slots=True)
class BindOffAct:
    """Bind off within a row. `count` None: to the end (see `target`) or all.

    manner: "loosely", "in pattern", "knitwise", "purlwise", "three-needle" …, in the author's order.
    on_right: stitches told to be on the right needle behind it ("1 st on right needle"), the loop among them. None when
      the line does not say whether the loop is a stitch of its own or the first of the next; the needle then takes the
      reading that fits.
    """

    count: Count | None = None
    target: Target | None = None
    manner: tuple[str, ...] = ()
    on_right: Count | None = None
    span: Span = place()


@dataclass(frozen=True, slots=True)
class CastOnAct:
    """Cast on within a row, at its end, or over a gap left by bound-off or held stitches.

    where: "each gap": so many over every gap of the row ("knit, casting on 2 sts over each buttonhole").
    """

    count: Count
    where: Literal["here", "end", "gap", "each gap"] = "here"
    method: str | None = None
    span: Span = place()


@dataclass(frozen=True, slots=True)
class PickUp:
    """Pick up (and knit, or purl) stitches along an edge.

    edge: the author's words for the edge ("left front neck", "side of heel flap"), normalised spaces, lower case.
    ratio: (stitches, rows) when told ("3 sts for every 4 rows").
    each: what each of them is picked up in ("one in each garter ridge").
    knit: False for "pick up" without working them. purl: they are purled ("pick up and purl").
    """

    count: Count | None
    edge: str = ""
    ratio: tuple[int, int] | None = None
    knit: bool = True
    purl: bool = False
    each: Literal["", "ridge", "row", "st"] = ""
    span: Span = place()


@dataclass(frozen=True, slots=True)
class HoldAct:
    """Put stitches aside without working them.

    count: how many of the next ones; None for "rem sts" / "all sts" / "these sts".
    target: alternatively as far as a place.
    holder: the holder's name ("holder", "waste yarn", "left front sts", "spare needle"), lower case.
    worked: "k14 and place these 14 sts on holder": the stitches last worked.
    told: the number is that of all of them: "these" that are on the needle, "rem" that are left of them.
    on: what they wait on ("holder", "waste yarn", "spare needle", "hold"), also where the holder has another name.
    behind: with those just worked the last ones of the round before ("and last 6 sts of previous rnd").
    total: how many that are together, where it is told.
    """

    count: Count | None
    holder: str
    target: Target | None = None
    worked: bool = False
    told: Literal["", "these", "rem"] = ""
    on: str = "holder"
    behind: Count | None = None
    total: Count | None = None
    span: Span = place()


@dataclass(frozen=True, slots=True)
class OnNeedle:
    """What follows in the row goes on a needle of the set: "with N2, knit across 28 instep sts".

    same: it is the one that the stitches before went on ("with same needle (N1)").
    """

    needle: str
    same: bool = False
    span: Span = place()


@dataclass(frozen=True, slots=True)
class FromNeedle:
    """Stitches of one needle worked onto the one before it: "knit first 8 sts from N1 onto N3", "knit across N1 with N3".

    count: None for all of them.
    """

    stitch: Literal["k", "p"]
    count: Count | None
    source: str
    onto: str
    span: Span = place()


@dataclass(frozen=True, slots=True)
class OpeningAct:
    """Stitches knitted in waste yarn, and again in the yarn in work: where an opening is to be (a thumb, a heel)."""

    count: Count
    span: Span = place()


@dataclass(frozen=True, slots=True)
class WorkHeld:
    """Work across held stitches as they lie ("k28 from back neck holder", "knit across 14 sts from holder").

    which: a part of them, "the last 6 sts from the front holder"; "rem" when the number is all that are left of them.
    """

    holder: str | None
    count: Count | None
    body: tuple[Action, ...]
    which: Literal["", "first", "last", "rem"] = ""
    span: Span = place()


@dataclass(frozen=True, slots=True)
class SlipHeld:
    """The first of the stitches that wait slipped to the right needle: the row ends with them ("slip first 7 sts from
    underarm thread on to right needle"). holder: as in `WorkHeld`."""

    count: Count
    holder: str
    span: Span = place()


@dataclass(frozen=True, slots=True)
class Turn:
    """End the row here and turn.

    method: "plain"; "wrap" (the next stitch is wrapped); "german" (the stitch worked last is pulled up to a double stitch);
    "yarn-over" (the next row begins with one, which is worked together with the stitch behind it later); "pin" (a pin marks
    where the yarn turned, and a loop of it is pulled up there later).
    """

    method: Literal["plain", "wrap", "german", "yarn-over", "pin"] = "plain"
    span: Span = place()


@dataclass(frozen=True, slots=True)
class PickUpWrap:
    """Work stitches together with what a turn has left at them: their wraps, a double stitch's two legs, a yarn-over.

    stitch: "k", "p", or "work" (as the fabric stands). count: how many of the next stitches; None for one.
    come: all that the row meets, wherever they stand ("picking up wraps"); count is None then. what: what it is.
    both: two wraps at each.
    """

    stitch: Literal["k", "p", "work"] = "work"
    count: Count | None = None
    come: bool = False
    both: bool = False
    what: Literal["wrap", "ds", "yo", "loop"] = "wrap"
    span: Span = place()


@dataclass(frozen=True, slots=True)
class Drop:
    """Let loops or stitches fall: "dropping extra wraps", "drop 2 yo's", "dropping 2 of each 3 yos" (`of` is 3)."""

    count: Count | None = None
    of: Count | None = None
    span: Span = place()


@dataclass(frozen=True, slots=True)
class Join:
    """Work the next stitches of a second needle, piece or holder into the same row ("knit across sts of second leg").

    stitch: "k" or "p"; "" when they are worked as they lie ("rib across sts of second leg").
    """

    other: str
    stitch: Literal["k", "p", ""] = "k"
    span: Span = place()


@dataclass(frozen=True, slots=True)
class Evenly:
    """Increase or decrease so many stitches evenly across the row, or across the stitches to a place.

    change: how many are made or lost. made: how many there are to be instead ("inc evenly to 80 sts"); one of the two
    is told. stitch: the stitch named for it, if any.
    """

    change: Count | None
    decrease: bool
    stitch: str | None = None
    fabric: Fabric | None = None
    target: Target | None = None
    made: Count | None = None
    span: Span = place()


@dataclass(frozen=True, slots=True)
class EndShaping:
    """Increase or decrease at the ends of one row, the rest in pattern ("dec 1 st at each end", "at neck edge").

    ends: "each" | "beginning" | "end" | an edge's name ("neck edge", "each neck edge") | "each side of marked st".
    """

    stitches: Count
    decrease: bool
    ends: str
    fabric: Fabric | None = None
    span: Span = place()


@dataclass(frozen=True, slots=True)
class Remark:
    """Words that change nothing on the needle; one of the listed set phrases, kept as typed (lower case)."""

    words: str
    span: Span = place()


Action: TypeAlias = (
    Stitch
    | StitchTo
    | WorkFabric
    | Repeat
    | IntoOne
    | Cable
    | MarkerAct
    | MarkStitch
    | UseYarn
    | BindOffAct
    | CastOnAct
    | PickUp
    | HoldAct
    | OpeningAct
    | OnNeedle
    | FromNeedle
    | WorkHeld
    | SlipHeld
    | Turn
    | PickUpWrap
    | Drop
    | Join
    | Evenly
    | EndShaping
    | Remark
)
