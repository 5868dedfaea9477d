"""Cautions: which safety advice a pattern prints.

In: `trade/cautions.yaml`, and what is known of a piece: who wears it, facts such as `has_buttons`, the fibres of its
yarns. Out: the cautions that apply, in the order of the table; every one closes by deferring to local rules.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from fractions import Fraction
from typing import Literal, NamedTuple, cast, get_args

from castoff.trade.table import Entry, read_table

FILE = "trade/cautions.yaml"

Audience = Literal["baby", "child", "adult"]
Fact = Literal[
    "has_buttons", "has_small_parts", "has_cords", "has_ties", "has_hood", "has_pompoms", "has_bobbles",
    "has_openwork", "has_floats", "is_toy", "is_sleepwear", "is_neckwear", "is_blanket", "is_hat", "is_outerwear",
    "may_be_sold",
]  # fmt: skip
AUDIENCES: tuple[Audience, ...] = get_args(Audience)
FACTS: tuple[Fact, ...] = get_args(Fact)


class Caution(NamedTuple):
    """A piece of safety advice.

    name: key in the table, by which a pattern may speak of it.
    title, text: what is printed.
    closing: the line that defers to local rules or to a doctor; always printed after the text.
    audiences: whom it concerns.
    facts: any of these makes it apply; empty = it needs none.
    fibres: any of these words in a yarn's fibre makes it apply; empty = it needs none.
    limits: numbers of the rule by name, the unit in the name.
    rule: what it rests on.
    """

    name: str
    title: str
    text: str
    closing: str
    audiences: tuple[Audience, ...]
    facts: tuple[Fact, ...]
    fibres: tuple[str, ...]
    limits: Mapping[str, Fraction]
    rule: str = ""
    sources: tuple[str, ...] = ()

    def applies(self, audience: Audience, facts: Iterable[Fact], fibre: str) -> bool:
        """Whether it concerns a piece; the conditions it has must all be met."""
        if audience not in self.audiences:
            return False
        if self.facts and not set(self.facts) & set(facts):
            return False
        return not self.fibres or any(
            re.search(rf"\b{re.escape(word)}\b", fibre, re.IGNORECASE) for word in self.fibres
        )


class Cautions(NamedTuple):
    """Every caution, in the order of the table."""

    cautions: tuple[Caution, ...]

    def applying(self, audience: Audience, facts: Iterable[Fact] = (), fibre: str = "") -> tuple[Caution, ...]:
        """The cautions for a piece.

        facts: what the pattern's instructions and notions show, from FACTS.
        fibre: fibres of all yarns as typed ("100% wool").
        """
        known = tuple(facts)
        return tuple(caution for caution in self.cautions if caution.applies(audience, known, fibre))


def read_cautions(text: str, file: str = FILE) -> Cautions:
    """The cautions of a table. Raises TradeTableError for an entry that cannot be used."""
    table = read_table(file, text)
    table.row.only("sources", "closing", "cautions")
    closings = {name: entry.text() for name, entry in table.entry("closing").items()}
    return Cautions(tuple(_caution(name, entry, closings) for name, entry in table.entry("cautions").items()))


def _caution(name: str, entry: Entry, closings: Mapping[str, str]) -> Caution:
    cells = entry.cells("title", "text", "for", "when", "fibre", "closing", "limits", "rule", "src")
    audiences = _each_of(cells.entry("for"), AUDIENCES)
    facts = _each_of(cells.found["when"], FACTS) if cells.has("when") else ()
    closing = cells.choice("closing", tuple(closings)) if cells.has("closing") else "local"
    if closing not in closings:
        raise entry.fault(f"there is no closing line `{closing}` in this file")
    limits = {key: limit.number() for key, limit in cells.found["limits"].items()} if cells.has("limits") else {}
    return Caution(
        name, cells.text("title"), cells.text("text"), closings[closing],
        cast(tuple[Audience, ...], audiences), cast(tuple[Fact, ...], facts), cells.texts("fibre"),
        limits, cells.text("rule", ""), cells.texts("src"),
    )  # fmt: skip


def _each_of(entry: Entry, choices: tuple[str, ...]) -> tuple[str, ...]:
    for element in entry.elements():
        if element.text() not in choices:
            raise element.fault(f"`{element.text()}` is not known here; use one of {', '.join(choices)}")
    return entry.texts()
