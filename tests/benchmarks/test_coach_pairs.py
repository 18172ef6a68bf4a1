"""The table of pairs: what it counts of two blocks made by hand, and whom it plans."""

from __future__ import annotations

from tests.benchmarks.coach_pairs import BY, KINDS, row, wanted
from tests.coach.made import do, made


def test_a_row_holds_both_blocks_figures_and_what_came_and_went():
    base = made(("build", {"mon": [do("one-leg-bent-knee-calf-hold", 2, hold=40), do("tall-pogo", 2, 10)]}))
    short = made(("build", {"mon": [do("loaded-one-leg-calf-raise", 5, 8, kg=20), do("tall-pogo", 3, 10)]}))
    said = row("calf short", short, base, "calf-ankle")
    assert said == (
        "| calf short | 5 / 2 | 5 / 0 | 30 / 20 | 0 / 0 | loaded-one-leg-calf-raise | one-leg-bent-knee-calf-hold |"
    )


def test_every_quality_is_short_by_each_share_for_both_kinds():
    found = wanted()
    assert [key for key, (_, short) in found.items() if not short] == list(KINDS)
    assert len(found) == len(KINDS) * (1 + 5 * len(BY))
