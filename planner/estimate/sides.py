"""Left against right, test by test: a difference is reported only beyond its error.

Both legs are tested on one day, so that a day's form is in both and the error is that of the trials.
"""

from __future__ import annotations

import datetime
import math
from collections.abc import Iterator
from typing import NamedTuple

from planner.domain.athlete import Athlete
from planner.domain.benchmarks import Benchmarks
from planner.domain.gap_record import SideDifference
from planner.domain.measure import (
    CalfPushTest,
    ForcePlatformTest,
    HeelRaiseTest,
    IsometricForceTest,
    OneLegHopTest,
    OneLegJumpTest,
    TestKind,
)
from planner.domain.terms import LEGS, Leg, Quality
from planner.estimate.flight_rise import rise_by_flight
from planner.estimate.lifts import Maxima
from planner.estimate.trials import middle, middle_of, single_se_of
from planner.estimate.uncertainty import Estimate

LEAST_SHARE_SE = 0.001  # shares are written to the thousandth: equal figures do not prove a zero error


class Pair(NamedTuple):
    """A test of both legs; ``date``: None where the latest is meant; ``quality``: the only one it tests."""

    what: str
    unit: str
    left: Estimate
    right: Estimate
    date: datetime.date | None = None
    quality: Quality | None = None


def side_differences(athlete: Athlete, benchmarks: Benchmarks, maxima: Maxima) -> list[SideDifference]:
    """Every test taken on both legs, in the order of the file; lifts last."""
    pairs = [*_tests(athlete, benchmarks), *_lifts(benchmarks, maxima)]
    dated = [(pair.date, pair.what) for pair in pairs if pair.date is not None]
    latest = {what: date for date, what in sorted(dated)}
    return [
        _difference(pair, benchmarks.retest.multiple, superseded=pair.date != latest.get(pair.what)) for pair in pairs
    ]


def _difference(pair: Pair, multiple: float, *, superseded: bool) -> SideDifference:
    left, right = pair.left, pair.right
    larger = max(left.value, right.value)
    apart, error = left.value - right.value, math.hypot(left.se, right.se)
    weaker: Leg | None = None
    if abs(apart) > multiple * error:
        weaker = "right" if apart > 0 else "left"
    return SideDifference(
        test=f"{pair.what} ({pair.date.isoformat()})" if pair.date else pair.what,
        unit=pair.unit,
        quality=pair.quality,
        left=left.value,
        right=right.value,
        difference_percent=100.0 * apart / larger if larger > 0 else 0.0,
        error_percent=100.0 * error / larger if larger > 0 else 0.0,
        weaker=weaker,
        superseded=superseded,
    )


def _tests(athlete: Athlete, benchmarks: Benchmarks) -> Iterator[Pair]:
    def share(kind: TestKind, value: float, trials: int = 1) -> Estimate:
        return Estimate(value, value * single_se_of(benchmarks.test_kinds[kind]) / math.sqrt(trials))

    isometric: dict[str, dict[str, Estimate]] = {}
    for test in athlete.tests:
        match test:
            case HeelRaiseTest(left=int(left), right=int(right)) if left + right > 0:
                legs = share("heel-raise", left), share("heel-raise", right)
                told: Quality | None = "calf-ankle" if test.form == "strict" else None  # free ones: too loose to act on
                yield Pair(f"heel raises, {test.form}", "reps", *legs, test.date, told)
            case CalfPushTest(left=float(left), right=float(right)):
                legs = share("isometric-calf", left), share("isometric-calf", right)
                yield Pair("seated isometric calf push", "N", *legs, test.date, "calf-ankle")
            case OneLegHopTest() if test.left and test.right:
                single = single_se_of(benchmarks.test_kinds["one-leg-hop"])
                hops = [middle_of(getattr(test, leg), single_se=single) for leg in LEGS]
                yield Pair("one-leg hop", "m", hops[0], hops[1], test.date)
            case OneLegJumpTest() if test.left and test.right:
                single = single_se_of(benchmarks.test_kinds["one-leg-jump"])
                rises = [rise_by_flight(middle_of(getattr(test, leg), single_se=single)) for leg in LEGS]
                yield Pair("one-leg jump, rise by flight time", "m", rises[0], rises[1], test.date)
            case IsometricForceTest() if test.side is not None:
                force = middle(test.trials)
                name = f"isometric {test.position.replace('-', ' ')}"
                isometric.setdefault(name, {})[test.side] = share("isometric-force", force, len(test.trials))
            case ForcePlatformTest():
                yield from _platform(test, benchmarks.platform.least_jumps_for_sides)
    for name, by_leg in isometric.items():
        if set(by_leg) == set(LEGS):
            yield Pair(name, "N", by_leg["left"], by_leg["right"])


def _platform(test: ForcePlatformTest, least_jumps: int) -> Iterator[Pair]:
    """Shares of the push over at least ``least_jumps`` jumps; their scatter is the error."""
    shares = [trial.left_share for trial in test.trials if trial.left_share is not None]
    if len(shares) < least_jumps:
        return
    mean = sum(shares) / len(shares)
    se = math.sqrt(sum((one - mean) ** 2 for one in shares) / (len(shares) - 1) / len(shares))
    # left + right = 1, so the difference has twice the share's error, which is split over both sides here
    each = max(se, LEAST_SHARE_SE) * math.sqrt(2.0)
    yield Pair(
        "share of the push on a platform",
        "%",
        Estimate(100 * mean, 100 * each),
        Estimate(100 * (1 - mean), 100 * each),
        test.date,
    )


def _lifts(benchmarks: Benchmarks, maxima: Maxima) -> Iterator[Pair]:
    """One-repetition maxima; the typical error is a share of the whole load, body included where it is lifted."""
    for (movement, side), left in maxima.items():
        if side != "left" or (movement, "right") not in maxima:
            continue
        right = maxima[movement, "right"]
        estimates = [Estimate(one.one_rm_kg.value, one.trials_se_kg) for one in (left, right)]
        name = f"{left.name}, one-repetition maximum of the load"
        yield Pair(name, "kg", estimates[0], estimates[1], quality=_told_by(movement, benchmarks))


def _told_by(movement: str, benchmarks: Benchmarks) -> Quality | None:
    for quality, benchmark in benchmarks.qualities.items():
        if any(test.lift is not None and movement in test.lift.movements for test in benchmark.tests):
            return quality
    return None
