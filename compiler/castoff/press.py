"""A proof set in print: one edition after another, sharing what they can.

In: a sound `Proof`, the `World` of its templates, the folder of its pictures and the house's wishes. Out: the bytes of
each edition with what was found while it was set.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, field, replace
from functools import cached_property
from pathlib import Path

from castoff.diagnostic import Checked, Diagnostic, Rule
from castoff.document import chart, pictures, prose, texts
from castoff.document.compose import compose
from castoff.document.edition import Edition
from castoff.document.shape import Shapes, shapes_of
from castoff.document.texts import Texts
from castoff.document.tree import Document
from castoff.document.yarn import needs_of
from castoff.model.house import House
from castoff.pipeline import RULES as PROOF_RULES
from castoff.pipeline import Proof
from castoff.read_back import RULES as READ_BACK_RULES
from castoff.read_back import mind_the_words
from castoff.render.html import render_html
from castoff.render.pdf.faces import Faces, MissingCharacter, load_faces
from castoff.render.pdf.press import render_pdf
from castoff.render.pdf.sheet import DanglingLink
from castoff.render.style import DEFAULT_STYLE, Style, StyleError, style_for
from castoff.render.text import render_text
from castoff.world import World, WorldError, read_bytes

STYLE_UNUSABLE = Rule(
    "style-unusable",
    "error",
    """The page style cannot be used.

    `style:` in `house.yaml` names a file in `templates/styles`; a house may bring its own. A style that is not there, or
    says something that no page can have, stops the build of every page.

    Fires:   style: lighthuose
    Silent:  style: lighthouse
    """,
)
CHARACTER_MISSING = Rule(
    "character-missing",
    "error",
    """A character is in none of the fonts.

    A font draws an empty box for a character that it does not have. Each style names its fonts and a fallback; a text with
    a character that neither has (a pictogram, a rare script) is not set.

    Fires:   notes: Have fun 🧶
    Silent:  notes: Have fun
    """,
)
LINK_BROKEN = Rule(
    "link-broken",
    "error",
    """A link leads nowhere.

    A link inside the document leads to a part of it; when there is no such part, a reader who follows it is lost.

    Fires:   notes: See [the crown](#crwn).
    Silent:  notes: See [our page](https://saltgrassandtern.example).
    """,
)
RULES = (
    *PROOF_RULES,
    *texts.RULES,
    *prose.RULES,
    *pictures.RULES,
    *chart.RULES,
    STYLE_UNUSABLE,
    CHARACTER_MISSING,
    LINK_BROKEN,
    *READ_BACK_RULES,
)
"""Every rule there is, in the order of the stages, for the manual."""


@dataclass(frozen=True)
class Press:
    """Sets the editions of one pattern.

    folder: where the pattern's pictures lie. house: what the house wishes for all its patterns.
    """

    proof: Proof
    world: World
    folder: Path
    house: House = field(default_factory=House)
    _faces: dict[str, Faces] = field(default_factory=dict, repr=False)
    _read_back: dict[Edition, tuple[Diagnostic, ...]] = field(default_factory=dict, repr=False)

    def compose(self, edition: Edition) -> Checked[Document]:
        """The document tree of an edition."""
        proof = self.proof
        if proof.pattern is None or proof.numbers is None or proof.knitted is None or proof.trade is None:
            raise ValueError("a pattern without a proof cannot be set")
        return compose(
            proof.pattern,
            proof.numbers,
            dict(enumerate(proof.lines)),
            proof.knitted,
            proof.trade,
            edition,
            self._texts,
            proof.findings,
            accepted=tuple(each.finding for each in proof.accepted),
            photograph=self._photograph,
            yarn_needs=needs_of(proof.estimates),
            pattern_lines=dict(proof.pattern_lines),
            charts={chart.name: chart for chart in proof.charts},
            shapes=self._shapes,
        )

    def print(self, edition: Edition) -> Checked[bytes | None]:
        """The bytes of an edition; None when it cannot be set, and then a finding says why."""
        composed = self.compose(edition)
        if composed.sound:
            composed = Checked(composed.value, (*composed.findings, *self._parted(edition, composed.value)))
        if not composed.sound:
            return Checked(None, composed.findings)
        if edition.reading == "text":
            return Checked(render_text(composed.value, edition.pictures), composed.findings)
        try:
            style = style_for(edition, self._style_name, self._asset)
            if edition.reading == "web":
                return Checked(render_html(composed.value, style, edition.pictures), composed.findings)
            data = render_pdf(composed.value, edition, style, self._asset, self._faces_of(style))
        except StyleError as fault:
            span = self.house.style.span() if self.house.style is not None else None
            return Checked(None, (*composed.findings, Diagnostic.of(STYLE_UNUSABLE, str(fault), span)))
        except MissingCharacter as fault:
            return Checked(None, (*composed.findings, self._unset(CHARACTER_MISSING, str(fault))))
        except DanglingLink as fault:
            return Checked(None, (*composed.findings, self._unset(LINK_BROKEN, str(fault))))
        return Checked(data, composed.findings)

    def _parted(self, edition: Edition, printed: Document) -> tuple[Diagnostic, ...]:
        """Where an edition in another country's words does not say the same; papers of one edition share the answer."""
        pattern = self.proof.pattern
        if pattern is None or edition.terms in (None, pattern.terms.value):
            return ()
        alike = replace(edition, paper="A4", pictures=True)
        if alike not in self._read_back:
            own = self.compose(replace(edition, terms=None)).value
            self._read_back[alike] = tuple(mind_the_words(self.proof, edition, printed, own))
        return self._read_back[alike]

    def _unset(self, rule: Rule, message: str) -> Diagnostic:
        """What stops a page, told at the pattern's title: the words may come from anywhere in it."""
        pattern = self.proof.pattern
        return Diagnostic.of(rule, message, None if pattern is None else pattern.title.span())

    def inputs(self) -> Iterator[tuple[str, bytes]]:
        """Every file an edition may be made from besides the source: templates, pictures, what is shared, by name."""
        for folder in (self.world.shipped, *self.world.overrides):
            for path in sorted(folder.rglob("*")):
                if path.is_file() and path.suffix in (".yaml", ".j2", ".ttf"):
                    yield f"{folder.name}/{path.relative_to(folder)}", path.read_bytes()
        if self.proof.pattern is not None:
            for picture in self.proof.pattern.pictures:
                path = self.folder / picture.file.value
                yield picture.file.value, path.read_bytes() if path.is_file() else b""
        if self.proof.shared is not None:
            yield self.proof.shared
        yield "style", self._style_name.encode()

    @cached_property
    def _texts(self) -> Texts:
        """The house's texts are compiled once for all editions."""
        return Texts(self.world.template)

    @cached_property
    def _shapes(self) -> Shapes | None:
        """The shapes of the pieces are worked out once for all editions."""
        proof = self.proof
        return None if proof.knitted is None or proof.trade is None else shapes_of(proof.knitted, proof.trade.stitches)

    @cached_property
    def _style_name(self) -> str:
        return self.house.style.value if self.house.style is not None else DEFAULT_STYLE

    def _faces_of(self, style: Style) -> Faces:
        """Fonts are read once for all editions in the same style."""
        if style.name not in self._faces:
            self._faces[style.name] = load_faces(style, self._asset)
        return self._faces[style.name]

    @property
    def _asset(self) -> Callable[[str], bytes]:
        def read(name: str) -> bytes:
            try:
                return self.world.template_bytes(name)
            except WorldError as fault:
                raise FileNotFoundError(str(fault)) from None

        return read

    def _photograph(self, name: str) -> bytes:
        try:
            return read_bytes(self.folder / name)
        except WorldError as fault:
            raise FileNotFoundError(str(fault)) from None
