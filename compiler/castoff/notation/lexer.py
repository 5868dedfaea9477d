"""Instruction text cut into lexemes: words, numbers per size, lengths, marks.

In: one line as `Text`, and the vocabulary. Out: `Lexed`: lexemes whose texts, with the spaces between, are the line
exactly; and what was wrong already at this level (a size list of the wrong length, a formula that cannot be resolved).

The trade glues words to numbers (`k2`, `c4f`, `2/2 LC`, `k1tbl`, `6th (6th, 4th)`): a run of letters and digits that the
stitch book knows is one lexeme; else letters and the number behind them are two.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from fractions import Fraction
from types import MappingProxyType

from castoff.diagnostic import Diagnostic, Rule
from castoff.notation.lexemes import Kind, Lexed, Lexeme, find_stitch
from castoff.notation.syntax import Length
from castoff.notation.vocabulary import Vocabulary
from castoff.notation.words import NUMBER_WORDS, ORDINAL_WORDS, SHORTENED, TIMES_WORDS, key_of
from castoff.numeral import Measure, Misfit, NumeralList, read_list, read_measure
from castoff.per_size import axes_of
from castoff.span import Text

SIZES_MISCOUNTED = Rule(
    "sizes-miscounted",
    "error",
    """A list of numbers does not give one number per size.

A knitter counts along the list to find her size; one number too few, and every size behind it reads its neighbour's.

Fires:   sizes S (M, L)   `cast on 84 (92) sts`
Silent:  sizes S (M, L)   `cast on 84 (92, 100) sts`
""",
)
NUMBER_TOO_LONG = Rule(
    "number-too-long",
    "error",
    """A number has more digits than any knitting needs.

Counts beyond 999,999,999 are a slip of the keyboard; they are refused before anything is worked out with them.

Fires:   `rep from * 10000000000 times`
Silent:  `rep from * 10 times`
""",
)
NOT_WHOLE = Rule(
    "count-not-whole",
    "error",
    """A count of stitches, rows or times is not a whole number.

Nobody can knit half a stitch: the number was meant as a length, or it was computed and not rounded.

Fires:   `k2.5`
Silent:  `k2`
""",
)
UNRESOLVED = Rule(
    "number-unresolved",
    "error",
    """A number between braces could not be worked out.

The formula names a number that the pattern does not have, or one that is faulty itself.

