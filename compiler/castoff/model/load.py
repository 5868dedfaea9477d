"""The node tree to a typed pattern.

In: the root `Mapping` of a source. Out: a `Pattern`, with every fault of shape and value found on the way. Whatever
can be read is read: a pattern with a wrong gauge still has its sections, so that one run reports all. None comes back
only when there is no title, no size or no section to go on with.
"""

from __future__ import annotations

from functools import partial
from typing import cast

from castoff.diagnostic import Checked, Diagnostic, Rule
from castoff.model import materials, shape, values
from castoff.model.fields import (
    UNKNOWN_NAME,
    NeedleReader,
    Reader,
    entries_of,
    items_of,
    key_of,
    text_of,
    whole_text_of,
)
from castoff.model.materials import UNKNOWN_NEEDLE_SIZE
from castoff.model.pattern import (
    Allowance,
    Audience,
    BodyMeasure,
    Change,
    Measurement,
    Number,
    OwnStitch,
    Pattern,
    Picture,
    Said,
    Sizes,
    Skill,
    StitchPattern,
    Terms,
    TypedAbbreviation,
)  # fmt: skip
from castoff.model.schema import LANGUAGE
from castoff.model.sections import NO_WORK, SAME_TITLE, sections_of
from castoff.per_size import Axes, Choice, Option, SizeNames
from castoff.source.node import Entry, Mapping, Node, Scalar
from castoff.span import Text

UNKNOWN_LANGUAGE = Rule(
    "unknown-language-version",
    "error",
    """A source is written for another version of the source language.

`written_for` keeps a pattern meaning what it meant when it was written, whatever the compiler learns later.

Fires:
    written_for: 99
Silent:
    written_for: 1
""",
)
RULES = (
    *shape.RULES, *values.RULES, UNKNOWN_LANGUAGE, UNKNOWN_NAME, UNKNOWN_NEEDLE_SIZE, NO_WORK, SAME_TITLE,
)  # fmt: skip


def load(root: Mapping, read_needle: NeedleReader | None = None) -> Checked[Pattern | None]:
    """The pattern that a source's node tree says.

    read_needle: looks up a needle size that is not in plain millimetres ("US 8"); without it such sizes stay unknown.
    """
    reader = Reader(list(shape.misfits(root)), read_needle)
    pattern = _pattern(reader, root)
    reader.findings.sort(key=lambda finding: finding.order)
    return Checked(pattern, tuple(reader.findings))


