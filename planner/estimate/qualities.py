"""The five qualities: each one's have, need, deficit and confidence, left and right apart; and which limits the jump.

The take-off leg decides, or the worse leg for a two-leg jump. A quality without a test is *untested*: it has no deficit
and no confidence, and is never inferred from another.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from planner.domain.athlete import Athlete
from planner.domain.benchmarks import Benchmarks, Curve, QualityTest
from planner.domain.terms import LEVELS, LIFT_QUALITIES, QUALITIES, Quality, Side, TakeOff, leg_of, legs_of
from planner.estimate.lifts import Maxima
from planner.estimate.notebook import Notebook
from planner.estimate.quality_readings import QualityReading, readings_of
from planner.estimate.uncertainty import Estimate, confidence
from planner.units import STANDARD_GRAVITY_m_s2


@dataclass(frozen=True)
class Judgement:
    """One reading against its need. ``supported_x``: the place on the curves' axis that usually goes with it.

    The deficit's error has two parts: that of the test and its curve, and that of the need, which comes from the
    target's force and is shared by every quality.
    """

    reading: QualityReading
    need: float
    deficit: float
    confidence: float
    supported_x: float
    test_part_se: float
    need_part_se: float

    @property
    def relative_se(self) -> float:
        return self.reading.relative_se

    @property
    def deficit_se(self) -> float:
        return math.hypot(self.test_part_se, self.need_part_se)

    @property
    def side(self) -> Side:
        return self.reading.side


@dataclass(frozen=True)
class QualityResult:
    """A quality's verdict. ``counted`` are the judgements it rests on, ``shown`` those of the other leg or test.

    Untested: ``counted`` is empty, deficit and confidence are 0. ``first_test`` is the benchmarks' first test that
    suits this athlete (``first_test_fits`` False: none does, and it is simply the first in the list).
    """

    quality: Quality
    counted: tuple[Judgement, ...]
    shown: tuple[Judgement, ...]
    deficit: float
    deficit_se: float
    confidence: float
    first_test: QualityTest
    first_need: float
    first_test_fits: bool

    @property
    def tested(self) -> bool:
        return bool(self.counted)

    @property
    def push(self) -> float:
        """Confidence x deficit: what the emphasis rule acts on."""
        return self.confidence * self.deficit


@dataclass(frozen=True)
class Limiters:
    """Share of the gap that strength and fast force do not yet support, 0 to 1 each; None if no test is trusted enough.

    ``weakest``: the strength quality with the lowest supported force, which sets the strength share.
    """

    strength_share: float | None
    speed_share: float | None
    weakest: Quality | None = None


def slope_on_curve(curve: Curve, x: float) -> float:
    """How fast the need grows with x; 0 above the cap."""
    value = curve.base + curve.slope * (x - curve.at)
    return 0.0 if curve.cap is not None and value > curve.cap else curve.slope


def supported_on_curve(curve: Curve, have: float, *, highest: float) -> float:
    """The curve read backwards: the x that needs this much. At or above the cap the whole axis is supported."""
    value = have - curve.plus
    if curve.cap is not None and value >= curve.cap:
        return highest
    return min(curve.at + (value - curve.base) / curve.slope, highest)


def axis_x(mean_ground_force_bw: float, athlete: Athlete, benchmarks: Benchmarks) -> tuple[float, bool]:
    """A take-off's place on the curves' axis, clamped to its ends, and whether it was outside."""
    x = mean_ground_force_bw + benchmarks.take_offs[legs_of(athlete.take_off)].axis_shift
    clamped = min(max(x, benchmarks.axis.low), benchmarks.axis.high)
    return clamped, clamped != x


def judge_qualities(
    *, athlete: Athlete, benchmarks: Benchmarks, maxima: Maxima, target_x: float, target_x_se: float, notes: Notebook
) -> dict[Quality, QualityResult]:
    """All five qualities against what the target (``target_x`` on the curves' axis) needs."""
    x = Estimate(target_x, target_x_se)
    results = {}
    for quality in QUALITIES:
        benchmark = benchmarks.qualities[quality]
        judged = [
            [
                _judge(reading, athlete, benchmarks, x)
                for reading in readings_of(test, athlete, maxima, benchmarks, notes)
            ]
            for test in benchmark.tests
        ]
        deciding = [_deciding(judgements, athlete.take_off) for judgements in judged]
        found = [judgement for judgement in deciding if judgement is not None]
        counted = found if benchmark.combine == "average" else found[:1]
        shown = [one for judgements in judged for one in judgements if one not in counted]
        deficit, deficit_se, sure = _combine(counted, benchmarks.confidence.scatter)
        fitting = [test for test in benchmark.tests if _fits(test, athlete)]
        first = fitting[0] if fitting else benchmark.tests[0]
        results[quality] = QualityResult(
            quality=quality,
            counted=tuple(counted),
            shown=tuple(shown),
            deficit=deficit,
            deficit_se=deficit_se,
            confidence=sure,
            first_test=first,
            first_need=_need(first, athlete, target_x),
            first_test_fits=bool(fitting),
        )
    return results


def limits(
    results: Mapping[Quality, QualityResult],
    *,
    now_x: float,
    target_x: float,
    least_confidence: float,
    dead_zone: float,
) -> Limiters:
    """The share of the way to the target that the tests do not support: clip((x_t - supported x)/(x_t - x_n), 0, 1).

    Strength takes the lowest supported x of the four lift qualities, speed that of the drop jump; if both are above 0,
    they are scaled to sum to 1. If both are 0, the tests support the target: look at approach and plant. A quality with
    confidence x deficit below ``dead_zone`` supports the target: the page calls it enough, so it cannot limit the jump.
    """
    if target_x - now_x < 1e-9:
        return Limiters(None, None)

    def lowest(of: tuple[Quality, ...], kinds: tuple[str, ...] = ()) -> tuple[float, Quality | None] | None:
        trusted = [
            (one.supported_x if results[quality].push >= dead_zone else math.inf, quality)
            for quality in of
            for one in results[quality].counted
            if one.confidence >= least_confidence and (not kinds or one.reading.test.kind in kinds)
        ]
        if not trusted:
            return None
        supported_x, quality = min(trusted)
        return supported_x, quality if supported_x < target_x else None

    def share(found: tuple[float, Quality | None] | None) -> float | None:
        return None if found is None else min(max((target_x - found[0]) / (target_x - now_x), 0.0), 1.0)

    lifts = lowest(LIFT_QUALITIES)
    strength, speed = share(lifts), share(lowest(("speed-exposure",), ("drop-jump",)))
    weakest = lifts[1] if lifts else None
    if strength and speed:
        return Limiters(strength / (strength + speed), speed / (strength + speed), weakest)
    return Limiters(strength, speed, weakest)


def most_useful_tests(
    results: Mapping[Quality, QualityResult], weights: Mapping[Quality, float]
) -> list[QualityResult]:
    """Qualities whose best test is missing, most useful to the block first: usual sets x (1 - confidence)."""
    missing = [
        result
        for result in results.values()
        if result.first_test_fits and all(one.reading.test.id != result.first_test.id for one in result.counted)
    ]
    return sorted(missing, key=lambda one: (-weights[one.quality] * (1.0 - one.confidence), one.quality))


def _judge(reading: QualityReading, athlete: Athlete, benchmarks: Benchmarks, x: Estimate) -> Judgement:
    test = reading.test
    curve = test.curves[legs_of(athlete.take_off)]
    scale = _scale(test, athlete)
    need = scale * curve.need(x.value)
    need_se = scale * slope_on_curve(curve, x.value) * x.se
    return Judgement(
        reading=reading,
        need=need,
        deficit=(need - reading.have) / need,
        confidence=confidence(relative_se=reading.relative_se, scatter=benchmarks.confidence.scatter),
        supported_x=supported_on_curve(curve, reading.have / scale, highest=benchmarks.axis.high),
        test_part_se=reading.have / need * reading.relative_se,
        need_part_se=reading.have / need**2 * need_se,
    )


def _scale(test: QualityTest, athlete: Athlete) -> float:
    """Newtons in a body weight; 1 for tests whose need is not in body weights."""
    return athlete.body_mass * STANDARD_GRAVITY_m_s2 if test.need_in == "body-weights" else 1.0


def _need(test: QualityTest, athlete: Athlete, target_x: float) -> float:
    return _scale(test, athlete) * test.curves[legs_of(athlete.take_off)].need(target_x)


def _deciding(judgements: list[Judgement], take_off: TakeOff) -> Judgement | None:
    """The take-off leg's reading, or the worse one off two legs. The other leg never replaces the take-off leg."""
    if not judgements:
        return None
    if judgements[0].reading.test.sides == "both":
        return judgements[0]
    leg = leg_of(take_off)
    if leg is None:
        return max(judgements, key=lambda one: one.deficit)
    return next((one for one in judgements if one.side == leg), None)


def _combine(counted: list[Judgement], scatter: float) -> tuple[float, float, float]:
    """Deficit, its error and confidence from one or more tests, weighted by confidence; test errors are independent."""
    weight = sum(one.confidence for one in counted)
    if not weight:
        return 0.0, 0.0, 0.0
    deficit = sum(one.confidence * one.deficit for one in counted) / weight
    variance = sum((one.confidence * one.relative_se) ** 2 for one in counted) / weight**2
    tests = math.sqrt(sum((one.confidence * one.test_part_se) ** 2 for one in counted)) / weight
    needs = sum(one.confidence * one.need_part_se for one in counted) / weight
    return deficit, math.hypot(tests, needs), confidence(relative_se=variance**0.5, scatter=scatter)


def _fits(test: QualityTest, athlete: Athlete) -> bool:
    """Whether to suggest the test to the athlete: for example, no drop jumps before landings hold."""
    fits_level = LEVELS.index(athlete.level) >= LEVELS.index(test.suggest_to.least_level)
    return fits_level and (athlete.landing == "holds" or not test.suggest_to.landing_must_hold)
