"""What a named fabric asks of a row: stockinette, garter, ribs, seed stitch, a pattern as set.

In: the fabric, the faces it is worked over, and the setting of the row. Out: the faces it makes, one for one. Stitch
patterns of the source are worked by their own rows and not here.
"""

from __future__ import annotations

import re

from castoff.knitting.setting import RowSetting, Standing, flipped, settled
from castoff.notation.syntax import Fabric

STOCKINETTE = ("stockinette", "stockinette stitch", "stocking stitch", "st st", "stst", "stockinet", "ss", "i-cord")
REVERSE = ("reverse stockinette", "reverse stockinette stitch", "reverse stocking stitch", "rev st st", "reverse st st")
GARTER = ("garter", "garter stitch", "g st", "gst", "garter st")
SEED = ("seed", "seed stitch", "moss", "moss stitch", "seed st", "moss st", "m st", "irish moss stitch")
RIBS = ("rib", "ribbing", "twisted rib", "rib pattern")
AS_IT_STANDS = ("pattern", "patt", "as set", "as established", "even", "straight")

_RIB_NUMBERS = re.compile(r"(\d+) ?[x×] ?(\d+)(?: rib(?:bing)?)?")
_RIB_LETTERS = re.compile(r"k ?(\d+),? ?p ?(\d+)(?: rib(?:bing)?)?")


def rib_columns(fabric: Fabric) -> tuple[tuple[str, int], ...]:
    """Knit and purl columns of a rib from its edge; empty when it is none or does not say."""
    if fabric.rib:
        return fabric.rib
    name = fabric.name.lower()
    match = _RIB_NUMBERS.fullmatch(name) or _RIB_LETTERS.fullmatch(name)
    if match is not None:
        return (("k", int(match[1])), ("p", int(match[2])))
    return ()


def standing_of(fabric: Fabric, form: str) -> Standing | None:
    """How the fabric goes on by itself; None when the name does not tell."""
    name = fabric.name.lower()
    if fabric.kind in ("faces", "rib") or name in STOCKINETTE or name in REVERSE or name in RIBS:
        return "same"
    if fabric.kind in ("knit", "purl"):
        return "flip" if form == "flat" else "same"
    if name in GARTER or name in SEED:
        return "flip"
    return None


def faces_made(fabric: Fabric, src: str, setting: RowSetting, offset: int = 0) -> str:
    """The faces that a fabric makes over some stitches, in the order in which they are worked.

    src: the faces below, in the same order. offset: stitches between the start of the row and these.
    """
    count = len(src)
    right = setting.side == "RS"
    name = fabric.name.lower()
    if fabric.kind == "knit":
        return ("k" if right else "p") * count
    if fabric.kind == "purl":
        return ("p" if right else "k") * count
    if name in STOCKINETTE:
        return "k" * count
    if name in REVERSE:
        return "p" * count
    if name in GARTER:
        if setting.form == "flat":
            return ("k" if right else "p") * count
        return flipped(src[:1] or "p").replace("y", "k") * count
    if name in SEED:
        uniform = len(set(settled(src))) <= 1
        return _repeated("kp" if right else "pk", count) if uniform and count > 1 else flipped(src)
    columns = rib_columns(fabric)
    if columns:
        return _rib(columns, src, right)
    if fabric.kind == "faces" or name in RIBS or setting.standing == "same":
        return settled(src)
    return flipped(src)


def _repeated(unit: str, count: int) -> str:
    return (unit * (count // len(unit) + 1))[:count]


def _rib(columns: tuple[tuple[str, int], ...], src: str, right: bool) -> str:
    """A rib over stitches that are ribbed already goes on as it stands; over others it begins at the edge."""
    unit = "".join(letter[0].lower() * count for letter, count in columns)
    period = len(unit)
    below = settled(src)
    if period and len(set(below)) > 1 and below[:-period] == below[period:]:
        return below
    if not right:
        unit = flipped(unit)
    return _repeated(unit, len(src)) if period else below


def names_worked(faces: str, side: str) -> tuple[tuple[str, int], ...]:
    """How many stitches were knitted and how many purled to make faces on a side."""
    knits = faces.count("k")
    purls = len(faces) - knits
    if side == "WS":
        knits, purls = purls, knits
    return tuple(pair for pair in (("k", knits), ("p", purls)) if pair[1])
