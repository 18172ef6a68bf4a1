"""Between two load phases some movements should change: what stays costs the template's points, day by day."""

from __future__ import annotations

from collections import Counter
from itertools import pairwise

from planner.domain.terms import LOAD_ROLES
from planner.solve.preferences import variety_rows
from planner.solve.shortfalls import units_missed
from tests.rules.as_values import as_values
from tests.rules.kept_blocks import kept_block, shipped_problem
from tests.solve.demos import problem


def test_points_are_for_each_further_day_of_a_varied_movement() -> None:
    planned, block = shipped_problem("adult"), kept_block("adult")
    points = planned.template.preferences
    days: dict[str, set[tuple[str, str]]] = {}
    load = list(dict.fromkeys(week.phase for week in block.weeks if week.role in LOAD_ROLES))
    for week in block.weeks:
        for session in week.sessions:
            for item in session.items:
                if week.phase in load and item.part in points.varied_parts:
                    days.setdefault(item.movement, set()).add((week.phase, f"{session.date:%a}"))
    further: Counter[str] = Counter()
    for movement, held in days.items():
        for first, second in pairwise(load):
            count = sum(phase in (first, second) for phase, _ in held)
            further[movement] += max(0, count - 1)
    values = as_values(block, planned).values
    rows = list(variety_rows(planned))
    assert sum(units_missed(row, values) for row in rows) == sum(further.values()) > 0
    assert {row.price for row in rows} == {points.repeated}


def test_main_lifts_and_calf_work_may_stay_and_a_taper_brings_nothing_new() -> None:
    planned = shipped_problem("adult")
    parts = {planned.library[row.scope.split("/")[-1]].part for row in variety_rows(planned)}
    assert parts == set(planned.template.preferences.varied_parts)
    assert not any("taper" in row.scope for row in variety_rows(planned))


def test_no_points_no_rows_and_one_load_phase_has_nothing_to_vary() -> None:
    assert not list(variety_rows(problem("adult", None, {"preferences": {"repeated": 0}})))
    assert not list(variety_rows(shipped_problem("in-season")))
