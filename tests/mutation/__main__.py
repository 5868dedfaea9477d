"""`python -m tests.mutation [--kind KIND] [--every N] [SOURCE…]`: shares found, and the slips passed over."""

from __future__ import annotations

import argparse
from pathlib import Path

from tests.mutation.harness import report, run, survivors
from tests.mutation.slips import KINDS

TYPED = Path(__file__).parents[1] / "typed_patterns"


def main() -> None:
    """Runs the slips over typed patterns and prints what was found."""
    parser = argparse.ArgumentParser(prog="python -m tests.mutation")
    parser.add_argument("sources", nargs="*", type=Path, help="typed patterns; all of tests/typed_patterns when none")
    parser.add_argument("--kind", choices=KINDS, action="append", help="kinds of slip; all when none")
    parser.add_argument("--every", type=int, default=1, help="take only each nth slip")
    asked = parser.parse_args()
    tallies = []
    for path in asked.sources or sorted(TYPED.glob("*.yaml")):
        for tally in run(path, tuple(asked.kind or KINDS), asked.every):
            tallies.append(tally)
            print(report([tally]), flush=True)
            for line in survivors(tally, path.read_text("utf-8")):
                print("   ", line)
    harmful = sum(len(tally.harmful) for tally in tallies)
    missed = sum(len(tally.passed_over) for tally in tallies)
    print(f"all: {harmful} harmful slips, {harmful - missed} found ({100 * (1 - missed / max(harmful, 1)):.2f} %)")


if __name__ == "__main__":
    main()
