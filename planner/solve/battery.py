"""The athlete's tests as the block keeps them, so that the test day repeats each as it was taken."""

from __future__ import annotations

from collections.abc import Iterator
from functools import singledispatch

from planner.domain.athlete import Athlete, Preferences
from planner.domain.block import TestLine
from planner.domain.library import Library
from planner.domain.measure import (
    CalfPushTest,
    ContactMatTest,
    ContactTimeTest,
    CountermovementJumpTest,
    DropJumpTest,
    FlightTimeTest,
    FlyingSprintTest,
    ForcePlatformTest,
    GivenRiseTest,
    HeelRaiseTest,
    IsometricForceTest,
    LiftTest,
    LoadedJumpTest,
    OneLegHopTest,
    OneLegJumpTest,
    SprintSplitsTest,
    SquatJumpTest,
    Test,
    TouchTest,
    VideoFramesTest,
)
from planner.domain.terms import Leg
from planner.units import format_length, format_mass

Said = tuple[Leg | None, int, str]  # a leg, how many trials it had, what came of them


def test_lines(athlete: Athlete, library: Library) -> tuple[TestLine, ...]:
    """One line a test and leg, in the order of the athlete's file."""
    return tuple(line for test in athlete.tests for line in _lines_of(test, athlete.print_as, library))


test_lines.__test__ = False  # type: ignore[attr-defined]  # a function of ours, not a pytest test


def _lines_of(test: Test, units: Preferences, library: Library) -> Iterator[TestLine]:
    movement = None
    if isinstance(test, LiftTest):
        known = library.get(test.movement)
        movement = known.name if known else test.movement.replace("-", " ")
    for side, trials, result in _said(test, units):
        yield TestLine(
            kind=test.kind,
            movement=movement,
            side=side,
            how=tuple(_how(test, units)),
            trials=trials,
            date=test.date,
            result=result,
        )


def _how(test: Test, units: Preferences) -> Iterator[str]:
    """How it was taken: the take-off, what the test's own fields fix, then the coach's own words."""
    take_off = getattr(test, "take_off", None)
    if take_off is not None:
        run_up = {True: ", off a run-up", False: ", from a stand", None: ""}[getattr(test, "run_up", None)]
        yield f"{take_off}{run_up}"
    if isinstance(test, FlyingSprintTest):
        yield f"over {format_length(test.distance)}"
    if isinstance(test, DropJumpTest | ForcePlatformTest | VideoFramesTest) and test.drop is not None:
        yield f"off a box of {format_length(test.drop, units.length, 1)}"
    for fixed in ("form", "position", "jump"):
        if getattr(test, fixed, None):
            yield str(getattr(test, fixed)).replace("-", " ")
    if getattr(test, "arms", None):
        yield "arms free" if getattr(test, "arms", "") == "free" else "hands on the hips"
    if isinstance(test, VideoFramesTest):
        yield f"{test.frame_rate:g} frames a second"
    yield from (text for text in (test.method, test.protocol) if text)


@singledispatch
def _said(test: Test, units: Preferences) -> list[Said]:
    raise TypeError(f"no words for a test of kind {test.kind}")


def _listed(values: list[str], unit: str) -> str:
    return f"{', '.join(values)} {unit}"


def _seconds(values: tuple[float, ...]) -> str:
    return _listed([f"{value:.3f}" for value in values], "s")


@_said.register
def _(test: TouchTest | GivenRiseTest, units: Preferences) -> list[Said]:
    return [(None, len(test.trials), _lengths(test.trials, units, high=isinstance(test, TouchTest)))]


@_said.register
def _(
    test: FlightTimeTest | ContactTimeTest | SquatJumpTest | CountermovementJumpTest | FlyingSprintTest,
    units: Preferences,
) -> list[Said]:
    return [(None, len(test.trials), _seconds(test.trials))]


@_said.register
def _(test: LiftTest, units: Preferences) -> list[Said]:
    load = format_mass(test.load, units.mass, 2 if units.mass == "kg" else 1)
    return [(test.side, 1, f"{load} × {test.reps}, {test.reps_in_reserve} left")]


@_said.register
def _(test: DropJumpTest, units: Preferences) -> list[Said]:
    tries = [f"{trial.contact:.3f} + {trial.flight:.3f}" for trial in test.trials]
    return [(None, len(tries), f"{_listed(tries, 's')} (contact + flight)")]


@_said.register
def _(test: ContactMatTest | ForcePlatformTest, units: Preferences) -> list[Said]:
    flights = tuple(trial.flight for trial in test.trials if trial.flight is not None)
    if len(flights) < len(test.trials):
        return [(None, len(test.trials), f"{len(test.trials)} jumps on a platform")]
    return [(None, len(flights), f"{_seconds(flights)} in flight")]


@_said.register
def _(test: VideoFramesTest, units: Preferences) -> list[Said]:
    return [(None, len(test.trials), f"{len(test.trials)} jumps filmed")]


@_said.register
def _(test: HeelRaiseTest | CalfPushTest, units: Preferences) -> list[Said]:
    unit = "N" if isinstance(test, CalfPushTest) else "reps"
    legs: tuple[tuple[Leg, float | None], ...] = (("left", test.left), ("right", test.right))
    return [(leg, 1, f"{value:.0f} {unit}") for leg, value in legs if value is not None]


@_said.register
def _(test: OneLegHopTest | OneLegJumpTest, units: Preferences) -> list[Said]:
    legs: tuple[tuple[Leg, tuple[float, ...]], ...] = (("left", test.left), ("right", test.right))
    far = isinstance(test, OneLegHopTest)
    return [(leg, len(of), _lengths(of, units, high=True) if far else _seconds(of)) for leg, of in legs if of]


@_said.register
def _(test: LoadedJumpTest, units: Preferences) -> list[Said]:
    loads = [format_mass(one.load, units.mass) for one in test.sets]
    return [(None, sum(len(one.flights) for one in test.sets), f"with {', '.join(loads)}")]


@_said.register
def _(test: SprintSplitsTest, units: Preferences) -> list[Said]:
    last = min(trial[-1] for trial in test.trials)
    return [(None, len(test.trials), f"{last:.2f} s over {format_length(test.distances[-1])}")]


@_said.register
def _(test: IsometricForceTest, units: Preferences) -> list[Said]:
    return [(test.side, len(test.trials), _listed([f"{force:.0f}" for force in test.trials], "N"))]


def _lengths(values: tuple[float, ...], units: Preferences, *, high: bool) -> str:
    """A touch or a hop is read off a tape: metres to the centimetre, or inches; a rise in the athlete's short unit."""
    if units.length == "in":
        return _listed([format_length(value, "in", 1).removesuffix(" in") for value in values], "in")
    if high:
        return _listed([f"{value:.2f}" for value in values], "m")
    return _listed([format_length(value, "cm", 1).removesuffix(" cm") for value in values], "cm")
