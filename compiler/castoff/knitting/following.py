"""What is still to be worked in a section, for those who need a later line to read an earlier one.

In: the state of one size. Out: the steps behind the one in work, in order, as far as the section goes, and no further
than to a line that could not be read.
"""

from __future__ import annotations

from collections.abc import Iterator

from castoff.knitting.plan import PlanSection
from castoff.knitting.state import SizeState
from castoff.notation.syntax import InstructionLine, ProseLine, SizesLine, Step, UnreadLine


def steps_ahead(state: SizeState) -> Iterator[Step]:
    """The steps that this size has still to work in this section."""
    for block in reversed(state.following):
        for item in block:
            if isinstance(item, (PlanSection, UnreadLine)):
                return
            if isinstance(item, InstructionLine):
                yield from item.steps if item.sizes[state.size] else ()
            elif not isinstance(item, (ProseLine, SizesLine)):
                yield item
