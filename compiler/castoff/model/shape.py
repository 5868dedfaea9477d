"""A node tree held against the shape of a pattern source, and that shape as JSON Schema.

In: the root `Mapping` of a source. Out: a finding for every unknown or missing key, every list where a text should be
and every word that is not in its list, all in one go. The JSON Schema (draft 2020-12) is made from the same table, so
that an editor and the compiler agree. Written by hand rather than with a validation library: importing and building
one takes longer than knitting a garment in nine sizes, and its errors know no places.
"""

from __future__ import annotations

import difflib
from collections.abc import Iterator
from typing import Any

from castoff.diagnostic import Diagnostic, Rule
from castoff.model.schema import SOURCE, Listing, Part, Shape, Table, Value, Words
from castoff.source.node import Mapping, Node, Scalar, Sequence, kind
from castoff.span import Span

UNKNOWN_KEY = Rule(
    "unknown-key",
    "error",
    """A key is not one of those that can stand there.

A misspelt key would otherwise be passed over, and what stands behind it with it.

Fires:
    titel: Saltgrass Cap
Silent:
    title: Saltgrass Cap
""",
)
MISSING_KEY = Rule(
    "missing-key",
    "error",
    """A key that has to be there is not.

Fires:
    gauge:
      stockinette: {stitches: 20, rows: 28}
Silent:
    gauge:
      stockinette: {stitches: 20, rows: 28, over: 10 cm}
""",
)
MISPLACED_VALUE = Rule(
    "misplaced-value",
    "error",
    """A list stands where a text should be, or keys where a list should be.

Fires:
    notions: tapestry needle
Silent:
    notions:
      - tapestry needle
""",
)
EMPTY_VALUE = Rule(
    "empty-value",
    "error",
    """A key has nothing behind it.

Leave out a key that you have nothing to say for. A value that begins with `#` is a comment to YAML: quote it.

Fires:
    designer:
Silent:
    designer: Ines Farrow
""",
)
UNKNOWN_WORD = Rule(
    "unknown-word",
    "error",
    """A value is not one of the words that can stand there.

Fires:
    terms: American
Silent:
    terms: US
""",
)

RULES = (UNKNOWN_KEY, MISSING_KEY, MISPLACED_VALUE, EMPTY_VALUE, UNKNOWN_WORD)


def misfits(root: Mapping, shape: Part = SOURCE, name: str = "a pattern source") -> tuple[Diagnostic, ...]:
    """Every fault of shape in a source, or in another file of a shape, in the order of the file."""
    found = list(_check(root, shape, name, root.span))
    found.sort(key=lambda finding: finding.order)
    return tuple(found)


def _check(node: Node, shape: Shape, name: str, place: Span) -> Iterator[Diagnostic]:
    """The faults of one node.

    name: what a message calls it. place: its key, for findings that have no better place.
    """
    if isinstance(node, Scalar) and node.blank:
        yield Diagnostic.of(EMPTY_VALUE, f"{name} has nothing behind it", place, hint="leave the key out")
    elif isinstance(shape, Part):
        if isinstance(node, Mapping):
            yield from _check_part(node, shape, name, place)
        else:
            keys = ", ".join(f"`{key.name}`" for key in shape.keys if key.must) or f"`{shape.keys[0].name}`"
            yield _misplaced(node, name, f"keys with values ({keys} …)", None)
    elif isinstance(shape, Listing):
        if isinstance(node, Sequence):
            for number, item in enumerate(node.items, 1):
                yield from _check(item, shape.of, f"item {number} of {name}", item.span)
        else:
            hint = f"write `- {node.text.value}` on a line of its own" if isinstance(node, Scalar) else None
            yield _misplaced(node, name, "a list, each item on a line that begins with `- `", hint)
    elif isinstance(shape, Table):
        if isinstance(node, Mapping):
            for entry in node.entries:
                yield from _check(entry.value, shape.of, f"`{entry.key.value}`", entry.key.span())
        else:
            yield _misplaced(node, name, "keys with values, each on a line of its own", None)
    elif not isinstance(node, Scalar):
        hint = "put the value in quotes" if isinstance(node, Mapping) else None
        if isinstance(node, Sequence):
            items = [item.text.value for item in node.items if isinstance(item, Scalar)]
            if items and name == "`names`":
                hint = f"write `{items[0]} ({', '.join(items[1:])})`" if len(items) > 1 else f"write `{items[0]}`"
        yield _misplaced(node, name, "a text", hint)
    elif isinstance(shape, Words) and node.text.value not in shape.choices:
        near = nearest(node.text.value, shape.choices)
        hint = f"did you mean `{near}`?" if near else f"use {either(shape.choices)}"
        message = f"{name} cannot be `{node.text.value}`; it is {either(shape.choices)}"
        yield Diagnostic.of(UNKNOWN_WORD, message, node.text.span(), hint=hint)


