"""Where the knitting stands in one size: the pieces, the holders, the yarns, and what has been found.

In: a plan. Out: mutable state of one pass, private to this stage; `knit.py` freezes it in the end.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, fields, is_dataclass, replace
from fractions import Fraction

from castoff.knitting.fabric import Event, EventKind, Stopped
from castoff.knitting.faults import (
    BOUND_OFF_TOO_MANY,
    CABLE_HELD,
    COLUMNS_SHIFTED,
    DOES_NOT_DIVIDE,
    IDLE_REPEAT,
    LEFT_OVER,
    LENGTH_PASSED,
    MARKER_IN_THE_WAY,
    NEVER_ENDS,
    NO_MARKER,
    NO_SPACING,
    NO_SUCH_ROW,
    NOT_HELD,
    OVER_A_GAP,
    PART_OFF,
    ROW_NUMBER,
    ROWS_OFF,
    SEAM_COUNTS,
    SIDES_DIFFER,
    STILL_HELD,
    STILL_LIVE,
    TOO_FEW,
    TOTAL_OFF,
    WRONG_ENDING,
    WRONG_SIDE,
    YARN_NOT_JOINED,
    YARN_USED_AGAIN,
    Fault,
    Pointer,
)
from castoff.knitting.loops import Group, Needle
from castoff.knitting.plan import Plan, PlanSection
from castoff.knitting.row_shape import Told
from castoff.knitting.setting import RowResult, Standing
from castoff.knitting.short_row_rules import NO_WRAP, NOTHING_TO_WRAP, TURN_OPEN, TURNS_MEET, WRAPS_LEFT
from castoff.knitting.slope import Records
from castoff.notation.syntax import (
    Action,
    Count,
    Drop,
    Fabric,
    Form,
    Label,
    Length,
    Line,
    Meanwhile,
    OnLastRow,
    PickUpWrap,
    Side,
    Step,
    ToEnd,
    ToLast,
    WorkFabric,
)
from castoff.span import Span, Text

Acts = tuple[Action, ...]
Ahead = Sequence[Step] | Sequence[Line] | Sequence[PlanSection]
"""What the knitting goes on with."""

MOST_REMEMBERED, FORGOTTEN = 600, 200
"""Rows that lines may speak of as the last ones, and how many of the oldest are forgotten when there are more."""

_FOLLOWERS = (
    ROW_NUMBER,
    NO_SUCH_ROW,
    WRONG_SIDE,
    ROWS_OFF,
    WRONG_ENDING,
    STILL_LIVE,
    STILL_HELD,
    NO_MARKER,
    MARKER_IN_THE_WAY,
    NO_WRAP,
    NOTHING_TO_WRAP,
    TURNS_MEET,
    TURN_OPEN,
    WRAPS_LEFT,
)
"""Faults that are likely to follow from a line of the section that could not be read."""

_OF_WRAPS = (NO_WRAP, NOTHING_TO_WRAP, TURNS_MEET, TURN_OPEN, WRAPS_LEFT)
_AFTERMATH = (
    NO_MARKER, MARKER_IN_THE_WAY, NOT_HELD, STILL_HELD, STILL_LIVE, WRONG_SIDE, WRONG_ENDING, COLUMNS_SHIFTED, ROWS_OFF,
    LENGTH_PASSED, SIDES_DIFFER, SEAM_COUNTS, OVER_A_GAP, PART_OFF, NEVER_ENDS, *_OF_WRAPS,
)  # fmt: skip
"""Faults that say nothing new of a piece in which an error has been found: they are as likely to come of it."""

_OF_HOLDERS = (NOT_HELD, STILL_HELD, SEAM_COUNTS)
"""Faults of stitches that one piece leaves to another: an error in any piece may be behind them."""

_CHANGE_NOTHING = (YARN_NOT_JOINED, YARN_USED_AGAIN, COLUMNS_SHIFTED, IDLE_REPEAT, CABLE_HELD, STILL_HELD, STILL_LIVE)
"""Errors after which the needle is as the pattern says."""

COUNTED = (
    TOO_FEW, LEFT_OVER, DOES_NOT_DIVIDE, NO_MARKER, MARKER_IN_THE_WAY, TOTAL_OFF, PART_OFF, NEVER_ENDS, NOT_HELD,
    BOUND_OFF_TOO_MANY, SEAM_COUNTS, NO_SPACING, OVER_A_GAP,
)  # fmt: skip
"""Faults that refute a number of stitches from which the knitting goes on by way of trial."""


@dataclass(frozen=True, slots=True)
class RowDef:
    """A row that can be worked again. number: as labelled; names: words it is called by; side: when printed."""

    acts: Acts
    label: str
    number: int | None = None
    name: str = ""
    side: Side | None = None
    unit: str = "row"
    partial: bool = False
    span: Span | None = None
    yarn: str | None = None


@dataclass(frozen=True, slots=True)
class RowKind:
    """What a row's acts hold that decides how it is tried.

    makes: stitches come from elsewhere than the needle (picked up, held, joined, cast on). held: from holders.
    binds: it binds off. drops: extra loops are dropped. joins, named: yarns that it joins, or works with by name. picks:
    edges picked up along. second: a ball is joined in it. only: it has one act that works. wraps: the act by which it
    picks up wraps as they come. steady: nothing in it but what may be folded (`fold.py`). marks: it speaks of markers.
    """

    makes: bool
    held: bool
    binds: bool
    drops: tuple[Drop, ...]
    joins: tuple[str, ...]
    named: tuple[str, ...]
    picks: int
    second: bool
    only: bool
    wraps: PickUpWrap | None
    steady: bool
    marks: bool


@dataclass(slots=True)
class Shared:
    """What all sizes share: rows worked before, and rows of stitch patterns."""

    plan: Plan
    rows: dict[tuple[object, ...], tuple[Acts, RowResult]] = field(default_factory=dict)
    numbers: dict[tuple[int, int], tuple[Acts, tuple[object, ...]]] = field(default_factory=dict)
    fabric_acts: dict[Fabric, Acts] = field(default_factory=dict)
    pattern_acts: dict[tuple[str, int], tuple[Acts, ...]] = field(default_factory=dict)
    heights: dict[str | None, Fraction] = field(default_factory=dict)
    kinds: dict[int, tuple[Acts, RowKind]] = field(default_factory=dict)
    picks_wraps: bool | None = None
    """Whether the pattern asks anywhere for wraps to be picked up; None until somebody has looked."""
    going_on: dict[int, tuple[Acts, Acts]] = field(default_factory=dict)
    """Acts of rows, and the same acts when they are worked again as set: charts go on, markers are slipped."""

    def acts_of(self, fabric: Fabric) -> Acts:
        """The acts of a whole row in a fabric, the same tuple every time."""
        found = self.fabric_acts.get(fabric)
        if found is None:
            found = _whole_row(fabric)
            self.fabric_acts[fabric] = found
        return found

    def numbers_of(self, acts: Acts, size: int) -> tuple[object, ...]:
        """Every number in some acts, for one size: acts with equal numbers do the same."""
        key = (id(acts), size)
        found = self.numbers.get(key)
        if found is None:
            gathered: list[object] = []
            _gather(acts, size, gathered)
            found = (acts, tuple(gathered))
            self.numbers[key] = found
        return found[1]


def _whole_row(fabric: Fabric) -> Acts:
    """A row in a fabric, its border at either end."""
    end = ToEnd(span=fabric.span)
    if fabric.border is None:
        return (WorkFabric(fabric, end, span=fabric.span),)
    border = fabric.border
    between = ToLast(border.stitches, span=border.span)
    return (
        WorkFabric(border.fabric, border.stitches, span=border.span),
        WorkFabric(replace(fabric, border=None), between, span=fabric.span),
        WorkFabric(border.fabric, end, span=border.span),
    )


def _gather(node: object, size: int, gathered: list[object]) -> None:
    if isinstance(node, Count):
        gathered.append(node.values[size])
    elif isinstance(node, Length):
        gathered.append(node.millimetres[size])
    elif isinstance(node, tuple):
        for each in node:
            _gather(each, size, gathered)
    elif is_dataclass(node) and not isinstance(node, (Span, Text)):
        for each_field in fields(node):
            if each_field.name != "span":
                _gather(getattr(node, each_field.name), size, gathered)


@dataclass(slots=True)
class PieceState:
    """One piece in work."""

    name: str
    make: int = 1
    needle: Needle = field(default_factory=Needle)
    form: Form = "flat"
    due: Side | None = None
    standing: Standing = "same"
    rows: int = 0
    length: Fraction = Fraction(0)
    started: bool = False
    records: Records = field(default_factory=Records)
    stopped: list[Stopped] = field(default_factory=list)
    events: list[Event] = field(default_factory=list)
    landmarks: dict[str, tuple[int, Fraction]] = field(default_factory=dict)
    pattern_rows: dict[str, int] = field(default_factory=dict)
    """The row worked last of every chart or stitch pattern, and of every place where it is worked (`charts.py`)."""
    pattern_reach: dict[str, int] = field(default_factory=dict)
    """The furthest row of every chart that has been worked."""
    charts_since: dict[str, int] = field(default_factory=dict)
    """Rows worked since the last one of every pattern that promises when its rows come."""
    fresh_charts: bool = False
    """Whether charts may go on from another row: rows of it were worked before this text begins."""
    before: int = 0
    """Stitches before the row, or run of rows, that was worked last."""
    loose_end: bool = False
    """Whether the last rows went on until a length, so that one row more or less is all the same."""
    loose_row: RowDef | None = None
    """The row that such a row more would be, where rows that belong together stopped between them."""
    fabric: Fabric | None = None
    kept: bool = False
    """Whether its stitch pattern goes on over stitches that are no whole repeats, as a line has said."""
    unaccounted: tuple[Span, int] | None = None
    """The first row since the last printed total that changed the number of stitches, and by how many."""
    told: tuple[Span, int, str] | None = None
    """Where the number of stitches was told last, what it was, and how: cast on, picked up, printed as a total."""
    doubt: bool = False
    """Whether a fault has left the count unsure, until a printed total says it again."""
    unsure: bool = False
    """Whether an error has been found in it, or a line could not be read: places, lengths and held counts are not known."""
    strayed: bool = False
    """Whether its markers may no longer be where the pattern has put them."""
    turned: bool = False
    cast_on: tuple[int, str | None] = (0, None)
    part: int = 0
    provisional: tuple[int, Span | None] = (0, None)
    """Stitches of a provisional cast-on that has not been undone, and where it was told."""
    short_rows: int = 0
    bound_to: int | None = None
    """After how many rows all stitches but the last were bound off; what stays goes on from there."""
    called: list[tuple[str, int, int]] = field(default_factory=list)
    """What parts of it are called, as (words, `part`, row): the titles of sections, "work on the back sts from here"."""
    begun: tuple[int, int] = (0, 0)
    """Row and stitches of the part in work when it was taken back."""
    ends: list[tuple[tuple[int, int], int, int]] = field(default_factory=list)
    """Of every part bound off: how it began, its last row, and the stitches bound off."""
    worked_which: str = "these"
    """Which stitches: all there are, the first or last of the round, those where the yarn is, or a needle's."""
    worked_part: str = ""
    """What they are called ("heel"), lower case."""
    worked_over: Count | None = None
    """How many stitches the rows that follow are worked over, when a line says so."""
    neck_rows: Side | None = None
    """Where two sides are worked at once: the side of those rows of this one that begin at the neck."""
    arranged: tuple[int, ...] = ()
    rotated: int = 0
    """Stitches of the round that lie before those which are worked back and forth meanwhile."""
    wrap: tuple[int, int] = (0, 0)
    """Of the last round: stitches worked a second time at its end, and stitches there were before it."""
    gaps: tuple[int, int] = (0, 0)
    """Gaps still open on the needle: left by binding off, and by putting stitches on hold."""
    parted: bool = False
    """Whether some stitches of a round have been put aside between rounds, so that rows go back and forth on the rest."""
    picks_wraps: bool = False
    """Whether a line has said that every row works the wraps it meets with their stitches."""
    wraps_unknown: bool = False
    """Whether a row has failed since, so that nobody knows which stitches are wrapped."""
    short_row: Span | None = None
    """The last row, when it turned before its end."""
    turned_rows: list[tuple[Side, int, Span | None]] = field(default_factory=list)
    """Of the short rows since the last whole one: side, stitches left beyond the turn, and where they are told."""
    halves: list[tuple[Side, int, Span | None]] = field(default_factory=list)
    """The same of all short rows without wraps, in rounds as well."""
    inward: tuple[int, int, int] | None = None
    """Of the last turns that came in from the ends: row, and stitches left beyond the first turn of each side."""
    wrapped_again: dict[int, bool] = field(default_factory=dict)
    """Of the acts of a row, by identity: whether they wrapped stitches that were wrapped already, when last worked."""
    finger: tuple[str, int, Fraction] = ("", 0, Fraction(0))
    """Where the finger or thumb in work began: by what ("section", "hold", "taken back"), row and length there."""
    acts: list[Step] = field(default_factory=list)
    """Steps worked since its stitches were cast on, picked up or taken back."""
    followed: tuple[str, int, str] | None = None
    """What was followed last and how far ("work as for Back to **"): its name, the place among its steps, its words."""
    loops: dict[tuple[str, str | None, str], int] = field(default_factory=dict)
    """Loops of this piece: yarn, gauge and stitch, and how many."""
    before_held: bool = False
    """Whether the last round ended before stitches that it put aside: the yarn is in the middle of the round."""
    fresh: bool = False
    """Whether the stitches on the needle have just been taken back, and no row has been worked on them since."""
    facing: Side | None = None
    """The side that a line has said is to face, where nothing is on the needle."""
    turned_height: Fraction = Fraction(0)
    """Height that the last row would have had, had it not been turned before its end."""
    bridges: bool = False
    """Whether rows go on across the gaps, left by stitches put on hold behind a yarn that was carried on."""
    taken_back: tuple[Needle, Needle] | None = None
    """Live stitches, and stitches taken back beside them: the next row shows whether they are worked as one."""


