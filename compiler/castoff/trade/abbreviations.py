"""Abbreviations and terms: what stands for what, on either side of the sea.

In: `trade/abbreviations.yaml` (words, places, tools, units) and `trade/terms.yaml` (US and UK words for one thing).
Out: look-ups by token, and the words of the other side in a text with their places. Stitches are found in the stitch
book; `Trade.expansion` asks both.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property
from typing import Literal, NamedTuple, cast

from castoff.trade.stitch import Region, spell_numbers
from castoff.trade.table import Entry, read_table

ABBREVIATIONS_FILE = "trade/abbreviations.yaml"
TERMS_FILE = "trade/terms.yaml"

Terms = Literal["US", "UK"]
AbbreviationKind = Literal[
    "word", "position", "edge", "marker", "side", "colour", "tool", "unit", "fabric", "part", "repeat"
]
KINDS: tuple[AbbreviationKind, ...] = (
    "word", "position", "edge", "marker", "side", "colour", "tool", "unit", "fabric", "part", "repeat",
)  # fmt: skip
YarnOverNeighbour = Literal["knit", "purl"]


class Abbreviation(NamedTuple):
    """An abbreviation that is no stitch.

    name: as printed.
    words: written out, in the words of its own region, US where both print it.
    takes, makes: for edges, stitches that one of it uses and leaves; None otherwise.
    region: US or UK when only one side prints it.
    us, uk: the words of that side, where they are others.
    spoken: read aloud.
    """

    name: str
    words: str
    kind: AbbreviationKind
    region: Region = ""
    us: str = ""
    uk: str = ""
    also: tuple[str, ...] = ()
    spoken: str = ""
    takes: int | None = None
    makes: int | None = None
    note: str = ""
    sources: tuple[str, ...] = ()

    def words_in(self, terms: Terms) -> str:
        """Written out in the words of a side."""
        return (self.uk if terms == "UK" else self.us) or self.words


@dataclass(frozen=True, eq=False)
class Abbreviations:
    """Abbreviations in the order of the table."""

    entries: tuple[Abbreviation, ...]

    @cached_property
    def _exact(self) -> dict[str, Abbreviation]:
        return {name: entry for entry in reversed(self.entries) for name in (*entry.also, entry.name)}

    @cached_property
    def _folded(self) -> dict[str, Abbreviation]:
        folded = {name.casefold(): entry for entry in reversed(self.entries) for name in reversed(entry.also)}
        folded.update({entry.name.casefold(): entry for entry in self.entries})
        return folded

    def find(self, token: str) -> Abbreviation | None:
        """The entry of a token: as spelled (`M` and `m` differ), else with capitals and a final point aside."""
        bare = " ".join(token.split()).removesuffix(".")
        return self._exact.get(bare) or self._folded.get(bare.casefold())


def read_abbreviations(text: str, file: str = ABBREVIATIONS_FILE) -> Abbreviations:
    """The abbreviations of a table. Raises TradeTableError for an entry that cannot be used."""
    table = read_table(file, text)
    table.row.only("sources", "abbreviations")
    return Abbreviations(tuple(_abbreviation(name, entry) for name, entry in table.entry("abbreviations").items()))


def _abbreviation(name: str, entry: Entry) -> Abbreviation:
    cells = entry.cells("words", "kind", "region", "us", "uk", "also", "spoken", "takes", "makes", "note", "src")
    words = cells.text("words")
    return Abbreviation(
        name, words, cast(AbbreviationKind, cells.choice("kind", KINDS)),
        cast(Region, cells.choice("region", ("US", "UK"), "")), cells.text("us", ""), cells.text("uk", ""),
        cells.texts("also"), cells.text("spoken", spell_numbers(words)),
        cells.whole("takes") if cells.has("takes") else None, cells.whole("makes") if cells.has("makes") else None,
        cells.text("note", ""), cells.texts("src"),
    )  # fmt: skip


class TermPair(NamedTuple):
    """One thing in the words of either side.

    us, uk: the usual words, the first is the one to print.
    shared: words of the pair that the other side uses too, for this or for something else.
    """

    name: str
    us: tuple[str, ...]
    uk: tuple[str, ...]
    shared: tuple[str, ...] = ()
    note: str = ""
    sources: tuple[str, ...] = ()

    def words(self, terms: Terms) -> tuple[str, ...]:
        """The words of a side, the one to print first."""
        return self.us if terms == "US" else self.uk


class ForeignTerm(NamedTuple):
    """A word of the other side found in a text, from `start` up to `end`; `instead` is what to print."""

    start: int
    end: int
    found: str
    instead: str
    pair: TermPair


@dataclass(frozen=True, eq=False)
class TermBook:
    """Pairs of terms, and the UK names of a yarn over by its neighbours."""

    pairs: tuple[TermPair, ...]
    yarn_overs: tuple[tuple[YarnOverNeighbour, YarnOverNeighbour, str], ...]

    def word(self, name: str, terms: Terms) -> str:
        """The word of a side for a pair's name or for any of its words; the text itself when no pair knows it."""
        pair = next((pair for pair in self.pairs if pair.name == name), None) or next(
            (pair for pair in self.pairs if name in (*pair.us, *pair.uk)), None
        )
        return name if pair is None else pair.words(terms)[0]

    def yarn_over(self, before: YarnOverNeighbour, after: YarnOverNeighbour, terms: Terms) -> str:
        """What a yarn over is called between two stitches: yo, or one of yfwd, yrn, yon and yfrn."""
        if terms == "US":
            return "yo"
        return next(word for first, second, word in self.yarn_overs if (first, second) == (before, after))

    @cached_property
    def _foreign(self) -> dict[Terms, tuple[re.Pattern[str], dict[str, TermPair]]]:
        sides: dict[Terms, tuple[re.Pattern[str], dict[str, TermPair]]] = {}
        for side, other in (("US", "UK"), ("UK", "US")):
            home = {word.casefold() for pair in self.pairs for word in pair.words(cast(Terms, side))}
            foreign: dict[str, TermPair] = {}
            for pair in self.pairs:
                shared = {word.casefold() for word in pair.shared}
                for word in pair.words(cast(Terms, other)):
                    if word.casefold() not in shared and word.casefold() not in home:
                        foreign.setdefault(word.casefold(), pair)
            sides[cast(Terms, side)] = (_any_of((*foreign, *home)), foreign)
        return sides

    def foreign(self, text: str, terms: Terms) -> tuple[ForeignTerm, ...]:
        """Words of the other side in a text written in `terms`, in the order of the text.

        The longest phrase counts: in UK terms "double moss stitch" holds no foreign "moss stitch".
        """
        pattern, pairs = self._foreign[terms]
        found: list[ForeignTerm] = []
        for match in pattern.finditer(text):
            pair = pairs.get(" ".join(match.group().casefold().split()))
            if pair is not None:
                instead = _like(match.group(), pair.words(terms)[0])
                found.append(ForeignTerm(match.start(), match.end(), match.group(), instead, pair))
        return tuple(found)

    def translate(self, text: str, terms: Terms) -> str:
        """A text in the words of a side; whatever is shared or unknown stays as it is."""
        parts: list[str] = []
        at = 0
        for term in self.foreign(text, terms):
            parts += [text[at : term.start], term.instead]
            at = term.end
        return "".join((*parts, text[at:]))


