"""Joint-stress ceilings fall with pain, joint by joint and leg by leg, and with a minor's growth spurt."""

from __future__ import annotations

import datetime
from typing import Any

import numpy
import pytest

from planner.domain.athlete import JointState
from planner.domain.findings import UserError
from planner.problem.ceilings import growth_factor, growth_of, joint_ceilings, level_at_age, pain_at, refusing_pain
from planner.problem.model import STRESS_UNITS_PER_POINT, Ceilings, joint_legs
from tests.solve.demos import athlete, problem, template

PLAYER, YOUTH = "in-season-player", "youth-two-leg-jumper"
SHAPE = template("in-season-four-week")
BASE = SHAPE.levels["intermediate"].joint_stress


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


@pytest.mark.parametrize(
    ("state", "refused"),
    [
        ({"pain": 5}, 0),
        ({"pain": 6}, 1),
        ({"pain": 1, "worse_next_morning": True}, 1),
        ({"pain": 0, "worse_next_morning": True}, 0),
    ],
)
def test_pain_refers_above_the_last_step_or_where_it_is_worse_the_next_morning(
    state: dict[str, Any], refused: int
) -> None:
    joints = [{"joint": "achilles-ankle", "side": "left", **state}]
    assert len(refusing_pain(athlete(PLAYER, {"joints": joints}).joints, SHAPE)) == refused


@pytest.mark.parametrize("state", [{"pain": 6}, {"pain": 1, "worse_next_morning": True}])
def test_no_block_is_planned_over_pain_that_refers(state: dict[str, Any]) -> None:
    joints = [{"joint": "achilles-ankle", "side": "left", **state}]
    assert len(refusing_pain(athlete(PLAYER, {"joints": joints}).joints, SHAPE)) == 1
    with pytest.raises(UserError) as refused:
        problem("in-season", {"joints": joints})
    assert [finding.code for finding in refused.value.findings] == ["pain"]


def statures(*cm: float, days: int = 28) -> list[dict[str, object]]:
    first = datetime.date(2025, 6, 2)
    return [
        {"date": first + datetime.timedelta(days=days * number), "stature": f"{one} cm"}
        for number, one in enumerate(cm)
    ]


def test_a_growth_spurt_lowers_a_minor_s_ceilings_and_no_adult_s() -> None:
    growing = athlete(YOUTH, {"stature_records": statures(168.0, 169.0, 170.0, 171.0)})
    shape = template("youth-eight-week")
    base = shape.levels["novice"].joint_stress
    minor, adult = (joint_ceilings(growing, shape, base, is_minor) for is_minor in (True, False))
    assert minor["low-back", "left"].week == round(0.7 * adult["low-back", "left"].week)


def test_growth_is_the_slope_over_twelve_weeks_with_its_error() -> None:
    """Readings every 28 days, 1 cm apart: 30.4375 / 28 cm a month; 0.4 cm over the root of the months' spread."""
    youth = template("youth-eight-week").youth
    growth = growth_of(athlete(YOUTH, {"stature_records": statures(167.0, 168.0, 169.0, 170.0)}).stature_records, youth)
    assert growth is not None
    months = [28 / (365.25 / 12) * number for number in (-1.5, -0.5, 0.5, 1.5)]
    assert growth.cm_per_month == pytest.approx((365.25 / 12) / 28)
    assert growth.se == pytest.approx(0.4 / sum(month**2 for month in months) ** 0.5)
    older = statures(150.0, days=1) + [
        {**one, "date": one["date"] + datetime.timedelta(days=60)} for one in statures(169.0, 169.1, 169.2, 169.3)
    ]
    recent = growth_of(athlete(YOUTH, {"stature_records": older}).stature_records, youth)
    assert recent is not None
    assert recent.cm_per_month == pytest.approx(0.1 * (365.25 / 12) / 28)


@pytest.mark.parametrize("records", [[], statures(168.0, 170.0), statures(168.0, 169.0, 170.0, days=10)])
def test_too_few_or_too_close_statures_are_not_judged(records: list[dict[str, object]]) -> None:
    person = athlete(YOUTH, {"stature_records": records})
    youth = template("youth-eight-week").youth
    assert growth_of(person.stature_records, youth) is None
    assert growth_factor(person, youth) == 1.0


def test_no_growth_seldom_looks_like_a_spurt() -> None:
    """Four statures, four weeks apart, each 0.4 cm off: at most one false spurt in a hundred."""
    random = numpy.random.default_rng(4)
    youth = template("youth-eight-week").youth
    person = athlete(YOUTH, {"stature_records": statures(170.0, 170.0, 170.0, 170.0)})
    fired = 0
    for _ in range(1000):
        records = [
            one.model_copy(update={"stature": one.stature + error / 100})
            for one, error in zip(person.stature_records, random.normal(0, youth.stature_error_cm, 4), strict=True)
        ]
        growth = growth_of(records, youth)
        fired += growth is not None and growth.cm_per_month > youth.growth_cm_month
    assert fired <= 10


def test_a_template_without_the_lines_of_growth_judges_as_the_packaged_one() -> None:
    """Two readings, or readings of a whole year, are too little or too old, whatever folder they are read in."""
    youth = template("youth-eight-week").youth
    lines = ("growth_readings", "growth_weeks", "stature_error_cm")
    older = type(youth).model_validate(youth.model_dump(exclude=set(lines)))
    assert [getattr(older, line) for line in lines] == [getattr(youth, line) for line in lines]
    two = athlete(YOUTH, {"stature_records": statures(167.0, 169.0)}).stature_records
    assert growth_of(two, older) is None


@pytest.mark.parametrize(("years", "share"), [(34, 1.0), (35, 0.9), (60, 0.9)])
def test_tendons_over_an_age_have_lower_ceilings_and_joints_without_a_tendon_do_not(years: int, share: float) -> None:
    found = joint_ceilings(athlete(PLAYER, {"joints": []}), SHAPE, BASE, False, years)
    for joint in ("achilles-ankle", "patellar-knee"):
        assert found[joint, "left"].week == round(STRESS_UNITS_PER_POINT * 72 * share)
    assert found["low-back", "left"].week == STRESS_UNITS_PER_POINT * 72


def test_over_an_age_joint_stress_grows_more_slowly_unless_the_template_says_nothing_of_it() -> None:
    usual = SHAPE.levels["intermediate"].growth.joint_stress
    assert level_at_age(SHAPE, "intermediate", 34).growth.joint_stress == usual
    assert level_at_age(SHAPE, "intermediate", 35).growth.joint_stress.ratio < usual.ratio
    silent = SHAPE.model_copy(update={"older": None})
    assert level_at_age(silent, "intermediate", 60).growth.joint_stress == usual
    assert joint_ceilings(athlete(PLAYER), silent, BASE, False, 60) == joint_ceilings(
        athlete(PLAYER), silent, BASE, False
    )
