"""The syntax tree of instruction lines: what a knitter is told to do, before anybody knits it.

In: nothing. Out: frozen node types, made by the parser and read by the needle and by the document.

Numbers in the tree are already evaluated, one per size (`Count`, `Length`), so that the needle needs no formulas.
Every node has a `span`; spans play no part in comparison, so two trees are equal when they say the same thing.
Words that change nothing on the needle ("being careful not to twist") are kept as `Remark`, never dropped.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction
from typing import Literal, TypeAlias

from castoff.span import Span, Text

Side = Literal["RS", "WS"]
Form = Literal["flat", "round"]


def _place() -> Span:
    return field(compare=False, repr=False, kw_only=True)  # type: ignore[no-any-return]


# ------------------------------------------------------------------------------------------------ numbers


@dataclass(frozen=True, slots=True)
class Count:
    """A whole number per size: stitches, rows, times. None where the size skips.

    formula: the text between braces when it was computed, None when it was typed.
    """

    values: tuple[int | None, ...]
    formula: str | None = field(default=None, compare=False)
    span: Span = _place()

    def at(self, size: int) -> int | None:
        """The number of one size."""
        return self.values[size]


@dataclass(frozen=True, slots=True)
class Length:
    """A length per size in exact millimetres, as meant by its first unit.

    twin: the same length as typed a second time in the other system (millimetres), for the rule that compares them.
    unit: standard symbol of the first unit; "" when computed.
    """

    millimetres: tuple[Fraction | None, ...]
    unit: str = ""
    twin: tuple[Fraction | None, ...] | None = None
    twin_unit: str = ""
    formula: str | None = field(default=None, compare=False)
    span: Span = _place()

    def at(self, size: int) -> Fraction | None:
        """The length of one size in millimetres."""
        return self.millimetres[size]


# ------------------------------------------------------------------------------------------------ where


@dataclass(frozen=True, slots=True)
class ToEnd:
    """To the end of the row, round, or needle division; `around` when so worded."""

    around: bool = False
    span: Span = _place()


@dataclass(frozen=True, slots=True)
class ToLast:
    """To the last N stitches."""

    stitches: Count
    span: Span = _place()


@dataclass(frozen=True, slots=True)
class ToMarker:
    """To a marker, or to `before` stitches before it, or `after` stitches past it.

    marker: its name ("m", "A", "beg of rnd", "side"); None for the next one.
    """

    marker: str | None = None
    before: Count | None = None
    after: Count | None = None
    span: Span = _place()


@dataclass(frozen=True, slots=True)
class ToTurn:
    """To where an earlier short row turned, or to a stitch that its turn has marked: the next one that the row meets.

    to: "turn" (the turn or gap itself), "wrapped" and "double-wrapped" stitch, "ds" (double stitch), "yo" of a turn.
    before, after: so many stitches before or past it.
    """

    to: Literal["turn", "wrapped", "double-wrapped", "ds", "yo"] = "turn"
    before: Count | None = None
    after: Count | None = None
    span: Span = _place()


@dataclass(frozen=True, slots=True)
class ToWorked:
    """Until so many stitches are on the right needle ("until there are N sts on right needle").

    behind: counted from the last bind-off of the row on ("… on right needle after bind-off"), its loop among them.
    """

    stitches: Count
    behind: bool = False
    span: Span = _place()


@dataclass(frozen=True, slots=True)
class ToDivision:
    """To the end of a needle of a set, of a group of held stitches or of a named part ("across needle 1").

    name: "each needle" when what is worked up to there is worked on every needle.
    """

    name: str
    before: Count | None = None
    span: Span = _place()


@dataclass(frozen=True, slots=True)
class ToStitch:
    """Up to a marked stitch, or the centre one, or to `before` stitches before it, or `after` stitches past it.

    name: "marked" or "centre": the middle of the row where none is marked.
    """

    name: Literal["marked", "centre"] = "marked"
    before: Count | None = None
    after: Count | None = None
    span: Span = _place()


Target: TypeAlias = ToEnd | ToLast | ToMarker | ToTurn | ToWorked | ToDivision | ToStitch


# ------------------------------------------------------------------------------------------------ fabrics


@dataclass(frozen=True, slots=True)
class Fabric:
    """A way of working that says for every stitch and row what to do.

    kind:
      "named"    a stitch pattern of the source or of the trade ("stockinette", "garter", "seed stitch"): see `name`
      "rib"      `rib` holds the knit and purl columns in order from the edge, e.g. ((“k”, 2), (“p”, 2))
      "set"      as set, as established, in pattern, in rib as set: each stitch as the fabric below asks, and every chart
                 with the row that is due; with the name "this manner" the rows as they were told, shaping and all; with
                 the name "chart" the chart that is in work there
      "faces"    knit the knits and purl the purls, as they present themselves
      "knit" / "purl"   every stitch of every row knit, or purl ("knit 6 rows": garter when flat)
    start: the first row as the author words it ("beginning with a purl row"): "k", "p", "RS", "WS", both ("p WS"), or a
      row number of the named pattern; "set" when it goes on as set below ("in k2, p2 rib as est"); None when nothing is
      said.
    twisted: twisted rib.
    row: a single row of the named pattern ("work row 3 of chart A"), None for the one that is due, or for the whole.
    repeat: the stitches of its repeat as told ("work 8-st rep of chart A around").
    border: stitches at either end that are worked otherwise ("keeping first and last 5 sts in garter st").
    """

    kind: Literal["named", "rib", "set", "faces", "knit", "purl"]
    name: str = ""
    rib: tuple[tuple[str, int], ...] = ()
    twisted: bool = False
    start: str | None = None
    row: Count | None = None
    repeat: Count | None = None
    border: Border | None = None
    span: Span = _place()


@dataclass(frozen=True, slots=True)
class Border:
    """So many stitches at either end of a row, and what they are worked in."""

    stitches: Count
    fabric: Fabric
    span: Span = _place()


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
    span: Span = _place()


@dataclass(frozen=True, slots=True)
class StitchTo:
    """The same stitch as far as a place: `k to end`, `p to last 3 sts`, `sl to marker`."""

    name: str
    target: Target
    yarn_held: Literal["front", "back"] | None = None
    span: Span = _place()


@dataclass(frozen=True, slots=True)
class WorkFabric:
    """A fabric over some stitches of the row: `rib to end`, `work in patt to last 2 sts`, `seed stitch over next 7 sts`.

    way: where so many stitches lead ("rib 18 sts to face opening"), lower case.
    """

    fabric: Fabric
    over: Count | Target
    way: str = ""
    span: Span = _place()


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
    span: Span = _place()


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
    span: Span = _place()


@dataclass(frozen=True, slots=True)
class IntoOne:
    """Several stitches into the same place: `(k1, yo, k1) in next st`, `(k1, p1) into yo`. Takes 1, or `takes`."""

    body: tuple[Action, ...]
    takes: int = 1
    span: Span = _place()


@dataclass(frozen=True, slots=True)
class Cable:
    """A crossing spelled out: `sl 3 to cn and hold at back, k3, k3 from cn`."""

    held: Count
    hold: Literal["front", "back"]
    over: tuple[Action, ...]
    back: tuple[Action, ...]
    span: Span = _place()


@dataclass(frozen=True, slots=True)
class MarkerAct:
    """Place, slip or remove a marker at this point; `name` None for the next or an unnamed one.

    act: "replace": taken out of the stitches worked together just before, and put back ("s2kp, removing and replacing m").
    every: "removing markers" and "slipping markers" said once for the whole row.
    """

    act: Literal["place", "slip", "remove", "replace"]
    name: str | None = None
    every: bool = False
    span: Span = _place()


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
    span: Span = _place()


@dataclass(frozen=True, slots=True)
class UseYarn:
    """From here on with these yarns ("with A", "k3 in B" gives UseYarn for those stitches, then back).

    joins: the yarn is joined here, in mid-row ("k to m, join B, k to end"); yarns empty for "join yarn".
    """

    yarns: tuple[str, ...]
    body: tuple[Action, ...] | None = None
    joins: bool = False
    span: Span = _place()


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
    span: Span = _place()


@dataclass(frozen=True, slots=True)
class CastOnAct:
    """Cast on within a row, at its end, or over a gap left by bound-off or held stitches.

    where: "each gap": so many over every gap of the row ("knit, casting on 2 sts over each buttonhole").
    """

    count: Count
    where: Literal["here", "end", "gap", "each gap"] = "here"
    method: str | None = None
    span: Span = _place()


@dataclass(frozen=True, slots=True)
class PickUp:
    """Pick up (and knit, or purl) stitches along an edge.

    edge: the author's words for the edge ("left front neck", "side of heel flap"), normalised spaces, lower case.
    ratio: (stitches, rows) when told ("3 sts for every 4 rows").
    knit: False for "pick up" without working them. purl: they are purled ("pick up and purl").
    """

    count: Count | None
    edge: str = ""
    ratio: tuple[int, int] | None = None
    knit: bool = True
    purl: bool = False
    span: Span = _place()


@dataclass(frozen=True, slots=True)
class HoldAct:
    """Put stitches aside without working them.

    count: how many of the next ones; None for "rem sts" / "all sts" / "these sts".
    target: alternatively as far as a place.
    holder: the holder's name ("holder", "waste yarn", "left front sts", "spare needle"), lower case.
    worked: "k14 and place these 14 sts on holder": the stitches last worked.
    told: the number is that of all of them: "these" that are on the needle, "rem" that are left of them.
    on: what they wait on ("holder", "waste yarn", "spare needle", "hold"), also where the holder has another name.
    """

    count: Count | None
    holder: str
    target: Target | None = None
    worked: bool = False
    told: Literal["", "these", "rem"] = ""
    on: str = "holder"
    span: Span = _place()


@dataclass(frozen=True, slots=True)
class OpeningAct:
    """Stitches knitted in waste yarn, and again in the yarn in work: where an opening is to be (a thumb, a heel)."""

    count: Count
    span: Span = _place()


@dataclass(frozen=True, slots=True)
class WorkHeld:
    """Work across held stitches as they lie ("k28 from back neck holder", "knit across 14 sts from holder")."""

    holder: str | None
    count: Count | None
    body: tuple[Action, ...]
    span: Span = _place()


@dataclass(frozen=True, slots=True)
class Turn:
    """End the row here and turn.

    method: "plain"; "wrap" (the next stitch is wrapped); "german" (the stitch worked last is pulled up to a double stitch);
    "yarn-over" (the next row begins with one, which is worked together with the stitch behind it later).
    """

    method: Literal["plain", "wrap", "german", "yarn-over"] = "plain"
    span: Span = _place()


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
    what: Literal["wrap", "ds", "yo"] = "wrap"
    span: Span = _place()


@dataclass(frozen=True, slots=True)
class Drop:
    """Let loops or stitches fall: "dropping extra wraps", "drop 2 yo's", "dropping 2 of each 3 yos" (`of` is 3)."""

    count: Count | None = None
    of: Count | None = None
    span: Span = _place()


@dataclass(frozen=True, slots=True)
class Join:
    """Work the next stitches of a second needle, piece or holder into the same row ("knit across sts of second leg")."""

    other: str
    span: Span = _place()


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
    span: Span = _place()


@dataclass(frozen=True, slots=True)
class EndShaping:
    """Increase or decrease at the ends of one row, the rest in pattern ("dec 1 st at each end", "at neck edge").

    ends: "each" | "beginning" | "end" | an edge's name ("neck edge", "each neck edge") | "each side of marked st".
    """

    stitches: Count
    decrease: bool
    ends: str
    fabric: Fabric | None = None
    span: Span = _place()


@dataclass(frozen=True, slots=True)
class Remark:
    """Words that change nothing on the needle; one of the listed set phrases, kept as typed (lower case)."""

    words: str
    span: Span = _place()


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
    | WorkHeld
    | Turn
    | PickUpWrap
    | Drop
    | Join
    | Evenly
    | EndShaping
    | Remark
)


# ------------------------------------------------------------------------------------------------ how far


@dataclass(frozen=True, slots=True)
class Landmark:
    """A point of the fabric that lengths and rows are counted from.

    kind: "cast-on", "beginning" (of the piece), "section", "marker", "bind-off", "picked-up", "division", "join",
      "underarm", "heel", "brim" … lower case; `words` as typed.
    """

    kind: str
    words: str = field(default="", compare=False)
    span: Span = _place()


@dataclass(frozen=True, slots=True)
class ForRows:
    """So many rows or rounds."""

    rows: Count
    span: Span = _place()


@dataclass(frozen=True, slots=True)
class UntilLength:
    """Until something measures so much.

    what: "piece", or the author's word ("cap", "armhole", "rib", "foot", "sleeve"), lower case.
    origin: measured from; None when not said (then from the start of `what`).
    short_of: "or L less than desired length": another way to tell the same place, for a knitter who measures her own;
      None. Where it is all that is told ("until foot measures 4 cm less than desired length") it equals the length.
    """

    length: Length
    what: str = "piece"
    origin: Landmark | None = None
    short_of: Length | None = None
    span: Span = _place()


@dataclass(frozen=True, slots=True)
class ForLength:
    """For so much more length: "for 5 cm", "for another 2 in"."""

    length: Length
    more: bool = False
    span: Span = _place()


@dataclass(frozen=True, slots=True)
class UntilStitches:
    """Until so many stitches are left, or are on the needle; `where` names a part ("each side", "needle 1")."""

    stitches: Count
    where: str = ""
    span: Span = _place()


@dataclass(frozen=True, slots=True)
class UntilMatch:
    """Until the piece matches another: "same length as Back to shoulder shaping", "as for back to armhole".

    what: what is measured here, lower case. short_of: "22 rows shorter than Back …".
    """

    piece: str
    to: str = ""
    what: str = "piece"
    short_of: Count | None = None
    span: Span = _place()


@dataclass(frozen=True, slots=True)
class UntilTimes:
    """Until something has been done so often: "until 5 buttonholes have been worked"."""

    what: str
    count: Count
    span: Span = _place()


@dataclass(frozen=True, slots=True)
class UntilWorked:
    """Until all stitches of a part have been worked: "until all heel sts have been worked" (part "heel")."""

    part: str = ""
    span: Span = _place()


@dataclass(frozen=True, slots=True)
class UntilRow:
    """Until a row of a chart has been worked: "through row 24 of chart A", "until chart is complete".

    chart: its name; "" for the one in work. row: None for the last. all: "until all 24 rows have been worked".
    """

    chart: str = ""
    row: Count | None = None
    all: bool = False
    span: Span = _place()


Until: TypeAlias = ForRows | UntilLength | ForLength | UntilStitches | UntilMatch | UntilTimes | UntilWorked | UntilRow


@dataclass(frozen=True, slots=True)
class Extent:
    """How far to go on. `ending` is the row it must end with: a side, or a row number of the pattern in work.

    ending_chart: the chart whose row `ending_row` is, when the line names it ("ending with row 4 of chart A").
    """

    until: Until
    ending: Side | None = None
    ending_row: Count | None = None
    ending_chart: str = ""
    span: Span = _place()


# ------------------------------------------------------------------------------------------------ labels and totals


@dataclass(frozen=True, slots=True)
class RowRef:
    """Rows spoken of: numbers and ranges, "last 2", "these 4", or a named row ("dec row").

    kind: "numbers" (`ranges` of first, last), "last", "these", "named".
    name: of a named row; with "numbers" the stitch pattern whose rows they are ("rows 1–8 of ripple lace"), else "".
    """

    kind: Literal["numbers", "last", "these", "named"]
    ranges: tuple[tuple[Count, Count], ...] = ()
    count: Count | None = None
    name: str = ""
    span: Span = _place()


@dataclass(frozen=True, slots=True)
class Label:
    """What stands before the colon.

    unit: "row" or "rnd". which: "numbers", "next" ("Next row"), "named" ("Dec row"), "set-up", "first", "last".
    ranges: numbers of the rows (first, last).
    every: "every": "Row 1 and every following RS row" (`every_side`), `every_step` for "every other row".
    side: RS or WS when printed. name: "dec", "inc", "eyelet" … lower case, also for "Next row (dec)".
    yarn: the yarn that the row is worked in, told in the label ("Rnd 3 (B):"); "" when not told.
    """

    unit: Literal["row", "rnd"]
    which: Literal["numbers", "next", "named", "set-up", "first", "last", "all"]
    ranges: tuple[tuple[Count, Count], ...] = ()
    side: Side | None = None
    name: str = ""
    every_side: Side | None = None
    every_step: Count | None = None
    yarn: str = ""
    span: Span = _place()


@dataclass(frozen=True, slots=True)
class Stated:
    """A total the author prints.

    stitches: how many; part: "" for the whole needle, else the author's words ("instep", "each side", "between
    markers", "for Back"); each: the number holds for each of several.
    change: True for "6 sts increased" / "decreased" (then `stitches` is the difference, signed).
    first_only: True unless the line says that it holds every time (a repeated row).
    """

    stitches: Count
    part: str = ""
    each: bool = False
    change: bool = False
    span: Span = _place()


# ------------------------------------------------------------------------------------------------ steps


@dataclass(frozen=True, slots=True)
class RowStep:
    """One row or round, or several alike: the label's rows are all worked so."""

    label: Label | None
    work: tuple[Action, ...]
    span: Span = _place()


