"""Units against the published constants and an independent units package; quantities as coaches write them."""

from __future__ import annotations

import math
from decimal import Decimal

import pint
import pytest
import scipy.constants
from hypothesis import given, settings
from hypothesis import strategies as st

from planner.units import (
    BASE_UNIT,
    POUND_FORCE_N,
    UNITS,
    Dimension,
    FOOT_m,
    INCH_m,
    POUND_kg,
    QuantityError,
    STANDARD_GRAVITY_m_s2,
    as_read_by,
    format_length,
    format_mass,
    parse_quantity,
)

FIXED = settings(max_examples=200, deadline=None, derandomize=True)
ONE_ROUNDING = 2.0**-52  # relative: the last bit of a floating-point number
PINT_NAMES = {"in": "inch", "min": "minute", "lb": "pound", "lbf": "force_pound", "/s": "1/second", "Hz": "1/second"}
EVERY_UNIT = [(dimension, unit) for dimension, units in UNITS.items() for unit in units]


def test_constants_against_scipy() -> None:
    assert scipy.constants.g == STANDARD_GRAVITY_m_s2
    assert pytest.approx(scipy.constants.pound, rel=ONE_ROUNDING) == POUND_kg
    assert scipy.constants.inch == INCH_m
    assert pytest.approx(scipy.constants.foot, rel=ONE_ROUNDING) == FOOT_m
    assert pytest.approx(scipy.constants.pound_force, rel=ONE_ROUNDING) == POUND_FORCE_N


@pytest.mark.parametrize(("dimension", "unit"), EVERY_UNIT)
def test_every_unit_against_pint(dimension: Dimension, unit: str) -> None:
    registry = pint.UnitRegistry()
    base = PINT_NAMES.get(BASE_UNIT[dimension], BASE_UNIT[dimension])
    expected = registry.Quantity(7.25, PINT_NAMES.get(unit, unit)).to(base).magnitude
    assert parse_quantity(f"7.25 {unit}", dimension) == pytest.approx(expected, rel=4 * ONE_ROUNDING)


@pytest.mark.parametrize(
    ("text", "dimension", "value"),
    [
        ("71.4 kg", "mass", 71.4),
        ("157 lb", "mass", 71.21400209),
        ("40 in", "length", 1.016),
        ("3.02 m", "length", 3.02),
        ("302cm", "length", 3.02),
        ("7 cm", "length", 0.07),
        ("0.21 s", "time", 0.21),
        ("210 ms", "time", 0.21),
        ("5 ft 11 in", "length", 1.8034),
        ("5ft11in", "length", 1.8034),
        ("-5 ft 11 in", "length", -1.8034),
        ("  71.4\u00a0kg ", "mass", 71.4),
        ("1.4 kN", "force", 1400.0),
        ("8.1 m/s", "speed", 8.1),
        ("240 /s", "rate", 240.0),
        # As people write them.
        ("6'2\"", "length", 1.8796),
        ("6\u20322\u2033", "length", 1.8796),
        ("6 ft 2", "length", 1.8796),
        ("8 ft 1 1/2", "length", 2.4765),
        ("6'2", "length", 1.8796),
        ("6 feet 2 inches", "length", 1.8796),
        ("97 1/2 in", "length", 2.4765),
        ("97-1/2 in", "length", 2.4765),
        ("97\u00bd in", "length", 2.4765),
        ('97.5"', "length", 2.4765),
        ("1/2 in", "length", 0.0127),
        ("30 yards", "length", 27.432),
        ("3,02 m", "length", 3.02),
        ("0,203 s", "time", 0.203),
        ("71,4 kg", "mass", 71.4),
        ("157 lbs", "mass", 71.21400209),
        ("71.4 KG", "mass", 71.4),
        ("2.5 pounds", "mass", 1.133980925),
    ],
)
def test_read_exactly(text: str, dimension: Dimension, value: float) -> None:
    assert parse_quantity(text, dimension) == value


