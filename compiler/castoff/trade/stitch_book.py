"""The stitch book: every stitch under each of its spellings.

In: the text of `trade/stitches.yaml`. Out: a `StitchBook`. Capitals, spaces, hyphens and points make no difference
("Sl 1, k1, psso", "sl1-k1-psso" and "skp" are one), except where two stitches differ in a hyphen alone (k1-b, k1b).
"""

from __future__ import annotations

import difflib
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from string import Formatter
from typing import Literal, cast

from castoff.trade.families import FAMILY_NAMES, family_stitch
from castoff.trade.stitch import (
    KINDS,
    Crossing,
    Face,
    FamilyWords,
    Lean,
    Region,
    Side,
    Stitch,
    StitchKind,
    spell_numbers,
)
from castoff.trade.table import Cells, Entry, read_table

FILE = "trade/stitches.yaml"
_COLUMNS = (
    "words", "takes", "makes", "kind", "lean", "lean_from", "face", "loops", "how", "spoken", "uk", "also", "mirror",
    "wrong_side", "region", "crossing", "generic", "note", "src",
)  # fmt: skip
# Members of the families that a slip of the pen is likely to have meant.
_USUAL_MEMBERS = (
    "k2tog", "k3tog", "p2tog", "p3tog", "k2togtbl", "p2togtbl", "yo2", "c4f", "c4b", "c6f", "c6b", "t3f", "t3b",
)  # fmt: skip
_SPACES = re.compile(r"[\s\u00a0\u202f]+")
_SEPARATORS = re.compile(r"[\s\u00a0\u202f.,‐‑–-]+")
_CROSSING = re.compile(r"([1-9]\d?)/([1-9]\d?) (left|right)( purl)?")
_BLANKS = ("n", "over", "under", "middle", "worked")
# A family name inside running text, as the patterns of families.py spell them.
_FAMILY_TEXT = (
    r"(?:k(?:nit)?|p(?:url)?) ?\d\d? ?tog(?:ether)?(?:[ -]?(?:tbl|through (?:the )?back loops?)|-?b)?"
    r"|yo ?[2-9]|[2-9] ?yos?|yo (?:twice|x2|2 times)|double (?:yo|yarn over)"
    r"|(?:cr|c|t) ?\d\d? ?[fblr]|\d\d?/(?:\d\d?/)?\d\d? ?[lr]p?c"
)


def _spaced(name: str) -> str:
    """Lower case with single spaces: the key that still knows a hyphen."""
    return _SPACES.sub(" ", name.strip()).casefold()


def _closed(name: str) -> str:
    """Lower case without spaces, hyphens, points and commas."""
    return _SEPARATORS.sub("", name).casefold()


@dataclass(frozen=True, eq=False)
class StitchBook:
    """Stitches by any of their spellings.

    stitches: those with a row of their own, in the order of the table.
    families: words of the regular ones.
    """

    stitches: tuple[Stitch, ...]
    families: Mapping[str, FamilyWords]

    @cached_property
    def _by_spelling(self) -> dict[str, Stitch]:
        return {_spaced(name): stitch for stitch in self.stitches for name in (stitch.name, *stitch.also)}

    @cached_property
    def _by_letters(self) -> dict[str, Stitch]:
        # a name goes before another's `also`: "k1b" is knit 1 below, though "k1-b" has the same letters
        letters = {_closed(name): stitch for stitch in reversed(self.stitches) for name in reversed(stitch.also)}
        letters.update({_closed(stitch.name): stitch for stitch in self.stitches})
        return letters

    def find(self, token: str) -> Stitch | None:
        """The stitch that a token names, capitals and spacing aside; None when it is none.

        A count is no part of a name: `k5` is five times `k`, and is not found here.
        """
        spaced = _spaced(token).rstrip(".,")
        own = self._by_spelling.get(spaced) or family_stitch(spaced, self.families)
        return own or self._by_letters.get(_closed(token))

    @cached_property
    def _opening(self) -> re.Pattern[str]:
        names = sorted(
            {name for stitch in self.stitches for name in (stitch.name, *stitch.also)}, key=lambda n: (-len(n), n)
        )
        spellings = (
            re.escape(name).replace(r"\ ", r"[ \u00a0-]?" if "psso" not in name else r"[ ,\u00a0-]*") for name in names
        )
        return re.compile(rf"(?:{_FAMILY_TEXT}|{'|'.join(spellings)})(?![A-Za-z0-9])", re.IGNORECASE)

    def match(self, text: str, at: int = 0) -> tuple[Stitch, int] | None:
        """The longest stitch name that starts at a position of a text, and where it ends."""
        found = self._opening.match(text, at)
        if found is None:
            return None
        stitch = self.find(found.group())
        return None if stitch is None else (stitch, found.end())

    def near(self, token: str, count: int = 3) -> tuple[str, ...]:
        """Names that look like a token which was not found, best first."""
        closed = _closed(token)
        pool = sorted({*self._by_letters, *_USUAL_MEMBERS})
        # letters that changed places are the commonest slip, and a likeness by runs of letters rates them low
        swapped = [key for key in pool if sorted(key) == sorted(closed)]
        close = difflib.get_close_matches(closed, pool, count, 0.6)
        found = (self.find(key) for key in (*swapped, *close))
        return tuple(dict.fromkeys(stitch.name for stitch in found if stitch is not None))[:count]

    def mirrored(self, stitch: Stitch) -> Stitch | None:
        """The same stitch turned left for right, for the other side of a garment; None when it has none."""
        return self.find(stitch.mirror) if stitch.mirror else None

    def for_wrong_side(self, stitch: Stitch) -> Stitch | None:
        """What is worked on a wrong-side row for the look that this stitch has on a right-side row."""
        return self.find(stitch.wrong_side) if stitch.wrong_side else None


