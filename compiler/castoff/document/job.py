"""Everything one edition is made from, in one bundle.

In: what the stages before have made. Out: `Job`, which each module of the document reads; it changes nothing in it. The
only thing that grows is `found`, the list of findings of this one composition.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction

from castoff.diagnostic import Diagnostic
from castoff.document.edition import Edition
from castoff.document.language import Language
from castoff.document.prose import Prose
from castoff.document.setting import Setting
from castoff.document.shape import Shapes
from castoff.document.texts import Texts
from castoff.document.tree import Blocks, Inlines, Role
from castoff.document.wording import typeset
from castoff.grading.evaluate import Numbers
from castoff.knitting.chart import Chart
from castoff.knitting.fabric import Knitted
from castoff.model.pattern import Pattern
from castoff.notation.syntax import Line
from castoff.span import Text as SourceText
from castoff.trade import Trade


@dataclass(frozen=True, slots=True)
class YarnNeed:
    """How much of a yarn is needed, worked out from the stitches.

    length_mm: one per size, margin included. margin: the share added. by_swatch: whether a weighed swatch stands
    behind it, or plain-knit geometry alone.
    """

    length_mm: tuple[Fraction | None, ...]
    margin: Fraction
    by_swatch: bool


@dataclass(frozen=True, slots=True)
class Job:
    """One edition of one pattern on its way to a document.

    lines: instruction lines by the section's place in the pattern. earlier: findings of the stages before and of the
    checks, and `accepted` those that the author has accepted with a reason. photograph: gives the bytes of a picture
    file.
    yarn_needs: by yarn key; empty when nothing could be worked out. pattern_lines: rows of the author's stitch
    patterns; charts: of those that ask for one. shapes: of the pieces.
    """

    pattern: Pattern
    numbers: Numbers
    lines: Mapping[int, tuple[Line, ...]]
    knitted: Knitted
    trade: Trade
    edition: Edition
    texts: Texts
    setting: Setting
    language: Language
    prose: Prose
    photograph: Callable[[str], bytes]
    yarn_needs: Mapping[str, YarnNeed] = field(default_factory=dict)
    pattern_lines: Mapping[str, tuple[Line, ...]] = field(default_factory=dict)
    charts: Mapping[str, Chart] = field(default_factory=dict)
    earlier: tuple[Diagnostic, ...] = ()
    accepted: tuple[Diagnostic, ...] = ()
    shapes: Shapes = field(default_factory=dict)
    found: list[Diagnostic] = field(default_factory=list)

    def only(self, flags: Sequence[bool]) -> Job:
        """The job for a part of the pattern that is for some sizes only."""
        setting = self.setting.only(flags)
        if setting is self.setting:
            return self
        return replace(self, setting=setting, language=replace(self.language, setting=setting))

    def say(self, file: str, name: str, /, **values: object) -> str:
        """A text of the house with what every text may use filled in."""
        return typeset(self.texts.say(file, name, **self._known(), **values))

    def paragraphs(self, file: str, name: str, /, **values: object) -> Blocks:
        """A text of the house that is Markdown, as blocks."""
        return self.prose.say(self.texts.paragraphs(file, name, **self._known(), **values))

    def markdown(self, text: SourceText | None, *, role: Role = "body", level: int = 3) -> Blocks:
        """A text of the source as blocks; nothing when it is not there or empty."""
        return () if text is None or not text.value.strip() else self.prose.blocks(text, role=role, level=level)

    def inline(self, text: SourceText | None) -> Inlines:
        """A text of the source as inline text; nothing when it is not there."""
        return () if text is None or not text.value.strip() else self.prose.inline(text)

    def _known(self) -> dict[str, object]:
        pattern = self.pattern
        return {
            "title": pattern.title.value,
            "uk": self.setting.terms == "UK",
            "sizes": len(pattern.sizes),
            "one_size": self.setting.shown is not None,
            "written_out": self.setting.written_out,
        }