@pytest.mark.parametrize(
    ("text", "dimension", "words"),
    [
        ("71.4", "mass", "71.4 has no unit; write for example 71.4 kg (kg, g, lb)"),
        (71.4, "mass", "71.4 has no unit"),
        (True, "mass", "is not a mass; write a number with its unit, such as 71.4 kg"),
        (None, "time", "is not a time"),
        (["71.4 kg"], "mass", "is not a mass"),
        ("", "mass", "is empty"),
        ("kg", "mass", "'kg' is not a mass"),
        ("71,4", "mass", "71.4 has no unit; write for example 71.4 kg"),
        ("1,400 N", "force", "'1,400 N' may be 1400 or 1.400; write 1400 N or 1.400 N"),
        ("6 2", "length", "'6 2' is not a length; write a number with its unit, such as 3.02 m, 302 cm, 9 ft 11 in"),
        ("6'14\"", "length", "has 14 in behind the ft; check it"),
        ("21/2 in", "length", "is not a length"),
        ("97.5 1/2 in", "length", "is not a length"),
        ("1/0 in", "length", "is not a length"),
        ("71.4 stone", "mass", "'stone' is not a unit of mass; use one of kg, g, lb"),
        ("0.2 s", "mass", "'s' is a unit of time, not of mass"),
        ("11 in 5 ft", "length", "wrong order"),
        ("5 ft 5 ft", "length", "wrong order"),
        ("5 ft -3 in", "length", "a sign inside"),
        ("nan kg", "mass", "is not a mass"),
        ("inf kg", "mass", "is not a mass"),
        ("1e3 kg", "mass", "'e' is not a unit of mass"),
        ("9" * 400 + " kg", "mass", "not a finite number"),
        ("71.4 kg of bone", "mass", "is not a mass"),
        ("٧١ kg", "mass", "is not a mass"),
    ],
)
def test_refused_and_told_what_to_write(text: object, dimension: Dimension, words: str) -> None:
    with pytest.raises(QuantityError) as refused:
        parse_quantity(text, dimension)
    assert words in str(refused.value)
    assert len(str(refused.value)) < 200


@FIXED
@given(st.decimals(-10_000, 10_000, places=4), st.sampled_from(EVERY_UNIT))
def test_a_number_and_a_unit_give_their_product_to_the_last_bit(number: Decimal, named: tuple[Dimension, str]) -> None:
    dimension, unit = named
    product = Decimal(repr(UNITS[dimension][unit])) * number
    assert parse_quantity(f"{number:f} {unit}", dimension) == float(product)


@FIXED
@given(st.text(max_size=20), st.sampled_from(list(UNITS)))
def test_any_text_is_a_finite_number_or_refused(text: str, dimension: Dimension) -> None:
    try:
        assert math.isfinite(parse_quantity(text, dimension))
    except QuantityError as refused:
        assert str(refused)


@FIXED
@given(st.floats(0, 500), st.sampled_from(["kg", "lb"]), st.integers(0, 3))
def test_a_printed_mass_reads_back_within_half_a_digit(mass_kg: float, unit: str, digits: int) -> None:
    half_a_digit = 0.5 * 10.0**-digits * UNITS["mass"][unit]
    printed = format_mass(mass_kg, unit, digits)  # type: ignore[arg-type]
    assert abs(parse_quantity(printed, "mass") - mass_kg) <= half_a_digit * (1 + 1e-9)


@FIXED
@given(st.floats(-10, 10), st.sampled_from(["m", "cm", "in"]), st.integers(0, 3))
def test_a_printed_length_reads_back_within_half_a_digit(length_m: float, unit: str, digits: int) -> None:
    half_a_digit = 0.5 * 10.0**-digits * UNITS["length"][unit]
    printed = format_length(length_m, unit, digits)  # type: ignore[arg-type]
    assert abs(parse_quantity(printed, "length") - length_m) <= half_a_digit * (1 + 1e-9)


def test_printed_without_trailing_zeros() -> None:
    assert format_mass(70.0) == "70 kg"
    assert format_mass(71.44) == "71.4 kg"
    assert format_mass(POUND_kg * 157, "lb") == "157 lb"
    assert format_length(3.0) == "3 m"
    assert format_length(1.016, "in") == "40 in"
    assert format_length(-0.001, "m") == "0 m"
    assert format_length(100.0, "m", 0) == "100 m"


@pytest.mark.parametrize(
    ("written", "read"),
    [
        ("Drop jump, 30 cm", "Drop jump, 12 in"),
        ("Sprint, float, sprint, 3 × 10 m", "Sprint, float, sprint, 3 × 11 yd"),
        ("from 20-30 cm, over 100 kg", "from 8-12 in, over 220 lb"),
        ("10 to 15 m, at 8 m/s", "11 to 16.5 yd, at 8 m/s"),
        ("5 cm (2 in) short", "2 in short"),
        ("3 sets, 5 min", "3 sets, 5 min"),
    ],
)
def test_figures_in_a_sentence_are_told_in_the_readers_units(written, read):
    assert as_read_by(written, "in", "lb") == read
    assert as_read_by(written, "cm", "kg") == written.replace(" (2 in)", "")


def test_a_reading_is_told_to_a_tenth():
    assert as_read_by("it rose 30 cm", "in", "lb", measured=True) == "it rose 11.8 in"
