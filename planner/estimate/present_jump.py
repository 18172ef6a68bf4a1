"""Which test is the present jump, and what rise it and the target are: by one method, or by a stated conversion."""

from __future__ import annotations

from dataclasses import dataclass

from planner.domain.athlete import Athlete
from planner.domain.base import LEAST_RISE_m
from planner.domain.benchmarks import Benchmarks
from planner.domain.take_off_basis import TakeOffBasis
from planner.domain.terms import HeightMethod, legs_of
from planner.estimate.detectable_change import test_days
from planner.estimate.heights import METHOD_NAMES, HeelRiseUsed, Height, heights_of
from planner.estimate.notebook import Notebook
from planner.estimate.take_off import rise_from_touch_m
from planner.estimate.trials import mean_of_days
from planner.estimate.uncertainty import Estimate
from planner.estimate.words import words_of


@dataclass(frozen=True)
class Jumps:
    """The present jump and the target as rises of the body after take-off; also the touch, if the jump was one.

    ``height``: the test that counts; ``days``: it and the test days near it that count with it, latest first;
    ``heights``: what every test gives, each by its own method.
    """

    height: Height
    days: tuple[Height, ...]
    heights: tuple[Height, ...]
    rise_now_m: Estimate
    rise_target_m: Estimate
    touch_now_m: float | None
    heel_rise: HeelRiseUsed
    target_from_touch: bool

    @property
    def method(self) -> HeightMethod:
        return self.height.method

    @property
    def now_from_touch(self) -> bool:
        return self.height.from_touch

    @property
    def trials(self) -> int:
        """Of all the days that count."""
        return sum(day.trials for day in self.days)

    @property
    def gain_wanted_m(self) -> float:
        """What the target asks for, negative where it is below the present jump."""
        return self.rise_target_m.value - self.rise_now_m.value

    @property
    def resolution_m(self) -> float:
        return self.height.resolution_m


def jumps_of(athlete: Athlete, benchmarks: Benchmarks, notes: Notebook) -> Jumps | None:
    """The present jump and the target, or None with errors in ``notes``."""
    basis = basis_of(athlete, benchmarks)
    heel = _heel_rise(athlete, basis, notes)
    target_m = _target_rise_m(athlete, heel, notes)
    heights = heights_of(athlete, heel, benchmarks, notes)
    height = _choose(athlete, heights, notes)
    if height is None or target_m is None:
        return None
    days = test_days(height, heights, benchmarks.retest)
    now = mean_of_days([day.rise_m for day in days])
    if now.value < LEAST_RISE_m:
        message = (
            f"the test leaves a rise of only {words_of(athlete).length(now.value, 0)} once reach and heel rise "
            f"({words_of(athlete).length(heel.value_m, 0)}) are off"
        )
        hint = "check the trials, standing_reach and tip_toe_reach"
        notes.add("error", "no-rise", message, hint=hint, at=("tests", height.number, "trials"))
        return None
    if height.arms == "hips":
        message = "the only test of the target jump was done with hands on the hips: with the arms it would read higher"
        notes.add("note", "hands-on-hips", message, hint="test as the target is jumped", at=("tests", height.number))
    if height.method != athlete.target.method:
        now = _as_other_method(height, now, athlete, benchmarks, notes)
    return Jumps(
        height=height,
        days=days,
        heights=tuple(heights),
        rise_now_m=now,
        rise_target_m=Estimate(target_m, 0.0),
        touch_now_m=now.value + athlete.standing_reach + heel.value_m if height.from_touch else None,
        heel_rise=heel,
        target_from_touch=athlete.target.touch is not None,
    )


def basis_of(athlete: Athlete, benchmarks: Benchmarks) -> TakeOffBasis:
    return benchmarks.take_offs[legs_of(athlete.take_off)]


def is_off_run_up(athlete: Athlete) -> bool:
    return athlete.approach.steps > 0


def _heel_rise(athlete: Athlete, basis: TakeOffBasis, notes: Notebook) -> HeelRiseUsed:
    heel = basis.heel_rise
    if athlete.tip_toe_reach is None:
        if athlete.target.touch is not None:
            message = (
                f"no reach on tip-toe measured: {words_of(athlete).length(heel.stand_in, 0)} of heel rise is assumed "
                f"(± {words_of(athlete).length(heel.standard_error, 0)})"
            )
            hint = "measure a one-hand reach on tip-toe (tip_toe_reach); it costs a minute and sharpens the force"
            notes.add("note", "heel-rise-estimate", message, hint=hint)
        return HeelRiseUsed(heel.stand_in, heel.standard_error, measured=False)
    return HeelRiseUsed(athlete.tip_toe_reach - athlete.standing_reach, heel.measured_standard_error, measured=True)


