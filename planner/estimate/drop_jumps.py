"""Drop jumps of any clock: contact and flight, the mean ground force they make, and which do not test fast force."""

from __future__ import annotations

import datetime
import math
from collections.abc import Iterator
from dataclasses import dataclass

from planner.domain.athlete import Athlete
from planner.domain.benchmarks import Benchmarks, QualityTest
from planner.domain.measure import (
    ContactMatTest,
    CountermovementJumpTest,
    DropJumpTest,
    FlightTimeTest,
    ForcePlatformTest,
    VideoFramesTest,
)
from planner.domain.test_kinds import KindOfTest
from planner.estimate.notebook import Notebook
from planner.estimate.take_off import drop_jump_mean_force_N, rise_from_flight_time_m
from planner.estimate.trials import day_se_of, middle, single_se_of
from planner.estimate.uncertainty import Estimate, frame_se_s
from planner.estimate.video import drops_s
from planner.estimate.words import Words, words_of
from planner.units import STANDARD_GRAVITY_m_s2

SAME_BOX_m = 0.005  # boxes are given to the centimetre


@dataclass(frozen=True)
class DropTest:
    """A drop-jump test, whatever it was measured with: (contact, flight) of each trial in seconds.

    ``clock_se_s``: error of a single time from the instrument alone (a video's frames), 0 if the kind's own error
    includes it.
    """

    number: int
    date: datetime.date
    drop_m: float
    trials: tuple[tuple[float, float], ...]
    clock_se_s: float = 0.0


@dataclass(frozen=True)
class FastForce:
    """Mean ground force of all fast trials; ``usual_se_N`` is the error of one usual trial."""

    force_N: Estimate
    usual_se_N: float
    box: str
    label: str
    date: datetime.date


def drop_tests(athlete: Athlete, video: KindOfTest, notes: Notebook) -> list[DropTest]:
    """Drop jumps on a mat, a video or a platform; without the box's height a test is reported and left out."""
    found = []
    for number, done in enumerate(athlete.tests):
        trials: tuple[tuple[float, float], ...] = ()
        clock_se_s = 0.0
        if isinstance(done, DropJumpTest):
            trials = tuple((trial.contact, trial.flight) for trial in done.trials)
        if isinstance(done, ForcePlatformTest) and done.jump == "drop":
            trials = tuple(
                (trial.contact, trial.flight) for trial in done.trials if trial.contact is not None and trial.flight
            )
        if isinstance(done, VideoFramesTest) and done.drop is not None:
            trials = tuple(drops_s(number, done, video, notes))
            clock_se_s = frame_se_s(done.frame_rate)
        drop_m = getattr(done, "drop", None)
        if trials and drop_m is None:
            message = "this drop jump is not used: its force needs the height of the box"
            notes.drop(number, "drop-without-box", message, hint="write drop: 30 cm, or what the box was")
        elif trials and drop_m is not None:
            found.append(DropTest(number, done.date, drop_m, trials, clock_se_s))
    return found


def fast_force(test: QualityTest, athlete: Athlete, benchmarks: Benchmarks, notes: Notebook) -> FastForce | None:
    """Fast force from the latest drop-jump test; None if there is none, or if no trial was fast."""
    found = drop_tests(athlete, benchmarks.test_kinds["video-frames"], notes)
    if not found:
        return None
    done = max(found, key=lambda one: (one.date, one.number))
    limit_s = test.longest_contact or math.inf
    fast = [trial for trial in done.trials if trial[0] <= limit_s]
    if not fast:
        _note_slow(done, limit_s, notes)
        return None
    forces = [
        drop_jump_mean_force_N(
            body_mass_kg=athlete.body_mass, drop_m=done.drop_m, contact_time_s=contact, flight_time_s=flight
        )
        for contact, flight in fast
    ]
    force_N, contact_s, flight_s = (middle(column) for column in (forces, *zip(*fast, strict=True)))
    words = words_of(athlete)
    _note_box(test, done, words, notes)
    _note_rebound(test, athlete, flight_s, done.number, notes)
    kind = benchmarks.test_kinds["drop-jump"]
    usual_N, day_N = force_N * single_se_of(kind), force_N * day_se_of(kind)
    clock_N = _clock_se_N(athlete.body_mass, force_N, contact_s, done.clock_se_s)
    box = f"drop jump {words.length(done.drop_m, 0)}"
    label = f"{box}, contact {contact_s * 1000:.0f} ms, flight {flight_s:.3f} s"
    own = Estimate(force_N, math.hypot(day_N, math.hypot(usual_N, clock_N) / math.sqrt(len(forces))))
    return FastForce(own, math.hypot(day_N, usual_N), box, label, done.date)


