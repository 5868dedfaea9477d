"""Formulas to trees: what is read, what is refused, and where."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from castoff.diagnostic import Diagnostic
from castoff.grading.formula import Binary, Call, Expression, Given, Name, Negative, Word, names_in, parse
from castoff.span import Text

SIZES = ("S", "M", "L")


def say(tree: Expression | Word) -> str:
    """A tree with every bracket written."""
    if isinstance(tree, Given):
        numbers = ",".join("–" if value is None else str(value) for value in tree.values)
        return numbers + {"a length": "mm", "a mass": "g"}.get(tree.dimension.words, "")
    if isinstance(tree, Name):
        return tree.dotted
    if isinstance(tree, Word):
        return f"'{tree.word}'"
    if isinstance(tree, Negative):
        return f"-{say(tree.of)}"
    if isinstance(tree, Binary):
        return f"({say(tree.left)} {tree.operator} {say(tree.right)})"
    arguments = [say(argument) for argument in tree.arguments]
    arguments += [f"{keyword.keyword}={say(keyword.value)}" for keyword in tree.keywords]
    return f"{tree.function}[{', '.join(arguments)}]"


def read(text: str) -> Expression:
    tree = parse(Text.plain(text), SIZES)
    assert not isinstance(tree, Diagnostic), tree.message
    return tree


@pytest.mark.parametrize(
    ("text", "tree"),
    [
        ("84", "84"), ("-4 cm", "-40mm"), ("−4 cm", "-40mm"), ("8 1/4 in", "4191/20mm"), ("8¼ in", "4191/20mm"),
        ('8¼"', "4191/20mm"), ("84 (92, 100)", "84,92,100"), ("84 [92, 100]", "84,92,100"), ("84 (–, 100)", "84,–,100"),
        ("– (92, 100)", "–,92,100"), ("13 (14, 15) cm / 5 (5½, 6) in", "130,140,150mm"), ("13 cm (5 in)", "130mm"),
        ("50 g", "50g"), ("10%", "1/10"), ("body.head - 4 cm", "(body.head - 40mm)"), ("1 + 2 * 3", "(1 + (2 * 3))"),
        ("(1 + 2) * 3", "((1 + 2) * 3)"), ("8 - 4 - 2", "((8 - 4) - 2)"), ("16 / a / 2", "((16 / a) / 2)"),
        ("2 × wedge ÷ 3", "((2 * wedge) / 3)"), ("-a * -b", "(-a * -b)"), ("cast_on / 8", "(cast_on / 8)"),
        ("a - (4 + 5)", "(a - (4 + 5))"), ("3/4 * a", "(3/4 * a)"), ("12 - 1/2", "(12 - 1/2)"),
        ("width(2 * a, gauge=rib)", "width[(2 * a), gauge='rib']"), ("nearest(a, 0.5 cm)", "nearest[a, 5mm]"),
        ('rows(20 cm, gauge="seed stitch")', "rows[200mm, gauge='seed stitch']"), ("max(1, 2, 3)", "max[1, 2, 3]"),
        ("stitches(a, multiple_of=4, plus=b + 1)", "stitches[a, multiple_of=4, plus=(b + 1)]"),
        ("spread(a, over=rows(20 cm), on=RS)", "spread[a, over=rows[200mm], on='RS']"), ("f()", "f[]"),
        ("gauge.rib.rows * 2", "(gauge.rib.rows * 2)"), ("max(84 (92, 100), 90)", "max[84,92,100, 90]"),
    ],
)  # fmt: skip
def test_read(text: str, tree: str) -> None:
    assert say(read(text)) == tree


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("", "formula-unreadable «» the formula ends too soon"),
        ("84 +", "formula-unreadable «+» the formula ends too soon"),
        ("84 84", "formula-unreadable «8» `8` cannot stand here"),
        ("a b", "formula-unreadable «b» `b` cannot stand here"),
        ("(a", "formula-unreadable «(» this bracket is never closed"),
        ("rows(a", "formula-unreadable «(» this bracket is never closed"),
        ("a)", "formula-unreadable «)» `)` cannot stand here"),
        ("a ** 2", "formula-unreadable «**» `**` cannot stand here"),
        ("a ^ 2", "formula-unreadable «^» `^` cannot stand here"),
        ("{a}", "formula-unreadable «{» `{` cannot stand here"),
        ("a = 3", "formula-unreadable «=» `=` cannot stand here"),
        ("rows(gauge=rib, 3 cm)", "formula-unreadable «3» a value without a keyword stands behind one with"),
        ("__import__('os')", "formula-unreadable «'» `'` cannot stand here"),
        ("84 (92)", "size-list-length «84 (92)» 2 values for 3 sizes"),
        ("84 (92, 100, 108) + 1", "size-list-length «84 (92, 100, 108)» 4 values for 3 sizes"),
        ("2 * 84 (92) cm", "size-list-length «84 (92)» 2 values for 3 sizes"),
        ("12-1/2 in", "formula-ambiguous «12-1/2» `12-1/2` can be `12 1/2` and `12 - 1/2`"),
    ],
)
def test_fault(text: str, told: str) -> None:
    found = parse(Text.plain(text), SIZES)
    assert isinstance(found, Diagnostic) and found.span is not None
    assert f"{found.rule.name} «{text[found.span.start : found.span.end]}» {found.message}" == told


@pytest.mark.parametrize(
    ("text", "hint"),
    [
        ("a ** 2", "powers are not known; multiply instead"),
        ("a b", "join the words of a name with `_`, or put `*` between two factors"),
        ("{a}", "leave the braces out"),
        ("84 (92)", "give one value for each of S, M, L, or a single one for all"),
        ("84 +", "a number or a name is missing here"),
        ("(a", "add `)`"),
    ],
)
def test_hint(text: str, hint: str) -> None:
    found = parse(Text.plain(text), SIZES)
    assert isinstance(found, Diagnostic) and found.hint == hint


def test_every_part_has_its_place() -> None:
    text = "stitches(body.head - 4 cm, gauge=rib)"
    tree = read(text)
    assert isinstance(tree, Call)
    assert [text[span.start : span.end] for span in (tree.span, tree.name_span, tree.arguments[0].span)] == [
        text, "stitches", "body.head - 4 cm",
    ]  # fmt: skip
    assert [text[name.span.start : name.span.end] for name in names_in(tree)] == ["body.head"]


def test_nesting_and_length_are_bounded() -> None:
    for text in ("(" * 500 + "1" + ")" * 500, "-" * 500 + "1", "f(" * 500 + ")" * 500, "1 + " * 900 + "1"):
        found = parse(Text.plain(text), SIZES)
        assert isinstance(found, Diagnostic) and found.rule.name == "formula-unreadable"


@given(st.one_of(st.text(max_size=60), st.text("ab_.()+-*/=,0123456789 cmin½%\"'–", max_size=60)), st.integers(1, 9))
def test_any_text_is_read_or_refused_with_a_place(text: str, sizes: int) -> None:
    found = parse(Text.plain(text), tuple(str(size) for size in range(sizes)))
    span = found.span
    assert span is not None and 0 <= span.start <= span.end <= len(text)


NUMBERS = st.integers(0, 99).map(str)
SUMS = st.recursive(
    NUMBERS,
    lambda inner: st.tuples(inner, st.sampled_from(["+", "-", "*"]), inner).map(lambda p: f"({p[0]} {p[1]} {p[2]})"),
    max_leaves=12,
)


@given(SUMS)
def test_sums_as_arithmetic_has_them(text: str) -> None:
    """The tree against Python's own reading of the same sum: whole numbers in full brackets mean the same in both."""

    def worth(tree: Expression) -> Fraction:
        if isinstance(tree, Given):
            assert tree.values[0] is not None
            return tree.values[0]
        assert isinstance(tree, Binary)
        left, right = worth(tree.left), worth(tree.right)
        return {"+": left + right, "-": left - right, "*": left * right}[tree.operator]

    assert worth(read(text)) == eval(text)