@dataclass(frozen=True, slots=True)
class RowsAs:
    """Rows worked like others: "Row 5: As row 1", "Rows 5–8: Rep rows 1–4", "Rnd 2 and all even rnds: Knit" is a RowStep.

    times: "Rows 5–8: Rep rows 3 and 4 twice".
    """

    label: Label
    rows: RowRef
    times: Times | None = None
    span: Span = _place()


@dataclass(frozen=True, slots=True)
class RepeatRows:
    """Rows worked again.

    times: Times of kind "all", "more" or "ambiguous"; None when `extent` says how far.
    every: "rep dec row every 4th row": the step between; the rows between are worked in the fabric as it stands.
    every_side: the step counts rows of that side alone: "every RS row" (every is None), "every other RS row" (2).
    then: further rates: "…, then every 6th row 3 times" as (every, times), in rows of both sides.
    start: "beginning with a RS row": the side of the first row.
    """

    rows: RowRef
    times: Times | None = None
    extent: Extent | None = None
    every: Count | None = None
    every_side: Side | None = None
    then: tuple[tuple[Count, Times], ...] = ()
    start: str | None = None
    span: Span = _place()


@dataclass(frozen=True, slots=True)
class WorkRows:
    """Rows in a fabric: "Knit 5 rnds", "Work in St st until …", "Work even for 4 rows", "Knit every rnd until …".

    over: "on these 28 sts": how many stitches the rows have, when the line says so; which of them, as in `JoinRound`.
    part: what the rows are for ("for left shoulder"), lower case.
    """

    fabric: Fabric
    extent: Extent
    over: Count | None = None
    which: Literal["these", "first", "last"] = "these"
    part: str = ""
    span: Span = _place()


