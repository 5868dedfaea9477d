"""The grammar is written in the keys that words.py brings every spelling to; another spelling could never match."""

from __future__ import annotations

import ast
from pathlib import Path

import castoff.notation
from castoff.notation.words import KEYS, key_of

_FOLDER = Path(castoff.notation.__file__).parent


def _phrases() -> list[tuple[str, int, str]]:
    found = []
    for path in sorted(_FOLDER.glob("*.py")):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if (
                isinstance(node, ast.Call)
                and isinstance(node.func, ast.Attribute)
                and node.func.attr in ("take", "looking")
            ):
                found += [
                    (path.name, node.lineno, argument.value)
                    for argument in node.args
                    if isinstance(argument, ast.Constant) and isinstance(argument.value, str)
                ]
            elif isinstance(node, ast.Assign) and isinstance(node.value, ast.Tuple | ast.Call | ast.Set):
                names = [target.id for target in node.targets if isinstance(target, ast.Name)]
                if (
                    names
                    and names[0].startswith("_")
                    and names[0].isupper()
                    and names[0] not in _TYPED
                    and path.name not in _NO_GRAMMAR
                ):
                    found += [
                        (path.name, inner.lineno, inner.value)
                        for inner in ast.walk(node.value)
                        if isinstance(inner, ast.Constant) and isinstance(inner.value, str)
                    ]
    return found


_NO_GRAMMAR = ("words.py", "phrases.py", "lexer.py", "unread.py", "print.py")
_TYPED = ("_FINISHERS",)  # compared with words as typed
_MEANINGS = frozenset(
    {"reverse stockinette", "double moss stitch", "moss stitch", "seed stitch", "cast-on", "sew", "whip", "mattress"}
)


def test_every_phrase_is_written_in_keys() -> None:
    wrong = [
        f"{name}:{line}: {phrase!r}: {word!r} is read as {key_of(word)!r}"
        for name, line, phrase in _phrases()
        if phrase not in _MEANINGS
        for word in phrase.split()
        if key_of(word) != word
    ]
    assert not wrong, "\n".join(wrong)


def test_keys_stand_for_themselves() -> None:
    assert [key for key in KEYS.values() if key_of(key) != key] == []
