"""What the nodes of instruction lines are made of: numbers, places in a row, fabrics, how far, labels and totals.

In: nothing. Out: frozen node types, given on by `syntax.py`.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction
from typing import Literal, TypeAlias

from castoff.span import Span

Side = Literal["RS", "WS"]
Form = Literal["flat", "round"]


def place() -> Span:
    """Where a node stands: a field that takes no part in comparison."""
    return field(compare=False, repr=False, kw_only=True)  # type: ignore[no-any-return]


# ------------------------------------------------------------------------------------------------ numbers


@dataclass(frozen=True, slots=True)
class Count:
    """A whole number per size: stitches, rows, times. None where the size skips.

    formula: the text between braces when it was computed, None when it was typed.
    """

    values: tuple[int | None, ...]
    formula: str | None = field(default=None, compare=False)
    span: Span = place()

    def at(self, size: int) -> int | None:
        """The number of one size."""
        return self.values[size]

    @property
    def of_all(self) -> int | None:
        """The number that is the same in all sizes; None where sizes differ."""
        return self.values[0] if len(set(self.values)) == 1 else None


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
    span: Span = place()

    def at(self, size: int) -> Fraction | None:
        """The length of one size in millimetres."""
        return self.millimetres[size]


# ------------------------------------------------------------------------------------------------ where


@dataclass(frozen=True, slots=True)
class ToEnd:
    """To the end of the row, round, or needle division; `around` when so worded."""

    around: bool = False
    span: Span = place()


@dataclass(frozen=True, slots=True)
class ToLast:
    """To the last N stitches."""

    stitches: Count
    span: Span = place()


@dataclass(frozen=True, slots=True)
class ToMarker:
    """To a marker, or to `before` stitches before it, or `after` stitches past it.

    marker: its name ("m", "A", "beg of rnd", "side"); None for the next one.
    """

    marker: str | None = None
    before: Count | None = None
    after: Count | None = None
    span: Span = place()


@dataclass(frozen=True, slots=True)
class ToTurn:
    """To where an earlier short row turned, or to a stitch that its turn has marked: the next one that the row meets.

    to: "turn" (the turn or gap itself), "wrapped" and "double-wrapped" stitch, "ds" (double stitch), "yo" of a turn.
    before, after: so many stitches before or past it.
    """

    to: Literal["turn", "wrapped", "double-wrapped", "ds", "yo"] = "turn"
    before: Count | None = None
    after: Count | None = None
    span: Span = place()


@dataclass(frozen=True, slots=True)
class ToWorked:
    """Until so many stitches are on the right needle ("until there are N sts on right needle").

    behind: counted from the last bind-off of the row on ("… on right needle after bind-off"), its loop among them.
    """

    stitches: Count
    behind: bool = False
    span: Span = place()


@dataclass(frozen=True, slots=True)
class ToDivision:
    """To the end of a needle of a set, of a group of held stitches or of a named part ("across needle 1").

    name: "each needle" when what is worked up to there is worked on every needle.
    """

    name: str
    before: Count | None = None
    span: Span = place()


@dataclass(frozen=True, slots=True)
class ToStitch:
    """Up to a marked stitch, or the centre one, or to `before` stitches before it, or `after` stitches past it.

    name: "marked" or "centre": the middle of the row where none is marked.
    """

    name: Literal["marked", "centre"] = "marked"
    before: Count | None = None
    after: Count | None = None
    span: Span = place()


@dataclass(frozen=True, slots=True)
class ToCentre:
    """Up to so many stitches in the middle of the row ("to center 20 sts"): as many lie behind them as before."""

    stitches: Count
    span: Span = place()


Target: TypeAlias = ToEnd | ToLast | ToMarker | ToTurn | ToWorked | ToDivision | ToStitch | ToCentre


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
    span: Span = place()


@dataclass(frozen=True, slots=True)
class Border:
    """So many stitches at either end of a row, and what they are worked in."""

    stitches: Count
    fabric: Fabric
    span: Span = place()


# ------------------------------------------------------------------------------------------------ how far


@dataclass(frozen=True, slots=True)
class Landmark:
    """A point of the fabric that lengths and rows are counted from.

    kind: "cast-on", "beginning" (of the piece), "section", "marker", "bind-off", "picked-up", "division", "join",
      "underarm", "heel", "brim" … lower case; `words` as typed.
    """

    kind: str
    words: str = field(default="", compare=False)
    span: Span = place()


@dataclass(frozen=True, slots=True)
class ForRows:
    """So many rows or rounds."""

    rows: Count
    span: Span = place()


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
    span: Span = place()


@dataclass(frozen=True, slots=True)
class ForLength:
    """For so much more length: "for 5 cm", "for another 2 in"."""

    length: Length
    more: bool = False
    span: Span = place()


@dataclass(frozen=True, slots=True)
class UntilStitches:
    """Until so many stitches are left, or are on the needle; `where` names a part ("each side", "needle 1")."""

    stitches: Count
    where: str = ""
    span: Span = place()


@dataclass(frozen=True, slots=True)
class UntilMatch:
    """Until the piece matches another: "same length as Back to shoulder shaping", "as for back to armhole".

    what: what is measured here, lower case. short_of: "22 rows shorter than Back …".
    """

    piece: str
    to: str = ""
    what: str = "piece"
    short_of: Count | None = None
    span: Span = place()


@dataclass(frozen=True, slots=True)
class UntilTimes:
    """Until something has been done so often: "until 5 buttonholes have been worked"."""

    what: str
    count: Count
    span: Span = place()


@dataclass(frozen=True, slots=True)
class UntilWorked:
    """Until all stitches of a part have been worked: "until all heel sts have been worked" (part "heel")."""

    part: str = ""
    span: Span = place()


@dataclass(frozen=True, slots=True)
class UntilRow:
    """Until a row of a chart has been worked: "through row 24 of chart A", "until chart is complete".

    chart: its name; "" for the one in work. row: None for the last. all: "until all 24 rows have been worked".
    """

    chart: str = ""
    row: Count | None = None
    all: bool = False
    span: Span = place()


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
    span: Span = place()


# ------------------------------------------------------------------------------------------------ labels and totals


@dataclass(frozen=True, slots=True)
class RowRef:
    """Rows spoken of: numbers and ranges, "last 2", "these 4", or a named row ("dec row").

    kind: "numbers" (`ranges` of first, last), "last", "these", "named".
    name: of a named row; with "numbers" the stitch pattern whose rows they are ("rows 1–8 of ripple lace"), else "".
    section: title of the section that told them ("rows 1–4 of Section 2"), or "this section"; "" when none is named.
    more: rows spoken of with them, worked behind them ("inc row and row 2"); "next row" is the one worked behind the last.
    """

    kind: Literal["numbers", "last", "these", "named"]
    ranges: tuple[tuple[Count, Count], ...] = ()
    count: Count | None = None
    name: str = ""
    section: str = ""
    more: tuple[RowRef, ...] = ()
    span: Span = place()


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
    span: Span = place()


@dataclass(frozen=True, slots=True)
class Stated:
    """A total the author prints.

    stitches: how many; part: "" for the whole needle, else the author's words ("instep", "each side", "between
    markers", "for Back"); each: the number holds for each of several.
    change: True for "6 sts increased" / "decreased" (then `stitches` is the difference, signed).
    first_only: True unless the line says that it holds every time (a repeated row).
    edges: the edge stitches are not counted among them ("not counting the edge sts"); edge: how many each end has, if told.
    """

    stitches: Count
    part: str = ""
    each: bool = False
    change: bool = False
    edges: bool = False
    edge: Count | None = None
    span: Span = place()
