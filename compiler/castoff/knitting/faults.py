"""What can stop the knitting: the rules of this stage, and a fault of one size: a wording with blanks and its numbers.

In: nothing. Out: `Fault`s; `merging.py` makes diagnostics of those of all sizes.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from castoff.diagnostic import Rule
from castoff.knitting.short_row_rules import SHORT_ROW_RULES
from castoff.span import Span

TOO_FEW = Rule(
    "too-few-stitches",
    "error",
    """A row needs more stitches than are on the needle.

The stitches that the row uses are added up and held against those that are there.

Fires:   Row 5: K12, p6, k54.      70 sts are on the needle
Silent:  Row 5: K12, p6, k52.
""",
)
LEFT_OVER = Rule(
    "stitches-left-over",
    "error",
    """A row ends before the stitches do.

Every row goes to the end of the needle unless it says `turn` or puts the rest aside.

Fires:   Row 5: K12, p6, k50.      70 sts are on the needle
Silent:  Row 5: K12, p6, k to end.
""",
)
DOES_NOT_DIVIDE = Rule(
    "repeat-does-not-divide",
    "error",
    """A repeat does not fit a whole number of times.

Fires:   *K2, k2tog, k6; rep from * to end.      72 sts do not divide by 10
Silent:  *K2, k2tog, k6; rep from * to last 2 sts, k2.
""",
)
ENDLESS = Rule(
    "repeat-without-progress",
    "error",
    """A repeat uses up no stitches, so that it would never reach its end.

Fires:   *Yo; rep from * to end.
Silent:  *K1, yo; rep from * to end.
""",
)
NO_END = Rule(
    "shaping-without-end",
    "error",
    """Shaping at a rate that is never told to stop: it would go on up to the end of the pattern.

Fires:   Dec 1 st at each end of next and every foll alt row.
Silent:  Dec 1 st at each end of next and every foll alt row until 50 sts rem.
""",
)
NO_MARKER = Rule(
    "marker-not-there",
    "error",
    """A row speaks of a marker that is not on the needle at this point.

Fires:   K to marker, sm, k to end.      no marker is ahead
Silent:  the same after a row that placed one
""",
)
NO_CENTRE = Rule(
    "centre-off",
    "error",
    """Stitches in the centre of a row have not as many on one side as on the other.

Fires:   Cast on 41 sts. Next row: K to center 20 sts, …      21 sts are left, 10 and 11
Silent:  Cast on 42 sts. Next row: K to center 20 sts, …
""",
)
MARKER_IN_THE_WAY = Rule(
    "marker-in-the-way",
    "error",
    """Stitches are to be worked together that have a marker between them.

Fires:   K to 1 st before marker, k2tog.
Silent:  K to 2 sts before marker, k2tog, sm.
""",
)
TOTAL_OFF = Rule(
    "stated-total-off",
    "error",
    """A printed stitch total is not what is on the needle.

Either the total is wrong, or the row before it; the knitter cannot tell which.

Fires:   *K8, k2tog; rep from * to end. 70 sts.      from 80 sts, 72 are left
Silent:  *K8, k2tog; rep from * to end. 72 sts.
""",
)
WRONG_SIDE = Rule(
    "wrong-side-due",
    "error",
    """A row is printed for one side of the fabric when the other is due.

Fires:   Row 1 (RS): … Row 2 (RS): …
Silent:  Row 1 (RS): … Row 2 (WS): …
""",
)
ROW_NUMBER = Rule(
    "row-number-out-of-order",
    "error",
    """Numbered rows leave a gap, or one comes twice.

Fires:   Row 1: … Row 2: … Row 4: …
Silent:  Row 1: … Row 2: … Row 3: …
""",
)
NO_SUCH_ROW = Rule(
    "row-not-there",
    "error",
    """Rows are to be repeated that have not been described.

Fires:   Rep rows 1–6.      rows 1 to 4 were worked
Silent:  Rep rows 1–4.
""",
)
NEVER_ENDS = Rule(
    "end-never-comes",
    "error",
    """Rows are repeated until something that they never bring about.

Fires:   Rep last 2 rnds until 15 sts rem.      from 20 sts in steps of 2
Silent:  Rep last 2 rnds until 16 sts rem.
""",
)
LENGTH_PASSED = Rule(
    "length-already-passed",
    "error",
    """The piece is longer than the length it is to be worked to.

