"""What can be wrong with short rows: the rules, each with its page.

In: nothing. Out: `Rule`s, in the order of the manual.
"""

from __future__ import annotations

from castoff.diagnostic import Rule

NO_WRAP = Rule(
    "wrap-not-there",
    "error",
    """A row works up to a turn, or works a wrap with its stitch, where an earlier row has left none.

The needle knows every stitch that a short row has wrapped, doubled or laid a yarn-over at, until it is worked again.

Fires:   Row 3: K to wrapped st, work wrap with st, k to end.      rows 1 and 2 have wrapped none
Silent:  the same after `Row 1: K12, w&t.` and `Row 2: Purl.`
""",
)
NOTHING_TO_WRAP = Rule(
    "nothing-to-wrap",
    "error",
    """A row that wraps the next stitch and turns has come to the end of its stitches.

Fires:   Row 1: K20, w&t.      20 sts are on the needle
Silent:  Row 1: K19, w&t.
""",
)
TURNS_MEET = Rule(
    "turns-meet",
    "error",
    """A short row turns at the place where it began.

Turns that come nearer with each row meet when the rows are repeated once too often.

Fires:   Row 3: K to 1 st before last turn, w&t.      one stitch lies between the turns
Silent:  the same with three stitches between them
""",
)
WRAPS_LEFT = Rule(
    "wraps-not-picked-up",
    "error",
    """Wrapped stitches are worked without their wraps, and elsewhere the pattern asks for wraps to be picked up.

The wraps stay on the outside of the fabric for good; mostly the rows that pick them up are too few. In garter stitch wraps
are commonly left where they are, and a pattern that never speaks of picking up leaves them on purpose.

Fires:   K to wrapped st, work wrap with st, w&t. … Rep last 2 rows 6 more times. … Knit.      9 wraps each side
Silent:  the same with 8 more times
""",
)
WRAPS_IN_GARTER = Rule(
    "wraps-left-in-garter",
    "note",
    """In garter stitch wraps are left in the fabric, in a pattern that picks up others.

That is common practice, as the ridges hide them; it is told because other rows of the pattern pick theirs up.
""",
)
TURN_OPEN = Rule(
    "turn-left-open",
    "error",
    """Work goes on as if a row had come to its end, and it has turned before.

The yarn hangs in the middle of the needle: nobody can bind off, join a round or begin a part from there.

Fires:   Row 4: P6, w&t. Bind off all sts.
Silent:  Row 4: P6, w&t. Row 5: K to end. Bind off all sts.
""",
)
WRAPPED_BEYOND = Rule(
    "wrapped-beyond-the-others",
    "warning",
    """Repeated rows have wrapped the same stitches a second time, and the last of them wraps one that never was.

The second half of a heel takes up one wrapped stitch in each row; behind the outermost of them it is done.

Fires:   6 wraps each side; K to wrapped st, work wrap with st, w&t, worked 6 times in each direction
Silent:  the same worked 5 times
""",
)
OFF_CENTRE = Rule(
    "short-rows-off-centre",
    "warning",
    """The turns of one side all lie a stitch or two further in than those of the other.

Heels, toes and collars turn as far from one end as from the other; where every turn of one side is off by the same number,
the first row of that side is likely to have a wrong count.

Fires:   Row 1: K27, w&t. Row 2: P25, w&t. Rows 3, 4: … to 1 st before last turn, w&t.      on 28 sts
Silent:  Row 2: P26, w&t.
""",
)

HALF_TOO_SHORT = Rule(
    "short-rows-stop-early",
    "warning",
    """The second half of a heel or a shoulder turns further from the ends than the first half began.

Turns that come in from both ends go out again as far: where the last of them leaves more stitches than the first one did,
the rows of the second half are likely to be repeated too few times. With wraps the wraps that are left tell it.

Fires:   Row 1: K23, turn. … 8 turns on each side. … Row 3: MDS, k to ds, k ds, turn.      repeated to 3 sts before the ends
Silent:  the same repeated until one st is left at each end
""",
)

SHORT_ROW_RULES = (
    NO_WRAP,
    NOTHING_TO_WRAP,
    TURNS_MEET,
    WRAPS_LEFT,
    WRAPS_IN_GARTER,
    TURN_OPEN,
    WRAPPED_BEYOND,
    OFF_CENTRE,
    HALF_TOO_SHORT,
)
"""Every rule of short rows."""
