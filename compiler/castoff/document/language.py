"""The words of an edition: whose country's, and short or in full.

In: the words of an instruction line, as items, or a sentence of prose. Out: inline text. Words are turned from US to
UK or back where the edition asks for it; a yarn over becomes yfwd, yrn, yon or yfrn by the stitches on either side of
it. Short forms carry what they stand for, for readers who hear the text; written out, they are replaced by it.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property

from castoff.document.figures import merged
from castoff.document.setting import Setting
from castoff.document.tree import NO_BREAK_SPACE, Abbreviation, Inline, Inlines, StitchTerm, Text
from castoff.model.pattern import Terms
from castoff.notation.syntax import Token
from castoff.trade.abbreviations import Abbreviations, TermBook
from castoff.trade.stitch import Stitch


@dataclass(frozen=True, slots=True)
class Item:
    """A token on its way to print.

    text: its words so far. token: where it came from. inline: what it has become, once it is no more words alone.
    value: the number, when it is one number in all sizes that are printed.
    """

    text: str
    token: Token
    inline: Inlines | None = None
    value: int | None = None

    @property
    def is_space(self) -> bool:
        """Whether it is white space."""
        return self.token.kind == "space"


@dataclass(frozen=True)
class Language:
    """Words of an edition.

    pairs: words and phrases of the source's country and what stands for them in the edition's; see `pairs_of`.
    short: what an abbreviation stands for, "" for a word that is none; see `expander`.
    find: the stitch of a name. own: the author's own stitches, lower-case name and their words.
    """

    setting: Setting
    pairs: tuple[tuple[str, str], ...] = ()
    short: Callable[[str], str] = lambda word: ""
    find: Callable[[str], Stitch | None] = lambda name: None
    own: Mapping[str, str] = field(default_factory=dict)

    # ── country ───────────────────────────────────────────────────────────────────────────────────

    @property
    def translates(self) -> bool:
        """Whether the edition speaks another country's words than the source."""
        return self.setting.terms != self.setting.typed_terms

    @cached_property
    def phrases(self) -> dict[str, tuple[tuple[tuple[str, ...], str], ...]]:
        """By first word: the words of a phrase and what stands for it, longest first."""
        found: dict[str, list[tuple[tuple[str, ...], str]]] = {}
        for old, new in self.pairs if self.translates else ():
            old = old.lower()
            found.setdefault(old.split()[0], []).append((tuple(old.split()), new))
            if " " in old and "-" not in old:
                joined = old.replace(" ", "-")
                found.setdefault(joined, []).append(((joined,), new.replace(" ", "-")))
        return {first: tuple(sorted(group, key=lambda each: -len(each[0]))) for first, group in found.items()}

    @cached_property
    def _phrase_pattern(self) -> tuple[re.Pattern[str], dict[str, str]] | None:
        table = {" ".join(words): new for group in self.phrases.values() for words, new in group}
        if not table:
            return None
        alternatives = "|".join(re.escape(old) for old in sorted(table, key=lambda old: (-len(old), old)))
        return re.compile(rf"(?<![\w-])(?:{alternatives})(?![\w-])", re.IGNORECASE), table

    def words(self, text: str) -> str:
        """Prose in the words of the edition's country, short forms in full where the edition is written out."""
        found = self._phrase_pattern
        if found is not None:
            pattern, table = found
            text = pattern.sub(
                lambda match: _cased(table[" ".join(match.group().lower().split())], match.group()), text
            )
        return _SHORT_FORM.sub(self._in_full, text) if self.setting.written_out else text

    def _in_full(self, match: re.Match[str]) -> str:
        """A short form in prose: only those that are no words of their own ("sts", "rnd", "dpns", "RS")."""
        return self.short(match.group()) or match.group()

    def _translated(self, items: list[Item]) -> list[Item]:
        phrases = self.phrases
        places = [index for index, item in enumerate(items) if not item.is_space and item.text]
        at = 0
        while at < len(places):
            first = items[places[at]]
            step = 1
            if first.inline is None:
                for words, new in phrases.get(first.text.lower(), ()):
                    span = places[at : at + len(words)]
                    if len(span) == len(words) and all(
                        items[place].inline is None and items[place].text.lower() == word
                        for place, word in zip(span, words, strict=True)
                    ):
                        items[span[0]] = replace(first, text=_cased(new, first.text))
                        for place in range(span[0] + 1, span[-1] + 1):
                            items[place] = replace(items[place], text="")
                        step = len(words)
                        break
            at += step
        for index, item in enumerate(items):
            if item.token.kind == "stitch" and item.inline is None:
                items[index] = self._other_stitch(items, index)
        return items

    def _other_stitch(self, items: Sequence[Item], index: int) -> Item:
        """A stitch under the name that the edition's country gives it."""
        item = items[index]
        name = item.token.stitch or ""
        if self.setting.terms == "US":
            return replace(item, text=_cased("yo", item.text)) if name in _UK_YARN_OVERS else item
        if name == "yo":
            before = _face(self._neighbour(items, index, -1))
            after = _face(self._neighbour(items, index, 1))
            return replace(item, text=_cased(_YARN_OVER[before or after, after or before], item.text))
        return item

    def _neighbour(self, items: Sequence[Item], index: int, way: int) -> Stitch | None:
        """The nearest stitch before (-1) or behind (1) a place; round the repeat when a star comes first."""
        at = index + way
        while 0 <= at < len(items):
            if items[at].token.kind == "stitch":
                found = self.find(items[at].token.stitch or "")
                if found is not None and found.kind not in ("turn", "pick_up"):
                    return found
            at += way
        return None

    # ── short or in full ──────────────────────────────────────────────────────────────────────────

    def set(self, items: Sequence[Item]) -> Inlines:
        """Items as inline text in the words of the edition."""
        work = list(items)
        if self.translates:
            work = self._translated(work)
        work = [item for item in work if item.text or item.inline]
        found: list[Inline] = []
        at = 0
        while at < len(work):
            item = work[at]
            if item.inline is not None:
                found.extend(item.inline)
                at += 1
                continue
            opens = _opens_sentence(work, at)
            phrase = self._phrase(work, at)
            if phrase is not None:
                text, words, at = phrase
                full = Text(words[:1].upper() + words[1:] if opens else words)
                found.append(full if self.setting.written_out else Abbreviation(text, words))
                continue
            at += 1
            if self.setting.written_out and item.text.lower() == "rem" and _counts(work, at - 2):
                found.append(Text("remain"))
                continue
            found.extend(self._word(item, work[at] if at < len(work) else None, opens))
        return merged(found)

    def _phrase(self, work: Sequence[Item], at: int) -> tuple[str, str, int] | None:
        """A short form of two or three words ("St st", "rev St st"), what it stands for, and where it ends."""
        for length in (5, 3):
            span = work[at : at + length]
            if len(span) < length or any(item.inline is not None for item in span):
                continue
            if not all(item.is_space == bool(index % 2) for index, item in enumerate(span)):
                continue
            text = "".join(" " if item.is_space else item.text for item in span)
            words = self.short(text)
            if words:
                return text, words, at + length
        return None

    def _word(self, item: Item, following: Item | None, opens: bool) -> Inlines:
        words = self.stands_for(item)
        if not words:
            return (Text(item.text),)
        stitch = item.token.kind == "stitch"
        if self.setting.written_out:
            words = _one_act(words)
            # BO and RS are written in capitals wherever they stand; written out they have one where a sentence opens
            capital = item.text[:1].isupper() and (opens or len(item.text) == 1 or not item.text.isupper())
            full = words[:1].upper() + words[1:] if capital else words
            glue = NO_BREAK_SPACE if following is not None and following.inline is not None else ""
            return (StitchTerm(full, words), Text(glue)) if stitch else (Text(full + glue),)
        return (StitchTerm(item.text, words),) if stitch else (Abbreviation(item.text, words),)

    def stands_for(self, item: Item) -> str:
        """What a short form stands for; "" for a word that is none."""
        low = item.text.lower().rstrip(".")
        if item.token.kind == "stitch":
            own = self.own.get((item.token.stitch or "").lower())
            if own is not None:
                return own
            stitch = self.find(low) or self.find(item.token.stitch or "")
            if stitch is not None and stitch.generic and low in _ALTERATIONS:
                return _ALTERATIONS[low]
            if stitch is not None and low != stitch.words.lower():
                return stitch.spoken or stitch.words
            return ""
        if item.token.kind != "word":
            return ""
        return self.short(item.text) or _ALTERATIONS.get(low.replace("’", "'"), "")


