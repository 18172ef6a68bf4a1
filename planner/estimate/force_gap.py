"""The force gap: the take-off now, at the target, and their difference, each figure with its standard error.

The inputs are few and shared. Analytic partial derivatives by each input are kept by name; the gap subtracts them
before squaring, so that a heel rise or contact time that is wrong for both heights counts once, as one error.
"""

from __future__ import annotations

from dataclasses import dataclass, fields
from typing import Literal

from planner.estimate.take_off import TakeOffFigures, take_off_in_contact, take_off_over_push_off
from planner.estimate.uncertainty import Estimate, Sensitive
from planner.units import STANDARD_GRAVITY_m_s2 as g

QUANTITIES: tuple[str, ...] = tuple(field.name for field in fields(TakeOffFigures))


@dataclass(frozen=True)
class TakeOffInputs:
    """What the two take-offs share, and what belongs to each.

    ``rise_now.se`` and ``rise_target.se`` are each height's own errors (a mark to touch has none);
    ``heel_rise_se`` shifts every rise that came from a touch, both ways at once: ``now_from_touch``,
    ``target_from_touch`` say which. ``touch_down_se_m_s``: error of a vertical speed at touch-down that is the same now
    and at the target; it needs a contact time. Exactly one of ``contact_time_s`` and ``push_off_m`` is given.
    """

    body_mass_kg: Estimate
    rise_now_m: Estimate
    rise_target_m: Estimate
    heel_rise_se_m: float = 0.0
    now_from_touch: bool = True
    target_from_touch: bool = True
    contact_time_s: Estimate | None = None
    push_off_m: Estimate | None = None
    touch_down_speed_m_s: float = 0.0
    touch_down_se_m_s: float = 0.0

    def __post_init__(self) -> None:
        if (self.contact_time_s is None) == (self.push_off_m is None):
            raise ValueError("give either a contact time or a push-off distance")


@dataclass(frozen=True)
class TakeOffEstimate:
    """One take-off (or the difference of two) with errors; fields as in TakeOffFigures."""

    rise_m: Estimate
    take_off_speed_m_s: Estimate
    net_impulse_Ns: Estimate
    mean_net_force_N: Estimate
    mean_ground_force_N: Estimate
    mean_ground_force_bw: Estimate


@dataclass(frozen=True)
class ForceGap:
    now: TakeOffEstimate
    target: TakeOffEstimate
    gap: TakeOffEstimate


def force_gap(inputs: TakeOffInputs) -> ForceGap:
    """Take-off now, at the target, and the gap between them, with standard errors (shared inputs count once)."""
    now = _sensitive(inputs, inputs.rise_now_m.value, own="rise_now_m", from_touch=inputs.now_from_touch)
    target = _sensitive(inputs, inputs.rise_target_m.value, own="rise_target_m", from_touch=inputs.target_from_touch)
    gap = {name: target[name] - now[name] for name in QUANTITIES}
    errors = _input_errors(inputs)
    return ForceGap(*(_estimate(figures, errors) for figures in (now, target, gap)))


def take_off_at(inputs: TakeOffInputs, rise_m: float) -> TakeOffFigures:
    """The take-off for this rise with the inputs' body mass and contact time or push-off distance."""
    if inputs.contact_time_s is not None:
        return take_off_in_contact(
            rise_m=rise_m,
            body_mass_kg=inputs.body_mass_kg.value,
            contact_time_s=inputs.contact_time_s.value,
            touch_down_speed_m_s=inputs.touch_down_speed_m_s,
        )
    assert inputs.push_off_m is not None
    return take_off_over_push_off(
        rise_m=rise_m, body_mass_kg=inputs.body_mass_kg.value, push_off_m=inputs.push_off_m.value
    ).take_off


def _input_errors(inputs: TakeOffInputs) -> dict[str, float]:
    errors = {
        "rise_now_m": inputs.rise_now_m.se,
        "rise_target_m": inputs.rise_target_m.se,
        "heel_rise_m": inputs.heel_rise_se_m,
        "body_mass_kg": inputs.body_mass_kg.se,
    }
    if inputs.contact_time_s is not None:
        errors["contact_time_s"] = inputs.contact_time_s.se
        errors["touch_down_speed_m_s"] = inputs.touch_down_se_m_s
    if inputs.push_off_m is not None:
        errors["push_off_m"] = inputs.push_off_m.se
    return errors


def _sensitive(
    inputs: TakeOffInputs, rise_m: float, *, own: Literal["rise_now_m", "rise_target_m"], from_touch: bool
) -> dict[str, Sensitive]:
    """Each quantity with its partial derivatives by the height's own error, heel rise, mass, contact or push-off."""
    take_off = take_off_at(inputs, rise_m)
    by_rise, by_mass, by_shared = _slopes(inputs, take_off)
    by_fall = _slopes_of_fall(inputs)
    shared = "contact_time_s" if inputs.contact_time_s is not None else "push_off_m"
    result = {}
    for name in QUANTITIES:
        by_input = {own: by_rise[name], "body_mass_kg": by_mass[name], shared: by_shared[name]}
        by_input["touch_down_speed_m_s"] = by_fall[name]
        if from_touch:  # a higher heel rise leaves less of the touch to the jump
            by_input["heel_rise_m"] = -by_rise[name]
        result[name] = Sensitive(getattr(take_off, name), by_input)
    return result


def _slopes(inputs: TakeOffInputs, t: TakeOffFigures) -> tuple[dict[str, float], dict[str, float], dict[str, float]]:
    """Partial derivatives of the six quantities by rise, by body mass, and by contact time or push-off distance."""
    m = inputs.body_mass_kg.value
    speed_by_rise = g / t.take_off_speed_m_s  # d sqrt(2 g h) / dh
    impulse_by_mass = t.net_impulse_Ns / m
    if inputs.contact_time_s is not None:
        time = inputs.contact_time_s.value
        net_by_rise = m * speed_by_rise / time
        net_by_mass = impulse_by_mass / time
        net_by_shared = -t.mean_net_force_N / time
    else:
        assert inputs.push_off_m is not None
        distance = inputs.push_off_m.value
        net_by_rise = m * g / distance
        net_by_mass = t.mean_net_force_N / m
        net_by_shared = -t.mean_net_force_N / distance
    by_rise = _row(1.0, speed_by_rise, m * speed_by_rise, net_by_rise, net_by_rise, net_by_rise / (m * g))
    by_mass = _row(0.0, 0.0, impulse_by_mass, net_by_mass, net_by_mass + g, 0.0)
    by_shared = _row(0.0, 0.0, 0.0, net_by_shared, net_by_shared, net_by_shared / (m * g))
    return by_rise, by_mass, by_shared


def _slopes_of_fall(inputs: TakeOffInputs) -> dict[str, float]:
    """By the vertical speed at touch-down: an impulse of m v more for each v downwards. None from a stand."""
    if inputs.contact_time_s is None:
        return _row(*[0.0] * len(QUANTITIES))
    m, time = inputs.body_mass_kg.value, inputs.contact_time_s.value
    return _row(0.0, 0.0, -m, -m / time, -m / time, -1.0 / (g * time))


def _row(*slopes: float) -> dict[str, float]:
    return dict(zip(QUANTITIES, slopes, strict=True))


def _estimate(figures: dict[str, Sensitive], errors: dict[str, float]) -> TakeOffEstimate:
    return TakeOffEstimate(**{name: figures[name].with_errors(errors) for name in QUANTITIES})
