"""Our exact constants against the same ones in general-purpose libraries."""

import pint
import pytest
import scipy.constants

from planner import units

float_rounding = 1e-12


@pytest.mark.parametrize(
    ("ours", "theirs"),
    [
        (units.STANDARD_GRAVITY_m_s2, scipy.constants.g),
        (units.POUND_kg, scipy.constants.pound),
        (units.INCH_m, scipy.constants.inch),
        (units.FOOT_m, scipy.constants.foot),
        (units.POUND_FORCE_N, scipy.constants.pound_force),
    ],
    ids=["standard gravity", "pound", "inch", "foot", "pound-force"],
)
def test_constants_against_scipy_constants(ours, theirs):
    assert ours == pytest.approx(theirs, rel=float_rounding)


@pytest.mark.parametrize(
    ("ours", "unit", "base"),
    [
        (units.STANDARD_GRAVITY_m_s2, "standard_gravity", "m/s^2"),
        (units.POUND_kg, "pound", "kg"),
        (units.INCH_m, "inch", "m"),
        (units.FOOT_m, "foot", "m"),
        (units.POUND_FORCE_N, "force_pound", "N"),
    ],
)
def test_constants_against_pint(ours, unit, base):
    assert ours == pytest.approx(pint.UnitRegistry().Quantity(1, unit).to(base).magnitude, rel=float_rounding)


def test_pound_force_against_nist_sp_811():
    assert pytest.approx(4.4482216152605, rel=float_rounding) == units.POUND_FORCE_N  # appendix B
