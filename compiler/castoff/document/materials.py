"""Materials: yarn, needles, notions and gauge, found from what the instructions use.

In: the job. Out: facts for the front page and the section of materials. Yarn is told by category and by the names of
the regions, with its put-up, so that another yarn can be found; needles in millimetres, US and old UK sizes; notions
are those that the rows need (markers, holders, a cable needle, a tapestry needle) and those that the author lists.
"""

from __future__ import annotations

from collections.abc import Iterator

from castoff.document.job import Job
from castoff.document.notions import notions
from castoff.document.tree import (
    Block,
    Blocks,
    BulletList,
    Fact,
    FactList,
    Heading,
    Inline,
    Inlines,
    Paragraph,
    Text,
    plain_text,
)
from castoff.document.wording import decimal, measure, mixed, system_of
from castoff.document.yarn import yarn_amounts
from castoff.model.pattern import Needle, StatedGauge, Yarn
from castoff.trade.gauge import FOUR_INCHES, INCH_MM, TEN_CM
from castoff.trade.materials import YarnRegion, YarnWeight


def materials(job: Job) -> Blocks:
    """The section of materials, gauge behind it; nothing for a pattern that says nothing of either."""
    facts: list[Fact] = []
    yarns = tuple(yarn_says(job, yarn) for yarn in job.pattern.yarns)
    if yarns:
        term = (Text(job.say("materials", "yarn", count=len(yarns))),)
        facts.append(Fact(term, tuple(line for says in yarns for line in says)))
    needles = tuple(needle_says(job, needle) for needle in job.pattern.needles)
    if needles:
        facts.append(Fact((Text(job.say("materials", "needles")),), (*needles, *_obtain_gauge(job))))
    found = notions(job)
    if found:
        facts.append(Fact((Text(job.say("materials", "notions")),), tuple(found)))
    blocks: list[Block] = []
    if facts:
        blocks += [Heading(2, (Text(job.say("headings", "materials")),), "materials"), FactList(tuple(facts))]
    gauges = tuple(gauge_says(job, gauge) for gauge in job.pattern.gauges)
    if gauges:
        blocks.append(Heading(2, (Text(job.say("headings", "gauge")),), "gauge"))
        if len(gauges) == 1:
            blocks.append(Paragraph(gauges[0]))
        else:
            blocks.append(BulletList(tuple((Paragraph(says),) for says in gauges)))
        blocks.extend(_gauge_notes(job))
    return tuple(blocks)


# ── yarn ──────────────────────────────────────────────────────────────────────────────────────────


def yarn_says(job: Job, yarn: Yarn) -> tuple[Inlines, ...]:
    """What is to be known of a yarn: what it is, its category everywhere, how much of it each size takes."""
    several = len(job.pattern.yarns) > 1
    lines: list[Inlines] = [
        (
            Text(
                job.say(
                    "materials",
                    "yarn_name",
                    key=yarn.key.value if several or yarn.name is None else "",
                    name=yarn.name.value if yarn.name else "",
                    colour=yarn.colour.value if yarn.colour else "",
                    fibre=yarn.fibre.value if yarn.fibre else "",
                    held=yarn.held.value,
                )
            ),
            *_put_up(job, yarn),
            Text("."),
        )
    ]
    weight = weight_of(job, yarn)
    if weight is not None:
        lines.append((Text(job.say("materials", "weight", **_regional(job, weight, yarn))),))
    elif yarn.weight is not None:
        lines.append((Text(job.say("materials", "weight_typed", weight=yarn.weight.value)),))
    lines.extend(yarn_amounts(job, yarn))
    if yarn.note is not None:
        lines.append(job.inline(yarn.note))
    return tuple(lines)


def weight_of(job: Job, yarn: Yarn) -> YarnWeight | None:
    """The category of a yarn, by the words of the source's country first."""
    if yarn.weight is None:
        return None
    region: YarnRegion = "UK" if job.setting.typed_terms == "UK" else "US"
    weights = job.trade.yarn_weights
    found = weights.find(yarn.weight.value, region) or weights.find(yarn.weight.value)
    return found[0] if found else None


def _regional(job: Job, weight: YarnWeight, yarn: Yarn) -> dict[str, object]:
    """A category by its number and by its usual name in each region."""
    first: tuple[YarnRegion, YarnRegion] = ("UK", "US") if job.setting.terms == "UK" else ("US", "UK")
    typed = yarn.weight.value if yarn.weight is not None else ""
    names = {}
    for region in (*first, "AU/NZ"):
        local = weight.names("AU/NZ" if region == "AU/NZ" else "UK" if region == "UK" else "US")
        known = [name for name in local if name.casefold() == typed.casefold()]
        names[region] = (known or list(local) or [weight.name])[0]
    return {
        "number": weight.number,
        "name": weight.name.lower(),
        "home": names[first[0]],
        "home_region": first[0],
        "other": names[first[1]],
        "other_region": first[1],
        "au_nz": names["AU/NZ"],
    }


