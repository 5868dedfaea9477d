"""The node tree to a typed pattern.

In: the root `Mapping` of a source. Out: a `Pattern`, with every fault of shape and value found on the way. Whatever
can be read is read: a pattern with a wrong gauge still has its sections, so that one run reports all. None comes back
only when there is no title, no size or no section to go on with.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from fractions import Fraction
from typing import TypeVar, cast

from castoff.diagnostic import Checked, Diagnostic, Related, Rule
from castoff.model import shape, values
from castoff.model.pattern import (
    Allowance,
    Amount,
    Amounts,
    Audience,
    BodyMeasure,
    Change,
    Form,
    Instead,
    Measurement,
    Needle,
    NeedleType,
    Number,
    OwnStitch,
    Pattern,
    Picture,
    PutUp,
    Said,
    Section,
    Sizes,
    Skill,
    StatedGauge,
    StitchPattern,
    Swatch,
    Terms,
    TypedAbbreviation,
    Yarn,
)  # fmt: skip
from castoff.model.schema import LANGUAGE
from castoff.numeral import Dimension
from castoff.per_size import Axes, Choice, Option, SizeNames
from castoff.source.node import Entry, Mapping, Node, Scalar, Sequence
from castoff.span import Text
from castoff.trade.materials import NeedleReading

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
UNKNOWN_NAME = Rule(
    "unknown-name",
    "error",
    """A gauge, yarn, needle, size or section is named that the source does not have.

Fires:
    sections:
      - title: Brim
        gauge: ribb
        work: |
          Knit 1 row.
Silent:
    sections:
      - title: Brim
        work: |
          Knit 1 row.
""",
)
UNKNOWN_NEEDLE_SIZE = Rule(
    "needle-size-unknown",
    "error",
    """A needle size is not one that is made, or two sizes are given that are not the same.

Fires:
    needles:
      larger: {size: US 99}
Silent:
    needles:
      larger: {size: 5 mm}
