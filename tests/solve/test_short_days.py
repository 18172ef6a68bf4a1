"""Short days leave little room, so the first block that is found misses much; it is bettered a piece at a time."""

from __future__ import annotations

import pytest

from planner.solve import bands
from planner.solve.bands import solve_bands
from tests.solve.demos import athlete, problem

MINUTES = 45
BUDGET = 5.0  # an eighth of plan's own: enough for the pieces, and short enough for the suite
MOST_MISSED_points = 20  # 5 on the day this was written, 243 before blocks were bettered in pieces


def _four_short_days() -> dict[str, object]:
    days = athlete("adult-one-leg-jumper").training.days
    return {"training": {"days": [{"day": day.day, "minutes": MINUTES} for day in days]}}


def test_four_days_of_45_minutes_miss_next_to_nothing() -> None:
    assert solve_bands(problem("adult", _four_short_days()), BUDGET).objective <= MOST_MISSED_points


@pytest.mark.long
def test_without_the_pieces_they_miss_more(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(bands, "improved_in_pieces", lambda problem, built, values, *_: (values, None, 0.0))
    assert solve_bands(problem("adult", _four_short_days()), BUDGET).objective > MOST_MISSED_points
