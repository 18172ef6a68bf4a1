"""Between two load phases some movements should change: what stays costs the template's points, day by day."""

from __future__ import annotations

from collections import Counter
from itertools import pairwise

import pytest

from planner.domain.terms import LOAD_ROLES
from planner.solve.from_block import chosen_in
from planner.solve.next_best import instead
from planner.solve.preferences import cost_parts, movement_cost, repeat_points, variety_rows
from planner.solve.shortfalls import units_missed
from tests.rules.as_values import as_values
from tests.rules.kept_blocks import kept_block, kept_problem, shipped_problem
from tests.solve.demos import problem


def test_points_are_for_each_further_day_of_a_varied_movement() -> None:
    planned, block = kept_problem("adult"), kept_block("adult")
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
    parts = {planned.library[row.at.movement or ""].part for row in variety_rows(planned)}
    assert parts == set(planned.template.preferences.varied_parts)
    assert not any("taper" in (row.at.phase, row.other and row.other.phase) for row in variety_rows(planned))


def test_no_points_no_rows_and_one_load_phase_has_nothing_to_vary() -> None:
    assert not list(variety_rows(problem("adult", None, {"preferences": {"repeated": 0}})))
    assert not list(variety_rows(shipped_problem("in-season")))


def test_the_points_of_one_movement_are_those_of_its_rows() -> None:
    planned, block = kept_problem("adult"), kept_block("adult")
    values, chosen = as_values(block, planned).values, chosen_in(block, planned)
    missed: Counter[str] = Counter()
    for row in variety_rows(planned):
        missed[row.at.movement or ""] += row.price * units_missed(row, values)
    for movement in planned.movements:
        assert repeat_points(planned, chosen, movement) == missed[movement.id], movement.id


def test_the_next_best_is_told_with_what_it_costs_in_variety() -> None:
    """A jump that stands on two days: another in its place is liked better by the points of one repeat."""
    planned, block = kept_problem("adult"), kept_block("adult")
    chosen = chosen_in(block, planned)
    repeated = next(m for m in planned.movements if repeat_points(planned, chosen, m))
    key = next(k for k in sorted(chosen, key=str) if k.at.movement == repeated.id and k.at.phase != "taper")
    phase, slot = key.at.phase or "", key.at.slot or 0
    unused = next(
        m for m in planned.movements if m.part == repeated.part and not any(k.at.movement == m.id for k in chosen)
    )
    plain = movement_cost(planned, unused) - movement_cost(planned, repeated)
    points = planned.template.preferences.repeated
    assert instead(block, planned, phase, slot, repeated, unused).points == plain - points


def test_a_band_costs_where_the_gym_has_iron_and_not_where_it_has_none() -> None:
    """A novice with dumbbells; the same one with bands alone; a template of an earlier release has no such price."""
    items = ["bands", "box", "step", "wall"]
    there, bare = problem("youth"), problem("youth", {"equipment": {"items": items, "dumbbells": []}})
    hinge, points = there.library["band-hinge"], there.template.preferences
    assert points.band_for_iron > 0
    assert movement_cost(there, hinge) - movement_cost(bare, hinge) == points.band_for_iron


@pytest.mark.parametrize("name", ["one-leg-full-squat", "pin-press-calf-hold"])
def test_work_without_a_load_costs_one_past_novice_whose_gym_has_iron(name: str) -> None:
    bare_gym = {"equipment": {"items": ["box", "step", "rack", "wall"], "dumbbells": [], "bar": None, "plates": []}}
    past_novice, bare, novice = problem("adult"), problem("adult", bare_gym), problem("youth")
    points = [cost_parts(planned, planned.library[name]) for planned in (past_novice, bare, novice)]
    price = past_novice.template.preferences.band_for_iron
    assert [found["it leaves the gym's bars and dumbbells unused"] for found in points] == [price, 0, 0]
