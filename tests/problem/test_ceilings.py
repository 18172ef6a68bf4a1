"""Joint-stress ceilings fall with pain, joint by joint and leg by leg, and with a minor's growth spurt."""

from __future__ import annotations

import datetime
from typing import Any

import pytest

from planner.domain.athlete import JointState
from planner.domain.findings import UserError
from planner.problem.ceilings import growth_cm_per_month, joint_ceilings, pain_at, refusing_pain
from planner.problem.model import STRESS_UNITS_PER_POINT, Ceilings, joint_legs
from tests.solve.demos import athlete, problem, template

PLAYER, YOUTH = "in-season-player", "youth-two-leg-jumper"
SHAPE = template("in-season-four-week")
BASE = SHAPE.levels["intermediate"].joint_stress
STATURES = [
    {"date": datetime.date(2025, 8, 1), "stature": "168.0 cm"},
    {"date": datetime.date(2025, 9, 1), "stature": "169.0 cm"},
]


def ceilings(joints: list[dict[str, Any]]) -> dict[Any, Ceilings]:
    return joint_ceilings(athlete(PLAYER, {"joints": joints}), SHAPE, BASE, False)


def test_without_pain_every_joint_has_the_level_s_ceilings() -> None:
    found = ceilings([])
    assert set(found) == set(joint_legs())
    for ceiling in found.values():
        assert (ceiling.session, ceiling.two_days, ceiling.week) == tuple(
            STRESS_UNITS_PER_POINT * points for points in (24, 36, 72)
        )
        assert (ceiling.tag3_session, ceiling.tag3_week) == (20, 45)


@pytest.mark.parametrize(("pain", "factor", "tag3"), [(1, 0.6, 10), (2, 0.6, 10), (3, 0.4, 0), (5, 0.4, 0)])
def test_pain_lowers_its_joint_on_its_side(pain: int, factor: float, tag3: int) -> None:
    found = ceilings([{"joint": "patellar-knee", "side": "left", "pain": pain}])
    assert found["patellar-knee", "left"].week == STRESS_UNITS_PER_POINT * 72 * factor
    assert found["patellar-knee", "left"].tag3_session == tag3
    assert {key for key, ceiling in found.items() if ceiling.week < STRESS_UNITS_PER_POINT * 72} == {
        ("patellar-knee", "left")
    }


def test_pain_without_a_side_speaks_for_both_and_the_worst_counts() -> None:
    states = [JointState(joint="hamstring", pain=1), JointState(joint="hamstring", side="right", pain=4)]
    assert (pain_at(states, "hamstring", "left"), pain_at(states, "hamstring", "right")) == (1, 4)
    assert pain_at(states, "low-back", "left") == 0


@pytest.mark.parametrize("state", [{"pain": 6}, {"pain": 1, "worse_next_morning": True}])
def test_no_block_is_planned_over_pain_that_refers(state: dict[str, Any]) -> None:
    joints = [{"joint": "achilles-ankle", "side": "left", **state}]
    assert len(refusing_pain(athlete(PLAYER, {"joints": joints}), SHAPE)) == 1
    with pytest.raises(UserError) as refused:
        problem("in-season", {"joints": joints})
    assert [finding.code for finding in refused.value.findings] == ["pain"]


def test_a_growth_spurt_lowers_a_minor_s_ceilings_and_no_adult_s() -> None:
    growing = athlete(YOUTH, {"stature_records": STATURES})
    shape = template("youth-eight-week")
    base = shape.levels["novice"].joint_stress
    growth = growth_cm_per_month(growing.stature_records, shape.youth.growth_days)
    assert growth == pytest.approx(1.0 / (31 / (365.25 / 12)))
    minor, adult = (joint_ceilings(growing, shape, base, is_minor) for is_minor in (True, False))
    assert minor["low-back", "left"].week == round(0.7 * adult["low-back", "left"].week)


def test_statures_too_close_together_say_nothing_of_growth() -> None:
    close = [STATURES[1], {"date": datetime.date(2025, 9, 8), "stature": "170.0 cm"}]
    records = athlete(YOUTH, {"stature_records": close}).stature_records
    assert growth_cm_per_month(records, template("youth-eight-week").youth.growth_days) is None
    assert growth_cm_per_month(records, least_days=8) is None
    assert growth_cm_per_month(records, least_days=7) == pytest.approx(1.0 / (7 / (365.25 / 12)))