def _put_up(job: Job, yarn: Yarn) -> Inlines:
    """ "; 200 m / 219 yd to 100 g / 3.5 oz" behind a yarn's name."""
    if yarn.ball is None:
        return ()
    length, mass = yarn.ball.length, yarn.ball.mass
    said: list[Inline] = [Text("; ")]
    said.extend(
        measure(
            (length.value,) * len(job.setting.sizes),
            length.unit,
            job.setting,
            kind="put-up",
            twin=None if length.twin is None else (length.twin,) * len(job.setting.sizes),
            twin_unit=length.twin_unit,
        )
    )
    said.append(Text(f" {job.say('materials', 'per')} "))
    said.extend(
        measure(
            (mass.value,) * len(job.setting.sizes),
            mass.unit,
            job.setting,
            kind="mass",
            twin=None if mass.twin is None else (mass.twin,) * len(job.setting.sizes),
            twin_unit=mass.twin_unit,
        )
    )
    return tuple(said)


# ── needles ───────────────────────────────────────────────────────────────────────────────────────


def needle_says(job: Job, needle: Needle) -> Inlines:
    """Needles under the word the rows use: millimetres first, then the sizes of the countries."""
    kind = needle.type.value if needle.type is not None else ""
    words = job.say(
        "materials",
        "needle",
        key=needle.key.value,
        keyed=len(job.pattern.needles) > 1,
        size=needle_size(job, needle),
        kind=kind,
        length=plain_text(_needle_length(job, needle)),
        note=needle.note.value if needle.note is not None else "",
    )
    return (Text(words),)


def needle_size(job: Job, needle: Needle) -> str:
    """The size everywhere: "5 mm (US 8, UK 6)"; as typed when no chart knows it."""
    size = needle.size.value
    if needle.size_mm is not None:
        chart = job.trade.needles.by_mm(needle.size_mm)
        size = chart.words("US", "UK") if chart is not None else f"{decimal(needle.size_mm)} mm"
    return size.replace(" mm", "\u00a0mm").replace("US ", "US\u00a0").replace("UK ", "UK\u00a0")


def _needle_length(job: Job, needle: Needle) -> Inlines:
    """A needle's length in the trade's pairs (40 cm / 16 in) where it is a usual one."""
    if needle.length is None:
        return ()
    length = needle.length
    sizes = len(job.setting.sizes)
    twin, twin_unit = length.twin, length.twin_unit
    nominal = job.trade.needles.circular(length.value)
    if twin is None and nominal is not None and system_of(length.unit) == "metric":
        twin, twin_unit = nominal.inches * INCH_MM, "in"
    twins = None if twin is None else (twin,) * sizes
    return measure((length.value,) * sizes, length.unit, job.setting, twin=twins, twin_unit=twin_unit, kind="needle")


def _obtain_gauge(job: Job) -> tuple[Inlines, ...]:
    return ((Text(job.say("materials", "obtain_gauge")),),) if job.pattern.gauges else ()


# ── gauge ─────────────────────────────────────────────────────────────────────────────────────────


def gauge_says(job: Job, gauge: StatedGauge) -> Inlines:
    """A gauge in one sentence: "20 sts and 28 rnds to 10 cm / 4 in in stockinette stitch, worked …"."""
    worked = gauge.worked.value if gauge.worked is not None else ""
    fabric = gauge.fabric.value if gauge.fabric is not None else gauge.key.value
    needles = gauge.needles.value if gauge.needles is not None else ""
    source = job.pattern.needle(needles) if needles else None
    words = job.say(
        "materials",
        "gauge",
        stitches=mixed(gauge.stitches.value),
        rows=mixed(gauge.rows.value) if gauge.rows is not None else "",
        round=worked == "round",
        worked=worked,
        over=plain_text(_square(job, gauge)),
        fabric=job.language.words(job.say("materials", "fabric", fabric=fabric)),
        needles=needles,
        size=f"{decimal(source.size_mm)}\u00a0mm" if source is not None and source.size_mm is not None else "",
    )
    note = job.inline(gauge.note)
    return (Text(words), Text(" "), *note) if note else (Text(words),)


def _square(job: Job, gauge: StatedGauge) -> Inlines:
    """The side of the gauge square; 10 cm and 4 in are one square by the trade's convention, and so are their parts."""
    over = gauge.over
    sizes = len(job.setting.sizes)
    twin, twin_unit = over.twin, over.twin_unit
    if twin is None and over.unit in ("cm", "mm") and (over.value * 4 / TEN_CM).denominator in (1, 2, 4):
        twin, twin_unit = over.value / TEN_CM * FOUR_INCHES, "in"
    elif twin is None and over.unit == "in":
        twin, twin_unit = over.value / FOUR_INCHES * TEN_CM, "cm"
    twins = None if twin is None else (twin,) * sizes
    return measure((over.value,) * sizes, over.unit, job.setting, twin=twins, twin_unit=twin_unit)


def _gauge_notes(job: Job) -> Iterator[Block]:
    yield Paragraph((Text(job.say("materials", "gauge_note", several=len(job.pattern.gauges) > 1)),), "note")