def read_stitches(text: str, file: str = FILE) -> StitchBook:
    """The stitch book of a table. Raises TradeTableError for an entry that cannot be used."""
    table = read_table(file, text)
    table.row.only("sources", "stitches", "families")
    rows = [(name, entry, entry.cells(*_COLUMNS)) for name, entry in table.entry("stitches").items()]
    stitches = tuple(_stitch(name, cells) for name, _, cells in rows)
    taken: dict[str, str] = {}
    for stitch, (_, entry, _) in zip(stitches, rows, strict=True):
        for spelling in (stitch.name, *stitch.also):
            owner = taken.setdefault(_spaced(spelling), stitch.name)
            if owner != stitch.name:
                raise entry.fault(f"the spelling `{spelling}` already belongs to `{owner}`")
    book = StitchBook(stitches, _families(table.entry("families")))
    for stitch, (_, _, cells) in zip(stitches, rows, strict=True):
        for column, partner in (("mirror", stitch.mirror), ("wrong_side", stitch.wrong_side)):
            if partner and book.find(partner) is None:
                raise cells.found[column].fault(f"there is no stitch `{partner}`")
    return book


def _stitch(name: str, cells: Cells) -> Stitch:
    words = cells.text("words")
    takes, makes = cells.whole("takes"), cells.whole("makes")
    crossing = _crossing(cells.entry("crossing")) if cells.has("crossing") else None
    if crossing is not None and not takes == makes == crossing.width:
        raise cells.found["crossing"].fault(
            f"crosses {crossing.width} stitches, while the entry takes {takes} and makes {makes}"
        )
    return Stitch(
        name=name,
        words=words,
        takes=takes,
        makes=makes,
        kind=cast(StitchKind, cells.choice("kind", KINDS)),
        lean=cast(Lean, cells.choice("lean", ("left", "right", "centred"), "")),
        lean_from=cast(Side, cells.choice("lean_from", ("RS", "WS"), "RS")),
        face=cast(Face, cells.choice("face", ("knit", "purl", "slip"), "knit")),
        loops=cells.whole("loops", makes),
        region=cast(Region, cells.choice("region", ("US", "UK"), "")),
        how=cells.text("how", ""),
        spoken=cells.text("spoken", spell_numbers(words)),
        uk=cells.text("uk", ""),
        also=cells.texts("also"),
        mirror=cells.text("mirror", ""),
        wrong_side=cells.text("wrong_side", ""),
        crossing=crossing,
        generic=cells.flag("generic"),
        note=cells.text("note", ""),
        sources=cells.texts("src"),
    )


def _crossing(entry: Entry) -> Crossing:
    match = _CROSSING.fullmatch(entry.text())
    if match is None:
        raise entry.fault(f"should be like `2/1 left` or `1/1 right purl`, and is `{entry.text()}`")
    travels = cast(Literal["left", "right"], match[3])
    return Crossing(int(match[1]), int(match[2]), travels, "purl" if match[4] else "knit")


def _families(section: Entry) -> Mapping[str, FamilyWords]:
    found: dict[str, FamilyWords] = {}
    section.only(*FAMILY_NAMES)
    for name, entry in section.items():
        cells = entry.cells("words", "how", "note", "src")
        for column in ("words", "how", "note"):
            _check_blanks(cells, column)
        found[name] = FamilyWords(cells.text("words"), cells.text("how"), cells.text("note", ""), cells.texts("src"))
    for name in FAMILY_NAMES:
        if name not in found:
            raise section.fault(f"has no `{name}`")
    return found


def _check_blanks(cells: Cells, column: str, allowed: Sequence[str] = _BLANKS) -> None:
    """Refuses a blank that no family fills, before it fails in the middle of a build."""
    if not cells.has(column):
        return
    try:
        names = [name for _, name, _, _ in Formatter().parse(cells.text(column)) if name is not None]
    except ValueError as error:
        raise cells.found[column].fault(f"has an unclosed curly bracket ({error})") from error
    for name in names:
        if name not in allowed:
            filled = ", ".join(f"{{{blank}}}" for blank in allowed)
            raise cells.found[column].fault(f"{{{name}}} is never filled; the blanks are {filled}")
