"""One instruction line set for an edition: what its tokens become in print.

In: an `InstructionLine`, its `Setting` and the `Language` of the edition. Out: an `InstructionRow`, or None for a
line that is not worked in any size that is printed.

What an edition changes: numbers of other sizes go; computed numbers are filled in; an act worked no times vanishes
(`K0`, "0 more times"); once is "once"; lengths are in the edition's units; words are those of the edition's country;
written out, short forms are said in full. Nothing else changes: the words are the author's.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from castoff.document.language import Item, Language
from castoff.document.setting import Setting
from castoff.document.tree import Inlines, InstructionRow, Text
from castoff.document.unworked import inside, unworked
from castoff.document.wording import counts, listed, measure
from castoff.notation.syntax import InstructionLine, Label, RepeatRows, RowsAs, RowStep, Token, Total

_ORDINAL = re.compile(r"\d(?:st|nd|rd|th)\b|\}(?:st|nd|rd|th)$")
_DIGIT = re.compile(r"[\d{]")
_PLURAL = {"sts": "st", "stitches": "stitch", "rows": "row", "rnds": "rnd", "rounds": "round", "times": "time"}
_TIMES_WORDS = {1: "once", 2: "twice"}
_FURTHER = ("further", "another", "additional")
"""Words after which "2 times" stays: nobody says "a further twice"."""
_OPENERS, _CLOSERS = "([{", ")]}"


def set_line(
    line: InstructionLine, setting: Setting, language: Language, *, for_all: bool = False
) -> InstructionRow | None:
    """The row of a line; None when nothing of it is worked in the sizes printed.

    for_all: whether it is for all sizes that the edition prints, so that it need not say for which it is.
    """
    if not any(setting.pick(line.sizes)):
        return None
    dropped, whole = unworked(line, setting)
    if whole:
        return None
    tokens = [token for token in line.tokens if not any(inside(token.span, span) for span in dropped)]
    if for_all and not all(line.sizes):
        tokens = _without_size_opening(tokens)
    label_end = _label_end(line, tokens)
    stated_start = _stated_start(line, tokens)
    if stated_start <= label_end:
        stated_start = len(tokens)
    items = _items(tokens, setting)
    items_label, rest = items[:label_end], items[label_end:stated_start]
    stated = _bare(items[stated_start:])
    step = next((step for step in line.steps if isinstance(step, (RowStep, RowsAs))), None)
    label = step.label if step is not None else None
    text = language.set(_tidied(_strip(rest, trailing=" —–-(="), opens=bool(dropped)))
    if not text and not stated and label_end == 0:
        return None
    return InstructionRow(
        label=language.set(_strip(_without_colon(items_label))) if label_end else None,
        text=_ended(text, bool(stated)),
        stated=language.set(stated) if stated else None,
        indent=0 if all(setting.pick(line.sizes)) else 1,
        side=label.side if label is not None else None,
        repeats=any(isinstance(step, (RepeatRows, RowsAs)) for step in line.steps),
    )


def _without_size_opening(tokens: list[Token]) -> list[Token]:
    """A line without its "Sizes S and M only:"; in a one-size edition the line is simply there."""
    heads = ("size", "sizes", "for", "all")
    last = ""
    for index, token in enumerate(tokens):
        if token.text == ":":
            said = last.lower() == "only" or tokens[0].text.lower() in heads
            return tokens[index + 1 :] if said else tokens
        if token.kind != "space":
            last = token.text
        if token.text == ".":
            break
    return tokens


# ── label, row, total ─────────────────────────────────────────────────────────────────────────────


def _label_end(line: InstructionLine, tokens: Sequence[Token]) -> int:
    """How many tokens the label takes, colon included; 0 for none."""
    labels = [step.label for step in line.steps if isinstance(step, (RowStep, RowsAs)) and step.label is not None]
    if not labels or not _opens(labels[0], tokens):
        return 0
    end = labels[0].span.end
    for index, token in enumerate(tokens):
        if token.text == ":" and token.span.end >= end:
            return index + 1
        if token.span.start >= end and token.kind != "space":
            return index
    return 0


def _opens(label: Label, tokens: Sequence[Token]) -> bool:
    """Whether a label stands at the head of the line."""
    first = next((token for token in tokens if token.kind != "space"), None)
    return first is not None and first.span.start == label.span.start


def _stated_start(line: InstructionLine, tokens: Sequence[Token]) -> int:
    """Index of the first token of the total that ends the line; len(tokens) for none.

    A total in a sentence of its own ("You should have 53 sts") stays in the running text.
    """
    if not line.steps or not isinstance(line.steps[-1], Total):
        return len(tokens)
    start = line.steps[-1].span.start
    behind = [index for index, token in enumerate(tokens) if token.span.start >= start]
    first = next((tokens[index] for index in behind if tokens[index].kind not in ("space", "mark")), None)
    return behind[0] if first is not None and first.kind == "number" else len(tokens)


def _bare(items: Sequence[Item]) -> list[Item]:
    """A total without the dash, brackets and full stop that set it off in the source."""
    whole = [item for item in items if item.text or item.inline is not None]
    kept = _strip(whole, trailing=" .;—–-=", leading=" .;,—–-=")
    while len(kept) >= 2 and kept[0].text in ("(", "[") and kept[-1].text in (")", "]"):
        kept = _strip(kept[1:-1], trailing=" .;—–-=", leading=" .;,—–-=")
    if kept and kept[-1].text in _CLOSERS and not any(item.text in _OPENERS for item in kept):
        kept = kept[:-1]
    return kept


def _strip(items: list[Item], trailing: str = " ", leading: str = " ") -> list[Item]:
    first, last = 0, len(items)
    while first < last and items[first].inline is None and not items[first].text.strip(leading):
        first += 1
    while last > first and items[last - 1].inline is None and not items[last - 1].text.strip(trailing):
        last -= 1
    return items[first:last]


def _without_colon(items: list[Item]) -> list[Item]:
    return items[:-1] if items and items[-1].text == ":" else items


def _ended(text: Inlines, set_apart: bool) -> Inlines:
    """The row's text with a full stop where a total that was set apart took it away."""
    if not set_apart or not text:
        return text
    last = text[-1]
    if isinstance(last, Text):
        kept = last.text.rstrip(" ;,—–-(")
        if kept and kept[-1] not in ".:!?":
            kept += "."
        return (*text[:-1], Text(kept)) if kept else text[:-1]
    return (*text, Text("."))


