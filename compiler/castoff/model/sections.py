"""The sections of a pattern: the instructions with what they are worked in.

In: nodes of the source, the `Reader`, and what they may name. Out: sections in their order; what a section does not say is
as in the piece's section before.
"""

from __future__ import annotations

from castoff.diagnostic import Diagnostic, Related, Rule
from castoff.model import values
from castoff.model.fields import Reader, entries_of, items_of, key_of, text_of, whole_text_of
from castoff.model.pattern import Instead, Needle, Said, Section, StatedGauge, Yarn
from castoff.per_size import SizeNames
from castoff.source.node import Entry, Node, Scalar
from castoff.span import Text

NO_WORK = Rule(
    "section-without-work",
    "error",
    """A section says neither what to work nor which section it mirrors.

Fires:
    sections:
      - title: Brim
Silent:
    sections:
      - title: Brim
        work: |
          Knit 1 row.
""",
)
SAME_TITLE = Rule(
    "sections-of-one-title",
    "error",
    """Two sections of the same piece have the same title.

Lines and findings refer to a section by its title, and so do knitters.

Fires:
    sections:
      - {title: Brim, piece: Cap, work: "> Soon."}
      - {title: Brim, piece: Cap, work: "> Soon."}
Silent:
    sections:
      - {title: Brim, piece: Cap, work: "> Soon."}
      - {title: Crown, piece: Cap, work: "> Soon."}
""",
)


def sections_of(
    reader: Reader,
    nodes: tuple[Node, ...],
    gauges: tuple[StatedGauge, ...],
    needles: tuple[Needle, ...],
    yarns: tuple[Yarn, ...],
) -> tuple[Section, ...]:
    """All sections, with the names that they use looked up."""
    only_gauge = gauges[0].key if len(gauges) == 1 else None
    only_needles = needles[0].key if len(needles) == 1 else None
    only_yarn = yarns[0].key if len(yarns) == 1 else None
    latest: dict[str, Section] = {}
    titles: dict[tuple[str, str], Text] = {}
    sections: list[Section] = []
    for node in nodes:
        title = text_of(node, "title")
        if title is None:
            continue
        piece = text_of(node, "piece") or title
        before = latest.get(piece.value)
        form = reader.form(node)
        work = whole_text_of(node, "work")
        mirrors = text_of(node, "mirrors")
        if mirrors is not None and before is None:
            # the other side is worked as the first is
            before = next((each for each in sections if each.title.value == mirrors.value), None)
            form = form or (before.worked if before is not None else None)
        if work is None and mirrors is None and key_of(node, "work") is None:
            message = f"section `{title.value}` has neither `work` nor `mirrors`"
            reader.findings.append(Diagnostic.of(NO_WORK, message, title.span(), hint="add `work: |` and the lines"))
        twin = titles.get((piece.value, title.value))
        if twin is not None:
            message = f"piece `{piece.value}` has two sections `{title.value}`"
            related = (Related(twin.span(), "the first is here"),)
            reader.findings.append(Diagnostic.of(SAME_TITLE, message, title.span(), related=related))
        titles.setdefault((piece.value, title.value), title)
        section = Section(
            title=title,
            piece=piece,
            worked=form or (Said(before.worked.value) if before else Said("flat")),
            gauge=text_of(node, "gauge") or (before.gauge if before else only_gauge),
            needles=text_of(node, "needles") or (before.needles if before else only_needles),
            yarn=text_of(node, "yarn") or (before.yarn if before else only_yarn),
            make=reader.whole(node, "make") or Said(1),
            mirrors=mirrors,
            begins=text_of(node, "begins"),
            notes=whole_text_of(node, "notes"),
            work=work,
            instead=tuple(filter(None, map(_instead, items_of(key_of(node, "instead"))))),
            option=_option(reader, entries_of(key_of(node, "option"))),
        )
        reader.known(text_of(node, "gauge"), "gauge", tuple(gauge.key.value for gauge in gauges))
        reader.known(text_of(node, "needles"), "needles", tuple(needle.key.value for needle in needles))
        reader.known(text_of(node, "yarn"), "yarn", tuple(yarn.key.value for yarn in yarns))
        reader.known(mirrors, "section", tuple(each.title.value for each in sections))
        latest[piece.value] = section
        sections.append(section)
    return tuple(sections)


def _instead(node: Node) -> Instead | None:
    of, work = text_of(node, "of"), whole_text_of(node, "work")
    return None if of is None or work is None else Instead(of, work)


def _option(reader: Reader, entries: tuple[Entry, ...]) -> tuple[tuple[Text, Text], ...]:
    """The choices a section belongs to, those that the source has."""
    known = {option.key: option for option in reader.sizes.axes.options} if isinstance(reader.sizes, SizeNames) else {}
    found: list[tuple[Text, Text]] = []
    for entry in entries:
        if not isinstance(entry.value, Scalar) or entry.value.blank:
            continue
        choice = values.trimmed(entry.value.text)
        option = known.get(entry.key.value)
        if option is None:
            reader.known(entry.key, "option", tuple(known))
            continue
        keys = tuple(each.key for each in option.choices)
        reader.known(choice, f"choice of `{option.key}`", keys)
        if choice.value in keys:
            found.append((entry.key, choice))
    return tuple(found)
