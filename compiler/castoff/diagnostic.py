"""Findings as values.

A stage returns what it could make together with what it found (`Checked`); exceptions mean a bug of ours. A rule is
declared at the top of the module that reports it; its name says the fault and, once published, is kept.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from textwrap import dedent
from typing import Generic, Literal, TypeVar

from castoff.span import Span

Severity = Literal["error", "warning", "note"]
"""An error stops the build of its pattern, a warning is printed and does not, a note is for the curious."""


@dataclass(frozen=True, slots=True)
class Rule:
    """A kind of fault.

    name: words joined by hyphens, the fault itself ("stitches-left-over").
    severity: what a finding of it does to a build.
    page: the page a reader of `castoff explain` sees; its first line is the summary.
    since: version in which the rule appeared.
    """

    name: str
    severity: Severity
    page: str
    since: str = "0.1.0"

    @property
    def text(self) -> str:
        """The page as it is read: without the indent that it has in the code, and blank lines at its ends."""
        first, _, rest = self.page.strip().partition("\n")
        return f"{first}\n{dedent(rest)}".strip()

    @property
    def summary(self) -> str:
        """The first line of the page."""
        return self.page.strip().split("\n", 1)[0]


@dataclass(frozen=True, slots=True)
class Related:
    """A second place that a finding speaks of: where the other half was said."""

    span: Span
    message: str


@dataclass(frozen=True, slots=True)
class Diagnostic:
    """One finding.

    message: what is wrong with its numbers, in one breath: no capital, no full stop.
    span: where it was typed; None only for faults of a whole file.
    sizes: names of the sizes concerned; empty when it concerns every size, or sizes play no part.
    hint: what to do next, often the very text to type.
    related: other places that bear on it.
    """

    rule: Rule
    message: str
    span: Span | None
    sizes: tuple[str, ...] = ()
    hint: str | None = None
    related: tuple[Related, ...] = ()
    severity: Severity = field(default="error")

    @staticmethod
    def of(
        rule: Rule,
        message: str,
        span: Span | None,
        *,
        sizes: Iterable[str] = (),
        hint: str | None = None,
        related: Iterable[Related] = (),
    ) -> Diagnostic:
        """A finding with the severity of its rule."""
        return Diagnostic(rule, message, span, tuple(sizes), hint, tuple(related), rule.severity)

    @property
    def order(self) -> tuple[str, int, str]:
        """Sort key: file, place, rule."""
        if self.span is None:
            return "", -1, self.rule.name
        return self.span.source.name, self.span.start, self.rule.name


T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class Checked(Generic[T]):
    """What a stage made, and what it found on the way."""

    value: T
    findings: tuple[Diagnostic, ...] = ()

    @property
    def sound(self) -> bool:
        """Whether no finding is an error."""
        return not any(finding.severity == "error" for finding in self.findings)
