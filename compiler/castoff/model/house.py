"""The house file: what holds for a whole folder of patterns.

In: the bytes of `house.yaml` beside the patterns. Out: a `House`, with what is wrong with the file.
"""

from __future__ import annotations

from dataclasses import dataclass
from difflib import get_close_matches
from fractions import Fraction

from castoff.diagnostic import Checked, Diagnostic, Rule
from castoff.model.pattern import Said
from castoff.model.values import share
from castoff.source.node import Mapping, Node, Scalar, Sequence
from castoff.source.read import read_source
from castoff.span import Text

HOUSE_FILE_WRONG = Rule(
    "house-file-wrong",
    "error",
    """The house file says something it cannot say.

    `house.yaml` beside the patterns holds what is the same for all of them: `editions`, a list of the editions that a
    build makes when none are asked for, `style`, the name of a file in `templates/styles`, and `margin`, the share of yarn
    that is added for safety where a pattern does not say its own. An unknown key would be passed over in silence, so it
    is refused.

    Fires:
        edition: [metric]
    Silent:
        editions: [metric a4, imperial letter]
        style: lighthouse
        margin: 12%
    """,
)
RULES = (HOUSE_FILE_WRONG,)

_KEYS = ("editions", "style", "margin")


@dataclass(frozen=True, slots=True)
class House:
    """What holds for every pattern of a folder.

    editions: words of each usual edition, or names of usual sets; empty when the house has no wish.
    style: name of the page style; None for the one that ships.
    margin: share of yarn added for safety; None for the usual tenth.
    """

    editions: tuple[Text, ...] = ()
    style: Text | None = None
    margin: Said[Fraction] | None = None


def load_house(name: str, data: bytes) -> Checked[House]:
    """A house file. Whatever is wrong is told; the rest of the file still holds."""
    read = read_source(name, data)
    findings = list(read.findings)
    house = House()
    if read.value is not None:
        findings += _unknown_keys(read.value)
        editions, wrong = _texts(read.value.get("editions"))
        findings += wrong
        style, wrong = _texts(read.value.get("style"))
        findings += wrong
        margin, wrong = _share(read.value.get("margin"))
        findings += wrong
        house = House(editions, style[0] if style else None, margin)
    return Checked(house, tuple(findings))


def _share(node: Node | None) -> tuple[Said[Fraction] | None, list[Diagnostic]]:
    if node is None:
        return None, []
    if not isinstance(node, Scalar):
        return None, [Diagnostic.of(HOUSE_FILE_WRONG, "a share is wanted here", node.span, hint="write it like `10%`")]
    read = share(node.text)
    return (None, [read]) if isinstance(read, Diagnostic) else (read, [])


def _unknown_keys(house: Mapping) -> list[Diagnostic]:
    found = []
    for entry in house:
        if entry.key.value not in _KEYS:
            near = get_close_matches(entry.key.value, _KEYS, n=1)
            hint = f"did you mean `{near[0]}`?" if near else f"known are {', '.join(_KEYS)}"
            message = f"unknown key `{entry.key.value}` in the house file"
            found.append(Diagnostic.of(HOUSE_FILE_WRONG, message, entry.key.span(), hint=hint))
    return found


def _texts(node: Node | None) -> tuple[tuple[Text, ...], list[Diagnostic]]:
    """One text or a list of texts."""
    if node is None:
        return (), []
    texts: list[Text] = []
    wrong: list[Diagnostic] = []
    for each in node if isinstance(node, Sequence) else (node,):
        if isinstance(each, Scalar) and not each.blank:
            texts.append(each.text)
        else:
            wrong.append(Diagnostic.of(HOUSE_FILE_WRONG, "a text is wanted here", each.span))
    return tuple(texts), wrong
