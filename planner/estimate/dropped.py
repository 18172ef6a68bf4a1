"""Tests that are not believed: which quality each would have told, in a sentence of the headline."""

from __future__ import annotations

from collections.abc import Iterable

from planner.domain.athlete import Athlete
from planner.domain.benchmarks import Benchmarks, QualityTest
from planner.domain.measure import ForcePlatformTest, LiftTest, VideoFramesTest
from planner.domain.terms import QUALITY_NAMES
from planner.domain.test_record import TestRecord

TAKE_OFF = "contact or flight of a jump"


def dropped_words(athlete: Athlete, benchmarks: Benchmarks, numbers: Iterable[int]) -> str:
    """``Not believed, so not counted in full: back squat (maximal strength).``; empty where every test is believed."""
    named = [_in_words(athlete.tests[number], benchmarks) for number in sorted(numbers)]
    if not named:
        return ""
    return f"Not believed, so left out or not counted in full: {', '.join(dict.fromkeys(named))}."


def _in_words(test: TestRecord, benchmarks: Benchmarks) -> str:
    name = test.movement if isinstance(test, LiftTest) else str(getattr(test, "kind", "test"))
    qualities = [
        QUALITY_NAMES[quality]
        for quality, benchmark in benchmarks.qualities.items()
        if any(_tells(test, one) for one in benchmark.tests)
    ]
    tells = " and ".join(qualities) or (TAKE_OFF if isinstance(test, VideoFramesTest) else "no quality")
    return f"{name.replace('-', ' ')} ({tells})"


def _tells(test: TestRecord, one: QualityTest) -> bool:
    if isinstance(test, LiftTest):
        return one.lift is not None and test.movement in one.lift.movements
    if isinstance(test, (VideoFramesTest, ForcePlatformTest)):
        rebound = test.drop is not None or getattr(test, "jump", None) == "drop"
        return rebound and one.kind == "drop-jump"
    kind = getattr(test, "kind", "")
    return one.kind == kind or (kind == "sprint-splits" and one.kind == "flying-sprint")
