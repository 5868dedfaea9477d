"""Formulas to numbers, per size, with units.

In: a `Pattern` and the `Trade`. Out: `Numbers`: every entry under `numbers` with its value per size, what it was before
rounding, and what it was worked out from; and every fault. `resolve` works out a formula that stands elsewhere: between
braces in an instruction, or in a measurement. Entries are worked out in the order they need each other; one that
cannot be worked out takes down only what depends on it, and is told once.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from fractions import Fraction
from types import MappingProxyType

from castoff.diagnostic import Checked, Diagnostic, Related
from castoff.grading.faults import (
    FORMULA_LOOP,
    NUMBER_NAME,
    NUMBER_NOT_WHOLE,
    ROUNDING_TIE,
    UNKNOWN_NUMBER,
    WITHOUT_VALUE,
    WRONG_ARGUMENT,
    WRONG_DIMENSION,
    fault,
)
from castoff.grading.formula import (
    WORD_KEYWORDS,
    Binary,
    Call,
    Expression,
    FormulaFault,
    Name,
    Negative,
    Word,
    names_in,
    parse,
)
from castoff.grading.formula import Given as Typed
from castoff.grading.functions import Arguments, Given, signature_of
from castoff.grading.scene import Scene
from castoff.grading.worth import Planned, Values, Worth, added, divided, multiplied, typed
from castoff.model.pattern import Number, Pattern
from castoff.model.shape import nearest
from castoff.per_size import Option, PerSize, axes_of
from castoff.rounding import to_step
from castoff.span import Span, Text
from castoff.trade.load import Trade
from castoff.units import LENGTH, MASS, NUMBER, Dimension, Kind, Quantity, decimal, in_words

RESERVED = ("body", "gauge", "fit")
WHAT = MappingProxyType({"body": "bodies", "gauge": "gauges", "fit": "fit words"})
_NAME = re.compile(r"[^\W\d]\w*")


@dataclass(frozen=True, slots=True)
class Entry:
    """A number of the pattern.

    name: its key. formula: as typed.
    worth: its value per size; None when it could not be worked out, or is a shaping plan.
    plan: the plan, when the formula makes one.
    needs: the names it is worked out from, in the order they stand: other numbers, `body.…`, `gauge.…`.
    """

    name: str
    formula: Text
    worth: Worth | None
    plan: Planned | None = None
    needs: tuple[str, ...] = ()
    expression: Expression | None = field(default=None, repr=False, compare=False)

    @property
    def values(self) -> PerSize[Quantity] | None:
        """The value per size."""
        return None if self.worth is None else _quantities(self.worth.values, self.worth.dimension)

    @property
    def unrounded(self) -> PerSize[Quantity] | None:
        """The value per size before it was rounded; None when nothing was rounded."""
        if self.worth is None or self.worth.before is None:
            return None
        return _quantities(self.worth.before, self.worth.dimension)


def _quantities(values: Values, dimension: Dimension) -> PerSize[Quantity]:
    return PerSize(tuple(None if value is None else Quantity(value, dimension) for value in values))


@dataclass(frozen=True, slots=True)
class Numbers:
    """The numbers of a pattern, in the order of the source.

    sizes: names of the sizes.
    """

    sizes: tuple[str, ...]
    entries: tuple[Entry, ...]
    scene: Scene = field(repr=False, compare=False)

    def names(self) -> tuple[str, ...]:
        """Names of the numbers that the pattern gives, whether they could be worked out or not."""
        return tuple(entry.name for entry in self.entries)

    def entry(self, name: str) -> Entry | None:
        """A number with its formula and all that is known of it."""
        return next((entry for entry in self.entries if entry.name == name), None)

    def get(self, name: str) -> PerSize[Quantity] | None:
        """A number's value per size; None for an unknown one, a plan, or one that could not be worked out."""
        entry = self.entry(name)
        return None if entry is None else entry.values


@dataclass(frozen=True, slots=True)
class Resolved:
    """What a formula in an instruction comes to.

    kind: "count" for stitches, rows, balls and whole plain numbers; "length" and "mass"; "number" for a plain number
        that is not whole in every size.
    values: one per size; None where the size skips. Exact; lengths in millimetres, masses in grams, counts whole.
    formula: as typed.
    """

    kind: Kind
    values: tuple[Fraction | None, ...]
    formula: str


