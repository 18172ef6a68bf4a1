"""Work that no wave's percentage leads: a novice's tested lifts, work without a load, loads that the gym lacks."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise
from typing import Any

import pytest

from planner.domain.terms import LOAD_ROLES
from planner.problem.dosage import dose_movement
from planner.problem.loads import BODY_WEIGHT, NO_CLOSER, Lift, Prescription, prescribe
from planner.problem.model import Dosage, Problem
from planner.problem.rising_work import own_week
from planner.rules.load_agrees import LoadAgrees
from planner.rules.recount import count_block
from tests.solve.demos import problem, shipped_library, solved, template

MANY = tuple(f"{kg} kg" for kg in (5, 10, 12.5, 15, 17.5, 20, 22.5, 25, 27.5, 30))
BAND = 0.5 + 1e-9  # reps are whole: half a repetition off the table at most
TESTED_RISE = (1.10, 1.25)  # of the load in hand over six load weeks, one dumbbell to the next


def novice(dumbbells: Sequence[str] = MANY) -> Problem:
    """The young demo athlete, who tested 20 kg x 7 with three left, in a gym with these dumbbells."""
    return problem("youth", athlete_changes={"equipment": {"dumbbells": list(dumbbells)}})


def dosage(planned: Problem, movement: str, week: int) -> Dosage:
    return next(entry.dosage for entry in planned.week_entries(week) if entry.movement.id == movement)


def prescribed(planned: Problem, movement: str, week: int) -> Prescription:
    return prescribe(planned, planned.library[movement], dosage(planned, movement, week), week)


def load_weeks(planned: Problem) -> list[int]:
    return [week for week in planned.weeks if planned.role(week) in LOAD_ROLES]


def test_a_novice_adds_reps_and_then_takes_the_next_load() -> None:
    planned = novice()
    found = [prescribed(planned, "goblet-squat", week) for week in load_weeks(planned)]
    for before, after in pairwise(found):
        assert (after.load_kg or 0) >= (before.load_kg or 0)
        if after.load_kg == before.load_kg:
            assert (after.reps or 0) >= (before.reps or 0)
    low, high = TESTED_RISE
    assert low <= (found[-1].load_kg or 0) / (found[0].load_kg or 1) <= high


def test_a_novice_keeps_the_reserve_and_stays_in_the_range() -> None:
    planned = novice()
    assert planned.template.progress is not None
    fewest, most = planned.template.progress.novice_reps
    for week in load_weeks(planned):
        found, asked = prescribed(planned, "goblet-squat", week), dosage(planned, "goblet-squat", week)
        assert found.reserve == asked.reserve
        assert fewest <= (found.reps or 0) <= most
        assert found.percent is None


def test_the_last_load_week_asks_more_than_the_test() -> None:
    planned = novice()
    best_kg, body_kg = planned.one_rm_kg["goblet-squat", "both"], planned.athlete.body_mass
    last = prescribed(planned, "goblet-squat", load_weeks(planned)[-1])
    shown_kg = ((last.load_kg or 0) + body_kg) * (1 + ((last.reps or 0) + (last.reserve or 0)) / 30)  # Epley
    assert shown_kg > best_kg + body_kg


def test_the_planned_maximum_is_so_many_percent_more_for_each_week_before() -> None:
    """By hand: 2.5 % a week; six weeks lie between the first load week and week 7."""
    planned = novice()
    best_kg = planned.one_rm_kg["goblet-squat", "both"]
    lift = Lift(planned, planned.library["goblet-squat"], best_kg * 1.15)
    found = prescribed(planned, "goblet-squat", 7)
    assert abs(lift.reps(found.load_kg or 0) - (found.reps or 0) - (found.reserve or 0)) <= BAND


def test_an_easy_week_and_the_taper_take_no_more_load_than_the_week_before() -> None:
    planned = novice()
    assert (prescribed(planned, "goblet-squat", 4).load_kg or 0) <= (
        prescribed(planned, "goblet-squat", 3).load_kg or 0
    )
    assert (prescribed(planned, "goblet-squat", 8).load_kg or 0) <= (
        prescribed(planned, "goblet-squat", 7).load_kg or 0
    )


def test_without_the_section_a_novice_goes_by_the_wave() -> None:
    planned = novice()
    before = planned.template.model_copy(update={"progress": None})
    for movement in ("goblet-squat", "bent-knee-calf-raise"):
        wave = before.schemes[planned.library[movement].dose.scheme].weeks
        doses = [
            dose_movement(
                planned.library[movement], template=before, week=week, take_off="two-leg", least_reserve=0,
                load_table=planned.load_table, is_novice=True,
            )
            for week in planned.weeks
        ]  # fmt: skip
        assert [(dose.reps, dose.reserve) for dose in doses] == [(week.reps, week.reserve) for week in wave]


def test_a_novice_s_untested_lift_keeps_its_reps_within_a_phase() -> None:
    planned = novice()
    reps = {week: dosage(planned, "heel-raised-goblet-squat", week).reps for week in load_weeks(planned)}
    assert [reps[week] for week in (5, 6, 7)] == [reps[5]] * 3


def test_where_the_heaviest_load_is_too_light_the_tempo_slows() -> None:
    found = prescribed(novice(("5 kg",)), "goblet-squat", 7)
    assert (found.load_kg, found.reserve, found.note) == (5, None, NO_CLOSER)


@pytest.mark.parametrize("demo", ["adult", "youth", "in-season"])
def test_without_a_load_reps_rise_each_load_week_and_no_reserve_is_said(demo: str) -> None:
    planned = problem(demo)
    for movement in ("bent-knee-calf-raise", "one-leg-squat-60", "kneeling-lean-back"):
        doses = [dosage(planned, movement, week) for week in load_weeks(planned)]
        assert all(dose.reserve is None for dose in doses)
        reps = [dose.reps or 0 for dose in doses]
        assert reps == sorted(reps)
        assert reps[-1] > reps[0] or reps[0] >= 15


def test_reps_without_a_load_stop_at_the_most() -> None:
    planned = problem("adult", template_changes={"progress": {"most_unloaded_reps": 10}})
    assert max(dosage(planned, "bent-knee-calf-raise", week).reps or 0 for week in planned.weeks) == 10


def _in_a_gym(dumbbells: tuple[float, ...], **changes: Any) -> Prescription:
    """The in-season player's squat as if it were held, with dumbbells alone."""
    planned = problem("in-season")
    squat = planned.library["back-squat"]
    held = squat.model_copy(update={"dose": squat.dose.model_copy(update={"implement": "dumbbell"})})
    gym = planned.athlete.equipment.model_copy(update={"dumbbells": dumbbells})
    there = replace(planned, athlete=planned.athlete.model_copy(update={"equipment": gym}))
    dose = replace(dosage(planned, "back-squat", 1), **{"percent": None, **changes})
    return prescribe(there, held, dose, 1)


