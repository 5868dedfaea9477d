"""What a row needs to know besides its needle, and what it made.

In: nothing. Out: `Reading`, `RowSetting` and `RowResult`, frozen, so that equal rows are worked once.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from castoff.knitting.fabric import Event, Halt, Worked
from castoff.knitting.faults import Fault
from castoff.knitting.loops import Group, Needle, Wrap
from castoff.notation.syntax import Action, Form, Side

Standing = Literal["same", "flip"]
"""How the fabric goes on by itself: every stitch as it shows, or every stitch the other way (garter, seed stitch)."""

_OTHER = str.maketrans("kpy", "pkp")
_SETTLED = str.maketrans("y", "k")


def flipped(faces: str) -> str:
    """Knits for purls and purls for knits."""
    return faces.translate(_OTHER)


def settled(faces: str) -> str:
    """The same faces once the yarn-overs have been worked."""
    return faces.translate(_SETTLED)


@dataclass(frozen=True, slots=True)
class Reading:
    """How the words of a row are taken where the trade reads them two ways.

    more: "6 times" after a starred repeat means six more. loop_counted: the loop left by binding off is a stitch of
    its own, before the next that are named. cross_gaps: the row runs on over a gap.
    """

    more: bool = False
    loop_counted: bool = True
    cross_gaps: bool = False


@dataclass(frozen=True, slots=True)
class RowSetting:
    """What a row needs to know besides its needle.

    standing: how the fabric goes on. pattern_rows: place of a chart (`charts.py`) to the row of it that was worked last.
    fresh: another row than the one that is due may be told without a word (the work goes on from elsewhere).
    whole_round: the row is a round, and passes over old turns. partial: it may end before the needle does.
    yarn, piece: in work. holders: stitches that wait. copies: how often each of them is there for this piece.
    picks_wraps: every wrap is worked with its stitch. last_may_turn: where no stitch is left to wrap, the row turns
    without ("until all sts have been worked").
    bridges: the row goes on across gaps that holders have left. kept: patterns go on over stitches that are no whole
    repeats ("keeping patt correct").
    """

    side: Side
    form: Form
    standing: Standing = "same"
    pattern_rows: tuple[tuple[str, int], ...] = ()
    whole_round: bool = True
    partial: bool = False
    yarn: str = ""
    holders: tuple[Group, ...] = ()
    copies: tuple[int, ...] = ()
    picks_wraps: bool = False
    last_may_turn: bool = False
    fresh: bool = False
    bridges: bool = False
    kept: bool = False
    piece: str = ""


@dataclass(frozen=True, slots=True)
class WrapsMet:
    """What a row did about wraps.

    closed: stitches worked with them. left: wraps worked over. again: of each stitch it wrapped, whether it was wrapped
    already.
    """

    closed: int = 0
    left: tuple[Wrap, ...] = ()
    again: tuple[bool, ...] = ()


NO_WRAPS_MET = WrapsMet()
"""Most rows: the same one for all of them."""


@dataclass(frozen=True, slots=True)
class RowResult:
    """What a row made. needle: in the order of a right-side row. rest: acts behind a turn, the next row's.

    gaps: how many it left by binding off and by putting stitches on hold, and how many it ran across. halt: the needle
    where it failed. patterns: places of charts, with the row of each. told: faults that do not stop the row. start_moves:
    the first stitches of the round have gone onto its last needle, and it begins behind them.
    """

    needle: Needle
    before: int
    after: int
    worked: tuple[Worked, ...]
    tally: tuple[tuple[tuple[str, str], int], ...]
    events: tuple[Event, ...]
    faults: tuple[Fault, ...]
    turned: bool
    rest: tuple[Action, ...]
    short: bool
    held: tuple[Group, ...]
    taken: tuple[int, ...]
    yarns: tuple[str, ...]
    patterns: tuple[tuple[str, int], ...]
    below: str
    above: str
    ambiguous: bool
    gap_met: bool
    joined: tuple[str, ...] = ()
    wrap: tuple[int, int] = (0, 0)
    gaps: tuple[int, int, int] = (0, 0, 0)
    halt: Halt | None = None
    wraps: WrapsMet = NO_WRAPS_MET
    told: tuple[Fault, ...] = ()
    start_moves: bool = False
