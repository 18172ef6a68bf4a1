"""Every "no" as a coach reads it, pinned whole; and each held to be true and minimal by another solver."""

from __future__ import annotations

import pytest

from planner.solve.conflict import coarse
from planner.solve.refute import is_structural
from tests.conflicts.scenarios import NAMES, Scenario, scenario
from tests.independence.highs import INFEASIBLE, OPTIMAL, solve_with_highs

TIME_LIMIT_s = 60.0
MOST_GROUPS = 12  # of larger conflicts so many are left out in turn, spread over all of them

# Some take half a minute each: the whole cases run under long, the quickest always.
QUICK = ("matches-too-dense", "practices-that-fill-a-sore-knee", "two-pins-that-clash")
each = pytest.mark.parametrize(
    "name", [name if name in QUICK else pytest.param(name, marks=pytest.mark.long) for name in NAMES]
)


@each
def test_the_whole_text(name: str) -> None:
    found = scenario(name)
    assert found.told == found.expected


@each
def test_the_conflict_alone_is_infeasible_by_another_solver(name: str) -> None:
    found = scenario(name)
    assert found.conflict is not None
    rows = [*_frame(found), *found.conflict.rows]
    assert solve_with_highs(found.problem, rows, time_limit_s=TIME_LIMIT_s).status == INFEASIBLE


@each
def test_without_any_one_group_the_rest_holds_by_another_solver(name: str) -> None:
    found = scenario(name)
    assert found.conflict is not None and found.conflict.minimal
    groups = list(dict.fromkeys((row.rule, coarse(row)) for row in found.conflict.rows))
    step = -(-len(groups) // MOST_GROUPS)
    for group in groups[::step]:
        rest = [row for row in found.conflict.rows if (row.rule, coarse(row)) != group]
        answer = solve_with_highs(found.problem, [*_frame(found), *rest], time_limit_s=TIME_LIMIT_s)
        assert answer.status == OPTIMAL, f"{name}: still no block without {group}"


def _frame(found: Scenario) -> list:  # type: ignore[type-arg]
    """What a block is, in the phase that the conflict speaks of: rows that are never to blame."""
    return [row for row in found.asked if is_structural(row)]