def _pattern(reader: Reader, root: Mapping) -> Pattern | None:
    """The pattern; None when it has no title, sizes or sections."""
    written_for = reader.whole(root, "written_for")
    if written_for is not None and written_for.value != LANGUAGE:
        message = f"the source is written for version {written_for.value}; this compiler reads version {LANGUAGE}"
        hint = f"write `written_for: {LANGUAGE}`"
        reader.findings.append(Diagnostic.of(UNKNOWN_LANGUAGE, message, written_for.span, hint=hint))
    sizes = _sizes(reader, root.get("sizes"), root.get("options"))
    title = text_of(root, "title")
    date = text_of(root, "date")
    inch = reader.number(root, "inch")
    gauges = tuple(filter(None, map(partial(materials.gauge, reader), entries_of(root.get("gauge")))))
    yarns = tuple(filter(None, map(partial(materials.yarn, reader), entries_of(root.get("yarns")))))
    needles = tuple(filter(None, map(partial(materials.needle, reader), entries_of(root.get("needles")))))
    sections = sections_of(reader, items_of(root.get("sections")), gauges, needles, yarns)
    audience = reader.word(root, "audience", ("baby", "child", "adult"))
    terms = reader.word(root, "terms", ("US", "UK"))
    margin = text_of(root, "margin")
    swatches = tuple(filter(None, map(partial(materials.swatch, reader), entries_of(root.get("swatch")))))
    for gauge in gauges:
        reader.known(gauge.needles, "needles", tuple(entry.key.value for entry in entries_of(root.get("needles"))))
    for swatch in swatches:
        reader.known(swatch.key, "gauge", tuple(entry.key.value for entry in entries_of(root.get("gauge"))))
    pictures = tuple(filter(None, map(_picture, items_of(root.get("pictures")))))
    titles = tuple(section.title.value for section in sections)
    for picture in pictures:
        reader.known(picture.place, "place", ("front", "end", *titles))
    allow = tuple(filter(None, map(_allowance, items_of(root.get("allow")))))
    for allowance in allow:
        reader.known(allowance.where, "section", titles)
    pattern_parts = {
        "version": text_of(root, "version"), "designer": text_of(root, "designer"), "studio": text_of(root, "studio"),
        "summary": text_of(root, "summary"), "notes": whole_text_of(root, "notes"), "care": whole_text_of(root, "care"),
        "help": whole_text_of(root, "help"), "terms_of_use": whole_text_of(root, "terms_of_use"),
    }  # fmt: skip
    dated = None if date is None else reader.take(values.day(date))
    marginal = None if margin is None else reader.take(values.share(margin))
    stitch_patterns = tuple(
        filter(None, map(partial(_stitch_pattern, reader), entries_of(root.get("stitch_patterns"))))
    )
    stitches = tuple(filter(None, map(partial(_stitch, reader), entries_of(root.get("stitches")))))
    for pattern in stitch_patterns:
        reader.known(pattern.mirror, "stitch pattern", tuple(each.key.value for each in stitch_patterns))
    measurements = tuple(filter(None, map(_measurement, entries_of(root.get("measurements")))))
    history = tuple(filter(None, map(partial(_change, reader), items_of(root.get("history")))))
    tested = _tested(reader, text_of(root, "tested"))
    if title is None or sizes is None or not sections:
        return None
    return Pattern(
        span=root.span,
        written_for=written_for or Said(LANGUAGE),
        title=title,
        sizes=sizes,
        date=dated,
        invented=reader.flag(root, "invented"),
        audience=Said("adult") if audience is None else cast(Said[Audience], audience),
        skill=cast("Said[Skill] | None", reader.word(root, "skill", ("basic", "easy", "intermediate", "complex"))),
        terms=Said("US") if terms is None else cast(Said[Terms], terms),
        inch=None if inch is None else Said(inch.value * 10, inch.span),
        gauges=gauges,
        swatches=swatches,
        yarns=yarns,
        needles=needles,
        notions=reader.texts(root.get("notions")),
        numbers=tuple(
            Number(entry.key, values.trimmed(entry.value.text))
            for entry in entries_of(root.get("numbers"))
            if isinstance(entry.value, Scalar) and not entry.value.blank
        ),
        stitch_patterns=stitch_patterns,
        stitches=stitches,
        abbreviations=tuple(
            TypedAbbreviation(entry.key, values.trimmed(entry.value.text))
            for entry in entries_of(root.get("abbreviations"))
            if isinstance(entry.value, Scalar) and not entry.value.blank
        ),
        sections=sections,
        measurements=measurements,
        pictures=pictures,
        cautions=reader.texts(root.get("cautions")),
        history=history,
        allow=allow,
        tested=tested,
        margin=marginal,
        excerpt=reader.flag(root, "excerpt"),
        **pattern_parts,
    )


def _options(node: Node | None) -> tuple[Option, ...]:
    options: list[Option] = []
    for entry in entries_of(node):
        choices = tuple(
            Choice(choice.key.value, values.trimmed(choice.value.text).value)
            for choice in entries_of(entry.value)
            if isinstance(choice.value, Scalar) and not choice.value.blank
        )
        if choices:
            options.append(Option(entry.key.value, choices))
    return tuple(options)


