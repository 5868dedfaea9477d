"""The pass: a plan in, every size knitted.

In: `Plan`. Out: `Checked[Knitted]`, with one finding for each fault over all the sizes it hits.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import replace
from fractions import Fraction

from castoff.diagnostic import Checked
from castoff.knitting.answering import mind_answers
from castoff.knitting.columns import check_columns
from castoff.knitting.fabric import Knitted, NeedleUse, PieceKnitted, SectionKnitted, SizeKnitted
from castoff.knitting.faults import STILL_HELD, STILL_LIVE, Fault, fault
from castoff.knitting.merging import merged
from castoff.knitting.outline import Outline, edges_of
from castoff.knitting.pieces import mind_pairs
from castoff.knitting.plan import Plan, PlanSection
from castoff.knitting.row_order import in_row_order
from castoff.knitting.sections import work_ahead, work_section
from castoff.knitting.short_rows import mind_turned
from castoff.knitting.slope import Records
from castoff.knitting.state import PieceState, Shared, SizeState


def knit(plan: Plan, only: Collection[int] | None = None) -> Checked[Knitted]:
    """Knits every size of a pattern, or only those of some indices.

    Reports the rules in `faults.RULES`; a fault that hits several sizes is one finding with the numbers of each.
    """
    plan = replace(plan, sections=tuple(replace(each, lines=in_row_order(each.lines)) for each in plan.sections))
    shared = Shared(plan)
    found: list[tuple[int, Fault]] = []
    sizes: list[SizeKnitted] = []
    for size in range(len(plan.sizes)):
        if only is not None and size not in only:
            continue
        state = SizeState(shared, size, work_ahead=work_ahead)
        sections: list[SectionKnitted | None] = []
        for at, section in enumerate(plan.sections):
            state.following = [plan.sections[at + 1 :]]
            sections.append(_section(state, section))
        mind_answers(state)
        if not plan.excerpt:
            _mind_the_end(state)
        else:
            for piece in state.pieces.values():
                state.piece = piece
                mind_turned(state, piece.short_row, "the end")
        found.extend((size, each) for each in state.faults)
        sizes.append(_frozen(state, [section for section in sections if section is not None]))
    if only is None and not any(each.rule.severity == "error" for _, each in found):
        found.extend(mind_pairs(sizes))
    return Checked(Knitted(tuple(sizes)), merged(found, plan.sizes))


def _section(state: SizeState, section: PlanSection) -> SectionKnitted:
    if section.sizes is not None and not section.sizes[state.size]:
        # what belongs to a choice that this size has not made
        return SectionKnitted(section.title, section.piece, Records(), (), 0, 0, Fraction(0))
    before = {name: (len(piece.records), len(piece.events), len(piece.stopped)) for name, piece in state.pieces.items()}
    work_section(state, section)
    piece = state.piece
    records, events, halts = before.get(piece.name, (0, 0, 0))
    check_columns(state, records)
    return SectionKnitted(
        section.title,
        section.piece,
        piece.records[records:],
        tuple(piece.events[events:]),
        piece.needle.stitches,
        piece.rows,
        piece.length,
        tuple(piece.stopped[halts:]),
    )


def _mind_the_end(state: SizeState) -> None:
    """Nothing may be live or held when the last line has been worked."""
    for piece in state.pieces.values():
        if piece.needle.stitches and not piece.doubt:
            state.piece = piece
            last = next((record.span for record in reversed(piece.records) if record.span is not None), None)
            cast = next((event.span for event in reversed(piece.events) if event.span is not None), None)
            state.report(
                fault(
                    STILL_LIVE,
                    last or cast,
                    "{piece} ends with {have} sts on the needle",
                    hint="bind them off, put them on hold or draw the yarn through",
                    piece=piece.name,
                    have=piece.needle.stitches,
                )
            )
    for group in state.holders:
        owner = state.pieces.get(group.piece)
        if owner is not None and owner.doubt:
            continue
        state.piece = owner or state.piece
        what = "were left unworked" if group.left else "were put on hold"
        state.report(
            fault(
                STILL_HELD, group.span, "{have} sts {what} and nobody takes them back", have=group.stitches, what=what
            )
        )


def _pitches(state: SizeState) -> Mapping[str | None, tuple[Fraction, Fraction]]:
    pitches: dict[str | None, tuple[Fraction, Fraction]] = {}
    for key in state.plan.gauges:
        pitch = state.plan.pitch(key)
        if pitch is not None:
            pitches[key] = pitch
    return pitches


def _frozen(state: SizeState, sections: Sequence[SectionKnitted]) -> SizeKnitted:
    pitches = _pitches(state)
    return SizeKnitted(
        tuple(sections),
        {name: _piece(piece, pitches) for name, piece in state.pieces.items()},
        dict(state.loops),
        {key: NeedleUse(*use) for key, use in state.needle_use.items()},
        tuple(state.holders),
        tuple(state.trusted),
    )


def _piece(piece: PieceState, pitches: Mapping[str | None, tuple[Fraction, Fraction]]) -> PieceKnitted:
    longest = max((record.length_mm for record in piece.records.folded()), default=piece.length)
    return PieceKnitted(
        piece.name,
        piece.make,
        piece.records,
        tuple(piece.events),
        Outline(piece.records, pitches),
        edges_of(piece, pitches),
        max((record.last_row for record in piece.records.folded()), default=0),
        longest,
        piece.needle.stitches,
        dict(piece.landmarks),
        pitches,
        piece.cast_on,
        piece.unsure or piece.doubt,
    )
