"""Bias and cover of the stated errors: drawn athletes, tested by each kind, through the whole reading of a test.

``python -m tests.benchmarks.cover [ATHLETES]`` prints, by kind, trials and days: bias in standard errors, and how often
the truth lies within 1.96 of them. Bar: bias within a quarter, cover 93 to 97 %. Athletes err as the benchmarks say: a
form of the day, a scatter of the trial, the reading of the instrument. One who scatters more than that is not covered.

A platform's trials are simulated force records, read and measured as ``jumpblock platform`` does, some hundreds at
each rate; what each errs by is added to a jump of the athlete. Then follows what single records tell, without a bar:
two hundred tell 95 % from 92 % only just, and at low rates their errors are wide on purpose, for what real feet do
between two samples.
"""

from __future__ import annotations

import datetime
import functools
import sys
from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Any

import numpy as np
from pydantic import TypeAdapter

from planner.domain.athlete import Athlete
from planner.domain.benchmarks import Benchmarks
from planner.domain.measure import Test
from planner.estimate.detectable_change import test_days
from planner.estimate.heights import HeelRiseUsed, heights_of
from planner.estimate.lifts import lift_maxima
from planner.estimate.notebook import Notebook
from planner.estimate.trials import mean_of_days
from planner.estimate.uncertainty import Estimate
from planner.force_platform.analyse import analyse
from planner.force_platform.athlete_entry import platform_test
from planner.force_platform.jump_case import Options
from planner.force_platform.platform_jump import PlatformJump
from planner.units import STANDARD_GRAVITY_m_s2 as g
from tests.estimate.people import jumper, shipped_benchmarks
from tests.force_platform.simulate import Truth, drawn_record

TRIALS = (1, 2, 3, 6, 12)
DAYS = (1, 2, 3)
MOST_BIAS, LEAST_COVER, MOST_COVER = 0.25, 0.93, 0.97
TEST: TypeAdapter[Any] = TypeAdapter(Test)
RATES_Hz = (100.0, 200.0, 500.0, 1000.0)
NOISES_N = (2.0, 5.0, 10.0, 20.0)
RECORDS = 200  # at each rate and noise
REACH_m, HEEL_m, RATE_Hz = 2.38, 0.12, 240.0
BASE = jumper()
LATEST = datetime.date(2025, 3, 10)
Random = np.random.Generator
Draw = Callable[[Random, Benchmarks, int, int], tuple[float, Estimate]]


@dataclass(frozen=True)
class Cell:
    kind: str
    trials: int
    days: int
    bias: float
    cover: float

    @property
    def holds(self) -> bool:
        return abs(self.bias) <= MOST_BIAS and LEAST_COVER <= self.cover <= MOST_COVER


def _athlete(tests: list[dict[str, Any]]) -> Athlete:
    return BASE.model_copy(update={"tests": tuple(TEST.validate_python(test) for test in tests)})


def _dates(days: int) -> list[datetime.date]:
    return [LATEST - datetime.timedelta(days=2 * day) for day in range(days)]


def _height(tests: list[dict[str, Any]], benchmarks: Benchmarks) -> Estimate:
    heel = HeelRiseUsed(HEEL_m, 0.0, measured=True)
    heights = heights_of(_athlete(tests), heel, benchmarks, Notebook())
    return mean_of_days([one.rise_m for one in test_days(heights[0], heights, benchmarks.retest)])


def touch(random: Random, benchmarks: Benchmarks, trials: int, days: int) -> tuple[float, Estimate]:
    error, true_m = benchmarks.test_kinds["touch"].error, random.uniform(0.45, 0.75)
    tests = []
    for date in _dates(days):
        form_m = REACH_m + HEEL_m + true_m + random.normal(0, error.day_error or 0.0)
        marks = form_m + random.normal(0, error.typical_error, trials)
        read = [f"{round(float(mark), 2):.2f} m" for mark in marks]
        tests.append({"kind": "touch", "date": date, "take_off": "one-leg left", "run_up": True, "trials": read})
    return true_m, _height(tests, benchmarks)