Fires:   Work in St st until piece measures 4 cm.      it measures 6 cm already
Silent:  Work in St st until piece measures 8 cm.
""",
)
WRONG_ENDING = Rule(
    "wrong-last-row",
    "error",
    """So many rows cannot end with the row that is named.

Fires:   Work 4 rows even, ending with a RS row.      a RS row is due first
Silent:  Work 4 rows even, ending with a WS row.
""",
)
NO_STITCHES = Rule(
    "no-stitches-on-needle",
    "error",
    """A row is to be worked and nothing is on the needle.

Fires:   a section that begins with a row, its piece not cast on
Silent:  the same after a cast-on
""",
)
BOUND_OFF_TOO_MANY = Rule(
    "bound-off-too-many",
    "error",
    """More stitches are to be bound off than there are.

Fires:   Bind off 40 sts.      38 sts are on the needle
Silent:  Bind off all sts.
""",
)
STILL_LIVE = Rule(
    "stitches-still-live",
    "error",
    """A piece ends with stitches on the needle.

Fires:   the last line of a piece leaves 40 sts
Silent:  Bind off all sts.
""",
)
STILL_HELD = Rule(
    "stitches-still-held",
    "error",
    """The pattern ends with stitches on a holder.

Fires:   Place next 17 sts on waste yarn. …      and nobody takes them back
Silent:  the same with a thumb worked on them
""",
)
NOT_HELD = Rule(
    "stitches-not-held",
    "error",
    """Held stitches are taken back that are not there, or in another number.

Fires:   Return 15 held thumb sts to needle.      13 sts are held
Silent:  Return 13 held thumb sts to needle.
""",
)
UNKNOWN_NEEDLES = Rule(
    "unknown-needles",
    "warning",
    """Needles are spoken of that the pattern does not list.

Fires:   Change to medium needles.      the list has smaller and larger
Silent:  Change to larger needles.
""",
)
YARN_NOT_JOINED = Rule(
    "yarn-not-joined",
    "error",
    """A yarn is worked with that the pattern does not list.

Fires:   With Q, knit 2 rows.      the yarns are A and B
Silent:  With B, knit 2 rows.
""",
)
YARN_USED_AGAIN = Rule(
    "yarn-used-again",
    "note",
    """A yarn is worked with after it was broken off, and nothing says that it is joined.

Knitting with it joins it; a knitter who reads "join B" knows that the end before it was meant to be cut.

Fires:   Break off B. With B, knit 2 rows.
Silent:  Break off B. Join B. With B, knit 2 rows.
""",
)
UNKNOWN_STITCH = Rule(
    "stitch-without-counts",
    "error",
    """A stitch is worked of which nobody says what it takes and makes.

Fires:   Mb      without an entry under `stitches`
Silent:  the same with `mb: {takes: 1, makes: 1}`
""",
)
NO_SPACING = Rule(
    "no-even-spacing",
    "error",
    """So many changes do not fit evenly across so few stitches.

Fires:   Dec 30 sts evenly across.      on 50 sts
Silent:  Dec 20 sts evenly across.
""",
)
TOO_MANY = Rule(
    "absurd-number",
    "error",
    """A number of stitches, rows or times that no knitting has.

Fires:   Rep row 1 1000000000 times.
Silent:  Rep row 1 10 times.
""",
)
COLUMNS_SHIFTED = Rule(
    "columns-shifted",
    "error",
    """A row sets its knits and purls beside the columns that the rows below set up.

The total is right, so that no count shows it; the knitter sees ribs broken in two.

Fires:   Row 1: *K2, p2; rep from * to end. Row 2: K1, *p2, k2; rep from * to last 3 sts, p2, k1.
Silent:  Row 2: *K2, p2; rep from * to end.
""",
)
OVER_A_GAP = Rule(
    "worked-across-a-gap",
    "error",
    """A row goes on across stitches that were bound off in the middle, without casting on over them.

The needle cannot pass there: the fabric would be drawn together, and the total is short by what was bound off.

Fires:   Row 1: K8, bind off 4 sts, k to end. Row 2: Purl. 16 sts.
Silent:  Row 2: P8, cast on 4 sts over gap, p to end. 20 sts.
""",
)
SEAM_COUNTS = Rule(
    "grafted-counts-differ",
    "error",
    """Stitches are grafted or bound off together that are not equally many.

Fires:   Graft 32 sts to 30 sts.
Silent:  Graft 32 sts to 32 sts.
""",
)
PART_OFF = Rule(
    "stated-part-off",
    "error",
    """The number printed for a part of the stitches is not found on the needle.

