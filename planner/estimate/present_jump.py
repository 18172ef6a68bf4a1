"""Which test is the present jump, and what rise it and the target are: one method, or a conversion in sight."""

from __future__ import annotations

from dataclasses import dataclass

from planner.domain.athlete import Athlete
from planner.domain.benchmarks import Benchmarks, LengthError, TakeOffBasis, TimeError
from planner.domain.measure import FlightTimeTest, GivenRiseTest, TouchTest
from planner.domain.terms import HeightMethod
from planner.estimate.findings import Notebook
from planner.estimate.take_off import rise_from_flight_time_m, rise_from_touch_m
from planner.estimate.uncertainty import Estimate, mean_of_best, single_trial_se
from planner.units import STANDARD_GRAVITY_m_s2, format_length

HeightTest = TouchTest | FlightTimeTest | GivenRiseTest
METHOD_OF: dict[str, HeightMethod] = {"touch": "touch", "flight-time": "flight-time", "given-rise": "given"}
LEAST_RISE_m = 0.05  # a rise below this is no jump but a slip of the pen


@dataclass(frozen=True)
class HeelRiseUsed:
    """What came off every touch, and whether it was measured."""

    value_m: float
    se_m: float
    measured: bool


@dataclass(frozen=True)
class Jumps:
    """The present jump and the target as rises of the body after take-off; touches too, where it was one."""

    test: HeightTest
    test_number: int
    method: HeightMethod
    rise_now_m: Estimate
    rise_target_m: Estimate
    touch_now_m: float | None
    best_m: float
    heel_rise: HeelRiseUsed
    now_from_touch: bool
    target_from_touch: bool
    resolution_m: float


def jumps_of(athlete: Athlete, benchmarks: Benchmarks, notes: Notebook) -> Jumps | None:
    """The present jump and the target, or None with errors in ``notes``."""
    basis = basis_of(athlete, benchmarks)
    heel = _heel_rise(athlete, basis, notes)
    target_m = _target_rise_m(athlete, heel, notes)
    number = _choose(athlete, notes)
    if number is None or target_m is None or notes.has_errors:
        return None
    test = athlete.tests[number]
    assert isinstance(test, (TouchTest, FlightTimeTest, GivenRiseTest))
    method = METHOD_OF[test.kind]
    now, best, resolution = _rise_now(test, athlete, heel, benchmarks)
    if now.value < LEAST_RISE_m:
        notes.add(
            "error",
            "no-rise",
            f"the test leaves a rise of only {now.value * 100:.0f} cm once reach and heel rise "
            f"({format_length(heel.value_m, 'cm', 0)}) are off",
            hint="check the trials, standing_reach and tip_toe_reach",
            at=("tests", number, "trials"),
        )
        return None
    if method != athlete.target.method:
        now = _as_other_method(now, method, athlete, benchmarks, number, notes)
    return Jumps(
        test=test,
        test_number=number,
        method=method,
        rise_now_m=now,
        rise_target_m=Estimate(target_m, 0.0),
        touch_now_m=now.value + athlete.standing_reach + heel.value_m if isinstance(test, TouchTest) else None,
        best_m=best,
        heel_rise=heel,
        now_from_touch=isinstance(test, TouchTest),
        target_from_touch=athlete.target.touch is not None,
        resolution_m=resolution,
    )


def basis_of(athlete: Athlete, benchmarks: Benchmarks) -> TakeOffBasis:
    return benchmarks.take_offs["two-leg" if athlete.take_off == "two-leg" else "one-leg"]


def is_off_run_up(athlete: Athlete) -> bool:
    return athlete.approach.steps > 0


def _heel_rise(athlete: Athlete, basis: TakeOffBasis, notes: Notebook) -> HeelRiseUsed:
    heel = basis.heel_rise
    if athlete.tip_toe_reach is None:
        if athlete.target.touch is not None:
            notes.add(
                "note",
                "heel-rise-stand-in",
                f"no tip_toe_reach: {format_length(heel.stand_in, 'cm', 0)} of heel rise is assumed "
                f"(± {format_length(heel.standard_error, 'cm', 0)})",
                hint="measure a one-hand reach on tip-toe; it costs a minute and sharpens the force",
            )
        return HeelRiseUsed(heel.stand_in, heel.standard_error, measured=False)
    if athlete.tip_toe_reach <= athlete.standing_reach:
        notes.add(
            "error",
            "tip-toe-below-reach",
            "tip_toe_reach is not above standing_reach",
            hint="both with one hand at a wall: flat-footed, then on tip-toe",
            at=("tip_toe_reach",),
        )
    return HeelRiseUsed(athlete.tip_toe_reach - athlete.standing_reach, heel.measured_standard_error, measured=True)