@dataclass(slots=True)
class Beside:
    """Shaping that waits for its rows.

    start: row of the piece after which it begins; None while it waits for its moment. rows: for each row from there,
    whether it is a shaping row. change: stitches more (or fewer) by each. both: half of them at each end. at: how many of
    its rows have been worked. changed: rows seen, while it waits, that changed the number of stitches. again: rows that
    come over and over behind the others, until there are `until` stitches.
    """

    source: Meanwhile
    start: int | None
    rows: list[bool]
    change: int
    what: str
    span: Span
    at: int = 0
    both: bool = False
    changed: int = 0
    again: tuple[bool, ...] = ()
    until: int | None = None

    @property
    def done(self) -> bool:
        """Whether all of it has been worked."""
        return self.at >= len(self.rows) and not self.again

    def go_on(self, have: int) -> None:
        """Enters more rows when those entered have been worked and the number of stitches has not come up."""
        if self.until is None or not self.again or self.at < len(self.rows):
            return
        if have <= self.until if self.change < 0 else have >= self.until:
            self.again = ()
        else:
            self.rows += self.again


@dataclass(slots=True)
class SecondSide:
    """The side that waits while both are worked at once: its stitches, where patterns stand, and what is told for both."""

    group: Group
    pattern_rows: dict[str, int]
    standing: Standing
    charts_since: dict[str, int] = field(default_factory=dict)
    steps: list[Step] = field(default_factory=list)