def test_a_tested_lift_takes_what_the_gym_has_with_the_reps_that_go_with_it() -> None:
    """93 kg is 85 % of the 109.5 kg maximum: six to failure, so four leave two; the wave asks for eight."""
    found = _in_a_gym((93.0,), reps=8, reserve=2)
    assert (found.load_kg, found.reps, found.reserve) == (93.0, 4, 2)


def test_where_the_lightest_load_is_too_heavy_body_weight_is_offered_with_its_reps() -> None:
    """The adult's tested one-leg raise, with a maximum so low that the bar alone goes for fewer than three."""
    planned = problem("adult")
    raise_ = planned.library["loaded-one-leg-calf-raise"]
    body_kg = raise_.dose.body_mass_share * planned.athlete.body_mass
    weak = replace(planned, one_rm_kg={(raise_.id, "left"): body_kg / 0.75 - body_kg})  # body weight goes ten times
    found = prescribe(weak, raise_, replace(dosage(planned, raise_.id, 2), reps=8, reserve=2, percent=None), 2)
    assert (found.reps, found.reserve, found.load_kg, found.note) == (8, None, None, BODY_WEIGHT)


def test_a_load_too_heavy_for_the_fewest_reps_is_not_offered() -> None:
    assert _in_a_gym((105.0,), reps=8, reserve=2).note == "find the load that leaves 2"


