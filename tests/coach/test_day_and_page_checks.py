"""Checks of days, sentences, the retest sheet, the taper and warm-ups: each fires, and leaves another block alone."""

from __future__ import annotations

import datetime
from dataclasses import replace

import pytest

from planner.domain.block import TestLine
from tests.coach.block_read import Read, card_layout
from tests.coach.checks import days, retest, sentences, taper_and_steps, warm_ups
from tests.coach.made import TESTED, TOUCH, Case, Day, do, made, short

FULL, FIVE = "full-approach-jump-one-leg", "five-step-jump-one-leg"
SORE = {"joints": [{"joint": "achilles-ankle", "side": "left", "pain": 1}]}
MATCH = {"matches": [{"day": "sun", "minutes": 60, "hardness": "hard", "contacts": 60}]}
SLOW_BOX = {"kind": "drop-jump", **TESTED, "drop": "30 cm", "trials": [{"contact": "0.245 s", "flight": "0.4 s"}]}
QUICK_BOX = {"kind": "drop-jump", **TESTED, "drop": "30 cm", "trials": [{"contact": "0.18 s", "flight": "0.4 s"}]}
LOW = "the rebound is low: stiff but low, so its force flatters"
NOT_YET = {"landing": "not-yet"}
SAID = "Tuesday is left out: no minutes."
SHORT_RUNWAY = {"equipment": {"runway": "20 m"}}
DAY_0 = datetime.date(2025, 9, 5)
EASY_WHY = "One-leg strength on a day that is easy on the tendons."


def _asked(kind: str, *how: str, movement: str | None = None) -> TestLine:
    return TestLine(kind=kind, movement=movement, how=how, date=DAY_0, result="as it was")


def turned(read: Read) -> Read:
    """The same, on a sheet that asks for the tests the other way round."""
    tests = dict(reversed(read.layout.tests.items()))
    return replace(read, layout=read.layout.model_copy(update={"tests": tests}))


TARGET = _asked("touch", "one-leg left, off a run-up")
HALF = "the way to the target is 50 % limited by calf strength and 50 % limited by fast force and speed."
SPRINTS = [do("acceleration-20", 4, 1)]
SPLIT = "rear-foot-split-squat"