def pairs_of(book: TermBook, typed: Terms, printed: Terms) -> tuple[tuple[str, str], ...]:
    """Words of the source's country and what the edition's country says; longest phrases need not come first.

    A word that both sides use (US and UK "moss stitch") is turned when it is the usual word of its row, since the
    source says whose words it is written in; further words of a row only when they are not shared.
    """
    found: dict[str, str] = {}
    if typed == printed:
        return ()
    for pair in book.pairs:
        old, new = pair.words(typed), pair.words(printed)[0]
        for index, word in enumerate(old):
            if word.casefold() != new.casefold() and (index == 0 or word not in pair.shared):
                found.setdefault(word, new)
    return tuple(found.items())


def expander(book: Abbreviations, terms: Terms) -> Callable[[str], str]:
    """What an abbreviation stands for in a country's words; "" for a word that is none.

    Whole words that the table lists beside a short form ("remain" beside "rem") are no abbreviations, and a unit is
    written with its number.
    """

    def expansion(word: str) -> str:
        bare = word.removesuffix(".")
        entry = book.find(bare)
        if entry is None or entry.kind == "unit":
            return ""
        low, name = bare.casefold(), entry.name.casefold()
        if low.startswith(name) and low[len(name) :] not in ("", "s"):
            return ""
        words = entry.words_in(terms)
        plural = low == name + "s" and not words.endswith("s")
        return words + "s" if plural else words

    return expansion


