"""A fixed sample of the cover benchmark: the stated errors hold, whatever the number of trials and days."""

import pytest

from tests.benchmarks.cover import (
    KINDS,
    LEAST_COVER,
    MOST_BIAS,
    MOST_COVER,
    NOISES_N,
    TOLD,
    Cell,
    cell,
    platform,
    record_cell,
)

ATHLETES, RECORDS = 500, 12  # records at each noise
CELLS = [(1, 1), (3, 2), (12, 1)]


def assert_near_the_bar(found: Cell, count: int) -> None:
    """Within three standard errors of a mean of ``count``; of a cover of 95 %, 0.22 of it."""
    chance = 3 / count**0.5
    assert abs(found.bias) <= MOST_BIAS + chance
    assert LEAST_COVER - 0.22 * chance <= found.cover <= MOST_COVER + 0.22 * chance


@pytest.mark.parametrize("kind", list(KINDS))
@pytest.mark.parametrize(("trials", "days"), CELLS)
def test_truth_lies_within_the_stated_errors(kind: str, trials: int, days: int) -> None:
    assert_near_the_bar(cell(kind, KINDS[kind], trials, days, athletes=ATHLETES), ATHLETES)


@pytest.mark.parametrize("rate_Hz", [100.0, 1000.0])
@pytest.mark.parametrize(("trials", "days"), CELLS)
def test_truth_lies_within_the_errors_of_a_platform(rate_Hz: float, trials: int, days: int) -> None:
    found = cell("platform", platform(rate_Hz, RECORDS), trials, days, athletes=ATHLETES)
    assert_near_the_bar(found, ATHLETES)


@pytest.mark.parametrize("rate_Hz", [100.0, 1000.0])
@pytest.mark.parametrize("what", list(TOLD))
def test_truth_lies_within_the_errors_of_single_records(what: str, rate_Hz: float) -> None:
    for noise_N in NOISES_N:
        assert_near_the_bar(record_cell(what, rate_Hz, noise_N, RECORDS), RECORDS)
