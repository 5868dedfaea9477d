"""What the house says: Jinja2 texts, sandboxed, several to a file.

In: a reader of `templates/texts/*.j2`. Out: `Texts`, whose `say` fills in one text of a file. A file holds its texts as
Jinja2 blocks, each under a name; a house overrides a whole file by one of the same name. A text that cannot be set
(wrong Jinja2, a value that does not exist, a block that is missing) is a finding with file and line, and sets nothing.

No HTML is escaped: what comes out is words, and renderers escape for themselves. An undefined value is an error.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from types import TracebackType

from jinja2 import StrictUndefined, Template
from jinja2.exceptions import SecurityError, TemplateError, TemplateSyntaxError, UndefinedError
from jinja2.sandbox import ImmutableSandboxedEnvironment

from castoff.diagnostic import Diagnostic, Rule
from castoff.span import SourceFile, Span

TEXT_UNUSABLE = Rule(
    "text-unusable",
    "error",
    """A text of the house cannot be set.

    The texts in `templates/texts` are Jinja2 templates. One with a slip in it, one that asks for a value that does not
    exist, or a file without a text that the document needs stops the build: a page with a hole in it must not be
    printed.

    Fires:   {% block yarn %}Yarn: {{ yran }}{% endblock %}      there is no value `yran`
    Silent:  {% block yarn %}Yarn: {{ yarn }}{% endblock %}
    """,
)
RULES = (TEXT_UNUSABLE,)

_BEFORE_STOP = re.compile(r" +([,;.:)])")


@dataclass(slots=True)
class Texts:
    """The house's texts, read on first use.

    read: gives the text of a template ("texts/front.j2"); may raise an exception when there is none.
    found: what was wrong, gathered as texts are set. One `Texts` belongs to one run.
    """

    read: Callable[[str], str]
    found: list[Diagnostic] = field(default_factory=list)
    _environment: ImmutableSandboxedEnvironment = field(init=False, repr=False)
    _templates: dict[str, tuple[SourceFile, Template | None]] = field(default_factory=dict, repr=False)

    def __post_init__(self) -> None:
        self._environment = ImmutableSandboxedEnvironment(
            autoescape=False, undefined=StrictUndefined, lstrip_blocks=True
        )

    def say(self, file: str, name: str, /, **values: object) -> str:
        """One text, on one line: every run of white space becomes a space, and none stands before a comma or a stop.

        file: "front" for `texts/front.j2`. name: the block. values: what the text may use.
        """
        return _BEFORE_STOP.sub(r"\1", " ".join(self._set(file, name, values).split()))

    def paragraphs(self, file: str, name: str, /, **values: object) -> str:
        """One text as Markdown, its blank lines kept."""
        lines = [line.strip() for line in self._set(file, name, values).strip().splitlines()]
        return "\n".join(lines)

    def _set(self, file: str, name: str, values: dict[str, object]) -> str:
        source, template = self._template(file)
        if template is None:
            return ""
        block = template.blocks.get(name)
        if block is None:
            near = ", ".join(f"`{known}`" for known in sorted(template.blocks)) or "none"
            self._report(source, 1, f"has no text `{name}`", f"the texts in this file: {near}")
            return ""
        try:
            return "".join(block(template.new_context(values)))
        except UndefinedError as fault:
            known = ", ".join(f"`{value}`" for value in sorted(values)) or "none"
            self._report(source, _line_of(fault, template), f"text `{name}`: {fault.message}", f"values here: {known}")
        except (SecurityError, TemplateError) as fault:
            self._report(source, _line_of(fault, template), f"text `{name}`: {fault.message}", None)
        except (TypeError, ValueError, ArithmeticError, LookupError, AttributeError) as fault:
            self._report(source, _line_of(fault, template), f"text `{name}`: {fault}", None)
        return ""

    def _template(self, file: str) -> tuple[SourceFile, Template | None]:
        known = self._templates.get(file)
        if known is not None:
            return known
        path = f"texts/{file}.j2"
        template = None
        try:
            source = SourceFile(f"templates/{path}", self.read(path))
        except Exception as fault:  # the reader is the caller's; whatever it raises means that there is no text
            source = SourceFile(f"templates/{path}", "")
            self._report(source, 1, str(fault) or "cannot be read", None)
        else:
            try:
                template = self._environment.from_string(source.text)
            except TemplateSyntaxError as fault:
                self._report(source, fault.lineno, f"is no usable Jinja2: {fault.message}", None)
        self._templates[file] = source, template
        return source, template

    def _report(self, source: SourceFile, line: int, message: str, hint: str | None) -> None:
        start = source.line_starts[min(line, len(source.line_starts)) - 1]
        span = Span(source, start, start + len(source.line(line)))
        finding = Diagnostic.of(TEXT_UNUSABLE, message, span, hint=hint)
        if finding not in self.found:
            self.found.append(finding)


def _line_of(fault: BaseException, template: Template) -> int:
    """The template's line on which a fault arose: the innermost frame that runs its code."""
    line = 1
    for trace in _frames(fault.__traceback__):
        if trace.tb_frame.f_globals.get("name") == template.name and "blocks" in trace.tb_frame.f_globals:
            line = template.get_corresponding_lineno(trace.tb_lineno)
    return line


def _frames(trace: TracebackType | None) -> Iterator[TracebackType]:
    while trace is not None:
        yield trace
        trace = trace.tb_next
