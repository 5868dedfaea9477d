"""A stitch pattern as a chart: every stitch a square, as it looks from the right side.

In: the rows of a stitch pattern and the plan. Out: a `Chart`, or a finding that says which row cannot be drawn and why.

A chart shows one repeat with the stitches at its edges. Squares stand for the stitches that a row leaves, so a row with
fewer stitches than another has squares without a stitch; they stand where the stitches went, and where they come again.
Right-side rows are worked from right to left, wrong-side rows from left to right; in the round all from right to left.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Protocol

from castoff.diagnostic import Checked, Diagnostic, Rule
from castoff.knitting.pattern_rows import numbered_rows
from castoff.knitting.plan import Plan, StitchPattern
from castoff.notation.syntax import (
    Action,
    Count,
    InstructionLine,
    Remark,
    Repeat,
    RowStep,
    Side,
    Stitch,
    StitchTo,
    Target,
    ToEnd,
    ToLast,
    UseYarn,
)
from castoff.span import Span

CHART_IMPOSSIBLE = Rule(
    "chart-impossible",
    "error",
    """A stitch pattern asks for a chart and cannot be drawn as one.

A chart needs rows in which every stitch has a name and a sign, told stitch by stitch, the same in every size. Rows in
words ("work in patt to end"), crossings spelled out and stitches of your own without a `symbol` have no squares.

Fires:
    stitch_patterns:
      eyelets: {multiple: 2, plus: 2, chart: yes, rows: "Row 1 (RS): K1, *yo, k2tog; rep from * to end."}
Silent:
    stitch_patterns:
      eyelets: {multiple: 2, plus: 2, chart: yes, rows: "Row 1 (RS): K1, *yo, k2tog; rep from * to last st, k1."}
