"""Stage 7b: what has been proven, said in print: one document tree per edition.

In: a pattern with its numbers, lines and knitting, the facts of the trade, and the house's texts. Out: a `Document`,
by `compose.compose`. Each subject of the document has a module of its own; `wording.py` is the one place where a
number or a length becomes text, `texts.py` the one door to what the house says.
"""
