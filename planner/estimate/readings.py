"""What each test of a quality says: a HAVE in newtons, repetitions or metres a second, per leg where it is."""

from __future__ import annotations

import datetime
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import TypeVar

from planner.domain.athlete import Athlete
from planner.domain.benchmarks import QualityTest
from planner.domain.measure import (
    CalfPushTest,
    CountermovementJumpTest,
    DropJumpTest,
    FlightTimeTest,
    FlyingSprintTest,
    ForcePlatformTest,
    HeelRaiseTest,
    SprintSplitsTest,
    TestRecord,
)
from planner.domain.terms import LEGS, Side
from planner.estimate.findings import Notebook
from planner.estimate.lifts import LiftMaximum, LiftSide
from planner.estimate.take_off import drop_jump_mean_force_N, rise_from_flight_time_m
from planner.units import STANDARD_GRAVITY_m_s2, format_length

Maxima = Mapping[tuple[str, LiftSide], LiftMaximum]
SIDES: tuple[LiftSide, ...] = ("both", *LEGS)
Kind = TypeVar("Kind", bound=TestRecord)
FLYING_FROM_m = 20.0  # from here on a split is near top speed; common practice, no source
FASTEST_m_s = 13.0  # nobody has run faster: a slip of the pen


@dataclass(frozen=True)
class Reading:
    """One result of one test: ``have`` in ``unit`` (N, reps, m/s), on both legs or one."""

    test: QualityTest
    side: Side
    have: float
    label: str
    date: datetime.date

    @property
    def source(self) -> str:
        return f"{self.label} ({self.date.isoformat()})"

    @property
    def unit(self) -> str:
        return unit_of(self.test)


def unit_of(test: QualityTest) -> str:
    return "N" if test.need_in == "body-weights" else test.need_in


def readings_of(test: QualityTest, athlete: Athlete, maxima: Maxima, notes: Notebook) -> list[Reading]:
    """Every reading that the athlete's tests give by this benchmark test; none: it was not done (or not usable)."""
    match test.kind:
        case "lift":
            return list(_lift(test, athlete, maxima))
        case "heel-raise":
            return list(_heel_raise(test, athlete, notes))
        case "isometric-calf":
            return list(_calf_push(test, athlete))
        case "drop-jump":
            return list(_drop_jump(test, athlete, notes))
        case "flying-sprint":
            return list(_flying_sprint(test, athlete))


def _lift(test: QualityTest, athlete: Athlete, maxima: Maxima) -> Iterator[Reading]:
    """leg_share x (maximum + body mass) x g."""
    assert test.lift is not None
    for side in SIDES:
        if (test.sides == "both") != (side == "both"):
            continue
        found = [(movement, maxima[movement, side]) for movement in test.lift.movements if (movement, side) in maxima]
        if found:
            movement, maximum = found[0]
            system_kg = maximum.one_rm_kg.value + athlete.body_mass
            have = test.lift.leg_share * system_kg * STANDARD_GRAVITY_m_s2
            yield Reading(test, side, have, f"{movement} {maximum.describe()}", maximum.test.date)


def _heel_raise(test: QualityTest, athlete: Athlete, notes: Notebook) -> Iterator[Reading]:
    """Repetitions stay repetitions; those of free form count less."""
    for leg in LEGS:
        found = [(number, done) for number, done in _all(athlete, HeelRaiseTest) if getattr(done, leg) is not None]
        if not found:
            continue
        number, done = max(found, key=lambda entry: entry[1].date)
        reps = float(getattr(done, leg))
        if done.form == "free":
            reps *= test.free_form_factor or 1.0
        if done.protocol is None and leg == LEGS[0]:
            notes.add(
                "note",
                "heel-raise-protocol",
                "heel raises without a protocol are hard to repeat",
                hint="write rhythm, height and support, such as: 60 beats a minute, full height, fingertips on a wall",
                at=("tests", number),
            )
        yield Reading(test, leg, reps, f"{getattr(done, leg)} heel raises, {done.form}", done.date)


def _calf_push(test: QualityTest, athlete: Athlete) -> Iterator[Reading]:
    for leg in LEGS:
        found = [done for _, done in _all(athlete, CalfPushTest) if getattr(done, leg) is not None]
        if found:
            done = max(found, key=lambda entry: entry.date)
            force_N = float(getattr(done, leg))
            yield Reading(test, leg, force_N, f"seated calf push {force_N:.0f} N", done.date)


@dataclass(frozen=True)
class DropTest:
    """A drop-jump test, whatever it was taken with: contacts and flights in seconds."""

    number: int
    date: datetime.date
    drop_m: float
    trials: tuple[tuple[float, float], ...]


def drop_tests(athlete: Athlete) -> list[DropTest]:
    """Mat, video or platform; a platform's jump counts where its box is written down."""
    found = []
    for number, done in enumerate(athlete.tests):
        if isinstance(done, DropJumpTest):
            trials = tuple((trial.contact, trial.flight) for trial in done.trials)
            found.append(DropTest(number, done.date, done.drop, trials))
        if isinstance(done, ForcePlatformTest) and done.jump == "drop" and done.drop is not None:
            trials = tuple((trial.contact, trial.flight) for trial in done.trials if trial.contact is not None)
            if trials:
                found.append(DropTest(number, done.date, done.drop, trials))
    return found