@dataclass(frozen=True, slots=True)
class SetFabric:
    """The fabric from here on, without saying how far: "Change to larger needles and St st", "Cont in patt"."""

    fabric: Fabric
    span: Span = _place()


@dataclass(frozen=True, slots=True)
class Rate:
    """One rate of shaping: on `first` ("next", "this", "3rd") and every `every`th row, so many times.

    every: 1 for every row, 2 for "alt row"; with every_side it counts rows of that side alone ("every other RS row": 2).
    times: None together with an `until` in ShapeRows. then: False when the line does not say that it comes behind the
      one before it ("every 4th row 3 times, every 2nd row twice").
    """

    every: Count
    times: Times | None
    first: Literal["next", "this", "following", "unsaid"] | int = "unsaid"
    unit: Literal["row", "rnd"] = "row"
    every_side: Side | None = None
    then: bool = True
    span: Span = _place()


@dataclass(frozen=True, slots=True)
class ShapeRows:
    """Shaping told by rate: "Dec 1 st at each end of next and every foll 6th row 5 times, then every 4th row twice".

    act: what happens on each shaping row. until: "until 60 sts rem". fabric: worked in between; None: as it stands.
    """

    act: EndShaping | BindOffAct | CastOnAct
    rates: tuple[Rate, ...]
    until: Extent | None = None
    fabric: Fabric | None = None
    span: Span = _place()


