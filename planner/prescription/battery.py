"""The athlete's tests as lines of the block, so that the test day can repeat each as it was done."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from planner.domain import measure
from planner.domain.athlete import Athlete, Preferences
from planner.domain.block import TestLine
from planner.domain.movement_library import Library
from planner.domain.terms import Leg
from planner.units import counted, format_length, format_mass, format_run

LegResult = tuple[Leg | None, int, str]  # a leg, how many trials it had, what came of them


def test_lines(athlete: Athlete, library: Library) -> tuple[TestLine, ...]:
    """One line for each test and leg, in the order of the athlete's file."""
    return tuple(line for test in athlete.tests for line in _lines_of(test, athlete.print_as, library))


test_lines.__test__ = False  # type: ignore[attr-defined]  # not a pytest test


def _lines_of(test: measure.Test, units: Preferences, library: Library) -> Iterator[TestLine]:
    movement = None
    if isinstance(test, measure.LiftTest):
        known = library.get(test.movement)
        movement = known.name if known else test.movement.replace("-", " ")
    for side, trials, result in results_of(test, units):
        yield TestLine(
            kind=test.kind,
            movement=movement,
            side=side,
            how=tuple(how_taken(test, units)),
            trials=trials,
            date=test.date,
            result=result,
        )


def how_taken(test: measure.Test, units: Preferences) -> Iterator[str]:
    """How it was done: the take-off, what the test's fields say, then the coach's own words."""
    take_off = getattr(test, "take_off", None)
    if take_off is not None:
        run_up = {True: ", off a run-up", False: ", from a stand", None: ""}[getattr(test, "run_up", None)]
        yield f"{take_off}{run_up}"
    if isinstance(test, measure.FlyingSprintTest):
        yield f"over {_run(test.distance, units)}"
    if (
        isinstance(test, measure.DropJumpTest | measure.ForcePlatformTest | measure.VideoFramesTest)
        and test.drop is not None
    ):
        yield f"off a box of {format_length(test.drop, units.length, 1)}"
    for fixed in ("form", "position", "jump"):
        if getattr(test, fixed, None):
            yield str(getattr(test, fixed)).replace("-", " ")
    if getattr(test, "arms", None):
        yield "arms free" if getattr(test, "arms", "") == "free" else "hands on the hips"
    if isinstance(test, measure.VideoFramesTest):
        yield f"{test.frame_rate:g} frames a second"
    yield from (text for text in (test.method, test.protocol) if text)


def _listed(values: list[str], unit: str) -> str:
    return f"{', '.join(values)} {unit}"


def _seconds(values: Sequence[float]) -> str:
    return _listed([f"{value:.3f}" for value in values], "s")


def results_of(test: measure.Test, units: Preferences) -> list[LegResult]:
    """What came of a test, once for each leg that has its own trials."""
    match test:
        case measure.LiftTest():
            load = format_mass(test.load, units.mass, 2 if units.mass == "kg" else 1)
            return [(test.side, 1, f"{load} × {test.reps}, {test.reps_in_reserve} left")]
        case measure.IsometricForceTest():
            return [(test.side, len(test.trials), _listed([f"{force:.0f}" for force in test.trials], "N"))]
        case measure.HeelRaiseTest() | measure.CalfPushTest():
            unit = "N" if isinstance(test, measure.CalfPushTest) else "reps"
            legs: tuple[tuple[Leg, float | None], ...] = (("left", test.left), ("right", test.right))
            return [(leg, 1, f"{value:.0f} {unit}") for leg, value in legs if value is not None]
        case measure.OneLegHopTest():
            return [(leg, len(of), _lengths(of, units, high=True)) for leg, of in _by_leg(test)]
        case measure.OneLegJumpTest():
            return [(leg, len(of), _seconds(of)) for leg, of in _by_leg(test)]
        case measure.LoadedJumpTest():
            loads = ", ".join(format_mass(one.load, units.mass) for one in test.sets)
            return [(None, sum(len(one.flights) for one in test.sets), f"with {loads}")]
    return [(None, len(test.trials), _in_words(test, units))]


def _by_leg(test: measure.OneLegHopTest | measure.OneLegJumpTest) -> list[tuple[Leg, tuple[float, ...]]]:
    legs: tuple[tuple[Leg, tuple[float, ...]], ...] = (("left", test.left), ("right", test.right))
    return [(leg, trials) for leg, trials in legs if trials]


def _in_words(test: measure.Test, units: Preferences) -> str:
    """The trials of a test that has one list of them."""
    match test:
        case measure.TouchTest() | measure.GivenRiseTest():
            return _lengths(test.trials, units, high=isinstance(test, measure.TouchTest))
        case measure.DropJumpTest():
            tries = [f"{trial.contact:.3f} + {trial.flight:.3f}" for trial in test.trials]
            return f"{_listed(tries, 's')} (contact + flight)"
        case measure.ContactMatTest() | measure.ForcePlatformTest():
            flights = [trial.flight for trial in test.trials if trial.flight is not None]
            all_known = len(flights) == len(test.trials)
            return (
                f"{_seconds(flights)} in flight" if all_known else f"{counted(len(test.trials), 'jump')} on a platform"
            )
        case measure.VideoFramesTest():
            return f"{counted(len(test.trials), 'jump')} filmed"
        case measure.SprintSplitsTest():
            return f"{min(trial[-1] for trial in test.trials):.2f} s over {_run(test.distances[-1], units)}"
        case (
            measure.FlightTimeTest()
            | measure.ContactTimeTest()
            | measure.SquatJumpTest()
            | measure.CountermovementJumpTest()
            | measure.FlyingSprintTest()
        ):
            return _seconds(test.trials)
    raise TypeError(f"no words for a test of kind {test.kind}")


def _lengths(values: tuple[float, ...], units: Preferences, *, high: bool) -> str:
    """Touches and hops (``high``) in metres to the centimetre, as read off a tape, rises in cm; or all in inches."""
    if units.length == "in":
        return _listed([format_length(value, "in", 1).removesuffix(" in") for value in values], "in")
    if high:
        return _listed([f"{value:.2f}" for value in values], "m")
    return _listed([format_length(value, "cm", 1).removesuffix(" cm") for value in values], "cm")


def _run(length_m: float, units: Preferences) -> str:
    """As it was laid out: ``10 m``, ``10 yd``."""
    return format_run(length_m, "in", 0.1) if units.length == "in" else format_length(length_m)