def evaluate(pattern: Pattern, trade: Trade) -> Checked[Numbers]:
    """Every number of a pattern."""
    scene = Scene.of(pattern, trade)
    findings: list[Diagnostic] = []
    expressions: dict[str, Expression | None] = {}
    numbers = {number.key.value: number for number in pattern.numbers}
    for number in pattern.numbers:
        findings += _name_faults(number)
        expression = parse(number.formula, scene.sizes)
        if isinstance(expression, Diagnostic):
            findings.append(expression)
            expressions[number.key.value] = None
        else:
            expressions[number.key.value] = expression
    order, loops = _in_order(expressions, numbers)
    findings += loops
    looped = set(expressions) - set(order)
    solved: dict[str, Entry] = {}
    for name in (*order, *(name for name in expressions if name in looped)):
        number, tree = numbers[name], expressions[name]
        worth: Worth | Planned | None = None
        if tree is not None and name not in looped:
            try:
                worth = _Evaluator(scene, solved, tuple(numbers)).worth(tree)
                if isinstance(worth, Worth):
                    _usual(worth, tree, f"`{name}`")
                    findings += _ties(worth, number.formula, scene.sizes)
            except FormulaFault as found:
                worth = None
                if found.finding.rule is not WITHOUT_VALUE:
                    findings.append(found.finding)
        solved[name] = _entry(name, number.formula, worth, tree)
    result = Numbers(scene.sizes, tuple(solved[name] for name in numbers), scene)
    findings += _not_whole(pattern, result)
    findings.sort(key=lambda finding: finding.order)
    return Checked(result, tuple(findings))


def _entry(name: str, formula: Text, worth: Worth | Planned | None, tree: Expression | None) -> Entry:
    needs = () if tree is None else tuple(dict.fromkeys(used.dotted for used in names_in(tree)))
    plan = worth if isinstance(worth, Planned) else None
    return Entry(name, formula, worth if isinstance(worth, Worth) else None, plan, needs, tree)


def entry_of(name: str, formula: Text, numbers: Numbers) -> Checked[Entry | None]:
    """A formula that stands elsewhere, as an entry of its own: to ask where its value comes from."""
    tree = parse(formula, numbers.sizes)
    if isinstance(tree, Diagnostic):
        return Checked(None, (tree,))
    solved = {entry.name: entry for entry in numbers.entries}
    try:
        worth = _Evaluator(numbers.scene, solved, numbers.names()).worth(tree)
        if isinstance(worth, Worth):
            _usual(worth, tree, f"`{formula.value}`")
    except FormulaFault as found:
        return Checked(None, (found.finding,))
    return Checked(_entry(name, formula, worth, tree))


def resolve(expression: Text, numbers: Numbers) -> Checked[Resolved | None]:
    """What a formula comes to that stands in an instruction or a measurement.

    A count that is not whole is a fault. A name that has no value for a fault of its own is told here
    too, as what keeps this formula from one.
    """
    tree = parse(expression, numbers.sizes)
    if isinstance(tree, Diagnostic):
        return Checked(None, (tree,))
    solved = {entry.name: entry for entry in numbers.entries}
    try:
        worth = _Evaluator(numbers.scene, solved, numbers.names()).worth(tree)
        if isinstance(worth, Planned):
            known = ", ".join(worth.names)
            message = f"`{expression.value}` is a plan for shaping, not a number"
            raise fault(WRONG_DIMENSION, message, tree.span, hint=f"ask for a number of it: {known}")
        _usual(worth, tree, f"`{expression.value}`")
    except FormulaFault as found:
        return Checked(None, (found.finding,))
    kind = _kind(worth)
    if kind is None:
        message = f"`{expression.value}` is {worth.dimension.words}, which no instruction can use"
        return Checked(None, (Diagnostic.of(WRONG_DIMENSION, message, tree.span),))
    findings = _ties(worth, expression, numbers.sizes) if not isinstance(tree, Name) else []
    values = worth.values
    if worth.dimension.counted and any(value is not None and value.denominator != 1 for value in values):
        if not (isinstance(tree, Name) and len(tree.parts) == 1):
            findings.append(_broken_count(expression.value, worth, expression.span(), numbers.sizes))
        # the needle goes on with the nearest whole count, so that one broken number is one finding
        values = tuple(None if value is None else to_step(value, Fraction(1)).value for value in values)
    return Checked(Resolved(kind, values, expression.value), tuple(findings))


