"""When a test asks for more than the old band held, more is done; near the old block only what must change changes."""

from __future__ import annotations

import dataclasses
from functools import cache

import pytest

from planner.domain.terms import LIFT_QUALITIES, Quality
from planner.problem.model import Problem, Range
from planner.problem.variable import Values
from planner.rules.recount import count_block
from planner.rules.registry import gather_rows
from planner.solve.bands import solve_bands
from planner.solve.from_block import block_values
from planner.solve.near import solve_near
from planner.solve.shortfalls import units_missed
from tests.solve.demos import problem, solved

DEMO = "in-season"


@cache
def _plain() -> Problem:
    return problem(DEMO)


def _raised(quality: Quality, quarters: int) -> Problem:
    """The demo's problem with the quality's band of every load week moved up, as a worse test would."""
    plain = _plain()
    bands = {}
    for week, of_week in plain.bands.items():
        moved = dict(of_week.quarter_sets)
        if plain.role(week) == "build":
            moved[quality] = Range(moved[quality].low + quarters, moved[quality].high + quarters)
        bands[week] = dataclasses.replace(of_week, quarter_sets=moved)
    return dataclasses.replace(plain, bands=bands)


@pytest.mark.parametrize("quality", LIFT_QUALITIES)
def test_work_rises_when_the_new_band_lies_above_the_old(quality: Quality) -> None:
    """Old work stays at or under the old band's high, new work reaches the new low: nothing is missed in either."""
    old = _plain().bands[1].quarter_sets[quality]
    raised = _raised(quality, old.high - old.low + 1)
    before, after = solve_bands(_plain()), solve_bands(raised)
    assert before.objective == 0
    short = {row.at.week: units for row, units in after.missed if row.rule == "band-sets" and row.at.of == quality}
    done = {week: _quarters(raised, after.values, week, quality) for week in (1, 2, 3)}
    assert any(week not in short for week in done)
    for week, quarters in done.items():
        if week not in short:
            assert quarters > _quarters(_plain(), before.values, week, quality)


def _quarters(planned: Problem, values: Values, week: int, quality: Quality) -> int:
    return sum(e.dosage.quarter_sets.get(quality, 0) * values.get(e.key, 0) for e in planned.week_entries(week))


def test_near_the_old_block_the_same_test_changes_nothing() -> None:
    demo = solved(DEMO)
    again = solve_near(demo.problem, demo.block)
    assert again.proof.stages[-1].objective == 0


def test_near_the_old_block_a_changed_test_changes_only_what_it_must() -> None:
    """The fewest changes are proved, and none of them can be taken back alone."""
    demo = solved(DEMO)
    quality: Quality = "calf-ankle"
    done = max(4 * week.quality_sets(quality) for week in count_block(demo.block, demo.problem).weeks[:3])
    raised = _raised(quality, round(done) + 1 - demo.problem.bands[1].quarter_sets[quality].low)
    near = solve_near(raised, demo.block)
    stage = near.proof.stages[-1]
    assert stage.status == "optimal"
    assert (stage.objective or 0) > 0
    old, rows = block_values(demo.block, near.problem), gather_rows(near.problem)
    allowed = {row.key: units for row, units in near.missed}
    for key, value in near.values.items():
        if key.kind in ("sets", "in") and value != old[key]:
            back = {**near.values, key: old[key]}
            assert any(units_missed(row, back) > allowed.get(row.key, 0) for row in rows), key
