"""How fast the body falls as the foot lands off a run-up, measured or a range, and what that does to the force."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from planner.domain.athlete import Athlete
from planner.domain.gap_record import TouchDownLine
from planner.domain.take_off_basis import TouchDown
from planner.estimate.contact import measured_fall
from planner.estimate.force_gap import TakeOffInputs, take_off_at


@dataclass(frozen=True)
class Fall:
    """Downward speeds (m/s); slowest and fastest are one where it was measured, with ``measured_se_m_s``."""

    slowest_m_s: float
    fastest_m_s: float
    measured_se_m_s: float | None = None


def fall_of(athlete: Athlete, rule: TouchDown | None) -> Fall | None:
    """None where nothing was measured and the benchmarks have no range: 0 then stays a bare convention."""
    measured = measured_fall(athlete, rule.measured_standard_error_m_s if rule else 0.0)
    if measured is not None:
        return Fall(measured.value, measured.value, measured.se)
    return Fall(rule.slowest_m_s, rule.fastest_m_s) if rule else None


def with_fall(inputs: TakeOffInputs, fall: Fall | None) -> TakeOffInputs:
    """The inputs with the measured speed; else with 0, the curves' convention, which errs by all of the range.

    The error is the root mean square of a speed that lies anywhere in the range, taken from 0.
    """
    if fall is None:
        return inputs
    if fall.measured_se_m_s is not None:
        return replace(inputs, touch_down_speed_m_s=-fall.slowest_m_s, touch_down_se_m_s=fall.measured_se_m_s)
    middle, width = (fall.slowest_m_s + fall.fastest_m_s) / 2.0, fall.fastest_m_s - fall.slowest_m_s
    return replace(inputs, touch_down_se_m_s=math.sqrt(middle**2 + width**2 / 12.0))


def touch_down_line(inputs: TakeOffInputs, fall: Fall | None) -> TouchDownLine | None:
    """Mean ground forces over the range, and what a speed that is not the same does to the gap."""
    if fall is None or inputs.contact_time_s is None:
        return None

    def force_N(rise_m: float, fall_m_s: float) -> float:
        return take_off_at(replace(inputs, touch_down_speed_m_s=-fall_m_s), rise_m).mean_ground_force_N

    now_m, target_m = inputs.rise_now_m.value, inputs.rise_target_m.value
    return TouchDownLine(
        measured=fall.measured_se_m_s is not None,
        slowest_m_s=fall.slowest_m_s,
        fastest_m_s=fall.fastest_m_s,
        now_at_least_N=force_N(now_m, 0.0),
        now_low_N=force_N(now_m, fall.slowest_m_s),
        now_high_N=force_N(now_m, fall.fastest_m_s),
        target_at_least_N=force_N(target_m, 0.0),
        target_low_N=force_N(target_m, fall.slowest_m_s),
        target_high_N=force_N(target_m, fall.fastest_m_s),
        gap_per_tenth_N=0.1 * inputs.body_mass_kg.value / inputs.contact_time_s.value,
    )


def touch_down_words(line: TouchDownLine) -> str:
    """A sentence for the page: the range, and when the gap holds."""
    each = f"each 0.1 m/s more or less moves it by {line.gap_per_tenth_N:.0f} N"
    same = f"The gap holds while that speed stays the same; {each}."
    if line.measured:
        return f"The body falls at {line.slowest_m_s:g} m/s at touch-down, as measured: it is in both forces. {same}"
    speeds = f"{line.slowest_m_s:g}–{line.fastest_m_s:g} m/s"
    return (
        f"Mean ground force now: at least {line.now_at_least_N:,.0f} N; {_range(line.now_low_N, line.now_high_N)} if "
        f"the body still falls at {speeds} at touch-down (not measured; target: {line.target_at_least_N:,.0f} N; "
        f"{_range(line.target_low_N, line.target_high_N)}). {same}"
    )


def _range(low_N: float, high_N: float) -> str:
    """To the ten newtons: the speeds are no better known."""
    return f"{round(low_N, -1):,.0f}–{round(high_N, -1):,.0f} N"
