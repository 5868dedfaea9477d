"""The wraps of one row in work: which are ahead, which have been closed, which were left.

In: the wraps of a needle, laid out in the order in which a row meets them. Out: those of the needle that the row leaves.
Positions are of stitches: on the left needle counted from where the row starts, on the right needle from its first.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from castoff.knitting.loops import Wrap, ordered


@dataclass(slots=True)
class RowWraps:
    """What turns have left on the stitches of a row.

    ahead: on the left needle, ascending. made: on the right needle. picking: the row works every wrap with its stitch.
    closed: how many stitches have been worked with their wraps. left: wraps whose stitch was worked without them, and
    yarn-overs of turns that were worked as stitches. again: of each stitch wrapped in this row, whether it had a wrap.
    """

    ahead: list[Wrap] = field(default_factory=list)
    made: list[Wrap] = field(default_factory=list)
    picking: bool = False
    closed: int = 0
    left: list[Wrap] = field(default_factory=list)
    again: list[bool] = field(default_factory=list)

    def meet(self, pos: int, target: int, outn: int, *, slipped: bool = False, together: bool = False) -> None:
        """The stitches from `pos` to `target` are worked; slipped ones keep what they have.

        outn: stitches on the right needle before. together: two or more are worked as one, which closes a yarn-over.
        """
        while self.ahead and self.ahead[0].place < target:
            wrap = self.ahead.pop(0)
            if slipped:
                self.made.append(wrap.to(outn + wrap.place - pos))
            elif self.picking or wrap.kind == "ds" or (wrap.kind == "yo" and together):
                self.closed += 1
            else:
                self.left.append(wrap)

    def next_of(self, kinds: tuple[str, ...], least: int = 1) -> int | None:
        """Place of the next stitch ahead with a wrap of these kinds, or with so many of them."""
        return next((each.place for each in self.ahead if each.kind in kinds and each.times >= least), None)

    def at(self, place: int, kind: str) -> Wrap | None:
        """What the stitch at a place ahead has of a kind."""
        return next((each for each in self.ahead if each.place == place and each.kind == kind), None)

    def wrap(self, place: int) -> None:
        """Wraps the stitch at a place ahead, once more if it is wrapped already."""
        self.again.append(self.at(place, "wrap") is not None)
        self.ahead = list(ordered((*self.ahead, Wrap(place, "wrap"))))

    def shift(self, count: int) -> None:
        """Stitches from elsewhere were laid in before all those ahead."""
        self.ahead = [each.to(each.place + count) for each in self.ahead]

    def taken_out(self, target: int) -> tuple[Wrap, ...]:
        """Wraps of the stitches up to a place, which are put aside with them."""
        out = tuple(each for each in self.ahead if each.place < target)
        self.ahead = [each for each in self.ahead if each.place >= target]
        return out


def centre(wraps: tuple[Wrap, ...], stitches: int, at: int, *, round_: bool) -> tuple[int, int, int, int] | None:
    """The stitches between the innermost wraps of both sides, and what lies beyond.

    wraps: of the needle. at: where the yarn is. Returns (first, last, wrapped before, wrapped behind) of the stitches
    without a wrap about the yarn, or nearest to it; in a round the first may lie before its beginning. None without wraps.
    """
    if not wraps:
        return None
    places = sorted({wrap.place for wrap in wraps if wrap.kind != "yo"})
    if not places:
        return None
    runs = _runs(places, stitches, round_)
    if not runs:
        return None
    first, last = min(runs, key=lambda run: (_away(run, at, stitches if round_ else 0), run))
    if round_:
        # each side counts as far as the wraps follow one another, half a round at most
        before, behind = _beside(places, first, stitches, -1), _beside(places, last - 1, stitches, 1)
        return first, last, before, behind
    return first, last, sum(place < first for place in places), sum(place >= last for place in places)


def _runs(places: list[int], stitches: int, round_: bool) -> list[tuple[int, int]]:
    """Stretches of stitches without a wrap, as (first, place behind the last)."""
    if round_:
        gaps = [(one + 1, two) for one, two in zip(places, [*places[1:], places[0] + stitches], strict=True)]
    else:
        gaps = list(zip([0, *(place + 1 for place in places)], [*places, stitches], strict=True))
    return [(first, last) for first, last in gaps if last > first]


def _away(run: tuple[int, int], at: int, around: int) -> int:
    first, last = run
    here = at + around if around and at < first else at
    return max(0, first - here, here - last)


def _beside(places: list[int], edge: int, stitches: int, step: int) -> int:
    taken, found, here = {place % stitches for place in places}, 0, edge + step
    while here % stitches in taken and found < stitches:
        found += 1
        here += step
    return found
