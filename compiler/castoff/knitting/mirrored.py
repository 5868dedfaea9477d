"""Two sides of one shape held against each other, as they were knitted.

In: every size knitted, and which section is the other side of which. Out: a finding where the two sides do not come to the
same stitches by the same steps, in whatever rows.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from castoff.diagnostic import Diagnostic, Rule
from castoff.knitting.fabric import Knitted, SectionKnitted
from castoff.span import Span

MIRROR_DIFFERS = Rule(
    "mirror-differs",
    "error",
    """The two sides of a mirrored section are not the same shape.

The other side is knitted from the lines that were made for it, and held against the first: the same stitches, by the same
changes, in as many rows, one or two more or fewer where shaping went over to the other side of the fabric. Where they
differ, a line that was written out under `instead:` does not do what the first does, or the line before needs to say
on which side of the fabric it ends.

Fires:
    sections:
      - {title: Left side, work: "CO 20 sts.\\nRow 1 (RS): K5, ssk, k to end.\\nRow 2: Purl.\\nBO all sts."}
      - title: Right side
        mirrors: Left side
        instead:
          - {of: "Row 1 (RS): K5", work: "Row 1 (RS): K to last 7 sts, k3tog, k4."}
Silent:
    sections:
      - {title: Left side, work: "CO 20 sts.\\nRow 1 (RS): K5, ssk, k to end.\\nRow 2: Purl.\\nBO all sts."}
      - title: Right side
        mirrors: Left side
        instead:
          - {of: "Row 1 (RS): K5", work: "Row 1 (RS): K to last 7 sts, k2tog, k5."}
""",
)
RULES = (MIRROR_DIFFERS,)

MOST_ROWS_APART = 2


def mind_the_mirrors(
    knitted: Knitted, sizes: tuple[str, ...], pairs: Iterable[tuple[int, int, Span]]
) -> Iterator[Diagnostic]:
    """Findings on sections that are not the other side of what they mirror.

    pairs: the mirrored section, the one that it is made from, and the place of its `mirrors:`.
    """
    for second, first, span in pairs:
        apart: dict[str, list[str]] = {}
        for size, name in zip(knitted.sizes, sizes, strict=True):
            if max(first, second) < len(size.sections):
                said = _difference(size.sections[first], size.sections[second])
                if said:
                    apart.setdefault(said, []).append(name)
        for said, names in apart.items():
            title = knitted.sizes[0].sections[second].title
            yield Diagnostic.of(
                MIRROR_DIFFERS,
                f"`{title}` is not the other side of `{knitted.sizes[0].sections[first].title}`: {said}",
                span,
                sizes=() if len(names) == len(sizes) else names,
                hint="write the line that differs out under `instead:`, or the whole section as `work:`",
            )


def _difference(first: SectionKnitted, second: SectionKnitted) -> str:
    changes = [_changes(section) for section in (first, second)]
    for one, other in zip(*changes, strict=False):
        if one != other:
            return f"{_said(other)} where {_said(one)} should be"
    if len(changes[0]) != len(changes[1]):
        more, fewer = (changes[1], changes[0]) if len(changes[1]) > len(changes[0]) else changes
        what = _said(more[len(fewer)])
        return f"it also goes {what}" if more is changes[1] else f"it does not go {what}"
    rows = [sum(record.rows for record in section.records.folded()) for section in (first, second)]
    if abs(rows[0] - rows[1]) > MOST_ROWS_APART:
        return f"{rows[1]} rows for {rows[0]}"
    return ""


def _changes(section: SectionKnitted) -> list[tuple[int, int]]:
    """Stitches before and after each row that changes them; a row of short rows that comes back changes nothing."""
    return [
        (record.before, record.after)
        for record in section.records
        for _ in range(record.rows if record.before != record.after else 0)
    ]


def _said(change: tuple[int, int]) -> str:
    return f"from {change[0]} to {change[1]} sts"
