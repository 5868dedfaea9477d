"""Editions: the choices that turn one pattern into one file.

In: words such as "metric a4 large size=M" or "both neck=v". Out: a frozen `Edition` with a slug for file names, or an
`EditionError` that names the word at fault and what may stand there. The words may come in any order, parted
by spaces, commas or "+"; what is not said keeps its usual value.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Sequence
from dataclasses import dataclass, replace
from difflib import get_close_matches
from typing import Literal

from castoff.per_size import Axes, axes_of

Units = Literal["metric", "imperial", "both"]
Paper = Literal["A4", "Letter", "either"]
Reading = Literal["standard", "large", "text", "web"]


class EditionError(ValueError):
    """A word that no edition knows, or two words that contradict each other."""


@dataclass(frozen=True, slots=True)
class Edition:
    """One set of choices.

    units: which measures are printed; "both" prints each with the other behind it.
    paper: "either" keeps the text where both A4 and Letter print it whole (RFC 2346). Plays no part in text
        and web.
    reading: "standard" and "large" (large print) are PDFs, "text" is plain UTF-8, "web" is one HTML file.
    size: index of the only size shown, or None for all.
    kept: choices that are made (crew neck, cup D), as (direction, place) of `Axes`: all sizes of them are shown, and
        nothing of the other choices. Empty for all, and where a size says it.
    written_out: whether short forms are said in full ("knit two together").
    pictures: whether photographs are printed. Drawings the instructions need are no pictures in this sense.
    terms: the words of which country; None as the pattern is written.
    """

    units: Units = "both"
    paper: Paper = "A4"
    reading: Reading = "standard"
    size: int | None = None
    kept: tuple[tuple[int, int], ...] = ()
    written_out: bool = False
    pictures: bool = True
    terms: Literal["US", "UK"] | None = None

    @property
    def name(self) -> str:
        """The slug, sizes by their place ("both-a4-standard-size-2"). Different editions have different
        slugs."""
        return self.slug(())

    def slug(self, size_names: Sequence[str]) -> str:
        """The slug with the size's own name where it is known: "metric-a4-large-size-m".

        size_names: the pattern's sizes; two names that give the same slug fall back to the place.
        """
        parts: list[str] = [self.units]
        if self.paged:
            parts.append(self.paper.lower())
        parts.append(self.reading)
        if self.size is not None:
            parts.append(f"size-{_size_slug(self.size, size_names)}")
        parts += [_choice_slug(direction, at, axes_of(size_names)) for direction, at in self.kept]
        if self.written_out:
            parts.append("words")
        if not self.pictures:
            parts.append("plain")
        if self.terms is not None:
            parts.append(self.terms.lower())
        return "-".join(parts)

    @property
    def paged(self) -> bool:
        """Whether the edition has pages (is a PDF)."""
        return self.reading in ("standard", "large")

    def sizes(self, size_names: Sequence[str]) -> tuple[int, ...]:
        """Places of the sizes that are printed, of all that the pattern has."""
        if self.size is not None:
            return (self.size,)
        axes = axes_of(size_names)
        every = range(len(size_names))
        return tuple(size for size in every if all(axes.place(size)[number] == at for number, at in self.kept))

    @property
    def suffix(self) -> str:
        """The file name's ending, with its dot."""
        return {"standard": ".pdf", "large": ".pdf", "text": ".txt", "web": ".html"}[self.reading]

    def description(self, size_names: Sequence[str] = ()) -> str:
        """In words, for the stamp in the footer: "metric, A4, size M"."""
        units = {"metric": "metric", "imperial": "inches", "both": "metric and inches"}[self.units]
        parts = [units]
        if self.paged:
            parts.append("A4 or Letter" if self.paper == "either" else self.paper)
        if self.reading == "large":
            parts.append("large print")
        if self.size is not None:
            known = self.size < len(size_names)
            parts.append(f"size {size_names[self.size] if known else self.size + 1}")
        axes = axes_of(size_names)
        parts += [axes.words(*each) for each in self.kept if each[0] in dict(axes.directions)]
        if self.written_out:
            parts.append("written out")
        if not self.pictures:
            parts.append("without pictures")
        if self.terms is not None:
            parts.append(f"{self.terms} terms")
        return ", ".join(parts)


