"""What becomes of slips: found, harmless, or passed over.

In: a source. Out: a `Tally` for each kind of slip, with those that were passed over. A slip is found when the check of
the changed source has an error, and reported when it has at least a warning. It is harmless only when the fabric is the
same row by row in every size and the number is not one that the pattern tells its reader.

Most slips are found by the one line that they change, in the first size in which it says something else. So that line is
read again by itself and that size knitted first; only slips that get through go through the whole check.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field, replace
from pathlib import Path

from tests.mutation.slips import KINDS, Kind, Slip, slips

from castoff.diagnostic import Diagnostic
from castoff.knitting.fabric import Done, Knitted, RowRecord, Worked
from castoff.knitting.faults import STILL_HELD, STILL_LIVE
from castoff.knitting.knit import knit
from castoff.knitting.state import Shared
from castoff.notation.lines import parse_line
from castoff.notation.syntax import InstructionLine, Line
from castoff.notation.vocabulary import Vocabulary
from castoff.pipeline import Proof, make_vocabulary, prove_text
from castoff.span import Text

_LATER = (STILL_LIVE, STILL_HELD)
"""Rules that the pipeline may leave out for an excerpt: they are no reason to stop early."""


@dataclass(frozen=True, slots=True)
class Outcome:
    """One slip and what the check made of it. near: an error points at the slip's own section or piece. errors: how many
    there are; 1 where only the line was looked at. told: the errors of a slip that gives several."""

    slip: Slip
    found: bool
    harmless: bool = False
    near: bool = False
    warned: bool = False
    errors: int = 1
    told: tuple[Diagnostic, ...] = ()


@dataclass(slots=True)
class Tally:
    """Slips of one kind in one source."""

    kind: Kind
    name: str
    outcomes: list[Outcome] = field(default_factory=list)

    @property
    def harmful(self) -> list[Outcome]:
        """Slips that change what is knitted or told."""
        return [outcome for outcome in self.outcomes if not outcome.harmless]

    @property
    def passed_over(self) -> list[Outcome]:
        """Harmful slips without an error."""
        return [outcome for outcome in self.harmful if not outcome.found]

    @property
    def silent(self) -> list[Outcome]:
        """Harmful slips without an error or a warning."""
        return [outcome for outcome in self.passed_over if not outcome.warned]

    @property
    def share(self) -> float:
        """Share of the harmful slips that are found."""
        return 1 - len(self.passed_over) / len(self.harmful) if self.harmful else 1.0


@dataclass(frozen=True, slots=True)
class Bench:
    """A clean source, ready to have slips put into it."""

    source: str
    clean: Proof
    words: Vocabulary
    known: frozenset[tuple[str, str]]

    @staticmethod
    def of(path: Path) -> Bench:
        """The bench of a source file."""
        return Bench.of_text(path.name, path.read_text("utf-8"))

    @staticmethod
    def of_text(name: str, source: str) -> Bench:
        """The bench of a source that lies in no file."""
        clean = prove_text(name, source)
        assert clean.pattern is not None and clean.numbers is not None and clean.trade is not None
        words = make_vocabulary(clean.pattern, clean.numbers, clean.trade)
        known = frozenset((finding.rule.name, finding.message) for finding in clean.findings)
        return Bench(source, clean, words, known)


def run(path: Path, kinds: tuple[Kind, ...] = KINDS, every: int = 1, *, count: bool = False) -> Iterator[Tally]:
    """A tally for each kind; `every` takes only each nth slip. count: every error is counted, by the whole check."""
    bench = Bench.of(path)
    for kind in kinds:
        tally = Tally(kind, path.name)
        for slip in list(slips(bench.clean, (kind,)))[::every]:
            tally.outcomes.append(judge_slip(bench, slip, count=count))
        yield tally


def judge_slip(bench: Bench, slip: Slip, *, count: bool = False) -> Outcome:
    """The outcome of one slip. count: by the whole check, which counts its errors."""
    near = None if count else _found_at_its_line(bench, slip)
    if near is not None:
        return Outcome(slip, True, near=near)
    proof = prove_text(bench.clean.name, slip.apply(bench.source))
    new = [each for each in proof.findings if (each.rule.name, each.message) not in bench.known]
    errors = [each for each in new if each.severity == "error"]
    if errors:
        near = any(_is_near(slip, each.span.start if each.span else -1, proof) for each in errors)
        return Outcome(slip, True, near=near, errors=len(errors), told=tuple(errors) if len(errors) > 1 else ())
    warned = any(each.severity == "warning" for each in new)
    harmless = not slip.stated and _same_fabric(proof.knitted, bench.clean.knitted)
    return Outcome(slip, False, harmless=harmless, warned=warned)


def _same_fabric(one: Knitted | None, other: Knitted | None) -> bool:
    """Whether two fabrics are the same row by row in every size, however their repeats were told."""
    if one is None or other is None:
        return False
    return one == other or _unrolled(one) == _unrolled(other)


def _unrolled(knitted: Knitted) -> list[object]:
    """Everything about every size, with the stitches of every row written out one behind the other."""
    return [
        (
            replace(
                size,
                sections=tuple(replace(section, records=()) for section in size.sections),  # type: ignore[arg-type]
                pieces={name: replace(piece, records=(), outline=()) for name, piece in size.pieces.items()},  # type: ignore[arg-type]
            ),
            [[_written_out(record) for record in section.records] for section in size.sections],
            [[_written_out(record) for record in piece.records] for piece in size.pieces.values()],
            [tuple(piece.outline) for piece in size.pieces.values()],
        )
        for size in knitted.sizes
    ]


def _written_out(record: RowRecord) -> tuple[RowRecord, list[tuple[str, str]]]:
    return replace(record, worked=()), list(_stitches(record.worked))


def _stitches(worked: Iterable[Worked]) -> Iterator[tuple[str, str]]:
    for each in worked:
        if isinstance(each, Done):
            yield from [(each.stitch, each.yarn)] * each.count
        else:
            yield from list(_stitches(each.body)) * each.times


def _found_at_its_line(bench: Bench, slip: Slip) -> bool | None:
    """Whether an error points at the line itself, when the needle alone finds the slip; None when it does not."""
    clean = bench.clean
    plan = clean.plan
    if slip.section is None or plan is None:
        return None
    lines = clean.lines[slip.section]
    at = next((at for at, line in enumerate(lines) if line.span.start <= slip.start < line.span.end), None)
    if at is None or plan.sections[slip.section].lines != lines or clean.data.decode() != bench.source:
        return None
    line = lines[at]
    typed = bench.source[line.span.start : line.span.end]
    if not isinstance(line, InstructionLine) or typed != line.text.value or "{" in typed:
        return None
    within = slip.start - line.span.start
    changed = typed[:within] + slip.after + typed[slip.end - line.span.start :]
    read = parse_line(Text.plain(changed, "the line"), bench.words, line.sizes)
    if any(finding.severity == "error" for finding in read.findings):
        return True
    section = replace(plan.sections[slip.section], lines=(*lines[:at], read.value, *lines[at + 1 :]))
    sections = (*plan.sections[: slip.section], section, *plan.sections[slip.section + 1 :])
    new_plan = replace(plan, sections=sections)
    for size in _sizes_changed(line, read.value, new_plan.sizes, Shared(new_plan)):
        errors = [each for each in knit(new_plan, (size,)).findings if _counts(each, bench)]
        if errors:
            return any(each.span is not None and each.span.source.name == "the line" for each in errors)
    return None


def _counts(finding: Diagnostic, bench: Bench) -> bool:
    new = (finding.rule.name, finding.message) not in bench.known
    return new and finding.severity == "error" and finding.rule not in _LATER


def _sizes_changed(old: InstructionLine, new: Line, sizes: tuple[str, ...], shared: Shared) -> list[int]:
    """The sizes for which a line says something else."""
    if not isinstance(new, InstructionLine):
        return []
    worked = [size for size in range(len(sizes)) if old.sizes[size]]
    steps_old, steps_new = (old.steps,), (new.steps,)
    changed = [
        size
        for size in worked
        if shared.numbers_of(steps_old, size) != shared.numbers_of(steps_new, size)  # type: ignore[arg-type]
    ]
    return changed or worked[:1]


def _is_near(slip: Slip, start: int, proof: Proof) -> bool:
    line = proof.data.decode().count("\n", 0, slip.start)
    return proof.data.decode().count("\n", 0, max(start, 0)) == line


def report(tallies: Iterable[Tally]) -> str:
    """The shares as text."""
    lines: list[str] = []
    for tally in tallies:
        found = sum(outcome.found for outcome in tally.outcomes)
        near = sum(outcome.near for outcome in tally.outcomes)
        warned = len(tally.passed_over) - len(tally.silent)
        lines.append(
            f"{tally.name:<32} {tally.kind:<9} {len(tally.harmful):>5} harmful, {found:>5} found "
            f"({100 * tally.share:5.1f} %), {warned} more warned of, {near} at their own line, "
            f"{len(tally.outcomes) - len(tally.harmful)} harmless"
        )
    return "\n".join(lines)


def spread(tallies: Iterable[Tally]) -> str:
    """How many errors one slip gives, of those that are found."""
    numbers = [outcome.errors for tally in tallies for outcome in tally.harmful if outcome.found]
    if not numbers:
        return "no slip was found"
    shares = ", ".join(
        f"{100 * numbers.count(number) / len(numbers):.1f} % give {number}" for number in sorted(set(numbers))
    )
    return f"errors of one slip: {shares}; mean {sum(numbers) / len(numbers):.3f}, most {max(numbers)}"


def several(tally: Tally, source: str) -> Iterator[str]:
    """The slips that gave more than one error, each with the errors."""
    for outcome in tally.outcomes:
        if outcome.told:
            slip = outcome.slip
            line = source.count("\n", 0, slip.start) + 1
            yield f"{tally.name}:{line}: `{slip.before}` -> `{slip.after}` gives {outcome.errors} errors"
            for found in outcome.told:
                place = found.span.line if found.span is not None else 0
                yield f"    {place}: {found.rule.name}: {found.message}"


def survivors(tally: Tally, source: str) -> Iterator[str]:
    """The slips that were passed over, each with its line."""
    for outcome in tally.passed_over:
        slip = outcome.slip
        line = source.count("\n", 0, slip.start) + 1
        text = source.split("\n")[line - 1].strip()
        mark = " (warned)" if outcome.warned else ""
        yield f"{tally.name}:{line}: `{slip.before}` -> `{slip.after}`{mark}   {text[:110]}"