def _target_rise_m(athlete: Athlete, heel: HeelRiseUsed, notes: Notebook) -> float | None:
    target = athlete.target
    if (target.touch is None) == (target.rise is None):
        notes.add("error", "one-target", "the target needs either a touch or a rise", at=("target",))
        return None
    if target.touch is not None and target.method != "touch":
        notes.add(
            "error",
            "target-method",
            f"a touch cannot have the method {target.method}",
            hint="write method: touch, or give the target as a rise",
            at=("target", "method"),
        )
        return None
    if target.method == "flight-time" and is_off_run_up(athlete):
        _refuse_flight_time(notes, ("target", "method"))
        return None
    if target.rise is not None:
        return target.rise
    assert target.touch is not None
    rise = rise_from_touch_m(touch_m=target.touch, standing_reach_m=athlete.standing_reach, heel_rise_m=heel.value_m)
    if rise < LEAST_RISE_m:
        notes.add(
            "error",
            "target-in-reach",
            f"the target touch {format_length(target.touch)} is reached nearly from the floor "
            f"(standing reach {format_length(athlete.standing_reach)})",
            hint="check target touch and standing_reach",
            at=("target", "touch"),
        )
        return None
    return rise


def _choose(athlete: Athlete, notes: Notebook) -> int | None:
    """Number of the test that is the target jump: same take-off, same run-up; its own method first, then the latest."""
    run_up = is_off_run_up(athlete)
    found: list[tuple[bool, str, int]] = []
    flight_time_at: int | None = None
    for number, test in enumerate(athlete.tests):
        if not isinstance(test, (TouchTest, FlightTimeTest, GivenRiseTest)) or test.take_off != athlete.take_off:
            continue
        if isinstance(test, FlightTimeTest) and run_up:
            flight_time_at = number
        elif run_up == (False if isinstance(test, FlightTimeTest) else test.run_up):
            found.append((METHOD_OF[test.kind] == athlete.target.method, test.date.isoformat(), number))
    if found:
        return max(found)[2]
    if flight_time_at is not None:
        _refuse_flight_time(notes, ("tests", flight_time_at))
    run_up_word = "true" if run_up else "false"
    notes.add(
        "error",
        "no-test-of-target",
        f"no test of the target jump ({athlete.take_off}, {'off a run-up' if run_up else 'from a stand'})",
        hint=f"add a touch test with take_off: {athlete.take_off} and run_up: {run_up_word}",
        at=("tests",),
    )
    return None


def _refuse_flight_time(notes: Notebook, at: tuple[str | int, ...]) -> None:
    notes.add(
        "error",
        "flight-time-off-run-up",
        "flight time is no measure of a jump off a run-up: bent legs at landing make it read high",
        hint="take a touch off the run-up, or make the target a jump from a stand (approach steps: 0)",
        at=at,
    )


def _rise_now(
    test: HeightTest, athlete: Athlete, heel: HeelRiseUsed, benchmarks: Benchmarks
) -> tuple[Estimate, float, float]:
    """Rise with its own error (heel rise apart), the best trial as measured, and the scale's step as a rise (m)."""
    errors = benchmarks.errors
    if isinstance(test, TouchTest):
        touch = mean_of_best(test.trials, single_se=_se(errors.touch))
        rise = rise_from_touch_m(touch_m=touch.value, standing_reach_m=athlete.standing_reach, heel_rise_m=heel.value_m)
        return Estimate(rise, touch.se), max(test.trials), errors.touch.resolution
    if isinstance(test, FlightTimeTest):
        flight = mean_of_best(test.trials, single_se=_se(errors.flight_time))
        rise = rise_from_flight_time_m(flight_time_s=flight.value)
        per_second = STANDARD_GRAVITY_m_s2 * flight.value / 4.0  # dh/dT of g T^2 / 8
        best = rise_from_flight_time_m(flight_time_s=max(test.trials))
        return Estimate(rise, per_second * flight.se), best, per_second * errors.flight_time.resolution
    return mean_of_best(test.trials, single_se=_se(errors.given_rise)), max(test.trials), errors.given_rise.resolution


def _se(error: LengthError | TimeError) -> float:
    return single_trial_se(typical_error=error.typical_error, resolution=error.resolution)


def _as_other_method(
    now: Estimate, method: HeightMethod, athlete: Athlete, benchmarks: Benchmarks, number: int, notes: Notebook
) -> Estimate:
    extra = benchmarks.errors.other_method.typical_error
    notes.add(
        "warning",
        "other-method",
        f"the target's method is {athlete.target.method}, the only test of that jump is {method}: the two are not the "
        f"same height; it stands in unchanged, with ± {format_length(extra, 'cm', 0)} more error",
        hint=f"test by {athlete.target.method}, or write the target in the test's method",
        at=("tests", number),
    )
    return Estimate(now.value, (now.se**2 + extra**2) ** 0.5)
