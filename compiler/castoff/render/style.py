"""How documents look: a style file read into a typed value.

In: the bytes of `styles/NAME.yaml`, from the templates. Out: a `Style`, or a `StyleError` that names the file, the key
and what may stand there. A style decides faces, sizes, colours and spaces; it never decides what is said.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Literal

import yaml

from castoff.document.edition import Edition

Assets = Callable[[str], bytes]
"""Reads a file of the templates by its path ("fonts/Andika-Bold.ttf"); raises OSError when there is none."""

LARGE_PRINT = "large-print"
DEFAULT_STYLE = "saltmarsh"


class StyleError(ValueError):
    """A style file that cannot be used."""


@dataclass(frozen=True, slots=True)
class FaceFiles:
    """The four font files of a family, names in `fonts/`."""

    regular: str
    bold: str
    italic: str
    bold_italic: str


@dataclass(frozen=True, slots=True)
class TypeSize:
    """Size of type and distance between base lines, in points."""

    size: float
    leading: float


@dataclass(frozen=True, slots=True)
class Types:
    """The kinds of text and how large each is set."""

    body: TypeSize
    lead: TypeSize
    small: TypeSize
    table: TypeSize
    title: TypeSize
    section: TypeSize
    part: TypeSize
    kicker: TypeSize
    footer: TypeSize


@dataclass(frozen=True, slots=True)
class Colours:
    """Colours by their part, each "#rrggbb". ink: text. accent: headings and stated counts. muted: small print.
    line: rules. panel: tinted grounds. caution: what warns."""

    ink: str
    accent: str
    muted: str
    line: str
    panel: str
    caution: str


@dataclass(frozen=True, slots=True)
class PageSpaces:
    """Margins in mm. side: width of the column in which labels hang. footer: base line over the paper's lower edge."""

    top_mm: float
    bottom_mm: float
    left_mm: float
    right_mm: float
    side_mm: float
    footer_mm: float


@dataclass(frozen=True, slots=True)
class Style:
    """A style.

    text, label, display: families for running text, for labels and tables, for headings. fallback: a font file that
    stands in for characters the others lack. linear: whether tables, drawings and charts are said in words, lists
    have no bullets and everything runs in one column.
    """

    name: str
    text: FaceFiles
    label: FaceFiles
    display: FaceFiles
    fallback: str
    type: Types
    colours: Colours
    page: PageSpaces
    headings: Literal["hairline", "band", "plain"]
    title_page: Literal["quiet", "banner"]
    linear: bool = False


def load_style(name: str, assets: Assets) -> Style:
    """The style called `name`. Raises StyleError for a missing or unusable file."""
    path = f"styles/{name}.yaml"
    try:
        text = assets(path).decode("utf-8")
    except OSError as error:
        raise StyleError(f"no style `{name}`: there is no {path} in the templates") from error
    except UnicodeDecodeError as error:
        raise StyleError(f"{path}: not UTF-8 text") from error
    try:
        data = yaml.load(text, Loader=getattr(yaml, "CSafeLoader", yaml.SafeLoader))
    except yaml.YAMLError as error:
        raise StyleError(f"{path}: {error}") from error
    return _Reader(path, data).style()


def style_for(edition: Edition, house_style: str, assets: Assets) -> Style:
    """The style an edition is set in: the house's own, or large print where the edition asks for it."""
    return load_style(LARGE_PRINT if edition.reading == "large" else house_style, assets)


@dataclass(frozen=True, slots=True)
class _Reader:
    """Reads a style out of parsed YAML, naming the place of whatever is wrong."""

    path: str
    data: object

    def style(self) -> Style:
        top = self._mapping(
            self.data,
            "the file",
            {"name", "faces", "type", "colours", "page", "headings", "title_page"},
            optional={"linear"},
        )
        faces = self._mapping(top["faces"], "faces", {"text", "label", "display", "fallback"})
        page = self._mapping(top["page"], "page", set(PageSpaces.__slots__))
        types = self._mapping(top["type"], "type", set(Types.__slots__))
        colours = self._mapping(top["colours"], "colours", set(Colours.__slots__))
        headings = self._choice(top["headings"], "headings", ("hairline", "band", "plain"))
        title_page = self._choice(top["title_page"], "title_page", ("quiet", "banner"))
        linear = top.get("linear", False)
        if not isinstance(linear, bool):
            raise self._fault("linear", "true or false", linear)
        return Style(
            name=str(top["name"]),
            text=self._family(faces["text"], "faces.text"),
            label=self._family(faces["label"], "faces.label"),
            display=self._family(faces["display"], "faces.display"),
            fallback=self._font(faces["fallback"], "faces.fallback"),
            type=Types(**{key: self._type_size(types[key], f"type.{key}") for key in Types.__slots__}),
            colours=Colours(**{key: self._colour(colours[key], f"colours.{key}") for key in Colours.__slots__}),
            page=PageSpaces(**{key: self._number(page[key], f"page.{key}") for key in PageSpaces.__slots__}),
            headings=headings,  # type: ignore[arg-type]
            title_page=title_page,  # type: ignore[arg-type]
            linear=linear,
        )

    def _fault(self, key: str, wanted: str, found: object) -> StyleError:
        return StyleError(f"{self.path}: `{key}` should be {wanted}, not `{found}`")

    def _mapping(
        self, value: object, key: str, needed: set[str], optional: set[str] | None = None
    ) -> Mapping[str, object]:
        if not isinstance(value, dict):
            raise self._fault(key, "a mapping", value)
        missing = sorted(needed - set(value))
        if missing:
            raise StyleError(f"{self.path}: `{key}` lacks {', '.join(f'`{name}`' for name in missing)}")
        unknown = sorted(str(name) for name in value if name not in needed | (optional or set()))
        if unknown:
            raise StyleError(f"{self.path}: `{key}` does not know {', '.join(f'`{name}`' for name in unknown)}")
        return value

    def _family(self, value: object, key: str) -> FaceFiles:
        family = self._mapping(value, key, set(FaceFiles.__slots__))
        return FaceFiles(**{name: self._font(family[name], f"{key}.{name}") for name in FaceFiles.__slots__})

    def _font(self, value: object, key: str) -> str:
        if not isinstance(value, str) or not value.endswith(".ttf"):
            raise self._fault(key, "the name of a .ttf file in fonts/", value)
        return value

    def _type_size(self, value: object, key: str) -> TypeSize:
        if not isinstance(value, list) or len(value) != 2:
            raise self._fault(key, "a size and a leading, such as [10.5, 15]", value)
        size, leading = (self._number(part, key) for part in value)
        if not 0 < size <= leading:
            raise self._fault(key, "a size above 0 and a leading no smaller", value)
        return TypeSize(size, leading)

    def _number(self, value: object, key: str) -> float:
        if isinstance(value, bool) or not isinstance(value, int | float) or value < 0:
            raise self._fault(key, "a number, 0 or more", value)
        return float(value)

    def _colour(self, value: object, key: str) -> str:
        if not isinstance(value, str) or not re.fullmatch(r"#[0-9a-fA-F]{6}", value):
            raise self._fault(key, 'a colour such as "#1f2421"', value)
        return value

    def _choice(self, value: object, key: str, known: tuple[str, ...]) -> str:
        if not isinstance(value, str) or value not in known:
            raise self._fault(key, " or ".join(known), value)
        return value
