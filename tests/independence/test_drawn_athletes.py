"""Drawn athletes: every block passes the independent audit; every refusal names a true and minimal conflict."""

from __future__ import annotations

from collections import Counter

import pytest

from tests.independence.outcomes import outcome

FIXED_SAMPLE = range(100, 108)
FULL_COUNT = 500


@pytest.mark.parametrize("seed", FIXED_SAMPLE)
def test_a_drawn_athlete_gets_a_clean_block_or_a_true_refusal(seed: int) -> None:
    assert outcome(seed).faults == []


@pytest.mark.long
def test_five_hundred_drawn_athletes_get_clean_blocks_or_true_refusals() -> None:
    kinds: Counter[str] = Counter()
    faults: dict[int, list[str]] = {}
    for seed in range(FULL_COUNT):
        found = outcome(seed)
        kinds[found.kind] += 1
        if found.faults:
            faults[seed] = found.faults
    print(kinds)
    assert faults == {}
    assert 0.1 <= (kinds["refused"] + kinds["no-block"] + kinds["unconfirmed"]) / FULL_COUNT <= 0.5
