"""What each test of a quality says: what the athlete has, in the test's unit, by leg if it was taken by leg."""

from __future__ import annotations

import datetime
import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import TypeVar

from planner.domain.athlete import Athlete
from planner.domain.benchmarks import Benchmarks, QualityTest
from planner.domain.measure import CalfPushTest, FlyingSprintTest, HeelRaiseTest, SprintSplitsTest, TestKind
from planner.domain.terms import LEGS, Leg, Side
from planner.domain.test_kinds import KindOfTest
from planner.domain.test_record import TestRecord
from planner.estimate.drop_jumps import fast_force
from planner.estimate.lifts import LiftSide, Maxima
from planner.estimate.notebook import Notebook
from planner.estimate.trials import day_se_of, middle, single_se_of
from planner.estimate.words import Words, words_of
from planner.units import STANDARD_GRAVITY_m_s2

SIDES: tuple[LiftSide, ...] = ("both", *LEGS)
Kind = TypeVar("Kind", bound=TestRecord)
UNITS_OF_NEED = {"body-weights": "N", "body-masses": "× body mass"}


@dataclass(frozen=True)
class QualityReading:
    """One result of one test: ``have`` in ``unit`` (N, reps, m/s, × body mass), on both legs or one.

    ``have_se`` is the test's own error, from its trials, its scale and its instrument. ``usual_se`` is the error of one
    usual trial, which the benchmark's own error already includes.
    """

    test: QualityTest
    side: Side
    have: float
    have_se: float
    usual_se: float
    label: str
    date: datetime.date
    done_as: str = ""  # what must be the same in a retest: lift, form, box, distance

    @property
    def source(self) -> str:
        return f"{self.label} ({self.date.isoformat()})"

    @property
    def name(self) -> str:
        """What was tested: the lift by the library's name, another test by the benchmarks' id in words."""
        return self.done_as if self.test.kind == "lift" else self.test.id.replace("-", " ")

    @property
    def unit(self) -> str:
        return unit_of(self.test)

    @property
    def relative_se(self) -> float:
        """Test and curve together: the benchmark's error, corrected for how this test differs from a usual one."""
        if self.have <= 0:
            return self.test.standard_error
        own, usual = self.have_se / self.have, self.usual_se / self.have
        return math.sqrt(max(self.test.standard_error**2 + own**2 - usual**2, own**2))


def unit_of(test: QualityTest) -> str:
    return UNITS_OF_NEED.get(test.need_in, test.need_in)


def readings_of(
    test: QualityTest, athlete: Athlete, maxima: Maxima, benchmarks: Benchmarks, notes: Notebook
) -> list[QualityReading]:
    """Every reading that the athlete's tests give by this benchmark test; none: it was not done (or not usable)."""
    match test.kind:
        case "lift":
            return list(_lift(test, athlete, maxima))
        case "heel-raise":
            return list(_heel_raise(test, athlete, benchmarks, notes))
        case "isometric-calf":
            return list(_calf_push(test, athlete, benchmarks))
        case "drop-jump":
            return list(_drop_jump(test, athlete, benchmarks, notes))
        case "flying-sprint":
            return list(_flying_sprint(test, athlete, benchmarks, notes))


def _lift(test: QualityTest, athlete: Athlete, maxima: Maxima) -> Iterator[QualityReading]:
    """leg_share x (maximum + body mass) x g; or the maximum alone, as a share of body mass."""
    assert test.lift is not None
    for side in SIDES:
        if (test.sides == "both") != (side == "both"):
            continue
        found = [maxima[movement, side] for movement in test.lift.movements if (movement, side) in maxima]
        if not found:
            continue
        maximum = found[0]
        have, per_kg = _lifted(test, maximum.one_rm_kg.value, athlete)
        yield QualityReading(
            test=test,
            side=side,
            have=have,
            have_se=per_kg * maximum.one_rm_kg.se,
            usual_se=per_kg * maximum.usual_se_kg,
            label=f"{maximum.name}{',' * (',' in maximum.name)} {maximum.describe(words_of(athlete))}",
            date=maximum.test.date,
            done_as=maximum.name,
        )


def _lifted(test: QualityTest, one_rm_kg: float, athlete: Athlete) -> tuple[float, float]:
    """The reading of a maximum, and the reading of one kilogram."""
    assert test.lift is not None
    if test.need_in == "body-masses":
        return one_rm_kg / athlete.body_mass, 1.0 / athlete.body_mass
    per_kg = test.lift.leg_share * STANDARD_GRAVITY_m_s2
    return per_kg * (one_rm_kg + athlete.body_mass), per_kg


def _usual(have: float, kind: TestKind, benchmarks: Benchmarks) -> tuple[float, float]:
    """The error of one trial on one day, own and usual: for tests of which one result a leg is written down."""
    of_kind = benchmarks.test_kinds[kind]
    error = have * math.hypot(single_se_of(of_kind), day_se_of(of_kind))
    return error, error


