"""Loads that the gym can make, for a percentage of what the athlete can lift."""

from __future__ import annotations

import time
from dataclasses import replace

import pytest
from pydantic import ValidationError

from planner.domain.athlete import Equipment
from planner.problem.loads import Lift, loadable_kg, nearest_loadable_kg, own_maximum_kg, prescribe
from planner.problem.model import Dosage, Problem
from planner.rules.load_agrees import LoadAgrees
from planner.rules.recount import count_block
from tests.rules.kept_blocks import changed_problem, kept_block
from tests.solve.demos import problem

TOLERANCE_percent = 0.05  # printed to a tenth
MOST_SECONDS_FOR_A_RICH_GYM = 1.0
STEP_kg = 2.5  # of machines; bars and dumbbells have their own


def gym(bar: str | None = "20 kg", plates: tuple[str, ...] = (), dumbbells: tuple[str, ...] = ()) -> Equipment:
    lines = {"bar": bar, "plates": list(plates), "dumbbells": list(dumbbells)}
    return Equipment.model_validate({key: value for key, value in lines.items() if value is not None})


def test_a_bar_takes_every_sum_of_its_pairs() -> None:
    found = loadable_kg(gym(plates=("10 kg", "5 kg", "2.5 kg")), "barbell")
    assert found == [20, 25, 30, 35, 40, 45, 50, 55]


def test_two_pairs_of_one_plate_can_both_go_on() -> None:
    assert loadable_kg(gym(plates=("10 kg", "10 kg")), "barbell") == [20, 40, 60]


def test_without_a_bar_no_bar_load_and_without_plates_the_bar_alone() -> None:
    assert loadable_kg(gym(bar=None, plates=("10 kg",)), "barbell") == []
    assert loadable_kg(gym(), "barbell") == [20]


def test_dumbbells_are_what_is_there_one_or_two_of_them() -> None:
    there = gym(dumbbells=("10 kg", "5 kg"))
    assert loadable_kg(there, "dumbbell") == [5, 10]
    assert loadable_kg(there, "pair-of-dumbbells") == [10, 20]


def test_plates_that_give_more_loads_than_any_gym_are_refused() -> None:
    odd = tuple(f"{1 + 0.617 * n * n % 7:.3f} kg" for n in range(90))
    with pytest.raises(ValidationError, match="different loads"):
        gym(plates=odd)
    with pytest.raises(ValidationError, match="pairs of plates"):
        gym(plates=("20 kg",) * 101)


def test_a_gym_with_many_plates_is_summed_at_once() -> None:
    rich = gym(plates=("25 kg", "20 kg", "15 kg", "10 kg", "5 kg", "2.5 kg", "1.25 kg") * 6)
    start = time.process_time()  # of the process: what else the machine does is no matter
    assert len(loadable_kg(rich, "barbell") or []) > 100
    assert time.process_time() - start < MOST_SECONDS_FOR_A_RICH_GYM


@pytest.mark.parametrize(("wanted_kg", "load_kg"), [(19, 20), (22.4, 20), (22.5, 20), (22.6, 25), (300, 55)])
def test_the_nearest_load_is_taken_the_lighter_of_two_as_near(wanted_kg: float, load_kg: float) -> None:
    assert nearest_loadable_kg(gym(plates=("10 kg", "5 kg", "2.5 kg")), "barbell", wanted_kg, STEP_kg) == load_kg


def test_nothing_is_nearest_where_there_is_nothing_and_machines_have_steps() -> None:
    assert nearest_loadable_kg(gym(), "dumbbell", 12, STEP_kg) is None
    assert nearest_loadable_kg(gym(), "machine", 41, STEP_kg) == 40
    assert nearest_loadable_kg(gym(), "machine", 41, 7.0) == 42


def _dose(planned: Problem, movement: str, **changes: object) -> Dosage:
    found = next(entry.dosage for entry in planned.week_entries(1) if entry.movement.id == movement)
    return replace(found, **changes)  # type: ignore[arg-type]


def _without_progress(planned: Problem) -> Problem:
    """As with a template of an earlier release, which offers no other reps where the gym lacks a load."""
    return replace(planned, template=planned.template.model_copy(update={"progress": None}))


def test_a_percentage_acts_on_the_bar_for_a_squat() -> None:
    planned = problem("in-season")
    best_kg = planned.one_rm_kg["back-squat", "both"]
    found = prescribe(planned, planned.library["back-squat"], _dose(planned, "back-squat"), 1)
    assert found.load_kg == 87.5  # 80 % of 109.5 is 87.6; the gym makes steps of 2.5
    assert found.percent == pytest.approx(100 * 87.5 / best_kg, abs=TOLERANCE_percent)