def _any_of(phrases: Iterable[str]) -> re.Pattern[str]:
    longest_first = sorted(set(phrases), key=lambda phrase: (-len(phrase), phrase))
    body = "|".join(re.escape(phrase).replace(r"\ ", r"\s+") for phrase in longest_first)
    return re.compile(rf"(?<![\w-])(?:{body})(?![\w-])", re.IGNORECASE)


def _like(model: str, word: str) -> str:
    """A word with the capitals of another: Tension for Gauge, TENSION for GAUGE."""
    if model.isupper() and len(model) > 3:
        return word.upper()
    return word[:1].upper() + word[1:] if model[:1].isupper() and not model.isupper() else word


def read_terms(text: str, file: str = TERMS_FILE) -> TermBook:
    """The pairs of a table. Raises TradeTableError for an entry that cannot be used."""
    table = read_table(file, text)
    table.row.only("sources", "pairs", "yarn_overs")
    pairs: list[TermPair] = []
    for name, entry in table.entry("pairs").items():
        cells = entry.cells("us", "uk", "also_us", "also_uk", "shared", "note", "src")
        us, uk = (cells.text("us"), *cells.texts("also_us")), (cells.text("uk"), *cells.texts("also_uk"))
        for word in cells.texts("shared"):
            if word not in (*us, *uk):
                raise cells.found["shared"].fault(f"`{word}` is none of the words of this pair")
        pairs.append(TermPair(name, us, uk, cells.texts("shared"), cells.text("note", ""), cells.texts("src")))
    return TermBook(tuple(pairs), _yarn_overs(table.entry("yarn_overs")))


def _yarn_overs(section: Entry) -> tuple[tuple[YarnOverNeighbour, YarnOverNeighbour, str], ...]:
    rows: dict[tuple[str, str], str] = {}
    for entry in section.elements():
        cells = entry.cells("before", "after", "uk", "src")
        rows[cells.choice("before", ("knit", "purl")), cells.choice("after", ("knit", "purl"))] = cells.text("uk")
    for before in ("knit", "purl"):
        for after in ("knit", "purl"):
            if (before, after) not in rows:
                raise section.fault(f"has no yarn over between {before} and {after}")
    return tuple(
        (cast(YarnOverNeighbour, before), cast(YarnOverNeighbour, after), word)
        for (before, after), word in rows.items()
    )