def _kind(worth: Worth) -> Kind | None:
    if worth.dimension == LENGTH:
        return "length"
    if worth.dimension == MASS:
        return "mass"
    if worth.dimension.counted:
        return "count"
    if worth.dimension == NUMBER:
        return "count" if all(value is None or value.denominator == 1 for value in worth.values) else "number"
    return None


# ---------------------------------------------------------------------------------------------- findings


def _name_faults(number: Number) -> Iterator[Diagnostic]:
    name = number.key.value
    if name in RESERVED:
        message = f"`{name}` is what formulas call the {WHAT[name]} by"
        yield Diagnostic.of(NUMBER_NAME, message, number.key.span(), hint="choose another name")
    elif not _NAME.fullmatch(name):
        fitting = re.sub(r"\W+", "_", name).strip("_")
        hint = f"write `{fitting}`" if _NAME.fullmatch(fitting) else "begin it with a letter"
        yield Diagnostic.of(NUMBER_NAME, f"`{name}` cannot be the name of a number", number.key.span(), hint=hint)


def _ties(worth: Worth, formula: Text, sizes: tuple[str, ...]) -> list[Diagnostic]:
    if not worth.ties or worth.before is None:
        return []
    first = worth.ties[0]
    before, after = worth.before[first], worth.values[first]
    if before is None or after is None:
        return []
    exact, taken = in_words(before, worth.dimension), in_words(after, worth.dimension)
    message = f"{exact} lies exactly between two; {taken} is taken"
    names = [sizes[index] for index in worth.ties]
    return [Diagnostic.of(ROUNDING_TIE, message, formula.span(), sizes=names, hint="say `to=up` or `to=down`")]


def _not_whole(pattern: Pattern, numbers: Numbers) -> Iterator[Diagnostic]:
    """Counts that instructions use by name and that are not whole, told where they are worked out."""
    texts = [text.value for section in pattern.sections for text in (section.begins, section.work) if text is not None]
    texts += [rows.rows.value for rows in pattern.stitch_patterns]
    used = {match[1] for text in texts for match in re.finditer(r"\{\s*([^\W\d]\w*)\s*\}", text)}
    for entry in numbers.entries:
        worth = entry.worth
        if entry.name in used and worth is not None and worth.dimension.counted:
            wrong = [value for value in worth.values if value is not None and value.denominator != 1]
            if wrong:
                yield _broken_count(entry.name, worth, entry.formula.span(), numbers.sizes)


def _broken_count(name: str, worth: Worth, span: Span, sizes: tuple[str, ...]) -> Diagnostic:
    broken = [
        (size, value)
        for size, value in zip(sizes, worth.values, strict=True)
        if value is not None and value.denominator != 1
    ]
    shown = ", ".join(decimal(value) if len(sizes) == 1 else f"{decimal(value)} in {size}" for size, value in broken)
    message = f"`{name}` should be a whole number of {worth.dimension.words}, and is {shown}"
    hint = "round it with `nearest(…)`, `up(…)` or `down(…)`, or make what it is worked out from a multiple"
    return Diagnostic.of(NUMBER_NOT_WHOLE, message, span, sizes=[size for size, _ in broken], hint=hint)


def _usual(worth: Worth, expression: Expression, name: str) -> None:
    """Faults a number of a dimension that nothing could use, at the place where it went wrong."""
    if worth.dimension.usual:
        return
    message = f"{name} comes out as {worth.dimension.words}"
    place = expression.span
    if isinstance(expression, Binary):
        place = expression.span
        verb = {"/": "divided by", "*": "multiplied by"}.get(expression.operator, "joined to")
        message += f": `{typed(expression.left.span)}` is {verb} `{typed(expression.right.span)}`"
    hint = "stitches go with a stitch gauge, rows with a row gauge; `count(x)` makes a bare number of a count"
    raise fault(WRONG_DIMENSION, message, place, hint=hint)