def test_body_weight_that_is_enough_leaves_no_reserve_to_tell() -> None:
    planned = problem("adult")
    movement = planned.library["heel-raised-one-leg-squat"]
    found = prescribe(planned, movement, replace(dosage(planned, movement.id, 1), percent=50.0), 1)
    assert (found.load_kg, found.reserve, found.note) == (None, None, BODY_WEIGHT)


def test_the_audit_compares_a_novice_s_load_with_the_week_s_maximum() -> None:
    """The same block, audited as if a novice gained ten percent a week: the last weeks are then too light."""
    planned = problem("youth")
    gained = problem("youth", template_changes={"progress": {"novice_gain_percent_a_week": 10.0}})
    block = solved("youth").block
    assert list(LoadAgrees().audit(count_block(block, planned))) == []
    assert list(LoadAgrees().audit(count_block(block, gained))) != []


@pytest.mark.parametrize("lightest", ["7.5 kg", "10 kg", "17.5 kg"])
def test_whatever_the_gym_has_the_audit_finds_a_novice_s_load_right(lightest: str) -> None:
    """Every week of the block as printed, easy weeks and the taper too: reps and reserve agree with the load."""
    dumbbells = MANY[MANY.index(lightest) :] if lightest in MANY else (lightest, *MANY[3:])
    planned = novice(dumbbells)
    most_off = planned.template.loads.agree_reps
    for week in planned.weeks:
        found = prescribed(planned, "goblet-squat", week)
        gained_kg = planned.one_rm_kg["goblet-squat", "both"] * (1 + 0.025 * (week - 1))
        going = Lift(planned, planned.library["goblet-squat"], gained_kg).reps(found.load_kg or 0)
        if found.reserve is not None and going < 99:
            assert abs((found.reps or 0) + found.reserve - going) <= most_off, (week, found)


def test_a_novices_reps_do_not_fall_within_a_phase_and_begin_anew_in_the_next() -> None:
    """The wave goes 6, 6, 4, then easy 5, then 4, 3, 2, then 2: the second phase's most is its own."""
    shape, squat = template("eight-week"), shipped_library()["back-squat"]
    assert [week.reps for week in shape.schemes[squat.dose.scheme].weeks] == [6, 6, 4, 5, 4, 3, 2, 2]
    assert [own_week(shape, squat, week, True).reps for week in range(1, 9)] == [6, 6, 6, 5, 4, 4, 4, 2]
    assert [own_week(shape, squat, week, False).reps for week in range(1, 9)] == [6, 6, 4, 5, 4, 3, 2, 2]


def test_more_reps_and_reserve_than_the_table_knows_take_its_lightest_load_unless_the_template_is_older() -> None:
    """Ten reps with four left are fourteen; the table ends at twelve, with 70 % of 109.5 kg."""
    planned = problem("in-season")
    squat = planned.library["back-squat"]
    assert max(planned.load_table) == 12 and planned.load_table[12] == 70.0
    long_set = replace(dosage(planned, "back-squat", 1), percent=None, reps=10, reserve=4)
    loads = planned.template.loads.model_copy(update={"most_reps_off": 5.0})
    near = replace(planned, template=planned.template.model_copy(update={"loads": loads}))
    older = replace(near, template=near.template.model_copy(update={"progress": None}))
    assert prescribe(near, squat, long_set, 1).load_kg == 77.5  # of steps of 2.5 kg the nearest to 76.6
    assert prescribe(older, squat, long_set, 1).load_kg is None
