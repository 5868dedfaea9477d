"""Faults of all sizes made into findings: one for each fault, with the sizes it hits and their numbers side by side.

In: faults of single sizes, each a wording with blanks and the numbers for them. Out: diagnostics, one for each fault
with the numbers of all the sizes that it hits, "72 (80, 88)".
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from castoff.diagnostic import Diagnostic, Related
from castoff.knitting.faults import (
    BOUND_OFF_TOO_MANY,
    COLUMNS_SHIFTED,
    DOES_NOT_DIVIDE,
    IDLE_REPEAT,
    LEFT_OVER,
    MARKER_IN_THE_WAY,
    NEVER_ENDS,
    NO_MARKER,
    NOT_HELD,
    PART_OFF,
    TOO_FEW,
    TOTAL_OFF,
    WRONG_ENDING,
    Fault,
    Values,
)
from castoff.per_size import axes_of, size_list
from castoff.span import Span


def merged(found: Sequence[tuple[int, Fault]], sizes: tuple[str, ...]) -> tuple[Diagnostic, ...]:
    """One diagnostic for each fault, over all the sizes it hits, in the order in which they came up.

    found: (index of the size, fault). What goes wrong at one line in different ways in different sizes is one fault too:
    the first way, with the others beside it.
    """
    groups: dict[tuple[object, ...], list[tuple[int, Fault]]] = {}
    for size, each in found:
        related = tuple((_place(pointer.span), pointer.message) for pointer in each.related)
        key = (each.rule.name, _place(each.span), each.message, each.hint, related)
        members = groups.setdefault(key, [])
        if all(size != other for other, _ in members):
            members.append((size, each))
    ways: dict[object, list[list[tuple[int, Fault]]]] = {}
    for at, members in enumerate(groups.values()):
        members.sort(key=lambda pair: pair[0])
        first = members[0][1]
        line = at if first.span is None or first.rule not in _OF_ROWS else (first.span.source.name, first.span.line)
        others = ways.setdefault(line, [])
        # in one size the first fault of a line is told; the next one is as likely to follow from it
        seen = {size for way in others for size, _ in way}
        left = [(size, each) for size, each in members if size not in seen]
        if left:
            others.append(left)
    return tuple(_together([_diagnostic(way, sizes) for way in each], sizes) for each in ways.values())


_OF_ROWS = (
    TOO_FEW, LEFT_OVER, DOES_NOT_DIVIDE, TOTAL_OFF, MARKER_IN_THE_WAY, NO_MARKER, PART_OFF, NEVER_ENDS, COLUMNS_SHIFTED,
    IDLE_REPEAT, BOUND_OFF_TOO_MANY, NOT_HELD, WRONG_ENDING,
)  # fmt: skip
"""Faults by which one wrong number in a row may show, in one size so and in another so."""


def _place(span: Span | None) -> tuple[str, int, int] | None:
    return None if span is None else (span.source.name, span.start, span.end)


def _together(ways: Sequence[Diagnostic], sizes: tuple[str, ...]) -> Diagnostic:
    """What goes wrong at one line, in different sizes in different ways."""
    first = ways[0]
    if len(ways) == 1:
        return first
    hit = {size for way in ways for size in way.sizes}
    others = tuple(
        Related(way.span, f"in {', '.join(way.sizes)}: {way.message}") for way in ways[1:] if way.span is not None
    )
    everywhere = tuple(size for size in sizes if size in hit)
    return replace(first, sizes=() if len(everywhere) == len(sizes) else everywhere, related=(*first.related, *others))


def _listed(texts: tuple[str, ...], hit: list[int], sizes: tuple[str, ...]) -> str:
    """Numbers of the sizes that are hit: a list for each run of sizes along one direction, where there are several."""
    runs = [[text for size, text in zip(hit, texts, strict=True) if size in run] for run in axes_of(sizes).runs]
    lists = dict.fromkeys(each[0] if len(set(each)) == 1 else size_list(tuple(each)) for each in runs if each)
    return " | ".join(lists)


def in_words(found: Fault) -> str:
    """The message of a fault in the size in which it was found."""
    return _filled(found.message, {name: str(value) for name, value in found.values})


def _diagnostic(members: list[tuple[int, Fault]], sizes: tuple[str, ...]) -> Diagnostic:
    first = members[0][1]
    blanks = _blanks([(size, each.values) for size, each in members], sizes)
    everyone = len(members) == len(sizes)
    related = []
    for at, pointer in enumerate(first.related):
        mine = blanks | _blanks([(size, each.related[at].values) for size, each in members], sizes)
        related.append(Related(pointer.span, _filled(pointer.message, mine)))
    return Diagnostic.of(
        first.rule,
        _filled(first.message, blanks),
        first.span,
        sizes=() if everyone else tuple(sizes[size] for size, _ in members),
        hint=None if first.hint is None else _filled(first.hint, blanks),
        related=tuple(related),
    )


def _blanks(members: list[tuple[int, Values]], sizes: tuple[str, ...]) -> dict[str, str]:
    """What goes into the blanks: a number, or one for each of the sizes that are hit."""
    blanks: dict[str, str] = {}
    for at, (name, value) in enumerate(members[0][1]):
        texts = tuple(str(values[at][1]) for _, values in members)
        blanks[name] = str(value) if len(set(texts)) == 1 else _listed(texts, [size for size, _ in members], sizes)
    return blanks


def _filled(wording: str, blanks: dict[str, str]) -> str:
    for name, text in blanks.items():
        wording = wording.replace("{" + name + "}", text)
    return wording
