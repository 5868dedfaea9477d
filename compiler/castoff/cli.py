"""The command `castoff`.

In: the words of a command line. Out: reports on standard output, progress and faults on standard error, and an exit
status: 0 clean, 1 findings that stop a build or something outside that could not be read or written, 2 wrong use, 3 a
fault in Castoff itself. Commands import what they need when they run, so that a check never loads the page setter.
"""

from __future__ import annotations

import gc
import os
import sys
from collections.abc import Sequence
from pathlib import Path
from shutil import get_terminal_size
from typing import TYPE_CHECKING, Any

import click

from castoff import __version__
from castoff.world import NoSuchPathError, WorldError, find_sources, shown

if TYPE_CHECKING:
    from castoff.diagnostic import Diagnostic
    from castoff.pipeline import Proof

DEFAULT_FOLDER = Path("patterns")
PATHS = click.argument("paths", nargs=-1, type=click.Path(path_type=Path), metavar="[PATH]...")
ONE_PATH = click.argument("path", type=click.Path(path_type=Path))


@click.group(context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100})
@click.version_option(__version__, prog_name="castoff")
def castoff() -> None:
    """Knit a pattern's own words in every size, check every number, and set it in print.

    PATH is a pattern source or a folder of them; without one, the folder patterns/ is taken.
    """


def _sources(paths: Sequence[Path]) -> tuple[Path, ...]:
    return find_sources(paths or [DEFAULT_FOLDER])


def _colour() -> bool:
    return sys.stdout.isatty() and "NO_COLOR" not in os.environ


def _columns() -> int | None:
    """What messages are wrapped for: a terminal's width; a file and a pipe get every message on one line."""
    return get_terminal_size().columns if sys.stdout.isatty() else None


def _say(text: str) -> None:
    click.echo(text, nl=not text.endswith("\n"), color=_colour())


@castoff.command()
@PATHS
@click.option(
    "--format",
    "form",
    type=click.Choice(["text", "json", "sarif", "junit"]),
    default="text",
    help="How findings are reported.",
)
def check(paths: tuple[Path, ...], form: str) -> int:
    """Knit every size and check every number; print what is found."""
    from castoff.pipeline import prove_file

    proofs = [prove_file(path) for path in _sources(paths)]
    findings = [finding for proof in proofs for finding in proof.findings]
    if form == "json":
        from castoff.report.data import write_json

        _say(write_json(findings))
    elif form == "sarif":
        from castoff.report.sarif import write_sarif

        _say(write_sarif(findings))
    elif form == "junit":
        from castoff.report.junit import write_junit

        _say(write_junit({proof.name: proof.findings for proof in proofs}))
    else:
        from castoff.report.text import summary, write_findings

        _say(write_findings(findings, colour=_colour(), columns=_columns()) + summary(findings, len(proofs)))
    return 0 if all(proof.sound for proof in proofs) else 1


@castoff.command()
@PATHS
@click.option(
    "--edition",
    "editions",
    multiple=True,
    metavar="WORDS",
    help='An edition ("metric large", "imperial letter size=M", "both neck=crew") or a set (print, access, sale, each).',
)
@click.option(
    "--paper",
    "papers",
    multiple=True,
    type=click.Choice(["A4", "Letter", "either"], case_sensitive=False),
    help="Paper of the editions; may be given more than once.",
)
@click.option(
    "--out",
    type=click.Path(path_type=Path, file_okay=True),
    default=Path("build"),
    show_default=True,
    help="Folder that the editions are written to.",
)
@click.option("--anew", is_flag=True, help="Set every edition again, also those that have not changed.")
@click.option("--jobs", type=click.IntRange(1), default=None, help="Patterns worked on at once; all cores by default.")
def build(
    paths: tuple[Path, ...],
    editions: tuple[str, ...],
    papers: tuple[str, ...],
    out: Path,
    anew: bool,
    jobs: int | None,
) -> int:
    """Check patterns and set their editions; a pattern with errors gets none."""
    from castoff.catalogue import Order, build_catalogue, mind_the_words
    from castoff.document.edition import EditionError
    from castoff.report.text import summary, write_findings
    from castoff.terminal.progress import Progress

    sources = _sources(paths)
    try:
        mind_the_words(editions)
    except EditionError as fault:
        raise click.BadParameter(str(fault), param_hint="--edition") from None
    order = Order(sources=sources, editions=editions, papers=papers, out=out, anew=anew, jobs=jobs)
    stopped = written = kept = 0
    findings: list[Diagnostic] = []
    with Progress("patterns", len(sources)) as progress:
        for result in build_catalogue(order):
            progress.step(result.name)
            findings += result.findings
            if result.findings:
                progress.print(
                    write_findings(result.findings, colour=_colour(), columns=_columns()).rstrip("\n") + "\n"
                )
            if result.fault is not None:
                progress.print(f"{result.name}: {result.fault}")
            if result.stopped:
                stopped += 1
                progress.print(f"{result.name}: nothing written")
            written += len(result.written)
            kept += len(result.kept)
            for path in result.written:
                progress.print(f"wrote {shown(path)}")
    total = f"{written} written" + (f", {kept} unchanged" if kept else "")
    if stopped:
        total += f"; {stopped} of {len(sources)} patterns stopped by errors"
    _say(f"{summary(findings, len(sources))}; {total}")
    return 1 if stopped else 0


