"""The errors of deficits and of the emphasis against a seeded Monte Carlo through the whole chain.

Each draw makes a jumper whose present touch, heel rise, contact and drop jump or squat are off by their stated
errors, and runs the estimate's own arithmetic on it; the errors that now and target share are drawn once.
"""

import numpy
import pytest

from planner.domain.benchmarks import Benchmarks
from planner.estimate.emphasis import tilt, tilt_se
from planner.estimate.estimate_gap import estimate_gap
from planner.estimate.qualities import slope_on_curve
from planner.units import STANDARD_GRAVITY_m_s2 as g
from tests.estimate.people import jumper, jumper_with

draws = 40_000
curvature_and_chance = 0.04
clamp_and_corner = 0.25  # a tilt bends at its dead zone and its clamps, where its error is only a summary


def drawn_target_x(result, random):
    """The target's force in body weights, drawn through heel rise and contact time."""
    inputs = result.inputs
    rise = inputs.rise_target_m.value - random.normal(0, inputs.heel_rise_se_m, draws)
    contact = random.normal(inputs.contact_time_s.value, inputs.contact_time_s.se, draws)
    return 1 + numpy.sqrt(2 * g * rise) / contact / g


@pytest.mark.parametrize("quality", ["maximal-strength", "speed-exposure"])
def test_deficit_error(benchmarks: Benchmarks, quality):
    result = estimate_gap(jumper(), benchmarks)
    verdict = result.qualities[quality]
    (one,) = verdict.counted
    random = numpy.random.default_rng(11)
    curve = one.reading.test.curves["one-leg"]
    x = drawn_target_x(result, random)
    weight = result.gap.body_mass_kg * g
    need = weight * numpy.array([curve.need(value) for value in x])
    have = one.reading.have * (1 + random.normal(0, one.reading.test.standard_error, draws))
    spread = numpy.std((need - have) / need)
    assert one.deficit_se == pytest.approx(spread, rel=curvature_and_chance)
    assert verdict.deficit_se == pytest.approx(one.deficit_se)


def test_emphasis_error(benchmarks):
    weak = {"kind": "lift", "movement": "back-squat", "load": "90 kg", "reps": 5, "reps_in_reserve": 2}
    result = estimate_gap(jumper_with(weak), benchmarks)
    verdict, rule = result.qualities["maximal-strength"], benchmarks.emphasis
    random = numpy.random.default_rng(12)
    deficits = random.normal(verdict.deficit, verdict.deficit_se, draws)
    drawn = [
        tilt(
            "maximal-strength",
            deficit=one,
            confidence=verdict.confidence,
            rule=rule,
            deficit_se=verdict.deficit_se,
        )
        for one in deficits.tolist()
    ]
    stated = tilt_se(
        "maximal-strength",
        deficit=verdict.deficit,
        deficit_se=verdict.deficit_se,
        confidence=verdict.confidence,
        rule=rule,
    )
    assert stated == pytest.approx(numpy.std(drawn), rel=clamp_and_corner)
    line = next(line for line in result.gap.qualities if line.quality == "maximal-strength")
    assert line.emphasis_se == pytest.approx(stated)


def test_slope_is_the_need_s_derivative_and_none_at_the_cap(benchmarks):
    curve = benchmarks.qualities["maximal-strength"].tests[0].curves["one-leg"]
    step = 1e-6
    for x in (2.2, 2.8, 3.3):
        by_hand = (curve.need(x + step) - curve.need(x - step)) / (2 * step)
        assert slope_on_curve(curve, x) == pytest.approx(by_hand, rel=1e-6)
    assert slope_on_curve(curve, 4.0) == 0.0


def test_untested_quality_has_no_error(benchmarks):
    result = estimate_gap(jumper(), benchmarks)
    untested = [line for line in result.gap.qualities if line.status == "untested"]
    assert untested
    assert all(line.deficit_se is None for line in untested)