def _clock_se_N(body_mass_kg: float, force_N: float, contact_s: float, clock_se_s: float) -> float:
    """Errors of contact and flight, propagated to first order through m g + m (v + g T / 2) / t."""
    by_contact = (force_N - body_mass_kg * STANDARD_GRAVITY_m_s2) / contact_s
    by_flight = body_mass_kg * STANDARD_GRAVITY_m_s2 / (2.0 * contact_s)
    return math.hypot(by_contact, by_flight) * clock_se_s


def _note_slow(done: DropTest, limit_s: float, notes: Notebook) -> None:
    shortest = min(contact for contact, _ in done.trials)
    message = (
        f"the drop jump is not used: its shortest contact is {shortest * 1000:.0f} ms, fast is up to "
        f"{limit_s * 1000:.0f} ms"
    )
    hint = "lower the box, cue a quick ground contact, and test again"
    notes.drop(done.number, "drop-jump-slow", message, hint=hint, at=("trials",))


def _note_box(test: QualityTest, done: DropTest, words: Words, notes: Notebook) -> None:
    if test.drop is not None and abs(test.drop - done.drop_m) > SAME_BOX_m:
        message = (
            f"the benchmark is drawn for a box of {words.length(test.drop, 0)}, the test used "
            f"{words.length(done.drop_m, 0)}"
        )
        hint = "a higher box alone raises the force; compare with care"
        notes.add("note", "drop-height", message, hint=hint, at=("tests", done.number, "drop"))


def _note_rebound(test: QualityTest, athlete: Athlete, flight_s: float, number: int, notes: Notebook) -> None:
    """A low rebound: the force looks good because the contact is short, not because the jump is high."""
    share, standing = test.least_share_of_countermovement, list(_standing_flights_s(athlete))
    if share is None or not standing:
        return
    countermovement_m = rise_from_flight_time_m(flight_time_s=max(standing))
    rebound_m = rise_from_flight_time_m(flight_time_s=flight_s)
    if rebound_m < share * countermovement_m:
        words = words_of(athlete)
        message = (
            f"the drop jump's rebound ({words.length(rebound_m, 0)}) is under {100 * share:.0f} % of the jump from a "
            f"stand ({words.length(countermovement_m, 0)}): a low rebound, so its force flatters"
        )
        hint = "cue height as well as a quick contact, and test again"
        notes.add("warning", "rebound-low", message, hint=hint, at=("tests", number))


def _standing_flights_s(athlete: Athlete) -> Iterator[float]:
    """Flight times of standing countermovement jumps off both legs, timed by any device."""
    for done in athlete.tests:
        if getattr(done, "take_off", "two-leg") != "two-leg" or getattr(done, "run_up", False):
            continue
        match done:
            case FlightTimeTest() | CountermovementJumpTest():
                yield from done.trials
            case ContactMatTest():
                yield from (trial.flight for trial in done.trials if trial.contact is None)
            case ForcePlatformTest(jump="countermovement"):
                yield from (trial.flight for trial in done.trials if trial.flight is not None)
            case _:
                pass
