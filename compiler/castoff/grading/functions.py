"""The functions of formulas, in the trade's terms.

In: the values of the arguments, with their places. Out: a `Worth` or a plan per size. What a function takes is in
`SIGNATURES`, which messages and the guide are made from.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal, cast

from castoff.grading.faults import SHAPING_IMPOSSIBLE, UNKNOWN_FUNCTION, WRONG_ARGUMENT, WRONG_DIMENSION, fault
from castoff.grading.formula import Call, Word
from castoff.grading.scene import Scene, no_rows
from castoff.grading.shaping import Impossible, curve, evenly, one_wording, slope, spread
from castoff.grading.worth import Plan, Planned, Values, Worth, together, typed
from castoff.model.shape import either, nearest
from castoff.rounding import Parity, Rounded, Way, to_count, to_step
from castoff.span import Span
from castoff.trade.gauge import Gauge
from castoff.units import LENGTH, NUMBER, ROWS, STITCHES, Dimension, in_words


@dataclass(frozen=True, slots=True)
class Given:
    """An argument with its value and its place."""

    worth: Worth
    span: Span


@dataclass(frozen=True, slots=True)
class Arguments:
    """Everything one call is given."""

    call: Call
    scene: Scene
    plain: tuple[Given, ...]
    keyed: tuple[tuple[str, Given], ...]
    words: tuple[tuple[str, Word], ...]

    def keyword(self, name: str) -> Given | None:
        """The value of a keyword argument."""
        return next((given for key, given in self.keyed if key == name), None)

    def word(self, name: str) -> Word | None:
        """The word of a keyword argument."""
        return next((word for key, word in self.words if key == name), None)

    def choice(self, name: str, choices: tuple[str, ...], otherwise: str) -> str:
        """The word of a keyword argument that takes one of a few."""
        word = self.word(name)
        if word is None:
            return otherwise
        if word.word not in choices:
            near = nearest(word.word, choices)
            message = f"`{name}` cannot be `{word.word}`; it is {either(choices)}"
            raise fault(WRONG_ARGUMENT, message, word.span, hint=f"did you mean `{near}`?" if near else None)
        return word.word

    def whole(self, given: Given, what: str, least: int, dimensions: tuple[Dimension, ...]) -> tuple[int | None, ...]:
        """A whole number per size, at least `least`."""
        worth = given.worth
        if worth.dimension not in dimensions:
            wanted = either(tuple(dimension.words for dimension in dimensions)).replace("`", "")
            message = f"{what} is {wanted}, and `{typed(given.span)}` is {worth.dimension.words}"
            raise fault(WRONG_DIMENSION, message, given.span)
        wrong = [
            index
            for index, value in enumerate(worth.values)
            if value is not None and (value.denominator != 1 or value < least)
        ]
        if wrong:
            shown = ", ".join(dict.fromkeys(in_words(worth.values[index] or Fraction(0), NUMBER) for index in wrong))
            message = f"{what} is a whole number from {least} up, and `{typed(given.span)}` is {shown}"
            raise fault(WRONG_ARGUMENT, message, given.span, sizes=self._some(wrong))
        return tuple(None if value is None else int(value) for value in worth.values)

    def optional(self, name: str, otherwise: int, least: int, dimension: Dimension) -> tuple[int | None, ...]:
        """A whole number per size from a keyword argument."""
        given = self.keyword(name)
        if given is None:
            return (otherwise,) * len(self.scene.sizes)
        return self.whole(given, f"`{name}`", least, (NUMBER, dimension))

    def _some(self, indices: list[int]) -> tuple[str, ...]:
        return () if len(indices) == len(self.scene.sizes) else self.scene.size_names(indices)


@dataclass(frozen=True, slots=True)
class Signature:
    """What a function takes.

    shown: how it is written, for messages and the guide. about: what it comes to, a sentence.
    least, most: how many arguments stand without a keyword; most None for any number.
    """

    name: str
    shown: str
    about: str
    least: int
    most: int | None
    keywords: tuple[str, ...]
    work: Callable[[Arguments], Worth | Planned]


def _count_for(arguments: Arguments, dimension: Dimension) -> Worth:
    """stitches() and rows(): a length at a gauge, or a count, to a whole count that fits the repeat."""
    given = arguments.plain[0]
    worth = given.worth
    name = arguments.call.function
    if worth.dimension == LENGTH:
        gauge = arguments.scene.gauge(arguments.word("gauge"), f"{name}()", arguments.call.name_span)
        rate = _rate(gauge, dimension, arguments.call.span)
        exact: Values = tuple(None if value is None else value * rate for value in worth.values)
    elif worth.dimension == dimension:
        exact = worth.values
    else:
        message = f"`{name}()` takes a length, and `{typed(given.span)}` is {worth.dimension.words}"
        hint = None
        if worth.dimension.counted:
            back = "width" if worth.dimension == STITCHES else "length"
            hint = f"`{back}({typed(given.span)}, gauge=…)` makes a length of it"
        elif worth.dimension == NUMBER:
            hint = "give it a unit, such as `cm`"
        raise fault(WRONG_DIMENSION, message, given.span, hint=hint)
    below = [index for index, value in enumerate(exact) if value is not None and value < 0]
    if below:
        amounts = [in_words(worth.values[index] or Fraction(0), worth.dimension) for index in below]
        shown = ", ".join(dict.fromkeys(amounts))
        message = f"`{typed(given.span)}` is below zero: {shown}"
        raise fault(WRONG_ARGUMENT, message, given.span, sizes=arguments.scene.size_names(below))
    way = cast(Way, arguments.choice("to", ("nearest", "up", "down"), "nearest"))
    parity = arguments.choice("parity", ("even", "odd"), "")
    multiples = arguments.optional("multiple_of", 1, 1, dimension)
    pluses = arguments.optional("plus", 0, 0, dimension)
    results: list[Rounded | None] = []
    for value, multiple, plus in zip(exact, multiples, pluses, strict=True):
        if value is None or multiple is None or plus is None:
            results.append(None)
            continue
        rounded = to_count(value, way, multiple, plus, cast("Parity | None", parity or None))
        if rounded is None:
            message = f"no multiple of {multiple} plus {plus} is {parity}"
            raise fault(WRONG_ARGUMENT, message, arguments.call.span, hint="leave out `parity`, or change `plus`")
        results.append(rounded)
    return _rounded(results, exact, dimension)


def _rounded(results: list[Rounded | None], exact: Values, dimension: Dimension) -> Worth:
    values = tuple(None if result is None else result.value for result in results)
    ties = tuple(index for index, result in enumerate(results) if result is not None and result.tie)
    return Worth(values, dimension, exact, ties)


def _rate(gauge: Gauge, dimension: Dimension, place: Span) -> Fraction:
    if dimension == STITCHES:
        return gauge.stitches_per_mm
    if gauge.rows is None:
        raise no_rows(place)
    return gauge.rows_per_mm


def _stitches(arguments: Arguments) -> Worth:
    return _count_for(arguments, STITCHES)


def _rows(arguments: Arguments) -> Worth:
    return _count_for(arguments, ROWS)


def _measure_of(arguments: Arguments, dimension: Dimension) -> Worth:
    """width() and length(): a count at a gauge as a length."""
    given = arguments.plain[0]
    name = arguments.call.function
    if given.worth.dimension not in (dimension, NUMBER):
        message = f"`{name}()` takes {dimension.words}, and `{typed(given.span)}` is {given.worth.dimension.words}"
        hint = None
        if given.worth.dimension.counted:
            hint = f"write `count({typed(given.span)})` if as many {dimension.words} are meant"
        raise fault(WRONG_DIMENSION, message, given.span, hint=hint)
    gauge = arguments.scene.gauge(arguments.word("gauge"), f"{name}()", arguments.call.name_span)
    rate = _rate(gauge, dimension, arguments.call.span)
    return Worth(tuple(None if value is None else value / rate for value in given.worth.values), LENGTH)


def _width(arguments: Arguments) -> Worth:
    return _measure_of(arguments, STITCHES)


def _length(arguments: Arguments) -> Worth:
    return _measure_of(arguments, ROWS)


def _to_step(arguments: Arguments) -> Worth:
    """nearest(), up() and down(): to a multiple of a step, of 1 when none is given."""
    given = arguments.plain[0]
    worth = given.worth
    way = cast(Way, arguments.call.function)
    if len(arguments.plain) == 2:
        step = arguments.plain[1]
        together(worth, step.worth, "rounded to", (given.span, step.span))
        steps = step.worth.values
    elif worth.dimension in (NUMBER,) or worth.dimension.counted:
        steps = (Fraction(1),) * len(worth.values)
    else:
        message = f"`{way}()` needs a step for {worth.dimension.words}"
        hint = f"write `{way}({typed(given.span)}, 0.5 cm)`" if worth.dimension == LENGTH else None
        raise fault(WRONG_ARGUMENT, message, arguments.call.span, hint=hint)
    results: list[Rounded | None] = []
    for value, each in zip(worth.values, steps, strict=True):
        if value is None or each is None:
            results.append(None)
        elif each <= 0:
            raise fault(WRONG_ARGUMENT, "the step should be above zero", arguments.plain[1].span)
        else:
            results.append(to_step(value, each, way))
    return _rounded(results, worth.values, worth.dimension)


def _extreme(arguments: Arguments) -> Worth:
    """min() and max(), size by size."""
    choose: Callable[[list[Fraction]], Fraction] = min if arguments.call.function == "min" else max
    first = arguments.plain[0]
    dimension = first.worth.dimension
    for given in arguments.plain[1:]:
        so_far = Worth(first.worth.values, dimension)
        dimension = together(so_far, given.worth, "compared with", (first.span, given.span))
    values = [
        None if any(value is None for value in column) else choose([value for value in column if value is not None])
        for column in zip(*(given.worth.values for given in arguments.plain), strict=True)
    ]
    return Worth(tuple(values), dimension)


def _bare(arguments: Arguments) -> Worth:
    """count(): a count as a bare number."""
    given = arguments.plain[0]
    if not (given.worth.dimension.counted or given.worth.dimension == NUMBER):
        message = f"`count()` takes stitches, rows or balls, and `{typed(given.span)}` is {given.worth.dimension.words}"
        raise fault(WRONG_DIMENSION, message, given.span)
    return Worth(given.worth.values, NUMBER)


def _need(arguments: Arguments, name: str) -> Given:
    given = arguments.keyword(name)
    if given is None:
        shown = SIGNATURES[arguments.call.function].shown
        raise fault(WRONG_ARGUMENT, f"`{name}=` is missing", arguments.call.span, hint=f"write `{shown}`")
    return given


def _plans(
    arguments: Arguments,
    numbers: tuple[tuple[int | None, ...], ...],
    plan: Callable[[int, int], Plan],
) -> Planned:
    """A plan for every size; all the sizes it is impossible in are told at once."""
    plans: list[Plan | None] = []
    failed: list[tuple[int, Impossible]] = []
    for index, (one, other) in enumerate(zip(*numbers, strict=True)):
        if one is None or other is None:
            plans.append(None)
            continue
        try:
            plans.append(plan(one, other))
        except Impossible as impossible:
            failed.append((index, impossible))
    if failed:
        names = arguments.scene.size_names(index for index, _ in failed)
        first = failed[0][1]
        raise fault(SHAPING_IMPOSSIBLE, str(first), arguments.call.span, sizes=names, hint=first.hint)
    return Planned(tuple(plans))


def _shaped(arguments: Arguments) -> tuple[int | None, ...]:
    """How many rows are shaped: as given, or, with `ends=both`, half as many as the stitches given."""
    given = arguments.plain[0]
    times = arguments.whole(given, "the number of shaping rows", 0, (NUMBER, STITCHES, ROWS))
    if arguments.choice("ends", ("one", "both"), "one") == "one":
        return times
    odd = [index for index, each in enumerate(times) if each is not None and each % 2]
    if odd:
        shown = ", ".join(dict.fromkeys(str(times[index]) for index in odd))
        message = f"`{typed(given.span)}` is {shown}, which two edges cannot share evenly"
        hint = "make both counts even or both odd, with `parity=` where they are worked out"
        raise fault(WRONG_ARGUMENT, message, given.span, sizes=arguments.scene.size_names(odd), hint=hint)
    return tuple(None if each is None else each // 2 for each in times)


def _spread(arguments: Arguments) -> Planned:
    times = _shaped(arguments)
    over = arguments.whole(_need(arguments, "over"), "`over`", 0, (NUMBER, ROWS))
    unit = 2 if arguments.choice("on", ("RS", "any"), "any") == "RS" else 1
    first = cast(Literal["shorter", "longer"], arguments.choice("first", ("shorter", "longer"), "shorter"))
    single = arguments.choice("rates", ("one", "two"), "two") == "one"
    smooth = _plans(
        arguments, (times, over), lambda one, other: spread(one, other, unit=unit, first=first, single=single)
    )
    if single or arguments.choice("wording", ("same", "smoothest"), "smoothest") == "smoothest":
        return smooth
    asked = [None if one is None or other is None else (one, other) for one, other in zip(times, over, strict=True)]
    same = one_wording(asked, unit=unit, first=first)
    return Planned(same.plans, same.cost)


def _evenly(arguments: Arguments) -> Planned:
    changes = arguments.whole(arguments.plain[0], "the number of changes", 0, (NUMBER, STITCHES))
    across = arguments.whole(_need(arguments, "across"), "`across`", 0, (NUMBER, STITCHES))
    worked = cast(Literal["flat", "round"], arguments.choice("worked", ("flat", "round"), "flat"))
    uses = arguments.optional("uses", 1, 1, STITCHES)[0] or 1
    return _plans(arguments, (changes, across), lambda one, other: evenly(one, other, worked=worked, uses=uses))


def _steps(arguments: Arguments) -> Planned:
    stitches = arguments.whole(arguments.plain[0], "the number of stitches", 0, (NUMBER, STITCHES))
    over = arguments.whole(_need(arguments, "over"), "`over`", 1, (NUMBER, ROWS))
    first = cast(Literal["larger", "smaller"], arguments.choice("first", ("larger", "smaller"), "larger"))
    return _plans(arguments, (stitches, over), lambda one, other: slope(one, other, first=first))


def _curve(arguments: Arguments) -> Planned:
    stitches = arguments.whole(arguments.plain[0], "the number of stitches", 0, (NUMBER, STITCHES))
    over = arguments.whole(_need(arguments, "over"), "`over`", 2, (NUMBER, ROWS))
    return _plans(arguments, (stitches, over), lambda one, other: curve(one, other // 2))


_FIT = ("gauge", "multiple_of", "plus", "to", "parity")
SIGNATURES: dict[str, Signature] = {
    signature.name: signature
    for signature in (
        Signature(
            "stitches", "stitches(length, gauge=stockinette, multiple_of=4, plus=2, to=nearest, parity=even)",
            "Stitches to a width, as a whole count that fits the repeat.", 1, 1, _FIT, _stitches,
        ),
        Signature(
            "rows", "rows(length, gauge=stockinette, multiple_of=4, plus=2, to=nearest, parity=even)",
            "Rows or rounds to a length, as a whole count that fits the repeat.", 1, 1, _FIT, _rows,
        ),
        Signature("width", "width(stitches, gauge=stockinette)", "How wide stitches are.", 1, 1, ("gauge",), _width),
        Signature("length", "length(rows, gauge=stockinette)", "How long rows are.", 1, 1, ("gauge",), _length),
        Signature("nearest", "nearest(x, step)", "To the nearest step; a tie goes up.", 1, 2, (), _to_step),
        Signature("up", "up(x, step)", "Up to a step.", 1, 2, (), _to_step),
        Signature("down", "down(x, step)", "Down to a step.", 1, 2, (), _to_step),
        Signature("min", "min(x, y, …)", "The least, size by size.", 1, None, (), _extreme),
        Signature("max", "max(x, y, …)", "The greatest, size by size.", 1, None, (), _extreme),
        Signature("count", "count(stitches)", "A count as a bare number.", 1, 1, (), _bare),
        Signature(
            "spread", "spread(times, over=rows, on=RS, ends=both, first=shorter, rates=two, wording=same)",
            "Shaping rows spread over rows: a plan with `every`, `times`, `then_every`, `then_times` and `rest`.",
            1, 1, ("over", "on", "ends", "first", "rates", "wording"), _spread,
        ),
        Signature(
            "evenly", "evenly(changes, across=stitches, worked=flat, uses=1)",
            "Changes spaced across a row: a plan with `before`, `each`, `count`, `then_each`, `then_count`, `after`.",
            1, 1, ("across", "worked", "uses"), _evenly,
        ),
        Signature(
            "steps", "steps(stitches, over=times, first=larger)",
            "Stitches bound off in steps: a plan with `each`, `times`, `then_each` and `then_times`.",
            1, 1, ("over", "first"), _steps,
        ),
        Signature(
            "curve", "curve(stitches, over=rows)",
            "Stitches bound off along a curve: a plan with `first`, `fours`, `threes`, `twos`, `ones` and `rest`.",
            1, 1, ("over",), _curve,
        ),
    )
}  # fmt: skip


def signature_of(call: Call) -> Signature:
    """The function a formula calls, its arguments counted and its keywords known."""
    signature = SIGNATURES.get(call.function)
    if signature is None:
        names = tuple(SIGNATURES)
        near = nearest(call.function, names)
        hint = f"did you mean `{near}`?" if near else f"the functions are {', '.join(names)}"
        raise fault(UNKNOWN_FUNCTION, f"there is no function `{call.function}`", call.name_span, hint=hint)
    number = len(call.arguments)
    if number < signature.least or (signature.most is not None and number > signature.most):
        message = f"`{call.function}()` is given {number or 'no'} {'value' if number == 1 else 'values'}"
        raise fault(WRONG_ARGUMENT, message, call.span, hint=f"write `{signature.shown}`")
    seen: list[str] = []
    for argument in call.keywords:
        if argument.keyword in seen:
            raise fault(WRONG_ARGUMENT, f"`{argument.keyword}=` stands twice", argument.span)
        seen.append(argument.keyword)
        if argument.keyword not in signature.keywords:
            near = nearest(argument.keyword, signature.keywords)
            hint = f"did you mean `{near}=`?" if near else f"write `{signature.shown}`"
            message = f"`{call.function}()` takes no `{argument.keyword}=`"
            raise fault(WRONG_ARGUMENT, message, argument.span, hint=hint)
    return signature
