"""The judgement of a finished pattern, and what its author accepts of it.

In: the `Evidence` of one pattern, and the findings of every stage. Out: `judge` gives this stage's findings; `settle`
parts the findings of all stages into open ones and accepted ones, by the `allow:` entries of the source.
"""

from __future__ import annotations

import difflib
from collections.abc import Iterable
from dataclasses import dataclass

from castoff.checks.allowance_unused import RULE as ALLOWANCE_UNUSED
from castoff.checks.evidence import Evidence
from castoff.checks.registry import CHECKS
from castoff.diagnostic import Diagnostic
from castoff.model.pattern import Allowance, Pattern


@dataclass(frozen=True, slots=True)
class Accepted:
    """A finding that the author accepts, with the entry that says why."""

    finding: Diagnostic
    allowance: Allowance


@dataclass(frozen=True, slots=True)
class Verdict:
    """All findings on a pattern, in the order of their places. open: not accepted by the author."""

    open: tuple[Diagnostic, ...]
    accepted: tuple[Accepted, ...]

    @property
    def sound(self) -> bool:
        """Whether no open finding is an error."""
        return not any(finding.severity == "error" for finding in self.open)


def judge(evidence: Evidence) -> tuple[Diagnostic, ...]:
    """Every finding of this stage, in the order of their places."""
    unsure = frozenset(name for size, name in enumerate(evidence.sizes) if evidence.unsure(size))
    found = [
        finding
        for check in CHECKS
        if not (check.rests_on == "words" and evidence.unread)
        for finding in check.find(evidence)
        if not (check.rests_on == "fabric" and unsure.issuperset(finding.sizes or evidence.sizes))
    ]
    return tuple(sorted(found, key=lambda finding: finding.order))


def settle(findings: Iterable[Diagnostic], pattern: Pattern, rules: Iterable[str] = ()) -> Verdict:
    """The findings of all stages, parted by the `allow:` entries of the source.

    rules: the names of all rules there are, for near misses. An entry that accepts nothing is a finding itself.
    """
    still_open: list[Diagnostic] = []
    accepted: list[Accepted] = []
    used: set[int] = set()
    for finding in findings:
        at = next((i for i, entry in enumerate(pattern.allow) if _accepts(entry, finding, pattern)), None)
        if at is None:
            still_open.append(finding)
        else:
            used.add(at)
            accepted.append(Accepted(finding, pattern.allow[at]))
    known = tuple(rules)
    for index, entry in enumerate(pattern.allow):
        if index not in used:
            still_open.append(_unused(entry, known))
    return Verdict(tuple(sorted(still_open, key=lambda finding: finding.order)), tuple(accepted))


def _accepts(entry: Allowance, finding: Diagnostic, pattern: Pattern) -> bool:
    if entry.rule.value != finding.rule.name:
        return False
    if entry.where is None:
        return True
    section = pattern.section(entry.where.value)
    texts = () if section is None else (section.title, section.work, section.notes, section.begins, section.mirrors)
    return finding.span is not None and any(
        text is not None
        and text.source is finding.span.source
        and text.span().start <= finding.span.start < max(text.span().end, text.span().start + 1)
        for text in texts
    )


def _unused(entry: Allowance, known: tuple[str, ...]) -> Diagnostic:
    name = entry.rule.value
    if known and name not in known:
        near = difflib.get_close_matches(name, known, 1)
        return Diagnostic.of(
            ALLOWANCE_UNUSED,
            f"there is no rule `{name}`",
            entry.rule.span(),
            hint=f"is `{near[0]}` meant?" if near else "`castoff explain` lists them",
        )
    where = f" in `{entry.where.value}`" if entry.where is not None else ""
    return Diagnostic.of(
        ALLOWANCE_UNUSED,
        f"nothing is found by `{name}`{where}",
        entry.rule.span(),
        hint="take the entry out",
    )