def _sizes(reader: Reader, node: Node | None, options: Node | None) -> Sizes | None:
    text = text_of(node, "names")
    names = None if text is None else reader.take(values.name_list(text))
    if node is None or names is None:
        return None
    second = key_of(node, "second")
    second_text = text_of(second, "names")
    others_named = None if second_text is None else reader.take(values.name_list(second_text))
    axes = Axes(
        tuple(name.value for name in names.names),
        called.value if (called := text_of(second, "name")) is not None else "",
        () if others_named is None else tuple(name.value for name in others_named.names),
        _options(options),
    )
    reader.sizes = SizeNames.of(axes)
    standard_sizes: tuple[Text, ...] = ()
    others = text_of(node, "standard_sizes")
    if others is not None:
        listed = reader.take(values.name_list(others))
        if listed is not None and len(listed.names) != len(axes.first):
            reader.findings.append(values.list_fault(others, 0, len(listed.names), axes.first))
        elif listed is not None:
            standard_sizes = listed.names
    standard = text_of(node, "standard")
    if standard is not None and not standard_sizes:
        standard_sizes = names.names
    body: list[BodyMeasure] = []
    for entry in entries_of(key_of(node, "body")):
        if isinstance(entry.value, Scalar) and not entry.value.blank:
            read = reader.take(values.amounts(entry.value.text, reader.sizes, "length"))
            if read is not None:
                body.append(BodyMeasure(entry.key, read))
    every = axes.spread(names.names)
    if not axes.plain:
        every = tuple(
            Text(label, name.source, ((0, name.offset(0)),)) for label, name in zip(reader.sizes, every, strict=True)
        )
    return Sizes(
        every, node.span, names.opener, names.grouping, standard,
        axes.spread(standard_sizes) if standard_sizes else (), tuple(body), axes,
    )  # fmt: skip


def _tested(reader: Reader, text: Text | None) -> tuple[Text, ...]:
    if text is None:
        return ()
    names: list[Text] = []
    at = 0
    for piece in text.value.split(","):
        name = values.trimmed(text.part(at, at + len(piece)))
        at += len(piece) + 1
        first = reader.sizes.axes.first if isinstance(reader.sizes, SizeNames) else ()
        reader.known(name, "size", tuple(dict.fromkeys((*first, *reader.sizes))))
        names.append(name)
    return tuple(names)


def _stitch_pattern(reader: Reader, entry: Entry) -> StitchPattern | None:
    node = entry.value
    multiple = reader.whole(node, "multiple")
    plus = reader.whole(node, "plus", 0)
    rows = whole_text_of(node, "rows")
    if multiple is None or rows is None:
        return None
    mirror = text_of(node, "mirror")
    return StitchPattern(
        entry.key, multiple, plus or Said(0), rows, reader.form(node), text_of(node, "note"), mirror,
        reader.flag(node, "chart"), reader.flag(node, "centred"), reader.whole(node, "every"),
    )  # fmt: skip


def _stitch(reader: Reader, entry: Entry) -> OwnStitch | None:
    node = entry.value
    takes = reader.whole(node, "takes", 0)
    makes = reader.whole(node, "makes", 0)
    words = text_of(node, "words")
    if takes is None or makes is None or words is None:
        return None
    return OwnStitch(
        entry.key, takes, makes, words, text_of(node, "how"), text_of(node, "symbol"), text_of(node, "mirror")
    )


def _measurement(entry: Entry) -> Measurement | None:
    label = text_of(entry.value, "label")
    expression = text_of(entry.value, "is")
    if label is None or expression is None:
        return None
    return Measurement(entry.key, label, expression, text_of(entry.value, "of"), text_of(entry.value, "note"))


def _picture(node: Node) -> Picture | None:
    file, alt, credit = text_of(node, "file"), text_of(node, "alt"), text_of(node, "credit")
    if file is None or alt is None or credit is None:
        return None
    return Picture(file, alt, credit, text_of(node, "place"), text_of(node, "caption"))


def _change(reader: Reader, node: Node) -> Change | None:
    version, date, change = text_of(node, "version"), text_of(node, "date"), text_of(node, "change")
    dated = None if date is None else reader.take(values.day(date))
    if version is None or dated is None or change is None:
        return None
    return Change(version, dated, change)


def _allowance(node: Node) -> Allowance | None:
    rule, because = text_of(node, "rule"), text_of(node, "because")
    if rule is None or because is None:
        return None
    return Allowance(rule, because, text_of(node, "where"))
