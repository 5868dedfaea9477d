"""What becomes of slips: found, harmless, or passed over.

In: a source. Out: a `Tally` for each kind of slip, with those that were passed over. A slip is found when the check of
the changed source has an error. It is harmless only when the fabric is the same row by row in every size and the number
is not one that the pattern tells its reader.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from pathlib import Path

from tests.mutation.slips import KINDS, Kind, Slip, slips

from castoff.pipeline import Proof, prove_text


@dataclass(frozen=True, slots=True)
class Outcome:
    """One slip and what the check made of it. near: an error points at the slip's own section or piece."""

    slip: Slip
    found: bool
    harmless: bool = False
    near: bool = False
    warned: bool = False


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
    def share(self) -> float:
        """Share of the harmful slips that are found."""
        return 1 - len(self.passed_over) / len(self.harmful) if self.harmful else 1.0


def run(path: Path, kinds: tuple[Kind, ...] = KINDS, every: int = 1) -> Iterator[Tally]:
    """A tally for each kind; `every` takes only each nth slip."""
    source = path.read_text("utf-8")
    clean = prove_text(path.name, source)
    assert clean.pattern is not None
    for kind in kinds:
        tally = Tally(kind, path.name)
        for slip in list(slips(clean, (kind,)))[::every]:
            tally.outcomes.append(judge_slip(clean, slip, source))
        yield tally


def judge_slip(clean: Proof, slip: Slip, source: str) -> Outcome:
    """The outcome of one slip."""
    proof = prove_text(clean.name, slip.apply(source))
    known = {(finding.rule.name, finding.message) for finding in clean.findings}
    errors = [f for f in proof.findings if f.severity == "error" and (f.rule.name, f.message) not in known]
    if errors:
        return Outcome(slip, True, near=any(_is_near(slip, f.span.start if f.span else -1, proof) for f in errors))
    warned = any((f.rule.name, f.message) not in known for f in proof.findings)
    harmless = not slip.stated and proof.knitted is not None and proof.knitted == clean.knitted
    return Outcome(slip, False, harmless=harmless, warned=warned)


def _is_near(slip: Slip, start: int, proof: Proof) -> bool:
    line = proof.data.decode().count("\n", 0, slip.start)
    return proof.data.decode().count("\n", 0, max(start, 0)) == line


def report(tallies: Iterable[Tally], show: int = 40) -> str:
    """The shares and the slips that were passed over, as text."""
    lines: list[str] = []
    for tally in tallies:
        found = sum(outcome.found for outcome in tally.outcomes)
        near = sum(outcome.near for outcome in tally.outcomes)
        lines.append(
            f"{tally.name:<32} {tally.kind:<9} {len(tally.harmful):>5} harmful, {found:>5} found "
            f"({100 * tally.share:5.1f} %), {near} at their own line, "
            f"{len(tally.outcomes) - len(tally.harmful)} harmless"
        )
    return "\n".join(lines)


def survivors(tally: Tally, source: str) -> Iterator[str]:
    """The slips that were passed over, each with its line."""
    for outcome in tally.passed_over:
        slip = outcome.slip
        line = source.count("\n", 0, slip.start) + 1
        text = source.split("\n")[line - 1].strip()
        mark = " (warned)" if outcome.warned else ""
        yield f"{tally.name}:{line}: `{slip.before}` -> `{slip.after}`{mark}   {text[:110]}"