CASES = [
    Case(
        sentences.easy_day_is_easy,
        fires=made(("build", {"mon": SPRINTS, "tue": Day([do("one-leg-pogo", 4, 10)], why=EASY_WHY)})),
        quiet=made(("build", {"mon": SPRINTS, "tue": Day([do("one-leg-pogo", 1, 10)], why=EASY_WHY)})),
    ),
    Case(
        sentences.reason_names_what_is_there,
        fires=made(("build", {"mon": Day([do("box-jump", 3, 5)], why="The jump itself off the run-up, while fresh.")})),
        quiet=made(("build", {"mon": Day([do(FULL, 3, 1)], why="The jump itself off the run-up, while fresh.")})),
    ),
    Case(
        sentences.percent_says_of_what,
        fires=made(("build", {"mon": [do("heel-raised-one-leg-squat", 3, 8, kg=20, percent=70)]})),
        quiet=made(("build", {"mon": [do("back-squat", 3, 8, kg=90, percent=70)]})),
    ),
    Case(
        sentences.stiff_is_quick,
        fires=made(("build", {"mon": SPRINTS}), athlete={"tests": [TOUCH, SLOW_BOX]}, notes=[LOW]),
        quiet=made(("build", {"mon": SPRINTS}), athlete={"tests": [TOUCH, QUICK_BOX]}, notes=[LOW]),
    ),
    Case(
        sentences.enough_is_not_short,
        fires=made(("build", {"mon": SPRINTS}), qualities=[short("speed-exposure", 0.04)],
                   story=["The tests say: short of calf strength by 11 %; enough fast force and speed."]),
        quiet=made(("build", {"mon": SPRINTS}), qualities=[short("speed-exposure", 0.01)],
                   story=["The tests say: short of calf strength by 11 %; enough fast force and speed."]),
    ),
    Case(
        sentences.limits_are_not_halves,
        fires=made(("build", {"mon": SPRINTS}), shares=(0.5, 0.5), story=[HALF]),
        quiet=made(("build", {"mon": SPRINTS}), shares=(0.6, 0.4), story=[HALF.replace("50", "60", 1)]),
    ),
    Case(
        sentences.dropped_day_is_said,
        fires=made(("build", {"mon": SPRINTS, "thu": SPRINTS, "sat": SPRINTS})),
        quiet=made(("build", {"mon": SPRINTS, "thu": SPRINTS, "sat": SPRINTS}), notes=[SAID]),
    ),
    Case(
        days.day_after_hard_is_easy,
        fires=made(("build", {"mon": Day(SPRINTS, hard=True), "tue": [do("one-leg-pogo", 5, 10)]})),
        quiet=made(("build", {"mon": Day(SPRINTS, hard=True), "tue": [do("one-leg-pogo", 2, 10)]})),
    ),
    Case(
        days.sore_tendon_jumps_little,
        fires=made(("build", {"mon": [do(FULL, 5, 1)], "sat": [do(FULL, 5, 1)]}), athlete=SORE),
        quiet=made(("build", {"mon": [do(FULL, 4, 1)], "thu": [do(FULL, 4, 1)]}), athlete=SORE),
    ),
    Case(
        days.no_maximal_jump_after_a_match,
        fires=made(("build", {"mon": [do(FULL, 5, 1)]}), athlete=MATCH),
        quiet=made(("build", {"mon": [do(FIVE, 5, 1)], "tue": [do(FULL, 5, 1)]}), athlete=MATCH),
    ),
    Case(
        days.calf_rests_a_day,
        fires=made(("build", {day: [do("loaded-one-leg-calf-raise", 2, 8, kg=20)] for day in ("mon", "tue")})),
        quiet=made(("build", {day: [do("loaded-one-leg-calf-raise", 2, 8, kg=20)] for day in ("mon", "thu")})),
    ),
    Case(
        days.fresh_legs_are_fresh,
        fires=made(("build", {"mon": [do(SPLIT, 3, 8)], "tue": Day(SPRINTS, why="Sprints on fresh legs.")})),
        quiet=made(("build", {"mon": [do(SPLIT, 3, 8)], "thu": Day(SPRINTS, why="Sprints on fresh legs.")})),
    ),
    Case(
        days.minutes_are_spread,
        fires=made(("build", {"mon": Day(SPRINTS, minutes=74), "tue": Day(SPRINTS, minutes=38)})),
        quiet=made(("build", {"mon": Day(SPRINTS, minutes=74), "tue": Day([do("pogo", 2, 10)], minutes=20)})),
    ),
    Case(
        days.new_hinges_on_different_days,
        fires=made(("build", {"mon": [do("straight-bar-hinge", 3, 5), do("one-leg-hinge", 3, 8)]})),
        quiet=made(("build", {"mon": [do("straight-bar-hinge", 3, 5)], "thu": [do("one-leg-hinge", 3, 8)]})),
    ),
    Case(
        days.landing_work_to_the_end,
        fires=made(("taper", {"mon": [do("pogo", 2, 10)]}), athlete=NOT_YET),
        quiet=made(("taper", {"mon": [do("pogo", 2, 10), do("one-leg-snap-down", 1, 4)]}), athlete=NOT_YET),
    ),
    Case(
        retest.target_jump_is_tested_first,
        fires=turned(made(("build", {"mon": SPRINTS}), asked=[TARGET, _asked("squat-jump", "two-leg")])),
        quiet=made(("build", {"mon": SPRINTS}), asked=[TARGET, _asked("drop-jump", "off a box of 30 cm")]),
    ),
    Case(
        retest.strength_is_tested_last,
        fires=turned(made(("build", {"mon": SPRINTS}), asked=[TARGET, _asked("loaded-jump", "squat")])),
        quiet=made(("build", {"mon": SPRINTS}), asked=[TARGET, _asked("lift", movement="Back squat, full depth")]),
    ),
    Case(
        retest.primer_wakes_the_jump,
        fires=made(("taper", {"thu": [do("skips-for-distance", 1, 5)], "sat": []})),
        quiet=made(("taper", {"thu": [do("pogo", 2, 10), do("rolling-start-15", 2, 1), do(FIVE, 3, 1)], "sat": []})),
    ),
    Case(
        taper_and_steps.no_jump_grows_in_the_taper,
        fires=made(("intensify", {"mon": [do("pogo", 2, 10)]}), ("taper", {"mon": [do("pogo", 3, 10)]})),
        quiet=made(("intensify", {"mon": [do("pogo", 2, 10)]}), ("taper", {"mon": [do("pogo", 1, 10)]})),
    ),
    Case(
        taper_and_steps.one_leg_load_steps_are_small,
        fires=made(("build", {"mon": [do(SPLIT, 3, 8, kg=40)]}), ("build", {"mon": [do(SPLIT, 3, 8, kg=50)]})),
        quiet=made(("build", {"mon": [do(SPLIT, 3, 8, kg=40)]}), ("build", {"mon": [do(SPLIT, 3, 8, kg=45)]})),
    ),
    Case(
        warm_ups.warm_up_is_long_enough,
        fires=made(("build", {"mon": Day([do(FULL, 3, 1)], warm_up=12)})),
        quiet=made(("build", {"mon": Day([do(FULL, 3, 1)], warm_up=15), "tue": Day(SPRINTS, warm_up=8)})),
    ),
    Case(
        warm_ups.maximal_jumps_are_built_up_to,
        fires=replace(
            made(("build", {"mon": [do(FULL, 3, 1)]})),
            layout=card_layout().model_copy(update={"before_run_up_jumps": ()}),  # as in earlier releases
        ),
        quiet=made(("build", {"mon": [do(FIVE, 3, 1), do(FULL, 3, 1)]})),
    ),
    Case(
        warm_ups.warm_up_fits_the_runway,
        fires=made(("build", {"mon": SPRINTS}), athlete=SHORT_RUNWAY),
        quiet=made(("build", {"mon": SPRINTS})),
    ),
]  # fmt: skip


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.check.id)
def test_fires_where_a_coach_would_and_only_there(case):
    case.hold()


def test_two_days_of_full_jumps_close_together_are_too_much_for_a_sore_tendon():
    close = made(("build", {"mon": [do(FULL, 3, 1)], "tue": [do(FULL, 3, 1)]}), athlete=SORE)
    assert any("1 days" in one.says for one in days.sore_tendon_jumps_little.breaks(close) or [])


def test_a_session_without_a_jump_may_not_hold_one():
    why = "Strength without a single jump."
    fires, quiet = ([do("pogo", 2, 10)], [do("back-squat", 3, 5)])
    check = sentences.reason_names_what_is_there
    assert check.breaks(made(("build", {"mon": Day(fires, why=why)})))
    assert check.breaks(made(("build", {"mon": Day(quiet, why=why)}))) == []