Fires:   12 sts between markers      13 are between them
Silent:  13 sts between markers
""",
)
ROWS_OFF = Rule(
    "stated-rows-off",
    "error",
    """A printed number of rows is not what has been worked.

Fires:   Rep rows 1 and 2 eight times. 18 rows.      16 have been worked
Silent:  Rep rows 1 and 2 eight more times. 18 rows.
""",
)
NOT_BESIDE = Rule(
    "not-at-the-same-time",
    "error",
    """Something is to be done at the same time that cannot be laid beside the rows, or its moment never comes.

Increases, decreases, binding off and casting on at a rate run beside other rows; anything else is written out.

Fires:   … At the same time, when piece measures 20 cm, work in garter st for 10 rows.
Silent:  … At the same time, when piece measures 20 cm, dec 1 st at neck edge every row 5 times.
""",
)
UNCOUNTED = Rule(
    "picked-up-uncounted",
    "error",
    """Stitches are picked up and nobody says how many.

"3 stitches for every 4 rows" says how; how many that makes differs between sizes, and the next row depends on it.

Fires:   With RS facing, pick up and knit 3 sts for every 4 rows along edge.
Silent:  With RS facing, pick up and knit 3 sts for every 4 rows along edge. 60 sts.
""",
)
UNREADABLE = Rule(
    "knitted-without-a-line",
    "note",
    """A line could not be read, so the needle went on without it.

What comes after it is checked as far as the next printed total says where the work stands.
""",
)
SIDES_DIFFER = Rule(
    "sides-of-unequal-length",
    "warning",
    """Two sides of a piece that part at one row are not equally long, or not shaped alike.

Shoulders that are to be sewn together, and fronts of one cardigan, end at the same row or one row apart. Sides that begin
on equally many stitches end on equally many.

Fires:   left side of the neck: 22 rows; right side: 26 rows
Fires:   left side of the neck: 20 sts, bound off on 15; right side: 20 sts, bound off on 16
Silent:  left side of the neck: 22 rows; right side: 23 rows
""",
)
EDGE_TOO_SHORT = Rule(
    "edge-too-short",
    "error",
    """More stitches are picked up along an edge than it has ridges, rows or stitches to hold them.

Of a garter tab, the ridges of its side and the stitches of its cast-on edge are counted.

Fires:   CO 3 sts. Knit 6 rows. Pick up and knit 4 sts along side (one in each garter ridge).      3 ridges
Silent:  CO 3 sts. Knit 6 rows. Pick up and knit 3 sts along side (one in each garter ridge).
""",
)
PIECES_PART = Rule(
    "pieces-part-in-one-size",
    "error",
    """Two pieces that end together in every other size do not in this one.

A back and a front that end at the same row, or two rows apart, in all sizes but one have a wrong number of rows in that
size: its shoulders cannot meet.

Fires:   back 138 (142, 146, 148) rows, front 136 (140, 146, 146)
Silent:  back 138 (142, 146, 148) rows, front 136 (140, 144, 146)
""",
)
ENDS_UNLIKE = Rule(
    "sides-unlike",
    "warning",
    """A row reads the same from both ends but for one number, or one stitch.

Shaping that answers itself stands as far from one edge, or marker, as from the other; edge stitches are as many on both
sides, where the other rows have it so. In lace and cables, what leans one way is answered by what leans the other. It may
be meant; mostly it is a slip that no total shows.

Fires:   K1, ssk, k to last 4 sts, k2tog, k2.
Fires:   *K2, yo, k2tog, k1, k2tog, yo, k1; …     after rows that read the same from both ends
Silent:  K2, ssk, k to last 4 sts, k2tog, k2.
""",
)
COLUMN_LOST = Rule(
    "column-lost",
    "warning",
    """One row leaves the columns of knit and purl that all the others keep.

The total is right, and a purl between two panels is gone for one row. It may be meant; mostly a `p` has been lost in
copying. So it is with rows that knit the knits and purl the purls of the row below, and one that does not: either that row
or the one below it, a cable crossed the other way, is wrong.

Fires:   Row 3: P2, *k2, yo, ssk, k4, p2; …   Row 5: P2, *k3, yo, ssk, k5; …
Fires:   Row 10: As row 2.     where row 9 has crossed its cables
Silent:  Row 3: P2, *k2, yo, ssk, k4, p2; …   Row 5: P2, *k3, yo, ssk, k3, p2; …
""",
)
MULTIPLE_WIDE = Rule(
    "multiple-too-wide",
    "warning",
    """A stitch pattern is said to be a multiple of more stitches than its rows repeat over.

