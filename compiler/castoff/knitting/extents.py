"""How far to go on: rows, lengths, counts.

In: an extent of the syntax tree and where the knitting stands. Out: the number of rows.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from castoff.knitting.charts import panels_on, pattern_of
from castoff.knitting.faults import LENGTH_PASSED, NEVER_ENDS, NO_SUCH_ROW, NOT_SHORTER, WRONG_ENDING, fault
from castoff.knitting.pattern_rows import rows_of_pattern
from castoff.knitting.row_faults import other
from castoff.knitting.state import PieceState, SizeState
from castoff.notation.syntax import (
    Extent,
    ForLength,
    ForRows,
    Landmark,
    Side,
    UntilLength,
    UntilMatch,
    UntilRow,
    UntilStitches,
)
from castoff.span import Span

_PARTS = {
    "armhole": "armhole",
    "armholes": "armhole",
    "foot": "heel",
    "heel": "heel",
    "yoke": "division",
    "rib": "section",
    "ribbing": "section",
    "brim": "section",
    "cuff": "section",
    "band": "section",
    "border": "section",
    "neckband": "picked-up",
    "edging": "section",
    "hem": "section",
    "heel flap": "section",
    "flap": "section",
    "toe": "section",
    "section": "section",
    "welt": "section",
    "strap": "section",
}
"""What a part of a piece is measured from when the line does not say: its own beginning (common practice)."""


_FINGERS = (["finger"], ["fingers"], ["thumb"], ["thumbs"], ["pinky"], ["pinkie"], ["digit"])
"""Last words of parts that are measured from where their own stitches were taken up (common practice)."""

_EDGES = frozenset({"rib", "ribbing", "cuff", "band", "border", "edging", "hem", "welt"})
"""Parts that begin where the needles change or rows are numbered anew, in mid-section (common practice)."""


def start_of(state: SizeState, what: str, origin: Landmark | None) -> tuple[int, Fraction]:
    """Row and length that something is measured from."""
    marks = state.piece.landmarks
    start = marks.get("section", (0, Fraction(0)))
    if origin is not None:
        kind = origin.kind.lower()
        if kind in ("cast-on", "beginning", "brim", "piece", "start"):
            return (0, Fraction(0))
        if kind in marks:
            return marks[kind]
        if kind.startswith(("cast-on st", "cast on st")) and "cast-on sts" in marks:
            return marks["cast-on sts"]  # "from cast-on sts at thumb"
        for name in (kind.split()[-1], origin.words.lower()):
            if name in marks:
                return marks[name]
        if "heel" in kind:
            return marks.get("heel", start)
        if "armhole" in kind or "underarm" in kind:
            return marks.get("armhole", marks.get("underarm", start))
        return start if kind != "marker" else marks.get("marker", start)
    if what.lower().split()[-1:] in _FINGERS and what.lower() != state.piece.name.lower():
        return state.piece.finger[1:]
    if what.lower() == "leg" and "heel worked" in marks:
        # from the toe up it begins above the heel (common practice)
        return max(start, marks["heel worked"], key=lambda place: place[1])
    part = _PARTS.get(what.lower())
    if part == "armhole":
        return marks.get("armhole", marks.get("bind-off", marks.get("marker", start)))
    if what.lower() in ("rib", "ribbing") and what.lower() != state.piece.name.lower():
        return max(start, marks.get("needles", start), _rib_begins(state.piece), key=lambda place: place[1])
    if part is not None and part in marks and what.lower() != state.piece.name.lower():
        if part == "section" and what.lower() in _EDGES:
            return max(start, marks.get("needles", start), marks.get("numbered", start), key=lambda place: place[1])
        return marks[part]
    return (0, Fraction(0))


def _rib_begins(piece: PieceState) -> tuple[int, Fraction]:
    """Where the rows with knit and purl stitches side by side begin that were worked last; here when there are none."""
    before = len(piece.records)
    while before and {"k", "p"} <= set(piece.records[before - 1].faces):
        before -= 1
    if before == len(piece.records):
        return piece.rows, piece.length
    return (piece.records[before - 1].last_row, piece.records[before - 1].length_mm) if before else (0, Fraction(0))


def nearest(value: Fraction) -> int:
    """The nearest whole number, halves up."""
    return (2 * value.numerator + value.denominator) // (2 * value.denominator)


def rows_for_length(state: SizeState, millimetres: Fraction) -> int | None:
    """Whole rows nearest to a length; None without a gauge."""
    height = state.row_height()
    return None if not height else nearest(millimetres / height)


def rows_of_extent(state: SizeState, extent: Extent, cycle: int = 1) -> int | None:
    """How many rows an extent asks for; None when it counts stitches instead, or no gauge tells.

    cycle: rows that belong together. A length is the nearest whole number of cycles, and one row more when the line says
    which row it ends with.
    """
    until = extent.until
    if isinstance(until, ForRows):
        rows = state.number_of(until.rows)
        _mind_ending(state, extent, rows)
        return rows
    if isinstance(until, UntilStitches):
        return None
    if isinstance(until, UntilMatch):
        return _at_least(state, extent, _as_other(state, until))
    if isinstance(until, UntilRow):
        return _rows_to(state, until)
    if not isinstance(until, (UntilLength, ForLength)):
        return 0
    wanted = until.length.at(state.size)
    if wanted is None:
        return 0
    if isinstance(until, UntilLength) and until.short_of == until.length and until.origin is None:
        foot = _foot(state, until)
        if foot is None:
            state.report(
                fault(
                    NEVER_ENDS,
                    until.span,
                    "how long the desired length is, is not told",
                    hint="write the length first: `until {what} measures 20 cm, or 4 cm less than desired length`{foot}",
                    what=until.what,
                    foot=", or give `foot_length` under `body:`" if until.what in _FEET else "",
                )
            )
            state.piece.doubt = True
            return 0
        wanted = foot - wanted
    if isinstance(until, ForLength):
        left = wanted
    else:
        _, begun = start_of(state, until.what, until.origin)
        left = wanted - (state.piece.length - begun)
    found = rows_for_length(state, left)
    if found is None:
        return _at_least(state, extent, 2)
    if found < 0:
        if isinstance(until, UntilLength) and not state.piece.doubt:
            have = state.piece.length - start_of(state, until.what, until.origin)[1]
            state.report(
                fault(
                    LENGTH_PASSED,
                    until.span,
                    "it measures {have} mm already, {wanted} mm are asked for",
                    have=nearest(have),
                    wanted=nearest(wanted),
                )
            )
        return 0
    if cycle > 1 and extent.ending is None:
        return max(nearest(Fraction(found, cycle)), 0) * cycle
    return _at_least(state, extent, found)


_FEET = frozenset({"foot", "sock"})


def _foot(state: SizeState, until: UntilLength) -> Fraction | None:
    """How long the foot is that a sock is knitted for, where the pattern says it."""
    feet = state.plan.foot_mm
    return feet[state.size] if feet and until.what in _FEET else None


def _last_side(state: SizeState, rows: int) -> Side | None:
    """Which side the last of so many rows is worked on; None in the round."""
    piece = state.piece
    if piece.form == "round" and not piece.turned:
        return None
    due: Side = piece.due or "RS"
    if rows == 0:
        return other(due) if piece.started else None
    return due if rows % 2 else other(due)


def _at_least(state: SizeState, extent: Extent, rows: int) -> int:
    last = _last_side(state, rows)
    if extent.ending is not None and last is not None and last != extent.ending:
        return rows + 1
    return rows


def _mind_ending(state: SizeState, extent: Extent, rows: int) -> None:
    last = _last_side(state, rows)
    if extent.ending is not None and last is not None and last != extent.ending:
        state.report(
            fault(
                WRONG_ENDING,
                extent.span,
                "{rows} rows end with a {last} row, not with a {ending} row",
                rows=rows,
                last=last,
                ending=extent.ending,
                hint="{less} or {more} rows would",
                less=rows - 1,
                more=rows + 1,
            )
        )


def mind_ending_row(state: SizeState, extent: Extent, rows: int, numbers: Sequence[int]) -> int:
    """Rows to be worked so that the last one has the number that the line names ("ending with row 4").

    numbers: of the rows from here on, in turn. A length goes on to that row; a number of rows must end with it.
    """
    wanted = None if extent.ending_row is None else extent.ending_row.at(state.size)
    if wanted is None or state.piece.doubt:
        return rows
    if extent.ending_chart:
        named = chart_rows(state, extent.ending_chart, extent.span)
        if named is None:
            return rows
        numbers = [(named[1] + at) % named[2] + 1 for at in range(named[2])]
    last = numbers[(rows - 1) % len(numbers)] if numbers and rows else None
    if last == wanted:
        return rows
    if last is not None and wanted in numbers and not isinstance(extent.until, ForRows):
        more = (numbers.index(wanted) - numbers.index(last)) % len(numbers)
        return rows + more
    state.report(
        fault(
            WRONG_ENDING,
            extent.span,
            "{rows} rows end with row {last}, not with row {wanted}"
            if last is not None
            else "no row {wanted} is in work",
            rows=rows,
            last=last or 0,
            wanted=wanted,
        )
    )
    return rows


def chart_rows(state: SizeState, chart: str, span: Span) -> tuple[str, int, int] | None:
    """The chart that is meant, its row worked last, and how many it has; None, with a fault, when it is not in work.

    chart: its name; "" or "chart" for the only one in work.
    """
    piece = state.piece
    name = chart.lower()
    if name in ("", "chart"):
        here = dict.fromkeys(pattern_of(each) for each in panels_on(piece.needle))
        fabric = piece.fabric.name.lower() if piece.fabric is not None else ""
        known = list(here) or (
            [fabric]
            if fabric in state.plan.patterns
            else list(dict.fromkeys(pattern_of(each) for each in piece.pattern_rows))
        )
        if len(known) == 1:
            name = known[0]
    rows = len(rows_of_pattern(state, name))
    if rows and name in piece.pattern_rows:
        return name, piece.pattern_rows[name], rows
    if not piece.doubt:
        state.report(
            fault(
                NO_SUCH_ROW,
                span,
                "{name} is not in work" if name not in ("", "chart") else "which chart is meant is not told",
                name=state.plan.called(name),
                hint="name one that has been begun",
            )
        )
    return None


def _rows_to(state: SizeState, until: UntilRow) -> int:
    """Rows still to be worked to a row of a chart."""
    found = chart_rows(state, until.chart, until.span)
    if found is None:
        return 0
    name, last, rows = found
    wanted = rows if until.row is None else until.row.at(state.size)
    if wanted is None:
        return 0
    if not 0 < wanted <= rows or (until.all and wanted != rows):
        state.report(
            fault(
                NO_SUCH_ROW,
                until.span,
                "row {wanted} of {name} is told; it has {rows} rows",
                hint="row {rows}",
                wanted=wanted,
                name=state.plan.called(name),
                rows=rows,
            )
        )
        return 0
    more = (wanted - last) % rows if last else wanted
    if not more:
        state.report(
            fault(
                WRONG_ENDING,
                until.span,
                "row {wanted} of {name} has been worked already",
                hint="a row further on, or how often the chart is worked again",
                wanted=wanted,
                name=state.plan.called(name),
            )
        )
    return more


def _as_other(state: SizeState, until: UntilMatch) -> int:
    """Rows that are still missing to the length of another piece, or to a point of it."""
    found = find_piece(state, until.piece)
    if found is None:
        other_part = _other_part(state.piece, until.piece)
        if other_part is not None:
            return max(0, other_part - state.number_of(until.short_of, 0) - state.piece.rows)
        state.report(fault(NOT_SHORTER, until.span, "no piece is called {name}", name=until.piece))
        return 0
    rows = found.rows
    to = until.to.lower()
    for name, (row, _) in found.landmarks.items():
        if name and name in to:
            rows = row
    armhole = not to and until.what.lower().startswith("armhole")  # its depth, which ends where the shoulder begins
    if ("shoulder" in to or armhole) and "bind-off" in found.landmarks:
        # the shoulders are what is bound off last
        rows = last_straight(found)
    elif "armhole" in to and "armhole" not in found.landmarks and "bind-off" in found.landmarks:
        rows = found.landmarks["bind-off"][0] - 1
    return max(0, rows - state.number_of(until.short_of, 0) - state.piece.rows)


def _other_part(piece: PieceState, name: str) -> int | None:
    """The row with which a part is as long as an earlier part of the same piece; None when none is called so.

    That is the last row of the other before its shoulder is bound off. Where the work goes on from it over the shoulder,
    it is as many rows again.
    """
    wanted = name.lower().split()
    places = [
        at for at, (words, _, _) in enumerate(piece.called) if set(wanted) <= set(words.replace(",", " ").split())
    ]
    if not places:
        return None
    _, part, start = piece.called[places[-1]]
    rows = [record.last_row for record in piece.records.folded() if record.part == part and not record.short]
    later = [row for _, other, row in piece.called[places[-1] + 1 :] if other == part]
    end = later[0] if later else max(rows, default=0)
    parted = piece.begun[0] if piece.part else piece.landmarks.get("division", (0, Fraction(0)))[0]
    if parted and end <= parted:
        return 2 * parted
    if part == piece.part:
        return None
    bound = [
        record.row
        for record in piece.records
        if record.part == part and start < record.row <= end and any(each.kind == "bind off" for each in record.changes)
    ]
    first = bound[-1] if bound else end + 1
    for row in reversed(bound):
        if first - row > 2:
            break
        first = row
    return first - 1


def last_straight(piece: PieceState) -> int:
    """The row before the last run of bound-off rows of a piece."""
    rows = [record.row for record in piece.records if any(event.kind == "bind off" for event in record.changes)]
    if not rows:
        return piece.rows
    first = rows[-1]
    for row in reversed(rows):
        if first - row > 2:
            break
        first = row
    return first - 1


def find_piece(state: SizeState, name: str) -> PieceState | None:
    """A piece that has been begun, by its name."""
    wanted = name.lower().strip()
    for each in state.pieces.values():
        if each.name.lower() == wanted:
            return each
    return next(
        (each for each in state.pieces.values() if wanted in each.name.lower() and each is not state.piece), None
    )
