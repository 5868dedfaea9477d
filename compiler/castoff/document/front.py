"""The front page: what it is, and what a knitter decides by.

In: the job. Out: the `TitlePage`: studio, title, designer, summary, main picture, and the facts in the order of the
trade: sizes, finished measures, yarn, needles, gauge, skill, words. All sizes and materials in full follow on the
next pages.
"""

from __future__ import annotations

from castoff.document.job import Job
from castoff.document.materials import gauge_says, needle_size
from castoff.document.measures import Sized, body_measures, finished_measures
from castoff.document.pictures import FRONT, figures_for
from castoff.document.tree import Blocks, Fact, FactList, Inline, Inlines, Meta, SizeList, Text, TitlePage
from castoff.document.wording import joined, listed, measure, typeset
from castoff.document.yarn import yarn_amounts
from castoff.model.pattern import Yarn


def front(job: Job) -> Blocks:
    """The front page; a second picture for the front follows it."""
    pattern = job.pattern
    figures = tuple(figures_for(job, FRONT))
    designer = pattern.designer.value if pattern.designer is not None else ""
    byline = job.say("front", "byline", designer=designer)
    page = TitlePage(
        title=(Text(typeset(pattern.title.value)),),
        kicker=(Text(typeset(pattern.studio.value)),) if pattern.studio is not None else (),
        byline=(Text(byline),) if byline else (),
        summary=job.inline(pattern.summary),
        figure=figures[0] if figures else None,
        facts=FactList(_facts(job), key="facts"),
        notice=(Text(job.say("front", "invented")),) if pattern.invented else (),
    )
    return (page, *figures[1:])


def meta(job: Job) -> Meta:
    """What is known of the document besides its text."""
    pattern = job.pattern
    uk = job.setting.terms == "UK"
    return Meta(
        title=typeset(pattern.title.value),
        version=pattern.version.value if pattern.version is not None else "",
        date=pattern.date.value.isoformat() if pattern.date is not None else "",
        designer=pattern.designer.value if pattern.designer is not None else "",
        studio=pattern.studio.value if pattern.studio is not None else "",
        summary=" ".join(pattern.summary.value.split()) if pattern.summary is not None else "",
        language="en-GB" if uk else "en-US",
        terms=job.setting.terms,
        subject=job.say("front", "subject"),
        keywords=tuple(dict.fromkeys(("knitting", *(yarn.weight.value for yarn in pattern.yarns if yarn.weight)))),
        edition=job.edition.description(job.setting.sizes),
        invented=pattern.invented,
    )


def _facts(job: Job) -> tuple[Fact, ...]:
    pattern = job.pattern
    facts: list[Fact] = []

    def add(name: str, *says: Inlines, **values: object) -> None:
        kept = tuple(say for say in says if say)
        if kept:
            facts.append(Fact((Text(job.say("front", name, **values)),), kept))

    names = job.setting.pick(job.setting.sizes)
    fits = body_measures(job)
    add("sizes", _names(job), *(_to_fit(job, each) for each in fits[:1]), one=len(names) == 1)
    add("finished", *(_finished(job, each) for each in finished_measures(job)[:1]))
    add("yarn", *(line for yarn in pattern.yarns for line in _yarn(job, yarn)))
    add("needles", _needles(job))
    add("gauge", *(gauge_says(job, gauge) for gauge in pattern.gauges[:1]))
    add("skill", _skill(job))
    add("words_used", (Text(job.say("front", "words_say")),))
    return tuple(facts)


def _names(job: Job) -> Inlines:
    axes = job.setting.axes
    if axes.plain or job.setting.shown is not None:
        return listed(list(job.setting.sizes), job.setting)
    said: list[Inline] = []
    places = [axes.place(size) for size in job.setting.shows]
    parts: Inlines
    for number, length in axes.directions:
        kept = sorted({place[number] for place in places})
        if number and len(kept) == 1 and length > 1:
            lead, parts = "", (Text(axes.words(number, kept[0])),)
        elif number < 2:
            names = axes.first if number == 0 else axes.second
            groups = job.setting.groups if number == 0 else ()
            lead = f"{axes.name}: " if number else ""
            parts = (SizeList(names, names, groups=groups),) if len(names) > 1 else (Text(names[0]),)
        else:
            lead = ""
            parts = (Text(joined([choice.words for choice in axes.options[number - 2].choices], "or")),)
        said += [*((Text("; "),) if said else ()), *((Text(lead),) if lead else ()), *parts]
    return tuple(said)


def _to_fit(job: Job, sized: Sized) -> Inlines:
    lead = job.say("front", "to_fit", label=sized.label)
    return (Text(lead + " "), *_measured(job, sized))


def _finished(job: Job, sized: Sized) -> Inlines:
    return (Text(f"{sized.label}: "), *_measured(job, sized))


def _measured(job: Job, sized: Sized) -> Inlines:
    return measure(sized.values, sized.unit, job.setting, twin=sized.twin, twin_unit=sized.twin_unit)


def _yarn(job: Job, yarn: Yarn) -> tuple[Inlines, ...]:
    """A yarn in two lines: which, and how much; its category and names elsewhere stand under materials."""
    called = yarn.name.value if yarn.name is not None else yarn.key.value
    weight = yarn.weight.value if yarn.weight is not None else ""
    if weight.casefold() in called.casefold():
        weight = ""
    name = job.say(
        "front",
        "yarn_says",
        name=called,
        colour=yarn.colour.value if yarn.colour is not None else "",
        weight=weight,
    )
    return ((Text(name),), *yarn_amounts(job, yarn, short=True))


def _needles(job: Job) -> Inlines:
    """All needle sizes in one line, each once."""
    sizes = dict.fromkeys(needle_size(job, needle) for needle in job.pattern.needles)
    return (Text(", ".join(sizes)),) if sizes else ()


def _skill(job: Job) -> Inlines:
    skill = job.pattern.skill
    if skill is None:
        return ()
    level = next((each for each in job.trade.skills if each.name == skill.value), None)
    if level is None:
        return (Text(skill.value),)
    return (Text(job.say("front", "skill_says", level=level.label, means=level.means)),)
