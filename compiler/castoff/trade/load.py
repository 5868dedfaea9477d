"""The trade: every table behind one value, each read when it is first asked for.

In: a function that gives the text of a table by name ("trade/needles.yaml"), so that a house's own files go before the
ones that come with Castoff, file by file. Out: a `Trade`. A faulty table raises TradeTableError when it is asked for.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property

from castoff.trade import abbreviations, body, cautions, materials, pairs, stitch_book, symbols
from castoff.trade.abbreviations import Abbreviations, TermBook, Terms
from castoff.trade.body import BodyTables, Ease
from castoff.trade.cautions import Cautions
from castoff.trade.materials import NeedleChart, YarnWeights
from castoff.trade.pairs import MeasurePairs, SkillLevel
from castoff.trade.stitch_book import StitchBook
from castoff.trade.symbols import ChartSymbols


@dataclass(frozen=True, eq=False)
class Trade:
    """The facts of the trade.

    read: gives the text of a table by name. What it raises for a missing file is passed on.
    """

    read: Callable[[str], str]

    @cached_property
    def stitches(self) -> StitchBook:
        """Stitches by any of their spellings."""
        return stitch_book.read_stitches(self.read(stitch_book.FILE))

    @cached_property
    def abbreviations(self) -> Abbreviations:
        """Abbreviations that are no stitches."""
        return abbreviations.read_abbreviations(self.read(abbreviations.ABBREVIATIONS_FILE))

    @cached_property
    def terms(self) -> TermBook:
        """US and UK words for the same thing."""
        return abbreviations.read_terms(self.read(abbreviations.TERMS_FILE))

    @cached_property
    def needles(self) -> NeedleChart:
        """Needles, circular lengths and hooks."""
        return materials.read_needles(self.read(materials.NEEDLES_FILE))

    @cached_property
    def yarn_weights(self) -> YarnWeights:
        """Yarn weights 0-7."""
        return materials.read_yarn_weights(self.read(materials.YARN_FILE))

    @cached_property
    def bodies(self) -> BodyTables:
        """Body tables by name."""
        return body.read_body_tables(self.read)

    @cached_property
    def ease(self) -> Ease:
        """Fit words."""
        return body.read_ease(self.read(body.EASE_FILE))

    @cached_property
    def cautions(self) -> Cautions:
        """Safety advice."""
        return cautions.read_cautions(self.read(cautions.FILE))

    @cached_property
    def symbols(self) -> ChartSymbols:
        """Chart symbols."""
        return symbols.read_symbols(self.read(symbols.FILE))

    @cached_property
    def pairs(self) -> MeasurePairs:
        """Customary pairs of measures and print steps."""
        return pairs.read_measure_pairs(self.read(pairs.UNITS_FILE))

    @cached_property
    def skills(self) -> tuple[SkillLevel, ...]:
        """Skill levels, easiest first."""
        return pairs.read_skills(self.read(pairs.SKILLS_FILE))

    def expansion(self, token: str, terms: Terms = "US") -> str | None:
        """An abbreviation written out in the words of a side, a stitch before a word; None when nobody knows it."""
        stitch = self.stitches.find(token)
        if stitch is not None:
            return stitch.words
        entry = self.abbreviations.find(token)
        return None if entry is None else entry.words_in(terms)


def load_trade(read: Callable[[str], str]) -> Trade:
    """The trade as a reader's files have it; nothing is read until it is asked for."""
    return Trade(read)