def _target_rise_m(athlete: Athlete, heel: HeelRiseUsed, notes: Notebook) -> float | None:
    target = athlete.target
    if target.method == "flight-time" and is_off_run_up(athlete):
        _refuse_flight_time(notes, ("target", "method"))
        return None
    if target.rise is not None:
        return target.rise
    assert target.touch is not None  # an athlete's file with neither makes no sense, and is not read
    rise = rise_from_touch_m(touch_m=target.touch, standing_reach_m=athlete.standing_reach, heel_rise_m=heel.value_m)
    if rise < LEAST_RISE_m:
        message = (
            f"the target touch {words_of(athlete).mark(target.touch)} is reached nearly from the floor "
            f"(standing reach {words_of(athlete).mark(athlete.standing_reach)})"
        )
        hint = "check target touch and standing_reach"
        notes.add("error", "target-in-reach", message, hint=hint, at=("target", "touch"))
        return None
    return rise


def _choose(athlete: Athlete, heights: list[Height], notes: Notebook) -> Height | None:
    """The test of the target jump (same take-off and run-up).

    The target's method comes first, then free arms, then the latest test.
    """
    run_up = is_off_run_up(athlete)
    found: list[Height] = []
    flight_time_at: int | None = None
    fitting = [one for one in heights if one.take_off == athlete.take_off and one.form in ("run-up", "stand")]
    for height in fitting:
        if height.method == "flight-time" and run_up:
            # A plain flight time does not say whether it was from a stand.
            flight_time_at = height.number if height.reads_high or height.kind == "flight-time" else flight_time_at
        elif run_up == (height.form == "run-up"):
            found.append(height)
    if found:
        for height in heights:
            if height.reads_high:
                _flag_flight_time(height, notes)
        return max(
            found, key=lambda one: (one.method == athlete.target.method, one.arms != "hips", one.date, one.number)
        )
    if flight_time_at is not None:
        _refuse_flight_time(notes, ("tests", flight_time_at))
    run_up_word = "true" if run_up else "false"
    message = f"no test of the target jump ({athlete.take_off}, {'off a run-up' if run_up else 'from a stand'})"
    hint = f"add a touch test with take_off: {athlete.take_off} and run_up: {run_up_word}"
    notes.add("error", "no-test-of-target", message, hint=hint, at=("tests",))
    return None


def _refuse_flight_time(notes: Notebook, at: tuple[str | int, ...]) -> None:
    message = "flight time cannot measure a jump off a run-up: bent legs at landing make it read high"
    hint = "take a touch off the run-up, or make the target a jump from a stand (approach steps: 0)"
    notes.add("error", "flight-time-off-run-up", message, hint=hint, at=at)


def _flag_flight_time(height: Height, notes: Notebook) -> None:
    message = "this flight time off a run-up reads high (bent legs at landing): it is shown as such and not used"
    hint = "its contact is used; for the height take a touch"
    notes.add("warning", "flight-time-off-run-up", message, hint=hint, at=("tests", height.number))


def _as_other_method(
    height: Height, now: Estimate, athlete: Athlete, benchmarks: Benchmarks, notes: Notebook
) -> Estimate:
    """The present jump as the target's method would have read it: by the benchmarks' conversion, with a warning."""
    wanted = athlete.target.method
    given = [one for one in benchmarks.conversions if (one.measured_by, one.wanted_by) == (height.method, wanted)]
    add_m = given[0].add_cm / 100.0 if given else 0.0
    extra_m = given[0].standard_error_cm / 100.0 if given else benchmarks.errors.other_method.typical_error
    words = words_of(athlete)
    change = "unchanged" if not add_m else f"with {words.length(add_m)} added"
    message = (
        f"the target's method is {METHOD_NAMES[wanted]}, the only test of that jump is by "
        f"{METHOD_NAMES[height.method]}: the two are not the same height; it is used {change}, with ± "
        f"{words.length(extra_m, 0)} more error"
    )
    hint = f"test by {METHOD_NAMES[wanted]}, or write the target in the test's method"
    notes.add("warning", "other-method", message, hint=hint, at=("tests", height.number))
    return Estimate(now.value + add_m, (now.se**2 + extra_m**2) ** 0.5)