# ---------------------------------------------------------------------------------------------- order


def _in_order(
    expressions: dict[str, Expression | None], numbers: dict[str, Number]
) -> tuple[list[str], list[Diagnostic]]:
    """Names so that each comes after those it needs, and a finding for every loop; names on a loop are left out."""
    needs = {
        name: [used for used in names_in(tree) if used.parts[0] in expressions] if tree is not None else []
        for name, tree in expressions.items()
    }
    order: list[str] = []
    done: set[str] = set()
    findings: list[Diagnostic] = []
    for start in expressions:
        # a stack of its own: a chain of numbers may be longer than Python's
        path: list[str] = [start]
        steps: list[Iterator[Name]] = [iter(needs[start])]
        if start in done:
            continue
        while path:
            used = next(steps[-1], None)
            if used is None:
                steps.pop()
                name = path.pop()
                if name not in done:
                    done.add(name)
                    order.append(name)
            elif used.parts[0] in path:
                chain = path[path.index(used.parts[0]) :]
                findings.append(_loop(chain, used, numbers))
                # those on the loop have no value; what else they need is still worked out
                for name in chain:
                    done.add(name)
            elif used.parts[0] not in done:
                path.append(used.parts[0])
                steps.append(iter(needs[used.parts[0]]))
    return order, findings


def _loop(chain: list[str], used: Name, numbers: dict[str, Number]) -> Diagnostic:
    shown = " → ".join(f"`{name}`" for name in (*chain, chain[0]))
    message = f"`{chain[0]}` is worked out from itself: {shown}"
    if len(chain) == 1:
        message = f"`{chain[0]}` is worked out from itself"
    related = [Related(numbers[name].formula.span(), f"`{name}` is worked out here") for name in chain[:-1]]
    return Diagnostic.of(FORMULA_LOOP, message, used.span, hint="give one of them a value of its own", related=related)


# ---------------------------------------------------------------------------------------------- values