def flight(random: Random, benchmarks: Benchmarks, trials: int, days: int) -> tuple[float, Estimate]:
    error, true_s = benchmarks.test_kinds["flight-time"].error, random.uniform(0.48, 0.62)
    tests = []
    for date in _dates(days):
        times = true_s + random.normal(0, error.day_error or 0.0) + random.normal(0, error.typical_error, trials)
        read = [f"{float(time):.3f} s" for time in times]
        tests.append({"kind": "flight-time", "date": date, "take_off": "two-leg", "trials": read})
    return g * true_s**2 / 8, _height(tests, benchmarks)


def video(random: Random, benchmarks: Benchmarks, trials: int, days: int) -> tuple[float, Estimate]:
    """Each end is seen in the frame after it happened."""
    error, true_s = benchmarks.test_kinds["video-frames"].error, random.uniform(0.48, 0.62)
    tests = []
    for date in _dates(days):
        form_s, frames = true_s + random.normal(0, error.day_error or 0.0), []
        for _ in range(trials):
            off_s = random.uniform(1, 2)
            on_s = off_s + form_s + random.normal(0, error.typical_error)
            frames.append({"take_off": int(np.ceil(off_s * RATE_Hz)), "landing": int(np.ceil(on_s * RATE_Hz))})
        jump = {"take_off": "two-leg", "frame_rate": f"{RATE_Hz:g} /s", "trials": frames}
        tests.append({"kind": "video-frames", "date": date, **jump})
    return g * true_s**2 / 8, _height(tests, benchmarks)


def lift(random: Random, benchmarks: Benchmarks, trials: int, days: int) -> tuple[float, Estimate]:
    """Sets of five at a load that leaves about two; the lifter says how many, in whole repetitions."""
    error, rule = benchmarks.test_kinds["lift"].error, benchmarks.strength
    body_kg, true_kg, tests = 74.0, random.uniform(90, 160), []
    for date in _dates(days):
        form = 1 + random.normal(0, error.day_error or 0.0)
        for _ in range(trials):
            able_kg = (true_kg + body_kg) * (form + random.normal(0, error.typical_error)) - body_kg
            left = random.uniform(1.5, 3.5)
            total = 5 + left
            load_kg = able_kg / ((1 + total / 30 + 36 / (37 - total)) / 2)
            said = int(np.clip(round(left + random.normal(0, rule.reserve_error_reps)), 0, 5))
            test = {"kind": "lift", "date": date, "movement": "back-squat", "reps": 5, "reps_in_reserve": said}
            tests.append({**test, "load": f"{load_kg:.1f} kg"})
    return true_kg, lift_maxima(_athlete(tests), benchmarks, Notebook())["back-squat", "both"].one_rm_kg


@functools.cache
def records(rate_Hz: float, noise_N: float, count: int) -> list[tuple[PlatformJump, Truth]]:
    """Simulated records as read, those whose heights are believed: a refused one is jumped again."""
    random, rule = np.random.default_rng([int(rate_Hz), int(noise_N)]), shipped_benchmarks().platform
    told: list[tuple[PlatformJump, Truth]] = []
    while len(told) < count:
        made = drawn_record(random, rate_Hz=rate_Hz, noise_N=noise_N, drift_N_s=rule.drift_N_s, rises_m=(0.15, 0.6))
        jump = analyse(made.record, rule, Options(kind="countermovement", take_all=True), Notebook())[0]
        if jump.verdict.believed != "neither":
            told.append((jump, made.truth))
    return told


