"""Every rule that Castoff knows, in the order of the manual.

In: the rules that each stage declares in its modules. Out: `CHECKS`, the judgements of this stage with what makes them,
and `RULES`, the rules of all stages up to here, the earlier ones first.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import Literal

from castoff.checks import (
    abbreviation_unlisted,
    abbreviation_unused,
    allowance_unused,
    bound_off_on_ws,
    buttonholes_off,
    cap_does_not_fit,
    cast_on_beside_gap,
    caution_needed,
    circular_length_unsuitable,
    conversion_off,
    cuff_too_small,
    ease_changes_sign,
    edge_shaped_twice,
    essential_part_missing,
    evenly_unspaced,
    finished_equals_body,
    first_row_unsaid,
    gauge_incomplete,
    gauge_unused,
    history_behind,
    lace_on_the_wrong_side,
    make_differs,
    marker_unused,
    measurement_contradicted,
    measurement_off,
    measurement_unplaced,
    multiple_off,
    neck_too_small,
    needle_size_unlisted,
    needle_unused,
    needles_unchanged,
    number_unused,
    off_centre,
    pair_begins_on_ws,
    part_missing,
    part_off_body,
    picked_up_from_behind,
    picked_up_off,
    picked_up_the_wrong_way,
    picture_missing,
    picture_undescribed,
    pieces_miscounted,
    placeholder_left,
    prose_instruction,
    reversed_shaping,
    rows_named_twice,
    seam_edges_differ,
    size_brackets_differ,
    size_numbers_shrink,
    size_step_uneven,
    stated_length_off,
    stated_total_missing,
    terms_mixed,
    twin_on_other_side,
    yarn_needs_off,
    yarn_short,
    yarn_unused,
    yarn_weight_off_gauge,
    zero_typed,
)
from castoff.checks.evidence import Evidence
from castoff.diagnostic import Diagnostic, Rule
from castoff.grading import faults as grading_faults
from castoff.knitting import chart, mirrored, mirrored_patterns
from castoff.knitting import faults as knitting_faults
from castoff.model import house, shared
from castoff.model import load as model_load
from castoff.notation import lexer, mirror, unread
from castoff.source import faults as source_faults


@dataclass(frozen=True, slots=True)
class Check:
    """A rule of this stage and the judgement behind it.

    rests_on: "fabric" when it needs fabric that is meant as it was knitted, and has nothing to say of sizes in which an
    error was found on the way; "words" when it needs every line read.
    """

    rule: Rule
    find: Callable[[Evidence], Iterable[Diagnostic]]
    rests_on: Literal["", "fabric", "words"] = ""


CHECKS: tuple[Check, ...] = (
    # what the fabric refutes
    Check(measurement_off.RULE, measurement_off.find),
    Check(measurement_unplaced.RULE, measurement_unplaced.find),
    Check(measurement_contradicted.RULE, measurement_contradicted.find),
    Check(stated_length_off.RULE, stated_length_off.find),
    Check(off_centre.RULE, off_centre.find),
    Check(twin_on_other_side.RULE, twin_on_other_side.find),
    Check(cast_on_beside_gap.RULE, cast_on_beside_gap.find),
    Check(multiple_off.RULE, multiple_off.find),
    Check(pair_begins_on_ws.RULE, pair_begins_on_ws.find),
    Check(bound_off_on_ws.RULE, bound_off_on_ws.find),
    Check(lace_on_the_wrong_side.RULE, lace_on_the_wrong_side.find),
    Check(zero_typed.RULE, zero_typed.find),
    Check(rows_named_twice.RULE, rows_named_twice.find),
    Check(pieces_miscounted.RULE, pieces_miscounted.find),
    Check(make_differs.RULE, make_differs.find),
    Check(edge_shaped_twice.RULE, edge_shaped_twice.find),
    # what does not fit together, or on a body
    Check(cap_does_not_fit.RULE, cap_does_not_fit.find, "fabric"),
    Check(seam_edges_differ.RULE, seam_edges_differ.find, "fabric"),
    Check(neck_too_small.RULE, neck_too_small.find, "fabric"),
    Check(cuff_too_small.RULE, cuff_too_small.find, "fabric"),
    Check(picked_up_off.RULE, picked_up_off.find, "fabric"),
    Check(picked_up_the_wrong_way.RULE, picked_up_the_wrong_way.find, "fabric"),
    Check(picked_up_from_behind.RULE, picked_up_from_behind.find, "fabric"),
    Check(part_off_body.RULE, part_off_body.find),
    # what two printed figures refute
    Check(conversion_off.RULE, conversion_off.find),
    Check(size_brackets_differ.RULE, size_brackets_differ.find),
    Check(size_numbers_shrink.RULE, size_numbers_shrink.find),
    Check(size_step_uneven.RULE, size_step_uneven.find),
    Check(finished_equals_body.RULE, finished_equals_body.find),
    Check(ease_changes_sign.RULE, ease_changes_sign.find),
    # materials
    Check(yarn_short.RULE, yarn_short.find, "fabric"),
    Check(yarn_needs_off.RULE, yarn_needs_off.find, "fabric"),
    Check(yarn_weight_off_gauge.RULE, yarn_weight_off_gauge.find),
    Check(yarn_unused.RULE, yarn_unused.find, "words"),
    Check(needle_unused.RULE, needle_unused.find, "words"),
    Check(needles_unchanged.RULE, needles_unchanged.find, "fabric"),
    Check(needle_size_unlisted.RULE, needle_size_unlisted.find),
    Check(marker_unused.RULE, marker_unused.find, "words"),
    Check(buttonholes_off.RULE, buttonholes_off.find, "fabric"),
    Check(circular_length_unsuitable.RULE, circular_length_unsuitable.find, "fabric"),
    Check(gauge_incomplete.RULE, gauge_incomplete.find),
    Check(gauge_unused.RULE, gauge_unused.find, "words"),
    Check(number_unused.RULE, number_unused.find, "words"),
    # wording
    Check(reversed_shaping.RULE, reversed_shaping.find),
    Check(first_row_unsaid.RULE, first_row_unsaid.find),
    Check(evenly_unspaced.RULE, evenly_unspaced.find, "fabric"),
    Check(stated_total_missing.RULE, stated_total_missing.find, "fabric"),
    Check(prose_instruction.RULE, prose_instruction.find),
    Check(terms_mixed.RULE, terms_mixed.find),
    Check(abbreviation_unlisted.RULE, abbreviation_unlisted.find),
    Check(abbreviation_unused.RULE, abbreviation_unused.find, "words"),
    # completeness
    Check(essential_part_missing.RULE, essential_part_missing.find),
    Check(part_missing.RULE, part_missing.find),
    Check(history_behind.RULE, history_behind.find),
    Check(picture_missing.RULE, picture_missing.find),
    Check(picture_undescribed.RULE, picture_undescribed.find),
    Check(placeholder_left.RULE, placeholder_left.find),
    Check(caution_needed.RULE, caution_needed.find),
)

CHECK_RULES: tuple[Rule, ...] = (*(check.rule for check in CHECKS), allowance_unused.RULE)
"""The rules of this stage; the last is applied when all findings are in."""

RULES: tuple[Rule, ...] = (
    *source_faults.RULES,
    *model_load.RULES,
    *house.RULES,
    *shared.RULES,
    *grading_faults.RULES,
    *lexer.RULES,
    *unread.RULES,
    *mirror.RULES,
    *knitting_faults.RULES,
    *mirrored.RULES,
    *mirrored_patterns.RULES,
    *chart.RULES,
    *CHECK_RULES,
)
"""All rules up to here, in the order of the stages."""
