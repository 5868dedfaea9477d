"""What the author accepts under `allow:` is kept as accepted, with the reason; what is accepted in vain is told."""

from __future__ import annotations

from tests.checks.tiny_pattern import with_fragment

from castoff.pipeline import prove_text

WRONG_PAIR = "measurements:\n  chest: {label: Chest, is: 44 in / 102 cm}\n"


def test_an_accepted_finding_is_kept_with_its_reason() -> None:
    allow = "allow: [{rule: conversion-off, because: The publisher's figure.}]"
    proof = prove_text("a.yaml", with_fragment(WRONG_PAIR + allow))
    assert proof.findings == ()
    assert [(each.finding.rule.name, each.allowance.because.value) for each in proof.accepted] == [
        ("conversion-off", "The publisher's figure.")
    ]
    assert proof.sound


def test_a_finding_of_another_section_is_not_accepted() -> None:
    allow = "allow: [{rule: prose-instruction, because: Told in the film., where: Edge}]"
    fragment = f"{allow}\n> Work 5 sts in rib.\nWork in st st for 2 rows."
    names = [finding.rule.name for finding in prove_text("a.yaml", with_fragment(fragment)).findings]
    assert names == ["prose-instruction", "allowance-unused"]


def test_a_rule_that_does_not_exist_is_told_with_the_nearest() -> None:
    (finding,) = prove_text("a.yaml", with_fragment("allow: [{rule: convertion-off, because: A slip.}]")).findings
    assert finding.message == "there is no rule `convertion-off`"
    assert finding.hint == "is `conversion-off` meant?"


def test_findings_of_the_needle_are_accepted_too() -> None:
    fragment = "Row 1 (RS): K1, k2tog, k to end. 38 sts.\nRow 2 (WS): Purl. 38 sts."
    before = prove_text("a.yaml", with_fragment(fragment))
    assert {finding.rule.name for finding in before.findings} == {"stated-total-off"}
    after = prove_text("a.yaml", with_fragment("allow: [{rule: stated-total-off, because: Kept.}]\n" + fragment))
    assert after.findings == ()