def platform(rate_Hz: float, count: int = RECORDS) -> Draw:
    pool = [one for noise_N in NOISES_N for one in records(rate_Hz, noise_N, count)]

    def draw(random: Random, benchmarks: Benchmarks, trials: int, days: int) -> tuple[float, Estimate]:
        error, true_m = benchmarks.test_kinds["force-platform"].error, random.uniform(0.25, 0.5)
        tests = []
        for date in _dates(days):
            rises = true_m + random.normal(0, error.day_error or 0.0) + random.normal(0, error.typical_error, trials)
            read = [_as_read(pool[random.integers(len(pool))], float(rise_m)) for rise_m in rises]
            tests.append(dict(platform_test(read, date=date, take_off="two-leg", arms="hips", drop_m=None)))
        return true_m, _height(tests, benchmarks)

    return draw


def _as_read(record: tuple[PlatformJump, Truth], rise_m: float) -> PlatformJump:
    """The record of a jump that rises by ``rise_m``: its own jump's errors."""
    jump, truth = record
    impulse, flight = jump.rise_by_impulse_m, jump.flight_s
    flight_s = flight.value - truth.flight_s + (8 * rise_m / g) ** 0.5
    moved = Estimate(impulse.value - truth.rise_m + rise_m, impulse.se) if impulse else None
    return replace(jump, flight_s=Estimate(flight_s, flight.se), rise_by_impulse_m=moved)


KINDS: dict[str, Draw] = {"touch": touch, "flight": flight, "video": video, "lift": lift}
TOLD: dict[str, Callable[[PlatformJump, Truth], tuple[Estimate | None, float]]] = {
    "weight": lambda jump, truth: (jump.body_weight_N, truth.body_weight_N),
    "by flight": lambda jump, truth: (jump.rise_by_flight_m, truth.rise_m),
    "by impulse": lambda jump, truth: (jump.rise_by_impulse_m, truth.rise_m),
}


def cell(kind: str, draw: Draw, trials: int, days: int, *, athletes: int, seed: int = 0) -> Cell:
    """``athletes`` drawn with their own seed, so that a cell is the same wherever it is asked for."""
    random, benchmarks = np.random.default_rng([seed, trials, days]), shipped_benchmarks()
    errors = []
    for _ in range(athletes):
        true, found = draw(random, benchmarks, trials, days)
        errors.append((found.value - true) / found.se)
    return _cell(kind, trials, days, errors)


def record_cell(what: str, rate_Hz: float, noise_N: float, count: int = RECORDS) -> Cell:
    """What one record tells."""
    told = [TOLD[what](jump, truth) for jump, truth in records(rate_Hz, noise_N, count)]
    errors = [(found.value - true) / found.se for found, true in told if found is not None]
    return _cell(f"{rate_Hz:g} Hz, {noise_N:g} N, {what}", 1, 1, errors)


def _cell(kind: str, trials: int, days: int, errors: list[float]) -> Cell:
    off = np.array(errors)
    return Cell(kind, trials, days, float(off.mean()), float((abs(off) < 1.96).mean()))


def main(athletes: int = 4000) -> None:
    print(f"{'kind':<26}{'trials':>7}{'days':>6}{'bias/SE':>9}{'cover':>8}")
    kinds = KINDS | {f"platform {rate_Hz:g} Hz": platform(rate_Hz) for rate_Hz in RATES_Hz}
    for kind, draw in kinds.items():
        for trials in TRIALS:
            for days in DAYS:
                one = cell(kind, draw, trials, days, athletes=athletes)
                print(_line(one) + ("" if one.holds else "  outside the bar"), flush=True)
    for rate_Hz in RATES_Hz:
        for noise_N in NOISES_N:
            for what in TOLD:
                print(_line(record_cell(what, rate_Hz, noise_N)), flush=True)


def _line(one: Cell) -> str:
    return f"{one.kind:<26}{one.trials:>7}{one.days:>6}{one.bias:>+9.2f}{100 * one.cover:>7.1f}%"


if __name__ == "__main__":
    main(*(int(word) for word in sys.argv[1:2]))