_SHORT_FORM = re.compile(r"(?<![\w-])(?:sts?|rnds?|dpns?|RS|WS|St st|rem|foll|patts?|beg|reps?)(?![\w-])")
_ALTERATIONS = {
    "dec": "decrease", "decs": "decreases", "dec'd": "decreased", "inc": "increase", "incs": "increases",
    "inc'd": "increased",
}  # fmt: skip
"""Shaping as a word: "Dec row", "2 sts dec'd"."""


def _one_act(words: str) -> str:
    """Words of one stitch that hold commas, so that they cannot be taken for several: slip-slip-knit."""
    parts = words.split(", ")
    if len(parts) < 2:
        return words
    return "-".join(parts) if all(" " not in part for part in parts) else f"({words})"


def _counts(items: Sequence[Item], at: int) -> bool:
    """Whether a count of stitches stands before a place: "16 sts rem" is "16 stitches remain"."""
    while at >= 0 and items[at].is_space:
        at -= 1
    return at >= 0 and items[at].text.lower() in ("st", "sts", "stitch", "stitches")


def _opens_sentence(items: Sequence[Item], at: int) -> bool:
    """Whether a word stands first in its row or behind a full stop."""
    before = [item for item in items[:at] if not item.is_space]
    return all(item.token.kind == "mark" for item in before) or (before[-1].text == "." and before[-1].inline is None)


_UK_YARN_OVERS = ("yfwd", "yrn", "yon", "yfrn")
_YARN_OVER = {
    ("knit", "knit"): "yfwd",
    ("purl", "purl"): "yrn",
    ("knit", "purl"): "yfrn",
    ("purl", "knit"): "yon",
    ("", ""): "yfwd",
}
"""UK name of a yarn over by the stitch before and the stitch behind (trade table of stitches: sp, km, yt)."""


def _face(stitch: Stitch | None) -> str:
    if stitch is None:
        return ""
    return "purl" if stitch.face == "purl" else "knit"


def _cased(new: str, old: str) -> str:
    """A word with the capital of the one it stands for."""
    return new[:1].upper() + new[1:] if old[:1].isupper() else new