def _heel_raise(
    test: QualityTest, athlete: Athlete, benchmarks: Benchmarks, notes: Notebook
) -> Iterator[QualityReading]:
    """Repetitions stay repetitions; those of free form count less."""
    for leg, number, done in _latest_by_leg(athlete, HeelRaiseTest):
        reps = float(getattr(done, leg))
        counted = ""
        if done.form == "free":
            reps *= test.free_form_factor or 1.0
            counted = f", counted as {reps:.0f} strict ones"
        if done.protocol is None and leg == LEGS[0]:
            message = "heel raises without a protocol are hard to repeat"
            hint = "write rhythm, height and support, such as: 60 beats a minute, full height, fingertips on a wall"
            notes.add("note", "heel-raise-protocol", message, hint=hint, at=("tests", number))
        label = f"{getattr(done, leg)} heel raises, {done.form}{counted}"
        yield QualityReading(test, leg, reps, *_usual(reps, "heel-raise", benchmarks), label, done.date, done.form)


def _calf_push(test: QualityTest, athlete: Athlete, benchmarks: Benchmarks) -> Iterator[QualityReading]:
    for leg, _, done in _latest_by_leg(athlete, CalfPushTest):
        force_N = float(getattr(done, leg))
        errors = _usual(force_N, "isometric-calf", benchmarks)
        yield QualityReading(test, leg, force_N, *errors, f"seated isometric calf push {force_N:.0f} N", done.date)


def _drop_jump(
    test: QualityTest, athlete: Athlete, benchmarks: Benchmarks, notes: Notebook
) -> Iterator[QualityReading]:
    found = fast_force(test, athlete, benchmarks, notes)
    if found is not None:
        errors = (found.force_N.se, found.usual_se_N)
        yield QualityReading(test, "both", found.force_N.value, *errors, found.label, found.date, found.box)


def _flying_sprint(
    test: QualityTest, athlete: Athlete, benchmarks: Benchmarks, notes: Notebook
) -> Iterator[QualityReading]:
    """A flying sprint; where there is none, the last split of a sprint that was already long."""
    latest = _latest(athlete, FlyingSprintTest)
    if latest is not None:
        number, done = latest
        speeds = [done.distance / time for time in done.trials if time > 0]
        speed = middle(speeds) if speeds else 0.0
        if _believed(speed, benchmarks.test_kinds["flying-sprint"], number, notes):
            errors = _speed_errors(speed, len(speeds), "flying-sprint", benchmarks)
            what = f"flying {words_of(athlete).run(done.distance)}"
            yield QualityReading(test, "both", speed, *errors, f"{what} at {speed:.2f} m/s", done.date, what)
        return
    splits = _latest(athlete, SprintSplitsTest)
    if splits is not None:
        yield from _last_split(test, *splits, benchmarks, words_of(athlete), notes)


def _last_split(
    test: QualityTest, number: int, done: SprintSplitsTest, benchmarks: Benchmarks, words: Words, notes: Notebook
) -> Iterator[QualityReading]:
    """Speed of the last split, if it starts far enough: it reads a little low while the athlete still gains speed."""
    if test.split_from is None or len(done.distances) < 2 or done.distances[-2] < test.split_from:
        return
    start, end = done.distances[-2:]
    rows = [row for row in done.trials if len(row) == len(done.distances)]
    speeds = [(end - start) / (row[-1] - row[-2]) for row in rows if row[-1] > row[-2]]
    if not speeds or end <= start:
        return
    speed = middle(speeds)
    if not _believed(speed, benchmarks.test_kinds["sprint-splits"], number, notes):
        return
    errors = _speed_errors(speed, len(speeds), "sprint-splits", benchmarks)
    split = f"{words.run(start).split()[0]}-{words.run(end)}"
    label = f"{split} of a sprint at {speed:.2f} m/s (a flying sprint would read a little more)"
    yield QualityReading(test, "both", speed, *errors, label, done.date, split)


def _believed(speed: float, kind: KindOfTest, number: int, notes: Notebook) -> bool:
    """Whether anybody can run that fast; a finding where not."""
    if 0.0 < speed <= (kind.refuse_speed_over_m_s or math.inf):
        return True
    message = f"the sprint is not used: {speed:.1f} m/s is not a running speed"
    hint = "check the distance and the times; splits are each from the start"
    notes.drop(number, "sprint-not-believed", message, hint=hint)
    return False


def _speed_errors(speed: float, trials: int, kind: TestKind, benchmarks: Benchmarks) -> tuple[float, float]:
    one, day = (speed * part(benchmarks.test_kinds[kind]) for part in (single_se_of, day_se_of))
    return math.hypot(day, one / math.sqrt(trials)), math.hypot(day, one)


def _latest_by_leg(athlete: Athlete, kind: type[Kind]) -> Iterator[tuple[Leg, int, Kind]]:
    for leg in LEGS:
        latest = _latest(athlete, kind, leg)
        if latest is not None:
            yield leg, *latest


def _latest(athlete: Athlete, kind: type[Kind], with_result_of: Leg | None = None) -> tuple[int, Kind] | None:
    """The latest test of this kind (that has a result of that leg), with its number."""
    found = [(number, done) for number, done in enumerate(athlete.tests) if isinstance(done, kind)]
    found = [one for one in found if with_result_of is None or getattr(one[1], with_result_of) is not None]
    return max(found, key=lambda entry: entry[1].date) if found else None