@castoff.command()
@ONE_PATH
@click.option("--why", metavar="NAME", help="Where a number or formula comes from, down to body, ease and gauge.")
@click.option("--size", metavar="SIZE", help="One size only.")
def show(path: Path, why: str | None, size: str | None) -> int:
    """Every number of a pattern per size, with its formula and what it works out to in both units."""
    from castoff.terminal.numbers import UnknownNumberError, show_numbers, show_why

    proof = _proof(path)
    if proof.numbers is None:
        return _findings(proof)
    index = _size(proof, size)
    if why is not None:
        try:
            _say(show_why(proof, why, index))
        except UnknownNumberError as fault:
            raise click.BadParameter(str(fault), param_hint="--why") from None
    else:
        _say(show_numbers(proof, index, colour=_colour()))
    return 0 if proof.sound else _findings(proof)


@castoff.command()
@ONE_PATH
@click.option("--size", metavar="SIZE", help="The size to knit; the first when left out.")
@click.option("--section", metavar="TITLE", help="One section only.")
@click.option("--every-row", is_flag=True, help="Each row on a line of its own, also those that come round again.")
def knit(path: Path, size: str | None, section: str | None, every_row: bool) -> int:
    """The knitting row by row: side, stitches before and after, what changed, length so far."""
    from castoff.terminal.knitting import show_knitting

    proof = _proof(path)
    if proof.knitted is None:
        return _findings(proof)
    titles = [each.title.value for each in proof.pattern.sections] if proof.pattern else []
    if section is not None and section.casefold() not in [title.casefold() for title in titles]:
        raise click.BadParameter(f"no section `{section}`{_near(section, titles)}", param_hint="--section")
    _say(show_knitting(proof, _size(proof, size) or 0, section, every_row=every_row))
    return 0 if proof.sound else _findings(proof)


@castoff.command()
@ONE_PATH
@click.option("--instead", metavar="PUT-UP", help='Balls of another yarn, such as "105 m / 50 g".')
@click.option("--band", metavar="STITCHES", help='Stitches to 10 cm on the other yarn\'s band, "20" or "20-22".')
@click.option("--of", "key", metavar="YARN", help="The yarn to be replaced; the first when left out.")
def yarn(path: Path, instead: str | None, band: str | None, key: str | None) -> int:
    """Where the yarn goes: metres, grams and balls per yarn and size."""
    from castoff.terminal.yarn import YarnWordsError, show_substitute, show_yarn

    proof = _proof(path)
    if proof.knitted is None:
        return _findings(proof)
    if instead is not None:
        try:
            _say(show_substitute(proof, instead, band, key))
        except YarnWordsError as fault:
            raise click.BadParameter(str(fault), param_hint="--instead") from None
    else:
        _say(show_yarn(proof))
    return 0 if proof.sound else _findings(proof)