def _drop_jump(test: QualityTest, athlete: Athlete, notes: Notebook) -> Iterator[Reading]:
    """Mean of the best two trials that were fast; slow ones are no test of fast force."""
    found = drop_tests(athlete)
    if not found:
        return
    done = max(found, key=lambda one: one.date)
    limit_s = test.longest_contact
    fast = [trial for trial in done.trials if limit_s is None or trial[0] <= limit_s]
    if not fast:
        shortest = min(contact for contact, _ in done.trials)
        notes.add(
            "warning",
            "drop-jump-slow",
            f"the drop jump is not used: its shortest contact is {shortest * 1000:.0f} ms, fast is up to "
            f"{(limit_s or 0) * 1000:.0f} ms",
            hint="lower the box, cue a quick ground contact, and test again",
            at=("tests", done.number, "trials"),
        )
        return
    forces = sorted(
        (
            drop_jump_mean_force_N(
                body_mass_kg=athlete.body_mass, drop_m=done.drop_m, contact_time_s=contact, flight_time_s=flight
            ),
            contact,
            flight,
        )
        for contact, flight in fast
    )[-2:]
    have, contact, flight = (sum(column) / len(forces) for column in zip(*forces, strict=True))
    _note_drop(test, done, notes)
    _note_rebound(test, athlete, flight, done.number, notes)
    described = (
        f"drop jump {format_length(done.drop_m, 'cm', 0)}, contact {contact * 1000:.0f} ms, flight {flight:.3f} s"
    )
    yield Reading(test, "both", have, described, done.date)


def _note_drop(test: QualityTest, done: DropTest, notes: Notebook) -> None:
    if test.drop is not None and abs(test.drop - done.drop_m) > 0.005:
        notes.add(
            "note",
            "drop-height",
            f"the benchmark is drawn for a box of {format_length(test.drop, 'cm', 0)}, the test used "
            f"{format_length(done.drop_m, 'cm', 0)}",
            hint="a higher box alone raises the force; compare with care",
            at=("tests", done.number, "drop"),
        )


def _note_rebound(test: QualityTest, athlete: Athlete, flight_s: float, number: int, notes: Notebook) -> None:
    """Stiff but low: the force looks good because the contact is short, not because the jump is high."""
    share = test.least_share_of_countermovement
    standing = [
        max(done.trials)
        for done in athlete.tests
        if isinstance(done, (FlightTimeTest, CountermovementJumpTest)) and done.take_off == "two-leg"
    ]
    if share is None or not standing:
        return
    countermovement_m = rise_from_flight_time_m(flight_time_s=max(standing))
    rebound_m = rise_from_flight_time_m(flight_time_s=flight_s)
    if rebound_m < share * countermovement_m:
        notes.add(
            "warning",
            "rebound-low",
            f"the drop jump's rebound ({rebound_m * 100:.0f} cm) is under {100 * share:.0f} % of the jump from a stand "
            f"({countermovement_m * 100:.0f} cm): stiff but low, so its force flatters",
            hint="cue height as well as a quick contact, and test again",
            at=("tests", number),
        )


def _flying_sprint(test: QualityTest, athlete: Athlete) -> Iterator[Reading]:
    """A flying sprint; where there is none, the last split of a sprint that was already long."""
    latest = _latest(athlete, FlyingSprintTest)
    if latest is not None:
        _, done = latest
        fastest = sorted(trial for trial in done.trials if trial > 0)[:2]
        if fastest and done.distance > 0:
            speed = sum(done.distance / time for time in fastest) / len(fastest)
            yield Reading(test, "both", speed, f"flying {done.distance:g} m at {speed:.2f} m/s", done.date)
        return
    splits = _latest(athlete, SprintSplitsTest)
    if splits is not None:
        yield from _last_split(test, splits[1])


def _last_split(test: QualityTest, done: SprintSplitsTest) -> Iterator[Reading]:
    """Speed of the last split from FLYING_FROM_m on: it reads a little low while the athlete still gains speed."""
    if len(done.distances) < 2 or done.distances[-2] < FLYING_FROM_m:
        return
    start, end = done.distances[-2:]
    rows = [row for row in done.trials if len(row) == len(done.distances)]
    times = sorted(row[-1] - row[-2] for row in rows if row[-1] > row[-2])[:2]
    if not times or end <= start:
        return
    speed = sum((end - start) / time for time in times) / len(times)
    if speed > FASTEST_m_s:
        return
    label = f"{start:g}-{end:g} m of a sprint at {speed:.2f} m/s (a flying sprint would read a little more)"
    yield Reading(test, "both", speed, label, done.date)


def _all(athlete: Athlete, kind: type[Kind]) -> list[tuple[int, Kind]]:
    return [(number, done) for number, done in enumerate(athlete.tests) if isinstance(done, kind)]


def _latest(athlete: Athlete, kind: type[Kind]) -> tuple[int, Kind] | None:
    found = _all(athlete, kind)
    return max(found, key=lambda entry: entry[1].date) if found else None
