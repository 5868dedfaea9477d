"""YAML to nodes: every value knows its place, and nothing that YAML does is passed over in silence."""

from __future__ import annotations

import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st

from castoff.source.node import Entry, Mapping, Node, Scalar, Sequence, plain
from castoff.source.read import MAX_CHARACTERS, MAX_DEPTH, read_source
from castoff.span import Text


def tree(text: str) -> Mapping:
    read = read_source("cap.yaml", text.encode())
    assert read.findings == ()
    assert read.value is not None
    return read.value


def faults(text: str | bytes) -> list[str]:
    """Findings as `rule line:column «the text marked» message | hint`."""
    data = text.encode() if isinstance(text, str) else text
    told = []
    for found in read_source("cap.yaml", data).findings:
        assert found.span is not None
        marked = found.span.source.text[found.span.start : found.span.end]
        hint = f" | {found.hint}" if found.hint else ""
        told.append(f"{found.rule.name} {found.span.line}:{found.span.column} «{marked}» {found.message}{hint}")
    return told


def scalar(node: Node | None) -> Text:
    assert isinstance(node, Scalar)
    return node.text


# ---------------------------------------------------------------------------------------------- what is read


def test_every_scalar_is_text() -> None:
    """What YAML would make a truth value, a float, an octal number, a base-60 number or a null of stays as typed."""
    root = tree("a: NO\nb: 1.10\nc: 012\nd: 1:30\ne: ~\nf: 2026-11-01\ng: null\nh: 1e3\n")
    assert plain(root) == {
        "a": "NO", "b": "1.10", "c": "012", "d": "1:30", "e": "~", "f": "2026-11-01", "g": "null", "h": "1e3",
    }  # fmt: skip


@pytest.mark.parametrize(
    ("source", "part", "line", "column"),
    [
        ("title: Saltgrass Cap\n", "Cap", 1, 18),
        ("title: 'It''s a cap'\n", "cap", 1, 17),
        ('title: "A \\"small\\" cap"\n', "cap", 1, 21),
        ('title: "caf\\u00e9 cap"\n', "cap", 1, 19),
        ("work: |\n  With A, cast on.\n  Knit 3 rows.\n", "3", 3, 8),
        ("work: |\n\n  Row 1.\n\n    more\n  Row 2.\n", "2", 6, 7),
        ("work: |-\n  Row 1.\n  Row 2.", "2", 3, 7),
        ("work: |2\n    Row 1.\n  Row 2.\n", "2", 3, 7),
        ("work: >\n  one two\n  three\n\n  four\n", "three", 3, 3),
        ("work: >\n  one two\n  three\n\n  four\n", "four", 5, 3),
        ("summary: one two\n  three\n", "three", 2, 3),
        ('summary: "one two\n  three \\\n  four"\n', "four", 3, 3),
        ("work: |\r\n  Row 1.\r\n  Row 2.\r\n", "2", 3, 7),
        ("a: {b: [c, deep]}\n", "deep", 1, 12),
        ("é: ½ in\n", "in", 1, 6),
        ("\ufefftitle: Cap\n", "Cap", 1, 8),
    ],
)
@pytest.mark.parametrize("loader", [yaml.SafeLoader, getattr(yaml, "CSafeLoader", yaml.SafeLoader)])
def test_place_of_a_part(source: str, part: str, line: int, column: int, loader: type[yaml.SafeLoader]) -> None:
    read = read_source("cap.yaml", source.encode(), loader)
    assert read.value is not None
    node: Node = read.value.entries[0].value
    while not isinstance(node, Scalar):
        node = node.entries[0].value if isinstance(node, Mapping) else node.items[-1]
    at = node.text.value.index(part)
    span = node.text.span(at, at + len(part))
    assert (span.line, span.column) == (line, column)
    assert span.source.text[span.start : span.end] == part


def test_keys_have_places_too() -> None:
    entry = tree("a:\n  bee: 1\n").entries[0]
    assert isinstance(entry.value, Mapping)
    key = entry.value.entries[0].key.span()
    assert (key.line, key.column, key.end_place) == (2, 3, (2, 6))


def test_anchors_share_a_value() -> None:
    root = tree("a: &yarn {name: Low Tide}\nb: *yarn\n")
    assert plain(root) == {"a": {"name": "Low Tide"}, "b": {"name": "Low Tide"}}
    assert scalar(tree("a: &x one\nb: 2\n").get("a")).value == "one"
    assert scalar(tree("a: &x one\nb: 2\n").get("a")).span().column == 7


# ---------------------------------------------------------------------------------------------- what is wrong


