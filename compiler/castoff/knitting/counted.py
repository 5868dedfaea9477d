"""Which stitches a line counts: all on the needle, those between markers, those on one needle of a set.

In: the state of one size and the words behind a number ("between markers", "on needle 2"). Out: a way to count them, row
after row; or None with a fault where nobody can tell which ones are meant.
"""

from __future__ import annotations

from collections.abc import Callable
from itertools import pairwise

from castoff.knitting.divisions import on_needles
from castoff.knitting.faults import NO_MARKER, fault
from castoff.knitting.loops import hidden
from castoff.knitting.needle_numbers import needle_number
from castoff.knitting.short_rows import between_wraps, unwrapped
from castoff.knitting.state import SizeState
from castoff.span import Span

Counter = Callable[[], "int | None"]
"""The number of stitches meant, as the needle stands; None while nothing shows which they are."""

WHOLE = frozenset(
    {
        "", "in total", "in all", "in round", "in rnd", "in the round", "in the rnd", "in row", "on needle", "on needles",
        "on the needle", "on the needles", "on your needle", "on your needles", "for body", "for the body",
    }
)  # fmt: skip
"""Words that mean all the stitches on the needle."""
_PARTS = frozenset({"thumb", "gusset", "gussets", "panel", "centre", "center", "middle", "section", "heel"})


def counter_of(state: SizeState, where: str, span: Span) -> Counter | None:
    """A way to count the stitches that words name; None, with a fault, when they cannot be told."""
    if where.lower() in WHOLE:
        return lambda: state.piece.needle.stitches
    if between_wraps(where):
        return lambda: unwrapped(state)
    words = frozenset(where.lower().split())
    if words & {"needle", "needles"}:
        return _on_needle(state, where, span)
    found = _of_a_part(state, where.lower(), words)
    if found is None:
        _refuse(state, where, span)
    return found


def _of_a_part(state: SizeState, where: str, words: frozenset[str]) -> Counter | None:
    """A way to count stitches that markers part from others; None where no such markers are on the needle."""
    if words & {"before"}:
        return None if len(_parts(state, inner=False)) < 2 else lambda: _parts(state, inner=False)[0]
    if words & {"each", "either", "both"} and words & {"side", "sides"}:
        return None if len(_sides(state)) < 2 else lambda: _same(_sides(state))
    if words & (_PARTS | {"between"}):
        return _between(state) if _parts(state, inner=True) else None
    if where.startswith("each") and len(_parts(state, inner=False)) > 1:
        return lambda: _same(_parts(state, inner=False))
    return None


def _refuse(state: SizeState, where: str, span: Span) -> None:
    none = not any(not hidden(name) for _, name in state.piece.needle.marks)
    state.report(
        fault(
            NO_MARKER,
            span,
            "no markers are on the needle that part the sts {where} from the others"
            if none
            else "which sts are counted {where} cannot be told",
            hint="place a marker at each side of them" if none else "say `between markers`, or tell the number of all",
            where=where,
        )
    )
    state.piece.doubt = True


def _on_needle(state: SizeState, where: str, span: Span) -> Counter | None:
    lying = on_needles(state)
    if where.startswith(("on each", "each")):
        return lambda: _same(on_needles(state))
    number = needle_number(where.removeprefix("on ").removeprefix("the "))
    if len(lying) < 2 or not 0 < number <= len(lying):
        state.report(
            fault(
                NO_MARKER,
                span,
                "the sts {where} are to be counted; they lie on {needles} needle{s}",
                hint="say how many lie on each: `arrange sts over 3 needles: …`",
                where=where,
                needles=len(lying),
                s="" if len(lying) == 1 else "s",
            )
        )
        state.piece.doubt = True
        return None

    def now() -> int | None:
        # a row that goes wrong may leave the stitches on fewer needles
        parts = on_needles(state)
        return parts[number - 1] if number <= len(parts) else None

    return now


def _same(parts: list[int]) -> int | None:
    return parts[0] if len(set(parts)) == 1 else None


def _parts(state: SizeState, *, inner: bool) -> list[int]:
    """Stitches between the markers; with those outside of them, unless only the inner ones are meant.

    In the round its beginning parts stitches as well, where one marker alone has been placed.
    """
    needle = state.piece.needle
    places = [place for place, name in needle.marks if not hidden(name)]
    if not inner or (len(places) == 1 and state.piece.form == "round"):
        places = sorted({0, *places, needle.stitches})
    return [later - place for place, later in pairwise(places)]


def _sides(state: SizeState) -> list[int]:
    """Stitches at each side of a marked stitch, of a marker, or of the stitches between the outermost markers."""
    needle = state.piece.needle
    if needle.marked:
        return [needle.marked[0][0], needle.stitches - 1 - needle.marked[-1][0]]
    places = [place for place, name in needle.marks if not hidden(name)]
    return [places[0], needle.stitches - places[-1]] if places else []


def _between(state: SizeState) -> Counter:
    """Of several parts between markers, those that the rows change."""
    first = _parts(state, inner=True)
    chosen = list(range(len(first))) if len(set(first)) == 1 else None

    def now() -> int | None:
        nonlocal chosen
        parts = _parts(state, inner=True)
        if len(parts) != len(first):
            return None
        changed = [at for at, part in enumerate(parts) if part != first[at]]
        if changed and (chosen is None or changed != chosen):
            chosen = changed
        return None if chosen is None else _same([parts[at] for at in chosen])

    return now