""",
)
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

RULES = (
    *shape.RULES, *values.RULES, UNKNOWN_LANGUAGE, UNKNOWN_NAME, UNKNOWN_NEEDLE_SIZE, NO_WORK, SAME_TITLE,
)  # fmt: skip

_UNDER = {"yarn": "yarns", "section": "sections", "option": "options"}
"""Keys of the source that names of a kind stand under, where the two differ."""

T = TypeVar("T")
NeedleReader = Callable[[str], NeedleReading]


def load(root: Mapping, read_needle: NeedleReader | None = None) -> Checked[Pattern | None]:
    """The pattern that a source's node tree says.

    read_needle: looks up a needle size that is not in plain millimetres ("US 8"); without it such sizes stay unknown.
    """
    loader = _Loader(list(shape.misfits(root)), read_needle)
    pattern = loader.pattern(root)
    loader.findings.sort(key=lambda finding: finding.order)
    return Checked(pattern, tuple(loader.findings))


def _key(node: Node | None, key: str) -> Node | None:
    return node.get(key) if isinstance(node, Mapping) else None


def _entries(node: Node | None) -> tuple[Entry, ...]:
    return node.entries if isinstance(node, Mapping) else ()


def _items(node: Node | None) -> tuple[Node, ...]:
    return node.items if isinstance(node, Sequence) else ()


def _text(node: Node | None, key: str) -> Text | None:
    """The text under a key, without white space at its ends; None when there is none."""
    found = _key(node, key)
    return values.trimmed(found.text) if isinstance(found, Scalar) and not found.blank else None


def _whole_text(node: Node | None, key: str) -> Text | None:
    """The text under a key as it was typed, with the indents of its lines."""
    found = _key(node, key)
    return found.text if isinstance(found, Scalar) and not found.blank else None


@dataclass(slots=True)
class _Loader:
    """Reads the parts of a source, gathering what is wrong with them."""

    findings: list[Diagnostic]
    read_needle: NeedleReader | None
    sizes: tuple[str, ...] = field(default=("One size",))

    # ------------------------------------------------------------------------------------------ single values

    def _take(self, read: T | Diagnostic) -> T | None:
        if isinstance(read, Diagnostic):
            self.findings.append(read)
            return None
        return read

    def _whole(self, node: Node | None, key: str, least: int = 1) -> Said[int] | None:
        text = _text(node, key)
        return None if text is None else self._take(values.whole(text, least))

    def _number(self, node: Node | None, key: str) -> Said[Fraction] | None:
        text = _text(node, key)
        return None if text is None else self._take(values.number(text))

    def _amount(self, node: Node | None, key: str, dimension: Dimension) -> Amount | None:
        text = _text(node, key)
        return None if text is None else self._take(values.amount(text, dimension))

    def _word(self, node: Node | None, key: str, choices: tuple[str, ...]) -> Said[str] | None:
        text = _text(node, key)
        return None if text is None or text.value not in choices else Said(text.value, text.span())

    def _form(self, node: Node | None) -> Said[Form] | None:
        said = self._word(node, "worked", ("flat", "in the round"))
        return None if said is None else Said("flat" if said.value == "flat" else "round", said.span)

    def _flag(self, node: Node | None, key: str) -> bool:
        text = _text(node, key)
        return text is not None and text.value in ("true", "yes")

    # ------------------------------------------------------------------------------------------ the whole

    def pattern(self, root: Mapping) -> Pattern | None:
        """The pattern; None when it has no title, sizes or sections."""
        written_for = self._whole(root, "written_for")
        if written_for is not None and written_for.value != LANGUAGE:
            message = f"the source is written for version {written_for.value}; this compiler reads version {LANGUAGE}"
            hint = f"write `written_for: {LANGUAGE}`"
            self.findings.append(Diagnostic.of(UNKNOWN_LANGUAGE, message, written_for.span, hint=hint))
        sizes = self._sizes(root.get("sizes"), root.get("options"))
        title = _text(root, "title")
        date = _text(root, "date")
        inch = self._number(root, "inch")
        gauges = tuple(filter(None, map(self._gauge, _entries(root.get("gauge")))))
        yarns = tuple(filter(None, map(self._yarn, _entries(root.get("yarns")))))
        needles = tuple(filter(None, map(self._needle, _entries(root.get("needles")))))
        sections = self._sections(_items(root.get("sections")), gauges, needles, yarns)
        audience = self._word(root, "audience", ("baby", "child", "adult"))
        terms = self._word(root, "terms", ("US", "UK"))
        margin = _text(root, "margin")
        swatches = tuple(filter(None, map(self._swatch, _entries(root.get("swatch")))))
        for gauge in gauges:
            self._known(gauge.needles, "needles", tuple(entry.key.value for entry in _entries(root.get("needles"))))
        for swatch in swatches:
            self._known(swatch.key, "gauge", tuple(entry.key.value for entry in _entries(root.get("gauge"))))
        pictures = tuple(filter(None, map(self._picture, _items(root.get("pictures")))))
        titles = tuple(section.title.value for section in sections)
        for picture in pictures:
            self._known(picture.place, "place", ("front", "end", *titles))
        allow = tuple(filter(None, map(self._allowance, _items(root.get("allow")))))
        for allowance in allow:
            self._known(allowance.where, "section", titles)
        pattern_parts = {
            "version": _text(root, "version"), "designer": _text(root, "designer"), "studio": _text(root, "studio"),
            "summary": _text(root, "summary"), "notes": _whole_text(root, "notes"), "care": _whole_text(root, "care"),
            "help": _whole_text(root, "help"), "terms_of_use": _whole_text(root, "terms_of_use"),
        }  # fmt: skip
        dated = None if date is None else self._take(values.day(date))
        marginal = None if margin is None else self._take(values.share(margin))
        stitch_patterns = tuple(filter(None, map(self._stitch_pattern, _entries(root.get("stitch_patterns")))))
        stitches = tuple(filter(None, map(self._stitch, _entries(root.get("stitches")))))
        for pattern in stitch_patterns:
            self._known(pattern.mirror, "stitch pattern", tuple(each.key.value for each in stitch_patterns))
        measurements = tuple(filter(None, map(self._measurement, _entries(root.get("measurements")))))
        history = tuple(filter(None, map(self._change, _items(root.get("history")))))
        tested = self._tested(_text(root, "tested"))
        if title is None or sizes is None or not sections:
            return None
        return Pattern(
            span=root.span,
            written_for=written_for or Said(LANGUAGE),
            title=title,
            sizes=sizes,
            date=dated,
            invented=self._flag(root, "invented"),
            audience=Said("adult") if audience is None else cast(Said[Audience], audience),
            skill=cast("Said[Skill] | None", self._word(root, "skill", ("basic", "easy", "intermediate", "complex"))),
            terms=Said("US") if terms is None else cast(Said[Terms], terms),
            inch=None if inch is None else Said(inch.value * 10, inch.span),
            gauges=gauges,
            swatches=swatches,
            yarns=yarns,
            needles=needles,
            notions=self._texts(root.get("notions")),
            numbers=tuple(
                Number(entry.key, values.trimmed(entry.value.text))
                for entry in _entries(root.get("numbers"))
                if isinstance(entry.value, Scalar) and not entry.value.blank
            ),
            stitch_patterns=stitch_patterns,
            stitches=stitches,
            abbreviations=tuple(
                TypedAbbreviation(entry.key, values.trimmed(entry.value.text))
                for entry in _entries(root.get("abbreviations"))
                if isinstance(entry.value, Scalar) and not entry.value.blank
            ),
            sections=sections,
            measurements=measurements,
            pictures=pictures,
            cautions=self._texts(root.get("cautions")),
            history=history,
            allow=allow,
            tested=tested,
            margin=marginal,
            excerpt=self._flag(root, "excerpt"),
            **pattern_parts,
        )

    def _texts(self, node: Node | None) -> tuple[Text, ...]:
        return tuple(values.trimmed(item.text) for item in _items(node) if isinstance(item, Scalar) and not item.blank)

    def _known(self, name: Text | None, what: str, known: tuple[str, ...]) -> None:
        """Reports a name that the source does not have."""
        if name is None or name.value in known:
            return
        near = shape.nearest(name.value, known)
        hint = f"did you mean `{near}`?" if near else f"add it under `{_UNDER.get(what, what)}`"
        if near is None and known:
            hint = f"the source has {', '.join(f'`{each}`' for each in known)}"
        self.findings.append(Diagnostic.of(UNKNOWN_NAME, f"there is no {what} `{name.value}`", name.span(), hint=hint))

    # ------------------------------------------------------------------------------------------ sizes

    def _options(self, node: Node | None) -> tuple[Option, ...]:
        options: list[Option] = []
        for entry in _entries(node):
            choices = tuple(
                Choice(choice.key.value, values.trimmed(choice.value.text).value)
                for choice in _entries(entry.value)
                if isinstance(choice.value, Scalar) and not choice.value.blank
            )
            if choices:
                options.append(Option(entry.key.value, choices))
        return tuple(options)

    def _sizes(self, node: Node | None, options: Node | None) -> Sizes | None:
        text = _text(node, "names")
        names = None if text is None else self._take(values.name_list(text))
        if node is None or names is None:
            return None
        second = _key(node, "second")
        second_text = _text(second, "names")
        others_named = None if second_text is None else self._take(values.name_list(second_text))
        axes = Axes(
            tuple(name.value for name in names.names),
            called.value if (called := _text(second, "name")) is not None else "",
            () if others_named is None else tuple(name.value for name in others_named.names),
            self._options(options),
        )
        self.sizes = SizeNames.of(axes)
        standard_sizes: tuple[Text, ...] = ()
        others = _text(node, "standard_sizes")
        if others is not None:
            listed = self._take(values.name_list(others))
            if listed is not None and len(listed.names) != len(axes.first):
                self.findings.append(values.list_fault(others, 0, len(listed.names), axes.first))
            elif listed is not None:
                standard_sizes = listed.names
        standard = _text(node, "standard")
        if standard is not None and not standard_sizes:
            standard_sizes = names.names
        body: list[BodyMeasure] = []
        for entry in _entries(_key(node, "body")):
            if isinstance(entry.value, Scalar) and not entry.value.blank:
                read = self._take(values.amounts(entry.value.text, self.sizes, "length"))
                if read is not None:
                    body.append(BodyMeasure(entry.key, read))
        every = axes.spread(names.names)
        if not axes.plain:
            every = tuple(
                Text(label, name.source, ((0, name.offset(0)),)) for label, name in zip(self.sizes, every, strict=True)
            )
        return Sizes(
            every, node.span, names.opener, names.grouping, standard,
            axes.spread(standard_sizes) if standard_sizes else (), tuple(body), axes,
        )  # fmt: skip

    def _tested(self, text: Text | None) -> tuple[Text, ...]:
        if text is None:
            return ()
        names: list[Text] = []
        at = 0
        for piece in text.value.split(","):
            name = values.trimmed(text.part(at, at + len(piece)))
            at += len(piece) + 1
            first = self.sizes.axes.first if isinstance(self.sizes, SizeNames) else ()
            self._known(name, "size", tuple(dict.fromkeys((*first, *self.sizes))))
            names.append(name)
        return tuple(names)

    # ------------------------------------------------------------------------------------------ materials

    def _gauge(self, entry: Entry) -> StatedGauge | None:
        node = entry.value
        stitches = self._number(node, "stitches")
        rows = self._number(node, "rows")
        over = self._amount(node, "over", "length")
        if stitches is None or over is None:
            return None
        stretch = _text(node, "stretch")
        return StatedGauge(
            entry.key, stitches, rows, over, self._form(node), _text(node, "needles"), _text(node, "fabric"),
            _text(node, "note"), self._number(node, "yarn_factor"),
            None if stretch is None else self._take(values.share(stretch)),
        )  # fmt: skip

    def _swatch(self, entry: Entry) -> Swatch | None:
        width = self._amount(entry.value, "width", "length")
        height = self._amount(entry.value, "height", "length")
        mass = self._amount(entry.value, "mass", "mass")
        if width is None or height is None or mass is None:
            return None
        return Swatch(entry.key, width, height, mass)

    def _yarn(self, entry: Entry) -> Yarn | None:
        node = entry.value
        if not isinstance(node, Mapping):
            return None
        ball = _text(node, "ball")
        put_up: PutUp | None = None if ball is None else self._take(values.put_up(ball))
        needs = _text(node, "needs")
        amounts: Amounts | None = None
        balls: tuple[Fraction | None, ...] | None = None
        if needs is not None and values.says_balls(needs):
            balls = self._take(values.counts(needs, self.sizes))
        elif needs is not None:
            mass = any(word in needs.value.split() for word in ("g", "kg", "oz", "grams"))
            amounts = self._take(values.amounts(needs, self.sizes, "mass" if mass else "length"))
        return Yarn(
            entry.key, _text(node, "name"), _text(node, "colour"), _text(node, "weight"), _text(node, "fibre"), put_up,
            amounts, balls, self._whole(node, "held") or Said(1), _text(node, "note"),
        )  # fmt: skip

    def _needle(self, entry: Entry) -> Needle | None:
        node = entry.value
        size = _text(node, "size")
        length = self._amount(node, "length", "length")
        kind = self._word(node, "type", ("straight", "circular", "double-pointed", "cable"))
        if size is None:
            return None
        return Needle(
            entry.key, size, self._diameter(size), cast("Said[NeedleType] | None", kind), length, _text(node, "note")
        )

    def _diameter(self, size: Text) -> Fraction | None:
        """A needle's millimetres: as typed, or by the table of sizes."""
        plain = values.amount(size, "length")
        if isinstance(plain, Amount) and plain.unit == "mm" and plain.twin is None:
            return plain.value
        if self.read_needle is None:
            return None
        reading = self.read_needle(size.value)
        if reading.fault:
            self.findings.append(
                Diagnostic.of(UNKNOWN_NEEDLE_SIZE, reading.fault, size.span(), hint=reading.hint or None)
            )
        return None if reading.needle is None else reading.needle.mm

    # ------------------------------------------------------------------------------------------ stitches

    def _stitch_pattern(self, entry: Entry) -> StitchPattern | None:
        node = entry.value
        multiple = self._whole(node, "multiple")
        plus = self._whole(node, "plus", 0)
        rows = _whole_text(node, "rows")
        if multiple is None or rows is None:
            return None
        mirror = _text(node, "mirror")
        return StitchPattern(
            entry.key, multiple, plus or Said(0), rows, self._form(node), _text(node, "note"), mirror,
            self._flag(node, "chart"),
        )  # fmt: skip

    def _stitch(self, entry: Entry) -> OwnStitch | None:
        node = entry.value
        takes = self._whole(node, "takes", 0)
        makes = self._whole(node, "makes", 0)
        words = _text(node, "words")
        if takes is None or makes is None or words is None:
            return None
        return OwnStitch(
            entry.key, takes, makes, words, _text(node, "how"), _text(node, "symbol"), _text(node, "mirror")
        )

    # ------------------------------------------------------------------------------------------ sections

    def _sections(
        self,
        nodes: tuple[Node, ...],
        gauges: tuple[StatedGauge, ...],
        needles: tuple[Needle, ...],
        yarns: tuple[Yarn, ...],
    ) -> tuple[Section, ...]:
        only_gauge = gauges[0].key if len(gauges) == 1 else None
        only_needles = needles[0].key if len(needles) == 1 else None
        only_yarn = yarns[0].key if len(yarns) == 1 else None
        latest: dict[str, Section] = {}
        titles: dict[tuple[str, str], Text] = {}
        sections: list[Section] = []
        for node in nodes:
            title = _text(node, "title")
            if title is None:
                continue
            piece = _text(node, "piece") or title
            before = latest.get(piece.value)
            form = self._form(node)
            work = _whole_text(node, "work")
            mirrors = _text(node, "mirrors")
            if mirrors is not None and before is None:
                # the other side is worked as the first is
                before = next((each for each in sections if each.title.value == mirrors.value), None)
                form = form or (before.worked if before is not None else None)
            if work is None and mirrors is None and _key(node, "work") is None:
                message = f"section `{title.value}` has neither `work` nor `mirrors`"
                self.findings.append(Diagnostic.of(NO_WORK, message, title.span(), hint="add `work: |` and the lines"))
            twin = titles.get((piece.value, title.value))
            if twin is not None:
                message = f"piece `{piece.value}` has two sections `{title.value}`"
                related = (Related(twin.span(), "the first is here"),)
                self.findings.append(Diagnostic.of(SAME_TITLE, message, title.span(), related=related))
            titles.setdefault((piece.value, title.value), title)
            section = Section(
                title=title,
                piece=piece,
                worked=form or (Said(before.worked.value) if before else Said("flat")),
                gauge=_text(node, "gauge") or (before.gauge if before else only_gauge),
                needles=_text(node, "needles") or (before.needles if before else only_needles),
                yarn=_text(node, "yarn") or (before.yarn if before else only_yarn),
                make=self._whole(node, "make") or Said(1),
                mirrors=mirrors,
                begins=_text(node, "begins"),
                notes=_whole_text(node, "notes"),
                work=work,
                instead=tuple(filter(None, map(self._instead, _items(_key(node, "instead"))))),
                option=self._option(_entries(_key(node, "option"))),
            )
            self._known(_text(node, "gauge"), "gauge", tuple(gauge.key.value for gauge in gauges))
            self._known(_text(node, "needles"), "needles", tuple(needle.key.value for needle in needles))
            self._known(_text(node, "yarn"), "yarn", tuple(yarn.key.value for yarn in yarns))
            self._known(mirrors, "section", tuple(each.title.value for each in sections))
            latest[piece.value] = section
            sections.append(section)
        return tuple(sections)

    def _instead(self, node: Node) -> Instead | None:
        of, work = _text(node, "of"), _whole_text(node, "work")
        return None if of is None or work is None else Instead(of, work)

    def _option(self, entries: tuple[Entry, ...]) -> tuple[tuple[Text, Text], ...]:
        """The choices a section belongs to, those that the source has."""
        known = {option.key: option for option in self.sizes.axes.options} if isinstance(self.sizes, SizeNames) else {}
        found: list[tuple[Text, Text]] = []
        for entry in entries:
            if not isinstance(entry.value, Scalar) or entry.value.blank:
                continue
            choice = values.trimmed(entry.value.text)
            option = known.get(entry.key.value)
            if option is None:
                self._known(entry.key, "option", tuple(known))
                continue
            keys = tuple(each.key for each in option.choices)
            self._known(choice, f"choice of `{option.key}`", keys)
            if choice.value in keys:
                found.append((entry.key, choice))
        return tuple(found)

    # ------------------------------------------------------------------------------------------ the rest

    def _measurement(self, entry: Entry) -> Measurement | None:
        label = _text(entry.value, "label")
        expression = _text(entry.value, "is")
        if label is None or expression is None:
            return None
        return Measurement(entry.key, label, expression, _text(entry.value, "of"), _text(entry.value, "note"))

    def _picture(self, node: Node) -> Picture | None:
        file, alt, credit = _text(node, "file"), _text(node, "alt"), _text(node, "credit")
        if file is None or alt is None or credit is None:
            return None
        return Picture(file, alt, credit, _text(node, "place"), _text(node, "caption"))

    def _change(self, node: Node) -> Change | None:
        version, date, change = _text(node, "version"), _text(node, "date"), _text(node, "change")
        dated = None if date is None else self._take(values.day(date))
        if version is None or dated is None or change is None:
            return None
        return Change(version, dated, change)

    def _allowance(self, node: Node) -> Allowance | None:
        rule, because = _text(node, "rule"), _text(node, "because")
        if rule is None or because is None:
            return None
        return Allowance(rule, because, _text(node, "where"))
