"""Pieces that belong together, size by size: one size in which they part company has a wrong number of rows.

In: all sizes, knitted. Out: faults. A back and its fronts end at the same row, or the same few rows apart, in every size:
shoulders are bound off from one side and from the other. Where that holds in all sizes but one, or but two neighbours that
have changed places, it is that size that is wrong.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from itertools import combinations

from castoff.knitting.fabric import PieceKnitted, SizeKnitted
from castoff.knitting.faults import PIECES_PART, Fault, fault
from castoff.span import Span

FEWEST_SIZES = 4
MOST_ROWS_APART = 4
"""Rows by which two pieces of a pair may end apart, in every size alike."""
FEWEST_LENGTHS = 3
"""Different lengths that a piece must have: bands of eight rows in all sizes say nothing about each other."""


def mind_pairs(sizes: Sequence[SizeKnitted]) -> list[tuple[int, Fault]]:
    """A fault for each size in which a piece has other rows than all other sizes lead one to expect."""
    if len(sizes) < FEWEST_SIZES:
        return []
    names = [name for name in sizes[0].pieces if all(name in size.pieces and size.pieces[name].rows for size in sizes)]
    odd: list[tuple[str, str, list[tuple[int, int]]]] = []
    for one, two in combinations(names, 2):
        off = _odd_sizes([(size.pieces[one].rows, size.pieces[two].rows) for size in sizes])
        if off:
            odd.append((one, two, off))
    if not odd:
        return []
    # a back that is off against both fronts is the piece that is wrong; of two pieces, the one that comes last
    named = Counter(name for one, two, _ in odd for name in (one, two))
    wrong = max(named, key=lambda name: (named[name], names.index(name)))
    one, two, off = next(each for each in odd if wrong in each[:2])
    other = two if wrong == one else one
    return [(size, _fault(sizes[size], wrong, other, rows if wrong == two else -rows)) for size, rows in off]


def _odd_sizes(rows: Sequence[tuple[int, int]]) -> list[tuple[int, int]]:
    """Sizes that are off, with the rows by which the second piece is too long; empty when none or more than a slip's."""
    apart = [second - first for first, second in rows]
    usual, times = Counter(apart).most_common(1)[0]
    lengths = {first for first, _ in rows}
    if abs(usual) > MOST_ROWS_APART or len(lengths) < FEWEST_LENGTHS:
        return []
    off = [(size, gap - usual) for size, gap in enumerate(apart) if gap != usual]
    one_off = len(off) == 1 and times >= FEWEST_SIZES - 1
    swapped = len(off) == 2 and times >= FEWEST_SIZES - 1 and off[1][0] == off[0][0] + 1 and off[0][1] == -off[1][1]
    return off if one_off or swapped else []


def _fault(size: SizeKnitted, wrong: str, other: str, rows: int) -> Fault:
    mine, theirs = size.pieces[wrong], size.pieces[other]
    last = _last_line(theirs)
    return fault(
        PIECES_PART,
        _last_line(mine),
        "{wrong} has {mine} rows to the {theirs} of {other}: {off} row{s} too {many} against all other sizes",
        hint="{right} rows",
        wrong=wrong,
        other=other,
        mine=mine.rows,
        theirs=theirs.rows,
        off=abs(rows),
        s="" if abs(rows) == 1 else "s",
        many="many" if rows > 0 else "few",
        right=mine.rows - rows,
        related=() if last is None else ((last, "the piece that it goes with"),),
    )


def _last_line(piece: PieceKnitted) -> Span | None:
    return next((record.span for record in reversed(piece.records) if record.span is not None), None)