@dataclass(frozen=True, slots=True)
class BothSides:
    """ "Work both sides at the same time with separate balls of yarn": what follows is told for each of them."""

    span: Span = _place()


@dataclass(frozen=True, slots=True)
class BindOffAtEdges:
    """Binding off at the neck edge of both sides: "at each neck edge, bind off 3 sts once, then 2 sts twice".

    groups: (stitches, times) in order; each time is a row that begins at the neck.
    """

    groups: tuple[tuple[Count, Count], ...]
    span: Span = _place()


@dataclass(frozen=True, slots=True)
class Leg:
    """A stretch of shaping that goes on, at one rate: on every `every`th row or rnd, as far as `until` or so many `times`.

    every: None when nothing is said: as far apart as before. every_side: as in `Rate`. unit: as it is worded.
    """

    every: Count | None
    every_side: Side | None = None
    unit: Literal["row", "rnd"] | None = None
    times: Times | None = None
    until: Extent | None = None
    span: Span = _place()


@dataclass(frozen=True, slots=True)
class GoOnShaping:
    """Shaping that goes on as in the rows before, its plain stitches fewer (or more) each time: crowns, yokes, mitres.

    rows: rows that are worked again ("rep rnds 3 and 4, working …"); None for "in this way".
    change: stitches that each shaping row takes or gives, when told. decrease: which of them; None when not told.
    fewer: plain stitches by which each shaping row differs from the one before, when told; `more` of them. where: between
      what, as worded ("between decs"), lower case. instead: "k7 instead of k8" as (7, 8).
    """

    rows: RowRef | None
    change: Count | None
    decrease: bool | None
    fewer: Count | None
    more: bool
    where: str
    instead: tuple[Count, Count] | None
    legs: tuple[Leg, ...]
    span: Span = _place()


