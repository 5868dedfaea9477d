"""The buttonholes knitted are not as many as the buttons listed.

Every button needs its hole. Holes are counted in the rows whose line speaks of a buttonhole: stitches bound off in the
row, or a yarn-over (two side by side are one hole), as often as the row is worked and the piece is made. Where a hole may
lie in a row that does not say so, or a button is told to be spare, nothing is found.

Fires:
    notions: [3 buttons 15 mm]
    Buttonhole row (RS): K4, *yo, k2tog, k16; rep from * once more.
    Work 3 rows in st st.

Fires:
    notions: [5 buttons 15 mm]
    Buttonhole row 1 (RS): *K6, bind off 3 sts; rep from * 3 more times, k to end.
    Buttonhole row 2 (WS): Purl, casting on 3 sts over each buttonhole.

Silent:
    notions: [2 buttons 15 mm]
    Buttonhole row (RS): K4, *yo, k2tog, k16; rep from * once more.
    Work 3 rows in st st.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from castoff.checks.evidence import Evidence
from castoff.diagnostic import Diagnostic, Related, Rule
from castoff.grading.evaluate import resolve
from castoff.knitting.fabric import Done, RowRecord, SizeKnitted, Worked
from castoff.notation.syntax import InstructionLine, UnreadLine
from castoff.numeral import NumeralList, read_list
from castoff.per_size import pair_list
from castoff.span import Span, Text

RULE = Rule("buttonholes-off", "error", __doc__ or "")

_BUTTONS = re.compile(r"\bbuttons?\b", re.IGNORECASE)
_LOOSELY = re.compile(r"\b(?:spare|extra|or|optional|decorative|eyes?|about|approx\w*)\b", re.IGNORECASE)
_HOLE = re.compile(r"\bbutton-?\s?holes?\b", re.IGNORECASE)
_OTHER_OVERS = re.compile(r"\b(?:patt|pattern|lace|charts?)\b", re.IGNORECASE)
_FORMULA = re.compile(r"\{([^{}\n]*)\}")
MOST_OF_A_HOLE = 8
"""Stitches bound off for a buttonhole at most; wider gaps are for thumbs, pockets and necks (from memory)."""


@dataclass(frozen=True, slots=True)
class Holes:
    """Holes of one size. sure: in rows that speak of buttonholes; perhaps: in rows that may hold some unsaid."""

    sure: int
    perhaps: int
    first: Span | None


def find(evidence: Evidence) -> Iterator[Diagnostic]:
    """One finding for a list of buttons that the holes do not match."""
    listed = [text for text in evidence.pattern.notions if _BUTTONS.search(text.value)]
    if not listed or any(_LOOSELY.search(text.value) for text in listed):
        return
    if any(isinstance(line, UnreadLine) for lines in evidence.lines for line in lines):
        return
    counts = [_count_of(text, evidence) for text in listed]
    told = [line.span for lines in evidence.lines for line in lines if isinstance(line, InstructionLine)]
    told = [span for span in told if _HOLE.search(span.source.text[span.start : span.end])]
    sizes = evidence.knitted.sizes
    holes = [_holes(size, told) for size in sizes]
    if any(values is None for values in counts) or len(sizes) != len(evidence.sizes):
        return
    wanted = [sum(values[at] for values in counts if values is not None) for at in range(len(sizes))]
    wrong = [at for at, hole in enumerate(holes) if hole.sure and not _fits(hole, wanted[at])]
    if not wrong:
        return
    axes, opener, grouping = evidence.pattern.sizes.axes, evidence.pattern.sizes.opener, evidence.pattern.sizes.grouping
    have = pair_list([str(hole.sure) for hole in holes], axes, opener, grouping)
    said = pair_list([str(number) for number in wanted], axes, opener, grouping)
    first = next((hole.first for hole in holes if hole.first is not None), None)
    yield Diagnostic.of(
        RULE,
        f"{said} button{'' if said == '1' else 's'} are listed, {have} buttonhole{'' if have == '1' else 's'} are knitted",
        listed[0].span(),
        sizes=() if len(wrong) == len(sizes) else tuple(evidence.sizes[at] for at in wrong),
        hint=f"{have} buttons, or as many buttonholes as buttons",
        related=() if first is None else (Related(first, "buttonholes are worked here"),),
    )


def _fits(holes: Holes, wanted: int) -> bool:
    return holes.sure <= wanted <= holes.sure + holes.perhaps


def _count_of(text: Text, evidence: Evidence) -> tuple[int, ...] | None:
    """How many buttons a notion lists in each size; None when it does not say in numbers."""
    start = len(text.value) - len(text.value.lstrip())
    formula = _FORMULA.match(text.value, start)
    if formula is not None:
        found = resolve(text.part(formula.start(1), formula.end(1)), evidence.numbers).value
        values = () if found is None else found.values
    else:
        listed = read_list(text.value, start, evidence.pattern.sizes.axes)
        values = listed.values if isinstance(listed, NumeralList) and listed.unit is None else ()
    if len(values) == 1:
        values = values * len(evidence.sizes)
    whole = tuple(int(value) for value in values if value is not None and value.denominator == 1)
    return whole if len(whole) == len(evidence.sizes) else None


def _holes(size: SizeKnitted, told: Sequence[Span]) -> Holes:
    sure = perhaps = 0
    first: Span | None = None
    for piece in size.pieces.values():
        for record in piece.records:
            bound = [event for event in record.changes if event.kind == "bind off"]
            line = next((span for span in told if _inside(record.span, span)), None)
            if line is not None and record.label != "row between":
                found = (len(bound) or _overs(record.worked)) * record.rows * piece.make
                if not bound and _OTHER_OVERS.search(line.source.text[line.start : line.end]):
                    perhaps += found  # yarn-overs of the pattern beside those of the buttonholes
                    continue
                sure += found
                first = first or (record.span if found else None)
            elif not record.short:
                perhaps += _unsaid(record) * record.rows * piece.make
    return Holes(sure, perhaps, first)


def _inside(span: Span | None, line: Span) -> bool:
    return span is not None and span.source is line.source and line.start <= span.start < line.end


def _overs(worked: Iterable[Worked]) -> int:
    """Yarn-overs, side by side counted once."""
    return sum(
        int("yo" in each.stitch.lower()) if isinstance(each, Done) else _overs(each.body) * each.times
        for each in worked
    )


def _unsaid(record: RowRecord) -> int:
    """Gaps of a buttonhole's width that a row leaves in its middle without a word of buttonholes."""
    bound = [event.count for event in record.changes if event.kind == "bind off" and event.count <= MOST_OF_A_HOLE]
    first = record.worked[0] if record.worked else None
    if isinstance(first, Done) and first.stitch == "bind off":
        return 0  # an armhole or a shoulder, at the edge
    return len(bound) if record.after + sum(bound) == record.before else 0