Fires:   `cast on {cast_onn} sts`
Silent:  `cast on {cast_on} sts`
""",
)
RULES = (SIZES_MISCOUNTED, NUMBER_TOO_LONG, NOT_WHOLE, UNRESOLVED)


_PIECE = re.compile(
    r"(?P<space>[\s\u200b\ufeff]+)"
    r"|(?P<formula>\{[^{}]*\})"
    r"|(?P<mark>\*+|†+|‡+|\.\.\.)"
    r"|(?P<wrap>[wW][&+][tT](?!\w))"
    r"|(?P<crossing>\d{1,3}/\d{1,3}(?:/\d{1,3})?[ \u00a0]?[A-Za-z]{1,4}(?![\w]))"
    r"|(?P<ordinal>\d+(?:st|nd|rd|th|ST|ND|RD|TH)(?![\w]))"
    r"|(?P<number>\d|[½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞]|\.\d)"
    r"|(?P<word>[^\W\d_](?:[^\W_]|(?<=[^\W\d_])['’‑-](?=[^\W\d_]))*)"
)
_BOLD = re.compile(r"(?:^|(?<=\s))\*\*(?=[^\s*])(?P<inside>[^*]*[^\s*])\*\*(?P<behind>\s*:|\s*$)?")
_ROW_WORD = re.compile(r"\b(?:rows?|rnds?|rounds?)\b[^,:]*\.$", re.IGNORECASE)
_NO_WORK = re.compile(r"[^\W\d_]+(?:[ -][^\W\d_]+)*")
_SIGNS = MappingProxyType({"!": ".", "×": "times", "–": "-", "—": "-", "−": "-", "‐": "-", "…": "..."})
_DASHES = "-–—−"
_SKIPPING = re.compile(r"[-–—−][ \u00a0]?[(\[]\s*[\d½¼¾.–—−-]")
_PAIRED = re.compile(r"\w+[ \u00a0](?:dec|inc)\b", re.IGNORECASE)
_DIGITS = re.compile(r"\d{10}")
_GLUED = re.compile(r"([^\W\d_]+)(\d+)")
_GLUED_TAIL = re.compile(r"([^\W\d_]+)(\d+)([^\W\d_]+\d*)")
_NUMBERS_AND_TIMES = MappingProxyType({**NUMBER_WORDS, **TIMES_WORDS})
_TAILS = frozenset({"tbl", "wyif", "wyib", "kwise", "pwise", "kw", "pw", "sts", "st"})
_ORDINAL_LIST = re.compile(r"[ \u00a0]?([(\[])((?:\s*\d{1,4}(?:st|nd|rd|th)\s*,?)+)[)\]]", re.IGNORECASE)
_WORD_LIST = re.compile(r"[ \u00a0]?([(\[])([^()\[\]]*)[)\]]")
_ORDINAL_TAIL = re.compile(r"(?:st|nd|rd|th)(?![\w])", re.IGNORECASE)
_ORDINAL_NUMBER = re.compile(r"\d+")
_AFTER_SHORTENED = re.compile(r"\.\s*(?=[a-z*,;)])")
_NEW_SENTENCE = re.compile(r"\s+[^\Wa-z_]")


class _Lexer:
    """Works through one line; kept apart from the result so that the result stays a value."""

    __slots__ = ("at", "axes", "findings", "lexemes", "line", "own", "spaced", "text", "vocabulary")

    def __init__(self, line: Text, vocabulary: Vocabulary) -> None:
        self.line = line
        self.text = line.value
        self.vocabulary = vocabulary
        self.axes = axes_of(vocabulary.sizes)
        self.at = 0
        self.spaced = False
        self.lexemes: list[Lexeme] = []
        self.findings: list[Diagnostic] = []
        self.own = {name.lower(): name for name in vocabulary.own_stitches}

    def run(self) -> Lexed:
        text = self.text
        long = _DIGITS.search(text)
        if long is not None:
            self.findings.append(
                Diagnostic.of(
                    NUMBER_TOO_LONG,
                    f"a number of {len(re.match(r'[0-9]*', text[long.start() :]).group())} digits",  # type: ignore[union-attr]
                    self.line.span(long.start(), long.end()),
                    hint="no count in knitting needs more than 9 digits",
                )
            )
            self.add("end", "", "", len(text), len(text))
            return Lexed(tuple(self.lexemes), tuple(self.findings))
        bold = dict(_bold_marks(text)) if "**" in text else {}
        multiword = sorted((name for name in self.own if " " in name), key=lambda name: (-len(name), name))
        while self.at < len(text):
            if self.at in bold:  # how a row's name is set, and no mark that anything is repeated from
                self.at, self.spaced = bold[self.at], True
                continue
            if multiword and self._own_stitch(multiword):
                continue
            match = _PIECE.match(text, self.at)
            if match is None:
                sign = text[self.at]
                if sign in _DASHES and self._skipping_list():
                    continue
                self.add("mark", sign, _SIGNS.get(sign, sign), self.at, self.at + 1)
                continue
            kind = match.lastgroup
            if kind == "space":
                self.at = match.end()
                self.spaced = True
            elif kind == "formula":
                self._formula(match.end())
            elif kind == "mark":
                self.add("mark", match.group(), match.group(), match.start(), match.end())
            elif kind == "wrap":
                self.add("word", match.group(), "w&t", match.start(), match.end())
            elif kind == "crossing":
                self._crossing(match)
            elif kind == "ordinal":
                self._ordinal(match)
            elif kind == "number":
                self._number()
            else:
                self._word(match.group())
        self.add("end", "", "", len(text), len(text))
        return Lexed(tuple(self.lexemes), tuple(self.findings))

    def add(
        self,
        kind: Kind,
        text: str,
        key: str,
        start: int,
        end: int,
        numbers: tuple[Fraction | None, ...] | None = None,
        formula: str | None = None,
        length: Length | None = None,
        stitch: str | None = None,
    ) -> None:
        """Appends a lexeme and goes on behind it."""
        self.lexemes.append(Lexeme(kind, text, key, start, end, self.spaced, numbers, formula, length, stitch))
        self.spaced = False
        self.at = end

    def _skipping_list(self) -> bool:
        """A size list whose first size skips: `– (70, 86, –)`."""
        sizes = len(self.vocabulary.sizes)
        if sizes == 1 or _SKIPPING.match(self.text, self.at) is None:
            return False
        found = read_list(self.text, self.at, self.axes)
        if isinstance(found, Misfit):
            self._miscounted(found.found, found.start, found.end)
            self.add("number", self.text[found.start : found.end], "#", found.start, found.end, numbers=(None,) * sizes)
            return True
        if not isinstance(found, NumeralList) or len(found.numbers) != sizes:
            return False
        measure = read_measure(self.text, self.at, self.axes)
        if isinstance(measure, Measure) and not self._no_unit(measure.first):
            self._measure(measure)
        else:
            self.add("number", self.text[found.start : found.end], "#", found.start, found.end, numbers=found.values)
        return True

    def _spread(self, values: tuple[Fraction | None, ...]) -> tuple[Fraction | None, ...]:
        return values * len(self.vocabulary.sizes) if len(values) == 1 else values

    def _own_stitch(self, names: list[str]) -> bool:
        low = self.text[self.at : self.at + 60].lower()
        for name in names:
            if low.startswith(name) and not low[len(name) : len(name) + 1].isalnum():
                end = self.at + len(name)
                self.add("word", self.text[self.at : end], name, self.at, end, stitch=self.own[name])
                return True
        return False

    def find(self, word: str) -> str | None:
        """The canonical name of a stitch of the author's or of the trade."""
        return find_stitch(word, self.own, self.vocabulary)

    def _crossing(self, match: re.Match[str]) -> None:
        word = " ".join(match.group().split())
        name = self.find(word)
        if name is None:
            compact = re.sub(r"(\d)([A-Za-z])", r"\1 \2", word)
            name = self.find(compact)
        if name is None:
            self._number()
        else:
            self.add("word", match.group(), word.lower(), match.start(), match.end(), stitch=name)

    def _ordinal(self, match: re.Match[str]) -> None:
        values = [Fraction(int(_ORDINAL_NUMBER.match(match.group()).group()))]  # type: ignore[union-attr]
        end = match.end()
        sizes = len(self.axes.first)
        while len(values) < sizes:
            more = _ORDINAL_LIST.match(self.text, end)
            if more is None:
                break
            values.extend(Fraction(int(number)) for number in _ORDINAL_NUMBER.findall(more[2]))
            end = more.end()
        if len(values) not in (1, sizes):
            self._miscounted(len(values), match.start(), end)
        self.add("ordinal", self.text[self.at : end], "#th", self.at, end, numbers=self._fit(tuple(values)))

    def _fit(self, values: tuple[Fraction | None, ...]) -> tuple[Fraction | None, ...]:
        sizes = len(self.vocabulary.sizes)
        if len(values) == 1:
            return values * sizes
        if len(values) == len(self.axes.first):
            return self.axes.spread(values)
        return (values + (None,) * sizes)[:sizes]

    def _miscounted(self, found: int, start: int, end: int) -> None:
        sizes = self.axes.first
        self.findings.append(
            Diagnostic.of(
                SIZES_MISCOUNTED,
                f"{found} numbers for {len(sizes)} size{'' if len(sizes) == 1 else 's'}",
                self.line.span(start, end),
                hint=f"one number each for {', '.join(sizes)}",
            )
        )

    def _number(self) -> None:
        text, start, sizes = self.text, self.at, len(self.vocabulary.sizes)
        found: Measure | Misfit | NumeralList | None = read_measure(text, start, self.axes)
        if isinstance(found, Measure) and self._no_unit(found.first):
            found = None
        if found is None:
            found = read_list(text, start, self.axes)
        if isinstance(found, Misfit):
            self._miscounted(found.found, found.start, found.end)
            self.add("number", text[start : found.end], "#", start, found.end, numbers=(None,) * sizes)
            return
        if found is None:
            self.add("mark", text[start], text[start], start, start + 1)
            return
        if isinstance(found, Measure):
            self._measure(found)
            return
        end = found.end
        values = self._spread(found.values)
        if found.unit is not None:  # a unit that is none here ("k1 m1"): the bare number stands
            end = self._bare_end(found)
        tail = _ORDINAL_TAIL.match(text, end)
        if tail is not None:
            self.add("ordinal", text[start : tail.end()], "#th", start, tail.end(), numbers=values)
            return
        self.add("number", text[start:end], "#", start, end, numbers=values)

    def _bare_end(self, found: NumeralList) -> int:
        if len(found.numbers) == 1:
            return found.numbers[0].end
        closer = max(self.text.rfind(")", 0, found.end), self.text.rfind("]", 0, found.end))
        return closer + 1 if closer >= found.start else found.numbers[-1].end

    def _no_unit(self, first: NumeralList) -> bool:
        """Whether the letter behind a number is no metre and no gram: `k1 m1`, `1 m` glued to a stitch."""
        if (first.unit or "").lower() not in ("m", "g"):
            return False
        glued = first.start > 0 and self.text[first.start - 1].isalpha()
        beyond = self.text[first.end : first.end + 4].lower()
        return glued or beyond[:1].isalnum() or beyond.lstrip().startswith("st")

    def _measure(self, found: Measure) -> None:
        text, start = self.text, self.at
        first, second = found.first, found.second
        if first.dimension == "mass":
            self.add("mass", text[start : found.end], "#g", start, found.end)
            return
        length = Length(
            self._spread(first.in_base()),
            first.symbol or "",
            None if second is None else self._spread(second.in_base()),
            "" if second is None else second.symbol or "",
            span=self.line.span(start, found.end),
        )
        end = found.end
        # a capital behind "cm." begins a sentence; in a line all in capitals only metric units have no dot of their own
        stops = text[end - 1] == "." and _NEW_SENTENCE.match(text, end) is not None
        if stops and not (text.isupper() and (second or first).symbol == "in"):
            end -= 1
        self.add("length", text[start:end], "#len", start, end, length=length)

    def _formula(self, end: int) -> None:
        text, start = self.text, self.at
        inside = self.line.part(start + 1, end - 1)
        resolved = self.vocabulary.resolve(inside)
        self.findings.extend(resolved.findings)
        value = resolved.value
        sizes = len(self.vocabulary.sizes)
        if value is None:
            if resolved.sound:
                self.findings.append(
                    Diagnostic.of(UNRESOLVED, f"`{inside.value}` has no value", self.line.span(start, end))
                )
            self.add("number", text[start:end], "#", start, end, numbers=(None,) * sizes, formula=inside.value)
            return
        if value.kind == "length":
            length = Length(value.values, formula=inside.value, span=self.line.span(start, end))
            self.add("length", text[start:end], "#len", start, end, length=length, formula=inside.value)
        elif value.kind == "mass":
            self.add("mass", text[start:end], "#g", start, end, formula=inside.value)
        else:
            tail = _ORDINAL_TAIL.match(text, end)
            if tail is not None:
                end = tail.end()
            kind: Kind = "number" if tail is None else "ordinal"
            key = "#" if tail is None else "#th"
            self.add(kind, text[start:end], key, start, end, numbers=value.values, formula=inside.value)

    def _word(self, word: str) -> None:
        start = self.at
        low = word.lower().replace("’", "'").replace("‑", "-")
        paired = _PAIRED.match(self.text, start) if low.startswith("br") else None
        if paired is not None:  # "brLsl dec": a brioche stitch whose name is two words
            two = " ".join(paired.group().lower().split())
            stitch = self.find(two)
            if stitch is not None:
                self.add("word", paired.group(), two, start, paired.end(), stitch=stitch)
                return
        if low.isalpha():
            self._plain(word, low, start)
            return
        stitch = self.find(low)
        if stitch is not None:
            self.add("word", word, key_of(low), start, start + len(word), stitch=stitch)
            return
        if low in NUMBER_WORDS or self._yarn(word):
            self._plain(word, low, start)
            return
        glued = _GLUED.fullmatch(word)
        tail = None if glued is not None else _GLUED_TAIL.fullmatch(word)
        if tail is not None and not (
            tail[3].lower() in _TAILS or self._yarn(tail[3]) or self.find(f"{tail[1]} {tail[3]}")
        ):
            tail = None
        if glued is not None or tail is not None:
            head = (glued or tail)[1]  # type: ignore[index]
            self._plain(head, head.lower(), start)
            self._number()
            return
        head, dash, rest = low.partition("-")
        if dash and rest in ("psso", "p2sso") and self.find(head) is not None:  # the rest of "sl1-k2tog-psso"
            word, low = word[: len(head)], head
        self._plain(word, low, start)

    def _yarn(self, word: str) -> bool:
        """Whether a word is a yarn's key ("CC1"), or a word of it ("Yarn A2"), as typed."""
        return any(word in key.split() for key in self.vocabulary.yarns)

    def _word_list(self, first: int, known: Mapping[str, int], end: int) -> tuple[tuple[Fraction | None, ...], int]:
        """The numbers of "eleven (thirteen, fifteen)" or of one such word, and where they end."""
        values, start, sizes = [Fraction(first)], end, len(self.axes.first)
        while len(values) < sizes:
            more = _WORD_LIST.match(self.text, end)
            words = [] if more is None else [word.strip().lower() for word in more[2].split(",")]
            if more is None or not all(word in known for word in words):
                break
            values.extend(Fraction(known[word]) for word in words)
            end = more.end()
        if len(values) not in (1, sizes):
            self._miscounted(len(values), start, end)
        return self._fit(tuple(values)), end

    def _plain(self, word: str, low: str, start: int) -> None:
        end = start + len(word)
        if self.text[end : end + 3].lower() == "(s)":  # "needle(s)"
            end += 3
        key = key_of(low)
        number = NUMBER_WORDS.get(low) or TIMES_WORDS.get(low)
        if low in SHORTENED:
            # a capital behind the dot begins a sentence, unless the whole line is in capitals
            shouted = self.text.isupper() and self.text[end : end + 1] == "." and low == "rep"
            if shouted or _AFTER_SHORTENED.match(self.text, end) is not None:
                end += 1
        if low in ORDINAL_WORDS:
            values, end = self._word_list(ORDINAL_WORDS[low], ORDINAL_WORDS, end)
            self.add("ordinal", self.text[start:end], low, start, end, numbers=values)
        elif number is not None:
            values, end = self._word_list(number, _NUMBERS_AND_TIMES, end)
            self.add("word", self.text[start:end], key, start, end, numbers=values)
        else:
            stitch = self.find(low)
            if stitch is None and key in ("k", "p", "sl"):
                stitch = self.find(key)
            self.add("word", self.text[start:end], key, start, end, stitch=stitch)


def _bold_marks(text: str) -> Iterator[tuple[int, int]]:
    """Where the stars of bold words stand: "**Row 1:** Knit", "**Row 1**: Knit", a line "**Turn Heel**"."""
    for found in _BOLD.finditer(text):
        inside, behind = found["inside"], found["behind"]
        alone = behind is not None and not behind.strip() and not text[: found.start()].strip()
        named = inside.endswith(":") or (behind or "").strip() == ":" or _ROW_WORD.search(inside) is not None
        if named or (alone and _NO_WORK.fullmatch(inside) is not None):
            yield found.start(), found.start() + 2
            yield found.start("inside") + len(inside), found.start("inside") + len(inside) + 2


def lex(line: Text, vocabulary: Vocabulary) -> Lexed:
    """Cuts a line into lexemes. Never fails: what is no word and no number is a mark."""
    return _Lexer(line, vocabulary).run()