def test_a_percentage_acts_on_the_system_for_a_one_leg_squat() -> None:
    planned = problem("adult")
    movement = planned.library["heel-raised-one-leg-squat"]
    share = movement.dose.body_mass_share
    body_kg = share * planned.athlete.body_mass
    best_kg = min(kg for (lift, _), kg in planned.one_rm_kg.items() if lift == movement.id)
    dose = _dose(planned, movement.id, reps=4, reserve=2, percent=None)  # six to failure: 85 %
    found = prescribe(planned, movement, dose, 1)
    wanted_kg = 0.85 * (best_kg + body_kg) - body_kg
    assert share > 0 and wanted_kg > 0
    assert found.load_kg == nearest_loadable_kg(planned.athlete.equipment, movement.dose.implement, wanted_kg, STEP_kg)
    assert found.percent == pytest.approx(
        100 * ((found.load_kg or 0) + body_kg) / (best_kg + body_kg), abs=TOLERANCE_percent
    )


def test_body_weight_is_enough_where_the_system_asks_for_no_more() -> None:
    planned = problem("adult")
    movement = planned.library["heel-raised-one-leg-squat"]
    found = prescribe(planned, movement, _dose(planned, movement.id, percent=50.0), 1)
    assert (found.load_kg, found.note) == (None, "body weight is enough")


def test_the_weaker_leg_sets_the_load_of_both() -> None:
    planned = problem("adult")
    legs = {side: kg for (lift, side), kg in planned.one_rm_kg.items() if lift == "rear-foot-split-squat"}
    assert legs["left"] < legs["right"]
    movement = planned.library["rear-foot-split-squat"]
    alone = replace(planned, one_rm_kg={("rear-foot-split-squat", "left"): legs["left"]})
    dose = _dose(planned, movement.id)
    assert prescribe(planned, movement, dose, 1) == prescribe(alone, movement, dose, 1)


def test_an_untested_lift_says_how_to_find_the_load() -> None:
    planned = problem("in-season")
    found = prescribe(planned, planned.library["straight-bar-hinge"], _dose(planned, "straight-bar-hinge"), 1)
    assert (found.load_kg, found.percent, found.note) == (None, None, "find the load that leaves 3")


def test_how_far_a_load_may_be_from_its_wave_is_the_template_s() -> None:
    shipped = problem("in-season")
    strict = _without_progress(problem("in-season", template_changes={"loads": {"most_reps_off": 0.0}}))
    movement, dose = shipped.library["back-squat"], _dose(shipped, "back-squat")
    assert prescribe(shipped, movement, dose, 1).load_kg is not None
    assert prescribe(strict, movement, dose, 1).load_kg is None  # the gym's nearest is not the wave's to the gram


@pytest.mark.parametrize(
    ("changes", "agrees"), [({}, True), ({"agree_reps": 0.1}, False), ({"agree_percent": 0.01}, False)]
)
def test_how_well_a_card_agrees_is_the_template_s(changes: dict[str, float], agrees: bool) -> None:
    planned = changed_problem("adult", template={"loads": changes})
    found = list(LoadAgrees().audit(count_block(kept_block("adult"), planned)))
    assert (not found) is agrees


def test_the_test_s_own_jumps_take_the_template_s_time() -> None:
    planned = problem("adult", template_changes={"test_day": {"jump_s": 20}})
    (test,) = (entry for entry in planned.week_entries(planned.last_week) if entry.movement.id == planned.retest.id)
    assert test.dosage.set_seconds == 20 + planned.template.test_day.rest_s


def test_a_machine_in_steps_of_a_gram_takes_the_percentage_to_the_gram() -> None:
    """Of bar and half of body mass together, where half of it is lifted along."""
    planned = problem("in-season", template_changes={"loads": {"machine_step_kg": 0.001}})
    squat = planned.library["back-squat"]
    best_kg, body_kg = planned.one_rm_kg["back-squat", "both"], planned.athlete.body_mass / 2
    dose = _dose(planned, "back-squat", reps=5, reserve=2, percent=None)  # seven to failure
    share = planned.load_table[7] / 100
    for moved, wanted_kg in ((0.0, share * best_kg), (0.5, share * (best_kg + body_kg) - body_kg)):
        on_machine = squat.dose.model_copy(update={"implement": "machine", "body_mass_share": moved})
        found = prescribe(planned, squat.model_copy(update={"dose": on_machine}), dose, 1)
        assert found.load_kg == pytest.approx(wanted_kg, abs=0.0006)
        assert found.percent == pytest.approx(100 * share, abs=TOLERANCE_percent)
        assert found.note is None


