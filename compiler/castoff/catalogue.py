"""Many patterns into a folder of editions: incremental, several patterns at once, nothing half-written.

In: an `Order` (sources, editions, folder). Out: a `Result` per pattern in the order of the sources, while the others are
still at work. A pattern with errors gets no editions; the others go on.
"""

from __future__ import annotations

import hashlib
import json
import os
import re
import unicodedata
from collections.abc import Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass
from functools import partial
from itertools import product
from pathlib import Path

from castoff import __version__
from castoff.diagnostic import Diagnostic
from castoff.document.edition import SIZE_WORD, USUAL_SETS, Edition, EditionError, parse_edition, usual_editions
from castoff.model.house import House
from castoff.pipeline import Proof, house_of, prove_file
from castoff.press import Press
from castoff.world import World, WorldError, write_whole

LEDGER = ".castoff.json"
"""File in the output folder that remembers from what each edition was set."""

DEFAULT_SET = "print"


@dataclass(frozen=True, slots=True)
class Order:
    """What to build.

    editions: words or names of usual sets, empty for the house's usual ones. papers: papers to cross them with.
    anew: set also what has not changed. jobs: patterns at once, None for all cores.
    """

    sources: tuple[Path, ...]
    editions: tuple[str, ...] = ()
    papers: tuple[str, ...] = ()
    out: Path = Path("build")
    anew: bool = False
    jobs: int | None = None


@dataclass(frozen=True, slots=True)
class Result:
    """What became of one pattern.

    written: files set in this run. kept: files that were up to date. stopped: no edition was written.
    fault: what outside the source stopped it.
    """

    name: str
    findings: tuple[Diagnostic, ...] = ()
    written: tuple[Path, ...] = ()
    kept: tuple[Path, ...] = ()
    stopped: bool = False
    fault: str | None = None
    ledger: tuple[tuple[str, str], ...] = ()


def build_catalogue(order: Order) -> Iterator[Result]:
    """Every pattern of an order, one result each, in the order of the sources."""
    before = _read_ledger(order.out)
    jobs = min(order.jobs or os.cpu_count() or 1, len(order.sources))
    work = partial(build_pattern, order=order, ledger=before)
    after = dict(before)
    if jobs > 1:
        # several patterns at once; each worker knits and sets whole patterns, so nothing is shared between them
        with ProcessPoolExecutor(jobs) as pool:
            for result in pool.map(work, order.sources):
                after.update(result.ledger)
                yield result
    else:
        for source in order.sources:
            result = work(source)
            after.update(result.ledger)
            yield result
    _write_ledger(order.out, after)


def build_pattern(source: Path, order: Order, ledger: dict[str, str]) -> Result:
    """One pattern: proved, then set in every edition that is not up to date."""
    proof = prove_file(source)
    slug = file_slug(proof.pattern.title.value) if proof.pattern is not None else file_slug(source.stem)
    if not proof.sound or proof.pattern is None:
        return Result(proof.name, proof.findings, stopped=True)
    names = proof.pattern.sizes.labels
    try:
        house = house_of(source.parent)
        if not house.sound:
            return Result(proof.name, (*proof.findings, *house.findings), stopped=True)
        editions = editions_for(order, house.value, names)
        press = Press(proof, World.beside(source), source.parent, house.value)
        written: list[Path] = []
        kept: list[Path] = []
        entries: list[tuple[str, str]] = []
        findings = list(proof.findings)
        version = proof.pattern.version.value if proof.pattern.version is not None else ""
        inputs = _digest(proof, press)
        for edition in editions:
            name = "-".join(filter(None, (slug, version, edition.slug(names)))) + edition.suffix
            path = order.out / name
            digest = hashlib.sha256(f"{inputs} {edition}".encode()).hexdigest()
            if not order.anew and ledger.get(name) == digest and path.is_file():
                kept.append(path)
                continue
            made = press.print(edition)
            findings += made.findings
            if made.value is None or not made.sound:
                return Result(proof.name, tuple(dict.fromkeys(findings)), stopped=True)
            write_whole(path, made.value)
            written.append(path)
            entries.append((name, digest))
    except EditionError as fault:
        return Result(proof.name, proof.findings, stopped=True, fault=str(fault))
    except WorldError as fault:
        return Result(proof.name, proof.findings, stopped=True, fault=str(fault))
    return Result(proof.name, tuple(dict.fromkeys(findings)), tuple(written), tuple(kept), ledger=tuple(entries))


def editions_for(order: Order, house: House, sizes: Sequence[str]) -> tuple[Edition, ...]:
    """The editions of a pattern: those ordered, else those of the house, else the usual printed ones; each once.

    Raises EditionError for words that mean nothing.
    """
    words = order.editions or tuple(each.value for each in house.editions) or (DEFAULT_SET,)
    found: dict[Edition, None] = {}
    for word in words:
        if word in (name for name, _ in USUAL_SETS):
            base: tuple[Edition, ...] = usual_editions(word)
        else:
            base = (parse_edition(word, sizes),)
        if order.papers:
            crossed = [parse_edition(paper, sizes, each) if each.paged else each for paper, each in _cross(order, base)]
            found.update(dict.fromkeys(crossed))
        else:
            found.update(dict.fromkeys(base))
    return tuple(found)


def mind_the_words(editions: Sequence[str]) -> None:
    """Raises EditionError for words of an order that no edition of any pattern can mean; sizes are each pattern's own."""
    sets = [name for name, _ in USUAL_SETS]
    for words in editions:
        rest = re.sub(SIZE_WORD, "", words).strip(" ,+")
        if rest and rest not in sets:
            parse_edition(rest)


def _cross(order: Order, base: Sequence[Edition]) -> Iterator[tuple[str, Edition]]:
    yield from ((paper.lower(), edition) for edition, paper in product(base, order.papers))


def file_slug(title: str) -> str:
    """A title as a file name: letters and digits in lower case, joined by hyphens."""
    plain = unicodedata.normalize("NFKD", title).encode("ascii", "ignore").decode()
    return re.sub(r"[^a-z0-9]+", "-", plain.lower()).strip("-")


def new_source(title: str) -> str:
    """The commented source that a new pattern starts from."""
    return World.beside().template("new.yaml").replace("NAME OF THE PATTERN", title.replace('"', "'"))


def _digest(proof: Proof, press: Press) -> str:
    """Stands for everything that an edition is made from, save the edition itself."""
    whole = hashlib.sha256(__version__.encode())
    whole.update(proof.data)
    # the house's margin is in the yarn needed
    whole.update(" ".join(str(each.margin) for each in proof.estimates).encode())
    for name, data in press.inputs():
        whole.update(name.encode())
        whole.update(hashlib.sha256(data).digest())
    return whole.hexdigest()


def _read_ledger(out: Path) -> dict[str, str]:
    try:
        found = json.loads((out / LEDGER).read_text("utf-8"))
    except (OSError, ValueError):
        return {}
    return {str(name): str(digest) for name, digest in found.items()} if isinstance(found, dict) else {}


def _write_ledger(out: Path, ledger: dict[str, str]) -> None:
    there = {name: digest for name, digest in sorted(ledger.items()) if (out / name).is_file()}
    if there:
        write_whole(out / LEDGER, (json.dumps(there, indent=1) + "\n").encode())
