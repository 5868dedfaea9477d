"""Stitches are to change evenly, and the row does not say where.

In a pattern for beginners the spacing is worth printing: a knitter who works it out by herself often ends a stitch out,
or with the changes at one side. Told for patterns of the skills `basic` and `easy`; the hint is the row written out.

Fires:
    skill: easy
    measurements: {width: {label: Width, is: 22 cm, of: width of Swatch}}
    Next row (RS): Inc 4 sts evenly across. 44 sts.

Silent:
    skill: complex
    measurements: {width: {label: Width, is: 22 cm, of: width of Swatch}}
    Next row (RS): Inc 4 sts evenly across. 44 sts.
"""

from __future__ import annotations

from collections.abc import Iterator

from castoff.checks.evidence import Evidence, Placed
from castoff.diagnostic import Diagnostic, Rule
from castoff.notation.syntax import Evenly, ToEnd

RULE = Rule("evenly-unspaced", "note", __doc__ or "")


def find(evidence: Evidence) -> Iterator[Diagnostic]:
    """One finding for each row of even changes in an easy pattern."""
    skill = evidence.pattern.skill
    if skill is None or skill.value not in ("basic", "easy"):
        return
    for placed in evidence.placed:
        node = placed.node
        if isinstance(node, Evenly) and (node.target is None or isinstance(node.target, ToEnd)):
            rows = {row for size in range(len(evidence.sizes)) if (row := _row(evidence, placed, node, size))}
            offered = sorted(rows)[0] if len(rows) == 1 else None
            yield Diagnostic.of(
                RULE,
                f"{'decreases' if node.decrease else 'increases'} are to be spaced by the knitter",
                node.span,
                hint=f"write `{offered}`" if offered else "write the row out, size by size",
            )


def _row(evidence: Evidence, placed: Placed, node: Evenly, size: int) -> str | None:
    """The row written out for one size, from the stitches that the needle had before it."""
    before = next(
        (
            record.before
            for section in evidence.knitted.sizes[size].sections
            for record in section.records
            if record.span is not None and placed.line.span.start <= record.span.start < placed.line.span.end
        ),
        None,
    )
    if before is None:
        return None
    made = None if node.made is None else node.made.at(size)
    change = (0 if node.change is None else node.change.at(size)) if made is None else made - before
    return spaced_row(before, abs(change), node.decrease) if change else None


def spaced_row(stitches: int, changes: int, decrease: bool) -> str | None:
    """A row with changes as even as can be, the first and the last stretch balanced; None when they do not fit.

    "k7, *m1, k14; rep from * 4 times more, m1, k7" makes 6 increases across 84 stitches.
    """
    plain = stitches - 2 * changes if decrease else stitches
    if changes < 1 or plain < (0 if decrease else changes):
        return None
    word = "k2tog" if decrease else "m1"
    gap, spare = divmod(plain, changes)
    first, last = (gap + spare) // 2, (gap + spare + 1) // 2
    parts = [f"k{first}"] if first else []
    if changes > 2 and gap:
        parts.append(f"*{word}, k{gap}; rep from * {changes - 2} times more")
    elif changes > 1:
        parts += [f"{word}, k{gap}" if gap else word] * (changes - 1)
    parts.append(word)
    if last:
        parts.append(f"k{last}")
    return ", ".join(parts)
