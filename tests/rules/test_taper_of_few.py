"""Where the reference week aims at fewer than ``small`` of a thing, its share in the taper may be one more or less."""

from __future__ import annotations

from planner.rules.taper import THOUSANDTHS, Taper
from tests.solve.demos import problem


def _sides(small: int) -> list[tuple[int | None, int | None]]:
    return [(row.low, row.high) for row in Taper().rows(problem("adult", None, {"taper": {"small": small}}))]


def test_one_more_or_less_is_allowed_from_just_below_the_small_count() -> None:
    """Only the sprints of the adult's reference week are as few."""
    sprints = problem("adult").bands[7].sprints.high
    at, under = _sides(sprints), _sides(sprints + 1)
    moved = [(before, after) for before, after in zip(at, under, strict=True) if before != after]
    assert moved == [((None, 0), (None, THOUSANDTHS)), ((0, None), (-THOUSANDTHS, None))]