@dataclass(frozen=True, slots=True)
class AtBeginning:
    """ "Bind off 5 sts at beg of next 2 rows", "cast on 4 sts at end of next 2 rows"; the rest in pattern.

    rest: of the row, when the line tells it ("…, k to end"). side: of the row, when it is told ("at beg of next RS row").
    """

    act: BindOffAct | CastOnAct | EndShaping
    rows: Count
    at_end: bool = False
    fabric: Fabric | None = None
    rest: tuple[Action, ...] = ()
    side: Side | None = None
    span: Span = _place()


@dataclass(frozen=True, slots=True)
class CastOn:
    """Begin a piece or a part."""

    count: Count
    method: str | None = None
    yarns: tuple[str, ...] = ()
    needles: str | None = None
    provisional: bool = False
    span: Span = _place()


@dataclass(frozen=True, slots=True)
class JoinRound:
    """Join to work in the round; or go back to working flat (`form` "flat").

    over: "the heel is worked back and forth over the first 20 sts": only so many; what: "heel", lower case.
    which: which of the stitches those are: "these" when they are all that are on the needle, "first", "last", "next", or a
      needle of a set ("needle 2").
    """

    form: Form = "round"
    over: Count | None = None
    what: str = ""
    which: str = "these"
    span: Span = _place()


