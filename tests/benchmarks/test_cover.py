"""A fixed sample of the cover benchmark: the stated errors hold, whatever the number of trials and days."""

import pytest

from tests.benchmarks.cover import KINDS, LEAST_COVER, MOST_BIAS, MOST_COVER, cell

ATHLETES = 500
chance = 3 / ATHLETES**0.5  # three standard errors of a mean of that many; of a cover of 95 %, 0.22 of it
chance_of_cover = chance * 0.22


@pytest.mark.parametrize("kind", list(KINDS))
@pytest.mark.parametrize(("trials", "days"), [(1, 1), (3, 2), (12, 1)])
def test_truth_lies_within_the_stated_errors(kind: str, trials: int, days: int) -> None:
    found = cell(kind, trials, days, athletes=ATHLETES)
    assert abs(found.bias) <= MOST_BIAS + chance
    assert LEAST_COVER - chance_of_cover <= found.cover <= MOST_COVER + chance_of_cover
