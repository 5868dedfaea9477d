"""`python -m tests.mutation [--kind KIND] [--every N] [--count] [SOURCE…]`: shares found, and the slips passed over.

With `--count` each slip goes through the whole check, and how many errors one slip gives is told too, with the slips that
give several.

Two processes share the work; the lines come in the order of the sources all the same.
"""

from __future__ import annotations

import argparse
from concurrent.futures import ProcessPoolExecutor
from functools import partial
from pathlib import Path

from tests.mutation.harness import Tally, report, run, several, spread, survivors
from tests.mutation.slips import KINDS, Kind

ROOT = Path(__file__).parents[2]
TYPED = tuple(sorted((ROOT / "tests" / "typed_patterns").glob("*.yaml")))
# demonstrations whose instructions are typed, all or nearly all of them
DEMONSTRATIONS = tuple(ROOT / "patterns" / f"{name}.yaml" for name in ("cockle-mitts", "dunlin-socks", "ripple-throw"))
PROCESSES = 2


def tally_of(job: tuple[Path, Kind], every: int = 1, *, count: bool = False) -> Tally:
    """One kind of slip in one source."""
    path, kind = job
    return next(run(path, (kind,), every, count=count))


def main() -> None:
    """Runs the slips over typed patterns and prints what was found."""
    parser = argparse.ArgumentParser(prog="python -m tests.mutation")
    parser.add_argument("sources", nargs="*", type=Path, help="sources; all that are typed when none")
    parser.add_argument("--kind", choices=KINDS, action="append", help="kinds of slip; all when none")
    parser.add_argument("--every", type=int, default=1, help="take only each nth slip")
    parser.add_argument("--count", action="store_true", help="count the errors that each slip gives")
    asked = parser.parse_args()
    sources = asked.sources or [*TYPED, *DEMONSTRATIONS]
    jobs = [(path, kind) for path in sources for kind in asked.kind or KINDS]
    tallies: list[Tally] = []
    with ProcessPoolExecutor(PROCESSES) as pool:
        for (path, _), tally in zip(
            jobs, pool.map(partial(tally_of, every=asked.every, count=asked.count), jobs), strict=True
        ):
            tallies.append(tally)
            print(report([tally]), flush=True)
            for line in survivors(tally, path.read_text("utf-8")):
                print("   ", line)
            for line in several(tally, path.read_text("utf-8")):
                print("   ", line)
    for kind in asked.kind or KINDS:
        print(summary(kind, [tally for tally in tallies if tally.kind == kind]))
    print(summary("all", tallies))
    if asked.count:
        print(spread(tallies))


def summary(name: str, tallies: list[Tally]) -> str:
    """Shares over several tallies."""
    harmful = max(1, sum(len(tally.harmful) for tally in tallies))
    missed = sum(len(tally.passed_over) for tally in tallies)
    silent = sum(len(tally.silent) for tally in tallies)
    return (
        f"{name}: {harmful} harmful slips, {harmful - missed} found ({100 * (1 - missed / harmful):.2f} %), "
        f"{harmful - silent} reported at least by a warning ({100 * (1 - silent / harmful):.2f} %)"
    )


if __name__ == "__main__":
    main()