Who wants another width counts with the multiple: one that is twice as wide as the repeat takes half the widths away.

Fires:   ripple: {multiple: 16, rows: "Row 1 (RS): *K1, yo, k2, sk2p, k2, yo; rep from * to end."}
Silent:  ripple: {multiple: 8, rows: "Row 1 (RS): *K1, yo, k2, sk2p, k2, yo; rep from * to end."}
""",
)
IDLE_REPEAT = Rule(
    "repeat-of-one-stitch",
    "error",
    """A repeat that holds nothing but knit, or nothing but purl.

Nobody writes that on purpose: the other half of it has been lost.

Fires:   *P2; rep from * to end.
Silent:  *K2, p2; rep from * to end.      Purl to end.
""",
)
TWO_READINGS = Rule(
    "times-ambiguous",
    "warning",
    """"Rep from * 5 times" is read as 5 in all by some and as 5 more by others, and both can be worked here.

Fires:   *K1, yo; rep from * 5 times, k to end.
Silent:  *K1, yo; rep from * 5 more times, k to end.
""",
)
THEN_MISSING = Rule(
    "then-missing",
    "warning",
    """Two rates of shaping stand side by side, and nothing says that the second comes behind the first.

Some knitters work both at once, on one row twice; "then" between them settles it.

Fires:   Dec 1 st at each end of every 4th row 3 times, every alt row twice.
Silent:  Dec 1 st at each end of every 4th row 3 times, then every alt row twice.
""",
)
NOT_SHORTER = Rule(
    "piece-not-there",
    "error",
    """Work is to follow a piece or a section that has not been described before.

Fires:   Work as for Back.      no piece is called Back
Silent:  the same after the section of Back
""",
)
CABLE_HELD = Rule(
    "cable-counts-differ",
    "error",
    """A crossing works another number of stitches off the cable needle than it put there.

Fires:   Sl 3 to cn and hold at back, k3, k2 from cn.
Silent:  Sl 3 to cn and hold at back, k3, k3 from cn.
""",
)

RULES = (
    TOO_FEW, LEFT_OVER, DOES_NOT_DIVIDE, ENDLESS, NO_MARKER, MARKER_IN_THE_WAY, TOTAL_OFF, WRONG_SIDE, ROW_NUMBER,
    NO_SUCH_ROW, NEVER_ENDS, LENGTH_PASSED, WRONG_ENDING, NO_STITCHES, BOUND_OFF_TOO_MANY, STILL_LIVE, STILL_HELD,
    NOT_HELD, UNKNOWN_NEEDLES, YARN_NOT_JOINED, YARN_USED_AGAIN, UNKNOWN_STITCH, NO_SPACING, TOO_MANY, COLUMNS_SHIFTED,
    OVER_A_GAP,
    SEAM_COUNTS, PART_OFF, ROWS_OFF, NOT_BESIDE, UNCOUNTED, UNREADABLE, SIDES_DIFFER, EDGE_TOO_SHORT, PIECES_PART,
    ENDS_UNLIKE, COLUMN_LOST, IDLE_REPEAT, TWO_READINGS, THEN_MISSING, NOT_SHORTER, CABLE_HELD, NO_CENTRE, NO_END,
    MULTIPLE_WIDE,
    *SHORT_ROW_RULES,
)  # fmt: skip
"""Every rule of this stage, in the order of the manual."""

Values = tuple[tuple[str, int | str], ...]


@dataclass(frozen=True, slots=True)
class Pointer:
    """Another place that a fault points at, with its own wording and numbers; the fault's numbers may stand in it too."""

    span: Span
    message: str
    values: Values = ()


@dataclass(frozen=True, slots=True)
class Fault:
    """What is wrong in one size.

    message, hint and the messages of `related`: wording with blanks `{name}`; values: what goes into them.
    """

    rule: Rule
    span: Span | None
    message: str
    values: Values = ()
    hint: str | None = None
    related: tuple[Pointer, ...] = ()


def fault(
    rule: Rule,
    span: Span | None,
    message: str,
    *,
    hint: str | None = None,
    related: Iterable[tuple[Span, str] | Pointer] = (),
    **values: int | str,
) -> Fault:
    """A fault; the numbers for the blanks are given by name."""
    pointers = tuple(each if isinstance(each, Pointer) else Pointer(*each) for each in related)
    return Fault(rule, span, message, tuple(values.items()), hint, pointers)