@dataclass(frozen=True, slots=True)
class _Evaluator:
    """Works out trees.

    solved: the numbers known so far. known: every name there is, for hints.
    """

    scene: Scene
    solved: dict[str, Entry]
    known: tuple[str, ...]

    def worth(self, tree: Expression) -> Worth | Planned:
        """The value of a tree, or a fault."""
        if isinstance(tree, Typed):
            values = tree.values * len(self.scene.sizes) if len(tree.values) == 1 else tree.values
            return Worth(values, tree.dimension)
        if isinstance(tree, Name):
            return self._name(tree)
        if isinstance(tree, Call):
            return self._call(tree)
        if isinstance(tree, Negative):
            inner = self._number(tree.of)
            return Worth(tuple(None if value is None else -value for value in inner.values), inner.dimension)
        left, right = self._number(tree.left), self._number(tree.right)
        places = (tree.left.span, tree.right.span)
        if tree.operator == "*":
            return multiplied(left, right)
        if tree.operator == "/":
            return divided(left, right, self.scene.sizes, places)
        return added(left, right, tree.operator, places)

    def _number(self, tree: Expression) -> Worth:
        """The value of a tree that has to be a number."""
        worth = self.worth(tree)
        if isinstance(worth, Planned):
            message = f"`{typed(tree.span)}` is a plan for shaping, not a number"
            hint = f"ask for a number of it: {', '.join(worth.names)}"
            raise fault(WRONG_DIMENSION, message, tree.span, hint=hint)
        return worth

    def _name(self, name: Name) -> Worth | Planned:
        if name.parts[0] in RESERVED:
            return self.scene.named(name)
        entry = self.solved.get(name.parts[0])
        if entry is None:
            near = nearest(name.parts[0], self.known)
            if near is None and any(measure.key.value == name.dotted for measure in self.scene.source.body):
                near = f"body.{name.dotted}"
            hint = f"did you mean `{near}`?" if near else "add it under `numbers:`"
            if near is None and self.known:
                hint = f"the numbers are {', '.join(self.known)}"
            raise fault(UNKNOWN_NUMBER, f"there is no number `{name.parts[0]}`", name.span, hint=hint)
        worth: Worth | Planned | None = entry.plan or entry.worth
        if worth is None:
            line = entry.formula.span().line
            related = (Related(entry.formula.span(), f"`{entry.name}` is worked out here"),)
            message = f"`{entry.name}` has no value, for the fault in line {line}"
            raise fault(WITHOUT_VALUE, message, name.span, related=related)
        if len(name.parts) == 1:
            # how it was rounded belongs to the number itself, not to those that use it
            return Worth(worth.values, worth.dimension) if isinstance(worth, Worth) else worth
        values = worth.number(".".join(name.parts[1:])) if isinstance(worth, Planned) else None
        if values is None:
            part = ".".join(name.parts[1:])
            if isinstance(worth, Planned):
                if part == "words":
                    message = f"the words of `{entry.name}` stand for themselves in an instruction line"
                    hint = "write `{%s.words}` there, alone; sizes with no change at all need lines of their own"
                    raise fault(WRONG_DIMENSION, message, name.span, hint=hint % entry.name)
                near = nearest(part, worth.names)
                hint = f"did you mean `{name.parts[0]}.{near}`?" if near else f"it has {', '.join(worth.names)}"
                raise fault(UNKNOWN_NUMBER, f"the plan `{entry.name}` has no `{part}`", name.span, hint=hint)
            raise fault(UNKNOWN_NUMBER, f"`{entry.name}` is a number and has no `{part}`", name.span)
        return Worth(values, NUMBER)

    def _by_choice(self, call: Call, option: Option) -> Worth:
        """`neck(crew=8 cm, v=18 cm)`: what a number comes to in each choice of an option."""
        keys = tuple(choice.key for choice in option.choices)
        shown = f"{option.key}({', '.join(f'{key}=…' for key in keys)})"
        given = {argument.keyword: argument for argument in call.keywords}
        wrong = next((argument for argument in call.keywords if argument.keyword not in keys), None)
        if wrong is not None or call.arguments or len(given) != len(keys):
            left = ", ".join(f"`{key}`" for key in keys if key not in given)
            message = f"`{option.key}` is chosen by the knitter, and nothing is said for {left}"
            if wrong is not None or call.arguments:
                message = f"`{option.key}` is chosen by the knitter: its choices are {', '.join(keys)}"
            raise fault(WRONG_ARGUMENT, message, call.span if wrong is None else wrong.span, hint=f"write `{shown}`")
        axes = axes_of(self.scene.sizes)
        worths: list[Worth] = []
        for key in keys:
            value = given[key].value
            if isinstance(value, Word):
                raise fault(WRONG_ARGUMENT, f"`{key}` takes a number, not a word", value.span)
            worths.append(self._number(value))
            if worths[-1].dimension != worths[0].dimension:
                message = f"`{typed(value.span)}` is {worths[-1].dimension.words}, and the others are not"
                raise fault(WRONG_DIMENSION, message, value.span, hint=f"they are {worths[0].dimension.words}")
        flags = [axes.chosen(option.key, key) for key in keys]
        values = tuple(
            next(worth.values[size] for worth, chosen in zip(worths, flags, strict=True) if chosen[size])
            for size in range(axes.count)
        )
        return Worth(values, worths[0].dimension)

    def _call(self, call: Call) -> Worth | Planned:
        option = next((each for each in axes_of(self.scene.sizes).options if each.key == call.function), None)
        if option is not None:
            return self._by_choice(call, option)
        signature = signature_of(call)
        plain = tuple(Given(self._number(argument), argument.span) for argument in call.arguments)
        keyed: list[tuple[str, Given]] = []
        words: list[tuple[str, Word]] = []
        for argument in call.keywords:
            if isinstance(argument.value, Word):
                if argument.keyword not in WORD_KEYWORDS:
                    message = f"`{argument.keyword}` takes a number, not the word `{argument.value.word}`"
                    raise fault(WRONG_ARGUMENT, message, argument.value.span)
                words.append((argument.keyword, argument.value))
            else:
                keyed.append((argument.keyword, Given(self._number(argument.value), argument.value.span)))
        return signature.work(Arguments(call, self.scene, plain, tuple(keyed), tuple(words)))