SIZE_WORD = r"(?:[\w-]+=\"[^\"]*\"|[\w-]+=[^\s,+]+)"
"""A size or choice in the words of an edition: size=M, neck="V neck"."""
_CHOICES: tuple[tuple[str, str, object], ...] = (
    ("metric", "units", "metric"),
    ("imperial", "units", "imperial"),
    ("inches", "units", "imperial"),
    ("both", "units", "both"),
    ("a4", "paper", "A4"),
    ("letter", "paper", "Letter"),
    ("either", "paper", "either"),
    ("standard", "reading", "standard"),
    ("large", "reading", "large"),
    ("large-print", "reading", "large"),
    ("text", "reading", "text"),
    ("web", "reading", "web"),
    ("words", "written_out", True),
    ("written-out", "written_out", True),
    ("short", "written_out", False),
    ("pictures", "pictures", True),
    ("plain", "pictures", False),
    ("no-pictures", "pictures", False),
    ("us", "terms", "US"),
    ("uk", "terms", "UK"),
)
"""word, field, value: every word an edition may be asked for with."""


def parse_edition(text: str, size_names: Sequence[str] = (), base: Edition | None = None) -> Edition:
    """An edition from words such as "imperial letter size=M".

    size_names: the pattern's sizes; `size=` takes one of them, or its place counted from 1. Where they run in two
    directions or there are options, `cup=D` or `neck=crew` keeps one choice, and `size=M` then means the one size M of it.
    base: what is not said. Raises EditionError for an unknown word (with the nearest known one), an unknown size, or a
    contradiction.
    """
    choices = {word: (field, value) for word, field, value in _CHOICES}
    said: dict[str, tuple[str, object]] = {}
    axes = axes_of(size_names)
    words = _words(text)
    for word in words:
        name, equals, wanted = word.partition("=")
        direction = _directions(axes).get(name.casefold()) if equals else None
        if equals and name.lower() == "size":
            continue
        if direction is not None:
            choice: tuple[str, object] = (f"choice of {name.lower()}", (direction, _place(wanted, direction, axes)))
        elif word.lower() in choices:
            choice = choices[word.lower()]
        elif equals:
            raise EditionError(_no_choice(name, axes))
        else:
            raise EditionError(_unknown(word, [*choices, "size="]))
        field, value = choice
        earlier = said.get(field)
        if earlier is not None and earlier[1] != value:
            what = field.replace("_", " ")
            raise EditionError(f"`{earlier[0]}` and `{word}` cannot both be the {what} of an edition")
        said[field] = (word, value)
    kept = tuple(sorted(value for field, (_, value) in said.items() if isinstance(value, tuple)))
    for word in words:
        if word.lower().startswith("size="):
            size = _size_index(word[5:], size_names, kept)
            if said.setdefault("size", (word, size))[1] != size:
                raise EditionError(f"`{said['size'][0]}` and `{word}` cannot both be the size of an edition")
    if not said:
        raise EditionError("an edition needs at least one word, such as `metric` or `large`")
    values = {field: value for field, (_, value) in said.items() if not isinstance(value, tuple)}
    if kept and "size" not in said:
        values["kept"] = kept
    return replace(base or Edition(), **values)  # type: ignore[arg-type]


def usual_editions(name: str) -> tuple[Edition, ...]:
    """A named set of editions. Raises EditionError for an unknown name.

    print: metric, imperial and both on A4 and Letter. access: large print, plain text, web page. each: all
        of these.
    sale: what a shop hands out: both units on either paper, large print, plain text, web page.
    """
    for known, editions in USUAL_SETS:
        if known == name:
            return editions
    raise EditionError(_unknown(name, [known for known, _ in USUAL_SETS]))


_PRINT = (
    Edition("metric", "A4"),
    Edition("metric", "Letter"),
    Edition("imperial", "A4"),
    Edition("imperial", "Letter"),
    Edition("both", "A4"),
    Edition("both", "Letter"),
)
_ACCESS = (
    Edition(reading="large", paper="A4", written_out=True, pictures=False),
    Edition(reading="large", paper="Letter", written_out=True, pictures=False),
    Edition(reading="text", written_out=True, pictures=False),
    Edition(reading="web"),
)
USUAL_SETS: tuple[tuple[str, tuple[Edition, ...]], ...] = (
    ("print", _PRINT),
    ("access", _ACCESS),
    ("sale", (Edition(paper="either"), replace(_ACCESS[0], paper="either"), *_ACCESS[2:])),
    ("each", (*_PRINT, *_ACCESS)),
)