@dataclass(frozen=True, slots=True)
class Arrange:
    """Stitches laid out on needles without working them: "slip the first 32 sts on to one needle and the rem 32 on to
    another", "distribute evenly over 3 needles".

    groups: (count, whose stitches or which needle) in order; empty when evenly. needles: over how many.
    told: the line only tells how they lie ("24 sts: 12 sts each on N1 and N2").
    """

    groups: tuple[tuple[Count | None, str], ...] = ()
    needles: Count | None = None
    told: bool = False
    span: Span = _place()


@dataclass(frozen=True, slots=True)
class ShiftStitches:
    """Stitches slipped from one needle of a set to the one beside it: "slip last 2 sts of N1 onto N2"."""

    count: Count
    source: str
    to: str
    span: Span = _place()


@dataclass(frozen=True, slots=True)
class RoundStart:
    """Where rounds begin from now on: "Rnd now begins at center of heel" (the author's words, lower case)."""

    where: str
    span: Span = _place()


@dataclass(frozen=True, slots=True)
class RowsForm:
    """Rows given a name: "These 2 rows form the rib", "This row forms moss st"."""

    rows: RowRef
    fabric: Fabric
    span: Span = _place()


@dataclass(frozen=True, slots=True)
class ChangeYarn:
    """act: "join", "break", "keep" (do not break), "change", "use", "carry"; yarns by their keys, empty for "yarn".

    tail: the length left hanging when it is told. note: "at neck edge", "a long tail for sewing": the author's words.
    """

    act: Literal["join", "break", "keep", "change", "use", "carry", "drop"]
    yarns: tuple[str, ...]
    tail: Length | None = None
    note: str = ""
    span: Span = _place()


@dataclass(frozen=True, slots=True)
class ChangeNeedles:
    """needles: key of the source ("larger") or the author's words ("dpns", "4 mm needles")."""

    needles: str
    span: Span = _place()


@dataclass(frozen=True, slots=True)
class BindOff:
    """Bind off as a step: all, or the rest.

    beside: stitches decreased meanwhile at each side of every marked stitch ("dec 1 st at each side of marked st").
    as_before: that the rows before did so too.
    """

    count: Count | None = None
    manner: tuple[str, ...] = ()
    beside: Count | None = None
    as_before: bool = False
    span: Span = _place()


@dataclass(frozen=True, slots=True)
class DrawThrough:
    """Break the yarn and draw it through the stitches that are left; `count` when the line says how many."""

    count: Count | None = None
    span: Span = _place()


@dataclass(frozen=True, slots=True)
class FastenOff:
    """Fasten off: the last loop is closed."""

    span: Span = _place()


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
    span: Span = _place()