@castoff.command()
@click.argument("rule", required=False)
def explain(rule: str | None) -> int:
    """What a rule looks for and why; without a name, the list of all rules."""
    from castoff.press import RULES

    rules = {each.name: each for each in RULES}
    if rule is None:
        width = max(len(name) for name in rules)
        _say("\n".join(f"{name:<{width}}  {each.severity:<7}  {each.summary}" for name, each in sorted(rules.items())))
        return 0
    if rule not in rules:
        raise click.BadParameter(f"no rule `{rule}`{_near(rule, list(rules))}", param_hint="RULE")
    found = rules[rule]
    _say(f"{found.name} ({found.severity}, since {found.since})\n\n{found.text}")
    return 0


@castoff.command()
def schema() -> int:
    """The JSON Schema of pattern sources, so that editors complete and check them."""
    import json

    from castoff.model.shape import json_schema

    _say(json.dumps(json_schema(), indent=2, ensure_ascii=False))
    return 0


@castoff.command()
@click.argument("name")
@click.option(
    "--into",
    type=click.Path(path_type=Path, file_okay=False),
    default=DEFAULT_FOLDER,
    show_default=True,
    help="Folder for the new source.",
)
def new(name: str, into: Path) -> int:
    """Write a commented source that builds as it is, to start a pattern from."""
    from castoff.catalogue import file_slug, new_source
    from castoff.world import write_whole

    slug = file_slug(name)
    if not slug:
        raise click.BadParameter("needs at least one letter or digit", param_hint="NAME")
    path = into / f"{slug}.yaml"
    if path.exists():
        raise click.BadParameter(f"{shown(path)} is there already", param_hint="NAME")
    write_whole(path, new_source(name).encode())
    _say(f"wrote {shown(path)}; next: castoff build {shown(path)}")
    return 0


def _proof(path: Path) -> Proof:
    from castoff.pipeline import prove_file

    if path.is_dir():
        raise click.BadParameter(f"{shown(path)} is a folder; name one pattern", param_hint="PATH")
    (source,) = find_sources([path])
    return prove_file(source)


def _findings(proof: Proof) -> int:
    from castoff.report.text import summary, write_findings

    click.echo(
        write_findings(proof.findings, colour=_colour(), columns=_columns()) + summary(proof.findings, 1), err=True
    )
    return 1


def _size(proof: Proof, wanted: str | None) -> int | None:
    if wanted is None or proof.pattern is None:
        return None
    labels = proof.pattern.sizes.labels
    for index, label in enumerate(labels):
        if label.casefold() == wanted.casefold():
            return index
    raise click.BadParameter(f"no size `{wanted}`: the sizes are {', '.join(labels)}", param_hint="--size")


def _near(word: str, known: Sequence[str]) -> str:
    from difflib import get_close_matches

    near = get_close_matches(word, known, n=1)
    return f"; did you mean `{near[0]}`?" if near else ""


def main(arguments: Sequence[str] | None = None) -> None:
    """Entry point of the command; ends the process."""
    # Everything a run makes lives until its end: collecting garbage on the way would only cost time.
    gc.disable()
    sys.exit(_run(arguments))


def _run(arguments: Sequence[str] | None) -> int:
    try:
        status: Any = castoff.main(
            args=list(arguments) if arguments is not None else None, prog_name="castoff", standalone_mode=False
        )
        sys.stdout.flush()
        return status if isinstance(status, int) else 0
    except click.exceptions.Exit as stop:
        return stop.exit_code
    except click.ClickException as fault:
        fault.show()
        return fault.exit_code
    except (click.Abort, KeyboardInterrupt):
        click.echo("stopped", err=True)
        return 130
    except BrokenPipeError:
        # the reader of our output has gone: nothing more can be said, and nothing is wrong
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return 0
    except NoSuchPathError as fault:
        click.echo(f"castoff: {fault}", err=True)
        return 2
    except WorldError as fault:
        click.echo(f"castoff: {fault}", err=True)
        return 1
    except Exception as fault:  # a bug of ours must not become the reader's traceback
        if "CASTOFF_TRACEBACK" in os.environ:
            raise
        click.echo(
            f"castoff: a fault in Castoff itself ({type(fault).__name__}: {fault}). "
            "Set CASTOFF_TRACEBACK=1 to see where, and report it with the pattern.",
            err=True,
        )
        return 3
