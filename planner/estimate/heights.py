"""The height that each test gives, under its own definition: the rise of the body after take-off, by one method.

Touches lose reach and heel rise; flight times are g T^2 / 8, whatever clock took them; a platform's impulse height is
its own. Heights are never mixed here: code that compares two of them says so.
"""

from __future__ import annotations

import datetime
import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Literal

from planner.domain.athlete import Athlete
from planner.domain.benchmarks import Benchmarks
from planner.domain.measure import (
    ContactMatTest,
    CountermovementJumpTest,
    DropJumpTest,
    FlightTimeTest,
    ForcePlatformTest,
    GivenRiseTest,
    OneLegJumpTest,
    SquatJumpTest,
    Test,
    TestKind,
    TouchTest,
    VideoFramesTest,
)
from planner.domain.terms import LEGS, Arms, HeightMethod, TakeOff
from planner.domain.test_kinds import KindOfTest
from planner.estimate.notebook import Notebook
from planner.estimate.take_off import rise_from_flight_time_m, rise_from_touch_m
from planner.estimate.trials import day_se_of, middle, middle_of, root_mean_square, single_se_of
from planner.estimate.uncertainty import Estimate, frame_se_s
from planner.estimate.video import flights_s
from planner.estimate.words import Words
from planner.units import STANDARD_GRAVITY_m_s2

Form = Literal["run-up", "stand", "squat", "drop"]
FORM_WORDS: dict[Form, str] = {
    "run-up": "off a run-up",
    "stand": "from a stand",
    "squat": "from a held squat",
    "drop": "off a box",
}


@dataclass(frozen=True)
class HeelRiseUsed:
    """The heel rise subtracted from every touch, and whether it was measured."""

    value_m: float
    se_m: float
    measured: bool


@dataclass(frozen=True)
class Height:
    """One test's rise: the athlete's mean jump as measured on one day.

    ``rise_m.se`` holds the trials' part and the day's. It leaves the heel rise out: that one is shared by every touch.
    """

    number: int
    kind: TestKind
    date: datetime.date
    take_off: TakeOff
    form: Form
    arms: Arms | None
    method: HeightMethod
    rise_m: Estimate
    single_se_m: float
    day_se_m: float
    resolution_m: float
    trials: int
    doubt: str = ""  # why another height of the same jumps is not believed

    @property
    def trials_se_m(self) -> float:
        """The trials' part alone: what tells apart two tests of one day."""
        return self.single_se_m / math.sqrt(self.trials)

    @property
    def from_touch(self) -> bool:
        return self.kind == "touch"

    @property
    def reads_high(self) -> bool:
        """Off a run-up nobody lands in the posture of take-off: bent legs lengthen the flight."""
        return self.form == "run-up" and self.method == "flight-time"

    def as_done(self) -> str:
        """``countermovement jump, two-leg, from a stand, hands on hips, by flight time``."""
        hands = ", hands on hips" if self.arms == "hips" and self.form in ("stand", "squat") else ""
        jump = f"{self.kind.replace('-', ' ')}, {self.take_off} {FORM_WORDS[self.form]}{hands}"
        high = ", reads high (bent legs at landing)" if self.reads_high else ""
        return f"{jump}, by {METHOD_NAMES[self.method]}{high}"

    def described(self) -> str:
        """How it was done, with its date and what is in doubt."""
        doubt = f"; in doubt: {self.doubt}" if self.doubt else ""
        return f"{self.as_done()} ({self.date.isoformat()}{doubt})"


METHOD_NAMES: dict[HeightMethod, str] = {
    "touch": "touch",
    "flight-time": "flight time",
    "impulse": "impulse",
    "given": "a given rise",
}


def heights_of(athlete: Athlete, heel: HeelRiseUsed, benchmarks: Benchmarks, notes: Notebook) -> list[Height]:
    """The height of every test that gives one, in file order."""
    return [
        height
        for number, test in enumerate(athlete.tests)
        for height in _heights(number, test, athlete, heel, benchmarks, notes)
    ]