# ── numbers ───────────────────────────────────────────────────────────────────────────────────────


def _items(tokens: Sequence[Token], setting: Setting) -> list[Item]:
    """Tokens with their numbers and lengths set, and the words that depend on them agreeing.

    One item a token, so that places stay the same; a word that has gone is an empty item.
    """
    items = [_item(token, setting) for token in tokens]
    for index, item in enumerate(items[1:-1], 1):
        beside = (items[index - 1].token.kind, items[index + 1].token.kind)
        if item.text == "-" and beside == ("number", "number"):
            items[index] = replace(item, text="–")
    for index, item in enumerate(items):
        if item.value is None or not (_DIGIT.search(item.token.text) or item.token.text.endswith((")", "]"))):
            continue
        was_list = item.token.count is not None and (
            item.token.count.formula is not None or len(set(item.token.count.values)) > 1
        )
        if was_list:
            _agree(items, index, item.value)
    return items


def _item(token: Token, setting: Setting) -> Item:
    if token.kind == "number" and token.count is not None and token.text[:1].isalpha():  # "once (twice, twice)"
        values = token.count.values
        known = _TIMES_WORDS if any(word in token.text.lower() for word in _TIMES_WORDS.values()) else {}
        words = [
            None if value is None else known.get(value, f"{value} times" if known else str(value)) for value in values
        ]
        shown = setting.pick(values)
        same = shown[0] if len(set(shown)) == 1 and not known else None
        return Item(token.text, token, listed(words, setting), same)
    if token.kind == "number" and token.count is not None and _DIGIT.search(token.text):
        values = token.count.values
        if token.count.formula is None and all(value is None for value in values):
            return Item(token.text, token)
        shown = setting.pick(values)
        same = shown[0] if len(set(shown)) == 1 else None
        inline = counts(values, setting, ordinals=bool(_ORDINAL.search(token.text)))
        return Item(token.text, token, inline, same)
    if token.kind == "length" and token.length is not None:
        length = token.length
        inline = measure(length.millimetres, length.unit, setting, twin=length.twin, twin_unit=length.twin_unit)
        if token.text.endswith("."):
            inline = (*inline, Text("."))
        return Item(token.text, token, inline)
    if token.kind == "space":
        return Item(
            token.text.replace("**", ""), token
        )  # names of rows are set by the style, not by the author's stars
    return Item(token.text.replace("'", "’"), token)


def _agree(items: list[Item], index: int, value: int) -> None:
    """Words behind a number that has become one number: "1 more times" is "once more", "1 sts" is "1 st"."""
    words = [at for at in range(index + 1, min(len(items), index + 5)) if not items[at].is_space]
    if not words:
        return
    first = items[words[0]].text.lower()
    before = next((items[at].text.lower() for at in range(index - 1, -1, -1) if not items[at].is_space), "")
    if before in _FURTHER:
        if value == 1 and first == "times":
            items[words[0]] = replace(items[words[0]], text="time")
    elif value in _TIMES_WORDS and first in ("times", "time"):
        items[index] = replace(items[index], inline=None, text=_TIMES_WORDS[value])
        _remove(items, words[0])
    elif value in _TIMES_WORDS and first == "more" and len(words) > 1 and items[words[1]].text.lower() in _PLURAL:
        if items[words[1]].text.lower() == "times":
            items[index] = replace(items[index], inline=None, text=_TIMES_WORDS[value])
            _remove(items, words[1])
        elif value == 1:
            items[words[1]] = replace(items[words[1]], text=_PLURAL[items[words[1]].text.lower()])
    elif value == 1:
        for at in words[:2]:
            singular = _PLURAL.get(items[at].text.lower())
            if singular is not None:
                items[at] = replace(items[at], text=singular)
                break


def _remove(items: list[Item], index: int) -> None:
    """Empties a word and the space before it; places stay, since others are still counted from them."""
    items[index] = replace(items[index], text="", inline=None)
    if index and items[index - 1].is_space:
        items[index - 1] = replace(items[index - 1], text="")


def _tidied(items: list[Item], opens: bool) -> list[Item]:
    """A line with its spaces right again where something was taken out of it.

    opens: something was, perhaps the first word; then what now stands first gets its capital.
    """
    kept: list[Item] = []
    for item in items:
        if not item.text and item.inline is None:
            continue
        if item.is_space and (not kept or kept[-1].is_space):
            continue
        if item.text in (",", ";", ".") and kept and kept[-1].is_space:
            kept.pop()
        if item.text == "," and (not kept or kept[-1].text in (",", ";", "(", "[")):
            continue
        kept.append(item)
    if opens:
        for index, item in enumerate(kept):
            if item.inline is not None:
                break
            if item.text[:1].isalpha():
                kept[index] = replace(item, text=item.text[0].upper() + item.text[1:])
                break
    return kept
