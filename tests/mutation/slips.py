"""Slips of the pen: every way in which one number or word of a typed pattern can be wrong.

In: the source of a pattern and what was made of it. Out: `Slip`s, each a small change of the source text with its place.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

from castoff.notation.nodes import nodes_of
from castoff.notation.syntax import InstructionLine, Stated, ToldLength, ToldRows
from castoff.pipeline import Proof
from castoff.span import Text

Kind = Literal["one", "two", "digits", "sizes", "stitches", "sides"]
KINDS: tuple[Kind, ...] = ("one", "two", "digits", "sizes", "stitches", "sides")
WORDS = ("zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve")

# k8, p2, sl1 and numbers by themselves; not the 2 of k2tog, the 1 of m1l or the parts of 1/2
_NUMBER = re.compile(r"(?<![\d.⁄/])(?:(?<![A-Za-z])|(?<=\b[kKpP])|(?<=\bsl)|(?<=\byo))(\d+)(?!tog|[lrp]\b|[\d⁄/])")
_WORD = re.compile(
    r"(?<![-\w])(?:two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|once|twice)(?![-\w])", re.IGNORECASE
)
_LIST = re.compile(r"(?<![\d.])\d+(?:\.\d+)?[¼½¾]?(?:\s*[)\]]*\s*[(\[,]\s*\d+(?:\.\d+)?[¼½¾]?)+")
_FULL = re.compile(r"\d+(?:\.\d+)?[¼½¾]?")
# the right side of the fabric, and not that of a neck
_SIDE = re.compile(r"\b(RS|WS|[Ww]rong side|[Rr]ight side(?= rows?\b| facing\b| of (?:the )?(?:work|fabric)\b))\b")
_OTHER_SIDE = {
    "RS": "WS", "WS": "RS", "right side": "wrong side", "wrong side": "right side",
    "Right side": "Wrong side", "Wrong side": "Right side",
}  # fmt: skip
# one stitch, or so many of it in every size, between the commas of a row; "k to end" is none
_SIZES = r"(?:(?: ?[(\[][\d, –]+[)\]])+)?"
_STITCH = re.compile(
    r"(?:(?<=[,;:*(\[] )|(?<=[*(\[]))"
    rf"((?:[kKpP]\d+{_SIZES}|[kKpP]|[KkPp]\d+ ?tog(?: tbl)?|[Ss]ss?[kp]|[Ss]kpo?|[Ss]k2po?|[Ss]2kp2?|[Ss]l ?\d*"
    r"(?: purlwise| knitwise| pwise| kwise)?(?: wyi[bf])?|[Yy]o|[Yy]fwd|[Yy]rn|[Yy]on|[Mm]1[lrpLRP]?p?|[KkPp]fb)"
    r"(?: sts?)?(?: tbl)?)(?=[,;.)\]])"
)
_BEHIND = re.compile(r", ")


@dataclass(frozen=True, slots=True)
class Slip:
    """A change of the source: characters `start` to `end` become `after`.

    stated: the number is one that the pattern tells its reader (a total, a measurement), so that a wrong one is wrong
    though the fabric stays the same. section: index of the section, None for the measurements.
    """

    kind: Kind
    start: int
    end: int
    before: str
    after: str
    stated: bool
    section: int | None

    def apply(self, source: str) -> str:
        """The source with the slip in it."""
        return source[: self.start] + self.after + source[self.end :]


def slips(proof: Proof, kinds: tuple[Kind, ...] = KINDS) -> Iterator[Slip]:
    """All slips of some kinds, in the order of the source."""
    assert proof.pattern is not None
    source = proof.data.decode()
    told = _told(proof)
    places: list[tuple[Text, int | None]] = [
        (line, index)
        for index, section in enumerate(proof.pattern.sections)
        if section.work is not None
        for line in section.work.lines()
        if not line.value.lstrip().startswith(">")
    ]
    measured = [(measurement.expression, None) for measurement in proof.pattern.measurements]
    for kind in kinds:
        for text, section in [*places, *measured] if kind in ("one", "two", "digits", "sizes") else places:
            for start, end, after in _changes(kind, text.value):
                at = text.offset(start)
                stop = text.offset(end - 1) + 1
                stated = section is None or any(low <= at < high for low, high in told)
                yield Slip(kind, at, stop, source[at:stop], after, stated, section)


def _told(proof: Proof) -> list[tuple[int, int]]:
    """Stretches of the source that tell a number instead of asking for work."""
    return [
        (node.span.start, node.span.end)
        for lines in proof.lines
        for line in lines
        if isinstance(line, InstructionLine)
        for step in line.steps
        for node in nodes_of(step)
        if isinstance(node, (Stated, ToldRows, ToldLength))
    ]


def _changes(kind: Kind, text: str) -> Iterator[tuple[int, int, str]]:
    match kind:
        case "one":
            yield from _moved(text, 1)
        case "two":
            yield from _moved(text, 2)
        case "digits":
            for match in _NUMBER.finditer(text):
                digits = match[1]
                if len(digits) == 2 and digits[0] != digits[1] and digits[1] != "0":
                    yield match.start(1), match.end(1), digits[1] + digits[0]
        case "sizes":
            yield from _swapped_sizes(text)
        case "stitches":
            for match in _STITCH.finditer(text):
                yield match.start(1), match.end(1), f"{match[1]}, {match[1].lower()}"
                if (behind := _BEHIND.match(text, match.end(1))) is not None:
                    yield match.start(1), behind.end(), ""
                elif text.endswith(", ", 0, match.start(1)):
                    # the last one of a row or a repeat
                    yield match.start(1) - 2, match.end(1), ""
        case "sides":
            for match in _SIDE.finditer(text):
                yield match.start(), match.end(), _OTHER_SIDE[match[1]]


def _moved(text: str, by: int) -> Iterator[tuple[int, int, str]]:
    for match in _NUMBER.finditer(text):
        for step in (-by, by):
            number = int(match[1]) + step
            if number >= 0:
                yield match.start(1), match.end(1), str(number)
    for match in _WORD.finditer(text):
        word = match.group().lower()
        number = {"once": 1, "twice": 2}.get(word) or WORDS.index(word)
        for step in (-by, by):
            if 1 <= number + step <= 12:
                times = word in ("once", "twice")
                after = f"{WORDS[number + step]} times" if times else WORDS[number + step]
                yield match.start(), match.end(), {"one times": "once", "two times": "twice"}.get(after, after)


def _swapped_sizes(text: str) -> Iterator[tuple[int, int, str]]:
    """Two neighbours of a size list change places."""
    for listed in _LIST.finditer(text):
        numbers = _FULL.finditer(text, listed.start(), listed.end())
        for one, two in pairwise(numbers):
            if one.group() != two.group():
                yield one.start(), two.end(), two.group() + text[one.end() : two.start()] + one.group()