@pytest.mark.parametrize(
    ("source", "told"),
    [
        ("", ["source-empty 1:1 «» the file is empty"]),
        ("  \n\n", ["source-empty 1:1 «» the file is empty"]),
        ("# only this\n", ["source-empty 1:1 «» the file holds nothing but comments"]),
        (
            "sizes:\n\tnames: S\n",
            ["tab-in-indent 2:1 «\t» a tab indents this line | use two spaces for each step"],
        ),
        (
            "a: 1\nb: 2\na: 3\n",
            ["duplicate-key 3:1 «a» `a` stands twice | it stood first in line 1"],
        ),
        (
            "body: {head: 50 (53, 56) cm}\n",
            [
                "split-entry 1:14 «50 (53, 56) cm» the commas in `50 (53, 56) cm` have split it"
                ' | write one entry a line, or put the value in quotes: "50 (53, 56) cm"'
            ],
        ),
        (
            "hand: {label: Hand, is: 16 (18, 20) cm / 6¼ (7, 7¾) in, of: Mitt}\n",
            [
                "split-entry 1:25 «16 (18, 20) cm / 6¼ (7, 7¾) in» the commas in `16 (18, 20) cm / 6¼ (7, 7¾) in` have"
                ' split it | write one entry a line, or put the value in quotes: "16 (18, 20) cm / 6¼ (7, 7¾) in"'
            ],
        ),
        (
            "notions: [1 button (20 mm, red), thread]\n",
            [
                "split-entry 1:11 «1 button (20 mm, red)» the commas in `1 button (20 mm, red)` have split it"
                ' | write one entry a line, or put the value in quotes: "1 button (20 mm, red)"'
            ],
        ),
        (
            "is: {cast_on}\n",
            ['split-entry 1:6 «cast_on» `cast_on` has no value | put it in quotes if it is a text: "{cast_on}"'],
        ),
        (
            "size: US #8\n",
            ['cut-by-comment 1:9 « #8» `#8` is taken for a comment and lost | put the value in quotes: "US #8"'],
        ),
        (
            "row: *K2, p2; rep from * to end\n",
            [
                "needs-quotes 1:6 «*K2, p2; rep from * to end» a value cannot begin with `*` and go on like this"
                " | put the value in quotes, or on lines of its own below `row: |`"
            ],
        ),
        (
            "work: {cast_on} sts\n",
            [
                "needs-quotes 1:7 «{cast_on} sts» a value cannot begin with `{` and go on like this"
                " | put the value in quotes, or on lines of its own below `work: |`"
            ],
        ),
        (
            "a: 1\nb: %5\n",
            [
                "needs-quotes 2:4 «%5» a value cannot begin with `%` and go on like this"
                " | put the value in quotes, or on lines of its own below `b: |`"
            ],
        ),
        (
            "b: @home\n",
            [
                "needs-quotes 1:4 «@home» a value cannot begin with `@` and go on like this"
                " | put the value in quotes, or on lines of its own below `b: |`"
            ],
        ),
        (
            "summary: In sizes: S and M\n",
            [
                "needs-quotes 1:18 «: » a colon with a space stands inside a value"
                " | put the value in quotes, or on lines of its own below `summary: |`"
            ],
        ),
        (
            "notions: *thread\n",
            [
                "alias-not-usable 1:10 «*thread» no anchor `&thread` stands before this"
                " | put the value in quotes if no reference was meant"
            ],
        ),
        ("a: &x [*x]\n", ["alias-not-usable 1:8 «*x» `x` would hold itself"]),
        (
            "- a\n- b\n",
            [
                "source-not-a-mapping 1:1 «- a\n- b\n» the file is a list, not keys with values"
                " | begin with `written_for: 1`, then `title:`, `sizes:` …"
            ],
        ),
        (
            "a: 1\n---\nb: 2\n",
            ["several-documents 2:1 «---» a second document starts here | give each pattern a file of its own"],
        ),
        (
            'a: !!int "1"\n',
            [
                "yaml-feature-not-used 1:4 «!!int» a tag, `!!int`, stands before a value"
                " | leave the tag out: every value is read as text"
            ],
        ),
        (
            "a: &a {b: c}\nd:\n  <<: *a\n",
            [
                "yaml-feature-not-used 3:3 «<<» merge keys (`<<`) are not read"
                " | repeat the entries, or refer to each value by `*name`"
            ],
        ),
        (
            "? [a]\n: b\n",
            [
                "yaml-feature-not-used 1:3 «[a]» a list or mapping stands where a key should be"
                " | put it in quotes if it is a text"
            ],
        ),
        (
            'a: "never closed\nb: 2\n',
            ["source-not-yaml 2:5 «\n» found unexpected end of stream (quoted value, begun in line 1)"],
        ),
        (
            "title: x\nbadline\nc: d\n",
            ["source-not-yaml 3:1 «c: d» a `:` is missing behind this key (the key, begun in line 2)"],
        ),
    ],
)
def test_fault(source: str, told: list[str]) -> None:
    assert faults(source) == told


