"""Numbers of the typed patterns wrong, one after another: at least 97 in 100 slips are reported.

The patterns were typed by somebody who had not seen the parser. Here every slip of one kind and a sample of the others;
`python -m tests.mutation` runs all of them and prints those that are passed over.
"""

from __future__ import annotations

from concurrent.futures import ProcessPoolExecutor
from functools import partial

import pytest
from tests.mutation.__main__ import DEMONSTRATIONS, PROCESSES, TYPED, summary, tally_of
from tests.mutation.harness import Bench, judge_slip, report, several, spread, survivors
from tests.mutation.slips import KINDS, Kind, Slip, slips

from castoff.pipeline import prove_text

SHARE = 0.97
SAMPLE = 13
"""Every thirteenth slip: no size, no line and no direction comes at that pace."""


def test_at_least_97_of_100_slips_are_found(capsys: pytest.CaptureFixture[str]) -> None:
    jobs = [(path, kind) for path in TYPED for kind in KINDS]
    with ProcessPoolExecutor(PROCESSES) as pool:
        tallies = list(pool.map(partial(tally_of, every=SAMPLE), jobs))
    missed = [
        line
        for tally, (path, _) in zip(tallies, jobs, strict=True)
        for line in survivors(tally, path.read_text("utf-8"))
    ]
    harmful = sum(len(tally.harmful) for tally in tallies)
    with capsys.disabled():
        print(f"\n{summary('sample', tallies)}")
    assert harmful > 300
    assert len(missed) <= (1 - SHARE) * harmful, report(tallies) + "\n" + "\n".join(missed)


def test_one_wrong_number_gives_one_error() -> None:
    jobs = [(path, kind) for path in TYPED for kind in KINDS]
    with ProcessPoolExecutor(PROCESSES) as pool:
        tallies = list(pool.map(partial(tally_of, every=4 * SAMPLE, count=True), jobs))
    numbers = [outcome.errors for tally in tallies for outcome in tally.harmful if outcome.found]
    assert len(numbers) > 80
    more = [
        line for tally, (path, _) in zip(tallies, jobs, strict=True) for line in several(tally, path.read_text("utf-8"))
    ]
    assert numbers.count(1) >= SHARE * len(numbers), spread(tallies) + "\n" + "\n".join(more)
    assert max(numbers) <= 3


@pytest.mark.parametrize("kind", ["stitches", "sides"])
def test_of_stitches_and_sides_97_of_100_slips_are_told_of(kind: Kind, capsys: pytest.CaptureFixture[str]) -> None:
    # totals stay as they are where "k to end" takes up what is wrong: such a row is asked about, and not refuted
    jobs = [(path, kind) for path in (*TYPED, *DEMONSTRATIONS)]
    with ProcessPoolExecutor(PROCESSES) as pool:
        tallies = list(pool.map(tally_of, jobs))
    harmful = sum(len(tally.harmful) for tally in tallies)
    silent = [outcome.slip for tally in tallies for outcome in tally.silent]
    with capsys.disabled():
        print(f"\n{summary(kind, tallies)}")
    assert harmful > 40
    assert len(silent) <= (1 - SHARE) * harmful, silent


def test_the_demonstrations_that_are_typed_are_clean() -> None:
    assert [path.name for path in DEMONSTRATIONS if Bench.of(path).known] == []


def beanie() -> str:
    return next(path for path in TYPED if path.stem == "harbour-beanie").read_text("utf-8")


def test_every_count_of_a_line_is_moved_up_and_down() -> None:
    proof = prove_text("beanie.yaml", beanie())
    line = "Rnd 1 (dec): *K8 (9, 10, 11, 12), k2tog, pm; rep from * 6 more times, k8 (9, 10, 11, 12), k2tog. 72"
    start = beanie().index(line)
    moved = [slip for slip in slips(proof, ("one",)) if start <= slip.start < start + len(line)]
    numbers = [slip.before for slip in moved if int(slip.after) > int(slip.before)]
    # the label, both lists, the times and the first of the total; not the 2 of k2tog
    assert numbers == ["1", "8", "9", "10", "11", "12", "6", "8", "9", "10", "11", "12", "72"]
    assert [slip.stated for slip in moved if slip.before == "72"] == [True, True]


def test_every_stitch_is_doubled_and_left_out_once() -> None:
    line = "Rnd 1 (dec): *K8 (9, 10, 11, 12), k2tog, pm; rep from * 6 more times, k8 (9, 10, 11, 12), k2tog. 72"
    start = beanie().index(line)
    proof = prove_text("beanie.yaml", beanie())
    changed = [slip for slip in slips(proof, ("stitches",)) if start <= slip.start < start + len(line)]
    assert [(slip.before, slip.after) for slip in changed] == [
        ("K8 (9, 10, 11, 12)", "K8 (9, 10, 11, 12), k8 (9, 10, 11, 12)"),
        ("K8 (9, 10, 11, 12), ", ""),
        ("k2tog", "k2tog, k2tog"),
        ("k2tog, ", ""),
        ("k8 (9, 10, 11, 12)", "k8 (9, 10, 11, 12), k8 (9, 10, 11, 12)"),
        ("k8 (9, 10, 11, 12), ", ""),
        ("k2tog", "k2tog, k2tog"),
        (", k2tog", ""),
    ]


def test_the_same_stitches_told_in_other_repeats_are_the_same_fabric() -> None:
    source = beanie()
    bench = Bench.of_text("beanie.yaml", source)
    at = source.index("K2tog; rep from * around")
    assert judge_slip(bench, Slip("stitches", at, at + 5, "K2tog", "K2tog, k2tog", stated=False, section=1)).harmless


def test_a_slip_that_changes_no_stitch_is_harmless_only_when_it_tells_nothing() -> None:
    source = beanie()
    bench = Bench.of_text("beanie.yaml", source)
    tail = source.index("20 cm tail")
    harmless = judge_slip(bench, Slip("one", tail, tail + 2, "20", "21", stated=False, section=2))
    assert (harmless.found, harmless.harmless) == (False, True)
    told = judge_slip(bench, Slip("one", tail, tail + 2, "20", "21", stated=True, section=2))
    assert (told.found, told.harmless) == (False, False)
    total = source.index("72 (80, 88, 96, 104) sts")
    found = judge_slip(bench, Slip("one", total, total + 2, "72", "73", stated=True, section=2))
    assert found.found
    assert found.near


def test_the_short_way_and_the_whole_check_agree() -> None:
    bench = Bench.of_text("beanie.yaml", beanie())
    for slip in list(slips(bench.clean, ("one", "sides", "stitches")))[::23]:
        whole = prove_text("beanie.yaml", slip.apply(bench.source))
        assert judge_slip(bench, slip).found == any(each.severity == "error" for each in whole.findings)
