"""A value for every size of a pattern.

`PerSize` holds one value per size, in the order of the source; None where a size skips (a dash in print).
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Generic, TypeVar

T = TypeVar("T")
U = TypeVar("U")


@dataclass(frozen=True, slots=True)
class PerSize(Generic[T]):
    """One value per size; None where a size skips."""

    values: tuple[T | None, ...]

    @staticmethod
    def same(value: T, count: int) -> PerSize[T]:
        """The same value in every one of `count` sizes."""
        return PerSize((value,) * count)

    def __len__(self) -> int:
        return len(self.values)

    def __iter__(self) -> Iterator[T | None]:
        return iter(self.values)

    def __getitem__(self, size: int) -> T | None:
        return self.values[size]

    @property
    def uniform(self) -> bool:
        """Whether every size has the same value, so that print shows it once."""
        return all(value == self.values[0] for value in self.values)

    def map(self, change: Callable[[T], U]) -> PerSize[U]:
        """The same list with every value changed; sizes that skip go on skipping."""
        return PerSize(tuple(None if value is None else change(value) for value in self.values))

    def only(self, size: int) -> PerSize[T]:
        """The list of a one-size edition."""
        return PerSize((self.values[size],))


def size_list(texts: tuple[str, ...], opener: str = "(", grouping: tuple[int, ...] = ()) -> str:
    """The trade's list: first size outside, the others in brackets: `84 (92, 100, 108)`.

    texts: one text per size, already formatted.
    opener: "(" or "[".
    grouping: how many sizes stand in each bracket, for grouped lists such as `4 (8, 12) (16, 20)`;
        empty puts all but the first into one.
    """
    if len(texts) == 1:
        return texts[0]
    closer = {"(": ")", "[": "]"}[opener]
    groups = grouping or (len(texts) - 1,)
    parts = [texts[0]]
    at = 1
    for length in groups:
        parts.append(opener + ", ".join(texts[at : at + length]) + closer)
        at += length
    return " ".join(parts)