def _heights(
    number: int, test: Test, athlete: Athlete, heel: HeelRiseUsed, benchmarks: Benchmarks, notes: Notebook
) -> list[Height]:
    kind = benchmarks.test_kinds[test.kind]
    match test:
        case TouchTest():
            assert kind.length_error is not None
            off_m = rise_from_touch_m(touch_m=0.0, standing_reach_m=athlete.standing_reach, heel_rise_m=heel.value_m)
            rises, form = [mark + off_m for mark in test.trials], _form(test.run_up)
            return [_height(number, test, form, "touch", rises, _own_errors(kind), kind.length_error.resolution)]
        case GivenRiseTest():
            assert kind.length_error is not None
            step, form = kind.length_error.resolution, _form(test.run_up)
            return [_height(number, test, form, "given", test.trials, _own_errors(kind), step)]
        case FlightTimeTest() | CountermovementJumpTest():
            return [_by_flight(number, test, "stand", test.trials, kind)]
        case ContactMatTest():
            return [_by_flight(number, test, _form(test.run_up), [trial.flight for trial in test.trials], kind)]
        case DropJumpTest():
            flight_kind = benchmarks.test_kinds["flight-time"]
            return [_by_flight(number, test, "drop", [trial.flight for trial in test.trials], flight_kind)]
        case SquatJumpTest():
            return [_by_flight(number, test, "squat", test.trials, kind)]
        case VideoFramesTest():
            flights = flights_s(number, test, notes)
            filmed: Form = "drop" if test.drop is not None else _form(test.run_up)
            extra = frame_se_s(test.frame_rate)
            return [_by_flight(number, test, filmed, flights, kind, extra)] if flights else []
        case OneLegJumpTest():
            legs = [(leg, getattr(test, leg)) for leg in LEGS]
            return [
                replace(_by_flight(number, test, "stand", flights, kind), take_off=_one_leg(leg))
                for leg, flights in legs
                if flights
            ]
        case ForcePlatformTest():
            return _on_platform(number, test, kind)
        case _:
            return []


def _own_errors(kind: KindOfTest) -> tuple[float, float]:
    return single_se_of(kind), day_se_of(kind)


def _form(run_up: bool) -> Form:
    return "run-up" if run_up else "stand"


def _one_leg(leg: str) -> TakeOff:
    return "one-leg left" if leg == "left" else "one-leg right"


def _by_flight(
    number: int, test: Test, form: Form, flights_s: Sequence[float], kind: KindOfTest, extra_se_s: float = 0.0
) -> Height:
    """Convert flight times to rises, and their errors by dh/dT = g T / 4."""
    assert kind.time_error is not None
    m_per_s = STANDARD_GRAVITY_m_s2 * middle(flights_s) / 4.0
    errors_m = m_per_s * math.hypot(single_se_of(kind), extra_se_s), m_per_s * day_se_of(kind)
    return _of_flights(number, test, form, flights_s, errors_m, m_per_s * max(kind.time_error.resolution, extra_se_s))


def _of_flights(
    number: int,
    test: Test,
    form: Form,
    flights_s: Sequence[float],
    errors_m: tuple[float, float],
    resolution_m: float = 0.0,
) -> Height:
    """The rise of the middle flight, which is not quite the middle rise."""
    rises = [rise_from_flight_time_m(flight_time_s=flight) for flight in flights_s]
    height = _height(number, test, form, "flight-time", rises, errors_m, resolution_m)
    return replace(height, rise_m=Estimate(rise_from_flight_time_m(flight_time_s=middle(flights_s)), height.rise_m.se))


def _on_platform(number: int, test: ForcePlatformTest, kind: KindOfTest) -> list[Height]:
    """The impulse's height where the trials have it; a drop jump's always comes from the flight. With its doubts."""
    forms: dict[str, Form] = {"squat": "squat", "drop": "drop"}
    form = forms.get(test.jump, "stand")
    own_m, day_m = _own_errors(kind)
    doubt = "; ".join(dict.fromkeys(trial.doubt for trial in test.trials if trial.doubt))
    if test.by_impulse:
        told = [trial for trial in test.trials if trial.rise_by_impulse is not None]
        rises = [trial.rise_by_impulse for trial in told if trial.rise_by_impulse is not None]
        read_m = root_mean_square([trial.rise_by_impulse_error or 0.0 for trial in told])
        errors_m = math.hypot(own_m, read_m), day_m
        return [replace(_height(number, test, form, "impulse", rises, errors_m, 0.0), doubt=doubt)]
    flights = [trial.flight for trial in test.trials if trial.flight is not None]
    if not flights:
        return []
    errors = [trial.flight_error or 0.0 for trial in test.trials if trial.flight is not None]
    read_m = STANDARD_GRAVITY_m_s2 * middle(flights) / 4.0 * root_mean_square(errors)
    height = _of_flights(number, test, form, flights, (math.hypot(own_m, read_m), day_m))
    return [replace(height, doubt=doubt)]


def _height(
    number: int,
    test: Test,
    form: Form,
    method: HeightMethod,
    rises: Sequence[float],
    errors_m: tuple[float, float],
    resolution_m: float,
) -> Height:
    """``errors_m``: of one trial within the day, and of a day."""
    single_se_m, day_se_m = errors_m
    return Height(
        number=number,
        kind=test.kind,
        date=test.date,
        take_off=getattr(test, "take_off", "two-leg"),
        form=form,
        arms=getattr(test, "arms", None),
        method=method,
        rise_m=middle_of(rises, single_se=single_se_m, day_se=day_se_m),
        single_se_m=single_se_m,
        day_se_m=day_se_m,
        resolution_m=resolution_m,
        trials=len(rises),
    )


def rise_with_error(height: Height, words: Words) -> str:
    """``41.2 ± 1.1 cm``."""
    return f"{words.length_number(height.rise_m.value)} ± {words.length(height.rise_m.se)}"
