"""A stitch pattern that is declared the other side of another one, held against it stitch by stitch.

In: the stitch patterns with their rows, and which is the other side of which. Out: a finding for the first row that is no
mirror image: read from the other end, every stitch must be the one that leans the other way.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass

from castoff.diagnostic import Diagnostic, Related, Rule
from castoff.knitting.chart import MOST_REPEATS, ChartRow, Untold, stitches_of
from castoff.knitting.plan import Plan, StitchPattern
from castoff.span import Span

NOT_MIRRORED = Rule(
    "patterns-not-mirrored",
    "error",
    """A stitch pattern is declared the other side of another one, and is not.

`mirror:` under a stitch pattern is a promise that is kept stitch by stitch: the same rows over the same stitches, each row
read from its other end, decreases and crossings leaning the other way. A pattern may be its own mirror image. Rows that
are not told stitch by stitch cannot be held to it.

Fires:
    stitch_patterns:
      tilt: {multiple: 4, rows: "Row 1 (RS): *K1, k2tog, yo, k1; rep from * to end.\\nRow 2: Purl."}
      lean: {multiple: 4, mirror: tilt, rows: "Row 1 (RS): *K1, yo, k2tog, k1; rep from * to end.\\nRow 2: Purl."}
Silent:
    stitch_patterns:
      tilt: {multiple: 4, rows: "Row 1 (RS): *K1, k2tog, yo, k1; rep from * to end.\\nRow 2: Purl."}
      lean: {multiple: 4, mirror: tilt, rows: "Row 1 (RS): *K1, yo, ssk, k1; rep from * to end.\\nRow 2: Purl."}
""",
)
RULES = (NOT_MIRRORED,)

Mirror = Callable[[str], str]


@dataclass(frozen=True, slots=True)
class Pair:
    """A stitch pattern and the one that it is declared the other side of, by their names; place: of `mirror:`."""

    second: str
    first: str
    place: Span


def mind_mirrored_patterns(pairs: Iterable[Pair], plan: Plan, mirror: Mirror) -> Iterator[Diagnostic]:
    """Findings on stitch patterns that are not the mirror image they are declared to be; of two that name each other,
    the later one is held to the earlier. mirror: the stitch that leans the other way, "" when there is none."""
    seen: set[frozenset[str]] = set()
    for pair in pairs:
        names = frozenset((pair.first.lower(), pair.second.lower()))
        first, second = plan.patterns.get(pair.first.lower()), plan.patterns.get(pair.second.lower())
        if first is None or second is None or (names in seen and len(names) > 1):
            continue
        seen.add(names)
        found = _difference(first, second, plan, mirror)
        if found is not None:
            why, place = found
            message = (
                f"`{pair.second}` is no mirror image of {'itself' if len(names) == 1 else f'`{pair.first}`'}: {why}"
            )
            yield Diagnostic.of(
                NOT_MIRRORED, message, place or pair.place, related=(Related(pair.place, "so it is declared here"),)
            )


def _difference(
    first: StitchPattern, second: StitchPattern, plan: Plan, mirror: Mirror
) -> tuple[str, Span | None] | None:
    if (first.multiple, first.plus) != (second.multiple, second.plus):
        return (
            f"it is worked over a multiple of {second.multiple} sts plus {second.plus}, "
            f"not of {first.multiple} plus {first.plus}",
            None,
        )
    why: tuple[str, Span | None] | None = None
    for repeats in range(1, MOST_REPEATS + 1):
        mine, other = stitches_of(second, plan, repeats), stitches_of(first, plan, repeats)
        if isinstance(mine, Untold) or isinstance(other, Untold):
            untold = mine if isinstance(mine, Untold) else other
            if isinstance(untold, Untold) and why is None:
                why = f"{untold.why}, so that it cannot be told", untold.span
            continue
        return _rows_differ(mine, other, mirror)
    return why


def _rows_differ(
    mine: tuple[ChartRow, ...], other: tuple[ChartRow, ...], mirror: Mirror
) -> tuple[str, Span | None] | None:
    for one, two in zip(mine, other, strict=False):
        label = f"row {one.number}"
        if one.side != two.side:
            return f"{label} is a {one.side} row here and a {two.side} row there", one.span
        wanted = [(mirror(each.stitch).lower(), each.yarn) for each in reversed(two.worked)]
        for at, (each, (stitch, yarn)) in enumerate(zip(one.worked, wanted, strict=False), start=1):
            source = two.worked[len(two.worked) - at].stitch.lower()
            if not stitch:
                return f"{label}: nothing is known to be the mirror image of `{source}`", one.span
            if each.stitch.lower() != stitch:
                return (
                    f"{label}: st {at} is `{each.stitch.lower()}`, the mirror image of `{source}` is `{stitch}`",
                    one.span,
                )
            if each.yarn != yarn:
                return f"{label}: st {at} is worked in {each.yarn or 'no yarn of its own'}, there in {yarn}", one.span
        if len(one.worked) != len(wanted):
            return f"{label} works {len(one.worked)} sts, there {len(wanted)}", one.span
    if len(mine) != len(other):
        return f"it has {len(mine)} rows, there are {len(other)}", None
    return None