@dataclass(frozen=True, slots=True)
class Resume:
    """Put held or left stitches back on the needle; `rejoin` when the yarn is joined anew.

    parts: several groups in one line, in order: (count, holder). note: where the yarn is joined ("neck edge").
    first: they are the first of those that wait, and others go on waiting ("return first 10 held sts to needle").
    """

    parts: tuple[tuple[Count | None, str], ...]
    needles: str | None = None
    side: Side | None = None
    rejoin: bool = False
    note: str = ""
    first: bool = False
    span: Span = _place()


@dataclass(frozen=True, slots=True)
class PickUpRow:
    """A row made by picking up: all its parts in order (pick up, work held stitches, markers)."""

    parts: tuple[Action, ...]
    side: Side | None = None
    yarns: tuple[str, ...] = ()
    needles: str | None = None
    begin: str = ""
    span: Span = _place()


@dataclass(frozen=True, slots=True)
class Place:
    """Markers between rows or stitches outside a row: "Place marker", "Place a marker at each end of this row"."""

    act: MarkerAct
    where: str = ""
    count: Count | None = None
    span: Span = _place()


@dataclass(frozen=True, slots=True)
class Seam:
    """Close edges. manner: "sew", "graft", "three-needle", "whip", "mattress" …; edges: the author's words for each."""

    manner: str
    edges: tuple[str, ...]
    span: Span = _place()


@dataclass(frozen=True, slots=True)
class Graft:
    """Graft live stitches to live stitches or to an edge; parts as worded ("toe sts", "cast-on edge")."""

    parts: tuple[str, ...]
    counts: tuple[Count, ...] = ()
    manner: str = "kitchener"
    span: Span = _place()


@dataclass(frozen=True, slots=True)
class Finish:
    """Making up that touches no live stitch: weave in ends, block, steam, sew on buttons. Words kept, lower case."""

    act: str
    words: str
    span: Span = _place()


@dataclass(frozen=True, slots=True)
class WorkAs:
    """Work a piece or part as another: "Work as for Back to **", "Make a second mitt the same".

    to: "" whole; a mark ("**"), a named row ("thumb placement rnd") or words ("armhole shaping"); start: likewise.
    reversed: "reversing shaping" (refused by a rule). extent: "… until armhole measures".
    rest: "complete as for Back": what is left of it, from where the two part. part: what is completed ("toe"), lower case.
    """

    of: str
    to: str = ""
    start: str = ""
    reversed: bool = False
    extent: Extent | None = None
    rest: bool = False
    part: str = ""
    span: Span = _place()


@dataclass(frozen=True, slots=True)
class Mark:
    """A place in the text that other lines speak of: `**`."""

    mark: str
    span: Span = _place()


@dataclass(frozen=True, slots=True)
class Total:
    """A stated total, standing where it was printed: after a row, or as a sentence."""

    stated: tuple[Stated, ...]
    span: Span = _place()


@dataclass(frozen=True, slots=True)
class ToldRows:
    """A number of rows the author prints: "18 rows worked", "there are 120 rows above the rib", "4 garter ridges".

    unit: a garter "ridge" is two rows. kind: "160 lace rows", "4 garter ridges": the word before, lower case.

    where: the author's words for where they are counted ("above the rib"), lower case; "" when nothing is said.
    """

    rows: Count
    unit: Literal["row", "rnd", "ridge"] = "row"
    where: str = ""
    kind: str = ""
    span: Span = _place()


@dataclass(frozen=True, slots=True)
class ToldRepeat:
    """What the author says of a chart's repeat: "chart A rows rep every 4 rows", "working the 8-st rep twice".

    chart: its name; "" for the one in work. rows: of its repeat. stitches: of its repeat. times: how often in a row.
    """

    chart: str = ""
    rows: Count | None = None
    stitches: Count | None = None
    times: Count | None = None
    span: Span = _place()


@dataclass(frozen=True, slots=True)
class ToldLength:
    """A length the author prints: "rib measures 6 cm / 2¼ in", "piece now measures 30 cm from cast-on edge"."""

    length: Length
    what: str = "piece"
    origin: Landmark | None = None
    span: Span = _place()


@dataclass(frozen=True, slots=True)
class Meanwhile:
    """ "AT THE SAME TIME": `steps` run beside what follows or precedes, from `trigger` on.

    trigger: an extent ("when armhole measures 4 cm", "after 3 armhole decs") or None for at once.
    """

    steps: tuple[Step, ...]
    trigger: Extent | None = None
    span: Span = _place()


