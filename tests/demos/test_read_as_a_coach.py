"""The shipped demo blocks, read week by week as a coach would; common practice, no source, unless a line names one."""

from __future__ import annotations

from functools import cache
from itertools import pairwise

import pytest

from planner.audit import audit
from planner.domain.terms import QUALITIES
from planner.estimate.strength import reps_to_failure
from planner.rules.recount import Plan, count_block
from tests.solve.demos import DEMOS, solved

PATTERNS = (
    "squat",
    "hinge",
    "single-leg-hip",
    "knee-dominant",
    "straight-knee-calf",
    "bent-knee-calf",
    "frontal-plane",
)
ABOUT_A_REPETITION = 1.25  # plates are rounded
LEAST_TAPER_INTENSITY = 0.9  # of the reference week's percentage
TAPER = (0.41, 0.59)  # Bosquet et al. 2007, MSSE 39:1358
SMALL, ONE_WHERE_SMALL = 8, 1  # of five sprints no whole number lies in the share: one more or less is allowed
FAST = ("jump", "sprint", "skill")


@cache
def plan_of(demo: str) -> Plan:
    made = solved(demo)
    return count_block(made.block, made.problem)


every_demo = pytest.mark.parametrize("demo", DEMOS)


@every_demo
def test_every_band_is_met_and_proved_over_the_whole_library(demo):
    block, problem = solved(demo).block, solved(demo).problem
    assert (block.proof.status, block.proof.scope, block.proof.stages[0].objective) == ("optimal", "library", 0)
    assert audit(block, problem) == []


@every_demo
def test_jumps_and_sprints_come_before_lifts(demo):
    for week in plan_of(demo).weeks:
        for session in week.sessions:
            fast = [item.movement.kind in FAST for item in session.items]
            assert fast == sorted(fast, reverse=True), session.where


@every_demo
def test_hard_days_keep_their_hours_from_each_other_and_from_matches(demo):
    problem, plan = solved(demo).problem, plan_of(demo)
    hard = [s.date for w in plan.weeks for s in w.sessions if s.is_hard(problem)]
    matches = [date for date, day in problem.sport.items() if day.match]
    assert all((b - a).days >= 2 for a, b in pairwise(hard))
    assert not [date for date in hard for match in matches if 0 <= (match - date).days < 2]


@every_demo
def test_the_taper_halves_the_reference_week(demo):
    problem, plan = solved(demo).problem, plan_of(demo)
    taper, reference = plan.weeks[-1], plan.week(problem.template.reference_week)
    test_jumps = sum(session.tier_contacts("high") for session in taper.sessions if session.is_test)
    for now, then, fixed in [
        (taper.working_sets, reference.working_sets, 0),
        (taper.contacts, reference.contacts, 0),
        (taper.tier_contacts("high"), reference.tier_contacts("high"), test_jumps),
        (taper.sprint_efforts, reference.sprint_efforts, 0),
    ]:
        one = ONE_WHERE_SMALL if then < SMALL else 0
        most = max(TAPER[1] * then + one, fixed)  # the test's own jumps are no choice
        assert TAPER[0] * then - one <= now <= most or then == 0


def test_load_rises_in_build_falls_in_sets_at_the_deload_and_stays_in_the_taper():
    plan = plan_of("adult")
    squats = [next(i.item for i in w.items if "squat" in i.movement.patterns) for w in plan.weeks]
    loads = [item.load_kg for item in squats]
    assert loads[0] < loads[1] < loads[2] and loads[4] < loads[5] < loads[6]
    assert plan.weeks[3].working_sets <= 0.6 * plan.weeks[2].working_sets
    assert squats[7].percent >= LEAST_TAPER_INTENSITY * squats[6].percent


@every_demo
def test_every_load_and_deload_week_trains_every_pattern(demo):
    for week in plan_of(demo).weeks[:-1]:
        trained = {pattern for item in week.items if item.works for pattern in item.movement.patterns}
        assert set(PATTERNS) <= trained, week.number


@every_demo
def test_load_reps_and_reserve_agree(demo):
    table = plan_of(demo).problem.load_table
    for week in plan_of(demo).weeks:
        for counted in week.items:
            item = counted.item
            if item.percent is not None and item.reps_in_reserve is not None and item.percent >= 70:
                off = item.reps + item.reps_in_reserve - reps_to_failure(item.percent, table=table)
                assert abs(off) <= ABOUT_A_REPETITION, item


@every_demo
def test_the_block_ends_with_its_test(demo):
    assert plan_of(demo).weeks[-1].sessions[-1].is_test


def test_the_novice_gets_no_drop_jump_and_no_high_tier():
    for week in plan_of("youth").weeks:
        for item in week.items:
            assert item.movement.jump is None or not item.movement.jump.rebound or item.movement.jump.drop is None
            assert item.item.tier != "high"


def test_work_follows_the_gap():
    block, problem = solved("adult").block, solved("adult").problem
    tilt = {line.quality: line.emphasis for line in block.gap.qualities}
    assert max(QUALITIES, key=lambda quality: tilt[quality]) == "calf-ankle"
    plain = problem.level.weeks[0].sets
    band = block.weeks[0].bands.working_sets["calf-ankle"]
    assert (band.low + band.high) / 2 > plain["calf-ankle"] * 0.99
