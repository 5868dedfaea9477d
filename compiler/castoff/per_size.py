"""A value for every size of a pattern.

`PerSize` holds one value per size, in the order of the source; None where a size skips (a dash in print).

Sizes may run in two directions (bust and cup), and a pattern may leave choices to the knitter (crew or V neck). Then every
pair in every choice is a size of its own, knitted and judged like any other: `SizeNames` are the names of all of them, and
`Axes` says what they are made of.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from itertools import product
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


@dataclass(frozen=True, slots=True)
class Choice:
    """One of the choices of an option: its key in the source, and what it is called in print ("V neck")."""

    key: str
    words: str


@dataclass(frozen=True, slots=True)
class Option:
    """Something the knitter chooses, with all its choices."""

    key: str
    choices: tuple[Choice, ...]


@dataclass(frozen=True, slots=True)
class Axes:
    """What the sizes of a pattern are made of: all pairs of sizes in all combinations of choices.

    first: the sizes of ordinary lists. second: those of the second direction, called `name` ("cup"); empty when there is
    none. The first runs fastest, then the second, then the options, the last of them before the first.
    """

    first: tuple[str, ...]
    name: str = ""
    second: tuple[str, ...] = ()
    options: tuple[Option, ...] = ()

    @property
    def plain(self) -> bool:
        """Whether there is nothing but one list of sizes."""
        return not self.second and not self.options

    @property
    def pairs(self) -> int:
        """How many pairs of sizes there are."""
        return len(self.first) * max(1, len(self.second))

    @property
    def combinations(self) -> tuple[tuple[Choice, ...], ...]:
        """Every combination of choices, one for each option, in their order; one empty one without options."""
        return tuple(product(*(option.choices for option in self.options)))

    @property
    def count(self) -> int:
        """How many sizes there are in all."""
        return self.pairs * len(self.combinations)

    def place(self, size: int) -> tuple[int, ...]:
        """Where a size stands: index in the first direction, in the second (0 when there is none), in each option."""
        rest, pair = divmod(size, self.pairs)[0], size % self.pairs
        second, first = divmod(pair, len(self.first))
        places: list[int] = []
        for option in reversed(self.options):
            rest, at = divmod(rest, len(option.choices))
            places.insert(0, at)
        return first, second, *places

    def words(self, direction: int, at: int) -> str:
        """A place in a direction as words: "M", "cup C", "V neck"."""
        if direction == 0:
            return self.first[at]
        if direction == 1:
            return f"{self.name} {self.second[at]}" if self.name else self.second[at]
        return self.options[direction - 2].choices[at].words

    @property
    def directions(self) -> tuple[tuple[int, int], ...]:
        """The directions there are, as (number, how many places it has)."""
        lengths = (len(self.first), len(self.second), *(len(option.choices) for option in self.options))
        return tuple((number, length) for number, length in enumerate(lengths) if length)

    @property
    def labels(self) -> tuple[str, ...]:
        """The name of every size: "M", "M, cup C", "M, cup C, V neck"."""
        return tuple(
            ", ".join(
                self.words(number, self.place(size)[number])
                for number, length in self.directions
                if not (number == 0 and length == 1 and not self.plain and self.first[0].lower() == "one size")
            )
            for size in range(self.count)
        )

    def spread(self, values: Sequence[T]) -> tuple[T, ...]:
        """Values of the first direction, or of all pairs, as one for every size."""
        times = self.count // len(values)
        return tuple(values) * times

    def keeping(self, kept: Sequence[tuple[int, int]]) -> Axes:
        """The axes of an edition that keeps one place of some directions, as (direction, place): the others are gone."""
        gone = {number for number, _ in kept}
        options = tuple(option for number, option in enumerate(self.options, 2) if number not in gone)
        return Axes(self.first, "", (), options) if 1 in gone else Axes(self.first, self.name, self.second, options)

    @property
    def runs(self) -> tuple[range, ...]:
        """The sizes of the first direction, once for every place in the others."""
        length = len(self.first)
        return tuple(range(start, start + length) for start in range(0, self.count, length))

    def chosen(self, option: str, choice: str) -> tuple[bool, ...]:
        """For every size, whether it is of a choice."""
        number = next(at for at, each in enumerate(self.options) if each.key == option) + 2
        keys = [each.key for each in self.options[number - 2].choices]
        return tuple(keys[self.place(size)[number]] == choice for size in range(self.count))

    def told(self, sizes: Sequence[str]) -> tuple[str, ...]:
        """Names of sizes in as few words as say the same: "cup C" for all sizes of cup C; nothing for all there are."""
        labels = self.labels
        if self.plain or len(sizes) < 2 or not set(sizes) <= set(labels):
            return tuple(sizes)
        places = [self.place(labels.index(name)) for name in sizes]
        wanted = {number: sorted({place[number] for place in places}) for number, _ in self.directions}
        if len(set(places)) != len(list(product(*wanted.values()))):
            return tuple(sizes)
        parted = [number for number, length in self.directions if len(wanted[number]) < length]
        return tuple(
            ", ".join(self.words(number, at) for number, at in zip(parted, combination, strict=True))
            for combination in product(*(wanted[number] for number in parted))
            if combination
        )


class SizeNames(tuple[str, ...]):
    """The names of all sizes, which know what they are made of."""

    axes: Axes

    @staticmethod
    def of(axes: Axes) -> SizeNames:
        """The names that axes make."""
        names = SizeNames(axes.labels)
        names.axes = axes
        return names


def axes_of(names: Sequence[str]) -> Axes:
    """What sizes are made of; of names alone, one list of them."""
    return names.axes if isinstance(names, SizeNames) else Axes(tuple(names))


def pair_list(texts: Sequence[str], axes: Axes, opener: str = "(", grouping: tuple[int, ...] = ()) -> str:
    """A list for every size as a source writes it: `84 (92, 100) | 88 (96, 104)`, with the choices named where they differ.

    Arguments as in `size_list`; a direction in which nothing differs is left out.
    """
    if axes.plain:
        return texts[0] if len(set(texts)) == 1 and len(texts) > 1 else size_list(tuple(texts), opener, grouping)
    one_way = [_one_or_list([texts[size] for size in run], opener, grouping) for run in axes.runs]
    rows = max(1, len(axes.second))
    chosen = [one_way[start : start + rows] for start in range(0, len(one_way), rows)]
    said = [lists[0] if len(set(lists)) == 1 else " | ".join(lists) for lists in chosen]
    if len(set(said)) == 1:
        return said[0]
    names = [", ".join(choice.words for choice in combination) for combination in axes.combinations]
    return "; ".join(f"{name}: {words}" for name, words in zip(names, said, strict=True))


def _one_or_list(texts: list[str], opener: str, grouping: tuple[int, ...]) -> str:
    return texts[0] if len(set(texts)) == 1 else size_list(tuple(texts), opener, grouping)


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
