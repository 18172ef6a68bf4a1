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
    DropJumpTest,
    FlightTimeTest,
    FlyingSprintTest,
    HeelRaiseTest,
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


def _drop_jump(test: QualityTest, athlete: Athlete, notes: Notebook) -> Iterator[Reading]:
    """Mean of the best two trials that were fast; slow ones are no test of fast force."""
    latest = _latest(athlete, DropJumpTest)
    if latest is None:
        return
    number, done = latest
    limit_s = test.longest_contact
    fast = [trial for trial in done.trials if limit_s is None or trial.contact <= limit_s]
    if not fast:
        shortest = min(trial.contact for trial in done.trials)
        notes.add(
            "warning",
            "drop-jump-slow",
            f"the drop jump is not used: its shortest contact is {shortest * 1000:.0f} ms, fast is up to "
            f"{(limit_s or 0) * 1000:.0f} ms",
            hint="lower the box, cue a quick ground contact, and test again",
            at=("tests", number, "trials"),
        )
        return
    forces = sorted(
        (
            drop_jump_mean_force_N(
                body_mass_kg=athlete.body_mass,
                drop_m=done.drop,
                contact_time_s=trial.contact,
                flight_time_s=trial.flight,
            ),
            trial.contact,
            trial.flight,
        )
        for trial in fast
    )[-2:]
    have, contact, flight = (sum(column) / len(forces) for column in zip(*forces, strict=True))
    _note_drop(test, done, number, notes)
    _note_rebound(test, athlete, flight, number, notes)
    described = f"drop jump {format_length(done.drop, 'cm', 0)}, contact {contact * 1000:.0f} ms, flight {flight:.3f} s"
    yield Reading(test, "both", have, described, done.date)


def _note_drop(test: QualityTest, done: DropJumpTest, number: int, notes: Notebook) -> None:
    if test.drop is not None and abs(test.drop - done.drop) > 0.005:
        notes.add(
            "note",
            "drop-height",
            f"the benchmark is drawn for a box of {format_length(test.drop, 'cm', 0)}, the test used "
            f"{format_length(done.drop, 'cm', 0)}",
            hint="a higher box alone raises the force; compare with care",
            at=("tests", number, "drop"),
        )


def _note_rebound(test: QualityTest, athlete: Athlete, flight_s: float, number: int, notes: Notebook) -> None:
    """Stiff but low: the force looks good because the contact is short, not because the jump is high."""
    share = test.least_share_of_countermovement
    standing = [done for _, done in _all(athlete, FlightTimeTest) if done.take_off == "two-leg"]
    if share is None or not standing:
        return
    countermovement_m = rise_from_flight_time_m(flight_time_s=max(max(done.trials) for done in standing))
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
    latest = _latest(athlete, FlyingSprintTest)
    if latest is None:
        return
    _, done = latest
    fastest = sorted(trial for trial in done.trials if trial > 0)[:2]
    if fastest and done.distance > 0:
        speed = sum(done.distance / time for time in fastest) / len(fastest)
        yield Reading(test, "both", speed, f"flying {done.distance:g} m at {speed:.2f} m/s", done.date)


def _all(athlete: Athlete, kind: type[Kind]) -> list[tuple[int, Kind]]:
    return [(number, done) for number, done in enumerate(athlete.tests) if isinstance(done, kind)]


def _latest(athlete: Athlete, kind: type[Kind]) -> tuple[int, Kind] | None:
    found = _all(athlete, kind)
    return max(found, key=lambda entry: entry[1].date) if found else None