@dataclass(frozen=True, slots=True)
class OnLastRow:
    """What is done in the last of the rows told before it: "…, inc 8 sts evenly across last row".

    act: the change, or how far a last round is worked ("ending last rnd 5 sts before marker").
    """

    act: Evenly | EndShaping | WorkFabric
    span: Span = _place()


@dataclass(frozen=True, slots=True)
class OnTrust:
    """Work that cannot be knitted here ("On trust: …"), with the count it leaves; None: leaves the needle as it is."""

    words: str
    leaves: Count | None = None
    span: Span = _place()


@dataclass(frozen=True, slots=True)
class TurnWork:
    """ "Turn", as a step of its own; "With WS facing", "With RS facing" (`facing`)."""

    facing: Side | None = None
    span: Span = _place()


@dataclass(frozen=True, slots=True)
class Stripes:
    """A colour order that runs through the rows that follow: "work in stripes of 4 rows A, 4 rows B"."""

    bands: tuple[tuple[Count, str], ...]
    span: Span = _place()


@dataclass(frozen=True, slots=True)
class Opening:
    """The state an excerpt or section starts from ("You have 84 sts, RS facing; 28 sts on a holder")."""

    stitches: Count | None
    side: Side | None = None
    held: tuple[tuple[Count, str], ...] = ()
    parts: tuple[Stated, ...] = ()
    span: Span = _place()


@dataclass(frozen=True, slots=True)
class Note:
    """A remark that stands as a sentence of its own; one of the listed set phrases."""

    words: str
    span: Span = _place()


Step: TypeAlias = (
    RowStep
    | RowsAs
    | RepeatRows
    | WorkRows
    | SetFabric
    | ShapeRows
    | GoOnShaping
    | BothSides
    | BindOffAtEdges
    | AtBeginning
    | CastOn
    | JoinRound
    | Arrange
    | ShiftStitches
    | RoundStart
    | RowsForm
    | ChangeYarn
    | ChangeNeedles
    | BindOff
    | DrawThrough
    | FastenOff
    | Hold
    | Resume
    | PickUpRow
    | Place
    | MarkStitch
    | Seam
    | Graft
    | Finish
    | WorkAs
    | Mark
    | Total
    | ToldRows
    | ToldRepeat
    | ToldLength
    | Meanwhile
    | OnLastRow
    | OnTrust
    | TurnWork
    | Stripes
    | Opening
    | Note
)


# ------------------------------------------------------------------------------------------------ lines


@dataclass(frozen=True, slots=True)
class Token:
    """A piece of the line as printed; the document sets lines from tokens, so nothing typed is lost.

    kind: "word", "number" (`count` set), "length" (`length` set), "stitch" (`stitch` set to its canonical name),
      "mark" (punctuation, brackets, stars), "space".
    """

    kind: Literal["word", "number", "length", "stitch", "mark", "space"]
    text: str
    count: Count | None = None
    length: Length | None = None
    stitch: str | None = None
    span: Span = _place()


@dataclass(frozen=True, slots=True)
class InstructionLine:
    """One instruction line.

    sizes: which sizes it is for, one flag per size ("Sizes S and M only:" clears the others).
    steps: what it says, in order. tokens: how it was said. continued lines are joined before parsing.
    """

    sizes: tuple[bool, ...]
    steps: tuple[Step, ...]
    tokens: tuple[Token, ...] = field(compare=False)
    text: Text = field(compare=False)
    span: Span = _place()


@dataclass(frozen=True, slots=True)
class ProseLine:
    """A line for the reader alone (it starts with `>`); Markdown."""

    sizes: tuple[bool, ...]
    text: Text
    span: Span = _place()


@dataclass(frozen=True, slots=True)
class SizesLine:
    """A line that only says for which sizes the next ones are ("Sizes S and M only:", "All sizes:")."""

    sizes: tuple[bool, ...]
    text: Text = field(compare=False)
    span: Span = _place()


@dataclass(frozen=True, slots=True)
class UnreadLine:
    """A line that could not be read; its findings say why. Kept so that the needle knows that something is missing."""

    sizes: tuple[bool, ...]
    text: Text
    span: Span = _place()


Line: TypeAlias = InstructionLine | ProseLine | SizesLine | UnreadLine