@dataclass(slots=True)
class SizeState:
    """One size in work."""

    shared: Shared
    size: int
    faults: list[Fault] = field(default_factory=list)
    pieces: dict[str, PieceState] = field(default_factory=dict)
    piece: PieceState = field(default_factory=lambda: PieceState(""))
    section: PlanSection | None = None
    holders: list[Group] = field(default_factory=list)
    gauge: str | None = None
    needles: str | None = None
    yarn: str = ""
    broken: set[str] = field(default_factory=set)
    loops: dict[tuple[str, str | None, str], int] = field(default_factory=dict)
    needle_use: dict[str | None, tuple[int, int]] = field(default_factory=dict)
    defs: dict[int, RowDef] = field(default_factory=dict)
    told_rows: dict[str, tuple[dict[int, RowDef], list[tuple[Label, RowDef]]]] = field(default_factory=dict)
    named: dict[str, RowDef] = field(default_factory=dict)
    every: list[tuple[Label, RowDef]] = field(default_factory=list)
    history: list[RowDef] = field(default_factory=list)
    number: int = 0
    counted: int = 0
    trusted: list[Span] = field(default_factory=list)
    stripes: list[tuple[int, str]] = field(default_factory=list)
    stripe_row: int = 0
    on_last_row: OnLastRow | None = None
    replaying: int = 0
    unread_lines: bool = False
    carried: int = 0
    last_rows: int = 0
    section_start: tuple[int, int] = (0, 0)
    repeated: bool = False
    """Whether the last rows were rows worked again, so that a printed number of rows counts the first ones too."""
    remembered: int = 0
    """Rows worked in the section in work that a line can speak of as the last ones."""
    cycle: int = 0
    """How many rows were worked again, once through."""
    till_all_worked: bool = False
    """Whether rows are in work that are repeated until all stitches have been worked."""
    second: SecondSide | None = None
    beside: list[Beside] = field(default_factory=list)
    """Shaping that runs at the same time."""
    named_number: dict[str, int] = field(default_factory=dict)
    counts: dict[Span, int] = field(default_factory=dict)
    """Stitches on the needle behind each step that has been worked, the first time."""
    sent_back: tuple[Span, ...] = ()
    """Lines that have sent the knitter back to the one in work ("complete as for Back")."""
    coloured: dict[tuple[int, str], tuple[RowDef, RowDef]] = field(default_factory=dict)
    formed: dict[str, list[RowDef]] = field(default_factory=dict)
    told: list[Told] = field(default_factory=list)
    """The shapes of the rows as they are told, in order."""
    parts_told: int = 0
    """How often a line has taken stitches back to a needle."""
    following: list[Ahead] = field(default_factory=list)
    """What is still to be worked: sections, lines of this one, steps of this line; the nearest last."""
    steps: int = 0
    """Steps worked so far."""
    work_ahead: Callable[[SizeState, Ahead], None] | None = None
    """Works what is still to be worked, by way of trial; None where nobody may try."""
    trial: int | None = None
    """The step at which a trial ends; None when this is no trial."""

    @property
    def over(self) -> bool:
        """Whether a trial has come to its end: to a fault, or far enough."""
        return self.trial is not None and (bool(self.faults) or self.steps >= self.trial)

    @property
    def plan(self) -> Plan:
        """The plan."""
        return self.shared.plan

    def number_of(self, count: Count | None, unsaid: int = 0) -> int:
        """A number in this size; 0 where the size skips."""
        if count is None:
            return unsaid
        return count.at(self.size) or 0

    def report(self, found: Fault, *, sure: bool = False) -> None:
        """Keeps a fault, unless the count is in doubt, it may follow from an error before it, or it has been found before.

        sure: what is on the needle is known all the same.
        """
        piece = self.piece
        if self.trial is not None:
            if found.rule in COUNTED and not piece.doubt and not (piece.unsure and found.rule in _AFTERMATH):
                self.faults.append(found)
            return
        if piece.wraps_unknown and found.rule in _OF_WRAPS:
            return
        if piece.doubt or (self.unread_lines and found.rule in _FOLLOWERS):
            return
        if found.rule in _AFTERMATH and piece.unsure:
            return
        if found.rule in _OF_HOLDERS and any(each.unsure for each in self.pieces.values()):
            piece.unsure = True
            return
        if any(found.rule is other.rule and found.span == other.span for other in self.faults):
            return
        if self.sent_back and found.span not in self.sent_back:
            again = tuple(Pointer(span, "worked again from here") for span in self.sent_back)
            found = replace(found, related=(*found.related, *again))
        self.faults.append(found)
        if found.rule.severity == "error" and found.rule not in _CHANGE_NOTHING and not sure:
            piece.unsure = True
            piece.doubt = piece.doubt or found.rule in _OF_WRAPS

    def event(self, kind: EventKind, count: int = 0, name: str = "", span: Span | None = None) -> None:
        """Notes something that happened to the piece in work."""
        self.piece.events.append(Event(kind, count, name, self.piece.rows, span))

    def landmark_section(self) -> None:
        """A section, or a part of one, begins here."""
        self.piece.landmarks["section"] = (self.piece.rows, self.piece.length)
        begin_finger(self.piece, "section")
        self.section_start = (self.piece.rows, self.piece.short_rows)

    def row_height(self) -> Fraction:
        """Height of a row in millimetres; 0 without a gauge."""
        heights = self.shared.heights
        found = heights.get(self.gauge)
        if found is None:
            pitch = self.plan.pitch(self.gauge)
            found = Fraction(0) if pitch is None else pitch[1]
            heights[self.gauge] = found
        return found

    def use_needles(self, count: int | None = None) -> None:
        """Enters the stitches on the needles in use, those there are or another number."""
        count = self.piece.needle.stitches if count is None else count
        if count:
            fewest, most = self.needle_use.get(self.needles, (count, count))
            self.needle_use[self.needles] = (min(fewest, count), max(most, count))

    def add_loops(self, stitch: str, count: int, yarn: str | None = None) -> None:
        """Enters loops worked outside a row: cast on, bound off."""
        if count > 0:
            self.count_loops((self.yarn if yarn is None else yarn, self.gauge, stitch), count * self.piece.make)

    def count_loops(self, key: tuple[str, str | None, str], count: int) -> None:
        """Enters loops of a yarn, a gauge and a stitch, for the piece in work and for all."""
        self.loops[key] = self.loops.get(key, 0) + count
        self.piece.loops[key] = self.piece.loops.get(key, 0) + count

    def keep_rows(self) -> None:
        """Keeps the numbered rows of the section in work under its title: a later one may call them."""
        if self.section is not None and self.defs:
            self.told_rows[self.section.title.lower()] = (dict(self.defs), list(self.every))

    def forget_rows(self, *, carry: bool = False) -> None:
        """Starts counting rows anew: another section, another set of numbered rows. `carry`: the next section may go
        on with the numbers of the one before."""
        self.carried = self.number if carry else 0
        self.defs = {}
        self.every = []
        self.named_number = {}
        self.number = 0
        self.counted = 0

    def last_worked_are(self, rows: Sequence[RowDef]) -> bool:
        """Whether these rows, in their order, are the ones worked last."""
        last = self.history[-len(rows) :]
        return len(last) == len(rows) and all(
            one.acts is two.acts and one.number == two.number for one, two in zip(last, rows, strict=True)
        )

    def remember(self, row: RowDef) -> None:
        """Keeps a row that was worked, in its yarn, for lines that speak of the last ones."""
        self.remembered += 1
        self.history.append(self._in_yarn(row))
        if len(self.history) > MOST_REMEMBERED:
            del self.history[:FORGOTTEN]

    def remember_again(self, cycle: Sequence[RowDef], rows: int) -> None:
        """Keeps rows of a cycle, from its first on, as if each had been remembered in turn."""
        self.remembered += rows
        have = len(self.history) + rows
        if have > MOST_REMEMBERED:
            have = MOST_REMEMBERED - FORGOTTEN + 1 + (have - MOST_REMEMBERED - 1) % FORGOTTEN
        rows_kept = min(rows, have)
        kept = [self._in_yarn(row) for row in cycle]
        shift = (rows - rows_kept) % len(kept)
        again = (kept[shift:] + kept[:shift]) * (rows_kept // len(kept) + 1)
        self.history += again[:rows_kept]
        del self.history[: len(self.history) - have]

    def _in_yarn(self, row: RowDef) -> RowDef:
        if row.yarn is not None or len(self.plan.yarns) < 2:
            return row
        key = (id(row), self.yarn)
        known = self.coloured.get(key)
        if known is None:
            known = (row, replace(row, yarn=self.yarn))
            self.coloured[key] = known
        return known[1]


def begin_finger(piece: PieceState, by: str) -> None:
    """Notes that a finger may begin here: where its stitches are taken back or picked up, where the others are put aside,
    or with its section. Stitches put aside later on, when it is in work, do not begin it anew."""
    taken_back = piece.finger[0] == "taken back" and piece.finger[1] <= piece.rows
    if not (by == "hold" and taken_back):
        piece.finger = (by, piece.rows, piece.length)


def label_text(label: Label | None, size: int, number: int | None = None) -> str:
    """What a knitter would call a row: "row 5", "rnd 3", "dec rnd", "next row (WS)"."""
    if label is None:
        return "this row"
    if number is not None:
        return f"{label.unit} {number}"
    if label.which == "numbers" and label.ranges:
        first, last = (each.at(size) for each in label.ranges[0])
        return f"{label.unit} {first}" if first == last else f"{label.unit}s {first}–{last}"
    if label.which == "named" and label.name:
        return f"{label.name} {label.unit}"
    if label.which == "all":
        return f"every {label.unit}"
    if label.which in ("set-up", "first", "last"):
        return f"{label.which} {label.unit}"
    side = f" ({label.side})" if label.side else ""
    return f"next {label.unit}{side}"


def lines_of_rows(rows: Sequence[RowDef]) -> int:
    """How many different rows there are."""
    return len({id(row.acts) for row in rows})
