"""Facts of the trade as data: stitches, words, needles, yarns, gauges, bodies and cautions.

In: the text of the tables in `templates/trade/`, through a reader that the caller passes in. Out: frozen values with
plain look-ups; `load_trade` gives them all. Every table row carries the keys of its sources, which the head of its
file spells out; a row marked `m` is from memory and has not been seen in print.

Rows are named tuples and not dataclasses: they are as frozen, and some thirty of them are made on every start of the
command, each ten times as fast. Books compare by identity: two books are never worth comparing row by row.
"""

from castoff.trade.load import Trade, load_trade

__all__ = ["Trade", "load_trade"]