""",
)
RULES = (CHART_IMPOSSIBLE,)

MOST_REPEATS = 3
"""A chart shows one repeat; where edges take stitches of the next ones, up to so many."""


class TurnedStitch(Protocol):
    """A stitch of the book as far as a chart needs it."""

    @property
    def name(self) -> str:
        """As it is printed."""
        ...

    @property
    def wrong_side(self) -> str:
        """What gives the same look when worked on the other side; empty when nothing does."""
        ...


class TurnedBook(Protocol):
    """The stitch book as far as a chart needs it."""

    def find(self, token: str, /) -> TurnedStitch | None:
        """The stitch of a word; None when it is none."""
        ...


@dataclass(frozen=True, slots=True)
class Worked:
    """A stitch of a row as it is worked. repeated: which time of the repeat it belongs to, from 1; 0 when to none."""

    stitch: str
    takes: int
    makes: int
    yarn: str = ""
    repeated: int = 0


@dataclass(frozen=True, slots=True)
class Square:
    """A square, or as many as the stitch leaves. stitch: as it looks from the right side; "" where there is no stitch."""

    stitch: str
    yarn: str = ""
    columns: int = 1


@dataclass(frozen=True, slots=True)
class ChartRow:
    """A row. worked: its stitches in the order of working. squares: from left to right, as printed.

    repeat: the columns of the repeat, from left to right; None when nothing says where it lies. span: where it is told.
    """

    number: int
    side: Side
    worked: tuple[Worked, ...]
    squares: tuple[Square, ...] = ()
    repeat: tuple[int, int] | None = None
    span: Span | None = None


@dataclass(frozen=True, slots=True)
class Chart:
    """The chart of a stitch pattern. rows: the first row first. flat: whether wrong-side rows run from left to right."""

    name: str
    rows: tuple[ChartRow, ...]
    columns: int
    flat: bool


@dataclass(frozen=True, slots=True)
class Untold:
    """Why a row cannot be taken stitch by stitch."""

    why: str
    span: Span | None = None


def chart_of(name: str, pattern: StitchPattern, plan: Plan, book: TurnedBook, place: Span) -> Checked[Chart | None]:
    """The chart of a stitch pattern. place: where the source asks for it, for what has no place of its own."""
    sides = _sides(pattern)
    told = numbered_rows(pattern.lines, 0)
    found: tuple[ChartRow, ...] | Untold = Untold("it has no rows")
    for repeats in range(1, MOST_REPEATS + 1):
        found = _rows(told, sides, pattern, repeats, plan)
        if not isinstance(found, Untold):
            break
    if isinstance(found, Untold):
        return Checked(None, (_finding(name, found, place),))
    laid = _laid_out(found, book, plan, pattern.form == "flat")
    if isinstance(laid, Untold):
        return Checked(None, (_finding(name, laid, place),))
    rows, columns = laid
    return Checked(Chart(name, rows, columns, pattern.form == "flat"))


def stitches_of(pattern: StitchPattern, plan: Plan, repeats: int) -> tuple[ChartRow, ...] | Untold:
    """The rows of a stitch pattern stitch by stitch, over so many repeats with the stitches at their edges; no squares."""
    return _rows(numbered_rows(pattern.lines, 0), _sides(pattern), pattern, repeats, plan)


def _finding(name: str, no: Untold, place: Span) -> Diagnostic:
    hint = "write the row out stitch by stitch, or take `chart` out"
    return Diagnostic.of(
        CHART_IMPOSSIBLE, f"`{name}` cannot be drawn as a chart: {no.why}", no.span or place, hint=hint
    )


def _sides(pattern: StitchPattern) -> dict[int, Side]:
    """The sides that labels print."""
    sides: dict[int, Side] = {}
    for line in pattern.lines:
        for step in line.steps if isinstance(line, InstructionLine) else ():
            if (
                isinstance(step, RowStep)
                and step.label is not None
                and step.label.side is not None
                and step.label.ranges
            ):
                sides[step.label.ranges[0][0].values[0] or 0] = step.label.side
    return sides


def _rows(
    told: Sequence[tuple[int, tuple[Action, ...]]],
    sides: dict[int, Side],
    pattern: StitchPattern,
    repeats: int,
    plan: Plan,
) -> tuple[ChartRow, ...] | Untold:
    have = pattern.multiple * repeats + pattern.plus
    side: Side = sides.get(told[0][0], "RS") if told else "RS"
    rows: list[ChartRow] = []
    for number, acts in told:
        side = sides.get(number, side)
        worked = _Reader(plan, number).row(acts, have)
        if isinstance(worked, Untold):
            return worked
        span = acts[0].span.to(acts[-1].span) if acts else None
        rows.append(ChartRow(number, side if pattern.form == "flat" else "RS", worked, span=span))
        have = sum(stitch.makes for stitch in worked)
        side = "WS" if side == "RS" else "RS"
    if not rows:
        return Untold("it has no rows")
    coloured = any(stitch.yarn for row in rows for stitch in row.worked)
    bare = next((row for row in rows if coloured and any(not stitch.yarn for stitch in row.worked)), None)
    if bare is not None:
        return Untold(f"row {bare.number} does not say the yarn of every stitch")
    return tuple(rows)


@dataclass(frozen=True, slots=True)
class _Reader:
    """Takes the stitches of one row one by one."""

    plan: Plan
    number: int

    def row(self, acts: Sequence[Action], have: int) -> tuple[Worked, ...] | Untold:
        worked: list[Worked] = []
        yarn = ""
        left = have
        for act in acts:
            if isinstance(act, Remark):
                continue
            if isinstance(act, UseYarn) and act.body is None:
                if len(act.yarns) != 1:
                    return self._no("is worked with several yarns", act.span)
                yarn = act.yarns[0]
                continue
            some = self._one(act, left, yarn)
            if isinstance(some, Untold):
                return some
            worked += some
            left -= sum(stitch.takes for stitch in some)
            if left < 0:
                return self._no(f"needs {-left} more sts than the {have} that are there", act.span)
        if left:
            return self._no(f"leaves {left} of {have} sts unworked", acts[-1].span if acts else None)
        return tuple(worked)

    def _no(self, what: str, span: Span | None = None) -> Untold:
        return Untold(f"row {self.number} {what}", span)

    def _one(self, act: Action, left: int, yarn: str) -> list[Worked] | Untold:
        match act:
            case Stitch():
                count = 1 if act.count is None else _same(act.count)
                if count is None:
                    return self._no("differs from size to size", act.span)
                one = self._stitch(_named(act.name, act.yarn_held), yarn, act.span)
                return one if isinstance(one, Untold) else [one] * count
            case StitchTo():
                one = self._stitch(_named(act.name, act.yarn_held), yarn, act.span)
                room = self._room(act.target, left, act.span)
                if isinstance(one, Untold) or isinstance(room, Untold):
                    return one if isinstance(one, Untold) else room  # type: ignore[return-value]
                return (
                    [one] * room if one.takes == 1 else self._no("goes on with a stitch that takes several", act.span)
                )
            case UseYarn() if act.body is not None and len(act.yarns) == 1:
                return self._all(act.body, left, act.yarns[0])
            case Repeat():
                return self._repeat(act, left, yarn)
            case _:
                return self._no("is not told stitch by stitch", act.span)

    def _stitch(self, name: str, yarn: str, span: Span) -> Worked | Untold:
        fact = self.plan.stitch(name)
        if fact is None or not fact.makes:
            return self._no(f"has `{name}`, which leaves no stitch to draw", span)
        return Worked(name, fact.takes, fact.makes, yarn)

    def _all(self, acts: Sequence[Action], left: int, yarn: str) -> list[Worked] | Untold:
        worked: list[Worked] = []
        for act in acts:
            some = self._one(act, left, yarn)
            if isinstance(some, Untold):
                return some
            worked += some
            left -= sum(stitch.takes for stitch in some)
        return worked

    def _repeat(self, act: Repeat, left: int, yarn: str) -> list[Worked] | Untold:
        body = self._all(act.body, left, yarn)
        if isinstance(body, Untold):
            return body
        takes = sum(stitch.takes for stitch in body)
        if act.times.target is not None:
            room = self._room(act.times.target, left, act.span)
            if isinstance(room, Untold):
                return room
            if not takes or room % takes or room < takes:
                return self._no(f"repeats {takes} sts over {room}", act.span)
            times = range(1, room // takes + 1)
            return [replace(stitch, repeated=time) for time in times for stitch in body]
        count = None if act.times.count is None else _same(act.times.count)
        if count is None or act.times.kind == "ambiguous":
            return self._no("does not say how often it repeats", act.span)
        return body * (count + (act.times.kind == "more"))

    def _room(self, target: Target, left: int, span: Span) -> int | Untold:
        if isinstance(target, ToEnd):
            return left
        if isinstance(target, ToLast):
            last = _same(target.stitches)
            if last is not None and last <= left:
                return left - last
        return self._no("goes to a place that a chart does not have", span)


def _same(count: Count) -> int | None:
    first = count.values[0]
    return first if all(value == first for value in count.values) else None


def _named(name: str, held: str | None) -> str:
    return f"{name} {'wyif' if held == 'front' else 'wyib'}" if held and name == "sl" else name


# ------------------------------------------------------------------------------------------------ laying out


def _laid_out(
    rows: tuple[ChartRow, ...], book: TurnedBook, plan: Plan, flat: bool
) -> tuple[tuple[ChartRow, ...], int] | Untold:
    """Rows with their squares, and how many columns there are."""
    columns = _Columns()
    alive = columns.first(sum(stitch.takes for stitch in rows[0].worked))
    placed: list[list[tuple[Worked, tuple[int, ...]]]] = []
    for row in rows:
        seen = row.worked if row.side == "RS" else tuple(reversed(row.worked))
        cells, alive = columns.row(seen, alive)
        placed.append(cells)
    order = columns.order
    at = {column: index for index, column in enumerate(reversed(order))}
    laid: list[ChartRow] = []
    for row, cells in zip(rows, placed, strict=True):
        squares = _squares(row, cells, at, book, plan, flat)
        if isinstance(squares, Untold):
            return squares
        # of several times, the one at the right edge
        times = [worked.repeated for worked in row.worked if worked.repeated]
        shown = min(times, default=0) if row.side == "RS" else max(times, default=0)
        inside = [at[column] for worked, own in cells for column in own if shown and worked.repeated == shown]
        laid.append(replace(row, squares=squares, repeat=(min(inside), max(inside) + 1) if inside else None))
    return tuple(_with_repeats(laid)), len(order)


def _squares(
    row: ChartRow,
    cells: Sequence[tuple[Worked, tuple[int, ...]]],
    at: dict[int, int],
    book: TurnedBook,
    plan: Plan,
    flat: bool,
) -> tuple[Square, ...] | Untold:
    """The squares of a row from left to right."""
    line: dict[int, Square] = {}
    for worked, own in cells:
        places = sorted(at[column] for column in own)
        if places[-1] - places[0] != len(places) - 1:
            return Untold(f"row {row.number} works `{worked.stitch}` across squares without a stitch")
        name = _seen(worked.stitch, row.side if flat else "RS", book, plan)
        if not name:
            return Untold(
                f"row {row.number} works `{worked.stitch}` on the wrong side, which looks like no stitch of the key"
            )
        line[places[0]] = Square(name, worked.yarn, len(places))
    squares: list[Square] = []
    column = 0
    while column < len(at):
        square = line.get(column, Square(""))
        squares.append(square)
        column += square.columns
    return tuple(squares)


def _seen(name: str, side: Side, book: TurnedBook, plan: Plan) -> str:
    """What a stitch looks like from the right side; "" when nothing on that side looks like it."""
    if name.lower() in plan.own_stitches:
        return name
    found = book.find(name)
    if found is None:
        return ""
    if side == "RS":
        return found.name
    turned = book.find(found.wrong_side) if found.wrong_side else None
    return "" if turned is None else turned.name


def _with_repeats(rows: Sequence[ChartRow]) -> Iterator[ChartRow]:
    """Rows that do not say where the repeat lies (`Row 2: Purl.`) have it where the nearest that does has it.

    Wrong-side rows begin at the other edge, and so does their repeat: they follow the right-side rows if these have one.
    """
    known = [(index, row.repeat, row.side) for index, row in enumerate(rows) if row.repeat is not None]
    leading = [each for each in known if each[2] == "RS"] or known
    for index, row in enumerate(rows):
        nearest = min(leading, key=lambda each: (abs(each[0] - index), each[0]), default=None)
        yield row if nearest is None else replace(row, repeat=nearest[1])


class _Columns:
    """The columns of a chart from right to left; new ones are put in where stitches are made."""

    __slots__ = ("count", "order")

    def __init__(self) -> None:
        self.order: list[int] = []
        self.count = 0

    def first(self, number: int) -> list[int]:
        self.order = list(range(number))
        self.count = number
        return list(self.order)

    def row(
        self, stitches: Sequence[Worked], alive: list[int]
    ) -> tuple[list[tuple[Worked, tuple[int, ...]]], list[int]]:
        """The columns of each stitch of a row, seen from the right side, and those that hold a stitch after it."""
        lost, won = _where(stitches)
        cells: list[tuple[Worked, tuple[int, ...]]] = []
        after: list[int] = []
        pointer = 0
        for index, stitch in enumerate(stitches):
            own: list[int] = []
            for number in range(stitch.makes):
                if number >= stitch.makes - won[index]:
                    own.append(
                        self._between(
                            own[-1] if own else after[-1] if after else None,
                            alive[pointer] if pointer < len(alive) else None,
                        )
                    )
                else:
                    own.append(alive[pointer])
                    pointer += 1
            pointer += lost[index]
            cells.append((stitch, tuple(own)))
            after += own
        return cells, after

    def _between(self, last: int | None, following: int | None) -> int:
        """A column without a stitch between two, an old one where there is one."""
        start = 0 if last is None else self.order.index(last) + 1
        stop = len(self.order) if following is None else self.order.index(following)
        if start < stop:
            return self.order[start]
        new = self.count
        self.count += 1
        self.order.insert(start, new)
        return new


def _where(stitches: Sequence[Worked]) -> tuple[list[int], list[int]]:
    """For each stitch of a row, how many columns end behind it for good, and how many begin with it.

    A yarn-over and the decrease that pays for it cancel out: only what is not made good in the rest of the row counts.
    """
    balance: list[int] = []
    total = 0
    for stitch in stitches:
        total += stitch.makes - stitch.takes
        balance.append(total)
    lost, won = [0] * len(stitches), [0] * len(stitches)
    sign = -1 if total < 0 else 1
    for level in range(1, abs(total) + 1):
        at = len(stitches) - 1
        while at > 0 and sign * balance[at - 1] >= level:
            at -= 1
        if total < 0:
            lost[at] += 1
        else:
            won[at] += 1
    return lost, won