def _check_part(node: Mapping, part: Part, name: str, place: Span) -> Iterator[Diagnostic]:
    names = tuple(key.name for key in part.keys)
    missing = [key for key in part.keys if key.must and node.get(key.name) is None]
    for entry in node.entries:
        key = part.key(entry.key.value)
        if key is not None:
            yield from _check(entry.value, key.holds, f"`{key.name}`", entry.key.span())
            continue
        free = tuple(each for each in names if node.get(each) is None)
        near = nearest(entry.key.value, free) or nearest(entry.key.value, names)
        hint = f"did you mean `{near}`?" if near else f"the keys here are {', '.join(names)}"
        missing = [each for each in missing if each.name != near]
        message = f"`{entry.key.value}` is no key of {name}"
        yield Diagnostic.of(UNKNOWN_KEY, message, entry.key.span(), hint=hint)
    for key in missing:
        example = f": {key.examples[0]}" if key.examples else ":"
        where = Span(place.source, place.start, min(place.end, place.start + 1)) if part is SOURCE else place
        hint = f"add `{key.name}{example}`: {key.about[0].lower()}{key.about[1:].rstrip('.')}"
        yield Diagnostic.of(MISSING_KEY, f"{name} has no `{key.name}`", where, hint=hint)


def _misplaced(node: Node, name: str, wanted: str, hint: str | None) -> Diagnostic:
    line = node.span.source.line(node.span.line)
    end = min(node.span.end, node.span.start + max(1, len(line) - node.span.column + 1))
    span = Span(node.span.source, node.span.start, end)
    return Diagnostic.of(MISPLACED_VALUE, f"{name} is {kind(node)}; it should be {wanted}", span, hint=hint)


def nearest(word: str, known: tuple[str, ...]) -> str | None:
    """The known word that a misspelt one was most likely meant to be; None when none is near."""
    folded = {each.casefold().replace("-", "_").replace(" ", "_"): each for each in reversed(known)}
    close = difflib.get_close_matches(word.casefold().replace("-", "_").replace(" ", "_"), list(folded), 1, 0.6)
    return folded[close[0]] if close else None


def either(words: tuple[str, ...]) -> str:
    """Words as a choice: `a`, `b` or `c`."""
    quoted = [f"`{word}`" for word in words]
    return quoted[0] if len(quoted) == 1 else f"{', '.join(quoted[:-1])} or {quoted[-1]}"


def json_schema() -> dict[str, Any]:
    """The JSON Schema (draft 2020-12) of a source, for editors."""
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "Castoff pattern source",
        **_schema(SOURCE),
    }


def _schema(shape: Shape) -> dict[str, Any]:
    if isinstance(shape, Part):
        required = [key.name for key in shape.keys if key.must]
        asked = f"Name of the entry under `{shape.shared}` in `shared.yaml`."
        use: dict[str, Any] = {"use": {"type": "string", "description": asked}} if shape.shared else {}
        musts: dict[str, Any] = {"required": required} if required else {}
        if required and shape.shared:
            musts = {"anyOf": [{"required": required}, {"required": ["use"]}]}
        return {
            "description": shape.about,
            "type": "object",
            "properties": {
                key.name: {
                    **_schema(key.holds),
                    "description": key.about,
                    **({"examples": list(key.examples)} if key.examples else {}),
                }
                for key in shape.keys
            }
            | use,
            **musts,
            "additionalProperties": False,
        }
    if isinstance(shape, Listing):
        return {"type": "array", "items": _schema(shape.of)}
    if isinstance(shape, Table):
        return {"type": "object", "additionalProperties": _schema(shape.of)}
    if isinstance(shape, Words):
        # an editor's YAML parser makes booleans of `true` and `no`
        booleans: list[str | bool] = [True, False] if "true" in shape.choices else []
        return {"enum": [*shape.choices, *booleans]}
    if isinstance(shape, Value):
        return {"type": ["string", "number"], "pattern": r"\S"}
    text: dict[str, Any] = {"type": "string", "pattern": r"\S"}
    if not shape.shared:
        return text
    name = {"type": "string", "description": "Name of a text under `paragraphs` in `shared.yaml`."}
    whole = {"type": "object", "properties": {"use": name}, "required": ["use"], "additionalProperties": False}
    return {"anyOf": [text, whole]}