def test_a_load_that_is_further_off_than_the_template_allows_is_to_be_found() -> None:
    """Two dumbbells alone: the nearest is a repetition or more off, by the load-repetition table.

    So in a template that offers no other reps for it.
    """
    planned = _without_progress(problem("in-season"))
    squat = planned.library["back-squat"]
    dose = _dose(planned, "back-squat", reps=5, reserve=2, percent=None)
    best_kg, table = planned.one_rm_kg["back-squat", "both"], planned.load_table
    most = planned.template.loads.most_reps_off
    for off, given in ((most - 0.1, True), (most + 0.1, False)):
        for reps in (7 - off, 7 + off):
            below, above = table[int(reps)], table[int(reps) + 1]
            kg = (below + (reps - int(reps)) * (above - below)) / 100 * best_kg
            lone = gym(dumbbells=(f"{kg:.3f} kg",))
            held = squat.model_copy(update={"dose": squat.dose.model_copy(update={"implement": "dumbbell"})})
            there = replace(planned, athlete=planned.athlete.model_copy(update={"equipment": lone}))
            assert (prescribe(there, held, dose, 1).load_kg is not None) is given, (off, reps)


def test_plates_of_a_fraction_add_up_to_the_gram() -> None:
    assert loadable_kg(gym(plates=("0.625 kg", "1.125 kg")), "barbell") == [20, 21.25, 22.25, 23.5]


def test_what_the_table_does_not_hold_is_to_be_found() -> None:
    planned = _without_progress(problem("in-season"))
    squat = planned.library["back-squat"]
    far = _dose(planned, "back-squat", reps=38, reserve=2, percent=None)
    assert prescribe(planned, squat, far, 1).note == "find the load that leaves 2"
    for changes in ({"reps": None}, {"reserve": None, "percent": None}):
        found = prescribe(planned, squat, _dose(planned, "back-squat", **changes), 1)
        assert (found.load_kg, found.note) == (None, None)


def test_a_gym_without_the_implement_says_how_to_find_the_load() -> None:
    planned = problem("in-season")
    squat = planned.library["back-squat"]
    held = squat.model_copy(update={"dose": squat.dose.model_copy(update={"implement": "dumbbell"})})
    bare = replace(planned, athlete=planned.athlete.model_copy(update={"equipment": gym()}))
    assert prescribe(bare, held, _dose(planned, "back-squat", reserve=4), 1).note == "find the load that leaves 4"


def test_a_lift_goes_by_its_own_test_else_by_its_reference_times_its_ratio() -> None:
    planned = problem("in-season")
    squat = planned.library["back-squat"]
    best_kg = planned.one_rm_kg["back-squat", "both"]
    of_squat = squat.dose.model_copy(update={"of": "back-squat", "ratio": 0.5})
    assert own_maximum_kg(planned, squat.model_copy(update={"id": "box-squat", "dose": of_squat})) == best_kg / 2
    tested = replace(planned, one_rm_kg={**planned.one_rm_kg, ("box-squat", "both"): 77.0})
    assert own_maximum_kg(tested, squat.model_copy(update={"id": "box-squat", "dose": of_squat})) == 77.0
    alone = squat.dose.model_copy(update={"of": None, "ratio": 1.0})
    assert own_maximum_kg(planned, squat.model_copy(update={"dose": alone})) == best_kg
    assert own_maximum_kg(planned, squat.model_copy(update={"id": "box-squat", "dose": alone})) is None


def test_a_maximum_that_the_log_speaks_for_raises_the_lift_and_those_that_go_by_it() -> None:
    planned = problem("in-season")
    squat, front = planned.library["back-squat"], planned.library["front-squat"]
    assert front.dose.of == "back-squat" and ("front-squat", "both") not in planned.one_rm_kg
    tested_kg, grown = planned.one_rm_kg["back-squat", "both"], replace(planned, gained={"back-squat": 1.1})
    assert own_maximum_kg(grown, squat) == pytest.approx(1.1 * tested_kg)
    assert own_maximum_kg(grown, front) == pytest.approx(1.1 * front.dose.ratio * tested_kg)


def test_a_machine_has_every_step_from_the_first_to_the_heaviest_stack() -> None:
    planned = problem("in-season")
    machine = next(one for one in planned.library if one.dose.implement == "machine")
    loads_kg = Lift(planned, machine, 100.0).loads_kg()
    assert loads_kg[:2] == [STEP_kg, 2 * STEP_kg] and loads_kg[-1] == 400
    assert planned.template.loads.machine_step_kg == STEP_kg