@pytest.mark.parametrize(
    ("data", "told"),
    [
        (b"\x89PNG\r\n\x1a\n\x00\x00", "source-not-text 1:1 «\ufffd» the file is no text"),
        (b"title: caf\xe9\n", "source-not-text 1:11 «\ufffd» byte 0xe9 is no UTF-8 | save the file as UTF-8"),
        ("title: Cap\n".encode("utf-16"), "source-not-text 1:1 «» the file is UTF-16, not UTF-8 | save it as UTF-8"),
        (b"title: C\x07ap\n", "source-not-text 1:9 «\x07» a control character (U+0007) stands in the file"),
    ],
)
def test_no_text(data: bytes, told: str) -> None:
    assert faults(data) == [told]


def test_a_split_value_is_mended_so_that_nothing_else_is_told_of_it() -> None:
    read = read_source("cap.yaml", b"body: {head: 50 (53, 56) cm, hand: 18 cm}\n")
    assert read.value is not None
    assert plain(read.value) == {"body": {"head": "50 (53, 56) cm", "hand": "18 cm"}}


def test_the_first_of_two_equal_keys_is_shown_beside_the_second() -> None:
    (found,) = read_source("cap.yaml", b"a: 1\nb: 2\na: 3\n").findings
    (first,) = found.related
    assert (first.span.line, first.message) == (1, "`a` stood here first")


def test_references_that_multiply_are_an_error_and_take_no_time() -> None:
    lines = ["a: &a [x, x, x, x, x, x, x, x, x, x]"]
    for before, name in zip("abcdefghijklm", "bcdefghijklmn", strict=True):
        lines.append(f"{name}: &{name} [{', '.join([f'*{before}'] * 10)}]")
    read = read_source("cap.yaml", "\n".join(lines).encode())
    assert read.value is None
    (found,) = read.findings
    assert found.rule.name == "alias-not-usable"
    assert found.span is not None and found.span.line == 5
    assert found.message == "with its references followed this comes to 111,111 values; the limit is 50,000"


def test_too_deep_and_too_large() -> None:
    deep = "[" * 5000 + "]" * 5000
    assert faults(deep) == [f"source-too-large 1:{MAX_DEPTH + 1} «[» values are nested more than 40 levels deep"]
    large = "a: " + "x" * MAX_CHARACTERS
    assert faults(large)[0].startswith("source-too-large 1:1 «» the file has 4,000,003 characters")


# ---------------------------------------------------------------------------------------------- for all inputs


def shape(node: Node) -> object:
    """A node with all its places, for comparing two readings."""
    if isinstance(node, Scalar):
        return node.text.value, node.text.anchors, node.span.start, node.span.end, node.style
    if isinstance(node, Sequence):
        return [shape(item) for item in node.items], node.span.start, node.span.end
    return [(entry.key.value, entry.key.anchors, shape(entry.value)) for entry in node.entries]


WORDS = st.text("ab(),:#*{}[]'\"|>&!%- \n\té½0", max_size=40)


@settings(max_examples=300, deadline=None)
@given(st.one_of(WORDS, st.text(max_size=60), st.binary(max_size=40).map(lambda data: data.decode("latin-1"))))
def test_any_text_gives_a_tree_or_findings_with_a_place(text: str) -> None:
    read = read_source("cap.yaml", text.encode("utf-8", "surrogatepass"))
    assert read.value is not None or not read.sound
    for found in read.findings:
        assert found.span is not None
        assert 0 <= found.span.start <= found.span.end <= len(found.span.source.text)


@settings(max_examples=200, deadline=None)
@given(WORDS)
def test_both_parsers_give_the_same(text: str) -> None:
    data = ("title: x\n" + text).encode()
    fast = read_source("cap.yaml", data)
    pure = read_source("cap.yaml", data, yaml.SafeLoader)
    assert [(f.rule.name, f.message) for f in fast.findings] == [(f.rule.name, f.message) for f in pure.findings]
    assert (fast.value is None) == (pure.value is None)
    if fast.value is not None and pure.value is not None:
        assert shape(fast.value) == shape(pure.value)


LINE = st.text("abc XYZ0123456789,.;*()½é", min_size=1, max_size=20).map(lambda s: "k" + s.strip())


@settings(max_examples=200, deadline=None)
@given(st.lists(LINE, min_size=1, max_size=6), st.sampled_from(["|", ">", '"', "'", ""]))
def test_every_letter_of_a_value_is_where_the_file_has_it(lines: list[str], style: str) -> None:
    """Whatever the style: a character that is no white space stands at the place it claims."""
    if style in ("|", ">"):
        source = f"work: {style}\n" + "".join(f"    {line}\n" for line in lines)
    else:
        source = f"work: {style}" + "\n    ".join(lines) + f"{style}\n"
    value = scalar(tree(source).get("work"))
    for at, character in enumerate(value.value):
        if not character.isspace():
            assert source[value.offset(at)] == character


def test_entries_are_values() -> None:
    assert isinstance(tree("a: 1\n").entries[0], Entry)