def _words(text: str) -> list[str]:
    """The words of an edition; a size's name may hold spaces when it stands in quotes: size="3-6 months"."""
    return [word.replace('"', "") for word in re.findall(SIZE_WORD + r"|[^\s,+]+", text)]


def _directions(axes: Axes) -> dict[str, int]:
    """What chooses among the sizes besides the sizes themselves: "cup", "neck", and the number of its direction."""
    found = {axes.name.casefold(): 1} if axes.second and axes.name else {}
    return found | {option.key.casefold(): number for number, option in enumerate(axes.options, 2)}


def _place(wanted: str, direction: int, axes: Axes) -> int:
    """The place of a choice in its direction, by its key in the source or its words in print."""
    keys = axes.second if direction == 1 else tuple(choice.key for choice in axes.options[direction - 2].choices)
    for at, key in enumerate(keys):
        if _slug(wanted) and _slug(wanted) in (_slug(key), _slug(axes.words(direction, at))):
            return at
    name = next(name for name, number in _directions(axes).items() if number == direction)
    raise EditionError(f"no {name} `{wanted}`: the choices are {', '.join(keys)}")


def _no_choice(name: str, axes: Axes) -> str:
    known = list(_directions(axes))
    if not known:
        return f"there is no `{name}` to choose: an edition keeps one size with `size=`"
    return f"there is no `{name}` to choose: an edition keeps one choice with {' or '.join(f'`{each}=`' for each in known)}"


def _size_index(wanted: str, size_names: Sequence[str], kept: Sequence[tuple[int, int]] = ()) -> int:
    """The size of a name, among those of the choices that are made."""
    axes = axes_of(size_names)
    if not axes.plain:
        of_kept = [size for size in range(axes.count) if all(axes.place(size)[number] == at for number, at in kept)]
        named = [size for size in of_kept if _slug(axes.first[axes.place(size)[0]]) == _slug(wanted)]
        if len(named) == 1:
            return named[0]
        if len(named) > 1:
            made = dict(kept)
            open_ = [f"`{name}=`" for name, number in _directions(axes).items() if number not in made]
            raise EditionError(f"size `{wanted}` comes in {len(named)} choices: say {' and '.join(open_)} as well")
    found = _named_size(wanted, size_names)
    for number, at in kept:
        if axes.place(found)[number] != at:
            raise EditionError(f"size `{size_names[found]}` is not of {axes.words(number, at)}")
    return found


def _named_size(wanted: str, size_names: Sequence[str]) -> int:
    folded = [name.casefold() for name in size_names]
    if wanted.casefold() in folded:
        return folded.index(wanted.casefold())
    slugs = [_slug(name) for name in size_names]
    if slugs.count(_slug(wanted)) == 1:
        return slugs.index(_slug(wanted))
    if wanted.isdecimal() and int(wanted) >= 1 and (not size_names or int(wanted) <= len(size_names)):
        return int(wanted) - 1
    if not size_names:
        raise EditionError(f"size `{wanted}`: give its place, counted from 1")
    raise EditionError(f"no size `{wanted}`: the sizes are {', '.join(size_names)}")


def _size_slug(index: int, size_names: Sequence[str]) -> str:
    slugs = [_slug(name) for name in size_names]
    if index < len(slugs) and slugs[index] and slugs.count(slugs[index]) == 1:
        return slugs[index]
    return str(index + 1)


def _choice_slug(direction: int, at: int, axes: Axes) -> str:
    if direction == 1 and axes.second:
        return "-".join(filter(None, (_slug(axes.name), _slug(axes.second[at]) or str(at + 1))))
    if direction - 2 < len(axes.options):
        option = axes.options[direction - 2]
        return f"{_slug(option.key)}-{_slug(option.choices[at].key) or at + 1}"
    return f"choice-{direction}-{at + 1}"


def _slug(text: str) -> str:
    """Letters and digits of a name, lower case, joined by hyphens: "0–3 mo" gives "0-3-mo"."""
    dashed = text.replace("–", "-").replace("—", "-")
    plain = unicodedata.normalize("NFKD", dashed).encode("ascii", "ignore").decode()
    return re.sub(r"[^a-z0-9]+", "-", plain.lower()).strip("-")


def _unknown(word: str, known: Sequence[str]) -> str:
    near = get_close_matches(word.lower(), known, n=1)
    guess = f"; did you mean `{near[0]}`?" if near else f"; known are {', '.join(known)}"
    return f"unknown edition word `{word}`{guess}"
